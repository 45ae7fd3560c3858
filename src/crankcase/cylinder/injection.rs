//! A diesel's burning: fuel injected into the trapped air burns first what has mixed, then as fast as it mixes.

use super::point::{Figures, three};
use super::{BlowByError, Cycle, Duty, defaults};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Angle, Ratio};
use crate::quantity::{AbsolutePressure, DEGREE, Kind, Measured, Range};
use crate::source::Assumed;
use crate::source::crankcase::blow_by as source;

/// `a` of both stages: 99.9 % burnt at the end of each.
const A: f64 = 6.9;

/// Shares of the fuel that burn premixed.
pub static PREMIXED: Range =
    Range::new("share burnt premixed", Kind::Share, 0.0, 1.0, "half at idle, a tenth at full load");

/// The first stage of a diesel's burn; the second takes [`super::OperatingPoint::burn_duration`].
///
/// `x_b = β[1 − exp(−6.9 z_p⁴)] + (1 − β)[1 − exp(−6.9 z_d²)]`, z the angle from the start of burning over the duration of
/// the stage (exponents m = 3 and, rounded from 0.9, m = 1).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Injection {
    /// Share β that burns premixed; default [`premixed_share`].
    pub premixed: Ratio,
    /// Duration of that stage; default [`defaults::premixed_duration`].
    pub premixed_duration: Angle,
}

impl Injection {
    /// Whether both figures lie in their ranges.
    ///
    /// # Errors
    /// The first that does not.
    pub fn check(&self) -> Result<(), BlowByError> {
        PREMIXED.check(self.premixed)?;
        defaults::premixed_duration().check(self.premixed_duration)?;
        Ok(())
    }

    /// In the numbers the integration works with; `duration` of the second stage in degrees.
    pub(super) fn stages(&self, duration: f64) -> Stages {
        Stages {
            share: self.premixed.base(),
            early: 1.0 / self.premixed_duration.base().to_degrees(),
            late: 1.0 / duration,
        }
    }
}

/// Both stages, degrees.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stages {
    share: f64,
    /// One over the duration of the first stage.
    early: f64,
    /// The same of the second.
    late: f64,
}

impl Stages {
    /// Share burnt for each degree, `since` degrees after the start.
    #[inline]
    pub(super) fn rate(&self, since: f64) -> f64 {
        let (p, d) = (since * self.early, since * self.late);
        let (p_cube, d_square) = (p * p * p, d * d);
        let premixed = 4.0 * p_cube * (-A * p_cube * p).exp() * self.early;
        let mixing = 2.0 * d * (-A * d_square).exp() * self.late;
        A * (self.share * premixed + (1.0 - self.share) * mixing)
    }

    /// Share burnt `since` degrees after the start.
    fn burnt(&self, since: f64) -> f64 {
        let (p, d) = (since * self.early, since * self.late);
        1.0 - self.share * (-A * p.powi(4)).exp() - (1.0 - self.share) * (-A * d * d).exp()
    }

    /// Degrees from the start until half is burnt.
    pub(super) fn half(&self) -> Result<f64, BlowByError> {
        // The longer of both stages has burnt 99.9 % at its end, so half is passed before.
        let longest = (1.0 / self.early).max(1.0 / self.late);
        Ok(bracketed_root(|since| self.burnt(since) - 0.5, 0.0, longest, 1e-9)?.at)
    }
}

/// Share of the fuel that burns premixed at a duty: much of the little fuel at idle, little of the much at full load.
#[must_use]
pub fn premixed_share(duty: Duty) -> Assumed<Ratio> {
    let [low, likely, high] = match duty {
        Duty::Idle => [0.30, 0.50, 0.80],
        Duty::Cruise => [0.15, 0.30, 0.50],
        Duty::Hill => [0.08, 0.15, 0.30],
        Duty::FullThrottle => [0.04, 0.08, 0.20],
        Duty::Overrun => [0.0, 0.0, 0.0],
    };
    Assumed::new([low, likely, high], PREMIXED, &source::DIESEL_FIGURES)
}

