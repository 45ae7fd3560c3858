//! The car of a project: as entered, from its duty points, and from defaults.

use crate::day::road::{PER_THOUSAND, defaults as road};
use crate::day::{Car, CarInput, FullLoad};
use crate::quantity::si::Velocity;
use crate::quantity::{Amount, Measured, RPM, UnitSystem};
use crate::study::compose::context::Context;
use crate::study::compose::problem;
use crate::study::{Duty, Problems, defaults};

/// How many gears a car has of which only the top gear is known.
const USUAL_GEARS: i32 = 5;

/// The car of a project, at likely values.
///
/// # Errors
/// Without gears entered, a cruise duty that tells no top gear.
pub(in crate::study::compose) fn car(context: &Context<'_>) -> Result<Car, Problems> {
    let (inputs, duty) = (&context.project.car, &context.project.duty);
    let full = duty.of(Duty::FullThrottle);
    // What the air cannot burn, no engine makes on the road either; a note says so already.
    let power = if full.power > context.burnable { context.burnable } else { full.power };
    Ok(Car {
        mass: inputs.mass.unwrap_or_else(defaults::car_mass).likely,
        drag_area: inputs.drag_area.unwrap_or_else(defaults::drag_area).likely,
        rolling_resistance: inputs.rolling_resistance.unwrap_or_else(defaults::rolling_resistance).likely,
        drivetrain_efficiency: inputs.drivetrain_efficiency.unwrap_or_else(defaults::drivetrain_efficiency).likely,
        rotating: inputs.rotating_mass.unwrap_or_else(defaults::rotating_mass).likely,
        gears: if inputs.gears.is_empty() { gears(context)? } else { inputs.gears.clone() },
        idle_speed: duty.of(Duty::Idle).rpm,
        lugging_speed: inputs.lugging_speed.unwrap_or_else(|| defaults::lugging_speed(duty)).likely,
        reserve: inputs.gear_reserve.unwrap_or_else(defaults::gear_reserve).likely,
        highest_speed: inputs.highest_speed.unwrap_or_else(|| defaults::highest_speed(duty)).likely,
        full_load: FullLoad {
            speed: full.rpm,
            power,
            // Powers are entered as they are made in the air of the altitude.
            air: context.ambient,
            flat_from: inputs.torque_flat_from.unwrap_or_else(defaults::torque_flat_from).likely,
            low_torque: inputs.torque_at_idle.unwrap_or_else(defaults::torque_at_idle).likely,
        },
    })
}

/// Five gears in equal steps, the top one as the cruise duty has it: v₁₀₀₀ = v/(n/1000 rpm).
fn gears(context: &Context<'_>) -> Result<Vec<Velocity>, Problems> {
    let cruise = context.project.duty.of(Duty::Cruise);
    let top = cruise.road_speed.base() / (cruise.rpm.base() / (1000.0 * RPM));
    let step = road::gear_step().likely().base();
    let lowest = top / step.powi(USUAL_GEARS - 1);
    if PER_THOUSAND.check_base(lowest).and_then(|_| PER_THOUSAND.check_base(top)).is_err() {
        let message = format!(
            "the cruise duty, {} at {}, is no road speed from which a top gear could be told: enter the road speed at 1000 rpm \
             of each gear, or check the cruise duty",
            Amount::of(cruise.road_speed).show(UnitSystem::Si),
            Amount::of(cruise.rpm).show(UnitSystem::Si)
        );
        return Err(problem("car.gears", message));
    }
    Ok((0..USUAL_GEARS).map(|gear| Velocity::from_base(lowest * step.powi(gear))).collect())
}

/// Where a figure of the car is entered.
pub(super) const fn path(input: CarInput) -> &'static str {
    match input {
        CarInput::Mass => "car.mass",
        CarInput::DragArea => "car.drag_area",
        CarInput::RollingResistance => "car.rolling_resistance",
        CarInput::DrivetrainEfficiency => "car.drivetrain_efficiency",
        CarInput::Rotating => "car.rotating_mass",
        CarInput::Gears => "car.gears",
        CarInput::IdleSpeed => "duty.idle.rpm",
        CarInput::LuggingSpeed => "car.lugging_speed",
        CarInput::Reserve => "car.gear_reserve",
        CarInput::HighestSpeed => "car.highest_speed",
        CarInput::FullLoadSpeed => "duty.full_throttle.rpm",
        CarInput::FullLoadPower => "duty.full_throttle.power",
        CarInput::FlatFrom => "car.torque_flat_from",
        CarInput::LowTorque => "car.torque_at_idle",
    }
}
