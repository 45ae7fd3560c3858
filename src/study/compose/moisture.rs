//! Water and fuel in the crankcase at the coldest air: the warm engine, and short cold trips.

use super::context::Context;
use super::notes::small_first;
use super::oil_heat::Warmth;
use crate::crankcase::moisture::{
    Burning, Condensation, DutyGas, OIL_TEMPERATURE, OilWarmth, OutsideAir, Petrol, SetPointAnswer, SetPointOil,
    Surroundings, by_set_point, condensation, dilution,
};
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Ratio, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent};
use crate::study::answers::{LASTING, above_dew_point};
use crate::study::{Duty, DutyAnswers, DutyMoisture, MoistureAnswers, SetPointMoisture, defaults};

/// The gas of each duty and the air it is judged in. What cannot be reckoned is told as a sentence.
pub(super) struct Damp<'w> {
    warmth: &'w Warmth<'w, 'w>,
    around: Result<Surroundings, String>,
    gases: [Result<Gas, String>; 5],
    /// What burns at each duty, where it is not the same at all.
    burning: Option<[Burning; 5]>,
    air: ThermodynamicTemperature,
    reached: Estimate<Ratio>,
    hose_share: Estimate<Ratio>,
    /// Duties whose depression or pressure no seal holds.
    beyond: Vec<&'static str>,
}

/// The gas of a duty, and the fresh air drawn in.
#[derive(Clone)]
struct Gas {
    of: DutyGas,
    fresh: Estimate<MassRate>,
}

