//! The joint in the physics' words.

use super::{CoverJointInputs, CoverLayers};
use crate::crankcase::joint::{
    Bar, Engagement, Flange, FlangeMaterial, Hole, Joint, JointError, Layer, Reach, Spot, Stack, screw_stiffness,
};
use crate::crankcase::joint::{Observation, Trial, figures, trial};
use crate::quantity::si::{Area, Length};
use crate::quantity::{Estimate, Measured, Stiffness};
use crate::scribe::Scribe;
use crate::study::defaults;

impl CoverJointInputs {
    /// The layers between cover and head, from the head up; one screw presses the gasket over the largest distance between
    /// neighbours, where it is pressed least.
    pub(in crate::study) fn stack(&self) -> Stack {
        let area = Area::from_base(self.spacing.base() * self.gasket_width.base());
        let gasket = Layer::gasket(self.gasket, self.gasket_thickness);
        let layers = match self.layers {
            CoverLayers::OneGasket => vec![gasket],
            CoverLayers::TwoGaskets => vec![gasket, gasket],
            CoverLayers::TwoGasketsAndSpacer => {
                vec![gasket, Layer::spacer(self.spacer, self.spacer_thickness), gasket]
            }
        };
        Stack { layers, area }
    }

    /// Thickness of all that a screw passes before its hole, gaskets not pressed.
    pub(in crate::study) fn grip(&self) -> Length {
        let loose = [self.washers, self.spreader].into_iter().flatten().map(Measured::base).sum::<f64>();
        Length::from_base(loose + self.flange_thickness.base() + self.stack().free_thickness().base())
    }

    /// How far the screws go into their holes.
    pub(in crate::study) fn reach(&self) -> Reach {
        Reach { screw: self.screw_length, grip: self.grip(), depth: self.hole_depth }
    }

    /// Stiffness of a screw, stretched over what it clamps.
    pub(in crate::study) fn screw_stiffness(
        &self,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<Stiffness>, JointError> {
        screw_stiffness(self.thread.thread(), self.grip(), &figures::steel_modulus().estimate, scribe)
    }

    /// The joint at one screw.
    pub(in crate::study) fn joint(&self, scribe: &mut impl Scribe) -> Result<Joint, JointError> {
        let length = self.reach().length(scribe)?;
        let mut joint = Joint::new(
            self.thread.thread(),
            self.grade.strength(),
            self.finish.nut_factor().estimate,
            self.parent.shear_strength().estimate,
            Engagement::usual(length),
            self.stack(),
        );
        joint.hole = if self.wire_insert { Hole::WireInsert } else { Hole::Plain };
        joint.stop = self.stop;
        joint.depth = Some(self.hole_depth);
        let flange = Bar::of(self.flange, self.flange_width, self.flange_thickness);
        let spreader = self.spreader.map(|thickness| Bar::of(FlangeMaterial::SheetSteel, self.flange_width, thickness));
        joint.flange = Some(Flange {
            bars: std::iter::once(flange).chain(spreader).collect(),
            spacing: self.spacing,
            bed_width: self.gasket_width,
        });
        Ok(joint)
    }

    /// A spot of the joint without contact.
    pub(in crate::study) fn spot(&self) -> Spot {
        Spot {
            land: self.gasket_width,
            head: self.oil_head.unwrap_or_else(defaults::oil_head).likely,
            ..Spot::default()
        }
    }

    /// What the two looks show; `None` when nobody looked.
    pub(in crate::study) fn tried(&self) -> Option<Result<Trial, JointError>> {
        let (first, second) = self.trial.leaked()?;
        let before = Observation { crankcase: self.trial_before, leaks: first };
        let after = Observation { crankcase: self.trial_after, leaks: second };
        Some(trial(&self.spot(), &before, &after, &figures::times_by_pressure().estimate))
    }
}
