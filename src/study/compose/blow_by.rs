//! The cylinder at an operating point, and the gas past its rings by every level of knowledge.

use super::context::Context;
use super::{Fail, breathing, manifold};
use crate::crankcase::blow_by::{
    BlowBy, BlowByError, Candidate, Counted, InterRing, LeakDownTest, Level, RingPackFigures, RulesOfThumb,
    area_from_flow, choose, defaults as blow_by_defaults, from_condition, from_leak_down, from_ring_pack, mass_flow,
    remarks, standard_volume_flow, through,
};
use crate::crankcase::cylinder::{
    self, Cycle, Geometry, LeakPath, Leakage, OperatingPoint, Trace, air_drawn, back_pressure, diesel_figures, figures,
    trace,
};
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, Area, MassRate, Power, Ratio, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::study::{BlowByAnswers, Duty, Induction, Knowledge, LevelAnswer, Problems, defaults};

/// What the engine does at one moment.
#[derive(Clone, Copy)]
pub(super) struct Running {
    pub speed: AngularVelocity,
    pub manifold: AbsolutePressure,
    /// Brake power, which tells the fuel of a diesel; a throttled engine's fuel follows from its air.
    pub power: Power,
}

impl Running {
    /// As entered for a duty.
    pub fn at(context: &Context<'_>, duty: Duty) -> Self {
        let inputs = context.project.duty.of(duty);
        Self { speed: inputs.rpm, manifold: context.manifold[duty.index()].0, power: inputs.power }
    }

    /// Full load at another speed: the same mean effective pressure.
    pub fn full_load(context: &Context<'_>, speed: AngularVelocity, manifold: AbsolutePressure) -> Self {
        let full = context.project.duty.of(Duty::FullThrottle);
        Self { speed, manifold, power: Power::from_base(full.power.base() * speed.base() / full.rpm.base()) }
    }
}

/// The cylinder at one operating point.
pub(super) struct Cylinder {
    pub trace: Trace,
    pub leakage: Leakage,
    pub path: LeakPath,
    /// Mass of air for each mass of fuel.
    pub air_fuel: Ratio,
    /// Gas past the shaft of a turbocharger over that past the rings.
    pub turbo: Estimate<Ratio>,
    /// A diesel is asked for more power than its air burns without smoke; the fuel is reckoned at that limit.
    pub smokes: bool,
}

/// The engine's size in the physics' words.
pub(super) fn geometry(context: &Context<'_>) -> Geometry {
    let engine = &context.project.engine;
    Geometry {
        bore: engine.bore,
        stroke: engine.stroke,
        rod: engine.rod,
        compression_ratio: engine.compression_ratio,
        cylinders: engine.cylinders,
    }
}

/// Cylinder pressure and leak of an engine that burns as it does at a duty; `path` names the input a fault comes from.
pub(super) fn cylinder_at(
    context: &Context<'_>,
    duty: Duty,
    running: Running,
    path: &str,
    scribe: &mut impl Scribe,
) -> Result<Cylinder, Problems> {
    let diesel = context.project.engine.is_diesel();
    let usual = if diesel { diesel_figures(duty, context.ambient) } else { figures(duty, context.ambient) };
    let usual = usual.fail("surroundings.altitude")?.likely();
    let cycle = if diesel { Cycle::diesel(duty) } else { Cycle::default() };
    cylinder_of(context, &usual, cycle, running, path, scribe)
}

