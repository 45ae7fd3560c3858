//! Answers computed aside: snapshots of the project go in, answers and curves come out, and only the newest counts.

use crate::scribe::Chapter;
use crate::study::{self, Answers, Curves, DayAnswers, HeatCurves, Map, Problem, Problems, Project, Variant};
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// What is wanted of a project.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Want {
    /// Answers, then curves.
    Answers,
    /// The working of every answer.
    Working,
    /// The operating map, and that of another ventilation beside it.
    Map(Variant),
    /// The day through time.
    Day,
    /// The working of the day.
    DayWorking,
    /// The curves of the heat balance.
    Heat,
}

/// What came out, and for which version of the project.
pub(crate) struct Report {
    pub(crate) version: u64,
    pub(crate) finding: Finding,
}

pub(crate) enum Finding {
    Answers(Result<Box<Answers>, Problems>),
    Curves(Result<Curves, Problems>),
    Working(Result<Vec<Chapter>, Problems>),
    Map(Variant, Result<Box<Maps>, Problems>),
    Day(Result<Box<DayAnswers>, Problems>),
    DayWorking(Result<Vec<Chapter>, Problems>),
    Heat(Result<Box<HeatCurves>, Problems>),
}

/// The map of the project as it is, and another over the same grid if one was wanted; or why that one cannot be had.
pub(crate) struct Maps {
    pub(crate) present: Map,
    pub(crate) other: Option<Result<Map, Problems>>,
}

/// Speeds and manifold pressures of a map.
const MAP_STEPS: (usize, usize) = (60, 40);

struct Job {
    version: u64,
    project: Project,
    want: Want,
}

/// The newest job of each want; an older one that nobody began is dropped.
#[derive(Default)]
struct Waiting {
    answers: Option<Job>,
    working: Option<Job>,
    map: Option<Job>,
    day: Option<Job>,
    day_working: Option<Job>,
    heat: Option<Job>,
    leave: bool,
}

#[derive(Default)]
pub(crate) struct Desk {
    waiting: Mutex<Waiting>,
    called: Condvar,
}

impl Desk {
    fn lock(&self) -> MutexGuard<'_, Waiting> {
        // A panic elsewhere leaves plain data behind, which is still good.
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Who computes.
pub(crate) enum Worker {
    /// A thread of its own; the window never waits for it.
    Aside { desk: Arc<Desk>, reports: Receiver<Report> },
    /// In the call itself, so that a test needs no waiting.
    AtOnce(VecDeque<Report>),
}

impl Worker {
    /// A thread that calls `wake` whenever something came out.
    pub(crate) fn aside(wake: impl Fn() + Send + 'static) -> Self {
        let desk = Arc::new(Desk::default());
        let (sender, reports) = channel();
        let at_work = Arc::clone(&desk);
        let begun =
            std::thread::Builder::new().name("answers".to_owned()).spawn(move || work(&at_work, &sender, &wake));
        if begun.is_err() {
            // No thread to be had: slower, but the answers are the same.
            return Self::AtOnce(VecDeque::new());
        }
        Self::Aside { desk, reports }
    }

    pub(crate) fn at_once() -> Self {
        Self::AtOnce(VecDeque::new())
    }

    pub(crate) fn ask(&mut self, version: u64, project: &Project, want: Want) {
        let job = Job { version, project: project.clone(), want };
        match self {
            Self::Aside { desk, .. } => {
                let mut waiting = desk.lock();
                match &job.want {
                    Want::Answers => {
                        // All that of a project that has changed is nobody's wish; whoever looks asks anew.
                        (waiting.map, waiting.heat) = (None, None);
                        (waiting.day, waiting.day_working) = (None, None);
                        waiting.answers = Some(job);
                    }
                    Want::Working => waiting.working = Some(job),
                    Want::Map(_) => waiting.map = Some(job),
                    Want::Day => waiting.day = Some(job),
                    Want::DayWorking => waiting.day_working = Some(job),
                    Want::Heat => waiting.heat = Some(job),
                }
                desk.called.notify_one();
            }
            Self::AtOnce(reports) => {
                carry_out(
                    &job,
                    || false,
                    |report| {
                        reports.push_back(report);
                        true
                    },
                );
            }
        }
    }

