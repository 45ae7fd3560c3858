//! The rows of the joint between valve cover and head.

use crate::crankcase::joint::{Cause, Limit, Obstacle, Safety, Trial, Window};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::joint::{held, screw_words, words};
use crate::study::{Fails, JointAnswers, JointLoad, Section};

pub(super) fn joint_section(joint: &JointAnswers) -> Section {
    let mut section = Section::new("cover_joint", "Valve-cover joint");
    window(&mut section, joint);
    match &joint.load {
        Some(load) => loaded(&mut section, load, &joint.window),
        None => {
            let why = "there is neither a torque used nor one to aim at";
            section.absent("clamp_load", "Clamp load of one screw", why);
        }
    }
    let worst = Amount::of_kind(joint.worst, Kind::CrankcasePressure);
    section.amount("worst_pressure", "Highest pressure under the cover of all duties", worst);
    section.words("worst_pressure_at", "That pressure comes at", say![joint.worst_duty.name()]);
    match &joint.leak {
        Ok(leak) => {
            section
                .words("leak_cause", "A weeping spot would leak by", say![cause(leak.cause, joint)])
                .explained_by("joint/leak");
            if let Some(times) = leak.times {
                let label = "Leak at that pressure over leak by its oil alone";
                section.amount("leak_times", label, Amount::of(times)).explained_by("joint/leak");
            }
        }
        Err(why) => {
            section.absent("leak_cause", "A weeping spot would leak by", why.as_str());
        }
    }
    if let Some(trial) = joint.trial_words() {
        section.words("leak_trial", "What the two looks show", say![trial]);
    }
    section
}

fn window(section: &mut Section, joint: &JointAnswers) {
    let window = &joint.window;
    let small = |length| Amount::of_kind(length, Kind::SmallLength);
    section.amount("reach", "Thread in the hole", small(joint.reach)).explained_by("joint/window");
    match window.least {
        Some(least) => {
            let label = match window.stop {
                Some(_) => "Least torque that closes the cover on its stops",
                None => "Least torque that seats the gasket",
            };
            section.estimate("torque_least", label, least, Kind::Torque).explained_by("joint/window");
        }
        None => {
            let why = "the flange bows off the gasket between the screws: no torque seats the middle";
            section.absent("torque_least", "Least torque that seats the gasket", why);
        }
    }
    section.estimate("torque_most", "Most torque", window.most, Kind::Torque).explained_by("joint/window");
    let limit = match window.limit {
        Limit::Thread => "half the load that strips the thread",
        Limit::Screw => "the share of its proof load that a screw may be given",
        Limit::Gasket => "crushing of the gasket at the screw",
    };
    section.words("torque_limit", "The most is set by", say![limit]);
    match window.aim {
        Some(aim) => section.quantity("torque_aim", "Torque to aim at, the joint as it is", aim),
        None => {
            let why = match window.obstacle {
                Some(Obstacle::TooFine) => "the window lies below what a torque key can be set to",
                _ => "no torque both seats the gasket and spares the joint",
            };
            section.absent("torque_aim", "Torque to aim at, the joint as it is", why)
        }
    };
    section.words("torque_window", "There is a torque", say![safety(window.safety)]);
    if let Some(past) = joint.bottoms {
        let label = "With the gasket pressed, the screws go past the bottom of the hole by";
        if past.likely.base() > 0.0 {
            section.estimate("bottoms", label, past, Kind::SmallLength);
        } else {
            // Below nothing it is room, and a length with a sign is read wrongly.
            let (high, room) = (small(past.high), small(-past.likely));
            let told = say![high, " at the unfavourable end; ", room, " are left at the likely figures"];
            section.words("bottoms", label, told);
        }
    }
    if let Some(bedding) = &window.bedding {
        section.estimate("screw_spacing", "Screws may lie apart", bedding.span, Kind::Length);
        let label = "Gasket stress half-way between screws, of the mean";
        section.estimate("share_between", label, bedding.midspan, Kind::Share);
    }
    if let Some(stop) = &window.stop {
        section.estimate("stop_stress", "Gasket stress at the hard stops", stop.stress, Kind::Stress);
        section.words("stop_seats", "The stops let the gasket seat", say![safety(stop.seats)]);
        section.words("stop_spares", "The stops spare the gasket", say![safety(stop.spares)]);
    }
    section.estimate("yields", "Load at which a screw stretches for good, its proof load", window.yields, Kind::Force);
    let label = "Thread that must carry for the screw to break first";
    section.estimate("break_first", label, window.break_first, Kind::SmallLength).explained_by("joint/window");
    section.flag(
        "screw_breaks_first",
        "Over-tightened, the screw breaks before the thread strips",
        window.screw_breaks_first,
    );
    for (i, change) in joint.changes.iter().enumerate() {
        let screw = change.screw.map(|screw| screw_words(screw, joint.screw));
        let steps = words(&change.mend).into_iter().chain(screw).reduce(|all, step| say![all, "; ", step]);
        // The torques that are promised: the likely ones are not all safe at every unfavourable end.
        let range = change.least.and_then(|least| match change.safety {
            Safety::Safe => Some((least.high, change.most.low)),
            Safety::Doubtful => Some((least.likely, change.most.likely)),
            Safety::NoWindow => None,
        });
        let then = match change.safety {
            Safety::Safe => ": then safe at every unfavourable end",
            Safety::Doubtful => ": then right at the likely figures only",
            Safety::NoWindow => ": by itself not enough for any torque to be right",
        };
        let mut told = say![steps.unwrap_or_default(), then];
        if let Some((least, most)) = range {
            told = say![told, ", ", Amount::of(least), " to ", Amount::of(most)];
        }
        let number = i + 1;
        let though = match change.safety {
            Safety::Safe => "",
            Safety::Doubtful => ", though not at every unfavourable end",
            Safety::NoWindow => ", though not enough by itself",
        };
        let label = format!("A change that betters it{though}, no. {number}");
        section.words(&format!("mend_{number}"), &label, told);
    }
}