/// As [`cylinder_at`], with any figures of the burn; boost, its heat and what the exhaust stands at come on top.
pub(super) fn cylinder_of(
    context: &Context<'_>,
    usual: &OperatingPoint,
    mut cycle: Cycle,
    running: Running,
    path: &str,
    scribe: &mut impl Scribe,
) -> Result<Cylinder, Problems> {
    let engine = &context.project.engine;
    let diesel = engine.is_diesel();
    let Running { speed, manifold, .. } = running;
    let rise = context.charge_rise(manifold, scribe)?;
    let charge_temperature = usual.charge_temperature + rise;
    let point = OperatingPoint { speed, manifold, charge_temperature, ..*usual };
    if engine.induction == Induction::Turbocharger {
        let boost = GaugePressure::from_base(manifold.base() - context.ambient.base());
        cycle.back_pressure = back_pressure(boost, cylinder::defaults::turbine_over_boost().likely());
    }
    let geometry = geometry(context);
    let mut smokes = false;
    if diesel && point.fired {
        let air = air_drawn(&geometry, &point, &cycle, context.ambient).fail(path)?;
        let fuel = breathing::fuel_flow(context, speed, running.power, path)?;
        let limit = cylinder::defaults::smoke_limit();
        let asked = air.base() / fuel.base();
        smokes = asked < limit.estimate.low.base();
        cycle.air_fuel = Ratio::from_base(asked.max(limit.estimate.low.base()));
        scribe.step(|| {
            Step::new("air for each mass of fuel", "AFR", "AFR = ṁ_air/ṁ_f, no less than the smoke limit", limit.source)
                .with("ṁ_air", air)
                .with("ṁ_f", fuel)
                .with_number("smoke limit", limit.estimate.low.base())
                .gives(cycle.air_fuel)
        });
    }
    let trace = trace(&geometry, &point, &cycle, context.ambient, scribe).fail(path)?;
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let leak = LeakPath { crankcase_temperature: gas.likely, ..LeakPath::likely(context.ambient) };
    let leakage = trace.leakage(&leak, scribe).fail(path)?;
    let (air_fuel, turbo) = (cycle.air_fuel, context.turbo_leak(manifold));
    Ok(Cylinder { trace, leakage, path: leak, air_fuel, turbo, smokes })
}

impl Cylinder {
    /// What is to be said of it, whatever leaks.
    pub fn notes(&self) -> Vec<Note> {
        let mut notes = Vec::new();
        if self.smokes {
            let text = "the power entered takes more fuel than the air burns without smoke; the cylinder is reckoned with \
                        what the air burns. Check power and boost.";
            notes.push(Note::new("diesel-smoke-limit", Weight::Weak, text));
        }
        if self.turbo.high.base() > 0.0 {
            let text = "gas past the shaft seals of the turbocharger comes into the crankcase by its oil drain. It is no \
                        equation, only a share of the blow-by of the rings that you may set: a worn turbocharger leaks \
                        several times as much, and a blow-by meter with the drain led away tells the two apart.";
            notes.push(Note::new("turbo-leak-assumed", Weight::Weak, text));
        }
        notes
    }

    /// The leak with that of the turbocharger on top, for a level that counts everything that comes out of a crankcase.
    fn everything(&self) -> Leakage {
        Leakage { forward: self.leakage.forward * (1.0 + self.turbo.likely.base()), ..self.leakage }
    }
}

/// Where a level takes its leak from.
enum Hole {
    /// One effective area of the whole engine.
    Area(Estimate<Area>),
    /// Two gaps in series.
    Rings(Box<RingPackFigures>, Option<InterRing>),
}

struct Known {
    knowledge: Knowledge,
    hole: Hole,
}

/// The leak by every level of knowledge there is, best last.
pub(super) struct Areas {
    levels: Vec<Known>,
    pub notes: Vec<Note>,
}

/// The leak-down test as it was made.
pub(super) fn leak_down_test(context: &Context<'_>) -> LeakDownTest {
    let inputs = &context.project.blow_by;
    LeakDownTest {
        restrictor: inputs.restrictor,
        discharge: blow_by_defaults::restrictor_discharge().estimate,
        supply: inputs.supply,
        // The test is made in the garage, whose altitude nobody asks for; the road's is used.
        ambient: context.ambient,
        ring_share: inputs.ring_share.unwrap_or_else(defaults::ring_share),
        running_to_standing: inputs.running_share.unwrap_or_else(defaults::running_share),
    }
}

