//! Water in the crankcase, the oil's way back, and what a can collects: facts of the trade, told by whole projects.

use crate::build::{answered, known, litres, metered};
use coldmark::crankcase::moisture::MoistureFinding;
use coldmark::crankcase::oil::CanInside;
use coldmark::file::demo;
use coldmark::quantity::si::{Area, Length, Velocity};
use coldmark::quantity::{Measured, UnitSystem, celsius};
use coldmark::study::{Answers, CanPlace, Duty, Part, Project, State, VentilationArrangement as Arrangement, Verdict};

/// A healthy engine of little blow-by with a valve that draws far more.
fn fresh() -> Project {
    let mut project = demo();
    metered(&mut project, 20.0);
    project
}

fn verdict<'a>(answers: &'a Answers, key: &str) -> &'a Verdict {
    answers.verdict(key).unwrap()
}

fn words(answers: &Answers, key: &str) -> String {
    verdict(answers, key).reason.show(UnitSystem::Si)
}

fn has(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}

/// What a person reads in a row; empty if there is none.
fn row(answers: &Answers, section: &str, key: &str) -> String {
    let sections = answers.sections();
    let section = sections.iter().find(|one| one.key == section).unwrap();
    section.rows.iter().find(|row| row.key == key).map_or_else(String::new, |row| row.value.show(UnitSystem::Si))
}

/// A cover as cold as the air gets wet, and fresh air is what dries it.
#[test]
fn a_cold_cover_needs_fresh_air() {
    let mut project = fresh();
    project.ventilation.wall_share = known(0.6);
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    let stale = answered(&project);
    assert_eq!(verdict(&stale, "moisture").state, State::DoesNotHold, "{}", words(&stale, "moisture"));
    assert!(words(&stale, "moisture").contains("no fresh air"));
    let mend = verdict(&stale, "moisture").mend.as_ref().unwrap().show(UnitSystem::Si);
    assert!(mend.contains("of fresh air"), "{mend}");
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    let vented = answered(&project);
    let trip = vented.moisture.worst_trip().unwrap();
    assert!(trip.dilution.low.base() > 1.0, "{:?}", trip.dilution);
    assert!(verdict(&vented, "moisture").state < State::DoesNotHold, "{}", words(&vented, "moisture"));
    assert!(vented.moisture.worst_trip().unwrap().least_margin() > stale.moisture.worst_trip().unwrap().least_margin());
}

/// Insulation does what a warm day does.
#[test]
fn a_warm_wall_stays_dry() {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.surroundings.trip_warmth = known(1.0);
    project.ventilation.wall_share = known(0.2);
    let states = |project: &Project| verdict(&answered(project), "moisture").state;
    assert_eq!(states(&project), State::DoesNotHold);
    project.ventilation.wall_share = known(1.0);
    assert_eq!(states(&project), State::Holds);
    project.ventilation.wall_share = known(0.2);
    // A wall as cold as frost is wet whatever air is drawn.
    project.surroundings.coldest = celsius(-40.0);
    project.ventilation.wall_share = known(0.0);
    let answers = answered(&project);
    assert_eq!(answers.moisture.worst_trip().unwrap().at.finding, MoistureFinding::WetWhatever);
    assert!(answers.notes.iter().any(|note| note.key == "crankcase-ice"));
    assert!(!verdict(&answers, "moisture").mend.as_ref().unwrap().show(UnitSystem::Si).contains("at least"));
}

/// A warmer thermostat leaves more above the dew point, by the share of the way that oil and wall take.
#[test]
fn a_warmer_thermostat_leaves_more_margin() {
    let mut project = demo();
    project.ventilation.wall_share = known(0.5);
    project.surroundings.trip_warmth = known(0.6);
    // A sump that loses nothing: the oil then follows the coolant kelvin by kelvin.
    project.oil.sump_still = known(0.0);
    project.oil.sump_driving = known(0.0);
    let answers = answered(&project);
    let margins: Vec<(f64, f64)> = answers
        .set_points
        .iter()
        .map(|row| (row.set_point.value, row.moisture.trip_margin.as_ref().unwrap().base()))
        .collect();
    assert!(margins.len() >= 5);
    for pair in margins.windows(2) {
        let (warmer, more) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        assert!((more - 0.5 * 0.6 * warmer).abs() < 1e-6, "{warmer} K warmer, {more} K more");
    }
    let fitted = answers.set_points.iter().find(|row| row.fitted).unwrap();
    let trip = answers.moisture.worst_trip().unwrap();
    assert_eq!(fitted.moisture.trip_margin.as_ref().unwrap(), &trip.least_margin().unwrap());
}

