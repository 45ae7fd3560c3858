//! Blow-by at each duty and what the ventilation makes of it.

use super::Fail;
use super::context::Context;
use crate::crankcase::arrangement::{self, Arrangement, Boundary, Line, Outcome, Ventilation};
use crate::crankcase::blow_by::{
    BlowBy, BlowByError, Candidate, Condition, Counted, LeakDownTest, Level, RulesOfThumb, area_from_flow, choose,
    defaults as blow_by_defaults, from_condition, from_leak_down, mass_flow, remarks, standard_volume_flow, through,
};
use crate::crankcase::cylinder::{self, Cycle, Geometry, LeakPath, Leakage, Trace, figures, trace};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, MassRate, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::study::{
    BlowByAnswers, CrankcaseCase, Duty, Flow, FlowPath, Knowledge, LevelAnswer, Problems, RingCondition,
    VentilationArrangement, defaults,
};

/// The cylinder at one duty.
pub(super) struct Cylinder {
    pub trace: Trace,
    pub leakage: Leakage,
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

/// Cylinder pressure and leak at a duty, a speed and a manifold pressure.
pub(super) fn cylinder_at(
    context: &Context<'_>,
    duty: Duty,
    speed: crate::quantity::si::AngularVelocity,
    manifold: crate::quantity::AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Cylinder, Problems> {
    let usual = figures(duty, context.ambient).fail("surroundings.altitude")?.likely();
    let point = cylinder::OperatingPoint { speed, manifold, ..usual };
    cylinder_of(context, &point, &Cycle::default(), scribe).fail(format!("duty.{}", duty.word()))
}

/// Cylinder pressure and leak with any figures of the burn.
pub(super) fn cylinder_of(
    context: &Context<'_>,
    point: &cylinder::OperatingPoint,
    cycle: &Cycle,
    scribe: &mut impl Scribe,
) -> Result<Cylinder, BlowByError> {
    let trace = trace(&geometry(context), point, cycle, context.ambient, scribe)?;
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let leak = LeakPath { crankcase_temperature: gas.likely, ..LeakPath::likely(context.ambient) };
    let leakage = trace.leakage(&leak, scribe)?;
    Ok(Cylinder { trace, leakage })
}

/// The leak as an area, by every level of knowledge there is, best last.
pub(super) struct Areas {
    levels: Vec<(Knowledge, Estimate<Area>)>,
    pub notes: Vec<Note>,
}

impl Areas {
    pub fn of(context: &Context<'_>, full: &Cylinder, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = &context.project.blow_by;
        let mut levels = Vec::with_capacity(3);
        let mut notes = Vec::new();
        scribe.chapter("leak/condition", "Leak from condition and power");
        let condition = match inputs.condition {
            RingCondition::RunIn => Condition::RunIn,
            RingCondition::Fresh => Condition::Fresh,
            RingCondition::Worn => Condition::Worn,
        };
        // No more power than the air breathed can burn: a catalogue's power is not made on a mountain.
        let entered = context.project.duty.of(Duty::FullThrottle).power;
        let power = if entered > context.burnable { context.burnable } else { entered };
        let power = (power.base() >= 100.0).then_some(power);
        let flow = from_condition(&RulesOfThumb::of(condition), full.trace.air_flow(), power, scribe)
            .fail("duty.full_throttle")?;
        let area = area_from_flow(&flow, &full.leakage, Counted::Forward, scribe).fail("blow_by.condition")?;
        levels.push((Knowledge::Condition, area));
        if !inputs.leak_down.is_empty() {
            scribe.chapter("leak/leak-down", "Leak from the leak-down readings");
            let test = LeakDownTest {
                restrictor: inputs.restrictor,
                discharge: blow_by_defaults::restrictor_discharge().estimate,
                supply: inputs.supply,
                // The test is made in the garage, whose altitude nobody asks for; the road's is used.
                ambient: context.ambient,
                ring_share: inputs.ring_share.unwrap_or_else(defaults::ring_share),
                running_to_standing: inputs.running_share.unwrap_or_else(defaults::running_share),
            };
            let area =
                from_leak_down(&inputs.leak_down, &geometry(context), &test, scribe).fail("blow_by.leak_down")?;
            notes.extend(area.notes);
            levels.push((Knowledge::LeakDown, area.running));
        }
        if let Some(measured) = inputs.measured {
            scribe.chapter("leak/measured", "Leak from the flow meter");
            let path = "blow_by.measured_at_full_throttle";
            let gas = inputs.gas_temperature.unwrap_or_else(defaults::gas_temperature);
            let flow = metered(measured, gas, context.ambient, scribe).fail(path)?;
            levels.push((
                Knowledge::Measured,
                area_from_flow(&flow, &full.leakage, Counted::Balance, scribe).fail(path)?,
            ));
        }
        Ok(Self { levels, notes })
    }

    /// The blow-by to judge by at any leak, without working and remarks: for a map of many points.
    pub fn judged(&self, leakage: &Leakage) -> Result<BlowBy, BlowByError> {
        let flows = self.levels.iter().map(|(knowledge, area)| Ok((*knowledge, through(area, leakage, &mut Silent)?)));
        let flows: Vec<_> = flows.collect::<Result<_, BlowByError>>()?;
        Ok(choose(&candidates(&flows))?.judged)
    }

    /// Blow-by at a duty by every level, and the one to work with.
    pub fn blow_by(
        &self,
        cylinder: &Cylinder,
        scribe: &mut impl Scribe,
    ) -> Result<(BlowByAnswers, Vec<Note>), Problems> {
        let mut all: Vec<(Knowledge, BlowBy)> = Vec::with_capacity(3);
        let last = self.levels.len().saturating_sub(1);
        for (i, (knowledge, area)) in self.levels.iter().enumerate() {
            let flow = if i == last {
                through(area, &cylinder.leakage, scribe)
            } else {
                through(area, &cylinder.leakage, &mut Silent)
            };
            all.push((*knowledge, flow.fail("blow_by")?));
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

/// A flow read off a meter: the meter's error and the gas temperature's spread joined as the root of the sum of squares.
fn metered(
    measured: VolumeRate,
    gas: Estimate<ThermodynamicTemperature>,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Estimate<MassRate>, BlowByError> {
    let [hot, likely, cool] = [gas.high, gas.likely, gas.low];
    let flow = mass_flow(measured, likely, ambient)?;
    let meter = blow_by_defaults::meter_error().likely();
    let share = |at| mass_flow(measured, at, ambient).map(|one| (one.base() / flow.base() - 1.0).hypot(meter.base()));
    let spread = |share: f64| MassRate::from_base(flow.base() * (1.0 + share).max(0.0));
    let flow = Estimate::sorted(spread(-share(hot)?), flow, spread(share(cool)?));
    scribe.step(|| {
        Step::new("Mass flow behind the meter's reading", "ṁ", "ṁ = V̇·p/(R·T)", blow_by_defaults::meter_error().source)
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
                Knowledge::Condition => Level::Condition,
                Knowledge::LeakDown => Level::LeakDown,
                Knowledge::Measured => Level::Measured,
            },
            blow_by: *blow_by,
        })
        .collect()
}

/// The state around the ventilation.
pub(super) fn boundary(
    context: &Context<'_>,
    blow_by: MassRate,
    manifold: crate::quantity::AbsolutePressure,
    filter: crate::quantity::si::Pressure,
) -> Boundary {
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    Boundary {
        ambient: context.ambient,
        air_cleaner_depression: filter,
        crankcase_temperature: gas.likely,
        ambient_temperature: context.project.surroundings.hottest,
        ..Boundary::at(blow_by, manifold)
    }
}

/// The ventilation solved at one blow-by; `when` is said with a fault.
pub(super) fn case(
    ventilation: &Ventilation,
    at: &Boundary,
    when: &str,
    scribe: &mut impl Scribe,
) -> Result<(CrankcaseCase, Vec<Note>), Problems> {
    let outcome = arrangement::solve(ventilation, at, scribe)
        .map_err(|error| super::problem("ventilation", format!("{when}: {error}")))?;
    Ok((case_of(&outcome, at), outcome.notes))
}

/// As [`case`], without other pressures it could stand at: for a search that tries many ventilations.
pub(super) fn quick_case(ventilation: &Ventilation, at: &Boundary, when: &str) -> Result<CrankcaseCase, Problems> {
    let outcome = arrangement::solve_one(ventilation, at, &mut Silent)
        .map_err(|error| super::problem("ventilation", format!("{when}: {error}")))?;
    Ok(case_of(&outcome, at))
}

fn case_of(outcome: &Outcome, at: &Boundary) -> CrankcaseCase {
    let Outcome { crankcase_gauge, flows, .. } = outcome;
    let mut list = Vec::with_capacity(3);
    let mut add = |path: FlowPath, line: Line, flow: Option<MassRate>| {
        if let Some(out) = flow {
            let tightest = outcome.tightest(line).map(|loss| (piece_name(loss.piece).to_owned(), loss.drop));
            list.push(Flow { path, out, standard: standard_volume_flow(out), tightest });
        }
    };
    add(FlowPath::Breather, Line::Breather, flows.breather);
    add(FlowPath::Breather, Line::FreshAir, flows.fresh_air);
    add(FlowPath::SecondBreather, Line::SecondBreather, flows.second_breather);
    add(FlowPath::Valve, Line::Valve, flows.valve);
    let cover = outcome.pressure_at(arrangement::Place::BreatherCover);
    // A valve may pass a hundred times the blow-by; what it passes is what the balance is made of.
    let scale = list.iter().map(|flow| flow.out.base().abs()).fold(at.blow_by.base().abs().max(1e-6), f64::max);
    let stood = crankcase_gauge.base();
    CrankcaseCase {
        blow_by: at.blow_by,
        gauge: *crankcase_gauge,
        cover_gauge: cover.map_or(*crankcase_gauge, |place| place.gauge),
        flows: list,
        others: outcome
            .all
            .iter()
            .map(|(gauge, _)| *gauge)
            .filter(|gauge| (gauge.base() - stood).abs() > 1.0)
            .collect(),
        closure: Ratio::from_base(outcome.solution.conservation.base() / scale),
    }
}

/// The crankcase at one duty, every case it is judged by.
pub(super) struct Cases {
    /// At the low, likely and high blow-by.
    pub three: [CrankcaseCase; 3],
    /// At the likely blow-by with baffle and element at their unfavourable ends.
    pub unfavourable: CrankcaseCase,
    /// The deeper of two: the low and the likely blow-by on balance, less what the rings draw back.
    pub deepest: CrankcaseCase,
    /// Remarks on the high blow-by's case and on the deepest.
    pub notes: Vec<Note>,
}

/// Solves every case of a duty; `at` is the state around the ventilation at a blow-by. The high blow-by is written down.
pub(super) fn cases(
    parts: &Parts,
    blow_by: &BlowByAnswers,
    at: impl Fn(MassRate) -> Boundary,
    when: &str,
    scribe: &mut impl Scribe,
) -> Result<Cases, Problems> {
    let forward = blow_by.forward;
    let (likely, _) = case(&parts.likely, &at(forward.likely), when, &mut Silent)?;
    let (high, mut notes) = case(&parts.likely, &at(forward.high), when, scribe)?;
    let (deepest, more) = deepest(&parts.likely, blow_by, &at, when)?;
    notes.extend(more);
    Ok(Cases {
        three: [quick_case(&parts.likely, &at(forward.low), when)?, likely, high],
        unfavourable: quick_case(&parts.unfavourable, &at(forward.likely), when)?,
        deepest,
        notes,
    })
}

/// The deeper of the low and the likely blow-by on balance.
fn deepest(
    ventilation: &Ventilation,
    blow_by: &BlowByAnswers,
    at: &impl Fn(MassRate) -> Boundary,
    when: &str,
) -> Result<(CrankcaseCase, Vec<Note>), Problems> {
    let solve = |flow| case(ventilation, &at(flow), when, &mut Silent);
    let deeper = |low: MassRate, likely: MassRate| {
        let (one, other) = (solve(low)?, solve(likely)?);
        Ok(if other.0.gauge < one.0.gauge { other } else { one })
    };
    let sealed = ventilation.breather.is_none() && ventilation.second_breather.is_none();
    if !(sealed && blow_by.net.low.base() <= 0.0) {
        return deeper(blow_by.net.low, blow_by.net.likely);
    }
    // Nothing can come in past the valve: the balance has no steady state, what passes down alone has one.
    let (case, mut notes) = deeper(blow_by.forward.low, blow_by.forward.likely)?;
    notes.push(Note::new(
        "sealed-drawn-up",
        Weight::Danger,
        "The rings draw up more than they let down and there is no way in: the depression goes on growing until a seal \
         leaks, deeper than the figure, which counts what passes down alone.",
    ));
    Ok((case, notes))
}

/// The ventilation with its parts at their likely values and at their unfavourable ends.
pub(super) struct Parts {
    pub likely: Ventilation,
    pub unfavourable: Ventilation,
}

const fn piece_name(piece: arrangement::Piece) -> &'static str {
    use arrangement::Piece;
    match piece {
        Piece::Baffle => "baffle",
        Piece::Barb => "fitting",
        Piece::Hose => "hose",
        Piece::CanOutlet => "catch can outlet",
        Piece::CanOpening => "catch can opening",
        Piece::Element => "breather element",
        Piece::Valve => "valve",
        Piece::Port => "manifold port",
    }
}

/// Blow-by at which the breather turns round; `None` without a valve or without a breather.
pub(super) fn turns_at(ventilation: &Ventilation, at: &Boundary) -> Option<MassRate> {
    ventilation.breather?;
    arrangement::capacity(ventilation, at, &mut Silent).ok().map(|capacity| capacity.blow_by)
}

/// Blow-by at which the crankcase reaches a limit; `None` where no breather is open.
pub(super) fn limit_at(ventilation: &Ventilation, at: &Boundary, limit: GaugePressure) -> Option<MassRate> {
    arrangement::largest_blow_by(ventilation, at, limit, &mut Silent).ok().map(|largest| largest.blow_by)
}

/// The limit that applies at a duty.
pub(super) fn limit(context: &Context<'_>, duty: Duty) -> Estimate<GaugePressure> {
    let inputs = &context.project.ventilation;
    if duty.under_load() {
        inputs.limits.load.unwrap_or_else(defaults::limit_load)
    } else {
        inputs.limits.light.unwrap_or_else(defaults::limit_light)
    }
}

/// Above this pressure the engine is stopped.
pub(super) fn stop(context: &Context<'_>) -> GaugePressure {
    let usual = arrangement::PressureBands::usual(arrangement::PressureState::FullThrottle).stop_above;
    context.project.ventilation.limits.load.map_or(usual, |limit| limit.high)
}

/// How deep the crankcase may go below the air.
pub(super) fn depression(context: &Context<'_>) -> Estimate<Pressure> {
    context.project.ventilation.limits.depression.unwrap_or_else(defaults::limit_depression)
}

/// The arrangement in the physics' words.
pub(super) const fn arrangement_of(arrangement: VentilationArrangement) -> Arrangement {
    match arrangement {
        VentilationArrangement::BreatherOnly => Arrangement::BreatherOnly,
        VentilationArrangement::TwoBreathers => Arrangement::TwoBreathers,
        VentilationArrangement::ClosedWithFreshAirLine => Arrangement::ClosedWithFreshAirLine,
        // A valve and no other way out is a breather and a valve with the breather blocked.
        VentilationArrangement::BreatherWithValve | VentilationArrangement::ValveOnly => Arrangement::BreatherWithValve,
    }
}
