//! The cylinder at an operating point, and the gas past its rings by every level of knowledge.

use super::context::Context;
use super::metered;
use super::{Fail, breathing};
use crate::crankcase::blow_by::{
    BlowBy, Candidate, Counted, InterRing, LeakDownTest, Level, RingPackFigures, RulesOfThumb, area_from_flow, choose,
    defaults as blow_by_defaults, from_condition, from_leak_down, from_ring_pack, remarks, standard_volume_flow,
    through,
};
use crate::crankcase::cylinder::{
    self, Cycle, Geometry, LeakPath, Leakage, OperatingPoint, Trace, air_drawn, back_pressure, diesel_figures, figures,
    trace,
};
use crate::heat::Mixture;
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, Area, MassFlux, MassRate, Power, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::blow_by::OTHER_LOAD;
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
    let cycle = if diesel { Cycle::diesel(duty) } else { petrol_cycle(context, duty)? };
    cylinder_of(context, &usual, cycle, running, path, scribe)
}

/// The cycle of a petrol engine with the mixture of a duty, of which just what finds air burns.
pub(super) fn petrol_cycle(context: &Context<'_>, duty: Duty) -> Result<Cycle, Problems> {
    let usual = Cycle::default();
    let Some(air_fuel) = context.project.duty.of(duty).air_fuel else { return Ok(usual) };
    let mixture = Mixture { air_fuel, ..Mixture::neutral() };
    let burnt = mixture.burnt(&mut Silent).fail(format!("duty.{}.air_fuel", duty.word()))?;
    Ok(Cycle { air_fuel, combustion: usual.combustion * burnt, ..usual })
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
    pub(super) fn everything(&self) -> Leakage {
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

/// Where a flow that counts everything was known.
#[derive(Clone, Copy)]
pub(super) struct KnownAt {
    /// Gas past the shaft of a turbocharger over that past the rings there.
    turbo: Estimate<Ratio>,
    /// Leak for each area there.
    leak: MassFlux,
}

impl KnownAt {
    pub const fn of(cylinder: &Cylinder) -> Self {
        Self { turbo: cylinder.turbo, leak: cylinder.leakage.forward }
    }

    /// The turbocharger's share at another point, over rings that are as tight as the flow known leaves them: the more of it
    /// was the turbocharger's, the less was theirs.
    fn share_at(&self, cylinder: &Cylinder) -> Estimate<Ratio> {
        let there = self.turbo;
        let share = |here: Ratio, there_too: Ratio| {
            let rings = (1.0 + there.likely.base()) / (1.0 + there_too.base());
            Ratio::from_base((1.0 + here.base()) * rings - 1.0)
        };
        let here = cylinder.turbo;
        let (low, high) = (share(here.low, there.low), share(here.high, there.high));
        Estimate::sorted(low, here.likely, high)
    }

    /// How far the leak area may part, either way, from that of the point it is known at: the logarithm of
    /// `max(G/G₀, G₀/G)^e`.
    fn parts(&self, cylinder: &Cylinder, scribe: &mut impl Scribe) -> f64 {
        let (here, there) = (cylinder.leakage.forward, self.leak);
        let away = (here.base() / there.base()).ln().abs();
        if !away.is_finite() || away < 1e-9 {
            return 0.0;
        }
        let exponent = blow_by_defaults::other_load().likely();
        let parts = exponent.base() * away;
        scribe.step(|| {
            let meaning = "what another load may change of the leak area, either way";
            Step::new(meaning, "f", "f = max(G/G₀, G₀/G)^e", &OTHER_LOAD)
                .with("G", here)
                .with("G₀ where it was read", there)
                .with("e", exponent)
                .gives_amount(Amount::number(parts.exp()))
        });
        parts
    }
}

/// An area known within a band, at another load: both doubts joined as the root of the sum of squares of their logarithms.
fn widened(area: Estimate<Area>, parts: f64) -> Estimate<Area> {
    let likely = area.likely.base();
    if parts <= 0.0 || area.low.base() <= 0.0 {
        return area;
    }
    let away = |end: Area| (end.base() / likely).ln().hypot(parts).exp();
    Estimate { low: area.likely / away(area.low), likely: area.likely, high: area.likely * away(area.high) }
}

struct Known {
    knowledge: Knowledge,
    hole: Hole,
    /// Where its flow was known; none of what sees the rings alone.
    at: Option<KnownAt>,
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
            levels.push(Known {
                knowledge: Knowledge::RingGap,
                hole: Hole::Rings(Box::new(figures), between),
                at: None,
            });
        }
        scribe.chapter("leak/condition", "Leak from condition and power");
        // No more power than the air breathed can burn: a catalogue's power is not made on a mountain.
        let entered = context.project.duty.of(Duty::FullThrottle).power;
        let power = if entered > context.burnable { context.burnable } else { entered };
        let power = (power.base() >= 100.0).then_some(power);
        let rules = RulesOfThumb::of(inputs.condition.physics());
        let flow = from_condition(&rules, full.trace.air_flow(), power, scribe).fail("duty.full_throttle")?;
        let area = area_from_flow(&flow, &full.everything(), Counted::Forward, scribe).fail("blow_by.condition")?;
        levels.push(Known { knowledge: Knowledge::Condition, hole: Hole::Area(area), at: Some(KnownAt::of(full)) });
        if !inputs.leak_down.is_empty() {
            scribe.chapter("leak/leak-down", "Leak from the leak-down readings");
            let test = leak_down_test(context);
            let area =
                from_leak_down(&inputs.leak_down, &geometry(context), &test, scribe).fail("blow_by.leak_down")?;
            notes.extend(area.notes);
            levels.push(Known { knowledge: Knowledge::LeakDown, hole: Hole::Area(area.running), at: None });
        }
        if inputs.metered.known {
            let reading = metered::area(context, scribe)?;
            notes.extend(reading.note);
            levels.push(Known { knowledge: Knowledge::Measured, hole: Hole::Area(reading.area), at: Some(reading.at) });
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
            Hole::Area(area) => {
                let parts = match (self.knowledge, &self.at) {
                    (Knowledge::Measured, Some(at)) => at.parts(cylinder, scribe),
                    // The spread of a rule of thumb is far wider.
                    _ => 0.0,
                };
                through(&widened(*area, parts), &cylinder.leakage, scribe).fail("blow_by")?
            }
            Hole::Rings(figures, between) => {
                let found = from_ring_pack(figures, &cylinder.trace, &cylinder.path, between.as_ref(), scribe);
                found.fail("blow_by.rings")?.0
            }
        };
        // What was measured or is known by rule has the turbocharger's gas in it: it is put back as it was taken out.
        let share = self.at.map_or(cylinder.turbo, |at| at.share_at(cylinder));
        Ok(with_turbocharger(rings, &share, scribe))
    }
}

/// Adds the gas past the shaft of a turbocharger, as a share of what passes the rings.
fn with_turbocharger(rings: BlowBy, share: &Estimate<Ratio>, scribe: &mut impl Scribe) -> BlowBy {
    if [share.low, share.likely, share.high].iter().all(|share| share.base() == 0.0) {
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