fn loaded(section: &mut Section, load: &JointLoad, window: &Window) {
    let label = if load.aimed { "Reckoned with the torque to aim at" } else { "Reckoned with the torque used" };
    section.quantity("torque", label, load.torque);
    match load.fails {
        // A load beyond what breaks is no load, and whatever follows from it is nothing.
        Some(fails @ (Fails::Screw | Fails::Yields | Fails::Bottom)) => {
            let why = match fails {
                Fails::Screw => "the thread or screw gives way first",
                Fails::Yields => "the screw stretches for good first",
                _ => "the screw meets the bottom of its hole first",
            };
            section.absent("clamp_load", "Clamp load of one screw", why);
            section.absent("clamp_load_all", "Clamp load of all screws", why);
            section.absent("holds", "Pressure it holds", why);
            return;
        }
        Some(Fails::Gasket) => {
            clamped(section, load);
            section.absent("holds", "Pressure it holds", "the gasket is crushed first");
            return;
        }
        Some(Fails::NotSeated) => {
            clamped(section, load);
            section.absent("holds", "Pressure it holds", not_seated(window));
            return;
        }
        None => clamped(section, load),
    }
    let travel = &load.travel;
    let label = "Layers pressed together by";
    if travel.notes.is_empty() {
        section.amount("travel", label, Amount::of_kind(travel.travel.likely, Kind::SmallLength));
    } else {
        section.absent(
            "travel",
            label,
            "more than a quarter of the gasket, where it stiffens and no straight line holds",
        );
    }
    section.explained_by("joint/load");
    let [lost, fresh, settled] = if load.on_stops {
        [
            "Gasket load lost as it settles",
            "Pressure it holds before it settles",
            "Pressure it holds settled, on its stops",
        ]
    } else {
        [
            "Gasket load lost as it settles, until tightened again",
            "Pressure it holds, tightened again after the first warm run",
            "Pressure it holds settled, not tightened again",
        ]
    };
    section.estimate("settling_loss", lost, load.creep.loss, Kind::Force).explained_by("joint/load");
    let doubt = if may_be_loose(load, window) {
        ", where the gasket seats, which at the unfavourable end it may not"
    } else {
        ""
    };
    section.words("holds", fresh, say![held(&load.holds), doubt]).explained_by("joint/load");
    section.words("holds_settled", settled, say![held(&load.holds_settled), doubt]).explained_by("joint/load");
}

