//! Oil, metal, heater and warm-up of whole projects.

use crate::build::{answered, known};
use coldmark::file::demo;
use coldmark::heat::{OilGrade, Regime, WarmUpEnd};
use coldmark::quantity::{Estimate, Measured, celsius, in_celsius};
use coldmark::study::{Answers, Duty, EngineMetal, OilCooling, OilFilm, Project, SetPointAnswers, answer};

fn oil(answers: &Answers, duty: Duty) -> f64 {
    in_celsius(answers.duties[duty.index()].oil.state.temperature.likely)
}

fn coolant(answers: &Answers, duty: Duty) -> f64 {
    in_celsius(answers.duties[duty.index()].outlet)
}

fn fitted(answers: &Answers) -> &SetPointAnswers {
    answers.set_points.iter().find(|row| row.fitted).unwrap()
}

/// Common practice, no source: on the road sump oil runs up to 25 K above the coolant, harder than that when full throttle
/// is held.
#[test]
fn oil_runs_somewhat_hotter_than_the_coolant() {
    let answers = answered(&demo());
    for duty in [Duty::Idle, Duty::Cruise, Duty::Hill] {
        let above = oil(&answers, duty) - coolant(&answers, duty);
        assert!((-5.0..25.0).contains(&above), "{duty:?} {above}");
    }
    let hard = oil(&answers, Duty::FullThrottle) - coolant(&answers, Duty::FullThrottle);
    assert!((15.0..60.0).contains(&hard), "{hard}");
    for duty in &answers.duties {
        assert!(in_celsius(duty.oil.metal.likely) > in_celsius(duty.outlet), "{:?}", duty.duty);
    }
}

#[test]
fn a_cooler_in_the_air_cools_the_oil_and_the_coolant_a_little() {
    let bare = demo();
    let mut cooled = bare.clone();
    cooled.oil.cooling = OilCooling::ToAir;
    cooled.oil.cooler_to_air = known(100.0);
    let (without, with) = (answered(&bare), answered(&cooled));
    let hard = Duty::FullThrottle;
    assert!(oil(&with, hard) < oil(&without, hard) - 5.0);
    let less = coolant(&without, hard) - coolant(&with, hard);
    assert!((0.0..10.0).contains(&less), "{less}");
    assert_eq!(with.duties[hard.index()].oil.state.regime, Regime::Open);
    // A thermostat above every temperature is no cooler at all.
    cooled.oil.cooler_opens = Some(celsius(150.0));
    cooled.duty.points[hard.index()].power = Measured::from_base(100e3);
    let mut light = bare;
    light.duty.points[hard.index()].power = Measured::from_base(100e3);
    let (shut, bare) = (answered(&cooled), answered(&light));
    for duty in Duty::ALL {
        assert_eq!(coolant(&shut, duty), coolant(&bare, duty));
        assert_eq!(oil(&shut, duty), oil(&bare, duty));
    }
    // One that opens in between holds its own temperature or lets everything through, never below it.
    cooled.oil.cooler_opens = Some(celsius(95.0));
    let held = answered(&cooled);
    for duty in Duty::ALL {
        assert!(oil(&held, duty) <= oil(&bare, duty) + 1e-9);
        assert!(oil(&held, duty) >= oil(&bare, duty).min(95.0) - 1e-6, "{duty:?}");
    }
}

#[test]
fn a_cooler_in_the_coolant_gives_the_radiator_more_to_carry() {
    let bare = demo();
    let mut cooled = bare.clone();
    cooled.oil.cooling = OilCooling::ToCoolant;
    cooled.oil.cooler_to_coolant = known(300.0);
    let (without, with) = (answered(&bare), answered(&cooled));
    let hill = Duty::Hill;
    assert!(oil(&with, hill) < oil(&without, hill));
    assert!(coolant(&with, hill) > coolant(&without, hill));
    // The oil warms up sooner with it.
    let warm = |answers: &Answers| match fitted(answers).warm_up.as_ref().unwrap().oil_warm {
        WarmUpEnd::Reached { after } => after.base(),
        WarmUpEnd::NeverReached { .. } => f64::INFINITY,
    };
    assert!(warm(&with) <= warm(&without));
}

#[test]
fn the_heater_is_worth_a_few_kelvin_where_the_radiator_rules() {
    let answers = answered(&demo());
    assert!(!answers.heater.on);
    let brings = answers.heater.brings().unwrap().base();
    assert!((0.5..15.0).contains(&brings), "{brings}");
    let mut on = demo();
    on.heater.on = true;
    let with = answered(&on);
    let hottest = answers.heater.duty;
    assert!((coolant(&answers, hottest) - coolant(&with, hottest) - brings).abs() < 1e-6);
    assert!(with.heater.on && (with.heater.brings().unwrap().base() - brings).abs() < 1e-6);
    // It draws hot cabin air: less is brought.
    on.heater.air = Some(celsius(60.0));
    assert!(answered(&on).heater.brings().unwrap().base() < brings);
}