fn told<T>(result: Result<T, impl std::fmt::Display>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

impl<'w> Damp<'w> {
    pub fn new(context: &Context<'_>, duties: &[DutyAnswers; 5], warmth: &'w Warmth<'w, 'w>) -> Self {
        let project = context.project;
        let air = project.surroundings.coldest;
        let humidity = project.surroundings.humidity.unwrap_or_else(defaults::humidity).high;
        let outside = OutsideAir { temperature: air, humidity, pressure: context.ambient };
        let vapour = told(outside.vapour_share(&mut Silent));
        let lean = |vapour| duties.each_ref().map(|duty| Burning::diesel(duty.air_fuel, vapour));
        let burning = vapour.as_ref().ok().filter(|_| project.engine.is_diesel()).map(|vapour| lean(*vapour));
        let around = vapour.map(|vapour| Surroundings {
            air: outside,
            // Of all duties at once a diesel is told by the one that burns the least air over its fuel.
            burning: burning.map_or_else(|| Burning::petrol(vapour), |each| each[Duty::FullThrottle.index()]),
            burnt_share: project.blow_by.burnt_share.unwrap_or_else(defaults::burnt_share),
            wall_share: project.ventilation.wall_share.unwrap_or_else(defaults::wall_share),
            petrol: (!project.engine.is_diesel()).then(Petrol::usual),
        });
        let gases = Duty::ALL.map(|duty| gas(context, &duties[duty.index()], &mut Silent));
        let reached = project.surroundings.trip_warmth.unwrap_or_else(defaults::trip_warmth);
        let hose_share = project.ventilation.hose_share.unwrap_or_else(defaults::hose_share);
        let beyond = duties.iter().filter(|duty| duty.likely().beyond_seals()).map(|duty| duty.duty.name()).collect();
        Self { warmth, around, gases, burning, air, reached, hose_share, beyond }
    }

    /// The gas of a duty and what is around it.
    fn of(&self, duty: Duty) -> Result<(&Gas, Surroundings), String> {
        let gas = self.gases[duty.index()].as_ref().map_err(Clone::clone)?;
        let mut around = self.around.as_ref().map_err(Clone::clone)?.to_owned();
        if let Some(burning) = &self.burning {
            around.burning = burning[duty.index()];
        }
        Ok((gas, around))
    }

    /// Water alone on the coldest wall of the cover, for what is asked at every set-point.
    fn water(&self, duty: Duty, oil: OilWarmth) -> Result<Condensation, String> {
        let (gas, around) = self.of(duty)?;
        told(condensation(&gas.of, oil, &Surroundings { petrol: None, ..around }, &mut Silent))
    }

    fn at(&self, duty: Duty, oil: OilWarmth, scribe: &mut impl Scribe) -> Result<DutyMoisture, String> {
        let (gas, around) = self.of(duty)?;
        let at = told(condensation(&gas.of, oil, &around, scribe))?;
        // The same gas on a hose's wall; told beside the cover's, without working of its own.
        let in_hose = Surroundings { wall_share: self.hose_share, petrol: None, ..around };
        let hose = told(condensation(&gas.of, oil, &in_hose, &mut Silent))?;
        Ok(DutyMoisture { duty, dilution: gas.of.dilution, fresh: gas.fresh, blow_by: gas.of.blow_by, at, hose })
    }

    fn trip(
        &self,
        duty: Duty,
        set_point: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<DutyMoisture, String> {
        let warm = self.warm_oil(duty, set_point, scribe)?;
        self.at(duty, OilWarmth::Trip { warm, reached: self.reached }, scribe)
    }

    /// The oil of a warm duty in the coldest air; where it is hotter than moisture is known for, what to do about it.
    fn warm_oil(
        &self,
        duty: Duty,
        set_point: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<ThermodynamicTemperature>, String> {
        let oil = self.warmth.in_the_cold(duty, set_point, scribe)?;
        let most = ThermodynamicTemperature::from_base(OIL_TEMPERATURE.high);
        if oil.high <= most {
            return Ok(oil);
        }
        let show = |at| Amount::of(at).show(UnitSystem::Si);
        Err(format!(
            "{}: the oil gets as hot as {} even in the coldest air, and moisture is reckoned up to {}; no water stays in such \
             oil, but the oil itself must be cooler: fit an oil cooler, or hold this power for a shorter time",
            duty.name(),
            show(oil.high),
            show(most)
        ))
    }

    /// What a thermostat of this set-point does to water and petrol in the crankcase.
    pub fn at_set_point(&self, set_point: ThermodynamicTemperature) -> SetPointMoisture {
        SetPointMoisture { trip_margin: self.trip_margin(set_point), warm: self.warm(set_point) }
    }

    /// How far the coldest wall stands above the dew point on a short cold trip, at the unfavourable end.
    fn trip_margin(&self, set_point: ThermodynamicTemperature) -> Result<TemperatureInterval, String> {
        let mut least: Option<TemperatureInterval> = None;
        for duty in SHORT_TRIP {
            let warm = self.warm_oil(duty, set_point, &mut Silent)?;
            let trip = OilWarmth::Trip { warm, reached: self.reached };
            if let Some(margin) = above_dew_point(&self.water(duty, trip)?.unfavourable) {
                least = Some(least.map_or(margin, |least| if margin < least { margin } else { least }));
            }
        }
        least.ok_or_else(|| "the gas is too dry for a dew point".to_owned())
    }

    fn warm(&self, set_point: ThermodynamicTemperature) -> Result<SetPointAnswer, String> {
        let around = self.around.as_ref().map_err(Clone::clone)?;
        // A duty that cannot be told leaves the others be; the duties that last must be known.
        let (mut gases, mut oils) = (Vec::new(), Vec::new());
        for (duty, gas) in Duty::ALL.into_iter().zip(&self.gases) {
            let gas = gas.as_ref().map(|gas| gas.of).map_err(Clone::clone);
            match gas.and_then(|gas| Ok((gas, self.warm_oil(duty, set_point, &mut Silent)?))) {
                Ok((gas, oil)) => {
                    gases.push(gas);
                    oils.push(oil);
                }
                Err(why) if LASTING.contains(&duty) => return Err(why),
                Err(_) => {}
            }
        }
        let row = SetPointOil { set_point, oils: oils.clone() };
        let mut rows = told(by_set_point(&[row], &gases, around, &mut Silent))?;
        let mut row = rows.pop().ok_or_else(|| "there is no duty point".to_owned())?;
        if self.burning.is_some() {
            // A diesel burns with an air of its own at each duty; the worst dew point alone is that of full load.
            for (at, oil) in row.duties.iter_mut().zip(&oils) {
                *at = self.water(at.duty, OilWarmth::At(*oil))?;
            }
        }
        Ok(row)
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
            let oil = self.warm_oil(duty, set_point, scribe)?;
            self.at(duty, OilWarmth::At(oil), scribe)
        });
        let trips = SHORT_TRIP.map(|duty| {
            let key = format!("moisture/short-trip/{}", duty.word());
            scribe.chapter(&key, &format!("Water in the crankcase on a short cold trip: {}", duty.name()));
            let _ = gas(context, &duties[duty.index()], scribe);
            self.trip(duty, set_point, scribe)
        });
        let answers = MoistureAnswers { air: self.air, warm, trips };
        let notes = self.notes(&answers, context.project.engine.is_diesel());
        (answers, notes)
    }

    fn notes(&self, answers: &MoistureAnswers, diesel: bool) -> Vec<Note> {
        let mut notes = answers.worst_trip().map_or_else(Vec::new, |trip| trip.at.notes());
        let ice = answers.trips.iter().flatten().find(|trip| trip.hose.unfavourable.is_icy());
        notes.extend(
            ice.map(|trip| trip.hose.notes())
                .unwrap_or_default()
                .into_iter()
                .filter(|note| note.key == "crankcase-ice"),
        );
        for note in &mut notes {
            if note.key == "condensation" {
                note.text = format!("Short cold trips: {}", small_first(&note.text));
            }
        }
        if answers.trips.iter().flatten().any(|trip| trip.at.likely.oil_is_wet()) {
            let text = if diesel {
                "On short cold trips the oil itself stays below the dew point: water goes into the oil, not only onto the \
                 covers. Run it warm for half an hour once in a while and change the oil by the season, not the distance."
            } else {
                "On short cold trips the oil itself stays below the dew point: water and petrol go into the oil, not only onto \
                 the covers. Run it warm for half an hour once in a while and change the oil by the season, not the distance; \
                 a level that rises, or oil that smells of petrol, is to be changed before it is driven hard."
            };
            notes.push(Note::new("water-in-oil", Weight::Weak, text));
        }
        if diesel {
            notes.push(Note::new("diesel-in-oil", Weight::Weak, DIESEL_IN_OIL));
        }
        let fuel = |trip: &DutyMoisture| trip.at.likely.fuel_dew.wets(trip.at.likely.wall) == Some(true);
        if answers.trips.iter().flatten().any(fuel) {
            notes.push(Note::new(
                "petrol-settles",
                Weight::Danger,
                "On short cold trips petrol settles in covers and hoses together with the water: what drips from a hose or a can \
                 burns. Keep flames and hand lamps away when you open it.",
            ));
        }
        if !self.beyond.is_empty() {
            let text = format!(
                "{}: the crankcase pressure is far beyond what seals hold, so moisture is reckoned at the pressure of the air.",
                self.beyond.join(", ")
            );
            notes.push(Note::new("moisture-at-air-pressure", Weight::Weak, text));
        }
        notes
    }
}

/// What the gas does not tell of a diesel's fuel in its oil. Common practice, no source.
const DIESEL_IN_OIL: &str = "Diesel fuel that gets into the oil stays there: it hardly leaves at oil \
                             temperatures. It comes by the cylinder walls on cold starts, from an injector that drips, and \
                             where fuel is injected late to burn a soot filter free; none of it is reckoned here. A level \
                             that rises or oil that runs thin is to be changed before it is driven hard: thin oil ruins \
                             bearings, and an overfull sump can throw oil into the intake, on which a diesel runs away.";

/// Drawn in over blow-by, below which it is the seat of a shut valve that leaks, not fresh air.
const TRICKLE: f64 = 1e-3;

/// The duties of a short trip.
const SHORT_TRIP: [Duty; 2] = [Duty::Idle, Duty::Cruise];

/// Fresh air over blow-by: what every way draws in, at the three blow-bys.
fn gas(context: &Context<'_>, duty: &DutyAnswers, scribe: &mut impl Scribe) -> Result<Gas, String> {
    let fresh = |case: &crate::study::CrankcaseCase| {
        MassRate::from_base(case.flows.iter().map(|flow| (-flow.out.base()).max(0.0)).sum())
    };
    let [low, likely, high] = &duty.crankcase;
    let blow_by = duty.blow_by.forward;
    let fresh = |case: &crate::study::CrankcaseCase, blow_by: MassRate| {
        let fresh = fresh(case);
        if fresh.base() < TRICKLE * blow_by.base() { MassRate::from_base(0.0) } else { fresh }
    };
    let fresh = Estimate::sorted(fresh(high, blow_by.high), fresh(likely, blow_by.likely), fresh(low, blow_by.low));
    let dilution = told(dilution(&fresh, &blow_by, scribe))?;
    // A seal lets go or draws air in long before such a pressure: the gas is then near that of the air.
    let gauge = if likely.beyond_seals() { 0.0 } else { likely.gauge.base() };
    let pressure = AbsolutePressure::from_base(context.ambient.base() + gauge);
    Ok(Gas { of: DutyGas { duty: duty.duty, blow_by, dilution, pressure }, fresh })
}
