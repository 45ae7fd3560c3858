//! Energy: what the engine does is what the car gains and loses.

use crate::support::of;
use coldmark::heat::RoadLoad;
use coldmark::quantity::Measured;
use coldmark::scribe::Silent;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Over any course of speeds and grades: Σ P·Δt = Δ(½·m·λ·v²) + m·g·Δh + rolling and drag losses, without drivetrain loss.
    #[test]
    fn work_is_what_the_car_gains_and_loses(
        speeds in prop::collection::vec(0.0..50.0_f64, 2..60),
        grades in prop::collection::vec(-0.2..0.2_f64, 60),
        mass in 500.0..3000.0_f64,
        rotating in 1.0..1.3_f64,
        area in 0.3..2.0_f64,
        rolling in 0.005..0.03_f64,
    ) {
        let (mut work, mut losses, mut height) = (0.0, 0.0, 0.0);
        for (pair, grade) in speeds.windows(2).zip(&grades) {
            let (mean, change) = ((pair[0] + pair[1]) / 2.0, pair[1] - pair[0]);
            let load = RoadLoad {
                mass: of(mass),
                drag_area: of(area),
                rolling_resistance: of(rolling),
                grade: of(*grade),
                speed: of(mean),
                accelerating: of(mass * rotating * change),
                air_density: of(1.2),
                drivetrain_efficiency: of(1.0),
            };
            work += load.power(&mut Silent).unwrap().engine.base();
            let slope = grade.atan();
            losses += mean * (mass * 9.806_65 * rolling * slope.cos() + 0.6 * area * mean * mean);
            height += mean * slope.sin();
        }
        let square = |speed: Option<&f64>| speed.unwrap().powi(2);
        let kinetic = 0.5 * mass * rotating * (square(speeds.last()) - square(speeds.first()));
        let gained = kinetic + mass * 9.806_65 * height;
        prop_assert!((work - gained - losses).abs() < 1e-9 * (work.abs() + gained.abs() + losses), "{work} {gained} {losses}");
    }
}
