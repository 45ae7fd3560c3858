//! Networks and arrangements against an independent solution with scipy.

use coldmark::crankcase::arrangement::{
    Boundary, BreatherLine, CanPlace, CatchCan, Outcome, Valve, Ventilation, Venting, capacity, largest_blow_by, solve,
};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, Fittings, Gas, GenericPlunger, Hose, Orifice, PlungerValve,
};
use coldmark::crankcase::network::{Network, NodeId, Stability};
use coldmark::quantity::si::{Area, Length, MassRate, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, LinearResistance, Measured, QuadraticResistance, pascals};
use coldmark::scribe::{Silent, Writing};
use std::collections::HashMap;

use crate::accuracy::{Row, Tally, table};

const AMBIENT: f64 = 101_325.0;

fn absolute(pressure: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(pressure))
}

fn kelvin(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_base(temperature)
}

fn grams(flow: f64) -> MassRate {
    MassRate::from_base(flow * 1e-3)
}

fn element(kind: &str, parameters: &str) -> Element {
    let values: HashMap<&str, f64> = parameters
        .split(';')
        .map(|pair| pair.split_once('=').unwrap())
        .map(|(key, value)| (key, value.parse().unwrap()))
        .collect();
    let area = |key| Area::from_base(values[key] * 1e-6);
    match kind {
        "orifice" => Orifice { effective_area: area("CdA_mm2") }.into(),
        "check_orifice" => CheckValve {
            effective_area: area("CdA_mm2"),
            opening_pressure: pascals(0.0),
            seat_leak: Area::from_base(0.0),
        }
        .into(),
        "hose" => Hose {
            bore: Length::from_base(values["D_mm"] * 1e-3),
            length: Length::from_base(values["L_m"]),
            fittings: Fittings::of_sum(Ratio::from_base(values["K"])),
            roughness: Length::from_base(values["eps_um"] * 1e-6),
        }
        .into(),
        "media" => BreatherElement {
            viscous: LinearResistance::from_base(values["a_Pa_per_m3s"]),
            inertial: QuadraticResistance::from_base(values["b_Pa_per_m3s2"]),
        }
        .into(),
        "pcv_plunger" => PlungerValve {
            open_area: area("CdA_open_mm2"),
            idle_area: area("CdA_idle_mm2"),
            starts_reducing: pascals(values["d1_kPa"] * 1e3),
            fully_reduced: pascals(values["d2_kPa"] * 1e3),
            backfire_area: area("CdA_back_mm2"),
        }
        .into(),
        other => panic!("{other}"),
    }
}

/// One network of the tables, with its nodes' expected gauge pressures and its elements' expected flows.
struct Worked {
    name: String,
    network: Network,
    pressures: Vec<(NodeId, f64)>,
    flows: Vec<f64>,
}

fn worked() -> Vec<Worked> {
    let mut all: Vec<Worked> = Vec::new();
    let mut nodes: HashMap<(String, String), NodeId> = HashMap::new();
    for record in table("crank_network_nodes.csv") {
        let name = record[0].to_owned();
        if all.last().is_none_or(|last| last.name != name) {
            let network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
            all.push(Worked { name: name.clone(), network, pressures: Vec::new(), flows: Vec::new() });
        }
        let worked = all.last_mut().unwrap();
        let temperature = kelvin(record[5].parse().unwrap());
        let (node, gauge) = (record[2].to_owned(), record[7].parse::<f64>().unwrap());
        let id = if &record[3] == "fixed" {
            worked.network.fixed(node.clone(), absolute(AMBIENT + gauge), temperature).unwrap()
        } else {
            worked.network.free(node.clone(), temperature, grams(record[4].parse().unwrap())).unwrap()
        };
        worked.pressures.push((id, gauge));
        nodes.insert((name, node), id);
    }
    for record in table("crank_network_edges.csv") {
        let worked = all.iter_mut().find(|worked| worked.name == record[0]).unwrap();
        let end = |name: &str| nodes[&(record[0].to_owned(), name.to_owned())];
        worked.network.join(end(&record[1]), end(&record[2]), element(&record[3], &record[4])).unwrap();
        worked.flows.push(record[5].parse().unwrap());
    }
    all
}

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = worked_networks();
    rows.extend([dead_end(), turning_round()]);
    rows.extend(arrangements());
    rows
}

