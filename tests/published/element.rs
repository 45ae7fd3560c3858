//! Flow elements against an independent implementation (numpy, scipy and the open-source fluids library) and against
//! published values.

use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, End, Fittings, Gas, GenericPlunger, Hose, Orifice, PlungerValve, SonicPort,
    TableValve, friction_factor,
};
use coldmark::fluid::air::viscosity;
use coldmark::quantity::si::{Area, Length, MassRate, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use coldmark::quantity::{
    AbsolutePressure, LinearResistance, Measured, QuadraticResistance, SonicConductance, celsius, pascals,
};
use coldmark::scribe::{Silent, Writing};

use crate::accuracy::{Row, Tally, column, table};

pub fn end(pressure: f64, temperature: f64) -> End {
    End {
        pressure: AbsolutePressure::new(pascals(pressure)),
        temperature: ThermodynamicTemperature::from_base(temperature),
    }
}

pub fn flow(element: &Element, first: End, second: End) -> f64 {
    element.flow(first, second, Gas::default(), &mut Silent).unwrap().base()
}

pub fn numbers(name: &str, heading: &str) -> Vec<f64> {
    column(name, heading).into_iter().map(|cell| cell.unwrap()).collect()
}

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = orifice();
    rows.extend(friction());
    rows.extend([real_gas_nozzle(), sonic_port(), hose(), plunger(), plunger_as_table(), air_viscosity()]);
    rows
}

fn orifice() -> Vec<Row> {
    const TABLE: &str = "crank_orifice.csv";
    let [bore, discharge, up, ratio, temperature, expected] =
        ["d_mm", "Cd", "p_up_kPa", "p_dn_over_p_up", "T_up_K", "mdot_g_s"].map(|heading| numbers(TABLE, heading));
    let mut far = Tally::new("orifice flow", "closed form in Python (numpy)", "%", 1e-4);
    let mut near = Tally::new("orifice flow, ratio 0.9999", "closed form in Python (numpy)", "%", 1e-2);
    for i in 0..bore.len() {
        let orifice = Orifice::of_bore(Length::from_base(bore[i] * 1e-3), Ratio::from_base(discharge[i])).unwrap();
        let p = up[i] * 1e3;
        let found = flow(&orifice.into(), end(p, temperature[i]), end(p * ratio[i], 300.0));
        let tally = if ratio[i] >= 0.9999 { &mut near } else { &mut far };
        tally.relative(found * 1e3, expected[i]);
    }
    vec![far.row(), near.row()]
}

fn real_gas_nozzle() -> Row {
    // The library column of the mass flux rows: a real-gas isentropic nozzle of air by CoolProp.
    let mut tally = Tally::new("orifice flow", "real-gas isentropic nozzle of air (CoolProp 8)", "%", 0.1);
    for record in table("crank_orifice_xcheck.csv") {
        let Some(rest) = record[0].strip_prefix("mass flux kg/s/m2 p1=") else { continue };
        let mut words = rest.split(' ');
        let p: f64 = words.next().unwrap().strip_suffix("kPa").unwrap().parse().unwrap();
        let ratio: f64 = words.next().unwrap().strip_prefix("r=").unwrap().parse().unwrap();
        let temperature: f64 = words.next().unwrap().strip_prefix("T=").unwrap().parse().unwrap();
        let orifice = Orifice { effective_area: Area::from_base(1e-6) };
        let found = flow(&orifice.into(), end(p * 1e3, temperature), end(p * 1e3 * ratio, temperature));
        tally.relative(found * 1e6, record[2].parse().unwrap());
    }
    tally.row()
}

