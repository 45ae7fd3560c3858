//! The joint between valve cover and head: facts of the trade, told by whole projects.

mod blamed;
mod followed;
mod told;

use crate::build::{answered, known, metered, millimetres};
use coldmark::crankcase::joint::{
    Cause, Finish, FlangeMaterial, GasketMaterial, Limit, Mend, ParentMaterial, Safety, ScrewGrade, Trial,
};
use coldmark::file::demo;
use coldmark::quantity::si::{Length, Torque};
use coldmark::quantity::{Amount, GaugePressure, Measured, UnitSystem};
use coldmark::study::{
    self, Answers, CoverJointInputs, CoverLayers, CoverThread, JointAnswers, LeakTrial, Part, Project, State, Verdict,
};

/// A cast cover with a rubber gasket on an aluminium head, oiled M6 screws: a sound joint.
fn sound() -> Project {
    let mut project = demo();
    project.cover_joint = CoverJointInputs {
        known: true,
        thread: CoverThread::M6,
        grade: ScrewGrade::Class8Point8,
        finish: Finish::Oiled,
        parent: ParentMaterial::CastAluminium,
        screw_length: millimetres(28.0),
        hole_depth: millimetres(22.0),
        spacing: millimetres(80.0),
        torque: Some(Torque::from_base(1.9)),
        layers: CoverLayers::OneGasket,
        gasket: GasketMaterial::Rubber,
        gasket_thickness: millimetres(3.0),
        gasket_width: millimetres(10.0),
        flange: FlangeMaterial::CastAluminium,
        flange_thickness: millimetres(8.0),
        flange_width: millimetres(14.0),
        ..CoverJointInputs::default()
    };
    project
}

fn joint(answers: &Answers) -> &JointAnswers {
    answers.cover_joint.as_ref().unwrap()
}

fn verdict(answers: &Answers) -> &Verdict {
    answers.verdict("cover_joint").unwrap()
}

fn reason(answers: &Answers) -> String {
    verdict(answers).reason.show(UnitSystem::Si)
}

fn mend(answers: &Answers) -> String {
    verdict(answers).mend.as_ref().unwrap().show(UnitSystem::Si)
}

/// What is promised of a change is what the changed project says.
fn made(project: &Project, mend: Mend) -> Project {
    let mut project = project.clone();
    let joint = &mut project.cover_joint;
    // The screw grows with what is laid under its head, so that it goes in as far as before.
    let longer = |joint: &mut CoverJointInputs, by: f64| {
        joint.screw_length = Length::from_base(joint.screw_length.base() + by);
    };
    let gasket = joint.gasket_thickness.base();
    let stack = match joint.layers {
        CoverLayers::OneGasket => gasket,
        CoverLayers::TwoGaskets => 2.0 * gasket,
        CoverLayers::TwoGasketsAndSpacer => 2.0 * gasket + joint.spacer_thickness.base(),
    };
    let loose = [joint.washers, joint.spreader].into_iter().flatten().map(Measured::base).sum::<f64>();
    let reach = joint.screw_length.base() - joint.flange_thickness.base() - stack - loose;
    match mend {
        Mend::WireInsert => joint.wire_insert = true,
        Mend::LongerScrew(length) => longer(joint, length.base() - reach),
        Mend::InsertAndLongerScrew(length) => {
            joint.wire_insert = true;
            longer(joint, length.base() - reach);
        }
        Mend::SpreaderBars { total, longer: more } => {
            joint.spreader = Some(total);
            longer(joint, more.base());
        }
        Mend::OneGasket { shorter, .. } => {
            joint.layers = CoverLayers::OneGasket;
            longer(joint, -shorter.base());
        }
        Mend::HardStops(height) | Mend::LowerStops(height) | Mend::HigherStops(height) => joint.stop = Some(height),
        Mend::KnownFinish => joint.finish = Finish::Oiled,
    }
    project
}

