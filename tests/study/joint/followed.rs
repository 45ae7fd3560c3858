//! What is advised is done, and asked again: it must have helped, and nothing may be taken back.

use super::{joint, made, mend, sound, verdict};
use crate::build::millimetres;
use coldmark::crankcase::joint::{
    Finish, FlangeMaterial, GasketMaterial, Mend, Obstacle, ParentMaterial, Safety, ScrewGrade,
};
use coldmark::quantity::si::Torque;
use coldmark::quantity::{Amount, GaugePressure, Kind, Measured, UnitSystem};
use coldmark::study::{self, Answers, CoverLayers, CoverThread, Excess, JointPlan, LeakTrial, Project, State};
use proptest::prelude::*;

const THREADS: [CoverThread; 5] =
    [CoverThread::No10Coarse, CoverThread::QuarterInch, CoverThread::M5, CoverThread::M6, CoverThread::M8];
const LAYERS: [CoverLayers; 3] = [CoverLayers::OneGasket, CoverLayers::TwoGaskets, CoverLayers::TwoGasketsAndSpacer];
const TRIALS: [LeakTrial; 3] = [LeakTrial::NotTried, LeakTrial::Stopped, LeakTrial::WentOn];

/// The project after someone did all that a plan asks.
fn done(project: &Project, plan: &JointPlan) -> Project {
    let mut after = plan.changes.iter().fold(project.clone(), |project, mend| made(&project, *mend));
    let joint = &mut after.cover_joint;
    joint.screw_length = plan.screw.unwrap_or(project.cover_joint.screw_length);
    joint.torque = plan.torque.or(joint.torque);
    joint.trial = LeakTrial::NotTried;
    after
}

prop_compose! {
    fn screws()(
        thread in prop::sample::select(THREADS.to_vec()), grade in prop::sample::select(ScrewGrade::ALL.to_vec()),
        finish in prop::sample::select(Finish::ALL.to_vec()), parent in prop::sample::select(ParentMaterial::ALL.to_vec()),
        insert: bool, reach in 3.5..20.0_f64, spare in 0.0..8.0_f64,
        torque in prop::option::of((0.2_f64.ln()..50.0_f64.ln()).prop_map(f64::exp)),
        trial in prop::sample::select(TRIALS.to_vec()),
    ) -> Project {
        let mut project = sound();
        let joint = &mut project.cover_joint;
        (joint.thread, joint.grade, joint.finish, joint.parent) = (thread, grade, finish, parent);
        joint.wire_insert = insert;
        joint.torque = torque.map(Torque::from_base);
        joint.trial = trial;
        joint.trial_before = GaugePressure::from_base(1000.0);
        joint.trial_after = GaugePressure::from_base(-200.0);
        // The screw's reach until the layers are known.
        joint.screw_length = millimetres(reach);
        joint.hole_depth = millimetres(reach + spare);
        project
    }
}

prop_compose! {
    fn joints()(
        project in screws(), layers in prop::sample::select(LAYERS.to_vec()),
        gasket in prop::sample::select(GasketMaterial::ALL.to_vec()), thickness in 1.0..5.0_f64, width in 4.0..20.0_f64,
        spacing in 20.0..180.0_f64, sheet: bool, flange in 1.0..10.0_f64, spreader in prop::option::of(2.0..6.0_f64),
        stop in prop::option::of(0.03..0.48_f64),
    ) -> Project {
        let mut project = project;
        let joint = &mut project.cover_joint;
        (joint.layers, joint.gasket) = (layers, gasket);
        joint.gasket_thickness = millimetres(thickness);
        joint.gasket_width = millimetres(width);
        joint.spacing = millimetres(spacing);
        joint.flange = if sheet { FlangeMaterial::SheetSteel } else { FlangeMaterial::CastAluminium };
        joint.flange_thickness = millimetres(if sheet { flange.min(2.0) } else { flange });
        joint.spreader = spreader.map(millimetres);
        let gaskets = if layers == CoverLayers::OneGasket { thickness } else { 2.0 * thickness };
        let spacer = if layers == CoverLayers::TwoGasketsAndSpacer { joint.spacer_thickness.base() * 1e3 } else { 0.0 };
        joint.stop = stop.map(|share| millimetres(spacer + gaskets * (1.0 - share)));
        let grip = spreader.unwrap_or(0.0) + joint.flange_thickness.base() * 1e3 + gaskets + spacer;
        joint.screw_length += millimetres(grip);
        project
    }
}

fn shown(amount: Amount) -> String {
    amount.show(UnitSystem::Si)
}

