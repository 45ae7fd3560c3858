//! The parts of a crankcase ventilation as a builder knows them.

use crate::crankcase::element::{
    BreatherElement, CheckValve, Element, FixedOrificeValve, Gas, Hose, Orifice, PlungerValve, SonicPort,
    SpringPlunger, TableValve, baffle_area, barb_discharge, can_inlet_loss, can_outlet_loss, seat_leak,
};
use crate::quantity::si::{Area, Length, Pressure, Ratio};
use crate::quantity::{Amount, Kind};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::{ANNULUS, FLOW_TABLE, ISENTROPIC_ORIFICE, ISO_6358, PLUNGER};

/// How a crankcase is ventilated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrangement {
    /// One breather to the air.
    BreatherOnly,
    /// A breather to the air and a PCV valve to the manifold.
    BreatherWithValve,
    /// Closed: fresh air from the air cleaner, a PCV valve to the manifold.
    ClosedWithFreshAirLine,
    /// Two breathers to the air.
    TwoBreathers,
    /// One line to the clean side of the air cleaner, and no valve.
    LineToAirCleaner,
}

impl Arrangement {
    /// Whether a PCV valve belongs to it.
    #[must_use]
    pub const fn has_valve(self) -> bool {
        matches!(self, Self::BreatherWithValve | Self::ClosedWithFreshAirLine)
    }

    /// Whether the first line leads to the clean side of the air cleaner.
    #[must_use]
    pub const fn leads_to_air_cleaner(self) -> bool {
        matches!(self, Self::ClosedWithFreshAirLine | Self::LineToAirCleaner)
    }
}

/// Where the breather, or the fresh-air line, takes its gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GasSource {
    /// From a valve cover.
    Cover,
    /// From the valley between the banks.
    Valley,
    /// From the side of the block, or the sump above the oil.
    Sump,
}

/// Something that stands in a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Inline {
    /// A component with a sonic conductance after ISO 6358.
    Component(SonicPort),
    /// A check valve that lets gas out.
    CheckOutwards(CheckValve),
    /// A check valve that lets air in.
    CheckInwards(CheckValve),
}

/// A line from a cover: barb, hose, element, each only if there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreatherLine {
    /// The hose.
    pub hose: Hose,
    /// The bore of the narrowest barb or neck, often 2 to 3 mm under that of the hose.
    pub barb_bore: Option<Length>,
    /// Discharge coefficient of the barb.
    pub barb_discharge: Ratio,
    /// Head of the liquid that stands in a sag of the hose.
    pub sag: Option<Pressure>,
    /// A component or a check valve in the line.
    pub inline: Option<Inline>,
    /// The filter at the end.
    pub element: Option<BreatherElement>,
}

impl BreatherLine {
    /// A bare hose with the usual fittings.
    #[must_use]
    pub fn of_hose(bore: Length, length: Length, bends: u32) -> Self {
        Self {
            hose: Hose::with_bends(bore, length, bends),
            barb_bore: None,
            barb_discharge: barb_discharge().likely(),
            sag: None,
            inline: None,
            element: None,
        }
    }

    /// The same with a barb of a bore.
    #[must_use]
    pub const fn with_barb(mut self, bore: Length) -> Self {
        self.barb_bore = Some(bore);
        self
    }

    /// The same with a filter.
    #[must_use]
    pub const fn with_element(mut self, element: BreatherElement) -> Self {
        self.element = Some(element);
        self
    }
}

/// A PCV valve.
#[derive(Clone, Debug, PartialEq)]
pub enum Valve {
    /// A spring-loaded plunger by its openings.
    Plunger(PlungerValve),
    /// The same by the measures of plunger and spring.
    SpringPlunger(SpringPlunger),
    /// By its owner's table.
    Table(TableValve),
    /// A fixed hole with a check.
    FixedOrifice(FixedOrificeValve),
    /// A check valve.
    Check(CheckValve),
    /// By its data sheet after ISO 6358, which says nothing of the way back: it passes both ways alike.
    Sonic(SonicPort),
}

/// How a valve may be stuck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuck {
    /// It passes next to nothing.
    Shut,
    /// A hole of its widest opening, either way.
    Open,
}

impl Valve {
    /// The valve as a flow element, from the crankcase to the manifold.
    #[must_use]
    pub fn element(&self) -> Element {
        match self {
            Self::SpringPlunger(valve) => (*valve).into(),
            Self::Sonic(port) => (*port).into(),
            Self::Plunger(valve) => (*valve).into(),
            Self::Table(valve) => valve.clone().into(),
            Self::FixedOrifice(valve) => (*valve).into(),
            Self::Check(valve) => (*valve).into(),
        }
    }

