//! What the drawing reads from the project and its answers at a moment, in the reader's units.

use super::shown::{DayPoint, Shown};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::day::CapState;
use crate::quantity::si::{Power, ThermodynamicTemperature};
use crate::quantity::{Amount, GaugePressure, Kind, Measured, UnitSystem};
use crate::study::{
    Answers, CrankcaseCase, DutyAnswers, FlowPath, Held, Moment, Part, Project, State, TankArrangement, Thermal,
    Verdict,
};

/// Follows a number as it changes from one moment to the next: its key and where it goes, answered by where it is now.
pub type Motion<'a> = &'a dyn Fn(&'static str, f32) -> f32;

/// Everything the drawing looks at.
pub struct Reading<'a> {
    pub project: &'a Project,
    pub answers: &'a Answers,
    pub shown: Shown<'a>,
    pub system: UnitSystem,
    pub motion: Motion<'a>,
    held: Held,
}

/// Widest arrow, in drawing units.
const WIDEST: f64 = 9.0;
/// A flow there is at all can be seen.
const NARROWEST: f64 = 1.2;

impl<'a> Reading<'a> {
    /// Looks at a state.
    pub fn new(
        project: &'a Project,
        answers: &'a Answers,
        shown: Shown<'a>,
        system: UnitSystem,
        motion: Motion<'a>,
    ) -> Self {
        let held = match &shown {
            Shown::Moment(moment) => answers.held(*moment).1.clone(),
            Shown::Day(point) => point.held(),
        };
        Self { project, answers, shown, system, motion, held }
    }