#[test]
fn a_sound_joint_holds_and_stands_far_above_crankcase_pressure() {
    let answers = answered(&sound());
    let joint = joint(&answers);
    assert_eq!(verdict(&answers).state, State::Holds, "{}", reason(&answers));
    assert_eq!(joint.window.safety, Safety::Safe);
    assert!(verdict(&answers).mend.is_none());
    let load = joint.load.as_ref().unwrap();
    // Contact stress is counted in hundreds of kilopascals, crankcase pressure in single ones.
    assert!(load.holds.low.base() > 100e3 && joint.worst.base() < 10e3);
    assert!((load.all.likely.base() / load.clamp.likely.base() - f64::from(sound().cover_joint.screws)).abs() < 1e-9);
    let duties = answers.duties.iter();
    let worst = duties.flat_map(|duty| [duty.high().cover_gauge.base(), duty.unfavourable.cover_gauge.base()]);
    assert_eq!(joint.worst.base(), worst.fold(f64::MIN, f64::max));
}

/// Common practice: two gaskets feel soft, and the screw holds by fewer threads.
#[test]
fn two_gaskets_compress_further_and_take_thread() {
    let mut project = sound();
    project.cover_joint.torque = Some(Torque::from_base(0.8));
    let one = answered(&project);
    project.cover_joint.layers = CoverLayers::TwoGaskets;
    let two = answered(&project);
    let (one, two) = (joint(&one), joint(&two));
    let travel = |joint: &JointAnswers| joint.load.as_ref().unwrap().travel.travel.likely.base();
    assert!((travel(two) / travel(one) - 2.0).abs() < 1e-9);
    assert!((one.reach.base() - two.reach.base() - 0.003).abs() < 1e-12);
    assert!(answered(&project).notes.iter().any(|note| note.key == "gaskets-stacked"));
    // As much load is lost by settling as with one.
    let lost = |joint: &JointAnswers| joint.load.as_ref().unwrap().creep.loss.likely.base();
    assert!((lost(two) / lost(one) - 1.0).abs() < 0.05);
}

/// A weak thread in aluminium bears less than the gasket needs; a wire insert shears more metal.
#[test]
fn a_wire_insert_restores_the_torque() {
    let mut project = sound();
    project.cover_joint.gasket = GasketMaterial::CorkRubber;
    project.cover_joint.screw_length = millimetres(16.5);
    let before = answered(&project);
    let window = &joint(&before).window;
    assert_eq!(window.limit, Limit::Thread);
    assert!(window.safety > Safety::Safe);
    assert!(window.mends.iter().any(|mending| matches!(mending.mend, Mend::WireInsert)), "{:?}", window.mends);
    project.cover_joint.wire_insert = true;
    let after = answered(&project);
    let gain = joint(&after).window.most.likely.base() / window.most.likely.base();
    assert!((1.15..1.3).contains(&gain), "{gain}");
}

#[test]
fn a_thin_flange_between_far_screws_finds_no_torque() {
    let mut project = sound();
    project.cover_joint.flange = FlangeMaterial::SheetSteel;
    project.cover_joint.flange_thickness = millimetres(1.2);
    project.cover_joint.screw_length = millimetres(20.0);
    project.cover_joint.spacing = millimetres(150.0);
    let answers = answered(&project);
    assert_eq!(verdict(&answers).state, State::DoesNotHold);
    assert!(joint(&answers).window.least.is_none());
    assert!(reason(&answers).contains("more torque does not press it"));
    assert!(mend(&answers).contains("bars"), "{}", mend(&answers));
}

