//! Properties: radiator cores, fans and their switch, the thermostat's way down.

use crate::any::of;
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::heat::fan::{cooling_branch, solve_with_fan};
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, Estimate, Measured, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

fn millimetres(value: f64) -> Length {
    Length::from_base(value * 1e-3)
}

prop_compose! {
    /// Any core a car might have.
    fn any_matrix()(
        across in 200.0..800.0, along in 200.0..800.0, rows in 1..=5_u32, tube_width in 10.0..26.0, slack in 0.0..12.0,
        thickness in 1.6..3.0, gap in 4.0..10.0, wall in 0.15..0.4, fin_pitch in 1.0..3.5, fin in 0.05..0.12,
        (louvred, louvre, angle, share, copper) in (any::<bool>(), 0.8..1.6, 18.0..32.0_f64, 0.7..0.95, any::<bool>()),
    ) -> Matrix {
        let louvres = Louvres { pitch: millimetres(louvre), angle: of(angle.to_radians()), length_share: of(share) };
        Matrix {
            across: millimetres(across),
            tube_length: millimetres(along),
            depth: millimetres(f64::from(rows) * tube_width + slack),
            rows,
            tube_width: millimetres(tube_width),
            tube_thickness: millimetres(thickness),
            tube_pitch: millimetres(thickness + gap),
            tube_wall: millimetres(wall),
            fin_pitch: millimetres(fin_pitch),
            fin_thickness: millimetres(fin),
            fin: if louvred { Fin::Louvred(louvres) } else { Fin::Plain },
            tube_conductivity: of(if copper { 110.0 } else { 180.0 }),
            fin_conductivity: of(if copper { 380.0 } else { 180.0 }),
        }
    }
}

prop_compose! {
    fn any_point()(
        face in 2.0..12.0, air in -10.0..50.0, pressure in 65e3..105e3, flow in 0.2..4.0, glycol in 0.0..0.6,
        coolant in 60.0..115.0,
    ) -> MatrixPoint {
        MatrixPoint {
            face_velocity: of(face),
            air_temperature: celsius(air),
            air_pressure: AbsolutePressure::new(pascals(pressure)),
            coolant_flow: of(flow * 1e-3),
            mix: Mix::new(Base::EthyleneGlycol, of(glycol), Basis::ByVolume).unwrap(),
            coolant_temperature: celsius(coolant),
        }
    }
}

fn doubt() -> MatrixDoubt {
    let three = |low, likely, high| Estimate { low: of(low), likely: of(likely), high: of(high) };
    MatrixDoubt { air: three(0.85, 1.0, 1.15), coolant: three(0.9, 1.0, 1.1), fouling: three(0.0, 0.05, 0.15) }
}

/// The conductance, or none where louvres are outside their range.
fn conductance(matrix: &Matrix, point: &MatrixPoint) -> Option<f64> {
    let found = match matrix.conductance(point, &doubt(), &mut Silent) {
        Ok(found) => found,
        Err(HeatError::OutOfRange(outside)) => {
            assert!(outside.to_string().contains("louvre"), "{outside}");
            return None;
        }
        Err(other) => panic!("{other}\n{matrix:?}\n{point:?}"),
    };
    let Estimate { low, likely, high } = found.conductance;
    assert!(low < likely && likely < high && low.base() > 0.0);
    assert!((0.0..=1.0).contains(&found.air_share.base()) && (0.0..=1.0).contains(&found.fin_efficiency.base()));
    assert!((0.0..=2.0).contains(&found.air_exponent.base()), "{:?}", found.air_exponent);
    Some(likely.base())
}

fn not_less(less: Option<f64>, more: Option<f64>, what: &str) -> Result<(), TestCaseError> {
    if let (Some(less), Some(more)) = (less, more) {
        prop_assert!(more >= less * (1.0 - 1e-9), "{what}: {less} W/K became {more} W/K");
    }
    Ok(())
}

