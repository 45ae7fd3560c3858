//! What the cooling system is made of: the volume, the material and the hot temperature of each part.

use super::defaults;
use super::{CoolantError, defaults as usual};
use crate::quantity::si::{Length, Ratio, TemperatureCoefficient, ThermodynamicTemperature, Volume};
use crate::quantity::{Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::Assumed;
use crate::source::coolant::{FILL_SHARES, GEOMETRY};
use std::f64::consts::PI;

pub(super) const PART_VOLUME: Range = Range::new(
    "volume of a part of the cooling system",
    Kind::Volume,
    0.0,
    0.2,
    "write the coolant it holds; a whole car holds 4 to 30 L",
);
const FILL: Range =
    Range::new("fill of the cooling system", Kind::Volume, 0.5e-3, 0.2, "a whole car holds 4 to 30 L of coolant");
pub(super) const SHARE: Range =
    Range::new("share of the fill", Kind::Share, 0.0, 1.0, "write a share between 0 % and 100 %");
const BORE: Range = Range::new("bore of a coolant hose", Kind::Length, 2e-3, 0.12, "measure the inside, 6 to 50 mm");
const RUN: Range = Range::new("length of a coolant hose", Kind::Distance, 0.0, 30.0, "measure along the hose");

/// What a part is made of; how much its hollow grows with heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Material {
    GreyIron,
    CastAluminium,
    Copper,
    Brass,
    /// Rubber hose: counted without growth by heat, but swells under pressure. Plastic tanks may be counted so too.
    Hose,
}

impl Material {
    /// Linear expansion with heat, 1/K; `None` for hose.
    #[must_use]
    pub fn expansion(self) -> Option<Assumed<TemperatureCoefficient>> {
        match self {
            Self::GreyIron => Some(usual::grey_iron_expansion()),
            Self::CastAluminium => Some(usual::cast_aluminium_expansion()),
            Self::Copper => Some(usual::copper_expansion()),
            Self::Brass => Some(usual::brass_expansion()),
            Self::Hose => None,
        }
    }

    /// Whether the part swells under pressure.
    #[must_use]
    pub const fn swells(self) -> bool {
        matches!(self, Self::Hose)
    }
}

/// One part of the cooling system at one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// What it is called: "radiator".
    pub name: String,
    /// What it holds when cold.
    pub volume: Estimate<Volume>,
    /// What it is made of.
    pub material: Material,
    /// Linear expansion of its hollow, 1/K.
    pub expansion: Estimate<TemperatureCoefficient>,
    /// Mean temperature of the coolant in it when hot.
    pub hot: ThermodynamicTemperature,
}

impl Region {
    /// A part with the usual expansion of its material.
    #[must_use]
    pub fn new(name: &str, volume: Estimate<Volume>, material: Material, hot: ThermodynamicTemperature) -> Self {
        let none = Estimate::exact(TemperatureCoefficient::from_base(0.0));
        let expansion = material.expansion().map_or(none, |assumed| assumed.estimate);
        Self { name: name.to_owned(), volume, material, expansion, hot }
    }
}

/// Doubt of how the fill is shared: one part may hold this much more or less of the whole, the others sharing the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct ShareDoubt {
    /// The part.
    pub region: String,
    /// The share of the whole fill that may belong to it or not.
    pub by: Ratio,
}

/// All parts of a cooling system.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// The parts.
    pub regions: Vec<Region>,
    /// The whole fill may be this much of the parts' likely sum.
    pub scale: Estimate<Ratio>,
    /// Doubt of the shares, when the parts come from shares.
    pub share_doubt: Option<ShareDoubt>,
}

impl Circuit {
    /// Parts known one by one.
    #[must_use]
    pub fn of(regions: Vec<Region>) -> Self {
        Self { regions, scale: Estimate::exact(Ratio::from_base(1.0)), share_doubt: None }
    }

    /// The likely volume of all parts.
    #[must_use]
    pub fn total(&self) -> Volume {
        let sum: f64 = self.regions.iter().map(|region| region.volume.likely.base()).sum();
        Volume::from_base(sum * self.scale.likely.base())
    }

    /// The same circuit with one more part, such as a header tank.
    #[must_use]
    pub fn and(mut self, region: Region) -> Self {
        self.regions.push(region);
        self
    }
}

/// Mean temperatures of the parts when the engine is hot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotTemperatures {
    /// Coolant in block and heads.
    pub engine: ThermodynamicTemperature,
    /// Mean of the radiator.
    pub radiator: ThermodynamicTemperature,
    /// Heater core.
    pub heater: ThermodynamicTemperature,
    /// Hoses.
    pub hoses: ThermodynamicTemperature,
}

impl HotTemperatures {
    /// From the engine's outlet, with the usual steps down to the other parts.
    #[must_use]
    pub fn from_engine(outlet: ThermodynamicTemperature) -> Self {
        let below = |step: f64| ThermodynamicTemperature::from_base(outlet.base() - step);
        let aside = below(defaults::heater_below_engine().likely().base());
        Self {
            engine: outlet,
            radiator: below(defaults::radiator_below_engine().likely().base()),
            heater: aside,
            hoses: aside,
        }
    }
}

