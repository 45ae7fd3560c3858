//! Water in the crankcase at the coldest air: the warm engine, and short cold trips.

use super::context::Context;
use crate::crankcase::moisture::{
    Burning, DutyGas, OilWarmth, OutsideAir, Surroundings, condensation, defaults as figures, dilution,
};
use crate::note::Note;
use crate::quantity::si::{MassRate, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{Duty, DutyAnswers, DutyMoisture, MoistureAnswers, defaults};

/// The gas of each duty and the air it is judged in. What cannot be reckoned is told as a sentence.
pub(super) struct Damp {
    around: Result<Surroundings, String>,
    gases: [Result<DutyGas, String>; 5],
    /// What burns at each duty, where it is not the same at all.
    burning: Option<[Burning; 5]>,
    air: ThermodynamicTemperature,
}

fn told<T>(result: Result<T, impl std::fmt::Display>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

impl Damp {
    pub fn new(context: &Context<'_>, duties: &[DutyAnswers; 5]) -> Self {
        let project = context.project;
        let air = project.surroundings.coldest;
        let humidity = project.surroundings.humidity.unwrap_or_else(defaults::humidity).high;
        let outside = OutsideAir { temperature: air, humidity, pressure: context.ambient };
        let vapour = told(outside.vapour_share(&mut Silent));
        let lean = |vapour| duties.each_ref().map(|duty| Burning::diesel(duty.air_fuel, vapour));
        let burning = vapour.as_ref().ok().filter(|_| project.engine.is_diesel()).map(|vapour| lean(*vapour));
        let around = vapour.map(|vapour| Surroundings {
            air: outside,
            burning: Burning::petrol(vapour),
            burnt_share: project.blow_by.burnt_share.unwrap_or_else(defaults::burnt_share),
            wall_share: project.ventilation.wall_share.unwrap_or_else(defaults::wall_share),
        });
        let gases = Duty::ALL.map(|duty| gas(context, &duties[duty.index()], &mut Silent));
        Self { around, gases, burning, air }
    }

    fn at(&self, duty: Duty, oil: OilWarmth, scribe: &mut impl Scribe) -> Result<DutyMoisture, String> {
        let gas = self.gases[duty.index()].as_ref().map_err(Clone::clone)?;
        let mut around = *self.around.as_ref().map_err(Clone::clone)?;
        if let Some(burning) = &self.burning {
            around.burning = burning[duty.index()];
        }
        let at = told(condensation(gas, oil, &around, scribe))?;
        Ok(DutyMoisture { duty, dilution: gas.dilution, at })
    }

    fn trip(
        &self,
        duty: Duty,
        set_point: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<DutyMoisture, String> {
        self.at(duty, OilWarmth::At(Estimate::exact(trip_oil(set_point))), scribe)
    }

    /// How far the coldest wall stands above the dew point on a short cold trip with this thermostat, at the unfavourable end.
    pub fn margin_at(&self, set_point: ThermodynamicTemperature) -> Result<TemperatureInterval, String> {
        let mut least: Option<TemperatureInterval> = None;
        for duty in SHORT_TRIP {
            if let Some(margin) = self.trip(duty, set_point, &mut Silent)?.least_margin() {
                least = Some(least.map_or(margin, |least| if margin < least { margin } else { least }));
            }
        }
        least.ok_or_else(|| "the gas is too dry for a dew point".to_owned())
    }

    /// The warm engine and the short trips, with what is to be said of the wetter trip.
    pub fn answers(
        &self,
        context: &Context<'_>,
        duties: &[DutyAnswers; 5],
        scribe: &mut impl Scribe,
    ) -> (MoistureAnswers, Vec<Note>) {
        let set_point = context.project.thermostat.set_point;
        let warm = Duty::ALL.map(|duty| {
            let key = format!("moisture/{}", duty.word());
            scribe.chapter(&key, &format!("Water in the crankcase, warm engine, coldest air: {}", duty.name()));
            // Found before without working; told here beside what it is used for.
            let _ = gas(context, &duties[duty.index()], scribe);
            self.at(duty, OilWarmth::Warm { set_point }, scribe)
        });
        let trips = SHORT_TRIP.map(|duty| {
            let key = format!("moisture/short-trip/{}", duty.word());
            scribe.chapter(&key, &format!("Water in the crankcase on a short cold trip: {}", duty.name()));
            let _ = gas(context, &duties[duty.index()], scribe);
            self.trip(duty, set_point, scribe)
        });
        let answers = MoistureAnswers { air: self.air, trip_oil: trip_oil(set_point), warm, trips };
        let notes = answers.worst_trip().map_or_else(Vec::new, |trip| trip.at.notes());
        (answers, notes)
    }
}

/// The duties of a short trip.
const SHORT_TRIP: [Duty; 2] = [Duty::Idle, Duty::Cruise];

/// Oil on a short cold trip: as far below the coolant as at a light cruise in winter.
fn trip_oil(set_point: ThermodynamicTemperature) -> ThermodynamicTemperature {
    let below = figures::oil_above_coolant(Duty::Cruise).estimate.low;
    ThermodynamicTemperature::from_base(set_point.base() + below.base())
}

/// Fresh air over blow-by: what every way draws in, at the three blow-bys.
fn gas(context: &Context<'_>, duty: &DutyAnswers, scribe: &mut impl Scribe) -> Result<DutyGas, String> {
    let fresh = |case: &crate::study::CrankcaseCase| {
        MassRate::from_base(case.flows.iter().map(|flow| (-flow.out.base()).max(0.0)).sum())
    };
    let [low, likely, high] = &duty.crankcase;
    let fresh = Estimate::sorted(fresh(high), fresh(likely), fresh(low));
    let blow_by = duty.blow_by.forward;
    let dilution = told(dilution(&fresh, &blow_by, scribe))?;
    let pressure = AbsolutePressure::from_base(context.ambient.base() + likely.gauge.base());
    Ok(DutyGas { duty: duty.duty, blow_by, dilution, pressure })
}
