//! The rows of the PCV valve: what it passes by itself, its port, the mixture at idle, what if a part fails.

use crate::crankcase::arrangement::defaults;
use crate::crankcase::mixture::{IdleMixture, PortFinding};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::say;
use crate::study::{
    Answers, Duty, Failure, FailureAnswers, FailureDuty, FlowPath, IdleMixtureAnswers, Section, Sentence, Stands,
    State, ValveAnswers, ValveKind,
};

/// Every section of the valve.
pub(super) fn sections(answers: &Answers) -> Vec<Section> {
    let mut sections: Vec<Section> = answers.valve.iter().map(valve).collect();
    sections.extend(answers.idle_mixture.as_ref().map(idle));
    sections.extend(answers.failures.iter().map(|one| failure(answers, one)));
    sections
}

/// The sections of the failures a part can have.
pub(super) fn failures(answers: &Answers, wanted: impl Fn(Failure) -> bool) -> Vec<Section> {
    answers.failures.iter().filter(|one| wanted(one.failure)).map(|one| failure(answers, one)).collect()
}

/// What a shut seat leaks back, m³/s: 0.05 L/min.
pub(super) const SEAT_LEAK: f64 = 0.05e-3 / 60.0;

fn valve(valve: &ValveAnswers) -> Section {
    let diesel = valve.port.iter().any(|one| matches!(one, PortFinding::NoThrottle | PortFinding::CleanSide));
    let mut section = Section::new("pcv_valve", "PCV valve");
    for (duty, passes) in Duty::ALL.into_iter().zip(&valve.passes) {
        let key = format!("passes_{}", duty.word());
        let label = format!("Passes by itself, {}", duty.name());
        if passes.as_ref().is_ok_and(|flow| (-SEAT_LEAK..0.0).contains(&flow.base())) {
            section.words(&key, &label, say!["shut: the manifold stands above the air"]);
            continue;
        }
        section.result(&key, &label, passes, Kind::GasVolumeFlow).explained_by(ValveAnswers::working(duty));
    }
    if let Some((begins, ends)) = valve.moves_between {
        section.amount("begins", "Begins to close at", Amount::of_kind(begins, Kind::PressureDifference));
        section.explained_by("valve");
        section.amount("ends", "Closed to its idle opening at", Amount::of_kind(ends, Kind::PressureDifference));
        section.explained_by("valve");
    }
    section.amount("widest", "Widest opening", Amount::of_kind(valve.widest, Kind::SmallArea)).explained_by("valve");
    for (number, row) in valve.bench.iter().enumerate() {
        let at = Amount::of_kind(row.depression, Kind::PressureDifference);
        let label = format!("Bench point {}", number + 1);
        let words = say![Amount::of(row.flow), " at ", at, " across the valve"];
        section.words(&format!("bench_{}", number + 1), &label, words).explained_by("valve/bench");
    }
    // Only a charge of fuel and air flashes back through the intake.
    if !diesel {
        match valve.backfire_area {
            Some(area) => section.estimate("backfire_area", "Open against a backfire", area, Kind::SmallArea),
            None => section.absent("backfire_area", "Open against a backfire", "C and b say nothing of the way back"),
        };
        section.words("shuts", "Shuts on backfire", say![shuts(valve)]);
    }
    section.words("port", "Its port", port(&valve.port)).explained_by("valve/port");
    section
}

fn shuts(valve: &ValveAnswers) -> &'static str {
    match valve.shuts {
        Some(true) => "yes; it is no certified flame arrester",
        Some(false) => "no: a flame may reach the crankcase",
        None => "not known: blow into its manifold end, nothing may come through",
    }
}

fn port(findings: &[PortFinding]) -> Sentence {
    let mut sentence = Sentence::default();
    for (i, finding) in findings.iter().enumerate() {
        sentence = say![sentence, if i == 0 { "" } else { " " }, finding.note().text];
    }
    sentence
}

