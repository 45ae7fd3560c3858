//! Why no answer about the joint can be given.

use crate::fluid::FluidError;
use crate::quantity::si::Length;
use crate::quantity::{Amount, Estimate, Kind, Measured, NotOrdered, OutOfRange, Range, UnitSystem};

/// Why no answer can be given; each message names the value, what is allowed and what to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum JointError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Properties of air that are not known.
    #[error(transparent)]
    Air(#[from] FluidError),
    /// Low, likely and high do not rise.
    #[error(transparent)]
    NotOrdered(#[from] NotOrdered),
    /// Chamfer and lead-in use the whole thread.
    #[error(
        "the thread is engaged over {}, of which chamfer and lead-in may use {}: nothing is left to carry; use a longer \
         screw or a deeper thread", small(.length), small(.lost)
    )]
    NothingEngaged {
        /// Length in the hole.
        length: Length,
        /// What chamfer and lead-in take at their high ends.
        lost: Length,
    },
    /// A screw that does not reach the hole.
    #[error(
        "the screw is {} long and what it clamps is {} thick, so it does not reach the thread; use a longer screw",
        small(.screw), small(.grip)
    )]
    TooShort {
        /// Length under the head.
        screw: Length,
        /// Thickness clamped.
        grip: Length,
    },
    /// A screw that meets the bottom of its hole before it clamps.
    #[error(
        "the screw reaches {} into a hole of {}: it meets the bottom before it clamps and can crack the boss; use a \
         shorter screw or washers", small(.reaches), small(.depth)
    )]
    Bottoms {
        /// How far the screw would go in.
        reaches: Length,
        /// Threaded depth of the hole.
        depth: Length,
    },
    /// A stack without a gasket, or with too many layers.
    #[error(
        "the stack has {layers} layers, {gaskets} of them gaskets; it needs at least one gasket and at most {most} layers"
    )]
    Layers {
        /// Layers given.
        layers: usize,
        /// Gaskets among them.
        gaskets: usize,
        /// Most layers allowed.
        most: usize,
    },
    /// A flange without a bar, or with too many.
    #[error("the flange has {bars} bars; it needs 1 to {most}: the flange itself, and a spreader if there is one")]
    Bars {
        /// Bars given.
        bars: usize,
        /// Most bars allowed.
        most: usize,
    },
    /// A hard stop that is not below the free stack.
    #[error(
        "the hard stop is {} high and the free stack {}: it must leave the gasket compressed by {} to {}; take another \
         height", small(.stop), small(.free), share(*.least), share(*.most)
    )]
    StopHeight {
        /// Height of the stop.
        stop: Length,
        /// Free thickness of the stack.
        free: Length,
        /// Least compression of the gaskets, share of their thickness.
        least: f64,
        /// Most compression of the gaskets.
        most: f64,
    },
    /// A gap wide enough for turbulent flow.
    #[error(
        "flow in a gap of {} would have a Reynolds number of {reynolds:.0}, and the slot law holds to {most:.0}: this is \
         a hole, not a weep; close it before asking for a rate", small(.gap)
    )]
    NotLaminar {
        /// Height of the gap.
        gap: Length,
        /// Reynolds number on twice the gap.
        reynolds: f64,
        /// Highest at which the law holds.
        most: f64,
    },
    /// Two observations in the wrong order.
    #[error(
        "the crankcase pressure was {} before and {} after; the trial needs a lower pressure the second time",
        show(.before), show(.after)
    )]
    TrialOrder {
        /// Pressure at the first look.
        before: Amount,
        /// Pressure at the second look.
        after: Amount,
    },
}

fn show(amount: &Amount) -> String {
    amount.show(UnitSystem::Si)
}

fn small(length: &Length) -> String {
    show(&Amount::of_kind(*length, Kind::SmallLength))
}

fn share(share: f64) -> String {
    show(&Amount::new(share, Kind::Share))
}

/// Passes three values that are allowed and rise.
pub(super) fn in_order<Q: Measured>(estimate: &Estimate<Q>, range: &Range) -> Result<(), JointError> {
    range.check_estimate(estimate)
}
