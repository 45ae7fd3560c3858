//! Flow elements: what a gas meets on its way out of the crankcase, one file each.
//!
//! Every element gives a signed mass flow for the pressures at its two ends, positive from the first end to the
//! second. All but the depression-operated valves rise with the first pressure and never rise with the second, which
//! is what makes a network of them have one answer. Near zero pressure difference every element is linear, because the
//! slope of a square root there is infinite.

mod bench;
mod breather;
mod check;
mod defaults;
mod error;
mod fixed_orifice;
mod friction;
mod gas;
mod hose;
mod mesh;
mod orifice;
mod plunger;
mod response;
mod sag;
mod sonic_port;
mod spring_plunger;
mod table;

pub use bench::{BenchFlow, OrificeBench};
pub use breather::BreatherElement;
pub use check::CheckValve;
#[cfg(test)]
pub(crate) use defaults::soundness;
pub use defaults::{
    annulus_discharge, back_opening, backfire_tight, baffle_area, barb_discharge, bend_loss, breather_inertial,
    breather_viscous, can_inlet_loss, can_outlet_loss, check_opening_pressure, elbow_loss, entrance_loss, exit_loss,
    filter_loading, fixed_orifice_bore, half_bend_loss, hose_roughness, linear_share, mesh_inertial_drag, mesh_soaked,
    mesh_surface, mesh_viscous_drag, mesh_wire, plunger_fully_reduced, plunger_idle_area, plunger_open_area,
    plunger_starts_reducing, rounded_discharge, seat_leak, sharp_discharge, sump_baffle_area, valley_baffle_area,
};
pub use error::FlowError;
pub use fixed_orifice::FixedOrificeValve;
pub use friction::friction_factor;
pub use gas::Gas;
pub use hose::{Fittings, Hose};
pub use mesh::KnittedMesh;
pub use orifice::{Orifice, bore_in_a_row};
pub use plunger::{GenericPlunger, PlungerValve};
pub use sag::Sag;
pub use sonic_port::SonicPort;
pub use spring_plunger::SpringPlunger;
pub use table::TableValve;

pub(crate) use gas::{Psi, Warmth};
pub(crate) use response::{Ends, Memory, Response};

use crate::quantity::si::{MassRate, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Kind, Measured, Range};
use crate::scribe::Scribe;

/// The pressures an element may be asked about.
pub(crate) const END_PRESSURE: Range = Range::new(
    "pressure at an end of a flow element",
    Kind::AbsolutePressure,
    1.0,
    2.0e7,
    "give the absolute pressure, above vacuum",
);
/// The gas temperatures an element may be asked about.
pub(crate) const END_TEMPERATURE: Range = Range::new(
    "gas temperature at an end of a flow element",
    Kind::Temperature,
    200.0,
    800.0,
    "give the temperature of the gas, not of the wall of an exhaust",
);

/// One end of an element: the gas that waits there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// Its pressure.
    pub pressure: AbsolutePressure,
    /// Its temperature, which counts when gas enters the element at this end.
    pub temperature: ThermodynamicTemperature,
}

/// A flow element.
#[derive(Clone, Debug, PartialEq)]
pub enum Element {
    /// A hole.
    Orifice(Orifice),
    /// A component with a sonic conductance after ISO 6358.
    SonicPort(SonicPort),
    /// A hose or a fitting.
    Hose(Hose),
    /// A filter or a mesh.
    Breather(BreatherElement),
    /// A PCV valve with a spring-loaded plunger.
    Plunger(PlungerValve),
    /// A PCV valve by the measures of its plunger and spring.
    SpringPlunger(SpringPlunger),
    /// A PCV valve by its table of flow against depression.
    Table(TableValve),
    /// A PCV valve with a fixed hole.
    FixedOrifice(FixedOrificeValve),
    /// A check valve.
    Check(CheckValve),
    /// A check valve turned round: it passes from the second end to the first.
    CheckInwards(CheckValve),
    /// Liquid in the sag of a hose.
    Sag(Sag),
}

impl Element {
    /// The mass flow from the first end to the second, negative when it runs the other way.
    ///
    /// # Errors
    /// [`FlowError`] when the element or an end is outside its range, or a table is asked beyond its last point.
    pub fn flow(&self, first: End, second: End, gas: Gas, scribe: &mut impl Scribe) -> Result<MassRate, FlowError> {
        self.check()?;
        gas.check()?;
        for end in [first, second] {
            END_PRESSURE.check(end.pressure)?;
            END_TEMPERATURE.check(end.temperature)?;
        }
        let (p1, p2) = (first.pressure.base(), second.pressure.base());
        if let Self::Table(table) = self {
            table.covers(p1 - p2)?;
        }
        let psi = Psi::new(gas.isentropic_exponent.base());
        let warmth = [Warmth::of(first.temperature.base()), Warmth::of(second.temperature.base())];
        let mut memory = Memory::default();
        if let Some(opening) = self.opening(p1 - p2, &psi) {
            memory.opening = opening;
        }
        Ok(MassRate::from_base(
            self.response(Ends { first: p1, second: p2, warmth: &warmth }, &psi, &mut memory, scribe).flow,
        ))
    }

    /// Whether every figure of the element lies in its range.
    ///
    /// # Errors
    /// [`FlowError::OutOfRange`] naming the figure, the value and the range.
    pub fn check(&self) -> Result<(), FlowError> {
        match self {
            Self::Orifice(orifice) => orifice.check(),
            Self::SonicPort(port) => port.check(),
            Self::Hose(hose) => hose.check(),
            Self::Breather(breather) => breather.check(),
            Self::Plunger(valve) => valve.check(),
            Self::SpringPlunger(valve) => valve.check(),
            Self::Table(_) => Ok(()), // Checked when made; its points cannot be changed.
            Self::FixedOrifice(valve) => valve.check(),
            Self::Check(valve) | Self::CheckInwards(valve) => valve.check(),
            Self::Sag(sag) => sag.check(),
        }
    }

