//! Why no cylinder pressure or blow-by can be given.

use crate::numeric::RootError;
use crate::quantity::{NotOrdered, OutOfRange};

/// Why no answer can be given; each message names the value, what is allowed and what to do.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum BlowByError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(
        "the connecting rod is {rod_mm:.1} mm between centres, the stroke {stroke_mm:.1} mm; a rod is at least {least} \
         times the stroke: check both lengths"
    )]
    RodTooShort { rod_mm: f64, stroke_mm: f64, least: f64 },
    #[error("leak-down reading of cylinder {cylinder}: {cause}")]
    Reading { cylinder: usize, cause: OutOfRange },
    #[error("there are {readings} leak-down readings for {cylinders} cylinders; enter one for each cylinder")]
    ReadingCount { readings: usize, cylinders: u32 },
    #[error("{what} is {cylinders}, outside 1 to {most}; enter the number of cylinders of one engine")]
    Cylinders { what: &'static str, cylinders: u32, most: u32 },
    #[error(
        "no gas leaks towards the crankcase at this operating point, so a leak area cannot be found from its flow; use \
         a point at which the engine pulls"
    )]
    NoForwardLeak,
    #[error(transparent)]
    NotOrdered(#[from] NotOrdered),
    #[error(
        "there is no blow-by estimate to choose from; give the condition, a leak-down test, ring gaps or a measured flow"
    )]
    NoEstimate,
    #[error("the pressure between the rings was not found: {0}; check gaps and clearances")]
    NotSolved(#[from] RootError),
}
