//! The pressure over one cycle, and what can be read from it.

use super::Geometry;
use crate::quantity::si::{Angle, AngularVelocity, Mass, MassRate, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Measured};
use std::f64::consts::PI;

/// A part of the cycle on an even grid of at most half a degree; an even number of steps.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Segment {
    /// Crank angle of the first point, degrees.
    pub start: f64,
    /// Degrees between points.
    pub step: f64,
    /// Pa absolute, ends included.
    pub pressures: Vec<f64>,
}

/// Pressure over one cycle of one cylinder, and what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// Closed valves; blow-down and exhaust stroke; inlet stroke.
    pub(super) segments: [Segment; 3],
    pub(super) trapped: f64,
    pub(super) air: f64,
    pub(super) peak: (f64, f64),
    pub(super) hottest: f64,
    pub(super) speed: AngularVelocity,
    pub(super) geometry: Geometry,
}

/// The highest pressure and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// The highest pressure.
    pub pressure: AbsolutePressure,
    /// Its crank angle after firing dead centre.
    pub angle: Angle,
}

impl Trace {
    /// Gas trapped in one cylinder when the inlet closes.
    #[must_use]
    pub fn trapped(&self) -> Mass {
        Mass::from_base(self.trapped)
    }

    /// Air drawn by the whole engine.
    #[must_use]
    pub fn air_flow(&self) -> MassRate {
        MassRate::from_base(self.air)
    }

    /// Gas trapped by the whole engine in a second, residual gas and fuel included: what a leak takes its share of.
    #[must_use]
    pub fn trapped_flow(&self) -> MassRate {
        MassRate::from_base(self.trapped * self.geometry.count() * self.speed.base() / (4.0 * PI))
    }

    /// The highest pressure; a parabola through the highest point of the grid and its neighbours.
    #[must_use]
    pub fn peak(&self) -> Peak {
        Peak { pressure: AbsolutePressure::from_base(self.peak.0), angle: Angle::from_base(self.peak.1.to_radians()) }
    }

    /// The highest mean gas temperature while the valves are closed.
    #[must_use]
    pub fn hottest(&self) -> Temperature {
        Temperature::from_base(self.hottest)
    }

    /// The pressure when the exhaust opens.
    #[must_use]
    pub fn at_exhaust_opening(&self) -> AbsolutePressure {
        AbsolutePressure::from_base(self.segments[1].pressures.first().copied().unwrap_or(0.0))
    }

    /// Speed of the crank the trace was made at.
    #[must_use]
    pub const fn speed(&self) -> AngularVelocity {
        self.speed
    }

    /// The engine the trace was made for.
    #[must_use]
    pub const fn geometry(&self) -> &Geometry {
        &self.geometry
    }

    /// Crank angle and pressure over the cycle, from inlet closing on, at most half a degree apart. Where two parts
    /// of the cycle meet the point comes once.
    pub fn points(&self) -> impl Iterator<Item = (Angle, AbsolutePressure)> + '_ {
        self.segments.iter().enumerate().flat_map(|(part, segment)| {
            let skip = usize::from(part > 0);
            segment.pressures.iter().enumerate().skip(skip).map(|(i, &pressure)| {
                let degrees = segment.start + segment.step * i as f64;
                (Angle::from_base(degrees.to_radians()), AbsolutePressure::from_base(pressure))
            })
        })
    }

    pub(crate) const fn segments(&self) -> &[Segment; 3] {
        &self.segments
    }
}