/// How a measured fill divides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    /// Block and heads.
    pub engine: Estimate<Ratio>,
    /// Radiator.
    pub radiator: Estimate<Ratio>,
    /// Heater core and hoses, counted as hose: they swell and do not grow.
    pub heater_and_hoses: Estimate<Ratio>,
}

impl Default for Shares {
    fn default() -> Self {
        Self {
            engine: defaults::engine_share().estimate,
            radiator: defaults::radiator_share().estimate,
            heater_and_hoses: defaults::heater_and_hose_share().estimate,
        }
    }
}

/// A part of known volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// What it holds.
    pub volume: Estimate<Volume>,
    /// What it is made of.
    pub material: Material,
}

/// A run of hose: V = π/4 · bore² · length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoseRun {
    /// Inside diameter.
    pub bore: Length,
    /// Length.
    pub length: Length,
}

impl HoseRun {
    /// What the run holds.
    ///
    /// # Errors
    /// A bore outside 2 to 120 mm or a length outside 0 to 30 m.
    pub fn volume(&self) -> Result<Volume, CoolantError> {
        let bore = BORE.check(self.bore)?.base();
        Ok(Volume::from_base(PI / 4.0 * bore * bore * RUN.check(self.length)?.base()))
    }
}

/// What is known of the cooling system's volume.
#[derive(Clone, Debug, PartialEq)]
pub enum SystemVolume {
    /// One measured fill, shared out.
    Measured {
        /// The whole fill.
        total: Estimate<Volume>,
        /// How it divides.
        shares: Shares,
        /// Material of block and heads.
        engine: Material,
        /// Material of the radiator.
        radiator: Material,
    },
    /// Part by part.
    Built {
        /// Cylinder block.
        block: Part,
        /// Cylinder heads, all together.
        heads: Part,
        /// Radiator.
        radiator: Part,
        /// Heater core.
        heater: Part,
        /// Hoses.
        hoses: Vec<HoseRun>,
    },
}

impl SystemVolume {
    /// The parts at their hot temperatures.
    ///
    /// # Errors
    /// A volume or hose out of range, or shares that do not add up to one.
    pub fn circuit(&self, hot: &HotTemperatures, scribe: &mut impl Scribe) -> Result<Circuit, CoolantError> {
        match self {
            Self::Measured { total, shares, engine, radiator } => {
                measured(total, shares, *engine, *radiator, hot, scribe)
            }
            Self::Built { block, heads, radiator, heater, hoses } => {
                let mut regions = Vec::with_capacity(5);
                for (name, part, hot) in [
                    ("block", block, hot.engine),
                    ("heads", heads, hot.engine),
                    ("radiator", radiator, hot.radiator),
                    ("heater", heater, hot.heater),
                ] {
                    for volume in [part.volume.low, part.volume.likely, part.volume.high] {
                        PART_VOLUME.check(volume)?;
                    }
                    regions.push(Region::new(name, part.volume, part.material, hot));
                }
                let mut sum = 0.0;
                for run in hoses {
                    let volume = run.volume()?;
                    scribe.step(|| {
                        Step::new("volume of a hose", "V", "V = π/4 d² l", &GEOMETRY)
                            .with("d", run.bore)
                            .with("l", run.length)
                            .gives(volume)
                    });
                    sum += volume.base();
                }
                let volume = PART_VOLUME.check(Volume::from_base(sum))?;
                regions.push(Region::new("hoses", Estimate::exact(volume), Material::Hose, hot.hoses));
                let circuit = Circuit::of(regions);
                FILL.check(circuit.total())?;
                Ok(circuit)
            }
        }
    }
}

fn measured(
    total: &Estimate<Volume>,
    shares: &Shares,
    engine: Material,
    radiator: Material,
    hot: &HotTemperatures,
    scribe: &mut impl Scribe,
) -> Result<Circuit, CoolantError> {
    for volume in [total.low, total.likely, total.high] {
        FILL.check(volume)?;
    }
    let likely = total.likely.base();
    let parts = [
        ("engine", shares.engine, engine, hot.engine),
        ("radiator", shares.radiator, radiator, hot.radiator),
        ("heater and hoses", shares.heater_and_hoses, Material::Hose, hot.hoses),
    ];
    let mut regions = Vec::with_capacity(3);
    let mut sum = 0.0;
    for (name, share, material, hot) in parts {
        for value in [share.low, share.likely, share.high] {
            SHARE.check(value)?;
        }
        sum += share.likely.base();
        let volume = Volume::from_base(likely * share.likely.base());
        scribe.step(|| {
            Step::new("coolant in one part", "V_i", "V_i = s_i V", &FILL_SHARES)
                .with("s_i", share.likely)
                .with("V", total.likely)
                .gives(volume)
        });
        regions.push(Region::new(name, Estimate::exact(volume), material, hot));
    }
    if (sum - 1.0).abs() > 1e-3 {
        return Err(CoolantError::SharesNotOne { sum });
    }
    let by = 0.5 * (shares.engine.high.base() - shares.engine.low.base());
    let scale = |volume: Volume| Ratio::from_base(volume.base() / likely);
    Ok(Circuit {
        regions,
        scale: Estimate::sorted(scale(total.low), Ratio::from_base(1.0), scale(total.high)),
        share_doubt: (by > 0.0).then(|| ShareDoubt { region: "engine".to_owned(), by: Ratio::from_base(by) }),
    })
}
