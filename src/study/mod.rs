//! The study: a project in, answers out. Pure: no clock, no files, no window.
//!
//! A [`Project`] is all a builder knows of one car. It shows its inputs to a [`Visitor`], one walk for reading, writing,
//! checking and drawing them; what is left out is taken from [`defaults`] and said. [`answer`] puts coolant, heat and
//! crankcase together into [`Answers`] with their [`Verdict`]s; [`answer_with_working`] adds every equation on the way,
//! [`curves`] what the plots show, [`map`] the crankcase over engine speed and load.

mod answers;
mod check;
mod compose;
pub mod defaults;
mod project;
mod telling;
mod verdict;
mod visit;

pub use crate::crankcase::cylinder::Duty;
pub use crate::crankcase::mixture::PortPlace;
pub use answers::{
    Answers, Band, BenchRow, BlowByAnswers, CanAnswer, CanDrainAnswer, CoolantAnswers, CrankcaseCase, CrankcaseSample,
    Curves, DayAnswers, Doubt, DrainAnswer, DutyAnswers, DutyHeatCurves, DutyMoisture, DutyOil, ElementAnswer, Excess,
    Fails, Failure, FailureAnswers, FailureDuty, Flow, FlowPath, Growth, GrowthPoint, HeatBorder, HeatColumn,
    HeatCurves, HeatDriven, HeatLevel, HeatLine, HeatMap, HeatMark, HeatPoint, HeatRoad, HeatRule, HeatStretch,
    HeaterAnswer, Held, IdleMixtureAnswers, JointAnswers, JointChange, JointLoad, JointPlan, Knowledge, LASTING,
    LeakDownFigure, LegAnswer, LevelAnswer, LineAnswers, LoadPoint, Map, MapCase, MapCaseKind, MapCell, MapComparison,
    MapGrid, MapLimit, MapLine, MapMark, MapState, Means, MoistureAnswers, Moment, Narrow, OilAnswer, OilAnswers,
    OilFilm, OilOut, RadiatorAnswers, RegionAnswer, Rest, SagAnswer, SetPointAnswers, SetPointCurve, SetPointDuty,
    SetPointMoisture, Span, SpeedPoint, Stands, Taken, TankAnswers, Thermal, Unsolved, ValveAnswers, ValvePoint,
    Variant, VentAnswers, chapter_json, taken_json, verdict_json,
};
pub use answers::{COLUMNS as DAY_COLUMNS, Column as DayColumn, clock};
pub use check::{Problem, Problems};
pub use project::*;
pub use telling::{Lacking, Row, Say, Section, Sentence, Value, to_json};
pub use verdict::{Part, State, Verdict};
pub use visit::{Choice, Count, Field, Label, Visitor};

/// All answers of a project.
///
/// # Errors
/// Every fault of the project's inputs, or the reason why an answer cannot be given.
pub fn answer(project: &Project) -> Result<Answers, Problems> {
    project.check()?;
    compose::answer(project, &mut crate::scribe::Silent)
}

/// All answers with their working.
///
/// # Errors
/// As [`answer`].
pub fn answer_with_working(project: &Project) -> Result<Answers, Problems> {
    project.check()?;
    let mut scribe = crate::scribe::Writing::default();
    let mut answers = compose::answer(project, &mut scribe)?;
    answers.working = scribe.chapters.into_iter().filter(|chapter| !chapter.steps.is_empty()).collect();
    Ok(answers)
}

/// The curves of the plots.
///
/// # Errors
/// As [`answer`].
pub fn curves(project: &Project) -> Result<Curves, Problems> {
    project.check()?;
    compose::curves(project)
}

/// The curves of the heat balance: the coolant against the air for every thermostat, the radiator against the heat, and who
/// rules over road speed and air. No part of [`answer`], with which it agrees at every duty point on the hottest day.
///
/// # Errors
/// As [`answer`].
pub fn heat_curves(project: &Project) -> Result<HeatCurves, Problems> {
    project.check()?;
    compose::heat_curves(project)
}

