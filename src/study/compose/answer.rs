//! All answers, in the order in which one needs the other.

use super::blow_by::{Areas, Cylinder, Running, cylinder_at};
use super::context::Context;
use super::coolant::Side;
use super::crankcase;
use super::moisture::Damp;
use super::narrow::narrow;
use super::notes::{self, DutyNotes, each_once};
use super::oil_heat::Warmth;
use super::radiators::Radiators;
use super::taken::Takes;
use super::thermal::{self, DutyHeat};
use super::ventilation::Parts;
use super::verdicts::{self, Findings};
use super::{Fail, failure, filled, idle, joint, lines, oil, oil_heat, set_points, tank, valve, ventilation};
use crate::crankcase::arrangement::AIR_CLEANER;
use crate::crankcase::blow_by::measuring_caution;
use crate::note::Note;
use crate::quantity::si::ThermodynamicTemperature;
use crate::quantity::{Estimate, GaugePressure, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::study::{Answers, CoolantAnswers, Duty, DutyAnswers, Growth, Means, Problems, Project, RegionAnswer, Rest};

/// The hottest the coolant's data reach, K.
const LAST: f64 = 273.15 + 130.0;

/// All answers of a checked project.
pub(in crate::study) fn answer(project: &Project, scribe: &mut impl Scribe) -> Result<Answers, Problems> {
    let context = Context::new(project, scribe)?;
    let mut side = Side::new(&context, scribe)?;
    let radiators = Radiators::of(&context, scribe)?;
    let weakest = side.limit(GaugePressure::from_base(0.0)).low;
    let ceiling = thermal::ceiling(&context, weakest)?;
    let mut heats = Vec::with_capacity(5);
    for duty in Duty::ALL {
        heats.push(thermal::duty_heat(&context, &radiators, duty, ceiling, scribe)?);
    }
    let by_outlet = |a: &(Duty, &DutyHeat), b: &(Duty, &DutyHeat)| a.1.outlet.base().total_cmp(&b.1.outlet.base());
    let Some((worst, hottest)) = Duty::ALL.into_iter().zip(&heats).max_by(by_outlet) else {
        return Err(super::problem("duty", "there is no duty point"));
    };
    let warmth = warmth(&context, &heats)?;
    let drawn = side.drawn_cold(scribe)?;
    let parts = filled::parts_at(hottest.outlet, hottest.radiator_outlet);
    let (growth, system) = side.growth(&parts, drawn, scribe)?;
    let room = tank::settle_cold_volume(&mut side, &growth, scribe)?;
    let excess = heats.iter().map(DutyHeat::excess).fold(0.0, f64::max);
    let tank_answers = tank::answers(&side, &growth, &room, &system, Measured::from_base(excess), scribe)?;
    let ventilated = ventilation::parts(&project.ventilation, scribe)?;
    let (mut duties, mut notes) = duties(&context, &side, &heats, &warmth, &ventilated, scribe)?;
    after_the_hottest(&side, &heats, hottest, &mut duties)?;
    let cover_joint = joint::answers(&context, &duties, scribe)?.map(|(joint, remarks)| {
        notes.extend(remarks);
        joint
    });
    let narrow = narrow(&context, &duties[Duty::FullThrottle.index()].blow_by)?;
    if narrow.best().is_some_and(|best| best.by == Means::Meter) {
        notes.push(measuring_caution());
    }
    let valve = valve::answers(&context, &duties, scribe)?.map(|(valve, remarks)| {
        notes.extend(remarks);
        valve
    });
    let idle_mixture = idle::answers(&context, &duties, scribe);
    let failures = failure::answers(&context, &ventilated.likely, &duties, scribe)?;
    let damp = Damp::new(&context, &duties, &warmth);
    let (moisture, remarks) = damp.answers(&context, &duties, scribe);
    notes.extend(remarks);
    let (oil, remarks) = oil::answers(&context, &duties, &moisture, scribe);
    notes.extend(remarks);
    let (lines, remarks) = lines::answers(&context, &duties, scribe)?;
    notes.extend(remarks);
    let coldest = side.coldest;
    scribe.chapter("held/cold-morning", "System and tank on the coldest start");
    let cold_morning = Rest {
        temperature: coldest,
        held: side.held(&filled::parts_all(coldest), coldest, scribe)?,
        spread: Estimate::exact(coldest),
        boils: false,
    };
    let hot_stop = hot_stop(&context, &side, hottest, &system, scribe)?;
    let set_points = set_points::all(&context, &side, &radiators, &heats, ceiling, &damp, &warmth)?;
    let heater = oil_heat::heater(&context, &radiators, worst, &hottest.engine, ceiling)?;
    notes.extend(oil_heat::notes(&duties));
    notes.extend(context.notes.iter().cloned());
    notes.extend(radiators.notes(&context));
    notes.extend(radiators.outside_louvres(&context, &duties));
    notes.extend(growth.notes.iter().cloned());
    notes.extend(tank_answers.notes.iter().cloned());
    notes.extend(context.mix.notes(hottest.outlet, weakest));
    let coolant = coolant(&context, &side, &system, scribe)?;
    let mut answers = Answers {
        ambient: context.ambient,
        coolant,
        growth,
        tank: tank_answers,
        radiator: radiators.answers(project.radiator.knowledge),
        duties,
        narrow,
        cold_morning,
        hot_stop,
        valve,
        idle_mixture,
        failures,
        moisture,
        engine_oil: warmth.answer(scribe),
        heater,
        oil,
        lines,
        cover_joint,
        set_points,
        verdicts: Vec::new(),
        taken: Takes::of(project),
        notes: each_once(notes),
        working: Vec::new(),
    };
    let unfavourable = heats.iter().map(|heat| heat.holds_unfavourable).collect();
    let findings =
        Findings { context: &context, heats_hold: unfavourable, room: &room, radiators: &radiators, ceiling };
    answers.verdicts = verdicts::all(&answers, &findings)?;
    Ok(answers)
}

fn warmth<'c, 'p>(context: &'c Context<'p>, heats: &[DutyHeat]) -> Result<Warmth<'c, 'p>, Problems> {
    let five: Result<[_; 5], _> = heats.iter().map(|heat| heat.engine).collect::<Vec<_>>().try_into();
    Warmth::new(context, five.map_err(|_| super::problem("duty", "there are not five duty points"))?)
}

fn coolant(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    system: &crate::coolant::FilledSystem,
    scribe: &mut impl Scribe,
) -> Result<CoolantAnswers, Problems> {
    let mix = &context.mix;
    scribe.chapter("freezing", "Freezing point");
    let freezing = mix.freezing_point(scribe).map_err(|error| error.to_string());
    let freezing_to_count_on = mix.freezing_point_safe(&mut Silent).map_err(|error| error.to_string());
    scribe.chapter("boiling", "Boiling point behind the cap");
    let boiling_open = mix.boiling_point(context.ambient, &mut Silent).fail("surroundings.altitude")?;
    let limit = side.limit(GaugePressure::from_base(0.0));
    let at = |pressure, scribe: &mut _| mix.boiling_point(pressure, scribe).fail("cap.opening");
    let boiling_at_cap = Estimate::sorted(
        at(limit.low, &mut *scribe)?,
        mix.boiling_point(limit.likely, &mut Silent).fail("cap.opening")?,
        mix.boiling_point(limit.high, &mut Silent).fail("cap.opening")?,
    );
    Ok(CoolantAnswers {
        mix: mix.to_string(),
        freezing,
        freezing_to_count_on,
        boiling_open,
        boiling_at_cap,
        cap_opening: side.opening,
        volume: side.context_fill_volume()?,
        regions: system
            .circuit
            .regions
            .iter()
            .map(|region| RegionAnswer { name: region.name.clone(), volume: region.volume.likely })
            .collect(),
    })
}

fn duties(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    heats: &[DutyHeat],
    warmth: &Warmth<'_, '_>,
    parts: &Parts,
    scribe: &mut impl Scribe,
) -> Result<([DutyAnswers; 5], Vec<Note>), Problems> {
    let mut cylinders = Vec::with_capacity(5);
    for duty in Duty::ALL {
        let key = format!("cylinder/{}", duty.word());
        scribe.chapter(&key, &format!("Cylinder pressure: {}", duty.name()));
        let path = format!("duty.{}", duty.word());
        cylinders.push(cylinder_at(context, duty, Running::at(context, duty), &path, scribe)?);
    }
    let full: &Cylinder = &cylinders[Duty::FullThrottle.index()];
    let areas = Areas::of(context, full, scribe)?;
    let mut duty_notes = DutyNotes::default();
    let mut answers = Vec::with_capacity(5);
    for (duty, heat) in Duty::ALL.into_iter().zip(heats) {
        let one = Ventilated { areas: &areas, parts, full, warmth };
        answers.push(one.duty(context, side, duty, heat, &cylinders[duty.index()], &mut duty_notes, scribe)?);
    }
    let five: Result<[DutyAnswers; 5], _> = answers.try_into();
    let five = five.map_err(|_| super::problem("duty", "there are not five duty points"))?;
    let mut notes = duty_notes.named();
    notes.extend(areas.notes);
    notes.extend(notes::of_arrangement(context, &five));
    Ok((five, notes))
}

struct Ventilated<'a> {
    areas: &'a Areas,
    parts: &'a Parts,
    full: &'a Cylinder,
    warmth: &'a Warmth<'a, 'a>,
}

