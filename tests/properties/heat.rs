//! Properties: heat.

use coldmark::fluid::{Base, Basis, Mix};
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, FuelPerWork, Measured, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

/// A temperature counts as lower only beyond this, K: the solver's tolerance and what it does to the slope.
const SAME: f64 = 1e-6;

fn rpm(value: f64) -> AngularVelocity {
    AngularVelocity::from_base(value * std::f64::consts::PI / 30.0)
}

prop_compose! {
    /// Any car worth reckoning: from a scooter's radiator to a lorry's, every climate.
    pub fn any_balance()(
        conductance in 200.0..4000.0, area in 0.05..0.6, share in 0.0..1.0, exponent in 0.0..2.0, reference in 1.0..10.0,
        (set, span, beta) in (65.0..95.0, 2.0..20.0, 0.02..=1.0), pump in 0.1..0.8, speed in 600.0..7000.0,
        road in prop_oneof![Just(0.0), 0.0..50.0], fan in prop_oneof![Just(0.0), 0.0..5.0], rise in 0.0..20.0,
        glycol in prop_oneof![Just(0.0), 0.0..0.7], ambient in -20.0..50.0, pressure in 60e3..105e3,
        (heat, propylene, known, loss, ceiling, draught) in
            (1e3..120e3, any::<bool>(), any::<bool>(), prop_oneof![Just(0.0), 0.0..60.0], 80.0..150.0, prop_oneof![Just(0.0), 0.0..0.5]),
    ) -> Balance {
        let base = if propylene { Base::PropyleneGlycol } else { Base::EthyleneGlycol };
        let mix = Mix::new(base, Ratio::from_base(glycol), Basis::ByVolume).unwrap();
        Balance {
            radiator: Radiator {
                ua_reference: ThermalConductance::from_base(conductance),
                reference_face_velocity: Velocity::from_base(reference),
                reference_air_density: MassDensity::from_base(1.15),
                reference_coolant_flow: VolumeRate::from_base(2e-3),
                frontal_area: Area::from_base(area),
                air_side_resistance_share: Ratio::from_base(share),
                air_side_exponent: Ratio::from_base(exponent),
                reference_coolant: known.then_some(ReferenceCoolant { mix: Mix::water(), temperature: celsius(80.0) }),
                tubes: Some(Tubes {
                    flow_area: Area::from_base(1e-3),
                    hydraulic_diameter: Length::from_base(3e-3),
                    aspect: Ratio::from_base(0.08),
                    length: Length::from_base(0.5),
                }),
            },
            thermostat: Thermostat { set_point: celsius(set), span: TemperatureInterval::from_base(span), resistance_share: Ratio::from_base(beta) },
            pump: Pump { flow_at_1000_rpm: VolumeRate::from_base(pump * 1e-3) },
            engine_speed: rpm(speed),
            airflow: Airflow {
                road_speed: Velocity::from_base(road),
                ram_share: Ratio::from_base(0.17),
                fan_velocity: Velocity::from_base(fan),
                draught: Velocity::from_base(draught),
                recirculation_rise: TemperatureInterval::from_base(rise),
                recirculation_gone_at: Velocity::from_base(8.0),
            },
            mix,
            ambient_pressure: AbsolutePressure::new(pascals(pressure)),
            ambient_temperature: celsius(ambient),
            heat: Power::from_base(heat),
            engine_loss: ThermalConductance::from_base(loss),
            ceiling: celsius(ceiling),
        }
    }
}

/// The temperature it settles at; above the limit for all that is known when it does not settle. `None` when the
/// coolant is frozen at the temperatures met.
fn temperature(balance: &Balance) -> Option<f64> {
    match balance.solve(&mut Silent) {
        Ok(Outcome::Steady(state)) => Some(state.outlet_temperature.base()),
        Ok(Outcome::None(_)) => Some(f64::INFINITY),
        Err(HeatError::Fluid(_)) => None,
        Err(other) => panic!("{other}\n{balance:?}"),
    }
}

