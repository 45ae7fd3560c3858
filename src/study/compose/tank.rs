//! The tank: marks, room, dip tube, return and vent.

use super::coolant::Side;
use super::{Fail, problem};
use crate::coolant::tilt::{self, Cover, DipTube, LengthLies, Tilt};
use crate::coolant::vent::{LiftedLiquid, Vent, VentGas, VentLoad, smallest_hole};
use crate::coolant::{FilledSystem, Headroom, HeadroomNeed, Surge, TubeReach, defaults as usual, headroom};
use crate::quantity::si::{Acceleration, Length, Power, Pressure, Ratio, TemperatureInterval, Volume};
use crate::quantity::{Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::source::coolant::LEAKAGE_RESERVE;
use crate::study::{Growth, Problems, ShapeKind, TankAnswers, TankArrangement, VentAnswers, VentKind, defaults};

/// The dip tube's cover in every test.
#[derive(Clone, Debug, Default)]
struct Covers {
    at_rest: Option<Length>,
    cornering: Option<Length>,
    braking: Option<Length>,
    unknown: Option<String>,
}

fn tube(side: &Side<'_, '_>) -> DipTube {
    let inputs = &side.context.project.tank;
    DipTube {
        along: inputs.tube_ahead,
        across: inputs.tube_right,
        end: inputs.tube_end,
        length_lies: LengthLies::Along,
    }
}

fn tilt(forward: f64, right: f64) -> Tilt {
    Tilt {
        forward: Acceleration::from_base(forward),
        right: Acceleration::from_base(right),
        grade: Ratio::from_base(0.0),
    }
}

fn tilts(side: &Side<'_, '_>) -> [Tilt; 4] {
    let inputs = &side.context.project.tank;
    let (corner, brake) = (inputs.cornering.base(), inputs.braking.base());
    [tilt(0.0, corner), tilt(0.0, -corner), tilt(-brake, 0.0), tilt(brake, 0.0)]
}

/// Least liquid that keeps the tube's end covered, as a volume; `None` where tilt cannot be reckoned.
fn tilt_volume(side: &Side<'_, '_>, scribe: &mut impl Scribe) -> Option<Volume> {
    let wanted = usual::least_cover().likely();
    tilt::volume_for_cover(&side.tank, &tube(side), &tilts(side), wanted, scribe).ok()
}

/// Sets the cold volume: as entered, or what the reserve and the coldest start ask for. Gives the need as well.
pub(super) fn settle_cold_volume(
    side: &mut Side<'_, '_>,
    growth: &Growth,
    scribe: &mut impl Scribe,
) -> Result<Headroom, Problems> {
    let project = side.context.project;
    let fill = side.context_fill_volume()?;
    let recovery = side.arrangement() == TankArrangement::RecoveryTank;
    scribe.chapter("tank", "Room the tank must have, and its marks");
    let swing = |volume: Volume| Volume::from_base(volume.base() + growth.drawn_cold.base());
    let expansion = growth.in_tank.map(swing);
    let tilt = if recovery { tilt_volume(side, scribe) } else { None };
    let mut need = HeadroomNeed::usual(fill, expansion, tilt);
    need.leakage_share = project.tank.leak_reserve.unwrap_or_else(defaults::leak_reserve).likely;
    need.surge = Surge::Share(project.tank.surge.unwrap_or_else(defaults::surge));
    if !recovery {
        // A can nothing comes back from, or a header tank with its own cushion, keeps no reserve.
        need.leakage_share = Ratio::from_base(0.0);
        need.leakage_least = Volume::from_base(0.0);
    }
    // Its own sum has a margin where this program reckons with the spread; the sum that counts is written further down.
    let room = headroom(&side.tank, &need, &mut Silent).fail("tank")?;
    scribe.step(|| {
        Step::new(
            "Least liquid kept: dip tube covered, reserve against leaks",
            "V_low",
            "the greater of both",
            &LEAKAGE_RESERVE,
        )
        .with("V_tilt", need.tilt.unwrap_or_default())
        .with_amount("share", Amount::of_kind(need.leakage_share, Kind::Share))
        .with("V_fill", fill)
        .gives(room.low)
    });
    side.cold_volume = match project.tank.cold_level {
        Some(level) if !side.is_header() => side.tank.volume_at(level, scribe).fail("tank.cold_level")?,
        // Air bled badly collects under the cap on the first drive.
        _ if side.is_header() => {
            let air = project.circuit.trapped_air.unwrap_or_else(defaults::trapped_air).likely.base();
            let gas = project.tank.cushion.base() + air;
            Volume::from_base((side.tank.capacity().base() - gas).max(0.0))
        }
        _ if recovery => {
            let wanted = room.low.base() + growth.drawn_cold.base();
            Volume::from_base(wanted.min(side.tank.capacity().base()))
        }
        _ => Volume::from_base(0.0),
    };
    Ok(room)
}

/// Everything about the tank at the hottest state.
pub(super) fn answers(
    side: &Side<'_, '_>,
    growth: &Growth,
    room: &Headroom,
    system: &FilledSystem,
    excess: Power,
    scribe: &mut impl Scribe,
) -> Result<TankAnswers, Problems> {
    let recovery = side.arrangement() == TankArrangement::RecoveryTank;
    let capacity = side.tank.capacity();
    let warm = warm_reserve(side)?;
    let used = |growth: Volume, surge: Volume| capacity.base() - warm - growth.base() - surge.base();
    let likely = used(growth.in_tank.likely, room.surge.likely);
    let off = |pick: fn(&Estimate<Volume>) -> Volume| {
        let deviation = |estimate: &Estimate<Volume>| pick(estimate).base() - estimate.likely.base();
        deviation(&growth.in_tank).hypot(deviation(&room.surge))
    };
    let spare = Estimate {
        low: Volume::from_base(likely - off(|e| e.high)),
        likely: Volume::from_base(likely),
        high: Volume::from_base(likely + off(|e| e.low)),
    };
    scribe.chapter("tank-room", "Volume wanted, and room left");
    scribe.step(|| {
        Step::new(
            "Volume wanted with the cold level as it is",
            "V",
            "V = V_cold·ρ₀/ρ_hot + V_expand + V_surge",
            &DEFINITION,
        )
        .with("V_cold", side.cold_volume)
        .with("V_cold·ρ₀/ρ_hot", Volume::from_base(warm))
        .with("V_expand", growth.in_tank.likely)
        .with("V_surge", room.surge.likely)
        .gives(Volume::from_base(capacity.base() - likely))
    });
    scribe.step(|| {
        Step::new("Room left", "V_left", "V_left = V_tank − V", &DEFINITION)
            .with("V_tank", capacity)
            .gives(spare.likely)
    });
    let mark = |volume: f64| side.tank.height_at(Volume::from_base(volume), &mut Silent).ok();
    let covers = if recovery { covers(side, growth, scribe)? } else { Covers::default() };
    let reach = reach(side, growth, system)?;
    scribe.chapter("return", "Return on cooling and its suction");
    let cycle = side.cycle(system, reach, 2, scribe)?;
    let zero = Pressure::from_base(0.0);
    let header_mark = |state_gas: f64| mark(capacity.base() - state_gas);
    let (cold_mark, hot_mark) = if side.is_header() {
        (mark(side.cold_volume.base()), header_mark(cycle.hot.gas_volume.base()))
    } else {
        (mark(side.cold_volume.base()), mark(warm + growth.in_tank.likely.base()))
    };
    Ok(TankAnswers {
        capacity,
        wanted: spare.map(|spare| Volume::from_base(capacity.base() - spare.base())),
        reserve: room.low,
        leak_reserve: Volume::from_base(leak_reserve(side, room)?),
        surge: room.surge.likely,
        headroom: spare,
        cold_volume: side.cold_volume,
        cold_mark,
        hot_mark,
        full_mark: if side.is_header() { None } else { mark(capacity.base() - room.surge.likely.base()) },
        least_cold_mark: if recovery { mark(room.low.base() + growth.drawn_cold.base()) } else { None },
        tilt_cold_mark: if recovery {
            tilt_volume(side, &mut Silent).and_then(|volume| mark(volume.base() + growth.drawn_cold.base()))
        } else {
            None
        },
        cover_at_rest: covers.at_rest,
        cover_cornering: covers.cornering,
        cover_braking: covers.braking,
        cover_unknown: covers.unknown,
        suction: cycle.suction.map_or(Estimate::exact(zero), |suction| suction.required),
        comes_back: cycle.recovers,
        air_after: cycle.gas_cold,
        lost: cycle.lost_cold,
        next_expelled: cycle.second_expelled_cold,
        cooling_gauge: cycle.cold_pressure.to_gauge(side.context.ambient),
        vent: vent(side, growth, system, excess, scribe)?,
        notes: cycle.notes,
    })
}

/// The least kept against leaks alone, m³.
fn leak_reserve(side: &Side<'_, '_>, room: &Headroom) -> Result<f64, Problems> {
    if side.arrangement() != TankArrangement::RecoveryTank {
        return Ok(0.0);
    }
    let share = side.context.project.tank.leak_reserve.unwrap_or_else(defaults::leak_reserve).likely;
    let least = usual::leakage_least().likely().base();
    Ok((side.context_fill_volume()?.base() * share.base()).max(least).min(room.low.base()))
}

/// What was filled into the tank, at the tank's hot temperature, m³.
fn warm_reserve(side: &Side<'_, '_>) -> Result<f64, Problems> {
    let mix = &side.context.mix;
    let cold = mix.density(side.context.project.surroundings.filled_at, &mut Silent).fail("coolant")?.base();
    let hot = mix.density(side.tank_temperature().likely, &mut Silent).fail("tank.tank_temperature")?.base();
    Ok(side.cold_volume.base() * cold / hot)
}

/// Cover on the coldest start, when the tank holds least.
fn covers(side: &Side<'_, '_>, growth: &Growth, scribe: &mut impl Scribe) -> Result<Covers, Problems> {
    scribe.chapter("dip-tube", "Cover of the dip tube, coldest start");
    let least = Volume::from_base((side.cold_volume.base() - growth.drawn_cold.base()).max(0.0));
    let tube = tube(side);
    let mut unknown = None;
    let mut depth = |tilt: &Tilt, scribe: &mut _| match tilt::cover(&side.tank, least, &tube, tilt, scribe) {
        Ok(Cover::Known(depth)) => Ok(Some(depth)),
        Ok(Cover::NotKnown(why)) => {
            unknown = Some(why.to_owned());
            Ok(None)
        }
        Err(error) => {
            // Only a dip table can begin above the floor.
            let table = side.context.project.tank.shape == ShapeKind::DipTable;
            Err(problem(if table { "tank.dips" } else { "tank.tube_end" }, error.to_string()))
        }
    };
    let at_rest = depth(&tilt(0.0, 0.0), &mut *scribe)?;
    let [right, left, braking, accelerating] = tilts(side);
    let lesser = |a: Option<Length>, b: Option<Length>| match (a, b) {
        (Some(a), Some(b)) => Some(if a < b { a } else { b }),
        _ => None,
    };
    let cornering = lesser(depth(&right, &mut *scribe)?, depth(&left, &mut *scribe)?);
    let braking = lesser(depth(&braking, &mut *scribe)?, depth(&accelerating, &mut *scribe)?);
    Ok(Covers { at_rest, cornering, braking, unknown })
}

/// How the tube reaches the coolant while the engine cools at a standstill.
fn reach(side: &Side<'_, '_>, growth: &Growth, system: &FilledSystem) -> Result<TubeReach, Problems> {
    if side.arrangement() != TankArrangement::RecoveryTank {
        return Ok(TubeReach::Covered);
    }
    let below = side.tank.volume_at(side.context.project.tank.tube_end, &mut Silent).fail("tank.tube_end")?.base();
    let expelled = growth.in_tank.likely.base();
    let short = below - side.cold_volume.base();
    let _ = system;
    Ok(if short <= 0.0 {
        TubeReach::Covered
    } else if short >= expelled {
        TubeReach::Uncovered
    } else {
        TubeReach::Short(Volume::from_base(short))
    })
}

/// Pressure over the allowed one, as a factor, at which a tank is reckoned to give way rather than to be strained.
const OVERWHELMED: f64 = 5.0;

/// The heat that boils coolant: that of a hot stop, or what a duty leaves over if that is more.
fn boiling_heat(excess: Power) -> Estimate<Power> {
    let stop = usual::after_heat().estimate;
    // The hose, not the heat, is the limit well before 100 kW, where the vent's load ends.
    let over = excess.base().min(100e3);
    let at_least = |power: Power| Power::from_base(power.base().max(over));
    Estimate { low: stop.low, likely: at_least(stop.likely), high: at_least(stop.high) }
}

fn vent(
    side: &Side<'_, '_>,
    growth: &Growth,
    system: &FilledSystem,
    excess: Power,
    scribe: &mut impl Scribe,
) -> Result<Option<VentAnswers>, Problems> {
    if side.is_header() {
        return Ok(None);
    }
    let context = side.context;
    let inputs = &context.project.tank;
    let ambient = context.ambient;
    let allowed = inputs.allowed_pressure.unwrap_or_else(defaults::allowed_pressure);
    let tank_air = side.tank_temperature().likely;
    let limit = side.limit(GaugePressure::from_base(0.0)).likely;
    let heat = boiling_heat(excess);
    scribe.chapter("vent", "Vent: pressure and smallest hole");
    let warm_up = VentLoad::warm_up(&growth.in_tank, usual::warm_up_time().likely(), tank_air, ambient, scribe)
        .fail("tank.vent")?;
    let boils = context.mix.boiling_point(limit, &mut Silent).fail("cap.opening")?;
    // The coolant's data end at 130 °C.
    let last = crate::quantity::celsius(130.0);
    let boils = if boils < last { boils } else { last };
    // The coolant that a boiling engine pushes out is as hot as the engine's hottest state, boiling at most.
    let lifted_at = if growth.hottest < boils && excess.base() <= 0.0 { growth.hottest } else { boils };
    let lifted = LiftedLiquid::by_boiling(&heat, limit, lifted_at, tank_air, scribe).fail("tank.vent")?;
    let across = Pressure::from_base(limit.base() - ambient.base());
    let lifted = lifted
        .within_hose(&context.mix, inputs.hose_bore, inputs.hose_length, across, scribe)
        .fail("tank.hose_bore")?;
    // Boiling behind the cap is the hottest it can be: less of it passes the hose, but more of that flashes.
    let boiling = LiftedLiquid { temperature: boils, ..lifted }
        .flashing_in_hose(&context.mix, inputs.hose_bore, limit, scribe)
        .fail("tank.hose_bore")?;
    let lifted = if excess.base() > 0.0 { boiling } else { lifted };
    let cap_lift = VentLoad::cap_lift(&context.mix, &lifted, ambient, scribe).fail("tank.vent")?;
    let boiling = VentLoad::cap_lift(&context.mix, &boiling, ambient, &mut Silent).fail("tank.vent")?;
    let worst = if boiling.flow.high > cap_lift.flow.high { boiling.flow.high } else { cap_lift.flow.high };
    let cap_lift = VentLoad { flow: Estimate { high: worst, ..cap_lift.flow }, ..cap_lift };
    let boil_over = VentLoad::boil_over(&heat, ambient, scribe).fail("tank.vent")?;
    let ceiling = VentLoad::hose_ceiling(inputs.hose_bore, limit, &usual::hose_discharge().estimate, scribe)
        .fail("tank.hose_bore")?;
    let steam = VentLoad {
        gas: VentGas::Steam,
        flow: boil_over.flow.map(|flow| if flow < ceiling.flow.likely { flow } else { ceiling.flow.likely }),
    };
    let kind = match inputs.vent {
        VentKind::Hole => Some(Vent::hole(inputs.vent_diameter)),
        VentKind::Tube => Some(Vent::Tube { bore: inputs.vent_diameter, length: inputs.vent_length }),
        VentKind::Sealed => None,
    };
    let sealed = side.sealed(tank_air);
    let if_sealed = system.settle_sealed(side.opening.likely, &sealed, &mut Silent);
    let gauge = |load: &VentLoad, scribe: &mut _| -> Result<Option<Estimate<GaugePressure>>, Problems> {
        kind.as_ref()
            .map(|vent| vent.pressure(load, ambient, scribe).fail("tank.vent_diameter"))
            .transpose()
            .map(|found| found.map(|pressure| pressure.gauge))
    };
    let warm_up_gauge = gauge(&warm_up, &mut *scribe)?;
    let cap_lift_gauge = gauge(&cap_lift, &mut *scribe)?;
    let steam_gauge = gauge(&steam, &mut *scribe)?;
    let target = GaugePressure::from_base(allowed.likely.base());
    let discharge = usual::hole_discharge().estimate;
    let hole = |load: &VentLoad, scribe: &mut _| {
        smallest_hole(load, target, &discharge, ambient, scribe).fail("tank.allowed_pressure")
    };
    let (if_sealed, sealed_gain) = match if_sealed {
        Ok(state) => {
            let open = side.margin(growth.hottest, system, &mut Silent)?;
            let shut = side.margin_with(growth.hottest, system, state.tank.with_vapour, &mut Silent)?;
            let gain = TemperatureInterval::from_base(shut.likely.base() - open.likely.base());
            (Ok(state.tank.with_vapour), Some(gain))
        }
        Err(error) => (Err(error.to_string()), None),
    };
    Ok(Some(VentAnswers {
        sealed: kind.is_none(),
        overwhelmed: [&warm_up_gauge, &cap_lift_gauge, &steam_gauge]
            .into_iter()
            .flatten()
            .any(|gauge| gauge.likely.base() > OVERWHELMED * allowed.likely.base()),
        warm_up: warm_up_gauge,
        cap_lift: cap_lift_gauge,
        steam: steam_gauge,
        if_sealed,
        sealed_margin_gain: sealed_gain,
        least_hole_warm_up: hole(&warm_up, &mut *scribe)?,
        least_hole_cap_lift: hole(&cap_lift, &mut *scribe)?,
        least_hole_steam: hole(&steam, &mut *scribe)?,
        steam_flow: steam.flow,
        across_top: side.tank.across_top(),
        allowed,
    }))
}
