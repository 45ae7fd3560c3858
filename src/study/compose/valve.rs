//! The valve to the manifold in the physics' words, and what it does by itself.

use super::context::Context;
use super::{Fail, crankcase, problem};
use crate::crankcase::arrangement::{Boundary, Valve};
use crate::crankcase::blow_by::{mass_flow, standard_volume_flow};
use crate::crankcase::element::{
    BenchFlow, CheckValve, End, FixedOrificeValve, Gas, OrificeBench, PlungerValve, SonicPort, TableValve,
    backfire_tight, barb_discharge, seat_leak,
};
use crate::crankcase::mixture::{Port, PortFinding, check_port};
use crate::fluid::crankcase_gas::standard_pressure;
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Length, MassRate, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Estimate, Measured, celsius};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    Bench, BenchInputs, BenchRow, Duty, DutyAnswers, PortPlace, Problems, ValveAnswers, ValveInputs, ValveKind,
    defaults,
};

/// Where the bench points belong, for a fault.
const TABLE: &str = "ventilation.valve.table";
const DROPS: &str = "ventilation.valve.drops";

/// What stays open against a backfire; none where nobody knows.
fn backfire(inputs: &ValveInputs) -> Option<Estimate<Area>> {
    inputs.kind.shuts_somehow().then(|| inputs.backfire_area.unwrap_or_else(defaults::backfire_area))
}

/// The valve of the inputs.
pub(super) fn valve(inputs: &ValveInputs) -> Result<Valve, Problems> {
    let backfire_area = backfire(inputs).map_or(Area::from_base(0.0), |area| area.likely);
    // What lies behind a shut valve must not be cut off from every pressure known.
    let leak = if backfire_area > seat_leak().likely() { backfire_area } else { seat_leak().likely() };
    Ok(match inputs.kind {
        ValveKind::Plunger => Valve::Plunger(PlungerValve {
            open_area: inputs.open_area,
            idle_area: inputs.idle_area,
            starts_reducing: inputs.begins,
            fully_reduced: inputs.ends,
            backfire_area,
        }),
        ValveKind::SpringPlunger => {
            Valve::SpringPlunger(crate::crankcase::element::SpringPlunger { backfire_area, ..inputs.spring.valve() })
        }
        ValveKind::FixedOrifice => Valve::FixedOrifice(FixedOrificeValve {
            bore: inputs.orifice,
            seat_leak: leak,
            ..FixedOrificeValve::default()
        }),
        ValveKind::Check => Valve::Check(CheckValve {
            effective_area: inputs.check_area,
            opening_pressure: inputs.check_opens_at.unwrap_or_else(defaults::check_opens_at).likely,
            seat_leak: leak,
        }),
        ValveKind::Sonic => {
            Valve::Sonic(SonicPort { conductance: inputs.conductance, critical_ratio: inputs.critical_ratio })
        }
        ValveKind::Table => Valve::Table(
            table(&inputs.bench)?.with_backfire_area(backfire_area).fail("ventilation.valve.backfire_area")?,
        ),
    })
}

fn table(bench: &BenchInputs) -> Result<TableValve, Problems> {
    let (air, room) = (celsius(20.0), standard_pressure());
    let (path, points) = match bench.read {
        Bench::Flow => {
            let mut points = Vec::with_capacity(bench.table.len());
            for (depression, flow) in &bench.table {
                points.push((*depression, mass_flow(*flow, air, room).fail(TABLE)?));
            }
            (TABLE, points)
        }
        Bench::Orifice => {
            let rows = through_orifice(bench, &mut Silent)?;
            (DROPS, rows.iter().map(|row| (row.depression, row.referred)).collect())
        }
    };
    if points.iter().all(|(_, flow)| standard_volume_flow(*flow).base() <= 0.0) {
        return Err(problem(path, "no row has a flow; enter what the valve passed on the bench"));
    }
    TableValve::new(&points, room, air).fail(path)
}

/// The flows of a bench with a known orifice, in air of 20 °C and 101.325 kPa.
fn through_orifice(bench: &BenchInputs, scribe: &mut impl Scribe) -> Result<Vec<BenchFlow>, Problems> {
    let known = OrificeBench {
        bore: bench.orifice,
        discharge: bench.discharge.unwrap_or_else(defaults::known_discharge).likely,
        pressure: standard_pressure(),
        temperature: celsius(20.0),
    };
    known.flows(&bench.drops, scribe).fail(DROPS)
}

