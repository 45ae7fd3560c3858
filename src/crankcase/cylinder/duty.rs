//! The duty points: the states of driving everything is judged at.

/// A state of driving.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Duty {
    /// Standing, engine idling, throttle nearly shut.
    Idle,
    /// Steady on the level.
    Cruise,
    /// A long climb.
    Hill,
    /// Wide open.
    FullThrottle,
    /// Throttle shut, the car drives the engine, no burning.
    Overrun,
}

impl Duty {
    /// All of them, from light to heavy, overrun last.
    pub const ALL: [Self; 5] = [Self::Idle, Self::Cruise, Self::Hill, Self::FullThrottle, Self::Overrun];

    /// Its place in that order.
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Its word in files and JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Idle => "idle",
            Self::Cruise => "cruise",
            Self::Hill => "hill",
            Self::FullThrottle => "full_throttle",
            Self::Overrun => "overrun",
        }
    }

    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Idle => "Idle",
            Self::Cruise => "Cruise",
            Self::Hill => "Hill",
            Self::FullThrottle => "Full throttle",
            Self::Overrun => "Overrun",
        }
    }

    /// Whether the engine pulls hard, so that the limit under load applies.
    #[must_use]
    pub const fn under_load(self) -> bool {
        matches!(self, Self::Hill | Self::FullThrottle)
    }
}
