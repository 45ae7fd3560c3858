//! A spot without contact: what flows through it, and the pressure a sound joint holds.

use super::error::in_order;
use super::figures::{
    AIR_TEMPERATURE, CRANKCASE, FORCE, land, oil_density, oil_head, oil_viscosity, spot_gap, spot_width,
};
use super::{Bedding, JointError, Stack};
use crate::crankcase::cylinder::defaults::AMBIENT;
use crate::fluid::air;
use crate::quantity::si::{DynamicViscosity, Force, Length, MassDensity, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::joint as source;

/// Acceleration of free fall, m/s².
const GRAVITY: f64 = 9.806_65;
/// Reynolds number on twice the gap up to which the flow in a slot is laminar.
const LAMINAR_TO: f64 = 1400.0;

/// A spot where the gasket does not touch, and the oil over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Height of the gap; default [`super::figures::spot_gap`].
    pub gap: Length,
    /// Width along the gasket; default [`super::figures::spot_width`].
    pub width: Length,
    /// Way out through the joint; default [`super::figures::land`].
    pub land: Length,
    /// Oil standing over the spot; default [`super::figures::oil_head`].
    pub head: Length,
    /// Viscosity of the oil; default [`super::figures::oil_viscosity`].
    pub viscosity: DynamicViscosity,
    /// Density of the oil; default [`super::figures::oil_density`].
    pub density: MassDensity,
}

impl Default for Spot {
    fn default() -> Self {
        Self {
            gap: spot_gap().likely(),
            width: spot_width().likely(),
            land: land().likely(),
            head: oil_head().likely(),
            viscosity: oil_viscosity().likely(),
            density: oil_density().likely(),
        }
    }
}

impl Spot {
    pub(super) fn check(&self) -> Result<(), JointError> {
        spot_gap().check(self.gap)?;
        spot_width().check(self.width)?;
        land().check(self.land)?;
        oil_head().check(self.head)?;
        oil_viscosity().check(self.viscosity)?;
        oil_density().check(self.density)?;
        Ok(())
    }

    /// `ρ g h`, Pa.
    pub(super) fn head_pressure(&self) -> f64 {
        self.density.base() * GRAVITY * self.head.base()
    }

    /// `h³ w Δp/(12 μ L)`, m³/s, if the flow is laminar.
    fn flow(&self, drive: f64, viscosity: f64, density: f64) -> Result<f64, JointError> {
        let (gap, width, land) = (self.gap.base(), self.width.base(), self.land.base());
        let flow = gap.powi(3) * width * drive / (12.0 * viscosity * land);
        let reynolds = 2.0 * density * flow / (viscosity * width);
        if reynolds > LAMINAR_TO {
            return Err(JointError::NotLaminar { gap: self.gap, reynolds, most: LAMINAR_TO });
        }
        Ok(flow)
    }
}

/// What passes the spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SlotFlow {
    /// Oil comes out.
    Oil(VolumeRate),
    /// Air is drawn in: it may whistle, it does not drip.
    Air(VolumeRate),
    /// Nothing drives either way.
    Nothing,
}

/// What passes a spot without contact at a crankcase pressure, `q = h³ w Δp/(12 μ L)`, `Δp = p + ρ g h`.
///
/// Outwards the slot is full of oil; when the crankcase is so far below the air outside that the oil over the spot does
/// not make up for it, air of this temperature and ambient pressure comes in through the dry slot.
///
/// # Errors
/// A figure outside its range, or a gap so wide that the flow would not be laminar.
pub fn slot_flow(
    spot: &Spot,
    crankcase: GaugePressure,
    ambient: AbsolutePressure,
    outside: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<SlotFlow, JointError> {
    spot.check()?;
    let crankcase = CRANKCASE.check(crankcase)?;
    let ambient = AMBIENT.check(ambient)?;
    let outside = AIR_TEMPERATURE.check(outside)?;
    let drive = crankcase.base() + spot.head_pressure();
    scribe.step(|| {
        Step::new("what drives the spot", "Δp", "Δp = p + ρ g h", &crate::source::DEFINITION)
            .with_amount("p", Amount::of_kind(crankcase, Kind::CrankcasePressure))
            .with("ρ", spot.density)
            .with_amount("h", Amount::of_kind(spot.head, Kind::SmallLength))
            .gives_amount(Amount::new(drive, Kind::SmallPressureDifference))
    });
    if drive == 0.0 {
        return Ok(SlotFlow::Nothing);
    }
    let outward = drive > 0.0;
    let (viscosity, density) = if outward {
        (spot.viscosity, spot.density)
    } else {
        (air::viscosity(outside, scribe)?, air::density(ambient, outside, scribe)?)
    };
    let flow = VolumeRate::from_base(spot.flow(drive.abs(), viscosity.base(), density.base())?);
    scribe.step(|| {
        let meaning = if outward { "oil that leaks" } else { "air that is drawn in" };
        Step::new(meaning, "q", "q = h³ w |Δp|/(12 μ L)", &source::SLOT_FLOW)
            .with_amount("h", Amount::of_kind(spot.gap, Kind::SmallLength))
            .with_amount("w", Amount::of_kind(spot.width, Kind::SmallLength))
            .with_amount("Δp", Amount::new(drive, Kind::SmallPressureDifference))
            .with("μ", viscosity)
            .with_amount("L", Amount::of_kind(spot.land, Kind::SmallLength))
            .gives_amount(Amount::of_kind(flow, Kind::LeakFlow))
    });
    Ok(if outward { SlotFlow::Oil(flow) } else { SlotFlow::Air(flow) })
}

/// The pressure a joint in contact holds, `p = σ s/m`: contact stress under the clamp load left, times the share half-way
/// between screws (one where no flange is given), over the gasket factor. Zero where the flange lifts or no load is left.
///
/// It is hundreds of kilopascals wherever the gasket is pressed at all: crankcase pressure leaks where contact is lost,
/// never through a seated gasket.
///
/// # Errors
/// A load outside its range or not in order; as [`Stack::stiffness`].
pub fn pressure_held(
    stack: &Stack,
    clamp: &Estimate<Force>,
    bedding: Option<&Bedding>,
    scribe: &mut impl Scribe,
) -> Result<Estimate<GaugePressure>, JointError> {
    stack.check()?;
    in_order(clamp, &FORCE)?;
    let factor = stack.factor();
    let area = stack.area.base();
    let share = |of: fn(&Bedding) -> f64| bedding.map_or(1.0, |bedding| of(bedding).max(0.0));
    let held = |clamp: Force, share: f64, factor: f64| GaugePressure::from_base(clamp.base() / area * share / factor);
    let held = Estimate {
        low: held(clamp.low, share(|b| b.midspan.low.base()), factor.high.base()),
        likely: held(clamp.likely, share(|b| b.midspan.likely.base()), factor.likely.base()),
        high: held(clamp.high, share(|b| b.midspan.high.base()), factor.low.base()),
    };
    scribe.step(|| {
        Step::new("pressure the joint holds", "p_held", "p_held = (F/A) s/m", &source::GASKET_FACTOR)
            .with("F", clamp.likely)
            .with("A", stack.area)
            .with_number("s", share(|b| b.midspan.likely.base()))
            .with("m", factor.likely)
            .gives(held.likely)
    });
    Ok(held)
}
