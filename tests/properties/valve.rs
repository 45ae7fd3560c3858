//! PCV valves: what must hold for every one of them, working and stuck.

use crate::any::{odd, of};
use coldmark::crankcase::arrangement::{Boundary, BreatherLine, Stuck, Valve, Ventilation, solve_one};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, End, FixedOrificeValve, Gas, Orifice, OrificeBench, PlungerValve, SonicPort,
    SpringPlunger, TableValve,
};
use coldmark::quantity::si::{Area, Length, Pressure};
use coldmark::quantity::{AbsolutePressure, Measured, celsius};
use coldmark::scribe::Silent;
use proptest::prelude::*;

const ROOM: f64 = 101_325.0;

prop_compose! {
    /// A plunger that fits its seat.
    fn spring()(
        seat in 3e-3..15e-3_f64, clearance in 0.005..0.2_f64, thin in 0.0..1.0_f64, travel in 1e-3..15e-3_f64,
        preload in 0.0..3.0_f64, rate in 20.0..3e3_f64, discharge in 0.5..1.0_f64,
    ) -> SpringPlunger {
        let thick = seat * (1.0 - clearance);
        SpringPlunger {
            seat_bore: of(seat),
            thick: of(thick),
            thin: of(thick * thin),
            travel: of(travel),
            preload: of(preload),
            rate: of(rate),
            discharge: of(discharge),
            backfire_area: of(0.0),
        }
    }
}

fn valve() -> impl Strategy<Value = Valve> {
    let plunger = (2.0..15.0_f64, 0.1..1.0_f64, 1e3..20e3_f64, 5e3..50e3_f64).prop_map(|(open, idle, starts, more)| {
        Valve::Plunger(PlungerValve {
            open_area: of(open * 1e-6),
            idle_area: of(open * idle * 1e-6),
            starts_reducing: of(starts),
            fully_reduced: of(starts + more),
            backfire_area: of(0.0),
        })
    });
    let fixed = (1e-3..4e-3_f64)
        .prop_map(|bore| Valve::FixedOrifice(FixedOrificeValve { bore: of(bore), ..FixedOrificeValve::default() }));
    let check = (2.0..20.0_f64).prop_map(|area| Valve::Check(CheckValve::of_area(of(area * 1e-6))));
    let sonic = (0.2..4.0_f64, 0.1..0.6_f64)
        .prop_map(|(c, b)| Valve::Sonic(SonicPort { conductance: of(c * 1e-8), critical_ratio: of(b) }));
    prop_oneof![3 => spring().prop_map(Valve::SpringPlunger), 2 => plunger, 1 => fixed, 1 => check, 1 => sonic]
}

fn air(pressure: f64) -> End {
    End { pressure: AbsolutePressure::from_base(pressure), temperature: celsius(20.0) }
}

fn flow(element: &Element, behind: f64) -> f64 {
    element.flow(air(ROOM), air(behind), Gas::default(), &mut Silent).unwrap().base()
}

