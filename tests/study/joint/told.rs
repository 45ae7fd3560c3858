//! What a person with a spanner is told.

use super::{has_note, joint, made, mend, reason, row, sound, thin_sheet, usual, verdict};
use crate::build::{answered, millimetres};
use coldmark::crankcase::joint::{
    Finish, FlangeMaterial, GasketMaterial, Mend, ParentMaterial, Safety, ScrewGrade, Trial,
};
use coldmark::quantity::si::Torque;
use coldmark::quantity::{GaugePressure, Measured};
use coldmark::study::{self, CoverLayers, CoverThread, Fails, LeakTrial, State};

/// A screw tightened too far is not eased by a lower torque on top of it.
#[test]
fn over_torque_is_slackened_and_looked_at_before_anything_else() {
    let answers = answered(&usual(Some(20.0)));
    let told = "slacken every screw, renew all screws and the gasket, look at the threads in the head; then tighten to 2.2 N·m";
    assert_eq!(mend(&answers), told);
    assert!(has_note(&answers, "screw-gives-way"));
    assert!(reason(&answers).contains("the thread strips or the screw breaks"), "{}", reason(&answers));
    for key in ["clamp_load", "holds"] {
        assert!(row(&answers, key).unwrap().1.contains("the thread or screw gives way first"), "{key}");
    }
    assert!(row(&answers, "holds_settled").is_none() && row(&answers, "gasket_stress").is_none());
    // Whole screws, crushed gasket: the load stands, the pressure does not.
    let answers = answered(&usual(Some(7.0)));
    assert!(mend(&answers).contains("look for stretched screws") && mend(&answers).contains("renew the gasket"));
    assert!(!has_note(&answers, "screw-gives-way"));
    assert!(row(&answers, "holds").unwrap().1.contains("the gasket is crushed first"));
}

#[test]
fn without_a_window_over_torque_still_comes_first() {
    let mut project = usual(Some(20.0));
    project.cover_joint.stop = Some(millimetres(2.25));
    let told = mend(&answered(&project));
    assert!(told.starts_with("slacken every screw, renew all screws and the gasket, look at the threads"), "{told}");
    assert!(told.contains("lower hard stops") && !told.contains("insert"), "{told}");
    let mut project = usual(Some(20.0));
    project.cover_joint.gasket = GasketMaterial::Composite;
    project.cover_joint.gasket_thickness = millimetres(1.0);
    let told = mend(&answered(&project));
    assert!(told.starts_with("slacken every screw"), "{told}");
}

#[test]
fn bars_are_offered_with_the_screw_they_need() {
    let mut project = usual(None);
    thin_sheet(&mut project, 90.0, 10.0);
    let told = mend(&answered(&project));
    assert!(
        told.contains("lay steel bars, 3 mm thick in all") && told.contains("take screws 3 mm longer, 13 mm"),
        "{told}"
    );
    // On top of bars that lie there already the whole is told, and the screw grows by the difference.
    thin_sheet(&mut project, 160.0, 20.0);
    project.cover_joint.spreader = Some(millimetres(3.0));
    let mends = joint(&answered(&project)).window.mends.clone();
    let bars = mends.iter().find_map(|mending| match mending.mend {
        Mend::SpreaderBars { total, longer } => Some((total.base(), longer.base())),
        _ => None,
    });
    let (total, longer) = bars.unwrap();
    assert!((total - longer - 3e-3).abs() < 1e-12, "{mends:?}");
}

#[test]
fn a_screw_that_meets_the_bottom_does_not_hold() {
    let mut project = usual(Some(2.2));
    project.cover_joint.screw_length = millimetres(28.9);
    let answers = answered(&project);
    assert_eq!(verdict(&answers).state, State::DoesNotHold);
    assert!(
        mend(&answers).starts_with("take screws 2.5 mm shorter, 26.4 mm under the head, or washers"),
        "{}",
        mend(&answers)
    );
    assert!(reason(&answers).contains("meet the bottom"));
    assert!(row(&answers, "holds").unwrap().1.contains("meets the bottom of its hole first"));
    // What is asked for is enough.
    project.cover_joint.screw_length = joint(&answers).plan.as_ref().unwrap().screw.unwrap();
    assert!(joint(&answered(&project)).bottoms.is_none());
    // Half a millimetre less and it may still meet the bottom: no more is asked for than is needed.
    project.cover_joint.screw_length += millimetres(0.5);
    assert!(joint(&answered(&project)).bottoms.is_some());
}