/// The figures of a diesel at a duty, its manifold without a throttle: all but the ambient pressure. Fuel follows from
/// the power, not from the air; give it by [`Cycle::air_fuel`].
///
/// # Errors
/// When the ambient pressure is out of range.
pub fn diesel_figures(duty: Duty, ambient: AbsolutePressure) -> Result<Figures, BlowByError> {
    let petrol = super::figures(duty, ambient)?;
    let ambient = ambient.base() / 1e3;
    // Manifold kPa, half burn °, duration °, residual, charge temperature K, wall heat.
    let (manifold, half, duration, residual, charge, wall) = match duty {
        Duty::Idle => (
            [ambient - 2.0, ambient - 0.5, ambient - 0.1],
            [4.0, 8.0, 13.0],
            [25.0, 35.0, 50.0],
            [0.03, 0.05, 0.08],
            [325.0, 340.0, 360.0],
            [0.25, 0.35, 0.45],
        ),
        Duty::Cruise => (
            [ambient - 3.0, ambient - 1.0, ambient - 0.3],
            [6.0, 10.0, 15.0],
            [35.0, 45.0, 60.0],
            [0.03, 0.04, 0.07],
            [325.0, 340.0, 360.0],
            [0.18, 0.23, 0.30],
        ),
        Duty::Hill => (
            [ambient - 3.0, ambient - 1.5, ambient - 0.5],
            [8.0, 12.0, 17.0],
            [50.0, 60.0, 75.0],
            [0.02, 0.04, 0.06],
            [325.0, 340.0, 360.0],
            [0.14, 0.20, 0.26],
        ),
        Duty::FullThrottle => (
            [ambient - 5.0, ambient - 3.8, ambient - 2.0],
            [9.0, 14.0, 19.0],
            [60.0, 75.0, 95.0],
            [0.02, 0.03, 0.05],
            [325.0, 340.0, 360.0],
            [0.12, 0.17, 0.23],
        ),
        Duty::Overrun => (
            [ambient - 4.0, ambient - 1.5, ambient - 0.5],
            [6.0, 10.0, 15.0],
            [35.0, 45.0, 60.0],
            [0.03, 0.05, 0.08],
            [320.0, 335.0, 355.0],
            [0.0, 0.0, 0.0],
        ),
    };
    Ok(Figures {
        manifold: three(manifold, 1e3),
        half_burnt: three(half, DEGREE),
        burn_duration: three(duration, DEGREE),
        residual: three(residual, 1.0),
        charge_temperature: three(charge, 1.0),
        wall_heat: three(wall, 1.0),
        ..petrol
    })
}

impl Cycle {
    /// The values to expect of a diesel at a duty. `air_fuel` is a light load's: put in what the power asks for.
    #[must_use]
    pub fn diesel(duty: Duty) -> Self {
        Self {
            ram: defaults::diesel_ram().likely(),
            air_fuel: defaults::diesel_air_fuel().likely(),
            heating_value: defaults::diesel_heating_value().likely(),
            combustion: defaults::diesel_combustion().likely(),
            injection: Some(Injection {
                premixed: premixed_share(duty).likely(),
                premixed_duration: defaults::premixed_duration().likely(),
            }),
            ..Self::default()
        }
    }
}

/// The figures of every duty are in order; a test asks.
#[cfg(test)]
pub(super) fn soundness(ambient: AbsolutePressure) -> bool {
    let ordered = |e: [f64; 3]| e.is_sorted();
    Duty::ALL.into_iter().all(|duty| {
        let found = diesel_figures(duty, ambient).unwrap();
        let ends = |low: f64, likely: f64, high: f64| ordered([low, likely, high]);
        let crate::quantity::Estimate { low, likely, high } = found.manifold;
        premixed_share(duty).is_sound()
            && found.likely().check().is_ok()
            && Cycle::diesel(duty).check().is_ok()
            && ends(low.base(), likely.base(), high.base())
            && high < ambient
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_burnt_is_the_integral_of_the_rate() {
        for (premixed, early, late) in [(0.5, 7.0, 35.0), (0.08, 7.0, 75.0), (0.0, 5.0, 20.0), (1.0, 9.0, 40.0)] {
            let injection =
                Injection { premixed: Ratio::from_base(premixed), premixed_duration: Angle::from_base(early * DEGREE) };
            let stages = injection.stages(late);
            let half = stages.half().unwrap();
            let step = half / 10_000.0;
            let sum: f64 = (0..10_000).map(|i| step * stages.rate((f64::from(i) + 0.5) * step)).sum();
            assert!((sum - 0.5).abs() < 1e-7, "{premixed} {early} {late}: {sum}");
        }
    }
}
