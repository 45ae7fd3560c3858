//! Published checks: heat.
//!
//! References: the exact series for cross-flow with both fluids unmixed and the approximate relation, computed with the
//! open library `ht`; worked examples of the heat balance, road power, manifold pressure and oil viscosity computed
//! independently in Python with the standard library; Heywood's energy balance (from memory) as a size check.

use crate::accuracy::{Row, Tally, column};
use coldmark::fluid::{Base, Basis, Mix, air};
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, FuelPerWork, Measured, celsius, in_celsius, pascals};
use coldmark::scribe::{Silent, Writing};

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = effectiveness();
    rows.extend(balances());
    rows.extend([road_power(), manifold_pressure(), fuel_power(), oil()]);
    rows
}

fn rpm(value: f64) -> AngularVelocity {
    AngularVelocity::from_base(value * std::f64::consts::PI / 30.0)
}

/// The exact series against which the approximation is judged, and the approximation against itself elsewhere.
fn effectiveness() -> Vec<Row> {
    let table = "crossflow_effectiveness.csv";
    let mut same = Tally::new("cross-flow effectiveness, approximate", "open library ht, same relation", "", 6e-7);
    let mut exact = Tally::new("cross-flow effectiveness, approximate", "exact series, both unmixed", "%", 3.8);
    let mut low = Tally::new("the same, capacity ratio up to 0.5", "exact series, both unmixed", "%", 2.0);
    let mut large = Tally::new("the same, 1.5 transfer units and more", "exact series, both unmixed", "%", 1.1);
    let (ratios, units) = (column(table, "Cr"), column(table, "NTU"));
    let (exacts, approximates) = (column(table, "eff_both_unmixed_exact"), column(table, "eff_both_unmixed_approx"));
    for (((ratio, units), series), approximate) in ratios.iter().zip(&units).zip(&exacts).zip(&approximates) {
        let (ratio, units) = (ratio.unwrap(), units.unwrap());
        let ours = crossflow(Ratio::from_base(units), Ratio::from_base(ratio), &mut Silent).unwrap().base();
        same.difference(ours, approximate.unwrap());
        exact.relative(ours, series.unwrap());
        if ratio <= 0.5 {
            low.relative(ours, series.unwrap());
        }
        if units >= 1.5 {
            large.relative(ours, series.unwrap());
        }
    }
    vec![same.row(), exact.row(), low.row(), large.row()]
}

struct Example {
    base: Base,
    volume_share: f64,
    altitude: f64,
    heat: f64,
    air: f64,
    face: f64,
    area: f64,
    flow: f64,
    conductance: f64,
    reference_face: f64,
    reference_flow: f64,
}

/// The pump of the worked examples gives `flow` at the speed chosen here.
const SPEED: f64 = 2500.0;

