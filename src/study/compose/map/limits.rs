//! Which limit applies where on a map, and what a place comes to against it.

use super::super::context::Context;
use super::super::crankcase;
use crate::crankcase::arrangement::defaults;
use crate::quantity::si::Pressure;
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured};
use crate::study::{Duty, MapLimit, State};

/// The limits of a map.
pub(super) struct Limits {
    light: GaugePressure,
    load: GaugePressure,
    /// From here on the limit under load applies.
    pub load_from: AbsolutePressure,
    /// From here on a depression is good up to its likely limit.
    open_from: AbsolutePressure,
    pub depression: Estimate<Pressure>,
}

impl Limits {
    /// The limit under load applies from the manifold pressure of the lightest duty under load, and above that of every
    /// duty at light load. Between the heaviest light duty and the lightest heavy one nobody has said that the engine
    /// pulls hard, and the limit at light load, as a rule the closer one, is the unfavourable end of what is known.
    pub fn of(context: &Context<'_>) -> Self {
        let of = |loaded: bool| {
            let duties = Duty::ALL.into_iter().filter(move |duty| duty.under_load() == loaded);
            duties.map(|duty| context.manifold[duty.index()].0.base())
        };
        let lightest_load = of(true).fold(f64::INFINITY, f64::min);
        let heaviest_light = of(false).fold(0.0, f64::max);
        // A light duty's own manifold pressure still belongs to the light limit.
        let from = if lightest_load > heaviest_light { lightest_load } else { heaviest_light.next_up() };
        Self {
            light: crankcase::limit(context, Duty::Cruise).likely,
            load: crankcase::limit(context, Duty::FullThrottle).likely,
            load_from: AbsolutePressure::from_base(from),
            open_from: context.manifold[Duty::FullThrottle.index()].0,
            depression: crankcase::depression(context),
        }
    }

    /// Whether the limit under load applies at a manifold pressure.
    pub fn under_load(&self, manifold: AbsolutePressure) -> bool {
        manifold >= self.load_from
    }

    /// What the pressures of a place come to, and the limit that decides.
    pub fn judge(
        &self,
        under_load: bool,
        wide_open: bool,
        high: GaugePressure,
        deepest: GaugePressure,
    ) -> (GaugePressure, MapLimit, State) {
        let (limit, name) =
            if under_load { (self.load, MapLimit::UnderLoad) } else { (self.light, MapLimit::LightLoad) };
        let allowed = limit.base();
        let pressure = if high.base() > allowed {
            State::DoesNotHold
        } else if high.base() > defaults::little_left().likely().base() * allowed.max(1.0) {
            State::Thin
        } else {
            State::Holds
        };
        let deep = -deepest.base();
        let depression = if deep > self.depression.likely.base() {
            State::DoesNotHold
        } else if deep > self.depression.low.base() && !wide_open {
            State::Thin
        } else {
            State::Holds
        };
        if depression > pressure { (limit, MapLimit::Depression, depression) } else { (limit, name, pressure) }
    }

    /// Whether the throttle is as wide open as at full throttle.
    pub fn wide_open(&self, manifold: AbsolutePressure) -> bool {
        manifold >= self.open_from
    }
}
