//! A line from a cover to where the gas goes.

use crate::quantity::si::{Length, Pressure, Ratio};
use crate::quantity::{Estimate, Kind, Measured, SonicConductance};
use crate::study::{Count, Field, Label, Visitor, defaults};

/// What stands in a line besides its hose and fittings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InlineKind {
    /// Nothing.
    None,
    /// A component known by its sonic conductance.
    Component,
    /// A check valve that lets gas out.
    CheckOutwards,
    /// A check valve that lets air in.
    CheckInwards,
}
crate::choice!(InlineKind {
    None: "none", "Nothing";
    Component: "component", "A component with C and b after ISO 6358";
    CheckOutwards: "check-outwards", "A check valve that lets gas out";
    CheckInwards: "check-inwards", "A check valve that lets air in";
});

/// A line from a cover to where the gas goes.
#[derive(Clone, Debug, PartialEq)]
pub struct LineInputs {
    /// Bore of the hose.
    pub bore: Length,
    /// Length of the hose.
    pub length: Length,
    /// Bends of 90°.
    pub bends: u32,
    /// Bends of 45°.
    pub half_bends: u32,
    /// Sharp elbow fittings of 90°.
    pub elbows: u32,
    /// Smallest bore of a barb or fitting, if narrower than the hose.
    pub barb: Option<Length>,
    /// How many fittings of that bore stand in a row.
    pub barbs: u32,
    /// Height of the oil that stands in a sag.
    pub sag: Option<Length>,
    /// What else stands in the line.
    pub inline: InlineKind,
    /// Component: sonic conductance C.
    pub conductance: SonicConductance,
    /// Component: critical pressure ratio b.
    pub critical_ratio: Ratio,
    /// Check valve: its bore.
    pub check_bore: Length,
    /// Check valve: pressure difference at which it opens.
    pub check_opening: Option<Estimate<Pressure>>,
}

static BORE: Field =
    Field::new("bore", "Hose bore", Kind::Length, (0.002, 0.06), "Inside diameter.", "measure the inside of the hose");
static LENGTH: Field =
    Field::new("length", "Hose length", Kind::Distance, (0.02, 10.0), "Along the hose.", "measure along the hose");
static BENDS: Count =
    Count { label: Label::new("bends", "Bends of 90°", "Bends of the hose itself."), low: 0, high: 20 };
static HALF_BENDS: Count = Count {
    label: Label::new("bends_45", "Bends of 45°", "Each about two thirds of a bend of 90°."),
    low: 0,
    high: 20,
};
static ELBOWS: Count = Count {
    label: Label::new(
        "elbows",
        "Sharp elbow fittings",
        "Turned or cast, without a radius: each costs as much as four bends.",
    ),
    low: 0,
    high: 10,
};
static BARB: Field = Field::new(
    "barb",
    "Smallest fitting bore",
    Kind::Length,
    (0.001, 0.06),
    "Barbs are often 2 to 3 mm narrower than the hose; the tightest spot rules.",
    "it must not be wider than the hose",
);
static BARBS: Count = Count {
    label: Label::new("barbs", "Fittings of that bore", "In a row along the line: one at each end makes two."),
    low: 1,
    high: 10,
};
static SAG: Field = Field::new(
    "sag",
    "Oil standing in a sag",
    Kind::Length,
    (0.0, 0.5),
    "Height the oil must be lifted before gas bubbles through: at most the depth of the sag.",
    "from the lowest point of the hose up to where it begins to fall again",
);
static INLINE: Label = Label::new("inline", "In the line", "What else the gas must pass.");
static CONDUCTANCE: Field = Field::new(
    "conductance",
    "Sonic conductance C",
    Kind::SonicConductance,
    (1e-9, 1e-5),
    "From the data sheet, after ISO 6358.",
    "",
);
static CRITICAL: Field = Field::new(
    "critical_ratio",
    "Critical pressure ratio b",
    Kind::Number,
    (0.0, 0.9),
    "From the data sheet, after ISO 6358; often 0.2 to 0.5.",
    "",
);
static CHECK_BORE: Field = Field::new(
    "check_bore",
    "Bore of the check valve",
    Kind::Length,
    (0.002, 0.06),
    "At its narrowest, when open.",
    "",
);
static CHECK_OPENING: Field = Field::new(
    "check_opening",
    "Opens at",
    Kind::SmallPressureDifference,
    (0.0, 10e3),
    "Pressure difference that lifts its flap or ball.",
    "",
);

impl Default for LineInputs {
    fn default() -> Self {
        Self {
            bore: Length::from_base(0.016),
            length: Length::from_base(0.6),
            bends: 2,
            half_bends: 0,
            elbows: 0,
            barb: None,
            barbs: 1,
            sag: None,
            inline: InlineKind::None,
            conductance: SonicConductance::from_base(2e-7),
            critical_ratio: Ratio::from_base(0.3),
            check_bore: Length::from_base(0.012),
            check_opening: None,
        }
    }
}

impl LineInputs {
    pub(super) fn visit(&mut self, label: &'static Label, visitor: &mut impl Visitor) {
        visitor.group(label, |v| {
            v.quantity(&BORE, &mut self.bore);
            v.quantity(&LENGTH, &mut self.length);
            v.count(&BENDS, &mut self.bends);
            v.later(|v| {
                v.count(&HALF_BENDS, &mut self.half_bends);
                v.count(&ELBOWS, &mut self.elbows);
            });
            v.optional(&BARB, &mut self.barb, "none narrower than the hose");
            if self.barb.is_some() {
                v.later(|v| v.count(&BARBS, &mut self.barbs));
            }
            v.optional(&SAG, &mut self.sag, "none: it falls all the way");
            v.later(|v| v.choice(&INLINE, &mut self.inline));
            match self.inline {
                InlineKind::None => {}
                InlineKind::Component => {
                    v.quantity(&CONDUCTANCE, &mut self.conductance);
                    v.quantity(&CRITICAL, &mut self.critical_ratio);
                }
                InlineKind::CheckOutwards | InlineKind::CheckInwards => {
                    v.quantity(&CHECK_BORE, &mut self.check_bore);
                    v.estimate(&CHECK_OPENING, &mut self.check_opening, defaults::check_opening());
                }
            }
        });
    }
}
