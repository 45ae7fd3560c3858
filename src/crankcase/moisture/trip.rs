//! Whether water settles in the crankcase: for each duty and set-point, and on short cold trips.

use super::mix::{OutsideAir, WetGas};
use super::saturation::{CRANKCASE_PRESSURE, DewPoint};
use super::wall::{LeastDilution, OIL_TEMPERATURE, least_dilution, wall_temperature};
use super::{Burning, MoistureError, burnt_water_share, defaults};
use crate::crankcase::cylinder::Duty;
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Estimate, Measured, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::moisture::{CRANKCASE_WARMTH, GAS_MIX};

/// How warm the oil is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OilWarmth {
    /// The engine is warm: the thermostat's set-point, and the oil stands off it as [`defaults::oil_above_coolant`] says.
    Warm {
        /// The thermostat's set-point.
        set_point: Temperature,
    },
    /// The oil temperature itself: measured, or on a short cold trip before the oil is warm.
    At(Estimate<Temperature>),
}

/// What the crankcase of one duty is like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// The air outside.
    pub air: OutsideAir,
    /// What burns, with the vapour of the air drawn.
    pub burning: Burning,
    /// Burnt share of the blow-by; default [`defaults::burnt`].
    pub burnt_share: Estimate<Ratio>,
    /// Place of the coldest wall between air and oil; default [`defaults::wall_share`].
    pub wall_share: Estimate<Ratio>,
}

impl Surroundings {
    /// Petrol with just enough air, and the usual figures, in this air.
    ///
    /// # Errors
    /// A figure of the air outside its range.
    pub fn usual(air: OutsideAir) -> Result<Self, MoistureError> {
        Ok(Self {
            air,
            burning: Burning::petrol(air.vapour_share(&mut Silent)?),
            burnt_share: defaults::burnt().estimate,
            wall_share: defaults::wall_share().estimate,
        })
    }
}

/// The gas of one duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DutyGas {
    /// The duty.
    pub duty: Duty,
    /// Blow-by.
    pub blow_by: Estimate<MassRate>,
    /// Fresh air over blow-by, from [`dilution`]; its low end is the wet one.
    pub dilution: Estimate<Ratio>,
    /// Pressure in the crankcase.
    pub pressure: AbsolutePressure,
}

/// Fresh air over blow-by, `D = ṁ_f/ṁ_b`: least fresh air over most blow-by to most over least.
///
/// # Errors
/// Flows that are not in order, below zero or above 200 g/s; blow-by so small that the ratio passes 1000.
pub fn dilution(
    fresh_air: &Estimate<MassRate>,
    blow_by: &Estimate<MassRate>,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Ratio>, MoistureError> {
    defaults::in_order(fresh_air, &super::wall::BLOW_BY)?;
    defaults::in_order(blow_by, &super::wall::BLOW_BY)?;
    let over = |air: MassRate, blow_by: MassRate| -> Result<Ratio, MoistureError> {
        if air.base() == 0.0 {
            return Ok(Ratio::from_base(0.0));
        }
        Ok(defaults::DILUTION.check(Ratio::from_base(air.base() / blow_by.base()))?)
    };
    let dilution = Estimate {
        low: over(fresh_air.low, blow_by.high)?,
        likely: over(fresh_air.likely, blow_by.likely)?,
        high: over(fresh_air.high, blow_by.low)?,
    };
    scribe.step(|| {
        Step::new("fresh air over blow-by", "D", "D = ṁ_f/ṁ_b", &GAS_MIX)
            .with("ṁ_f", fresh_air.likely)
            .with("ṁ_b", blow_by.likely)
            .gives(dilution.likely)
    });
    Ok(dilution)
}

/// What is to be said of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MoistureFinding {
    /// Dry even at the unfavourable end.
    Dry,
    /// Dry at the likely figures, wet at the unfavourable end.
    ProbablyDry,
    /// Wet at the likely figures; more fresh air would keep it dry.
    Wet,
    /// Wet at the likely figures, and no fresh air would dry it: the outside air itself wets a wall so cold.
    WetWhatever,
}

impl MoistureFinding {
    /// The sentence a person reads.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Dry => "No water settles, even at the unfavourable end of what is known.",
            Self::ProbablyDry => {
                "Probably dry; at the unfavourable end of what is known water settles on the coldest walls."
            }
            Self::Wet => {
                "Water settles on the coldest walls. If it stays so for long, expect a milky film and sludge: more fresh air, \
                 warmer or insulated walls, or a longer warm run."
            }
            Self::WetWhatever => {
                "Water settles on the coldest walls and fresh air does not help, as the air alone wets them: insulate or \
                 warm the walls, and drain what collects."
            }
        }
    }
}

