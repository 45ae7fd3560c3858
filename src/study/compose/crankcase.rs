//! What the ventilation makes of the blow-by at each duty.

use super::context::Context;
use super::ventilation::Parts;
use crate::crankcase::arrangement::{self, Arrangement, Boundary, Line, Outcome, Ventilation, VentilationError};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::crankcase::network::NetworkError;
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Pressure, Ratio};
use crate::quantity::{Estimate, GaugePressure, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    BlowByAnswers, CrankcaseCase, Duty, Flow, FlowPath, PortPlace, Problems, VentilationArrangement, defaults,
};

/// The state around the ventilation. Before the throttle the valve meets the clean side of the air cleaner.
pub(super) fn boundary(
    context: &Context<'_>,
    blow_by: MassRate,
    manifold: crate::quantity::AbsolutePressure,
    filter: crate::quantity::si::Pressure,
) -> Boundary {
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let around = Boundary {
        ambient: context.ambient,
        air_cleaner_depression: filter,
        crankcase_temperature: gas.likely,
        ambient_temperature: context.project.surroundings.hottest,
        ..Boundary::at(blow_by, manifold)
    };
    let before = context.project.ventilation.valve.port.place == PortPlace::BeforeThrottle;
    if before { Boundary { manifold: around.air_cleaner(), ..around } } else { around }
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
    one_case(ventilation, at, when, &mut Silent)
}

/// As [`quick_case`], with its working.
pub(super) fn one_case(
    ventilation: &Ventilation,
    at: &Boundary,
    when: &str,
    scribe: &mut impl Scribe,
) -> Result<CrankcaseCase, Problems> {
    let outcome = arrangement::solve_one(ventilation, at, scribe)
        .map_err(|error| super::problem("ventilation", format!("{when}: {error}")))?;
    Ok(case_of(&outcome, at))
}

pub(super) fn case_of(outcome: &Outcome, at: &Boundary) -> CrankcaseCase {
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
    use arrangement::Place;
    let first = outcome.pressure_at(Place::BreatherCover).map(|place| place.gauge);
    let second = outcome.pressure_at(Place::SecondCover).map(|place| place.gauge);
    let cover = first.or(second);
    let lower = |a: GaugePressure, b: GaugePressure| if b < a { b } else { a };
    // A valve may pass a hundred times the blow-by; what it passes is what the balance is made of.
    let scale = list.iter().map(|flow| flow.out.base().abs()).fold(at.blow_by.base().abs().max(1e-6), f64::max);
    let stood = crankcase_gauge.base();
    CrankcaseCase {
        blow_by: at.blow_by,
        gauge: *crankcase_gauge,
        cover_gauge: cover.unwrap_or(*crankcase_gauge),
        lowest_cover: first.into_iter().chain(second).reduce(lower).unwrap_or(*crankcase_gauge),
        can_gauge: outcome.pressure_at(Place::Can).map(|place| place.gauge),
        crossover: flows.crossover,
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
    let mut unfavourable: Option<CrankcaseCase> = None;
    for pushed in &parts.unfavourable {
        let case = quick_case(pushed, &at(forward.likely), when)?;
        if unfavourable.as_ref().is_none_or(|worst| case.gauge > worst.gauge) {
            unfavourable = Some(case);
        }
    }
    let unfavourable = unfavourable.unwrap_or_else(|| likely.clone());
    Ok(Cases {
        three: [quick_case(&parts.likely, &at(forward.low), when)?, likely, high],
        unfavourable,
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
    let deeper = |low: MassRate, likely: MassRate| {
        let solve = |flow| arrangement::solve(ventilation, &at(flow), &mut Silent);
        let (one, other) = (solve(low)?, solve(likely)?);
        let (blow_by, outcome) = if other.crankcase_gauge < one.crankcase_gauge { (likely, other) } else { (low, one) };
        Ok((case_of(&outcome, &at(blow_by)), outcome.notes))
    };
    let fault = |error: VentilationError| super::problem("ventilation", format!("{when}: {error}"));
    if ventilation.lets_air_in() || blow_by.net.low.base() > 0.0 {
        match deeper(blow_by.net.low, blow_by.net.likely) {
            Err(VentilationError::Network(NetworkError::DrawnEmpty { .. })) => {}
            found => return found.map_err(fault),
        }
    }
    // No more comes in however deep it gets: the balance has no steady state, what passes down alone has one.
    let (case, mut notes) = deeper(blow_by.forward.low, blow_by.forward.likely).map_err(fault)?;
    notes.push(Note::new(
        "sealed-drawn-up",
        Weight::Danger,
        "The rings draw up more than they let down and more than any way in lets through: the depression goes on growing \
         until a seal leaks, deeper than the figure, which counts what passes down alone.",
    ));
    Ok((case, notes))
}

const fn piece_name(piece: arrangement::Piece) -> &'static str {
    use arrangement::Piece;
    match piece {
        Piece::Baffle => "baffle",
        Piece::Mesh => "mesh",
        Piece::Barb => "fitting",
        Piece::Sag => "oil in the sag",
        Piece::Component => "component in the line",
        Piece::Check => "check valve",
        Piece::CanMesh => "mesh of the catch can",
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
        VentilationArrangement::LineToAirCleaner => Arrangement::LineToAirCleaner,
        // A valve and no other way out is a breather and a valve with the breather blocked.
        VentilationArrangement::BreatherWithValve | VentilationArrangement::ValveOnly => Arrangement::BreatherWithValve,
    }
}