    /// The time of a day, if that is what is shown.
    pub fn day(&self) -> Option<&DayPoint<'a>> {
        match &self.shown {
            Shown::Moment(_) => None,
            Shown::Day(point) => Some(point),
        }
    }

    /// Whether only what changes is written.
    pub fn terse(&self) -> bool {
        self.day().is_some_and(|point| point.terse)
    }

    /// The duty point; `None` with the engine at rest, and in a day, which passes between the duties.
    pub fn duty(&self) -> Option<&'a DutyAnswers> {
        match self.shown {
            Shown::Moment(Moment::Driving(duty)) => self.answers.duties.get(duty.index()),
            Shown::Moment(Moment::ColdMorning | Moment::HotStop) | Shown::Day(_) => None,
        }
    }

    /// Whether the engine turns.
    pub fn running(&self) -> bool {
        self.day().map_or_else(|| self.duty().is_some(), DayPoint::running)
    }

    /// Whether the coolant is nearer to its working temperature than to the air's.
    pub fn warm(&self) -> bool {
        match &self.shown {
            Shown::Moment(moment) => *moment != Moment::ColdMorning,
            Shown::Day(DayPoint { sample, .. }) => {
                let half = (sample.air.base() + self.project.thermostat.set_point.base()) / 2.0;
                sample.coolant.base() > half
            }
        }
    }

    /// Why no gas flows, with the engine stopped.
    pub fn why_at_rest(&self) -> &'static str {
        match self.shown {
            Shown::Moment(Moment::HotStop) | Shown::Day(_) => "engine stopped",
            Shown::Moment(_) => "before the start",
        }
    }

    /// What the cap does.
    pub fn cap(&self) -> CapState {
        match self.day() {
            Some(point) => point.sample.cap,
            None if self.held.expelled.base() < 0.0 => CapState::LetsIn,
            None if self.held.cap_open => CapState::LetsOut,
            None => CapState::Shut,
        }
    }

    /// Coolant where it leaves the radiator; `None` with the thermostat shut or the engine stopped.
    pub fn radiator_outlet(&self) -> Option<ThermodynamicTemperature> {
        if let Some(point) = self.day() {
            let flows = point.running() && point.sample.opening.base() > 0.0;
            return flows.then_some(point.sample.radiator_outlet);
        }
        match &self.duty()?.thermal {
            Thermal::Steady { radiator_outlet, opening, .. } if opening.base() > 0.0 => Some(*radiator_outlet),
            _ => None,
        }
    }

    /// Heat the radiator carries just now; only a day tells.
    pub fn radiator_heat(&self) -> Option<Power> {
        self.day().map(|point| point.sample.radiator_heat)
    }

    /// The verdicts that hold of what is shown: of the day where it has any.
    pub fn verdicts(&self) -> &'a [Verdict] {
        match self.shown {
            Shown::Day(DayPoint { verdicts, .. }) if !verdicts.is_empty() => verdicts,
            _ => &self.answers.verdicts,
        }
    }

    /// The crankcase at the likely blow-by.
    pub fn case(&self) -> Option<&'a CrankcaseCase> {
        self.duty().map(DutyAnswers::likely)
    }

    /// What the tank and the system do.
    pub const fn held(&self) -> &Held {
        &self.held
    }

    /// Coolant where it leaves the engine.
    fn outlet_temperature(&self) -> ThermodynamicTemperature {
        match &self.shown {
            Shown::Moment(moment) => self.answers.held(*moment).0,
            Shown::Day(point) => point.sample.coolant,
        }
    }

    /// Coolant where it leaves the engine.
    pub fn outlet(&self) -> String {
        self.show(self.outlet_temperature())
    }

    /// A quantity in its usual unit.
    pub fn show<Q: Measured>(&self, value: Q) -> String {
        self.show_as(value, Q::KIND)
    }

    /// A quantity as another kind of its dimension.
    pub fn show_as<Q: Measured>(&self, value: Q, kind: Kind) -> String {
        proper(&Amount::of_kind(value, kind).show(self.system))
    }

    /// A crankcase pressure with its sign, for reading at a glance.
    pub fn signed(&self, gauge: GaugePressure) -> String {
        let text = self.show_as(gauge, Kind::CrankcasePressure);
        if text.starts_with(['−', '0']) && !text.starts_with("0.") { text } else { plus(&text) }
    }

    /// The crankcase pressure of a case, or that no seal would hold it.
    pub fn stands(&self, case: &CrankcaseCase) -> String {
        if case.beyond_seals() { "beyond seals".to_owned() } else { self.signed(case.gauge) }
    }

    /// How far the thermostat is open; `None` where the answers do not say.
    pub fn opening(&self) -> Option<f64> {
        if let Some(point) = self.day() {
            return Some(point.sample.opening.base());
        }
        match &self.duty()?.thermal {
            Thermal::Steady { opening, .. } => Some(opening.base()),
            Thermal::StaysShut => Some(0.0),
            // Too late a thermostat is still short of fully open: the answers do not say by how much.
            Thermal::NoSteadyState { thermostat_too_late: true, .. } => None,
            Thermal::NoSteadyState { .. } => Some(1.0),
        }
    }

    /// How far the thermostat is drawn open: at rest, by whether the coolant is warm enough to open it.
    pub fn drawn_opening(&self) -> f32 {
        let warm = self.outlet_temperature() >= self.project.thermostat.set_point;
        let too_late = self.duty().is_some();
        let target = self.opening().unwrap_or(if too_late {
            0.5
        } else if warm {
            1.0
        } else {
            0.0
        });
        (self.motion)("opening", target as f32)
    }

    /// The likely flow along a way, m³/s at 20 °C and 101.325 kPa, as it is drawn just now.
    pub fn flow(&self, path: FlowPath) -> f64 {
        let target = self.true_flow(path).unwrap_or(0.0);
        let key = match path {
            FlowPath::Breather => "breather",
            FlowPath::SecondBreather => "second breather",
            FlowPath::Valve => "valve",
        };
        self.moved(key, target)
    }

    /// The likely flow along a way.
    pub fn true_flow(&self, path: FlowPath) -> Option<f64> {
        self.case()?.flow(path).map(|flow| flow.standard.base())
    }

    /// The likely flow from the second cover to the first by the cross-over, m³/s at 20 °C and 101.325 kPa.
    pub fn true_crossover(&self) -> Option<f64> {
        self.case()?.crossover.map(|flow| standard_volume_flow(flow).base())
    }

    /// The same as it is drawn just now.
    pub fn crossover(&self) -> f64 {
        self.moved("cross-over", self.true_crossover().unwrap_or(0.0))
    }

    /// Whether a flow is what a shut valve leaks, beside the flows of this engine.
    pub fn next_to_nothing(&self, flow: f64) -> bool {
        flow.abs() <= 1e-3 * self.fullest()
    }

    /// A flow as it is told: nothing where it is next to nothing.
    pub fn told(&self, flow: f64) -> f64 {
        if self.next_to_nothing(flow) { 0.0 } else { flow }
    }

    /// The likely blow-by as it is drawn just now.
    pub fn blow_by(&self) -> f64 {
        self.moved("blow-by", self.duty().map_or(0.0, |duty| duty.blow_by.standard.likely.base()))
    }

    /// Motion works on numbers of everyday size: litres a minute.
    fn moved(&self, key: &'static str, target: f64) -> f64 {
        let litres = target * 60e3;
        let now = f64::from((self.motion)(key, litres as f32));
        // The exact number once the motion has come to rest.
        if (now - litres).abs() < 1e-3 * litres.abs().max(1e-3) { target } else { now / 60e3 }
    }

    /// Width of an arrow: in proportion to the flow, the same for every moment of this project.
    pub fn arrow_width(&self, flow: f64) -> f32 {
        let full = self.fullest();
        if full <= 0.0 || self.next_to_nothing(flow) { 0.0 } else { (flow.abs() / full * WIDEST).max(NARROWEST) as f32 }
    }

    /// The largest likely flow of all duty points.
    pub fn fullest(&self) -> f64 {
        let duties = self.answers.duties.iter();
        let flows = duties.flat_map(|duty| {
            let ways = duty.likely().flows.iter().map(|flow| flow.standard.base().abs());
            ways.chain([duty.blow_by.standard.likely.base()])
        });
        flows.filter(|flow| flow.is_finite()).fold(0.0, f64::max)
    }

    /// The verdict with a key.
    pub fn verdict(&self, key: &str) -> Option<&'a Verdict> {
        self.verdicts().iter().find(|verdict| verdict.key == key)
    }

    /// The weightiest state of a part's verdicts; `None` when it has none.
    pub fn state(&self, part: Part) -> Option<State> {
        let weight = |state: &State| match state {
            State::DoesNotHold => 3,
            State::Thin => 2,
            State::Holds => 1,
            State::NotKnown => 0,
        };
        let own = self.verdicts().iter().filter(|verdict| verdict.part == part);
        own.map(|verdict| verdict.state).max_by_key(weight)
    }

    /// How the crankcase stands at this very moment, by the same rules as the verdict.
    pub fn crankcase_state(&self) -> Option<State> {
        self.duty().map(DutyAnswers::crankcase_state)
    }

    /// Whether the depression is the worst of it just now: what is worse judged, or, both as good, how it stands.
    fn too_deep(&self) -> bool {
        self.duty().is_some_and(|duty| match duty.depression_state().cmp(&duty.pressure_state()) {
            std::cmp::Ordering::Greater => true,
            std::cmp::Ordering::Less => false,
            std::cmp::Ordering::Equal => duty.likely().gauge.base() < 0.0,
        })
    }

    /// The worst that the verdict goes by: the high blow-by, or the deepest.
    pub fn crankcase_spread(&self) -> String {
        self.duty().map_or_else(String::new, |duty| {
            let worst = if self.too_deep() { &duty.deepest } else { duty.high() };
            format!("at worst {}", self.stands(worst))
        })
    }

    /// The limit that this worst is held against.
    pub fn crankcase_limit(&self) -> String {
        let Some(duty) = self.duty() else { return String::new() };
        if self.too_deep() {
            let deepest = GaugePressure::from_base(-duty.depression.likely.base());
            return format!("no deeper than {}", self.signed(deepest));
        }
        format!("limit {}", self.signed(duty.limit.likely))
    }

    /// Level in the tank, m, as it is drawn just now; the lid when it stands above it.
    pub fn level(&self, lid: f64) -> f64 {
        let target = self.true_level(lid);
        f64::from((self.motion)("level", target as f32))
    }

    /// Level in the tank, m.
    pub fn true_level(&self, lid: f64) -> f64 {
        match self.held().level {
            Some(level) => level.base().clamp(0.0, lid),
            None if self.over_the_lid() => lid,
            // Less than a dip table begins with.
            None => 0.0,
        }
    }

    /// Whether more has come than the tank holds.
    pub fn over_the_lid(&self) -> bool {
        let held = self.held();
        held.level.is_none() && held.in_tank.base() > 0.5 * self.answers.tank.capacity.base()
    }

    /// Whether the tank is part of the pressurised loop.
    pub fn is_header(&self) -> bool {
        self.project.tank.arrangement == TankArrangement::HeaderTank
    }
}

/// A real minus sign.
fn proper(text: &str) -> String {
    text.strip_prefix('-').map_or_else(|| text.to_owned(), |rest| ["−", rest].concat())
}

fn plus(text: &str) -> String {
    ["+", text].concat()
}
