//! Where the oil's temperature settles, and what an oil cooler does to the coolant.
//!
//! The coolant's share of the engine's heat already holds what the oil gives to the block of an engine without an oil
//! cooler, for it was found on such engines. A cooler changes the coolant by the difference alone.

use super::{Balance, Beside, HeatError, Outcome, oil_defaults};
use crate::quantity::si::{MassDensity, Power, ThermalConductance, ThermodynamicTemperature, Velocity};
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::engine_oil as source;

/// Road speed at which the sump's conductance in the wind is stated: 90 km/h, in m/s.
const STATED_AT: f64 = 25.0;
/// Air speed at the face at which a cooler's conductance is stated, m/s.
const COOLER_AT: f64 = 5.0;
/// Temperatures within this of a thermostat's count as on either side of it, K.
const SAME: f64 = 1e-6;

/// Density of the air over that of [`super::defaults::reference_air_density`]: it is the air's mass that cools.
fn thinner(air: MassDensity) -> Result<f64, HeatError> {
    let reference = super::defaults::reference_air_density();
    Ok(oil_defaults::AIR.check(air)?.base() / reference.likely().base())
}

/// The sump's way to the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SumpToAir {
    /// Conductance with the car standing.
    pub still: Estimate<ThermalConductance>,
    /// What the wind adds at 90 km/h.
    pub driving: Estimate<ThermalConductance>,
}

impl SumpToAir {
    /// At a road speed in air of a density: G = G_still + G_90·(ρ·v/(ρ₀·90 km/h))^0.8, with ρ₀ the density the radiator's
    /// class is stated for too.
    ///
    /// # Errors
    /// A figure out of range.
    pub fn at(&self, speed: Velocity, air: MassDensity) -> Result<Estimate<ThermalConductance>, HeatError> {
        oil_defaults::SUMP.check_estimate::<_, HeatError>(&self.still)?;
        oil_defaults::SUMP.check_estimate::<_, HeatError>(&self.driving)?;
        let speed = super::airflow::ROAD_SPEED.check(speed)?.base();
        let wind = (thinner(air)? * speed / STATED_AT).powf(0.8);
        let with = |still: ThermalConductance, driving: ThermalConductance| {
            ThermalConductance::from_base(still.base() + driving.base() * wind)
        };
        Ok(Estimate {
            low: with(self.still.low, self.driving.low),
            likely: with(self.still.likely, self.driving.likely),
            high: with(self.still.high, self.driving.high),
        })
    }
}

/// An oil cooler.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OilCooler {
    /// None.
    None,
    /// To the air.
    ToAir {
        /// Heat for each kelvin between oil and air, at the air's speed at its face; see [`OilCooler::in_air`].
        conductance: Estimate<ThermalConductance>,
        /// Where its thermostat opens; none that is always open.
        opens: Option<ThermodynamicTemperature>,
    },
    /// To the coolant, by a plate or tube cooler.
    ToCoolant {
        /// Heat for each kelvin between oil and coolant.
        conductance: Estimate<ThermalConductance>,
    },
}

impl OilCooler {
    /// A cooler to the air whose conductance is stated at 5 m/s of air at its face: G = G₅·(ρ·v/(ρ₀·5 m/s))^0.5.
    ///
    /// # Errors
    /// A figure out of range.
    pub fn in_air(
        stated: &Estimate<ThermalConductance>,
        face: Velocity,
        air: MassDensity,
        opens: Option<ThermodynamicTemperature>,
    ) -> Result<Self, HeatError> {
        oil_defaults::COOLER.check_estimate::<_, HeatError>(stated)?;
        let face = super::radiator::FACE_VELOCITY.check(face)?.base();
        let wind = (thinner(air)? * face / COOLER_AT).sqrt();
        Ok(Self::ToAir { conductance: stated.map(|g| ThermalConductance::from_base(g.base() * wind)), opens })
    }
}

/// What decides the oil's temperature beside the coolant's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilBalance {
    /// Heat to the oil.
    pub heat: Estimate<Power>,
    /// Conductance between oil and block, which is as warm as its coolant.
    pub block: Estimate<ThermalConductance>,
    /// Conductance from the sump to the air at this road speed.
    pub sump: Estimate<ThermalConductance>,
    /// The cooler.
    pub cooler: OilCooler,
    /// The air.
    pub ambient: ThermodynamicTemperature,
}

/// Where the oil settles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilState {
    /// Oil in the sump.
    pub temperature: Estimate<ThermodynamicTemperature>,
    /// Heat it gives to the block, below zero when the block warms it.
    pub to_block: Power,
    /// Heat it gives to the air by the sump.
    pub to_air: Power,
    /// Heat it gives to the cooler.
    pub to_cooler: Power,
    /// What the cooler's thermostat does; a cooler without one is always wide open.
    pub regime: Regime,
}

/// What the thermostat of an oil cooler does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Regime {
    /// No cooler, or its thermostat shut.
    Shut,
    /// Wide open.
    Open,
    /// It holds its own temperature.
    Holds,
}

