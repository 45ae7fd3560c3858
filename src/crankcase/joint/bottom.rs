//! Whether a screw meets the bottom of its hole once the gasket is pressed.

use super::{Joint, JointError};
use crate::quantity::si::{Force, Length, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::joint as source;

impl Joint {
    /// By how much the stack is pressed together under a clamp load: down to the stops if there are any, whatever the
    /// load, or else by its travel. The straight line between load and travel holds no further than
    /// [`super::Stack::pressed_at_most`]: soft gaskets stiffen.
    ///
    /// # Errors
    /// As [`super::Stack::travel`].
    pub fn pressed(&self, clamp: &Estimate<Force>) -> Result<Estimate<Length>, JointError> {
        if let Some(stop) = self.stop {
            return Ok(Estimate::exact(Length::from_base(self.stack.free_thickness().base() - stop.base())));
        }
        let most = self.stack.pressed_at_most();
        let travel = self.stack.travel(clamp, &mut Silent)?.travel;
        Ok(travel.map(|travel: Length| if travel > most { most } else { travel }))
    }

    /// By how much the screw goes past the thread it can use, `x = s + L + n P − depth`: pressed by `s` it goes in further
    /// than its length `L` in the hole, and the last `n` pitches of the depth may be run-out. `None` where it clears the
    /// bottom at every end, or where the depth is not known.
    ///
    /// # Errors
    /// As [`Joint::pressed`].
    pub fn past_bottom(
        &self,
        clamp: &Estimate<Force>,
        scribe: &mut impl Scribe,
    ) -> Result<Option<Estimate<Length>>, JointError> {
        let Some(depth) = self.depth else { return Ok(None) };
        let pressed = self.pressed(clamp)?;
        let (length, pitch) = (self.engagement.length.base(), self.thread.pitch().base());
        let past = |pressed: Length, run_out: Ratio| {
            Length::from_base(pressed.base() + length + run_out.base() * pitch - depth.base())
        };
        let past = Estimate {
            low: past(pressed.low, self.run_out.low),
            likely: past(pressed.likely, self.run_out.likely),
            high: past(pressed.high, self.run_out.high),
        };
        scribe.step(|| {
            Step::new("past the bottom of the hole", "x", "x = s + L + n P − depth", &source::JOINT_FIGURES)
                .with_amount("s", Amount::of_kind(pressed.likely, Kind::SmallLength))
                .with_amount("L", Amount::of_kind(self.engagement.length, Kind::SmallLength))
                .with("n", self.run_out.likely)
                .with_amount("P", Amount::of_kind(self.thread.pitch(), Kind::SmallLength))
                .with_amount("depth", Amount::of_kind(depth, Kind::SmallLength))
                .gives_amount(Amount::of_kind(past.likely, Kind::SmallLength))
        });
        // A tenth of a micrometre is what rounding leaves of nothing.
        Ok((past.high.base() > 1e-7).then_some(past))
    }

    /// The longest thread the hole has room for, m, whatever the torque; without end where the depth is not known.
    pub(super) fn room(&self) -> f64 {
        let free = self.stack.free_thickness().base();
        let pressed = self.stop.map_or(self.stack.pressed_at_most().base(), |stop| free - stop.base());
        let run_out = self.run_out.high.base() * self.thread.pitch().base();
        self.depth.map_or(f64::INFINITY, |depth| depth.base() - pressed - run_out)
    }
}
