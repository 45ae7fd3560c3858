//! Clamp load lost as the gaskets settle.

use super::error::in_order;
use super::figures::{FORCE, FREE_LENGTH, MODULUS};
use super::{JointError, Stack, Thread};
use crate::note::{Note, Weight};
use crate::quantity::si::{Force, Length, Pressure, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range, Stiffness};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::joint as source;

static SCREW_STIFFNESS: Range = Range::new(
    "stiffness of the screw",
    Kind::Stiffness,
    1e5,
    1e11,
    "400 kN/mm for 10 mm of free 6 mm screw; find it from the free length",
);

/// Stiffness of a screw between its head and the first thread engaged, `k_b = E A_t/L`.
///
/// # Errors
/// A free length outside 0.5 to 200 mm, or a modulus outside its range or not in order.
pub fn screw_stiffness(
    thread: &Thread,
    free: Length,
    modulus: &Estimate<Pressure>,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Stiffness>, JointError> {
    let free = FREE_LENGTH.check(free)?;
    in_order(modulus, &MODULUS)?;
    let area = thread.stress_area(scribe);
    let stiffness = modulus.map(|modulus: Pressure| Stiffness::from_base(modulus.base() * area.base() / free.base()));
    scribe.step(|| {
        Step::new("stiffness of the screw", "k_b", "k_b = E A_t/L", &source::SPRINGS)
            .with_amount("E", Amount::of_kind(modulus.likely, Kind::Stress))
            .with("A_t", area)
            .with_amount("L", Amount::of_kind(free, Kind::SmallLength))
            .gives(stiffness.likely)
    });
    Ok(stiffness)
}

/// What settling costs.
#[derive(Clone, Debug, PartialEq)]
pub struct CreepLoss {
    /// Thickness the gaskets lose.
    pub settles: Estimate<Length>,
    /// Clamp load lost by it.
    pub loss: Estimate<Force>,
    /// Share of the clamp load lost.
    pub share: Estimate<Ratio>,
    /// Clamp load left; zero where the loss is all of it, which the note "clamp-lost" says.
    pub left: Estimate<Force>,
    /// "retorque", and "clamp-lost" when nothing may be left.
    pub notes: Vec<Note>,
}

impl CreepLoss {
    /// The same with remarks for a cover that lies on hard stops: tightening again presses metal on metal and puts no load
    /// on the gasket.
    #[must_use]
    pub fn on_stops(mut self) -> Self {
        self.notes = vec![Note::new(
            "settled-on-stops",
            Weight::Remark,
            "On hard stops the gasket keeps what settling leaves it: tightening again presses the stops, not the gasket.",
        )];
        if self.left.low.base() <= 0.0 {
            let text = "At the unfavourable end the gasket settles by more than the stops press it: the joint goes loose and \
                        hot oil may reach the exhaust. Fit lower stops or a thicker gasket.";
            self.notes.push(Note::new("clamp-lost", Weight::Danger, text));
        }
        self
    }
}

impl Stack {
    /// Clamp load lost when the gaskets settle by a share of their thickness: `ΔF = δ k_b k_g/(k_b + k_g)` with
    /// `δ = Σ c t` over the gaskets.
    ///
    /// The screw is far stiffer than the gaskets, so the loss is nearly `δ k_g`: two gaskets settle twice as far on half
    /// the stiffness and lose the *same* load as one. They double the travel and the faces that leak instead.
    ///
    /// # Errors
    /// A load or a stiffness outside its range or not in order; as [`Stack::stiffness`].
    pub fn creep_loss(
        &self,
        clamp: &Estimate<Force>,
        screw: &Estimate<Stiffness>,
        scribe: &mut impl Scribe,
    ) -> Result<CreepLoss, JointError> {
        in_order(clamp, &FORCE)?;
        in_order(screw, &SCREW_STIFFNESS)?;
        let stiffness = self.stiffness(scribe)?;
        let settled = |creep: fn(&super::GasketFigures) -> Ratio| {
            let gaskets = self.layers.iter().filter_map(|layer| layer.gasket.as_ref().map(|f| (layer, f)));
            Length::from_base(gaskets.map(|(layer, f)| creep(f).base() * layer.thickness.base()).sum())
        };
        let settles = Estimate {
            low: settled(|f| f.creep.low),
            likely: settled(|f| f.creep.likely),
            high: settled(|f| f.creep.high),
        };
        let lost = |settles: Length, gasket: Stiffness, screw: Stiffness| {
            let (gasket, screw) = (gasket.base(), screw.base());
            Force::from_base(settles.base() * (gasket * screw / (gasket + screw)))
        };
        let loss = Estimate {
            low: lost(settles.low, stiffness.low, screw.low),
            likely: lost(settles.likely, stiffness.likely, screw.likely),
            high: lost(settles.high, stiffness.high, screw.high),
        };
        scribe.step(|| {
            Step::new(
                "clamp load lost as the gaskets settle",
                "ΔF",
                "ΔF = δ k_b k_g/(k_b + k_g)",
                &source::GASKET_FIGURES,
            )
            .with_amount("δ", Amount::of_kind(settles.likely, Kind::SmallLength))
            .with("k_b", screw.likely)
            .with("k_g", stiffness.likely)
            .gives(loss.likely)
        });
        let left = |clamp: Force, loss: Force| Force::from_base((clamp.base() - loss.base()).max(0.0));
        let share = |loss: Force, clamp: Force| {
            let (loss, clamp) = (loss.base(), clamp.base());
            // Any settling takes the whole of a load smaller than what it costs.
            Ratio::from_base(if loss == 0.0 { 0.0 } else { loss / clamp.max(loss) })
        };
        let remaining = Estimate {
            low: left(clamp.low, loss.high),
            likely: left(clamp.likely, loss.likely),
            high: left(clamp.high, loss.low),
        };
        let mut notes = vec![Note::new(
            "retorque",
            Weight::Remark,
            "Gaskets settle in the first warm running. With the engine cold again, tighten once more to the torque used, no \
             further.",
        )];
        if remaining.low.base() <= 0.0 {
            let text = "At the unfavourable end the gaskets settle by more than the screws press them: the cover goes loose \
                        and hot oil may reach the exhaust.";
            notes.push(Note::new("clamp-lost", Weight::Danger, text));
        }
        Ok(CreepLoss {
            settles,
            loss,
            share: Estimate {
                low: share(loss.low, clamp.high),
                likely: share(loss.likely, clamp.likely),
                high: share(loss.high, clamp.low),
            },
            left: remaining,
            notes,
        })
    }
}
