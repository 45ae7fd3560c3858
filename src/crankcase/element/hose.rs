//! A hose, or a fitting that is nothing but a loss: wall friction at any Reynolds number and minor losses.

use super::defaults::{bend_loss, elbow_loss, entrance_loss, exit_loss, half_bend_loss, hose_roughness};
use super::friction::churchill;
use super::response::{LAMINAR_BELOW, LINEAR_BELOW, either_way, straight_near_zero};
use super::{Ends, FlowError, Memory, Response, Warmth};
use crate::quantity::si::{Length, MassDensity, MassRate, Pressure, Ratio};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::ventilation::{CHURCHILL, DARCY, FITTINGS};
use crate::source::fluid::AIR_VISCOSITY;

const BORE: Range =
    Range::new("hose bore", Kind::SmallLength, 1.0e-3, 0.1, "give the inside diameter of the hose, not of the barb");
const LENGTH: Range = Range::new("hose length", Kind::Distance, 0.0, 20.0, "give the length along the hose");
pub(super) const ROUGHNESS: Range =
    Range::new("hose roughness", Kind::SmallLength, 0.0, 5.0e-4, "about 10 µm in rubber, 1 to 50 µm");
pub(super) const LOSS: Range =
    Range::new("loss coefficient of a fitting", Kind::Number, 0.0, 100.0, "handbook values are 0.2 to 2");

/// The fittings of a hose, as loss coefficients on the velocity in the hose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fittings {
    /// Loss at the entrance, 0.5 for a flush edge.
    pub entrance: Ratio,
    /// Loss at the exit, 1 into open space.
    pub exit: Ratio,
    /// Number of bends.
    pub bends: u32,
    /// Loss of one bend.
    pub bend: Ratio,
    /// Number of bends of 45°.
    pub half_bends: u32,
    /// Loss of one bend of 45°.
    pub half_bend: Ratio,
    /// Number of sharp elbows of 90°.
    pub elbows: u32,
    /// Loss of one sharp elbow.
    pub elbow: Ratio,
    /// Whatever else stands in the hose.
    pub other: Ratio,
}

impl Fittings {
    /// The usual entrance and exit with a number of bends.
    #[must_use]
    pub fn with_bends(bends: u32) -> Self {
        Self::of_run(bends, 0, 0)
    }

    /// The usual entrance and exit with bends of 90°, bends of 45° and sharp elbows.
    #[must_use]
    pub fn of_run(bends: u32, half_bends: u32, elbows: u32) -> Self {
        Self {
            entrance: entrance_loss().likely(),
            exit: exit_loss().likely(),
            bends,
            bend: bend_loss().likely(),
            half_bends,
            half_bend: half_bend_loss().likely(),
            elbows,
            elbow: elbow_loss().likely(),
            other: Ratio::from_base(0.0),
        }
    }

    /// One number for all of them.
    #[must_use]
    pub fn of_sum(sum: Ratio) -> Self {
        let none = Ratio::from_base(0.0);
        Self {
            entrance: none,
            exit: none,
            bends: 0,
            bend: none,
            half_bends: 0,
            half_bend: none,
            elbows: 0,
            elbow: none,
            other: sum,
        }
    }

    /// The sum of the loss coefficients.
    #[must_use]
    pub fn sum(&self) -> Ratio {
        self.entrance
            + self.exit
            + self.bend * f64::from(self.bends)
            + self.half_bend * f64::from(self.half_bends)
            + self.elbow * f64::from(self.elbows)
            + self.other
    }
}

/// A hose: `Δp = (f L/D + ΣK) ρ v²/2`, Churchill's `f`, density at the mean of the two end pressures.
///
/// With that density the flow depends on `p₁² − p₂²` alone, so it rises with the first pressure and falls with the
/// second at any pressures. Not valid near the speed of sound: the network remarks when a hose takes more than a tenth
/// of the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hose {
    /// Inside diameter, 1 to 100 mm.
    pub bore: Length,
    /// Length, 0 to 20 m. Zero is a fitting.
    pub length: Length,
    /// Entrance, exit, bends.
    pub fittings: Fittings,
    /// Roughness of the wall, 0 to 0.5 mm.
    pub roughness: Length,
}

