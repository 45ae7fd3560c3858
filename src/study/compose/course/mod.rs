//! From a project to what its engine does all day: the car, the legs, and the stretches they make.

mod car;
mod legs;
mod usual;

pub(super) use car::car;

use super::context::Context;
use crate::day::{self, DayError, LegInput, Stretch};
use crate::quantity::si::{Length, Time};
use crate::quantity::{Measured, UnitSystem};
use crate::scribe::{Scribe, Silent};
use crate::study::{LegAnswer, LegInputs, LegKind, Problems, Project};

/// The legs with their names and times, and the stretches they make.
pub(in crate::study) type Course = (Vec<LegAnswer>, Vec<Stretch>);

/// What the engine does all day.
///
/// # Errors
/// A car or a leg that cannot be driven, at the input to mend; of the usual day, at the part `day`.
pub(in crate::study) fn course(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Course, Problems> {
    let inputs = &context.project.day;
    let car = car(context)?;
    let usual = inputs.legs.is_empty();
    let legs = if usual { usual::legs(context, &car)? } else { inputs.legs.clone() };
    let driven: Vec<_> = legs.iter().map(legs::leg).collect();
    let stretches = day::stretches(&driven, &car, context.ambient, inputs.time_step, scribe)
        .map_err(|error| problem(error, &legs, usual))?;
    Ok((answers(&legs, &stretches), stretches))
}

/// As [`course`], of a project alone.
pub(in crate::study) fn course_of(project: &Project) -> Result<Course, Problems> {
    course(&Context::new(project, &mut Silent)?, &mut Silent)
}

/// The legs of the usual day of a project.
pub(in crate::study) fn usual_day(project: &Project) -> Result<Vec<LegInputs>, Problems> {
    let context = Context::new(project, &mut Silent)?;
    usual::legs(&context, &car(&context)?)
}

/// Names, times and distances of the legs.
fn answers(legs: &[LegInputs], stretches: &[Stretch]) -> Vec<LegAnswer> {
    let mut begins = 0.0;
    let answer = |(index, leg): (usize, &LegInputs)| {
        let (mut lasts, mut distance) = (0.0, 0.0);
        for stretch in stretches.iter().filter(|stretch| stretch.leg == index) {
            lasts += stretch.lasts.base();
            distance += stretch.lasts.base() * stretch.road_speed.base();
        }
        let from = begins;
        begins += lasts;
        LegAnswer {
            name: legs::name(leg),
            begins: Time::from_base(from),
            ends: Time::from_base(begins),
            distance: Length::from_base(distance),
        }
    };
    legs.iter().enumerate().map(answer).collect()
}

/// An error of the day at the input it comes from.
fn problem(error: DayError, legs: &[LegInputs], usual: bool) -> Problems {
    match error {
        DayError::Car(fault) => super::problem(car::path(fault.input()), fault.to_string()),
        DayError::Leg { leg, input, fault } => match legs.get(leg) {
            Some(inputs) if !usual => {
                super::problem(format!("day.leg[{}].{}", leg + 1, key(input, inputs.kind)), fault.to_string())
            }
            inputs => {
                let name = inputs.map(legs::name).unwrap_or_default();
                super::problem("day", format!("the usual day: {}: {fault}", name.show(UnitSystem::Si)))
            }
        },
        other => super::problem("day", other.to_string()),
    }
}

/// The key of a leg's figure in a file.
const fn key(input: LegInput, kind: LegKind) -> &'static str {
    match input {
        LegInput::Air => "air",
        LegInput::Lasts => match kind {
            // A trace says itself how long it is.
            LegKind::Trace => "repeats",
            _ => "lasts",
        },
        LegInput::Distance => "distance",
        LegInput::Speed => "speed",
        LegInput::Grade => "grade",
        LegInput::Gear => "gear",
        LegInput::Height => "height",
        LegInput::Standing => "standing",
        LegInput::Acceleration => "acceleration",
        LegInput::Trace => "trace",
        LegInput::Repeats => "repeats",
        LegInput::FallsTo => "falls_to",
    }
}
