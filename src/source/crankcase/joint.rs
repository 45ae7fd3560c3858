//! Sources of the valve-cover joint.

use crate::source::{Source, Standing};

/// Limits of the unified inch threads.
pub static UNIFIED_THREADS: Source = Source::new(
    "asme-b1-1",
    "ASME B1.1, Unified Inch Screw Threads: limits of classes 2A and 2B; the stated digits are recomputed from the \
     standard's tolerance formulas, and the 2B limits of the coarse threads agree with a public table; both read as \
     secondary copies",
    Standing::Published,
);
/// Limits of the metric threads.
pub static METRIC_THREADS: Source = Source::new(
    "iso-965-1",
    "ISO 965-1, metric screw threads, tolerances: limits of 6g and 6H; the stated digits are recomputed from the \
     standard's formulas (from memory) and the 6g limits of M5 and the 6g major diameter of M6 agree with a public table",
    Standing::FromMemory,
);
/// Shear areas of threads and tensile stress areas.
pub static THREAD_AREAS: Source = Source::new(
    "fed-std-h28-2b",
    "FED-STD-H28/2B and ISO 898-1: thread shear areas at the limits of size, tensile stress area of the screw; the \
     forms were read in public secondary copies",
    Standing::Published,
);
/// Holes for wire thread inserts.
pub static WIRE_INSERT: Source = Source::new(
    "wire-insert-hole",
    "Basic size of the tapped hole for a wire thread insert: major diameter D + 1.299 P, pitch diameter D + 0.650 P",
    Standing::FromMemory,
);
/// Shear strength of what is tapped.
pub static PARENT_SHEAR: Source = Source::new(
    "parent-shear-strength",
    "Shear strength of cast aluminium (110 to 190 MPa), grey iron (200 to 276 MPa) and steel or nodular iron, materials \
     handbooks",
    Standing::FromMemory,
);
/// Strength of screws.
pub static SCREW_STRENGTH: Source = Source::new(
    "screw-strength",
    "ISO 898-1 (classes 4.8, 8.8, 10.9 up to 16 mm) and SAE J429 (grades 2 and 5): least tensile and proof strength",
    Standing::FromMemory,
);
/// What the strength of screws and threads is taken to be in a window of torque.
pub static JOINT_FIGURES: Source = Source::new(
    "joint-figures",
    "Chamfer and lead-in of a tapped hole, spread of a screw's real strength, shares of strip and proof load that \
     tightening may use, chosen by this program; of the proof load 75 % is usual for screws used again and 90 % for a \
     joint made for good (from memory, handbook practice): a cover is opened again, so 75 % is taken; one pitch of run-out \
     at the bottom of a tapped hole, and 0.2 N·m as the least a torque key can be set to",
    Standing::Assumption,
);
/// Shear against tensile strength.
pub static SHEAR_OF_SCREW: Source = Source::new(
    "shear-of-screw-steel",
    "Shear strength of a steel is 0.577 of its tensile strength (distortion energy); 0.6 in workshop use",
    Standing::FromMemory,
);
/// Torque and clamp load.
pub static NUT_FACTOR: Source = Source::new(
    "nut-factor",
    "Torque and clamp load by T = K d F; K 0.20 dry, 0.15 oiled, 0.25 to 0.30 plated or rough, scatter 25 to 30 %, \
     fastener handbooks",
    Standing::FromMemory,
);
/// Springs in series.
pub static SPRINGS: Source = Source::new(
    "springs-in-series",
    "Layers under one screw are springs in series; the screw stretches over its free length, k = E A_t/L",
    Standing::Definition,
);
/// Figures of gasket materials.
pub static GASKET_FIGURES: Source = Source::new(
    "gasket-figures",
    "Modulus, seating stress, crush stress and creep of cover gaskets; the seating stress of rubber (0.7 to 2 MPa) and \
     cork-rubber (1.4 to 4 MPa) is from memory, the rest is assumed",
    Standing::Assumption,
);
/// Contact stress against sealed pressure.
pub static GASKET_FACTOR: Source = Source::new(
    "gasket-factor",
    "ASME Boiler and Pressure Vessel Code, section VIII, appendix 2: a gasket holds a pressure while its contact stress \
     is m times that pressure; m 0.5 to 1 for rubber sheet, about 1.75 for fibre",
    Standing::FromMemory,
);
/// Elastic constants of metals.
pub static ELASTIC_CONSTANTS: Source = Source::new(
    "elastic-constants",
    "Elastic modulus of steel 205 GPa and of aluminium 70 GPa, materials handbooks",
    Standing::FromMemory,
);
/// Beam on an elastic bed.
pub static ELASTIC_BED: Source = Source::new(
    "beam-on-elastic-foundation",
    "M. Hetényi, Beams on Elastic Foundation, 1946: β = (k'/(4 E I))^¼, long beam under a concentrated load, and the sum \
     over a row of equal loads",
    Standing::FromMemory,
);
/// The spacing rule.
pub static SPACING_RULE: Source = Source::new(
    "screw-spacing",
    "Screws no further apart than π/β: contact half-way is then still 43 % of that at the screw; common practice for the \
     rule, the share is computed",
    Standing::CommonPractice,
);
/// Flow in a narrow slot.
pub static SLOT_FLOW: Source = Source::new(
    "slot-flow",
    "Laminar flow between parallel walls, q = h³ w Δp/(12 μ L) (plane Poiseuille flow)",
    Standing::Definition,
);
/// What a leak says.
pub static LEAK_TRIAL: Source = Source::new(
    "leak-trial",
    "A cover leak that stops when the crankcase goes from positive to slightly negative was pressure; one that goes on \
     was the joint",
    Standing::CommonPractice,
);
/// Figures of a leaking spot.
pub static LEAK_FIGURES: Source = Source::new(
    "leak-figures",
    "Size of a spot without contact, oil standing over it, and how much more it must leak by pressure before pressure is \
     named the cause",
    Standing::Assumption,
);

/// Every entry of this file.
pub static ALL: &[&Source] = &[
    &UNIFIED_THREADS,
    &METRIC_THREADS,
    &THREAD_AREAS,
    &WIRE_INSERT,
    &PARENT_SHEAR,
    &SCREW_STRENGTH,
    &JOINT_FIGURES,
    &SHEAR_OF_SCREW,
    &NUT_FACTOR,
    &SPRINGS,
    &GASKET_FIGURES,
    &GASKET_FACTOR,
    &ELASTIC_CONSTANTS,
    &ELASTIC_BED,
    &SPACING_RULE,
    &SLOT_FLOW,
    &LEAK_TRIAL,
    &LEAK_FIGURES,
];
