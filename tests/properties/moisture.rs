//! Moisture, oil and mixture: what must hold for every engine and weather, and that nonsense is refused and never panics.

use crate::any::{odd, of, sea_level};
use coldmark::crankcase::cylinder::Duty;
use coldmark::crankcase::mixture::{
    FreshAirFrom, FuelSystem, IdleFinding, IdleGas, Port, PortFinding, PortPlace, check_port, idle_mixture,
};
use coldmark::crankcase::moisture::{
    Burning, Condensation, DewPoint, DutyGas, Fuel, LeastDilution, MoistureFinding, OilWarmth, OutsideAir, Petrol,
    PetrolCut, SetPointOil, Surroundings, WallState, WetGas, burnt_water_share, by_set_point, condensation, defaults,
    dew_point, dilution, fuel_boil_off, fuel_dew_point, least_dilution, mixed_fuel_share, wall_saturation,
    wall_temperature,
};
use coldmark::crankcase::oil::{
    CanFinding, CanInside, CanOutlet, CanUse, CarryOverReason, CatchCan, Mist, OilToGas, Passage, Standing, carry_over,
    collected, condensate, cut_size_in_upflow, drain_back, fall, gas_speeds, impaction_cut, sag_blockage,
    souders_brown,
};
use coldmark::quantity::si::{Length, MassRate, Ratio, ThermodynamicTemperature, Velocity};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, UnitSystem, celsius};
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

/// A number that may be anything at all.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -1e3..1e3_f64,
        3 => 0.0..1.0_f64,
        2 => 200.0..400.0_f64,
        2 => 1e4..1e6_f64,
        1 => odd(),
    ]
}

fn three<Q: Measured>(a: f64, b: f64, c: f64) -> Estimate<Q> {
    Estimate { low: of(a), likely: of(b), high: of(c) }
}

fn rising<Q: Measured>(values: [f64; 3]) -> Estimate<Q> {
    let mut values = values;
    values.sort_by(f64::total_cmp);
    three(values[0], values[1], values[2])
}

/// For comparing: a gas too dry for a frost point lies below every temperature.
fn height(point: DewPoint) -> f64 {
    point.temperature().map_or(0.0, Measured::base)
}

prop_compose! {
    fn wet_gas()(burnt in 0.05..1.0_f64, water in 0.05..0.2_f64, air in 0.0..0.04_f64) -> WetGas {
        WetGas { burnt_share: of(burnt), burnt_water: of(water), air_water: of(air) }
    }
}

prop_compose! {
    fn air()(temperature in 230.0..318.0_f64, humidity in 0.0..1.0_f64, pressure in 60e3..108e3_f64) -> OutsideAir {
        OutsideAir { temperature: of(temperature), humidity: of(humidity), pressure: of(pressure) }
    }
}

prop_compose! {
    fn duty_gas()(
        blow in prop::array::uniform3(1e-5..4e-3_f64), fresh in prop::array::uniform3(0.0..2e-3_f64),
        pressure in 60e3..110e3_f64, duty in prop::sample::select(Duty::ALL.to_vec()),
    ) -> DutyGas {
        let blow_by = rising(blow);
        let dilution = dilution(&rising(fresh), &blow_by, &mut Silent).unwrap();
        DutyGas { duty, blow_by, dilution, pressure: of(pressure) }
    }
}

fn finite(state: &WallState) -> bool {
    state.wall.base().is_finite()
        && state.vapour.base().is_finite()
        && height(state.dew_point).is_finite()
        && state.fresh_air.is_none_or(|flow| flow.base().is_finite())
}

fn is_sound(answer: &Condensation) -> bool {
    let margin = |state: &WallState| state.wall.base() - height(state.dew_point);
    let states = [&answer.unfavourable, &answer.likely, &answer.favourable];
    let consistent = match answer.finding {
        MoistureFinding::Dry => states.iter().all(|state| !state.is_wet()),
        MoistureFinding::ProbablyDry => answer.unfavourable.is_wet() && !answer.likely.is_wet(),
        MoistureFinding::Wet => answer.likely.is_wet(),
        MoistureFinding::WetWhatever => answer.likely.is_wet() && answer.likely.fresh_air.is_none(),
    };
    consistent
        && states.iter().all(|state| finite(state))
        && margin(&answer.unfavourable) <= margin(&answer.likely) + 1e-6
        && margin(&answer.likely) <= margin(&answer.favourable) + 1e-6
}

