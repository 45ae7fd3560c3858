//! How sure the expelled volume is: every uncertain input moved alone, the changes ranked and added as root of squares.

use super::balance::{Balance, Twist};
use super::{CoolantError, FilledSystem, SystemState, defaults};
use crate::fluid::{Base, Basis, Mix};
use crate::note::{Note, Weight};
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::ERROR_SUM;

pub(super) const HOT_DOUBT: Range = Range::new(
    "doubt of the hot temperatures",
    Kind::TemperatureDifference,
    0.0,
    60.0,
    "write how far they may be off either way, such as 5 K",
);
pub(super) const SHARE_DOUBT: Range =
    Range::new("doubt of a share", Kind::Share, 0.0, 0.5, "write how far it may be off either way, such as 3 %");
const GROWTH: Range = Range::new(
    "growth by the second density set",
    Kind::Share,
    0.5,
    1.5,
    "write it as a share of the first set's growth, such as 90 %",
);

/// How well the inputs outside the [`FilledSystem`]'s own ranges are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// Either way on every hot temperature.
    pub hot: TemperatureInterval,
    /// Either way on the glycol mass fraction.
    pub mass_fraction: Ratio,
    /// Growth by the second density set as a share of the first.
    pub second_growth: Ratio,
    /// Either way on the growth of propylene glycol above 100 °C.
    pub above_100: Ratio,
    /// The coolant in the tank.
    pub tank_temperature: Estimate<ThermodynamicTemperature>,
}

impl Doubt {
    /// The usual doubt for a coolant.
    #[must_use]
    pub fn usual(mix: &Mix) -> Self {
        Self {
            hot: defaults::hot_doubt().likely(),
            mass_fraction: if mix.base() == Base::Water {
                Ratio::from_base(0.0)
            } else {
                defaults::mix_doubt().likely()
            },
            second_growth: mix.expansion_second_set(),
            above_100: defaults::propylene_above_100().likely(),
            tank_temperature: defaults::tank_temperature().estimate,
        }
    }
}

/// What one uncertain input does to the expelled volume.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// The input in words.
    pub name: &'static str,
    /// The change that makes it least, zero or below.
    pub low: Volume,
    /// The change that makes it most, zero or above.
    pub high: Volume,
}

/// The coolant that goes to the tank, and how sure that is.
#[derive(Clone, Debug, PartialEq)]
pub struct Growth {
    /// Volume in the tank at the tank's temperature.
    pub volume: Estimate<Volume>,
    /// The likely state of the hot system.
    pub state: SystemState,
    /// Every uncertain input, the one that matters most first.
    pub contributions: Vec<Contribution>,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

impl FilledSystem {
    /// The coolant expelled when hot, as a volume in the tank, with its range.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`] for the likely inputs. A moved input that has no answer (it boils, or leaves the
    /// coolant's range) is named in a note and leaves its side of the range out.
    pub fn growth(
        &self,
        limit: &Estimate<AbsolutePressure>,
        doubt: &Doubt,
        scribe: &mut impl Scribe,
    ) -> Result<Growth, CoolantError> {
        let hot_doubt = HOT_DOUBT.check(doubt.hot)?.base();
        let mix_doubt = SHARE_DOUBT.check(doubt.mass_fraction)?.base();
        let above_100 = SHARE_DOUBT.check(doubt.above_100)?.base();
        let second = GROWTH.check(doubt.second_growth)?.base();
        let state = self.settle_hot(limit.likely, scribe)?;
        let likely = self.in_tank(state.expelled, doubt.tank_temperature.likely, scribe)?;

        let temperatures = self.hot_temperatures();
        let none = Twist::none(self);
        let tank = doubt.tank_temperature.likely;
        let volume = |twist: &Twist, limit: AbsolutePressure, tank: ThermodynamicTemperature| {
            let balance = Balance::new(self, &temperatures, twist, &mut Silent)?;
            let state = balance.settle(None, limit.base(), &mut Silent)?;
            let density = twist.mix.density(tank, &mut Silent)?.base();
            Ok(state.expelled.base() / density)
        };
        let mut ledger = Ledger { likely: likely.base(), contributions: Vec::new(), notes: Vec::new() };
        let twisted = |twist: Twist| volume(&twist, limit.likely, tank);

        ledger
            .take("hot temperatures", [-hot_doubt, hot_doubt].map(|by| twisted(Twist { hotter: by, ..none.clone() })));
        ledger.take("density set of the coolant", [twisted(Twist { growth: second, ..none.clone() })]);
        if self.mix.base() == Base::PropyleneGlycol {
            let moved = [-above_100, above_100].map(|by| twisted(Twist { above_100: by, ..none.clone() }));
            ledger.take("growth above 100 °C", moved);
        }
        if self.mix.base() != Base::Water {
            let moved = [-mix_doubt, mix_doubt].map(|by| {
                let share = Ratio::from_base(self.mix.mass_share().base() + by);
                twisted(Twist { mix: Mix::new(self.mix.base(), share, Basis::ByMass)?, ..none.clone() })
            });
            ledger.take("strength of the mixture", moved);
        }
        let swells = [self.swell.low, self.swell.high];
        ledger.take("swell of the hoses", swells.map(|by| twisted(Twist { swell: by.base(), ..none.clone() })));
        let gases = [self.trapped_gas.low, self.trapped_gas.high];
        ledger.take("gas left in the system", gases.map(|by| twisted(Twist { gas: by.base(), ..none.clone() })));
        let regions = &self.circuit.regions;
        let low = regions.iter().map(|region| region.expansion.low.base()).collect();
        let high = regions.iter().map(|region| region.expansion.high.base()).collect();
        ledger.take("expansion of the metal", [low, high].map(|by| twisted(Twist { expansions: by, ..none.clone() })));
        let scales = [self.circuit.scale.low, self.circuit.scale.high];
        ledger.take(
            "volume of the system",
            scales.map(|scale| {
                let volumes = regions.iter().map(|region| region.volume.likely.base() * scale.base()).collect();
                twisted(Twist { volumes, ..none.clone() })
            }),
        );
        self.take_parts(&mut ledger, &none, &twisted);
        ledger.take("opening of the cap", [limit.low, limit.high].map(|limit| volume(&none, limit, tank)));
        let tanks = [doubt.tank_temperature.low, doubt.tank_temperature.high];
        ledger.take("temperature in the tank", tanks.map(|tank| volume(&none, limit.likely, tank)));

        let Ledger { mut contributions, notes, .. } = ledger;
        let size = |c: &Contribution| c.high.base().max(-c.low.base());
        contributions.sort_by(|a, b| size(b).total_cmp(&size(a)));
        let square_sum = |side: fn(&Contribution) -> Volume| {
            contributions.iter().map(|c| side(c).base().powi(2)).sum::<f64>().sqrt()
        };
        let (down, up) = (square_sum(|c| c.low), square_sum(|c| c.high));
        // Less than nothing is never expelled, whatever the root of squares says.
        let low = Volume::from_base((likely.base() - down).max(0.0));
        let high = Volume::from_base(likely.base() + up);
        scribe.step(|| {
            Step::new("most coolant to reckon with", "V_high", "V_high = V + √Σ ΔV_k²", &ERROR_SUM)
                .with("V", likely)
                .with_number("inputs moved", contributions.len() as f64)
                .gives(high)
        });
        scribe.step(|| {
            Step::new("least coolant to reckon with", "V_low", "V_low = V − √Σ ΔV_k²", &ERROR_SUM)
                .with("V", likely)
                .with_number("inputs moved", contributions.len() as f64)
                .gives(low)
        });
        Ok(Growth { volume: Estimate { low, likely, high }, state, contributions, notes })
    }

