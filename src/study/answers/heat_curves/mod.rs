//! Heat curves: the coolant against the air for every thermostat, the radiator against the heat, and who rules over road
//! speed and air.

mod words;

use super::Span;
use crate::numeric::level_lines;
use crate::quantity::si::{AngularVelocity, Power, Ratio, ThermodynamicTemperature, Velocity};
use crate::quantity::{Estimate, Measured};
use crate::study::{Duty, Sentence};

/// Who sets the coolant temperature, from cold air to hot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HeatRule {
    /// Losses alone: the thermostat stays shut and the engine runs cold.
    Losses,
    /// The thermostat, partly open.
    Thermostat,
    /// The radiator: the thermostat is wide open, and the coolant stays below boiling.
    Radiator,
    /// Nobody: it boils.
    Boils,
}

impl HeatRule {
    /// All of them, from cold to hot.
    pub const ALL: [Self; 4] = [Self::Losses, Self::Thermostat, Self::Radiator, Self::Boils];
}

/// One point of the coolant against the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPoint {
    /// Temperature of the air.
    pub ambient: ThermodynamicTemperature,
    /// Coolant at the engine outlet; `None` where it boils.
    pub outlet: Option<ThermodynamicTemperature>,
    /// Who sets it.
    pub rule: HeatRule,
}

/// The coolant against the air with one thermostat.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointCurve {
    /// The setting.
    pub set_point: ThermodynamicTemperature,
    /// Whether it is the one fitted.
    pub fitted: bool,
    /// The air at which the thermostat begins to open; `None` when it never stays shut.
    pub opens_at: Option<ThermodynamicTemperature>,
    /// The hottest air in which the thermostat rules.
    pub holds_to: Option<ThermodynamicTemperature>,
    /// The hottest air in which it does not boil.
    pub boils_above: Option<ThermodynamicTemperature>,
    /// From cold to hot air. The kinks are points of it; from where it boils the outlet is `None`.
    pub points: Vec<HeatPoint>,
}

/// One duty point: the coolant against the air, and the radiator against the heat on the hottest day.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyHeatCurves {
    /// Which.
    pub duty: Duty,
    /// Its road speed.
    pub road_speed: Velocity,
    /// Heat into the coolant.
    pub heat: Estimate<Power>,
    /// What the wide open radiator carries at the temperature at which the fitted thermostat is just fully open, by the
    /// spread of its conductance; `None` when that lies above the boiling limit.
    pub at_full_open: Option<Estimate<Power>>,
    /// What it carries at the boiling limit.
    pub at_limit: Estimate<Power>,
    /// Each setting, cooler ones first.
    pub set_points: Vec<SetPointCurve>,
}

/// The road of steady driving.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum HeatRoad {
    /// On the level.
    #[default]
    Level,
    /// Climbing the grade that the hill duty's power climbs at its speed.
    Climbing,
}

impl HeatRoad {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Level, Self::Climbing];

    /// The duty points that are marked on it.
    #[must_use]
    pub const fn duties(self) -> &'static [Duty] {
        match self {
            Self::Level => &[Duty::Idle, Duty::Cruise, Duty::FullThrottle],
            Self::Climbing => &[Duty::Idle, Duty::Hill],
        }
    }
}

/// What the engine does at a road speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatDriven {
    /// Power at the crankshaft.
    pub power: Power,
    /// Engine speed.
    pub rpm: AngularVelocity,
    /// Gear, counted from 1; `None` standing, and of a duty point, which tells none.
    pub gear: Option<usize>,
}

/// What is the same at every air of one road speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatColumn {
    /// Road speed.
    pub speed: Velocity,
    /// What the engine does.
    pub driven: HeatDriven,
    /// Heat into the coolant, with what an oil cooler and a heater bring while the coolant is as warm as the air.
    pub heat: Power,
    /// The air at which the thermostat begins to open.
    pub opens_at: Option<ThermodynamicTemperature>,
    /// The hottest air in which the thermostat rules.
    pub holds_to: Option<ThermodynamicTemperature>,
    /// The hottest air in which it does not boil.
    pub boils_above: Option<ThermodynamicTemperature>,
}

/// A line over a map of road speed and air.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatLine(pub Vec<(Velocity, ThermodynamicTemperature)>);

/// The lines of one coolant temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatLevel {
    /// The coolant temperature.
    pub outlet: ThermodynamicTemperature,
    /// Its lines.
    pub lines: Vec<HeatLine>,
}

