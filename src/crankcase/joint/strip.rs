//! How much of a thread carries, and the load that strips it.

use super::error::in_order;
use super::figures::{
    DEPTH, GRIP, LENGTH_OF_THREAD, PROOF, SCREW_LENGTH, SHEAR_STRENGTH, TENSILE, chamfer, lead_in, over_strength,
    shear_share,
};
use super::{Hole, JointError, Thread};
use crate::quantity::si::{Force, Length, Pressure, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::Assumed;
use crate::source::crankcase::joint as source;

/// What the thread is tapped in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ParentMaterial {
    /// A cast aluminium head.
    CastAluminium,
    /// A grey-iron head, about class 30.
    GreyIron,
    /// Steel or nodular iron.
    Steel,
}

impl ParentMaterial {
    /// Every material known.
    pub const ALL: [Self; 3] = [Self::CastAluminium, Self::GreyIron, Self::Steel];

    /// Its shear strength.
    #[must_use]
    pub fn shear_strength(self) -> Assumed<Pressure> {
        let [low, likely, high] = match self {
            Self::CastAluminium => [110e6, 150e6, 190e6],
            Self::GreyIron => [200e6, 240e6, 276e6],
            Self::Steel => [280e6, 330e6, 400e6],
        };
        Assumed::new([low, likely, high], SHEAR_STRENGTH, &source::PARENT_SHEAR)
    }

    /// What a person reads.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::CastAluminium => "cast aluminium",
            Self::GreyIron => "grey cast iron",
            Self::Steel => "steel or nodular iron",
        }
    }
}

/// The marking on a screw's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScrewGrade {
    /// Class 4.8.
    Class4Point8,
    /// Class 8.8, up to 16 mm.
    Class8Point8,
    /// Class 10.9.
    Class10Point9,
    /// Inch grade 2, no marks.
    Grade2,
    /// Inch grade 5, three marks.
    Grade5,
    /// No marking to be read: anything from class 4.8 to 10.9.
    NotKnown,
}

impl ScrewGrade {
    /// Every grade known.
    pub const ALL: [Self; 6] =
        [Self::Class4Point8, Self::Class8Point8, Self::Class10Point9, Self::Grade2, Self::Grade5, Self::NotKnown];

    /// Least tensile and proof strength, with the usual spread of real screws above them.
    #[must_use]
    pub fn strength(self) -> ScrewStrength {
        let one = |tensile: f64, proof: f64| ([tensile; 3], [proof; 3]);
        let (tensile, proof) = match self {
            Self::Class4Point8 => one(420e6, 310e6),
            Self::Class8Point8 => one(800e6, 580e6),
            Self::Class10Point9 => one(1040e6, 830e6),
            Self::Grade2 => one(510e6, 380e6),
            Self::Grade5 => one(827e6, 586e6),
            Self::NotKnown => ([420e6, 800e6, 1040e6], [310e6, 580e6, 830e6]),
        };
        let stress = |[low, likely, high]: [f64; 3]| Estimate {
            low: Pressure::from_base(low),
            likely: Pressure::from_base(likely),
            high: Pressure::from_base(high),
        };
        ScrewStrength {
            tensile: stress(tensile),
            proof: stress(proof),
            over: over_strength().estimate,
            shear_share: shear_share().estimate,
        }
    }
}

/// How strong a screw is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewStrength {
    /// Least tensile strength of its grade.
    pub tensile: Estimate<Pressure>,
    /// Proof strength of its grade.
    pub proof: Estimate<Pressure>,
    /// Real over least tensile strength; default [`super::figures::over_strength`].
    pub over: Estimate<Ratio>,
    /// Shear over tensile strength; default [`super::figures::shear_share`].
    pub shear_share: Estimate<Ratio>,
}

impl ScrewStrength {
    pub(super) fn check(&self) -> Result<(), JointError> {
        in_order(&self.tensile, &TENSILE)?;
        in_order(&self.proof, &PROOF)?;
        in_order(&self.over, &over_strength().range)?;
        in_order(&self.shear_share, &shear_share().range)
    }
}

/// How far a screw goes into its hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Length of the screw under its head.
    pub screw: Length,
    /// Thickness of all it passes before the hole: washer, flange, gaskets, spacer.
    pub grip: Length,
    /// Threaded depth of the hole.
    pub depth: Length,
}

