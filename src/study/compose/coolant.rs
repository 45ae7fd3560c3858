//! How far the coolant swells, what the tank holds at each state, and how far it stays from boiling.

use super::context::Context;
use super::{Fail, filled};
use crate::coolant::boiling::{HottestPassage, boiling_margin};
use crate::coolant::{
    self, Arrangement, Cap, CapSits, Cycle, FilledSystem, HotTemperatures, Lid, ReturnLine, SealedTank, SystemState,
    Tank, TubeReach,
};
use crate::quantity::si::{Length, Mass, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, pascals};
use crate::scribe::{Scribe, Silent};
use crate::study::{Doubt, Growth, Held, Problems, TankArrangement, VentKind, defaults};

/// What the coolant side works with once the hottest state is known.
pub(super) struct Side<'c, 'p> {
    pub context: &'c Context<'p>,
    pub tank: Tank,
    pub cap: Cap,
    /// Opening of the cap at the ends of its tolerance.
    pub opening: Estimate<GaugePressure>,
    /// Coolant in the tank when filled, at the fill temperature.
    pub cold_volume: Volume,
    /// Lowest temperature reckoned with: the coldest start, or where the mix begins to freeze.
    pub coldest: ThermodynamicTemperature,
}

impl<'c, 'p> Side<'c, 'p> {
    pub fn new(context: &'c Context<'p>, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let project = context.project;
        let cap = filled::cap(project);
        scribe.chapter("cap", "Opening pressure of the cap");
        let opening = cap.opening_range(scribe).fail("cap.opening")?;
        let freezing = context.mix.freezing_point_safe(&mut Silent).map_or(0.0, Measured::base);
        // A tenth of a kelvin of liquid is left so that the properties exist.
        let coldest = ThermodynamicTemperature::from_base(project.surroundings.coldest.base().max(freezing + 0.1));
        let coldest = if coldest > project.surroundings.filled_at { project.surroundings.filled_at } else { coldest };
        let cold_volume = Volume::from_base(0.0);
        Ok(Self { context, tank: filled::tank(project)?, cap, opening, cold_volume, coldest })
    }

    pub fn arrangement(&self) -> TankArrangement {
        self.context.project.tank.arrangement
    }

    /// Volume of the system without the tank.
    pub fn context_fill_volume(&self) -> Result<Volume, Problems> {
        let parts = filled::parts_all(self.context.project.surroundings.filled_at);
        let system = self.system(&parts, &mut Silent)?;
        let header = if self.is_header() { self.tank.capacity().base() } else { 0.0 };
        Ok(Volume::from_base(system.circuit.total().base() - header))
    }

    pub fn is_header(&self) -> bool {
        self.arrangement() == TankArrangement::HeaderTank
    }

    pub fn tank_temperature(&self) -> Estimate<ThermodynamicTemperature> {
        self.context.project.tank.tank_temperature.unwrap_or_else(defaults::tank_temperature)
    }

    pub fn system(&self, hot: &HotTemperatures, scribe: &mut impl Scribe) -> Result<FilledSystem, Problems> {
        filled::filled(self.context, &self.tank, hot, scribe)
    }

    /// Pressures at which the cap opens, with the tank at a gauge pressure.
    pub fn limit(&self, tank: GaugePressure) -> Estimate<AbsolutePressure> {
        let base = self.context.ambient.base() + tank.base();
        self.opening.map(|opening| AbsolutePressure::from_base(base + opening.base()))
    }

    fn density(&self, at: ThermodynamicTemperature) -> Result<f64, Problems> {
        Ok(self.context.mix.density(at, &mut Silent).fail("coolant")?.base())
    }

    /// Coolant drawn from the tank between the fill and the coldest start, as it is at the fill temperature.
    ///
    /// A system filled at the coldest temperature and warmed to the fill temperature at ambient pressure gives back
    /// as much as the filled one draws on the way down.
    pub fn drawn_cold(&self, scribe: &mut impl Scribe) -> Result<Volume, Problems> {
        let fill = self.context.project.surroundings.filled_at;
        if self.coldest >= fill || self.is_header() {
            return Ok(Volume::from_base(0.0));
        }
        scribe.chapter("contraction", "Drawn from the tank in the cold");
        let mut system = self.system(&filled::parts_all(fill), &mut Silent)?;
        system.fill_temperature = self.coldest;
        let temperatures = vec![fill; system.circuit.regions.len()];
        let ambient = AbsolutePressure::from_base(self.context.ambient.base());
        let state = system.settle(&temperatures, ambient, scribe).fail("circuit")?;
        system.in_tank(state.expelled, fill, scribe).fail("circuit")
    }

