//! The rows of the crankcase at one duty.

use super::valve::SEAT_LEAK;
use crate::quantity::si::VolumeRate;
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::{CrankcaseCase, DutyAnswers, FlowPath, Section, Sentence};

/// A flow that nobody can see, m³/s: 0.01 L/min.
const UNSEEN: f64 = 0.01e-3 / 60.0;

/// The words of a flow that is no more than a shut valve's leak, or the rounding of the solver.
pub(super) fn too_little(path: FlowPath, flow: VolumeRate) -> Option<&'static str> {
    if path == FlowPath::Valve && (-SEAT_LEAK..0.0).contains(&flow.base()) {
        Some("shut")
    } else {
        (flow.base().abs() < UNSEEN).then_some("next to none")
    }
}

pub(super) fn crankcase_section(duty: &DutyAnswers) -> Section {
    let word = duty.duty.word();
    let blow_by = &duty.blow_by;
    let mut section = Section::new(format!("crankcase_{word}"), format!("{}: crankcase", duty.duty.name()));
    section.quantity("air", "Air the engine breathes", duty.air);
    section.estimate("blow_by", "Blow-by", blow_by.forward, Kind::GasFlow).explained_by(format!("blow-by/{word}"));
    section.estimate("blow_by_volume", "Blow-by at 20 °C and 101.325 kPa", blow_by.standard, Kind::GasVolumeFlow);
    section.words("blow_by_known", "Blow-by known", say![blow_by.knowledge.name()]);
    section.quantity("blow_by_reverse", "Drawn back up past the rings", blow_by.reverse);
    section.estimate("blow_by_net", "Blow-by on balance, less what is drawn back", blow_by.net, Kind::GasFlow);
    section.amount(
        "blow_by_share",
        "Blow-by as a share of the air",
        Amount::of_kind(blow_by.share_of_air, Kind::Share),
    );
    for level in &blow_by.levels {
        let key = format!("blow_by_{}", level.knowledge.word());
        section.estimate(&key, &format!("Blow-by {}", level.knowledge.name()), level.forward, Kind::GasFlow);
    }
    let [low, likely, high] = &duty.crankcase;
    let gauge = Estimate::sorted(low.gauge, likely.gauge, high.gauge);
    let beyond = duty.crankcase.iter().chain([&duty.deepest, &duty.unfavourable]).any(CrankcaseCase::beyond_seals);
    let label = if beyond { "Crankcase pressure by the equations" } else { "Crankcase pressure" };
    section
        .estimate("crankcase_pressure", label, gauge, Kind::CrankcasePressure)
        .explained_by(format!("crankcase/{word}"));
    if beyond {
        section.words(
            "crankcase_pressure_means",
            "What such a pressure means",
            say!["far beyond what seals hold: the figures are what the equations give, seals and covers let go long before"],
        );
    }
    section.amount(
        "crankcase_deepest",
        "Deepest, at the low or likely blow-by on balance",
        Amount::of_kind(duty.deepest.gauge, Kind::CrankcasePressure),
    );
    section.amount(
        "crankcase_unfavourable",
        "Likely blow-by, dirty filter and tight baffle",
        Amount::of_kind(duty.unfavourable.gauge, Kind::CrankcasePressure),
    );
    section.estimate("crankcase_limit", "Crankcase pressure limit", duty.limit, Kind::CrankcasePressure);
    for (case, which) in [(likely, ""), (high, "_at_high_blow_by")] {
        for path in [FlowPath::Breather, FlowPath::SecondBreather, FlowPath::Valve] {
            if let Some(flow) = case.flow(path) {
                let key = format!("{}{which}", path.name().replace(' ', "_"));
                let at = if which.is_empty() { "likely blow-by" } else { "high blow-by" };
                let label = format!("Flow by the {}, {at} (out is positive)", path.name());
                match too_little(path, flow.standard) {
                    Some(words) => section.words(&key, &label, say![words]),
                    None => section.quantity(&key, &label, flow.standard),
                };
            }
        }
    }
    match duty.turns_at {
        Some(turns) if turns.base() <= 0.0 => section.absent(
            "breather_turns_at",
            "Blow-by at which the breather turns round",
            "it breathes out at any blow-by, as nothing draws",
        ),
        Some(turns) => section.quantity("breather_turns_at", "Blow-by at which the breather turns round", turns),
        None => section.absent(
            "breather_turns_at",
            "Blow-by at which the breather turns round",
            "it takes a valve and a breather",
        ),
    };
    match duty.limit_at {
        Some(limit) => section.quantity("limit_at", "Blow-by at which the limit is reached", limit),
        None => section.absent("limit_at", "Blow-by at which the limit is reached", "there is no open breather"),
    };
    if !likely.others.is_empty() {
        let texts: Vec<Sentence> =
            likely.others.iter().map(|gauge| say![Amount::of_kind(*gauge, Kind::CrankcasePressure)]).collect();
        let joined =
            texts.into_iter().fold(say!["several pressures are possible; also"], |all, one| say![all, " ", one]);
        section.words("other_pressures", "Other pressures it can stand at", joined);
    }
    section
}