prop_compose! {
    fn any_fitting()(
        stall in 50.0..500.0, bend in 0.2..0.8, free in 0.2..1.5, count in 1..=3_u32, face in 0.1..0.5, drawn in 0.05..=1.0,
        pressure in 30.0..600.0, exponent in 1.0..=2.0,
    ) -> FanFitting {
        let point = |flow: f64, pressure: f64| FanPoint { flow: of(flow), pressure: of(pressure) };
        let points = [point(0.0, stall), point(0.5 * free, stall * bend), point(free, 0.0)];
        FanFitting {
            curve: FanCurve::new(&points, count).unwrap(),
            face: of(face),
            drawn: of(drawn),
            resistance: CoreResistance { pressure: of(pressure), at: of(5.0), exponent: of(exponent) },
        }
    }
}

/// The face velocity, or none beyond what a fan may have.
fn velocity(fitting: &FanFitting, turn: f64, density: f64) -> Option<f64> {
    match fitting.operate(of(turn), of(density), &mut Silent) {
        Ok(at) => Some(at.face_velocity.base()),
        Err(HeatError::OutOfRange(outside)) => {
            assert!(outside.to_string().contains("face velocity"), "{outside}");
            None
        }
        Err(other) => panic!("{other}"),
    }
}

prop_compose! {
    /// A car in traffic or slow on the road, with a fan.
    fn any_car()(
        conductance in 500.0..3500.0, area in 0.1..0.5, set in 70.0..92.0, span in 6.0..15.0, beta in 0.05..=1.0,
        pump in 0.2..0.8, speed in 700.0..5000.0, road in prop_oneof![Just(0.0), 0.0..30.0], fan in 0.3..5.0,
        heat in 2e3..80e3, ambient in -10.0..48.0, ceiling in 100.0..128.0,
        (above, gap) in (-5.0..20.0, 1.0..10.0),
    ) -> (Balance, FanSwitch) {
        let balance = Balance {
            radiator: Radiator {
                ua_reference: of(conductance),
                reference_face_velocity: of(5.0),
                reference_air_density: of(1.15),
                reference_coolant_flow: of(2e-3),
                frontal_area: of(area),
                air_side_resistance_share: of(0.8),
                air_side_exponent: of(0.5),
                reference_coolant: None,
                tubes: None,
            },
            thermostat: Thermostat { set_point: celsius(set), span: of(span), resistance_share: of(beta) },
            pump: Pump { flow_at_1000_rpm: of(pump * 1e-3) },
            engine_speed: of(speed * std::f64::consts::PI / 30.0),
            airflow: Airflow {
                road_speed: of(road),
                ram_share: of(0.17),
                fan_velocity: of(fan),
                draught: of(0.0),
                recirculation_rise: of(10.0),
                recirculation_gone_at: of(8.0),
            },
            mix: Mix::new(Base::EthyleneGlycol, of(0.5), Basis::ByVolume).unwrap(),
            ambient_pressure: AbsolutePressure::new(pascals(100e3)),
            ambient_temperature: celsius(ambient),
            heat: of(heat),
            engine_loss: of(0.0),
            ceiling: celsius(ceiling),
        };
        (balance, FanSwitch { on: celsius(set + above), off: celsius(set + above - gap) })
    }
}