/// A duty point beside the map, on the hottest day, with the heat of its own power and engine speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatMark {
    /// Which.
    pub duty: Duty,
    /// Its road speed.
    pub speed: Velocity,
    /// Power and engine speed entered.
    pub entered: HeatDriven,
    /// What steady driving at its road speed takes on the road of the map; `None` where the engine cannot hold it.
    pub driven: Option<HeatDriven>,
    /// What it has there.
    pub point: HeatPoint,
}

/// From one road speed to another one rules, on the hottest day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatStretch {
    /// Who rules; `None` where the engine cannot hold the speed.
    pub rule: Option<HeatRule>,
    /// From this road speed.
    pub from: Velocity,
    /// To this one.
    pub to: Velocity,
}

/// Who rules over road speed and air, with the fitted thermostat.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatMap {
    /// Which road.
    pub road: HeatRoad,
    /// Its grade, rise over run.
    pub grade: Ratio,
    /// Whether the grade is the hill duty's, and not a usual one.
    pub grade_of_hill: bool,
    /// What a driver keeps in reserve when choosing a gear.
    pub gear_reserve: Ratio,
    /// Road speed, the columns.
    pub speed: Span<Velocity>,
    /// Air, the rows.
    pub ambient: Span<ThermodynamicTemperature>,
    /// Each column; `None` where the engine cannot hold the speed.
    pub columns: Vec<Option<HeatColumn>>,
    /// Row by row from the coldest air, each from the slowest; `None` where the engine cannot hold the speed.
    pub cells: Vec<Option<HeatPoint>>,
    /// Lines of the same coolant temperature, in steps of [`HeatMap::LEVEL_STEP`] in °C.
    pub levels: Vec<HeatLevel>,
    /// The duty points.
    pub marks: Vec<HeatMark>,
    /// The hottest day.
    pub hottest: ThermodynamicTemperature,
    /// Who rules from one road speed to the next on the hottest day.
    pub stretches: Vec<HeatStretch>,
}

/// The curves of the heat balance; a separate call, asked for when somebody looks.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatCurves {
    /// The hottest day, at which capacities are told.
    pub hottest: ThermodynamicTemperature,
    /// At which the fitted thermostat is just fully open.
    pub full_open: ThermodynamicTemperature,
    /// What the coolant must settle below.
    pub limit: ThermodynamicTemperature,
    /// Each duty point, in the order of [`Duty::ALL`].
    pub duties: Vec<DutyHeatCurves>,
    /// What to know beside the curves: a fan that is switched, what heater and oil cooler bring.
    pub notes: Vec<Sentence>,
    /// For each of [`HeatRoad::ALL`]; or why there is none.
    pub maps: [Result<HeatMap, String>; 2],
}

impl HeatCurves {
    /// The curves of a duty.
    #[must_use]
    pub fn of(&self, duty: Duty) -> Option<&DutyHeatCurves> {
        self.duties.iter().find(|curves| curves.duty == duty)
    }

    /// The map of a road, or why there is none.
    pub const fn map(&self, road: HeatRoad) -> &Result<HeatMap, String> {
        &self.maps[road as usize]
    }
}

impl DutyHeatCurves {
    /// The thermostat fitted.
    #[must_use]
    pub fn fitted(&self) -> Option<&SetPointCurve> {
        self.set_points.iter().find(|curve| curve.fitted)
    }
}

/// A border between two rules: where the rule before it ends, over road speed.
pub type HeatBorder = fn(&HeatColumn) -> Option<ThermodynamicTemperature>;

impl HeatMap {
    /// Between two lines of coolant temperature, K.
    pub const LEVEL_STEP: f64 = 10.0;

