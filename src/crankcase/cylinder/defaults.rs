//! Every figure the cylinder part assumes, with its spread, its range and its source.
//!
//! Coherent SI units throughout: pascals, kelvins, radians.

use crate::quantity::si::{
    Angle, AngularVelocity, AvailableEnergy, Pressure, Ratio, ThermodynamicTemperature as Temperature,
};
use crate::quantity::{DEGREE, GaugePressure, Kind, RPM, Range};
use crate::source::assumed;
use crate::source::crankcase::blow_by as source;

/// Engine speeds.
pub static SPEED: Range =
    Range::new("engine speed", Kind::RotationalSpeed, 100.0 * RPM, 15_000.0 * RPM, "revolutions a minute of the crank");
/// Manifold pressures, absolute.
pub static MANIFOLD: Range = Range::new(
    "manifold pressure",
    Kind::AbsolutePressure,
    10e3,
    500e3,
    "enter it absolute: the ambient less what a vacuum gauge shows",
);
/// Ambient pressures.
pub static AMBIENT: Range = Range::new(
    "ambient pressure",
    Kind::AbsolutePressure,
    50e3,
    110e3,
    "101.3 kPa at sea level, about 11.5 kPa less for each 1000 m",
);
/// Crank angles by which half the charge is burnt.
pub static HALF_BURNT: Range = Range::new(
    "angle of half burn",
    Kind::Angle,
    -10.0 * DEGREE,
    60.0 * DEGREE,
    "10° after dead centre suits a healthy engine",
);
/// Burn durations.
pub static BURN_DURATION: Range =
    Range::new("burn duration", Kind::Angle, 15.0 * DEGREE, 120.0 * DEGREE, "40° to 90° is usual");
/// Shares of residual gas.
pub static RESIDUAL: Range =
    Range::new("residual gas share", Kind::Share, 0.0, 0.6, "6 % at full throttle, 25 % at idle");
/// Temperatures of the charge at inlet closing.
pub static CHARGE_TEMPERATURE: Range =
    Range::new("charge temperature", Kind::Temperature, 250.0, 700.0, "57 °C to 127 °C is usual at inlet closing");
/// Shares of the heat that goes to the walls.
pub static WALL_HEAT: Range =
    Range::new("wall heat share", Kind::Share, 0.0, 0.6, "15 % at full throttle, 35 % at idle");
/// Crankcase pressures, absolute.
pub static CRANKCASE: Range = Range::new(
    "crankcase pressure",
    Kind::AbsolutePressure,
    20e3,
    200e3,
    "near the ambient pressure on a working ventilation",
);

const BOOST: Range =
    Range::new("boost at full throttle", Kind::GaugePressure, 0.0, 350e3, "30 to 100 kPa petrol, 80 to 160 kPa diesel");

/// A speed typed in revolutions a minute, for the tables of figures.
pub(super) fn rpm(value: f64) -> AngularVelocity {
    crate::quantity::Measured::from_base(value * RPM)
}