impl Ventilated<'_> {
    #[allow(clippy::too_many_arguments)] // One duty needs what all parts found for it.
    fn duty(
        &self,
        context: &Context<'_>,
        side: &Side<'_, '_>,
        duty: Duty,
        heat: &DutyHeat,
        cylinder: &Cylinder,
        notes: &mut DutyNotes,
        scribe: &mut impl Scribe,
    ) -> Result<DutyAnswers, Problems> {
        scribe.chapter(&format!("blow-by/{}", duty.word()), &format!("Blow-by: {}", duty.name()));
        let (blow_by, remarks) = self.areas.blow_by(cylinder, scribe)?;
        let (manifold, manifold_estimated) = context.manifold[duty.index()];
        let air = cylinder.trace.air_flow();
        let filter = context.filter_depression(air, self.full.trace.air_flow()).likely;
        if let Err(outside) = AIR_CLEANER.check(filter) {
            let times = air.base() / self.full.trace.air_flow().base();
            let message = format!(
                "{outside}. The engine breathes {times:.2} times the air of full throttle here; full throttle is meant \
                 to be the duty with the most air, so check both engine speeds and manifold pressures"
            );
            return Err(super::problem(format!("duty.{}.rpm", duty.word()), message));
        }
        let when = duty.name();
        let at = |flow| crankcase::boundary(context, flow, manifold, filter);
        let title = format!("Crankcase, high blow-by: {}", duty.name());
        scribe.chapter(&format!("crankcase/{}", duty.word()), &title);
        let cases = crankcase::cases(self.parts, &blow_by, at, when, scribe)?;
        notes.add(duty, &blow_by, cylinder.notes().into_iter().chain(remarks).chain(cases.notes));
        let at = at(blow_by.forward.high);
        let limit = crankcase::limit(context, duty);
        scribe.chapter(&format!("held/{}", duty.word()), &format!("Pressure and margin: {}", duty.name()));
        let parts = filled::parts_at(heat.outlet, heat.radiator_outlet);
        let held = side.held(&parts, side.tank_temperature().likely, scribe)?;
        scribe.chapter(&format!("warmth/{}", duty.word()), &format!("Oil and metal: {}", duty.name()));
        let oil = self.warmth.of(duty, heat.outlet, scribe)?;
        Ok(DutyAnswers {
            duty,
            manifold,
            manifold_estimated,
            heat: heat.heat,
            thermal: heat.thermal.clone(),
            outlet: heat.outlet,
            oil,
            held,
            air,
            air_fuel: cylinder.air_fuel,
            blow_by,
            crankcase: cases.three,
            unfavourable: cases.unfavourable,
            deepest: cases.deepest,
            turns_at: crankcase::turns_at(&self.parts.likely, &at),
            limit_at: crankcase::limit_at(&self.parts.likely, &at, limit.likely),
            limit,
            stop: crankcase::stop(context),
            depression: crankcase::depression(context),
        })
    }
}

