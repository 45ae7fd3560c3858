//! Ways to know a PCV valve against tables computed independently, and against a balance worked by hand.

use coldmark::crankcase::element::{
    Element, End, Gas, GenericPlunger, Orifice, OrificeBench, PlungerValve, SpringPlunger,
};
use coldmark::quantity::si::{Area, Length, Pressure, Ratio};
use coldmark::quantity::{AbsolutePressure, Measured, celsius};
use coldmark::scribe::{Silent, Writing};

use crate::accuracy::{Row, Tally, table};

const ROOM: f64 = 101_325.0;

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    vec![bench(), balance()]
}

/// Flow through a hole per area and inlet pressure, times √(R T): isentropic, exponent 1.4 (any textbook).
fn psi(ratio: f64) -> f64 {
    let gamma: f64 = 1.4;
    let ratio = ratio.max((2.0 / (gamma + 1.0)).powf(gamma / (gamma - 1.0)));
    (2.0 * gamma / (gamma - 1.0) * (ratio.powf(2.0 / gamma) - ratio.powf((gamma + 1.0) / gamma))).max(0.0).sqrt()
}

/// What a known orifice ahead of a valve would read: the drop at which both pass the same. Areas in m², pressures in Pa.
fn reading(orifice: f64, valve: f64, depression: f64) -> f64 {
    let (mut low, mut high) = (0.0, ROOM - depression);
    for _ in 0..200 {
        let drop = 0.5 * (low + high);
        let ahead = ROOM - drop;
        let more = orifice * ROOM * psi(ahead / ROOM) - valve * ahead * psi((ahead - depression) / ahead);
        if more < 0.0 {
            low = drop;
        } else {
            high = drop;
        }
    }
    0.5 * (low + high)
}

/// The tables say area and flow at each depression; the orifice's readings are made of the area, the flow is found again.
fn bench() -> Row {
    let mut tally = Tally::new("valve on a bench with a known orifice", "closed form in Python (numpy)", "%", 1e-3);
    let known = OrificeBench {
        bore: Length::from_base(6e-3),
        discharge: Ratio::from_base(0.62),
        pressure: AbsolutePressure::from_base(ROOM),
        temperature: celsius(20.0),
    };
    let orifice = 0.62 * std::f64::consts::FRAC_PI_4 * 36e-6;
    for record in table("crank_pcv_generic.csv") {
        let [depression, area, flow] = [1, 2, 3].map(|column| record[column].parse::<f64>().unwrap());
        if depression <= 0.0 {
            continue;
        }
        let drop = reading(orifice, area * 1e-6, depression * 1e3);
        let rows = [(Pressure::from_base(depression * 1e3), Pressure::from_base(drop))];
        let found = known.flows(&rows, &mut Silent).unwrap();
        tally.relative(found[0].referred.base() * 1e3, flow);
        tally.relative(found[0].area.base() * 1e6, area);
    }
    tally.row()
}

/// Worked by hand: a plunger of 7.53 mm has 44.532 mm²; 30 kPa draw with 1.33597 N against 0.36 N and 0.23 N/mm, so it
/// comes in by 4.24335 mm, its cone has 7.04633 mm in the seat of 8 mm, and with 0.7 the ring is 7.8886 mm².
fn balance() -> Row {
    let mut tally = Tally::new("opening of a spring and plunger", "balance of forces by hand", "%", 0.01);
    let valve = SpringPlunger { discharge: Ratio::from_base(0.7), ..SpringPlunger::default() };
    let at = Pressure::from_base(30e3);
    tally.relative(valve.lift(at).base() * 1e3, 4.243_35);
    tally.relative(valve.begins().base(), 0.36 / 44.532e-6);
    tally.relative(valve.ends().base(), (0.36 + 0.23 * 8.0) / 44.532e-6);
    tally.relative(valve.open_area().base() * 1e6, 0.7 * std::f64::consts::FRAC_PI_4 * (64.0 - 42.25));
    tally.relative(valve.idle_area().base() * 1e6, 0.7 * std::f64::consts::FRAC_PI_4 * (64.0 - 56.7009));
    // The opening is read off the flow: that of a hole of the same area.
    let flow = |element: Element| {
        let end = |pressure| End { pressure: AbsolutePressure::from_base(pressure), temperature: celsius(20.0) };
        element.flow(end(ROOM), end(ROOM - 30e3), Gas::default(), &mut Silent).unwrap().base()
    };
    let hole = Orifice { effective_area: Area::from_base(7.8886e-6) };
    tally.relative(flow(valve.into()), flow(hole.into()));
    tally.row()
}