/// The drop a known orifice ahead of an opening shows, by the elements themselves.
fn reading(orifice: Area, opening: Area, depression: f64) -> f64 {
    let [orifice, opening] = [orifice, opening].map(|effective_area| Element::from(Orifice { effective_area }));
    let (mut low, mut high) = (0.0, ROOM - depression);
    for _ in 0..200 {
        let drop = 0.5 * (low + high);
        let ahead = ROOM - drop;
        let behind = (ahead - depression).max(2.0);
        let through = opening.flow(air(ahead), air(behind), Gas::default(), &mut Silent).unwrap().base();
        if flow(&orifice, ahead) < through { low = drop } else { high = drop }
    }
    0.5 * (low + high)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// The deeper the depression the farther the plunger comes in, from begins to ends and not beyond; the ring never
    /// widens, and flow through it never turns back.
    #[test]
    fn a_plunger_comes_in_with_the_depression(valve in spring(), one in 0.0..95e3_f64, more in 1.0..30e3_f64) {
        valve.check().unwrap();
        let lift = |depression: f64| valve.lift(of(depression)).base();
        prop_assert!(valve.begins() < valve.ends());
        prop_assert!(lift(one) >= 0.0 && lift(one) <= valve.travel.base());
        prop_assert!(lift(one + more) >= lift(one));
        prop_assert_eq!(lift(valve.begins().base() * (1.0 - 1e-9)), 0.0);
        prop_assert!(lift(valve.ends().base() * (1.0 + 1e-9)) == valve.travel.base());
        let opening = |depression: f64| {
            let hole: Element = Orifice { effective_area: of(1e-6) }.into();
            flow(&valve.into(), ROOM - depression) / flow(&hole, ROOM - depression) * 1e-6
        };
        let (wide, narrow) = (opening(one.max(1.0)), opening((one + more).min(95e3).max(one.max(1.0))));
        prop_assert!(narrow <= wide * (1.0 + 1e-9), "{narrow} {wide}");
        prop_assert!(wide <= valve.open_area().base() * (1.0 + 1e-9));
        prop_assert!(narrow >= valve.idle_area().base() * (1.0 - 1e-9));
    }

    /// Readings made of an opening give the opening back, and a table of the referred flows passes as much as the valve.
    #[test]
    fn a_bench_with_an_orifice_finds_the_valve(valve in spring(), bore in 3e-3..12e-3_f64) {
        let known = OrificeBench {
            bore: of(bore), discharge: of(0.62), pressure: AbsolutePressure::from_base(ROOM), temperature: celsius(20.0),
        };
        let orifice = Orifice::of_bore(known.bore, known.discharge).unwrap().effective_area;
        let element: Element = valve.into();
        let mut rows = Vec::new();
        let mut openings = Vec::new();
        for depression in [5e3, 15e3, 30e3, 45e3] {
            let hole: Element = Orifice { effective_area: of(1e-6) }.into();
            let opening = flow(&element, ROOM - depression) / flow(&hole, ROOM - depression) * 1e-6;
            let drop = reading(orifice, of(opening), depression);
            // A valve far wider than the orifice leaves nothing to read.
            prop_assume!(drop > 0.2 && drop + depression < ROOM - 100.0);
            rows.push((of::<Pressure>(depression), of::<Pressure>(drop)));
            openings.push(opening);
        }
        let found = known.flows(&rows, &mut Silent).unwrap();
        for (row, opening) in found.iter().zip(&openings) {
            prop_assert!((row.area.base() / opening - 1.0).abs() < 1e-5, "{} {opening}", row.area.base());
        }
        let points: Vec<_> = found.iter().map(|row| (row.depression, row.referred)).collect();
        let measured: Element = TableValve::new(&points, known.pressure, known.temperature).unwrap().into();
        for (depression, _) in &points {
            let behind = ROOM - depression.base();
            prop_assert!((flow(&measured, behind) / flow(&element, behind) - 1.0).abs() < 1e-5);
        }
    }

    /// Shut, a valve leaves at least the pressure it works with; open, at most that.
    #[test]
    fn stuck_valves_stand_on_either_side(
        valve in valve(), blow_by in 0.0..3e-3_f64, manifold in 20e3..100e3_f64, bore in 8e-3..25e-3_f64,
        port in prop::option::of(3e-3..10e-3_f64), closed in any::<bool>(),
    ) {
        let line = BreatherLine::of_hose(of(bore), of(0.6), 2).with_element(BreatherElement::default());
        let mut working =
            if closed { Ventilation::closed(line, valve) } else { Ventilation::breather_with_valve(line, valve) };
        working.port_bore = port.map(of::<Length>);
        let at = Boundary::at(of(blow_by), AbsolutePressure::from_base(manifold));
        let stands = |stuck| {
            let changed = Ventilation { valve_stuck: stuck, ..working.clone() };
            solve_one(&changed, &at, &mut Silent).map(|outcome| outcome.crankcase_gauge.base())
        };
        let (works, shut, open) = (stands(None), stands(Some(Stuck::Shut)), stands(Some(Stuck::Open)));
        let (Ok(works), Ok(shut), Ok(open)) = (works.clone(), shut.clone(), open.clone()) else {
            return Err(TestCaseError::fail(format!("{works:?} {shut:?} {open:?}")));
        };
        let slack = 1e-3 + 1e-6 * works.abs();
        // A leak against the flow and one with it are one hole, so a valve at rest may leave a hair less.
        prop_assert!(shut >= works - slack, "{shut} {works}");
        prop_assert!(open <= works + slack, "{open} {works}");
    }

    /// No figure makes a valve or a bench fall over.
    #[test]
    fn nonsense_is_told(figures in prop::array::uniform8(prop_oneof![3 => 0.0..0.02_f64, 1 => -1e3..1e3_f64, 1 => odd()])) {
        let [a, b, c, d, e, f, g, h] = figures;
        let valve = SpringPlunger {
            seat_bore: of(a), thick: of(b), thin: of(c), travel: of(d), preload: of(e), rate: of(f * 1e4),
            discharge: of(g), backfire_area: of(h),
        };
        let element: Element = valve.into();
        match element.flow(air(ROOM), air(40e3), Gas::default(), &mut Silent) {
            Ok(flow) => prop_assert!(flow.base().is_finite() && valve.check().is_ok()),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
        let known = OrificeBench {
            bore: of(a), discharge: of(b), pressure: AbsolutePressure::from_base(c * 1e7), temperature: of(d * 1e5),
        };
        if let Ok(found) = known.flows(&[(of(e * 1e6), of(f * 1e6)), (of(g), of(h))], &mut Silent) {
            for row in found {
                prop_assert!(row.flow.base() > 0.0 && row.area.base().is_finite() && row.referred.base().is_finite());
            }
        }
    }
}
