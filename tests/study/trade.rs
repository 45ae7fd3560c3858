//! Facts of the trade that every answer must reproduce, told to the program as projects. All of them are common practice and
//! have no published source; they are checks of sign and size. Those about cover screws and gaskets have no part in the
//! program yet.

use crate::build::{answered, known, litres, millimetres, with_blow_by};
use coldmark::file::demo;
use coldmark::quantity::si::{Area, Length, Power};
use coldmark::quantity::{GaugePressure, Measured, celsius};
use coldmark::study::{
    Answers, CanPlace, Duty, DutyAnswers, FlowPath, Project, RingCondition, SetPointAnswers, ShapeKind, State,
    TankArrangement, VentKind, VentilationArrangement,
};

fn row(answers: &Answers, celsius: f64) -> &SetPointAnswers {
    answers.set_points.iter().find(|row| (row.set_point.value - 273.15 - celsius).abs() < 0.6).unwrap()
}

fn duty(answers: &Answers, duty: Duty) -> &DutyAnswers {
    &answers.duties[duty.index()]
}

fn gauge(answers: &Answers, at: Duty) -> f64 {
    duty(answers, at).likely().gauge.above_ambient().value
}

fn state(answers: &Answers, key: &str) -> State {
    answers.verdict(key).unwrap_or_else(|| panic!("no verdict {key}")).state
}

/// Common practice, no source: with a radiator in hand the coolant runs near whichever thermostat is fitted, 160 °F or
/// 190 °F; the cooler one gives a smaller hot level and a larger boiling margin.
#[test]
fn thermostats_matter_with_a_radiator_in_hand() {
    let mut project = Project::blank();
    project.surroundings.hottest = celsius(25.0);
    project.radiator.conductance = known(3500.0);
    for point in &mut project.duty.points {
        point.power = Power::from_base(point.power.value.min(20e3));
    }
    let answers = answered(&project);
    let (cool, hot) = (row(&answers, 71.0), row(&answers, 88.0));
    let cruise = Duty::Cruise.index();
    for one in [cool, hot] {
        assert!(!one.duties[cruise].radiator_rules);
        let above = one.duties[cruise].outlet.unwrap().value - one.set_point.value;
        assert!((0.0..12.0).contains(&above), "{above}");
    }
    assert!(hot.duties[cruise].outlet.unwrap().value - cool.duties[cruise].outlet.unwrap().value > 10.0);
    assert!(cool.in_tank < hot.in_tank && cool.hot_mark.unwrap() < hot.hot_mark.unwrap());
    assert!(cool.least_margin.value > hot.least_margin.value + 5.0);
}

/// Common practice, no source: with a saturated radiator both thermostats give the same temperature.
#[test]
fn thermostats_do_not_help_a_saturated_radiator() {
    let mut project = Project::blank();
    project.cap.opening = GaugePressure::from_base(110e3);
    let full = Duty::FullThrottle.index();
    // Find a load at which the radiator is saturated and nothing boils yet.
    let saturated = (20..160).map(f64::from).find_map(|kilowatts| {
        for point in &mut project.duty.points {
            point.power = Power::from_base(point.power.value.min(kilowatts * 1e3));
        }
        project.duty.points[full].power = Power::from_base(kilowatts * 1e3);
        let answers = answered(&project);
        let (cool, hot) = (&row(&answers, 71.0).duties[full], &row(&answers, 88.0).duties[full]);
        (cool.radiator_rules && hot.radiator_rules).then_some((cool.outlet, hot.outlet))
    });
    let (Some(cool), Some(hot)) = saturated.expect("no load saturates the radiator") else { panic!("it boils first") };
    assert!((cool.value - hot.value).abs() < 1e-3, "{cool:?} {hot:?}");
    assert!(cool.value > 273.15 + 88.0);
}

