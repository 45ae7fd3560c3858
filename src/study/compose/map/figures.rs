//! The cylinder's figures as a continuous function of manifold pressure.
//!
//! The figures of the burn are known for the duty points alone. Between two duties that burn they go over in proportion to
//! manifold pressure, beyond the outer ones they stay; so does the ram, which for one duty counts or does not. Between the
//! lightest of them and overrun, where nothing burns, that share of the cycles burns which the place between the two
//! manifold pressures tells: the blow-by and the air drawn are the mean of both. At each duty's own manifold pressure all of
//! this is what the duty's own answers are made with.

use super::super::Fail;
use super::super::blow_by::{Areas, Running, cylinder_of, petrol_cycle};
use super::super::context::Context;
use crate::crankcase::blow_by::BlowBy;
use crate::crankcase::cylinder::{Cycle, OperatingPoint, figures};
use crate::quantity::si::{AngularVelocity, MassRate, Power, Ratio};
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::Silent;
use crate::study::{Duty, Problems};

/// Two duties at less than this from one another, Pa, have one manifold pressure.
const SAME: f64 = 1.0;

/// One duty's figures, at its own manifold pressure.
struct Knot {
    duty: Duty,
    point: OperatingPoint,
    /// With the duty's mixture.
    cycle: Cycle,
}

impl Knot {
    fn manifold(&self) -> f64 {
        self.point.manifold.base()
    }
}

/// The figures at every manifold pressure.
pub(super) struct Burn {
    /// Duties that burn, by manifold pressure; of those with the same the heaviest.
    burning: Vec<Knot>,
    overrun: Knot,
    /// Manifold pressure from which the ram counts for a duty, and the least at which the physics counts one at all, Pa.
    ram_from: f64,
    least_ram_from: f64,
    /// Speed every trace is made at; the air drawn goes in proportion to it, the leak not at all.
    speed: AngularVelocity,
}

/// What a row of the map shares.
pub(super) struct Row {
    pub blow_by: BlowBy,
    /// Air drawn for each unit of engine speed, kg.
    air: f64,
}

impl Row {
    /// Air the engine draws at a speed.
    pub fn air(&self, rpm: AngularVelocity) -> MassRate {
        MassRate::from_base(self.air * rpm.base())
    }
}

fn between<Q: Measured>(a: Q, b: Q, share: f64) -> Q {
    // Exact at both ends.
    Q::from_base(if share >= 1.0 { b.base() } else { a.base() + share * (b.base() - a.base()) })
}

impl Burn {
    pub fn of(context: &Context<'_>) -> Result<Self, Problems> {
        let knot = |duty: Duty| -> Result<Knot, Problems> {
            let usual = figures(duty, context.ambient).fail("surroundings.altitude")?.likely();
            let manifold = context.manifold[duty.index()].0;
            Ok(Knot { duty, point: OperatingPoint { manifold, ..usual }, cycle: petrol_cycle(context, duty)? })
        };
        let mut burning = Vec::with_capacity(4);
        // The heaviest first: it stays where another has the same manifold pressure.
        for duty in [Duty::FullThrottle, Duty::Hill, Duty::Cruise, Duty::Idle] {
            let one = knot(duty)?;
            if burning.iter().all(|other: &Knot| (other.manifold() - one.manifold()).abs() >= SAME) {
                burning.push(one);
            }
        }
        burning.sort_by(|a, b| a.manifold().total_cmp(&b.manifold()));
        let ambient = context.ambient.base();
        Ok(Self {
            burning,
            overrun: knot(Duty::Overrun)?,
            ram_from: Cycle::default().ram_from.base() * ambient,
            least_ram_from: crate::crankcase::cylinder::defaults::ram_from().range.low * ambient,
            speed: context.project.duty.of(Duty::FullThrottle).rpm,
        })
    }

    /// Whether the map is of a duty's own burning at its manifold pressure.
    pub fn is_on_map(&self, duty: Duty) -> bool {
        match duty {
            Duty::Overrun => self.burning.first().is_none_or(|lightest| self.overrun.manifold() < lightest.manifold()),
            _ => self.burning.iter().any(|knot| knot.duty == duty),
        }
    }

