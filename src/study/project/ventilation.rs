//! The way out that the crankcase gas is given: lines, breather element, valve, catch can, limits.

use crate::crankcase::oil::CanInside;
use crate::quantity::si::{Area, Length, Pressure, Ratio, Velocity, Volume, VolumeRate};
use crate::quantity::{Estimate, GaugePressure, Kind, LinearResistance, Measured, QuadraticResistance};
use crate::study::{Count, Field, Label, Visitor, defaults};

/// How the crankcase breathes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VentilationArrangement {
    /// One breather to the air.
    BreatherOnly,
    /// A breather, and a valve to the manifold.
    BreatherWithValve,
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
    ClosedWithFreshAirLine: "closed-with-fresh-air-line", "Closed: PCV valve, fresh air from the air cleaner";
    TwoBreathers: "two-breathers", "Two breathers";
    ValveOnly: "valve-only", "PCV valve and no other way out";
});

/// How the valve to the manifold is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveKind {
    /// A plunger held by a spring.
    Plunger,
    /// Flow against depression, from a bench.
    Table,
    /// A fixed hole with a check.
    FixedOrifice,
}
crate::choice!(ValveKind {
    Plunger: "plunger", "Spring and plunger";
    Table: "table", "Measured: flow against depression";
    FixedOrifice: "fixed-orifice", "Fixed orifice with a check";
});

/// Where the catch can sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CanPlace {
    /// None fitted.
    None,
    /// Between cover and breather.
    BreatherLine,
    /// Between cover and valve.
    ValveLine,
}
crate::choice!(CanPlace {
    None: "none", "No catch can";
    BreatherLine: "breather-line", "In the breather line";
    ValveLine: "valve-line", "In the valve line, sealed";
});

crate::choice!(CanInside {
    Open: "open", "Nothing";
    Baffled: "baffled", "Walls that turn the gas";
    Mesh: "mesh", "A pack of knitted mesh";
});

/// A line from a cover to where the gas goes.
#[derive(Clone, Debug, PartialEq)]
pub struct LineInputs {
    /// Bore of the hose.
    pub bore: Length,
    /// Length of the hose.
    pub length: Length,
    /// Bends of 90°.
    pub bends: u32,
    /// Smallest bore of a barb or fitting, if narrower than the hose.
    pub barb: Option<Length>,
}

/// A breather element.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementInputs {
    /// Pressure per flow.
    pub linear: Option<Estimate<LinearResistance>>,
    /// Pressure per flow squared.
    pub quadratic: Option<Estimate<QuadraticResistance>>,
}

