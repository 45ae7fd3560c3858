//! Words for the parts, for messages and for the drawing.

use super::parts::{Arrangement, Line, Piece, Place};

impl Arrangement {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::BreatherOnly => "one breather",
            Self::BreatherWithValve => "a breather with a PCV valve",
            Self::ClosedWithFreshAirLine => "a closed system with a fresh-air line",
            Self::TwoBreathers => "two breathers",
        }
    }
}

impl Line {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Breather => "breather",
            Self::SecondBreather => "second breather",
            Self::FreshAir => "fresh-air line",
            Self::Valve => "PCV valve line",
            Self::CanVent => "catch can's opening",
        }
    }
}

impl Piece {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Baffle => "baffle",
            Self::Barb => "barb",
            Self::Hose => "hose",
            Self::CanOutlet => "hose from the catch can",
            Self::CanOpening => "opening of the catch can",
            Self::Element => "filter",
            Self::Valve => "PCV valve",
            Self::Port => "manifold port",
        }
    }
}

impl Place {
    /// In words.
    #[must_use]
    pub fn name(self) -> String {
        let plain = match self {
            Self::Crankcase => "crankcase",
            Self::BreatherCover => "cover of the breather",
            Self::SecondCover => "second cover",
            Self::Can => "catch can",
            Self::Manifold => "manifold",
            Self::AirCleaner => "air cleaner",
            Self::Atmosphere => "ambient air",
            Self::Behind(line, piece) => return format!("behind the {} of the {}", piece.name(), line.name()),
        };
        plain.to_owned()
    }
}