/// What drives out coolant at the hottest duty lowers the pressure of the lighter ones that follow.
fn after_the_hottest(
    side: &Side<'_, '_>,
    heats: &[DutyHeat],
    hottest: &DutyHeat,
    duties: &mut [DutyAnswers; 5],
) -> Result<(), Problems> {
    let most = duties.iter().map(|duty| duty.held.expelled.base()).fold(0.0, f64::max);
    if side.is_header() || most <= 0.0 {
        return Ok(());
    }
    for (duty, heat) in duties.iter_mut().zip(heats) {
        if heat.outlet.base() < hottest.outlet.base() - 0.5 {
            let parts = filled::parts_at(heat.outlet, heat.radiator_outlet);
            duty.held.margin_after = Some(side.margin_after(&parts, Measured::from_base(most))?);
        }
    }
    Ok(())
}

fn hot_stop(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    hottest: &DutyHeat,
    system: &crate::coolant::FilledSystem,
    scribe: &mut impl Scribe,
) -> Result<Rest, Problems> {
    let capacity = filled::engine_coolant_capacity(context, &system.circuit, hottest.outlet)?;
    let soak = thermal::soak(context, hottest.outlet, capacity, scribe);
    let limit = side.limit(GaugePressure::from_base(0.0));
    let boils = |pressure| context.mix.boiling_point(pressure, &mut Silent).fail("cap.opening");
    let (weakest, usual) = (boils(limit.low)?.base(), boils(limit.likely)?.base());
    let doubt = context.mix.boiling_uncertainty().base();
    // Judged at the unfavourable end: the hottest metal behind the weakest cap.
    let may_boil = soak.high.base() > weakest - doubt;
    let running = filled::parts_at(hottest.outlet, hottest.radiator_outlet);
    // Near boiling the gas left in the system grows without bound, so the level there is the running one and the surge.
    let reckoned = soak.likely.base().min(weakest - crate::study::defaults::boiling_allowance().likely.base());
    let stays = may_boil && !side.is_header();
    let engine = if stays { running.engine.base() } else { reckoned.max(running.engine.base()).min(LAST) };
    let parts = crate::coolant::HotTemperatures { engine: ThermodynamicTemperature::from_base(engine), ..running };
    let mut held = side.held(&parts, side.tank_temperature().likely, &mut Silent)?;
    if may_boil && !side.is_header() {
        // Steam in the engine pushes coolant out: the surge allowance is all that is known of how much.
        let surge = context.project.tank.surge.unwrap_or_else(crate::study::defaults::surge).likely;
        let volume = side.context_fill_volume()?.base() * surge.base();
        held.in_tank = Measured::from_base(held.in_tank.base() + volume);
        held.level = side.tank.height_at(held.in_tank, &mut Silent).ok();
        held.cap_open = true;
    }
    // Metal and coolant made even: no excess of a hottest passage comes on top.
    let margin = |boils: f64, at: f64| crate::quantity::si::TemperatureInterval::from_base(boils - at);
    held.margin = Estimate::sorted(
        margin(weakest - doubt, soak.high.base()),
        margin(weakest, soak.likely.base()),
        margin(usual + doubt, soak.low.base()),
    );
    scribe.step(|| {
        Step::new("Margin to boiling after a hot stop", "M", "M = T_bubble(p) − T", &DEFINITION)
            .with("p", limit.low)
            .with("T_bubble", ThermodynamicTemperature::from_base(weakest))
            .with("T", soak.likely)
            .gives(held.margin.likely)
    });
    let temperature = if soak.likely.base() > usual { ThermodynamicTemperature::from_base(usual) } else { soak.likely };
    Ok(Rest { temperature, held, spread: soak, boils: may_boil })
}

