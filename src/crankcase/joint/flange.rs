//! How evenly the flange spreads the clamp load between its screws: a beam on a soft bed.

use super::error::in_order;
use super::figures::{BAR_THICKNESS, BAR_WIDTH, BED_WIDTH, MODULUS, SPACING};
use super::{JointError, Stack};
use crate::note::{Note, Weight};
use crate::quantity::si::{Length, Pressure, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::Assumed;
use crate::source::crankcase::joint as source;
use std::f64::consts::PI;

/// `β s` at which a row of equal loads first lifts the beam half-way: twice the first root of `tan x + tanh x = 0`.
const LIFTS: f64 = 4.730_040_744_862_704;
/// Most bars of a flange: the flange, a spreader, and one more.
const MOST_BARS: usize = 4;

/// What a cover or a spreader is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlangeMaterial {
    /// Pressed sheet steel.
    SheetSteel,
    /// Cast aluminium.
    CastAluminium,
}

impl FlangeMaterial {
    /// Elastic modulus.
    #[must_use]
    pub fn modulus(self) -> Assumed<Pressure> {
        let [low, likely, high] = match self {
            Self::SheetSteel => [200e9, 205e9, 210e9],
            Self::CastAluminium => [68e9, 70e9, 73e9],
        };
        Assumed::new([low, likely, high], MODULUS, &source::ELASTIC_CONSTANTS)
    }
}

/// A flat strip that bends with the flange: the flange itself, or a load spreader lying on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Width across the gasket.
    pub width: Length,
    /// Thickness.
    pub thickness: Length,
    /// Elastic modulus.
    pub modulus: Estimate<Pressure>,
}

impl Bar {
    /// A strip with the usual modulus of its material.
    #[must_use]
    pub fn of(material: FlangeMaterial, width: Length, thickness: Length) -> Self {
        Self { width, thickness, modulus: material.modulus().estimate }
    }

    /// `I = w t³/12`, m⁴.
    fn second_moment(&self) -> f64 {
        self.width.base() * self.thickness.base().powi(3) / 12.0
    }
}

/// The flange between its screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Flange {
    /// The flange and whatever lies loose on it; their bending stiffnesses add. A turned-up lip may be entered as a
    /// thicker bar.
    pub bars: Vec<Bar>,
    /// Distance between neighbouring screws.
    pub spacing: Length,
    /// Width of the gasket under the flange.
    pub bed_width: Length,
}

/// Whether the gasket is pressed between the screws, judged at the unfavourable end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Contact {
    /// The screws are no further apart than `π/β`.
    Kept,
    /// Further apart than `π/β`; the middle is pressed by less than the rule asks.
    Weak,
    /// The flange bows off the gasket half-way.
    Lost,
}

/// How the clamp load lies along the gasket.
#[derive(Clone, Debug, PartialEq)]
pub struct Bedding {
    /// Greatest distance between screws that the rule allows, `π/β`.
    pub span: Estimate<Length>,
    /// Contact stress half-way between screws over the mean; zero where the flange lifts.
    pub midspan: Estimate<Ratio>,
    /// Contact stress at the screw over the mean.
    pub at_screw: Estimate<Ratio>,
    /// Whether the gasket is pressed half-way.
    pub contact: Contact,
    /// "flange-spans-far" when the rule is not kept.
    pub notes: Vec<Note>,
}

impl Flange {
    fn check(&self) -> Result<(), JointError> {
        let bars = self.bars.len();
        if bars == 0 || bars > MOST_BARS {
            return Err(JointError::Bars { bars, most: MOST_BARS });
        }
        for bar in &self.bars {
            BAR_WIDTH.check(bar.width)?;
            BAR_THICKNESS.check(bar.thickness)?;
            in_order(&bar.modulus, &MODULUS)?;
        }
        SPACING.check(self.spacing)?;
        BED_WIDTH.check(self.bed_width)?;
        Ok(())
    }

