//! What a crankcase pressure means: bands for idle and cruise, and for full throttle.

use super::defaults;
use crate::quantity::si::Pressure;
use crate::quantity::{GaugePressure, Kind, Measured, OutOfRange, Range};
use crate::source::Source;
use crate::source::crankcase::ventilation::PRESSURE_BANDS;

const BAND: Range = Range::new(
    "limit of a crankcase pressure band",
    Kind::CrankcasePressure,
    -5.0e4,
    5.0e4,
    "bands lie within a few kPa of the ambient air",
);

/// The state a band is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressureState {
    /// Idle, cruise, hill and overrun: the throttle is not open.
    PartLoad,
    /// Full throttle.
    FullThrottle,
}

/// On which side of the good band a pressure lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Below: air is drawn in past seals.
    Low,
    /// Above: oil is pushed out past seals.
    High,
}

/// What a pressure means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finding {
    /// Within the good band.
    Good,
    /// Outside it, not yet harmful.
    Watch(Side),
    /// To be mended.
    Act(Side),
    /// Stop the engine.
    Stop,
}

/// The limits of the bands of one state. A pressure on a limit belongs to the milder band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressureBands {
    /// Below this: act.
    pub act_below: GaugePressure,
    /// Below this: watch.
    pub watch_below: GaugePressure,
    /// Above this: watch.
    pub watch_above: GaugePressure,
    /// Above this: act.
    pub act_above: GaugePressure,
    /// Above this: stop.
    pub stop_above: GaugePressure,
}

impl PressureBands {
    /// The source of the default bands.
    pub const SOURCE: &'static Source = &PRESSURE_BANDS;

    /// The default bands of a state. At part load −1.5 to 0 kPa is good, to −3.5 and +0.5 kPa is watched; at full
    /// throttle −3.5 to +0.5 kPa is good, to +1.5 kPa is watched. Above +2.5 kPa the engine is stopped in any state.
    #[must_use]
    pub fn usual(state: PressureState) -> Self {
        let (load, light) = (defaults::limit_under_load().estimate, defaults::limit_at_light_load().estimate);
        let depression = defaults::limit_of_depression().estimate;
        let below = |depth: Pressure| GaugePressure::new(-depth);
        match state {
            PressureState::PartLoad => Self {
                act_below: below(depression.likely),
                watch_below: below(depression.low),
                watch_above: light.low,
                act_above: light.likely,
                stop_above: load.high,
            },
            PressureState::FullThrottle => Self {
                act_below: below(depression.likely),
                watch_below: below(depression.likely),
                watch_above: load.low,
                act_above: load.likely,
                stop_above: load.high,
            },
        }
    }

    /// Whether the limits are in order and within ±50 kPa.
    ///
    /// # Errors
    /// Naming the first limit that lies outside, or below the one before it.
    pub fn check(&self) -> Result<(), OutOfRange> {
        let mut range = BAND;
        for limit in [self.act_below, self.watch_below, self.watch_above, self.act_above, self.stop_above] {
            range.check(limit)?;
            range.low = limit.base();
        }
        Ok(())
    }

    /// What a pressure means by these bands.
    ///
    /// # Errors
    /// When the bands are not in order, or the pressure is not a number.
    pub fn judge(&self, pressure: GaugePressure) -> Result<Finding, OutOfRange> {
        self.check()?;
        let any = Range { low: -2.0e7, high: 2.0e7, what: "crankcase pressure", ..BAND };
        let pressure = any.check(pressure)?;
        Ok(if pressure > self.stop_above {
            Finding::Stop
        } else if pressure > self.act_above {
            Finding::Act(Side::High)
        } else if pressure > self.watch_above {
            Finding::Watch(Side::High)
        } else if pressure < self.act_below {
            Finding::Act(Side::Low)
        } else if pressure < self.watch_below {
            Finding::Watch(Side::Low)
        } else {
            Finding::Good
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_are_as_stated() {
        use Finding::{Act, Good, Stop, Watch};
        let judge = |state, pascals: f64| PressureBands::usual(state).judge(GaugePressure::from_base(pascals)).unwrap();
        let part = |pascals| judge(PressureState::PartLoad, pascals);
        assert_eq!(part(-1_500.0), Good);
        assert_eq!(part(0.0), Good);
        assert_eq!(part(1.0), Watch(Side::High));
        assert_eq!(part(501.0), Act(Side::High));
        assert_eq!(part(-1_501.0), Watch(Side::Low));
        assert_eq!(part(-3_501.0), Act(Side::Low));
        let full = |pascals| judge(PressureState::FullThrottle, pascals);
        assert_eq!(full(-3_500.0), Good);
        assert_eq!(full(500.0), Good);
        assert_eq!(full(1_500.0), Watch(Side::High));
        assert_eq!(full(1_501.0), Act(Side::High));
        assert_eq!(full(2_501.0), Stop);
    }

    #[test]
    fn edited_bands_must_stay_in_order() {
        let mut bands = PressureBands::usual(PressureState::PartLoad);
        bands.act_above = GaugePressure::from_base(-100.0);
        assert!(bands.judge(GaugePressure::from_base(0.0)).is_err());
        let bands = PressureBands::usual(PressureState::PartLoad);
        assert!(bands.judge(GaugePressure::from_base(f64::NAN)).is_err());
    }
}
