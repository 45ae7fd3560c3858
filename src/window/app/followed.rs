//! The day as it was followed: asked for when somebody looks, and its verdicts beside the steady ones.

use super::answering::{Answering, GREY_AFTER};
use super::worker::Want;
use crate::scribe::Chapter;
use crate::study::{DayAnswers, Problems, Project, Verdict};

/// The day shown, and what it was asked for.
#[derive(Default)]
pub(crate) struct Day {
    pub(crate) answers: Option<Box<DayAnswers>>,
    /// Why the project as it stands has none.
    pub(crate) problems: Option<Problems>,
    /// The verdicts of the answers, those of the day in their place.
    pub(crate) verdicts: Vec<Verdict>,
    /// How often any has come.
    pub(crate) come: u64,
    asked: u64,
    asked_at: f64,
    of: u64,
    working: Option<Result<Vec<Chapter>, Problems>>,
    working_of: u64,
    working_asked: u64,
}

impl Day {
    /// A day that came, or why there is none. One from before stays to be seen until a new one comes.
    pub(super) fn take(&mut self, version: u64, followed: Result<Box<DayAnswers>, Problems>, now: f64) {
        self.of = version;
        self.asked_at = now;
        match followed {
            Ok(day) => {
                self.answers = Some(day);
                self.problems = None;
                self.come += 1;
            }
            Err(problems) => self.problems = Some(problems),
        }
    }

    pub(super) fn take_working(&mut self, version: u64, working: Result<Vec<Chapter>, Problems>) {
        self.working = Some(working);
        self.working_of = version;
    }

    /// Forgets the day of a project that is no longer open.
    pub(super) fn forget(&mut self) {
        *self = Self { come: self.come, ..Self::default() };
    }
}

impl Answering {
    /// The day's verdicts in the place of the steady ones they replace; what only the day judges comes after them.
    pub(super) fn put_verdicts_together(&mut self) {
        let steady = self.answers.as_deref().map_or(&[][..], |answers| &answers.verdicts);
        let daily = self.day.answers.as_deref().map_or(&[][..], |day| &day.verdicts);
        let of_day = |key: &str| daily.iter().find(|verdict| verdict.key == key);
        let put = steady.iter().map(|verdict| of_day(verdict.key).unwrap_or(verdict));
        let new = daily.iter().filter(|verdict| steady.iter().all(|other| other.key != verdict.key));
        self.day.verdicts = put.chain(new).cloned().collect();
    }

    /// Asks for the day of the project's version, when somebody looks at it.
    pub(crate) fn follow_day(&mut self, project: &Project, now: f64) {
        if self.day.asked == self.asked {
            return;
        }
        if self.day.of == self.day.asked {
            self.day.asked_at = now;
        }
        self.day.asked = self.asked;
        self.ask(project, Want::Day, now);
    }

    /// The working of the day; asked for when somebody first looks. `None` while it is on its way.
    pub(crate) fn day_working(&mut self, project: &Project, now: f64) -> Option<&Result<Vec<Chapter>, Problems>> {
        if self.day.working_of != self.asked && self.day.working_asked != self.asked {
            self.day.working_asked = self.asked;
            self.ask(project, Want::DayWorking, now);
        }
        self.day.working.as_ref().filter(|_| self.day.working_of == self.asked)
    }

    /// The verdicts to be shown: with the day in sight, its own in place of those they replace.
    pub(crate) fn verdicts(&self, through_day: bool) -> Option<&[Verdict]> {
        let answers = self.answers.as_deref()?;
        let daily = through_day && self.day.answers.is_some();
        Some(if daily { &self.day.verdicts } else { &answers.verdicts })
    }

    /// Which of the day and the steady answer a verdict goes by, in words that fit beside its title; `None` where only one of them judges.
    pub(crate) fn ruled(&self, verdict: &Verdict) -> Option<&'static str> {
        let steady = self.answers.as_deref()?.verdict(verdict.key)?;
        let both = steady.reason != verdict.reason;
        let by_day = steady.margin != verdict.margin || steady.state != verdict.state;
        both.then_some(if by_day { "by the day" } else { "by steady answer" })
    }

    /// Whether a day is on its way.
    pub(crate) const fn waits_for_day(&self) -> bool {
        self.day.asked == self.asked && self.day.of != self.asked
    }

    /// Whether the day shown is not that of the project as it stands.
    pub(crate) fn is_day_stale(&self, now: f64) -> bool {
        self.problems.is_some()
            || self.day.problems.is_some()
            || (self.day.of != self.asked && now - self.day.asked_at >= GREY_AFTER)
    }
}
