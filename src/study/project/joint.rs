//! What is known of the joint between valve cover and head: one screw of it, the gasket, the flange between screws.

mod mended;
mod physics;

use crate::crankcase::joint::{
    Finish, FlangeMaterial, GasketMaterial, JointError, ParentMaterial, ScrewGrade, SpacerMaterial, Thread,
};
use crate::quantity::si::{Length, Torque};
use crate::quantity::{Estimate, GaugePressure, Kind, Measured};
use crate::scribe::Silent;
use crate::study::check::Checker;
use crate::study::{Count, Field, Label, Visitor, defaults};

/// The thread of the cover screws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoverThread {
    /// 10-24.
    No10Coarse,
    /// 10-32.
    No10Fine,
    /// 1/4-20.
    QuarterInch,
    /// 5/16-18.
    FiveSixteenthsInch,
    /// M5.
    M5,
    /// M6.
    M6,
    /// M8.
    M8,
}
crate::choice!(CoverThread {
    No10Coarse: "10-24", "No. 10, 24 threads to the inch";
    No10Fine: "10-32", "No. 10, 32 threads to the inch";
    QuarterInch: "1/4-20", "1/4 in, 20 threads to the inch";
    FiveSixteenthsInch: "5/16-18", "5/16 in, 18 threads to the inch";
    M5: "m5", "M5, pitch 0.8 mm";
    M6: "m6", "M6, pitch 1 mm";
    M8: "m8", "M8, pitch 1.25 mm";
});

impl CoverThread {
    /// The thread in the physics' words.
    #[must_use]
    pub const fn thread(self) -> &'static Thread {
        match self {
            Self::No10Coarse => Thread::NO_10_24,
            Self::No10Fine => Thread::NO_10_32,
            Self::QuarterInch => Thread::QUARTER_20,
            Self::FiveSixteenthsInch => Thread::FIVE_SIXTEENTHS_18,
            Self::M5 => Thread::M5,
            Self::M6 => Thread::M6,
            Self::M8 => Thread::M8,
        }
    }
}

crate::choice!(ScrewGrade {
    NotKnown: "not-known", "No marking to be read";
    Class4Point8: "4.8", "Marked 4.8";
    Class8Point8: "8.8", "Marked 8.8";
    Class10Point9: "10.9", "Marked 10.9";
    Grade2: "grade-2", "Inch screw without marks, grade 2";
    Grade5: "grade-5", "Inch screw with three marks, grade 5";
});
crate::choice!(Finish {
    NotKnown: "not-known", "Not known";
    Dry: "dry", "Clean and dry";
    Oiled: "oiled", "Oiled, or wet with engine oil";
    Plated: "plated-or-rough", "Plated, rusty, or with dried sealant";
});
crate::choice!(ParentMaterial {
    CastAluminium: "aluminium", "Cast aluminium";
    GreyIron: "iron", "Grey iron";
    Steel: "steel", "Steel or nodular iron";
});
crate::choice!(GasketMaterial {
    CorkRubber: "cork-rubber", "Cork bound with rubber";
    Rubber: "rubber", "Rubber";
    Composite: "composite", "Fibre sheet, also on a metal core";
});
crate::choice!(SpacerMaterial {
    Aluminium: "aluminium", "Aluminium";
    Steel: "steel", "Steel";
});
crate::choice!(FlangeMaterial {
    SheetSteel: "sheet-steel", "Pressed sheet steel";
    CastAluminium: "cast-aluminium", "Cast aluminium";
});

/// What lies between cover and head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoverLayers {
    /// One gasket.
    OneGasket,
    /// Two gaskets, one on the other.
    TwoGaskets,
    /// A gasket on either side of a spacer.
    TwoGasketsAndSpacer,
}
crate::choice!(CoverLayers {
    OneGasket: "one-gasket", "One gasket";
    TwoGaskets: "two-gaskets", "Two gaskets, one on the other";
    TwoGasketsAndSpacer: "two-gaskets-and-spacer", "A gasket on either side of a spacer";
});

