//! The valve-cover joint: what must hold for every joint, and that nonsense is refused and never panics.

use crate::any::{odd, of, sea_level};
use coldmark::crankcase::joint::figures::{
    chamfer, half_of_strip, land, lead_in, oil_density, oil_head, oil_viscosity, over_strength, proof_share, run_out,
    settable, shear_share, spot_gap, spot_width, steel_modulus, times_by_pressure,
};
use coldmark::crankcase::joint::{
    Bar, Cause, Contact, Engagement, Finish, Flange, FlangeMaterial, GasketMaterial, Hole, Joint, JointError, Layer,
    Limit, Mend, Observation, ParentMaterial, Reach, Safety, ScrewGrade, ScrewStrength, SlotFlow, SpacerMaterial, Spot,
    Stack, Thread, Window, clamp_load, engagement_for_screw_to_break, leak_cause, pressure_held, screw_stiffness,
    slot_flow, strip_load, torque_for, trial, window,
};
use coldmark::quantity::si::{Area, Force, Length, Pressure, Ratio, Torque};
use coldmark::quantity::{Estimate, GaugePressure, Kind, Measured, Range, Stiffness, celsius};
use coldmark::scribe::{Silent, Writing};
use coldmark::source::Assumed;
use proptest::prelude::*;

fn mm(value: f64) -> Length {
    of(value * 1e-3)
}

fn in_order<Q: Measured>(estimate: &Estimate<Q>) -> bool {
    let [low, likely, high] = [estimate.low, estimate.likely, estimate.high].map(Measured::base);
    low.is_finite() && high.is_finite() && low <= likely && likely <= high
}

/// Whether a default is in order and may stand in its own place.
fn sound_default<Q: Measured>(figure: &Assumed<Q>) -> bool {
    let Estimate { low, likely, high } = figure.estimate;
    in_order(&figure.estimate) && [low, likely, high].into_iter().all(|value| figure.check(value).is_ok())
}

/// A number that may be anything at all.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.0..1.0_f64,
        2 => -1e3..1e3_f64,
        3 => 1e-6..1e-1_f64,
        2 => 1e5..1e12_f64,
        1 => odd(),
    ]
}

fn threads() -> impl Strategy<Value = &'static Thread> {
    (0..Thread::ALL.len()).prop_map(|i| Thread::ALL[i])
}

prop_compose! {
    fn stack()(
        material in prop::sample::select(GasketMaterial::ALL.to_vec()), gaskets in 1..=2_u32, thickness in 0.8..6.0_f64,
        spacer in 2.0..15.0_f64, area in 300.0..3000.0_f64,
    ) -> Stack {
        if gaskets == 1 {
            Stack::one(material, mm(thickness), of(area * 1e-6))
        } else {
            Stack::two_and_a_spacer(material, mm(thickness), SpacerMaterial::Aluminium, mm(spacer), of(area * 1e-6))
        }
    }
}

prop_compose! {
    fn flange()(
        steel: bool, width in 8.0..25.0_f64, thickness in 0.8..10.0_f64, spacing in 20.0..250.0_f64, bed in 5.0..25.0_f64,
    ) -> Flange {
        let material = if steel { FlangeMaterial::SheetSteel } else { FlangeMaterial::CastAluminium };
        Flange { bars: vec![Bar::of(material, mm(width), mm(thickness))], spacing: mm(spacing), bed_width: mm(bed) }
    }
}

prop_compose! {
    fn joint()(
        thread in threads(), grade in prop::sample::select(ScrewGrade::ALL.to_vec()),
        finish in prop::sample::select(Finish::ALL.to_vec()), parent in prop::sample::select(ParentMaterial::ALL.to_vec()),
        insert: bool, length in 5.0..25.0_f64, stack in stack(), flange in prop::option::of(flange()),
        stop in prop::option::of(0.05..0.45_f64),
    ) -> Joint {
        let stop = stop.map(|share| {
            of(stack.free_thickness().base() - share * stack.gasket_thickness().base())
        });
        Joint {
            hole: if insert { Hole::WireInsert } else { Hole::Plain },
            flange,
            stop,
            ..Joint::new(
                thread,
                grade.strength(),
                finish.nut_factor().estimate,
                parent.shear_strength().estimate,
                Engagement::usual(mm(length)),
                stack,
            )
        }
    }
}

