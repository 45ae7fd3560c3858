//! The assumed figures of the ventilation: each a default with its spread, its range and its source.

use crate::crankcase::assumed::Assumed;
use crate::quantity::si::{Area, Length, Pressure, Ratio, ThermodynamicTemperature};
use crate::quantity::{Kind, LinearResistance, QuadraticResistance, Range};
use crate::source::crankcase::ventilation::{DISCHARGE, FITTINGS, VENTILATION_DEFAULTS};

macro_rules! assumed {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $low:expr, $likely:expr, $high:expr;
       $what:literal, $kind:ident, $least:expr, $most:expr; $source:ident)*) => {
        $(
            $(#[$doc])*
            pub static $name: Assumed<$type> = Assumed::new(
                $low,
                $likely,
                $high,
                Range::new($what, Kind::$kind, $least, $most, ""),
                &$source,
            );
        )*
        #[cfg(test)]
        fn all() -> Vec<(&'static str, bool)> {
            vec![$((stringify!($name), $name.is_sound())),*]
        }
    };
}

assumed! {
    /// Ratio of specific heats of ventilation gas.
    ISENTROPIC_EXPONENT: Ratio = 1.36, 1.40, 1.40; "ratio of specific heats", Number, 1.05, 1.67; VENTILATION_DEFAULTS
    /// Temperature of the gas in the crankcase.
    CRANKCASE_GAS_TEMPERATURE: ThermodynamicTemperature = 333.15, 363.15, 403.15;
        "temperature of the crankcase gas", Temperature, 233.15, 473.15; VENTILATION_DEFAULTS
    /// Discharge coefficient of a sharp-edged hole.
    SHARP_DISCHARGE: Ratio = 0.60, 0.62, 0.65; "discharge coefficient", Number, 0.3, 1.0; DISCHARGE
    /// Discharge coefficient of a short tube, such as a barb.
    BARB_DISCHARGE: Ratio = 0.75, 0.80, 0.85; "discharge coefficient", Number, 0.3, 1.0; DISCHARGE
    /// Discharge coefficient of a rounded hole.
    ROUNDED_DISCHARGE: Ratio = 0.95, 0.97, 0.98; "discharge coefficient", Number, 0.3, 1.0; DISCHARGE
    /// Effective area of the passages and the baffle between the crankcase and one cover.
    BAFFLE_AREA: Area = 30e-6, 60e-6, 100e-6; "effective area of the baffle", SmallArea, 0.0, 1e-2; VENTILATION_DEFAULTS
    /// Roughness of a rubber hose.
    HOSE_ROUGHNESS: Length = 1e-6, 10e-6, 50e-6; "hose roughness", SmallLength, 0.0, 5e-4; VENTILATION_DEFAULTS
    /// Loss coefficient of a hose's entrance.
    ENTRANCE_LOSS: Ratio = 0.5, 0.5, 0.57; "loss of the entrance", Number, 0.0, 100.0; FITTINGS
    /// Loss coefficient of a hose's exit.
    EXIT_LOSS: Ratio = 1.0, 1.0, 1.0; "loss of the exit", Number, 0.0, 100.0; FITTINGS
    /// Loss coefficient of one bend.
    BEND_LOSS: Ratio = 0.2, 0.3, 1.2; "loss of a bend", Number, 0.0, 100.0; FITTINGS
    /// Viscous coefficient of a small breather filter; high when oiled or dirty.
    BREATHER_VISCOUS: LinearResistance = 2e5, 2e5, 1e6;
        "viscous coefficient of the breather element", LinearResistance, 0.0, 1e10; VENTILATION_DEFAULTS
    /// Inertial coefficient of a small breather filter; high when oiled or dirty.
    BREATHER_INERTIAL: QuadraticResistance = 3e8, 3e8, 1.5e9;
        "inertial coefficient of the breather element", QuadraticResistance, 0.0, 1e14; VENTILATION_DEFAULTS
    /// Effective area of a plunger valve at light depression: for 1.3 L, 2.0 L and 5.0 L engines.
    PLUNGER_OPEN_AREA: Area = 6e-6, 8e-6, 12e-6; "open area of the PCV valve", SmallArea, 1e-8, 1e-3; VENTILATION_DEFAULTS
    /// Effective area of a plunger valve at idle depression: for 1.3 L, 2.0 L and 5.0 L engines.
    PLUNGER_IDLE_AREA: Area = 1.8e-6, 2.2e-6, 4e-6; "idle area of the PCV valve", SmallArea, 1e-8, 1e-3; VENTILATION_DEFAULTS
    /// Depression at which a plunger starts to reduce the opening.
    PLUNGER_STARTS_REDUCING: Pressure = 4e3, 8e3, 15e3;
        "depression at which the plunger starts to move", PressureDifference, 0.0, 1e5; VENTILATION_DEFAULTS
    /// Depression at which a plunger has reduced the opening to its idle area.
    PLUNGER_FULLY_REDUCED: Pressure = 35e3, 50e3, 60e3;
        "depression at which the plunger is fully in", PressureDifference, 0.0, 1e5; VENTILATION_DEFAULTS
    /// Effective area of a seated plunger on backfire.
    BACK_OPENING: Area = 0.0, 1e-10, 1e-8; "opening of the PCV valve on backfire", SmallArea, 0.0, 1e-3; VENTILATION_DEFAULTS
    /// Bore of a fixed-orifice valve.
    FIXED_ORIFICE_BORE: Length = 1.5e-3, 2.2e-3, 3e-3; "bore of the fixed orifice", SmallLength, 1e-4, 0.1; VENTILATION_DEFAULTS
    /// Leak of a closed check valve, as an effective area.
    SEAT_LEAK: Area = 0.0, 1e-10, 1e-8; "leak of a closed seat", SmallArea, 0.0, 1e-5; VENTILATION_DEFAULTS
    /// Opening pressure of a check valve.
    CHECK_OPENING_PRESSURE: Pressure = 0.0, 200.0, 1000.0;
        "opening pressure of a check valve", PressureDifference, 0.0, 2e4; VENTILATION_DEFAULTS
    /// Loss where a hose enters a catch can, on the hose's velocity, beyond the hose's own exit.
    CAN_INLET_LOSS: Ratio = 0.0, 1.0, 2.0; "loss at the can's inlet", Number, 0.0, 100.0; VENTILATION_DEFAULTS
    /// Loss where gas leaves a catch can, on the velocity in the outlet.
    CAN_OUTLET_LOSS: Ratio = 0.3, 0.5, 1.0; "loss at the can's outlet", Number, 0.0, 100.0; VENTILATION_DEFAULTS
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_default_is_in_order_and_in_its_range() {
        let all = super::all();
        assert!(all.len() > 20);
        for (name, sound) in all {
            assert!(sound, "{name}");
        }
    }
}