fn not_cooler(before: &Balance, after: &Balance) -> Result<(), TestCaseError> {
    if let (Some(before), Some(after)) = (temperature(before), temperature(after)) {
        prop_assert!(after >= before - SAME, "{before} K fell to {after} K");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_balance_closes_and_every_number_is_one(balance in any_balance()) {
        let Ok(outcome) = balance.solve(&mut Silent) else { return Ok(()) };
        match outcome {
            Outcome::Steady(state) => {
                let t = state.outlet_temperature.base();
                prop_assert_eq!(balance.outlet_temperature().unwrap(), Some(state.outlet_temperature));
                prop_assert!(state.closure.residual.base().abs() <= state.closure.allowed.base());
                prop_assert!(t <= state.limit.base() && t >= balance.ambient_temperature.base());
                let sum = state.radiator.heat.base() + state.loss.base();
                prop_assert!((sum - balance.heat.base()).abs() <= state.closure.allowed.base());
                prop_assert!(state.spare_to_limit.base() >= -state.closure.allowed.base());
                for value in [
                    state.opening.base(), state.radiator_spare.base(), state.radiator.conductance.base(),
                    state.radiator.coolant_return.base(), state.radiator.air_outlet.base(), state.margin.base(),
                ] {
                    prop_assert!(value.is_finite());
                }
                // What comes back from the radiator is not colder than the air, and the air not hotter than the coolant.
                let air = state.inlet_air.base();
                if t >= air {
                    prop_assert!(state.radiator.coolant_return.base() >= air - SAME);
                    prop_assert!(state.radiator.air_outlet.base() <= t + SAME);
                }
                match state.ruler {
                    Ruler::LossesRule => prop_assert!(t <= balance.thermostat.set_point.base() + SAME),
                    Ruler::ThermostatRules => prop_assert!(
                        t >= balance.thermostat.set_point.base() - SAME
                            && t <= balance.thermostat.full_open().base() + SAME
                    ),
                    Ruler::RadiatorRules => {
                        prop_assert_eq!(state.opening.base(), 1.0);
                        prop_assert_eq!(state.fully_open_temperature, Some(state.outlet_temperature));
                    }
                }
                // An open radiator cools more, unless its air is warmer than the coolant.
                if let Some(full) = state.fully_open_temperature.filter(|_| t >= air) {
                    prop_assert!(full.base() <= t + SAME);
                }
            }
            Outcome::None(none) => {
                prop_assert!(none.deficit.base() > 0.0);
                prop_assert_eq!(balance.outlet_temperature().unwrap(), None);
                prop_assert!((none.carried.base() + none.deficit.base() - balance.heat.base()).abs() < 1e-6);
                prop_assert_eq!(none.reason == Reason::RadiatorTooSmall, none.deficit_wide_open.base() > 0.0);
                prop_assert!(!none.to_string().is_empty());
            }
        }
    }

    #[test]
    fn more_heat_is_never_cooler(balance in any_balance(), more in 1.0..2.0) {
        let after = Balance { heat: Power::from_base(balance.heat.base() * more), ..balance };
        not_cooler(&balance, &after)?;
    }

    #[test]
    fn a_hotter_day_is_never_cooler(balance in any_balance(), more in 0.0..20.0) {
        let warmer = ThermodynamicTemperature::from_base(balance.ambient_temperature.base() + more);
        not_cooler(&balance, &Balance { ambient_temperature: warmer, ..balance })?;
    }

    #[test]
    fn more_air_is_never_hotter(balance in any_balance(), road in 0.0..20.0, fan in 0.0..5.0) {
        let mut airflow = balance.airflow;
        airflow.road_speed += Velocity::from_base(road);
        airflow.fan_velocity += Velocity::from_base(fan);
        not_cooler(&Balance { airflow, ..balance }, &balance)?;
    }

    #[test]
    fn a_higher_setting_is_never_cooler(balance in any_balance(), more in 0.0..20.0) {
        let mut thermostat = balance.thermostat;
        thermostat.set_point += TemperatureInterval::from_base(more);
        not_cooler(&balance, &Balance { thermostat, ..balance })?;
    }

    #[test]
    fn at_the_hottest_ambient_it_just_holds(balance in any_balance()) {
        let Ok(Outcome::Steady(state)) = balance.solve(&mut Silent) else { return Ok(()) };
        let range = coldmark::heat::balance::AMBIENT_TEMPERATURE;
        let Some(hottest) = state.hottest_ambient.filter(|t| range.check(*t).is_ok()) else { return Ok(()) };
        prop_assert!(hottest.base() >= balance.ambient_temperature.base() - SAME);
        let shifted = |by: f64| Balance {
            ambient_temperature: ThermodynamicTemperature::from_base((hottest.base() + by).min(range.high)),
            ..balance
        };
        if let Some(below) = temperature(&shifted(-1e-3)) {
            prop_assert!(below <= state.limit.base() + SAME);
        }
        if let Some(above) = temperature(&shifted(1e-3)).filter(|_| hottest.base() + 1e-3 < range.high) {
            prop_assert!(above >= state.limit.base() - 0.1, "{above} at a limit of {}", state.limit.base());
        }
    }

    #[test]
    fn a_measured_radiator_carries_what_was_measured(
        heat in 1e3..150e3, area in 0.05..0.6, share in 0.0..1.0, coolant in 50.0..125.0, air in -20.0..50.0,
        face in 0.5..15.0, flow in 0.05..3.0,
    ) {
        let duty = RadiatorDuty {
            mix: Mix::new(Base::EthyleneGlycol, Ratio::from_base(0.5), Basis::ByVolume).unwrap(),
            coolant_temperature: celsius(coolant),
            coolant_flow: VolumeRate::from_base(flow * 1e-3),
            air_temperature: celsius(air),
            air_pressure: AbsolutePressure::new(pascals(100e3)),
            face_velocity: Velocity::from_base(face),
        };
        let power = Power::from_base(heat);
        let (area, share) = (Area::from_base(area), Ratio::from_base(share));
        match Radiator::from_measured_point(area, share, &duty, power, &mut Silent) {
            Ok(radiator) => {
                let carried = radiator.heat(&duty, &mut Silent).unwrap().heat.base();
                prop_assert!((carried / heat - 1.0).abs() < 1e-6, "{carried} instead of {heat}");
            }
            Err(HeatError::ImpossibleMeasurement { most, .. }) => prop_assert!(most.base() <= heat),
            // The measurement asks for a radiator larger or smaller than any car's.
            Err(HeatError::OutOfRange(_)) => {}
            Err(other) => prop_assert!(false, "{other}"),
        }
    }

    #[test]
    fn effectiveness_rises_with_size_and_falls_with_the_ratio(
        log in -8.0..8.0, larger in 1.0..3.0, ratio in 0.0..1.0, less in 0.0..1.0,
    ) {
        let at = |ntu: f64, cr: f64| {
            crossflow(Ratio::from_base(ntu), Ratio::from_base(cr), &mut Silent).unwrap().base()
        };
        let ntu = f64::exp(log);
        let here = at(ntu, ratio);
        prop_assert!((0.0..=1.0).contains(&here));
        prop_assert!(at(ntu * larger, ratio) >= here - 1e-14);
        prop_assert!(at(ntu, ratio * less) >= here - 1e-14);
    }

    #[test]
    fn warming_up_takes_what_a_step_by_step_march_takes(
        heat in 2e3..40e3, capacity in 30e3..200e3, loss in 0.0..60.0, ambient in -20.0..30.0, rise in 20.0..90.0,
    ) {
        let warm_up = WarmUp {
            heat: Power::from_base(heat),
            heat_capacity: HeatCapacity::from_base(capacity),
            loss: ThermalConductance::from_base(loss),
            ambient: celsius(ambient),
            start: celsius(ambient),
        };
        match warm_up.time_to(celsius(ambient + rise), &mut Silent).unwrap() {
            WarmUpEnd::NeverReached { settles_at } => {
                prop_assert!(settles_at.base() <= celsius(ambient + rise).base() + 1e-9);
            }
            WarmUpEnd::Reached { after } => {
                // Runge–Kutta of the fourth order on the differential equation itself.
                let rate = |t: f64| (heat - loss * t) / capacity;
                let (mut t, step) = (0.0_f64, after.base() / 2000.0);
                for _ in 0..2000 {
                    let k1 = rate(t);
                    let k2 = rate(t + 0.5 * step * k1);
                    let k3 = rate(t + 0.5 * step * k2);
                    let k4 = rate(t + step * k3);
                    t += step / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
                }
                // A target close under where it settles is reached late; the march then ends there too.
                let rise: f64 = rise;
                prop_assert!((t - rise).abs() < 1e-5, "{t} instead of {rise}");
            }
        }
    }

    #[test]
    fn no_input_panics_or_gives_a_number_that_is_none(
        values in prop::collection::vec(
            prop_oneof![any::<f64>(), -1e3..1e3, Just(0.0), Just(f64::NAN), Just(f64::INFINITY)], 20
        ),
        balance in any_balance(),
        spoilt in 0_usize..18,
    ) {
        let v = |i: usize| values[i];
        let mut b = balance;
        match spoilt {
            0 => b.radiator.ua_reference = ThermalConductance::from_base(v(0)),
            1 => b.radiator.reference_face_velocity = Velocity::from_base(v(0)),
            2 => b.radiator.reference_air_density = MassDensity::from_base(v(0)),
            3 => b.radiator.reference_coolant_flow = VolumeRate::from_base(v(0)),
            4 => b.radiator.frontal_area = Area::from_base(v(0)),
            5 => b.radiator.air_side_resistance_share = Ratio::from_base(v(0)),
            6 => b.thermostat.set_point = ThermodynamicTemperature::from_base(v(0)),
            7 => b.thermostat.span = TemperatureInterval::from_base(v(0)),
            8 => b.pump.flow_at_1000_rpm = VolumeRate::from_base(v(0)),
            9 => b.engine_speed = AngularVelocity::from_base(v(0)),
            10 => b.airflow.road_speed = Velocity::from_base(v(0)),
            11 => b.airflow.fan_velocity = Velocity::from_base(v(0)),
            12 => b.airflow.recirculation_rise = TemperatureInterval::from_base(v(0)),
            13 => b.ambient_pressure = AbsolutePressure::new(pascals(v(0))),
            14 => b.ambient_temperature = ThermodynamicTemperature::from_base(v(0)),
            15 => b.heat = Power::from_base(v(0)),
            16 => b.engine_loss = ThermalConductance::from_base(v(0)),
            _ => b.ceiling = ThermodynamicTemperature::from_base(v(0)),
        }
        match b.solve(&mut Silent) {
            Ok(Outcome::Steady(state)) => prop_assert!(state.outlet_temperature.base().is_finite()),
            Ok(Outcome::None(none)) => prop_assert!(none.deficit.base().is_finite()),
            Err(error) => prop_assert!(!matches!(error, HeatError::Numeric(_)), "{error}"),
        }

        let road = RoadLoad {
            mass: Mass::from_base(v(1)),
            drag_area: Area::from_base(v(2)),
            rolling_resistance: Ratio::from_base(v(3)),
            grade: Ratio::from_base(v(4)),
            speed: Velocity::from_base(v(5)),
            accelerating: Force::from_base(v(8)),
            air_density: MassDensity::from_base(v(6)),
            drivetrain_efficiency: Ratio::from_base(v(7)),
        };
        if let Ok(power) = road.power(&mut Silent) {
            prop_assert!(power.engine.base().is_finite());
        }
        let duty = EngineDuty {
            displacement: Volume::from_base(v(8)),
            speed: AngularVelocity::from_base(v(9)),
            brake_power: Power::from_base(v(10)),
            rated_power: Power::from_base(v(11)),
        };
        if let Ok(heat) = heat_to_coolant(&duty, &HeatModel::usual(Ignition::Diesel), &mut Silent) {
            prop_assert!(heat.heat.high.base().is_finite());
        }
        let breathing = Breathing {
            displacement: Volume::from_base(v(8)),
            speed: AngularVelocity::from_base(v(9)),
            brake_power: Power::from_base(v(10)),
            consumption: FuelPerWork::from_base(v(12)),
            air_fuel_ratio: Ratio::from_base(v(13)),
            volumetric_efficiency: Ratio::from_base(v(14)),
            intake_temperature: ThermodynamicTemperature::from_base(v(15)),
            ambient_pressure: AbsolutePressure::new(pascals(v(16))),
            least_pressure: AbsolutePressure::new(pascals(v(17))),
        };
        if let Ok(manifold) = breathing.manifold(&mut Silent) {
            prop_assert!(manifold.pressure.base().is_finite());
        }
        let kelvin = ThermodynamicTemperature::from_base;
        let oil = |i: usize| (kelvin(v(i)), KinematicViscosity::from_base(v(i + 1)));
        if let Ok(oil) = Oil::from_two(oil(0), oil(2)) {
            let _ = oil.viscosity(kelvin(v(4)), &mut Silent);
        }
    }

    #[test]
    fn any_oil_thins_with_heat(
        cool in 20.0..400.0_f64, share in 0.05..0.5, at in -30.0..180.0, more in 0.1..20.0,
    ) {
        let square_mm = |value: f64| KinematicViscosity::from_base(value * 1e-6);
        let oil = Oil::from_two(
            (celsius(40.0), square_mm(cool)),
            (celsius(100.0), square_mm(f64::max(cool * share, 2.0))),
        ).unwrap();
        let at_temperature = |t: f64| oil.viscosity(celsius(t), &mut Silent);
        prop_assert!((at_temperature(40.0).unwrap().base() / (cool * 1e-6) - 1.0).abs() < 1e-9);
        if let (Ok(before), Ok(after)) = (at_temperature(at), at_temperature(at + more)) {
            prop_assert!(after.base() < before.base() && before.base().is_finite());
        }
    }

    #[test]
    fn more_power_never_means_less_heat_or_manifold_pressure(
        power in 0.0..100e3, more in 0.0..50e3, speed in 700.0..6500.0,
    ) {
        let duty = |power: f64| EngineDuty {
            displacement: Volume::from_base(5.7e-3),
            speed: rpm(speed),
            brake_power: Power::from_base(power),
            rated_power: Power::from_base(160e3),
        };
        let heat = |power: f64| {
            heat_to_coolant(&duty(power), &HeatModel::usual(Ignition::Spark), &mut Silent).unwrap().heat
        };
        let (before, after) = (heat(power), heat(power + more));
        prop_assert!(after.likely.base() >= before.likely.base() * (1.0 - 1e-12));
        prop_assert!(before.low.base() > 0.0 && before.low <= before.likely && before.likely <= before.high);
    }
}
