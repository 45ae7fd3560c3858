//! The way out that the crankcase gas is given: lines, breather element, valve, catch can, limits.

mod can;
mod check;
mod element;
mod gather;
mod limits;
mod line;
mod valve;

pub use can::{CanDrainInputs, CanInputs, CanPlace};
pub use element::{ElementInputs, ElementKnowledge};
pub use gather::{CrossoverInputs, GasSource, MeshInputs};
pub use limits::LimitInputs;
pub use line::{InlineKind, LineInputs};
pub use valve::{Bench, BenchInputs, PortInputs, SpringInputs, ValveInputs, ValveKind};

use crate::quantity::si::{Area, Length, Ratio};
use crate::quantity::{Estimate, Kind, Measured};
use crate::study::{Field, Label, Visitor, defaults};

/// How the crankcase breathes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VentilationArrangement {
    /// One breather to the air.
    BreatherOnly,
    /// A breather, and a valve to the manifold.
    BreatherWithValve,
    /// One line to the clean side of the air cleaner, and no valve.
    LineToAirCleaner,
    /// A valve to the manifold, fresh air by a line from the air cleaner.
    ClosedWithFreshAirLine,
    /// Two breathers to the air.
    TwoBreathers,
    /// A valve to the manifold and no other way.
    ValveOnly,
}
crate::choice!(VentilationArrangement {
    BreatherOnly: "breather-only", "One breather";
    BreatherWithValve: "breather-with-valve", "Breather, and a PCV valve to the manifold";
    LineToAirCleaner: "line-to-air-cleaner", "One line to the air cleaner, no valve";
    ClosedWithFreshAirLine: "closed-with-fresh-air-line", "Closed: PCV valve, fresh air from the air cleaner";
    TwoBreathers: "two-breathers", "Two breathers";
    ValveOnly: "valve-only", "PCV valve and no other way out";
});

/// The way the gas is given.
#[derive(Clone, Debug, PartialEq)]
pub struct VentilationInputs {
    /// How the crankcase breathes.
    pub arrangement: VentilationArrangement,
    /// Where the breather takes its gas.
    pub source: GasSource,
    /// Open area of the baffle there, its discharge coefficient included.
    pub baffle_area: Option<Estimate<Area>>,
    /// The same of the cover of the valve or of the second breather.
    pub second_baffle_area: Option<Estimate<Area>>,
    /// Knitted mesh at the mouth of the breather.
    pub mesh: MeshInputs,
    /// A hose between the covers.
    pub crossover: CrossoverInputs,
    /// Place of the coldest wall of the cover between air and oil.
    pub wall_share: Option<Estimate<Ratio>>,
    /// Place of the wall of a breather or valve hose between air and oil.
    pub hose_share: Option<Estimate<Ratio>>,
    /// Height from the cover's floor down to the oil that closes its drain.
    pub drain_height: Option<Estimate<Length>>,
    /// The breather's line, or the fresh-air line of a closed system.
    pub breather: LineInputs,
    /// The breather's element.
    pub element: ElementInputs,
    /// The second breather's line.
    pub second: LineInputs,
    /// The valve to the manifold.
    pub valve: ValveInputs,
    /// From the cover to the catch can in the valve's line.
    pub valve_line: LineInputs,
    /// The catch can.
    pub can: CanInputs,
    /// What the seals and covers may see.
    pub limits: LimitInputs,
}

static VENTILATION: Label =
    Label::new("ventilation", "Crankcase ventilation", "The way the gas is given out of the crankcase.");
static ARRANGEMENT: Label = Label::new("arrangement", "Arrangement", "How the crankcase breathes.");
static BAFFLE: Field = Field::new(
    "baffle_area",
    "Baffle open area",
    Kind::SmallArea,
    (1e-6, 2000e-6),
    "Effective area under the cover: open area times about 0.6.",
    "",
);
static SOURCE: Label = Label::new("source", "Gas taken from", "Where the breather or the fresh-air line begins.");
static SECOND_BAFFLE: Field = Field::new(
    "second_baffle_area",
    "Baffle of the other cover",
    Kind::SmallArea,
    (1e-6, 2000e-6),
    "Effective area under the cover of the valve, of the second breather or of the cross-over.",
    "",
);
static BREATHER: Label = Label::new(
    "breather",
    "Breather line",
    "From the cover to the breather, or to the air cleaner of a closed system.",
);
static SECOND: Label = Label::new("second_breather", "Second breather line", "From the other cover.");
static VALVE_LINE: Label =
    Label::new("valve_line", "Line to the catch can", "From the cover to the can in the valve's line.");
static WALL: Field = Field::new(
    "wall_share",
    "Coldest wall of the cover, from air to oil",
    Kind::Number,
    (0.0, 1.0),
    "0 is as cold as the air, 1 as warm as the oil; 0.5 for a cover in the wind, 0.85 sheltered.",
    "",
);
static HOSE_WALL: Field = Field::new(
    "hose_share",
    "Wall of the hoses, from air to oil",
    Kind::Number,
    (0.0, 1.0),
    "0 is as cold as the air, 1 as warm as the oil; 0.25 for a hose in the wind, 0.7 for one lying on the engine.",
    "",
);
static DRAIN: Field = Field::new(
    "drain_height",
    "Height of the oil's way back",
    Kind::Length,
    (0.01, 1.0),
    "From the floor of the cover down to the oil that closes the drain, or to its open end in the crankcase.",
    "",
);

