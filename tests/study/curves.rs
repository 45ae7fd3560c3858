//! The curves of the plots, against the answers they run through.

use crate::build::answered;
use coldmark::file::demo;
use coldmark::quantity::Measured;
use coldmark::study::{self, Choice, Duty, Project, ValveKind, VentilationArrangement as Arrangement};

fn with(kind: ValveKind) -> Project {
    let mut project = demo();
    project.ventilation.valve.kind = kind;
    project
}

#[test]
fn the_valves_curve_runs_through_the_duties() {
    for kind in ValveKind::ALL.iter().copied() {
        let project = with(kind);
        let answers = answered(&project);
        let curve = study::curves(&project).unwrap().valve;
        let valve = answers.valve.as_ref().unwrap();
        assert_eq!(curve[0].depression.base(), 0.0);
        assert!(curve[0].flow.base() == 0.0 && curve.last().unwrap().depression.base() > 60e3, "{kind:?}");
        let highest = curve.iter().map(|point| point.flow.base()).fold(0.0, f64::max);
        for (duty, passes) in Duty::ALL.into_iter().zip(&valve.passes) {
            let Ok(passes) = passes else { continue };
            let at = answers.ambient.base() - answers.duties[duty.index()].manifold.base();
            let next = curve.iter().position(|point| point.depression.base() >= at).unwrap();
            let (a, b) = (curve[next.max(1) - 1], curve[next.max(1)]);
            let share = (at - a.depression.base()) / (b.depression.base() - a.depression.base());
            let between = a.flow.base() + share * (b.flow.base() - a.flow.base());
            assert!((between - passes.base()).abs() < 0.02 * highest, "{kind:?} {duty:?}: {between} {passes:?}");
        }
    }
    // A table ends where it was measured; no valve has no curve.
    let project = with(ValveKind::Table);
    let last = project.ventilation.valve.bench.table.last().unwrap().0.base();
    let curve = study::curves(&project).unwrap().valve;
    assert!(curve.iter().all(|point| point.depression.base() <= last) && curve.len() > 10);
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    assert!(study::curves(&project).unwrap().valve.is_empty());
}
