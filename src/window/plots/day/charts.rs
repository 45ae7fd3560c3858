//! What is plotted of a day: which lines, in which units, with which limits.

use super::series::{At, Pieces, likely, line, unfavourable};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::{Answers, CanPlace, DayAnswers, Project, TankArrangement};
use crate::window::kit::{PlotAxis, clock};
use crate::window::plots::ink::Look;
use crate::window::tokens::Tokens;

/// One plot.
pub struct Chart {
    pub title: &'static str,
    pub axis: PlotAxis<'static>,
    pub lines: Vec<ChartLine>,
    pub limits: Vec<(String, f64, Look)>,
    /// A span always in sight, so that a line of zeros is not blown up.
    pub least: [f64; 2],
    pub summary: String,
}

/// One line of it.
pub struct ChartLine {
    pub name: &'static str,
    pub look: Look,
    pub pieces: Pieces,
}

/// What the charts are made from.
pub struct Material<'a> {
    pub project: &'a Project,
    pub answers: &'a Answers,
    pub day: &'a DayAnswers,
    pub system: UnitSystem,
    pub tokens: &'static Tokens,
    /// From when until when it is shown, s, and in how many columns of pixels.
    pub range: (f64, f64),
    pub columns: usize,
}

type Pick = fn(&At<'_>) -> Option<f64>;

impl Material<'_> {
    /// Every plot of this day.
    pub fn charts(&self) -> Vec<Chart> {
        let mut charts = vec![self.temperatures(), self.level(), self.pressure(), self.lost(), self.crankcase()];
        charts.extend(self.oil());
        charts
    }

    fn likely(&self, axis: PlotAxis<'_>, name: &'static str, look: Look, pick: Pick) -> ChartLine {
        let pieces = line(likely(self.day), self.range, self.columns, |at| pick(at).map(|base| axis.at(base)));
        ChartLine { name, look, pieces }
    }

    /// The same quantity at the unfavourable end.
    fn worse(&self, axis: PlotAxis<'_>, pick: Pick) -> ChartLine {
        let pieces = line(unfavourable(self.day), self.range, self.columns, |at| pick(at).map(|base| axis.at(base)));
        ChartLine { name: "unfavourable end", look: Look::Dotted(self.tokens.quiet), pieces }
    }

    fn axis(&self, name: &'static str, kind: Kind) -> PlotAxis<'static> {
        PlotAxis::new(name, kind, self.system)
    }

    fn told(&self, base: f64, kind: Kind) -> String {
        Amount::new(base, kind).show(self.system)
    }

    /// "Highest 104.2 °C at 1:32".
    fn peak(&self, word: &str, kind: Kind, pick: Pick, most: bool) -> Option<String> {
        let found = likely(self.day).filter_map(|at| Some((at.0.time.base(), pick(&at)?)));
        let sign = if most { 1.0 } else { -1.0 };
        let (time, base) = found.max_by(|a, b| (sign * a.1).total_cmp(&(sign * b.1)))?;
        Some(format!("{word} {} at {}", self.told(base, kind), clock(time)))
    }

    fn sentence(pieces: impl IntoIterator<Item = Option<String>>) -> String {
        let known: Vec<String> = pieces.into_iter().flatten().collect();
        if known.is_empty() { "Nothing is known of it.".to_owned() } else { format!("{}.", known.join("; ")) }
    }

    fn temperatures(&self) -> Chart {
        let axis = self.axis("Temperature", Kind::Temperature);
        let tokens = self.tokens;
        let lines: [(&'static str, Look, Pick); 5] = [
            ("metal", Look::Solid(tokens.hot), |at| Some(at.0.metal.base())),
            ("coolant", Look::Thick(tokens.coolant), |at| Some(at.0.coolant.base())),
            ("oil", Look::Dashed(tokens.gas), |at| Some(at.0.oil.base())),
            ("radiator outlet", Look::Dotted(tokens.coolant), |at| Some(at.0.radiator_outlet.base())),
            ("air", Look::Short(tokens.quiet), |at| Some(at.0.air.base())),
        ];
        let summary = Self::sentence([
            self.peak("Hottest coolant", axis.kind, lines[1].2, true),
            self.peak("hottest metal", axis.kind, lines[0].2, true),
            self.peak("hottest oil", axis.kind, lines[2].2, true),
        ]);
        let lines = lines.into_iter().map(|(name, look, pick)| self.likely(axis, name, look, pick)).collect();
        let set = self.project.thermostat.set_point;
        let limits = vec![("thermostat opens".to_owned(), axis.at(set.base()), Look::Dashed(tokens.quiet))];
        let least = [283.15, 373.15].map(|kelvin| axis.at(kelvin));
        Chart { title: "Temperatures", axis, lines, limits, least, summary }
    }

    fn pressure(&self) -> Chart {
        let axis = self.axis("Pressure, gauge", Kind::GaugePressure);
        let pick: Pick = |at| Some(at.0.gauge.base());
        let opening = self.answers.coolant.cap_opening.likely.base();
        let summary = Self::sentence([
            self.peak("Highest", axis.kind, pick, true),
            self.peak("lowest", axis.kind, pick, false),
            Some(format!("the cap opens at {}", self.told(opening, axis.kind))),
        ]);
        Chart {
            title: "System pressure",
            axis,
            lines: vec![
                self.worse(axis, pick),
                self.likely(axis, "system pressure", Look::Thick(self.tokens.coolant), pick),
            ],
            limits: vec![("cap opens".to_owned(), axis.at(opening), Look::Dashed(self.tokens.hot))],
            least: [0.0, axis.at(opening)],
            summary,
        }
    }

    fn level(&self) -> Chart {
        let axis = self.axis("Level", Kind::Length);
        let pick: Pick = |at| at.0.level.map(Measured::base);
        let mut limits = Vec::new();
        let lid = self.project.tank_height();
        if let Some(lid) = lid {
            limits.push(("lid".to_owned(), axis.at(lid), Look::Dashed(self.tokens.fault)));
        }
        if self.project.tank.arrangement == TankArrangement::RecoveryTank {
            let end = self.project.tank.tube_end.base();
            limits.push(("end of the tube".to_owned(), axis.at(end), Look::Dotted(self.tokens.ink)));
        }
        let summary = Self::sentence([
            self.peak("Highest", axis.kind, pick, true),
            self.peak("lowest", axis.kind, pick, false),
            lid.map(|lid| format!("the lid is at {}", self.told(lid, axis.kind))),
        ]);
        Chart {
            title: "Level in the tank",
            axis,
            lines: vec![self.worse(axis, pick), self.likely(axis, "level", Look::Thick(self.tokens.coolant), pick)],
            limits,
            least: [0.0, lid.map_or(0.0, |lid| axis.at(lid))],
            summary,
        }
    }

    fn lost(&self) -> Chart {
        let axis = self.axis("Lost", Kind::Mass);
        let pick: Pick = |at| Some(at.0.lost.base());
        let summary = Self::sentence([self.peak("Lost by the end of the day at most", axis.kind, pick, true)]);
        Chart {
            title: "Coolant lost",
            axis,
            lines: vec![self.worse(axis, pick), self.likely(axis, "lost", Look::Thick(self.tokens.fault), pick)],
            limits: Vec::new(),
            least: [0.0, axis.at(0.1)],
            summary,
        }
    }

    fn crankcase(&self) -> Chart {
        let axis = self.axis("Pressure, gauge", Kind::CrankcasePressure);
        let pick: Pick = |at| at.1.and_then(|case| case.gauge).map(Measured::base);
        let summary =
            Self::sentence([self.peak("Highest", axis.kind, pick, true), self.peak("lowest", axis.kind, pick, false)]);
        Chart {
            title: "Crankcase pressure",
            axis,
            lines: vec![self.likely(axis, "crankcase pressure", Look::Thick(self.tokens.gas), pick)],
            limits: vec![("no pressure".to_owned(), 0.0, Look::Dotted(self.tokens.quiet))],
            least: [-100.0, 100.0].map(|pascals| axis.at(pascals)),
            summary,
        }
    }

    /// Oil carried out with the gas; what a can keeps of it, where there is one.
    fn oil(&self) -> Option<Chart> {
        let axis = self.axis("Oil", Kind::SmallMass);
        let out: Pick = |at| at.1.map(|case| case.oil_out.base());
        let caught: Pick = |at| at.1.map(|case| case.oil_caught.base());
        if self.day.crankcase.is_empty() {
            return None;
        }
        let can = self.project.ventilation.can.place != CanPlace::None;
        let mut lines = vec![self.likely(axis, "left with the gas", Look::Dashed(self.tokens.gas), out)];
        let mut said = vec![self.peak("Left with the gas", axis.kind, out, true)];
        if can {
            lines.push(self.likely(axis, "caught in the can", Look::Thick(self.tokens.gas), caught));
            said.push(self.peak("caught in the can", axis.kind, caught, true));
        }
        let title = if can { "Oil caught" } else { "Oil with the gas" };
        Some(Chart {
            title,
            axis,
            lines,
            limits: Vec::new(),
            least: [0.0, axis.at(1e-3)],
            summary: Self::sentence(said),
        })
    }
}
