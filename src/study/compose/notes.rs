//! Remarks of the crankcase side: those of a duty with the duty's name, and what the arrangement itself calls for.

use super::context::Context;
use crate::crankcase::arrangement::{CAUTIONS, PORT_CHECKS, SYMPTOMS};
use crate::note::{Note, Weight};
use crate::quantity::Measured;
use crate::study::{
    BlowByAnswers, Duty, DutyAnswers, PortPlace, State, VentilationArrangement as Arrangement, VentilationInputs,
};

/// Remarks that depend on the duty: of each the weightiest text, and at which duties it holds.
#[derive(Default)]
pub(super) struct DutyNotes(Vec<Kept>);

struct Kept {
    note: Note,
    size: f64,
    /// The duty of the text first.
    duties: Vec<Duty>,
}

impl DutyNotes {
    /// Adds the remarks of a duty; of two of a kind the text of the larger leak is kept.
    pub fn add(&mut self, duty: Duty, blow_by: &BlowByAnswers, notes: impl IntoIterator<Item = Note>) {
        for note in notes {
            // What is said as a share is largest where the share is.
            let size = match note.key {
                "leak-not-fed-back" => blow_by.share_of_air.base(),
                _ => blow_by.forward.likely.base(),
            };
            match self.0.iter_mut().find(|kept| kept.note.key == note.key) {
                None => self.0.push(Kept { note, size, duties: vec![duty] }),
                Some(kept) if kept.duties.contains(&duty) => {}
                Some(kept) if size > kept.size => {
                    kept.duties.insert(0, duty);
                    (kept.note, kept.size) = (note, size);
                }
                Some(kept) => kept.duties.push(duty),
            }
        }
    }

    /// The remarks with the names of their duties.
    pub fn named(self) -> Vec<Note> {
        let name = |Kept { mut note, duties, .. }: Kept| {
            let names = if duties.len() == Duty::ALL.len() {
                "Every duty".to_owned()
            } else {
                duties.iter().map(|duty| duty.name()).collect::<Vec<_>>().join(", ")
            };
            note.text = format!("{names}: {}", small_first(&note.text));
            note
        };
        self.0.into_iter().map(name).collect()
    }
}

/// A sentence that goes on behind a colon: an abbreviation keeps its capitals.
pub(super) fn small_first(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if !second.is_uppercase() => first.to_lowercase().chain(letters).collect(),
        _ => text.to_owned(),
    }
}

/// What can hurt or is unlawful with this arrangement, what to look at, and what its faults are likely to come from.
pub(super) fn of_arrangement(context: &Context<'_>, duties: &[DutyAnswers; 5]) -> Vec<Note> {
    let inputs = &context.project.ventilation;
    let mut notes = Vec::new();
    let out = |duty: &DutyAnswers| duty.high().breathes_out();
    let closed = inputs.arrangement == Arrangement::ClosedWithFreshAirLine;
    let open_breather = inputs.has_breather() && !closed;
    let diesel = context.project.engine.is_diesel();
    let weakly_known = |duty: &DutyAnswers| {
        let blow_by = duty.blow_by.forward;
        blow_by.high.base() >= 1.8 * blow_by.likely.base()
    };
    for caution in &CAUTIONS {
        let weight = match caution.key {
            "law" if !closed => Weight::Remark,
            "hot-oil" if open_breather && duties.iter().any(out) => Weight::Danger,
            // A diesel's charge is air, and nothing flashes back: oil mist is what burns.
            "flame" if !diesel && (inputs.has_valve() || open_breather) => Weight::Danger,
            "oil-mist" if diesel && open_breather => Weight::Danger,
            "running-engine" => Weight::Danger,
            "never-plug" if !inputs.has_breather() => Weight::Danger,
            "estimate" if duties.iter().any(weakly_known) => Weight::Weak,
            _ => continue,
        };
        notes.push(Note::new(caution.key, weight, caution.text));
    }
    if inputs.has_valve() {
        let told = PORT_CHECKS.iter().filter(|check| concerns(context, check.key));
        notes.extend(told.map(|check| Note::new(check.key, Weight::Remark, check.text)));
    }
    notes.extend(runs_away(context));
    notes.extend(pumping(context));
    notes.extend(stop(duties));
    notes.extend(symptoms(inputs, duties));
    notes
}

