//! The columns of the reference tables that follow from the others: volumes instead of masses, whether a hole is choked,
//! openings, gauge pressures in inches of water, losses by kind of fitting. Each is asked of the program by another way
//! than the column it stands beside.

use coldmark::crankcase::arrangement::{Boundary, BreatherLine, Place, Valve, Ventilation, solve};
use coldmark::crankcase::blow_by::{standard_volume_flow, volume_flow};
use coldmark::crankcase::element::{
    BreatherElement, Element, Fittings, GenericPlunger, Hose, Orifice, PlungerValve, SonicPort, bend_loss, elbow_loss,
    entrance_loss, exit_loss, friction_factor, half_bend_loss,
};
use coldmark::crankcase::moisture::wall_saturation;
use coldmark::quantity::si::{Area, Length, MassRate, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, Kind, Measured, SonicConductance, celsius, parse_amount, pascals};
use coldmark::scribe::Silent;

use crate::accuracy::{Row, Tally, table};
use crate::element::{end, flow, numbers};

const AMBIENT: f64 = 101_325.0;

fn grams(flow: f64) -> MassRate {
    MassRate::from_base(flow * 1e-3)
}

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = volumes();
    rows.extend([inches_of_water(), openings(), at_capacity(), critical_ratio(), at_the_wall()]);
    rows.extend(hose());
    rows.push(fittings());
    rows
}

/// Mass flows as standard litres a minute, in every table that has both; and at 90 °C.
fn volumes() -> Vec<Row> {
    let tables = [
        ("crank_orifice.csv", "mdot_g_s"),
        ("crank_iso6358.csv", "mdot_g_s"),
        ("crank_pcv_generic.csv", "mdot_g_s_20C"),
        ("crank_pcv_capacity.csv", "capacity_g_s"),
        ("crank_network_edges.csv", "mdot_g_s"),
    ];
    let mut standard = Tally::new("gas flow as volume at 20 °C", "ideal gas, second implementation", "L/min", 1e-4);
    for (name, mass) in tables {
        for (mass, expected) in numbers(name, mass).into_iter().zip(numbers(name, "std_L_min")) {
            standard.difference(standard_volume_flow(grams(mass)).base() * 6e4, expected);
        }
    }
    let mut warm = Tally::new("gas flow as volume at 90 °C", "ideal gas, second implementation", "%", 1e-4);
    for (name, mass, volume) in
        [("crank_pcv_capacity.csv", "capacity_g_s", "L_min_90C"), ("crank_hose.csv", "mdot_g_s", "Q_actual_L_min")]
    {
        for (mass, expected) in numbers(name, mass).into_iter().zip(numbers(name, volume)) {
            let found = volume_flow(grams(mass), celsius(90.0), AbsolutePressure::new(pascals(AMBIENT))).unwrap();
            warm.relative(found.base() * 6e4, expected);
        }
    }
    vec![standard.row(), warm.row()]
}

/// The inch of water is that of 4 °C, 249.08891 Pa.
fn inches_of_water() -> Row {
    const TABLE: &str = "crank_network_nodes.csv";
    let mut tally = Tally::new("node pressures in inches of water", "second implementation", "Pa", 2e-4);
    let [absolute, gauge, inches] = ["p_Pa", "p_gauge_Pa", "p_gauge_inH2O"].map(|heading| numbers(TABLE, heading));
    for ((absolute, expected), inches) in absolute.into_iter().zip(gauge).zip(inches) {
        let inches = format!("{inches:.10} inH2O");
        tally.difference(parse_amount(&inches, Kind::CrankcasePressure, None).unwrap(), expected);
        let [absolute, ambient] = [absolute, AMBIENT].map(|p| AbsolutePressure::new(pascals(p)));
        tally.difference(absolute.to_gauge(ambient).base(), expected);
    }
    tally.row()
}

