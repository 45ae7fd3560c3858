//! Cylinder pressure and blow-by: what must hold for every engine and point, and that nonsense is refused and never
//! panics.

use crate::any::{odd, of, sea_level};
use coldmark::crankcase::blow_by::{
    BlowBy, BlowByError, Candidate, Condition, Counted, InterRing, LeakDownTest, Level, RingPackFigures, RulesOfThumb,
    area_from_flow, choose, from_condition, from_leak_down, from_ring_pack, hot_gaps, remarks, through,
};
use coldmark::crankcase::cylinder::{
    Blower, Cycle, Duty, Geometry, LeakPath, Leakage, OperatingPoint, Trace, back_pressure, diesel_figures, figures,
    trace,
};
use coldmark::quantity::si::{Area, Length, MassFlux, MassRate, Power, Ratio};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured};
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

/// A number that may be anything at all.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -1e3..1e3_f64,
        2 => 0.0..1.0_f64,
        2 => 1e4..1e6_f64,
        1 => odd(),
    ]
}

prop_compose! {
    fn engine()(
        bore in 0.05..0.13_f64, stroke in 0.6..1.3_f64, rod in 1.4..2.1_f64, ratio in 7.0..14.0_f64, cylinders in 1..=12_u32,
    ) -> Geometry {
        Geometry {
            bore: of(bore),
            stroke: of(bore * stroke),
            rod: of(bore * stroke * rod),
            compression_ratio: of(ratio),
            cylinders,
        }
    }
}

prop_compose! {
    /// Every value anywhere in its range.
    fn point()(
        speed in 20.0..1500.0_f64, manifold in 10e3..300e3_f64, half in -0.17..1.04_f64, duration in 0.27..2.09_f64,
        residual in 0.0..0.6_f64, charge in 250.0..500.0_f64, wall in 0.0..0.6_f64, fired: bool,
    ) -> OperatingPoint {
        OperatingPoint {
            speed: of(speed),
            manifold: of(manifold),
            half_burnt: of(half),
            burn_duration: of(duration),
            residual: of(residual),
            charge_temperature: of(charge),
            wall_heat: of(wall),
            fired,
        }
    }
}

fn traced(geometry: &Geometry, point: &OperatingPoint) -> Trace {
    trace(geometry, point, &Cycle::default(), sea_level(), &mut Silent).unwrap()
}

fn leakage(geometry: &Geometry, point: &OperatingPoint) -> Leakage {
    traced(geometry, point).leakage(&LeakPath::likely(sea_level()), &mut Silent).unwrap()
}

fn in_order<Q: Measured>(estimate: &Estimate<Q>) -> bool {
    let [low, likely, high] = [estimate.low.base(), estimate.likely.base(), estimate.high.base()];
    low.is_finite() && high.is_finite() && low <= likely && likely <= high
}

