//! Verdicts on the tank: volume, dip tube, return, cushion.

use super::{Findings, state};
use crate::coolant::{ReserveFrom, defaults as usual};
use crate::quantity::si::Length;
use crate::quantity::{Amount, GaugePressure, Kind, Measured};
use crate::say;
use crate::scribe::Silent;
use crate::study::compose::coolant::Side;
use crate::study::compose::{Fail, filled};
use crate::study::{Answers, Part, Problems, Sentence, State, TankArrangement, Verdict, defaults};

fn length(value: Length) -> Amount {
    Amount::of_kind(value, Kind::Length)
}

fn litres(value: f64) -> Amount {
    Amount::new(value, Kind::Volume)
}

/// Does everything that comes find room, surge after a hot stop included? A header tank is judged by its cushion.
pub(super) fn volume(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let tank = &answers.tank;
    if findings.context.project.tank.arrangement == TankArrangement::HeaderTank {
        return None;
    }
    let spare = tank.headroom;
    let boils = answers.duties.iter().find(|duty| duty.boils());
    let verdict =
        if boils.is_some() { State::DoesNotHold } else { state(spare.likely.base() >= 0.0, spare.low.base() >= 0.0) };
    let margin = match boils {
        Some(duty) => say!["boils over, ", duty.duty.name(), ": coolant is lost"],
        None if spare.likely.base() >= 0.0 => say![litres(spare.likely.base()), " to spare"],
        None => say!["spills ", litres(-spare.likely.base())],
    };
    let mend = match (verdict, boils) {
        (State::Holds, _) => None,
        (_, Some(_)) => Some(say!["stop the boiling first: see the radiator"]),
        _ => Some(roomier(answers, findings)),
    };
    Some(Verdict {
        key: "tank_volume",
        part: Part::Tank,
        title: "Tank volume",
        state: verdict,
        margin,
        limit: match boils {
            Some(_) => say![
                "volume wanted not given: ",
                Answers::BOILS_OVER,
                "; the tank holds ",
                litres(tank.capacity.base())
            ],
            None => say!["wanted: ", (tank.wanted, Kind::Volume), ", the tank holds ", litres(tank.capacity.base())],
        },
        reason: say![
            "from the coldest start to the hottest running state ",
            litres(answers.growth.in_tank.likely.base() + answers.growth.drawn_cold.base()),
            " comes and goes, and ",
            litres(tank.surge.base()),
            " may surge up after a hot stop"
        ],
        mend,
        working: "tank-room",
    })
}

/// A lower cold level where that is enough, else a larger tank, with the lower level if there is one.
fn roomier(answers: &Answers, findings: &Findings<'_, '_>) -> Sentence {
    let tank = &answers.tank;
    let wanted = findings.room.low.base() + answers.growth.drawn_cold.base();
    let saved = match findings.context.project.tank.cold_level {
        Some(_) => (tank.cold_volume.base() - wanted).max(0.0),
        None => 0.0,
    };
    // A level too low for the leak reserve must come up first, and the tank be as much larger.
    let raised = (wanted - tank.cold_volume.base()).max(0.0);
    let least = tank.wanted.high.base() - saved + raised;
    match tank.least_cold_mark {
        Some(mark) if saved > 0.0 && tank.capacity.base() >= least => say!["lower the cold level to ", length(mark)],
        Some(mark) if saved > 0.0 => say!["lower the cold level to ", length(mark), ", in a tank of ", litres(least)],
        _ if raised > 0.0 => say!["a tank of ", litres(least), " or more, with ", litres(wanted), " in it cold"],
        _ => say!["a tank of ", litres(least), " or more"],
    }
}

/// Is there enough in the tank to lose some?
pub(super) fn leak_reserve(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let tank = &answers.tank;
    if findings.context.project.tank.arrangement != TankArrangement::RecoveryTank {
        return None;
    }
    let least = tank.cold_volume.base() - answers.growth.drawn_cold.base();
    let wanted = tank.leak_reserve.base();
    let enough = least >= wanted * 0.999;
    Some(Verdict {
        key: "leak_reserve",
        part: Part::Tank,
        title: "Leak reserve",
        state: state(least > 0.0, enough),
        margin: say![litres(least.max(0.0)), " left on the coldest start"],
        limit: say![litres(wanted), " kept against small leaks"],
        reason: say!["a weeping joint takes a little at every drive; the tank gives it back until it is empty"],
        mend: match tank.least_cold_mark {
            _ if enough => None,
            Some(mark) => Some(say!["cold level at ", length(mark), "; see the tank volume for the room it takes"]),
            None => Some(say!["a larger tank"]),
        },
        working: "tank",
    })
}