impl Reach {
    /// The length of thread in the hole, `L = screw − grip`.
    ///
    /// # Errors
    /// A measure outside its range, a screw that does not reach the hole, or one that meets its bottom.
    pub fn length(&self, scribe: &mut impl Scribe) -> Result<Length, JointError> {
        let screw = SCREW_LENGTH.check(self.screw)?.base();
        let grip = GRIP.check(self.grip)?.base();
        let depth = DEPTH.check(self.depth)?.base();
        let length = Length::from_base(screw - grip);
        if length.base() <= 0.0 {
            return Err(JointError::TooShort { screw: self.screw, grip: self.grip });
        }
        if length.base() > depth {
            return Err(JointError::Bottoms { reaches: length, depth: self.depth });
        }
        scribe.step(|| {
            Step::new("thread in the hole", "L", "L = screw − grip", &crate::source::DEFINITION)
                .with_amount("screw", Amount::of_kind(self.screw, Kind::SmallLength))
                .with_amount("grip", Amount::of_kind(self.grip, Kind::SmallLength))
                .gives_amount(Amount::of_kind(length, Kind::SmallLength))
        });
        Ok(length)
    }
}

/// The thread in the hole, and what of it carries nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engagement {
    /// Length of thread in the hole, from its mouth to the end of the screw's full thread.
    pub length: Length,
    /// Depth of the chamfer at the mouth; default [`super::figures::chamfer`].
    pub chamfer: Estimate<Length>,
    /// Incomplete thread at the tip, in pitches; default [`super::figures::lead_in`].
    pub lead_in: Estimate<Ratio>,
}

impl Engagement {
    /// This length, with the usual chamfer and lead-in.
    #[must_use]
    pub fn usual(length: Length) -> Self {
        Self { length, chamfer: chamfer().estimate, lead_in: lead_in().estimate }
    }

    /// This length carries whole: chamfer and lead-in are already taken off.
    #[must_use]
    pub fn carrying(length: Length) -> Self {
        let zero = Estimate::exact(Length::from_base(0.0));
        Self { length, chamfer: zero, lead_in: Estimate::exact(Ratio::from_base(0.0)) }
    }

    /// What chamfer and lead-in take, at their low, likely and high ends; m.
    pub(super) fn lost(&self, thread: &Thread) -> [f64; 3] {
        let pitch = thread.pitch().base();
        let at = |chamfer: Length, lead: Ratio| chamfer.base() + lead.base() * pitch;
        [
            at(self.chamfer.low, self.lead_in.low),
            at(self.chamfer.likely, self.lead_in.likely),
            at(self.chamfer.high, self.lead_in.high),
        ]
    }

    /// The length that carries, `L_e = L − chamfer − n P`.
    ///
    /// # Errors
    /// A figure outside its range, or less than 0.2 mm left at the unfavourable end.
    pub fn carries(&self, thread: &Thread, scribe: &mut impl Scribe) -> Result<Estimate<Length>, JointError> {
        let length = LENGTH_OF_THREAD.check(self.length)?.base();
        in_order(&self.chamfer, &chamfer().range)?;
        in_order(&self.lead_in, &lead_in().range)?;
        let [least, likely, most] = self.lost(thread);
        if length - most < LENGTH_OF_THREAD.low {
            return Err(JointError::NothingEngaged { length: self.length, lost: Length::from_base(most) });
        }
        let engaged = Estimate {
            low: Length::from_base(length - most),
            likely: Length::from_base(length - likely),
            high: Length::from_base(length - least),
        };
        scribe.step(|| {
            Step::new("thread that carries", "L_e", "L_e = L − chamfer − n P", &source::JOINT_FIGURES)
                .with_amount("L", Amount::of_kind(self.length, Kind::SmallLength))
                .with_amount("chamfer", Amount::of_kind(self.chamfer.likely, Kind::SmallLength))
                .with("n", self.lead_in.likely)
                .with_amount("P", Amount::of_kind(thread.pitch(), Kind::SmallLength))
                .gives_amount(Amount::of_kind(engaged.likely, Kind::SmallLength))
        });
        Ok(engaged)
    }
}

/// The loads that strip either side of a thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripLoad {
    /// Load that shears the tapped metal.
    pub parent: Estimate<Force>,
    /// Load that shears the screw's thread.
    pub screw: Estimate<Force>,
}

impl StripLoad {
    /// The lesser of the two.
    #[must_use]
    pub fn least(&self) -> Estimate<Force> {
        let lesser = |a: Force, b: Force| if b.base() < a.base() { b } else { a };
        Estimate {
            low: lesser(self.parent.low, self.screw.low),
            likely: lesser(self.parent.likely, self.screw.likely),
            high: lesser(self.parent.high, self.screw.high),
        }
    }
}

