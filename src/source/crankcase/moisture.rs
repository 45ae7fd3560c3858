//! Sources of moisture, oil carry-over, drain-back and the valve's share of the mixture.

use crate::source::{Source, Standing};

/// Burning of a hydrocarbon.
pub static BURNING: Source = Source::new(
    "burnt-gas-balance",
    "Balance of carbon, hydrogen and oxygen with dry air of 3.773 N₂ (argon with it) for each O₂",
    Standing::Definition,
);
/// The shift between carbon monoxide and water in rich burnt gas.
pub static WATER_GAS: Source = Source::new(
    "water-gas-constant",
    "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, ch. 4: rich exhaust holds CO·H₂O/(CO₂·H₂) near 3.5",
    Standing::FromMemory,
);
/// Composition of petrol.
pub static PETROL: Source = Source::new(
    "petrol-composition",
    "Hydrogen for each carbon atom in petrol, 1.7 to 2.1, 1.87 usual; oxygen up to 0.03 with 10 % ethanol",
    Standing::FromMemory,
);
/// Vapour over ice and over supercooled water.
pub static MAGNUS: Source = Source::new(
    "wmo-magnus",
    "WMO-No. 8, Guide to Instruments and Methods of Observation, annex on humidity: 6.112 hPa·exp(22.46·t/(272.62 + t)) \
     over ice, −65 to 0 °C, and 6.112 hPa·exp(17.62·t/(243.12 + t)) over water, −45 to 60 °C; relative humidity counts \
     over water also below 0 °C",
    Standing::FromMemory,
);
/// The mix of blow-by and fresh air.
pub static GAS_MIX: Source = Source::new(
    "crankcase-mix",
    "Balance of water in burnt blow-by, unburnt blow-by and fresh air; moles taken as mass, burnt gas and air differ by less \
     than 1 %",
    Standing::Definition,
);
/// The burnt share of blow-by.
pub static BURNT_SHARE: Source = Source::new(
    "burnt-share",
    "Blow-by is mostly unburnt charge; its burnt share is put at 0.2 to 0.5 in the engine literature, all burnt is the worst",
    Standing::FromMemory,
);
/// Temperatures of oil and walls.
pub static CRANKCASE_WARMTH: Source = Source::new(
    "crankcase-warmth",
    "Oil of a warm engine is 15 K below (light duty in winter) to 25 K above the coolant (load); the wall of a cover or can \
     takes 0.5 to 0.85 of the way from the air to the oil; water and fuel leave oil of 90 °C and more",
    Standing::Assumption,
);
/// Vapour pressure of the hydrocarbons that stand for cuts of petrol.
pub static PETROL_CUTS: Source = Source::new(
    "dippr-101-alkanes",
    "DIPPR equation 101 with the coefficients of Perry's Chemical Engineers' Handbook, 8th edition, table 2-8, as distributed \
     with the open library chemicals 1.5.2; n-octane to n-dodecane stand for the cuts of petrol that stay in oil",
    Standing::Published,
);
/// Fall of a droplet.
pub static STOKES: Source = Source::new(
    "stokes-settling",
    "Stokes' law of a falling droplet, for Reynolds numbers well below 1",
    Standing::Definition,
);
/// Drag of a droplet beyond Stokes.
pub static SCHILLER_NAUMANN: Source = Source::new(
    "schiller-naumann",
    "L. Schiller and A. Naumann, drag of a sphere: 24/Re·(1 + 0.15·Re^0.687) up to Re 800, VDI-Zeitschrift 1933",
    Standing::FromMemory,
);
/// Speed at which rising gas holds liquid up.
pub static SOUDERS_BROWN: Source = Source::new(
    "souders-brown",
    "M. Souders and G. G. Brown, Industrial and Engineering Chemistry 26 (1934) 98: K·√((ρl − ρg)/ρg); K 0.107 m/s for knitted \
     mesh is seen in public handbooks",
    Standing::FromMemory,
);
/// Factors of Souders and Brown for a can.
pub static CAN_FIGURES: Source = Source::new(
    "can-figures",
    "Souders-Brown factors of an open and a baffled can, share of the oil each catches, smallest can, rests to leave",
    Standing::Assumption,
);
/// Impaction of droplets.
pub static IMPACTION: Source = Source::new(
    "hinds-impaction",
    "W. C. Hinds, Aerosol Technology: half the droplets strike at a Stokes number of 0.24 for a round jet, 0.59 for a slot",
    Standing::FromMemory,
);
/// Oil carried by blow-by.
pub static CARRY_OVER: Source = Source::new(
    "oil-carry-over",
    "0.5 to 5 g/h from car engines (from memory), 2 to 15 g/h from heavy diesel engines (FISITA CAR20051039); 5 to 10 times as \
     much when worn or on a track and the growth with gas speed are assumptions of this program",
    Standing::Assumption,
);
/// Gas speeds to keep to.
pub static GAS_SPEEDS: Source = Source::new(
    "crankcase-gas-speeds",
    "Below 1 m/s where oil is to settle or to run down against gas, below 3 m/s at the mouth of the outlet",
    Standing::Assumption,
);
/// Density of warm engine oil.
pub static OIL_DENSITY: Source = Source::new(
    "warm-oil-density",
    "Engine oil has 860 to 890 kg/m³ at 15 °C and 810 to 850 kg/m³ at 60 to 120 °C",
    Standing::FromMemory,
);
/// Hydrostatic head.
pub static HEAD: Source = Source::new("hydrostatic-head", "Pressure of a standing column, ρ g h", Standing::Definition);
/// Water that leaves a gas on a cold wall.
pub static CONDENSATE: Source = Source::new(
    "condensate-balance",
    "Balance of water between a gas and the same gas saturated at the wall",
    Standing::Definition,
);
/// The mixture with gas from the valve.
pub static MIXTURE: Source = Source::new(
    "idle-mixture-balance",
    "Balance of air and fuel at idle with the gas that enters by the PCV valve",
    Standing::Definition,
);
/// Share of the idle air that the valve may pass.
pub static IDLE_SHARE: Source =
    Source::new("idle-air-share", "The PCV valve passes 5 to 20 % of the idle air", Standing::Assumption);
/// Where a valve may join the intake.
pub static PORTS: Source = Source::new(
    "valve-port-practice",
    "Where the hose of a PCV valve joins the intake, and what shuts it against backfire and boost",
    Standing::CommonPractice,
);

/// Every entry of this file.
pub static ALL: &[&Source] = &[
    &BURNING,
    &WATER_GAS,
    &PETROL,
    &MAGNUS,
    &GAS_MIX,
    &BURNT_SHARE,
    &CRANKCASE_WARMTH,
    &PETROL_CUTS,
    &STOKES,
    &SCHILLER_NAUMANN,
    &SOUDERS_BROWN,
    &CAN_FIGURES,
    &IMPACTION,
    &CARRY_OVER,
    &GAS_SPEEDS,
    &OIL_DENSITY,
    &HEAD,
    &CONDENSATE,
    &MIXTURE,
    &IDLE_SHARE,
    &PORTS,
];