    /// The same valve stuck.
    pub(super) fn stuck_element(&self, stuck: Stuck) -> Element {
        match (stuck, self) {
            (Stuck::Shut, _) => Orifice { effective_area: seat_leak().likely() }.into(),
            (Stuck::Open, Self::Sonic(port)) => (*port).into(),
            (Stuck::Open, _) => Orifice { effective_area: self.widest_opening() }.into(),
        }
    }

    /// The widest it opens, as an effective area. For a component after ISO 6358 the hole that passes as much when choked:
    /// 1 mm² for each 0.1992e-8 m³/(s·Pa).
    #[must_use]
    pub fn widest_opening(&self) -> Area {
        match self {
            Self::Plunger(valve) => valve.open_area.max(valve.idle_area),
            Self::SpringPlunger(valve) => valve.open_area(),
            Self::Table(valve) => valve.widest_opening(),
            Self::FixedOrifice(valve) => valve.as_check().effective_area,
            Self::Check(valve) => valve.effective_area,
            Self::Sonic(port) => port.choked_area(),
        }
    }

    /// Writes where it moves and how wide it opens.
    pub fn explain(&self, scribe: &mut impl Scribe) {
        if let Self::SpringPlunger(valve) = self {
            valve.explain(scribe);
        }
        if let Self::Plunger(valve) = self {
            scribe.step(|| {
                Step::new("the plunger moves between two depressions", "d₂ − d₁", "d₂ − d₁", &PLUNGER)
                    .with("d₁", valve.starts_reducing)
                    .with("d₂", valve.fully_reduced)
                    .gives(valve.fully_reduced - valve.starts_reducing)
            });
        }
        let (equation, source) = match self {
            Self::Plunger(_) => ("the larger of A_open and A_idle", &PLUNGER),
            Self::SpringPlunger(_) => ("C_d π/4 (D_s² − D_t²), the plunger at rest", &ANNULUS),
            Self::Table(_) => ("the largest ṁ √(R T_b)/(p_b Ψ(1 − d/p_b)) of the table", &FLOW_TABLE),
            Self::FixedOrifice(_) => ("C_d π d²/4", &ISENTROPIC_ORIFICE),
            Self::Check(_) => ("as entered", &ISENTROPIC_ORIFICE),
            Self::Sonic(_) => ("C ρ₀ √(R T₀)/Ψ(b), choked", &ISO_6358),
        };
        scribe.step(|| {
            Step::new("widest opening of the valve", "C_d A", equation, source)
                .gives_amount(Amount::of_kind(self.widest_opening(), Kind::SmallArea))
        });
    }

    /// The depressions at which it begins to reduce its opening and at which it is fully reduced; none if it does not move
    /// so, or moves as its table says.
    #[must_use]
    pub fn moves_between(&self) -> Option<(Pressure, Pressure)> {
        match self {
            Self::Plunger(valve) => Some((valve.starts_reducing, valve.fully_reduced)),
            Self::SpringPlunger(valve) => Some((valve.begins(), valve.ends())),
            _ => None,
        }
    }
}

/// Where a catch can stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CanPlace {
    /// In the line of the breather, or of the fresh air.
    BreatherLine,
    /// Between the cover and the PCV valve.
    ValveLine,
}

/// Whether a catch can is open to the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Venting {
    /// Gas leaves through the outlet hose alone; without a hose the next part sits on the can.
    Sealed {
        /// The hose from the can onwards.
        outlet: Option<Hose>,
    },
    /// The can has an opening to the air. In a breather line the line ends here and its filter sits on the can.
    Vented {
        /// Bore of the opening, for a can in a breather line without a filter, or in a valve line.
        opening_bore: Option<Length>,
        /// A filter on the opening of a can in a valve line; a breather line has its own.
        element: Option<BreatherElement>,
        /// The hose from the can onwards to the valve, for a can in a valve line.
        outlet: Option<Hose>,
    },
}

/// A catch can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CatchCan {
    /// Where it stands.
    pub place: CanPlace,
    /// Sealed, or open to the air.
    pub venting: Venting,
    /// Loss at the inlet on the velocity in the inlet hose, beyond the hose's own exit.
    pub inlet_loss: Ratio,
    /// Loss at the outlet on the velocity there, beyond the outlet hose's own entrance.
    pub outlet_loss: Ratio,
    /// Knitted mesh inside.
    pub mesh: Option<BreatherElement>,
}

impl CatchCan {
    /// A can with the usual losses.
    #[must_use]
    pub fn new(place: CanPlace, venting: Venting) -> Self {
        Self {
            place,
            venting,
            inlet_loss: can_inlet_loss().likely(),
            outlet_loss: can_outlet_loss().likely(),
            mesh: None,
        }
    }
}