fn sonic_port() -> Row {
    const TABLE: &str = "crank_iso6358.csv";
    let [conductance, critical, up, ratio, temperature, expected] =
        ["C_L_s_bar", "b", "p_up_kPa", "p_dn_over_p_up", "T_up_K", "mdot_g_s"].map(|heading| numbers(TABLE, heading));
    let mut tally = Tally::new("flow after ISO 6358", "closed form in Python (numpy)", "%", 1e-4);
    for i in 0..conductance.len() {
        let port = SonicPort {
            conductance: SonicConductance::from_base(conductance[i] * 1e-8),
            critical_ratio: Ratio::from_base(critical[i]),
        };
        let p = up[i] * 1e3;
        tally.relative(flow(&port.into(), end(p, temperature[i]), end(p * ratio[i], 300.0)) * 1e3, expected[i]);
    }
    // A worked value: C 3.4 L/(s·bar), b 0.28, 101.325 to 93 kPa at 90 °C gives 1.7015 g/s.
    let port = SonicPort { conductance: SonicConductance::from_base(3.4e-8), critical_ratio: Ratio::from_base(0.28) };
    let found = flow(&port.into(), end(101_325.0, 363.15), end(93_000.0, 300.0)) * 1e3;
    assert!((found - 1.7015).abs() < 5e-5, "{found}");
    tally.row()
}

fn friction() -> Vec<Row> {
    const TABLE: &str = "crank_hose.csv";
    let [bore, reynolds, expected] = ["D_mm", "Re", "f_Churchill_fluids"].map(|heading| numbers(TABLE, heading));
    let mut turbulent = Tally::new("friction factor (Churchill), Re above 2040", "fluids 1.3.1 (Python)", "%", 1e-6);
    // The library gives 64/Re up to Re 2040 whatever the method; Churchill's formula has begun to bend there.
    let mut laminar = Tally::new("friction factor (Churchill), Re below 2040", "fluids 1.3.1: 64/Re", "%", 0.5);
    for i in 0..bore.len() {
        let found = friction_factor(Ratio::from_base(reynolds[i]), Ratio::from_base(1e-2 / bore[i])).unwrap();
        let tally = if reynolds[i] > 2040.0 { &mut turbulent } else { &mut laminar };
        tally.relative(found.base(), expected[i]);
    }
    vec![turbulent.row(), laminar.row()]
}

fn hose() -> Row {
    const TABLE: &str = "crank_hose.csv";
    let [bore, length, flows, losses, drop] =
        ["D_mm", "L_m", "mdot_g_s", "K_minor", "dp_total_Pa"].map(|heading| numbers(TABLE, heading));
    let mut tally = Tally::new("hose flow for its pressure drop", "fluids 1.3.1 (Python)", "%", 0.5);
    for i in 0..bore.len() {
        let hose = Hose {
            fittings: Fittings::of_sum(Ratio::from_base(losses[i])),
            ..Hose::with_bends(Length::from_base(bore[i] * 1e-3), Length::from_base(length[i]), 0)
        };
        // The reference takes the density at 101.325 kPa, so the ends lie evenly about it.
        let (first, second) = (101_325.0 + 0.5 * drop[i], 101_325.0 - 0.5 * drop[i]);
        tally.relative(flow(&hose.into(), end(first, 363.15), end(second, 363.15)) * 1e3, flows[i]);
    }
    tally.row()
}

fn generic(name: &str) -> PlungerValve {
    let size = match name {
        "four_1.3" => GenericPlunger::Small,
        "four_2.0" => GenericPlunger::Medium,
        _ => GenericPlunger::Large,
    };
    PlungerValve { backfire_area: Area::from_base(0.0), ..PlungerValve::generic(size) }
}

fn plunger() -> Row {
    let mut tally = Tally::new("plunger valve flow", "closed form in Python (numpy)", "g/s", 1e-7);
    for record in table("crank_pcv_generic.csv") {
        let depression: f64 = record[1].parse().unwrap();
        let valve: Element = generic(&record[0]).into();
        let found = flow(&valve, end(101_325.0, 293.15), end(101_325.0 - depression * 1e3, 293.15));
        tally.difference(found * 1e3, record[3].parse().unwrap());
    }
    tally.row()
}