/// A spring as stiff as the generic valve's curve says moves between the same depressions and opens as wide at their ends.
#[test]
fn the_usual_spring_is_the_generic_valve_at_both_ends() {
    let (spring, generic) = (SpringPlunger::default(), PlungerValve::generic(GenericPlunger::Large));
    let flow = |element: Element, depression: f64| {
        let end = |pressure| End { pressure: AbsolutePressure::from_base(pressure), temperature: celsius(20.0) };
        element.flow(end(ROOM), end(ROOM - depression), Gas::default(), &mut Silent).unwrap().base()
    };
    for depression in [1e3, 5e3, 8e3, 52e3, 60e3, 80e3] {
        let (one, other) = (flow(spring.into(), depression), flow(generic.into(), depression));
        assert!((one / other - 1.0).abs() < 0.03, "{depression}: {one} {other}");
    }
}

#[test]
fn faulty_rows_are_named() {
    let known = OrificeBench {
        bore: Length::from_base(6e-3),
        discharge: Ratio::from_base(0.62),
        pressure: AbsolutePressure::from_base(ROOM),
        temperature: celsius(20.0),
    };
    let told = |rows: &[(f64, f64)]| {
        let rows: Vec<_> = rows.iter().map(|(a, b)| (Pressure::from_base(*a), Pressure::from_base(*b))).collect();
        known.flows(&rows, &mut Silent).unwrap_err().to_string()
    };
    let text = told(&[(0.0, 0.0), (5e3, 1e3), (10e3, 0.0)]);
    assert!(text.starts_with("row 3: 10 kPa across the valve and 0 kPa across the known orifice"), "{text}");
    let text = told(&[(80e3, 30e3)]);
    assert!(text.starts_with("row 1: ") && text.contains("below the 101 kPa"), "{text}");
    assert!(told(&[(f64::NAN, 1e3)]).starts_with("row 1"));
    let wide = OrificeBench { bore: Length::from_base(0.2), ..known };
    assert!(wide.flows(&[], &mut Silent).unwrap_err().to_string().contains("bore of a hole"));
}

#[test]
fn the_bench_writes_three_steps_for_each_row() {
    let known = OrificeBench {
        bore: Length::from_base(6e-3),
        discharge: Ratio::from_base(0.62),
        pressure: AbsolutePressure::from_base(ROOM),
        temperature: celsius(20.0),
    };
    let mut scribe = Writing::default();
    let rows = [(0.0, 0.0), (5e3, 1.9e3), (20e3, 4.4e3)].map(|(a, b)| (Pressure::from_base(a), Pressure::from_base(b)));
    let found = known.flows(&rows, &mut scribe).unwrap();
    assert_eq!((found.len(), scribe.chapters[0].steps.len()), (2, 6));
    assert_eq!(found, known.flows(&rows, &mut Silent).unwrap());
}

#[test]
fn a_plunger_that_does_not_fit_is_told() {
    let valve = SpringPlunger { thick: Length::from_base(8.2e-3), ..SpringPlunger::default() };
    let text = valve.check().unwrap_err().to_string();
    assert!(text.contains("8.2 mm") && text.contains("narrower than the seat of 8 mm"), "{text}");
    let valve = SpringPlunger { thin: Length::from_base(7.8e-3), ..SpringPlunger::default() };
    assert!(valve.check().unwrap_err().to_string().contains("no wider"));
}
