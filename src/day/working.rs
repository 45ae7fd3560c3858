//! The working of a day: what decided it, at its hottest coolant.

use super::DayError;
use super::body::Body;
use super::flow::{Setting, between};
use super::record::Sample;
use super::settle::Now;
use crate::heat::RadiatorDuty;
use crate::quantity::si::{ThermalConductance, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::bodies::{BODIES, FORCED_CONVECTION, WAX};

/// Writes the equations with the figures of the hottest sample with a turning engine.
pub(super) fn write(
    body: &Body<'_>,
    now: &Now,
    hottest: Option<&(Sample, Setting)>,
    scribe: &mut impl Scribe,
) -> Result<(), DayError> {
    let lumps = body.lumps;
    scribe.step(|| {
        Step::new(
            "where the coolant boils when the cap lets go",
            "t_boil",
            "t_boil = T_bubble(p₀ + p_cap + p_tank)",
            &DEFINITION,
        )
        .with("p₀", lumps.system.ambient)
        .with("p_cap", lumps.behind_cap.opening)
        .with("p_tank", GaugePressure::from_base(now.charge.tank_gauge))
        .gives(ThermodynamicTemperature::from_base(now.hold))
    });
    let Some((sample, setting)) = hottest else { return Ok(()) };
    let conductance = |still: ThermalConductance, running: ThermalConductance| {
        ThermalConductance::from_base(between(lumps, still, running, Some(sample.engine_speed)))
    };
    let metal = conductance(lumps.hot_metal_still, lumps.hot_metal_running);
    let block = conductance(lumps.block_still, lumps.block_running);
    for (meaning, symbol, still, running, gives) in [
        ("from hot metal to the coolant", "G_m", lumps.hot_metal_still, lumps.hot_metal_running, metal),
        ("from the coolant to the block", "G_b", lumps.block_still, lumps.block_running, block),
    ] {
        scribe.step(|| {
            let equation = "G = G_still + (G_running − G_still)(n/3000 rpm)^k";
            Step::new(meaning, symbol, equation, &FORCED_CONVECTION)
                .with("G_still", still)
                .with("G_running", running)
                .with("n", sample.engine_speed)
                .with("k", lumps.flow_power)
                .gives(gives)
        });
    }
    let watts = |value: f64| Amount::new(value, Kind::Power);
    scribe.step(|| {
        let given = metal.base() * (sample.metal.base() - sample.coolant.base());
        Step::new("heat into the coolant at its hottest", "Q_m", "Q_m = G_m (T_m − T_e)", &BODIES)
            .with("G_m", metal)
            .with("T_m", sample.metal)
            .with("T_e", sample.coolant)
            .gives_amount(watts(given))
    });
    scribe.step(|| {
        let taken = block.base() * (sample.coolant.base() - sample.block.base());
        Step::new("heat into the block there", "Q_b", "Q_b = G_b (T_e − T_b)", &BODIES)
            .with("G_b", block)
            .with("T_e", sample.coolant)
            .with("T_b", sample.block)
            .gives_amount(watts(taken))
    });
    scribe.step(|| {
        let equation = "s = max(s_open(T_w), min(s_before, s_open(T_w + Δt_lag))), τ Ṫ_w = T_e − T_w";
        Step::new("opening of the thermostat there", "s", equation, &WAX)
            .with("τ", lumps.wax_lag)
            .with("Δt_lag", lumps.closing_lag)
            .with("T_e", sample.coolant)
            .gives(sample.opening)
    });
    let passed = lumps.thermostat.passed(sample.opening, scribe)?;
    let flow = lumps.pump.flow(sample.engine_speed, passed, scribe)?;
    let duty = RadiatorDuty {
        mix: lumps.system.mix,
        // An event is found a millionth of a second late.
        coolant_temperature: ThermodynamicTemperature::from_base(body.told(sample.coolant.base())),
        coolant_flow: flow,
        air_temperature: ThermodynamicTemperature::from_base(setting.inlet(sample.time.base())),
        air_pressure: lumps.system.ambient,
        face_velocity: Velocity::from_base(setting.velocity()),
    };
    let steady = lumps.radiator.heat(&duty, scribe)?;
    let radiated = setting.radiated(body, sample);
    scribe.step(|| {
        let equation = "Q_r = Q + G_r (T_r − T_out)";
        Step::new("heat the radiator takes out there, with coolant that stands in it", "Q_r", equation, &BODIES)
            .with("Q", steady.heat)
            .with("G_r", ThermalConductance::from_base(radiated.stands))
            .with("T_r", sample.radiator_outlet)
            .with("T_out", steady.coolant_return)
            .gives_amount(watts(radiated.heat))
    });
    Ok(())
}
