//! What no single range of the ventilation can tell.

use super::{CanPlace, InlineKind, LineInputs, ValveInputs, ValveKind, VentilationArrangement, VentilationInputs};
use crate::crankcase::element::FixedOrificeValve;
use crate::quantity::Measured;
use crate::study::check::Checker;

impl VentilationInputs {
    pub(in crate::study::project) fn check(&self, checker: &mut Checker) {
        let ventilation = self;
        let millimetres = |metres: f64| (metres * 1e5).round() / 100.0;
        let mut lines = Vec::new();
        if ventilation.has_breather() {
            lines.push(("ventilation.breather.barb", &ventilation.breather));
        }
        if ventilation.arrangement == VentilationArrangement::TwoBreathers {
            lines.push(("ventilation.second_breather.barb", &ventilation.second));
        }
        if ventilation.can.place == CanPlace::ValveLine && ventilation.has_valve() {
            lines.push(("ventilation.valve_line.barb", &ventilation.valve_line));
        }
        for (path, line) in lines {
            if let Some(barb) = line.barb
                && barb.base() > line.bore.base()
            {
                let message = format!(
                    "the smallest fitting is {} mm, wider than the hose of {} mm; leave it out if no fitting is narrower",
                    millimetres(barb.base()),
                    millimetres(line.bore.base())
                );
                checker.fault(path, message);
            }
        }
        if ventilation.has_element()
            && let Some(error) = ventilation.element.fault()
        {
            checker.fault("ventilation.element.points", error.to_string());
        }
        let shut = |line: &LineInputs| line.inline == InlineKind::CheckInwards;
        let two = ventilation.arrangement == VentilationArrangement::TwoBreathers;
        if !ventilation.has_valve() && shut(&ventilation.breather) && (!two || shut(&ventilation.second)) {
            checker.fault(
                "ventilation.breather.inline",
                "the check valve lets no gas out and there is no other way: the crankcase would push its seals out; turn it \
                 round, or take it away",
            );
        }
        if ventilation.has_valve() {
            ventilation.valve.check(checker);
        } else if ventilation.can.place == CanPlace::ValveLine {
            checker.fault(
                "ventilation.catch_can.place",
                "there is no valve line in this arrangement; put the can in the breather line",
            );
        }
        if !ventilation.has_breather() && ventilation.can.place == CanPlace::BreatherLine {
            checker.fault(
                "ventilation.catch_can.place",
                "there is no breather line in this arrangement; put the can in the valve line",
            );
        }
    }
}

impl ValveInputs {
    /// The widest it opens, m², where that is plain from the inputs.
    fn opens(&self) -> Option<f64> {
        let area = match self.kind {
            ValveKind::Plunger => self.open_area,
            ValveKind::SpringPlunger => self.spring.valve().open_area(),
            ValveKind::FixedOrifice => {
                FixedOrificeValve { bore: self.orifice, ..FixedOrificeValve::default() }.as_check().effective_area
            }
            ValveKind::Check => self.check_area,
            ValveKind::Table | ValveKind::Sonic => return None,
        };
        Some(area.base())
    }

    fn check(&self, checker: &mut Checker) {
        if let (Some(open), Some(back)) = (self.opens(), self.backfire_area.filter(|_| self.kind.shuts_somehow()))
            && back.high.base() > open
        {
            checker.fault(
                "ventilation.valve.backfire_area",
                "more stays open against a backfire than the valve opens at all; enter what is left with gas pushing back",
            );
        }
        match self.kind {
            ValveKind::Plunger => {
                if self.ends.base() <= self.begins.base() {
                    let kilopascals = |pressure: f64| (pressure * 0.1).round() * 0.01;
                    let message = format!(
                        "the valve has closed at {} kPa, yet begins to close at {} kPa only; it ends at a deeper depression than it begins",
                        kilopascals(self.ends.base()),
                        kilopascals(self.begins.base())
                    );
                    checker.fault("ventilation.valve.ends", message);
                }
                if self.idle_area > self.open_area {
                    checker.fault(
                        "ventilation.valve.idle_area",
                        "the valve is wider open at idle depression than at small depression, but the depression draws its \
                         plunger shut; swap the two areas",
                    );
                }
            }
            ValveKind::SpringPlunger => {
                if let Err(error) = self.spring.valve().check() {
                    checker.fault("ventilation.valve.plunger_thick", error.to_string());
                }
            }
            ValveKind::Table => {
                let (key, rows, rises) = self.bench.shape();
                let path = format!("ventilation.valve.{key}");
                if rows < 3 {
                    checker.fault(&path, format!("a valve table needs three rows or more; this one has {rows}"));
                } else if !rises {
                    checker.fault(&path, "the depression must rise from each row to the next");
                }
            }
            ValveKind::FixedOrifice | ValveKind::Check | ValveKind::Sonic => {}
        }
    }
}