/// What two looks at a leaking spot showed, the second with the crankcase pressure lowered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeakTrial {
    /// Nobody looked.
    NotTried,
    /// It leaked, and stopped when the pressure fell.
    Stopped,
    /// It leaked, and went on.
    WentOn,
    /// It leaked the second time only.
    Began,
    /// It did not leak.
    Dry,
}
crate::choice!(LeakTrial {
    NotTried: "not-tried", "Not tried";
    Stopped: "stopped", "It leaked, and stopped at the lower pressure";
    WentOn: "went-on", "It leaked, and went on at the lower pressure";
    Began: "began", "It leaked at the lower pressure only";
    Dry: "dry", "It leaked neither time";
});

impl LeakTrial {
    /// Whether it leaked at the first and at the second look; `None` when nobody looked.
    #[must_use]
    pub const fn leaked(self) -> Option<(bool, bool)> {
        match self {
            Self::NotTried => None,
            Self::Stopped => Some((true, false)),
            Self::WentOn => Some((true, true)),
            Self::Began => Some((false, true)),
            Self::Dry => Some((false, false)),
        }
    }
}

/// What is known of the joint between valve cover and head.
#[derive(Clone, Debug, PartialEq)]
pub struct CoverJointInputs {
    /// Whether the joint was measured; if not, nothing is said of it.
    pub known: bool,
    /// The screws' thread.
    pub thread: CoverThread,
    /// Their strength.
    pub grade: ScrewGrade,
    /// State of thread and underside of the head.
    pub finish: Finish,
    /// What the holes are tapped in.
    pub parent: ParentMaterial,
    /// Whether the holes have wire thread inserts.
    pub wire_insert: bool,
    /// Length of the screws under the head.
    pub screw_length: Length,
    /// Threaded depth of the holes.
    pub hole_depth: Length,
    /// How many screws hold the cover.
    pub screws: u32,
    /// The largest distance between neighbouring screws, along the gasket.
    pub spacing: Length,
    /// Torque the screws are tightened to.
    pub torque: Option<Torque>,
    /// Washers under the heads.
    pub washers: Option<Length>,
    /// What lies between cover and head.
    pub layers: CoverLayers,
    /// What the gaskets are made of.
    pub gasket: GasketMaterial,
    /// Thickness of one gasket, not pressed.
    pub gasket_thickness: Length,
    /// Width of the gasket.
    pub gasket_width: Length,
    /// What the spacer is made of.
    pub spacer: SpacerMaterial,
    /// Thickness of the spacer.
    pub spacer_thickness: Length,
    /// What the cover is made of.
    pub flange: FlangeMaterial,
    /// Thickness of the cover's flange.
    pub flange_thickness: Length,
    /// Width of the cover's flange.
    pub flange_width: Length,
    /// Thickness of steel bars under the heads.
    pub spreader: Option<Length>,
    /// Height of hard stops round the screws.
    pub stop: Option<Length>,
    /// Oil standing over the lowest spot of the joint.
    pub oil_head: Option<Estimate<Length>>,
    /// What two looks at a leak showed.
    pub trial: LeakTrial,
    /// Crankcase pressure at the first look.
    pub trial_before: GaugePressure,
    /// Crankcase pressure at the second look.
    pub trial_after: GaugePressure,
}

static GROUP: Label =
    Label::new("cover_joint", "Valve-cover joint", "Screws, gasket and flange between valve cover and head.");
static KNOWN: Label =
    Label::new("known", "Joint measured", "Until it is, nothing is said of torque, gasket or leaks of the cover.");
static THREAD: Label = Label::new("thread", "Screw thread", "Measure diameter and pitch.");
static GRADE: Label = Label::new("grade", "Screw strength", "The marking on the head.");
static FINISH: Label =
    Label::new("finish", "Thread and head are", "It decides how much of the torque becomes clamp load.");
static PARENT: Label = Label::new("tapped_in", "Holes tapped in", "The metal of the head.");
static INSERT: Label = Label::new(
    "wire_insert",
    "Wire thread inserts",
    "A coil of wire in a larger hole, fitted to mend or spare a thread.",
);
static SCREW_LENGTH: Field = Field::new(
    "screw_length",
    "Screw length",
    Kind::SmallLength,
    (0.004, 0.19),
    "Under the head.",
    "measure under the head",
);
static HOLE_DEPTH: Field = Field::new(
    "hole_depth",
    "Threaded depth of the hole",
    Kind::SmallLength,
    (0.002, 0.08),
    "Full thread only; turn a screw in by hand and count turns times pitch.",
    "count turns times pitch",
);
static SCREWS: Count =
    Count { label: Label::new("screws", "Screws in one cover", "All that press the gasket."), low: 1, high: 60 };