#[test]
fn the_bottom_is_checked_without_a_torque() {
    let mut project = usual(None);
    project.cover_joint.screw_length = millimetres(28.9);
    project.cover_joint.stop = Some(millimetres(2.25));
    let answers = answered(&project);
    assert!(joint(&answers).load.is_none());
    assert!((joint(&answers).bottoms.unwrap().likely.base() - 0.65e-3).abs() < 1e-9);
    assert!(has_note(&answers, "screw-may-bottom"));
    // However little the screws are turned so far, the cover is to go down to its stops.
    project.cover_joint.torque = Some(Torque::from_base(0.3));
    assert!((joint(&answered(&project)).bottoms.unwrap().likely.base() - 0.65e-3).abs() < 1e-9);
    // Neither torque, aim nor stop.
    let mut project = usual(None);
    thin_sheet(&mut project, 200.0, 21.9);
    assert!(joint(&answered(&project)).load.is_none() && joint(&answered(&project)).bottoms.is_some());
}

#[test]
fn oiled_threads_come_with_their_lower_torque() {
    let mut project = sound();
    project.cover_joint.finish = Finish::NotKnown;
    let mends = joint(&answered(&project)).window.mends.clone();
    let oiled = mends.iter().find(|mending| mending.mend == Mend::KnownFinish).unwrap();
    project.cover_joint.finish = Finish::Oiled;
    project.cover_joint.torque = None;
    assert_eq!(oiled.aim, joint(&answered(&project)).window.aim);
    assert!(oiled.mend.words().contains("oiled threads take less"));
}

#[test]
fn a_thread_that_turns_is_never_said_to_be_a_place_to_stop() {
    let answers = answered(&usual(None));
    let note = answers.notes.iter().find(|note| note.key == "thread-strips-first").unwrap();
    assert!(note.text.contains("Never go above the most torque") && note.text.contains("already pulled its thread"));
    assert!(!note.text.contains("Stop when"));
}

#[test]
fn a_stop_too_high_is_told_as_such_and_lowered() {
    for stop in [2.25, 2.9] {
        let mut project = usual(Some(4.0));
        project.cover_joint.stop = Some(millimetres(stop));
        let answers = answered(&project);
        assert!(
            reason(&answers).contains("the stop is too high: the gasket is not pressed enough"),
            "{}",
            reason(&answers)
        );
        assert!(
            mend(&answers).contains("lower hard stops") && !mend(&answers).contains("insert"),
            "{}",
            mend(&answers)
        );
        for mending in joint(&answers).window.mends.clone() {
            assert_eq!(joint(&answered(&made(&project, mending.mend))).window.safety, mending.safety);
        }
    }
}

#[test]
fn on_stops_a_bowing_flange_is_the_reason_and_the_torque_closes_the_stops() {
    let mut project = usual(None);
    thin_sheet(&mut project, 200.0, 16.0);
    project.cover_joint.stop = Some(millimetres(1.8));
    let answers = answered(&project);
    assert!(reason(&answers).contains("the flange bows off the gasket"), "{}", reason(&answers));
    assert_eq!(row(&answers, "torque_least").unwrap().0, "Least torque that closes the cover on its stops");
    let mends = &joint(&answers).window.mends;
    assert!(mends.iter().all(|mending| matches!(mending.mend, Mend::SpreaderBars { .. })), "{mends:?}");
}

#[test]
fn no_change_that_leaves_the_bow_is_offered_and_no_range_runs_backwards() {
    let mut wide = usual(Some(4.0));
    wide.cover_joint.spacing = millimetres(500.0);
    wide.cover_joint.gasket_width = millimetres(60.0);
    let mut composite = usual(None);
    composite.cover_joint.gasket = GasketMaterial::Composite;
    composite.cover_joint.gasket_thickness = millimetres(1.0);
    for project in [wide, composite] {
        let answers = answered(&project);
        assert!(verdict(&answers).mend.is_some());
        let mends = &joint(&answers).changes;
        assert!(!mends.iter().any(|mending| matches!(mending.mend, Mend::HardStops(_))), "{mends:?}");
        for (i, mending) in mends.iter().enumerate() {
            let told = row(&answers, &format!("mend_{}", i + 1)).unwrap().1;
            let right = mending.safety < Safety::NoWindow;
            assert_eq!(told.contains("N·m"), right, "{told}");
            assert_eq!(told.contains("by itself not enough"), !right, "{told}");
        }
    }
}