impl Areas {
    pub fn of(context: &Context<'_>, full: &Cylinder, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.blow_by;
        let mut levels = Vec::with_capacity(4);
        let mut notes = Vec::new();
        if inputs.rings.known {
            scribe.chapter("leak/rings", "Leak from the ring gaps, full throttle");
            let (figures, between) = inputs.rings.pack(inputs.condition, context.project.engine.bore);
            let found = from_ring_pack(&figures, &full.trace, &full.path, between.as_ref(), scribe);
            notes.extend(found.fail("blow_by.rings")?.1);
            levels.push(Known { knowledge: Knowledge::RingGap, hole: Hole::Rings(Box::new(figures), between) });
        }
        scribe.chapter("leak/condition", "Leak from condition and power");
        // No more power than the air breathed can burn: a catalogue's power is not made on a mountain.
        let entered = context.project.duty.of(Duty::FullThrottle).power;
        let power = if entered > context.burnable { context.burnable } else { entered };
        let power = (power.base() >= 100.0).then_some(power);
        let rules = RulesOfThumb::of(inputs.condition.physics());
        let flow = from_condition(&rules, full.trace.air_flow(), power, scribe).fail("duty.full_throttle")?;
        let area = area_from_flow(&flow, &full.everything(), Counted::Forward, scribe).fail("blow_by.condition")?;
        levels.push(Known { knowledge: Knowledge::Condition, hole: Hole::Area(area) });
        if !inputs.leak_down.is_empty() {
            scribe.chapter("leak/leak-down", "Leak from the leak-down readings");
            let test = leak_down_test(context);
            let area =
                from_leak_down(&inputs.leak_down, &geometry(context), &test, scribe).fail("blow_by.leak_down")?;
            notes.extend(area.notes);
            levels.push(Known { knowledge: Knowledge::LeakDown, hole: Hole::Area(area.running) });
        }
        if inputs.metered.known {
            let area = metered_area(context, scribe)?;
            levels.push(Known { knowledge: Knowledge::Measured, hole: Hole::Area(area) });
        }
        Ok(Self { levels, notes })
    }

    /// The blow-by to judge by at an operating point, without working and remarks: for a map of many.
    pub fn judged(&self, cylinder: &Cylinder) -> Result<BlowBy, Problems> {
        let flows = self.levels.iter().map(|level| Ok((level.knowledge, level.flow(cylinder, &mut Silent)?)));
        let flows: Vec<_> = flows.collect::<Result<_, Problems>>()?;
        Ok(choose(&candidates(&flows)).fail("blow_by")?.judged)
    }

    /// Blow-by at an operating point by every level, and the one to work with.
    pub fn blow_by(
        &self,
        cylinder: &Cylinder,
        scribe: &mut impl Scribe,
    ) -> Result<(BlowByAnswers, Vec<Note>), Problems> {
        let mut all: Vec<(Knowledge, BlowBy)> = Vec::with_capacity(self.levels.len());
        let last = self.levels.len().saturating_sub(1);
        for (i, level) in self.levels.iter().enumerate() {
            let flow = if i == last { level.flow(cylinder, scribe)? } else { level.flow(cylinder, &mut Silent)? };
            all.push((level.knowledge, flow));
        }
        let Some((knowledge, known)) = all.last().copied() else {
            return Err(super::problem("blow_by", "nothing is known of the blow-by"));
        };
        let choice = choose(&candidates(&all)).fail("blow_by")?;
        let best = choice.judged;
        let mut notes = remarks(&known, &cylinder.trace);
        notes.extend(choice.notes);
        let air = cylinder.trace.air_flow().base();
        let answers = BlowByAnswers {
            knowledge,
            forward: best.forward,
            standard: best.forward.map(standard_volume_flow),
            reverse: best.reverse.likely,
            net: best.net,
            share_of_air: Ratio::from_base(if air > 0.0 { best.forward.likely.base() / air } else { 0.0 }),
            levels: all
                .iter()
                .map(|(knowledge, flow)| LevelAnswer { knowledge: *knowledge, forward: flow.forward })
                .collect(),
        };
        Ok((answers, notes))
    }
}

impl Known {
    fn flow(&self, cylinder: &Cylinder, scribe: &mut impl Scribe) -> Result<BlowBy, Problems> {
        let rings = match &self.hole {
            Hole::Area(area) => through(area, &cylinder.leakage, scribe).fail("blow_by")?,
            Hole::Rings(figures, between) => {
                let found = from_ring_pack(figures, &cylinder.trace, &cylinder.path, between.as_ref(), scribe);
                found.fail("blow_by.rings")?.0
            }
        };
        let share = match self.knowledge {
            // What was measured or is known by rule has the turbocharger's gas in it: it is put back as it was taken out.
            Knowledge::Condition | Knowledge::Measured => Estimate::exact(cylinder.turbo.likely),
            Knowledge::RingGap | Knowledge::LeakDown => cylinder.turbo,
        };
        Ok(with_turbocharger(rings, &share, scribe))
    }
}

