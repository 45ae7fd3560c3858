//! A catch can: what collects in it, how long until it must be drained, and whether it freezes.

use super::OilError;
use super::defaults::{CanInside, alarm, can_reserve, density, in_order, least_can, water_density};
use super::droplet::Mist;
use super::passage::{GAS_FLOW, GasSpeed, Passage, one};
use crate::crankcase::moisture::{CRANKCASE_PRESSURE, VAPOUR, wall_saturation};
use crate::fluid::crankcase_gas;
use crate::note::{Note, Weight};
use crate::quantity::si::{
    Area, Length, Mass, MassRate, Ratio, ThermodynamicTemperature as Temperature, Velocity, Volume,
};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured, Range, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::moisture::{CAN_FIGURES, CONDENSATE};

/// Molar mass of water, kg/mol.
const WATER: f64 = 0.018_015;
/// The universal gas constant, J/(mol·K).
const UNIVERSAL: f64 = 8.314_462_618;
const THOUSAND_KM: f64 = 1e6;

/// Volumes of a can.
pub static CAN_VOLUME: Range =
    Range::new("volume of the catch can", Kind::SmallVolume, 1e-5, 0.05, "0.5 to 3 L, up to the outlet");
/// Mean speeds of a car.
pub static MEAN_SPEED: Range =
    Range::new("mean speed of the car", Kind::RoadSpeed, 1.0, 100.0, "about 60 km/h in mixed driving; idling counts");
/// Distances between looks at the can.
pub static SERVICE: Range = Range::new("distance between services", Kind::RoadDistance, 1e3, 1e8, "5000 to 15000 km");
/// Flows of oil to the can.
pub static OIL_FLOW: Range =
    Range::new("oil carried to the can", Kind::CarryOver, 0.0, 0.01, "0.5 to 5 g/h on the road; not negative");

/// Water that leaves a gas on a cold wall, `ṁ_w = (ṁ/M_g) (x − x_s)/(1 − x_s) M_w`, x_s saturated at the wall; nothing while
/// x is below it. Every molecule is taken to meet the wall: the most that can collect.
///
/// # Errors
/// A figure outside its range: flow 0 to 200 g/s, wall −65 to 150 °C, pressure 20 to 200 kPa.
pub fn condensate(
    flow: MassRate,
    vapour: Ratio,
    wall: Temperature,
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<MassRate, OilError> {
    let gas = GAS_FLOW.check(flow)?.base() * crankcase_gas::gas_constant().base() / UNIVERSAL;
    let x = VAPOUR.check(vapour)?.base();
    let p = CRANKCASE_PRESSURE.check(pressure)?.base();
    let saturated = wall_saturation(wall, scribe)?.base() / p;
    let water = if x > saturated { gas * (x - saturated) / (1.0 - saturated) * WATER } else { 0.0 };
    let water = MassRate::from_base(water);
    scribe.step(|| {
        let share = |x: f64| Amount::new(x, Kind::Share);
        let equation = "ṁ_w = max(0, ṁ·(R/8.3145)·(x − x_s)/(1 − x_s)·0.018015)";
        Step::new("water that settles in the can", "ṁ_w", equation, &CONDENSATE)
            .with("ṁ", flow)
            .with("R", crankcase_gas::gas_constant())
            .with_amount("x", share(x))
            .with_amount("x_s", share(saturated))
            .gives_amount(Amount::of_kind(water, Kind::CarryOver))
    });
    Ok(water)
}

/// Where a can's outlet leads, which decides what happens when it is full.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CanOutlet {
    /// To the manifold, by the valve.
    Manifold,
    /// To the engine's air cleaner.
    AirCleaner,
    /// To the open air.
    OpenAir,
}

impl CanOutlet {
    /// What happens when the can is full.
    #[must_use]
    pub const fn when_full(self) -> CanFinding {
        match self {
            Self::Manifold => CanFinding::FullToManifold,
            Self::AirCleaner => CanFinding::FullToAirCleaner,
            Self::OpenAir => CanFinding::FullToAir,
        }
    }
}

/// A catch can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CatchCan {
    /// Volume it holds up to the outlet.
    pub volume: Volume,
    /// Area that the gas has inside.
    pub area: Area,
    /// What is inside.
    pub inside: CanInside,
    /// Share of the oil that it catches below its limit of speed; default [`CanInside::caught`].
    pub caught: Estimate<Ratio>,
    /// Where its outlet leads.
    pub outlet: CanOutlet,
    /// Whether it drains back into the sump by itself.
    pub drains_to_sump: bool,
}