fn plunger_as_table() -> Row {
    let records = table("crank_pcv_generic.csv");
    let mut tally = Tally::new("valve by its table, at the points", "the table itself", "%", 1e-6);
    for name in ["four_1.3", "four_2.0", "V8_5.0"] {
        let points: Vec<(Pressure, MassRate)> = records
            .iter()
            .filter(|record| &record[0] == name && record[1].parse::<f64>().unwrap() > 0.0)
            .map(|record| {
                let depression: f64 = record[1].parse().unwrap();
                let flow: f64 = record[3].parse().unwrap();
                (pascals(depression * 1e3), MassRate::from_base(flow * 1e-3))
            })
            .collect();
        let valve: Element =
            TableValve::new(&points, AbsolutePressure::new(pascals(101_325.0)), celsius(20.0)).unwrap().into();
        for (depression, expected) in &points {
            let found = flow(&valve, end(101_325.0, 293.15), end(101_325.0 - depression.base(), 293.15));
            tally.relative(found, expected.base());
        }
    }
    tally.row()
}

fn air_viscosity() -> Row {
    // Handbook values of dry air at one atmosphere (Incropera and DeWitt, table A.4), from memory.
    let mut tally = Tally::new("viscosity of air", "Incropera and DeWitt, table A.4 (from memory)", "%", 1.0);
    for (temperature, expected) in [(250.0, 159.6e-7), (300.0, 184.6e-7), (350.0, 208.2e-7), (400.0, 230.1e-7)] {
        tally.relative(
            viscosity(ThermodynamicTemperature::from_base(temperature), &mut Silent).unwrap().base(),
            expected,
        );
    }
    tally.row()
}

#[test]
fn workshop_values_of_the_two_litre_valve() {
    // Flow in standard litres a minute at 20 °C, computed independently; the digits are those printed.
    let valve: Element = generic("four_2.0").into();
    let printed = [
        (1.0, 19.5),
        (3.0, 33.3),
        (6.0, 46.4),
        (10.0, 58.2),
        (20.0, 66.5),
        (30.0, 54.2),
        (40.0, 35.6),
        (50.0, 26.2),
        (70.0, 26.2),
    ];
    for (depression, litres) in printed {
        let found = flow(&valve, end(101_325.0, 293.15), end(101_325.0 - depression * 1e3, 293.15));
        assert!((found / 1.2041 * 6e4 - litres).abs() < 0.051, "{depression} kPa: {}", found / 1.2041 * 6e4);
    }
}

#[test]
fn a_sonic_port_and_a_hole_agree_when_choked() {
    // 1 mm² of effective area is 0.1992 L/(s·bar).
    let hole: Element = Orifice { effective_area: Area::from_base(1e-6) }.into();
    let port: Element =
        SonicPort { conductance: SonicConductance::from_base(0.1992e-8), critical_ratio: Ratio::from_base(0.528) }
            .into();
    let [hole, port] = [hole, port].map(|element| flow(&element, end(3e5, 293.15), end(1e5, 293.15)));
    assert!((hole / port - 1.0).abs() < 5e-4, "{hole} {port}");
}

#[test]
fn the_default_filter_loses_half_a_kilopascal_at_a_litre_a_second() {
    // a Q + b Q² with 2e5 and 3e8 at 60 L/min is 200 + 300 Pa.
    let filter: Element = BreatherElement::default().into();
    let found = flow(&filter, end(101_325.0 + 250.0, 293.15), end(101_325.0 - 250.0, 293.15));
    assert!((found / 1.2041e-3 - 1.0).abs() < 1e-3, "{found}");
}

#[test]
fn a_filter_is_fitted_from_two_points() {
    let law = |q: f64| 2e5 * q + 3e8 * q * q;
    let points = [0.5e-3, 2e-3].map(|q| (VolumeRate::from_base(q), pascals(law(q))));
    let fitted = BreatherElement::from_points(points).unwrap();
    assert!((fitted.viscous.base() / 2e5 - 1.0).abs() < 1e-9 && (fitted.inertial.base() / 3e8 - 1.0).abs() < 1e-9);
    // A drop that grows less than the flow, or more than its square, is refused.
    for drop in [1.5, 4.5] {
        let points = [(1e-3, 100.0), (2e-3, 100.0 * drop)].map(|(q, d)| (VolumeRate::from_base(q), pascals(d)));
        assert!(BreatherElement::from_points(points).is_err(), "{drop}");
    }
}

