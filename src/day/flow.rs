//! How fast every temperature changes: the heat that flows between the bodies.
//!
//! Bodies (numbers by [`at`]): hot metal, engine coolant, block, oil, radiator, heater with hoses; the thermostat's wax;
//! how much hotter the radiator is on average than at its outlet; vapour. Beside them the heats given and taken so far.
//!
//! - C_m Ṫ_m = Q − G_m (T_m − T_e), with G = G_still + (G_running − G_still)(n/3000 rpm)^k.
//! - m_e c Ṫ_e = G_m (T_m − T_e) − G_b (T_e − T_b) − Ċ_r (T_e − T_r) − Ċ_x (T_e − T_x), Ċ = ρ V̇ c. When it boils Ṫ_e = 0 and
//!   the same sum over the latent heat is the vapour made.
//! - C_b Ṫ_b = G_b (T_e − T_b) + G_ob (T_o − T_b) − G_ba (T_b − T_air), C_o Ṫ_o = Q_oil − G_ob (T_o − T_b) − G_oa (T_o − T_air),
//!   with G_ba and G_oa growing with (road speed/30 m/s)^0.8.
//! - (m_r c + C_r) Ṫ_r = Ċ_r (T_e − T_r) − Q_r, Q_r = Q_steady + G_r (T_r − T_out): the steady answer's heat, and the coolant
//!   that stands, which goes towards the outlet T_out = T_e − Q_steady/Ċ_r of the steady answer, without flow towards the
//!   air, by what standing coolant gives to wind, fan and its own draught. Q_r does not warm what is hotter than the air.
//! - m_x c Ṫ_x = Ċ_x (T_e − T_x) − G_x (T_x − T_air).
//! - τ Ṫ_w = T_e − T_w, with and without flow.
//!
//! With the engine stopped nothing circulates: what would rise by itself is left out, which errs to the hot side. Without
//! engine and fan no hot air is drawn in again either.

use super::body::{Body, Wet};
use super::record::Sample;
use super::stretch::{Heats, Stretch};
use super::{DayError, Lumps};
use crate::fluid;
use crate::heat::core::{Air, Coolant};
use crate::heat::{Airflow, pump};
use crate::quantity::si::{AngularVelocity, Ratio, ThermalConductance, Velocity};
use crate::quantity::{Measured, RPM};
use crate::scribe::Silent;

/// How many values there are.
pub(super) const N: usize = 13;
/// All values at one time.
pub(super) type State = [f64; N];

/// What each of them is.
pub(super) mod at {
    pub const METAL: usize = 0;
    pub const ENGINE: usize = 1;
    pub const BLOCK: usize = 2;
    pub const OIL: usize = 3;
    pub const RADIATOR: usize = 4;
    pub const HOSES: usize = 5;
    pub const WAX: usize = 6;
    /// Mean of the radiator above its outlet, K.
    pub const SPREAD: usize = 7;
    /// Vapour in the engine, kg.
    pub const VAPOUR: usize = 8;
    /// Heats so far, J.
    pub const GIVEN: usize = 9;
    pub const BY_RADIATOR: usize = 10;
    pub const BY_HEATER: usize = 11;
    pub const BY_SURFACES: usize = 12;
}

/// Engine speed at which the conductances of a running engine hold.
const REFERENCE_SPEED: f64 = 3000.0 * RPM;
/// Road speed at which what it adds to a conductance is told, m/s.
const REFERENCE_ROAD_SPEED: f64 = 30.0;
/// What the wind carries grows with this power of the speed: turbulent forced convection (Dittus and Boelter).
const FORCED: f64 = 0.8;

/// A conductance between a body and the coolant, W/K: at rest, and with the pump turning.
pub(super) fn between(
    lumps: &Lumps,
    still: ThermalConductance,
    running: ThermalConductance,
    speed: Option<AngularVelocity>,
) -> f64 {
    let share = speed.map_or(0.0, |speed| (speed.base() / REFERENCE_SPEED).powf(lumps.flow_power.base()));
    still.base() + (running.base() - still.base()) * share
}

