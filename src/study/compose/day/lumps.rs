//! The bodies of a day from a project, with the parts of the steady answer.

use super::super::context::Context;
use super::super::coolant::Side;
use super::super::fan::{self, airflow};
use super::super::radiators::{Radiators, pump};
use super::super::thermal::{self, thermostat};
use super::super::{Fail, filled};
use super::heats::End;
use crate::coolant::CapSits;
use crate::day::{BehindCap, Joined, Lumps, defaults as usual};
use crate::fluid;
use crate::heat::{self, Outcome, Radiator};
use crate::quantity::si::{AngularVelocity, Area, HeatCapacity, ThermalConductance, Velocity};
use crate::quantity::{Estimate, GaugePressure, Measured};
use crate::scribe::Silent;
use crate::study::{
    Answers, Duty, FanDrive, OilCooling, Problems, RadiatorKnowledge, TankArrangement, VentKind, defaults,
};

/// Road speed at which the wind's share of the sump is stated, m/s, and at which a day wants it; the power it goes with.
const STATED_AT: f64 = 25.0;
const WANTED_AT: f64 = 30.0;
const POWER: f64 = 0.8;

/// Conductance from the block to the coolant over that from oil to coolant.
const BLOCK_SHARE: f64 = 4.0;

/// A value as entered, or as the program takes it, likely.
fn likely<Q: Measured>(entered: Option<Estimate<Q>>, usual: impl FnOnce() -> Estimate<Q>) -> Q {
    entered.unwrap_or_else(usual).likely
}

/// Engine speeds between those of the duties at which a belt's fan is worked out.
const FAN_STEPS: usize = 12;

/// Face velocity of a fan on a belt, by engine speed: at the duties' own and between them, up to a fifth beyond.
fn fan_by_engine(context: &Context<'_>, face: Area) -> Result<Vec<(AngularVelocity, Velocity)>, Problems> {
    let fan = &context.project.radiator.fan;
    if !fan.known || fan.drive != FanDrive::Belt {
        return Ok(Vec::new());
    }
    let mut speeds: Vec<f64> = Duty::ALL.map(|duty| context.project.duty.of(duty).rpm.base()).to_vec();
    let most = 1.2 * speeds.iter().copied().fold(0.0, f64::max);
    let least = speeds.iter().copied().fold(f64::INFINITY, f64::min);
    speeds.extend((0..=FAN_STEPS).map(|step| least + (most - least) * step as f64 / FAN_STEPS as f64));
    speeds.sort_by(f64::total_cmp);
    speeds.dedup_by(|b, a| *b - *a < 1e-6);
    let hottest = context.project.surroundings.hottest;
    let at = |speed: f64| {
        let speed = AngularVelocity::from_base(speed);
        let air = airflow(context, face, (Velocity::from_base(0.0), speed), hottest, &mut Silent)?;
        Ok((speed, air.fan_velocity))
    };
    speeds.into_iter().map(at).collect()
}