/// Does the dip tube stay under, cornering and braking on the coldest start?
pub(super) fn dip_tube(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    if findings.context.project.tank.arrangement != TankArrangement::RecoveryTank {
        return None;
    }
    let tank = &answers.tank;
    let base = |state, margin, reason: Sentence, mend| Verdict {
        key: "dip_tube",
        part: Part::Tank,
        title: "Dip tube",
        state,
        margin,
        limit: say![length(usual::least_cover().likely()), " of coolant above its end, cornering and braking"],
        reason,
        mend,
        working: "dip-tube",
    };
    let (Some(rest), Some(corner), Some(brake)) = (tank.cover_at_rest, tank.cover_cornering, tank.cover_braking) else {
        let why = tank.cover_unknown.clone().unwrap_or_else(|| "the tank's shape is not known".to_owned());
        return Some(base(State::NotKnown, say!["not known in bends"], say![why], None));
    };
    let (least, when) = if corner < brake { (corner, "cornering") } else { (brake, "braking or accelerating") };
    let wanted = usual::least_cover().likely();
    let verdict = if rest.base() <= 0.0 { State::DoesNotHold } else { state(least.base() > 0.0, least >= wanted) };
    let margin = if least.base() > 0.0 { say![length(least), " of cover ", when] } else { say!["draws air ", when] };
    let mend = (verdict != State::Holds).then(|| match tank.tilt_cold_mark {
        Some(mark) => say!["cold level at ", length(mark)],
        None => say!["end the tube lower, nearer the middle of the tank"],
    });
    let reason = match findings.room.low_from {
        ReserveFrom::Tilt => say!["the tilt, not the leak reserve, sets the least level of this tank"],
        ReserveFrom::Leakage => say!["the leak reserve, not the tilt, sets the least level of this tank"],
    };
    Some(base(verdict, margin, reason, mend))
}

/// Does the coolant come back?
pub(super) fn comes_back(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let tank = &answers.tank;
    let verdict = |state, margin, limit, reason, mend| Verdict {
        key: "return",
        part: Part::Cap,
        title: "Return on cooling",
        state,
        margin,
        limit,
        reason,
        mend,
        working: "return",
    };
    match findings.context.project.tank.arrangement {
        TankArrangement::HeaderTank => None,
        TankArrangement::CatchOnly => Some(verdict(
            State::DoesNotHold,
            say!["loses ", litres(tank.lost.base()), " at the first warm-up"],
            say!["a recovery tank gives back what it took"],
            say![
                "nothing comes back from a catch-only can; ",
                litres(tank.air_after.base()),
                " of air takes its place"
            ],
            Some(say!["a dip tube to the floor of the can, and a cap with a vacuum valve"]),
        )),
        TankArrangement::RecoveryTank => {
            let (warn, fail) = (usual::suction_warning().likely(), usual::suction_failure().likely());
            let boils = answers.boils();
            let likely_holds = tank.comes_back && !boils && tank.suction.likely < fail;
            let state = state(likely_holds, likely_holds && tank.suction.high < warn);
            let margin = if boils {
                say!["boils over: what leaves the tank does not come back"]
            } else if tank.comes_back {
                say!["comes back at ", Amount::of(tank.suction.likely), " of suction"]
            } else {
                say!["does not come back whole"]
            };
            let mend = (state != State::Holds).then(|| {
                let lift = findings.context.project.tank.neck_height.base();
                let valve = findings.context.project.cap.vacuum_opening.unwrap_or_else(defaults::vacuum_opening);
                if boils {
                    say!["stop the boiling first: see the radiator"]
                } else if tank.suction.high < warn {
                    say!["keep the end of the dip tube under coolant: raise the cold level"]
                } else if valve.high.base() >= 0.5 * tank.suction.high.base() {
                    say![
                        "a cap whose vacuum valve opens at ",
                        Amount::of(valve.low),
                        " to ",
                        Amount::of(valve.likely),
                        "; prove it with a hand pump, off the car"
                    ]
                } else if lift > 0.0 {
                    say!["raise the tank nearer the filler neck"]
                } else {
                    say!["a wider return line"]
                }
            });
            Some(verdict(
                state,
                margin,
                say!["soft hoses suffer above ", Amount::of(warn), " and collapse at ", Amount::of(fail)],
                say!["vacuum valve, lift and line together ask for ", (tank.suction, Kind::PressureDifference)],
                mend,
            ))
        }
    }
}

/// Is a header tank's air cushion large enough?
pub(super) fn cushion(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Option<Verdict>, Problems> {
    let project = findings.context.project;
    if project.tank.arrangement != TankArrangement::HeaderTank {
        return Ok(None);
    }
    let hottest = answers.duties.iter().map(|duty| duty.held.gauge.base()).fold(0.0, f64::max);
    let opening = answers.coolant.cap_opening;
    let share = usual::cushion_share().likely();
    let limit = share.base() * opening.likely.base();
    let state = state(hottest < opening.low.base(), hottest <= limit);
    let mend = if state == State::Holds {
        None
    } else {
        let side = Side::new(findings.context, &mut Silent)?;
        let parts = filled::parts_at(answers.growth.hottest, answers.growth.hottest);
        let system = side.system(&parts, &mut Silent)?;
        Some(match system.smallest_cushion(opening.likely, share, &mut Silent).fail("tank.cushion") {
            Ok(cushion) => say!["an air cushion of ", litres(cushion.base())],
            Err(_) => say!["no cushion keeps this cap shut so hot: a cooler engine"],
        })
    };
    Ok(Some(Verdict {
        key: "air_cushion",
        part: Part::Tank,
        title: "Air cushion",
        state,
        margin: say![
            "hot at ",
            Amount::of(GaugePressure::from_base(hottest)),
            " of the cap's ",
            Amount::of(opening.likely)
        ],
        limit: say!["at most ", Amount::of_kind(share, Kind::Share), " of the cap, so that it stays shut"],
        reason: say![
            "the coolant swells by ",
            (answers.growth.in_tank, Kind::Volume),
            " into the air, and its vapour adds its own pressure; a cap that lifts lets air out, and the next hot pressure is lower"
        ],
        mend,
        working: "expansion",
    }))
}