#[test]
fn a_thicker_grade_is_thicker_and_thin_oil_is_told() {
    let viscosity = |project: &Project| {
        answered(project).duties[Duty::FullThrottle.index()].oil.viscosity.clone().unwrap().likely.base()
    };
    let mut project = demo();
    let mut last = 0.0;
    for grade in [OilGrade::W0S20, OilGrade::W5S30, OilGrade::W10S40, OilGrade::W20S50, OilGrade::W20S60] {
        project.oil.grade = grade;
        let here = viscosity(&project);
        assert!(here > last, "{grade:?}");
        last = here;
    }
    project.oil.grade = OilGrade::W0S20;
    let answers = answered(&project);
    assert_eq!(answers.duties[Duty::FullThrottle.index()].oil.film, OilFilm::Thin);
    assert!(answers.notes.iter().any(|note| note.key == "oil-thin" && note.text.contains("Full throttle")));
    // The oil's own figures go before the grade's.
    project.oil.viscosity_100 = known(24e-6);
    project.oil.viscosity_40 = known(200e-6);
    assert_eq!(answered(&project).duties[Duty::Hill.index()].oil.film, OilFilm::Enough);
    project.oil.viscosity_40 = known(30e-6);
    let told = answer(&project).unwrap_err().to_string();
    assert!(told.starts_with("oil.viscosity_40: 30 mm²/s at 40 °C beside 24 mm²/s"), "{told}");
}

/// The oil of every setting is that of the duties where the thermostat is the one fitted, and moisture counts with the same
/// balance in the coldest air.
#[test]
fn there_is_one_oil_temperature() {
    let mut project = demo();
    // On a day like the coldest the two are one balance, the coolant apart.
    project.surroundings.coldest = celsius(10.0);
    project.surroundings.filled_at = celsius(10.0);
    project.surroundings.hottest = celsius(10.0);
    let answers = answered(&project);
    for duty in Duty::ALL {
        let own = &answers.duties[duty.index()];
        assert_eq!(fitted(&answers).duties[duty.index()].oil, own.oil);
        let cold = answers.moisture.warm[duty.index()].as_ref().unwrap().oil().likely.base();
        let apart = own.oil.state.temperature.likely.base() - cold;
        let coolant = own.outlet.base() - fitted(&answers).set_point.base();
        // Warmer coolant than the setting brings the oil along, less what the sump loses.
        assert!(apart >= -1e-6 && apart <= coolant + 1e-6, "{duty:?} {apart} {coolant}");
    }
}

#[test]
fn a_warmer_thermostat_opens_later() {
    let answers = answered(&demo());
    let after = |end: WarmUpEnd| match end {
        WarmUpEnd::Reached { after } => after.base(),
        WarmUpEnd::NeverReached { .. } => f64::INFINITY,
    };
    for pair in answers.set_points.windows(2) {
        let [cool, warm] = [&pair[0], &pair[1]].map(|row| row.warm_up.clone().unwrap());
        assert!(after(warm.opens) > after(cool.opens) && after(warm.oil_warm) <= after(cool.oil_warm) + 1e-6);
    }
    let opens = after(fitted(&answers).warm_up.as_ref().unwrap().opens);
    assert!((120.0..1800.0).contains(&opens), "{opens}");
    // Colder mornings take longer.
    let mut frost = demo();
    frost.surroundings.coldest = celsius(-30.0);
    assert!(after(fitted(&answered(&frost)).warm_up.as_ref().unwrap().opens) > opens);
}

#[test]
fn aluminium_heads_and_a_rich_mixture_change_the_heat_a_little() {
    let mut project = demo();
    project.engine.head_metal = EngineMetal::Iron;
    let heat = |project: &Project| answered(project).duties[Duty::FullThrottle.index()].heat.likely.base();
    let iron = heat(&project);
    let mut alloy = project.clone();
    alloy.engine.head_metal = EngineMetal::Aluminium;
    assert!((heat(&alloy) / iron - 1.03).abs() < 1e-9);
    project.duty.points[Duty::FullThrottle.index()].air_fuel = Some(Measured::from_base(12.5));
    let rich = heat(&project) / iron;
    assert!((0.9..1.0).contains(&rich), "{rich}");
    let answers = answered(&project);
    assert!((answers.duties[Duty::FullThrottle.index()].air_fuel.base() - 12.5).abs() < 1e-12);
    // The map at full throttle is the duty with its mixture.
    assert!((answers.duties[Duty::Idle.index()].air_fuel.base() - 14.7).abs() < 1e-12);
}