fn worked_networks() -> Vec<Row> {
    let mut flows = Tally::new("flows of eleven networks", "scipy root", "%", 0.1);
    // Absolute allowance 0.2 Pa; with it 0.5 % of the pressure.
    let mut pressures =
        Tally::new("node pressures of eleven networks", "scipy root, 0.2 Pa + 0.5 %", "of allowed", 1.0);
    let all = worked();
    assert_eq!(all.len(), 11);
    for worked in all {
        let solution = worked.network.solve(&mut Silent).unwrap_or_else(|error| panic!("{}: {error}", worked.name));
        assert!(solution.residual.base() < 1e-9, "{}: {:?}", worked.name, solution.residual);
        assert!(solution.conservation.base().abs() < 2e-9, "{}", worked.name);
        for (id, expected) in worked.pressures {
            let found = solution.gauge(id).unwrap().base();
            pressures.difference((found - expected) / (0.2 + 0.005 * expected.abs()), 0.0);
        }
        for (found, expected) in solution.flows.iter().zip(worked.flows) {
            flows.relative(found.flow.base() * 1e3, expected);
        }
    }
    vec![flows.row(), pressures.row()]
}

fn medium_plunger() -> PlungerValve {
    PlungerValve { backfire_area: Area::from_base(0.0), ..PlungerValve::generic(GenericPlunger::Medium) }
}

fn dead_end() -> Row {
    let mut tally = Tally::new("equilibria of a sealed crankcase", "scipy brentq on a scan", "%", 0.01);
    let mut expected: HashMap<String, Vec<(f64, bool)>> = HashMap::new();
    for record in table("crank_deadend_roots.csv") {
        expected.entry(record[0].to_owned()).or_default().push((record[2].parse().unwrap(), &record[3] == "stable"));
    }
    assert_eq!(expected.len(), 2);
    for (blow_by, roots) in expected {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        // The shorter table row has a baffle of 60 mm² ahead of the valve in the worked network; here the pressure is
        // that ahead of the valve itself.
        let crankcase = network.free("crankcase", kelvin(363.15), grams(blow_by.parse().unwrap())).unwrap();
        let manifold = network.fixed("manifold", absolute(35e3), kelvin(320.0)).unwrap();
        network.join(crankcase, manifold, medium_plunger()).unwrap();
        let found = network.all_solutions(&mut Silent).unwrap();
        assert_eq!(found.len(), roots.len());
        for (found, (pressure, stable)) in found.iter().zip(&roots) {
            assert!(found.sealed && found.solution.notes.iter().any(|note| note.key == "crankcase-sealed"));
            assert_eq!(found.stability == Stability::Stable, *stable);
            tally.relative(found.solution.pressure(crankcase).unwrap().base() * 1e-3, *pressure);
        }
        // From ambient pressure the crankcase goes to a stable one.
        let reached = network.solve(&mut Silent).unwrap();
        let reached = reached.pressure(crankcase).unwrap().base() * 1e-3;
        let last = roots.last().unwrap().0;
        assert!((reached / last - 1.0).abs() < 1e-4, "{reached} is not {last}");
    }
    tally.row()
}

fn turning_round() -> Row {
    let mut tally = Tally::new("blow-by at which the breather turns round", "scipy brentq", "%", 0.01);
    for record in table("crank_pcv_capacity.csv") {
        let size = if &record[0] == "four_2.0" { GenericPlunger::Medium } else { GenericPlunger::Large };
        let line = breather(16.0, 0.4, 2.1);
        let ventilation = Ventilation::breather_with_valve(line, Valve::Plunger(PlungerValve::generic(size)));
        let at = Boundary::at(grams(0.2), absolute(record[1].parse::<f64>().unwrap() * 1e3));
        let found = capacity(&ventilation, &at, &mut Silent).unwrap();
        tally.relative(found.blow_by.base() * 1e3, record[3].parse().unwrap());
        assert!((found.margin.unwrap().base() - (found.blow_by.base() / 0.2e-3 - 1.0)).abs() < 1e-12);
    }
    tally.row()
}

fn hose(bore: f64, length: f64, losses: f64) -> Hose {
    Hose {
        fittings: Fittings::of_sum(Ratio::from_base(losses)),
        ..Hose::with_bends(Length::from_base(bore * 1e-3), Length::from_base(length), 0)
    }
}

fn fresh(bore: f64, length: f64, losses: f64) -> BreatherLine {
    let line = BreatherLine::of_hose(Length::from_base(bore * 1e-3), Length::from_base(length), 0);
    BreatherLine { hose: hose(bore, length, losses), ..line }
}

fn breather(bore: f64, length: f64, losses: f64) -> BreatherLine {
    fresh(bore, length, losses).with_element(BreatherElement::default())
}

fn valve(size: GenericPlunger) -> Valve {
    Valve::Plunger(PlungerValve::generic(size))
}

fn at(blow_by: f64, manifold: f64, air_cleaner: f64) -> Boundary {
    let at = Boundary::at(grams(blow_by), absolute(manifold * 1e3));
    Boundary { air_cleaner_depression: pascals(air_cleaner), manifold_temperature: kelvin(320.0), ..at }
}

