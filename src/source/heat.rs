//! Sources of the heat part.

use super::{Source, Standing};

/// Thermostat trade settings.
pub static THERMOSTAT_SETTINGS: Source = Source::new(
    "thermostat-settings",
    "Nominal start-to-open settings of engine coolant thermostats, 160 to 195 °F; common practice",
    Standing::CommonPractice,
);
/// Thermostat span, tolerance and lag.
pub static THERMOSTAT_SPAN: Source = Source::new(
    "thermostat-span",
    "Wax thermostat: lift proportional to temperature over a span above start-to-open, with tolerance and closing lag",
    Standing::Assumption,
);
/// Heat exchanger theory.
pub static CROSSFLOW: Source = Source::new(
    "crossflow-effectiveness",
    "F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, table of effectiveness relations: \
     single-pass cross-flow, both fluids unmixed (approximate); agrees with the open library ht to 1e-6",
    Standing::FromMemory,
);
/// Turbulent tube flow.
pub static DITTUS_BOELTER: Source = Source::new(
    "dittus-boelter",
    "F. W. Dittus and L. M. K. Boelter (1930), turbulent heat transfer in tubes, exponents of flow and properties",
    Standing::FromMemory,
);
/// How the radiator's conductance scales.
pub static RADIATOR_SCALING: Source = Source::new(
    "radiator-scaling",
    "Radiator conductance split into an air-side share (mass flow to the power 0.5) and a coolant-side share \
     (velocity to the power 0.8)",
    Standing::Assumption,
);
/// Radiator sizes by class of car.
pub static RADIATOR_CLASS: Source = Source::new(
    "radiator-class",
    "Radiator conductance, frontal area and pump flow typical of a class of car; calibrate with one steady measurement",
    Standing::Assumption,
);
/// Air through the radiator.
pub static FACE_VELOCITY: Source = Source::new(
    "face-velocity",
    "Face velocity from a ram share of road speed and a fan, combined as the root of the sum of squares",
    Standing::Assumption,
);
/// Hot air drawn in again at standstill.
pub static RECIRCULATION: Source = Source::new(
    "recirculation",
    "Radiator inlet air above ambient at standstill, fading out with road speed",
    Standing::Assumption,
);
/// The engine's friction.
pub static FRICTION: Source = Source::new(
    "friction-mean-pressure",
    "J. B. Heywood, Internal Combustion Engine Fundamentals, motored friction of small four-cylinder engines: \
     fmep = 97 + 15 (N/1000) + 5 (N/1000)², kPa",
    Standing::FromMemory,
);
/// How much of the fuel's energy the coolant carries.
pub static COOLANT_SHARE: Source = Source::new(
    "coolant-share",
    "Share of fuel energy carried by the coolant, light load to rated; J. B. Heywood, Internal Combustion Engine \
     Fundamentals, energy balance at maximum power: spark ignition 17–26 %, diesel 16–35 %",
    Standing::Assumption,
);
/// Indicated efficiency.
pub static INDICATED_EFFICIENCY: Source = Source::new(
    "indicated-efficiency",
    "Indicated efficiency of spark-ignition and diesel engines used to reckon fuel power from shaft power",
    Standing::Assumption,
);
/// Heat to the coolant at idle.
pub static IDLE_HEAT: Source =
    Source::new("idle-heat", "Heat to the coolant of a warm engine at idle, by class", Standing::Assumption);
/// Drag, rolling and climbing.
pub static ROAD_LOAD: Source = Source::new(
    "road-load",
    "Power on the road: rolling, climbing and air drag over drivetrain efficiency",
    Standing::Definition,
);
/// Rolling resistance, drag area and drivetrain efficiency.
pub static ROAD_DEFAULTS: Source = Source::new(
    "road-defaults",
    "Rolling resistance, drag area and drivetrain efficiency of a passenger car; common practice",
    Standing::CommonPractice,
);
/// Specific fuel consumption.
pub static FUEL_CONSUMPTION: Source = Source::new(
    "specific-fuel-consumption",
    "Brake specific fuel consumption of spark-ignition engines: full throttle 0.28–0.31, hill 0.28, cruise \
     0.32–0.40 kg/(kW·h); stoichiometric air to petrol 14.7",
    Standing::FromMemory,
);
/// Speed-density relation.
pub static MANIFOLD: Source = Source::new(
    "speed-density",
    "Manifold pressure from air flow by the speed-density relation of a four-stroke engine, ideal gas",
    Standing::Definition,
);
/// Volumetric efficiency and intake temperature.
pub static MANIFOLD_DEFAULTS: Source = Source::new(
    "manifold-defaults",
    "Volumetric efficiency on manifold density, intake temperature, usual manifold pressures at idle, overrun and \
     full throttle",
    Standing::Assumption,
);
/// Heat capacity and losses of a warming engine.
pub static WARM_UP: Source = Source::new(
    "warm-up",
    "Engine as one lump of metal and coolant: effective heat capacity and conductance to the surrounding air",
    Standing::Assumption,
);
/// Metal hotter than the coolant.
pub static HOT_METAL: Source = Source::new(
    "hot-metal",
    "Metal around the coolant hotter than it: 2.5 kJ/K for each litre of displacement (2 to 3.2), a tenth more with \
     aluminium heads, at 150 °C (130 to 185 °C) when the engine stops",
    Standing::Assumption,
);
/// Viscosity of oil against temperature.
pub static WALTHER: Source = Source::new(
    "astm-d341",
    "ASTM D341 (Walther), log log (ν + 0.7) = A − B log T, ν above 2 mm²/s",
    Standing::FromMemory,
);

/// The bound of a hot stop.
pub static SOAK_BOUND: Source = Source::new(
    "soak-bound",
    "Heat of hot metal and coolant shared evenly, no loss to the air: an upper bound of the temperature after a hot stop",
    Standing::Definition,
);

/// Every entry of this part.
pub static ALL: &[&Source] = &[
    &THERMOSTAT_SETTINGS,
    &THERMOSTAT_SPAN,
    &CROSSFLOW,
    &DITTUS_BOELTER,
    &RADIATOR_SCALING,
    &RADIATOR_CLASS,
    &FACE_VELOCITY,
    &RECIRCULATION,
    &FRICTION,
    &COOLANT_SHARE,
    &INDICATED_EFFICIENCY,
    &IDLE_HEAT,
    &ROAD_LOAD,
    &ROAD_DEFAULTS,
    &FUEL_CONSUMPTION,
    &MANIFOLD,
    &MANIFOLD_DEFAULTS,
    &WARM_UP,
    &HOT_METAL,
    &SOAK_BOUND,
    &WALTHER,
];