/// What the words say is what the plan is: one torque, one length.
fn words_are_the_plan(answers: &Answers, plan: &JointPlan) {
    let waits = joint(answers).trial.is_some() && !mend(answers).contains("tighten to") && joint(answers).inside();
    let told = mend(answers);
    if waits {
        return;
    }
    assert_eq!(told.matches("tighten to").count(), usize::from(plan.torque.is_some()), "{told}");
    // What is put there at once is told once.
    for step in ["lay steel bars", "hard stops", "wire thread inserts"] {
        assert!(told.matches(step).count() < 2, "{told}");
    }
    if let Some(torque) = plan.torque {
        assert!(told.contains(&format!("tighten to {}", shown(Amount::of(torque)))), "{told}");
        assert_ne!(joint(answers).torque, Some(torque), "{told}");
    }
    if let Some(screw) = plan.screw {
        assert!(
            told.contains(&format!("{} under the head", shown(Amount::of_kind(screw, Kind::SmallLength)))),
            "{told}"
        );
    }
}

/// Over-torque is never told to be left, nor what holds to be mended.
fn told_rightly(answers: &Answers) {
    let joint = joint(answers);
    let told = verdict(answers).mend.as_ref().map(|mend| mend.show(UnitSystem::Si)).unwrap_or_default();
    let reason = verdict(answers).reason.show(UnitSystem::Si);
    assert_eq!(verdict(answers).state == State::Holds, told.is_empty(), "{told}");
    if joint.excess() == Excess::Is {
        assert!(
            told.starts_with("slacken every screw") && reason.starts_with("the torque used is more than"),
            "{told}"
        );
    }
    assert!(joint.excess() > Excess::None || !told.contains("slacken"), "{told}");
    assert!(!joint.inside() || !told.contains("slacken"), "{told}");
    assert!(joint.torque.is_some() || verdict(answers).state >= State::DoesNotHold);
    let retorque = answers.notes.iter().any(|note| note.key == "retorque");
    let wrong = joint.excess() == Excess::Is || joint.bottoms.is_some() || told.contains("slacken");
    assert!(!retorque || !wrong, "{told}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn what_is_advised_is_enough_and_is_not_taken_back(project in joints()) {
        let mut project = project;
        let Ok(mut answers) = study::answer(&project) else { return Ok(()) };
        let mut rounds = 0;
        while let Some(plan) = joint(&answers).plan.clone() {
            told_rightly(&answers);
            // Neither stops nor thread press a gasket the flange bows off.
            let bars = plan.changes.iter().any(|mend| matches!(mend, Mend::SpreaderBars { .. }));
            prop_assert!(bars || joint(&answers).window.obstacle != Some(Obstacle::Bow), "{:?}", plan);
            words_are_the_plan(&answers, &plan);
            project = done(&project, &plan);
            answers = study::answer(&project).map_err(|problems| TestCaseError::fail(format!("{plan:?}: {problems}")))?;
            let joint = joint(&answers);
            prop_assert_eq!(joint.window.safety, plan.safety);
            prop_assert!(joint.bottoms.is_none() && joint.inside(), "{:?}", plan);
            let state = if plan.safety == Safety::Safe { State::Holds } else { State::Thin };
            prop_assert_eq!(verdict(&answers).state, state, "{:?} {}", plan, super::reason(&answers));
            // What makes it safe from here would have been said before.
            prop_assert!(joint.plan.is_none(), "{:?}, then {:?}", plan, joint.plan);
            rounds += 1;
            prop_assert!(rounds < 2);
        }
        told_rightly(&answers);
        // Left as it is because it holds, or because nothing known here would do.
        let joint = joint(&answers);
        let left = joint.inside() || joint.window.safety == Safety::NoWindow || joint.bottoms.is_some();
        // Or the torque that would be right brings the screws to the bottom, and this is what is said.
        let mut righted = project.clone();
        righted.cover_joint.torque = joint.window.aim;
        let bottoms = || study::answer(&righted).is_ok_and(|righted| super::joint(&righted).bottoms.is_some());
        prop_assert!(left || (mend(&answers).contains("tap the holes deeper") && bottoms()), "{:?}", verdict(&answers).mend);
    }

    /// The torque to aim at moves little when the joint does: no rule gives way to another.
    #[test]
    fn the_aim_does_not_jump(project in joints(), share in 0.0..1.0_f64) {
        let mut project = project;
        project.cover_joint.torque = None;
        let aim = |project: &Project| study::answer(project).ok().and_then(|answers| joint(&answers).window.aim);
        let Some(first) = aim(&project) else { return Ok(()) };
        project.cover_joint.gasket_width = millimetres(project.cover_joint.gasket_width.base() * 1e3 * (1.0 + 0.01 * share));
        let Some(second) = aim(&project) else { return Ok(()) };
        // A hundredth more gasket, and a step of the key.
        let step = if first.base().max(second.base()) < 10.0 { 0.1 } else { 0.5 };
        let most = 0.03 * first.base() + step * (1.0 + 1e-9);
        prop_assert!((second.base() - first.base()).abs() < most, "{first:?} {second:?}");
    }
}
