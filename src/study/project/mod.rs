//! A project: everything a builder knows of one car, as plain data.

mod blow_by;
mod car;
mod coolant;
mod day;
mod engine;
mod joint;
mod mixture;
mod oil;
mod surroundings;
mod tank;
mod ventilation;

pub use blow_by::{BlowByInputs, MeteredInputs, RingCondition, RingInputs};
pub use car::CarInputs;
pub use coolant::{
    CapCondition, CapInputs, CircuitInputs, CoolantInputs, HoseRunInputs, RadiatorMetal, ThermostatInputs,
    VolumeKnowledge,
};
pub use day::{DayInputs, LegEnd, LegInputs, LegKind};
pub use engine::{
    CoreInputs, DutyInputs, DutyPoints, EngineFuel, EngineInputs, EngineMetal, FanControl, FanDrive, FanInputs,
    FinKind, Induction, RadiatorInputs, RadiatorKnowledge, Shroud, TubesRun,
};
pub use joint::{CoverJointInputs, CoverLayers, CoverThread, LeakTrial};
pub use mixture::FreshAirTaken;
pub use oil::{HeaterInputs, OilCooling, OilInputs};
pub use surroundings::Surroundings;
pub use tank::{ShapeKind, TankArrangement, TankInputs, VentKind};
pub use ventilation::{
    Bench, BenchInputs, CanDrainInputs, CanInputs, CanPlace, CrossoverInputs, ElementInputs, ElementKnowledge,
    GasSource, InlineKind, LimitInputs, LineInputs, MeshInputs, PortInputs, SpringInputs, ValveInputs, ValveKind,
    VentilationArrangement, VentilationInputs,
};

use super::check::{Checker, Problems};
use super::{Label, Visitor};
use crate::crankcase::cylinder::Geometry;
use crate::quantity::{Amount, Estimate, Measured, UnitSystem};

/// Everything a builder knows of one car.
#[derive(Clone, Debug, PartialEq)]
pub struct Project {
    /// Its name.
    pub title: String,
    /// What else is worth saying; a demo says here that it is invented.
    pub remark: String,
    /// Where the car lives.
    pub surroundings: Surroundings,
    /// The liquid.
    pub coolant: CoolantInputs,
    /// Engine, radiator, heater and hoses as a volume.
    pub circuit: CircuitInputs,
    /// The pressure cap.
    pub cap: CapInputs,
    /// The thermostat.
    pub thermostat: ThermostatInputs,
    /// The overflow tank.
    pub tank: TankInputs,
    /// The engine.
    pub engine: EngineInputs,
    /// The engine's oil.
    pub oil: OilInputs,
    /// The radiator.
    pub radiator: RadiatorInputs,
    /// The heater of the cabin.
    pub heater: HeaterInputs,
    /// States of driving.
    pub duty: DutyPoints,
    /// Gas past the rings.
    pub blow_by: BlowByInputs,
    /// Its way out.
    pub ventilation: VentilationInputs,
    /// The joint between valve cover and head, if it was measured.
    pub cover_joint: CoverJointInputs,
    /// The car on the road.
    pub car: CarInputs,
    /// What it does in a day.
    pub day: DayInputs,
}

static TITLE: Label = Label::new("title", "Project", "What you call this car.");
static REMARK: Label = Label::new("remark", "Remark", "Anything worth saying.");

impl Project {
    /// A project of usual values, to be filled in.
    #[must_use]
    pub fn blank() -> Self {
        Self {
            title: "New project".to_owned(),
            remark: "Usual figures of a car with a 5.0 L V8 to start from, not yours: take the presets that fit, then put in \
                     what you know."
                .to_owned(),
            surroundings: Surroundings::default(),
            coolant: CoolantInputs::default(),
            circuit: CircuitInputs::default(),
            cap: CapInputs::default(),
            thermostat: ThermostatInputs::default(),
            tank: TankInputs::default(),
            engine: EngineInputs::default(),
            oil: OilInputs::default(),
            radiator: RadiatorInputs::default(),
            heater: HeaterInputs::default(),
            duty: DutyPoints::default(),
            blow_by: BlowByInputs::default(),
            ventilation: VentilationInputs::default(),
            cover_joint: CoverJointInputs::default(),
            car: CarInputs::default(),
            day: DayInputs::default(),
        }
    }