impl Example {
    fn balance(&self) -> Balance {
        let litres = |value: f64| VolumeRate::from_base(value * 1e-3);
        Balance {
            radiator: Radiator {
                ua_reference: ThermalConductance::from_base(self.conductance),
                reference_face_velocity: Velocity::from_base(self.reference_face),
                reference_air_density: MassDensity::from_base(1.15),
                reference_coolant_flow: litres(self.reference_flow),
                frontal_area: Area::from_base(self.area),
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
            pump: Pump { flow_at_1000_rpm: litres(self.flow * 1000.0 / SPEED) },
            engine_speed: rpm(SPEED),
            airflow: Airflow::known_face_velocity(Velocity::from_base(self.face)),
            mix: Mix::new(self.base, Ratio::from_base(self.volume_share), Basis::ByVolume).unwrap(),
            ambient_pressure: air::standard_pressure(Length::from_base(self.altitude), &mut Silent).unwrap(),
            ambient_temperature: celsius(self.air),
            heat: Power::from_base(self.heat * 1e3),
            engine_loss: ThermalConductance::from_base(0.0),
            ceiling: celsius(130.0),
        }
    }
}

/// A worked example with its rows (setting °C, temperature °C, opening) and the temperature wide open, °C.
type Worked = (Example, Vec<(f64, f64, f64)>, f64);

fn examples() -> [Worked; 4] {
    let v8 = Example {
        base: Base::EthyleneGlycol,
        volume_share: 0.5,
        altitude: 300.0,
        heat: 66.0,
        air: 35.0,
        face: 5.0,
        area: 0.30,
        flow: 2.0,
        conductance: 2000.0,
        reference_face: 5.0,
        reference_flow: 2.0,
    };
    let four = Example {
        base: Base::EthyleneGlycol,
        volume_share: 0.4,
        altitude: 1800.0,
        heat: 34.0,
        air: 30.0,
        face: 4.0,
        area: 0.21,
        flow: 1.2,
        conductance: 1150.0,
        reference_face: 4.0,
        reference_flow: 1.2,
    };
    let heavy = Example {
        base: Base::PropyleneGlycol,
        volume_share: 0.5,
        altitude: 0.0,
        heat: 50.0,
        air: 32.0,
        face: 3.0,
        area: 0.28,
        flow: 1.8,
        conductance: 1700.0,
        reference_face: 5.0,
        reference_flow: 2.0,
    };
    let light = Example { heat: 25.0, air: 20.0, face: 4.5, flow: 1.5, base: Base::PropyleneGlycol, ..heavy };
    let settings = [71.0, 77.0, 82.0, 88.0, 91.0];
    // Setting, temperature, opening; then the temperature with the thermostat wide open.
    let light_rows = [(72.918, 0.15982), (78.597, 0.13306), (83.399, 0.1166), (89.217, 0.10142), (92.142, 0.095197)];
    [
        (v8, vec![(71.0, 96.221, 1.0), (82.0, 96.221, 1.0), (91.0, 99.717, 0.72643)], 96.221),
        (four, vec![(88.0, 95.716, 0.64299)], 91.461),
        (heavy, settings.map(|setting| (setting, 103.09, 1.0)).to_vec(), 103.09),
        (light, settings.iter().zip(light_rows).map(|(&s, (t, o))| (s, t, o)).collect(), 47.57),
    ]
}

fn balances() -> Vec<Row> {
    let reference = "worked examples, independent Python";
    let mut temperature = Tally::new("coolant temperature of the heat balance", reference, "K", 0.05);
    let mut opening = Tally::new("thermostat opening", reference, "", 0.002);
    for (example, rows, full) in examples() {
        let balance = example.balance();
        let settings: Vec<_> = rows.iter().map(|row| celsius(row.0)).collect();
        let compared = compare_set_points(&balance, None, &settings, &mut Silent).unwrap();
        for (row, (_, expected, open)) in compared.iter().zip(rows) {
            let state = row.outcome.steady().unwrap();
            temperature.difference(in_celsius(state.outlet_temperature), expected);
            temperature.difference(in_celsius(state.fully_open_temperature.unwrap()), full);
            opening.difference(state.opening.base(), open);
            assert_eq!(state.radiator_limited, open == 1.0);
        }
    }
    vec![temperature.row(), opening.row()]
}

fn road_load(speed: f64, grade: f64) -> RoadLoad {
    RoadLoad {
        mass: Mass::from_base(1400.0),
        drag_area: Area::from_base(0.75),
        rolling_resistance: Ratio::from_base(0.012),
        grade: Ratio::from_base(grade),
        speed: Velocity::from_base(speed / 3.6),
        accelerating: Force::from_base(0.0),
        air_density: MassDensity::from_base(1.204),
        drivetrain_efficiency: Ratio::from_base(0.88),
    }
}

fn road_power() -> Row {
    let mut tally = Tally::new("power on the road", "independent Python, crank_checks.csv", "%", 1e-7);
    for (speed, grade, expected) in [(100.0, 0.0, 16.19732796), (80.0, 0.06, 30.54794834)] {
        let power = road_load(speed, grade).power(&mut Silent).unwrap();
        tally.relative(power.engine.base() * 1e-3, expected);
    }
    tally.row()
}

fn breathing(power: Power) -> Breathing {
    Breathing {
        displacement: Volume::from_base(2.0e-3),
        speed: rpm(2800.0),
        brake_power: power,
        consumption: FuelPerWork::from_base(0.34 / 3.6e6),
        air_fuel_ratio: Ratio::from_base(14.7),
        volumetric_efficiency: Ratio::from_base(0.80),
        intake_temperature: ThermodynamicTemperature::from_base(315.0),
        ambient_pressure: AbsolutePressure::new(pascals(101_325.0)),
        least_pressure: AbsolutePressure::new(pascals(18e3)),
    }
}

fn manifold_pressure() -> Row {
    // The reference's "2.0 L" is four cylinders of 86 mm bore and 86 mm stroke, 1.9982 L.
    let mut tally = Tally::new("manifold pressure", "independent Python, crank_checks.csv", "%", 1e-6);
    let power = road_load(100.0, 0.0).power(&mut Silent).unwrap().engine;
    let displacement = Volume::from_base(std::f64::consts::PI * 0.086_f64.powi(3));
    let manifold = Breathing { displacement, ..breathing(power) }.manifold(&mut Silent).unwrap();
    tally.relative(manifold.pressure.base() * 1e-3, 54.51214017);
    tally.row()
}

fn duty(brake: f64) -> EngineDuty {
    EngineDuty {
        displacement: Volume::from_base(5.7e-3),
        speed: rpm(3500.0),
        brake_power: Power::from_base(brake),
        rated_power: Power::from_base(160e3),
    }
}

/// 5.7 L at 3500 rpm and 60 kW burns about 250 kW of fuel; at a share of 0.27 the coolant takes about 67 kW.
fn fuel_power() -> Row {
    let mut tally = Tally::new("fuel power and heat to coolant", "hand calculation, whole kW printed", "kW", 0.5);
    let heat = heat_to_coolant(&duty(60e3), &HeatModel::usual(Ignition::Spark), &mut Silent).unwrap();
    tally.difference(heat.fuel_power.base() * 1e-3, 250.0);
    tally.difference(heat.heat.likely.base() * 1e-3, 67.5);
    assert!((heat.share.likely.base() - 0.27).abs() < 1e-12);
    tally.row()
}

fn oil() -> Row {
    let square_mm = |value: f64| KinematicViscosity::from_base(value * 1e-6);
    let oil = Oil::from_two((celsius(40.0), square_mm(95.0)), (celsius(100.0), square_mm(10.8))).unwrap();
    let (a, b) = oil.constants();
    assert!((a - 9.18984).abs() < 6e-6 && (b - 3.56324).abs() < 6e-6, "{a} {b}");
    let mut tally = Tally::new("oil viscosity", "ASTM D341 (from memory), three digits printed", "%", 0.3);
    let points = [(40.0, 95.0), (60.0, 38.1), (80.0, 18.8), (90.0, 14.0), (100.0, 10.8), (110.0, 8.53), (130.0, 5.69)];
    for (temperature, expected) in points {
        let ours = oil.viscosity(celsius(temperature), &mut Silent).unwrap();
        tally.relative(ours.base() * 1e6, expected);
    }
    tally.row()
}

#[test]
fn an_engine_that_cannot_is_told_so() {
    let error = breathing(Power::from_base(60e3)).manifold(&mut Silent).unwrap_err();
    let HeatError::EngineCannotMake { most, .. } = error else { panic!("{error}") };
    // At just that power the manifold holds ambient pressure.
    let manifold = breathing(Power::from_base(most.base() * (1.0 - 1e-12))).manifold(&mut Silent).unwrap();
    assert!((manifold.pressure.base() - 101_325.0).abs() < 1e-3);
}

/// Heywood's energy balance at maximum power (from memory): coolant over brake power 0.6 to 1.0 for spark ignition.
#[test]
fn heat_at_rated_power_is_of_the_size_of_the_handbook() {
    let rated = EngineDuty { speed: rpm(4800.0), ..duty(160e3) };
    let heat = heat_to_coolant(&rated, &HeatModel::usual(Ignition::Spark), &mut Silent).unwrap();
    let ratio = heat.heat.likely.base() / 160e3;
    assert!((0.6..=1.0).contains(&ratio), "{ratio}");
    let diesel = heat_to_coolant(&rated, &HeatModel::usual(Ignition::Diesel), &mut Silent).unwrap();
    let ratio = diesel.heat.likely.base() / 160e3;
    assert!((0.45..=1.0).contains(&ratio), "{ratio}");
}

/// Common practice, no source: with a radiator in hand the coolant runs near the thermostat fitted; a saturated
/// radiator gives one temperature with all of them.
#[test]
fn a_lower_thermostat_helps_only_while_the_radiator_has_reserve() {
    let [_, _, (heavy, ..), (light, ..)] = examples();
    let settings: Vec<_> = SETTINGS.iter().map(Setting::temperature).collect();
    let spread = |example: &Example| {
        let rows = compare_set_points(&example.balance(), None, &settings, &mut Silent).unwrap();
        let at = |i: usize| rows[i].outcome.steady().unwrap().outlet_temperature.base();
        at(settings.len() - 1) - at(0)
    };
    assert!(spread(&light) > 15.0);
    assert!(spread(&heavy).abs() < 1e-6);
}

/// A radiator calibrated from a balance's own result gives that result again.
#[test]
fn a_measured_point_gives_the_radiator_back() {
    let [(example, ..), ..] = examples();
    let balance = example.balance();
    let state = balance.solve(&mut Silent).unwrap();
    let state = state.steady().unwrap();
    let measured = RadiatorDuty {
        mix: balance.mix,
        coolant_temperature: state.outlet_temperature,
        coolant_flow: state.coolant_flow,
        air_temperature: state.inlet_air,
        air_pressure: balance.ambient_pressure,
        face_velocity: state.face_velocity,
    };
    let share = Ratio::from_base(0.8);
    let radiator =
        Radiator::from_measured_point(Area::from_base(0.30), share, &measured, balance.heat, &mut Silent).unwrap();
    // Air at the point is thinner than the reference 1.15 kg/m³, so the conductance is what the scaling gives there.
    let scaled = state.radiator.conductance.base();
    assert!((radiator.ua_reference.base() / scaled - 1.0).abs() < 1e-8);
    let again = Balance { radiator, ..balance }.solve(&mut Silent).unwrap();
    let difference = again.steady().unwrap().outlet_temperature.base() - state.outlet_temperature.base();
    assert!(difference.abs() < 1e-6, "{difference}");
}

/// What is explained is what was computed.
#[test]
fn the_working_ends_in_the_answer() {
    let [(example, ..), ..] = examples();
    let mut working = Writing::default();
    let outcome = example.balance().solve(&mut working).unwrap();
    let steps: Vec<_> = working.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
    let last = steps.last().unwrap();
    assert_eq!(last.result.base, outcome.steady().unwrap().outlet_temperature.base());
    for symbol in ["v", "C_a", "C_c", "UA", "ε", "Q", "s", "V̇"] {
        assert!(steps.iter().any(|step| step.symbol == symbol), "no step for {symbol}");
    }
}