proptest! {
    #[test]
    fn dew_point_falls_with_dilution_and_rises_with_pressure(
        gas in wet_gas(), d in 0.0..50.0_f64, more in 0.001..50.0_f64, p in 30e3..190e3_f64,
    ) {
        // Dilution dries only while the outside air is the drier of the two.
        prop_assume!(gas.air_water < gas.burnt_water);
        let at = |d: f64, p: f64| height(gas.dew_point(of(d), of(p), &mut Silent).unwrap());
        prop_assert!(at(d + more, p) <= at(d, p));
        prop_assert!(at(d, p * 1.05) >= at(d, p));
    }

    #[test]
    fn saturation_and_dew_point_are_inverse_and_join_at_the_triple_point(t in 209.0..373.0_f64, step in 1e-4..5.0_f64) {
        let p = |t: f64| wall_saturation(of(t), &mut Silent).unwrap().base();
        prop_assert!(p(t + step) > p(t));
        let share = p(t) / 110e3;
        let back = height(dew_point(of(share), of(110e3), &mut Silent).unwrap());
        prop_assert!((back - t).abs() < 2e-3, "{t} {back}");
    }

    #[test]
    fn least_dilution_is_where_the_wall_begins_to_stay_dry(gas in wet_gas(), wall in 255.0..370.0_f64, p in 60e3..120e3_f64) {
        let (wall, p): (ThermodynamicTemperature, AbsolutePressure) = (of(wall), of(p));
        let wets = |d: f64| gas.dew_point(of(d), p, &mut Silent).unwrap().wets(wall);
        match least_dilution(&gas, wall, p, &mut Silent).unwrap() {
            LeastDilution::None => prop_assert!(!wets(0.0)),
            LeastDilution::AtLeast(least) => {
                // A share of a thousandth, less where the dew point hardly moves with dilution.
                prop_assume!(least.base() > 1e-3 && least.base() < 500.0);
                prop_assert!(wets(least.base() * 0.9));
                prop_assert!(!wets(least.base() * 1.1) || least.base() > 50.0);
            }
            LeastDilution::NoAmount => prop_assert!(wets(0.0) && wets(900.0)),
        }
    }

    #[test]
    fn a_colder_wall_asks_for_more_fresh_air(gas in wet_gas(), wall in 255.0..370.0_f64, colder in 0.01..20.0_f64) {
        let least = |t: f64| match least_dilution(&gas, of(t), sea_level(), &mut Silent).unwrap() {
            LeastDilution::None => 0.0,
            LeastDilution::AtLeast(least) => least.base(),
            LeastDilution::NoAmount => f64::INFINITY,
        };
        prop_assert!(least(wall - colder) >= least(wall));
    }

    #[test]
    fn burnt_gas_is_continuous_at_just_enough_air_and_wetter_with_hydrogen(
        y in 1.0..3.9_f64, z in 0.0..0.6_f64, lambda in 0.7..2.0_f64, vapour in 0.0..0.05_f64,
    ) {
        let share = |y: f64, lambda: f64, vapour: f64| {
            let fuel = Fuel { hydrogen: of(y), oxygen: of(z) };
            let burning = Burning { fuel, lambda: of(lambda), ..Burning::petrol(of(vapour)) };
            burnt_water_share(&burning, &mut Silent).unwrap().base()
        };
        prop_assert!((share(y, 1.0 - 1e-9, vapour) - share(y, 1.0, vapour)).abs() < 1e-7);
        let x = share(y, lambda, vapour);
        prop_assert!(x > 0.0 && x < 0.5);
        prop_assert!(share(y + 0.1, lambda, vapour) > x);
        prop_assert!(share(y, lambda, vapour + 0.01) > x);
    }

    #[test]
    fn condensation_is_consistent_and_working_changes_nothing(
        air in air(), gas in duty_gas(), burnt in prop::array::uniform3(0.0..1.0_f64),
        share in prop::array::uniform3(0.0..1.0_f64), oil in prop::array::uniform3(235.0..420.0_f64),
        reached in prop::array::uniform3(0.05..1.0_f64),
    ) {
        let around = Surroundings { burnt_share: rising(burnt), wall_share: rising(share), ..Surroundings::usual(air).unwrap() };
        // More blow-by that is wetter than the air is what makes the burnt end unfavourable.
        prop_assume!(around.burning.air_vapour.base() < 0.08);
        let warm = rising(oil);
        for oil in [OilWarmth::At(warm), OilWarmth::Trip { warm, reached: rising(reached) }] {
            let answer = condensation(&gas, oil, &around, &mut Silent).unwrap();
            prop_assert!(is_sound(&answer), "{answer:?}");
            prop_assert!(!answer.notes().is_empty());
            let mut writing = Writing::default();
            prop_assert_eq!(condensation(&gas, oil, &around, &mut writing).unwrap(), answer);
            prop_assert!(writing.chapters[0].steps.len() >= 4);
        }
    }

    #[test]
    fn a_warmer_set_point_is_never_wetter(air in air(), gas in duty_gas(), set in 315.0..380.0_f64, more in 0.1..12.0_f64) {
        let around = Surroundings::usual(air).unwrap();
        let row = |set: f64| SetPointOil { set_point: of(set), oils: vec![three(set - 10.0, set, set + 20.0)] };
        let answers = by_set_point(&[row(set), row(set + more)], &[gas], &around, &mut Silent).unwrap();
        let [cool, warm] = &answers[..] else { panic!("two answers") };
        prop_assert!(warm.duties[0].finding <= cool.duties[0].finding);
        let drive = |answer: &coldmark::crankcase::moisture::SetPointAnswer| answer.fuel.unwrap().decane_drive.base();
        prop_assert!(drive(warm) > drive(cool));
        prop_assert!(warm.oil_stays_dry() || !cool.oil_stays_dry());
    }

    #[test]
    fn the_dew_point_of_petrol_rises_with_it_and_falls_with_fresh_air(
        charge in 1e-5..0.1_f64, heavy in 0.1..5.0_f64, p in 30e3..190e3_f64, burnt in 0.0..1.0_f64, d in 0.0..100.0_f64,
        more in 1.01..2.0_f64,
    ) {
        let dew = |fuel: f64, heavy: f64, p: f64| {
            let dew = fuel_dew_point(of(fuel), of(heavy), of(p), &mut Silent).unwrap();
            dew.temperature().map_or(273.15, |t| t.base())
        };
        let first = dew(charge, heavy, p);
        prop_assert!((273.15..423.15).contains(&first));
        for other in [dew((charge * more).min(1.0), heavy, p), dew(charge, (heavy * more).min(5.0), p), dew(charge, heavy, p * 1.05)] {
            prop_assert!(other >= first);
        }
        let mixed = |d: f64| mixed_fuel_share(of(charge), of(burnt), of(d), &mut Silent).unwrap().base();
        prop_assert!(mixed(d + more) <= mixed(d) && mixed(d) <= charge);
        // Only the product of share, heaviness and pressure counts.
        prop_assert!((dew(charge, 1.0, p) - dew(charge / 2.0, 2.0, p)).abs() < 1e-6);
    }

    #[test]
    fn oil_of_a_short_trip_lies_between_the_air_and_the_warm_engine(
        air in air(), gas in duty_gas(), reached in prop::array::uniform3(0.05..1.0_f64), set in 335.0..390.0_f64,
    ) {
        let around = Surroundings::usual(air).unwrap();
        let oil = three(set - 10.0, set, set + 20.0);
        let warm = condensation(&gas, OilWarmth::At(oil), &around, &mut Silent).unwrap();
        let trip = |reached| {
            condensation(&gas, OilWarmth::Trip { warm: oil, reached }, &around, &mut Silent).unwrap()
        };
        let short = trip(rising(reached));
        prop_assert!(is_sound(&short));
        for (short, warm) in [
            (&short.unfavourable, &warm.unfavourable), (&short.likely, &warm.likely), (&short.favourable, &warm.favourable),
        ] {
            prop_assert!(short.oil <= warm.oil && short.oil >= air.temperature.min(warm.oil));
        }
        // All the way is the warm engine itself.
        let all = trip(three(1.0, 1.0, 1.0));
        prop_assert!((all.likely.oil.base() - warm.likely.oil.base()).abs() < 1e-9 && all.finding == warm.finding);
    }

    #[test]
    fn next_to_no_blow_by_is_outside_air(air in air(), fresh in 1e-5..0.1_f64, blow in 0.0..1e-9_f64) {
        let ratio = dilution(&Estimate::exact(of(fresh)), &Estimate::exact(of(blow)), &mut Silent).unwrap();
        prop_assert!(ratio.low.base() >= 1e4 && ratio.high.base().is_finite());
        let around = Surroundings::usual(air).unwrap();
        let outside = air.vapour_share(&mut Silent).unwrap().base();
        prop_assume!(outside < 0.1);
        let gas = DutyGas { duty: Duty::Cruise, blow_by: Estimate::exact(of(blow)), dilution: ratio, pressure: air.pressure };
        let answer = condensation(&gas, OilWarmth::At(Estimate::exact(celsius(82.0))), &around, &mut Silent).unwrap();
        prop_assert!((answer.unfavourable.vapour.base() - outside).abs() < 1e-4);
    }

    #[test]
    fn the_ends_of_the_oil_carried_join_as_squares(flow in 1e-5..1e-3_f64, bore in 0.02..0.05_f64) {
        let mist = Mist::usual(sea_level());
        let flow: Estimate<MassRate> = Estimate::exact(of(flow));
        let speeds = gas_speeds(&flow, &[Passage::Neck { bore: of(bore) }], &mist, &mut Silent).unwrap();
        prop_assume!(speeds[0].over.high.base() <= 1.0);
        let ends = |oil: &OilToGas| {
            let carried = carry_over(&flow, &speeds, oil, &mut Silent).unwrap().oil;
            ((carried.high.base() / carried.likely.base()).ln(), (carried.likely.base() / carried.low.base()).ln())
        };
        let (up, down) = ends(&OilToGas::worn_or_track());
        // Below the limit speed plays no part: loading and times alone.
        prop_assert!((up - (2.5_f64).ln().hypot((2.5_f64 / 1.5).ln())).abs() < 1e-9);
        prop_assert!((down - (4.0_f64).ln().hypot((1.5_f64).ln())).abs() < 1e-9);
        let (road, _) = ends(&OilToGas::road());
        prop_assert!((road - (2.5_f64).ln()).abs() < 1e-9);
    }

    #[test]
    fn petrol_leaves_faster_when_warmer_and_lighter(t in 274.0..422.0_f64) {
        let p = |cut: PetrolCut, t: f64| cut.saturation_pressure(of(t), &mut Silent).unwrap().base();
        for pair in PetrolCut::ALL.windows(2) {
            prop_assert!(p(pair[0], t) > p(pair[1], t));
            prop_assert!(p(pair[0], t + 1.0) > p(pair[0], t));
        }
    }

    #[test]
    fn droplets_fall_slower_than_stokes_and_cut_is_inverse(d in 0.5e-6..1.9e-3_f64, t in 250.0..450.0_f64, p in 60e3..120e3_f64) {
        let mist = Mist { temperature: of(t), ..Mist::usual(of(p)) };
        let Ok(down) = fall(of(d), &mist, &mut Silent) else {
            // Only drops of more than a millimetre pass the drag law.
            prop_assert!(d > 1e-3);
            return Ok(());
        };
        prop_assert!(down.speed > Velocity::from_base(0.0) && down.speed <= down.stokes);
        prop_assert!(fall(of(d * 0.99), &mist, &mut Silent).is_ok_and(|slower| slower.speed < down.speed) || d < 0.51e-6);
        if down.speed.base() > 1e-6 {
            let cut = cut_size_in_upflow(down.speed, &mist, &mut Silent).unwrap().diameter.unwrap();
            prop_assert!((cut.base() / d - 1.0).abs() < 1e-5, "{d} {cut:?}");
        }
    }

    #[test]
    fn more_gas_and_smaller_bores_carry_more_oil(
        flow in prop::array::uniform3(1e-5..1e-3_f64), more in 1.0..1.5_f64, bore in 0.012..0.03_f64, narrower in 0.8..1.0_f64,
    ) {
        let mist = Mist::usual(sea_level());
        let oil = |flow: [f64; 3], bore: f64| {
            let flow = rising(flow);
            let speeds = gas_speeds(&flow, &[Passage::Neck { bore: of(bore) }], &mist, &mut Silent).unwrap();
            (speeds[0], carry_over(&flow, &speeds, &OilToGas::road(), &mut Silent).unwrap())
        };
        let (speed, carried) = oil(flow, bore);
        let (_, faster) = oil(flow.map(|flow| flow * more), bore * narrower);
        for (a, b) in [
            (carried.oil.low, faster.oil.low), (carried.oil.likely, faster.oil.likely), (carried.oil.high, faster.oil.high),
        ] {
            prop_assert!(b >= a);
        }
        prop_assert!(carried.oil.low <= carried.oil.likely && carried.oil.likely <= carried.oil.high);
        let drags = matches!(carried.reason, CarryOverReason::FilmDragged { .. });
        prop_assert_eq!(drags, speed.over.likely.base() > 1.0);
        prop_assert_eq!(matches!(carried.reason, CarryOverReason::MistOnly), !speed.may_drag());
    }

    #[test]
    fn a_can_keeps_no_more_than_reaches_it(
        oil in prop::array::uniform3(0.0..1e-5_f64), gas in prop::array::uniform3(0.0..4e-3_f64),
        vapour in prop::array::uniform3(0.0..0.13_f64), wall in prop::array::uniform3(260.0..360.0_f64),
        volume in 0.2e-3..4e-3_f64, area in 1e-4..0.02_f64, inside in prop::sample::select(CanInside::ALL.to_vec()),
        sump: bool, outdoors in 240.0..300.0_f64,
    ) {
        let can = CatchCan {
            volume: of(volume), area: of(area), inside, caught: inside.caught().estimate, outlet: CanOutlet::Manifold,
            drains_to_sump: sump,
        };
        let use_of = CanUse {
            oil: rising(oil), gas: rising(gas), vapour: rising(vapour), wall: rising(wall), coldest_air: of(outdoors),
            pressure: sea_level(), mean_speed: of(60.0 / 3.6), service: of(1e7),
        };
        let kept = collected(&can, &use_of, &Mist::usual(sea_level()), &mut Silent).unwrap();
        prop_assert!(kept.oil.high <= use_of.oil.high);
        prop_assert!(kept.water.low <= kept.water.likely && kept.water.likely <= kept.water.high);
        // Water that settles cannot be more than the gas brought.
        prop_assert!(kept.water.high.base() <= use_of.gas.high.base() * use_of.vapour.high.base() * 0.7);
        prop_assert!(kept.volume_per_thousand.low <= kept.volume_per_thousand.likely);
        let large = kept.findings.contains(&CanFinding::LargeEnough);
        prop_assert_eq!(large, volume >= kept.needed.high.base());
        let freezes = kept.findings.contains(&CanFinding::Freezes);
        prop_assert_eq!(freezes, kept.water.high.base() > 0.0 && outdoors < 273.15);
        prop_assert!(kept.findings.contains(&CanFinding::FullToManifold));
        prop_assert_eq!(kept.findings.contains(&CanFinding::DrainHeldUp), sump);
        prop_assert_eq!(kept.findings.contains(&CanFinding::WaterToSump), sump && kept.water.high.base() > 0.0);
        if let [Some(soon), Some(likely), _] = kept.drain_after {
            prop_assert!(soon <= likely);
        }
    }

    #[test]
    fn oil_returns_exactly_while_the_column_outweighs_the_pressure(h in 0.0..1.0_f64, difference in -3e3..9e3_f64) {
        let (cover, crankcase): (GaugePressure, GaugePressure) = (of(-500.0), of(difference - 500.0));
        let drain = drain_back(of(h), of(850.0), crankcase, cover, &mut Silent).unwrap();
        prop_assert_eq!(drain.returns(), 850.0 * 9.806_65 * h - difference > 0.0 || drain.margin.base() > 0.0);
        prop_assert_eq!(drain.returns(), drain.stands.base() < h || (difference <= 0.0 && drain.margin.base() > 0.0));
        prop_assert_eq!(drain.words(Duty::FullThrottle, UnitSystem::Si).contains("cannot return"), !drain.returns());
        let blocked = sag_blockage(Standing::Water, of(h), of(1000.0), &mut Silent).unwrap();
        prop_assert!((blocked.pressure.base() - 9_806.65 * h).abs() < 1e-6);
    }

    #[test]
    fn the_valve_leans_a_carburettor_and_never_speed_density(
        into in 1e-3..1e-2_f64, valve in 0.0..2e-3_f64, blow in 0.0..1e-3_f64, burnt in 0.0..1.0_f64,
    ) {
        let gas = IdleGas { into_cylinders: of(into), valve: of(valve), blow_by: of(blow), burnt_share: of(burnt) };
        let at = |system, from| idle_mixture(&gas, system, from, &mut Silent).unwrap();
        let carburettor = at(FuelSystem::Carburettor, FreshAirFrom::OpenAir);
        let Some(change) = carburettor.change else {
            prop_assert_eq!(carburettor.finding, IdleFinding::MoreThanIdle);
            return Ok(());
        };
        prop_assert!(change.base() >= 0.0 && (change.base() > 0.0) == (valve > blow));
        prop_assert!(at(FuelSystem::SpeedDensity, FreshAirFrom::OpenAir).change.unwrap().base() <= 0.0);
        prop_assert_eq!(at(FuelSystem::MassFlow, FreshAirFrom::AfterMeter).change.unwrap().base(), 0.0);
        prop_assert_eq!(at(FuelSystem::MassFlow, FreshAirFrom::BeforeMeter).change.unwrap(), change);
        prop_assert!(!carburettor.notes(UnitSystem::Us).is_empty());
    }

    #[test]
    fn nonsense_is_refused_and_nothing_panics(v in prop::collection::vec(wild(), 14), which in 0_usize..3) {
        let q = |i: usize| v[i];
        let air = OutsideAir { temperature: of(q(0)), humidity: of(q(1)), pressure: of(q(2)) };
        if let Ok(share) = air.vapour_share(&mut Silent) {
            prop_assert!(share.base().is_finite());
        }
        let burning = Burning {
            fuel: Fuel { hydrogen: of(q(3)), oxygen: of(q(4)) }, lambda: of(q(5)), air_vapour: of(q(6)), water_gas: of(q(7)),
        };
        if let Ok(share) = burnt_water_share(&burning, &mut Silent) {
            prop_assert!(share.base().is_finite());
        }
        if let Ok(point) = dew_point(of(q(0)), of(q(1)), &mut Silent) {
            prop_assert!(height(point).is_finite());
        }
        if let Ok(wall) = wall_temperature(of(q(0)), of(q(1)), of(q(2)), &mut Silent) {
            prop_assert!(wall.base().is_finite());
        }
        if let Ok(dew) = fuel_dew_point(of(q(0)), of(q(1)), of(q(2)), &mut Silent) {
            prop_assert!(dew.temperature().is_none_or(|dew| dew.base().is_finite()));
        }
        if let Ok(share) = mixed_fuel_share(of(q(0)), of(q(1)), of(q(2)), &mut Silent) {
            prop_assert!(share.base().is_finite());
        }
        let gas = WetGas { burnt_share: of(q(3)), burnt_water: of(q(4)), air_water: of(q(5)) };
        if let Ok(LeastDilution::AtLeast(least)) = least_dilution(&gas, of(q(6)), of(q(7)), &mut Silent) {
            prop_assert!(least.base().is_finite());
        }
        let around = Surroundings { air, burning, burnt_share: three(q(8), q(9), q(10)), wall_share: defaults::wall_share().estimate, petrol: Some(Petrol::usual()) };
        let flows = three(q(11), q(12), q(13));
        let ratios = dilution(&flows, &three::<MassRate>(q(8), q(9), q(10)), &mut Silent);
        let duty = DutyGas { duty: Duty::Idle, blow_by: flows, dilution: ratios.unwrap_or(three(q(1), q(2), q(3))), pressure: of(q(2)) };
        if let Ok(answer) = condensation(&duty, OilWarmth::At(three(q(0), q(1), q(2))), &around, &mut Silent) {
            prop_assert!(is_sound(&answer));
        }
        let _ = fuel_boil_off(of(q(0)), of(q(1)), &mut Silent);
        let mist = Mist { temperature: of(q(0)), pressure: of(q(1)), oil: of(q(2)) };
        let mist = if which == 0 { mist } else { Mist::usual(sea_level()) };
        if let Ok(down) = fall(of(q(3)), &mist, &mut Silent) {
            prop_assert!(down.speed.base().is_finite());
        }
        if let Ok(cut) = cut_size_in_upflow(of(q(4)), &mist, &mut Silent) {
            prop_assert!(cut.stokes.base().is_finite());
        }
        let _ = souders_brown(of(q(5)), &mist, &mut Silent);
        if let Ok(cut) = impaction_cut(of(q(6)), of(q(7)), of(q(8)), &mist, &mut Silent) {
            prop_assert!(cut.base().is_finite());
        }
        let passage = match which {
            0 => Passage::Baffle { area: of(q(3)), opening: of(q(4)), drains_oil: true },
            1 => Passage::Drain { bore: of(q(3)) },
            _ => Passage::Can { area: of(q(3)), inside: CanInside::Baffled },
        };
        if let Ok(speeds) = gas_speeds(&flows, &[passage], &mist, &mut Silent) {
            prop_assert!(speeds[0].speed.high.base().is_finite());
            if let Ok(carried) = carry_over(&flows, &speeds, &OilToGas::worn_or_track(), &mut Silent) {
                prop_assert!(carried.oil.high.base().is_finite());
                prop_assert!(!carried.reason.words(UnitSystem::Us).is_empty());
            }
        }
        if let Ok(water) = condensate(of(q(9)), of(q(10)), of(q(11)), of(q(12)), &mut Silent) {
            prop_assert!(water.base() >= 0.0 && water.base().is_finite());
        }
        let can = CatchCan {
            volume: of(q(0)), area: of(q(1)), inside: CanInside::Mesh, caught: three(q(2), q(3), q(4)), outlet: CanOutlet::OpenAir,
            drains_to_sump: false,
        };
        let use_of = CanUse {
            oil: flows, gas: flows, vapour: three(q(5), q(6), q(7)), wall: three(q(8), q(9), q(10)), coldest_air: of(q(11)),
            pressure: of(q(12)), mean_speed: of(q(13)), service: of(q(0)),
        };
        let _ = collected(&can, &use_of, &mist, &mut Silent);
        if let Ok(drain) = drain_back(of(q(0)), of(q(1)), of(q(2)), of(q(3)), &mut Silent) {
            prop_assert!(drain.stands.base().is_finite());
        }
        let _ = sag_blockage(Standing::Oil, of(q(0)), of(q(1)), &mut Silent);
        let idle = IdleGas { into_cylinders: of(q(0)), valve: of(q(1)), blow_by: of(q(2)), burnt_share: of(q(3)) };
        if let Ok(mixture) = idle_mixture(&idle, FuelSystem::Carburettor, FreshAirFrom::OpenAir, &mut Silent) {
            prop_assert!(mixture.change.is_none_or(|change| change.base().is_finite()));
        }
        let port = Port { place: PortPlace::Plenum, bore: of(q(0)), valve_bore: of(q(1)), shuts_backward: false, checked: false, boosted: true, throttled: true };
        let _ = check_port(&port, &mut Silent);
    }
}