/// The project's day through time, with the steady answers worked out for it.
///
/// # Errors
/// As [`answer`], and the leg of a day that cannot be driven or followed.
pub fn day(project: &Project) -> Result<DayAnswers, Problems> {
    let answers = answer(project)?;
    let never = || false;
    day_with(project, &answers, &never)?.ok_or_else(given_up)
}

/// The project's day through time beside its steady answers; `cancel` is asked again and again and gives it up when it
/// says so, and there is none then.
///
/// # Errors
/// As [`day`].
pub fn day_with(
    project: &Project,
    answers: &Answers,
    cancel: &(dyn Fn() -> bool + Sync),
) -> Result<Option<DayAnswers>, Problems> {
    project.check()?;
    compose::day(project, answers, cancel, &mut crate::scribe::Silent)
}

/// As [`day`], with the working of the likely run and of what the road asks for.
///
/// # Errors
/// As [`day`].
pub fn day_with_working(project: &Project) -> Result<DayAnswers, Problems> {
    let answers = answer(project)?;
    let mut scribe = crate::scribe::Writing::default();
    let never = || false;
    let day = compose::day(project, &answers, &never, &mut scribe)?;
    let mut day = day.ok_or_else(given_up)?;
    day.working = scribe.chapters.into_iter().filter(|chapter| !chapter.steps.is_empty()).collect();
    Ok(day)
}

fn given_up() -> Problems {
    Problems(vec![Problem { path: "day".to_owned(), message: "the day was given up before its end".to_owned() }])
}

/// The grid of a map that a project's duties span: from the slowest duty to a tenth above full throttle, from the least
/// manifold pressure of any duty to the greatest.
///
/// # Errors
/// As [`answer`].
pub fn map_grid(project: &Project, columns: usize, rows: usize) -> Result<MapGrid, Problems> {
    project.check()?;
    compose::usual_grid(project, columns, rows)
}

/// The crankcase over engine speed and manifold pressure. At a duty's own speed and manifold pressure it is what
/// [`answer`] gives; between the duties the figures of the burn go over into one another without a step. A place that
/// cannot be solved says so.
///
/// # Errors
/// As [`answer`]; a grid of fewer than 2 or more than 400 steps, or beyond the speeds and manifold pressures known.
pub fn map(project: &Project, grid: &MapGrid, variant: &Variant) -> Result<Map, Problems> {
    project.check()?;
    compose::map(project, grid, variant)
}

/// The map of a project and that of another ventilation, over one grid.
///
/// # Errors
/// As [`map()`], for either.
pub fn compare_maps(project: &Project, grid: &MapGrid, other: &Variant) -> Result<MapComparison, Problems> {
    project.check()?;
    compose::compare_maps(project, grid, other)
}

/// What the engine does all day: the legs with their names and times, and the stretches they make. A project that tells of
/// no leg has the [`usual_day`].
///
/// # Errors
/// As [`answer`]; a car or a leg that cannot be driven, at the input to mend.
pub fn course(project: &Project) -> Result<(Vec<LegAnswer>, Vec<crate::day::Stretch>), Problems> {
    project.check()?;
    compose::course_of(project)
}

/// How long a project's day is, from its first leg to the end of its last.
///
/// # Errors
/// As [`course()`].
pub fn day_lasts(project: &Project) -> Result<crate::quantity::si::Time, Problems> {
    let (legs, _) = course(project)?;
    Ok(legs.last().map_or_else(Default::default, |last| last.ends))
}

/// The legs that a project without legs has: a start on the coldest morning, city and highway; on the hottest day a climb, full
/// throttle, traffic and a hot stop; the night down to the coldest.
///
/// # Errors
/// As [`answer`]; a car that cannot be driven.
pub fn usual_day(project: &Project) -> Result<Vec<LegInputs>, Problems> {
    project.check()?;
    compose::usual_day(project)
}