#[test]
fn on_stops_the_settled_gasket_is_judged_and_tightening_again_is_not_advised() {
    let mut project = usual(Some(4.0));
    project.cover_joint.stop = Some(millimetres(1.8));
    let answers = answered(&project);
    let load = joint(&answers).load.as_ref().unwrap();
    assert_eq!(load.lasting(), &load.holds_settled);
    assert!(has_note(&answers, "settled-on-stops") && !has_note(&answers, "retorque"));
    assert!(!row(&answers, "settling_loss").unwrap().0.contains("tightened again"));
    let mut high = project.clone();
    high.cover_joint.stop = Some(millimetres(2.9));
    let answers = answered(&high);
    let lost = answers.notes.iter().find(|note| note.key == "clamp-lost").unwrap();
    assert!(!lost.text.contains("use hard stops") && !lost.text.contains("Tighten again"));
    assert!(verdict(&answers).state > State::Holds);
}

#[test]
fn what_was_seen_of_a_leak_leads_at_a_torque_that_seats() {
    let mut project = usual(Some(4.0));
    project.cover_joint.trial_before = GaugePressure::from_base(1000.0);
    project.cover_joint.trial_after = GaugePressure::from_base(-200.0);
    project.cover_joint.trial = LeakTrial::WentOn;
    let told = mend(&answered(&project));
    assert!(told.starts_with("take the cover off") && told.matches("tighten to").count() == 1, "{told}");
    project.cover_joint.trial = LeakTrial::Stopped;
    let told = mend(&answered(&project));
    assert!(told.starts_with("mend the ventilation") && !told.contains("tighten to"), "{told}");
    // A joint that was never tight is tightened first.
    project.cover_joint.torque = Some(Torque::from_base(0.4));
    assert!(mend(&answered(&project)).starts_with("tighten to"));
}

#[test]
fn above_the_most_with_a_slippery_thread_alone_it_may_be_too_much() {
    let answers = answered(&usual(Some(4.5)));
    assert_eq!(verdict(&answers).state, State::Thin);
    assert!(reason(&answers).contains("may be more than the joint bears"), "{}", reason(&answers));
    assert!(mend(&answers).starts_with("slacken every screw"));
    let answers = answered(&usual(Some(6.0)));
    assert_eq!(verdict(&answers).state, State::DoesNotHold);
    assert!(reason(&answers).contains("is more than the joint bears"));
}

#[test]
fn no_change_asks_for_a_screw_the_hole_has_no_room_for() {
    let mut project = usual(None);
    project.cover_joint.gasket = GasketMaterial::CorkRubber;
    project.cover_joint.gasket_thickness = millimetres(4.0);
    project.cover_joint.layers = CoverLayers::TwoGaskets;
    project.cover_joint.spacing = millimetres(120.0);
    let mut tried = 0;
    for (screw, depth) in [(22.0, 7.0), (23.0, 12.0), (26.0, 14.0), (26.0, 30.0)] {
        project.cover_joint.screw_length = millimetres(screw);
        project.cover_joint.hole_depth = millimetres(depth);
        let Ok(answers) = study::answer(&project) else { continue };
        for mending in &joint(&answers).window.mends {
            let changed = made(&project, mending.mend);
            if matches!(mending.mend, Mend::LongerScrew(_) | Mend::InsertAndLongerScrew(_) | Mend::OneGasket { .. }) {
                assert!(joint(&answered(&changed)).bottoms.is_none(), "{screw} {depth} {:?}", mending.mend);
                tried += 1;
            }
        }
    }
    assert!(tried >= 3, "{tried}");
}