/// One end of what is known: wall, gas, and the fresh air the wall asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallState {
    /// Oil temperature.
    pub oil: Temperature,
    /// Temperature of the coldest wall.
    pub wall: Temperature,
    /// Water vapour in the gas.
    pub vapour: Ratio,
    /// Where water leaves the gas.
    pub dew_point: DewPoint,
    /// Fresh air over blow-by that the wall asks for.
    pub least_dilution: LeastDilution,
    /// The flow of fresh air it asks for; none when no amount would do.
    pub fresh_air: Option<MassRate>,
}

impl WallState {
    /// Whether water settles.
    #[must_use]
    pub fn is_wet(&self) -> bool {
        self.dew_point.wets(self.wall)
    }

    /// Whether what settles is ice.
    #[must_use]
    pub fn is_icy(&self) -> bool {
        self.is_wet() && self.wall.base() < ZERO_CELSIUS
    }
}

/// What happens to the water of one duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Condensation {
    /// The duty.
    pub duty: Duty,
    /// At the unfavourable end: cold oil and wall, much burnt gas, little fresh air.
    pub unfavourable: WallState,
    /// At the likely figures.
    pub likely: WallState,
    /// At the favourable end.
    pub favourable: WallState,
    /// What is to be said of it.
    pub finding: MoistureFinding,
}

impl Condensation {
    /// What goes with the finding: the finding itself, and the caution about ice in a hose.
    #[must_use]
    pub fn notes(&self) -> Vec<Note> {
        let weight = if self.finding == MoistureFinding::Dry { Weight::Remark } else { Weight::Weak };
        let mut notes = vec![Note::new("condensation", weight, self.finding.words())];
        if self.unfavourable.is_icy() {
            notes.push(Note::new(
                "crankcase-ice",
                Weight::Danger,
                "The coldest wall is below freezing: what settles in a cover, breather hose or can turns to ice. A hose closed by \
                 ice lets the crankcase pressure rise until oil is pushed past the seals, onto hot parts. Route hoses without \
                 sags, insulate them, and look at them after a frosty night.",
            ));
        }
        notes
    }
}

/// Whether water settles on the coldest wall of the crankcase at one duty.
///
/// # Errors
/// A figure outside its range or three values that do not rise; each names the figure.
pub fn condensation(
    gas: &DutyGas,
    oil: OilWarmth,
    around: &Surroundings,
    scribe: &mut impl Scribe,
) -> Result<Condensation, MoistureError> {
    defaults::in_order(&gas.dilution, &defaults::DILUTION)?;
    defaults::in_order(&gas.blow_by, &super::wall::BLOW_BY)?;
    defaults::in_order(&around.burnt_share, &defaults::burnt().range)?;
    defaults::in_order(&around.wall_share, &defaults::wall_share().range)?;
    CRANKCASE_PRESSURE.check(gas.pressure)?;
    let oil = oil_temperature(gas.duty, oil, scribe)?;
    let (burnt, share, dilution) = (&around.burnt_share, &around.wall_share, &gas.dilution);
    let air_water = around.air.vapour_share(scribe)?;
    let burnt_water = burnt_water_share(&around.burning, scribe)?;
    let wet = |burnt_share: Ratio| WetGas { burnt_share, burnt_water, air_water };
    // Which end of the share is colder depends on whether the oil is warmer than the air.
    let walls = |oil: Temperature| -> Result<Estimate<Temperature>, MoistureError> {
        let at = |share| wall_temperature(around.air.temperature, oil, share, &mut Silent);
        let (low, likely, high) = (at(share.low)?, at(share.likely)?, at(share.high)?);
        Ok(Estimate::sorted(low, likely, high))
    };
    let (cold, warm) = (walls(oil.low)?.low, walls(oil.high)?.high);
    let (most, least) = (gas.blow_by.high, gas.blow_by.low);
    let unfavourable = state_at(&wet(burnt.high), cold, oil.low, dilution.low, most, gas.pressure, &mut Silent)?;
    let favourable = state_at(&wet(burnt.low), warm, oil.high, dilution.high, least, gas.pressure, &mut Silent)?;
    let wall = wall_temperature(around.air.temperature, oil.likely, share.likely, scribe)?;
    let likely =
        state_at(&wet(burnt.likely), wall, oil.likely, dilution.likely, gas.blow_by.likely, gas.pressure, scribe)?;
    let finding = if !likely.is_wet() {
        if unfavourable.is_wet() { MoistureFinding::ProbablyDry } else { MoistureFinding::Dry }
    } else if likely.least_dilution == LeastDilution::NoAmount {
        MoistureFinding::WetWhatever
    } else {
        MoistureFinding::Wet
    };
    Ok(Condensation { duty: gas.duty, unfavourable, likely, favourable, finding })
}