fn idle(answers: &Result<IdleMixtureAnswers, String>) -> Section {
    let mut section = Section::new("idle_mixture", "Mixture at idle with the PCV valve");
    let answers = match answers {
        Ok(answers) => answers,
        Err(why) => {
            section.absent("share", "Of the idle gas by the valve", why.as_str());
            return section;
        }
    };
    mixture(&mut section, "", "All cylinders: ", &answers.mixture, "idle-mixture");
    section.quantity("least_air", "The engine takes no less than the valve passes", answers.least_air);
    section.explained_by("idle-mixture");
    section.quantity("least_speed", "Idle speed the valve alone keeps up, throttle quite shut", answers.least_speed);
    section.explained_by("idle-mixture");
    if let Some(own) = &answers.one_cylinder {
        mixture(&mut section, "one_cylinder_", "Cylinder with the port: ", own, "idle-mixture/one-cylinder");
    }
    for note in answers.mixture.notes(UnitSystem::Si).into_iter().filter(|note| note.key == "idle-mixture") {
        section.words("means", "What that means", say![note.text]);
    }
    section
}

fn mixture(section: &mut Section, key: &str, words: &str, mixture: &IdleMixture, chapter: &str) {
    let share = Amount::of_kind(mixture.share, Kind::Share);
    section
        .amount(&format!("{key}share"), &format!("{words}of the idle gas by the valve"), share)
        .explained_by(chapter);
    let label = format!("{words}of it fresh air through the crankcase");
    section.quantity(&format!("{key}fresh_air"), &label, mixture.fresh_air).explained_by(chapter);
    let label = format!("{words}change of the mixture, λ (above zero is leaner)");
    match mixture.change {
        Some(change) => {
            section.amount(&format!("{key}lambda_change"), &label, Amount::of_kind(change, Kind::Share));
            section.explained_by(chapter);
        }
        None => {
            section.absent(&format!("{key}lambda_change"), &label, "the valve passes more than is taken");
        }
    }
}

fn failure(answers: &Answers, failure: &FailureAnswers) -> Section {
    let title = format!("What if: {}", failure.failure.name());
    let mut section = Section::new(format!("failure_{}", failure.failure.word()), title);
    for at in &failure.duties {
        let (word, chapter) = (at.duty.word(), failure.failure.working(at.duty));
        let label = format!("{}: {}", at.duty.name(), where_feared(failure.failure, at.boosted));
        match (at.case(), &at.stands) {
            (Some(case), _) if case.beyond_seals() => {
                let way = if case.gauge.above_ambient().value > 0.0 { "pressure" } else { "depression" };
                section.absent(word, &label, format!("{way} far beyond what seals hold"))
            }
            (Some(case), _) => section.amount(word, &label, Amount::of_kind(case.gauge, Kind::CrankcasePressure)),
            (None, Stands::NotKnown(why)) => section.absent(word, &label, why.as_str()),
            (None, Stands::NoWayIn) => {
                section.absent(word, &label, "nothing lets air in: it deepens until a seal leaks")
            }
            (None, _) => section.absent(word, &label, "nothing leads out: it rises until a seal gives"),
        };
        section.explained_by(chapter);
        section.words(&format!("{word}_judged"), &format!("{}: judged", at.duty.name()), say![judged(at.state)]);
    }
    if let Some(share) = failure.idle_share {
        section.amount("idle_share", "Of the idle gas by the valve then", Amount::of_kind(share, Kind::Share));
        section.explained_by(failure.failure.working(Duty::Idle));
    }
    section.words("means", "What that means", means(answers, failure));
    section
}

const fn where_feared(failure: Failure, boosted: bool) -> &'static str {
    match failure {
        Failure::StuckOpen if boosted => "crankcase at the high blow-by, boost blowing in",
        Failure::StuckOpen => "crankcase at its deepest",
        Failure::StuckShut => "crankcase at the high blow-by",
        Failure::BreatherBlocked => "crankcase, deepest or at the high blow-by",
    }
}