/// The way the gas is given.
#[derive(Clone, Debug, PartialEq)]
pub struct VentilationInputs {
    /// How the crankcase breathes.
    pub arrangement: VentilationArrangement,
    /// Open area of the cover's baffle, its discharge coefficient included.
    pub baffle_area: Option<Estimate<Area>>,
    /// The breather's line, or the fresh-air line of a closed system.
    pub breather: LineInputs,
    /// The breather's element.
    pub element: ElementInputs,
    /// The second breather's line.
    pub second: LineInputs,
    /// How the valve is known.
    pub valve: ValveKind,
    /// Plunger: open area at small depression.
    pub valve_open_area: Area,
    /// Plunger: open area at idle depression.
    pub valve_idle_area: Area,
    /// Plunger: depression at which it begins to close.
    pub valve_begins: Pressure,
    /// Plunger: depression at which it has closed to its idle area.
    pub valve_ends: Pressure,
    /// Fixed orifice: diameter.
    pub valve_orifice: Length,
    /// Table: depression and flow at 20 °C and 1 atm.
    pub valve_table: Vec<(Pressure, VolumeRate)>,
    /// From the cover to the catch can in the valve's line.
    pub valve_line: LineInputs,
    /// Where the catch can sits.
    pub can: CanPlace,
    /// Inlet and outlet bore of the can.
    pub can_bore: Length,
    /// Volume of the can up to its outlet.
    pub can_volume: Option<Volume>,
    /// What is inside the can.
    pub can_inside: CanInside,
    /// Area that the gas has inside the can.
    pub can_area: Area,
    /// Whether the can drains into the sump by itself.
    pub can_drains: bool,
    /// Mean speed of the car, idling counted.
    pub mean_speed: Velocity,
    /// Distance between two looks at the can.
    pub service: Length,
    /// Place of the coldest wall of cover and hoses between air and oil.
    pub wall_share: Option<Estimate<Ratio>>,
    /// Height from the cover's floor down to the oil that closes its drain.
    pub drain_height: Option<Estimate<Length>>,
    /// Crankcase gauge pressure not to be passed at full throttle and on a hill.
    pub limit_load: Option<Estimate<GaugePressure>>,
    /// Crankcase gauge pressure not to be passed at idle, cruise and overrun.
    pub limit_light: Option<Estimate<GaugePressure>>,
    /// Depression of the crankcase not to be passed.
    pub limit_depression: Option<Estimate<Pressure>>,
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
static LINE_BORE: Field =
    Field::new("bore", "Hose bore", Kind::Length, (0.002, 0.06), "Inside diameter.", "measure the inside of the hose");
static LINE_LENGTH: Field =
    Field::new("length", "Hose length", Kind::Distance, (0.02, 10.0), "Along the hose.", "measure along the hose");
static LINE_BENDS: Count =
    Count { label: Label::new("bends", "Bends of 90°", "Count two 45° bends as one."), low: 0, high: 20 };
static LINE_BARB: Field = Field::new(
    "barb",
    "Smallest fitting bore",
    Kind::Length,
    (0.001, 0.06),
    "Barbs are often 2 to 3 mm narrower than the hose; the tightest spot rules.",
    "it must not be wider than the hose",
);
static BREATHER: Label = Label::new(
    "breather",
    "Breather line",
    "From the cover to the breather, or to the air cleaner of a closed system.",
);
static SECOND: Label = Label::new("second_breather", "Second breather line", "From the other cover.");
static VALVE_LINE: Label =
    Label::new("valve_line", "Line to the catch can", "From the cover to the can in the valve's line.");
static ELEMENT: Label =
    Label::new("element", "Breather element", "Its resistance: pressure = linear · flow + quadratic · flow².");
static LINEAR: Field =
    Field::new("linear", "Linear resistance", Kind::LinearResistance, (0.0, 1e8), "Zero for an open pipe.", "");
static QUADRATIC: Field = Field::new(
    "quadratic",
    "Quadratic resistance",
    Kind::QuadraticResistance,
    (0.0, 1e12),
    "Zero for an open pipe.",
    "",
);
static VALVE_GROUP: Label = Label::new("valve", "PCV valve", "Lets crankcase gas into the manifold.");
static VALVE: Label = Label::new("kind", "Valve known as", "A bench table beats the presets.");
static OPEN_AREA: Field = Field::new(
    "open_area",
    "Open area at small depression",
    Kind::SmallArea,
    (0.1e-6, 200e-6),
    "Effective area with the spring fully extended: cruise to full throttle.",
    "",
);
static IDLE_AREA: Field = Field::new(
    "idle_area",
    "Open area at idle depression",
    Kind::SmallArea,
    (0.1e-6, 200e-6),
    "Effective area with the plunger drawn home.",
    "",
);
static BEGINS: Field = Field::new(
    "begins",
    "Begins to close at",
    Kind::PressureDifference,
    (0.5e3, 60e3),
    "Depression across the valve.",
    "",
);
static ENDS: Field = Field::new(
    "ends",
    "Closed to idle area at",
    Kind::PressureDifference,
    (1e3, 95e3),
    "Depression across the valve.",
    "it must be deeper than where it begins",
);
static ORIFICE: Field =
    Field::new("orifice", "Orifice diameter", Kind::SmallLength, (0.0005, 0.01), "Of the fixed hole.", "");
static TABLE: Label = Label::new("table", "Bench points", "Depression across the valve and the flow it passed.");
static TABLE_DEPRESSION: Field =
    Field::new("depression", "depression", Kind::PressureDifference, (0.0, 100e3), "Across the valve.", "");
static TABLE_FLOW: Field =
    Field::new("flow", "flow", Kind::GasVolumeFlow, (0.0, 0.02), "Of air at 20 °C and 101.325 kPa.", "");
static CAN_GROUP: Label =
    Label::new("catch_can", "Catch can", "Keeps oil off the exhaust; it does not lower the pressure.");
static CAN: Label = Label::new("place", "Catch can", "Where it sits.");
static CAN_BORE: Field =
    Field::new("bore", "Bore of its fittings", Kind::Length, (0.003, 0.06), "Smaller of inlet and outlet.", "");
static CAN_VOLUME: Field = Field::new(
    "volume",
    "Volume of the can",
    Kind::Volume,
    (0.05e-3, 20e-3),
    "Up to the outlet. With it the program tells what collects, and when to drain.",
    "",
);
static CAN_INSIDE: Label = Label::new("inside", "Inside the can", "What makes the gas let go of its oil.");
static CAN_AREA: Field = Field::new(
    "area",
    "Area inside the can",
    Kind::SmallArea,
    (100e-6, 0.1),
    "Across the way of the gas: of a round can, that of its inside circle.",
    "some 20 to 80 cm²",
);
static CAN_DRAINS: Label = Label::new("drains_to_sump", "Drains into the sump", "By a hose or a valve of its own.");
static MEAN_SPEED: Field = Field::new(
    "mean_speed",
    "Mean speed of the car",
    Kind::RoadSpeed,
    (2.0, 80.0),
    "Over hundreds of kilometres, idling counted: distance over hours of running.",
    "about 60 km/h in mixed driving",
);
static SERVICE: Field = Field::new(
    "service",
    "Distance between looks at the can",
    Kind::RoadDistance,
    (10e3, 50e6),
    "How far you drive before you drain it.",
    "5000 to 15000 km",
);
static WALL: Field = Field::new(
    "wall_share",
    "Coldest wall, from air to oil",
    Kind::Number,
    (0.0, 1.0),
    "0 is as cold as the air, 1 as warm as the oil; 0.5 for a cover in the wind, 0.85 sheltered.",
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
static LIMITS: Label =
    Label::new("limits", "Crankcase pressure limits", "What the seals and covers of this engine may see.");
static LIMIT_LOAD: Field = Field::new(
    "under_load",
    "Under load",
    Kind::CrankcasePressure,
    (100.0, 10e3),
    "At full throttle and on a hill.",
    "",
);
static LIMIT_LIGHT: Field =
    Field::new("light_load", "At light load", Kind::CrankcasePressure, (0.0, 5e3), "At idle, cruise and overrun.", "");
static LIMIT_DEPRESSION: Field = Field::new(
    "depression",
    "Depression",
    Kind::CrankcasePressure,
    (500.0, 20e3),
    "Below ambient; deeper than this draws seals inward and oil upward.",
    "",
);

impl Default for LineInputs {
    fn default() -> Self {
        Self { bore: Length::from_base(0.016), length: Length::from_base(0.6), bends: 2, barb: None }
    }
}

impl LineInputs {
    fn visit(&mut self, label: &'static Label, visitor: &mut impl Visitor) {
        visitor.group(label, |v| {
            v.quantity(&LINE_BORE, &mut self.bore);
            v.quantity(&LINE_LENGTH, &mut self.length);
            v.count(&LINE_BENDS, &mut self.bends);
            v.optional(&LINE_BARB, &mut self.barb, "none narrower than the hose");
        });
    }
}

impl Default for VentilationInputs {
    fn default() -> Self {
        let litres_per_minute = |l: f64| VolumeRate::from_base(l * 1e-3 / 60.0);
        let kilopascals = |k: f64| Pressure::from_base(k * 1e3);
        Self {
            arrangement: VentilationArrangement::BreatherWithValve,
            baffle_area: None,
            breather: LineInputs::default(),
            element: ElementInputs { linear: None, quadratic: None },
            second: LineInputs::default(),
            valve: ValveKind::Plunger,
            valve_open_area: Area::from_base(12e-6),
            valve_idle_area: Area::from_base(4e-6),
            valve_begins: kilopascals(8.0),
            valve_ends: kilopascals(50.0),
            valve_orifice: Length::from_base(0.0025),
            valve_table: vec![
                (kilopascals(0.0), litres_per_minute(0.0)),
                (kilopascals(5.0), litres_per_minute(60.0)),
                (kilopascals(20.0), litres_per_minute(90.0)),
                (kilopascals(50.0), litres_per_minute(45.0)),
                (kilopascals(80.0), litres_per_minute(45.0)),
            ],
            valve_line: LineInputs { bore: Length::from_base(0.0127), ..LineInputs::default() },
            can: CanPlace::None,
            can_bore: Length::from_base(0.016),
            can_volume: None,
            can_inside: CanInside::Baffled,
            can_area: Area::from_base(3e-3),
            can_drains: false,
            mean_speed: Velocity::from_base(60.0 / 3.6),
            service: Length::from_base(5e6),
            wall_share: None,
            drain_height: None,
            limit_load: None,
            limit_light: None,
            limit_depression: None,
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

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&VENTILATION, |v| {
            v.choice(&ARRANGEMENT, &mut self.arrangement);
            v.estimate(&BAFFLE, &mut self.baffle_area, defaults::baffle_area());
            v.estimate(&WALL, &mut self.wall_share, defaults::wall_share());
            v.estimate(&DRAIN, &mut self.drain_height, defaults::drain_height());
            if self.has_breather() {
                self.breather.visit(&BREATHER, v);
            }
            if self.has_element() {
                v.group(&ELEMENT, |v| {
                    v.estimate(&LINEAR, &mut self.element.linear, defaults::element_linear());
                    v.estimate(&QUADRATIC, &mut self.element.quadratic, defaults::element_quadratic());
                });
            }
            if self.arrangement == VentilationArrangement::TwoBreathers {
                self.second.visit(&SECOND, v);
            }
            if self.has_valve() {
                v.group(&VALVE_GROUP, |v| self.visit_valve(v));
            }
            v.group(&CAN_GROUP, |v| {
                v.choice(&CAN, &mut self.can);
                if self.can != CanPlace::None {
                    v.quantity(&CAN_BORE, &mut self.can_bore);
                    self.visit_can(v);
                }
            });
            if self.can == CanPlace::ValveLine && self.has_valve() {
                self.valve_line.visit(&VALVE_LINE, v);
            }
            v.group(&LIMITS, |v| {
                v.estimate(&LIMIT_LOAD, &mut self.limit_load, defaults::limit_load());
                v.estimate(&LIMIT_LIGHT, &mut self.limit_light, defaults::limit_light());
                v.estimate(&LIMIT_DEPRESSION, &mut self.limit_depression, defaults::limit_depression());
            });
        });
    }

    /// What collects is asked about only of a can whose volume is known.
    fn visit_can(&mut self, v: &mut impl Visitor) {
        v.optional(&CAN_VOLUME, &mut self.can_volume, "not known");
        if self.can_volume.is_some() {
            v.choice(&CAN_INSIDE, &mut self.can_inside);
            v.quantity(&CAN_AREA, &mut self.can_area);
            v.switch(&CAN_DRAINS, &mut self.can_drains);
            v.quantity(&MEAN_SPEED, &mut self.mean_speed);
            v.quantity(&SERVICE, &mut self.service);
        }
    }

    fn visit_valve(&mut self, v: &mut impl Visitor) {
        v.choice(&VALVE, &mut self.valve);
        match self.valve {
            ValveKind::Plunger => {
                v.quantity(&OPEN_AREA, &mut self.valve_open_area);
                v.quantity(&IDLE_AREA, &mut self.valve_idle_area);
                v.quantity(&BEGINS, &mut self.valve_begins);
                v.quantity(&ENDS, &mut self.valve_ends);
            }
            ValveKind::Table => v.pairs(&TABLE, (&TABLE_DEPRESSION, &TABLE_FLOW), &mut self.valve_table),
            ValveKind::FixedOrifice => v.quantity(&ORIFICE, &mut self.valve_orifice),
        }
    }
}
