//! The radiator at low, likely and high, from what is known of it, with the pump and the air that meet it.

use super::context::Context;
use super::engine_heat::EngineHeat;
use super::oil_heat::cooler_at_measurement;
use super::thermal::thermostat;
use super::{Fail, fan};
use crate::heat::matrix::LOUVRE_REYNOLDS;
use crate::heat::{self, MatrixHeat, MatrixPoint, Pump, Radiator, RadiatorDuty};
use crate::note::{Note, Weight};
use crate::quantity::si::{Power, Ratio, ThermalConductance, Velocity, VolumeRate};
use crate::quantity::{ATMOSPHERE, AbsolutePressure, Amount, Estimate, Kind, Measured, UnitSystem, celsius};
use crate::scribe::{Scribe, Silent};
use crate::study::{DutyAnswers, FinKind, Problems, RadiatorAnswers, RadiatorKnowledge, Thermal, defaults};

/// Face velocity at which a radiator's conductance is stated, m/s.
const STATED_AT: f64 = 5.0;
/// Speed at which the coolant flow of a stated conductance is counted: 3000 rpm, rad/s.
const STATED_SPEED: f64 = 3000.0 * std::f64::consts::PI / 30.0;
/// Air and coolant temperature at which a core's conductance is stated, °C.
const STATED_AIR: f64 = 34.0;
const STATED_COOLANT: f64 = 90.0;
/// Opening of the thermostat below which a measured temperature says nothing of the radiator.
const LEAST_OPENING: f64 = 0.25;

/// The radiator with its conductance at low, likely and high.
pub(super) struct Radiators {
    three: [Radiator; 3],
    /// What the core says, if the radiator is known from it.
    core: Option<MatrixHeat>,
}

impl Radiators {
    pub fn of(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.radiator;
        let share = heat::defaults::air_side_share().likely();
        match inputs.knowledge {
            RadiatorKnowledge::MeasuredPoint => return Self::measured(context, share, scribe),
            RadiatorKnowledge::Core => return Self::from_core(context, scribe),
            RadiatorKnowledge::Estimated => {}
        }
        let conductance = inputs.conductance.unwrap_or_else(|| defaults::radiator_conductance(inputs.frontal_area));
        let flow = stated_flow(context);
        let with = |ua: ThermalConductance| Radiator {
            ua_reference: ua,
            reference_face_velocity: Velocity::from_base(STATED_AT),
            reference_air_density: defaults::radiator_reference_density(),
            reference_coolant_flow: flow,
            frontal_area: inputs.frontal_area,
            air_side_resistance_share: share,
            air_side_exponent: heat::defaults::air_side_exponent().likely(),
            reference_coolant: None,
            tubes: None,
        };
        Ok(Self { three: [conductance.low, conductance.likely, conductance.high].map(with), core: None })
    }

    fn from_core(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let project = context.project;
        scribe.chapter("radiator", "Radiator from its core");
        let point = MatrixPoint {
            face_velocity: Velocity::from_base(STATED_AT),
            air_temperature: celsius(STATED_AIR),
            air_pressure: AbsolutePressure::from_base(ATMOSPHERE),
            coolant_flow: stated_flow(context),
            mix: context.mix,
            coolant_temperature: celsius(STATED_COOLANT),
        };
        let core = project.radiator.core.matrix(project.circuit.radiator_metal);
        let heat = core.conductance(&point, &project.radiator.core.doubt(), scribe).fail("radiator.core")?;
        Ok(Self { three: heat.radiators, core: Some(heat) })
    }

    /// The radiator by itself.
    pub fn answers(&self, known_from: RadiatorKnowledge) -> RadiatorAnswers {
        let [low, likely, high] = &self.three;
        // Worked out from a measured temperature the end of less heat is the lower one.
        let conductance = Estimate::sorted(low.ua_reference, likely.ua_reference, high.ua_reference);
        RadiatorAnswers {
            known_from,
            conductance,
            at: likely.reference_face_velocity,
            flow: likely.reference_coolant_flow,
            face: likely.frontal_area,
            air_share: likely.air_side_resistance_share,
            core: self.core.clone(),
        }
    }

    /// What weakens a core's conductance, and what a fan calls for.
    pub fn notes(&self, context: &Context<'_>) -> Vec<Note> {
        let mut notes = self.core.as_ref().map_or_else(Vec::new, |core| core.notes.clone());
        notes.extend(fan::caution(context));
        notes.extend(fan::beyond_its_curve(context));
        notes.extend(fan::larger_than_core(context));
        notes.extend(fan::hardly_goes_off(context));
        notes
    }