    /// The growth from the fill to a hot state.
    pub fn growth(
        &self,
        hot: &HotTemperatures,
        drawn_cold: Volume,
        scribe: &mut impl Scribe,
    ) -> Result<(Growth, FilledSystem), Problems> {
        scribe.chapter("expansion", "Expansion from fill to hot");
        let real = self.system(hot, scribe)?;
        // What a header tank's cushion must take: as much as the same tank brim-full would drive out, cap and hoses as
        // they are. Its spread is that of the volume by which the level really rises.
        let system = if self.is_header() {
            FilledSystem { trapped_gas: Estimate::exact(Volume::from_base(0.0)), ..real.clone() }
        } else {
            real.clone()
        };
        let mut doubt = coolant::Doubt::usual(&self.context.mix);
        doubt.tank_temperature = self.tank_temperature();
        let limit = self.limit(GaugePressure::from_base(0.0));
        let growth = system.growth(&limit, &doubt, scribe).fail("circuit")?;
        let square: f64 = growth.contributions.iter().map(|part| width(part).powi(2)).sum();
        let doubts = growth
            .contributions
            .iter()
            .map(|part| Doubt {
                name: part.name.to_owned(),
                low_side: part.low,
                high_side: part.high,
                share: Ratio::from_base(if square > 0.0 { width(part).powi(2) / square } else { 0.0 }),
            })
            .collect();
        let second = growth
            .contributions
            .iter()
            .find(|part| part.name.starts_with("density set"))
            .map_or(0.0, |part| part.low.base() + part.high.base());
        let in_tank = if self.is_header() { self.rise(&real, &growth.volume)? } else { growth.volume };
        Ok((
            Growth {
                hottest: hot.engine,
                in_tank,
                second_set: Volume::from_base(
                    in_tank.likely.base() * (1.0 + second / growth.volume.likely.base().max(1e-9)),
                ),
                drawn_cold,
                doubts,
                closure: growth.state.closure,
                notes: growth.notes,
            },
            real,
        ))
    }

    /// By how much the liquid in a header tank rises, with the spread of what a brim-full one would drive out.
    fn rise(&self, system: &FilledSystem, driven: &Estimate<Volume>) -> Result<Estimate<Volume>, Problems> {
        let state = self.settle(system, self.limit(GaugePressure::from_base(0.0)).likely)?;
        let rise = (system.trapped_gas.likely.base() - state.gas_volume.base()).max(0.0);
        let share = |end: Volume| if driven.likely.base() > 0.0 { end.base() / driven.likely.base() } else { 1.0 };
        let at = |end: Volume| Volume::from_base(rise * share(end));
        Ok(Estimate::sorted(at(driven.low), Volume::from_base(rise), at(driven.high)))
    }