/// How a can is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CanUse {
    /// Oil that reaches it, from [`super::carry_over`].
    pub oil: Estimate<MassRate>,
    /// Gas that passes it.
    pub gas: Estimate<MassRate>,
    /// Water vapour in that gas, from [`crate::crankcase::moisture::WetGas::mixed`]; low is the dry end.
    pub vapour: Estimate<Ratio>,
    /// Temperature of the can's wall; low is the cold end.
    pub wall: Estimate<Temperature>,
    /// Temperature of the outside air when the car stands.
    pub coldest_air: Temperature,
    /// Pressure in the can.
    pub pressure: AbsolutePressure,
    /// Mean speed of the car, idling counted.
    pub mean_speed: Velocity,
    /// Distance between two looks at the can.
    pub service: Length,
}

/// What collects.
#[derive(Clone, Debug, PartialEq)]
pub struct Collected {
    /// Gas speed in the can against its limit.
    pub gas: GasSpeed,
    /// Oil in each hour of driving.
    pub oil: Estimate<MassRate>,
    /// Water in each hour of driving.
    pub water: Estimate<MassRate>,
    /// Oil in 1000 km.
    pub oil_per_thousand: Estimate<Mass>,
    /// Water in 1000 km.
    pub water_per_thousand: Estimate<Mass>,
    /// Volume of both in 1000 km.
    pub volume_per_thousand: Estimate<Volume>,
    /// Distance after which to drain the can; none where nothing collects. High belongs to the least that collects.
    pub drain_after: [Option<Length>; 3],
    /// Volume the can should hold.
    pub needed: Estimate<Volume>,
    /// What is to be said of it.
    pub findings: Vec<CanFinding>,
}

/// What is to be said of a can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CanFinding {
    /// It holds enough, also at the high end.
    LargeEnough,
    /// It holds enough at the likely figures only.
    TightAtHigh,
    /// It is too small for the distance between services.
    TooSmall,
    /// The gas in it is too fast for what is inside; it catches less.
    TooFast,
    /// Full, the manifold draws oil and water out of it.
    FullToManifold,
    /// Full, it hands oil and water to the air cleaner.
    FullToAirCleaner,
    /// Full, it spits oil and water out.
    FullToAir,
    /// Water collects and the air goes below freezing.
    Freezes,
    /// Water would run back into the sump.
    WaterToSump,
    /// Under depression it does not drain while the engine runs.
    DrainHeldUp,
    /// What collects holds fuel.
    HoldsFuel,
}

impl CanFinding {
    /// The remark a person reads; a diesel's can holds no petrol, and the oil it lets through is fuel to the engine.
    #[must_use]
    pub fn note(self, diesel: bool) -> Note {
        let (key, weight, text) = match self {
            Self::FullToManifold | Self::FullToAirCleaner if diesel => return runaway(self),
            Self::HoldsFuel if diesel => (
                "can-holds-fuel",
                Weight::Danger,
                "What collects holds oil, acid water, soot and some diesel fuel: it burns. Empty the can with the engine cold and \
                 off, no flame near, gloves on, into a closed tin; it is waste oil and goes neither back into the engine nor down \
                 a drain. Hot, the vapours scald and are poisonous.",
            ),
            Self::LargeEnough => {
                ("can-large-enough", Weight::Remark, "The can holds what collects between services with a reserve.")
            }
            Self::TightAtHigh => (
                "can-tight",
                Weight::Weak,
                "The can holds enough at the likely figures; at the high end it fills sooner. Look at it after the first 500 km.",
            ),
            Self::TooSmall => (
                "can-too-small",
                Weight::Weak,
                "The can is too small for the distance between services: drain it sooner or fit a larger one.",
            ),
            Self::TooFast => (
                "can-too-fast",
                Weight::Weak,
                "The gas in the can is too fast for what is inside it and takes part of the oil along again: more area, or mesh.",
            ),
            Self::FullToManifold => (
                "can-full-to-manifold",
                Weight::Danger,
                "Full, the can goes to the manifold: the valve draws oil and water into the cylinders, which smoke and knock, and a \
                 slug of liquid can bend a rod. Drain it at half.",
            ),
            Self::FullToAirCleaner => (
                "can-full-to-air-cleaner",
                Weight::Danger,
                "Full, the can goes to the air cleaner: oil soaks the filter and can catch fire at a backfire, what passes is drawn \
                 into the cylinders, and water freezes in the line. Drain it at half.",
            ),
            Self::FullToAir => (
                "can-full-to-air",
                Weight::Danger,
                "Full, the can spits oil, water and fuel out at its vent: on a hot exhaust that burns, on a tyre or the road it \
                 makes slip. Drain it at half and lead its vent away from exhaust, wheels and the cabin's air.",
            ),
            Self::Freezes => (
                "can-freezes",
                Weight::Danger,
                "Water collects and the air goes below freezing: ice closes the can or its lower hose, and the crankcase pressure \
                 then rises until oil is pushed past the seals, onto hot parts. Drain the can before frost, keep it near the engine.",
            ),
            Self::WaterToSump => (
                "can-water-to-sump",
                Weight::Weak,
                "What collects can be watery: an emulsion led back into the sump makes sludge and rusts bearings. Shut the drain \
                 in the cold season and empty the can by a valve.",
            ),
            Self::DrainHeldUp => (
                "can-drain-held-up",
                Weight::Weak,
                "In the valve line the can stands under depression: it drains into the sump only with the engine off, and an open \
                 drain hose lets gas past the can, or lifts oil into it. The drain needs a check valve, and the can must hold what \
                 a whole drive collects.",
            ),
            Self::HoldsFuel => (
                "can-holds-fuel",
                Weight::Danger,
                "What collects holds petrol and acid water: it burns and its vapour can flash. Empty the can with the engine cold \
                 and off, no flame or lamp near, gloves on, into a closed tin; it is waste oil and goes neither back into the \
                 engine nor down a drain. Hot, the vapours scald and are poisonous.",
            ),
        };
        Note::new(key, weight, text)
    }
}