#[test]
fn wrong_figures_are_refused_by_name() {
    let ends = (end(101_325.0, 300.0), end(100_000.0, 300.0));
    let ask =
        |element: Element| element.flow(ends.0, ends.1, Gas::default(), &mut Silent).map_err(|error| error.to_string());
    let hose = Hose::with_bends(Length::from_base(0.5), Length::from_base(1.0), 2);
    assert!(ask(hose.into()).unwrap_err().starts_with("hose bore is 500 mm, outside 1 mm to 100 mm"));
    let nothing = Hose {
        length: Length::from_base(0.0),
        fittings: Fittings::of_sum(Ratio::from_base(0.0)),
        ..Hose::with_bends(Length::from_base(0.01), Length::from_base(1.0), 0)
    };
    assert!(ask(nothing.into()).unwrap_err().contains("no resistance"));
    let media = BreatherElement {
        viscous: LinearResistance::from_base(f64::NAN),
        inertial: QuadraticResistance::from_base(1.0),
    };
    assert!(ask(media.into()).is_err());
    let plunger = PlungerValve { fully_reduced: pascals(5e3), ..generic("four_2.0") };
    assert!(ask(plunger.into()).unwrap_err().contains("second must be larger"));
    let check = CheckValve { opening_pressure: pascals(-1.0), ..CheckValve::of_area(Area::from_base(1e-5)) };
    assert!(ask(check.into()).is_err());
    let orifice: Element = Orifice { effective_area: Area::from_base(1e-6) }.into();
    assert!(orifice.flow(end(-1.0, 300.0), ends.1, Gas::default(), &mut Silent).is_err());
    assert!(orifice.flow(end(f64::NAN, 300.0), ends.1, Gas::default(), &mut Silent).is_err());
    let gas = Gas { isentropic_exponent: Ratio::from_base(1.0) };
    assert!(orifice.flow(ends.0, ends.1, gas, &mut Silent).is_err());
}

#[test]
fn a_table_is_not_extrapolated() {
    let points = [(5e3, 0.8e-3), (20e3, 1.3e-3), (60e3, 0.5e-3)].map(|(d, m)| (pascals(d), MassRate::from_base(m)));
    let bench = AbsolutePressure::new(pascals(101_325.0));
    let valve: Element = TableValve::new(&points, bench, celsius(20.0)).unwrap().into();
    let at = |d: f64| valve.flow(end(101_325.0, 293.15), end(101_325.0 - d, 293.15), Gas::default(), &mut Silent);
    assert_eq!(at(0.0).unwrap().base(), 0.0);
    assert!(at(60e3).is_ok() && at(61e3).unwrap_err().to_string().contains("beyond the last point"));
    // Against the flow it is shut but for its seat's leak.
    assert!(at(-5e3).unwrap().base().abs() < 1e-7);
    for bad in [vec![], vec![(5e3, -1e-3)], vec![(5e3, 1e-3), (4e3, 1e-3)], vec![(2e5, 1e-3)], vec![(5e3, f64::NAN)]] {
        let points: Vec<_> = bad.iter().map(|(d, m)| (pascals(*d), MassRate::from_base(*m))).collect();
        assert!(TableValve::new(&points, bench, celsius(20.0)).is_err(), "{bad:?}");
    }
}

#[test]
fn every_element_writes_its_working_and_the_last_step_is_its_flow() {
    let elements: [Element; 7] = [
        Orifice { effective_area: Area::from_base(1e-6) }.into(),
        SonicPort { conductance: SonicConductance::from_base(1e-8), critical_ratio: Ratio::from_base(0.3) }.into(),
        Hose::with_bends(Length::from_base(0.016), Length::from_base(0.6), 2).into(),
        BreatherElement::default().into(),
        generic("four_2.0").into(),
        coldmark::crankcase::element::FixedOrificeValve::default().into(),
        CheckValve::of_area(Area::from_base(1e-5)).into(),
    ];
    for element in elements {
        let mut writing = Writing::default();
        let found = element.flow(end(101e3, 350.0), end(99e3, 300.0), Gas::default(), &mut writing).unwrap();
        let last = writing.chapters[0].steps.last().unwrap();
        // A check valve's seat leaks beside its opening.
        assert!((last.result.base / found.base() - 1.0).abs() < 1e-3, "{element:?}");
    }
}