/// Where the growth and the tank's state stand at a temperature, for the curves.
pub(super) fn growth_at<'c, 'p>(
    side: &Side<'c, 'p>,
    growth: &Growth,
    temperature: ThermodynamicTemperature,
) -> Result<crate::study::GrowthPoint, Problems> {
    let context = side.context;
    let fill = context.project.surroundings.filled_at;
    let warm = temperature >= fill;
    let parts = if warm { scaled(fill, temperature) } else { filled::parts_all(temperature) };
    // The tank warms with the engine, from the fill's temperature to its own hot one.
    let share = ((temperature.base() - fill.base()) / (growth.hottest.base() - fill.base())).clamp(0.0, 1.0);
    let hot_tank = side.tank_temperature().likely.base();
    let tank_at =
        if warm { fill.base() + share * (hot_tank - fill.base()) } else { temperature.base().max(side.coldest.base()) };
    let held = side.held(&parts, ThermodynamicTemperature::from_base(tank_at), &mut Silent)?;
    let density = context.mix.density(side.tank_temperature().likely, &mut Silent).fail("tank.tank_temperature")?;
    let likely = held.expelled.base() / density.base();
    // The spread grows with the volume itself.
    let wide = |end: f64| if growth.in_tank.likely.base() > 0.0 { end / growth.in_tank.likely.base() } else { 1.0 };
    let (low, high) = (wide(growth.in_tank.low.base()), wide(growth.in_tank.high.base()));
    let in_tank = Estimate::sorted(
        Measured::from_base(likely * low),
        Measured::from_base(likely),
        Measured::from_base(likely * high),
    );
    Ok(crate::study::GrowthPoint { temperature, in_tank, level: held.level, gauge: held.gauge })
}

/// Parts of an engine on its way from cold to hot.
fn scaled(fill: ThermodynamicTemperature, outlet: ThermodynamicTemperature) -> crate::coolant::HotTemperatures {
    let usual = crate::coolant::HotTemperatures::from_engine(outlet);
    let above = |t: ThermodynamicTemperature| if t > fill { t } else { fill };
    crate::coolant::HotTemperatures {
        engine: above(usual.engine),
        radiator: above(usual.radiator),
        heater: above(usual.heater),
        hoses: above(usual.hoses),
    }
}
