//! The answers shown: the newest there are, and whether they still fit the project.

use super::followed::Day;
use super::worker::{Finding, Maps, Report, Want, Worker};
use crate::scribe::Chapter;
use crate::study::{Answers, Curves, HeatCurves, Problems, Project, Variant};

/// Older answers are greyed only after this long, so that quick ones do not make the window flicker.
pub(crate) const GREY_AFTER: f64 = 0.15;

/// What is known for the project as it stands, or stood.
pub(crate) struct Answering {
    worker: Worker,
    /// The version last asked for.
    pub(super) asked: u64,
    asked_at: f64,
    /// The version the answers or the problems belong to.
    answered: u64,
    pub(crate) answers: Option<Box<Answers>>,
    pub(crate) curves: Option<Curves>,
    curves_of: u64,
    /// Why there are no answers for the project as it stands.
    pub(crate) problems: Option<Problems>,
    working: Option<Result<Vec<Chapter>, Problems>>,
    working_of: u64,
    working_asked: u64,
    maps: Option<Result<Box<Maps>, Problems>>,
    /// The version and the ventilation the maps were asked for and belong to, and how often any have come.
    maps_asked: Option<(u64, Variant)>,
    maps_of: Option<(u64, Variant)>,
    maps_come: u64,
    heat: Option<Result<Box<HeatCurves>, Problems>>,
    /// The version the heat curves were asked for and belong to, and how often any have come.
    heat_asked: Option<u64>,
    heat_of: Option<u64>,
    heat_come: u64,
    pub(crate) day: Day,
}

impl Answering {
    pub(crate) fn new(worker: Worker) -> Self {
        Self {
            worker,
            asked: 0,
            asked_at: 0.0,
            answered: 0,
            answers: None,
            curves: None,
            curves_of: 0,
            problems: None,
            working: None,
            working_of: 0,
            working_asked: 0,
            maps: None,
            maps_asked: None,
            maps_of: None,
            maps_come: 0,
            day: Day::default(),
            heat: None,
            heat_asked: None,
            heat_of: None,
            heat_come: 0,
        }
    }

    /// Asks for what the project's version has not been asked for yet, and takes in what came.
    pub(crate) fn keep_up(&mut self, version: u64, project: &Project, now: f64) {
        if version != self.asked {
            if self.answered == self.asked {
                self.asked_at = now;
            }
            self.asked = version;
            self.worker.ask(version, project, Want::Answers);
        }
        while let Some(report) = self.worker.poll() {
            self.take(report, now);
        }
    }

    /// Asks for something of the project's version, and takes in what is there at once.
    pub(super) fn ask(&mut self, project: &Project, want: Want, now: f64) {
        self.worker.ask(self.asked, project, want);
        while let Some(report) = self.worker.poll() {
            self.take(report, now);
        }
    }

    fn take(&mut self, Report { version, finding }: Report, now: f64) {
        match finding {
            Finding::Answers(Ok(answers)) => {
                self.answers = Some(answers);
                self.problems = None;
                self.answered = version;
                self.asked_at = now;
            }
            Finding::Answers(Err(problems)) => {
                self.problems = Some(problems);
                self.answered = version;
                self.asked_at = now;
            }
            Finding::Curves(curves) => {
                self.curves = curves.ok();
                self.curves_of = version;
            }
            Finding::Working(working) => {
                self.working = Some(working);
                self.working_of = version;
            }
            Finding::Map(variant, maps) => {
                self.maps = Some(maps);
                self.maps_of = Some((version, variant));
                self.maps_come += 1;
            }
            Finding::Day(followed) => self.day.take(version, followed, now),
            Finding::DayWorking(working) => self.day.take_working(version, working),
            Finding::Heat(curves) => {
                self.heat = Some(curves);
                self.heat_of = Some(version);
                self.heat_come += 1;
            }
        }
        self.put_verdicts_together();
    }

    /// Forgets the answers of a project that is no longer open.
    pub(crate) fn forget(&mut self) {
        self.answers = None;
        self.curves = None;
        self.problems = None;
        self.working = None;
        self.maps = None;
        self.maps_of = None;
        self.day.forget();
        self.heat = None;
        self.heat_of = None;
    }

    /// Whether newer answers are still on their way.
    pub(crate) const fn waits(&self) -> bool {
        self.answered != self.asked
    }

    /// Whether the answers are not those of the project as it stands: newer ones are late, or cannot be given.
    pub(crate) fn is_stale(&self, now: f64) -> bool {
        (self.waits() && now - self.asked_at >= GREY_AFTER) || self.problems.is_some()
    }

    /// Whether everything has come that will.
    pub(crate) fn is_complete(&self) -> bool {
        let maps = self.maps_asked.as_ref().is_none_or(|(version, _)| *version != self.asked)
            || self.maps_of == self.maps_asked;
        let heat = self.heat_asked != Some(self.asked) || self.heat_of == self.heat_asked;
        let asides = maps && heat && !self.waits_for_day();
        !self.waits() && (self.problems.is_some() || (self.curves_of == self.asked && asides))
    }

    /// The maps of the answers shown, beside that of another ventilation; asked for when somebody looks. `None` while
    /// they are on their way. The number changes with every map that comes.
    pub(crate) fn maps(
        &mut self,
        project: &Project,
        other: &Variant,
        now: f64,
    ) -> Option<(u64, &Result<Box<Maps>, Problems>)> {
        let wanted = Some((self.asked, other.clone()));
        if self.maps_of != wanted {
            if self.maps_asked != wanted {
                self.worker.ask(self.asked, project, Want::Map(other.clone()));
                self.maps_asked = wanted.clone();
                while let Some(report) = self.worker.poll() {
                    self.take(report, now);
                }
            }
            if self.maps_of != wanted {
                return None;
            }
        }
        self.maps.as_ref().map(|maps| (self.maps_come, maps))
    }

    /// The heat curves of the answers shown; asked for when somebody looks. `None` while they are on their way. The number
    /// changes with every set of curves that comes.
    pub(crate) fn heat(&mut self, project: &Project, now: f64) -> Option<(u64, &Result<Box<HeatCurves>, Problems>)> {
        let wanted = Some(self.asked);
        if self.heat_of != wanted {
            if self.heat_asked != wanted {
                self.heat_asked = wanted;
                self.worker.ask(self.asked, project, Want::Heat);
                while let Some(report) = self.worker.poll() {
                    self.take(report, now);
                }
            }
            if self.heat_of != wanted {
                return None;
            }
        }
        self.heat.as_ref().map(|heat| (self.heat_come, heat))
    }

    /// The working of the answers shown; asked for when somebody first looks. `None` while it is on its way.
    pub(crate) fn working(&mut self, project: &Project, now: f64) -> Option<&Result<Vec<Chapter>, Problems>> {
        if self.working_of != self.asked {
            if self.working_asked != self.asked {
                self.working_asked = self.asked;
                self.worker.ask(self.asked, project, Want::Working);
                while let Some(report) = self.worker.poll() {
                    self.take(report, now);
                }
            }
            if self.working_of != self.asked {
                return None;
            }
        }
        self.working.as_ref()
    }
}