/// Each change is tried by changing the project.
#[test]
fn a_change_does_what_is_promised_of_it() {
    let mut bowed = sound();
    bowed.cover_joint.flange = FlangeMaterial::SheetSteel;
    bowed.cover_joint.screw_length = millimetres(20.0);
    bowed.cover_joint.flange_thickness = millimetres(1.2);
    bowed.cover_joint.spacing = millimetres(150.0);
    let mut short = sound();
    short.cover_joint.gasket = GasketMaterial::CorkRubber;
    short.cover_joint.screw_length = millimetres(16.5);
    let mut unknown = sound();
    unknown.cover_joint.finish = Finish::NotKnown;
    unknown.cover_joint.layers = CoverLayers::TwoGaskets;
    unknown.cover_joint.gasket = GasketMaterial::CorkRubber;
    let mut tried = 0;
    for project in [bowed, short, unknown] {
        for mending in joint(&answered(&project)).window.mends.clone() {
            let window = joint(&answered(&made(&project, mending.mend))).window.clone();
            assert_eq!(window.safety, mending.safety, "{:?}", mending.mend);
            assert!((window.most.low.base() / mending.most.low.base() - 1.0).abs() < 1e-6, "{:?}", mending.mend);
            tried += 1;
        }
    }
    assert!(tried >= 6, "{tried}");
}

#[test]
fn a_torque_outside_the_window_is_told_and_the_right_one_named() {
    let mut project = sound();
    for (torque, words, first) in
        [(0.3, "leaves the gasket loose", "tighten to "), (20.0, "is more than the joint bears", "slacken every screw")]
    {
        project.cover_joint.torque = Some(Torque::from_base(torque));
        let answers = answered(&project);
        assert_eq!(verdict(&answers).state, State::DoesNotHold, "{torque}");
        assert!(reason(&answers).contains(words), "{}", reason(&answers));
        assert!(mend(&answers).starts_with(first), "{}", mend(&answers));
        project.cover_joint.torque = joint(&answers).window.aim;
        assert_eq!(verdict(&answered(&project)).state, State::Holds);
    }
    project.cover_joint.torque = None;
    let answers = answered(&project);
    // Nobody tightened it so far: it does not hold, and what it takes is said.
    assert_eq!(verdict(&answers).state, State::NotKnown);
    let aim = joint(&answers).window.aim.map(|aim| Amount::of(aim).show(UnitSystem::Si)).unwrap();
    assert_eq!(verdict(&answers).margin.show(UnitSystem::Si), format!("no torque given, {aim} is needed"));
    // A screw that is tight already would click at once and be taken for right.
    assert_eq!(mend(&answers), format!("back off every screw that is tight already; then tighten to {aim}"));
    assert!(joint(&answers).load.as_ref().unwrap().aimed);
}

/// Common practice: what stops as the crankcase goes below the air outside was pressure; what goes on is the joint.
#[test]
fn a_leak_that_stops_below_zero_was_pressure() {
    let mut project = sound();
    project.cover_joint.trial_before = GaugePressure::from_base(1500.0);
    project.cover_joint.trial_after = GaugePressure::from_base(-300.0);
    project.cover_joint.trial = LeakTrial::Stopped;
    let answers = answered(&project);
    assert_eq!(joint(&answers).trial, Some(Trial::Pressure));
    assert_eq!(verdict(&answers).state, State::Holds);
    assert!(reason(&answers).contains("it was pressure"));
    project.cover_joint.trial = LeakTrial::WentOn;
    let answers = answered(&project);
    assert_eq!(joint(&answers).trial, Some(Trial::Joint));
    assert_eq!(verdict(&answers).state, State::DoesNotHold);
    assert!(mend(&answers).contains("take the cover off"));
    // Still above the air outside, nothing is decided.
    project.cover_joint.trial_after = GaugePressure::from_base(200.0);
    assert_eq!(joint(&answered(&project)).trial, Some(Trial::Undecided));
    assert_eq!(verdict(&answered(&project)).state, State::Holds);
    project.cover_joint.trial_after = GaugePressure::from_base(1600.0);
    let problems = study::answer(&project).unwrap_err();
    assert_eq!(problems.0[0].path, "cover_joint.trial.after");
}