/// Below the torque to aim at nothing is slackened; above it a better joint is told after the torque.
#[test]
fn a_doubtful_window_is_bettered_without_undoing_what_is_right() {
    let mut project = usual(Some(1.3));
    project.cover_joint.screw_length = millimetres(15.0);
    let told = mend(&answered(&project));
    assert!(told.starts_with("when the cover is next off: take screws 4 mm longer"), "{told}");
    project.cover_joint.torque = Some(Torque::from_base(10.0));
    let told = mend(&answered(&project));
    assert!(told.starts_with("slacken every screw") && told.contains("; take screws 4 mm longer"), "{told}");
    // The longer screw comes before the torque, and that is the longer screw's.
    assert!(told.ends_with("then tighten to 2.2 N·m, which is safe at every unfavourable end"), "{told}");
    assert_eq!(told.matches("tighten to").count(), 1, "{told}");
}

#[test]
fn a_pressure_far_above_any_is_told_in_words() {
    let answers = answered(&usual(Some(1.9)));
    assert!(row(&answers, "holds").unwrap().1.contains("far above any crankcase pressure"));
    for project in [usual(Some(20.0)), usual(Some(10.0)), usual(None)] {
        let told = format!("{:?}{:?}", row(&answered(&project), "holds"), reason(&answered(&project)));
        assert!(!told.contains("MPa") && !told.contains("GPa"), "{told}");
    }
}

/// How high the stop will be decides how far the screw goes in.
#[test]
fn screws_are_shortened_for_the_stop_that_is_advised() {
    let mut project = usual(None);
    project.cover_joint.screw_length = millimetres(28.9);
    project.cover_joint.stop = Some(millimetres(2.25));
    let told = mend(&answered(&project));
    // 17.9 mm in the hole, 1.05 mm more on the lower stop and a pitch of run-out are 1.95 mm too many.
    assert!(
        told.contains("lower hard stops, 1.95 mm high; take screws 2 mm shorter, 26.9 mm under the head"),
        "{told}"
    );
    project.cover_joint.stop = Some(millimetres(1.95));
    project.cover_joint.screw_length = millimetres(26.9);
    assert!(joint(&answered(&project)).bottoms.is_none());
    project.cover_joint.screw_length = millimetres(27.4);
    assert_eq!(joint(&answered(&project)).bottom_state(), State::Thin);
}

#[test]
fn tightening_again_is_not_advised_where_the_torque_is_wrong() {
    let mut bottomed = usual(Some(2.2));
    bottomed.cover_joint.screw_length = millimetres(28.9);
    for project in [usual(Some(20.0)), usual(Some(10.0)), usual(Some(4.5)), usual(Some(0.5)), bottomed] {
        let answers = answered(&project);
        assert!(!has_note(&answers, "retorque"), "{:?}", project.cover_joint.torque);
        assert!(!answers.notes.iter().any(|note| note.text.contains("tighten once more")));
    }
    assert!(has_note(&answered(&usual(Some(2.2))), "retorque"));
}

/// The invented car's joint: two cork-rubber gaskets, a window open at the likely figures only.
#[test]
fn a_torque_inside_the_window_is_left_alone() {
    let project = coldmark::file::demo();
    let answers = answered(&project);
    let window = &joint(&answers).window;
    let torque = project.cover_joint.torque.unwrap();
    assert!(window.least.unwrap().likely < torque && torque < window.most.likely);
    assert_eq!(verdict(&answers).state, State::Thin);
    assert!(mend(&answers).starts_with("leave it at this torque") && !mend(&answers).contains("slacken"));
    // And so is every other torque between the ends.
    for share in [0.01, 0.2, 0.8, 0.99] {
        let (least, most) = (window.least.unwrap().likely.base(), window.most.likely.base());
        let mut project = project.clone();
        project.cover_joint.torque = Some(Torque::from_base(least + share * (most - least)));
        assert!(mend(&answered(&project)).starts_with("leave it at this torque"), "{share}");
    }
}

#[test]
fn the_torque_used_is_not_told_as_if_it_were_another() {
    // A gasket on stops that are too high, at a torque that is right on lower ones.
    let mut project = usual(Some(4.0));
    project.cover_joint.stop = Some(millimetres(2.25));
    let told = mend(&answered(&project));
    assert!(told.contains("the torque used is then") && !told.contains("tighten to"), "{told}");
    // Oiled in the end: one torque, that of oiled threads.
    let mut project = usual(Some(4.0));
    project.cover_joint.finish = Finish::NotKnown;
    project.cover_joint.grade = ScrewGrade::NotKnown;
    let told = mend(&answered(&project));
    assert!(told.contains("clean and oil the threads; then tighten to 2.2 N·m"), "{told}");
    assert_eq!(told.matches("tighten to").count(), 1, "{told}");
}

