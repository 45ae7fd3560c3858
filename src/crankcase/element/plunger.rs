//! A PCV valve with a spring-loaded plunger: wide at light depression, small at idle, shut on backfire.

use super::defaults::{
    back_opening, plunger_fully_reduced, plunger_idle_area, plunger_open_area, plunger_starts_reducing,
};
use super::orifice::{Orifice, through};
use super::{Ends, FlowError, Psi, Response};
use crate::quantity::si::{Area, Pressure};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::PLUNGER;

pub(super) const AREA: Range = Range::new(
    "effective area of the PCV valve",
    Kind::SmallArea,
    1.0e-8,
    1.0e-3,
    "about 6 to 12 mm² open and 2 to 4 mm² at idle",
);
pub(super) const BACK: Range = Range::new(
    "opening of the PCV valve on backfire",
    Kind::SmallArea,
    0.0,
    1.0e-3,
    "zero for a plunger that seats; not more than the open area",
);
pub(super) const DEPRESSION: Range =
    Range::new("depression at which the plunger moves", Kind::PressureDifference, 0.0, 1.0e5, "8 and 50 kPa are usual");

/// A plunger valve. With the depression `d = p_up − p_manifold`:
/// `y = (d − d₁)/(d₂ − d₁)` held between 0 and 1, `C_d A = A_open + (A_idle − A_open)(3y² − 2y³)`, and the flow that of
/// a hole of this area. Against the flow it opens by `backfire_area` alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlungerValve {
    /// Effective area at light depression.
    pub open_area: Area,
    /// Effective area at idle depression.
    pub idle_area: Area,
    /// Depression d₁ at which the plunger starts to reduce the opening.
    pub starts_reducing: Pressure,
    /// Depression d₂ at which it is fully reduced.
    pub fully_reduced: Pressure,
    /// Effective area when the manifold is above the crankcase; zero when the plunger seats tight.
    pub backfire_area: Area,
}

/// Sizes of generic plunger valves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GenericPlunger {
    /// For about 1.3 L.
    Small,
    /// For about 2.0 L.
    Medium,
    /// For about 5.0 L.
    Large,
}

impl PlungerValve {
    /// A generic valve of a size.
    #[must_use]
    pub fn generic(size: GenericPlunger) -> Self {
        let (open, idle) = (plunger_open_area().estimate, plunger_idle_area().estimate);
        let (open_area, idle_area) = match size {
            GenericPlunger::Small => (open.low, idle.low),
            GenericPlunger::Medium => (open.likely, idle.likely),
            GenericPlunger::Large => (open.high, idle.high),
        };
        Self {
            open_area,
            idle_area,
            starts_reducing: plunger_starts_reducing().likely(),
            fully_reduced: plunger_fully_reduced().likely(),
            backfire_area: back_opening().likely(),
        }
    }

    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// When one does not, or the two depressions are not in order.
    pub fn check(&self) -> Result<(), FlowError> {
        AREA.check(self.open_area)?;
        AREA.check(self.idle_area)?;
        BACK.check(self.backfire_area)?;
        let starts = DEPRESSION.check(self.starts_reducing)?;
        let ends = DEPRESSION.check(self.fully_reduced)?;
        if starts.base() >= ends.base() {
            return Err(FlowError::PlungerOrder { starts, ends });
        }
        Ok(())
    }

    /// The effective area in m² with the flow, at a depression in Pa.
    pub(super) fn area(&self, depression: f64) -> f64 {
        let (starts, ends) = (self.starts_reducing.base(), self.fully_reduced.base());
        let y = ((depression - starts) / (ends - starts)).clamp(0.0, 1.0);
        let open = self.open_area.base();
        open + (self.idle_area.base() - open) * (y * y * (3.0 - 2.0 * y))
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, opening: f64, scribe: &mut impl Scribe) -> Response {
        let Ends { first, second, warmth } = ends;
        if first >= second {
            scribe.step(|| {
                Step::new(
                    "opening of the plunger valve",
                    "C_d A",
                    "A_open + (A_idle − A_open)(3y² − 2y³), y = (d − d₁)/(d₂ − d₁) within 0 to 1",
                    &PLUNGER,
                )
                .with("A_open", self.open_area)
                .with("A_idle", self.idle_area)
                .with_amount("d", Amount::new(first - second, Kind::PressureDifference))
                .with("d₁", self.starts_reducing)
                .with("d₂", self.fully_reduced)
                .gives(Area::from_base(opening))
            });
            through(opening, first, second, &warmth[0], psi, scribe)
        } else {
            Orifice { effective_area: self.backfire_area }.response(ends, psi, scribe)
        }
    }
}