/// The opening of a plunger valve: its flow for that of a hole of 1 mm² between the same ends.
fn openings() -> Row {
    let mut tally = Tally::new("opening of the plunger valves", "closed form in Python (numpy)", "%", 1e-4);
    for record in table("crank_pcv_generic.csv") {
        let [depression, area] = [1, 2].map(|i| record[i].parse::<f64>().unwrap());
        let ends = (end(AMBIENT, 293.15), end(AMBIENT - depression * 1e3, 293.15));
        let size = match &record[0] {
            "four_1.3" => GenericPlunger::Small,
            "four_2.0" => GenericPlunger::Medium,
            _ => GenericPlunger::Large,
        };
        let valve: Element = PlungerValve { backfire_area: Area::from_base(0.0), ..PlungerValve::generic(size) }.into();
        if depression < 0.0 {
            assert_eq!((flow(&valve, ends.0, ends.1), area), (0.0, 0.0), "{record:?}");
        } else if depression > 0.0 {
            let hole: Element = Orifice { effective_area: Area::from_base(1e-6) }.into();
            tally.relative(flow(&valve, ends.0, ends.1) / flow(&hole, ends.0, ends.1), area);
        }
    }
    tally.row()
}

/// At the blow-by of the turning point nothing passes the breather, and what the valve draws has cost the passage to its
/// cover this much.
fn at_capacity() -> Row {
    let mut tally = Tally::new("cover at the turning point", "scipy brentq", "Pa", 0.01);
    for record in table("crank_pcv_capacity.csv") {
        let [manifold, cover, blow_by] = [1, 2, 3].map(|i| record[i].parse::<f64>().unwrap());
        let size = if &record[0] == "four_2.0" { GenericPlunger::Medium } else { GenericPlunger::Large };
        let line = BreatherLine {
            hose: Hose {
                fittings: Fittings::of_sum(Ratio::from_base(2.1)),
                ..Hose::with_bends(Length::from_base(0.016), Length::from_base(0.4), 0)
            },
            ..BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.4), 0)
        }
        .with_element(BreatherElement::default());
        let ventilation = Ventilation::breather_with_valve(line, Valve::Plunger(PlungerValve::generic(size)));
        let at = Boundary::at(grams(blow_by), AbsolutePressure::new(pascals(manifold * 1e3)));
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
        tally.difference(outcome.pressure_at(Place::SecondCover).unwrap().gauge.base(), cover);
        tally.difference(outcome.crankcase_gauge.base(), 0.0);
    }
    tally.row()
}

/// The ratio at which a hole chokes, found by where its flow no longer follows the lower pressure.
fn critical_ratio() -> Row {
    let mut tally = Tally::new("critical pressure ratio", "fluids 1.3.1 (Python)", "%", 0.01);
    let hole: Element = Orifice { effective_area: Area::from_base(1e-4) }.into();
    let at = |ratio: f64| flow(&hole, end(1e5, 293.15), end(1e5 * ratio, 293.15));
    let choked = at(0.3);
    let (mut low, mut high) = (0.3, 0.9);
    while high - low > 1e-9 {
        let middle = 0.5 * (low + high);
        if at(middle) == choked { low = middle } else { high = middle }
    }
    for record in table("crank_orifice_xcheck.csv").iter().filter(|record| record[0].starts_with("critical")) {
        tally.relative(low, record[1].parse().unwrap());
        tally.relative(low, record[2].parse().unwrap());
    }
    tally.row()
}

/// The share of water vapour at which a wall is just wet.
fn at_the_wall() -> Row {
    const TABLE: &str = "crank_wall_dilution.csv";
    let mut tally = Tally::new("water vapour over a wet wall", "IAPWS-95 by an open library", "%", 0.5);
    for (wall, expected) in numbers(TABLE, "wall_C").into_iter().zip(numbers(TABLE, "x_sat_at_wall")) {
        tally.relative(wall_saturation(celsius(wall), &mut Silent).unwrap().base() / AMBIENT, expected);
    }
    tally.row()
}