#[test]
fn the_trial_and_what_is_reckoned_are_one_statement() {
    let tried = |torque: f64, seen| {
        let mut project = usual(Some(torque));
        project.cover_joint.trial = seen;
        project.cover_joint.trial_before = GaugePressure::from_base(1000.0);
        project.cover_joint.trial_after = GaugePressure::from_base(-200.0);
        answered(&project)
    };
    let answers = tried(2.2, LeakTrial::WentOn);
    assert_eq!(joint(&answers).trial, Some(Trial::Joint));
    let cause = row(&answers, "leak_cause").unwrap().1;
    assert!(cause.contains("the leak trial shows the joint") && !cause.contains("mend the ventilation"), "{cause}");
    assert!(!mend(&answers).contains("ventilation"));
    let answers = tried(20.0, LeakTrial::Stopped);
    let told = mend(&answers);
    assert!(told.starts_with("slacken every screw"), "{told}");
    // A cover whose threads may be pulled is loose: what it shows is no fault of the ventilation yet.
    assert!(told.contains("; then make the leak trial again") && !told.contains("ventilation"), "{told}");
    let told = mend(&tried(4.5, LeakTrial::Stopped));
    assert!(told.ends_with("mend the ventilation too: the leak stopped when the pressure fell"), "{told}");
    // A loose cover leaks by itself.
    let told = mend(&tried(0.5, LeakTrial::WentOn));
    assert!(told.starts_with("tighten to 2.2 N·m; then make the leak trial again"), "{told}");
}

#[test]
fn what_an_unseated_gasket_holds_is_not_known() {
    let mut high_stop = usual(Some(4.0));
    high_stop.cover_joint.stop = Some(millimetres(2.25));
    let mut bowed = usual(Some(1.2));
    thin_sheet(&mut bowed, 200.0, 16.0);
    for (project, why) in
        [(high_stop, "the stop is too high"), (bowed, "bows off"), (usual(Some(0.5)), "the gasket is not seated")]
    {
        let answers = answered(&project);
        assert!(row(&answers, "holds").unwrap().1.contains(why), "{:?}", row(&answers, "holds"));
        assert!(row(&answers, "holds_settled").is_none());
        assert_eq!(joint(&answers).pressure_state(), State::DoesNotHold);
    }
}

#[test]
fn a_load_above_the_proof_load_says_that_the_screw_stretches() {
    let mut project = usual(Some(9.0));
    project.cover_joint.grade = ScrewGrade::Class4Point8;
    project.cover_joint.stop = Some(millimetres(1.8));
    let answers = answered(&project);
    let load = joint(&answers).load.as_ref().unwrap();
    assert!(load.clamp.likely > joint(&answers).window.yields.likely);
    assert!(matches!(load.fails, Some(Fails::Yields | Fails::Screw)));
    assert!(row(&answers, "clamp_load").unwrap().1.contains("first"));
    assert!(has_note(&answers, "screw-gives-way") && mend(&answers).contains("renew all screws and the gasket"));
    project.cover_joint.torque = Some(Torque::from_base(6.5));
    let answers = answered(&project);
    assert_eq!(joint(&answers).load.as_ref().unwrap().fails, Some(Fails::Yields));
    assert!(reason(&answers).contains("the screws stretch for good"), "{}", reason(&answers));
}

#[test]
fn what_can_strip_or_crack_opens_the_reason() {
    let mut bowed = usual(Some(20.0));
    thin_sheet(&mut bowed, 200.0, 16.0);
    let mut stopped = usual(Some(20.0));
    stopped.cover_joint.stop = Some(millimetres(2.25));
    for project in [bowed, stopped, usual(Some(20.0))] {
        let told = reason(&answered(&project));
        assert!(told.starts_with("the torque used is more than the joint bears; "), "{told}");
        assert!(mend(&answered(&project)).contains("renew all screws and the gasket"));
    }
}

/// Stops carry the screws; between them the flange bows as it did.
#[test]
fn stops_are_not_offered_against_a_bow() {
    let mut bowed = usual(Some(4.0));
    thin_sheet(&mut bowed, 200.0, 16.0);
    let answers = answered(&bowed);
    assert!(!mend(&answers).contains("stops"), "{}", mend(&answers));
    let joint_notes = answers.notes.iter().filter(|note| ["clamp-lost", "flange-spans-far"].contains(&note.key));
    assert!(!joint_notes.clone().any(|note| note.text.contains("stops")) && joint_notes.count() > 0);
}

