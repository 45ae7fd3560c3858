//! The ends a balance can come to, on one car.

use super::*;
use crate::fluid::{Base, Basis};
use crate::heat::Outcome;
use crate::quantity::si::{Area, MassDensity};
use crate::quantity::{celsius, in_celsius, pascals};
use crate::scribe::Writing;

/// An invented V8: 2000 W/K, 0.30 m², 82 °C thermostat, 66 kW at 35 °C ambient.
fn car() -> Balance {
    Balance {
        radiator: Radiator {
            ua_reference: ThermalConductance::from_base(2000.0),
            reference_face_velocity: Velocity::from_base(5.0),
            reference_air_density: MassDensity::from_base(1.15),
            reference_coolant_flow: VolumeRate::from_base(2e-3),
            frontal_area: Area::from_base(0.3),
            air_side_resistance_share: Ratio::from_base(0.8),
            air_side_exponent: Ratio::from_base(0.5),
            reference_coolant: None,
            tubes: None,
        },
        thermostat: Thermostat {
            set_point: celsius(82.0),
            span: TemperatureInterval::from_base(12.0),
            resistance_share: Ratio::from_base(1.0),
        },
        pump: Pump { flow_at_1000_rpm: VolumeRate::from_base(0.8e-3) },
        engine_speed: AngularVelocity::from_base(2500.0 * std::f64::consts::PI / 30.0),
        airflow: Airflow::known_face_velocity(Velocity::from_base(5.0)),
        mix: Mix::new(Base::EthyleneGlycol, Ratio::from_base(0.5), Basis::ByVolume).unwrap(),
        ambient_pressure: AbsolutePressure::new(pascals(97_773.0)),
        ambient_temperature: celsius(35.0),
        heat: Power::from_base(66e3),
        engine_loss: ThermalConductance::from_base(0.0),
        ceiling: celsius(127.0),
    }
}

fn none(balance: &Balance) -> NoSteadyState {
    match balance.solve(&mut Silent).unwrap() {
        Outcome::None(none) => none,
        Outcome::Steady(state) => panic!("settles at {} °C", in_celsius(state.outlet_temperature)),
    }
}

#[test]
fn too_much_heat_boils_and_no_temperature_is_given() {
    let hot = none(&Balance { heat: Power::from_base(120e3), ..car() });
    assert_eq!((hot.reason, hot.limit_by), (Reason::RadiatorTooSmall, Limit::Ceiling));
    assert!(hot.to_string().starts_with("boils before the radiator can carry the heat"), "{hot}");
    // The deficit is exactly what must be taken away for it to settle at the limit.
    let relieved = Balance { heat: Power::from_base(120e3 - hot.deficit.base() - 1e-3), ..car() };
    let t = relieved.outlet_temperature().unwrap().unwrap();
    assert!((in_celsius(t) - 127.0).abs() < 1e-3);
    let data = none(&Balance { heat: Power::from_base(120e3), ceiling: celsius(136.0), ..car() });
    assert_eq!((data.limit_by, in_celsius(data.limit).round()), (Limit::FluidData, 130.0));
}

#[test]
fn without_air_nothing_is_carried() {
    let still = none(&Balance { airflow: Airflow::known_face_velocity(Velocity::from_base(0.0)), ..car() });
    assert_eq!(still.deficit, car().heat);
}

#[test]
fn a_late_thermostat_is_told_from_a_small_radiator() {
    let thermostat = Thermostat {
        set_point: celsius(95.0),
        span: TemperatureInterval::from_base(15.0),
        resistance_share: Ratio::from_base(1.0),
    };
    let late = none(&Balance { thermostat, ceiling: celsius(98.0), ..car() });
    assert_eq!(late.reason, Reason::ThermostatTooLate);
    assert!(late.deficit_wide_open.base() < 0.0);
}

#[test]
fn losses_alone_hold_a_light_engine_below_its_thermostat() {
    let cold = Balance {
        heat: Power::from_base(600.0),
        engine_loss: ThermalConductance::from_base(20.0),
        ambient_temperature: celsius(10.0),
        ..car()
    };
    let outcome = cold.solve(&mut Silent).unwrap();
    let state = outcome.steady().unwrap();
    assert_eq!(state.ruler, Ruler::LossesRule);
    assert!((in_celsius(state.outlet_temperature) - 40.0).abs() < 1e-9);
    assert_eq!(state.coolant_flow.base(), 0.0);
}

#[test]
fn losses_that_hold_below_the_thermostat_may_still_pass_the_limit() {
    // They balance at 85 °C, under a 90 °C thermostat and above a limit of 80 °C.
    let thermostat = Thermostat {
        set_point: celsius(90.0),
        span: TemperatureInterval::from_base(12.0),
        resistance_share: Ratio::from_base(1.0),
    };
    let late = none(&Balance {
        thermostat,
        heat: Power::from_base(1000.0),
        engine_loss: ThermalConductance::from_base(20.0),
        ceiling: celsius(80.0),
        ..car()
    });
    assert_eq!(late.reason, Reason::ThermostatTooLate);
    assert!((late.deficit.base() - 100.0).abs() < 1e-6);
}

#[test]
fn an_open_radiator_that_would_freeze_its_coolant_gives_no_temperature() {
    let frost =
        Balance { mix: Mix::water(), heat: Power::from_base(3e3), ambient_temperature: celsius(-30.0), ..car() };
    let outcome = frost.solve(&mut Silent).unwrap();
    let state = outcome.steady().unwrap();
    assert_eq!((state.ruler, state.fully_open_temperature), (Ruler::ThermostatRules, None));
}

#[test]
fn the_working_of_a_boiling_engine_ends_in_the_deficit() {
    let mut working = Writing::default();
    let outcome = Balance { heat: Power::from_base(120e3), ..car() }.solve(&mut working).unwrap();
    let Outcome::None(hot) = outcome else { panic!("settles") };
    let last = working.chapters.last().and_then(|chapter| chapter.steps.last()).unwrap();
    assert_eq!(last.result.base, hot.deficit.base());
}