static SPACING: Field = Field::new(
    "spacing",
    "Largest distance between screws",
    Kind::Length,
    (0.01, 0.5),
    "Along the gasket, between neighbours; corners count by the way round.",
    "measure along the gasket",
);
static TORQUE: Field = Field::new(
    "torque",
    "Torque used",
    Kind::Torque,
    (0.2, 50.0),
    "By a torque key; a feel in the hand is no torque.",
    "cover screws take 2 N·m to 20 N·m",
);
static WASHERS: Field =
    Field::new("washers", "Washers", Kind::SmallLength, (0.0002, 0.01), "Thickness under each head, all together.", "");
static LAYERS: Label = Label::new("layers", "Between cover and head", "One gasket, or more.");
static GASKET: Label = Label::new("gasket", "Gasket made of", "What it feels and breaks like.");
static GASKET_THICKNESS: Field = Field::new(
    "gasket_thickness",
    "Gasket thickness",
    Kind::SmallLength,
    (0.0003, 0.01),
    "Of one gasket, new, not pressed.",
    "cover gaskets are 1 mm to 6 mm thick",
);
static GASKET_WIDTH: Field = Field::new(
    "gasket_width",
    "Gasket width",
    Kind::SmallLength,
    (0.002, 0.06),
    "Where flange and head both press it.",
    "10 mm to 15 mm is usual",
);
static SPACER: Label = Label::new("spacer", "Spacer made of", "The plate between the gaskets.");
static SPACER_THICKNESS: Field = Field::new(
    "spacer_thickness",
    "Spacer thickness",
    Kind::SmallLength,
    (0.0005, 0.05),
    "It takes the screw's reach: measure it.",
    "measure with a caliper",
);
static FLANGE: Label = Label::new("flange", "Cover made of", "Its flange bends between the screws.");
static FLANGE_THICKNESS: Field = Field::new(
    "flange_thickness",
    "Flange thickness",
    Kind::SmallLength,
    (0.0005, 0.04),
    "Of the flange itself. A turned-up lip that stiffens it is left out, which is on the safe side.",
    "1 mm sheet, 6 mm to 10 mm cast",
);
static FLANGE_WIDTH: Field = Field::new(
    "flange_width",
    "Flange width",
    Kind::SmallLength,
    (0.003, 0.08),
    "From the cover's wall to the edge.",
    "10 mm to 20 mm is usual",
);
static SPREADER: Field = Field::new(
    "spreader",
    "Spreader bars",
    Kind::SmallLength,
    (0.0005, 0.02),
    "Thickness of steel bars that lie along the flange under the heads.",
    "",
);
static STOP: Field = Field::new(
    "stop",
    "Hard stops",
    Kind::SmallLength,
    (0.0002, 0.06),
    "Height of sleeves or shoulders round the screws: the cover goes down to them and no further.",
    "lower than the free stack; the answers say whether the gasket seats",
);
static OIL_HEAD: Field = Field::new(
    "oil_head",
    "Oil over the joint",
    Kind::SmallLength,
    (0.0, 0.2),
    "Height of oil standing against the lowest spot of the joint, engine running.",
    "",
);
static TRIAL_GROUP: Label = Label::new(
    "trial",
    "Leak trial",
    "Wipe the joint dry, look; lower the crankcase pressure, wipe, look again for as long at the same speed.",
);
static TRIAL: Label = Label::new("seen", "What was seen", "At the same spot, both times.");
static BEFORE: Field = Field::new(
    "before",
    "Crankcase pressure, first look",
    Kind::CrankcasePressure,
    (-50e3, 50e3),
    "On the dipstick tube.",
    "measure on the dipstick tube",
);
static AFTER: Field = Field::new(
    "after",
    "Crankcase pressure, second look",
    Kind::CrankcasePressure,
    (-50e3, 50e3),
    "Lowered by a wider breather or a valve, at the same engine speed; never by plugging an outlet.",
    "it must be the lower one",
);