/// The head of a column of oil against the pressure it must come down against: ρ g h of 850 kg/m³.
#[test]
fn oil_comes_back_only_down_a_drain_tall_enough() {
    let mut project = demo();
    let full = |project: &Project| {
        let answers = answered(project);
        let drain = answers.oil.drains[Duty::FullThrottle.index()].clone().unwrap();
        let case = answers.duties[Duty::FullThrottle.index()].high().clone();
        (answers, drain, case)
    };
    project.ventilation.drain_height = known(0.5);
    let (answers, drain, case) = full(&project);
    let holds_up = case.gauge.base() - case.lowest_cover.base();
    assert!(holds_up > 100.0 && (drain.likely.holds_up.base() - holds_up).abs() < 1e-9);
    assert!((drain.likely.head.base() - 850.0 * 9.80665 * 0.5).abs() < 1e-6);
    assert_eq!(verdict(&answers, "oil_return").state, State::Holds);
    // A drain of just the height that the pressure holds up is the least.
    let least = holds_up / (850.0 * 9.80665);
    project.ventilation.drain_height = known(least * 1.01);
    assert!(full(&project).1.likely.returns());
    project.ventilation.drain_height = known(least * 0.99);
    let (answers, drain, _) = full(&project);
    assert!(!drain.likely.returns());
    let told = words(&answers, "oil_return");
    assert!(told.contains("oil cannot return through the drain at: Full throttle"), "{told}");
    assert_eq!(verdict(&answers, "oil_return").state, State::DoesNotHold);
    // The mend: a wider way for the gas.
    project.ventilation.baffle_area = known(600e-6);
    assert_eq!(verdict(&answered(&project), "oil_return").state, State::Holds);
}

fn with_can() -> Project {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(litres(1.0));
    project.ventilation.can.inside = CanInside::Baffled;
    project.ventilation.can.area = Area::from_base(50e-4);
    project.ventilation.can.service = Length::from_base(1e6);
    project
}

#[test]
fn a_can_of_known_volume_says_what_it_collects() {
    let project = with_can();
    let answers = answered(&project);
    let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap();
    let (carried, collected) = cruise.filled.as_ref().unwrap();
    // No more oil than reaches it.
    assert!(collected.oil.likely.base() <= carried.oil.likely.base());
    // At half the mean speed a thousand kilometres take twice the hours.
    let mut slow = project.clone();
    slow.ventilation.can.mean_speed = Velocity::from_base(project.ventilation.can.mean_speed.base() / 2.0);
    let per = |project: &Project| {
        let answers = answered(project);
        let can = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap().filled.clone().unwrap();
        (can.1.volume_per_thousand.likely.base(), can.1.drain_after[1].unwrap().base())
    };
    let (one, two) = (per(&project), per(&slow));
    assert!((two.0 / one.0 - 2.0).abs() < 1e-9 && (one.1 / two.1 - 2.0).abs() < 1e-9);
    // Half of the litre over what collects in a thousand kilometres.
    assert!((one.1 - 0.5e-3 / one.0 * 1e6).abs() < 1.0);
    assert!(answers.notes.iter().any(|note| note.key == "can-full-to-air"));
    assert!(answers.sections_of(Part::CatchCan).iter().any(|section| section.key == "can_cruise"));
}

/// A cold can freezes where water collects in it, and not in a warm land.
#[test]
fn a_can_says_what_frost_does() {
    let mut project = with_can();
    assert!(row(&answered(&project), "can_cruise", "frost").contains("freezes and may close"));
    project.surroundings.coldest = celsius(8.0);
    assert!(row(&answered(&project), "can_cruise", "frost").contains("no water freezes"));
}

