//! What stands in the lines: sags, checks, mesh, cross-over hoses, measured elements.

use coldmark::crankcase::arrangement::{
    Boundary, BreatherLine, GasSource, Inline, Outcome, Place, Valve, Ventilation, capacity, solve,
};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, End, Fittings, Gas, GenericPlunger, Hose, KnittedMesh, Orifice, PlungerValve,
    Sag, SonicPort, bore_in_a_row,
};
use coldmark::quantity::si::{Area, Length, MassRate, Ratio, VolumeRate};
use coldmark::quantity::{AbsolutePressure, Measured, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

const AMBIENT: f64 = 101_325.0;

fn metres(value: f64) -> Length {
    Length::from_base(value)
}

fn at(blow_by: f64) -> Boundary {
    Boundary::at(MassRate::from_base(blow_by), AbsolutePressure::new(pascals(98e3)))
}

fn solved(ventilation: &Ventilation, blow_by: f64) -> Outcome {
    solve(ventilation, &at(blow_by), &mut Silent).unwrap()
}

fn gauge(ventilation: &Ventilation, blow_by: f64) -> f64 {
    solved(ventilation, blow_by).crankcase_gauge.base()
}

fn flow(element: &Element, first: f64, second: f64) -> f64 {
    let end = |pressure: f64| End { pressure: AbsolutePressure::new(pascals(pressure)), temperature: celsius(60.0) };
    element.flow(end(first), end(second), Gas::default(), &mut Silent).unwrap().base()
}

fn line() -> impl Strategy<Value = BreatherLine> {
    let hose = (6.0..25.0, 0.1..2.0, 0_u32..5, 0_u32..4, 0_u32..3);
    let element = prop::option::of((1e4..1e6, 1e7..1e9));
    (hose, element, prop::option::of(4.0..20.0)).prop_map(
        |((bore, length, bends, half_bends, elbows), element, barb)| {
            let hose = Hose {
                fittings: Fittings::of_run(bends, half_bends, elbows),
                ..Hose::with_bends(metres(bore * 1e-3), metres(length), 0)
            };
            let mut line = BreatherLine { hose, ..BreatherLine::of_hose(hose.bore, hose.length, 0) };
            line.barb_bore = barb.map(|barb| metres(barb * 1e-3));
            line.element = element
                .map(|(a, b)| BreatherElement { viscous: Measured::from_base(a), inertial: Measured::from_base(b) });
            line
        },
    )
}

/// The pressure of the worse cover.
fn worst_cover(outcome: &Outcome) -> f64 {
    let covers = [Place::BreatherCover, Place::SecondCover].into_iter().filter_map(|place| outcome.pressure_at(place));
    covers.map(|place| place.gauge.base()).fold(f64::NEG_INFINITY, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_wider_hose_never_raises_the_pressure(line in line(), factor in 1.01..3.0, blow_by in 1e-5..4e-3) {
        let mut wide = line;
        wide.hose.bore *= factor;
        let (narrow, wide) = (gauge(&Ventilation::breather_only(line), blow_by), gauge(&Ventilation::breather_only(wide), blow_by));
        prop_assert!(wide <= narrow + 1e-6 * narrow.abs() + 1e-3, "{wide} {narrow}");
    }

    /// Bends, elbows, mesh and narrow fittings only ever add.
    #[test]
    fn what_stands_in_a_line_never_lowers_the_pressure(line in line(), blow_by in 1e-5..4e-3, depth in 1e-3..0.2, area in 1e-4..1e-2) {
        let plain = Ventilation::breather_only(line);
        let before = gauge(&plain, blow_by);
        let mut more = Vec::new();
        let mut bent = plain.clone();
        if let Some(line) = &mut bent.breather {
            line.hose.fittings.half_bends += 1;
            line.hose.fittings.elbows += 1;
        }
        more.push(bent);
        let mesh = |depth: f64| KnittedMesh::new(Area::from_base(area), metres(depth)).element(&mut Silent).unwrap();
        more.push(Ventilation { mesh: Some(mesh(depth)), ..plain.clone() });
        let thicker = Ventilation { mesh: Some(mesh(depth * 1.4)), ..plain.clone() };
        for changed in &more {
            prop_assert!(gauge(changed, blow_by) >= before - 1e-6 * before.abs() - 1e-3);
        }
        prop_assert!(gauge(&thicker, blow_by) >= gauge(&more[1], blow_by) - 1e-3);
    }

    /// The whole head stands before the line, and the crankcase rises by it; nothing else changes.
    #[test]
    fn a_sag_adds_its_head(line in line(), head in 1.0..3e3, blow_by in 1e-5..3e-3) {
        let dry = Ventilation::breather_only(line);
        let mut wet = dry.clone();
        wet.breather = Some(BreatherLine { sag: Some(pascals(head)), ..line });
        let (dry, outcome) = (gauge(&dry, blow_by), solved(&wet, blow_by));
        let rise = outcome.crankcase_gauge.base() - dry;
        // Behind more pressure the gas is denser and loses less in the hose; a choked barb hardly feels what stands behind it.
        let least = head * (1.0 - 2.0 * dry.abs() / AMBIENT).max(0.0) - 2.0;
        prop_assert!(rise <= head * (1.0 + 1e-6) + 2.0 + 0.02 * dry.abs() && rise >= least, "{rise} {head} {dry}");
        prop_assert!(outcome.solution.residual.base() < 2e-9);
        let same = |breather: f64| (breather - blow_by).abs() < 1e-8;
        prop_assert!(outcome.flows.breather.is_some_and(|flow| same(flow.base())));
    }

    /// Shut below its head, either way, but for what seeps.
    #[test]
    fn a_sag_is_shut_below_its_head(head in 50.0..3e3, share in -0.999..0.999_f64, bore in 5.0..30.0) {
        let sag: Element = Sag::in_hose(pascals(head), metres(bore * 1e-3)).into();
        let seeps = flow(&Orifice { effective_area: Area::from_base(1e-10) }.into(), AMBIENT + head, AMBIENT);
        let passed = flow(&sag, AMBIENT + share * head, AMBIENT);
        prop_assert!(passed.abs() <= seeps * 1.001 && passed * share >= 0.0, "{passed} {seeps}");
        prop_assert!(flow(&sag, AMBIENT + 2.0 * head, AMBIENT) > 100.0 * seeps);
    }

    /// Turned round it does the same the other way.
    #[test]
    fn a_check_turned_round_is_its_mirror(area in 1.0..100.0, first in 95e3..105e3, second in 95e3..105e3) {
        let valve = CheckValve::of_area(Area::from_base(area * 1e-6));
        let (out, inwards) = (Element::Check(valve), Element::CheckInwards(valve));
        prop_assert_eq!(flow(&out, first, second), -flow(&inwards, second, first));
    }

    /// The higher cover gives gas to the lower, so the worse of the two never rises. The crankcase itself may, by a little, as in
    /// any bridge of unlike resistances (Braess): the lower cover's line then takes more than suits it.
    #[test]
    fn a_cross_over_never_raises_the_worst_cover(
        first in line(), second in line(), baffle in 20.0..200.0, other in 20.0..200.0, bore in 4.0..25.0,
        blow_by in 1e-5..4e-3, lone in any::<bool>(), source in 0_usize..3,
    ) {
        let mut apart = if lone { Ventilation::breather_only(first) } else { Ventilation::two_breathers(first, second) };
        apart.source = [GasSource::Cover, GasSource::Valley, GasSource::Sump][source];
        apart.baffle_area = Area::from_base(baffle * 1e-6);
        apart.second_baffle_area = Some(Area::from_base(other * 1e-6));
        let joined = Ventilation { crossover: Some(Hose::with_bends(metres(bore * 1e-3), metres(0.5), 2)), ..apart.clone() };
        let (apart, joined) = (solved(&apart, blow_by), solved(&joined, blow_by));
        prop_assert!(joined.solution.residual.base() < 2e-9);
        let slack = 1e-6 * apart.crankcase_gauge.base().abs() + 1e-3;
        if lone && source == 0 {
            prop_assert!(joined.crankcase_gauge.base() <= apart.crankcase_gauge.base() + slack);
        }
        // A cover without a line stands at the crankcase's pressure.
        let dead = lone || source > 0;
        let before = if dead { apart.crankcase_gauge.base() } else { worst_cover(&apart) };
        prop_assert!(worst_cover(&joined) <= before + slack, "{} {before}", worst_cover(&joined));
        let flows = joined.flows;
        let out = flows.breather.unwrap().base() + flows.second_breather.map_or(0.0, Measured::base);
        prop_assert!((out - blow_by).abs() < 1e-8, "{out} {blow_by}");
        prop_assert!(flows.crossover.is_some());
    }

    /// Two rows or more of one law give that law back.
    #[test]
    fn an_element_is_fitted_from_its_rows(a in 0.0..1e6_f64, b in 1e6..1e9_f64, flows in prop::collection::btree_set(10_u32..300, 2..6)) {
        let rows: Vec<_> = flows
            .into_iter()
            .map(|litres| f64::from(litres) * 1e-3 / 60.0)
            .map(|q| (VolumeRate::from_base(q), pascals(a * q + b * q * q)))
            .filter(|(_, drop)| (0.1..1e4).contains(&drop.base()))
            .collect();
        prop_assume!(rows.len() >= 2);
        let fitted = BreatherElement::from_rows(&rows, &mut Silent).unwrap();
        let (viscous, first): (f64, f64) = (fitted.viscous.base(), rows[0].0.base());
        prop_assert!((viscous - a).abs() < 1e-6 * (a + b * first));
        prop_assert!((fitted.inertial.base() / b - 1.0).abs() < 1e-6);
        for (flow, drop) in &rows {
            prop_assert!((fitted.drop_at(*flow).base() / drop.base() - 1.0).abs() < 1e-6);
        }
    }

    /// Whatever stands in the lines, there is an answer and it balances.
    #[test]
    fn lines_with_sags_and_checks_are_solved(
        line in line(), sag in prop::option::of(1.0..3e3), inline in 0_usize..4, shape in 0_usize..3,
        blow_by in 0.0..4e-3, manifold in 18e3..101e3, size in 0_usize..3, crossover in any::<bool>(),
    ) {
        let check = CheckValve::of_area(Area::from_base(8e-5));
        let port = SonicPort { conductance: Measured::from_base(2e-7), critical_ratio: Measured::from_base(0.3) };
        let inline = match inline {
            0 => None,
            1 => Some(Inline::CheckOutwards(check)),
            // Without a valve nothing but the breather lets gas out.
            2 if shape > 0 => Some(Inline::CheckInwards(check)),
            _ => Some(Inline::Component(port)),
        };
        let line = BreatherLine { sag: sag.map(pascals), inline, ..line };
        let valve = [GenericPlunger::Small, GenericPlunger::Medium, GenericPlunger::Large][size];
        let valve = Valve::Plunger(PlungerValve::generic(valve));
        let mut ventilation = match shape {
            0 => Ventilation::breather_only(line),
            1 => Ventilation::breather_with_valve(line, valve),
            _ => Ventilation::closed(line, valve),
        };
        ventilation.crossover = crossover.then(|| Hose::with_bends(metres(0.012), metres(0.5), 2));
        let at = Boundary::at(MassRate::from_base(blow_by), AbsolutePressure::new(pascals(manifold)));
        let outcome = solve(&ventilation, &at, &mut Silent);
        prop_assert!(outcome.is_ok(), "{}", outcome.unwrap_err());
        let outcome = outcome.unwrap();
        let flows = &outcome.flows;
        let out: f64 = [flows.breather, flows.fresh_air, flows.valve].into_iter().flatten().map(Measured::base).sum();
        prop_assert!((out - blow_by).abs() < 1e-8, "{out} {blow_by}");
        prop_assert!(outcome.solution.residual.base() < 2e-9);
    }

    /// One point is met whatever the share, and no row of any kind makes the fit fall over.
    #[test]
    fn one_point_is_met(flow in 1e-4..0.1, drop in 0.1..1e4, share in 0.0..1.0, odd in any::<[f64; 4]>()) {
        let element =
            BreatherElement::from_point(VolumeRate::from_base(flow), pascals(drop), Ratio::from_base(share), &mut Silent).unwrap();
        prop_assert!((element.drop_at(VolumeRate::from_base(flow)).base() / drop - 1.0).abs() < 1e-9);
        let rows = [(odd[0], odd[1]), (odd[2], odd[3])].map(|(q, d)| (VolumeRate::from_base(q), pascals(d)));
        if let Ok(element) = BreatherElement::from_rows(&rows, &mut Silent) {
            prop_assert!(element.check().is_ok());
        }
    }

    /// Holes in a row are one hole: as a network of them has it, while the pressure falls by little of itself.
    #[test]
    fn holes_in_a_row_are_one_hole(one in 5.0..15.0, other in 5.0..15.0, count in 1_u32..4, blow_by in 1e-4..5e-4) {
        use coldmark::crankcase::network::Network;
        let hole = |bore: f64| Orifice::of_bore(metres(bore), Ratio::from_base(0.8)).unwrap();
        let alike = [(metres(one * 1e-3), count), (metres(other * 1e-3), 1)];
        let single = bore_in_a_row(&alike, &mut Silent).unwrap().unwrap().base();
        let build = |bores: &[f64]| {
            let ambient = AbsolutePressure::new(pascals(AMBIENT));
            let mut network = Network::new(ambient, Gas::default()).unwrap();
            let inside = network.free("inside", celsius(90.0), MassRate::from_base(blow_by)).unwrap();
            let mut here = inside;
            for (i, bore) in bores.iter().enumerate() {
                let next = if i + 1 == bores.len() {
                    network.fixed("air", ambient, celsius(20.0)).unwrap()
                } else {
                    network.free(format!("behind {i}"), celsius(90.0), MassRate::from_base(0.0)).unwrap()
                };
                network.join(here, next, hole(*bore)).unwrap();
                here = next;
            }
            network.solve(&mut Silent).unwrap().gauge(inside).unwrap().base()
        };
        let mut bores = vec![one * 1e-3; count as usize];
        bores.push(other * 1e-3);
        let (row, alone) = (build(&bores), build(&[single]));
        prop_assert!((row / alone - 1.0).abs() < 0.01 + row / AMBIENT, "{row} {alone}");
    }
}

/// A breather that lets gas out only leaves the crankcase to the valve; one that lets air in only holds it up to the air.
#[test]
fn checks_shut_their_line_and_say_so() {
    let line = BreatherLine::of_hose(metres(0.016), metres(0.4), 2);
    let valve = Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium));
    let check = CheckValve::of_area(Area::from_base(1e-4));
    let with = |inline| {
        let breather = BreatherLine { inline: Some(inline), ..line };
        Ventilation::breather_with_valve(breather, valve.clone())
    };
    let idle = Boundary::at(MassRate::from_base(0.12e-3), AbsolutePressure::new(pascals(35e3)));
    let full = at(3e-3);
    let key = |outcome: &Outcome| outcome.notes.iter().any(|note| note.key == "check-shut");
    let outwards = with(Inline::CheckOutwards(check));
    let shut = solve(&outwards, &idle, &mut Silent).unwrap();
    assert!(key(&shut) && shut.crankcase_gauge.base() < -5e3, "{}", shut.crankcase_gauge.base());
    assert!(!key(&solve(&outwards, &full, &mut Silent).unwrap()));
    let inwards = with(Inline::CheckInwards(check));
    let open = solve(&inwards, &idle, &mut Silent).unwrap();
    assert!(!key(&open) && open.crankcase_gauge.base() > -2e3);
    assert!(key(&solve(&inwards, &full, &mut Silent).unwrap()));
}