/// Air over the ground on a winter day, oil of a short trip: covers are wet, and so the finding says.
#[test]
fn a_short_winter_trip_wets_the_cover() {
    let air = OutsideAir { temperature: celsius(-10.0), humidity: of(0.8), pressure: sea_level() };
    let blow_by: Estimate<MassRate> = three(0.1e-3, 0.25e-3, 0.5e-3);
    let gas = |fresh: f64| DutyGas {
        duty: Duty::Cruise,
        blow_by,
        dilution: dilution(&Estimate::exact(of(fresh)), &blow_by, &mut Silent).unwrap(),
        pressure: sea_level(),
    };
    let around = Surroundings::usual(air).unwrap();
    let oil = OilWarmth::At(three(celsius(30.0).base(), celsius(45.0).base(), celsius(60.0).base()));
    let sealed = condensation(&gas(0.0), oil, &around, &mut Silent).unwrap();
    assert_eq!(sealed.finding, MoistureFinding::Wet);
    assert!(sealed.likely.fresh_air.is_some_and(|flow| flow.base() > 0.0));
    let aired = condensation(&gas(1e-3), oil, &around, &mut Silent).unwrap();
    assert_eq!(aired.finding, MoistureFinding::ProbablyDry);
    // A warm engine: every usual set-point stands above the worst dew point, and the coolest keeps fuel longest.
    let settings = [71.0, 77.0, 82.0, 88.0, 92.0].map(celsius);
    let oils = |set: f64| vec![three(set - 15.0, set, set + 10.0)];
    let rows = settings.map(|set_point| SetPointOil { set_point, oils: oils(set_point.base()) });
    let answers = by_set_point(&rows, &[gas(0.25e-3)], &around, &mut Silent).unwrap();
    assert_eq!(answers.len(), 5);
    for answer in &answers {
        assert!(answer.oil_stays_dry() && answer.words().starts_with("This set-point by itself"));
        assert!((height(answer.worst_dew_point) - celsius(50.5).base()).abs() < 1.0);
    }
    let fuel = answers[0].fuel.unwrap();
    assert!(fuel.words(UnitSystem::Si).contains("stays longer"));
}