/// A full can that a diesel draws from. Common practice, no source.
fn runaway(finding: CanFinding) -> Note {
    let key = if finding == CanFinding::FullToManifold { "can-full-to-manifold" } else { "can-full-to-air-cleaner" };
    let text = "Full, the can hands its oil to the intake, and a diesel burns it: it runs away, faster and faster, with its own \
                fuel cut off, until the oil is gone or it breaks. Only shutting off its air stops it. A slug of liquid bends a \
                rod. Drain the can at half, and never let it fill.";
    Note::new(key, Weight::Danger, text)
}

impl CatchCan {
    fn check(&self) -> Result<(), OilError> {
        CAN_VOLUME.check(self.volume)?;
        in_order(&self.caught, &self.inside.caught().range)
    }
}

impl CanUse {
    fn check(&self) -> Result<(), OilError> {
        in_order(&self.oil, &OIL_FLOW)?;
        in_order(&self.gas, &GAS_FLOW)?;
        in_order(&self.vapour, &VAPOUR)?;
        in_order(&self.wall, &crate::crankcase::moisture::WALL)?;
        crate::crankcase::moisture::AIR_TEMPERATURE.check(self.coldest_air)?;
        MEAN_SPEED.check(self.mean_speed)?;
        SERVICE.check(self.service)?;
        Ok(())
    }
}

