//! Gaps and clearances of the rings, measured when the engine was apart.

use super::RingCondition;
use crate::crankcase::blow_by::{InterRing, RingPackFigures};
use crate::quantity::si::{Length, ThermodynamicTemperature};
use crate::quantity::{Estimate, Kind};
use crate::study::{Field, Label, Visitor, defaults};

/// What is known of the ring pack; cold, at 20 °C.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RingInputs {
    /// Whether it was measured.
    pub known: bool,
    /// End gap of the top ring.
    pub top_gap: Option<Estimate<Length>>,
    /// End gap of the second ring.
    pub second_gap: Option<Estimate<Length>>,
    /// Radial clearance of the land below the top ring.
    pub top_clearance: Option<Estimate<Length>>,
    /// Radial clearance of the land below the second ring.
    pub second_clearance: Option<Estimate<Length>>,
    /// Slit around a ring that stands for face and side leakage.
    pub side_slit: Option<Estimate<Length>>,
    /// Temperature of the top ring.
    pub top_ring: Option<Estimate<ThermodynamicTemperature>>,
    /// Temperature of the second ring.
    pub second_ring: Option<Estimate<ThermodynamicTemperature>>,
    /// Temperature of the land below the top ring.
    pub top_land: Option<Estimate<ThermodynamicTemperature>>,
    /// Temperature of the land below the second ring.
    pub second_land: Option<Estimate<ThermodynamicTemperature>>,
    /// Temperature of the bore near dead centre.
    pub bore_wall: Option<Estimate<ThermodynamicTemperature>>,
    /// Height of the land between the rings; none leaves the gas stored there out.
    pub land_height: Option<Length>,
}

static GROUP: Label = Label::new(
    "rings",
    "Ring gaps",
    "Measured with the engine apart. What two gaps pass is a floor: faces, grooves and bores that leak come on top.",
);
static KNOWN: Label = Label::new("known", "Rings measured", "Whether gaps and clearances are known.");

const fn gap(key: &'static str, label: &'static str) -> Field {
    let help = "By a feeler, the ring square in its bore, cold.";
    Field::new(key, label, Kind::SmallLength, (0.0, 5e-3), help, "measured cold with the ring square in its bore")
}

const fn clearance(key: &'static str, label: &'static str) -> Field {
    let help = "Half of bore less land diameter, cold.";
    Field::new(key, label, Kind::SmallLength, (0.0, 3e-3), help, "half of the difference")
}

const fn warmth(key: &'static str, label: &'static str) -> Field {
    Field::new(key, label, Kind::Temperature, (233.15, 673.15), "Under load; heat closes the gap.", "")
}

static TOP_GAP: Field = gap("top_gap", "End gap, top ring");
static SECOND_GAP: Field = gap("second_gap", "End gap, second ring");
static TOP_CLEARANCE: Field = clearance("top_clearance", "Land clearance below the top ring");
static SECOND_CLEARANCE: Field = clearance("second_clearance", "Land clearance below the second ring");
static SIDE_SLIT: Field = Field::new(
    "side_slit",
    "Slit for faces and grooves",
    Kind::SmallLength,
    (0.0, 20e-6),
    "Stands for leakage past face and side of a ring, all round; by the condition if not known.",
    "fractions of a micrometre",
);
static TOP_RING: Field = warmth("top_ring", "Temperature, top ring");
static SECOND_RING: Field = warmth("second_ring", "Temperature, second ring");
static TOP_LAND: Field = warmth("top_land", "Temperature, land below the top ring");
static SECOND_LAND: Field = warmth("second_land", "Temperature, land below the second ring");
static BORE_WALL: Field = warmth("bore_wall", "Temperature, bore near dead centre");
static LAND_HEIGHT: Field = Field::new(
    "land_height",
    "Land height between the rings",
    Kind::SmallLength,
    (0.5e-3, 20e-3),
    "With it the gas stored between the rings is reckoned, which takes 7 to 34 % off.",
    "3 to 6 mm is usual",
);

impl RingInputs {
    pub(super) fn visit(&mut self, condition: RingCondition, bore: Length, visitor: &mut impl Visitor) {
        let usual = RingPackFigures::of(condition.physics(), bore);
        let mut known = self.known;
        visitor.optional_group(&GROUP, &KNOWN, &mut known, |v| {
            v.estimate(&TOP_GAP, &mut self.top_gap, usual.top_gap);
            v.estimate(&SECOND_GAP, &mut self.second_gap, usual.second_gap);
            v.estimate(&TOP_CLEARANCE, &mut self.top_clearance, usual.top_clearance);
            v.estimate(&SECOND_CLEARANCE, &mut self.second_clearance, usual.second_clearance);
            v.estimate(&SIDE_SLIT, &mut self.side_slit, usual.side_slit);
            v.estimate(&TOP_RING, &mut self.top_ring, defaults::top_ring());
            v.estimate(&SECOND_RING, &mut self.second_ring, defaults::second_ring());
            v.estimate(&TOP_LAND, &mut self.top_land, defaults::top_land());
            v.estimate(&SECOND_LAND, &mut self.second_land, defaults::second_land());
            v.estimate(&BORE_WALL, &mut self.bore_wall, defaults::bore_wall());
            v.optional(&LAND_HEIGHT, &mut self.land_height, "storage left out");
        });
        self.known = known;
    }

    /// The pack in the physics' words, and the volume between its rings if that is known.
    pub(in crate::study) fn pack(
        &self,
        condition: RingCondition,
        bore: Length,
    ) -> (RingPackFigures, Option<InterRing>) {
        let usual = RingPackFigures::of(condition.physics(), bore);
        let figures = RingPackFigures {
            top_gap: self.top_gap.unwrap_or(usual.top_gap),
            second_gap: self.second_gap.unwrap_or(usual.second_gap),
            top_clearance: self.top_clearance.unwrap_or(usual.top_clearance),
            second_clearance: self.second_clearance.unwrap_or(usual.second_clearance),
            side_slit: self.side_slit.unwrap_or(usual.side_slit),
            top_ring: self.top_ring.unwrap_or(usual.top_ring),
            second_ring: self.second_ring.unwrap_or(usual.second_ring),
            top_land: self.top_land.unwrap_or(usual.top_land),
            second_land: self.second_land.unwrap_or(usual.second_land),
            bore_wall: self.bore_wall.unwrap_or(usual.bore_wall),
            ..usual
        };
        let between = self.land_height.map(|land_height| InterRing { land_height, ..InterRing::of(bore) });
        (figures, between)
    }
}
