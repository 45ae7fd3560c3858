//! The usual day, of a project that tells of none: from the coldest morning through the hottest afternoon to the next
//! morning, no harder than its duty points and gears allow.

use super::legs;
use crate::day::{self, Car, Trace};
use crate::quantity::Measured;
use crate::quantity::si::{Length, Ratio, Time};
use crate::scribe::Silent;
use crate::study::compose::context::Context;
use crate::study::{Duty, LegInputs, LegKind, Problems};

/// Grades tried for the climb, the steepest first.
const GRADES: [f64; 9] = [0.12, 0.10, 0.08, 0.07, 0.06, 0.05, 0.04, 0.03, 0.02];
/// Slower is no driving.
const SLOWEST: f64 = 0.5;

/// Its legs. A trace faster than top gear, a climb the engine cannot make and a full throttle at a standstill are left out.
pub(super) fn legs(context: &Context<'_>, car: &Car) -> Result<Vec<LegInputs>, Problems> {
    car.check().map_err(|fault| super::problem(fault.into(), &[], true))?;
    let weather = &context.project.surroundings;
    let minutes = |minutes: f64| Time::from_base(minutes * 60.0);
    let cold = LegInputs { air: weather.coldest, falls_to: weather.coldest, ..LegInputs::default() };
    let hot = LegInputs { air: weather.hottest, ..cold.clone() };
    let mut legs = vec![LegInputs { kind: LegKind::Idle, lasts: minutes(2.0), ..cold.clone() }];
    for trace in [Trace::Urban, Trace::Highway] {
        if trace.fastest() <= car.fastest() {
            legs.push(LegInputs { kind: LegKind::Trace, trace, ..cold.clone() });
        }
    }
    legs.push(LegInputs { kind: LegKind::Park, lasts: minutes(8.0 * 60.0), ..hot.clone() });
    legs.push(LegInputs { kind: LegKind::Idle, lasts: minutes(1.0), ..hot.clone() });
    legs.extend(climb(context, car, &hot));
    let wide_open = context.project.duty.of(Duty::FullThrottle).road_speed;
    let speed = if wide_open > car.fastest() { car.fastest() } else { wide_open };
    if speed.base() >= SLOWEST {
        legs.push(LegInputs { kind: LegKind::FullThrottle, speed, lasts: minutes(5.0), ..hot.clone() });
    }
    legs.push(LegInputs { kind: LegKind::Traffic, ..hot.clone() });
    legs.push(LegInputs { kind: LegKind::HotStop, lasts: minutes(30.0), ..hot.clone() });
    legs.push(LegInputs { kind: LegKind::Overnight, ..hot });
    Ok(legs)
}

/// The steepest of the usual grades that takes no more power than the hill duty, at its speed.
fn climb(context: &Context<'_>, car: &Car, hot: &LegInputs) -> Option<LegInputs> {
    let hill = context.project.duty.of(Duty::Hill);
    let speed = if hill.road_speed > car.fastest() { car.fastest() } else { hill.road_speed };
    if speed.base() < SLOWEST {
        return None;
    }
    GRADES.into_iter().find_map(|grade| {
        let leg = LegInputs {
            kind: LegKind::Climb,
            speed,
            climb_grade: Ratio::from_base(grade),
            // Ten minutes or so: long enough for coolant and oil to settle nearly.
            height: Length::from_base(800.0),
            ..hot.clone()
        };
        let alone = [legs::leg(&leg)];
        let time_step = context.project.day.time_step;
        let driven = day::stretches(&alone, car, context.ambient, time_step, &mut Silent).ok()?;
        let easy = driven.iter().all(|piece| piece.engine.is_some_and(|engine| engine.power <= hill.power));
        easy.then_some(leg)
    })
}
