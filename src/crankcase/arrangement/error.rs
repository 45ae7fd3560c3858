//! Why a ventilation has no answer.

use crate::crankcase::element::FlowError;
use crate::crankcase::network::NetworkError;
use crate::quantity::OutOfRange;

/// Why a ventilation has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum VentilationError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A part that is not valid.
    #[error(transparent)]
    Part(#[from] FlowError),
    /// The network has no answer.
    #[error(transparent)]
    Network(#[from] NetworkError),
    /// A part the arrangement needs.
    #[error("{arrangement} needs {part}; describe it or choose another arrangement")]
    Missing {
        /// The arrangement in words.
        arrangement: &'static str,
        /// The part in words.
        part: &'static str,
    },
    /// A part the arrangement has no place for.
    #[error("{arrangement} has no place for {part}; take it away or choose another arrangement")]
    NoPlace {
        /// The arrangement in words.
        arrangement: &'static str,
        /// The part in words.
        part: &'static str,
    },
    /// A question that does not fit the arrangement.
    #[error("without a PCV valve there is no blow-by at which the breather turns round: it always blows outwards")]
    NeverTurns,
}