/// The bodies at likely values, the cap as stamped.
pub(super) fn likely_lumps(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    radiators: &Radiators,
) -> Result<Lumps, Problems> {
    let project = context.project;
    let (engine, oil, circuit) = (&project.engine, &project.oil, &project.circuit);
    let fill = filled::parts_all(project.surroundings.filled_at);
    let litres = likely(oil.volume, || defaults::oil_volume(engine)).base() * 1e3;
    let mut oil_to_block = likely(oil.block, || defaults::oil_to_block(engine));
    let surroundings = &project.surroundings;
    let air = fluid::air::density(context.ambient, surroundings.hottest, &mut Silent).fail("surroundings.altitude")?;
    let thinner = air.base() / defaults::radiator_reference_density().base();
    let in_wind = likely(oil.sump_driving, || defaults::sump_driving(engine)).base()
        * (thinner * WANTED_AT / STATED_AT).powf(POWER);
    let mut in_cooler = ThermalConductance::from_base(0.0);
    match oil.cooling {
        OilCooling::None => {}
        OilCooling::ToCoolant => oil_to_block += likely(oil.cooler_to_coolant, defaults::oil_cooler_to_coolant),
        OilCooling::ToAir => {
            let stated = oil.cooler_to_air.unwrap_or_else(defaults::oil_cooler_to_air);
            let ram = likely(project.radiator.ram_share, defaults::ram_share);
            let face = Velocity::from_base(ram.base() * WANTED_AT);
            let cooler = heat::OilCooler::in_air(&stated, face, air, oil.cooler_opens).fail("oil.cooler_to_air")?;
            if let heat::OilCooler::ToAir { conductance, .. } = cooler {
                in_cooler = conductance.likely;
            }
        }
    }
    let heater = likely(project.heater.conductance, defaults::heater);
    let system = side.system(&fill, &mut Silent)?;
    let radiator = *radiators.likely();
    let face = radiator.frontal_area;
    let still = (Velocity::from_base(0.0), project.duty.of(Duty::Idle).rpm);
    let airflow = airflow(context, face, still, project.surroundings.hottest, &mut Silent)?;
    let hot_metal = likely(circuit.hot_metal_capacity, || defaults::hot_metal_capacity(engine));
    let swept = engine.swept() * 1e3;
    let by_litre = |each: ThermalConductance| ThermalConductance::from_base(each.base() * swept);
    // The steady answer's oil meets a block as warm as its coolant. Here the block is a body between them, so that the two
    // conductances in a row are the steady one: the block stands a quarter of the way from coolant to oil.
    let least = by_litre(usual::block_running_for_each_litre().likely());
    let to_coolant = oil_to_block * BLOCK_SHARE;
    let oil_to_block = oil_to_block * (BLOCK_SHARE / (BLOCK_SHARE - 1.0));
    Ok(Lumps {
        block: HeatCapacity::from_base(usual::block_for_each_litre().likely().base() * swept),
        block_running: if to_coolant > least { to_coolant } else { least },
        block_still: by_litre(usual::block_still_for_each_litre().likely()),
        block_to_air: by_litre(usual::block_to_air_for_each_litre().likely()),
        block_to_air_on_road: by_litre(usual::block_on_road_for_each_litre().likely()),
        radiator_metal: usual::radiator_metal().likely(),
        flow_power: usual::flow_power().likely(),
        radiator_still: usual::radiator_still().likely(),
        heater_flow: usual::heater_flow().likely(),
        hoses_to_air: ThermalConductance::from_base(
            usual::hoses_for_each_litre().likely().base() * side.context_fill_volume()?.base() * 1e3,
        ),
        closing_lag: likely(project.thermostat.closing_lag, defaults::thermostat_closing_lag),
        wax_lag: usual::wax_lag().likely(),
        fan_by_engine: fan_by_engine(context, face)?,
        fan_switch: fan::switch(context).map(|switch| (switch.on, switch.off)),
        // Nobody has said that it goes on without the engine; without it the stop is the hotter one.
        fan_runs_on: false,
        system,
        radiator,
        pump: pump(context),
        thermostat: thermostat(context, project.thermostat.set_point),
        airflow,
        hot_metal,
        hot_metal_running: likely(circuit.metal_conductance, || defaults::metal_conductance(engine)),
        hot_metal_still: defaults::metal_without_flow(engine).likely,
        oil: HeatCapacity::from_base(
            heat::oil_defaults::oil_capacity().likely().base() * litres + defaults::oil_metal(engine).likely.base(),
        ),
        oil_to_block,
        oil_to_air: likely(oil.sump_still, || defaults::sump_still(engine)),
        oil_to_air_on_road: ThermalConductance::from_base(in_wind),
        oil_cooler_on_road: in_cooler,
        oil_cooler_opens: if oil.cooling == OilCooling::ToAir { oil.cooler_opens } else { None },
        heater: if project.heater.on { heater } else { ThermalConductance::from_base(0.0) },
        behind_cap: behind_cap(context, side)?,
        local_excess: likely(circuit.local_excess, defaults::local_excess),
        surge: likely(project.tank.surge, defaults::surge),
    })
}

/// The tank with its cap as stamped.
fn behind_cap(context: &Context<'_>, side: &Side<'_, '_>) -> Result<BehindCap, Problems> {
    let inputs = &context.project.tank;
    let sealed = inputs.vent == VentKind::Sealed;
    Ok(BehindCap {
        tank: side.tank.clone(),
        filled: side.cold_volume,
        cap: side.cap,
        opening: side.opening.likely,
        draws: side.draws(),
        kind: match side.arrangement() {
            TankArrangement::RecoveryTank => Joined::Recovery { sealed },
            TankArrangement::CatchOnly => Joined::CatchOnly { sealed },
            TankArrangement::HeaderTank => Joined::Header(CapSits::InGas),
        },
        tank_to_air: usual::tank_to_air().likely(),
        tube_end: inputs.tube_end,
    })
}

/// The same at the unfavourable end: cap at the low end of its tolerance, and of what may go wrong with radiator and heat
/// the pair that stands hotter at the hardest duty.
pub(super) fn unfavourable(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    radiators: &Radiators,
    answers: &Answers,
    likely: &Lumps,
) -> Result<(Lumps, End), Problems> {
    let (radiator, end) = hotter_pair(context, side, radiators, answers)?;
    let mut lumps = Lumps { radiator, ..likely.clone() };
    lumps.behind_cap.opening = side.opening.low;
    Ok((lumps, end))
}

