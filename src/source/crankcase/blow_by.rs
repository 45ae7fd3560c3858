//! Sources of the cylinder pressure and the blow-by.

use crate::source::{Source, Standing};

/// The crank-angle-resolved pressure, slider crank and burn law.
pub static HEYWOOD_ENGINE: Source = Source::new(
    "heywood-engine",
    "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988: slider crank (ch. 2), Wiebe burn law with a = 5, m = 2 (ch. 9)",
    Standing::FromMemory,
);
/// The ratio of specific heats of cylinder gas against temperature.
pub static BRUNT_GAMMA: Source = Source::new(
    "brunt-1998",
    "M. F. J. Brunt, H. Rai, A. L. Emtage, The Calculation of Heat Release Energy from Engine Cylinder Pressure Data, SAE 981052, 1998",
    Standing::FromMemory,
);
/// Gas in the crevices stands near the temperature of the walls.
pub static CREVICE_GAS: Source = Source::new(
    "namazian-heywood-1982",
    "M. Namazian, J. B. Heywood, Flow in the Piston-Cylinder-Ring Crevices of a Spark-Ignition Engine, SAE 820088, 1982",
    Standing::FromMemory,
);
/// Isentropic flow of an ideal gas through a hole.
pub static ISENTROPIC_HOLE: Source = Source::new(
    "isentropic-hole",
    "Isentropic flow of an ideal gas through a small hole with choking; agrees with a real-gas nozzle within 0.1 %",
    Standing::Definition,
);
/// Figures of the operating points and of the gas exchange.
pub static CYCLE_FIGURES: Source = Source::new(
    "cycle-figures",
    "Typical burn, residual gas, charge temperature, wall heat and gas exchange of an otto engine at five duties",
    Standing::Assumption,
);
/// Figures of the leak path: crevice temperature, ratio of specific heats, crankcase gas.
pub static LEAK_PATH_FIGURES: Source =
    Source::new("leak-path-figures", "State of the gas that passes the rings, either way", Standing::Assumption);
/// The size of blow-by that is called normal.
pub static BLOW_BY_SHARE: Source = Source::new(
    "blow-by-share",
    "Share of the intake flow and flow for each kilowatt by condition, chosen inside published marks: 0.2 to 1 % of the \
     intake flow (FISITA CAR20051039, abstract), 0.5 to 2 % (public encyclopaedia), 1 cfm for each 50 hp (motoring article)",
    Standing::Assumption,
);
/// The restrictor of the differential cylinder test.
pub static LEAK_DOWN_TEST: Source = Source::new(
    "leak-down-test",
    "FAA AC 43.13-1B, ch. 8: differential compression test, restrictor 0.040 in for bores below 5.00 in, 0.060 in from there; \
     supply 80 psi (from memory)",
    Standing::Published,
);
/// What a leak-down says about the running engine.
pub static LEAK_DOWN_FIGURES: Source = Source::new(
    "leak-down-figures",
    "Restrictor discharge, share past the rings, running against standing leak, and losses to expect by condition",
    Standing::Assumption,
);
/// Gaps, clearances, temperatures and side leaks of a ring pack.
pub static RING_FIGURES: Source = Source::new(
    "ring-figures",
    "Ring gaps and land clearance as shares of the bore, side leakage, wear and running temperatures",
    Standing::Assumption,
);
/// Expansion of iron and of piston aluminium.
pub static RING_EXPANSION: Source = Source::new(
    "ring-expansion",
    "Thermal expansion of grey iron (11e-6 /K) and of a piston alloy (20.5e-6 /K), materials handbooks",
    Standing::FromMemory,
);
/// Discharge of a ring gap.
pub static RING_DISCHARGE: Source = Source::new(
    "ring-discharge",
    "Discharge coefficient of a ring gap, 0.6 to 0.9; 0.86 is used in the ring-gas-flow literature",
    Standing::FromMemory,
);