    /// The cell at a column and a row; `None` off the map and where the engine cannot hold the speed.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize) -> Option<&HeatPoint> {
        self.place(column, row)?.as_ref()
    }

    fn place(&self, column: usize, row: usize) -> Option<&Option<HeatPoint>> {
        (column < self.speed.points).then(|| self.cells.get(row * self.speed.points + column)).flatten()
    }

    /// The cell nearest to a place, itself `None` where the engine cannot hold the speed; `None` off the map.
    #[must_use]
    pub fn nearest(&self, speed: Velocity, ambient: ThermodynamicTemperature) -> Option<Option<&HeatPoint>> {
        let whole = |place: f64| (place.is_finite() && place > -0.5).then(|| place.round().max(0.0) as usize);
        self.place(whole(self.speed.place(speed))?, whole(self.ambient.place(ambient))?).map(Option::as_ref)
    }

    /// Where a rule ends in warmer air, as lines within the map. The columns have it exact; it goes straight between.
    #[must_use]
    pub fn border(&self, after: HeatRule) -> Vec<HeatLine> {
        let pick: HeatBorder = match after {
            HeatRule::Losses => |column| column.opens_at,
            HeatRule::Thermostat => |column| column.holds_to,
            HeatRule::Radiator => |column| column.boils_above,
            HeatRule::Boils => return Vec::new(),
        };
        let (low, high) = (self.ambient.from.base(), self.ambient.to.base());
        let mut lines = vec![Vec::new()];
        let mut before: Option<(f64, f64)> = None;
        for column in &self.columns {
            let here = column.as_ref().and_then(|column| Some((column.speed.base(), pick(column)?.base())));
            match (before, here) {
                (Some(from), Some(to)) => match within(from, to, (low, high)) {
                    Some([a, b]) => {
                        let Some(line) = lines.last_mut() else { continue };
                        if line.last() != Some(&a) {
                            line.push(a);
                        }
                        line.push(b);
                        if b != to {
                            lines.push(Vec::new());
                        }
                    }
                    None => lines.push(Vec::new()),
                },
                _ => lines.push(Vec::new()),
            }
            before = here;
        }
        let place = |(speed, air): (f64, f64)| (Velocity::from_base(speed), ThermodynamicTemperature::from_base(air));
        let lines = lines.into_iter().filter(|line: &Vec<_>| line.len() > 1);
        lines.map(|line| HeatLine(line.into_iter().map(place).collect())).collect()
    }

    /// Draws the lines of coolant temperature from the cells.
    pub(in crate::study) fn draw_levels(&mut self) {
        let field: Vec<Option<f64>> = self.cells.iter().map(|cell| Some(cell.as_ref()?.outlet?.base())).collect();
        let ends = field.iter().flatten().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), t| (a.min(*t), b.max(*t)));
        let step = Self::LEVEL_STEP;
        let zero = crate::quantity::ZERO_CELSIUS;
        let first = ((ends.0 - zero) / step).ceil();
        // A field has at most the span of the coolant's data, 170 K.
        let steps = (0..=20_u8).map(|i| zero + step * (first + f64::from(i)));
        for level in steps.take_while(|level| *level <= ends.1) {
            let lines = level_lines(&field, self.speed.points, level).into_iter();
            let lines: Vec<HeatLine> = lines
                .map(|line| HeatLine(line.into_iter().map(|[x, y]| (self.speed.at(x), self.ambient.at(y))).collect()))
                .collect();
            if !lines.is_empty() {
                self.levels.push(HeatLevel { outlet: ThermodynamicTemperature::from_base(level), lines });
            }
        }
    }
}

/// The part of a straight line that lies between two heights.
fn within(from: (f64, f64), to: (f64, f64), (low, high): (f64, f64)) -> Option<[(f64, f64); 2]> {
    let inside = |at: f64| (low..=high).contains(&at);
    let cut = |at: f64| {
        let share = (at - from.1) / (to.1 - from.1);
        (from.0 + share * (to.0 - from.0), at)
    };
    let towards = |end: (f64, f64)| match end.1 {
        at if at < low => cut(low),
        at if at > high => cut(high),
        _ => end,
    };
    let meets = inside(from.1) || inside(to.1) || (from.1 < low) != (to.1 < low);
    meets.then(|| [towards(from), towards(to)])
}

#[cfg(test)]
mod tests {
    use super::within;

    #[test]
    fn a_line_is_cut_where_it_leaves() {
        let band = (0.0, 10.0);
        assert_eq!(within((0.0, 2.0), (1.0, 8.0), band), Some([(0.0, 2.0), (1.0, 8.0)]));
        assert_eq!(within((0.0, -5.0), (1.0, 5.0), band), Some([(0.5, 0.0), (1.0, 5.0)]));
        assert_eq!(within((0.0, 5.0), (1.0, 15.0), band), Some([(0.0, 5.0), (0.5, 10.0)]));
        assert_eq!(within((0.0, -10.0), (4.0, 30.0), band), Some([(1.0, 0.0), (2.0, 10.0)]));
        assert_eq!(within((0.0, 11.0), (1.0, 12.0), band), None);
        assert_eq!(within((0.0, -2.0), (1.0, -1.0), band), None);
    }
}
