//! What is known of the gas that leaks past the rings.

mod metered;
mod rings;

pub use metered::MeteredInputs;
pub use rings::RingInputs;

use super::{EngineInputs, Induction};
use crate::crankcase::blow_by::Condition;
use crate::quantity::si::{Length, Ratio, ThermodynamicTemperature};
use crate::quantity::{Estimate, GaugePressure, Kind, Measured};
use crate::study::{Field, Label, Visitor, defaults};

/// State of the rings and bores.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingCondition {
    /// Run in and healthy.
    RunIn,
    /// Fresh, the rings not bedded yet.
    Fresh,
    /// Worn.
    Worn,
}
crate::choice!(RingCondition {
    RunIn: "run-in", "Run in, healthy";
    Fresh: "fresh", "Fresh, rings not bedded yet";
    Worn: "worn", "Worn";
});

impl RingCondition {
    /// The physics' word for it.
    #[must_use]
    pub const fn physics(self) -> Condition {
        match self {
            Self::RunIn => Condition::RunIn,
            Self::Fresh => Condition::Fresh,
            Self::Worn => Condition::Worn,
        }
    }
}

/// What is known of the blow-by.
#[derive(Clone, Debug, PartialEq)]
pub struct BlowByInputs {
    /// State of the rings and bores.
    pub condition: RingCondition,
    /// Leak-down readings, one for each cylinder; empty when not tested.
    pub leak_down: Vec<Ratio>,
    /// Bore of the tester's restrictor.
    pub restrictor: Length,
    /// The tester's supply pressure.
    pub supply: GaugePressure,
    /// Share of the leak that goes past the rings.
    pub ring_share: Option<Estimate<Ratio>>,
    /// Leak of the running engine over that of the standing one.
    pub running_share: Option<Estimate<Ratio>>,
    /// Gas past the shaft of a turbocharger, over the blow-by of the rings.
    pub turbo_leak: Option<Estimate<Ratio>>,
    /// Gaps and clearances of the rings, if they were measured.
    pub rings: RingInputs,
    /// Blow-by read off a flow meter, if it was.
    pub metered: MeteredInputs,
    /// Temperature of the gas in the crankcase.
    pub gas_temperature: Option<Estimate<ThermodynamicTemperature>>,
    /// Share of the blow-by that has burnt.
    pub burnt_share: Option<Estimate<Ratio>>,
}

static BLOW_BY: Label = Label::new("blow_by", "Blow-by", "Gas that leaks past the rings into the crankcase.");
static CONDITION: Label = Label::new("condition", "Rings and bores", "How the engine stands.");
static LEAK_DOWN: Field = Field::new(
    "leak_down",
    "Leak-down reading",
    Kind::Share,
    (0.0, 0.9),
    "Loss shown by the tester, one reading for each cylinder, warm engine at top dead centre.",
    "a reading above 90 % is a valve hanging open or the piston not at top dead centre",
);
static RESTRICTOR: Field = Field::new(
    "restrictor",
    "Tester restrictor bore",
    Kind::SmallLength,
    (0.0003, 0.004),
    "Often 0.040 in (1.016 mm) below 5 in bore; ask the maker, many do not state it.",
    "the leak area goes with the square of it",
);
static SUPPLY: Field = Field::new(
    "supply",
    "Tester supply pressure",
    Kind::GaugePressure,
    (100e3, 1000e3),
    "Shown on the first gauge, often 80 psi.",
    "read the first gauge",
);
static RING_SHARE: Field = Field::new(
    "ring_share",
    "Share past the rings",
    Kind::Share,
    (0.05, 1.0),
    "Listen at the filler, the exhaust and the intake: the rest leaks past valves or head gasket.",
    "",
);
static RUNNING: Field = Field::new(
    "running_share",
    "Running leak over standing leak",
    Kind::Share,
    (0.1, 1.5),
    "Hot, oiled rings seal better than standing ones. Weakly known.",
    "",
);
static TURBO: Field = Field::new(
    "turbo_leak",
    "Turbocharger's share",
    Kind::Share,
    (0.0, 2.0),
    "Gas past the shaft seals of the turbocharger into its oil drain, over the blow-by of the rings, under boost.",
    "",
);
static GAS_TEMPERATURE: Field =
    Field::new("gas_temperature", "Crankcase gas temperature", Kind::Temperature, (273.15, 423.15), "Warm engine.", "");

static BURNT: Field = Field::new(
    "burnt_share",
    "Burnt share of the blow-by",
    Kind::Share,
    (0.0, 1.0),
    "Burnt gas brings the water; all burnt is the worst there can be.",
    "",
);

impl Default for BlowByInputs {
    fn default() -> Self {
        Self {
            condition: RingCondition::RunIn,
            leak_down: Vec::new(),
            restrictor: Length::from_base(1.016e-3),
            supply: GaugePressure::from_base(551_580.6),
            ring_share: None,
            running_share: None,
            turbo_leak: None,
            rings: RingInputs::default(),
            metered: MeteredInputs::default(),
            gas_temperature: None,
            burnt_share: None,
        }
    }
}

impl BlowByInputs {
    fn visit_tester(&mut self, v: &mut impl Visitor) {
        v.quantity(&RESTRICTOR, &mut self.restrictor);
        v.quantity(&SUPPLY, &mut self.supply);
    }

    pub(super) fn visit(&mut self, engine: &EngineInputs, visitor: &mut impl Visitor) {
        visitor.group(&BLOW_BY, |v| {
            v.choice(&CONDITION, &mut self.condition);
            v.readings(&LEAK_DOWN, &mut self.leak_down);
            // Without a test nobody has a tester to describe.
            if self.leak_down.is_empty() {
                v.later(|v| self.visit_tester(v));
            } else {
                self.visit_tester(v);
            }
            v.estimate(&RING_SHARE, &mut self.ring_share, defaults::ring_share());
            v.estimate(&RUNNING, &mut self.running_share, defaults::running_share());
            if engine.induction == Induction::Turbocharger {
                v.estimate(&TURBO, &mut self.turbo_leak, defaults::turbo_leak());
            }
            v.estimate(&GAS_TEMPERATURE, &mut self.gas_temperature, defaults::gas_temperature());
            v.estimate(&BURNT, &mut self.burnt_share, defaults::burnt_share());
            self.rings.visit(self.condition, engine.bore, v);
            self.metered.visit(engine.is_diesel(), v);
        });
    }
}
