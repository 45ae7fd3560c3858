//! Verdict on the tank's vent.

use super::Findings;
use crate::quantity::si::Length;
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, DutyAnswers, Part, Sentence, State, VentAnswers, VentKind, Verdict};

fn length(value: Length) -> Amount {
    Amount::of_kind(value, Kind::Length)
}

/// Does the vent keep the tank's pressure low?
pub(super) fn vent(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let vent = answers.tank.vent.as_ref()?;
    let allowed = vent.allowed;
    let likely_hole = drillable(vent.least_hole_cap_lift.likely.max(vent.least_hole_steam.likely));
    let widest = drillable(vent.least_hole_cap_lift.high.max(vent.least_hole_steam.high));
    let verdict = |state, margin, reason, mend| {
        Some(Verdict {
            key: "tank_vent",
            part: Part::Tank,
            title: "Tank vent",
            state,
            margin,
            limit: say!["at most ", (allowed, Kind::PressureDifference), " in the tank"],
            reason,
            mend,
            working: "vent",
        })
    };
    if vent.sealed {
        let (margin, reason) = match &vent.if_sealed {
            Ok(gauge) => (
                say!["sealed: builds ", Amount::of(*gauge)],
                say![
                    "the air in a sealed tank is squeezed and adds ",
                    Amount::of(*gauge),
                    " to the cap; radiator, hoses and heater see the sum, and the boiling margin gained is no benefit"
                ],
            ),
            Err(_) => {
                (say!["sealed: fills solid"], say!["there is less air in the sealed tank than coolant that comes"])
            }
        };
        return verdict(
            State::DoesNotHold,
            margin,
            reason,
            Some(match first(answers, vent, likely_hole) {
                Some(first) => say![
                    first,
                    "; drill a vent of ",
                    length(drillable(vent.least_hole_warm_up.high)),
                    " in the lid all the same, which takes a warm-up, ",
                    WHERE
                ],
                None => say!["drill a vent of ", length(likely_hole), " in the lid, ", WHERE],
            }),
        );
    }
    let gauges = [("warming up", vent.warm_up), ("cap lifting", vent.cap_lift), ("boiling over", vent.steam)];
    let worst = gauges
        .into_iter()
        .filter_map(|(when, gauge)| gauge.map(|gauge| (when, gauge)))
        .max_by(|a, b| a.1.likely.base().total_cmp(&b.1.likely.base()));
    let (when, gauge) = worst?;
    let warm_up_holds = vent.warm_up.is_some_and(|gauge| gauge.likely.base() <= allowed.likely.base());
    let likely = gauge.likely.base() <= allowed.likely.base();
    let high = gauge.high.base() <= allowed.likely.base();
    // A vent that takes a warm-up but not a boil-over fails on the worst day only. Where boiling is to be expected and
    // would drive the tank to several times what it bears, it does not hold.
    let boiling_expected =
        answers.duties.iter().any(DutyAnswers::boils) || answers.hot_stop.held.margin.likely.base() <= 0.0;
    let bursts = vent.overwhelmed && boiling_expected;
    let state = match (warm_up_holds && !bursts, likely && high) {
        (false, _) => State::DoesNotHold,
        (true, true) => State::Holds,
        (true, false) => State::Thin,
    };
    let tube = findings.context.project.tank.vent == VentKind::Tube;
    // First what takes a likely boil-over, then what takes the worst.
    let hole = if likely { widest } else { likely_hole };
    let mend = (state != State::Holds).then(|| match first(answers, vent, hole) {
        Some(first) if warm_up_holds => first,
        Some(first) => {
            let warm_up = length(drillable(vent.least_hole_warm_up.high));
            say![first, "; a warm-up alone asks for a vent of ", warm_up, ": drill it ", WHERE]
        }
        None if tube => {
            say!["a hole of ", length(hole), " in the lid instead of the tube, or a wider and shorter tube"]
        }
        None => say!["a vent of ", length(hole), "; drill it ", WHERE],
    });
    let margin = if vent.overwhelmed {
        say!["holds warming up; far more than the tank bears ", when]
    } else if warm_up_holds && !likely {
        say!["holds warming up; ", Amount::of(gauge.likely), " ", when]
    } else {
        say![Amount::of(gauge.likely), ", ", when]
    };
    verdict(
        state,
        margin,
        say![
            "a warm-up needs hardly any hole (a small one blocks with dirt); boiling over needs ",
            length(likely_hole),
            ", ",
            length(widest),
            " at the unfavourable end; what the tank holds back adds to the cap"
        ],
        mend,
    )
}

/// How a lid is drilled.
const WHERE: &str = "with the tank off the car, cold and empty";

/// No vent of a tank is wider than this, m: a hose as wide as the radiator's overflow. Common practice, no source.
const WIDEST: f64 = 12e-3;
/// Nor wider than this share of the lid. Common practice, no source.
const OF_LID: f64 = 0.25;

/// What must come first where no hole mends it: where a duty boils for good, or the hole wanted is no hole for such a lid.
fn first(answers: &Answers, vent: &VentAnswers, hole: Length) -> Option<Sentence> {
    if let Some(duty) = answers.duties.iter().find(|duty| duty.boils()) {
        return Some(say![
            "stop the boiling first (",
            duty.duty.name(),
            "): see the radiator; no hole makes up for an engine that boils for good"
        ]);
    }
    let most = vent.across_top.map_or(WIDEST, |across| (OF_LID * across.base()).min(WIDEST));
    (hole.base() > most).then(|| {
        say![
            "keep it from boiling over first: see boiling, hot stop and radiator; the ",
            length(hole),
            " that would take it is no hole for this lid"
        ]
    })
}

/// The next half millimetre, and no less than dirt leaves open (common practice, no source).
fn drillable(hole: Length) -> Length {
    let half_millimetres = (hole.base() / 0.5e-3 - 1e-6).ceil();
    Length::from_base((half_millimetres * 0.5e-3).max(3e-3))
}