/// Common practice, no source: an overflow can with a sealed lid builds pressure as coolant comes in and works against the
/// cap; a hole drilled in the lid cures it. The answer for the same can shows both.
#[test]
fn a_sealed_can_builds_pressure_and_a_hole_cures_it() {
    let mut project = Project::blank();
    project.tank.shape = ShapeKind::Box;
    [project.tank.length, project.tank.width, project.tank.height] = [140.0, 120.0, 180.0].map(millimetres);
    project.tank.vent_diameter = millimetres(20.0);
    let vented = answered(&project);
    project.tank.vent = VentKind::Sealed;
    let sealed = answered(&project);
    let (with_hole, without) = (vented.tank.vent.as_ref().unwrap(), sealed.tank.vent.as_ref().unwrap());
    assert!(!with_hole.sealed && without.sealed);
    // Each answer shows the other case.
    let builds = without.if_sealed.clone().unwrap().above_ambient().value;
    assert!(builds > 5e3, "{builds}");
    assert_eq!(with_hole.if_sealed, without.if_sealed);
    assert!(with_hole.warm_up.unwrap().likely.above_ambient().value < 0.02 * builds);
    assert!(without.warm_up.is_none());
    assert!(without.least_hole_warm_up.likely.value > 0.0);
    // The system sees the sum of cap and can.
    let full = Duty::FullThrottle;
    let system = |answers: &Answers| duty(answers, full).held.gauge.above_ambient().value;
    let cap = project.cap.opening.above_ambient().value;
    if duty(&vented, full).held.cap_open && duty(&sealed, full).held.cap_open {
        assert!((system(&vented) - cap).abs() < 1.0);
        let tank = duty(&sealed, full).held.tank_gauge.above_ambient().value;
        assert!(tank > 5e3 && (system(&sealed) - cap - tank).abs() < 50.0);
    } else {
        panic!("the cap stays shut: this can shows nothing");
    }
    assert_eq!(state(&sealed, "tank_vent"), State::DoesNotHold);
    let mend = sealed.verdict("tank_vent").unwrap().mend.clone().unwrap();
    assert!(mend.show(coldmark::quantity::UnitSystem::Si).contains("vent of"));
    assert_ne!(state(&vented, "tank_vent"), State::DoesNotHold);
}

fn worn() -> Project {
    let mut project = demo();
    project.blow_by.leak_down.clear();
    project.blow_by.condition = RingCondition::Worn;
    project.ventilation.arrangement = VentilationArrangement::BreatherOnly;
    project.ventilation.can.place = CanPlace::None;
    project
}

/// Common practice, no source: an engine whose breather pushes oil out at load gets better when the same line is joined by a
/// PCV valve to the manifold, at idle and cruise; at full throttle the valve passes little and the breather must still
/// carry the blow-by.
#[test]
fn a_valve_helps_at_idle_and_cruise_and_not_at_full_throttle() {
    let project = worn();
    let before = answered(&project);
    let mut with_valve = project.clone();
    with_valve.ventilation.arrangement = VentilationArrangement::BreatherWithValve;
    let after = answered(&with_valve);
    for at in Duty::ALL {
        assert!(duty(&before, at).breather_out() > 0.0, "{at:?}: a breather alone carries all the blow-by out");
    }
    for at in [Duty::Idle, Duty::Cruise, Duty::Overrun] {
        assert!(gauge(&after, at) < gauge(&before, at) - 1.0, "{at:?}");
        assert!(duty(&after, at).breather_out() < 0.5 * duty(&before, at).breather_out(), "{at:?}");
    }
    let mut healthy = with_valve.clone();
    healthy.blow_by.condition = RingCondition::RunIn;
    let healthy = answered(&healthy);
    for at in [Duty::Idle, Duty::Cruise, Duty::Overrun] {
        assert!(duty(&healthy, at).breather_out() < 0.0, "{at:?}: fresh air comes in by a healthy engine's breather");
    }
    let full = duty(&after, Duty::FullThrottle);
    assert!(full.breather_out() > 0.5 * full.likely().blow_by.value, "the breather still carries most of it");
    assert!(gauge(&after, Duty::FullThrottle) > full.limit.likely.above_ambient().value, "it stays beyond its limit");
}

trait BreatherOut {
    /// Out through the breather at the likely blow-by, kg/s.
    fn breather_out(&self) -> f64;
}

impl BreatherOut for DutyAnswers {
    fn breather_out(&self) -> f64 {
        self.likely().flow(FlowPath::Breather).unwrap().out.value
    }
}