    /// Duties whose air flows slower or faster between louvres than in the cores their correlation was made from.
    pub fn outside_louvres(&self, context: &Context<'_>, duties: &[DutyAnswers; 5]) -> Option<Note> {
        let core = self.core.as_ref().filter(|_| context.project.radiator.core.fin == FinKind::Louvred)?;
        let (low, high) = (LOUVRE_REYNOLDS.low, LOUVRE_REYNOLDS.high);
        let thin = context.ambient.base() / ATMOSPHERE;
        let told = duties.iter().filter_map(|duty| {
            let Thermal::Steady { face_velocity, .. } = &duty.thermal else { return None };
            let reynolds = core.air_reynolds.base() * thin * face_velocity.base() / STATED_AT;
            let air = Amount::of_kind(*face_velocity, Kind::GasSpeed).show(UnitSystem::Si);
            let outside = reynolds > 0.0 && !(low..=high).contains(&reynolds);
            outside.then(|| format!("{} ({air}, about {reynolds:.0})", duty.duty.name()))
        });
        let told: Vec<_> = told.collect();
        (!told.is_empty()).then(|| {
            let text = format!(
                "The Reynolds number of the louvres lies outside {low:.0} to {high:.0}, the range of their correlation: {}. What \
                 the core carries there is scaled from its reference point and less sure than its spread says.",
                told.join(", ")
            );
            Note::new("radiator-core-air-outside", Weight::Weak, text)
        })
    }

    fn measured(context: &Context<'_>, share: Ratio, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.radiator;
        scribe.chapter("radiator", "Radiator from the measured temperature");
        let airflow = fan::measured(context, scribe)?;
        let speed = inputs.measured_rpm;
        // A thermostat that was not wide open let only part of the pump's flow through the radiator.
        let stat = thermostat(context, context.project.thermostat.set_point);
        let opening = stat.opening(inputs.measured_coolant, scribe).fail("radiator.measured_coolant")?;
        if opening.base() < LEAST_OPENING {
            let message = format!(
                "at {} a thermostat of {} is hardly open, so it ruled and not the radiator; measure where the temperature \
                 settles above {}, on a long climb or a hot day",
                Amount::of(inputs.measured_coolant).show(UnitSystem::Si),
                Amount::of(stat.set_point).show(UnitSystem::Si),
                Amount::of(stat.full_open()).show(UnitSystem::Si)
            );
            return Err(super::problem("radiator.measured_coolant", message));
        }
        let passed = stat.passed(opening, scribe).fail("radiator.measured_coolant")?;
        let flow = pump(context).flow(speed, passed, scribe).fail("radiator.measured_rpm")?;
        let engine = EngineHeat::at(context, None, speed, inputs.measured_power, scribe)
            .and_then(|friction| friction.to_oil(context, &mut Silent))
            .fail("radiator.measured_power")?;
        let beside = cooler_at_measurement(context, &engine)?.heat(inputs.measured_coolant, inputs.measured_air);
        let heat = engine.coolant.map(|heat| heat + beside);
        let duty = RadiatorDuty {
            mix: context.mix,
            coolant_temperature: inputs.measured_coolant,
            coolant_flow: flow,
            air_temperature: airflow.inlet_temperature(inputs.measured_air, scribe).fail("radiator.measured_air")?,
            air_pressure: context.ambient,
            face_velocity: airflow.face_velocity(scribe).fail("radiator.measured_speed")?,
        };
        let mut radiators = Vec::with_capacity(3);
        for heat in [heat.low, heat.likely, heat.high] {
            let radiator = Radiator::from_measured_point(inputs.frontal_area, share, &duty, heat, scribe);
            radiators.push(radiator.fail("radiator.measured_coolant")?);
        }
        let three: Result<[Radiator; 3], _> = radiators.try_into();
        three
            .map(|three| Self { three, core: None })
            .map_err(|_| super::problem("radiator", "the radiator could not be worked out"))
    }

    /// At the low, the likely and the high conductance.
    pub const fn each(&self) -> &[Radiator; 3] {
        &self.three
    }

    pub const fn likely(&self) -> &Radiator {
        &self.three[1]
    }

    /// What may go wrong at the unfavourable end: radiator and heat to try together.
    ///
    /// A radiator worked out from a measured temperature shares its doubt with the heat it was worked out from, so low
    /// goes with low and high with high; an estimated one does not.
    pub fn unfavourable(&self, context: &Context<'_>, heat: &Estimate<Power>) -> [(&Radiator, Power); 2] {
        let [low, likely, high] = &self.three;
        if context.project.radiator.knowledge == RadiatorKnowledge::MeasuredPoint {
            [(low, heat.low), (high, heat.high)]
        } else {
            [(likely, heat.high), (low, heat.likely)]
        }
    }

    /// The likely radiator with its conductance and area scaled.
    pub fn scaled(&self, by: f64) -> Radiator {
        let likely = self.likely();
        Radiator {
            ua_reference: ThermalConductance::from_base(likely.ua_reference.base() * by),
            frontal_area: Measured::from_base(likely.frontal_area.base() * by),
            ..*likely
        }
    }
}

/// Coolant flow at which a conductance is stated.
fn stated_flow(context: &Context<'_>) -> VolumeRate {
    let flow = pump(context).flow_at_1000_rpm.base();
    VolumeRate::from_base(flow * STATED_SPEED * 30.0 / (1000.0 * std::f64::consts::PI))
}

pub(super) fn pump(context: &Context<'_>) -> Pump {
    let engine = &context.project.engine;
    Pump { flow_at_1000_rpm: engine.pump_flow.unwrap_or_else(|| defaults::pump_flow(engine)).likely }
}