#[test]
fn a_window_below_any_key_is_said_to_be_too_small() {
    let mut project = usual(None);
    project.cover_joint.spacing = millimetres(10.0);
    project.cover_joint.gasket_width = millimetres(2.0);
    let answers = answered(&project);
    assert!(joint(&answers).window.most.likely.base() < 0.2);
    assert!(joint(&answers).window.aim.is_none());
    assert!(reason(&answers).contains("the window is too small"), "{}", reason(&answers));
    assert_eq!(verdict(&answers).state, State::DoesNotHold);
    assert!(row(&answers, "torque_aim").unwrap().1.contains("below what a torque key can be set to"));
    assert!(mend(&answers).contains("hard stops"), "{}", mend(&answers));
}

/// A hole with no room for a screw that carries.
#[test]
fn a_hole_too_shallow_is_deepened() {
    let mut project = usual(Some(1.3));
    project.cover_joint.screw_length = millimetres(15.0);
    project.cover_joint.hole_depth = millimetres(5.0);
    let answers = answered(&project);
    assert!(joint(&answers).bottoms.is_some() && joint(&answers).plan.is_none());
    assert!(mend(&answers).contains("tap the holes deeper"), "{}", mend(&answers));
}

/// Too loose a screw does not meet the bottom of its hole; the torque that seats the gasket would bring it there, and that is
/// told rather than nothing.
#[test]
fn a_hole_too_shallow_for_the_right_torque_is_deepened() {
    let mut project = usual(Some(0.28));
    let cover = &mut project.cover_joint;
    (cover.thread, cover.grade, cover.finish) = (CoverThread::M8, ScrewGrade::Class4Point8, Finish::Dry);
    (cover.parent, cover.wire_insert) = (ParentMaterial::CastAluminium, true);
    (cover.screw_length, cover.hole_depth) = (millimetres(14.462), millimetres(7.338));
    (cover.layers, cover.gasket) = (CoverLayers::TwoGaskets, GasketMaterial::CorkRubber);
    (cover.gasket_thickness, cover.gasket_width) = (millimetres(1.79), millimetres(9.326));
    (cover.flange, cover.flange_thickness, cover.flange_width) =
        (FlangeMaterial::CastAluminium, millimetres(1.0), millimetres(14.0));
    (cover.spreader, cover.spacing, cover.screws) = (Some(millimetres(4.426)), millimetres(128.0), 8);
    let answers = answered(&project);
    assert!(joint(&answers).bottoms.is_none() && joint(&answers).plan.is_none());
    assert!(mend(&answers).contains("the screws may meet the bottom of their holes: tap the holes deeper"));
    project.cover_joint.torque = joint(&answers).window.aim;
    assert!(joint(&answered(&project)).bottoms.is_some());
}

/// Every change by itself is told with the screws it takes.
#[test]
fn a_change_among_the_rows_comes_with_screws_that_clear_the_bottom() {
    let mut project = usual(Some(3.0));
    project.cover_joint.gasket = GasketMaterial::CorkRubber;
    project.cover_joint.gasket_thickness = millimetres(5.0);
    // 14.4 mm in a hole of 16.4 mm, which takes the gasket pressed by the torque and not one pressed down to stops.
    (project.cover_joint.screw_length, project.cover_joint.hole_depth) = (millimetres(27.4), millimetres(16.4));
    let answers = answered(&project);
    let changes = &joint(&answers).changes;
    assert!(changes.iter().any(|change| change.screw.is_some()), "{changes:?}");
    for (i, change) in changes.iter().enumerate() {
        let mut after = made(&project, change.mend);
        after.cover_joint.screw_length = change.screw.unwrap_or(project.cover_joint.screw_length);
        after.cover_joint.torque = joint(&answered(&after)).window.aim;
        let after = answered(&after);
        assert!(joint(&after).bottoms.is_none() && joint(&after).window.most == change.most, "{change:?}");
        let told = row(&answers, &format!("mend_{}", i + 1)).unwrap().1;
        assert_eq!(told.contains("under the head"), change.screw.is_some(), "{told}");
    }
}