/// Common practice, no source: a catch can between cover and breather keeps oil off the exhaust but does not lower the crankcase
/// pressure; an undersized hose to it raises it.
#[test]
fn a_catch_can_lowers_no_pressure_and_a_thin_hose_raises_it() {
    let project = worn();
    let mut with_can = project.clone();
    with_can.ventilation.can.place = CanPlace::BreatherLine;
    with_can.ventilation.can.bore = project.ventilation.breather.bore;
    let mut thin = with_can.clone();
    thin.ventilation.breather.bore = millimetres(9.5);
    thin.ventilation.breather.barb = None;
    thin.ventilation.can.bore = millimetres(9.5);
    let (before, can, thin) = (answered(&project), answered(&with_can), answered(&thin));
    for at in Duty::ALL {
        assert!(gauge(&can, at) >= gauge(&before, at), "{at:?}: {} {}", gauge(&can, at), gauge(&before, at));
    }
    let full = Duty::FullThrottle;
    assert!(gauge(&can, full) < 1.5 * gauge(&before, full), "a can of the hose's own bore costs little");
    assert!(gauge(&thin, full) > 1.5 * gauge(&before, full), "{} {}", gauge(&thin, full), gauge(&before, full));
    // The oil is caught: what blows out is no fault any more.
    assert_ne!(state(&before, "breather"), State::Holds);
    assert_eq!(state(&can, "breather"), State::Holds);
}

/// Common practice, no source: a cover leak that stops when the crankcase goes from a few inches of water above the air to slightly
/// below was pressure. The program tells the pressure that decides it, of the same engine with and without a valve.
#[test]
fn a_valve_takes_the_pressure_off_a_cover_at_idle() {
    const INCH_OF_WATER: f64 = 249.088_91;
    let mut project = worn();
    project.ventilation.breather.bore = millimetres(8.0);
    project.ventilation.breather.barb = None;
    project.ventilation.breather.length = Length::from_base(1.0);
    let project = with_blow_by(&project, Duty::Idle, 0.45);
    let before = answered(&project);
    let mut cured = project.clone();
    cured.ventilation.arrangement = VentilationArrangement::BreatherWithValve;
    cured.ventilation.valve.idle_area = Area::from_base(4e-6);
    let after = answered(&cured);
    let cover =
        |answers: &Answers| duty(answers, Duty::Idle).likely().cover_gauge.above_ambient().value / INCH_OF_WATER;
    assert!((1.0..12.0).contains(&cover(&before)), "{}", cover(&before));
    assert!((-12.0..0.0).contains(&cover(&after)), "{}", cover(&after));
}

/// Common practice, no source: low bonnet lines leave little height above the filler neck, so the tank may sit lower than the
/// neck, and the return must then be lifted by the vacuum on cooling.
#[test]
fn a_low_tank_is_lifted_back_by_the_vacuum() {
    let mut project = Project::blank();
    project.tank.shape = ShapeKind::Box;
    [project.tank.length, project.tank.width, project.tank.height] = [140.0, 120.0, 180.0].map(millimetres);
    project.cap.vacuum_opening = known(4e3);
    // A radiator that holds: what boils over does not come back whatever the lift.
    project.radiator.conductance = known(4000.0);
    project.tank.neck_height = project.tank.tube_end;
    let level = answered(&project);
    project.tank.neck_height = millimetres(project.tank.tube_end.value * 1e3 + 400.0);
    let low = answered(&project);
    assert!(level.tank.comes_back && low.tank.comes_back);
    let lifted = low.tank.suction.likely.value - level.tank.suction.likely.value;
    // 400 mm of a coolant of 1060 to 1085 kg/m³.
    assert!((4.1e3..4.3e3).contains(&lifted), "{lifted}");
    assert!(low.tank.cooling_gauge < level.tank.cooling_gauge);
    assert_eq!(state(&low, "return"), State::Holds);
    // Far too low a tank asks for more vacuum than soft hoses bear.
    project.tank.neck_height = Length::from_base(1.9);
    assert_ne!(state(&answered(&project), "return"), State::Holds);
    // With nothing to lead it back, a catch-only can gives nothing back whatever its height.
    project.tank.arrangement = TankArrangement::CatchOnly;
    let can = answered(&project);
    assert!(!can.tank.comes_back && can.tank.air_after.value > 0.3 * litres(1.0).value);
    assert_eq!(state(&can, "return"), State::DoesNotHold);
}