    /// Volumes known part by part, and the shares of a measured fill.
    fn take_parts(&self, ledger: &mut Ledger, none: &Twist, twisted: &impl Fn(Twist) -> Result<f64, CoolantError>) {
        let scale = self.circuit.scale.likely.base();
        for (number, region) in self.circuit.regions.iter().enumerate() {
            if region.volume.is_exact() {
                continue;
            }
            let moved = [region.volume.low, region.volume.high].map(|by| {
                let mut twist = none.clone();
                if let Some(volume) = twist.volumes.get_mut(number) {
                    *volume = by.base() * scale;
                }
                twisted(twist)
            });
            ledger.take("volume of one part", moved);
        }
        if let Some(doubt) = &self.circuit.share_doubt {
            let total: f64 = none.volumes.iter().sum();
            let moved = [-doubt.by.base(), doubt.by.base()].map(|by| {
                let mut twist = none.clone();
                let own: f64 = self.own_volume(none, &doubt.region);
                let moved = (own + by * total).clamp(0.0, total);
                for (region, volume) in self.circuit.regions.iter().zip(&mut twist.volumes) {
                    *volume *=
                        if region.name == doubt.region { ratio(moved, own) } else { ratio(total - moved, total - own) };
                }
                twisted(twist)
            });
            ledger.take("shares of the fill", moved);
        }
    }

    fn own_volume(&self, twist: &Twist, name: &str) -> f64 {
        let own = self.circuit.regions.iter().zip(&twist.volumes).filter(|(region, _)| region.name == name);
        own.map(|(_, volume)| volume).sum()
    }
}

/// A part that holds nothing stays empty.
fn ratio(new: f64, old: f64) -> f64 {
    if old > 0.0 { new / old } else { 1.0 }
}

/// Gathers the change each moved input makes.
struct Ledger {
    likely: f64,
    contributions: Vec<Contribution>,
    notes: Vec<Note>,
}

impl Ledger {
    fn take<const N: usize>(&mut self, name: &'static str, moved: [Result<f64, CoolantError>; N]) {
        let (mut low, mut high) = (0.0_f64, 0.0_f64);
        for result in moved {
            match result {
                Ok(volume) => {
                    low = low.min(volume - self.likely);
                    high = high.max(volume - self.likely);
                }
                Err(error) => self.notes.push(Note::new(
                    "range-incomplete",
                    Weight::Weak,
                    format!("the range leaves out one side of '{name}', which has no answer: {error}"),
                )),
            }
        }
        self.contributions.push(Contribution { name, low: Volume::from_base(low), high: Volume::from_base(high) });
    }
}