/// Whether the gasket is not seated at the unfavourable end.
fn may_be_loose(load: &JointLoad, window: &Window) -> bool {
    window.least.is_none_or(|least| load.torque < least.high)
        || window.stop.is_some_and(|stop| stop.seats != Safety::Safe)
}

/// Why what a joint holds is not known.
fn not_seated(window: &Window) -> &'static str {
    match (window.obstacle, window.stop) {
        (Some(Obstacle::Bow), _) => "the flange bows off the gasket between the screws, and oil passes there",
        (Some(Obstacle::StopTooHigh), _) => "the stop is too high for the gasket to seat, and oil may pass",
        (_, Some(_)) => "the cover does not reach its stops, and oil may pass",
        (_, None) => "the gasket is not seated, and oil may pass",
    }
}

fn clamped(section: &mut Section, load: &JointLoad) {
    section.estimate("clamp_load", "Clamp load of one screw", load.clamp, Kind::Force).explained_by("joint/load");
    section.estimate("clamp_load_all", "Clamp load of all screws", load.all, Kind::Force);
    section
        .estimate("gasket_stress", "Mean stress of the gasket", load.travel.stress, Kind::Stress)
        .explained_by("joint/load");
}

const fn safety(safety: Safety) -> &'static str {
    match safety {
        Safety::Safe => "at every unfavourable end together",
        Safety::Doubtful => "at the likely figures only",
        Safety::NoWindow => "not at all",
    }
}

/// What was seen in a trial counts for more than what is reckoned; and a pressure within its limits is no fault of the
/// ventilation, whatever it drives.
fn cause(cause: Cause, joint: &JointAnswers) -> &'static str {
    match (cause, joint.trial) {
        (_, Some(Trial::Pressure)) if !joint.tight() => {
            "crankcase pressure, through a cover that is not known to be rightly tight: put that right first"
        }
        (_, Some(Trial::Pressure)) if joint.pressure_allowed => {
            "a gap in the joint: what drives it is a pressure within its limit, which a sound joint holds"
        }
        (_, Some(Trial::Joint)) if joint.pressure_allowed => "a gap in the joint, as the leak trial shows",
        (Cause::Joint | Cause::DrawsAir, Some(Trial::Joint)) => "a gap in the joint, as the leak trial shows",
        (_, Some(Trial::Joint)) => {
            "crankcase pressure too, as reckoned; the leak trial shows the joint: what was seen comes first"
        }
        (Cause::Ventilation | Cause::Both, Some(Trial::Pressure)) => "crankcase pressure, as the leak trial shows",
        (_, Some(Trial::Pressure)) => {
            "a gap in the joint, as reckoned; the leak trial shows crankcase pressure: what was seen comes first"
        }
        (Cause::Ventilation | Cause::Both, _) if joint.pressure_allowed => {
            if joint.dirty_passes {
                "a gap in the joint; crankcase pressure drives it, within its limit unless the breather element is dirty or the \
                 baffle tight: keep both open"
            } else {
                "a gap in the joint; crankcase pressure drives it, within its limit, which a sound joint holds"
            }
        }
        (Cause::Ventilation, _) if joint.torque.is_some() && !joint.tight() => {
            "crankcase pressure, through a joint that is not rightly tight: mend both"
        }
        (Cause::Ventilation, _) => "crankcase pressure: mend the ventilation first",
        (Cause::Both, _) => "crankcase pressure and the joint, both",
        (Cause::Joint, _) => "a gap in the joint; the pressure does not drive it",
        (Cause::DrawsAir, _) => "nothing: air is drawn in there",
    }
}
