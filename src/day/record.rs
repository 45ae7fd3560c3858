//! What came of a day.

use crate::quantity::si::{
    AngularVelocity, Energy, Length, Mass, Power, Ratio, TemperatureInterval, ThermodynamicTemperature, Time, Velocity,
    Volume,
};
use crate::quantity::{GaugePressure, Measured};

/// Everything that was found of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Drive {
    /// The state at regular times, and at every event.
    pub samples: Vec<Sample>,
    /// What happened, in order of time.
    pub events: Vec<Event>,
    /// Openings of cap and vacuum valve too small for an event.
    pub trifles: Trifles,
    /// How well energy and coolant closed.
    pub closures: Closures,
    /// The worst of each.
    pub extremes: Vec<Extreme>,
    /// Every stop of the engine.
    pub soaks: Vec<Soak>,
    /// Why the day could not be followed to its end; `None` when it was.
    pub cut_short: Option<String>,
}

/// What the cap does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CapState {
    /// Both valves shut.
    Shut,
    /// Letting coolant, air or steam out.
    LetsOut,
    /// Letting coolant or air in.
    LetsIn,
}

/// The state at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Time since the beginning of the day.
    pub time: Time,
    /// The leg it lies in, from 0.
    pub leg: usize,
    /// Air temperature.
    pub air: ThermodynamicTemperature,
    /// Road speed.
    pub road_speed: Velocity,
    /// Engine speed; 0 stopped.
    pub engine_speed: AngularVelocity,
    /// Brake power.
    pub power: Power,
    /// Metal between flame and coolant.
    pub metal: ThermodynamicTemperature,
    /// Block.
    pub block: ThermodynamicTemperature,
    /// Coolant where it leaves the engine.
    pub coolant: ThermodynamicTemperature,
    /// Coolant where it leaves the radiator.
    pub radiator_outlet: ThermodynamicTemperature,
    /// Coolant in heater and hoses.
    pub hoses: ThermodynamicTemperature,
    /// Oil.
    pub oil: ThermodynamicTemperature,
    /// Coolant in the tank.
    pub tank: ThermodynamicTemperature,
    /// Opening of the thermostat, 0 to 1.
    pub opening: Ratio,
    /// Whether the fan turns.
    pub fan: bool,
    /// Heat the radiator carries.
    pub radiator_heat: Power,
    /// System pressure.
    pub gauge: GaugePressure,
    /// What the cap does.
    pub cap: CapState,
    /// Gas pressure in the tank; 0 when vented.
    pub tank_gauge: GaugePressure,
    /// Liquid in the tank.
    pub in_tank: Volume,
    /// Its level; `None` outside what the tank's shape tells.
    pub level: Option<Length>,
    /// Air in the system, without the tank of a recovery arrangement.
    pub air_in_system: Volume,
    /// Vapour in the engine.
    pub vapour: Volume,
    /// Coolant let out of the system so far less what came back.
    pub out: Mass,
    /// Coolant lost for good so far: spilled or blown off.
    pub lost: Mass,
    /// Boiling point at the system's pressure less the hottest passage, whose excess fades with the metal's after a stop.
    pub margin: TemperatureInterval,
}

/// Something that happened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Event {
    /// When it began.
    pub time: Time,
    /// In which leg.
    pub leg: usize,
    /// What.
    pub kind: EventKind,
}

/// What can happen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EventKind {
    /// The engine starts.
    EngineStarts,
    /// It stops.
    EngineStops,
    /// The thermostat begins to open, for the first time since it was shut.
    ThermostatOpens,
    /// It is shut again.
    ThermostatShuts,
    /// The fan is switched on.
    FanOn,
    /// And off.
    FanOff,
    /// The cap lets coolant out, until `until`; so much of it, as it is in the tank, and air.
    CapOpens {
        /// When it shuts again.
        until: Time,
        /// Coolant that went out.
        coolant: Volume,
        /// Its mass. All that went out less all that came back, trifles and blown-out steam with them, is what
        /// [`Sample::out`] grows by in the day.
        mass: Mass,
        /// Air that went out, at ambient pressure.
        air: Volume,
    },
    /// The vacuum valve lets coolant or air in, until `until`.
    VacuumValveOpens {
        /// When it shuts again.
        until: Time,
        /// Coolant that came back, as it was in the tank.
        coolant: Volume,
        /// Its mass.
        mass: Mass,
        /// Air that came in, at ambient pressure.
        air: Volume,
    },
    /// The tube's end comes out of the liquid: air is drawn.
    TubeUncovered,
    /// The tank is full and spills, until `until`.
    TankSpills {
        /// When it ends.
        until: Time,
        /// Coolant lost.
        coolant: Volume,
    },
    /// The hottest passage begins to boil.
    PassageBoils {
        /// When it ends.
        until: Time,
    },
    /// The coolant boils as a whole, until `until`.
    CoolantBoils {
        /// When it ends.
        until: Time,
        /// Vapour made.
        vapour: Mass,
        /// Of it blown out through the cap.
        blown_out: Mass,
    },
    /// The oil has become warm.
    OilWarm,
}

