//! The legs of a project as the road knows them, and their names.

use crate::day::{Doing, Leg, Until};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Choice, LegEnd, LegInputs, LegKind, Sentence};

/// The leg that inputs describe.
pub(super) fn leg(inputs: &LegInputs) -> Leg {
    let LegInputs { lasts, speed, .. } = *inputs;
    let gear = (inputs.gear > 0).then_some(inputs.gear as usize);
    let does = match inputs.kind {
        LegKind::Park => Doing::Park { lasts },
        LegKind::Idle => Doing::Idle { lasts },
        LegKind::Steady => {
            let until = match inputs.until {
                LegEnd::Time => Until::Time(lasts),
                LegEnd::Distance => Until::Distance(inputs.distance),
            };
            Doing::Steady { speed, grade: inputs.grade, gear, until }
        }
        LegKind::Climb => Doing::Climb { speed, grade: inputs.climb_grade, gear, height: inputs.height },
        LegKind::Traffic => Doing::Traffic {
            mean_speed: inputs.mean_speed,
            standing: inputs.standing,
            acceleration: inputs.acceleration,
            lasts: inputs.traffic_lasts,
        },
        LegKind::Trace => Doing::Trace { trace: inputs.trace, repeats: inputs.repeats },
        LegKind::FullThrottle => Doing::FullThrottle { speed, lasts },
        LegKind::HotStop => Doing::HotStop { lasts },
        LegKind::Overnight => Doing::Overnight { lasts: inputs.night, falls_to: inputs.falls_to },
    };
    Leg { air: inputs.air, does }
}

/// Its words: "Climb, 300 m at 8 %, 60 km/h".
pub(super) fn name(inputs: &LegInputs) -> Sentence {
    let time = |time| {
        let seconds = Measured::base(time);
        if seconds >= 7200.0 {
            say![format!("{} h", (seconds / 360.0).round() / 10.0)]
        } else {
            say![Amount::of_kind(time, Kind::Duration)]
        }
    };
    let speed = |speed| Amount::of_kind(speed, Kind::RoadSpeed);
    let gear = if inputs.gear > 0 { format!(", in gear {}", inputs.gear) } else { String::new() };
    match inputs.kind {
        LegKind::Park => say!["Parked, ", time(inputs.lasts)],
        LegKind::Idle => say!["Idling, ", time(inputs.lasts)],
        LegKind::Steady => {
            let end = match inputs.until {
                LegEnd::Time => time(inputs.lasts),
                LegEnd::Distance => say![Amount::of_kind(inputs.distance, Kind::RoadDistance)],
            };
            let grade = inputs.grade;
            let on = if grade.base() == 0.0 { say![] } else { say![" at ", Amount::of_kind(grade, Kind::Share)] };
            say!["Steady ", speed(inputs.speed), on, ", ", end, gear]
        }
        LegKind::Climb => say![
            "Climb, ",
            Amount::of_kind(inputs.height, Kind::Distance),
            " at ",
            Amount::of_kind(inputs.climb_grade, Kind::Share),
            ", ",
            speed(inputs.speed),
            gear
        ],
        LegKind::Traffic => say!["Stop and go, ", speed(inputs.mean_speed), ", ", time(inputs.traffic_lasts)],
        LegKind::Trace => {
            let name = inputs.trace.name();
            let name = name.split_once(':').map_or(name, |(name, _)| name);
            if inputs.repeats == 1 { say![name] } else { say![format!("{name}, {} times", inputs.repeats)] }
        }
        LegKind::FullThrottle => say!["Full throttle at ", speed(inputs.speed), ", ", time(inputs.lasts)],
        LegKind::HotStop => say!["Hot stop, ", time(inputs.lasts)],
        LegKind::Overnight => {
            let coldest = Amount::of_kind(inputs.falls_to, Kind::Temperature);
            say!["Overnight, ", time(inputs.night), ", down to ", coldest]
        }
    }
}