fn state_at(
    wet: &WetGas,
    wall: Temperature,
    oil: Temperature,
    dilution: Ratio,
    blow_by: MassRate,
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<WallState, MoistureError> {
    let vapour = wet.mixed(dilution, scribe)?;
    let dew_point = super::dew_point(vapour, pressure, scribe)?;
    let least_dilution = least_dilution(wet, wall, pressure, scribe)?;
    let fresh_air = least_dilution.fresh_air(blow_by, scribe)?;
    Ok(WallState { oil, wall, vapour, dew_point, least_dilution, fresh_air })
}

fn oil_temperature(
    duty: Duty,
    oil: OilWarmth,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Temperature>, MoistureError> {
    let estimate = match oil {
        OilWarmth::At(estimate) => estimate,
        OilWarmth::Warm { set_point } => {
            let coolant = defaults::SET_POINT.check(set_point)?.base();
            let above = defaults::oil_above_coolant(duty).estimate;
            let oil = above.map(|above| Temperature::from_base(coolant + above.base()));
            scribe.step(|| {
                let equation = "T_oil = T_set + ΔT";
                Step::new("oil temperature of the warm engine", "T_oil", equation, &CRANKCASE_WARMTH)
                    .with("T_set", set_point)
                    .with("ΔT", above.likely)
                    .gives(oil.likely)
            });
            oil
        }
    };
    defaults::in_order(&estimate, &OIL_TEMPERATURE)?;
    Ok(estimate)
}

/// One line of the answer per set-point.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointAnswer {
    /// The set-point.
    pub set_point: Temperature,
    /// One for each duty, in the order given.
    pub duties: Vec<Condensation>,
    /// What the coolest likely oil among the duties does to fuel in it.
    pub fuel: Option<super::FuelBoilOff>,
    /// Dew point of undiluted, all-burnt blow-by, the worst there can be.
    pub worst_dew_point: DewPoint,
}

impl SetPointAnswer {
    /// Whether the bulk of the oil, at its coldest, stays above the worst dew point there can be: then the set-point by itself
    /// lets no water settle, and only cold walls do.
    #[must_use]
    pub fn oil_stays_dry(&self) -> bool {
        self.duties.iter().all(|duty| !self.worst_dew_point.wets(duty.unfavourable.oil))
    }

    /// The sentence a person reads about the set-point itself.
    #[must_use]
    pub fn words(&self) -> &'static str {
        if self.oil_stays_dry() {
            "This set-point by itself makes no water condense: the oil stays above the dew point even of undiluted burnt gas. What \
             gets wet are cold covers, hoses and cans, above all on short trips. A cooler set-point costs a slower warm-up of the \
             oil, and fuel and water leave it more slowly."
        } else {
            "At this set-point the oil can stay below the dew point of undiluted burnt gas: without fresh air, water may stay in \
             the oil itself. Choose a warmer set-point or make sure of fresh air at every duty."
        }
    }
}

/// The answer for each set-point and duty of the warm engine.
///
/// # Errors
/// As [`condensation`].
pub fn by_set_point(
    set_points: &[Temperature],
    duties: &[DutyGas],
    around: &Surroundings,
    scribe: &mut impl Scribe,
) -> Result<Vec<SetPointAnswer>, MoistureError> {
    let burnt = burnt_water_share(&around.burning, &mut Silent)?;
    let highest = duties.iter().map(|gas| gas.pressure.base()).fold(around.air.pressure.base(), f64::max);
    let worst_dew_point = super::dew_point(burnt, AbsolutePressure::from_base(highest), scribe)?;
    let reference = defaults::drying_oil().likely();
    let mut answers = Vec::with_capacity(set_points.len());
    for &set_point in set_points {
        let warm = OilWarmth::Warm { set_point };
        let duties = duties.iter().map(|gas| condensation(gas, warm, around, scribe)).collect::<Result<Vec<_>, _>>()?;
        let coolest = duties.iter().map(|duty| duty.likely.oil.base()).fold(f64::INFINITY, f64::min);
        let fuel = if duties.is_empty() {
            None
        } else {
            Some(super::fuel_boil_off(Temperature::from_base(coolest), reference, scribe)?)
        };
        answers.push(SetPointAnswer { set_point, duties, fuel, worst_dew_point });
    }
    Ok(answers)
}
