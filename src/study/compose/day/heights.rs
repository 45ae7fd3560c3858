//! What a climb does that the day leaves out: its air has one pressure.

use super::super::context::Context;
use super::super::coolant::Side;
use super::super::course;
use crate::fluid;
use crate::note::{Note, Weight};
use crate::quantity::si::{Length, TemperatureInterval};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::scribe::Silent;
use crate::study::{LegEnd, LegInputs, LegKind};

/// Climbs below this, m, change nothing that a day can tell.
const WORTH_TELLING: f64 = 100.0;

/// How high a leg leads, m; negative downhill.
fn rise(leg: &LegInputs) -> f64 {
    match leg.kind {
        LegKind::Climb => leg.height.base(),
        LegKind::Steady => {
            let along = match leg.until {
                LegEnd::Distance => leg.distance.base(),
                LegEnd::Time => leg.speed.base() * leg.lasts.base(),
            };
            along * leg.grade.base().atan().sin()
        }
        _ => 0.0,
    }
}

/// How far above its beginning a day comes at most. A climb's way down is often no leg of its own: what follows a park or a
/// trace on the level may begin at the foot again, so that only climbs in a row are added up.
fn highest(legs: &[LegInputs]) -> f64 {
    let (mut here, mut most) = (0.0_f64, 0.0_f64);
    for leg in legs {
        let rise = rise(leg);
        here = if rise == 0.0 { 0.0 } else { (here + rise).max(0.0) };
        most = most.max(here);
    }
    most
}

/// Says by how much sooner the coolant boils at the top than the day tells.
pub(super) fn climbs(context: &Context<'_>, side: &Side<'_, '_>) -> Option<Note> {
    let project = context.project;
    let legs = if project.day.legs.is_empty() { course::usual_day(project).ok()? } else { project.day.legs.clone() };
    let height = highest(&legs);
    if height < WORTH_TELLING {
        return None;
    }
    let top = Length::from_base(project.surroundings.altitude.base() + height);
    let above = Amount::new(height, Kind::Distance).show(UnitSystem::Si);
    let boils = |air: crate::quantity::AbsolutePressure| {
        let limit = Measured::from_base(air.base() + side.opening.likely.base());
        context.mix.boiling_point(limit, &mut Silent).map(Measured::base)
    };
    let at_top = fluid::air::standard_pressure(top, &mut Silent).and_then(boils);
    let sooner = match (boils(context.ambient), at_top) {
        (Ok(here), Ok(top)) => {
            let sooner = TemperatureInterval::from_base((here - top).max(0.0));
            format!("boils {} sooner", Amount::of(sooner).show(UnitSystem::Si))
        }
        _ => "boils several kelvin sooner".to_owned(),
    };
    let text = format!(
        "The air of the day has the pressure of the altitude entered, also up a climb: {above} higher the coolant {sooner} \
         than told, and every boiling margin is as much smaller. Enter the altitude of the pass to be on the safe side."
    );
    Some(Note::new("day-climb", Weight::Weak, text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_climbs_in_a_row_add_up() {
        let climb = |height: f64| LegInputs {
            kind: LegKind::Climb,
            height: Measured::from_base(height),
            ..LegInputs::default()
        };
        let idle = LegInputs { kind: LegKind::Idle, ..LegInputs::default() };
        assert!((highest(&[climb(300.0), climb(400.0), idle.clone()]) - 700.0).abs() < 1e-9);
        assert!((highest(&[climb(300.0), idle, climb(400.0)]) - 400.0).abs() < 1e-9);
    }
}