/// Without its volume, or without a can, nothing is said.
#[test]
fn a_can_of_unknown_volume_says_nothing() {
    let mut project = with_can();
    project.ventilation.can.volume = None;
    let answers = answered(&project);
    assert!(answers.oil.can.is_empty());
    // What can hurt is said all the same.
    assert_eq!(verdict(&answers, "catch_can").state, State::NotKnown);
    for key in ["can-holds-fuel", "can-full-to-air", "can-freezes"] {
        assert!(has(&answers, key), "{key}");
    }
    project.ventilation.can.volume = Some(litres(1.0));
    project.ventilation.can.place = CanPlace::None;
    let answers = answered(&project);
    assert!(answers.oil.can.is_empty() && answers.verdict("catch_can").is_none() && !has(&answers, "can-holds-fuel"));
}

/// With a valve that draws air in by the breather nothing reaches the can at cruise.
#[test]
fn a_can_where_air_is_drawn_in_stays_empty() {
    let mut project = fresh();
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(litres(1.0));
    let answers = answered(&project);
    let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap();
    assert!(cruise.filled.as_ref().unwrap_err().contains("nothing collects"));
}

/// A flow meter that shows next to nothing: all the gas is fresh air, and dry.
#[test]
fn next_to_no_blow_by_is_dry() {
    let mut project = demo();
    metered(&mut project, 0.05);
    let answers = answered(&project);
    assert!(answers.moisture.worst_trip().unwrap().dilution.low.base() > 1000.0);
    assert_eq!(verdict(&answers, "moisture").state, State::Holds, "{}", words(&answers, "moisture"));
}

/// Oil that has not warmed lies below the dew point itself; a long run lifts it above, and dries what had settled.
#[test]
fn a_short_trip_wets_what_a_long_run_dries() {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.surroundings.trip_warmth = known(0.2);
    let short = answered(&project);
    let trip = short.moisture.worst_trip().unwrap();
    assert!(trip.at.likely.oil_is_wet() && trip.oil().likely < celsius(10.0), "{:?}", trip.oil());
    assert!(has(&short, "water-in-oil") && has(&short, "petrol-settles"));
    let told = words(&short, "moisture");
    assert!(told.contains("gets into the oil itself") && told.contains("a long warm run dries it again"), "{told}");
    project.surroundings.trip_warmth = known(1.0);
    let long = answered(&project);
    assert!(!has(&long, "water-in-oil") && !has(&long, "petrol-settles"));
    assert!(verdict(&long, "moisture").state < verdict(&short, "moisture").state);
    // Warm all the way is the warm engine at the same duty.
    let cruise = |answers: &Answers| answers.moisture.trips[1].clone().unwrap().at.likely.oil;
    let warm = long.moisture.warm[Duty::Cruise.index()].clone().unwrap().at.likely.oil;
    assert!((cruise(&long).value - warm.value).abs() < 1e-9);
}

/// The air asked for is the air that does it: drawn with the likely blow-by, the likely wall is just dry.
#[test]
fn the_fresh_air_asked_for_keeps_the_wall_dry() {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    let answers = answered(&project);
    for trip in answers.moisture.trips.iter().flatten() {
        let state = &trip.at.likely;
        let asked = state.fresh_air.unwrap().base() / trip.blow_by.likely.base();
        let (stale, wall) = (state.vapour.base(), state.wall);
        // Undiluted gas and dry winter air mixed by their flows.
        let air = answers.ambient.above_vacuum().value;
        let outside = 1.0 * 191.0 / air;
        let mixed = (stale + asked * outside) / (1.0 + asked);
        let dew = coldmark::crankcase::moisture::dew_point(
            Measured::from_base(mixed),
            coldmark::quantity::AbsolutePressure::from_base(air),
            &mut coldmark::scribe::Silent,
        );
        let dew = dew.unwrap().temperature().unwrap();
        assert!((dew.value - wall.value).abs() < 0.3, "{dew:?} {wall:?}");
    }
    assert!(row(&answers, "short_trips", "cruise_fresh_air_wanted").contains("L/min"));
}

