//! Words for the parts, for messages and for the drawing.

use super::parts::{Arrangement, GasSource, Line, Piece, Place};

impl Arrangement {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::BreatherOnly => "one breather",
            Self::BreatherWithValve => "a breather with a PCV valve",
            Self::ClosedWithFreshAirLine => "a closed system with a fresh-air line",
            Self::TwoBreathers => "two breathers",
            Self::LineToAirCleaner => "a line to the air cleaner",
        }
    }
}

impl GasSource {
    /// The place in words.
    #[must_use]
    pub const fn place(self) -> &'static str {
        match self {
            Self::Cover => "the cover",
            Self::Valley => "the valley",
            Self::Sump => "the sump",
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
            Self::CrossOver => "cross-over hose",
        }
    }
}

impl Piece {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Baffle => "baffle",
            Self::Mesh => "mesh",
            Self::Barb => "barb",
            Self::Sag => "liquid in the sag",
            Self::Component => "component",
            Self::Check => "check valve",
            Self::CanMesh => "mesh in the catch can",
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
            Self::TakenFrom(source) => return source.place().trim_start_matches("the ").to_owned(),
            Self::Can => "catch can",
            Self::SecondCan => "second catch can",
            Self::Manifold => "manifold",
            Self::AirCleaner => "air cleaner",
            Self::Atmosphere => "ambient air",
            Self::Behind(line, piece) => return format!("behind the {} of the {}", piece.name(), line.name()),
        };
        plain.to_owned()
    }
}