#[test]
fn the_ventilation_is_named_where_it_drives_the_leak() {
    let mut project = sound();
    project.cover_joint.oil_head = known(0.01);
    let answers = answered(&project);
    assert_eq!(joint(&answers).leak.as_ref().unwrap().cause, Cause::Ventilation);
    assert!(reason(&answers).contains("crankcase pressure"));
    // Next to no blow-by and a wide way out: the oil runs out by itself.
    metered(&mut project, 2.0);
    project.ventilation.baffle_area = known(1500e-6);
    project.ventilation.breather.bore = millimetres(40.0);
    project.ventilation.breather.barb = None;
    let answers = answered(&project);
    assert!(matches!(joint(&answers).leak.as_ref().unwrap().cause, Cause::Joint | Cause::DrawsAir));
    assert!(!reason(&answers).contains("driven by crankcase pressure"));
}

#[test]
fn a_screw_that_does_not_fit_is_a_fault_of_its_length() {
    let mut project = sound();
    for (length, words) in [(8.0, "does not reach"), (40.0, "meets the bottom"), (12.0, "nothing is left to carry")] {
        project.cover_joint.screw_length = millimetres(length);
        let problems = study::answer(&project).unwrap_err();
        assert_eq!(problems.0[0].path, "cover_joint.screw_length");
        assert!(problems.0[0].message.contains(words), "{problems}");
    }
}

/// Hard stops take the load from the gasket.
#[test]
fn a_hard_stop_keeps_the_gasket_from_the_torque() {
    let mut project = sound();
    project.cover_joint.stop = Some(millimetres(2.2));
    let load = |torque: f64| {
        let mut project = project.clone();
        project.cover_joint.torque = Some(Torque::from_base(torque));
        joint(&answered(&project)).load.clone().unwrap()
    };
    let (some, more) = (load(4.0), load(6.0));
    assert!(more.clamp.likely.base() > some.clamp.likely.base());
    assert_eq!(more.on_gasket, some.on_gasket);
    project.cover_joint.stop = Some(millimetres(3.5));
    assert_eq!(study::answer(&project).unwrap_err().0[0].path, "cover_joint.stop");
}

/// Nothing is said of a joint that nobody measured, and nothing else changes.
#[test]
fn an_unmeasured_joint_is_left_out() {
    let with = answered(&sound());
    let mut project = sound();
    project.cover_joint.known = false;
    // Not even a fault among what is kept for later.
    project.cover_joint.screw_length = millimetres(5.0);
    let without = answered(&project);
    assert!(without.cover_joint.is_none() && without.verdict("cover_joint").is_none());
    assert!(without.sections_of(Part::CoverJoint).is_empty());
    assert_eq!(without.duties, with.duties);
    assert_eq!(with.verdicts.len(), without.verdicts.len() + 1);
    let told = with.sections_of(Part::CoverJoint);
    assert!(told[0].rows.len() > 15);
}

/// The reviewer's joint: 25 mm of oiled M6 in 18 mm of aluminium, 3 x 10 mm of rubber, a cast flange.
fn usual(torque: Option<f64>) -> Project {
    let mut project = sound();
    let joint = &mut project.cover_joint;
    joint.screw_length = millimetres(25.0);
    joint.hole_depth = millimetres(18.0);
    joint.spacing = millimetres(90.0);
    joint.torque = torque.map(Torque::from_base);
    project
}

fn thin_sheet(project: &mut Project, spacing: f64, screw: f64) {
    let joint = &mut project.cover_joint;
    joint.flange = FlangeMaterial::SheetSteel;
    joint.flange_thickness = millimetres(1.0);
    joint.spacing = millimetres(spacing);
    joint.screw_length = millimetres(screw);
}

/// What a row of the joint's section shows.
fn row(answers: &Answers, key: &str) -> Option<(String, String)> {
    let sections = answers.sections_of(Part::CoverJoint);
    let row = sections.iter().flat_map(|section| &section.rows).find(|row| row.key == key)?;
    Some((row.label.to_string(), format!("{:?}", row.value)))
}

fn has_note(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}
