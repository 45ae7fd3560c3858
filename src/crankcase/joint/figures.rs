//! Every figure the joint assumes, with its spread, its range and its source; and the ranges of the inputs. Coherent SI
//! units.

use crate::quantity::si::{DynamicViscosity, Length, MassDensity, Pressure, Ratio, Torque};
use crate::quantity::{Kind, Range};
use crate::source::assumed;
use crate::source::crankcase::joint as source;

/// Torques of cover screws.
pub static TORQUE: Range =
    Range::new("tightening torque", Kind::Torque, 0.0, 100.0, "cover screws take 2 N·m to 20 N·m");
/// Loads of one screw.
pub static FORCE: Range =
    Range::new("clamp load of one screw", Kind::Force, 0.0, 200e3, "cover screws clamp 1 to 15 kN");
/// Diameters of screws.
pub static DIAMETER: Range =
    Range::new("screw diameter", Kind::SmallLength, 2e-3, 20e-3, "cover screws measure 4 mm to 10 mm");
/// Lengths of thread in the hole.
pub static LENGTH_OF_THREAD: Range = Range::new(
    "length of thread in the hole",
    Kind::SmallLength,
    0.2e-3,
    80e-3,
    "measure how far the screw goes in by turns times pitch",
);
/// Lengths of screws under the head.
pub static SCREW_LENGTH: Range =
    Range::new("length of the screw", Kind::SmallLength, 1e-3, 200e-3, "measure under the head");
/// Thicknesses a screw passes before its hole.
pub static GRIP: Range =
    Range::new("thickness clamped", Kind::SmallLength, 0.0, 200e-3, "cover flange, gaskets, spacer and washers");
/// Threaded depths of holes.
pub static DEPTH: Range =
    Range::new("threaded depth of the hole", Kind::SmallLength, 1e-3, 200e-3, "measure with a tap's full thread");
/// Free lengths of screws, head to first engaged thread.
pub static FREE_LENGTH: Range = Range::new(
    "free length of the screw",
    Kind::SmallLength,
    0.5e-3,
    200e-3,
    "from the head to the first thread engaged",
);
/// Factors between torque and clamp load.
pub static NUT_FACTOR: Range =
    Range::new("nut factor", Kind::Number, 0.05, 0.6, "0.15 oiled, 0.20 dry, 0.25 to 0.30 plated or rough");
/// Shear strengths of what is tapped.
pub static SHEAR_STRENGTH: Range =
    Range::new("shear strength", Kind::Stress, 20e6, 1.5e9, "110 MPa for weak cast aluminium, 240 MPa for grey iron");
/// Tensile strengths of screws.
pub static TENSILE: Range =
    Range::new("tensile strength of the screw", Kind::Stress, 100e6, 2e9, "800 MPa for class 8.8");
/// Proof strengths of screws.
pub static PROOF: Range = Range::new("proof strength of the screw", Kind::Stress, 50e6, 2e9, "580 MPa for class 8.8");
/// Elastic moduli of any layer or flange.
pub static MODULUS: Range =
    Range::new("elastic modulus", Kind::Stress, 0.1e6, 400e9, "3 to 10 MPa for cork-rubber, 70 GPa for aluminium");
/// Contact stresses that seat a gasket.
pub static SEATING: Range =
    Range::new("seating stress", Kind::Stress, 0.05e6, 100e6, "0.7 to 4 MPa for soft cover gaskets");
/// Contact stresses that crush a gasket.
pub static CRUSH: Range = Range::new("crush stress", Kind::Stress, 0.2e6, 1e9, "5 to 10 MPa for cork-rubber");
/// Shares of its thickness a gasket loses as it settles.
pub static CREEP: Range = Range::new("creep", Kind::Share, 0.0, 0.5, "2 % to 10 % of the thickness");
/// Contact stresses over the pressures they hold.
pub static FACTOR: Range =
    Range::new("gasket factor m", Kind::Number, 0.1, 10.0, "0.5 to 1 for rubber, about 1.75 for fibre");
/// Thicknesses of layers.
pub static THICKNESS: Range =
    Range::new("thickness of a layer", Kind::SmallLength, 0.05e-3, 60e-3, "cover gaskets are 1 mm to 6 mm thick");
/// Gasket areas pressed by one screw.
pub static GASKET_AREA: Range = Range::new(
    "gasket area for each screw",
    Kind::SmallArea,
    10e-6,
    0.05,
    "length of the gasket times its width, over the number of screws",
);
/// Widths of flanges and spreaders.
pub static BAR_WIDTH: Range =
    Range::new("width of the flange or bar", Kind::SmallLength, 2e-3, 100e-3, "10 mm to 20 mm is usual");
/// Thicknesses of flanges and spreaders.
pub static BAR_THICKNESS: Range =
    Range::new("thickness of the flange or bar", Kind::SmallLength, 0.3e-3, 60e-3, "1 mm sheet, 6 to 10 mm cast");
/// Distances between screws.
pub static SPACING: Range =
    Range::new("distance between screws", Kind::SmallLength, 5e-3, 1.0, "measure along the gasket");
/// Widths of gaskets.
pub static BED_WIDTH: Range =
    Range::new("width of the gasket", Kind::SmallLength, 1e-3, 100e-3, "10 mm to 15 mm is usual");