fn sound(blow_by: &BlowBy) -> bool {
    in_order(&blow_by.forward)
        && in_order(&blow_by.reverse)
        && in_order(&blow_by.net)
        && blow_by.forward.low.base() >= 0.0
        && blow_by.reverse.low.base() >= 0.0
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn every_point_in_range_has_an_answer(geometry in engine(), point in point()) {
        let trace = traced(&geometry, &point);
        for (_, pressure) in trace.points() {
            prop_assert!(pressure.base().is_finite() && pressure.base() > 0.0);
        }
        prop_assert!(trace.hottest().base() < 6000.0 && trace.air_flow().base() >= 0.0);
        let leakage = trace.leakage(&LeakPath::likely(sea_level()), &mut Silent).unwrap();
        prop_assert!(leakage.forward.base() >= 0.0 && leakage.reverse.base() >= 0.0);
        prop_assert!(leakage.forward.base().is_finite() && leakage.reverse.base().is_finite());
    }

    #[test]
    fn leak_rises_with_manifold_pressure(geometry in engine(), point in point(), more in 1.001..1.5_f64) {
        let more = OperatingPoint { manifold: of((point.manifold.base() * more).min(300e3)), ..point };
        let (less, more) = (leakage(&geometry, &point), leakage(&geometry, &more));
        prop_assert!(more.forward.base() >= less.forward.base());
        prop_assert!(more.reverse.base() <= less.reverse.base());
    }

    /// Boost scales charge and burn, and the crankcase holds less back: somewhat more than in proportion.
    #[test]
    fn leak_rises_with_boost(geometry in engine(), boost in 1.2..3.0_f64, diesel: bool, share in 0.0..1.0_f64) {
        let usual = if diesel { diesel_figures } else { figures };
        let point = usual(Duty::FullThrottle, sea_level()).unwrap().likely();
        let mut cycle = if diesel { Cycle::diesel(Duty::FullThrottle) } else { Cycle::default() };
        if let Some(injection) = &mut cycle.injection {
            injection.premixed = of(share);
        }
        let leak = |point: &OperatingPoint, cycle: &Cycle| {
            let trace = trace(&geometry, point, cycle, sea_level(), &mut Silent).unwrap();
            trace.leakage(&LeakPath::likely(sea_level()), &mut Silent).unwrap().forward.base()
        };
        let more = OperatingPoint { manifold: of(point.manifold.base() * boost), ..point };
        let ratio = leak(&more, &cycle) / leak(&point, &cycle);
        prop_assert!(ratio > boost && ratio < 1.25 * boost, "{ratio} at {boost}");
        // A turbine holds the exhaust up.
        let gauge = of(more.manifold.base() - sea_level().base());
        let held = Cycle { back_pressure: back_pressure(gauge, of(1.0)), ..cycle };
        prop_assert!(leak(&more, &held) > leak(&more, &cycle));
    }

    #[test]
    fn a_blower_warms_and_a_cooler_cools(
        ratio in 1.0..4.5_f64, efficiency in 0.3..0.9_f64, cooler in 0.0..0.99_f64, air in 230.0..340.0_f64,
    ) {
        let rise = |ratio: f64, cooler: f64| {
            let blower = Blower { efficiency: of(efficiency), cooler: of(cooler) };
            blower.rise(of(ratio * 80e3), of(80e3), of(air), &mut Silent).unwrap().base()
        };
        prop_assert!(rise(ratio, cooler) <= rise(ratio, 0.0) && rise(1.0, cooler) == 0.0);
        prop_assert!(rise(ratio, cooler) <= rise((ratio + 0.01).min(4.5), cooler));
        prop_assert!(rise(ratio, 0.0) >= 0.0 && rise(ratio, 0.0) < 650.0);
    }

    #[test]
    fn leak_in_a_second_is_independent_of_speed(geometry in engine(), point in point(), speed in 20.0..1500.0_f64) {
        let other = OperatingPoint { speed: of(speed), ..point };
        prop_assert_eq!(leakage(&geometry, &point), leakage(&geometry, &other));
        let (here, there) = (traced(&geometry, &point).air_flow(), traced(&geometry, &other).air_flow());
        let expected = here.base() * speed / point.speed.base();
        prop_assert!((there.base() - expected).abs() <= 1e-12 * expected);
    }

    #[test]
    fn crankcase_pressure_holds_the_leak_back(geometry in engine(), point in point(), lift in 0.0..90e3_f64) {
        let trace = traced(&geometry, &point);
        let at = |pressure: f64| trace.leakage(&LeakPath::likely(of(pressure)), &mut Silent).unwrap();
        let (low, high) = (at(101_325.0), at(101_325.0 + lift));
        prop_assert!(high.forward.base() <= low.forward.base() && high.reverse.base() >= low.reverse.base());
    }

    #[test]
    fn leak_down_area_rises_with_the_reading_and_adds_up(
        geometry in engine(), losses in prop::collection::vec(0.021..0.9_f64, 12), more in 1.01..1.05_f64,
    ) {
        let readings: Vec<Ratio> = losses.iter().take(geometry.cylinders as usize).map(|&l| of(l)).collect();
        let test = LeakDownTest::usual(geometry.bore, sea_level());
        let area = from_leak_down(&readings, &geometry, &test, &mut Silent).unwrap();
        prop_assert!(in_order(&area.running) && area.standing.iter().all(in_order));
        let sum: f64 = area.standing.iter().map(|a| a.likely.base()).sum();
        prop_assert!((area.running.likely.base() / (0.8 * 0.6 * sum) - 1.0).abs() < 1e-12);
        let worse: Vec<Ratio> = readings.iter().map(|l| of(l.base() * more)).collect();
        let worse = from_leak_down(&worse, &geometry, &test, &mut Silent).unwrap();
        for (worse, area) in worse.standing.iter().zip(&area.standing) {
            prop_assert!(worse.likely.base() > area.likely.base());
        }
        // Twice the cylinders with the same readings leak twice as much.
        let twin = Geometry { cylinders: 1, ..geometry };
        let one = from_leak_down(&readings[..1], &twin, &test, &mut Silent).unwrap().running.likely.base();
        let pair = [readings[0], readings[0]];
        let two = from_leak_down(&pair, &Geometry { cylinders: 2, ..geometry }, &test, &mut Silent).unwrap();
        prop_assert!((two.running.likely.base() / one - 2.0).abs() < 1e-12);
    }

    #[test]
    fn readings_at_the_gauge_limit_get_a_band(geometry in engine(), loss in 0.0..0.0199_f64) {
        let test = LeakDownTest::usual(geometry.bore, sea_level());
        let single = Geometry { cylinders: 1, ..geometry };
        let area = from_leak_down(&[of(loss)], &single, &test, &mut Silent).unwrap();
        prop_assert!(area.notes.iter().any(|note| note.key == "leak-down-gauge"));
        // The high end stands for one per cent more, the low end for one less.
        let beyond = from_leak_down(&[of(loss + 0.01)], &single, &test, &mut Silent).unwrap();
        let likely = |area: &Estimate<Area>| area.likely.base();
        let high = area.running.high.base() / likely(&beyond.standing[0]);
        prop_assert!((high - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_flow_gives_its_area_back(geometry in engine(), flow in 1e-5..5e-3_f64, spread in 1.0..3.0_f64) {
        let point = figures(Duty::FullThrottle, sea_level()).unwrap().likely();
        let leakage = leakage(&geometry, &point);
        let flow = Estimate::new(of::<MassRate>(flow / spread), of(flow), of(flow * spread)).unwrap();
        for counted in [Counted::Forward, Counted::Balance] {
            let area = area_from_flow(&flow, &leakage, counted, &mut Silent).unwrap();
            let found = through(&area, &leakage, &mut Silent).unwrap();
            let back = if counted == Counted::Forward { found.forward } else { found.net };
            for (found, flow) in [(back.low, flow.low), (back.likely, flow.likely), (back.high, flow.high)] {
                prop_assert!((found.base() / flow.base() - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn rules_stay_in_their_envelope(air in 1e-3..1.0_f64, power in 1e3..5e5_f64) {
        for condition in Condition::ALL {
            let rules = RulesOfThumb::of(condition);
            let both = from_condition(&rules, of(air), Some(of(power)), &mut Silent).unwrap();
            let share = from_condition(&rules, of(air), None, &mut Silent).unwrap();
            prop_assert!(in_order(&both) && in_order(&share));
            prop_assert!(both.low.base() <= share.low.base() && share.high.base() <= both.high.base());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn two_gaps_pass_less_than_either(geometry in engine(), point in point()) {
        let trace = traced(&geometry, &point);
        let path = LeakPath::likely(sea_level());
        let leakage = trace.leakage(&path, &mut Silent).unwrap();
        for condition in Condition::ALL {
            let pack = RingPackFigures::of(condition, geometry.bore);
            let gaps = hot_gaps(&pack.likely(), &geometry, &mut Silent).unwrap();
            let tightest = gaps.top.area.base().min(gaps.second.area.base());
            let (steady, _) = from_ring_pack(&pack, &trace, &path, None, &mut Silent).unwrap();
            prop_assert!(sound(&steady));
            let alone = tightest * leakage.forward.base() * f64::from(geometry.cylinders);
            prop_assert!(steady.forward.likely.base() <= alone * (1.0 + 1e-9));
        }
    }

    #[test]
    fn storage_closes_on_itself_and_vanishes_with_the_volume(geometry in engine(), point in point()) {
        let trace = traced(&geometry, &point);
        let path = LeakPath::likely(sea_level());
        let pack = RingPackFigures::of(Condition::Worn, geometry.bore);
        let usual = InterRing::of(geometry.bore);
        let (steady, _) = from_ring_pack(&pack, &trace, &path, None, &mut Silent).unwrap();
        let (stored, _) = from_ring_pack(&pack, &trace, &path, Some(&usual), &mut Silent).unwrap();
        prop_assert!(sound(&stored));
        // What goes down through both gaps over a cycle is the same either way, hence the balance moves little, and
        // storing can only smooth: less goes down and less comes back up.
        prop_assert!(stored.forward.likely.base() <= steady.forward.likely.base() * 1.02 + 1e-9);
        let slow = OperatingPoint { speed: of(10.5), ..point };
        let tiny = InterRing { land_height: of(0.5e-3), groove: of(0.0) };
        let trace = traced(&geometry, &slow);
        if let Ok((near, _)) = from_ring_pack(&pack, &trace, &path, Some(&tiny), &mut Silent) {
            let (near, steady) = (near.forward.likely.base(), steady.forward.likely.base());
            prop_assert!((near - steady).abs() <= 0.05 * steady + 1e-9, "{near} {steady}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn nonsense_is_refused_without_panic(
        v in prop::collection::vec(wild(), 40), cylinders: u32, fired: bool, count in 0..20_usize,
    ) {
        let geometry = Geometry {
            bore: of(v[0]), stroke: of(v[1]), rod: of(v[2]), compression_ratio: of(v[3]), cylinders,
        };
        let point = OperatingPoint {
            speed: of(v[4]), manifold: of(v[5]), half_burnt: of(v[6]), burn_duration: of(v[7]), residual: of(v[8]),
            charge_temperature: of(v[9]), wall_heat: of(v[10]), fired,
        };
        let ambient: AbsolutePressure = of(v[11]);
        if let Ok(trace) = trace(&geometry, &point, &Cycle::default(), ambient, &mut Writing::default()) {
            prop_assert!(trace.peak().pressure.base().is_finite());
        }
        let good = Geometry {
            bore: of(0.1), stroke: of(0.08), rod: of(0.15), compression_ratio: of(9.0), cylinders: 8,
        };
        let full = figures(Duty::FullThrottle, sea_level()).unwrap().likely();
        // One wild value at a time among good ones goes further in than forty at once.
        let cycle = Cycle {
            inlet_closing: of(v[12] / 300.0), exhaust_opening: of(v[13] / 300.0), ram: of(v[14]), back_pressure: of(v[15]),
            ..Cycle::default()
        };
        if let Ok(trace) = trace(&good, &full, &cycle, sea_level(), &mut Silent) {
            prop_assert!(trace.points().all(|(_, p)| p.base().is_finite()));
        }
        let path = LeakPath {
            crankcase: of(v[16]), crankcase_temperature: of(v[17].abs()), crevice_temperature: of(v[18].abs()), gamma: of(v[19]),
        };
        let good_trace = traced(&good, &full);
        if let Ok(leakage) = good_trace.leakage(&path, &mut Silent) {
            prop_assert!(leakage.forward.base().is_finite() && leakage.reverse.base().is_finite());
        }
        let any = |i: usize| Estimate { low: of::<Ratio>(v[i]), likely: of(v[i + 1]), high: of(v[i + 2]) };
        let test = LeakDownTest {
            restrictor: of(v[20].abs() * 1e-3), discharge: any(21), supply: of::<GaugePressure>(v[24]), ambient,
            ring_share: any(25), running_to_standing: any(28),
        };
        let readings: Vec<Ratio> = (0..count).map(|i| of(v[i % v.len()])).collect();
        let _ = from_leak_down(&readings, &good, &test, &mut Writing::default());
        let usual = LeakDownTest::usual(good.bore, sea_level());
        if let Ok(area) = from_leak_down(&readings, &good, &usual, &mut Writing::default()) {
            prop_assert!(in_order(&area.running));
        }
        let flow = Estimate { low: of::<MassRate>(v[31]), likely: of(v[32]), high: of(v[33]) };
        let wild_leakage = Leakage { forward: of::<MassFlux>(v[34]), reverse: of(v[35]) };
        if let Ok(area) = area_from_flow(&flow, &wild_leakage, Counted::Balance, &mut Silent) {
            let _ = through(&area, &wild_leakage, &mut Silent);
        }
        let rules = RulesOfThumb { share_of_air: any(0), per_kilowatt: RulesOfThumb::of(Condition::Worn).per_kilowatt };
        let _ = from_condition(&rules, of(v[36]), Some(of::<Power>(v[37])), &mut Silent);
        let figures = RingPackFigures {
            top_gap: Estimate::exact(of(v[38].abs() * 1e-3)), side_slit: Estimate::exact(of(v[39].abs() * 1e-6)),
            ..RingPackFigures::of(Condition::Fresh, good.bore)
        };
        if let Ok((found, _)) = from_ring_pack(&figures, &good_trace, &LeakPath::likely(sea_level()), None, &mut Silent) {
            prop_assert!(sound(&found));
        }
    }
}

#[test]
fn gaps_that_close_are_a_danger_and_pass_the_slit_alone() {
    let geometry =
        Geometry { bore: of(0.1), stroke: of(0.08), rod: of(0.15), compression_ratio: of(9.0), cylinders: 8 };
    let mut pack = RingPackFigures::of(Condition::RunIn, geometry.bore).likely();
    pack.top_gap = of::<Length>(0.1e-3);
    let gaps = hot_gaps(&pack, &geometry, &mut Silent).unwrap();
    assert_eq!(gaps.top.gap.base(), 0.0);
    assert!((gaps.top.area.base() / (0.85 * std::f64::consts::PI * 0.1 * 0.3e-6) - 1.0).abs() < 1e-12);
    assert!(gaps.notes.iter().any(|note| note.key == "ring-ends-touch"));
}

#[test]
fn the_headline_is_the_best_informed_and_contradictions_are_named() {
    let flat = |flow: f64| {
        let exact = Estimate::exact(of::<MassRate>(flow));
        BlowBy { forward: exact, reverse: Estimate::exact(of(0.0)), net: exact }
    };
    let candidate = |level, flow| Candidate { level, blow_by: flat(flow) };
    let floor = candidate(Level::RingPack, 0.7e-3);
    let rule = candidate(Level::Condition, 1.3e-3);
    let test = candidate(Level::LeakDown, 1.0e-3);
    let choice = choose(&[floor, test, rule]).unwrap();
    assert_eq!(choice.headline, test);
    assert!(choice.notes.is_empty());
    assert_eq!(choose(&[floor, rule]).unwrap().headline, rule);
    let choice = choose(&[test, candidate(Level::Measured, 3.1e-3)]).unwrap();
    assert_eq!(choice.headline.level, Level::Measured);
    assert_eq!(choice.notes[0].key, "blow-by-levels-differ");
    // A measured flow stands by itself; a leak-down test that contradicts the condition is judged by the higher high.
    assert_eq!(choice.judged, choice.headline.blow_by);
    let choice = choose(&[candidate(Level::Condition, 4e-3), candidate(Level::LeakDown, 1e-3)]).unwrap();
    assert_eq!(choice.headline.level, Level::LeakDown);
    assert_eq!(choice.judged.forward.likely, choice.headline.blow_by.forward.likely);
    assert_eq!(choice.judged.forward.high, candidate(Level::Condition, 4e-3).blow_by.forward.high);
    assert!(matches!(choose(&[]), Err(BlowByError::NoEstimate)));
}

#[test]
fn overrun_draws_gas_up_and_idle_on_a_worn_engine_is_weak() {
    let geometry =
        Geometry { bore: of(0.1), stroke: of(0.0796), rod: of(0.15), compression_ratio: of(9.0), cylinders: 8 };
    let notes = |duty, area: f64| {
        let point = figures(duty, sea_level()).unwrap().likely();
        let (trace, leakage) = (traced(&geometry, &point), leakage(&geometry, &point));
        let found = through(&Estimate::exact(of::<Area>(area)), &leakage, &mut Silent).unwrap();
        remarks(&found, &trace).into_iter().map(|note| note.key).collect::<Vec<_>>()
    };
    assert!(notes(Duty::Overrun, 1e-6).contains(&"blow-by-reversed"));
    assert!(notes(Duty::FullThrottle, 1e-6).is_empty());
    assert!(notes(Duty::Idle, 4e-6).contains(&"leak-not-fed-back"));
}

#[test]
fn errors_name_what_is_wrong() {
    let geometry =
        Geometry { bore: of(0.1), stroke: of(0.08), rod: of(0.15), compression_ratio: of(9.0), cylinders: 2 };
    let test = LeakDownTest::usual(geometry.bore, sea_level());
    let text = |readings: &[f64]| {
        let readings: Vec<Ratio> = readings.iter().map(|&r| of(r)).collect();
        from_leak_down(&readings, &geometry, &test, &mut Silent).unwrap_err().to_string()
    };
    assert!(text(&[0.1]).contains("1 leak-down readings for 2 cylinders"), "{}", text(&[0.1]));
    assert!(text(&[0.1, 0.99]).contains("cylinder 2: loss is 99 %, outside 0 % to 95 %"), "{}", text(&[0.1, 0.99]));
    let short = Geometry { rod: of(0.08), ..geometry };
    let point = figures(Duty::Idle, sea_level()).unwrap().likely();
    let error = trace(&short, &point, &Cycle::default(), sea_level(), &mut Silent).unwrap_err();
    assert!(error.to_string().contains("rod is 80.0 mm"), "{error}");
}

#[test]
fn the_working_ends_with_what_is_given_back() {
    let geometry =
        Geometry { bore: of(0.1), stroke: of(0.0796), rod: of(0.15), compression_ratio: of(9.0), cylinders: 8 };
    let point = figures(Duty::FullThrottle, sea_level()).unwrap().likely();
    let mut written = Writing::default();
    let trace = trace(&geometry, &point, &Cycle::default(), sea_level(), &mut written).unwrap();
    let path = LeakPath::likely(sea_level());
    let leakage = trace.leakage(&path, &mut written).unwrap();
    let rules = RulesOfThumb::of(Condition::RunIn);
    let flow = from_condition(&rules, trace.air_flow(), Some(of(190e3)), &mut written).unwrap();
    let area = area_from_flow(&flow, &leakage, Counted::Forward, &mut written).unwrap();
    let found = through(&area, &leakage, &mut written).unwrap();
    let figures = RingPackFigures::of(Condition::RunIn, geometry.bore);
    let (floor, _) = from_ring_pack(&figures, &trace, &path, None, &mut written).unwrap();
    let results: Vec<(&str, f64)> =
        written.chapters.iter().flat_map(|c| &c.steps).map(|step| (step.symbol, step.result.base)).collect();
    for (symbol, value) in [
        ("p_max", trace.peak().pressure.base()),
        ("ṁ_air", trace.air_flow().base()),
        ("G", leakage.forward.base()),
        ("ṁ_bb", flow.likely.base()),
        ("C_dA_eff", area.likely.base()),
        ("ṁ_net", found.net.likely.base()),
        ("ṁ_bb", floor.forward.likely.base()),
    ] {
        assert!(results.contains(&(symbol, value)), "{symbol} = {value} is not in the working");
    }
}