/// A headline says which end it is told for, and no flow is asked for that no valve may pass.
#[test]
fn water_is_told_with_its_end_and_its_air_as_far_as_a_valve_goes() {
    let answers = answered(&demo());
    let margin = verdict(&answers, "moisture").margin.show(UnitSystem::Si);
    assert!(margin.contains(" K below the dew point at the unfavourable end, likely "), "{margin}");
    assert!(margin.ends_with(" K below, Cruise"), "{margin}");
    let cruise = answers.moisture.trips[1].as_ref().unwrap();
    let most = answers.most_by_valve().base();
    let high = cruise.at.unfavourable.fresh_air.unwrap();
    assert!(high.base() + cruise.blow_by.high.base() > most);
    let told = row(&answers, "short_trips", "cruise_fresh_air_wanted");
    assert!(told.ends_with(" to more than a valve may pass)") && told.starts_with("27.4 L/min"), "{told}");
    // Where none is wanted none is told to be too much, however large the blow-by.
    assert!(row(&answers, "full_throttle", "fresh_air_wanted").starts_with("0 L/min"));
    // With healthy rings and an insulated cover the high end is a figure.
    let mut warm = fresh();
    warm.ventilation.wall_share = known(0.75);
    let answers = answered(&warm);
    let told = row(&answers, "cruise", "fresh_air_wanted");
    assert!(told.contains("L/min") && !told.contains("more than"), "{told}");
}

/// No more is asked of a valve than it may pass at idle, and where that is not enough the advice says so.
#[test]
fn the_advice_never_asks_for_more_than_the_idle_bears() {
    let mut project = fresh();
    for (share, coldest) in [(0.3, -5.0), (0.6, -20.0), (0.05, -30.0)] {
        project.ventilation.wall_share = known(share);
        project.surroundings.coldest = celsius(coldest);
        let answers = answered(&project);
        let Some(mend) = &verdict(&answers, "moisture").mend else { continue };
        let most = answers.duties[Duty::Idle.index()].air.base() * 0.2;
        let shown = mend.show(UnitSystem::Si);
        if shown.contains("draw at least") {
            let litres = mend.amount().unwrap().base;
            assert!(litres * 1.204 < most, "{shown}");
        } else {
            assert!(shown.contains("spoils the idle"), "{shown}");
        }
    }
}

/// A cooler thermostat keeps petrol in the oil longer; 71 and 91 °C differ by 2.5 to 3 times.
#[test]
fn every_set_point_says_how_petrol_leaves_the_oil() {
    let answers = answered(&demo());
    let drives: Vec<(f64, f64)> = answers
        .set_points
        .iter()
        .map(|row| {
            let fuel = row.moisture.warm.as_ref().unwrap().fuel.unwrap();
            assert!(row.moisture.warm.as_ref().unwrap().oil_stays_dry());
            (fuel.decane_drive.base(), fuel.dodecane_drive.base())
        })
        .collect();
    for pair in drives.windows(2) {
        assert!(pair[1].0 > pair[0].0 && pair[1].1 > pair[0].1);
    }
    let of = |degrees: f64| {
        let at = answers.set_points.iter().position(|row| (row.set_point.value - 273.15 - degrees).abs() < 0.7);
        drives[at.unwrap()]
    };
    assert!((2.2..3.2).contains(&(of(91.0).0 / of(71.0).0)), "{drives:?}");
    assert!(row(&answers, "set_point_82", "boil_off").contains("of what drives them out at 90"));
    assert!(row(&answers, "set_point_71", "warm_dew_margin").contains('K'));
}

/// The valve draws at its own cover, and oil comes back worst from there.
#[test]
fn oil_is_judged_at_the_cover_the_valve_draws_from() {
    let mut project = fresh();
    project.ventilation.arrangement = Arrangement::ValveOnly;
    let answers = answered(&project);
    for duty in &answers.duties {
        let case = duty.high();
        assert!(case.lowest_cover < case.gauge, "{:?}", duty.duty);
    }
    let drain = answers.oil.drains[Duty::Cruise.index()].clone().unwrap();
    assert!(drain.likely.holds_up.base() > 0.0);
    // No seal holds what the valve would draw; the gas then has the pressure of the air.
    assert!(has(&answers, "moisture-at-air-pressure"));
    assert_eq!(answers.moisture.worst_trip().unwrap().dilution.high.base(), 0.0);
    assert!(verdict(&answers, "moisture").state > State::Holds);
}

