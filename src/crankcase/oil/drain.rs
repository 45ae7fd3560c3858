//! Oil on its way back: the head that brings it down against the crankcase pressure, and liquid that stands in a hose.

use super::{OilError, defaults};
use crate::crankcase::cylinder::Duty;
use crate::quantity::si::{Length, MassDensity, Pressure};
use crate::quantity::{Amount, GRAVITY, GaugePressure, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::HEAD;

/// Heights of oil.
pub static HEIGHT: Range = Range::new(
    "height of the oil column",
    Kind::Length,
    0.0,
    2.0,
    "from the cover's floor down to the oil that closes the drain",
);
/// Gauge pressures in crankcase and cover.
pub static PRESSURE: Range =
    Range::new("pressure in crankcase or cover", Kind::CrankcasePressure, -1e5, 1e5, "a few kPa either way");

/// How oil returns from a cover to the sump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrainBack {
    /// The head of the full column, `ρ g h`.
    pub head: Pressure,
    /// Crankcase over cover: what holds the oil up.
    pub holds_up: Pressure,
    /// Head left over; negative when the oil cannot return.
    pub margin: Pressure,
    /// Height at which oil stands in the drain before it runs: the column that balances the pressures.
    pub stands: Length,
}

impl DrainBack {
    /// Whether the oil returns.
    #[must_use]
    pub fn returns(&self) -> bool {
        self.margin.base() > 0.0
    }

    /// The sentence a person reads.
    #[must_use]
    pub fn words(&self, duty: Duty, system: UnitSystem) -> String {
        let at = if duty == Duty::Hill { "on a hill".to_owned() } else { format!("at {}", duty.name().to_lowercase()) };
        let pressure = |p: Pressure| Amount::of_kind(p, Kind::SmallPressureDifference).show(system);
        let stands = Amount::of(self.stands).show(system);
        if self.returns() {
            format!(
                "Oil returns through the drain {at}; it stands {stands} high in it and {} of head are left.",
                pressure(self.margin)
            )
        } else {
            format!(
                "Oil cannot return through the drain {at}: the crankcase stands {} above the cover and would need a column of \
                 {stands}. The cover fills and the gas carries the oil out. Open a way for the gas beside the drain (larger baffle \
                 openings, a hose from block to cover) or lower the crankcase pressure.",
                pressure(self.holds_up)
            )
        }
    }
}

fn head(density: MassDensity, height: Length) -> Pressure {
    Pressure::from_base(density.base() * GRAVITY * height.base())
}

/// Whether oil returns from a cover through a drain: `ρ g h > p_cc − p_cover`. Use the high estimate at full throttle.
///
/// # Errors
/// A figure outside its range: height 0 to 2 m, density 700 to 1000 kg/m³, pressures within ±100 kPa.
pub fn drain_back(
    height: Length,
    density: MassDensity,
    crankcase: GaugePressure,
    cover: GaugePressure,
    scribe: &mut impl Scribe,
) -> Result<DrainBack, OilError> {
    HEIGHT.check(height)?;
    defaults::density().check(density)?;
    let holds_up = Pressure::from_base(PRESSURE.check(crankcase)?.base() - PRESSURE.check(cover)?.base());
    let head = head(density, height);
    let margin = head - holds_up;
    let stands = Length::from_base(holds_up.base().max(0.0) / (density.base() * GRAVITY));
    let small = |p: Pressure| Amount::of_kind(p, Kind::SmallPressureDifference);
    scribe.step(|| {
        Step::new("head of oil in the drain", "Δp_h", "Δp_h = ρ·g·h", &HEAD)
            .with("ρ", density)
            .with("h", height)
            .gives_amount(small(head))
    });
    scribe.step(|| {
        Step::new("head left to bring the oil down", "m", "m = Δp_h − (p_cc − p_cover)", &HEAD)
            .with_amount("Δp_h", small(head))
            .with_amount("p_cc", Amount::of_kind(crankcase, Kind::CrankcasePressure))
            .with_amount("p_cover", Amount::of_kind(cover, Kind::CrankcasePressure))
            .gives_amount(small(margin))
    });
    Ok(DrainBack { head, holds_up, margin, stands })
}

/// What stands in the sag of a hose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Oil.
    Oil,
    /// Water, or oil with much water; it can freeze.
    Water,
}

/// A hose closed by liquid in its sag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SagBlockage {
    /// What stands in it.
    pub standing: Standing,
    /// Pressure the gas needs to push through: the crankcase rises by this before anything passes.
    pub pressure: Pressure,
}

impl SagBlockage {
    /// The sentence a person reads.
    #[must_use]
    pub fn words(&self, system: UnitSystem) -> String {
        let pressure = Amount::of_kind(self.pressure, Kind::CrankcasePressure).show(system);
        match self.standing {
            Standing::Oil => format!(
                "Oil in the sag of the hose adds {pressure} to the crankcase pressure before any gas passes. Run the hose without \
                 a sag, falling all the way to the can or back to the engine."
            ),
            Standing::Water => format!(
                "Water in the sag of the hose adds {pressure} to the crankcase pressure before any gas passes, and closes the hose \
                 for good when it freezes: then the crankcase pressure rises until oil is pushed past the seals, onto hot parts. \
                 Run the hose without a sag."
            ),
        }
    }
}

/// Pressure that a column in the sag of a hose takes, `Δp = ρ g h`: h from the lowest point of the liquid to its surface on
/// the far side when the gas begins to bubble through.
///
/// # Errors
/// A height outside 0 to 2 m, or a density outside its range.
pub fn sag_blockage(
    standing: Standing,
    height: Length,
    density: MassDensity,
    scribe: &mut impl Scribe,
) -> Result<SagBlockage, OilError> {
    HEIGHT.check(height)?;
    match standing {
        Standing::Oil => defaults::density().check(density)?,
        Standing::Water => defaults::water_density().check(density)?,
    };
    let pressure = head(density, height);
    scribe.step(|| {
        Step::new("pressure that the liquid in a sag takes", "Δp", "Δp = ρ·g·h", &HEAD)
            .with("ρ", density)
            .with("h", height)
            .gives_amount(Amount::of_kind(pressure, Kind::CrankcasePressure))
    });
    Ok(SagBlockage { standing, pressure })
}