    /// Whether the element is the same from both ends.
    #[must_use]
    pub const fn is_symmetric(&self) -> bool {
        matches!(self, Self::Orifice(_) | Self::SonicPort(_) | Self::Hose(_) | Self::Breather(_) | Self::Sag(_))
    }

    /// Whether the opening follows the depression across the element, so that its flow may fall as depression grows.
    #[must_use]
    pub const fn is_depression_operated(&self) -> bool {
        matches!(self, Self::Plunger(_) | Self::SpringPlunger(_) | Self::Table(_))
    }

    /// Whether there are pressures at which the element passes next to nothing, so that its resistance has no bound.
    pub(crate) const fn shuts(&self) -> bool {
        matches!(self, Self::Check(_) | Self::CheckInwards(_) | Self::FixedOrifice(_) | Self::Sag(_))
    }

    /// The effective area in m² at a depression in Pa, of a depression-operated valve; a table answers with its end
    /// points beyond its ends, which [`TableValve::covers`] refuses once the answer is known.
    pub(crate) fn opening(&self, depression: f64, psi: &Psi) -> Option<f64> {
        match self {
            Self::Plunger(valve) => Some(valve.area(depression)),
            Self::SpringPlunger(valve) => Some(valve.area(depression)),
            Self::Table(valve) => Some(valve.area(depression, psi)),
            _ => None,
        }
    }

    /// The depressions between which the opening changes, in Pa.
    pub(crate) fn opening_span(&self) -> Option<(f64, f64)> {
        match self {
            Self::Plunger(valve) => Some((valve.starts_reducing.base(), valve.fully_reduced.base())),
            Self::SpringPlunger(valve) => Some((valve.begins().base(), valve.ends().base())),
            Self::Table(valve) => Some((0.0, valve.last())),
            _ => None,
        }
    }

    /// About how much pressure a flow above zero, kg/s, costs at a pressure, Pa: a start for the search, good while the
    /// drop is a small part of the pressure. Leaves a hose's memory at that flow.
    pub(crate) fn rough_drop(&self, flow: f64, pressure: f64, warmth: &Warmth, memory: &mut Memory) -> f64 {
        let area = match self {
            Self::Hose(hose) => return hose.rough_drop(flow, pressure, warmth, memory),
            Self::Breather(breather) => return breather.rough_drop(flow, pressure, warmth),
            Self::Orifice(orifice) => orifice.effective_area.base(),
            Self::SonicPort(port) => port.choked_area().base(),
            Self::Plunger(_) | Self::SpringPlunger(_) | Self::Table(_) => memory.opening,
            Self::FixedOrifice(valve) => valve.as_check().effective_area.base(),
            Self::Check(valve) | Self::CheckInwards(valve) => valve.effective_area.base(),
            Self::Sag(sag) => {
                let flux = flow / sag.open_area.base().max(1e-12);
                return sag.head.base() + 0.5 * flux * flux * warmth.rt / pressure;
            }
        };
        let flux = flow / area.max(1e-12);
        0.5 * flux * flux * warmth.rt / pressure
    }

    /// Flow and its slopes, in kg/s and kg/(s·Pa), at absolute pressures in Pa above zero. The warmth of the first end
    /// counts when gas enters there, else that of the second. `memory` holds the opening of a depression-operated
    /// valve, and the last Reynolds number of a hose as the start of the next search.
    #[inline]
    pub(crate) fn response(
        &self,
        ends: Ends<'_>,
        psi: &Psi,
        memory: &mut Memory,
        scribe: &mut impl Scribe,
    ) -> Response {
        match self {
            Self::Orifice(orifice) => orifice.response(ends, psi, scribe),
            Self::SonicPort(port) => port.response(ends, scribe),
            Self::Hose(hose) => hose.response(ends, memory, scribe),
            Self::Breather(breather) => breather.response(ends, scribe),
            Self::Plunger(valve) => valve.response(ends, psi, memory.opening, scribe),
            Self::SpringPlunger(valve) => valve.response(ends, psi, memory.opening, scribe),
            Self::Table(valve) => valve.response(ends, psi, memory.opening, scribe),
            Self::FixedOrifice(valve) => valve.as_check().response(ends, psi, scribe),
            Self::Check(valve) => valve.response(ends, psi, scribe),
            Self::CheckInwards(valve) => {
                let warmth = [ends.warmth[1], ends.warmth[0]];
                valve.response(Ends { first: ends.second, second: ends.first, warmth: &warmth }, psi, scribe).reversed()
            }
            Self::Sag(sag) => sag.response(ends, psi, scribe),
        }
    }
}

macro_rules! from_kinds {
    ($($variant:ident($kind:ty)),* $(,)?) => {$(
        impl From<$kind> for Element {
            fn from(element: $kind) -> Self { Self::$variant(element) }
        }
    )*};
}

from_kinds! {
    Orifice(Orifice),
    SonicPort(SonicPort),
    Hose(Hose),
    Breather(BreatherElement),
    Plunger(PlungerValve),
    SpringPlunger(SpringPlunger),
    Table(TableValve),
    FixedOrifice(FixedOrificeValve),
    Check(CheckValve),
    Sag(Sag),
}