impl Default for VentilationInputs {
    fn default() -> Self {
        Self {
            arrangement: VentilationArrangement::BreatherWithValve,
            source: GasSource::Cover,
            baffle_area: None,
            second_baffle_area: None,
            mesh: MeshInputs::default(),
            crossover: CrossoverInputs::default(),
            wall_share: None,
            hose_share: None,
            drain_height: None,
            breather: LineInputs::default(),
            element: ElementInputs::default(),
            second: LineInputs::default(),
            valve: ValveInputs::default(),
            valve_line: LineInputs { bore: Length::from_base(0.0127), ..LineInputs::default() },
            can: CanInputs::default(),
            limits: LimitInputs::default(),
        }
    }
}

impl VentilationInputs {
    /// Whether the arrangement has a valve to the manifold.
    #[must_use]
    pub fn has_valve(&self) -> bool {
        use VentilationArrangement as A;
        matches!(self.arrangement, A::BreatherWithValve | A::ClosedWithFreshAirLine | A::ValveOnly)
    }

    /// Whether the first line leads to the clean side of the air cleaner.
    #[must_use]
    pub fn leads_to_air_cleaner(&self) -> bool {
        use VentilationArrangement as A;
        matches!(self.arrangement, A::ClosedWithFreshAirLine | A::LineToAirCleaner)
    }

    /// The first line in words.
    #[must_use]
    pub fn first_line(&self) -> &'static str {
        match self.arrangement {
            VentilationArrangement::ClosedWithFreshAirLine => "fresh-air line",
            VentilationArrangement::LineToAirCleaner => "line to the air cleaner",
            _ => "breather line",
        }
    }

    /// Whether the arrangement has a breather element: a closed system breathes through the engine's air cleaner.
    #[must_use]
    pub fn has_element(&self) -> bool {
        use VentilationArrangement as A;
        matches!(self.arrangement, A::BreatherOnly | A::BreatherWithValve | A::TwoBreathers)
    }

    /// Whether the arrangement has a breather or a fresh-air line.
    #[must_use]
    pub fn has_breather(&self) -> bool {
        self.arrangement != VentilationArrangement::ValveOnly
    }

    /// Whether a cover besides the one the breather leaves from has a line of its own.
    #[must_use]
    pub fn has_second_cover(&self) -> bool {
        use VentilationArrangement as A;
        self.arrangement == A::TwoBreathers || (self.has_valve() && self.has_breather())
    }

    /// Where the gas is taken; without a breather the valve sits in a cover.
    #[must_use]
    pub fn gas_source(&self) -> GasSource {
        if self.has_breather() { self.source } else { GasSource::Cover }
    }

    /// The baffle where the breather takes its gas.
    #[must_use]
    pub fn baffle(&self) -> Estimate<Area> {
        self.baffle_area.unwrap_or_else(|| self.gas_source().baffle_area())
    }

    /// The baffle of the other cover, taken to be as the first where that is a cover too.
    #[must_use]
    pub fn second_baffle(&self) -> Estimate<Area> {
        self.second_baffle_area.unwrap_or_else(|| self.second_baffle_taken())
    }

    fn second_baffle_taken(&self) -> Estimate<Area> {
        if self.gas_source() == GasSource::Cover { self.baffle() } else { GasSource::Cover.baffle_area() }
    }

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&VENTILATION, |v| {
            v.choice(&ARRANGEMENT, &mut self.arrangement);
            if self.has_breather() {
                v.later(|v| v.choice(&SOURCE, &mut self.source));
            }
            let taken = self.gas_source().baffle_area();
            v.estimate(&BAFFLE, &mut self.baffle_area, taken);
            if self.has_second_cover() {
                let taken = self.second_baffle_taken();
                v.estimate(&SECOND_BAFFLE, &mut self.second_baffle_area, taken);
            }
            v.estimate(&WALL, &mut self.wall_share, defaults::wall_share());
            v.estimate(&HOSE_WALL, &mut self.hose_share, defaults::hose_share());
            v.estimate(&DRAIN, &mut self.drain_height, defaults::drain_height());
            if self.has_breather() {
                self.mesh.visit(v);
                self.breather.visit(&BREATHER, v);
            }
            if self.has_element() {
                self.element.visit(v);
            }
            if self.arrangement == VentilationArrangement::TwoBreathers {
                self.second.visit(&SECOND, v);
            }
            if self.has_valve() {
                self.valve.visit(v);
            }
            self.can.visit(self.arrangement == VentilationArrangement::TwoBreathers, v);
            if self.can.place == CanPlace::ValveLine && self.has_valve() {
                self.valve_line.visit(&VALVE_LINE, v);
            }
            self.crossover.visit(v);
            self.limits.visit(v);
        });
    }
}