/// A sag in the breather of an engine with a valve shuts it while the valve takes nearly all.
#[test]
fn a_sag_shuts_a_quiet_breather_and_says_so() {
    let line = BreatherLine { sag: Some(pascals(400.0)), ..BreatherLine::of_hose(metres(0.016), metres(0.4), 2) };
    let valve = Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium));
    let ventilation = Ventilation::breather_with_valve(line, valve);
    // The plunger is home, so that its flow does not fall as the depression grows.
    let cruise = |blow_by: f64| Boundary::at(MassRate::from_base(blow_by), AbsolutePressure::new(pascals(35e3)));
    let takes = capacity(&ventilation, &cruise(1e-3), &mut Silent).unwrap().blow_by.base();
    let shut = solve(&ventilation, &cruise(takes), &mut Silent).unwrap();
    assert!(shut.notes.iter().any(|note| note.key == "sag-shut"), "{:?}", shut.notes);
    assert!(shut.flows.breather.unwrap().base().abs() < 1e-7);
    let open = solve(&ventilation, &cruise(0.2 * takes), &mut Silent).unwrap();
    assert!(!open.notes.iter().any(|note| note.key == "sag-shut"));
    assert!(open.crankcase_gauge.base() < -400.0 && open.flows.breather.unwrap().base() < 0.0);
}