type Pick = fn(&Outcome) -> Option<MassRate>;

/// A name, what is described and asked, the expected pressure, and a flow with its expected value.
type Described = (&'static str, Ventilation, Boundary, f64, Pick, f64);

/// The worked networks as a builder would describe them: crankcase gauge pressure, Pa, and the flow of one line, g/s.
fn described() -> Vec<Described> {
    use GenericPlunger::{Large, Medium};
    let can = |place, venting| CatchCan { inlet_loss: Ratio::from_base(1.0), ..CatchCan::new(place, venting) };
    let vented = Venting::Vented { opening_bore: None, element: None, outlet: None };
    let mut all: Vec<Described> = Vec::new();
    let n1 = Ventilation::breather_only(breather(16.0, 0.6, 2.1));
    all.push(("N1", n1, at(0.55, 98.0, 0.0), 266.0091817, |o| o.flows.breather, 0.55));
    let n2 = Ventilation::breather_with_valve(breather(16.0, 0.4, 2.1), valve(Medium));
    all.push(("N2a", n2.clone(), at(0.12, 35.0, 0.0), -105.0473364, |o| o.flows.breather, -0.3521178598));
    all.push(("N2b", n2, at(1.6, 98.0, 0.0), 593.0260986, |o| o.flows.valve, 0.6799024586));
    let n3 = Ventilation::closed(fresh(16.0, 0.5, 2.1), valve(Large));
    all.push(("N3a", n3.clone(), at(0.3, 40.0, 20.0), -66.7749552, |o| o.flows.fresh_air, -0.5580972101));
    all.push(("N3b", n3, at(1.1, 97.0, 1_500.0), -1_487.939639, |o| o.flows.fresh_air, 0.2453556565));
    let mut n4 = Ventilation::two_breathers(breather(19.0, 0.3, 1.5), breather(12.7, 0.3, 1.5));
    n4.second_baffle_area = Some(Area::from_base(30e-6));
    all.push(("N4", n4, at(3.3, 97.0, 0.0), 1_996.541012, |o| o.flows.second_breather, 1.363749883));
    let mut n5 = Ventilation::breather_only(breather(16.0, 1.2, 2.1));
    n5.catch_can = Some(can(CanPlace::BreatherLine, vented));
    all.push(("N5", n5, at(1.1, 97.0, 0.0), 840.7517844, |o| o.flows.breather, 1.1));
    let n6 = Ventilation::breather_only(breather(6.0, 1.0, 2.1));
    all.push(("N6", n6, at(0.55, 98.0, 0.0), 1_909.312661, |o| o.flows.breather, 0.55));
    let mut n7 = Ventilation::closed(fresh(16.0, 0.5, 2.1), valve(Medium));
    n7.valve_line = Some(fresh(9.5, 0.8, 1.5));
    n7.catch_can = Some(can(CanPlace::ValveLine, Venting::Sealed { outlet: Some(hose(9.5, 0.5, 2.0)) }));
    all.push(("N7", n7, at(0.25, 50.0, 100.0), -107.871561, |o| o.flows.valve, 0.4709419466));
    let check = CheckValve {
        effective_area: Area::from_base(3.5e-6),
        opening_pressure: pascals(0.0),
        seat_leak: Area::from_base(0.0),
    };
    let n8 = Ventilation::closed(fresh(16.0, 0.5, 2.1), Valve::Check(check));
    all.push(("N8", n8, at(0.25, 50.0, 100.0), -137.3971643, |o| o.flows.fresh_air, -0.5004944928));
    let mut n9 = Ventilation::breather_with_valve(breather(16.0, 0.4, 2.1), valve(Medium));
    n9.breather = None;
    all.push(("N9", n9, at(0.12, 35.0, 0.0), -65_983.806_09, |o| o.flows.valve, 0.12));
    all
}

fn arrangements() -> Vec<Row> {
    let mut pressures = Tally::new("crankcase pressure of eleven arrangements", "scipy root", "Pa", 0.2);
    let mut flows = Tally::new("a flow of eleven arrangements", "scipy root", "%", 0.1);
    for (name, ventilation, at, gauge, pick, expected) in described() {
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap_or_else(|error| panic!("{name}: {error}"));
        pressures.difference(outcome.crankcase_gauge.base(), gauge);
        flows.relative(pick(&outcome).unwrap().base() * 1e3, expected);
    }
    vec![pressures.row(), flows.row()]
}

#[test]
fn a_sealed_crankcase_is_said_to_be_sealed() {
    let (_, ventilation, at, ..) = described().pop().unwrap();
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert!(outcome.sealed && outcome.all.len() == 1);
    assert!(outcome.notes.iter().any(|note| note.key == "crankcase-sealed"));
    let at = Boundary { blow_by: grams(0.55), ..at };
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    let stability: Vec<_> = outcome.all.iter().map(|(_, stability)| *stability).collect();
    assert_eq!(stability, [Stability::Stable, Stability::Unstable, Stability::Stable]);
    assert!(outcome.notes.iter().any(|note| note.key == "several-equilibria"));
}

#[test]
fn the_tightest_part_is_named() {
    use coldmark::crankcase::arrangement::{Line, Piece};
    let find = |name: &str| described().into_iter().find(|one| one.0 == name).unwrap();
    let (_, ventilation, at, ..) = find("N6");
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    let tightest = outcome.tightest(Line::Breather).unwrap();
    // The 6 mm hose takes 1.66 kPa of the 1.91 kPa.
    assert_eq!(tightest.piece, Piece::Hose);
    assert!((tightest.drop.base() - 1_656.6).abs() < 1.0);
    // A barb of 3.5 mm on a 16 mm hose is tighter than everything else.
    let (_, mut ventilation, at, ..) = find("N1");
    ventilation.breather = ventilation.breather.map(|line| line.with_barb(Length::from_base(3.5e-3)));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert_eq!(outcome.tightest(Line::Breather).unwrap().piece, Piece::Barb);
}

#[test]
fn the_largest_blow_by_brings_the_crankcase_to_its_limit() {
    for (name, ventilation, at, ..) in described() {
        let limit = coldmark::quantity::GaugePressure::from_base(500.0);
        let found = largest_blow_by(&ventilation, &at, limit, &mut Silent);
        if name == "N9" {
            assert!(found.is_err());
            continue;
        }
        let at = Boundary { blow_by: found.unwrap().blow_by, ..at };
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
        assert!((outcome.crankcase_gauge.base() - 500.0).abs() < 0.05, "{name}: {:?}", outcome.crankcase_gauge);
    }
}

#[test]
fn at_capacity_the_fresh_flow_is_zero() {
    for (name, ventilation, at, ..) in described() {
        let Ok(found) = capacity(&ventilation, &at, &mut Silent) else { continue };
        if name == "N9" {
            continue;
        }
        let at = Boundary { blow_by: found.blow_by, ..at };
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
        let fresh = outcome.flows.breather.or(outcome.flows.fresh_air).unwrap();
        assert!(fresh.base().abs() < 2e-9, "{name}: {fresh:?}");
    }
}

#[test]
fn a_solution_writes_every_element() {
    let (_, ventilation, at, ..) = described().remove(1);
    let mut writing = Writing::default();
    solve(&ventilation, &at, &mut writing).unwrap();
    let steps = &writing.chapters[0].steps;
    for meaning in ["opening of the plunger valve", "flow through the hose", "flow through the breather element"] {
        assert!(steps.iter().any(|step| step.meaning == meaning), "{meaning}");
    }
}

#[test]
fn a_measured_table_gives_the_plunger_it_was_measured_on() {
    use coldmark::crankcase::element::TableValve;
    use coldmark::quantity::celsius;
    let points: Vec<_> = table("crank_pcv_generic.csv")
        .iter()
        .filter(|record| &record[0] == "four_2.0" && record[1].parse::<f64>().unwrap() > 0.0)
        .map(|record| (pascals(record[1].parse::<f64>().unwrap() * 1e3), grams(record[3].parse().unwrap())))
        .collect();
    let measured = TableValve::new(&points, absolute(AMBIENT), celsius(20.0)).unwrap();
    for (blow_by, manifold) in [(0.12, 35.0), (0.25, 55.0), (0.4, 75.0), (0.5, 90.0), (1.6, 98.0)] {
        let flow = |valve: Valve| {
            let ventilation = Ventilation::breather_with_valve(breather(16.0, 0.4, 2.1), valve);
            let outcome = solve(&ventilation, &at(blow_by, manifold, 0.0), &mut Silent).unwrap();
            assert!(outcome.all.is_empty());
            outcome.flows.valve.unwrap().base()
        };
        // Between points 5 kPa apart the monotone cubic is within a per cent or two of the smooth step.
        let (by_table, by_plunger) = (flow(Valve::Table(measured.clone())), flow(valve(GenericPlunger::Medium)));
        assert!((by_table / by_plunger - 1.0).abs() < 0.02, "{manifold}: {by_table} {by_plunger}");
    }
    // A manifold deeper than the table reaches is refused, not extrapolated.
    let ventilation = Ventilation::breather_with_valve(breather(16.0, 0.4, 2.1), Valve::Table(measured));
    let error = solve(&ventilation, &at(0.12, 25.0, 0.0), &mut Silent).unwrap_err();
    assert!(error.to_string().contains("beyond the last point of its table"), "{error}");
}