/// Heights of hard stops.
pub static STOP: Range = Range::new(
    "height of the hard stop",
    Kind::SmallLength,
    0.05e-3,
    60e-3,
    "below the free stack by what seats the gasket",
);
/// Crankcase pressures.
pub static CRANKCASE: Range = Range::new(
    "crankcase pressure",
    Kind::CrankcasePressure,
    -50e3,
    50e3,
    "a few kilopascals either way; measure on the dipstick tube",
);
/// Temperatures of the air outside.
pub static AIR_TEMPERATURE: Range =
    Range::new("air temperature", Kind::Temperature, 223.15, 473.15, "the air round the cover, 20 °C to 90 °C");

assumed! {
    /// Depth of the chamfer that carries nothing.
    chamfer: Length = [0.2e-3, 0.5e-3, 1.0e-3],
        Range::new("chamfer of the hole", Kind::SmallLength, 0.0, 5e-3, "0.5 mm is usual"),
        source::JOINT_FIGURES;
    /// Pitches of lead-in that carry nothing.
    lead_in: Ratio = [0.5, 1.0, 1.5],
        Range::new("lead-in of the thread, pitches", Kind::Number, 0.0, 4.0, "one pitch is usual"),
        source::JOINT_FIGURES;
    /// Real over least tensile strength of a screw: makers keep above the least.
    over_strength: Ratio = [1.0, 1.1, 1.25],
        Range::new(
            "real over least strength of the screw", Kind::Number, 1.0, 2.0,
            "1.25 covers nearly every screw",
        ),
        source::JOINT_FIGURES;
    /// Shear over tensile strength of the screw.
    shear_share: Ratio = [0.55, 0.577, 0.62],
        Range::new("shear over tensile strength", Kind::Number, 0.4, 0.8, "0.577 for steel"),
        source::SHEAR_OF_SCREW;
    /// Share of the strip load that tightening may use.
    half_of_strip: Ratio = [0.5, 0.5, 0.5],
        Range::new(
            "share of the strip load", Kind::Share, 0.1, 0.9,
            "one half is prudent for a thread used again",
        ),
        source::JOINT_FIGURES;
    /// Share of the proof load that tightening may use: a cover is opened again and again, so what is usual for screws used
    /// again is taken and not the 90 % of a joint made for good.
    proof_share: Ratio = [0.75, 0.75, 0.75],
        Range::new(
            "share of the proof load", Kind::Share, 0.1, 1.0,
            "75 % for a screw used again, 90 % for one tightened for good",
        ),
        source::JOINT_FIGURES;
    /// Thread at the bottom of a hole that a screw cannot use though it was counted with the depth, in pitches: the tap's
    /// run-out.
    run_out: Ratio = [0.0, 0.0, 1.0],
        Range::new("run-out of the thread, pitches", Kind::Number, 0.0, 6.0, "one pitch is enough where turns were counted"),
        source::JOINT_FIGURES;
    /// Least torque that a key can be set to and keeps.
    settable: Torque = [0.2, 0.2, 0.2],
        Range::new("least torque a key can be set to", Kind::Torque, 0.0, 5.0, "0.2 N·m for a small screwdriver key"),
        source::JOINT_FIGURES;
    /// Elastic modulus of a steel screw.
    steel_modulus: Pressure = [200e9, 205e9, 210e9], MODULUS, source::ELASTIC_CONSTANTS;
    /// Height of a spot without contact.
    spot_gap: Length = [10e-6, 30e-6, 100e-6],
        Range::new("gap of the spot", Kind::SmallLength, 0.1e-6, 1e-3, "a lost contact is 10 µm to 100 µm high"),
        source::LEAK_FIGURES;
    /// Width of a spot without contact, along the gasket.
    spot_width: Length = [5e-3, 20e-3, 50e-3],
        Range::new("width of the spot", Kind::SmallLength, 0.1e-3, 1.0, "5 mm to 50 mm"),
        source::LEAK_FIGURES;
    /// Length of the way out through the spot.
    land: Length = [4e-3, 8e-3, 15e-3],
        Range::new(
            "way through the gasket", Kind::SmallLength, 0.2e-3, 0.1,
            "the width of the gasket, 8 mm to 15 mm",
        ),
        source::LEAK_FIGURES;
    /// Oil standing over the spot.
    oil_head: Length = [2e-3, 10e-3, 30e-3],
        Range::new("oil over the spot", Kind::SmallLength, 0.0, 1.0, "5 mm to 30 mm in a cover"),
        source::LEAK_FIGURES;
    /// Viscosity of hot oil.
    oil_viscosity: DynamicViscosity = [5e-3, 10e-3, 30e-3],
        Range::new("viscosity of the oil", Kind::Viscosity, 0.5e-3, 20.0, "10 mPa·s hot, 200 mPa·s at 20 °C"),
        source::LEAK_FIGURES;
    /// Density of hot oil.
    oil_density: MassDensity = [800.0, 850.0, 890.0],
        Range::new("density of the oil", Kind::Density, 700.0, 1000.0, "850 kg/m³ hot"),
        source::LEAK_FIGURES;
    /// How many times more than by its head alone a spot must leak before pressure is named the cause; below the low value
    /// it is the joint, between them both.
    times_by_pressure: Ratio = [1.5, 3.0, 3.0],
        Range::new(
            "leak with pressure over leak without", Kind::Number, 1.0, 100.0,
            "3 is plain to see on a rag",
        ),
        source::LEAK_FIGURES;
}