/// Adds the gas past the shaft of a turbocharger, as a share of what passes the rings.
fn with_turbocharger(rings: BlowBy, share: &Estimate<Ratio>, scribe: &mut impl Scribe) -> BlowBy {
    if share.high.base() <= 0.0 {
        return rings;
    }
    let more = Estimate {
        low: rings.forward.low * share.low,
        likely: rings.forward.likely * share.likely,
        high: rings.forward.high * share.high,
    };
    let sum = |a: Estimate<MassRate>| Estimate {
        low: a.low + more.low,
        likely: a.likely + more.likely,
        high: a.high + more.high,
    };
    let all = BlowBy { forward: sum(rings.forward), net: sum(rings.net), reverse: rings.reverse };
    scribe.step(|| {
        let source = blow_by_defaults::turbo_leak().source;
        Step::new("gas into the crankcase, turbocharger included", "ṁ_bb", "ṁ_bb = ṁ_rings (1 + s)", source)
            .with("ṁ_rings", rings.forward.likely)
            .with_amount("s", Amount::of_kind(share.likely, Kind::Share))
            .gives(all.forward.likely)
    });
    all
}

/// The area behind a meter's reading, by the leak at the point it was read at.
fn metered_area(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Estimate<Area>, Problems> {
    let inputs = &context.project.blow_by.metered;
    let wide_open = manifold::wide_open(context);
    let manifold = inputs.manifold.unwrap_or(wide_open);
    manifold::check(context, manifold, "blow_by.metered.manifold_pressure")?;
    let mut running = Running::full_load(context, inputs.rpm, manifold);
    let full_power = running.power.base();
    let load = if context.project.engine.is_diesel() {
        running.power = inputs.power.unwrap_or(running.power);
        if full_power > 0.0 { running.power.base() / full_power } else { 1.0 }
    } else {
        manifold.base() / wide_open.base()
    };
    let slow = inputs.rpm.base() < 1.3 * context.project.duty.of(Duty::Idle).rpm.base();
    // The burn of the duty that is most like it.
    let like = match load {
        _ if load >= 0.95 => Duty::FullThrottle,
        _ if load >= 0.7 => Duty::Hill,
        _ if slow => Duty::Idle,
        _ => Duty::Cruise,
    };
    scribe.chapter("leak/measured", "Leak from the flow meter, at the point it was read at");
    let path = "blow_by.metered.rpm";
    let cylinder = cylinder_at(context, like, running, path, scribe)?;
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let meter = blow_by_defaults::meter_error().likely();
    let flow = metered(inputs.flow, gas, meter, context.ambient, scribe).fail("blow_by.metered.flow")?;
    area_from_flow(&flow, &cylinder.everything(), Counted::Balance, scribe).fail("blow_by.metered.flow")
}

/// A flow read off a meter: the meter's error and the gas temperature's spread joined as the root of the sum of squares.
pub(super) fn metered(
    measured: VolumeRate,
    gas: Estimate<ThermodynamicTemperature>,
    meter: Ratio,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Estimate<MassRate>, BlowByError> {
    let [hot, likely, cool] = [gas.high, gas.likely, gas.low];
    let flow = mass_flow(measured, likely, ambient)?;
    let share = |at| mass_flow(measured, at, ambient).map(|one| (one.base() / flow.base() - 1.0).hypot(meter.base()));
    let spread = |share: f64| MassRate::from_base(flow.base() * (1.0 + share).max(0.0));
    let flow = Estimate::sorted(spread(-share(hot)?), flow, spread(share(cool)?));
    scribe.step(|| {
        Step::new("Mass flow behind the meter's reading", "ṁ", "ṁ = V̇·p/(R·T)", &DEFINITION)
            .with("V̇", measured)
            .with("T", likely)
            .with("p", ambient)
            .with_amount("meter's error", Amount::of_kind(meter, Kind::Share))
            .gives(flow.likely)
    });
    Ok(flow)
}

fn candidates(all: &[(Knowledge, BlowBy)]) -> Vec<Candidate> {
    all.iter()
        .map(|(knowledge, blow_by)| Candidate {
            level: match knowledge {
                Knowledge::RingGap => Level::RingPack,
                Knowledge::Condition => Level::Condition,
                Knowledge::LeakDown => Level::LeakDown,
                Knowledge::Measured => Level::Measured,
            },
            blow_by: *blow_by,
        })
        .collect()
}