impl Default for CoverJointInputs {
    fn default() -> Self {
        let millimetres = |value: f64| Length::from_base(value * 1e-3);
        Self {
            known: false,
            thread: CoverThread::M6,
            grade: ScrewGrade::Class8Point8,
            finish: Finish::NotKnown,
            parent: ParentMaterial::CastAluminium,
            wire_insert: false,
            screw_length: millimetres(25.0),
            hole_depth: millimetres(18.0),
            screws: 8,
            spacing: millimetres(90.0),
            torque: None,
            washers: None,
            layers: CoverLayers::OneGasket,
            gasket: GasketMaterial::Rubber,
            gasket_thickness: millimetres(3.0),
            gasket_width: millimetres(10.0),
            spacer: SpacerMaterial::Aluminium,
            spacer_thickness: millimetres(10.0),
            flange: FlangeMaterial::CastAluminium,
            flange_thickness: millimetres(8.0),
            flange_width: millimetres(14.0),
            spreader: None,
            stop: None,
            oil_head: None,
            trial: LeakTrial::NotTried,
            trial_before: GaugePressure::from_base(1500.0),
            trial_after: GaugePressure::from_base(-200.0),
        }
    }
}

impl CoverJointInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        let mut known = self.known;
        visitor.optional_group(&GROUP, &KNOWN, &mut known, |v| {
            self.visit_screws(v);
            self.visit_layers(v);
            v.estimate(&OIL_HEAD, &mut self.oil_head, defaults::oil_head());
            v.group(&TRIAL_GROUP, |v| {
                v.choice(&TRIAL, &mut self.trial);
                if self.trial != LeakTrial::NotTried {
                    v.quantity(&BEFORE, &mut self.trial_before);
                    v.quantity(&AFTER, &mut self.trial_after);
                }
            });
        });
        self.known = known;
    }

    fn visit_screws(&mut self, v: &mut impl Visitor) {
        v.choice(&THREAD, &mut self.thread);
        v.choice(&GRADE, &mut self.grade);
        v.choice(&FINISH, &mut self.finish);
        v.choice(&PARENT, &mut self.parent);
        v.switch(&INSERT, &mut self.wire_insert);
        v.quantity(&SCREW_LENGTH, &mut self.screw_length);
        v.quantity(&HOLE_DEPTH, &mut self.hole_depth);
        v.count(&SCREWS, &mut self.screws);
        v.quantity(&SPACING, &mut self.spacing);
        v.optional(&TORQUE, &mut self.torque, "not known");
        v.optional(&WASHERS, &mut self.washers, "none");
    }

    fn visit_layers(&mut self, v: &mut impl Visitor) {
        v.choice(&LAYERS, &mut self.layers);
        v.choice(&GASKET, &mut self.gasket);
        v.quantity(&GASKET_THICKNESS, &mut self.gasket_thickness);
        v.quantity(&GASKET_WIDTH, &mut self.gasket_width);
        if self.layers == CoverLayers::TwoGasketsAndSpacer {
            v.choice(&SPACER, &mut self.spacer);
            v.quantity(&SPACER_THICKNESS, &mut self.spacer_thickness);
        }
        v.choice(&FLANGE, &mut self.flange);
        v.quantity(&FLANGE_THICKNESS, &mut self.flange_thickness);
        v.quantity(&FLANGE_WIDTH, &mut self.flange_width);
        v.optional(&SPREADER, &mut self.spreader, "none fitted");
        v.optional(&STOP, &mut self.stop, "none fitted");
    }

    /// What no single range can tell: the physics is asked, and its refusal named after the input it comes from.
    pub(super) fn check(&self, checker: &mut Checker) {
        if !self.known {
            return;
        }
        if let Err(error) =
            self.joint(&mut Silent).and_then(|joint| crate::crankcase::joint::window(&joint, &mut Silent))
        {
            let key = match error {
                JointError::TooShort { .. } | JointError::Bottoms { .. } | JointError::NothingEngaged { .. } => {
                    "cover_joint.screw_length"
                }
                JointError::StopHeight { .. } => "cover_joint.stop",
                _ => "cover_joint",
            };
            checker.fault(key, error.to_string());
        }
        if let Some(Err(error)) = self.tried() {
            checker.fault("cover_joint.trial.after", error.to_string());
        }
    }
}
