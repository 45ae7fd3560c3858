//! What a coolant is made of, and how its share is counted.

/// What is dissolved in the water of a coolant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Base {
    /// Nothing: plain water.
    Water,
    /// Ethylene glycol (ethane-1,2-diol). Poisonous.
    EthyleneGlycol,
    /// Propylene glycol (propane-1,2-diol).
    PropyleneGlycol,
}

impl Base {
    /// Every base.
    pub const ALL: [Self; 3] = [Self::Water, Self::EthyleneGlycol, Self::PropyleneGlycol];

    /// The word a file uses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::EthyleneGlycol => "ethylene-glycol",
            Self::PropyleneGlycol => "propylene-glycol",
        }
    }

    /// The name a person reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::EthyleneGlycol => "ethylene glycol",
            Self::PropyleneGlycol => "propylene glycol",
        }
    }
}

/// How the share of glycol is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Mass of glycol over mass of the mix.
    ByMass,
    /// Volume of glycol over the sum of both volumes, measured at 20 °C before mixing.
    ByVolume,
}

impl Basis {
    /// Both ways.
    pub const ALL: [Self; 2] = [Self::ByMass, Self::ByVolume];

    /// The word a file uses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::ByMass => "by-mass",
            Self::ByVolume => "by-volume",
        }
    }

    /// The words a person reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ByMass => "by mass",
            Self::ByVolume => "by volume",
        }
    }
}