/// One case in plain numbers: W, W/K, K.
#[derive(Clone, Copy)]
struct Case {
    heat: f64,
    block: f64,
    sump: f64,
    cooler: f64,
    /// Whether the cooler gives its heat to the coolant.
    to_coolant: bool,
    opens: Option<f64>,
    coolant: f64,
    ambient: f64,
}

impl Case {
    /// Oil temperature without the cooler, K.
    fn shut(&self) -> f64 {
        (self.heat + self.block * self.coolant + self.sump * self.ambient) / (self.block + self.sump)
    }

    /// With the cooler wide open, K.
    fn open(&self) -> f64 {
        let sink = if self.to_coolant { self.coolant } else { self.ambient };
        let gained = self.heat + self.block * self.coolant + self.sump * self.ambient + self.cooler * sink;
        gained / (self.block + self.sump + self.cooler)
    }

    /// Oil temperature, K, and what the thermostat does.
    fn settle(&self) -> (f64, Regime) {
        if self.cooler == 0.0 {
            return (self.shut(), Regime::Shut);
        }
        let (shut, open) = (self.shut(), self.open());
        match self.opens {
            None => (open, Regime::Open),
            Some(opens) if shut <= opens => (shut, Regime::Shut),
            Some(opens) if open >= opens => (open, Regime::Open),
            Some(opens) => (opens, Regime::Holds),
        }
    }
}

impl OilBalance {
    fn check(&self) -> Result<(), HeatError> {
        oil_defaults::HEAT.check_estimate::<_, HeatError>(&self.heat)?;
        oil_defaults::BLOCK.check_estimate::<_, HeatError>(&self.block)?;
        oil_defaults::SUMP_AT_SPEED.check_estimate::<_, HeatError>(&self.sump)?;
        super::balance::AMBIENT_TEMPERATURE.check(self.ambient)?;
        let (conductance, opens) = match &self.cooler {
            OilCooler::None => return Ok(()),
            OilCooler::ToAir { conductance, opens } => (conductance, *opens),
            OilCooler::ToCoolant { conductance } => (conductance, None),
        };
        oil_defaults::COOLER.check_estimate::<_, HeatError>(conductance)?;
        if let Some(opens) = opens {
            oil_defaults::oil_thermostat().check(opens)?;
        }
        Ok(())
    }

    fn case(&self, coolant: f64) -> Case {
        let (cooler, to_coolant, opens) = match &self.cooler {
            OilCooler::None => (0.0, false, None),
            OilCooler::ToAir { conductance, opens } => {
                (conductance.likely.base(), false, opens.map(|opens| opens.base()))
            }
            OilCooler::ToCoolant { conductance } => (conductance.likely.base(), true, None),
        };
        Case {
            heat: self.heat.likely.base(),
            block: self.block.likely.base(),
            sump: self.sump.likely.base(),
            cooler,
            to_coolant,
            opens,
            coolant,
            ambient: self.ambient.base(),
        }
    }