/// Where the can goes when it is full is told by its place and its outlet.
#[test]
fn a_full_can_goes_where_its_outlet_leads() {
    for (arrangement, place, key, told) in [
        (Arrangement::BreatherOnly, CanPlace::BreatherLine, "can-full-to-air", "out at its vent"),
        (
            Arrangement::ClosedWithFreshAirLine,
            CanPlace::BreatherLine,
            "can-full-to-air-cleaner",
            "into the air cleaner",
        ),
        (Arrangement::BreatherWithValve, CanPlace::ValveLine, "can-full-to-manifold", "into the cylinders"),
    ] {
        let mut project = with_can();
        project.ventilation.arrangement = arrangement;
        project.ventilation.can.place = place;
        let answers = answered(&project);
        let all = ["can-full-to-air", "can-full-to-air-cleaner", "can-full-to-manifold"];
        for one in all {
            assert_eq!(has(&answers, one), one == key, "{arrangement:?} {one}");
        }
        assert!(has(&answers, "can-holds-fuel"));
        assert!(words(&answers, "catch_can").contains(told), "{}", words(&answers, "catch_can"));
        // A drain of its own: the valve's depression holds it up, water in it makes an emulsion.
        project.ventilation.can.drains = true;
        let answers = answered(&project);
        assert_eq!(has(&answers, "can-drain-held-up"), place == CanPlace::ValveLine, "{arrangement:?}");
        assert!(has(&answers, "can-water-to-sump"), "{arrangement:?}");
    }
}

/// A can in the wind fills with water; one close to the engine stays nearly dry.
#[test]
fn a_cold_can_collects_water() {
    let water = |share: f64| {
        let mut project = with_can();
        project.ventilation.can.wall_share = known(share);
        let answers = answered(&project);
        let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap().filled.clone().unwrap().1;
        assert_eq!(cruise.water.likely.base() > cruise.oil.likely.base(), share < 0.3, "{cruise:?}");
        (cruise.water_per_thousand.likely.base(), cruise.drain_after[0].unwrap().base())
    };
    let (cold, near) = (water(0.05), water(0.9));
    assert!(cold.0 > 0.1 && near.0 == 0.0 && cold.1 < near.1, "{cold:?} {near:?}");
}

/// Where only the high blow-by sends gas through the can, the interval of that end is told, and the verdict is thin.
#[test]
fn the_shortest_interval_is_never_left_out() {
    let mut project = demo();
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(litres(1.0));
    let answers = answered(&project);
    let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap();
    let collected = &cruise.filled.as_ref().unwrap().1;
    assert!(collected.drain_after[0].is_some() && collected.drain_after[1].is_none());
    let told = row(&answers, "can_cruise", "drain_after");
    assert!(told.contains("at the high end") && told.contains("km"), "{told}");
    let can = verdict(&answers, "catch_can");
    assert!(can.state >= State::Thin && can.margin.show(UnitSystem::Si).contains("half full after"));
    // Hours and distance of the hardest duty go together by its own speed.
    let hard = answers.oil.can.iter().find(|can| can.duty == Duty::FullThrottle).unwrap();
    assert_eq!(hard.speed, project.duty.of(Duty::FullThrottle).road_speed);
    let (far, long) = (hard.filled.as_ref().unwrap().1.drain_after[0].unwrap(), hard.half_full[0].unwrap());
    assert!((far.base() / long.base() / hard.speed.base() - 1.0).abs() < 1e-9);
}

/// Every way that gas leaves by says how much oil goes along, and a narrower mouth carries no less.
#[test]
fn a_narrow_mouth_lets_more_oil_go_along() {
    let carried = |bore: f64| {
        let mut project = fresh();
        project.ventilation.arrangement = Arrangement::BreatherOnly;
        project.ventilation.breather.bore = Length::from_base(bore);
        project.ventilation.breather.barb = None;
        let answers = answered(&project);
        assert!(row(&answers, "full_throttle", "oil_out_breather").contains("g/h"));
        assert!(row(&answers, "full_throttle", "droplets_breather").len() > 3);
        let out = &answers.oil.out[Duty::FullThrottle.index()];
        assert_eq!(out.len(), 1);
        out[0].carried.clone().unwrap().oil.high.base()
    };
    assert!(carried(0.012) > carried(0.025));
}