const fn judged(state: State) -> &'static str {
    match state {
        State::Holds => "within limits",
        State::Thin => "little left",
        State::DoesNotHold => "beyond limits",
        State::NotKnown => "not known",
    }
}

/// What a failure does, and how it is found.
fn means(answers: &Answers, failure: &FailureAnswers) -> Sentence {
    let kind = answers.valve.as_ref().map(|valve| valve.kind);
    let breathes = answers.duties.iter().any(|duty| duty.likely().flow(FlowPath::Breather).is_some())
        && !failure.duties.iter().any(|one| one.stands == Stands::NoWayOut);
    match failure.failure {
        Failure::StuckOpen => stuck_open(answers, failure),
        Failure::StuckShut => {
            let does = if breathes {
                "no fresh air sweeps the crankcase, so water and fuel stay in the oil, and the breather carries all the gas."
            } else {
                "no gas gets out: the pressure rises until a seal gives and throws hot oil."
            };
            say![does, tried(kind)]
        }
        Failure::BreatherBlocked => say![
            "ice, dirt or a kinked hose shuts it. Look at it at every service and in hard frost; a pressure without an outlet \
             moves seals and throws hot oil."
        ],
    }
}

fn stuck_open(answers: &Answers, failure: &FailureAnswers) -> Sentence {
    let beyond = |one: &&FailureDuty| matches!(one.state, State::Thin | State::DoesNotHold);
    let boosted: Vec<&FailureDuty> = failure.duties.iter().filter(|one| one.boosted).collect();
    let names: Vec<&str> = boosted.iter().map(|one| one.duty.name()).collect();
    let boost = if boosted.is_empty() {
        String::new()
    } else {
        let bears = boosted.iter().all(|one| one.state == State::Holds);
        let then = if bears { "the crankcase bears it" } else { "seals give and hot oil is thrown" };
        let at = names.join(", ");
        format!(
            "Boost blows through it into the crankcase at {at}: {then}. A tight check valve between valve and port keeps it out."
        )
    };
    let drawn = failure.duties.iter().filter(|one| !one.boosted).filter(beyond);
    let drawn = drawn.filter_map(FailureDuty::case).any(|case| case.gauge.base() < 0.0);
    // Where the manifold has next to nothing to draw with there is no depression to tell of.
    let manifold_draws = |one: &&FailureDuty| {
        let below = answers.ambient.base() - answers.duties[one.duty.index()].manifold.base();
        below >= defaults::least_draw().likely().base()
    };
    let deepens = failure.duties.iter().filter(manifold_draws).filter_map(FailureDuty::case);
    let draws = if drawn {
        "under depression seals are drawn in and oil is pulled up"
    } else if deepens.map(|case| case.gauge.base()).any(|gauge| gauge < 0.0) {
        "the crankcase bears the depression, more oil is drawn along"
    } else {
        ""
    };
    // A diesel's idle does not hang on its air.
    let idle = if answers.idle_mixture.is_some() {
        "the idle is high or uneven. At a warm idle, sleeves and hands clear of fan and belts, pinch the hose: the idle must drop \
         a little, not much"
    } else {
        ""
    };
    let told: Vec<&str> = [draws, idle].into_iter().filter(|words| !words.is_empty()).collect();
    match (told.is_empty(), boost.is_empty()) {
        (false, true) => say![told.join("; "), "."],
        (false, false) => say![told.join("; "), ". ", boost],
        (true, false) => say![boost],
        (true, true) => say!["next to nothing draws by it or blows in: little changes."],
    }
}

/// How it is tried, off the engine.
const fn tried(kind: Option<ValveKind>) -> &'static str {
    match kind {
        Some(ValveKind::Plunger | ValveKind::SpringPlunger | ValveKind::Table) => {
            " Cold and taken out, the valve must rattle when shaken."
        }
        _ => " Take it out cold and look through it: sludge closes the hole, and its check must pass gas one way only.",
    }
}