/// Whether a rule for ports says something of this one that is not told as a finding.
fn concerns(context: &Context<'_>, key: &str) -> bool {
    let (port, engine) = (&context.project.ventilation.valve.port, &context.project.engine);
    let behind = port.place != PortPlace::BeforeThrottle;
    match key {
        "port-bore" => port.bore.is_none(),
        "port-plenum" => port.place == PortPlace::Plenum && engine.cylinders > 1 && !engine.is_diesel(),
        // Told with the duties that have boost.
        "port-boost" => false,
        "port-brake" => port.place != PortPlace::BoosterTee && behind && !engine.is_diesel(),
        _ => true,
    }
}

/// Oil is fuel to a diesel.
fn runs_away(context: &Context<'_>) -> Option<Note> {
    context.project.engine.is_diesel().then(|| {
        Note::new(
            "diesel-runs-away",
            Weight::Danger,
            "Oil that reaches the intake of a diesel is fuel to it, and shutting off its own does not stop it: it can race until \
             it breaks. Nothing that leads to the intake may fill with oil: a separator that drains, a regulator against deep \
             depressions, can and lines drained in time, the sump not overfilled. Have a way to shut its air off; never use a \
             hand, and stand clear.",
        )
    })
}

/// With one or two cylinders the mean says little.
fn pumping(context: &Context<'_>) -> Option<Note> {
    (context.project.engine.cylinders <= 2).then(|| {
        Note::new(
            "bay-pumping",
            Weight::Danger,
            "With one or two cylinders the pistons pump the crankcase volume out and in at every turn: the pressure swings \
             far to both sides of the mean, which is all that is reckoned here. Lines must pass the swing, or the breather \
             needs a check valve; measure with a damped and an undamped gauge.",
        )
    })
}

/// Above the stop limit nothing is to be tried out on the road.
fn stop(duties: &[DutyAnswers; 5]) -> Option<Note> {
    let over: Vec<_> = duties.iter().filter(|duty| duty.stops()).map(|duty| duty.duty.name()).collect();
    (!over.is_empty()).then(|| {
        let text = format!(
            "Stop at this pressure ({}, high blow-by): seals and covers let go and throw hot oil, and the dipstick may \
             jump out. Do not run it so until it is mended.",
            over.join(", ")
        );
        Note::new("stop-limit", Weight::Danger, text)
    })
}

/// What will be seen on the car, and what to do; only where the answers foresee it.
fn symptoms(inputs: &VentilationInputs, duties: &[DutyAnswers; 5]) -> Vec<Note> {
    let fails = |duty: &DutyAnswers| duty.pressure_state() == State::DoesNotHold;
    let failing = duties.iter().filter(|duty| fails(duty)).count();
    let at_full_only = failing == 1 && fails(&duties[Duty::FullThrottle.index()]);
    let closed = inputs.arrangement == Arrangement::ClosedWithFreshAirLine;
    let seen = |key: &str| match key {
        "symptom-full-throttle" => at_full_only,
        "symptom-every-duty" => failing == duties.len(),
        "symptom-deep" => duties.iter().any(|duty| duty.depression_state() == State::DoesNotHold),
        "symptom-air-cleaner" => closed && duties.iter().any(|duty| duty.high().breathes_out()),
        // Without fresh air the moisture stays.
        "symptom-milky" => !duties.iter().any(|duty| duty.likely().flows.iter().any(|flow| flow.out.base() < 0.0)),
        "symptom-smoke" => duties[Duty::Overrun.index()].blow_by.net.likely.base() < 0.0,
        _ => false,
    };
    let found = SYMPTOMS.iter().filter(|symptom| seen(symptom.key));
    found
        .map(|symptom| {
            let text = format!("If you see this: {} {} {}", symptom.seen, symptom.likely, symptom.act);
            Note::new(symptom.key, Weight::Remark, text)
        })
        .collect()
}

/// Each remark once, the weightiest first.
pub(super) fn each_once(notes: Vec<Note>) -> Vec<Note> {
    let mut kept: Vec<Note> = Vec::with_capacity(notes.len());
    for mut note in notes {
        let mut letters = note.text.chars();
        if let Some(first) = letters.next() {
            note.text = first.to_uppercase().chain(letters).collect();
        }
        match kept.iter_mut().find(|other| other.key == note.key) {
            None => kept.push(note),
            Some(other) if note.weight > other.weight => *other = note,
            Some(_) => {}
        }
    }
    kept.sort_by_key(|note| std::cmp::Reverse(note.weight));
    kept
}