/// A cooler's thermostat below what counts as warm holds the oil where it opens: it neither chills it from the start nor lets
/// it settle below.
#[test]
fn an_oil_thermostat_never_holds_the_oil_below_where_it_opens() {
    let mut project = demo();
    project.oil.cooling = OilCooling::ToAir;
    let wide = answered(&project);
    project.oil.cooler_opens = Some(celsius(75.0));
    let held = answered(&project);
    let bare = answered(&demo());
    let ends = |answers: &Answers| fitted(answers).warm_up.clone().unwrap_or_else(|why| panic!("{why}"));
    let WarmUpEnd::NeverReached { settles_at } = ends(&held).oil_warm else { panic!("{:?}", ends(&held)) };
    assert!((in_celsius(settles_at) - 75.0).abs() < 1e-6, "{settles_at:?}");
    let WarmUpEnd::NeverReached { settles_at } = ends(&wide).oil_warm else { panic!("{:?}", ends(&wide)) };
    assert!(in_celsius(settles_at) < 75.0);
    let opens = |answers: &Answers| match ends(answers).opens {
        WarmUpEnd::Reached { after } => after.base(),
        WarmUpEnd::NeverReached { .. } => panic!(),
    };
    assert!(opens(&bare) <= opens(&held) && opens(&held) < opens(&wide) - 30.0);
}

/// Where just the unfavourable end leaves the equation, the oil is judged by the likely figure, which is named.
#[test]
fn oil_beyond_its_equation_at_one_end_is_not_called_thin() {
    let mut project = demo();
    project.oil.grade = OilGrade::W20S60;
    let conductance = |watts: f64| Measured::from_base(watts);
    project.oil.block =
        Some(Estimate { low: conductance(100.0), likely: conductance(500.0), high: conductance(800.0) });
    let answers = answered(&project);
    let hard = &answers.duties[Duty::FullThrottle.index()].oil;
    assert!(in_celsius(hard.state.temperature.high) > 200.0);
    assert!(
        hard.viscosity.as_ref().is_err_and(|why| why.contains("about") && why.contains("mm²/s")),
        "{:?}",
        hard.viscosity
    );
    assert_eq!(hard.film, OilFilm::MayBeThin);
    assert!(!answers.notes.iter().any(|note| note.key == "oil-thin"));
}

/// The mass of the air cools, so that thin air cools sump and cooler less: with the root and the power 0.8 of its density.
#[test]
fn thin_air_cools_the_oil_less() {
    let mut low = demo();
    low.oil.cooling = OilCooling::ToAir;
    low.surroundings.altitude = Measured::from_base(0.0);
    low.oil.sump_still = known(0.0);
    let mut high = low.clone();
    high.surroundings.altitude = Measured::from_base(3000.0);
    for project in [&mut low, &mut high] {
        project.duty.points[Duty::FullThrottle.index()].power = Measured::from_base(80e3);
    }
    let cooled = |project: &Project| {
        let answers = answered(project);
        let state = answers.duties[Duty::Cruise.index()].oil.state;
        let above = state.temperature.likely.base() - project.surroundings.hottest.base();
        (state.to_cooler.base() / above, state.to_air.base() / above)
    };
    let ((cooler_low, sump_low), (cooler_high, sump_high)) = (cooled(&low), cooled(&high));
    // International Standard Atmosphere: 70.12 kPa at 3000 m beside 101.325 kPa; here air of one temperature.
    let thinner: f64 = 70.12 / 101.325;
    assert!((cooler_high / cooler_low / thinner.sqrt() - 1.0).abs() < 1e-3);
    assert!((sump_high / sump_low / thinner.powf(0.8) - 1.0).abs() < 1e-3);
}

/// Oil scalds well below what harms it, and metal beyond what the conductance holds for is told.
#[test]
fn running_oil_is_named_as_a_danger_and_hot_metal_as_weak() {
    let mut project = demo();
    project.duty.points[Duty::FullThrottle.index()].power = Measured::from_base(60e3);
    let mild = answered(&project);
    assert!(mild.duties.iter().all(|duty| in_celsius(duty.oil.state.temperature.likely) < 120.0));
    let has = |answers: &Answers, key: &str| answers.notes.iter().any(|note| note.key == key);
    assert!(has(&mild, "oil-hot") && !has(&mild, "metal-hot"));
    project.circuit.metal_conductance = known(300.0);
    let hot = answered(&project);
    let named = hot.notes.iter().find(|note| note.key == "metal-hot").unwrap();
    for duty in &hot.duties {
        assert_eq!(named.text.contains(duty.duty.name()), in_celsius(duty.oil.metal.likely) > 200.0, "{}", named.text);
    }
}