impl Hose {
    /// A hose with the usual fittings and roughness.
    #[must_use]
    pub fn with_bends(bore: Length, length: Length, bends: u32) -> Self {
        Self { bore, length, fittings: Fittings::with_bends(bends), roughness: hose_roughness().likely() }
    }

    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// When one does not, or nothing resists the flow.
    pub fn check(&self) -> Result<(), FlowError> {
        BORE.check(self.bore)?;
        LENGTH.check(self.length)?;
        ROUGHNESS.check(self.roughness)?;
        let fittings = &self.fittings;
        let losses =
            [fittings.entrance, fittings.exit, fittings.bend, fittings.half_bend, fittings.elbow, fittings.other];
        for loss in losses.into_iter().chain([fittings.sum()]) {
            LOSS.check(loss)?;
        }
        // A twentieth of the bore is as rough as the friction factor reaches.
        let rough = Range { high: self.bore.base() / 20.0, ..ROUGHNESS };
        rough.check(self.roughness)?;
        if self.length.base() == 0.0 && fittings.sum().base() == 0.0 {
            return Err(FlowError::NoResistance { what: "the hose" });
        }
        Ok(())
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, memory: &mut Memory, scribe: &mut impl Scribe) -> Response {
        let bore = self.bore.base();
        let duct = Duct {
            slenderness: self.length.base() / bore,
            roughness: self.roughness.base() / bore,
            losses: self.fittings.sum().base(),
        };
        let area = std::f64::consts::FRAC_PI_4 * bore * bore;
        let zone = if duct.slenderness > 0.0 { LAMINAR_BELOW } else { LINEAR_BELOW };
        either_way(ends, |high, low, warmth| {
            let result = straight_near_zero(high, low, zone, |high, low| {
                // (f L/D + ΣK) Re² = 2 ρ Δp D²/μ², and ρ Δp = (p₁² − p₂²)/(2 R T).
                let scale = bore * bore / (warmth.viscosity * warmth.viscosity * warmth.rt);
                duct.find(memory, (high - low) * (high + low) * scale);
                let to_flow = area * warmth.viscosity / bore;
                let by = to_flow * memory.slope * 2.0 * scale;
                Response { flow: to_flow * memory.reynolds, by_first: by * high, by_second: -by * low }
            });
            self.write(high, low, warmth, result.flow, scribe);
            result
        })
    }

    /// About how much pressure a flow in kg/s costs at a pressure, Pa: with a typical friction factor.
    pub(super) fn rough_drop(&self, flow: f64, pressure: f64, warmth: &Warmth, memory: &mut Memory) -> f64 {
        let bore = self.bore.base();
        let area = std::f64::consts::FRAC_PI_4 * bore * bore;
        memory.reynolds = flow * bore / (area * warmth.viscosity);
        memory.drive = 0.0;
        let factor = (64.0 / memory.reynolds).max(0.035);
        let loss = factor * self.length.base() / bore + self.fittings.sum().base();
        loss * 0.5 * flow * flow / (area * area) * warmth.rt / pressure
    }

