//! Heat the engine gives to its coolant.

use super::defaults;
use super::pump::{ENGINE_SPEED, THOUSAND_RPM};
use super::{HeatError, Mixture, oil_defaults};
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, Power, Pressure, Ratio, Volume};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::{engine_oil as oil_source, heat as source};

/// Engine displacements.
pub const DISPLACEMENT: Range =
    Range::new("engine displacement", Kind::Displacement, 5e-5, 0.03, "give the swept volume of all cylinders");
/// Brake powers.
pub const BRAKE_POWER: Range =
    Range::new("brake power", Kind::Power, 0.0, 1.5e6, "give the power at the crankshaft, 0 at idle or on overrun");
/// Rated powers.
pub const RATED_POWER: Range =
    Range::new("rated power", Kind::Power, 500.0, 1.5e6, "give the engine's greatest brake power");
pub(super) const EFFICIENCY: Range =
    Range::new("indicated efficiency", Kind::Share, 0.1, 0.65, "0.35 to 0.47 is usual");
pub(super) const SHARE: Range =
    Range::new("coolant share of fuel power", Kind::Share, 0.05, 0.6, "0.17 to 0.38 is usual");
pub(super) const FRICTION_TERM: Range = Range::new(
    "friction mean pressure term",
    Kind::PressureDifference,
    0.0,
    1e6,
    "the usual terms are 97, 15 and 5 kPa; 75, 48 and 4 kPa of a diesel",
);
/// Below this share of rated power the estimate says nothing of idle.
const LIGHT_LOAD: f64 = 0.10;

/// How the mixture is lit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ignition {
    /// Petrol or gas engine with spark plugs.
    Spark,
    /// Diesel.
    Diesel,
}

/// One steady duty of the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EngineDuty {
    /// Swept volume of all cylinders; four-stroke.
    pub displacement: Volume,
    /// Crankshaft speed.
    pub speed: AngularVelocity,
    /// Power at the crankshaft.
    pub brake_power: Power,
    /// The engine's greatest brake power, for the load.
    pub rated_power: Power,
}

/// How heat is reckoned from duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatModel {
    /// Friction mean pressure at rest, before the terms in speed.
    pub friction_constant: Estimate<Pressure>,
    /// Friction mean pressure per 1000 rpm.
    pub friction_linear: Estimate<Pressure>,
    /// Friction mean pressure per (1000 rpm)².
    pub friction_square: Estimate<Pressure>,
    /// Indicated efficiency.
    pub indicated_efficiency: Estimate<Ratio>,
    /// Share of fuel power the coolant takes at light load.
    pub share_light: Estimate<Ratio>,
    /// Share of fuel power the coolant takes at rated power.
    pub share_rated: Estimate<Ratio>,
    /// Heat to the coolant over that with heads of iron.
    pub heads: Estimate<Ratio>,
    /// The mixture; [`Mixture::neutral`] for just enough air, and for a diesel.
    pub mixture: Mixture,
}

impl HeatModel {
    /// The usual figures, heads of iron, just enough air.
    #[must_use]
    pub fn usual(ignition: Ignition) -> Self {
        match ignition {
            Ignition::Spark => Self {
                friction_constant: defaults::friction_constant().estimate,
                friction_linear: defaults::friction_linear().estimate,
                friction_square: defaults::friction_square().estimate,
                indicated_efficiency: defaults::indicated_efficiency_spark().estimate,
                share_light: defaults::coolant_share_light().estimate,
                share_rated: defaults::coolant_share_rated().estimate,
                heads: oil_defaults::iron_heads().estimate,
                mixture: Mixture::neutral(),
            },
            Ignition::Diesel => Self {
                friction_constant: defaults::friction_constant_diesel().estimate,
                friction_linear: defaults::friction_linear_diesel().estimate,
                friction_square: defaults::friction_square_diesel().estimate,
                indicated_efficiency: defaults::indicated_efficiency_diesel().estimate,
                share_light: defaults::coolant_share_light_diesel().estimate,
                share_rated: defaults::coolant_share_rated_diesel().estimate,
                heads: oil_defaults::iron_heads().estimate,
                mixture: Mixture::neutral(),
            },
        }
    }
}