/// What collects in a can, and what follows from it. High takes the most oil, the wettest gas and the coldest wall.
///
/// Oil: `ṁ_o = ṁ_oil η`, with η lessened by limit over speed where the gas is too fast. Water: [`condensate`]. A thousand
/// kilometres take `t = 1000 km/v` of driving. The can should hold [`can_reserve`] times what collects between services, and
/// [`least_can`] at least; it is to be drained at [`alarm`] of its volume.
///
/// # Errors
/// Three values out of order or a figure outside its range.
pub fn collected(
    can: &CatchCan,
    use_of: &CanUse,
    mist: &Mist,
    scribe: &mut impl Scribe,
) -> Result<Collected, OilError> {
    can.check()?;
    use_of.check()?;
    let passage = Passage::Can { area: can.area, inside: can.inside };
    let gas = one(&use_of.gas, &passage, mist, mist.state()?.gas, scribe)?;
    let caught = |oil: MassRate, share: Ratio, over: Ratio| {
        MassRate::from_base(oil.base() * share.base() / over.base().max(1.0))
    };
    let (share, over) = (&can.caught, &gas.over);
    // Faster gas catches less, so the like ends of share and speed may cross.
    let oil = Estimate::sorted(
        caught(use_of.oil.low, share.low, over.low),
        caught(use_of.oil.likely, share.likely, over.likely),
        caught(use_of.oil.high, share.high, over.high),
    );
    scribe.step(|| {
        Step::new("oil that the can catches", "ṁ_o", "ṁ_o = ṁ_oil·η/max(1, u/u_lim)", &CAN_FIGURES)
            .with_amount("ṁ_oil", Amount::of_kind(use_of.oil.likely, Kind::CarryOver))
            .with_amount("η", Amount::of_kind(share.likely, Kind::Share))
            .with("u/u_lim", over.likely)
            .gives_amount(Amount::of_kind(oil.likely, Kind::CarryOver))
    });
    let p = use_of.pressure;
    let water = Estimate {
        low: condensate(use_of.gas.low, use_of.vapour.low, use_of.wall.high, p, &mut Silent)?,
        likely: condensate(use_of.gas.likely, use_of.vapour.likely, use_of.wall.likely, p, scribe)?,
        high: condensate(use_of.gas.high, use_of.vapour.high, use_of.wall.low, p, &mut Silent)?,
    };
    let time = THOUSAND_KM / use_of.mean_speed.base();
    let mass = |rate: MassRate| Mass::from_base(rate.base() * time);
    let (oil_mass, water_mass) = (oil.map(mass), water.map(mass));
    let both = |oil: Mass, water: Mass| {
        Volume::from_base(oil.base() / density().likely().base() + water.base() / water_density().likely().base())
    };
    let volume = Estimate {
        low: both(oil_mass.low, water_mass.low),
        likely: both(oil_mass.likely, water_mass.likely),
        high: both(oil_mass.high, water_mass.high),
    };
    scribe.step(|| {
        Step::new("what collects in 1000 km", "V", "V = (ṁ_o/ρ_o + ṁ_w/ρ_w)·1000 km/v", &CAN_FIGURES)
            .with_amount("ṁ_o", Amount::of_kind(oil.likely, Kind::CarryOver))
            .with_amount("ṁ_w", Amount::of_kind(water.likely, Kind::CarryOver))
            .with("v", use_of.mean_speed)
            .gives_amount(Amount::of_kind(volume.likely, Kind::SmallVolume))
    });
    let full = can.volume.base() * alarm().likely().base();
    let after = |volume: Volume| {
        let distance = full / volume.base() * THOUSAND_KM;
        distance.is_finite().then(|| Length::from_base(distance))
    };
    let drain_after = [after(volume.high), after(volume.likely), after(volume.low)];
    if let Some(distance) = drain_after[1] {
        scribe.step(|| {
            Step::new("distance after which to drain the can", "s", "s = a·V_can/V·1000 km", &CAN_FIGURES)
                .with_amount("a", Amount::of_kind(alarm().likely(), Kind::Share))
                .with_amount("V_can", Amount::of_kind(can.volume, Kind::SmallVolume))
                .with_amount("V", Amount::of_kind(volume.likely, Kind::SmallVolume))
                .gives_amount(Amount::of_kind(distance, Kind::RoadDistance))
        });
    }
    let services = use_of.service.base() / THOUSAND_KM;
    let needed = volume.map(|volume| {
        let reserved = can_reserve().likely().base() * volume.base() * services;
        Volume::from_base(reserved.max(least_can().likely().base()))
    });
    let findings = findings(can, use_of, &gas, &oil, &water, &needed);
    Ok(Collected {
        gas,
        oil,
        water,
        oil_per_thousand: oil_mass,
        water_per_thousand: water_mass,
        volume_per_thousand: volume,
        drain_after,
        needed,
        findings,
    })
}

fn findings(
    can: &CatchCan,
    use_of: &CanUse,
    gas: &GasSpeed,
    oil: &Estimate<MassRate>,
    water: &Estimate<MassRate>,
    needed: &Estimate<Volume>,
) -> Vec<CanFinding> {
    let holds = can.volume.base();
    let mut findings = vec![if holds >= needed.high.base() {
        CanFinding::LargeEnough
    } else if holds >= needed.likely.base() {
        CanFinding::TightAtHigh
    } else {
        CanFinding::TooSmall
    }];
    if gas.over.likely.base() > 1.0 {
        findings.push(CanFinding::TooFast);
    }
    if can.drains_to_sump {
        if can.outlet == CanOutlet::Manifold {
            findings.push(CanFinding::DrainHeldUp);
        }
        if water.high.base() > 0.0 {
            findings.push(CanFinding::WaterToSump);
        }
    }
    // A drain of its own may be shut, held up or frozen: where it goes when full matters all the same.
    findings.push(can.outlet.when_full());
    if oil.high.base() > 0.0 || water.high.base() > 0.0 {
        findings.push(CanFinding::HoldsFuel);
    }
    if water.high.base() > 0.0 && use_of.coldest_air.base() < ZERO_CELSIUS {
        findings.push(CanFinding::Freezes);
    }
    findings
}