    /// Shows every input to a visitor, in the order of a project file.
    pub fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.text(&TITLE, &mut self.title);
        visitor.text(&REMARK, &mut self.remark);
        self.surroundings.visit(visitor);
        self.coolant.visit(visitor);
        self.circuit.visit(&self.engine, visitor);
        self.cap.visit(visitor);
        self.thermostat.visit(visitor);
        self.tank.visit(visitor);
        self.engine.visit(visitor);
        self.oil.visit(&self.engine, visitor);
        self.radiator.visit(self.thermostat.set_point, visitor);
        self.heater.visit(visitor);
        self.duty.visit(self.engine.is_diesel(), visitor);
        self.blow_by.visit(&self.engine, visitor);
        self.ventilation.visit(visitor);
        self.cover_joint.visit(visitor);
        self.car.visit(&self.duty, visitor);
        self.day.visit(visitor);
    }

    /// Checks every input against its range, and inputs against each other.
    ///
    /// # Errors
    /// All faults at once.
    pub fn check(&self) -> Result<(), Problems> {
        let mut checker = Checker::default();
        self.clone().visit(&mut checker);
        if checker.problems.is_empty() {
            self.check_together(&mut checker);
        }
        if checker.problems.is_empty() { Ok(()) } else { Err(Problems(checker.problems)) }
    }

    /// What no single range can tell.
    fn check_together(&self, checker: &mut Checker) {
        let millimetres = |metres: f64| (metres * 1e5).round() / 100.0;
        let litres = self.engine.swept() * 1e3;
        if !(0.05..=15.0).contains(&litres) {
            let message = format!(
                "bore, stroke and cylinders make {litres:.3} L, outside 0.05 L to 15 L; check the three of them"
            );
            checker.fault("engine.bore", message);
        }
        let engine = Geometry {
            bore: self.engine.bore,
            stroke: self.engine.stroke,
            rod: self.engine.rod,
            compression_ratio: self.engine.compression_ratio,
            cylinders: self.engine.cylinders,
        };
        // Each alone is in its range: what is left is a rod too short for the stroke.
        if let Err(error) = engine.check() {
            checker.fault("engine.rod", error.to_string());
        }
        self.engine.check(checker);
        self.oil.check(checker);
        self.radiator.check(self.circuit.radiator_metal, self.thermostat.set_point, checker);
        self.check_surroundings(checker);
        self.check_circuit(checker);
        self.check_tank(checker, millimetres);
        self.ventilation.check(checker);
        self.cover_joint.check(checker);
        self.car.check(&self.duty, checker);
        self.day.check(checker);
        let readings = self.blow_by.leak_down.len();
        if readings != 0 && readings != self.engine.cylinders as usize {
            let cylinders = self.engine.cylinders;
            let message = format!(
                "{readings} readings for {cylinders} cylinders; enter one for each cylinder, or none if not tested"
            );
            checker.fault("blow_by.leak_down", message);
        }
    }

    fn check_surroundings(&self, checker: &mut Checker) {
        let Surroundings { coldest, filled_at, hottest, .. } = &self.surroundings;
        let shown = |temperature| Amount::of(temperature).show(UnitSystem::Si);
        if coldest > filled_at {
            let message = format!(
                "the coldest start at {} is warmer than the fill at {}; enter the winter's coldest",
                shown(*coldest),
                shown(*filled_at)
            );
            checker.fault("surroundings.coldest", message);
        }
        if filled_at > hottest {
            let message = format!(
                "the hottest day at {} is cooler than the fill at {}; enter the summer's hottest",
                shown(*hottest),
                shown(*filled_at)
            );
            checker.fault("surroundings.hottest", message);
        }
    }

    fn check_circuit(&self, checker: &mut Checker) {
        if self.circuit.knowledge == VolumeKnowledge::Measured {
            let likely = |share: Option<Estimate<_>>, default: Estimate<crate::quantity::si::Ratio>| {
                share.unwrap_or(default).likely.base()
            };
            let engine = likely(self.circuit.engine_share, super::defaults::engine_share());
            let radiator = likely(self.circuit.radiator_share, super::defaults::radiator_share());
            if engine + radiator > 0.98 {
                let message = format!(
                    "engine and radiator together hold {:.0} % of the system; leave at least 2 % for hoses and heater, so lower one of the two",
                    (engine + radiator) * 100.0
                );
                checker.fault("circuit.engine_share", message);
            }
        }
    }

    fn check_tank(&self, checker: &mut Checker, millimetres: impl Fn(f64) -> f64) {
        let tank = &self.tank;
        if tank.arrangement == TankArrangement::RecoveryTank || tank.arrangement == TankArrangement::CatchOnly {
            let height = self.tank_height();
            if let (Some(level), Some(height)) = (tank.cold_level, height)
                && level.base() >= height
            {
                let message = format!(
                    "the cold level is {} mm above the floor of a tank {} mm high; it must lie inside",
                    millimetres(level.base()),
                    millimetres(height)
                );
                checker.fault("tank.cold_level", message);
            }
        }
        if tank.arrangement == TankArrangement::RecoveryTank
            && let Some(height) = self.tank_height()
            && tank.tube_end.base() >= height
        {
            let message = format!(
                "the dip tube ends {} mm above the floor of a tank {} mm high; it must end inside",
                millimetres(tank.tube_end.base()),
                millimetres(height)
            );
            checker.fault("tank.tube_end", message);
        }
        self.check_dip_tube(checker, &millimetres);
        if tank.shape == ShapeKind::DipTable {
            let rising = tank.dips.is_sorted_by(|a, b| a.0.base() < b.0.base() && a.1.base() < b.1.base());
            if tank.dips.len() < 4 {
                let message = format!("a dip table needs four rows or more; this one has {}", tank.dips.len());
                checker.fault("tank.dips", message);
            } else if !rising {
                checker.fault("tank.dips", "height and volume must both rise from each row to the next");
            }
        }
    }

    /// The end of the dip tube against the walls.
    fn check_dip_tube(&self, checker: &mut Checker, millimetres: impl Fn(f64) -> f64) {
        let tank = &self.tank;
        if tank.arrangement != TankArrangement::RecoveryTank {
            return;
        }
        let Some((half_length, half_width)) = self.tank_half_widths(tank.tube_end.base()) else { return };
        let (ahead, right) = (tank.tube_ahead.base(), tank.tube_right.base());
        let mut outside = |key: &str, side: &str, offset: f64, half: f64| {
            let inside = offset.abs() < half;
            if !inside {
                let message = format!(
                    "the end of the dip tube is {} mm {side} the middle, but the wall is {} mm from it there; it must end inside",
                    millimetres(offset.abs()),
                    millimetres(half)
                );
                checker.fault(key, message);
            }
            inside
        };
        if tank.shape == ShapeKind::UprightCylinder {
            outside("tank.tube_ahead", "away from", ahead.hypot(right), half_length);
        } else {
            let _ = outside("tank.tube_ahead", if ahead < 0.0 { "behind" } else { "ahead of" }, ahead, half_length)
                && outside("tank.tube_right", if right < 0.0 { "left of" } else { "right of" }, right, half_width);
        }
    }

    /// Inside height of the tank, m; `None` for a dip table without rows.
    pub(crate) fn tank_height(&self) -> Option<f64> {
        match self.tank.shape {
            ShapeKind::UprightCylinder | ShapeKind::Box | ShapeKind::TaperedBox => Some(self.tank.height.base()),
            ShapeKind::LyingCylinder => Some(self.tank.diameter.base()),
            ShapeKind::DipTable => self.tank.dips.last().map(|row| row.0.base()),
        }
    }

    /// From the middle of the tank to its walls at a height above the floor, along and across the car, m; `None` outside
    /// the tank's height, and for a dip table, which does not tell.
    fn tank_half_widths(&self, height: f64) -> Option<(f64, f64)> {
        let tank = &self.tank;
        if height >= self.tank_height()? {
            return None;
        }
        let (length, width) = (tank.length.base() / 2.0, tank.width.base() / 2.0);
        let radius = tank.diameter.base() / 2.0;
        match tank.shape {
            ShapeKind::UprightCylinder => Some((radius, radius)),
            ShapeKind::LyingCylinder => Some((length, (height * (2.0 * radius - height)).max(0.0).sqrt())),
            ShapeKind::Box => Some((length, width)),
            ShapeKind::TaperedBox => {
                let up = height / tank.height.base();
                let (top_length, top_width) = (tank.top_length.base() / 2.0, tank.top_width.base() / 2.0);
                Some((length + up * (top_length - length), width + up * (top_width - width)))
            }
            ShapeKind::DipTable => None,
        }
    }
}