/// Heat to the coolant and what led to it.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolantHeat {
    /// Friction mean pressure.
    pub friction_mean_pressure: Pressure,
    /// Friction power, the engine's own pumps and the drawing of its breath included.
    pub friction_power: Estimate<Power>,
    /// Power of the fuel supplied, with what a rich mixture leaves unburnt.
    pub fuel_power: Power,
    /// Share of it that the coolant takes at this load.
    pub share: Estimate<Ratio>,
    /// Heat to the coolant.
    pub heat: Estimate<Power>,
    /// What weakens the estimate.
    pub notes: Vec<Note>,
}

/// Friction mean pressure: fmep = a + b·(N/1000 rpm) + c·(N/1000 rpm)².
fn friction(model: &HeatModel, speed: f64, pick: impl Fn(&Estimate<Pressure>) -> Pressure) -> Result<f64, HeatError> {
    let thousands = speed / THOUSAND_RPM;
    let term = |estimate| FRICTION_TERM.check(pick(estimate)).map(Measured::base);
    Ok(term(&model.friction_constant)?
        + thousands * (term(&model.friction_linear)? + thousands * term(&model.friction_square)?))
}

/// Heat to the coolant at a duty: P_fuel = (P_b + fmep·V_d·n/2)/η_i with n in revolutions per second;
/// Q = f_c·P_fuel with f_c going in a straight line in P_b/P_rated from the light-load to the rated share.
///
/// A richer mixture burns what finds air, β, so P_fuel grows by 1/β for the same work, and the heat hardly changes:
/// Q = f_c·β·P_fuel·m·k with m of [`Mixture::heat_factor`] and k of the heads.
///
/// The spread joins the spreads of f_c, η_i, fmep, m and k as the root of the sum of their squares. Below a tenth of rated
/// power the result carries a note: a throttled idle burns more than friction alone asks for.
///
/// # Errors
/// An input out of range; more brake power than rated.
pub fn heat_to_coolant(
    duty: &EngineDuty,
    model: &HeatModel,
    scribe: &mut impl Scribe,
) -> Result<CoolantHeat, HeatError> {
    let displacement = DISPLACEMENT.check(duty.displacement)?.base();
    let speed = ENGINE_SPEED.check(duty.speed)?.base();
    let rated = RATED_POWER.check(duty.rated_power)?.base();
    let within = Range { high: rated, hint: "it cannot exceed the rated power; check both", ..BRAKE_POWER };
    let brake = within.check(duty.brake_power)?.base();
    let efficiency = |value| EFFICIENCY.check(value).map(Measured::base);
    let eta = efficiency(model.indicated_efficiency.likely)?;
    let revolutions = speed / (2.0 * std::f64::consts::PI);
    let fuel_at = |fmep: f64, eta: f64| (brake + fmep * displacement * revolutions / 2.0) / eta;

    let fmep = friction(model, speed, |e| e.likely)?;
    scribe.step(|| {
        Step::new("Friction mean pressure", "fmep", "fmep = a + b·(N/1000) + c·(N/1000)²", &source::FRICTION)
            .with("a", model.friction_constant.likely)
            .with("b", model.friction_linear.likely)
            .with("c", model.friction_square.likely)
            .with("N", duty.speed)
            .gives_amount(Amount::new(fmep, Kind::PressureDifference))
    });
    let fuel = fuel_at(fmep, eta);
    scribe.step(|| {
        Step::new(
            "Power of the fuel burnt",
            "P_fuel",
            "P_fuel = (P_b + fmep·V_d·n/2)/η_i",
            &source::INDICATED_EFFICIENCY,
        )
        .with("P_b", duty.brake_power)
        .with_amount("fmep", Amount::new(fmep, Kind::PressureDifference))
        .with_amount("V_d", Amount::of_kind(duty.displacement, Kind::Displacement))
        .with("n", duty.speed)
        .with_number("η_i", eta)
        .gives_amount(Amount::new(fuel, Kind::Power))
    });

    let load = brake / rated;
    let share_at = |pick: fn(&Estimate<Ratio>) -> Ratio| -> Result<f64, HeatError> {
        let light = SHARE.check(pick(&model.share_light))?.base();
        Ok(light + (SHARE.check(pick(&model.share_rated))?.base() - light) * load)
    };
    let (low, likely, high) = (share_at(|e| e.low)?, share_at(|e| e.likely)?, share_at(|e| e.high)?);
    scribe.step(|| {
        Step::new(
            "Coolant's share of the fuel power",
            "f_c",
            "f_c = f_light + (f_rated − f_light)·P_b/P_rated",
            &source::COOLANT_SHARE,
        )
        .with_amount("f_light", Amount::of_kind(model.share_light.likely, Kind::Share))
        .with_amount("f_rated", Amount::of_kind(model.share_rated.likely, Kind::Share))
        .with("P_b", duty.brake_power)
        .with("P_rated", duty.rated_power)
        .gives_amount(Amount::new(likely, Kind::Share))
    });

    let (mixed, heads) = (model.mixture.heat_factor(scribe)?, &model.heads);
    oil_defaults::iron_heads().range.check_estimate::<_, HeatError>(heads)?;
    let changed = mixed.likely.base() * heads.likely.base();
    let heat = likely * fuel * changed;
    // Independent spreads, as shares of the likely heat, joined by the root of the sum of squares.
    let more_fuel = fuel_at(friction(model, speed, |e| e.high)?, eta) / fuel - 1.0;
    let less_fuel = 1.0 - fuel_at(friction(model, speed, |e| e.low)?, eta) / fuel;
    let more_loss = eta / efficiency(model.indicated_efficiency.low)? - 1.0;
    let less_loss = 1.0 - eta / efficiency(model.indicated_efficiency.high)?;
    let wider = |of: &Estimate<Ratio>| {
        let likely = of.likely.base();
        (1.0 - of.low.base() / likely, of.high.base() / likely - 1.0)
    };
    let up = (high / likely - 1.0).hypot(more_fuel).hypot(more_loss).hypot(wider(&mixed).1).hypot(wider(heads).1);
    let narrower = wider(&mixed).0.hypot(wider(heads).0);
    let down = (1.0 - low / likely).hypot(less_fuel).hypot(less_loss).hypot(narrower).min(1.0);
    let value = Power::from_base;
    let heat = Estimate::sorted(value(heat * (1.0 - down)), value(heat), value(heat * (1.0 + up)));
    scribe.step(|| {
        let step = |equation, source| {
            Step::new("Heat to the coolant", "Q", equation, source)
                .with_amount("f_c", Amount::new(likely, Kind::Share))
                .with_amount("P_fuel", Amount::new(fuel, Kind::Power))
        };
        let step = if changed == 1.0 {
            step("Q = f_c·P_fuel", &source::COOLANT_SHARE)
        } else {
            step("Q = f_c·P_fuel·m·k, P_fuel as with just enough air", &oil_source::HEAD_METAL)
                .with("m", mixed.likely)
                .with("k", heads.likely)
        };
        step.gives(heat.likely)
    });
    let mut notes = Vec::new();
    if load < LIGHT_LOAD {
        notes.push(Note::new(
            "coolant-heat-light-load",
            Weight::Weak,
            "Below a tenth of rated power a throttled engine burns more fuel than friction alone asks for; at idle \
             reckon with 6 to 10 kW for a V8 and 2 to 4 kW for a 2.0 L four, half of it for a diesel.",
        ));
    }
    let burnt = model.mixture.burnt(&mut Silent)?.base();
    let ratio = |share: f64| Ratio::from_base(share * burnt * changed);
    let turned = |fmep: f64| value(fmep * displacement * revolutions / 2.0);
    let friction_power = Estimate::sorted(
        turned(friction(model, speed, |e| e.low)?),
        turned(fmep),
        turned(friction(model, speed, |e| e.high)?),
    );
    Ok(CoolantHeat {
        friction_mean_pressure: Pressure::from_base(fmep),
        friction_power,
        fuel_power: value(fuel / burnt),
        share: Estimate::sorted(ratio(low), ratio(likely), ratio(high)),
        heat,
        notes,
    })
}