    /// The figures of burning cycles.
    fn burning_at(&self, manifold: AbsolutePressure) -> Option<(OperatingPoint, Cycle)> {
        let at = manifold.base();
        let above = self.burning.iter().position(|knot| knot.manifold() > at);
        let (low, high, share) = match above {
            Some(0) => (self.burning.first()?, self.burning.first()?, 0.0),
            None => (self.burning.last()?, self.burning.last()?, 0.0),
            Some(place) => {
                let (low, high) = (self.burning.get(place - 1)?, self.burning.get(place)?);
                (low, high, (at - low.manifold()) / (high.manifold() - low.manifold()))
            }
        };
        let (a, b) = (&low.point, &high.point);
        let point = OperatingPoint {
            speed: self.speed,
            manifold,
            half_burnt: between(a.half_burnt, b.half_burnt, share),
            burn_duration: between(a.burn_duration, b.burn_duration, share),
            residual: between(a.residual, b.residual, share),
            charge_temperature: between(a.charge_temperature, b.charge_temperature, share),
            wall_heat: between(a.wall_heat, b.wall_heat, share),
            fired: true,
        };
        let mixed = |pick: fn(&Cycle) -> Ratio| between(pick(&low.cycle), pick(&high.cycle), share);
        let (air_fuel, combustion) = (mixed(|cycle| cycle.air_fuel), mixed(|cycle| cycle.combustion));
        Some((point, Cycle { air_fuel, combustion, ..self.cycle(low, high, at) }))
    }

    /// The cycle with its ram between those of two duties.
    fn cycle(&self, low: &Knot, high: &Knot, at: f64) -> Cycle {
        let usual = Cycle::default();
        let ram = |knot: &Knot| if knot.manifold() > self.ram_from { usual.ram.base() } else { 1.0 };
        let (from, to) = (ram(low), ram(high));
        // Below where the physics counts a ram at all there is none, so it sets in from there and not with a step.
        let begins = if from == 1.0 { low.manifold().max(self.least_ram_from) } else { low.manifold() };
        let share =
            if high.manifold() > begins { ((at - begins) / (high.manifold() - begins)).clamp(0.0, 1.0) } else { 0.0 };
        let ram = if from == to { from } else { from + share * (to - from) };
        let least = crate::crankcase::cylinder::defaults::ram_from().range.low;
        Cycle { ram: Ratio::from_base(ram), ram_from: Ratio::from_base(least), ..usual }
    }

    /// The share of cycles that burn.
    fn share_burning(&self, at: f64) -> f64 {
        let Some(lightest) = self.burning.first().map(Knot::manifold) else { return 0.0 };
        let overrun = self.overrun.manifold();
        if overrun >= lightest || at >= lightest { 1.0 } else { ((at - overrun) / (lightest - overrun)).max(0.0) }
    }

    /// Blow-by and air at a manifold pressure.
    pub fn row(&self, context: &Context<'_>, areas: &Areas, manifold: AbsolutePressure) -> Result<Row, Problems> {
        let share = self.share_burning(manifold.base());
        // A throttled engine's fuel follows from its air: no power is asked for.
        let running = Running { speed: self.speed, manifold, power: Power::from_base(0.0) };
        let solved = |point: &OperatingPoint, cycle: Cycle| -> Result<Row, Problems> {
            let cylinder = cylinder_of(context, point, cycle, running, "duty", &mut Silent)?;
            let air = cylinder.trace.air_flow().base() / self.speed.base();
            Ok(Row { blow_by: areas.judged(&cylinder)?, air })
        };
        let burning = || self.burning_at(manifold).map(|(point, cycle)| solved(&point, cycle));
        let coasting = || solved(&self.overrun.point, self.cycle(&self.overrun, &self.overrun, manifold.base()));
        if share <= 0.0 {
            return coasting();
        }
        match burning() {
            Some(burning) if share >= 1.0 => burning,
            Some(burning) => Ok(mixed(&coasting()?, &burning?, share)),
            None => coasting(),
        }
    }
}

/// A share of the second and the rest of the first.
fn mixed(one: &Row, other: &Row, share: f64) -> Row {
    let mix = |a: Estimate<MassRate>, b: Estimate<MassRate>| Estimate {
        low: between(a.low, b.low, share),
        likely: between(a.likely, b.likely, share),
        high: between(a.high, b.high, share),
    };
    let (a, b) = (&one.blow_by, &other.blow_by);
    let blow_by =
        BlowBy { forward: mix(a.forward, b.forward), reverse: mix(a.reverse, b.reverse), net: mix(a.net, b.net) };
    Row { blow_by, air: one.air + share * (other.air - one.air) }
}