/// Openings of the cap and its vacuum valve, each too small to be told as an event; what they moved is in the books.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Trifles {
    /// How often the cap let something out.
    pub outward: u32,
    /// Coolant and air that went out so, all together.
    pub out: Volume,
    /// Mass of the coolant in it.
    pub out_mass: Mass,
    /// How often the vacuum valve let something in.
    pub inward: u32,
    /// Coolant and air that came in so, all together.
    pub back: Volume,
    /// Mass of the coolant in it.
    pub back_mass: Mass,
}

impl Trifles {
    pub(super) fn went_out(&mut self, volume: f64, mass: f64) {
        // A valve that moved nothing has not opened.
        self.outward = self.outward.saturating_add(u32::from(volume > 0.0));
        self.out += Volume::from_base(volume);
        self.out_mass += Mass::from_base(mass);
    }

    pub(super) fn came_in(&mut self, volume: f64, mass: f64) {
        self.inward = self.inward.saturating_add(u32::from(volume > 0.0));
        self.back += Volume::from_base(volume);
        self.back_mass += Mass::from_base(mass);
    }
}

/// How well the books closed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closures {
    /// Heat the engine gave.
    pub heat_in: Energy,
    /// Heat to the air by the radiator.
    pub by_radiator: Energy,
    /// By the heater.
    pub by_heater: Energy,
    /// By surfaces, sump and tank.
    pub by_surfaces: Energy,
    /// Carried away by what was lost: steam and spilled coolant.
    pub by_losses: Energy,
    /// What metal, coolant and oil hold more at the end than at the beginning.
    pub stored: Energy,
    /// Heat in less heat out less stored, over the heat turned over.
    pub energy: Ratio,
    /// Coolant at the beginning, system and tank.
    pub coolant_at_start: Mass,
    /// At the end.
    pub coolant_at_end: Mass,
    /// Coolant lost.
    pub lost: Mass,
    /// Start less end less lost, over start.
    pub coolant: Ratio,
    /// Accepted steps of the integration.
    pub steps: u32,
    /// Steps tried again with a shorter one.
    pub rejected: u32,
}

/// The greatest or least of something over the day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// What.
    pub of: ExtremeOf,
    /// Index of its sample.
    pub sample: usize,
}

/// What extremes are kept of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExtremeOf {
    /// Hottest coolant.
    Coolant,
    /// Hottest metal.
    Metal,
    /// Hottest oil.
    Oil,
    /// Highest system pressure.
    Pressure,
    /// Lowest system pressure.
    Depression,
    /// Fullest tank.
    FullTank,
    /// Emptiest tank.
    EmptyTank,
    /// Smallest boiling margin.
    Margin,
    /// Highest pressure in the tank.
    TankPressure,
}

/// A stop of the engine: what its metal does to coolant that stands, until it starts again or the day ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Soak {
    /// When the engine stopped.
    pub stopped: Time,
    /// The leg of the stop.
    pub leg: usize,
    /// Coolant when it stopped.
    pub at_stop: ThermodynamicTemperature,
    /// Hottest after it.
    pub peak: ThermodynamicTemperature,
    /// When.
    pub peak_at: Time,
    /// Vapour made.
    pub vapour: Mass,
    /// Greatest rise of the liquid in the tank above where it stood at the stop.
    pub surge: Volume,
    /// Coolant lost after the stop.
    pub lost: Mass,
    /// Of all the coolant that was out of the system when most of it was, before the stop or after, the share that had come
    /// back by the end of the stop: 0 to 1.
    pub came_back: Option<Ratio>,
}