    /// Where the oil settles: Q_oil = G_b·(T − t) + G_s·(T − t_a) + the cooler's heat, in the temperature T of the oil, with
    /// the coolant at t. A cooler's thermostat holds its own temperature exactly as long as the cooler can; the few kelvin it
    /// takes to open are not reckoned. The spreads of heat and conductances join as the root of the sum of squares.
    ///
    /// # Errors
    /// A figure or a temperature out of range.
    pub fn at(&self, coolant: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<OilState, HeatError> {
        self.check()?;
        let coolant = oil_defaults::COOLANT.check(coolant)?;
        let case = self.case(coolant.base());
        let (likely, regime) = case.settle();
        let (mut up, mut down) = (0.0_f64, 0.0_f64);
        let mut ends = |low: Case, high: Case| {
            for changed in [low, high] {
                let apart = changed.settle().0 - likely;
                if apart > 0.0 {
                    up = up.hypot(apart);
                } else {
                    down = down.hypot(apart);
                }
            }
        };
        ends(Case { heat: self.heat.low.base(), ..case }, Case { heat: self.heat.high.base(), ..case });
        ends(Case { block: self.block.low.base(), ..case }, Case { block: self.block.high.base(), ..case });
        ends(Case { sump: self.sump.low.base(), ..case }, Case { sump: self.sump.high.base(), ..case });
        if let OilCooler::ToAir { conductance, .. } | OilCooler::ToCoolant { conductance } = &self.cooler {
            ends(Case { cooler: conductance.low.base(), ..case }, Case { cooler: conductance.high.base(), ..case });
        }
        let kelvin = ThermodynamicTemperature::from_base;
        let temperature = Estimate::sorted(kelvin(likely - down), kelvin(likely), kelvin(likely + up));
        let power = Power::from_base;
        let (to_block, to_air) = (case.block * (likely - case.coolant), case.sump * (likely - case.ambient));
        let to_cooler = if regime == Regime::Shut { 0.0 } else { case.heat - to_block - to_air };
        scribe.step(|| {
            let equation = "Q_oil = G_b·(T − t) + G_s·(T − t_a) + Q_cooler";
            let mut step = Step::new("Temperature of the oil", "T", equation, &source::OIL_EXCHANGE)
                .with("Q_oil", self.heat.likely)
                .with("G_b", self.block.likely)
                .with("t", coolant)
                .with("G_s", self.sump.likely)
                .with("t_a", self.ambient);
            if self.cooler != OilCooler::None {
                step = step.with("Q_cooler", power(to_cooler));
            }
            step.gives(temperature.likely)
        });
        Ok(OilState {
            temperature,
            to_block: power(to_block),
            to_air: power(to_air),
            to_cooler: power(to_cooler),
            regime,
        })
    }

    /// What the cooler adds to the coolant's heat, as a line in the coolant's temperature, while its thermostat does this:
    /// the oil's heat to block and coolant with the cooler, less that without.
    fn beside(&self, regime: Regime) -> Beside {
        let case = self.case(self.ambient.base());
        let Case { heat, block, sump, cooler, ambient, .. } = case;
        // With the coolant at ambient temperature, and by how much it falls with each kelvin more.
        let (at_ambient, falls) = match regime {
            Regime::Shut => (0.0, 0.0),
            Regime::Open => {
                let all = block + sump + cooler;
                let (into, air) = if case.to_coolant { (block + cooler, sump) } else { (block, sump + cooler) };
                (heat * (into / all - block / (block + sump)), into * air / all - block * sump / (block + sump))
            }
            Regime::Holds => {
                let opens = case.opens.unwrap_or(ambient);
                let held = block * (opens - ambient);
                (held - heat * block / (block + sump), block * block / (block + sump))
            }
        };
        Beside { at_ambient: Power::from_base(at_ambient), conductance: ThermalConductance::from_base(falls.max(0.0)) }
    }

    /// Whether the thermostat does this with the coolant at a temperature in K.
    fn does(&self, regime: Regime, coolant: f64) -> bool {
        let case = self.case(coolant);
        match (case.opens, regime) {
            _ if case.cooler == 0.0 => regime == Regime::Shut,
            (None, _) => regime == Regime::Open,
            (Some(opens), Regime::Shut) => case.shut() <= opens + SAME,
            (Some(opens), Regime::Open) => case.open() >= opens - SAME,
            (Some(opens), Regime::Holds) => case.shut() >= opens - SAME && case.open() <= opens + SAME,
        }
    }

    /// What the cooler adds to the coolant's heat with the coolant at a temperature, by the line that holds there.
    ///
    /// # Errors
    /// A figure or the temperature out of range.
    pub fn beside_at(&self, coolant: ThermodynamicTemperature) -> Result<Beside, HeatError> {
        self.check()?;
        let coolant = oil_defaults::COOLANT.check(coolant)?;
        Ok(self.beside(self.case(coolant.base()).settle().1))
    }

    /// Solves the coolant's balance together with the oil's.
    ///
    /// In each state of the cooler's thermostat the oil's part is a line in the coolant's temperature, so that the balance
    /// stays what it is; the heat it brings falls with that temperature, so that just one state goes with its own answer.
    /// At most three balances are solved, and none is iterated.
    ///
    /// # Errors
    /// As [`Balance::solve`]; a figure of the oil out of range.
    pub fn settle(&self, balance: &Balance, scribe: &mut impl Scribe) -> Result<Outcome, HeatError> {
        let (beside, _) = self.joint(balance, |balance| balance.solve(&mut Silent))?;
        beside.in_balance(balance).solve(scribe)
    }

    /// What the cooler adds to the coolant's heat where both balances hold, and what its thermostat does there; `solve`
    /// solves the coolant's balance, with the switch of its fan if it has one.
    ///
    /// # Errors
    /// As [`OilBalance::settle`].
    pub fn joint(
        &self,
        balance: &Balance,
        solve: impl Fn(&Balance) -> Result<Outcome, HeatError>,
    ) -> Result<(Beside, Regime), HeatError> {
        self.check()?;
        let regimes: &[Regime] = match &self.cooler {
            _ if self.case(self.ambient.base()).cooler == 0.0 => &[Regime::Shut],
            OilCooler::ToAir { opens: Some(_), .. } => &[Regime::Shut, Regime::Open, Regime::Holds],
            _ => &[Regime::Open],
        };
        let mut last = (Beside::nothing(), Regime::Shut);
        for regime in regimes {
            last = (self.beside(*regime), *regime);
            if regimes.len() == 1 {
                break;
            }
            let coolant = match solve(&last.0.in_balance(balance))? {
                Outcome::Steady(state) => state.outlet_temperature,
                Outcome::None(none) => none.limit,
            };
            if self.does(*regime, coolant.base()) {
                break;
            }
        }
        Ok(last)
    }
}