    /// What tank and system do with the parts at given temperatures, the tank at another.
    pub fn held(
        &self,
        parts: &HotTemperatures,
        tank_at: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Held, Problems> {
        let project = self.context.project;
        let system = self.system(parts, &mut Silent)?;
        let lid = self.lid(tank_at);
        let (state, tank_gauge) = match lid {
            Some(Lid::Sealed(sealed)) => {
                let settled = system.settle_sealed(self.opening.likely, &sealed, scribe).fail("tank.vent")?;
                (settled.system, settled.tank.with_vapour)
            }
            _ => {
                let limit = self.limit(GaugePressure::from_base(0.0)).likely;
                let state = if self.is_header() {
                    self.settle(&system, limit)?
                } else {
                    system.settle_hot(limit, scribe).fail("circuit")?
                };
                (state, GaugePressure::from_base(0.0))
            }
        };
        // The tank holds what was filled in and what has come since, all of it at the tank's temperature.
        let (in_tank, expelled) = if self.is_header() {
            (Volume::from_base((self.tank.capacity().base() - state.gas_volume.base()).max(0.0)), state.expelled)
        } else {
            let mut mass =
                self.density(project.surroundings.filled_at)? * self.cold_volume.base() + state.expelled.base();
            let mut expelled = state.expelled;
            if parts.engine < project.surroundings.filled_at && self.arrangement() == TankArrangement::RecoveryTank {
                let drawn = self.drawn_cold(&mut Silent)?.base() * self.density(project.surroundings.filled_at)?;
                mass = (mass - drawn).max(0.0);
                expelled = Mass::from_base(-drawn);
            }
            (Volume::from_base(mass / self.density(tank_at)?), expelled)
        };
        let level = self.tank.height_at(in_tank, &mut Silent).ok();
        // Judged with the tank open: the pressure of a sealed lid is a fault, not a margin.
        let margin = self.margin(parts.engine, &system, scribe)?;
        let gauge =
            if parts.engine < project.surroundings.filled_at { self.cold_gauge(&state.gauge) } else { state.gauge };
        Ok(Held { gauge, cap_open: state.cap_open, expelled, in_tank, level, tank_gauge, margin, margin_after: None })
    }

    /// Gauge pressure of a system that has cooled below its fill: the vacuum valve lets coolant or air in before it
    /// falls further.
    fn cold_gauge(&self, shut: &GaugePressure) -> GaugePressure {
        GaugePressure::from_base(shut.base().max(-self.draws().base()))
    }

    /// Depression at which something comes in by the vacuum valve, the lift from the tank with it.
    pub fn draws(&self) -> Pressure {
        let valve = self.cap.vacuum_opening.likely.base();
        let lift = if self.arrangement() == TankArrangement::RecoveryTank {
            let inputs = &self.context.project.tank;
            let lift = inputs.neck_height.base() - inputs.tube_end.base();
            let density = self.density(self.context.project.surroundings.filled_at).unwrap_or(1000.0);
            (density * crate::quantity::GRAVITY * lift).max(0.0)
        } else {
            0.0
        };
        Pressure::from_base(valve + lift)
    }

    /// What a sealed tank's pressure adds to that of the cap when boiling is judged: no more than the tank may see,
    /// since its lid gives way above that.
    fn counted(&self, tank: GaugePressure) -> GaugePressure {
        let may_see = self.context.project.tank.allowed_pressure.unwrap_or_else(defaults::allowed_pressure).high;
        GaugePressure::from_base(tank.base().min(may_see.base()))
    }

    /// Local boiling point less local temperature with the cap at the ends of its tolerance, the tank open to the air.
    pub fn margin(
        &self,
        outlet: ThermodynamicTemperature,
        system: &FilledSystem,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<TemperatureInterval>, Problems> {
        self.margin_with(outlet, system, GaugePressure::from_base(0.0), scribe)
    }

    /// The same with a gauge pressure in the tank, counted no higher than the tank may see.
    pub fn margin_with(
        &self,
        outlet: ThermodynamicTemperature,
        system: &FilledSystem,
        tank: GaugePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<TemperatureInterval>, Problems> {
        let limit = self.limit(self.counted(tank));
        let settle = |limit| self.settle(system, limit).map(|state| state.pressure);
        let pressure = match (settle(limit.low), settle(limit.likely), settle(limit.high)) {
            (Ok(low), Ok(likely), Ok(high)) => Estimate::sorted(low, likely, high),
            // It boils at the cap's pressure: the limit is all the pressure there is.
            _ => limit,
        };
        // Colder than the fill the vacuum valve keeps the pressure up.
        let ambient = self.context.ambient;
        let cold = outlet < self.context.project.surroundings.filled_at;
        let pressure =
            if cold { pressure.map(|p| self.cold_gauge(&p.to_gauge(ambient)).to_absolute(ambient)) } else { pressure };
        self.margin_at(outlet, &pressure, scribe)
    }

    /// The margin at a lighter duty after a hotter one has driven coolant out: the pressure is what the coolant left
    /// and its gas make of it, down to where the vacuum valve lets coolant or air in.
    pub fn margin_after(
        &self,
        parts: &HotTemperatures,
        let_out: Mass,
    ) -> Result<Estimate<TemperatureInterval>, Problems> {
        let system = self.system(parts, &mut Silent)?;
        let limit = self.limit(GaugePressure::from_base(0.0)).likely;
        let ambient = self.context.ambient;
        let least = self.cold_gauge(&GaugePressure::from_base(-ambient.base())).to_absolute(ambient).base();
        let pressure = system.settle_after(let_out, limit).map_or(least, |state| state.pressure.base()).max(least);
        self.margin_at(parts.engine, &Estimate::exact(AbsolutePressure::from_base(pressure)), &mut Silent)
    }

    /// The system at its hot temperatures; a header tank's cap lets air out before coolant.
    pub fn settle(&self, system: &FilledSystem, limit: AbsolutePressure) -> Result<SystemState, Problems> {
        if !self.is_header() {
            return system.settle_hot(limit, &mut Silent).fail("circuit");
        }
        let opening = limit.to_gauge(self.context.ambient);
        let cap = Cap { opening, tolerance: Estimate::exact(Ratio::from_base(0.0)), ..self.cap };
        let header = Arrangement::PressurisedHeaderTank { cap: CapSits::InGas };
        Ok(header.cycle(system, &cap, 2, &mut Silent).fail("tank")?.hot)
    }

    fn margin_at(
        &self,
        outlet: ThermodynamicTemperature,
        pressure: &Estimate<AbsolutePressure>,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<TemperatureInterval>, Problems> {
        let usual = HottestPassage::usual(outlet);
        let excess = self.context.project.circuit.local_excess.unwrap_or_else(defaults::local_excess);
        let passage = HottestPassage { excess, ..usual };
        Ok(boiling_margin(&self.context.mix, pressure, &passage, scribe).fail("cap.opening")?.margin)
    }

    /// How the lid stands; `None` for a header tank.
    pub fn lid(&self, hot: ThermodynamicTemperature) -> Option<Lid> {
        if self.is_header() {
            return None;
        }
        Some(match self.context.project.tank.vent {
            VentKind::Sealed => Lid::Sealed(self.sealed(hot)),
            VentKind::Hole | VentKind::Tube => Lid::Vented(GaugePressure::new(pascals(0.0))),
        })
    }

    /// The same tank with its lid sealed.
    pub fn sealed(&self, hot: ThermodynamicTemperature) -> SealedTank {
        SealedTank {
            air: Volume::from_base((self.tank.capacity().base() - self.cold_volume.base()).max(0.0)),
            filled_at: self.context.project.surroundings.filled_at,
            hot,
        }
    }

    /// The arrangement in the physics' words.
    pub fn joined(&self, hot: ThermodynamicTemperature, reach: TubeReach) -> Arrangement {
        let lid = self.lid(hot).unwrap_or(Lid::Vented(GaugePressure::new(pascals(0.0))));
        let tank_temperature = self.tank_temperature().likely;
        let inputs = &self.context.project.tank;
        match self.arrangement() {
            TankArrangement::RecoveryTank => {
                let lift = Length::from_base(inputs.neck_height.base() - inputs.tube_end.base());
                let line = ReturnLine { reach, ..ReturnLine::covered(lift) };
                Arrangement::RecoveryTank { lid, tank_temperature, line }
            }
            TankArrangement::HeaderTank => Arrangement::PressurisedHeaderTank { cap: CapSits::InGas },
            TankArrangement::CatchOnly => Arrangement::CatchOnly { lid, tank_temperature },
        }
    }

    /// One warm-up and cool-down at the hottest state.
    pub fn cycle(
        &self,
        system: &FilledSystem,
        reach: TubeReach,
        points: usize,
        scribe: &mut impl Scribe,
    ) -> Result<Cycle, Problems> {
        let hot = self.tank_temperature().likely;
        self.joined(hot, reach).cycle(system, &self.cap, points, scribe).fail("tank")
    }
}

fn width(part: &coolant::Contribution) -> f64 {
    (part.high.base() - part.low.base()).abs()
}