    /// How evenly the screws press this stack.
    ///
    /// The flange is a long beam on an elastic bed: `β = (k'/(4 Σ E I))^¼` with the bed `k' = w/Σ(t/E)` of gaskets and
    /// spacers (the spacer's own bending, which would help, is left out). The share half-way and at the screw are those of
    /// an endless row of equal loads. Contact is kept while the spacing is no more than `π/β`, where half-way is still
    /// pressed by 0.63 of the mean; at `1.506 π/β` the flange lifts there. More torque raises all stresses alike and
    /// evens out nothing; a spreader raises `E I`. Once the flange lifts, the stress at the screw is a little higher still than
    /// given here.
    ///
    /// # Errors
    /// No bar or more than four, or a figure outside its range or not in order; as [`Stack::stiffness`].
    pub fn bedding(&self, stack: &Stack, scribe: &mut impl Scribe) -> Result<Bedding, JointError> {
        self.check()?;
        stack.check()?;
        let bending = |modulus: fn(&Bar) -> Pressure| {
            self.bars.iter().map(|bar| modulus(bar).base() * bar.second_moment()).sum::<f64>()
        };
        let [weak, likely, stiff] =
            [bending(|bar| bar.modulus.low), bending(|bar| bar.modulus.likely), bending(|bar| bar.modulus.high)];
        let [soft_bed, bed, stiff_bed] = stack.compliance().map(|compliance| self.bed_width.base() / compliance);
        let beta = |bed: f64, bending: f64| (bed / (4.0 * bending)).powf(0.25);
        // A stiff bed under a weak flange is the unfavourable end.
        let betas = [beta(stiff_bed, weak), beta(bed, likely), beta(soft_bed, stiff)];
        let span = |beta: f64| Length::from_base(PI / beta);
        let [short, middle, long] = betas.map(span);
        let [worst, expected, best] = betas.map(|beta| shares(beta * self.spacing.base()));
        let estimate = |worst: f64, likely: f64, best: f64| {
            Estimate::sorted(Ratio::from_base(worst), Ratio::from_base(likely), Ratio::from_base(best))
        };
        let midspan = estimate(worst.midspan, expected.midspan, best.midspan);
        let at_screw = estimate(worst.at_screw, expected.at_screw, best.at_screw);
        let contact = if midspan.low.base() <= 0.0 {
            Contact::Lost
        } else if self.spacing.base() > short.base() {
            Contact::Weak
        } else {
            Contact::Kept
        };
        scribe.step(|| {
            Step::new("greatest distance between screws", "π/β", "π/β = π (4 Σ E I/k')^¼", &source::SPACING_RULE)
                .with_amount("Σ E I, N·m²", Amount::number(likely))
                .with_amount("k'", Amount::new(bed, Kind::Stress))
                .gives(middle)
        });
        scribe.step(|| {
            Step::new(
                "contact stress half-way over the mean",
                "σ_mid/σ",
                "row of equal loads on an elastic bed: σ(x) ~ Σ e^(−β|x−ns|)(cos β|x−ns| + sin β|x−ns|)",
                &source::ELASTIC_BED,
            )
            .with("s", self.spacing)
            .with("π/β", middle)
            .gives(midspan.likely)
        });
        Ok(Bedding {
            span: Estimate { low: short, likely: middle, high: long },
            midspan,
            at_screw,
            contact,
            notes: notes(contact),
        })
    }
}

fn notes(contact: Contact) -> Vec<Note> {
    let text = match contact {
        Contact::Kept => return Vec::new(),
        Contact::Weak => {
            "The screws are further apart than the flange spreads their load well. Spreader bars or a stiffer flange press \
             the middle; more torque does not even it out."
        }
        Contact::Lost => {
            "The flange bows off the gasket between the screws, at the unfavourable end at least. More torque bows it \
             further; spreader bars, a stiffer flange or a softer gasket close the gap."
        }
    };
    vec![Note::new("flange-spans-far", Weight::Weak, text)]
}

struct Shares {
    midspan: f64,
    at_screw: f64,
}

/// Stresses of an endless row of equal loads over their mean, for `x = β s`.
///
/// With `q = e^(−x + ix)`, `Σ e^(−nx)(cos nx + sin nx) = Re[(1 − i) q/(1 − q)]` and the mean is `2/x`.
fn shares(x: f64) -> Shares {
    // Both differ from one by less than 1e-9 here, and the closed form loses digits.
    if x < 1e-2 {
        return Shares { midspan: 1.0, at_screw: 1.0 };
    }
    let decay = (-x).exp();
    let (a, b) = (decay * x.cos(), decay * x.sin());
    let below = (1.0 - a) * (1.0 - a) + b * b;
    let whole = 1.0 + 2.0 * (a - decay * decay + b) / below;
    let half = (-x / 2.0).exp();
    let (c, d) = (half * (x / 2.0).cos(), half * (x / 2.0).sin());
    let between = 2.0 * (c * (1.0 - a) - d * b + d * (1.0 - a) + c * b) / below;
    // A bed cannot pull: beyond lifting the middle is bare, and the sum, whose bed can, says nothing there.
    let midspan = if x < LIFTS { (between * x / 2.0).max(0.0) } else { 0.0 };
    Shares { midspan, at_screw: whole * x / 2.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_loads_sums_to_the_closed_form() {
        for x in [0.02, 0.3, 1.0, PI, 4.0, 4.72, 7.0, 13.0, 40.0] {
            let term = |distance: f64| (-distance).exp() * (distance.cos() + distance.sin());
            let direct =
                |at: f64| (-20_000..=20_000).map(|n| term((at - f64::from(n) * x).abs())).sum::<f64>() * x / 2.0;
            let closed = shares(x);
            assert!((closed.at_screw - direct(0.0)).abs() < 1e-9, "{x}");
            let middle = if x < LIFTS { direct(x / 2.0) } else { 0.0 };
            assert!((closed.midspan - middle).abs() < 1e-9, "{x}");
        }
    }

    #[test]
    fn the_middle_lifts_where_the_sum_passes_zero() {
        let term = |distance: f64| (-distance).exp() * (distance.cos() + distance.sin());
        let sum = |x: f64| (-200..=200).map(|n| term((x / 2.0 - f64::from(n) * x).abs())).sum::<f64>();
        assert!(sum(LIFTS).abs() < 1e-12 && sum(LIFTS * 0.999) > 1e-5 && sum(LIFTS * 1.001) < -1e-5);
        assert!((LIFTS / 2.0).tan() + (LIFTS / 2.0).tanh() < 1e-12);
    }
}
