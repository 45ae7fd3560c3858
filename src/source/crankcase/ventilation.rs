//! Sources of the ventilation elements, the network and the arrangement.

use crate::source::{Source, Standing};

/// Isentropic flow through a hole.
pub static ISENTROPIC_ORIFICE: Source = Source::new(
    "isentropic-orifice",
    "Isentropic flow of an ideal gas through a hole with a discharge coefficient; critical ratio and choked value agree \
     with independent open-source libraries within 0.1 %",
    Standing::Definition,
);
/// Discharge coefficients.
pub static DISCHARGE: Source = Source::new(
    "discharge-coefficients",
    "ISO 5167 and handbooks: sharp edge 0.62, short tube 0.80 to 0.85, rounded 0.95 to 0.98",
    Standing::FromMemory,
);
/// ISO 6358.
pub static ISO_6358: Source = Source::new(
    "iso-6358",
    "ISO 6358-1: sonic conductance C and critical ratio b, reference 1.185 kg/m³ at 293.15 K, linear above a ratio of 0.999",
    Standing::FromMemory,
);
/// Churchill's friction factor.
pub static CHURCHILL: Source = Source::new(
    "churchill-1977",
    "S. W. Churchill, Friction-factor equation spans all fluid-flow regimes, Chemical Engineering 84 (1977) 91-92",
    Standing::FromMemory,
);
/// Darcy and minor losses.
pub static DARCY: Source = Source::new(
    "darcy-weisbach",
    "Darcy-Weisbach loss with minor losses on the local velocity, density at the mean of the two end pressures",
    Standing::Definition,
);
/// Loss coefficients of fittings.
pub static FITTINGS: Source = Source::new(
    "fitting-losses",
    "Entrance 0.5 to 0.57, exit 1.0, bend of 1.5 diameters about 0.33, mitre bend about 1.2; handbook values, the \
     first three also computed independently with an open-source library",
    Standing::FromMemory,
);
/// Darcy and Forchheimer's law for media.
pub static FORCHHEIMER: Source = Source::new(
    "darcy-forchheimer",
    "Darcy-Forchheimer law of a porous medium: a viscous and an inertial term",
    Standing::Definition,
);
/// The shape of a plunger valve's opening.
pub static PLUNGER: Source = Source::new(
    "plunger-opening",
    "Opening against depression as a smooth step; that the valve is small at idle depression, large at light load and \
     shut on backfire is described in public workshop texts, the figures are assumed",
    Standing::Assumption,
);
/// A user's table.
pub static FLOW_TABLE: Source = Source::new(
    "valve-flow-table",
    "The user's own table of flow against depression; F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) \
     238-246 between the points",
    Standing::Published,
);
/// Assumed figures of the ventilation.
pub static VENTILATION_DEFAULTS: Source = Source::new(
    "ventilation-defaults",
    "Default sizes and coefficients of the crankcase ventilation, chosen by this program",
    Standing::Assumption,
);
/// Uniqueness of the network's solution.
pub static M_FUNCTION: Source = Source::new(
    "m-function",
    "J. M. Ortega and W. C. Rheinboldt, Iterative Solution of Nonlinear Equations in Several Variables, 1970: an \
     M-function has at most one root",
    Standing::FromMemory,
);
/// Crankcase pressure bands.
pub static PRESSURE_BANDS: Source = Source::new(
    "crankcase-pressure-bands",
    "Bands of this program, set inside limits that published service manuals give for small production engines: at \
     most +1.0 kPa new and +2.5 kPa used, no lower than -3.0 to -3.5 kPa",
    Standing::Assumption,
);

/// Every entry of this file.
pub static ALL: &[&Source] = &[
    &ISENTROPIC_ORIFICE,
    &DISCHARGE,
    &ISO_6358,
    &CHURCHILL,
    &DARCY,
    &FITTINGS,
    &FORCHHEIMER,
    &PLUNGER,
    &FLOW_TABLE,
    &VENTILATION_DEFAULTS,
    &M_FUNCTION,
    &PRESSURE_BANDS,
];