#[test]
fn ports_are_judged_by_place_and_by_what_shuts_them() {
    let any = |place, shuts_backward, checked, boosted, throttled, bore: f64| {
        let port = Port { place, bore: of(bore), valve_bore: of(0.009), shuts_backward, checked, boosted, throttled };
        check_port(&port, &mut Silent).unwrap()
    };
    let port = |place, shuts_backward, boosted, bore| any(place, shuts_backward, false, boosted, true, bore);
    use PortFinding as Finding;
    // Boost wants a check valve; a plunger that seats is none.
    assert_eq!(any(PortPlace::Plenum, true, true, true, true, 0.010), [Finding::Suits]);
    assert_eq!(port(PortPlace::Plenum, true, true, 0.010), [Finding::BoostOnSeat]);
    // Without a throttle nothing draws behind where it would be.
    assert_eq!(any(PortPlace::Plenum, true, true, false, false, 0.010), [Finding::NoThrottle]);
    assert_eq!(any(PortPlace::BeforeThrottle, true, false, true, false, 0.010), [Finding::CleanSide]);
    assert_eq!(port(PortPlace::CarburettorBase, true, false, 0.009), [Finding::Suits]);
    assert_eq!(port(PortPlace::OneRunner, true, false, 0.006), [Finding::NarrowerThanValve, Finding::OneCylinder]);
    assert_eq!(port(PortPlace::BeforeThrottle, true, false, 0.010), [Finding::NoDepression]);
    assert_eq!(port(PortPlace::BoosterTee, true, false, 0.010), [Finding::SharesBrakes]);
    assert_eq!(port(PortPlace::Plenum, false, true, 0.010), [Finding::BackfireEnters, Finding::BoostEnters]);
    let bore: Length = of(0.2);
    assert!(
        check_port(
            &Port {
                place: PortPlace::Plenum,
                bore,
                valve_bore: bore,
                shuts_backward: true,
                checked: false,
                boosted: false,
                throttled: true
            },
            &mut Silent
        )
        .is_err()
    );
}

/// The neck of a large engine at full throttle: too fast, as its speed says.
#[test]
fn a_narrow_mouth_drags_film_along() {
    let flow: Estimate<MassRate> = Estimate::exact(of(2.02e-3));
    let mist = Mist::usual(sea_level());
    let speeds = gas_speeds(&flow, &[Passage::Neck { bore: of(0.019) }], &mist, &mut Silent).unwrap();
    assert!((speeds[0].speed.likely.base() - 7.3).abs() < 0.1);
    let carried = carry_over(&flow, &speeds, &OilToGas::road(), &mut Silent).unwrap();
    assert!(matches!(carried.reason, CarryOverReason::FilmDragged { .. }));
    let _: Ratio = speeds[0].over.likely;
}