fn hotter_pair(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    radiators: &Radiators,
    answers: &Answers,
) -> Result<(Radiator, End), Problems> {
    let measured = context.project.radiator.knowledge == RadiatorKnowledge::MeasuredPoint;
    let ends = if measured { [End::Low, End::High] } else { [End::High, End::Likely] };
    let ceiling = thermal::ceiling(context, side.limit(GaugePressure::from_base(0.0)).low)?;
    let mut hottest: Option<(f64, Radiator, End)> = None;
    for duty in Duty::ALL {
        let pairs = radiators.unfavourable(context, &answers.duties[duty.index()].heat);
        for ((radiator, heat), end) in pairs.into_iter().zip(ends) {
            let set_point = context.project.thermostat.set_point;
            let balance = thermal::balance(context, radiator, set_point, duty, heat, ceiling)?;
            let stands = match balance.solve(&mut Silent).fail(format!("duty.{}", duty.word()))? {
                Outcome::Steady(state) => state.outlet_temperature.base(),
                // Beyond every temperature that settles, by the share of the heat that finds no way out.
                Outcome::None(none) => none.limit.base() + 1e3 * (1.0 + none.deficit.base() / heat.base().max(1.0)),
            };
            if hottest.as_ref().is_none_or(|(most, ..)| stands > *most) {
                hottest = Some((stands, *radiator, end));
            }
        }
    }
    Ok(hottest.map_or((*radiators.likely(), End::High), |(_, radiator, end)| (radiator, end)))
}

#[cfg(test)]
mod tests {
    use super::super::heats;
    use super::*;
    use crate::day::{self, Options, Start, Stretch, Turning};
    use crate::quantity::si::{Power, Time};
    use crate::study::{Project, Thermal, answer};

    /// What the steady answer leaves out, losses of surfaces and the thermostat's lag on the way down, is left out here too:
    /// then a duty held for hours ends at its temperature.
    #[test]
    fn a_duty_held_for_long_is_its_steady_answer() {
        let mut checked = 0;
        let mut off = 0;
        for (share, set_point, switched) in
            [(1.0, 82.0, false), (0.8, 82.0, false), (1.0, 92.0, false), (1.0, 71.0, true)]
        {
            let mut project = Project::blank();
            if switched {
                // Cool enough for the fan to stay off while it idles: its own draught cools the radiator.
                project.radiator.fan.known = true;
                project.radiator.draught = Some(crate::quantity::Estimate::exact(Velocity::from_base(0.8)));
                project.surroundings.hottest = crate::quantity::celsius(0.0);
                project.surroundings.filled_at = project.surroundings.hottest;
            }
            project.thermostat.set_point = crate::quantity::celsius(set_point);
            for duty in &mut project.duty.points {
                duty.power *= share;
            }
            let answers = answer(&project).unwrap();
            let context = Context::new(&project, &mut Silent).unwrap();
            let mut side = Side::new(&context, &mut Silent).unwrap();
            side.cold_volume = answers.tank.cold_volume;
            let radiators = Radiators::of(&context, &mut Silent).unwrap();
            let nothing = ThermalConductance::from_base(0.0);
            let usual = likely_lumps(&context, &side, &radiators).unwrap();
            let lumps = Lumps {
                block_to_air: nothing,
                block_to_air_on_road: nothing,
                hoses_to_air: nothing,
                closing_lag: Measured::from_base(0.0),
                ..usual
            };
            let air = project.surroundings.hottest;
            for duty in Duty::ALL {
                let at = &answers.duties[duty.index()];
                match &at.thermal {
                    // A day follows its turns, where the steady answer is their hot end.
                    Thermal::Steady { fan, .. } if fan.cycles() => continue,
                    Thermal::Steady { fan, .. } => {
                        off += usize::from(duty == Duty::Idle && matches!(fan, heat::FanState::Off { .. }));
                    }
                    _ => continue,
                }
                let inputs = project.duty.of(duty);
                let turning = Turning {
                    speed: inputs.rpm,
                    power: inputs.power,
                    overrun: duty == Duty::Overrun,
                    gear: None,
                    missing: Power::from_base(0.0),
                };
                let stretch = Stretch {
                    leg: 0,
                    lasts: Time::from_base(8.0 * 3600.0),
                    air,
                    air_at_end: air,
                    road_speed: inputs.road_speed,
                    engine: Some(turning),
                };
                let heats = heats::of_day(&context, &answers, &[stretch], End::Likely).unwrap();
                let start = Start { temperature: air };
                let drive = day::run(&lumps, &[stretch], &heats, &start, &Options::default(), &mut Silent).unwrap();
                assert_eq!(drive.cut_short, None);
                let end = drive.samples.last().unwrap();
                let apart = end.coolant.base() - at.outlet.base();
                assert!(apart.abs() < 0.3, "{duty:?}, {share} of the power, {set_point} °C: {apart} K");
                checked += 1;
            }
        }
        assert!(checked >= 16 && off == 1, "{checked} {off}");
    }
}