/// What does not change within a stretch while the fan keeps its state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Setting {
    from: f64,
    air: f64,
    air_slope: f64,
    /// Face velocity at the radiator and the rise of its inlet air.
    velocity: f64,
    rise: f64,
    into_metal: f64,
    into_oil: f64,
    metal: f64,
    block: f64,
    block_to_air: f64,
    oil_to_air: f64,
    /// What an oil cooler adds wide open.
    oil_cooler: f64,
    /// Through the wide open thermostat, m³/s.
    full_flow: f64,
    /// Through heater and hoses, m³/s.
    heater_flow: f64,
}

impl Setting {
    /// A stretch that begins at a time (s).
    pub fn new(body: &Body, stretch: &Stretch, heats: &Heats, from: f64, fan: bool) -> Result<Self, DayError> {
        let lumps = body.lumps;
        let fan_velocity = if fan { lumps.fan_velocity(stretch.engine) } else { Velocity::from_base(0.0) };
        let airflow = Airflow { road_speed: stretch.road_speed, fan_velocity, ..lumps.airflow };
        let speed = stretch.engine.map(|engine| engine.speed);
        let thousands = speed.map_or(0.0, |speed| speed.base() / (1000.0 * RPM));
        let on_road = (stretch.road_speed.base() / REFERENCE_ROAD_SPEED).powf(FORCED);
        let full_flow = match stretch.engine {
            Some(engine) => lumps.pump.flow(engine.speed, Ratio::from_base(1.0), &mut Silent)?.base(),
            None => 0.0,
        };
        let flow_at_1000 = pump::PUMP_FLOW.check(lumps.pump.flow_at_1000_rpm)?.base();
        let velocity = airflow.face_velocity(&mut Silent)?.base();
        Ok(Self {
            from,
            air: stretch.air.base(),
            air_slope: (stretch.air_at_end.base() - stretch.air.base()) / stretch.lasts.base(),
            velocity,
            rise: if fan || stretch.engine.is_some() { airflow.inlet_rise(&mut Silent)?.base() } else { 0.0 },
            into_metal: heats.coolant.base(),
            into_oil: heats.oil.base(),
            metal: between(lumps, lumps.hot_metal_still, lumps.hot_metal_running, speed),
            block: between(lumps, lumps.block_still, lumps.block_running, speed),
            block_to_air: lumps.block_to_air.base() + lumps.block_to_air_on_road.base() * on_road,
            oil_to_air: lumps.oil_to_air.base() + lumps.oil_to_air_on_road.base() * on_road,
            oil_cooler: lumps.oil_cooler_on_road.base() * on_road,
            full_flow,
            heater_flow: lumps.heater_flow.base() * flow_at_1000 * thousands,
        })
    }

    /// Air temperature at a time, K.
    pub fn air(&self, t: f64) -> f64 {
        self.air + self.air_slope * (t - self.from)
    }

    /// Temperature of the radiator's inlet air at a time, K.
    pub fn inlet(&self, t: f64) -> f64 {
        self.air(t) + self.rise
    }

    /// What the radiator did at a sample.
    pub fn radiated(&self, body: &Body, sample: &Sample) -> Radiated {
        let mut y = [0.0; N];
        (y[at::ENGINE], y[at::RADIATOR]) = (sample.coolant.base(), sample.radiator_outlet.base());
        let warm = body.coolant(y[at::ENGINE]);
        radiated(body, self, sample.opening.base(), sample.time.base(), &y, &warm)
    }

    /// Velocity at the radiator's face, m/s.
    pub const fn velocity(&self) -> f64 {
        self.velocity
    }
}

/// What does not change within a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Held {
    /// Coolant in each body, kg.
    pub coolant: [f64; 3],
    /// How far the thermostat stood open.
    pub opening: f64,
    pub boils: bool,
    /// Heat that makes vapour, J/kg.
    pub latent: f64,
}

/// What the radiator does.
pub(super) struct Radiated {
    /// W.
    pub heat: f64,
    /// Heat capacity rate of the coolant, W/K.
    rate: f64,
    /// Conductance of what stands, W/K.
    pub stands: f64,
}

