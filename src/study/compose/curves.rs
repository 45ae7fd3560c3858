//! The curves of the plots.

use super::answer::growth_at;
use super::blow_by::{Areas, Running, cylinder_at};
use super::context::Context;
use super::coolant::Side;
use super::crankcase;
use super::radiators::Radiators;
use super::thermal;
use super::{filled, tank, valve, ventilation};
use crate::quantity::si::{AngularVelocity, Pressure, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, celsius};
use crate::scribe::Silent;
use crate::study::{Curves, Duty, GrowthPoint, LoadPoint, Problems, Project, SpeedPoint, ValvePoint};

/// Points of a curve.
const POINTS: u32 = 40;

/// The curves of a checked project.
pub(in crate::study) fn curves(project: &Project) -> Result<Curves, Problems> {
    let context = Context::new(project, &mut Silent)?;
    Ok(Curves {
        growth: growth(&context)?,
        blow_by: blow_by(&context)?,
        crankcase: crankcase(&context)?,
        valve: valve_alone(&context)?,
    })
}

/// The valve by itself, from no depression to 90 kPa, or to nine tenths of what the air has where that is less. A table
/// ends where it was measured.
fn valve_alone(context: &Context<'_>) -> Result<Vec<ValvePoint>, Problems> {
    let ventilation = &context.project.ventilation;
    if !ventilation.has_valve() {
        return Ok(Vec::new());
    }
    let valve = valve::valve(&ventilation.valve)?;
    let ambient = context.ambient.base();
    let deepest = (0.9 * ambient).min(90e3);
    let at = |i: u32| {
        // Closer together where the valve has hardly opened.
        let share = f64::from(i) / f64::from(2 * POINTS);
        let depression = deepest * share.powf(1.5);
        let behind = AbsolutePressure::from_base(ambient - depression);
        let flow = valve::through(&valve, context.ambient, (behind, celsius(20.0)), &mut Silent).ok()?;
        Some(ValvePoint { depression: Pressure::from_base(depression), flow })
    };
    Ok((0..=2 * POINTS).map_while(at).collect())
}

fn growth(context: &Context<'_>) -> Result<Vec<GrowthPoint>, Problems> {
    let mut side = Side::new(context, &mut Silent)?;
    let radiators = Radiators::of(context, &mut Silent)?;
    let limit = side.limit(GaugePressure::from_base(0.0));
    let ceiling = thermal::ceiling(context, limit.low)?;
    let mut hottest = None;
    for duty in Duty::ALL {
        let heat = thermal::duty_heat(context, &radiators, duty, ceiling, &mut Silent)?;
        if hottest.as_ref().is_none_or(|other: &thermal::DutyHeat| heat.outlet > other.outlet) {
            hottest = Some(heat);
        }
    }
    let Some(hottest) = hottest else { return Ok(Vec::new()) };
    let drawn = side.drawn_cold(&mut Silent)?;
    let parts = filled::parts_at(hottest.outlet, hottest.radiator_outlet);
    let (growth, _) = side.growth(&parts, drawn, &mut Silent)?;
    tank::settle_cold_volume(&mut side, &growth, &mut Silent)?;
    let low = side.coldest.base();
    // Up to where the coolant boils at the cap's likely pressure, or where its data end.
    let boils = context.mix.boiling_point(limit.likely, &mut Silent).map_or(f64::INFINITY, Measured::base);
    let high = boils.min(273.15 + 120.0) - 0.1;
    let mut points = Vec::new();
    for i in 0..=POINTS {
        let at = low + (high - low) * f64::from(i) / f64::from(POINTS);
        points.push(growth_at(&side, &growth, ThermodynamicTemperature::from_base(at))?);
    }
    Ok(points)
}

/// Blow-by and capacity against speed at full throttle, from idle speed to a quarter above the duty's speed.
fn blow_by(context: &Context<'_>) -> Result<Vec<SpeedPoint>, Problems> {
    let full = Duty::FullThrottle;
    let manifold = context.manifold[full.index()].0;
    let top = context.project.duty.of(full).rpm;
    let cylinder = cylinder_at(context, full, Running::at(context, full), "duty.full_throttle", &mut Silent)?;
    let areas = Areas::of(context, &cylinder, &mut Silent)?;
    let ventilation = ventilation::ventilation(&context.project.ventilation)?;
    let limit = crankcase::limit(context, full).likely;
    let low = context.project.duty.of(Duty::Idle).rpm.base();
    let high = top.base() * 1.25;
    let mut points = Vec::new();
    for i in 0..=12 {
        let rpm = AngularVelocity::from_base(low + (high - low) * f64::from(i) / 12.0);
        let running = Running::full_load(context, rpm, manifold);
        let here = cylinder_at(context, full, running, "duty.full_throttle", &mut Silent)?;
        let (answers, _) = areas.blow_by(&here, &mut Silent)?;
        let filter = context.filter_depression(here.trace.air_flow(), cylinder.trace.air_flow()).likely;
        let at = crankcase::boundary(context, answers.forward.likely, manifold, filter);
        let capacity = crankcase::limit_at(&ventilation, &at, limit);
        points.push(SpeedPoint { rpm, blow_by: answers.forward, capacity });
    }
    Ok(points)
}

/// Crankcase pressure against manifold pressure at the cruise speed.
fn crankcase(context: &Context<'_>) -> Result<Vec<LoadPoint>, Problems> {
    let full = Duty::FullThrottle;
    let wide_open = context.manifold[full.index()].0;
    let cylinder = cylinder_at(context, full, Running::at(context, full), "duty.full_throttle", &mut Silent)?;
    let areas = Areas::of(context, &cylinder, &mut Silent)?;
    let ventilation = ventilation::ventilation(&context.project.ventilation)?;
    let cruise = context.project.duty.of(Duty::Cruise).rpm;
    let low = context.manifold.iter().map(|(pressure, _)| pressure.base()).fold(wide_open.base(), f64::min);
    let mut points = Vec::new();
    for i in 0..=24 {
        let share = f64::from(i) / 24.0;
        let manifold = AbsolutePressure::from_base(low + (wide_open.base() - low) * share);
        // The burn of the nearest duty: light load below 70 % of wide open, else a hill.
        let duty = if manifold.base() < 0.7 * wide_open.base() { Duty::Cruise } else { Duty::Hill };
        let mut running = Running::full_load(context, cruise, manifold);
        running.power *= share;
        let here = cylinder_at(context, duty, running, "duty.cruise", &mut Silent)?;
        let (answers, _) = areas.blow_by(&here, &mut Silent)?;
        let filter = context.filter_depression(here.trace.air_flow(), cylinder.trace.air_flow()).likely;
        let at = |blow_by| {
            let at = crankcase::boundary(context, blow_by, manifold, filter);
            crankcase::quick_case(&ventilation, &at, "at the cruise speed").map(|case| case.gauge)
        };
        let forward = answers.forward;
        let gauge = Estimate::sorted(at(forward.low)?, at(forward.likely)?, at(forward.high)?);
        points.push(LoadPoint { manifold, gauge });
    }
    Ok(points)
}