/// A breather that blows out at the high blow-by only is told as such.
#[test]
fn where_the_breather_blows_out_names_its_blow_by() {
    let reason = words(&answered(&demo()), "breather");
    assert!(reason.starts_with("at the high blow-by gas and oil mist go into the open at: Idle, "), "{reason}");
    assert!(reason.contains(" (at the likely only at: Full throttle)"), "{reason}");
    let mut caught = demo();
    caught.ventilation.can.place = CanPlace::BreatherLine;
    let reason = words(&answered(&caught), "breather");
    assert!(reason.contains("the can catches the oil") && !reason.contains("most oil leaves"), "{reason}");
}

/// A hose in frosty wind freezes though the cover stays dry; lying on the engine it does not.
#[test]
fn a_hose_in_the_wind_freezes() {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.surroundings.coldest = celsius(-25.0);
    project.surroundings.trip_warmth = known(1.0);
    project.ventilation.wall_share = known(1.0);
    let told = |project: &Project| {
        let answers = answered(project);
        let freezes = words(&answers, "moisture").contains("a hose freezes");
        (
            freezes,
            has(&answers, "crankcase-ice"),
            verdict(&answers, "moisture").state,
            row(&answers, "cruise", "hose_water"),
        )
    };
    project.ventilation.hose_share = known(0.05);
    assert_eq!(told(&project), (true, true, State::Thin, "freezes".to_owned()));
    project.ventilation.hose_share = known(1.0);
    let (freezes, ice, state, water) = told(&project);
    assert!(!freezes && !ice && state == State::Holds && water.contains("stay dry"), "{state:?} {water}");
}

/// With a blow-by that was measured a tight baffle, not the high blow-by, is what holds the oil up most.
#[test]
fn a_tight_baffle_holds_oil_up() {
    let mut project = demo();
    project.blow_by.leak_down.clear();
    metered(&mut project, 60.0);
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    let area = |low: f64| {
        let of = Area::from_base;
        Some(coldmark::quantity::Estimate { low: of(low), likely: of(60e-6), high: of(90e-6) })
    };
    let drain = |project: &Project| {
        let answers = answered(project);
        (answers.oil.drains[Duty::FullThrottle.index()].clone().unwrap(), words(&answers, "oil_return"))
    };
    project.ventilation.baffle_area = area(30e-6);
    let (tight, told) = drain(&project);
    assert!(tight.least.holds_up > tight.likely.holds_up && told.contains("tight baffle"), "{told}");
    project.ventilation.baffle_area = area(60e-6);
    let (plain, told) = drain(&project);
    assert!(plain.least.holds_up == plain.likely.holds_up && !told.contains("tight baffle"), "{told}");
    assert!(plain.least.margin > tight.least.margin);
}

/// Film that fast gas drags along is told as far as anybody ever weighed oil, and a sump that empties is told with it.
#[test]
fn oil_is_told_no_further_than_it_was_weighed() {
    let narrowed = |millimetres: f64| {
        let mut project = demo();
        project.ventilation.arrangement = Arrangement::BreatherOnly;
        let bore = coldmark::quantity::si::Length::from_base(millimetres * 1e-3);
        project.ventilation.breather.bore = bore.max(project.ventilation.breather.bore);
        project.ventilation.breather.barb = Some(bore);
        answered(&project)
    };
    let told = |millimetres: f64| {
        let answers = narrowed(millimetres);
        let of = |key: &str| row(&answers, "full_throttle", key);
        (of("oil_out_breather"), of("oil_out_breather_why"))
    };
    let (narrow, why) = told(15.0);
    assert!(narrow.contains("more than 150 g/h"), "{narrow}");
    let reason = words(&narrowed(15.0), "breather");
    assert!(reason.contains("; most oil leaves, Full throttle: 45.1 g/h ("), "{reason}");
    assert!(reason.contains("to more than 150 g/h); film and splash: the gas in the mouth"), "{reason}");
    assert!(reason.contains("a larger bore there helps more than a larger can"), "{reason}");
    assert!(why.contains("a litre of oil is gone in less than 340 min"), "{why}");
    let (wide, _) = told(40.0);
    assert!(!wide.contains("more than"), "{wide}");
}