assumed! {
    /// Crank angle at which the inlet valve closes, counted from firing dead centre.
    inlet_closing: Angle = [-160.0 * DEGREE, -140.0 * DEGREE, -120.0 * DEGREE],
        Range::new("inlet closing", Kind::Angle, -175.0 * DEGREE, -95.0 * DEGREE, "40° after bottom dead centre is -140°"),
        source::CYCLE_FIGURES;
    /// Crank angle at which the exhaust valve opens.
    exhaust_opening: Angle = [110.0 * DEGREE, 130.0 * DEGREE, 150.0 * DEGREE],
        Range::new("exhaust opening", Kind::Angle, 80.0 * DEGREE, 178.0 * DEGREE, "50° before bottom dead centre is 130°"),
        source::CYCLE_FIGURES;
    /// Cylinder over manifold pressure at inlet closing when the throttle is open: the column of air keeps coming.
    ram: Ratio = [1.0, 1.08, 1.15],
        Range::new("ram at inlet closing", Kind::Number, 0.8, 1.4, "1 without, 1.08 with an ordinary manifold"),
        source::CYCLE_FIGURES;
    /// Share of the ambient pressure above which the ram counts: 90 kPa at sea level.
    ram_from: Ratio = [0.86, 90.0 / 101.325, 0.92],
        Range::new("manifold share from which the ram counts", Kind::Share, 0.5, 3.0, "about 89 % of the ambient"),
        source::CYCLE_FIGURES;
    /// Exhaust pressure above the ambient during the exhaust stroke: 105 kPa at sea level.
    back_pressure: Pressure = [1.5e3, 3.675e3, 10e3],
        Range::new("exhaust back pressure", Kind::PressureDifference, 0.0, 1e6, "2 kPa to 10 kPa is usual; about the boost with a turbine"),
        source::CYCLE_FIGURES;
    /// Crank angle in which the pressure above the exhaust falls to 1/e after exhaust opening.
    blow_down: Angle = [12.0 * DEGREE, 20.0 * DEGREE, 30.0 * DEGREE],
        Range::new("blow-down decay", Kind::Angle, 3.0 * DEGREE, 90.0 * DEGREE, "20° is usual"),
        source::CYCLE_FIGURES;
    /// Crank angle in which the pressure comes to the manifold's after exchange dead centre.
    inlet_decay: Angle = [10.0 * DEGREE, 15.0 * DEGREE, 25.0 * DEGREE],
        Range::new("inlet decay", Kind::Angle, 3.0 * DEGREE, 90.0 * DEGREE, "15° is usual"),
        source::CYCLE_FIGURES;
    /// Air for each mass of fuel.
    air_fuel: Ratio = [12.5, 14.7, 15.0],
        Range::new("air-fuel ratio", Kind::Number, 8.0, 2000.0, "14.7 for petrol without excess of either; a diesel 18 at full load to 100 at idle"),
        source::CYCLE_FIGURES;
    /// Lower heating value of petrol.
    heating_value: AvailableEnergy = [42.5e6, 44.0e6, 44.5e6],
        Range::new("heating value", Kind::SpecificEnergy, 15e6, 55e6, "44 000 kJ/kg for petrol"),
        source::CYCLE_FIGURES;
    /// Share of the fuel's heat that is set free.
    combustion: Ratio = [0.92, 0.96, 0.98],
        Range::new("combustion efficiency", Kind::Share, 0.3, 1.0, "96 % is usual"),
        source::CYCLE_FIGURES;
    /// Cylinder over manifold pressure at inlet closing of a diesel, whose manifold is short and without a throttle.
    diesel_ram: Ratio = [1.0, 1.03, 1.08],
        Range::new("ram at inlet closing", Kind::Number, 0.8, 1.4, "1 without"),
        source::DIESEL_FIGURES;
    /// Air for each mass of fuel at a light load of a diesel; the power says what it is.
    diesel_air_fuel: Ratio = [18.0, 35.0, 80.0],
        Range::new("air-fuel ratio", Kind::Number, 8.0, 2000.0, "18 at full load to 100 at idle"),
        source::DIESEL_FIGURES;
    /// The least air for each mass of diesel fuel that burns without black smoke: an excess of 17 % (10 to 40).
    smoke_limit: Ratio = [16.0, 17.0, 20.0],
        Range::new("air-fuel ratio at the smoke limit", Kind::Number, 14.5, 40.0, "17 to 20"),
        source::DIESEL_FIGURES;
    /// Lower heating value of diesel fuel.
    diesel_heating_value: AvailableEnergy = [42.0e6, 42.6e6, 43.2e6],
        Range::new("heating value", Kind::SpecificEnergy, 15e6, 55e6, "42 600 kJ/kg for diesel fuel"),
        source::DIESEL_FIGURES;
    /// Share of the heat of diesel fuel that is set free.
    diesel_combustion: Ratio = [0.97, 0.99, 0.995],
        Range::new("combustion efficiency", Kind::Share, 0.3, 1.0, "99 % is usual"),
        source::DIESEL_FIGURES;
    /// Duration of the premixed stage of a diesel's burn.
    premixed_duration: Angle = [5.0 * DEGREE, 7.0 * DEGREE, 10.0 * DEGREE],
        Range::new("duration of the premixed burn", Kind::Angle, 2.0 * DEGREE, 40.0 * DEGREE, "7° is usual"),
        source::TWO_STAGE_BURN;
    /// Boost of a turbocharged petrol engine at full throttle.
    boost_of_turbocharger: GaugePressure = [30e3, 60e3, 100e3], BOOST, source::BOOST_FIGURES;
    /// Boost of a petrol engine with a blower driven by the crank at full throttle.
    boost_of_blower: GaugePressure = [30e3, 50e3, 70e3], BOOST, source::BOOST_FIGURES;
    /// Boost of a diesel with a blower at full load.
    boost_of_diesel: GaugePressure = [80e3, 120e3, 160e3], BOOST, source::BOOST_FIGURES;
    /// Isentropic efficiency of a blower: a rotary one 50 to 60 %, a turbine-driven one 65 to 75 %.
    compressor_efficiency: Ratio = [0.50, 0.65, 0.75],
        Range::new("efficiency of the blower", Kind::Share, 0.3, 0.9, "50 to 75 %"),
        source::BOOST_FIGURES;
    /// Share of the way down to the outside air that a charge cooler takes.
    cooler_effectiveness: Ratio = [0.5, 0.65, 0.8],
        Range::new("effectiveness of the charge cooler", Kind::Share, 0.0, 1.0, "50 to 80 %; 0 without one"),
        source::BOOST_FIGURES;
    /// Pressure before a turbine, above the ambient, over the boost it makes.
    turbine_over_boost: Ratio = [0.7, 1.0, 1.5],
        Range::new("pressure before the turbine over boost", Kind::Number, 0.0, 3.0, "0.7 to 1.5"),
        source::BOOST_FIGURES;
    /// Temperature of the gas that passes the top land: near the walls', not the flame's.
    crevice_temperature: Temperature = [380.0, 430.0, 500.0],
        Range::new("crevice gas temperature", Kind::Temperature, 280.0, 800.0, "157 °C on a warm engine"),
        source::CREVICE_GAS;
}

