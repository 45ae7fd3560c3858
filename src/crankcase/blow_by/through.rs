//! The one relation behind every level: an effective area and what the cylinder pushes through it.

use super::BlowByError;
use crate::crankcase::cylinder::{Leakage, Trace};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, MassRate};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;

/// Effective leak areas of a whole engine.
static TOTAL_AREA: Range =
    Range::new("effective leak area of the engine", Kind::SmallArea, 0.0, 1e-3, "a few square millimetres at most");
/// Flows a person may have measured.
static FLOW: Range = Range::new("blow-by", Kind::GasFlow, 0.0, 0.2, "0.1 to 5 g/s for a car engine");
/// Share of the charge from which the leak should have been taken from the cylinder pressure.
const MUCH_OF_THE_CHARGE: f64 = 0.03;

/// Flow past the rings of the whole engine at one operating point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlowBy {
    /// From the cylinders to the crankcase; ventilation is sized on it.
    pub forward: Estimate<MassRate>,
    /// From the crankcase up into the cylinders.
    pub reverse: Estimate<MassRate>,
    /// Forward less reverse: what the ventilation has to carry away on the mean; negative where the engine draws
    /// crankcase gas up.
    pub net: Estimate<MassRate>,
}

impl BlowBy {
    /// From both directions at the low, likely and high figure.
    pub(super) fn from_pairs(low: (f64, f64), likely: (f64, f64), high: (f64, f64)) -> Self {
        let sorted = |pick: fn((f64, f64)) -> f64| {
            Estimate::sorted(
                MassRate::from_base(pick(low)),
                MassRate::from_base(pick(likely)),
                MassRate::from_base(pick(high)),
            )
        };
        Self { forward: sorted(|(f, _)| f), reverse: sorted(|(_, r)| r), net: sorted(|(f, r)| f - r) }
    }
}

/// What a known flow counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Gas towards the crankcase alone.
    Forward,
    /// Gas towards the crankcase less the gas drawn back: what a meter on the breather reads.
    Balance,
}

/// The caution that goes with a flow measured on a running engine.
#[must_use]
pub fn measuring_caution() -> Note {
    let text = "Measuring on a running engine: hot oil, moving belts and fan, high voltage, poisonous gas. Work outdoors with \
                the car held, sleeves clear, and the hose away from exhaust and ignition. Plug the valve alone; never every \
                outlet of the crankcase. Full load is read on a chassis dynamometer, or by a second person on a closed track; \
                never hold a car on its brakes against the engine.";
    Note::new("blow-by-measuring", Weight::Danger, text)
}

/// Refuses three values out of order or out of range.
pub(super) fn in_order<Q: Measured>(estimate: &Estimate<Q>, range: &Range) -> Result<(), BlowByError> {
    range.check_estimate(estimate)
}

/// Flow past the rings through an effective area of the whole engine, `ṁ = C_dA_eff · G`, each way.
///
/// # Errors
/// An area outside 0 to 1000 mm², or not in order.
pub fn through(area: &Estimate<Area>, leakage: &Leakage, scribe: &mut impl Scribe) -> Result<BlowBy, BlowByError> {
    in_order(area, &TOTAL_AREA)?;
    let (forward, reverse) = (leakage.forward.base(), leakage.reverse.base());
    let at = |area: Area| (area.base() * forward, area.base() * reverse);
    let blow_by = BlowBy::from_pairs(at(area.low), at(area.likely), at(area.high));
    scribe.step(|| {
        Step::new("blow-by towards the crankcase", "ṁ_bb", "ṁ_bb = C_dA_eff G", &DEFINITION)
            .with("C_dA_eff", area.likely)
            .with("G", leakage.forward)
            .gives(blow_by.forward.likely)
    });
    scribe.step(|| {
        Step::new("gas drawn back past the rings", "ṁ_rev", "ṁ_rev = C_dA_eff G_rev", &DEFINITION)
            .with("C_dA_eff", area.likely)
            .with("G_rev", leakage.reverse)
            .gives(blow_by.reverse.likely)
    });
    scribe.step(|| {
        Step::new("blow-by on balance", "ṁ_net", "ṁ_net = ṁ_bb − ṁ_rev", &DEFINITION)
            .with("ṁ_bb", blow_by.forward.likely)
            .with("ṁ_rev", blow_by.reverse.likely)
            .gives(blow_by.net.likely)
    });
    Ok(blow_by)
}

/// The effective area of the whole engine behind a flow known at one operating point, `C_dA_eff = ṁ/G`: a measured
/// flow (level 0: a meter on the breather with the valve plugged, which reads the balance), or a rule of thumb at full
/// throttle (level 1, forward). With it the flow at any other point follows by [`through`].
///
/// # Errors
/// A flow outside 0 to 200 g/s, or a point at which nothing leaks towards the crankcase.
pub fn area_from_flow(
    flow: &Estimate<MassRate>,
    leakage: &Leakage,
    counted: Counted,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Area>, BlowByError> {
    in_order(flow, &FLOW)?;
    let back = if counted == Counted::Balance { leakage.reverse.base() } else { 0.0 };
    let per_area = leakage.forward.base() - back;
    // A millionth of what a working engine shows; a quotient by less is noise.
    if !per_area.is_finite() || per_area <= 1e-3 {
        return Err(BlowByError::NoForwardLeak);
    }
    let area = flow.map(|flow| Area::from_base(flow.base() / per_area));
    scribe.step(|| {
        Step::new("effective leak area behind this flow", "C_dA_eff", "C_dA_eff = ṁ_bb/G", &DEFINITION)
            .with("ṁ_bb", flow.likely)
            .with_amount("G", Amount::new(per_area, Kind::MassFlux))
            .gives(area.likely)
    });
    Ok(area)
}

/// What is to be said of a flow at an operating point: gas drawn up on balance ("blow-by-reversed"), and a leak so
/// large a part of the charge that the cylinder pressure is overstated ("leak-not-fed-back").
#[must_use]
pub fn remarks(blow_by: &BlowBy, trace: &Trace) -> Vec<Note> {
    let mut notes = Vec::new();
    if blow_by.net.likely.base() < 0.0 {
        let text = "More gas is drawn up past the rings than passes down: oil mist goes into the cylinders with it. A \
                    puff of smoke after overrun comes from here. Real rings may lift, which is not reckoned.";
        notes.push(Note::new("blow-by-reversed", Weight::Remark, text));
    }
    let share = blow_by.forward.likely.base() / trace.trapped_flow().base();
    if share > MUCH_OF_THE_CHARGE {
        let text = format!(
            "The leak is {:.0} % of the charge. The cylinder pressure is computed without that loss, so the true leak \
             is somewhat smaller.",
            100.0 * share
        );
        notes.push(Note::new("leak-not-fed-back", Weight::Weak, text));
    }
    notes
}