/// The load that strips a thread: `F = τ AS_n` in the parent, `F = τ_s AS_s` on the screw, `τ_s` being its share of the
/// least tensile strength. Low and high take the ends of strength and engagement together.
///
/// # Errors
/// A strength or an engaged length outside its range or not in order.
pub fn strip_load(
    thread: &Thread,
    hole: Hole,
    parent: &Estimate<Pressure>,
    strength: &ScrewStrength,
    engaged: &Estimate<Length>,
    scribe: &mut impl Scribe,
) -> Result<StripLoad, JointError> {
    in_order(parent, &SHEAR_STRENGTH)?;
    in_order(engaged, &LENGTH_OF_THREAD)?;
    strength.check()?;
    let hole_area = thread.hole_shear_area(hole, engaged.likely, scribe)?;
    let screw_area = thread.screw_shear_area(engaged.likely, scribe)?;
    // Areas go with the length, so the likely one scales to the ends.
    let scale = |length: Length| length.base() / engaged.likely.base();
    let in_parent = |shear: Pressure, length: Length| Force::from_base(shear.base() * hole_area.base() * scale(length));
    let on_screw = |tensile: Pressure, share: Ratio, length: Length| {
        Force::from_base(tensile.base() * share.base() * screw_area.base() * scale(length))
    };
    let load = StripLoad {
        parent: Estimate {
            low: in_parent(parent.low, engaged.low),
            likely: in_parent(parent.likely, engaged.likely),
            high: in_parent(parent.high, engaged.high),
        },
        screw: Estimate {
            low: on_screw(strength.tensile.low, strength.shear_share.low, engaged.low),
            likely: on_screw(strength.tensile.likely, strength.shear_share.likely, engaged.likely),
            high: on_screw(strength.tensile.high, strength.shear_share.high, engaged.high),
        },
    };
    scribe.step(|| {
        Step::new("load that strips the tapped metal", "F_strip", "F_strip = τ AS_n", &source::PARENT_SHEAR)
            .with_amount("τ", Amount::of_kind(parent.likely, Kind::Stress))
            .with("AS_n", hole_area)
            .gives(load.parent.likely)
    });
    scribe.step(|| {
        Step::new("load that strips the screw's thread", "F_strip,s", "F_strip,s = c R_m AS_s", &source::SHEAR_OF_SCREW)
            .with("c", strength.shear_share.likely)
            .with_amount("R_m", Amount::of_kind(strength.tensile.likely, Kind::Stress))
            .with("AS_s", screw_area)
            .gives(load.screw.likely)
    });
    Ok(load)
}

/// The length that must carry so that the screw breaks before the tapped metal strips,
/// `L_e = f R_m A_t/(τ AS_n per length)`, `f` being the screw's real over its least strength. High is a strong screw in
/// weak metal. Add chamfer and lead-in for the length in the hole.
///
/// # Errors
/// A strength outside its range or not in order.
pub fn engagement_for_screw_to_break(
    thread: &Thread,
    hole: Hole,
    parent: &Estimate<Pressure>,
    strength: &ScrewStrength,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Length>, JointError> {
    in_order(parent, &SHEAR_STRENGTH)?;
    strength.check()?;
    let stress_area = thread.stress_area(scribe);
    let unit = Length::from_base(1e-3);
    let per_length = thread.hole_shear_area(hole, unit, &mut Silent)?.base() / unit.base();
    let at = |over: Ratio, tensile: Pressure, shear: Pressure| {
        Length::from_base(over.base() * tensile.base() * stress_area.base() / (shear.base() * per_length))
    };
    let length = Estimate {
        low: at(strength.over.low, strength.tensile.low, parent.high),
        likely: at(strength.over.likely, strength.tensile.likely, parent.likely),
        high: at(strength.over.high, strength.tensile.high, parent.low),
    };
    scribe.step(|| {
        Step::new(
            "thread that must carry for the screw to break first",
            "L_e,break",
            "L_e,break = f R_m A_t/(τ AS_n/L_e)",
            &source::THREAD_AREAS,
        )
        .with("f", strength.over.likely)
        .with_amount("R_m", Amount::of_kind(strength.tensile.likely, Kind::Stress))
        .with("A_t", stress_area)
        .with_amount("τ", Amount::of_kind(parent.likely, Kind::Stress))
        .with_amount("AS_n/L_e", Amount::new(per_length, Kind::SmallLength))
        .gives_amount(Amount::of_kind(length.likely, Kind::SmallLength))
    });
    Ok(length)
}