/// What the valve does by itself: its flows with air of 20 °C ahead of it, where it moves, its port, its way back.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    scribe: &mut impl Scribe,
) -> Result<Option<(ValveAnswers, Vec<Note>)>, Problems> {
    let ventilation = &context.project.ventilation;
    let inputs = &ventilation.valve;
    if !ventilation.has_valve() {
        return Ok(None);
    }
    let mut bench = Vec::new();
    if inputs.kind == ValveKind::Table && inputs.bench.read == Bench::Orifice {
        scribe.chapter("valve/bench", "PCV valve: flows from the bench with a known orifice");
        for row in through_orifice(&inputs.bench, scribe)? {
            bench.push(BenchRow { depression: row.depression, flow: standard_volume_flow(row.flow), area: row.area });
        }
    }
    scribe.chapter("valve", "PCV valve");
    let valve = valve(inputs)?;
    valve.explain(scribe);
    let widest = valve.widest_opening();
    let mut passes = Vec::with_capacity(5);
    for (duty, answered) in Duty::ALL.into_iter().zip(duties) {
        scribe.chapter(ValveAnswers::working(duty), &format!("PCV valve by itself: {}", duty.name()));
        passes.push(alone(&valve, &around(context, duties, answered), scribe));
    }
    let passes: Result<[_; 5], _> = passes.try_into();
    let passes = passes.map_err(|_| problem("duty", "there are not five duty points"))?;
    let backfire_area = backfire(inputs);
    let shuts = backfire_area.map(|area| area.high <= backfire_tight().likely());
    scribe.chapter("valve/port", "PCV valve: its port and the way back");
    let port = port(context, widest, shuts, scribe)?;
    // What boost does is told with the duties it comes at.
    let told = port.iter().filter(|finding| !matches!(finding, PortFinding::Suits | PortFinding::BoostOnSeat));
    let mut notes: Vec<Note> = told.map(|finding| finding.note()).collect();
    if !context.project.engine.is_diesel() {
        notes.extend(not_home(&valve, &around(context, duties, &duties[Duty::Idle.index()])));
    }
    let answers = ValveAnswers {
        kind: inputs.kind,
        moves_between: valve.moves_between(),
        widest,
        passes,
        bench,
        port,
        backfire_area,
        shuts,
    };
    Ok(Some((answers, notes)))
}

/// A plunger that the idle does not draw home passes more there than its idle opening.
fn not_home(valve: &Valve, idle: &Boundary) -> Option<Note> {
    let (_, ends) = valve.moves_between()?;
    let drawn = idle.ambient.base() - idle.manifold.base();
    (ends.base() > drawn).then(|| {
        let text = "The idle does not draw the valve's plunger home: it passes more there than its idle opening, and a little \
                    more or less depression changes the idle. A softer spring mends it, or a port with more depression.";
        Note::new("plunger-not-home", Weight::Remark, text)
    })
}

/// The state around the ventilation at a duty, likely blow-by.
pub(super) fn around(context: &Context<'_>, duties: &[DutyAnswers; 5], duty: &DutyAnswers) -> Boundary {
    let filter = context.filter_depression(duty.air, duties[Duty::FullThrottle.index()].air).likely;
    crankcase::boundary(context, duty.blow_by.forward.likely, duty.manifold, filter)
}

/// What the valve passes with the ambient air right ahead of it and its port right behind.
fn alone(valve: &Valve, at: &Boundary, scribe: &mut impl Scribe) -> Result<VolumeRate, String> {
    through(valve, at.ambient, (at.manifold, at.manifold_temperature), scribe)
}

/// What the valve passes with air of 20 °C at a pressure right ahead of it, as volume at 20 °C and 101.325 kPa.
pub(super) fn through(
    valve: &Valve,
    ahead: AbsolutePressure,
    (pressure, temperature): (AbsolutePressure, ThermodynamicTemperature),
    scribe: &mut impl Scribe,
) -> Result<VolumeRate, String> {
    let ahead = End { pressure: ahead, temperature: celsius(20.0) };
    let behind = End { pressure, temperature };
    let flow = valve.element().flow(ahead, behind, Gas::default(), scribe).map_err(|error| error.to_string())?;
    Ok(standard_volume_flow(flow))
}

fn port(
    context: &Context<'_>,
    widest: Area,
    shuts: Option<bool>,
    scribe: &mut impl Scribe,
) -> Result<Vec<PortFinding>, Problems> {
    let (inputs, engine) = (&context.project.ventilation.valve, &context.project.engine);
    // The valve's hole as a bore that passes as much as it does wide open.
    let hole = widest.base() / (std::f64::consts::FRAC_PI_4 * barb_discharge().likely().base());
    let valve_bore = Length::from_base(hole.max(0.0).sqrt());
    let port = Port {
        place: inputs.port.place,
        bore: inputs.port.bore.unwrap_or(valve_bore),
        valve_bore,
        // What is not known is told beside the findings; boost is reckoned to come through it.
        shuts_backward: shuts.unwrap_or(!engine.is_boosted() || inputs.port.place == PortPlace::BeforeThrottle),
        checked: matches!(inputs.kind, ValveKind::Check | ValveKind::FixedOrifice),
        boosted: engine.is_boosted(),
        throttled: !engine.is_diesel(),
    };
    check_port(&port, scribe).fail("ventilation.valve.port_bore")
}

/// Flow through the valve at a blow-by case; nothing when it has none or it runs back.
pub(super) fn passed(duty: &DutyAnswers) -> MassRate {
    let flow = duty.likely().flow(crate::study::FlowPath::Valve).map_or(0.0, |flow| flow.out.base());
    MassRate::from_base(flow.max(0.0))
}
