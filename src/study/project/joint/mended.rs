//! The joint after a change to it.

use super::{CoverJointInputs, CoverLayers, SCREW_LENGTH, SPREADER, STOP};
use crate::crankcase::joint::{Finish, Mend};
use crate::quantity::Measured;
use crate::quantity::si::Length;

impl CoverJointInputs {
    /// The same joint with a change made to it; the screws are as long as the change asks.
    pub(in crate::study) fn with(&self, mend: &Mend) -> Self {
        let mut changed = self.clone();
        // Thread in the hole, gaskets not pressed.
        let reach = self.screw_length.base() - self.grip().base();
        match mend {
            Mend::WireInsert => changed.wire_insert = true,
            Mend::LongerScrew(length) => changed.lengthen(length.base() - reach),
            Mend::InsertAndLongerScrew(length) => {
                changed.wire_insert = true;
                changed.lengthen(length.base() - reach);
            }
            Mend::SpreaderBars { total, longer } => {
                changed.spreader = Some(*total);
                changed.lengthen(longer.base());
            }
            Mend::OneGasket { shorter, .. } => {
                changed.layers = CoverLayers::OneGasket;
                changed.lengthen(-shorter.base());
            }
            Mend::HardStops(height) | Mend::LowerStops(height) | Mend::HigherStops(height) => {
                changed.stop = Some(*height);
            }
            Mend::KnownFinish => changed.finish = Finish::Oiled,
        }
        changed
    }

    /// Screws longer by this, m; shorter where it is below zero.
    pub(in crate::study) fn lengthen(&mut self, by: f64) {
        self.screw_length = Length::from_base(self.screw_length.base() + by);
    }

    /// Whether what a change may touch is still something that may be entered.
    pub(in crate::study) fn can_be_entered(&self) -> bool {
        let within =
            |field: &super::Field, value: Option<Length>| value.is_none_or(|value| field.range.check(value).is_ok());
        within(&SCREW_LENGTH, Some(self.screw_length)) && within(&STOP, self.stop) && within(&SPREADER, self.spreader)
    }
}