#[cfg(test)]
mod tests {
    use crate::crankcase::cylinder::{Cycle, Duty, LeakPath, figures};
    use crate::quantity::{AbsolutePressure, Measured};

    #[test]
    fn the_figures_of_every_duty_are_in_order_and_allowed() {
        Cycle::default().check().unwrap();
        for kilopascals in [50.0, 70.0, 101.325, 110.0] {
            let ambient = AbsolutePressure::from_base(kilopascals * 1e3);
            LeakPath::likely(ambient).check().unwrap();
            for duty in Duty::ALL {
                let found = figures(duty, ambient).unwrap();
                found.likely().check().unwrap();
                let ends = [
                    (found.manifold.low.base(), found.manifold.likely.base(), found.manifold.high.base()),
                    (found.speed.low.base(), found.speed.likely.base(), found.speed.high.base()),
                    (found.residual.low.base(), found.residual.likely.base(), found.residual.high.base()),
                    (found.half_burnt.low.base(), found.half_burnt.likely.base(), found.half_burnt.high.base()),
                    (found.wall_heat.low.base(), found.wall_heat.likely.base(), found.wall_heat.high.base()),
                ];
                assert!(ends.iter().all(|(low, likely, high)| low <= likely && likely <= high), "{duty:?}");
                assert!(found.manifold.high < ambient, "{duty:?} at {kilopascals} kPa");
            }
            assert!(crate::crankcase::cylinder::injection::soundness(ambient), "diesel at {kilopascals} kPa");
        }
    }
}
