//! How far the hottest coolant stays from boiling.

use super::{CoolantError, defaults};
use crate::fluid::Mix;
use crate::note::{Note, Weight};
use crate::quantity::si::{Pressure, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{BOILING_ALLOWANCE, LOCAL_EXCESS, PUMP_SUCTION};

pub(crate) const EXCESS: Range = Range::new(
    "excess of the hottest passage over the outlet",
    Kind::TemperatureDifference,
    0.0,
    60.0,
    "5 to 15 K are usual",
);
pub(super) const ALLOWANCE: Range =
    Range::new("allowance kept below boiling", Kind::TemperatureDifference, 0.0, 30.0, "3 K is usual");
const TEMPERATURE: Range =
    Range::new("coolant temperature", Kind::Temperature, 233.15, 473.15, "write it in °C or °F with its unit");
pub(super) const SUCTION: Range =
    Range::new("suction at the pump's inlet", Kind::PressureDifference, 0.0, 80e3, "10 to 30 kPa are usual");

/// The hottest coolant in the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HottestPassage {
    /// Engine outlet, where the thermometer sits.
    pub outlet: ThermodynamicTemperature,
    /// How far the hottest passage lies above it.
    pub excess: Estimate<TemperatureInterval>,
    /// What is kept below boiling whatever happens.
    pub allowance: TemperatureInterval,
}

impl HottestPassage {
    /// The usual excess of 8 K (5 to 15) and allowance of 3 K over an outlet temperature.
    #[must_use]
    pub fn usual(outlet: ThermodynamicTemperature) -> Self {
        let allowance = defaults::boiling_allowance().likely();
        Self { outlet, excess: defaults::local_excess().estimate, allowance }
    }
}

/// How far the coolant stays from boiling.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilingMargin {
    /// Where it boils; likely is at the low end of the pressure.
    pub boils_at: Estimate<ThermodynamicTemperature>,
    /// The hottest coolant.
    pub hottest: Estimate<ThermodynamicTemperature>,
    /// Boiling point less hottest temperature; negative when it boils.
    pub margin: Estimate<TemperatureInterval>,
    /// What is left of the likely margin after the allowance; negative when the design is too hot.
    pub after_allowance: TemperatureInterval,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// Margin = T_bubble(p) − (t_outlet + excess), at the low end of the pressure: a cap that opens early.
///
/// Low and high combine the doubt of the bubble point, of the excess and (upwards) of the pressure as the root of
/// squares. `pressure` is the hot system's, absolute, with the cap at the ends of its tolerance; altitude is in it.
///
/// # Errors
/// A figure out of range or a pressure outside 5 to 600 kPa.
pub fn boiling_margin(
    mix: &Mix,
    pressure: &Estimate<AbsolutePressure>,
    passage: &HottestPassage,
    scribe: &mut impl Scribe,
) -> Result<BoilingMargin, CoolantError> {
    let outlet = TEMPERATURE.check(passage.outlet)?.base();
    for excess in [passage.excess.low, passage.excess.likely, passage.excess.high] {
        EXCESS.check(excess)?;
    }
    let allowance = ALLOWANCE.check(passage.allowance)?.base();
    let weakest = mix.boiling_point(pressure.low, scribe)?.base();
    let usual = mix.boiling_point(pressure.likely, &mut Silent)?.base().max(weakest);
    let doubt = mix.boiling_uncertainty().base();
    let hottest = passage.excess.map(|excess| ThermodynamicTemperature::from_base(outlet + excess.base()));
    scribe.step(|| {
        Step::new("hottest coolant", "t_max", "t_max = t_outlet + Δt", &LOCAL_EXCESS)
            .with("t_outlet", passage.outlet)
            .with("Δt", passage.excess.likely)
            .gives(hottest.likely)
    });
    let likely = weakest - hottest.likely.base();
    let down = doubt.hypot(hottest.high.base() - hottest.likely.base());
    let up = doubt.hypot(hottest.likely.base() - hottest.low.base()).hypot(usual - weakest);
    let margin = Estimate {
        low: TemperatureInterval::from_base(likely - down),
        likely: TemperatureInterval::from_base(likely),
        high: TemperatureInterval::from_base(likely + up),
    };
    let after_allowance = TemperatureInterval::from_base(likely - allowance);
    scribe.step(|| {
        Step::new("margin to boiling", "M", "M = T_bubble(p) − t_max", &BOILING_ALLOWANCE)
            .with("p", pressure.low)
            .with("T_bubble", ThermodynamicTemperature::from_base(weakest))
            .with("t_max", hottest.likely)
            .gives(margin.likely)
    });
    let kelvin = ThermodynamicTemperature::from_base;
    let boils_at = Estimate { low: kelvin(weakest - doubt), likely: kelvin(weakest), high: kelvin(usual + doubt) };
    let mut notes = notes(&margin, likely - allowance);
    notes.extend(mix.notes(hottest.likely, pressure.low));
    Ok(BoilingMargin { boils_at, hottest, margin, after_allowance, notes })
}

fn notes(margin: &Estimate<TemperatureInterval>, after_allowance: f64) -> Vec<Note> {
    let mut notes = vec![Note::new(
        "nucleate-boiling",
        Weight::Remark,
        "small bubbles form and collapse on the hottest metal before the coolant as a whole boils; the margin is that \
         of the whole",
    )];
    if margin.likely.base() <= 0.0 {
        notes.push(Note::new(
            "boils",
            Weight::Danger,
            "the hottest coolant boils: steam and hot coolant leave by the cap. Leave every cap shut until the engine \
             is cold to the hand, and do not fit a stronger cap to hide boiling: the weakest hose, core or tank sets \
             the limit",
        ));
    } else if after_allowance < 0.0 || margin.low.base() <= 0.0 {
        notes.push(Note::new(
            "margin-thin",
            Weight::Weak,
            "the margin to boiling is less than its allowance or its doubt: count on boiling at the worst moment",
        ));
    }
    notes
}

/// Margin at the pump's inlet, where suction lowers the pressure: T_bubble(p − suction) − t_inlet.
///
/// Low and high follow the suction's. A small margin here means cavitation at speed before anything boils.
///
/// # Errors
/// A figure out of range, or a pressure at the inlet outside 5 to 600 kPa.
pub fn pump_inlet_margin(
    mix: &Mix,
    pressure: AbsolutePressure,
    suction: &Estimate<Pressure>,
    inlet: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<Estimate<TemperatureInterval>, CoolantError> {
    let inlet_temperature = TEMPERATURE.check(inlet)?.base();
    let mut margin = [0.0; 3];
    for (value, suction) in margin.iter_mut().zip([suction.high, suction.likely, suction.low]) {
        let local = AbsolutePressure::from_base(pressure.base() - SUCTION.check(suction)?.base());
        *value = mix.boiling_point(local, &mut Silent)?.base() - inlet_temperature;
    }
    let [low, likely, high] = margin.map(TemperatureInterval::from_base);
    scribe.step(|| {
        Step::new("margin at the pump's inlet", "M_pump", "M_pump = T_bubble(p − Δp) − t_inlet", &PUMP_SUCTION)
            .with("p", pressure)
            .with("Δp", suction.likely)
            .with("t_inlet", inlet)
            .gives(likely)
    });
    Ok(Estimate::sorted(low, likely, high))
}