    /// The working: what the flow found means for each part of the loss.
    fn write(&self, high: f64, low: f64, warmth: &Warmth, flow: f64, scribe: &mut impl Scribe) {
        let bore = self.bore.base();
        let area = std::f64::consts::FRAC_PI_4 * bore * bore;
        let density = 0.5 * (high + low) / warmth.rt;
        let reynolds = flow * bore / (area * warmth.viscosity);
        let factor = if reynolds > 0.0 { churchill(reynolds, self.roughness.base() / bore).0 } else { 0.0 };
        let head = 0.5 * flow * flow / (density * area * area);
        scribe.step(|| {
            Step::new("density in the hose", "ρ", "(p₁ + p₂)/(2 R T₁)", &DEFINITION)
                .with_amount("p₁", Amount::new(high, Kind::AbsolutePressure))
                .with_amount("p₂", Amount::new(low, Kind::AbsolutePressure))
                .with_amount("T₁", Amount::new(warmth.temperature, Kind::Temperature))
                .gives(MassDensity::from_base(density))
        });
        scribe.step(|| {
            let equation = "1.716e-5 (T₁/273.15)^1.5 · 383.55/(T₁ + 110.4)";
            Step::new("viscosity of the gas", "μ", equation, &AIR_VISCOSITY)
                .with_amount("T₁", Amount::new(warmth.temperature, Kind::Temperature))
                .gives_amount(Amount::new(warmth.viscosity, Kind::Viscosity))
        });
        scribe.step(|| {
            Step::new("friction factor", "f", "8[(8/Re)^12 + (A + B)^−1.5]^(1/12)", &CHURCHILL)
                .with_number("Re", reynolds)
                .with_amount("ε", Amount::of_kind(self.roughness, Kind::SmallLength))
                .gives_amount(Amount::number(factor))
        });
        scribe.step(|| {
            Step::new("loss by friction", "Δp_f", "f L/D ρ v²/2", &DARCY)
                .with("L", self.length)
                .with_amount("D", Amount::of_kind(self.bore, Kind::SmallLength))
                .with_amount("v", Amount::new(flow / (density * area), Kind::GasSpeed))
                .gives_amount(Amount::new(factor * self.length.base() / bore * head, Kind::SmallPressureDifference))
        });
        scribe.step(|| {
            let fittings = &self.fittings;
            let equation = "ΣK ρ v²/2, ΣK = K_in + n K_bend + n₄₅ K₄₅ + n_e K_elbow + K_out + K_other";
            Step::new("loss by fittings", "Δp_K", equation, &FITTINGS)
                .with("K_in", fittings.entrance)
                .with_number("n", f64::from(fittings.bends))
                .with("K_bend", fittings.bend)
                .with_number("n₄₅", f64::from(fittings.half_bends))
                .with("K₄₅", fittings.half_bend)
                .with_number("n_e", f64::from(fittings.elbows))
                .with("K_elbow", fittings.elbow)
                .with("K_out", fittings.exit)
                .with("K_other", fittings.other)
                .with("ΣK", fittings.sum())
                .gives_amount(Amount::new(self.fittings.sum().base() * head, Kind::SmallPressureDifference))
        });
        scribe.step(|| {
            Step::new("flow through the hose", "ṁ", "the flow whose losses sum to Δp", &DARCY)
                .with_amount("Δp", Amount::new(Pressure::from_base(high - low).base(), Kind::SmallPressureDifference))
                .gives(MassRate::from_base(flow))
        });
    }
}

/// A hose without its size: what the Reynolds number depends on.
#[derive(Clone, Copy)]
struct Duct {
    slenderness: f64,
    roughness: f64,
    losses: f64,
}

impl Duct {
    /// Puts the Reynolds number at which `(f L/D + ΣK) Re²` is the given drive into the memory, with its slope.
    ///
    /// Newton's method, on logarithms while far off: there the slope lies between 1 (laminar) and a few (transition).
    /// Ends with a step from within 1e-4, which leaves about 1e-9.
    #[inline]
    fn find(&self, memory: &mut Memory, drive: f64) {
        let mut reynolds = self.start(memory, drive);
        let (mut low, mut high) = (0.0, f64::INFINITY);
        for _ in 0..60 {
            let (factor, factor_slope) = churchill(reynolds, self.roughness);
            let loss = factor * self.slenderness + self.losses;
            let found = loss * reynolds * reynolds;
            let slope = 1.0 / (reynolds * (factor_slope * self.slenderness * reynolds + 2.0 * loss));
            let off = found / drive - 1.0;
            if off > 0.0 {
                high = reynolds;
            } else {
                low = reynolds;
            }
            let next = if off.abs() < 0.1 {
                reynolds - (found - drive) * slope
            } else {
                reynolds * (-off.ln_1p() * found * slope / reynolds).exp()
            };
            memory.slope = slope;
            reynolds = if next >= low && next <= high {
                next
            } else if high.is_finite() {
                0.5 * (low + high)
            } else {
                2.0 * low
            };
            if off.abs() < 1e-4 {
                break;
            }
        }
        memory.reynolds = reynolds;
        memory.drive = drive;
    }

    /// Where to begin: from the last answer if there is one.
    #[inline]
    fn start(&self, memory: &Memory, drive: f64) -> f64 {
        if memory.reynolds > 0.0 && memory.drive > 0.0 {
            let change = drive - memory.drive;
            return if change.abs() < 0.3 * memory.drive {
                memory.reynolds + memory.slope * change
            } else {
                memory.reynolds * (drive / memory.drive).sqrt()
            };
        }
        if memory.reynolds > 0.0 {
            return memory.reynolds;
        }
        // Fully turbulent with a typical factor, or laminar, whichever is the less.
        let turbulent = (drive / (0.04 * self.slenderness + self.losses).max(1e-12)).sqrt();
        if self.slenderness > 0.0 { turbulent.min(drive / (64.0 * self.slenderness)) } else { turbulent }
    }
}