/// The hose without its fittings, Churchill's factor by his own formula at every Reynolds number, and how far another
/// friction law lies from his.
fn hose() -> Vec<Row> {
    const TABLE: &str = "crank_hose.csv";
    let [bore, length, mass, reynolds, factor, speed, drop, other] =
        ["D_mm", "L_m", "mdot_g_s", "Re", "f_Churchill_own", "v_m_s", "dp_friction_Pa", "dp_one_phase_default_Pa"]
            .map(|heading| numbers(TABLE, heading));
    let mut factors = Tally::new("friction factor (Churchill), any Re", "second implementation", "%", 1e-6);
    let mut flows = Tally::new("hose flow for its friction alone", "fluids 1.3.1 (Python)", "%", 0.5);
    let mut speeds = Tally::new("Reynolds number of a hose from its speed", "fluids 1.3.1 (Python)", "%", 0.05);
    let mut laws = Tally::new("hose flow, another friction law", "fluids 1.3.1, its default law", "%", 1.0);
    // Between laminar and turbulent no law is sure of the flow.
    let mut between = Tally::new("hose flow, another law, Re 2040 to 4000", "fluids 1.3.1, its default law", "%", 12.0);
    for i in 0..bore.len() {
        let found = friction_factor(Ratio::from_base(reynolds[i]), Ratio::from_base(1e-2 / bore[i])).unwrap();
        factors.relative(found.base(), factor[i]);
        let hose: Element = Hose {
            fittings: Fittings::of_sum(Ratio::from_base(0.0)),
            ..Hose::with_bends(Length::from_base(bore[i] * 1e-3), Length::from_base(length[i]), 0)
        }
        .into();
        let at = |drop: f64| flow(&hose, end(AMBIENT + 0.5 * drop, 363.15), end(AMBIENT - 0.5 * drop, 363.15)) * 1e3;
        flows.relative(at(drop[i]), mass[i]);
        let law = if (2040.0..4000.0).contains(&reynolds[i]) { &mut between } else { &mut laws };
        law.relative(at(other[i]), mass[i]);
        let warm: ThermodynamicTemperature = celsius(90.0);
        let viscosity = coldmark::fluid::air::viscosity(warm, &mut Silent).unwrap().base();
        let density = AMBIENT / (287.05 * warm.base());
        speeds.relative(density * speed[i] * bore[i] * 1e-3 / viscosity, reynolds[i]);
    }
    vec![factors.row(), flows.row(), speeds.row(), laws.row(), between.row()]
}

/// How far outside the program's low to high the loss of each kind of fitting lies. Contractions and expansions are no
/// inputs of a line: a barb is a hole.
fn fittings() -> Row {
    let mut tally =
        Tally::new("loss coefficient of a fitting, outside low to high", "fluids 1.3.1 (Python)", "", 0.005);
    let mut left_out = 0;
    for record in table("crank_minor_losses.csv") {
        let known = match &record[0] {
            "sharp entrance" => entrance_loss(),
            "exit into large volume" => exit_loss(),
            name if name.starts_with("bend 90") => bend_loss(),
            name if name.starts_with("bend 45") => half_bend_loss(),
            name if name.starts_with("mitre 90") => elbow_loss(),
            name => {
                assert!(name.starts_with("sharp contraction") || name.starts_with("sharp expansion"), "{name}");
                left_out += 1;
                continue;
            }
        };
        let loss: f64 = record[1].parse().unwrap();
        tally.difference(loss.clamp(known.estimate.low.base(), known.estimate.high.base()), loss);
        // The likely bend is the smooth one.
        if record[0].starts_with("bend 90") {
            assert!((bend_loss().likely().base() - loss).abs() < 0.03, "{record:?}");
        }
    }
    assert_eq!(left_out, 2);
    tally.row()
}

#[test]
fn holes_and_ports_choke_where_the_tables_say() {
    let hole = |record: &csv::StringRecord| -> Element {
        let [bore, discharge] = [0, 1].map(|i| record[i].parse::<f64>().unwrap());
        Orifice::of_bore(Length::from_base(bore * 1e-3), Ratio::from_base(discharge)).unwrap().into()
    };
    let port = |record: &csv::StringRecord| -> Element {
        let [conductance, critical] = [0, 1].map(|i| record[i].parse::<f64>().unwrap());
        SonicPort {
            conductance: SonicConductance::from_base(conductance * 1e-8),
            critical_ratio: Ratio::from_base(critical),
        }
        .into()
    };
    let mut counts = [0; 2];
    type Make<'a> = &'a dyn Fn(&csv::StringRecord) -> Element;
    for (name, make) in [("crank_orifice.csv", &hole as Make<'_>), ("crank_iso6358.csv", &port as Make<'_>)] {
        let flags = numbers(name, "choked");
        for (record, flag) in table(name).iter().zip(flags) {
            let [up, ratio, warm] = [2, 3, 4].map(|i| record[i].parse::<f64>().unwrap());
            let at = |ratio: f64| flow(&make(record), end(up * 1e3, warm), end(up * 1e3 * ratio, 300.0));
            let choked = at(ratio) == at(0.98 * ratio);
            assert_eq!(choked, flag == 1.0, "{name}: {record:?}");
            counts[usize::from(choked)] += 1;
        }
    }
    assert!(counts.iter().all(|count| *count > 100), "{counts:?}");
}