    /// The next report, if one is in.
    pub(crate) fn poll(&mut self) -> Option<Report> {
        match self {
            Self::Aside { reports, .. } => reports.try_recv().ok(),
            Self::AtOnce(reports) => reports.pop_front(),
        }
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        if let Self::Aside { desk, .. } = self {
            desk.lock().leave = true;
            desk.called.notify_one();
        }
    }
}

fn work(desk: &Desk, reports: &Sender<Report>, wake: &impl Fn()) {
    loop {
        let job = {
            let mut waiting = desk.lock();
            loop {
                if waiting.leave {
                    return;
                }
                let Waiting { answers, heat, map, day, working, day_working, .. } = &mut *waiting;
                if let Some(job) = [answers, heat, map, day, working, day_working].into_iter().find_map(Option::take) {
                    break job;
                }
                waiting = desk.called.wait(waiting).unwrap_or_else(PoisonError::into_inner);
            }
        };
        let overtaken = || {
            let waiting = desk.lock();
            waiting.leave || waiting.answers.is_some()
        };
        let reached = carry_out(&job, overtaken, |report| {
            let sent = reports.send(report).is_ok();
            wake();
            sent
        });
        if !reached {
            return;
        }
    }
}

/// Answers whether somebody still listens.
fn carry_out(job: &Job, overtaken: impl Fn() -> bool + Sync, mut tell: impl FnMut(Report) -> bool) -> bool {
    let mut tell = |finding| tell(Report { version: job.version, finding });
    match &job.want {
        Want::Map(variant) => {
            let present = guarded(|| {
                let grid = study::map_grid(&job.project, MAP_STEPS.0, MAP_STEPS.1)?;
                Ok((grid, study::map(&job.project, &grid, &Variant::Present)?))
            });
            let wanted = *variant != Variant::Present && !overtaken();
            let maps = present.map(|(grid, present)| {
                let other = wanted.then(|| guarded(|| study::map(&job.project, &grid, variant)));
                Box::new(Maps { present, other })
            });
            tell(Finding::Map(variant.clone(), maps))
        }
        Want::Day => {
            let followed = guarded(|| {
                let answers = study::answer(&job.project)?;
                study::day_with(&job.project, &answers, &overtaken)
            });
            match followed {
                Ok(Some(day)) => tell(Finding::Day(Ok(Box::new(day)))),
                // Given up on the way: nobody's wish any more.
                Ok(None) => true,
                Err(problems) => tell(Finding::Day(Err(problems))),
            }
        }
        Want::DayWorking => {
            let working = guarded(|| study::day_with_working(&job.project)).map(|day| day.working);
            tell(Finding::DayWorking(working))
        }
        Want::Heat => tell(Finding::Heat(guarded(|| study::heat_curves(&job.project)).map(Box::new))),
        Want::Working => {
            let working = guarded(|| study::answer_with_working(&job.project)).map(|answers| answers.working);
            tell(Finding::Working(working))
        }
        Want::Answers => {
            let heard = tell(Finding::Answers(guarded(|| study::answer(&job.project)).map(Box::new)));
            // Curves of a project that has changed again meanwhile are nobody's wish.
            heard && (overtaken() || tell(Finding::Curves(guarded(|| study::curves(&job.project)))))
        }
    }
}

/// A fault of the program itself is told like any other and costs no work.
fn guarded<T>(compute: impl FnOnce() -> Result<T, Problems>) -> Result<T, Problems> {
    catch_unwind(AssertUnwindSafe(compute)).unwrap_or_else(|_| {
        let message = "the program failed on these inputs; that is its own fault. Save the project and report it";
        Err(Problems(vec![Problem { path: String::new(), message: message.to_owned() }]))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, Instant};

    fn collect(worker: &mut Worker, until: u64) -> Vec<u64> {
        let begun = Instant::now();
        let mut versions = Vec::new();
        while versions.last() != Some(&until) && begun.elapsed() < Duration::from_secs(60) {
            match worker.poll() {
                Some(Report { version, finding: Finding::Answers(_) }) => versions.push(version),
                Some(_) => {}
                None => std::thread::sleep(Duration::from_millis(1)),
            }
        }
        versions
    }

    #[test]
    fn the_newest_request_is_always_answered_and_order_is_kept() {
        let mut worker = Worker::aside(|| {});
        assert!(matches!(worker, Worker::Aside { .. }));
        for version in 1..=50 {
            worker.ask(version, &Project::blank(), Want::Answers);
        }
        let versions = collect(&mut worker, 50);
        assert_eq!(versions.last(), Some(&50));
        assert!(versions.windows(2).all(|pair| pair[0] < pair[1]), "{versions:?}");
    }

    #[test]
    fn a_fault_of_the_program_is_told_and_costs_nothing() {
        let told = guarded::<()>(|| panic!("a fault put in by this test"));
        assert_eq!(told.unwrap_err().0.len(), 1);
    }
}
