//! What a thermostat's set-point does to water and fuel in a warm crankcase.

use super::trip::{Condensation, DutyGas, OilWarmth, Surroundings, condensation};
use super::{DewPoint, MoistureError, burnt_water_share, defaults};
use crate::quantity::si::ThermodynamicTemperature as Temperature;
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::{Scribe, Silent};

/// One line of the answer per set-point.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointAnswer {
    /// The set-point.
    pub set_point: Temperature,
    /// Water at each duty, in the order given. Where petrol settles goes with the gas, not with the set-point: ask
    /// [`condensation`] for it.
    pub duties: Vec<Condensation>,
    /// What the coolest likely oil among the duties does to petrol in it; none for a diesel.
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
        if self.oil_stays_dry() && self.fuel.is_none() {
            "This set-point by itself makes no water condense: the oil stays above the dew point even of undiluted burnt gas. What \
             gets wet are cold covers, hoses and cans, above all on short trips. A cooler set-point costs a slower warm-up of the \
             oil, and water leaves it more slowly."
        } else if self.oil_stays_dry() {
            "This set-point by itself makes no water condense: the oil stays above the dew point even of undiluted burnt gas. What \
             gets wet are cold covers, hoses and cans, above all on short trips. A cooler set-point costs a slower warm-up of the \
             oil, and fuel and water leave it more slowly."
        } else {
            "At this set-point the oil can stay below the dew point of undiluted burnt gas: without fresh air, water may stay in \
             the oil itself. Choose a warmer set-point or make sure of fresh air at every duty."
        }
    }
}

/// A set-point and the oil of the warm engine with it.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointOil {
    /// The set-point.
    pub set_point: Temperature,
    /// The oil at each duty, in the order of the gases.
    pub oils: Vec<Estimate<Temperature>>,
}

/// The answer for each set-point and duty of the warm engine.
///
/// # Errors
/// As [`condensation`].
pub fn by_set_point(
    set_points: &[SetPointOil],
    duties: &[DutyGas],
    around: &Surroundings,
    scribe: &mut impl Scribe,
) -> Result<Vec<SetPointAnswer>, MoistureError> {
    let burnt = burnt_water_share(&around.burning, &mut Silent)?;
    let highest = duties.iter().map(|gas| gas.pressure.base()).fold(around.air.pressure.base(), f64::max);
    let worst_dew_point = super::dew_point(burnt, AbsolutePressure::from_base(highest), scribe)?;
    let reference = defaults::drying_oil().likely();
    let water = Surroundings { petrol: None, ..*around };
    let mut answers = Vec::with_capacity(set_points.len());
    for SetPointOil { set_point, oils } in set_points {
        let each = duties.iter().zip(oils);
        let duties = each.map(|(gas, oil)| condensation(gas, OilWarmth::At(*oil), &water, scribe));
        let duties = duties.collect::<Result<Vec<_>, _>>()?;
        let coolest = duties.iter().map(|duty| duty.likely.oil.base()).fold(f64::INFINITY, f64::min);
        let fuel = if duties.is_empty() || around.petrol.is_none() {
            None
        } else {
            Some(super::fuel_boil_off(Temperature::from_base(coolest), reference, scribe)?)
        };
        answers.push(SetPointAnswer { set_point: *set_point, duties, fuel, worst_dew_point });
    }
    Ok(answers)
}
