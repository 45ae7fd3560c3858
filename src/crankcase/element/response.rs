//! A flow with its slopes, and the two things all elements share: the mirror and the straight line through zero.

use super::Warmth;

/// Below this pressure difference, Pa, a hole is linear. A numerical device: a square root's slope at zero is infinite.
pub(crate) const LINEAR_BELOW: f64 = 0.1;
/// The same for a hose, which is laminar and so linear there by itself; only nothing is divided by nothing.
pub(crate) const LAMINAR_BELOW: f64 = 1e-6;

/// A flow, kg/s, and how it changes with either pressure, kg/(s·Pa).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Response {
    pub(crate) flow: f64,
    /// Not negative in a compliant element.
    pub(crate) by_first: f64,
    /// Not positive in a compliant element.
    pub(crate) by_second: f64,
}

impl Response {
    /// Two elements side by side.
    pub(crate) fn beside(self, other: Self) -> Self {
        Self {
            flow: self.flow + other.flow,
            by_first: self.by_first + other.by_first,
            by_second: self.by_second + other.by_second,
        }
    }

    /// The same seen from the other end.
    pub(crate) fn reversed(self) -> Self {
        Self { flow: -self.flow, by_first: -self.by_second, by_second: -self.by_first }
    }
}

/// What lies at the two ends of an element.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ends<'w> {
    /// Absolute pressure at the first end, Pa, above zero.
    pub(crate) first: f64,
    /// The same at the second.
    pub(crate) second: f64,
    /// The gas at either end; that of the end where gas enters counts.
    pub(crate) warmth: &'w [Warmth; 2],
}

/// What an element keeps between evaluations of one solution.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Memory {
    /// Effective area of a depression-operated valve while it is held, m².
    pub(crate) opening: f64,
    /// The last Reynolds number found in a hose, or one to start from; zero before the first.
    pub(crate) reynolds: f64,
    /// What drove it, `2 ρ Δp D²/μ²`; zero when the Reynolds number is only a start.
    pub(crate) drive: f64,
    /// Its slope in the drive.
    pub(crate) slope: f64,
}

/// The flow of a symmetric element from its law for a higher and a lower pressure.
#[inline]
pub(crate) fn either_way(ends: Ends<'_>, mut downhill: impl FnMut(f64, f64, &Warmth) -> Response) -> Response {
    let Ends { first, second, warmth } = ends;
    if first >= second { downhill(first, second, &warmth[0]) } else { downhill(second, first, &warmth[1]).reversed() }
}

/// A law for a higher and a lower pressure, made linear where they differ by less than `zone`, Pa.
#[inline]
pub(crate) fn straight_near_zero(
    high: f64,
    low: f64,
    zone: f64,
    mut law: impl FnMut(f64, f64) -> Response,
) -> Response {
    let gap = high - low;
    if gap >= zone {
        return law(high, low);
    }
    let edge = law(low + zone, low);
    let slope = edge.flow / zone;
    Response { flow: slope * gap, by_first: slope, by_second: (edge.by_first + edge.by_second) * gap / zone - slope }
}