fn sound(window: &Window) -> bool {
    let least = window.least.as_ref().is_none_or(in_order);
    let stop = window.stop.as_ref().is_none_or(|stop| in_order(&stop.closes) && in_order(&stop.stress));
    let aim = window.aim.is_none_or(|aim| aim.base().is_finite() && aim.base() > 0.0);
    least && stop && aim && in_order(&window.most) && in_order(&window.break_first)
}

proptest! {
    #[test]
    fn the_window_is_what_it_says(joint in joint()) {
        let found = window(&joint, &mut Silent).unwrap();
        prop_assert!(sound(&found));
        if found.safety == Safety::Safe {
            let least = found.least.unwrap();
            prop_assert!(least.high.base() <= found.most.low.base());
            let aim = found.aim.unwrap().base();
            prop_assert!(least.high.base() <= aim * (1.0 + 1e-12) && aim <= found.most.low.base() * (1.0 + 1e-12));
            prop_assert!(found.mends.is_empty());
            // At that torque the load seats the gasket and spares the thread whatever the finish does.
            let load = clamp_load(found.aim.unwrap(), &joint.nut_factor, joint.thread.diameter(), &mut Silent).unwrap();
            let engaged = joint.engagement.carries(joint.thread, &mut Silent).unwrap();
            let strip = strip_load(
                joint.thread, joint.hole, &joint.parent, &joint.strength, &engaged, &mut Silent,
            ).unwrap();
            prop_assert!(load.high.base() <= strip.least().low.base() * 0.5 * (1.0 + 1e-9));
            if joint.stop.is_none() {
                let (seating, _) = joint.stack.limits().unwrap();
                prop_assert!(load.low.base() / joint.stack.area.base() >= seating.high.base() * (1.0 - 1e-9));
            }
        }
        if found.least.is_none() {
            prop_assert_eq!(found.safety, Safety::NoWindow);
        }
        for mending in &found.mends {
            prop_assert!(mending.safety <= found.safety);
            prop_assert!(!mending.mend.words().is_empty());
        }
    }

    #[test]
    fn working_changes_no_bit(joint in joint(), torque in 0.1..30.0_f64) {
        let mut written = Writing::default();
        prop_assert_eq!(window(&joint, &mut Silent).unwrap(), window(&joint, &mut written).unwrap());
        let factor = joint.nut_factor;
        let load = clamp_load(of(torque), &factor, joint.thread.diameter(), &mut written).unwrap();
        prop_assert_eq!(load, clamp_load(of(torque), &factor, joint.thread.diameter(), &mut Silent).unwrap());
        prop_assert!(written.chapters.iter().flat_map(|c| &c.steps).all(|step| step.result.base.is_finite()));
    }

    #[test]
    fn a_longer_thread_or_an_insert_never_narrows_the_window(joint in joint(), more in 0.5..20.0_f64) {
        let now = window(&joint, &mut Silent).unwrap();
        let mut longer = joint.clone();
        longer.engagement.length = joint.engagement.length + mm(more);
        let found = window(&longer, &mut Silent).unwrap();
        prop_assert!(found.safety <= now.safety && found.most.low.base() >= now.most.low.base());
        let insert = window(&Joint { hole: Hole::WireInsert, ..joint.clone() }, &mut Silent).unwrap();
        prop_assert!(insert.safety <= now.safety && insert.most.low.base() >= now.most.low.base());
        prop_assert!(insert.break_first.high.base() <= now.break_first.high.base());
    }

    #[test]
    fn a_spreader_never_makes_the_bedding_less_even(stack in stack(), flange in flange(), thickness in 1.0..10.0_f64) {
        let before = flange.bedding(&stack, &mut Silent).unwrap();
        let mut spread = flange.clone();
        spread.bars.push(Bar::of(FlangeMaterial::SheetSteel, flange.bars[0].width, mm(thickness)));
        let after = spread.bedding(&stack, &mut Silent).unwrap();
        prop_assert!(in_order(&before.span) && in_order(&before.midspan) && in_order(&before.at_screw));
        prop_assert!(after.contact <= before.contact);
        prop_assert!(after.midspan.low.base() >= before.midspan.low.base() - 1e-12);
        prop_assert!(after.at_screw.high.base() <= before.at_screw.high.base() + 1e-12);
        prop_assert!(after.span.likely.base() > before.span.likely.base());
        // The mean lies between half-way and the screw, and a thicker stack is softer and bridged further.
        prop_assert!(before.midspan.likely.base() <= 1.0 + 1e-9 && before.at_screw.likely.base() >= 1.0 - 1e-9);
        let mut thicker = stack.clone();
        thicker.layers.push(Layer::gasket(GasketMaterial::CorkRubber, mm(3.0)));
        let softer = flange.bedding(&thicker, &mut Silent).unwrap();
        prop_assert!(softer.span.likely.base() > before.span.likely.base());
    }

    #[test]
    fn torque_and_load_are_inverse(
        thread in threads(), torque in 0.1..60.0_f64, finish in prop::sample::select(Finish::ALL.to_vec()),
    ) {
        let factor = finish.nut_factor().estimate;
        let load = clamp_load(of::<Torque>(torque), &factor, thread.diameter(), &mut Silent).unwrap();
        prop_assert!(in_order(&load));
        let back = torque_for(load.likely, &factor, thread.diameter(), &mut Silent).unwrap();
        prop_assert!((back.likely.base() / torque - 1.0).abs() < 1e-12);
        // The load at the low factor asks at least the same torque at the low factor.
        let back = torque_for(load.high, &factor, thread.diameter(), &mut Silent).unwrap();
        prop_assert!((back.low.base() / torque - 1.0).abs() < 1e-12);
    }

    #[test]
    fn strip_load_goes_with_thread_and_metal(
        thread in threads(), length in 0.5..30.0_f64, more in 1.01..2.0_f64, shear in 50e6..400e6_f64,
    ) {
        let screw = ScrewGrade::Grade5.strength();
        let load = |shear: f64, length: f64, hole| {
            let engaged = Estimate::exact(mm(length));
            strip_load(thread, hole, &Estimate::exact(of(shear)), &screw, &engaged, &mut Silent).unwrap()
        };
        let now = load(shear, length, Hole::Plain);
        let base = |force: Force| force.base();
        prop_assert!((base(load(shear, length * more, Hole::Plain).parent.likely) / base(now.parent.likely) - more).abs() < 1e-9);
        prop_assert!((base(load(shear * more, length, Hole::Plain).parent.likely) / base(now.parent.likely) - more).abs() < 1e-9);
        let gain = base(load(shear, length, Hole::WireInsert).parent.likely) / base(now.parent.likely);
        prop_assert!((1.15..1.3).contains(&gain), "{}", gain);
        // A screw in the hole at which it just breaks first strips at the load that breaks it.
        let parent = Estimate::exact(of::<Pressure>(shear));
        let needed = engagement_for_screw_to_break(thread, Hole::Plain, &parent, &screw, &mut Silent).unwrap();
        let broken = screw.tensile.high.base() * screw.over.high.base() * thread.stress_area(&mut Silent).base();
        if needed.high.base() < 0.079 {
            let strips = strip_load(
                thread, Hole::Plain, &parent, &screw, &Estimate::exact(needed.high), &mut Silent,
            ).unwrap().parent.likely.base();
            prop_assert!((strips / broken - 1.0).abs() < 1e-9);
        }
        prop_assert!(in_order(&needed));
    }

    #[test]
    fn settling_costs_one_or_two_gaskets_the_same(
        thickness in 1.0..6.0_f64, area in 500.0..3000.0_f64, clamp in 500.0..9000.0_f64, free in 5.0..40.0_f64,
        material in prop::sample::select(vec![GasketMaterial::CorkRubber, GasketMaterial::Rubber]),
    ) {
        let area: Area = of(area * 1e-6);
        let one = Stack::one(material, mm(thickness), area);
        let gasket = Layer::gasket(material, mm(thickness));
        let two = Stack { layers: vec![gasket, gasket], area };
        let screw = screw_stiffness(Thread::M6, mm(free), &steel_modulus().estimate, &mut Silent).unwrap();
        let clamp = Estimate::exact(of::<Force>(clamp));
        let lost = |stack: &Stack| stack.creep_loss(&clamp, &screw, &mut Silent).unwrap();
        let (once, twice) = (lost(&one), lost(&two));
        prop_assert!((twice.loss.likely.base() / once.loss.likely.base() - 1.0).abs() < 0.2);
        prop_assert!(in_order(&once.loss) && in_order(&once.left) && in_order(&once.share));
        prop_assert!(once.share.high.base() <= 1.0);
        prop_assert_eq!(once.left.low.base() <= 0.0, once.notes.iter().any(|note| note.key == "clamp-lost"));
        let travel = |stack: &Stack| stack.travel(&clamp, &mut Silent).unwrap().travel;
        prop_assert!((travel(&two).likely.base() / travel(&one).likely.base() - 2.0).abs() < 1e-9);
        prop_assert!(in_order(&travel(&one)));
    }

    #[test]
    fn a_slot_leaks_with_the_cube_of_its_gap(
        gap in 1.0..60.0_f64, more in 1.0..1.5_f64, pressure in -3e3..3e3_f64, head in 0.0..0.05_f64,
    ) {
        let spot = Spot { gap: of(gap * 1e-6), head: of(head), ..Spot::default() };
        let flow = |spot: &Spot, pressure: f64| {
            slot_flow(spot, of::<GaugePressure>(pressure), sea_level(), celsius(40.0), &mut Silent).unwrap()
        };
        let drive = pressure + 850.0 * 9.806_65 * head;
        match (flow(&spot, pressure), flow(&Spot { gap: of(gap * more * 1e-6), ..spot }, pressure)) {
            (SlotFlow::Oil(small), SlotFlow::Oil(large)) => {
                prop_assert!(drive > 0.0);
                prop_assert!((large.base() / small.base() / more.powi(3) - 1.0).abs() < 1e-9);
                let SlotFlow::Oil(higher) = flow(&spot, pressure + 100.0) else { return Err(TestCaseError::fail("no oil")) };
                prop_assert!(higher.base() > small.base());
            }
            (SlotFlow::Air(small), SlotFlow::Air(large)) => {
                prop_assert!(drive < 0.0);
                prop_assert!((large.base() / small.base() / more.powi(3) - 1.0).abs() < 1e-9);
            }
            (SlotFlow::Nothing, SlotFlow::Nothing) => prop_assert_eq!(drive, 0.0),
            other => prop_assert!(false, "{:?}", other),
        }
    }

    #[test]
    fn more_pressure_speaks_more_for_the_ventilation(pressure in -5e3..5e3_f64, more in 0.0..5e3_f64, head in 0.0..0.1_f64) {
        let spot = Spot { head: of(head), ..Spot::default() };
        let rank = |pressure: f64| {
            let cause = leak_cause(&spot, of(pressure), &times_by_pressure().estimate, &mut Silent).unwrap();
            assert!(!cause.reason.is_empty() && cause.times.is_none_or(|times| times.base().is_finite()));
            match cause.cause {
                Cause::DrawsAir => 0,
                Cause::Joint => 1,
                Cause::Both => 2,
                Cause::Ventilation => 3,
            }
        };
        prop_assert!(rank(pressure + more) >= rank(pressure));
        if pressure <= 0.0 {
            prop_assert!(rank(pressure) <= 1);
        }
    }

    #[test]
    fn a_pressed_joint_holds_more_than_any_crankcase_has(stack in stack(), flange in flange(), clamp in 2e3..8e3_f64) {
        let clamp = Estimate::exact(of::<Force>(clamp));
        let even = pressure_held(&stack, &clamp, None, &mut Silent).unwrap();
        prop_assert!(in_order(&even) && even.low.base() > 50e3);
        let bedding = flange.bedding(&stack, &mut Silent).unwrap();
        let held = pressure_held(&stack, &clamp, Some(&bedding), &mut Silent).unwrap();
        prop_assert!(in_order(&held) && held.likely.base() <= even.likely.base() * (1.0 + 1e-9));
        if bedding.contact == Contact::Lost {
            prop_assert_eq!(held.low.base(), 0.0);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    #[test]
    fn nonsense_is_refused_without_panic(
        good in joint(), v in prop::collection::vec(wild(), 24), at in 0..20_usize, leaks: bool, layers in 0..12_usize,
    ) {
        let any = |i: usize| Estimate { low: of::<Ratio>(v[i]), likely: of(v[i + 1]), high: of(v[i + 2]) };
        let stress = |i: usize| Estimate { low: of::<Pressure>(v[i]), likely: of(v[i + 1]), high: of(v[i + 2]) };
        let mut joint = good.clone();
        let mut bar = Bar::of(FlangeMaterial::SheetSteel, mm(12.0), mm(1.0));
        let mut flange = Flange { bars: vec![bar], spacing: mm(80.0), bed_width: mm(10.0) };
        // One wild figure at a time among good ones goes further in than all at once.
        match at {
            0 => joint.nut_factor = any(0),
            1 => joint.parent = stress(0),
            2 => joint.strength = ScrewStrength { tensile: stress(0), ..joint.strength },
            3 => joint.strength = ScrewStrength { proof: stress(0), ..joint.strength },
            4 => joint.strength = ScrewStrength { over: any(0), shear_share: any(3), ..joint.strength },
            5 => joint.engagement.length = of(v[0]),
            6 => joint.engagement.lead_in = any(0),
            7 => joint.engagement.chamfer = Estimate { low: of(v[0]), likely: of(v[1]), high: of(v[2]) },
            8 => joint.stack.area = of(v[0]),
            9 => joint.stack.layers[0].thickness = of(v[0]),
            10 => joint.stack.layers[0].modulus = stress(0),
            11 => joint.stack.layers = vec![joint.stack.layers[0]; layers],
            12 => joint.stop = Some(of(v[0])),
            13 => joint.strip_share = of(v[0]),
            14 => flange.spacing = of(v[0]),
            15 => flange.bed_width = of(v[0]),
            16 => { bar.thickness = of(v[0]); bar.width = of(v[1]); flange.bars = vec![bar; layers]; }
            17 => joint.run_out = any(0),
            18 => joint.settable = of(v[0]),
            _ => joint.proof_share = of(v[0]),
        }
        joint.flange = Some(flange);
        match window(&joint, &mut Writing::default()) {
            Ok(found) => prop_assert!(sound(&found)),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
        let clamp = Estimate { low: of::<Force>(v[0]), likely: of(v[1]), high: of(v[2]) };
        let stiff = Estimate { low: of::<Stiffness>(v[3]), likely: of(v[4]), high: of(v[5]) };
        if let Ok(loss) = good.stack.creep_loss(&clamp, &stiff, &mut Silent) {
            prop_assert!(in_order(&loss.loss) && in_order(&loss.left) && in_order(&loss.share));
        }
        if let Ok(travel) = good.stack.travel(&clamp, &mut Silent) {
            prop_assert!(in_order(&travel.travel) && in_order(&travel.stress));
        }
        if let Ok(held) = pressure_held(&good.stack, &clamp, None, &mut Silent) {
            prop_assert!(in_order(&held));
        }
        if let Ok(load) = clamp_load(of(v[6]), &good.nut_factor, of(v[7]), &mut Silent) {
            prop_assert!(in_order(&load));
        }
        if let Ok(stiffness) = screw_stiffness(good.thread, of(v[8]), &stress(9), &mut Silent) {
            prop_assert!(in_order(&stiffness));
        }
        let spot = Spot {
            gap: of(v[12]), width: of(v[13]), land: of(v[14]), head: of(v[15]), viscosity: of(v[16]), density: of(v[17]),
        };
        for spot in [spot, Spot { gap: of(v[12]), ..Spot::default() }, Spot { head: of(v[15]), ..Spot::default() }] {
            let flow = slot_flow(&spot, of(v[18]), of(v[19]), of(v[20]), &mut Silent);
            let usual = slot_flow(&spot, of(v[18]), sea_level(), celsius(20.0), &mut Silent);
            for flow in [flow, usual] {
                if let Ok(SlotFlow::Oil(flow) | SlotFlow::Air(flow)) = flow {
                    prop_assert!(flow.base().is_finite() && flow.base() >= 0.0);
                }
            }
            let _ = leak_cause(&spot, of(v[18]), &any(21), &mut Silent);
        }
        let look = |i: usize| Observation { crankcase: of(v[i]), leaks };
        let _ = trial(&Spot::default(), &look(0), &look(1), &any(21));
        let reach = Reach { screw: of(v[0]), grip: of(v[1]), depth: of(v[2]) };
        if let Ok(length) = reach.length(&mut Silent) {
            prop_assert!(length.base() > 0.0);
        }
    }
}

#[test]
fn every_default_is_sound() {
    for material in GasketMaterial::ALL {
        assert!(
            sound_default(&material.modulus())
                && sound_default(&material.seating())
                && sound_default(&material.crush())
        );
        assert!(sound_default(&material.creep()) && sound_default(&material.factor()));
        // A gasket is not crushed by what seats it.
        assert!(material.seating().estimate.high.base() <= material.crush().estimate.low.base());
    }
    assert!(sound_default(&SpacerMaterial::Aluminium.modulus()) && sound_default(&SpacerMaterial::Steel.modulus()));
    assert!(
        sound_default(&FlangeMaterial::SheetSteel.modulus()) && sound_default(&FlangeMaterial::CastAluminium.modulus())
    );
    assert!(ParentMaterial::ALL.iter().all(|material| sound_default(&material.shear_strength())));
    assert!(Finish::ALL.iter().all(|finish| sound_default(&finish.nut_factor())));
    assert!(
        sound_default(&chamfer())
            && sound_default(&lead_in())
            && sound_default(&over_strength())
            && sound_default(&shear_share())
    );
    assert!(sound_default(&run_out()) && sound_default(&settable()));
    assert!(sound_default(&half_of_strip()) && sound_default(&proof_share()) && sound_default(&steel_modulus()));
    assert!(
        sound_default(&spot_gap())
            && sound_default(&spot_width())
            && sound_default(&land())
            && sound_default(&oil_head())
    );
    assert!(sound_default(&oil_viscosity()) && sound_default(&oil_density()) && sound_default(&times_by_pressure()));
}

/// The joint of a sheet cover on an aluminium head: 1/4-20, 8 mm of good thread, one cork-rubber gasket.
fn cover() -> Joint {
    Joint::new(
        Thread::QUARTER_20,
        ScrewGrade::Grade5.strength(),
        Finish::Dry.nut_factor().estimate,
        ParentMaterial::CastAluminium.shear_strength().estimate,
        Engagement::carrying(mm(8.0)),
        Stack::one(GasketMaterial::CorkRubber, mm(3.0), of(1300e-6)),
    )
}

#[test]
fn a_usual_cover_has_a_usual_window() {
    let found = window(&cover(), &mut Silent).unwrap();
    // Half of what strips weak aluminium, with the factor at its low end: ¾ of the 7.65 N·m at a factor of 0.2.
    assert_eq!(found.limit, Limit::Thread);
    assert!((found.most.low.base() - 7.65 * 0.75).abs() < 0.01, "{:?}", found.most);
    // Seating takes 1300 mm² × 2 MPa at the likely figures, with the factor at its high end: 4.1 N·m.
    assert!((found.least.unwrap().likely.base() - 1300e-6 * 2e6 * 0.25 * 6.35e-3).abs() < 1e-9);
    assert_eq!(found.safety, Safety::Doubtful);
    let aim = found.aim.unwrap().base();
    assert!((4.0..9.0).contains(&aim), "{aim}");
    assert!(!found.screw_breaks_first && found.notes.iter().any(|note| note.key == "thread-strips-first"));
    // Rubber seats at half the stress and is safe on the same thread; iron is safe too.
    let rubber = Joint { stack: Stack::one(GasketMaterial::Rubber, mm(3.0), of(1300e-6)), ..cover() };
    assert_eq!(window(&rubber, &mut Silent).unwrap().safety, Safety::Safe);
}

#[test]
fn what_has_no_window_is_mended() {
    // A worn 5 mm of thread under two wide gaskets.
    let gasket = Layer::gasket(GasketMaterial::CorkRubber, mm(3.0));
    let spacer = Layer::spacer(SpacerMaterial::Aluminium, mm(6.0));
    let mut poor = cover();
    poor.engagement = Engagement::usual(mm(6.0));
    poor.stack = Stack { layers: vec![gasket, spacer, gasket], area: of(1500e-6) };
    poor.nut_factor = Finish::NotKnown.nut_factor().estimate;
    let found = window(&poor, &mut Silent).unwrap();
    assert_eq!(found.safety, Safety::NoWindow);
    assert!(found.aim.is_none());
    let mends = |wanted: fn(&Mend) -> bool| found.mends.iter().any(|mending| wanted(&mending.mend));
    assert!(mends(|mend| matches!(mend, Mend::WireInsert)));
    assert!(mends(|mend| matches!(mend, Mend::LongerScrew(_))));
    assert!(mends(|mend| matches!(mend, Mend::OneGasket { gained, .. } if (gained.base() - 9e-3).abs() < 1e-12)));
    assert!(mends(|mend| matches!(mend, Mend::HardStops(_))));
    assert!(mends(|mend| matches!(mend, Mend::KnownFinish)));
    assert!(found.notes.iter().any(|note| note.key == "gaskets-stacked"));
    // The best comes first.
    let ranks: Vec<Safety> = found.mends.iter().map(|mending| mending.safety).collect();
    assert!(ranks.is_sorted(), "{ranks:?}");
}

#[test]
fn a_flange_that_lifts_is_mended_by_spreaders_and_not_by_torque() {
    let mut bowed = cover();
    bowed.flange = Some(Flange {
        bars: vec![Bar::of(FlangeMaterial::SheetSteel, mm(15.0), mm(1.0))],
        spacing: mm(140.0),
        bed_width: mm(12.0),
    });
    bowed.engagement = Engagement::usual(mm(14.0));
    bowed.stack = Stack::one(GasketMaterial::Rubber, mm(3.0), of(900e-6));
    let found = window(&bowed, &mut Silent).unwrap();
    assert_eq!((found.safety, found.least), (Safety::NoWindow, None));
    let best = &found.mends[0];
    assert!(matches!(best.mend, Mend::SpreaderBars { .. }), "{:?}", found.mends);
    assert!(best.safety < Safety::NoWindow);
    assert!(!found.mends.iter().any(|mending| matches!(mending.mend, Mend::LongerScrew(_))));
}

#[test]
fn a_hard_stop_ends_the_dependence_on_torque() {
    let mut stopped = cover();
    stopped.stop = Some(mm(2.2));
    let found = window(&stopped, &mut Silent).unwrap();
    let stop = found.stop.unwrap();
    // 0.8 mm at 6 MPa over 3 mm: 1.6 MPa.
    assert!((stop.stress.likely.base() - 1.6e6).abs() < 1.0);
    assert!((stop.closes.likely.base() - 1.6e6 * 1300e-6).abs() < 1e-6);
    // The gasket no longer ends the window, whatever its crush stress.
    let mut weak = stopped.clone();
    if let Some(figures) = weak.stack.layers[0].gasket.as_mut() {
        figures.crush = Estimate::exact(of(2.7e6));
    }
    assert_eq!(window(&weak, &mut Silent).unwrap().most, found.most);
    let mut open = weak.clone();
    open.stop = None;
    let crushed = window(&open, &mut Silent).unwrap();
    assert_eq!(crushed.limit, Limit::Gasket);
    let high = Joint { stop: Some(mm(2.99)), ..cover() };
    assert!(matches!(window(&high, &mut Silent), Err(JointError::StopHeight { .. })));
}

#[test]
fn errors_name_what_is_wrong_and_what_to_do() {
    let text = |joint: &Joint| window(joint, &mut Silent).unwrap_err().to_string();
    let mut short = cover();
    short.engagement = Engagement::usual(mm(2.0));
    assert!(
        text(&short).starts_with("the thread is engaged over 2 mm, of which chamfer and lead-in may use 2.9"),
        "{}",
        text(&short)
    );
    let mut bare = cover();
    bare.stack.layers.clear();
    assert!(text(&bare).contains("0 layers, 0 of them gaskets"), "{}", text(&bare));
    let mut slippery = cover();
    slippery.nut_factor = Estimate::exact(of(0.01));
    assert!(text(&slippery).contains("nut factor is 0.01, outside 0.05 to 0.6"), "{}", text(&slippery));
    let reach = Reach { screw: mm(30.0), grip: mm(8.0), depth: mm(16.0) };
    let error = reach.length(&mut Silent).unwrap_err().to_string();
    assert!(error.contains("reaches 22 mm into a hole of 16 mm"), "{error}");
    let wide = Spot { gap: of(1e-3), viscosity: of(1e-3), ..Spot::default() };
    let error = slot_flow(&wide, of(20e3), sea_level(), celsius(20.0), &mut Silent).unwrap_err().to_string();
    assert!(error.contains("gap of 1 mm"), "{error}");
}

#[test]
fn the_working_ends_with_what_is_given_back() {
    let mut joint = cover();
    joint.flange = Some(Flange {
        bars: vec![Bar::of(FlangeMaterial::CastAluminium, mm(15.0), mm(8.0))],
        spacing: mm(90.0),
        bed_width: mm(12.0),
    });
    let mut written = Writing::default();
    let found = window(&joint, &mut written).unwrap();
    let steps: Vec<(&str, f64)> =
        written.chapters.iter().flat_map(|c| &c.steps).map(|step| (step.symbol, step.result.base)).collect();
    for (symbol, value) in [
        ("T_least", found.least.unwrap().likely.base()),
        ("T_most", found.most.likely.base()),
        ("σ_mid/σ", found.bedding.unwrap().midspan.likely.base()),
        ("A_t", Thread::QUARTER_20.stress_area(&mut Silent).base()),
    ] {
        assert!(steps.contains(&(symbol, value)), "{symbol} = {value} is not in the working");
    }
}

/// A cover is opened again and again: its screws are not loaded like those of a joint made for good.
#[test]
fn screws_used_again_get_three_quarters_of_their_proof_load() {
    assert_eq!(proof_share().estimate, Estimate::exact(of(0.75)));
    assert!(proof_share().range.hint.contains("75 %") && proof_share().range.hint.contains("90 %"));
    let mut weak = cover();
    weak.engagement = Engagement::carrying(mm(30.0));
    weak.strength = ScrewGrade::Class4Point8.strength();
    weak.stop = Some(mm(2.2));
    let found = window(&weak, &mut Silent).unwrap();
    assert_eq!(found.limit, Limit::Screw);
    let load = 0.75 * 310e6 * Thread::QUARTER_20.stress_area(&mut Silent).base();
    let torque = torque_for(of(load), &weak.nut_factor, weak.thread.diameter(), &mut Silent).unwrap();
    assert!((found.most.likely.base() / torque.low.base() - 1.0).abs() < 1e-9);
}

/// Each end of the working equals what its equation gives: on stops the crush of the gasket is no part of it.
#[test]
fn the_working_of_the_most_torque_is_its_own_sum() {
    for stop in [None, Some(mm(2.2))] {
        let joint = Joint { stop, ..cover() };
        let mut written = Writing::default();
        let found = window(&joint, &mut written).unwrap();
        let steps: Vec<_> = written.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
        let step = steps.iter().find(|step| step.symbol == "T_most").unwrap();
        assert_eq!(step.equation.contains("crush"), stop.is_none());
        let loads = step.numbers.iter().skip(1).map(|(_, amount)| amount.base);
        let least = loads.fold(f64::INFINITY, f64::min);
        let sum = joint.nut_factor.low.base() * joint.thread.diameter().base() * least;
        assert!((sum / found.most.likely.base() - 1.0).abs() < 1e-9, "{}", step.equation);
    }
}

#[test]
fn an_estimate_out_of_order_is_told_with_its_units() {
    const GAP: Range = Range::new("ring gap", Kind::Length, 0.0, 0.01, "");
    let estimate = Estimate::<Length> { low: of(2e-3), likely: of(1e-3), high: of(3e-3) };
    let told: Result<(), JointError> = GAP.check_estimate(&estimate);
    let words = "ring gap is not in order: low 2 mm, likely 1 mm, high 3 mm; enter them rising";
    assert_eq!(told.unwrap_err().to_string(), words);
}
