//! The radiator at low, likely and high, from what is known of it, with the pump and the air that meet it.

use super::Fail;
use super::context::Context;
use super::thermal::{heat_of, thermostat};
use crate::heat::{self, Airflow, Pump, Radiator, RadiatorDuty};
use crate::quantity::si::{Power, Ratio, ThermalConductance, Velocity};
use crate::quantity::{Amount, Estimate, Measured, UnitSystem};
use crate::scribe::Scribe;
use crate::study::{Problems, RadiatorKnowledge, defaults};

/// Face velocity at which a radiator's conductance is stated, m/s.
const STATED_AT: f64 = 5.0;
/// Speed at which the coolant flow of a stated conductance is counted: 3000 rpm, rad/s.
const STATED_SPEED: f64 = 3000.0 * std::f64::consts::PI / 30.0;
/// Opening of the thermostat below which a measured temperature says nothing of the radiator.
const LEAST_OPENING: f64 = 0.25;

/// The radiator with its conductance at low, likely and high.
pub(super) struct Radiators([Radiator; 3]);

impl Radiators {
    pub fn of(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.radiator;
        let share = heat::defaults::air_side_share().likely();
        if inputs.knowledge == RadiatorKnowledge::MeasuredPoint {
            return Self::measured(context, share, scribe);
        }
        let conductance = inputs.conductance.unwrap_or_else(|| defaults::radiator_conductance(inputs.frontal_area));
        let flow = pump(context).flow_at_1000_rpm.base() * STATED_SPEED * 30.0 / (1000.0 * std::f64::consts::PI);
        let with = |ua: ThermalConductance| Radiator {
            ua_reference: ua,
            reference_face_velocity: Velocity::from_base(STATED_AT),
            reference_air_density: defaults::radiator_reference_density(),
            reference_coolant_flow: Measured::from_base(flow),
            frontal_area: inputs.frontal_area,
            air_side_resistance_share: share,
            reference_coolant: None,
            tubes: None,
        };
        Ok(Self([conductance.low, conductance.likely, conductance.high].map(with)))
    }

    fn measured(context: &Context<'_>, share: Ratio, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.radiator;
        scribe.chapter("radiator", "Radiator from the measured temperature");
        let airflow = airflow(context, inputs.measured_speed);
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
        let flow = pump(context).flow(speed, opening, scribe).fail("radiator.measured_rpm")?;
        let heat = heat_of(context, speed, inputs.measured_power, false, scribe)
            .map_err(|message| super::problem("radiator.measured_power", message))?;
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
        three.map(Self).map_err(|_| super::problem("radiator", "the radiator could not be worked out"))
    }

    pub const fn likely(&self) -> &Radiator {
        &self.0[1]
    }

    /// What may go wrong at the unfavourable end: radiator and heat to try together.
    ///
    /// A radiator worked out from a measured temperature shares its doubt with the heat it was worked out from, so low
    /// goes with low and high with high; an estimated one does not.
    pub fn unfavourable(&self, context: &Context<'_>, heat: &Estimate<Power>) -> [(&Radiator, Power); 2] {
        let [low, likely, high] = &self.0;
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

pub(super) fn pump(context: &Context<'_>) -> Pump {
    let engine = &context.project.engine;
    Pump { flow_at_1000_rpm: engine.pump_flow.unwrap_or_else(|| defaults::pump_flow(engine)).likely }
}

pub(super) fn airflow(context: &Context<'_>, road_speed: Velocity) -> Airflow {
    let inputs = &context.project.radiator;
    Airflow {
        road_speed,
        ram_share: inputs.ram_share.unwrap_or_else(defaults::ram_share).likely,
        fan_velocity: inputs.fan_speed.unwrap_or_else(defaults::fan_speed).likely,
        recirculation_rise: inputs.recirculation.unwrap_or_else(defaults::recirculation).likely,
        recirculation_gone_at: heat::defaults::recirculation_gone_at().likely(),
    }
}

