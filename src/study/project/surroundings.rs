//! Where the car lives: altitude and the temperatures of its year.

use crate::quantity::si::{Length, Ratio, ThermodynamicTemperature};
use crate::quantity::{Estimate, Kind, Measured, celsius};
use crate::study::{Field, Label, Visitor, defaults};

/// Altitude and temperatures.
#[derive(Clone, Debug, PartialEq)]
pub struct Surroundings {
    /// Height above the sea.
    pub altitude: Length,
    /// The coldest start to reckon with.
    pub coldest: ThermodynamicTemperature,
    /// The temperature at which the system is filled and the cold mark is read.
    pub filled_at: ThermodynamicTemperature,
    /// Air temperature on the hottest day to reckon with.
    pub hottest: ThermodynamicTemperature,
    /// Relative humidity of the air on the coldest start; its wet end is reckoned with.
    pub humidity: Option<Estimate<Ratio>>,
    /// How far the oil has warmed, from the air towards a warm engine, when a usual short trip in the cold ends.
    pub trip_warmth: Option<Estimate<Ratio>>,
}

static GROUP: Label = Label::new("surroundings", "Surroundings", "Where the car is driven.");
static ALTITUDE: Field = Field::new(
    "altitude",
    "Altitude",
    Kind::Distance,
    (-400.0, 4000.0),
    "Height above the sea of the highest place you drive. Thin air lowers every boiling point.",
    "enter the height of the highest road, not of the garage",
);
static COLDEST: Field = Field::new(
    "coldest",
    "Coldest start",
    Kind::Temperature,
    (-40.0 + 273.15, 303.15),
    "The coldest morning on which the engine is started. The tank is at its lowest then.",
    "properties of the coolant are known from -40 °C up",
);
static FILLED_AT: Field = Field::new(
    "filled_at",
    "Filled at",
    Kind::Temperature,
    (273.15, 313.15),
    "The garage temperature when the system is filled and bled and the cold mark is read.",
    "fill at room temperature",
);
static HOTTEST: Field = Field::new(
    "hottest",
    "Hottest day",
    Kind::Temperature,
    (273.15, 328.15),
    "Air temperature in the shade on the hottest day you drive.",
    "no road air is hotter than 55 °C; heat from other cars has an input of its own",
);

static HUMIDITY: Field = Field::new(
    "humidity",
    "Humidity on the coldest start",
    Kind::Share,
    (0.0, 1.0),
    "As a weather report gives it. Its wet end is reckoned with; cold air holds little water at any.",
    "",
);

static TRIP_WARMTH: Field = Field::new(
    "trip_warmth",
    "Oil warmed by the end of a short cold trip",
    Kind::Share,
    (0.05, 1.0),
    "0 % is as cold as the air, 100 % as warm as on a long run: about half after 5 km. Oil lags well behind the coolant.",
    "put a thermometer into the dipstick tube, engine off, after your usual short trip",
);

impl Default for Surroundings {
    fn default() -> Self {
        Self {
            altitude: Length::from_base(300.0),
            coldest: celsius(-10.0),
            filled_at: celsius(15.0),
            hottest: celsius(35.0),
            humidity: None,
            trip_warmth: None,
        }
    }
}

impl Surroundings {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&GROUP, |v| {
            v.quantity(&ALTITUDE, &mut self.altitude);
            v.quantity(&COLDEST, &mut self.coldest);
            v.quantity(&FILLED_AT, &mut self.filled_at);
            v.quantity(&HOTTEST, &mut self.hottest);
            v.estimate(&HUMIDITY, &mut self.humidity, defaults::humidity());
            v.estimate(&TRIP_WARMTH, &mut self.trip_warmth, defaults::trip_warmth());
        });
    }
}
