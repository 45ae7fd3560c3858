//! Whether water settles in the crankcase: for each duty of a warm engine, and on short cold trips.

use super::mix::{OutsideAir, WetGas};
use super::petrol::{FuelDew, Petrol, charge_fuel_share, fuel_dew_point, mixed_fuel_share};
use super::saturation::{CRANKCASE_PRESSURE, DewPoint};
use super::wall::{LeastDilution, OIL_TEMPERATURE, least_dilution, wall_temperature};
use super::{Burning, MoistureError, burnt_water_share, defaults};
use crate::crankcase::cylinder::Duty;
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::moisture::{GAS_MIX, TRIP_WARMTH};

/// How warm the oil is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OilWarmth {
    /// A short cold trip: the oil has come this share of the way from the outside air to that of the warm engine.
    Trip {
        /// The oil of the warm engine.
        warm: Estimate<Temperature>,
        /// How far the oil has come; default [`defaults::trip_warmth`].
        reached: Estimate<Ratio>,
    },
    /// The oil temperature itself: that of the warm engine, or measured.
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
    /// The petrol that goes down unburnt; none for a diesel, whose charge is air.
    pub petrol: Option<Petrol>,
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
            petrol: Some(Petrol::usual()),
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

/// Fresh air over blow-by, `D = ṁ_f/ṁ_b`: least fresh air over most blow-by to most over least. Fresh air without any
/// blow-by counts as the upper end of [`defaults::DILUTION`], where the gas is outside air.
///
/// # Errors
/// Flows that are not in order, below zero or above 200 g/s.
pub fn dilution(
    fresh_air: &Estimate<MassRate>,
    blow_by: &Estimate<MassRate>,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Ratio>, MoistureError> {
    defaults::in_order(fresh_air, &super::wall::BLOW_BY)?;
    defaults::in_order(blow_by, &super::wall::BLOW_BY)?;
    let over = |air: MassRate, blow_by: MassRate| -> Ratio {
        if air.base() == 0.0 {
            return Ratio::from_base(0.0);
        }
        // With next to no blow-by the gas is outside air: beyond the upper end of the ratio nothing changes any more.
        Ratio::from_base((air.base() / blow_by.base()).min(defaults::DILUTION.high))
    };
    let dilution = Estimate {
        low: over(fresh_air.low, blow_by.high),
        likely: over(fresh_air.likely, blow_by.likely),
        high: over(fresh_air.high, blow_by.low),
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
    /// Fuel vapour in the gas.
    pub fuel: Ratio,
    /// Where fuel leaves the gas.
    pub fuel_dew: FuelDew,
}

impl WallState {
    /// Whether water settles.
    #[must_use]
    pub fn is_wet(&self) -> bool {
        self.dew_point.wets(self.wall)
    }

    /// Whether the oil itself is colder than the dew point, so that water gets into it.
    #[must_use]
    pub fn oil_is_wet(&self) -> bool {
        self.dew_point.wets(self.oil)
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
    if let Some(petrol) = &around.petrol {
        petrol.check()?;
    }
    CRANKCASE_PRESSURE.check(gas.pressure)?;
    let oil = oil_temperature(oil, around.air.temperature, scribe)?;
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
    // The unburnt part brings the fuel: where least has burnt there is most of it.
    let Fuels { most: heavy, usual, least: light } = Fuels::of(around.petrol.as_ref(), burnt, scribe)?;
    let end = |burnt, fuel, wall, oil, dilution, blow_by| End {
        wet: wet(burnt),
        fuel,
        wall,
        oil,
        dilution,
        blow_by,
        pressure: gas.pressure,
    };
    let (most, least) = (gas.blow_by.high, gas.blow_by.low);
    let unfavourable = end(burnt.high, heavy, cold, oil.low, dilution.low, most).state(&mut Silent)?;
    let favourable = end(burnt.low, light, warm, oil.high, dilution.high, least).state(&mut Silent)?;
    let wall = wall_temperature(around.air.temperature, oil.likely, share.likely, scribe)?;
    let likely = end(burnt.likely, usual, wall, oil.likely, dilution.likely, gas.blow_by.likely).state(scribe)?;
    let finding = if !likely.is_wet() {
        if unfavourable.is_wet() { MoistureFinding::ProbablyDry } else { MoistureFinding::Dry }
    } else if likely.least_dilution == LeastDilution::NoAmount {
        MoistureFinding::WetWhatever
    } else {
        MoistureFinding::Wet
    };
    Ok(Condensation { duty: gas.duty, unfavourable, likely, favourable, finding })
}

/// The unburnt petrol of one end.
#[derive(Clone, Copy)]
struct Vapours {
    heaviness: Ratio,
    charge: Ratio,
    burnt_share: Ratio,
}

/// The unburnt petrol at its ends; none where the charge is air.
struct Fuels {
    most: Option<Vapours>,
    usual: Option<Vapours>,
    least: Option<Vapours>,
}

impl Fuels {
    fn of(petrol: Option<&Petrol>, burnt: &Estimate<Ratio>, scribe: &mut impl Scribe) -> Result<Self, MoistureError> {
        let Some(petrol) = petrol else { return Ok(Self { most: None, usual: None, least: None }) };
        let fuel = |heaviness, charge, burnt_share| Some(Vapours { heaviness, charge, burnt_share });
        let charge = |carbon, lambda| charge_fuel_share(&petrol.fuel, carbon, lambda, &mut Silent);
        let usual = charge_fuel_share(&petrol.fuel, petrol.carbon.likely, petrol.lambda.likely, scribe)?;
        Ok(Self {
            most: fuel(petrol.heaviness.high, charge(petrol.carbon.low, petrol.lambda.low)?, burnt.low),
            usual: fuel(petrol.heaviness.likely, usual, burnt.likely),
            least: fuel(petrol.heaviness.low, charge(petrol.carbon.high, petrol.lambda.high)?, burnt.high),
        })
    }
}

/// One end of what is known.
struct End {
    wet: WetGas,
    fuel: Option<Vapours>,
    wall: Temperature,
    oil: Temperature,
    dilution: Ratio,
    blow_by: MassRate,
    pressure: AbsolutePressure,
}

impl End {
    fn state(&self, scribe: &mut impl Scribe) -> Result<WallState, MoistureError> {
        let &Self { wall, oil, dilution, pressure, .. } = self;
        let vapour = self.wet.mixed(dilution, scribe)?;
        let dew_point = super::dew_point(vapour, pressure, scribe)?;
        let least_dilution = least_dilution(&self.wet, wall, pressure, scribe)?;
        let fresh_air = least_dilution.fresh_air(self.blow_by, scribe)?;
        let (fuel, fuel_dew) = match self.fuel {
            None => (Ratio::from_base(0.0), FuelDew::NoFuel),
            Some(vapours) => {
                let fuel = mixed_fuel_share(vapours.charge, vapours.burnt_share, dilution, scribe)?;
                (fuel, fuel_dew_point(fuel, vapours.heaviness, pressure, scribe)?)
            }
        };
        Ok(WallState { oil, wall, vapour, dew_point, least_dilution, fresh_air, fuel, fuel_dew })
    }
}

fn oil_temperature(
    oil: OilWarmth,
    air: Temperature,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Temperature>, MoistureError> {
    let estimate = match oil {
        OilWarmth::At(estimate) => estimate,
        OilWarmth::Trip { warm, reached } => {
            defaults::in_order(&reached, &defaults::trip_warmth().range)?;
            defaults::in_order(&warm, &OIL_TEMPERATURE)?;
            let come = |reached: Ratio, warm: Temperature| {
                Temperature::from_base(air.base() + reached.base() * (warm.base() - air.base()))
            };
            // Warm oil lies above any air that is reckoned with, so the like ends belong together.
            let oil = Estimate::sorted(
                come(reached.low, warm.low),
                come(reached.likely, warm.likely),
                come(reached.high, warm.high),
            );
            scribe.step(|| {
                let equation = "T_oil = T_air + r·(T_warm − T_air)";
                Step::new("oil temperature at the end of a short trip", "T_oil", equation, &TRIP_WARMTH)
                    .with("T_air", air)
                    .with_amount("r", Amount::of_kind(reached.likely, Kind::Share))
                    .with("T_warm", warm.likely)
                    .gives(oil.likely)
            });
            oil
        }
    };
    defaults::in_order(&estimate, &OIL_TEMPERATURE)?;
    Ok(estimate)
}