/// The whole ventilation of a crankcase.
#[derive(Clone, Debug, PartialEq)]
pub struct Ventilation {
    /// How it is laid out.
    pub arrangement: Arrangement,
    /// The breather, or the fresh-air line of a closed system; none when there is none or it is blocked.
    pub breather: Option<BreatherLine>,
    /// The second of two breathers.
    pub second_breather: Option<BreatherLine>,
    /// The PCV valve.
    pub valve: Option<Valve>,
    /// A fault of the valve to reckon with.
    pub valve_stuck: Option<Stuck>,
    /// The hose from the cover to the valve, or to the can ahead of it; none when the valve sits in the cover.
    pub valve_line: Option<BreatherLine>,
    /// Bore of the port in the manifold, when it may be smaller than the valve.
    pub port_bore: Option<Length>,
    /// A catch can.
    pub catch_can: Option<CatchCan>,
    /// A catch can in the second breather's line.
    pub second_can: Option<CatchCan>,
    /// Where the breather takes its gas.
    pub source: GasSource,
    /// Effective area of passages and baffle between the crankcase and the breather's cover, or whatever place it takes
    /// its gas from.
    pub baffle_area: Area,
    /// The same to the cover of the valve or of the second breather; as the first when none.
    pub second_baffle_area: Option<Area>,
    /// Knitted mesh at the mouth of the breather, or of the fresh-air line.
    pub mesh: Option<BreatherElement>,
    /// A hose that joins the two covers.
    pub crossover: Option<Hose>,
    /// The gas.
    pub gas: Gas,
}

impl Ventilation {
    /// Whether a breather or a fresh-air line lets air into the crankcase.
    #[must_use]
    pub fn lets_air_in(&self) -> bool {
        let lines = self.breather.iter().chain(&self.second_breather);
        lines.into_iter().any(|line| !matches!(line.inline, Some(Inline::CheckOutwards(_))))
    }

    /// One breather.
    #[must_use]
    pub fn breather_only(breather: BreatherLine) -> Self {
        Self {
            arrangement: Arrangement::BreatherOnly,
            breather: Some(breather),
            second_breather: None,
            valve: None,
            valve_stuck: None,
            valve_line: None,
            port_bore: None,
            catch_can: None,
            second_can: None,
            source: GasSource::Cover,
            baffle_area: baffle_area().likely(),
            second_baffle_area: None,
            mesh: None,
            crossover: None,
            gas: Gas::default(),
        }
    }

    /// A breather and a valve.
    #[must_use]
    pub fn breather_with_valve(breather: BreatherLine, valve: Valve) -> Self {
        Self { arrangement: Arrangement::BreatherWithValve, valve: Some(valve), ..Self::breather_only(breather) }
    }

    /// A closed system.
    #[must_use]
    pub fn closed(fresh_air: BreatherLine, valve: Valve) -> Self {
        Self { arrangement: Arrangement::ClosedWithFreshAirLine, valve: Some(valve), ..Self::breather_only(fresh_air) }
    }

    /// Two breathers.
    #[must_use]
    pub fn two_breathers(first: BreatherLine, second: BreatherLine) -> Self {
        Self { arrangement: Arrangement::TwoBreathers, second_breather: Some(second), ..Self::breather_only(first) }
    }
}

/// A line of the ventilation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Line {
    /// The breather's.
    Breather,
    /// The second breather's.
    SecondBreather,
    /// The fresh air's.
    FreshAir,
    /// The PCV valve's.
    Valve,
    /// The opening of a can in the valve's line.
    CanVent,
    /// The hose between the covers, from the second to the first, with the baffle of a cover that has no other line.
    CrossOver,
}

/// What resists the flow in a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Piece {
    /// Passages and baffle between crankcase and cover.
    Baffle,
    /// Knitted mesh behind the baffle.
    Mesh,
    /// The barb or neck.
    Barb,
    /// Liquid in the sag of the hose.
    Sag,
    /// A component after ISO 6358.
    Component,
    /// A check valve.
    Check,
    /// The hose, with the catch can's inlet if it leads there.
    Hose,
    /// Knitted mesh in the can.
    CanMesh,
    /// The hose from the can onwards, with the can's outlet.
    CanOutlet,
    /// The opening of a vented can.
    CanOpening,
    /// The filter.
    Element,
    /// The PCV valve.
    Valve,
    /// The port in the manifold.
    Port,
}

/// Where a pressure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// The crankcase.
    Crankcase,
    /// The cover of the breather or of the fresh-air line.
    BreatherCover,
    /// The cover of the PCV valve or of the second breather.
    SecondCover,
    /// Where the breather takes its gas, when that is no cover.
    TakenFrom(GasSource),
    /// The catch can.
    Can,
    /// The catch can of the second breather.
    SecondCan,
    /// The manifold.
    Manifold,
    /// The clean side of the air cleaner.
    AirCleaner,
    /// The ambient air.
    Atmosphere,
    /// Behind a piece of a line.
    Behind(Line, Piece),
}
