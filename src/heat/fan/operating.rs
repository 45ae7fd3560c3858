//! Where the fan's curve meets the core's resistance.

use super::super::HeatError;
use super::super::airflow::FAN_VELOCITY;
use super::super::radiator::FRONTAL_AREA;
use super::curve::FanCurve;
use crate::numeric::bracketed_root;
use crate::quantity::si::{Area, MassDensity, Pressure, Ratio, Velocity, VolumeRate};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Pressures a core may ask at its reference velocity.
pub const CORE_PRESSURE: Range = Range::new(
    "pressure the core takes at its reference velocity",
    Kind::SmallPressureDifference,
    1.0,
    5000.0,
    "100 to 300 Pa at 5 m/s is usual",
);
/// Exponents of that pressure.
pub const CORE_EXPONENT: Range =
    Range::new("exponent of the core's pressure", Kind::Number, 1.0, 2.0, "1 is laminar, 2 turbulent, 1.6 usual");
/// Shares of the face a fan draws through.
pub const DRAWN_SHARE: Range =
    Range::new("share of the face the fan draws through", Kind::Share, 0.001, 1.0, "100 % with a full shroud");
/// Speeds over that of the table.
pub const SPEED_RATIO: Range =
    Range::new("fan speed over that of its table", Kind::Number, 1e-3, 100.0, "check drive ratio and speeds");
/// Densities of the air a fan moves.
pub const DENSITY: Range =
    Range::new("density of the air at the fan", Kind::Density, 0.3, 2.0, "1.2 kg/m³ at sea level and 20 °C");
/// Air in which fan tables are made, kg/m³.
const TABLE_DENSITY: f64 = 1.2;

/// What the core, with grille and whatever else stands in the air's way, takes of pressure:
/// Δp = Δp₀·(v/v₀)^m·(ρ/ρ₀)^(m − 1), as a friction factor that goes with the Reynolds number to the power m − 2 has it;
/// the viscosity's own change is left out. ρ₀ is 1.2 kg/m³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoreResistance {
    /// Pressure at the reference velocity.
    pub pressure: Pressure,
    /// The reference velocity at the face.
    pub at: Velocity,
    /// The exponent m.
    pub exponent: Ratio,
}

/// A fan on a core.
#[derive(Clone, Debug)]
pub struct FanFitting {
    /// The fan, or all of them.
    pub curve: FanCurve,
    /// Face of the core.
    pub face: Area,
    /// Share of it that the fan draws through: 1 with a shroud over the whole core.
    pub drawn: Ratio,
    /// What stands against it.
    pub resistance: CoreResistance,
}

/// Where fan and core agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FanAt {
    /// Air moved by all fans together.
    pub flow: VolumeRate,
    /// Pressure of the fan and of the core.
    pub pressure: Pressure,
    /// Velocity at the face, counted over all of it.
    pub face_velocity: Velocity,
}

impl FanFitting {
    /// The operating point with the fan at `speed` times the speed of its table, in air of the given density.
    ///
    /// The fan's laws: flow goes with speed, pressure with speed squared and with density. One root, since the fan's
    /// pressure falls with flow and the core's rises. A fan without a shroud draws through a part of the face only; its
    /// air is then counted as spread over all of it, which flatters the radiator a little. The air is taken as dense as
    /// ahead of the core: behind it, it is thinner, and a fan that sucks moves up to a tenth less mass.
    ///
    /// # Errors
    /// A figure out of range; a table that ends before it meets the core.
    pub fn operate(&self, speed: Ratio, density: MassDensity, scribe: &mut impl Scribe) -> Result<FanAt, HeatError> {
        let turn = SPEED_RATIO.check(speed)?.base();
        let dense = DENSITY.check(density)?.base() / TABLE_DENSITY;
        let face = FRONTAL_AREA.check(self.face)?.base();
        let drawn = DRAWN_SHARE.check(self.drawn)?.base();
        let reference = CORE_PRESSURE.check(self.resistance.pressure)?.base();
        let exponent = CORE_EXPONENT.check(self.resistance.exponent)?.base();
        let at = super::super::radiator::REFERENCE_VELOCITY.check(self.resistance.at)?.base();
        let all = f64::from(self.curve.count()) * turn;
        let core = |flow: f64| {
            let velocity = all * flow / (face * drawn);
            reference * (velocity / at).powf(exponent) * dense.powf(exponent - 1.0)
        };
        // In the flow of one fan at its table's speed.
        let excess = |flow: f64| {
            let fan = self.curve.pressure(flow).unwrap_or(f64::NAN);
            turn * turn * dense * fan - core(flow)
        };
        let (low, high) = self.curve.ends();
        if excess(low) < 0.0 {
            return Err(HeatError::FanTable {
                why: "the core holds it back to less flow than the table begins with; add its pressure at no flow",
            });
        }
        if excess(high) > 0.0 {
            return Err(HeatError::FanTable {
                why: "the core lets more flow through than the table ends with; add the flow in free air, at 0 Pa",
            });
        }
        let root = bracketed_root(excess, low, high, 1e-12)?.at;
        let flow = VolumeRate::from_base(all * root);
        let pressure = Pressure::from_base(core(root));
        let velocity = FAN_VELOCITY.check(Velocity::from_base(all * root / face))?;
        scribe.step(|| {
            Step::new(
                "Air flow at which fan and core agree",
                "V̇",
                "(n/n₀)²·(ρ/ρ₀)·p_fan(V̇·n₀/(z·n)) = Δp₀·(V̇/(A·φ·v₀))^m·(ρ/ρ₀)^(m − 1)",
                &source::FAN_LAWS,
            )
            .with_number("z", f64::from(self.curve.count()))
            .with_number("n/n₀", turn)
            .with("ρ", density)
            .with_amount("Δp₀", Amount::of_kind(self.resistance.pressure, Kind::SmallPressureDifference))
            .with_amount("v₀", Amount::of_kind(self.resistance.at, Kind::GasSpeed))
            .with_number("m", exponent)
            .with_amount("A", Amount::of_kind(self.face, Kind::Area))
            .with_amount("φ", Amount::of_kind(self.drawn, Kind::Share))
            .gives_amount(Amount::of_kind(flow, Kind::FanFlow))
        });
        scribe.step(|| {
            Step::new("Face velocity from the fan alone", "v_fan", "v_fan = V̇/A", &source::FAN_LAWS)
                .with_amount("V̇", Amount::of_kind(flow, Kind::FanFlow))
                .with_amount("p", Amount::of_kind(pressure, Kind::SmallPressureDifference))
                .gives_amount(Amount::of_kind(velocity, Kind::GasSpeed))
        });
        Ok(FanAt { flow, pressure, face_velocity: velocity })
    }
}