pub(super) fn radiated(body: &Body, setting: &Setting, opening: f64, t: f64, y: &State, coolant: &Coolant) -> Radiated {
    let temperature = setting.inlet(t);
    let density = body.vessel.ambient() / (fluid::air::gas_constant().base() * temperature);
    let specific_heat = fluid::air::specific_heat().base();
    let air = |velocity: f64| Air { temperature, mass_flux: density * velocity, specific_heat };
    let passed = setting.full_flow * body.lumps.thermostat.passed_base(opening);
    let carried = body.core.carried(coolant, passed, &air(setting.velocity));
    let rate = carried.coolant_rate;
    // Without flow the steady answer's outlet is the air's temperature.
    let outlet = if rate > 0.0 { y[at::ENGINE] - carried.heat / rate } else { temperature };
    let still = body.lumps.radiator_still.base();
    let stands = body.core.standing(coolant, &air(setting.velocity), still);
    let heat = carried.heat + stands * (y[at::RADIATOR] - outlet);
    let hotter = y[at::RADIATOR] >= temperature && y[at::ENGINE] >= temperature;
    Radiated { heat: if hotter { heat.max(0.0) } else { heat }, rate, stands }
}

/// Slopes of all values.
pub(super) fn slopes(body: &Body, setting: &Setting, held: &Held, t: f64, y: &State) -> State {
    let lumps = body.lumps;
    let air = setting.air(t);
    let [engine, radiator, hoses] = held.coolant;
    let (metal, coolant, block, oil) = (y[at::METAL], y[at::ENGINE], y[at::BLOCK], y[at::OIL]);

    let from_metal = setting.metal * (metal - coolant);
    let to_block = setting.block * (coolant - block);
    let oil_to_block = lumps.oil_to_block.base() * (oil - block);
    let block_to_air = setting.block_to_air * (block - air);
    let oil_to_air = (setting.oil_to_air + setting.oil_cooler * lumps.oil_cooler_opening(oil)) * (oil - air);

    let opening = body.opening(y[at::WAX], held.opening);
    let warm = body.coolant(coolant);
    let radiated = radiated(body, setting, opening, t, y, &warm);
    let to_radiator = radiated.rate * (coolant - y[at::RADIATOR]);
    let to_hoses = warm.density * setting.heater_flow * warm.specific_heat * (coolant - y[at::HOSES]);
    let hoses_to_air = lumps.hoses_to_air.base() * (y[at::HOSES] - air);
    let heater_to_air = lumps.heater.base() * (y[at::HOSES] - air);

    let surplus = from_metal - to_block - to_radiator - to_hoses;
    let radiator_capacity = radiator * body.specific_heat(y[at::RADIATOR]) + lumps.radiator_metal.base();
    let turned_over = warm.density * setting.full_flow * lumps.thermostat.passed_base(opening) / radiator;

    let mut slope = [0.0; N];
    slope[at::METAL] = (setting.into_metal - from_metal) / lumps.hot_metal.base();
    if held.boils {
        slope[at::VAPOUR] = surplus / held.latent;
    } else {
        slope[at::ENGINE] = surplus / (engine * warm.specific_heat);
    }
    slope[at::BLOCK] = (to_block + oil_to_block - block_to_air) / lumps.block.base();
    slope[at::OIL] = (setting.into_oil - oil_to_block - oil_to_air) / lumps.oil.base();
    slope[at::RADIATOR] = (to_radiator - radiated.heat) / radiator_capacity;
    slope[at::HOSES] = (to_hoses - hoses_to_air - heater_to_air) / (hoses * body.specific_heat(y[at::HOSES]));
    slope[at::WAX] = (coolant - y[at::WAX]) / lumps.wax_lag.base();
    // Through a radiator that is passed the temperature falls in a straight line; what stands evens out as it cools.
    slope[at::SPREAD] = turned_over * (0.5 * (coolant - y[at::RADIATOR]) - y[at::SPREAD])
        - radiated.stands / radiator_capacity * y[at::SPREAD];
    slope[at::GIVEN] = setting.into_metal + setting.into_oil;
    slope[at::BY_RADIATOR] = radiated.heat;
    slope[at::BY_HEATER] = heater_to_air;
    slope[at::BY_SURFACES] = block_to_air + oil_to_air + hoses_to_air;
    slope
}

/// The temperatures of the coolant's bodies, the radiator's at its outlet.
pub(super) fn wet(y: &State) -> [f64; 3] {
    let mut wet = [0.0; 3];
    wet[Wet::Engine as usize] = y[at::ENGINE];
    wet[Wet::Radiator as usize] = y[at::RADIATOR];
    wet[Wet::Hoses as usize] = y[at::HOSES];
    wet
}