fn outlet(outcome: &Outcome) -> f64 {
    outcome.steady().map_or(f64::INFINITY, |state| state.outlet_temperature.base())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_larger_core_carries_no_less(matrix in any_matrix(), point in any_point(), more in 1.0..1.5) {
        let own = conductance(&matrix, &point);
        let grown = |length: Length| Length::from_base(length.base() * more);
        // More fins at one speed of the face are faster between them too. Closer plain ones may turn the flow laminar.
        let laminar = matrix.conductance(&point, &doubt(), &mut Silent).is_ok_and(|found| found.air_reynolds.base() < 2300.0);
        let fins = Matrix { fin_pitch: Length::from_base(matrix.fin_pitch.base() / more), ..matrix };
        if fins.check().is_ok() && (laminar || matrix.fin != Fin::Plain) {
            not_less(own, conductance(&fins, &point), "more fins")?;
        }
        // Longer tubes for as much coolant.
        not_less(own, conductance(&Matrix { tube_length: grown(matrix.tube_length), ..matrix }, &point), "longer tubes")?;
    }

    #[test]
    fn more_flow_carries_no_less(matrix in any_matrix(), point in any_point(), more in 1.0..2.0) {
        let own = conductance(&matrix, &point);
        let faster = MatrixPoint { face_velocity: of(point.face_velocity.base() * more), ..point };
        not_less(own, conductance(&matrix, &faster), "more air")?;
        let fuller = MatrixPoint { coolant_flow: of(point.coolant_flow.base() * more), ..point };
        not_less(own, conductance(&matrix, &fuller), "more coolant")?;
    }

    /// Another row with its depth of fins, at one coolant flow for each tube.
    #[test]
    fn another_row_carries_no_less(matrix in any_matrix(), point in any_point()) {
        let rows = matrix.rows + 1;
        let by = f64::from(rows) / f64::from(matrix.rows);
        let deeper = Matrix { rows, depth: of(matrix.depth.base() * by), ..matrix };
        let fuller = MatrixPoint { coolant_flow: of(point.coolant_flow.base() * by), ..point };
        not_less(conductance(&matrix, &point), conductance(&deeper, &fuller), "another row")?;
    }

    #[test]
    fn no_size_panics(matrix in any_matrix(), point in any_point(), at in 0..12_usize, odd in crate::any::odd()) {
        let mut spoilt = matrix;
        let value = Length::from_base(odd);
        match at {
            0 => spoilt.across = value,
            1 => spoilt.tube_length = value,
            2 => spoilt.depth = value,
            3 => spoilt.rows = if odd > 1.0 { u32::MAX } else { 0 },
            4 => spoilt.tube_width = value,
            5 => spoilt.tube_thickness = value,
            6 => spoilt.tube_pitch = value,
            7 => spoilt.tube_wall = value,
            8 => spoilt.fin_pitch = value,
            9 => spoilt.fin_thickness = value,
            10 => spoilt.fin_conductivity = of(odd),
            _ => spoilt.tube_conductivity = of(odd),
        }
        prop_assert!(spoilt.conductance(&point, &doubt(), &mut Silent).is_err());
    }

    #[test]
    fn a_fan_blows_less_through_a_tighter_core(
        fitting in any_fitting(), turn in 0.3..2.0, density in 0.8..1.3, more in 1.0..3.0,
    ) {
        let Some(own) = velocity(&fitting, turn, density) else { return Ok(()) };
        let with = |fitting: FanFitting| velocity(&fitting, turn, density);
        let resistance =
            CoreResistance { pressure: of(fitting.resistance.pressure.base() * more), ..fitting.resistance };
        let tighter = with(FanFitting { resistance, ..fitting.clone() }).unwrap();
        prop_assert!(tighter <= own * (1.0 + 1e-9));
        // A smaller share of the face is as a tighter core.
        let drawn = of(f64::max(fitting.drawn.base() / more, 0.001));
        let narrower = with(FanFitting { drawn, ..fitting.clone() }).unwrap();
        prop_assert!(narrower <= own * (1.0 + 1e-9));
        // Faster is more.
        if let Some(faster) = velocity(&fitting, turn * more, density) {
            prop_assert!(faster >= own * (1.0 - 1e-9));
        }
    }

    /// With a core whose pressure goes with the square, volume flow does not depend on density, and goes with speed.
    #[test]
    fn the_laws_of_similar_fans_hold(fitting in any_fitting(), turn in 0.5..2.0, density in 0.8..1.3) {
        let resistance = CoreResistance { exponent: of(2.0), ..fitting.resistance };
        let fitting = FanFitting { resistance, ..fitting };
        let at = |turn, density| fitting.operate(of(turn), of(density), &mut Silent);
        if let (Ok(own), Ok(other)) = (at(1.0, 1.2), at(turn, density)) {
            prop_assert!((other.flow.base() / own.flow.base() / turn - 1.0).abs() < 1e-6);
            let pressure = turn * turn * density / 1.2;
            prop_assert!((other.pressure.base() / own.pressure.base() / pressure - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn a_wider_thermostat_passes_no_less(beta in 0.02..=1.0, opening in 0.0..=1.0, more in 0.0..=1.0, less in 0.1..=1.0) {
        let passed = |beta: f64, opening: f64| {
            let thermostat = Thermostat { set_point: celsius(82.0), span: of(12.0), resistance_share: of(beta) };
            thermostat.passed(of(opening), &mut Silent).unwrap().base()
        };
        let own = passed(beta, opening);
        prop_assert!((0.0..=1.0).contains(&own) && own >= opening - 1e-12);
        prop_assert!(passed(beta, opening + more * (1.0 - opening)) >= own - 1e-12);
        prop_assert!(passed(f64::max(beta * less, 0.02), opening) >= own - 1e-12);
    }

    /// With a switched fan it is never hotter than without a fan, never cooler than with it always on, and the state told is
    /// the one the temperatures speak of.
    #[test]
    fn a_switched_fan_lies_between_none_and_always((balance, switch) in any_car()) {
        let none = Balance { airflow: Airflow { fan_velocity: of(0.0), ..balance.airflow }, ..balance };
        let never = outlet(&none.solve(&mut Silent).unwrap());
        let always = outlet(&balance.solve(&mut Silent).unwrap());
        let (outcome, state) = solve_with_fan(&balance, Some(&switch), &mut Silent).unwrap();
        let t = outlet(&outcome);
        prop_assert!(t <= never + 1e-6 && t >= always - 1e-6, "{always} {t} {never}: {state:?}");
        let (on, off) = (switch.on.base(), switch.off.base());
        match state {
            FanState::NotSwitched => prop_assert!(false),
            FanState::Off { or_on_at } => {
                prop_assert!(t < on && (t - never).abs() < 1e-9);
                prop_assert!(or_on_at.is_none_or(|at| at.base() >= off && at.base() < t));
            }
            FanState::TooLate => prop_assert!(t == f64::INFINITY && balance.ceiling.base() <= on),
            FanState::On => prop_assert!(never >= on && t >= off),
            FanState::Cycles { on_at } => {
                prop_assert!((t - on).abs() < 1e-4, "{t} {on}");
                prop_assert!(never >= on && on_at.is_some_and(|at| at.base() < off));
            }
        }
        if let Outcome::Steady(steady) = &outcome {
            prop_assert!(steady.closure.residual.base().abs() <= steady.closure.allowed.base());
            // What is in hand is told of one air alone, whoever asks, and has the sign of who rules.
            let reserve = balance.reserve(Some(&switch)).unwrap();
            prop_assert_eq!(steady.radiator_spare, reserve.spare);
            prop_assert_eq!(steady.hottest_ambient_thermostat_rules, reserve.holds_to);
            prop_assert_eq!(steady.hottest_ambient, reserve.settles_to);
            let spare = reserve.spare.base();
            match steady.ruler {
                Ruler::RadiatorRules => prop_assert!(spare <= 0.1, "{state:?} {spare}"),
                _ => prop_assert!(spare >= -0.1, "{state:?} {spare}"),
            }
        }
    }

    #[test]
    fn on_its_way_down_it_is_no_hotter((balance, switch) in any_car(), lag in 0.0..6.0) {
        let down = cooling_branch(&balance, of(lag), &mut Silent).unwrap();
        let up = outlet(&balance.solve(&mut Silent).unwrap());
        let cooling = outlet(&down.solve(&mut Silent).unwrap());
        prop_assert!(cooling <= up + 1e-6 && (up.is_infinite() || cooling >= up - lag - 1e-6), "{up} {cooling}");
        prop_assert!(solve_with_fan(&down, Some(&switch), &mut Silent).is_ok());
    }
}
