//! Properties: oil, metal, heater, and the coolant's balance together with them.

use crate::any::{odd, of};
use crate::heat::any_balance;
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{Estimate, Measured, celsius};
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

/// A temperature counts as lower only beyond this, K.
const SAME: f64 = 1e-6;

fn spread<Q: Measured>(likely: f64, wide: f64) -> Estimate<Q> {
    Estimate { low: of(likely * (1.0 - wide)), likely: of(likely), high: of(likely * (1.0 + wide)) }
}

prop_compose! {
    fn any_oil()(
        heat in 200.0..40e3_f64, block in 20.0..3000.0_f64, sump in 0.0..80.0_f64, wide in 0.0..0.6_f64,
        cooler in 1.0..500.0_f64, kind in 0..4, opens in 60.0..130.0_f64, ambient in -30.0..50.0_f64,
    ) -> OilBalance {
        let conductance = spread(cooler, wide);
        OilBalance {
            heat: spread(heat, wide),
            block: spread(block, wide),
            sump: spread(sump, wide),
            cooler: match kind {
                0 => OilCooler::None,
                1 => OilCooler::ToCoolant { conductance },
                2 => OilCooler::ToAir { conductance, opens: None },
                _ => OilCooler::ToAir { conductance, opens: Some(celsius(opens)) },
            },
            ambient: celsius(ambient),
        }
    }
}

fn likely(oil: &OilBalance, coolant: f64) -> f64 {
    oil.at(celsius(coolant), &mut Silent).unwrap().temperature.likely.base()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_oils_balance_closes_and_is_in_order(oil in any_oil(), coolant in 40.0..130.0_f64) {
        let state = oil.at(celsius(coolant), &mut Silent).unwrap();
        let sum = state.to_block.base() + state.to_air.base() + state.to_cooler.base();
        prop_assert!((sum / oil.heat.likely.base() - 1.0).abs() < 1e-6);
        prop_assert!(state.temperature.low <= state.temperature.likely && state.temperature.likely <= state.temperature.high);
        let t = state.temperature.likely.base();
        // What the cooler carries is what its conductance does, in full or, held by its thermostat, in part.
        match (&oil.cooler, state.regime) {
            (OilCooler::ToCoolant { conductance }, _) => {
                let carried = conductance.likely.base() * (t - celsius(coolant).base());
                prop_assert!((carried - state.to_cooler.base()).abs() < 1e-6 * oil.heat.likely.base().max(carried.abs()));
            }
            (OilCooler::ToAir { conductance, opens }, regime) => {
                let full = conductance.likely.base() * (t - oil.ambient.base());
                let carried = state.to_cooler.base();
                match regime {
                    Regime::Open => prop_assert!((full - carried).abs() < 1e-6 * full.abs().max(oil.heat.likely.base())),
                    Regime::Holds => {
                        prop_assert_eq!(Some(state.temperature.likely), *opens);
                        prop_assert!(carried >= -SAME && carried <= full + SAME * full.abs());
                    }
                    Regime::Shut => prop_assert!(carried == 0.0 && Some(state.temperature.likely) <= *opens),
                }
            }
            (OilCooler::None, regime) => prop_assert_eq!(regime, Regime::Shut),
        }
        let mut writing = Writing::default();
        prop_assert_eq!(oil.at(celsius(coolant), &mut writing).unwrap(), state);
    }

    #[test]
    fn hotter_coolant_and_more_heat_make_hotter_oil(
        oil in any_oil(), coolant in 40.0..110.0_f64, more in 0.0..20.0_f64, times in 1.0..2.0_f64,
    ) {
        let here = likely(&oil, coolant);
        prop_assert!(likely(&oil, coolant + more) >= here - SAME);
        let more_heat = OilBalance { heat: oil.heat.map(|q| q * times), ..oil };
        prop_assert!(likely(&more_heat, coolant) >= here - SAME);
        let air = ThermodynamicTemperature::from_base(oil.ambient.base() + more);
        let hot_day = OilBalance { ambient: air, ..oil };
        prop_assert!(likely(&hot_day, coolant) >= here - SAME);
    }

    /// A cooler cools what is warmer than where it sheds its heat.
    #[test]
    fn a_cooler_lowers_the_oil(oil in any_oil(), coolant in 60.0..120.0_f64) {
        let bare = likely(&OilBalance { cooler: OilCooler::None, ..oil }, coolant);
        let sink = match oil.cooler { OilCooler::ToCoolant { .. } => celsius(coolant).base(), _ => oil.ambient.base() };
        let cooled = likely(&oil, coolant);
        prop_assert!(cooled <= bare.max(sink) + SAME);
        let between =
            if bare >= sink { cooled <= bare + SAME && cooled >= sink - SAME } else { cooled >= bare - SAME };
        prop_assert!(between);
    }

    /// Coolant and oil together: all heat that comes in leaves, and each state is consistent with the other.
    #[test]
    fn the_joint_balance_closes(oil in any_oil(), balance in any_balance()) {
        // The oil's heat is never more than the coolant's.
        prop_assume!(oil.heat.likely.base() < 0.5 * balance.heat.base());
        let oil = OilBalance { ambient: balance.ambient_temperature, ..oil };
        let (beside, regime) = oil.joint(&balance, |b| b.solve(&mut Silent).or_else(frozen)).unwrap();
        prop_assert!(beside.conductance.base() >= 0.0);
        let Ok(Outcome::Steady(state)) = oil.settle(&balance, &mut Silent) else { return Ok(()) };
        let coolant = state.outlet_temperature;
        prop_assume!((203.15..=473.15).contains(&coolant.base()));
        let with = oil.at(coolant, &mut Silent).unwrap();
        let without = OilBalance { cooler: OilCooler::None, ..oil }.at(coolant, &mut Silent).unwrap();
        // What coolant and block take from the oil, with the cooler and without: the difference is what came beside.
        let into = |state: &OilState, through: bool| {
            state.to_block.base() + if through && matches!(oil.cooler, OilCooler::ToCoolant { .. }) { state.to_cooler.base() } else { 0.0 }
        };
        let came = into(&with, true) - into(&without, false);
        let told = beside.heat(coolant, balance.ambient_temperature).base();
        let scale = balance.heat.base();
        prop_assert!((came - told).abs() < 1e-6 * scale, "{regime:?}: {came} {told}");
        let own_loss = balance.engine_loss.base() * (coolant.base() - balance.ambient_temperature.base());
        let out = state.radiator.heat.base() + own_loss;
        prop_assert!((out - balance.heat.base() - came).abs() < 4e-6 * scale + 0.02, "{out} {came}");
        // All of it: the engine's heat to coolant, less what the oil would have given, and the oil's own.
        let everything = out + with.to_air.base()
            + if matches!(oil.cooler, OilCooler::ToAir { .. }) { with.to_cooler.base() } else { 0.0 };
        let in_all = balance.heat.base() - without.to_block.base() + oil.heat.likely.base();
        prop_assert!((everything / in_all - 1.0).abs() < 1e-5 || (everything - in_all).abs() < 0.1, "{everything} {in_all}");
    }

    /// A cooler in the coolant never cools the coolant of an engine whose oil is warmer, one in the air never warms it.
    #[test]
    fn a_cooler_moves_the_coolant_its_own_way(oil in any_oil(), balance in any_balance()) {
        prop_assume!(oil.heat.likely.base() < 0.5 * balance.heat.base());
        let oil = OilBalance { ambient: balance.ambient_temperature, ..oil };
        let (Ok(Outcome::Steady(bare)), Ok(Outcome::Steady(cooled))) =
            (balance.solve(&mut Silent), oil.settle(&balance, &mut Silent)) else { return Ok(()) };
        let (bare, cooled) = (bare.outlet_temperature.base(), cooled.outlet_temperature.base());
        if let OilCooler::ToAir { .. } = oil.cooler {
            prop_assert!(cooled <= bare + SAME);
        }
        let warmer = likely(&OilBalance { cooler: OilCooler::None, ..oil }, bare - 273.15) > bare;
        if matches!(oil.cooler, OilCooler::ToCoolant { .. }) && warmer {
            prop_assert!(cooled >= bare - SAME);
        }
    }

    #[test]
    fn a_heater_never_warms_what_is_hotter_than_its_air(balance in any_balance(), conductance in 0.0..400.0_f64) {
        let air = balance.ambient_temperature;
        let beside = Heater { conductance: of(conductance), air }.beside(air, &mut Silent).unwrap();
        let with = beside.in_balance(&balance);
        if let (Ok(Outcome::Steady(off)), Ok(Outcome::Steady(on))) = (balance.solve(&mut Silent), with.solve(&mut Silent)) {
            prop_assert!(on.outlet_temperature.base() <= off.outlet_temperature.base() + SAME);
            let carried = -beside.heat(on.outlet_temperature, air).base();
            let sum = on.radiator.heat.base() + carried
                + balance.engine_loss.base() * (on.outlet_temperature.base() - air.base());
            prop_assert!((sum - balance.heat.base()).abs() < 4e-6 * balance.heat.base() + 0.02);
        }
    }

    #[test]
    fn more_heat_less_flow_make_hotter_metal(heat in 1e3..200e3_f64, rpm in 400.0..8000.0_f64, wide in 0.0..0.5_f64, times in 1.0..2.0_f64) {
        let metal = Metal { conductance: spread(1000.0, wide), natural: spread(60.0, wide), exponent: spread(0.6, wide / 2.0) };
        let at = |heat: f64, rpm: f64| {
            metal.above_coolant(&spread(heat, wide), of(rpm * std::f64::consts::PI / 30.0), &mut Silent).unwrap()
        };
        let here = at(heat, rpm);
        prop_assert!(here.low <= here.likely && here.likely <= here.high && here.low.base() >= 0.0);
        prop_assert!(at(heat * times, rpm).likely >= here.likely && at(heat, rpm * times).likely <= here.likely);
    }

    /// The closed solution against a march of its own equations, and in order.
    #[test]
    fn warming_up_with_oil_takes_what_a_march_takes(
        engine in 20e3..150e3_f64, oil in 5e3..80e3_f64, between in 0.0..2000.0_f64, loss in 0.0..60.0_f64, sump in 0.0..60.0_f64,
        heat in 3e3..40e3_f64, to_oil in 200.0..8e3_f64, start in -30.0..20.0_f64, set in 60.0..100.0_f64, idle in 0.0..200.0_f64,
    ) {
        let stretch = |share: f64| Stretch { engine: of(heat * share), oil: of(to_oil * share), sump: of(sump) };
        let warm_up = WarmUpWithOil {
            lumps: Lumps { engine: of(engine), oil: of(oil), between: of(between), engine_loss: of(loss), ambient: celsius(start) },
            idle: stretch(0.4),
            idle_for: of(idle),
            drive: stretch(1.0),
            start: celsius(start),
        };
        let ends = warm_up.with_thermostat(celsius(set), celsius(80.0), &mut Silent).unwrap();
        let time = |end: WarmUpEnd| match end { WarmUpEnd::Reached { after } => after.base(), WarmUpEnd::NeverReached { .. } => f64::INFINITY };
        // More heat is never slower, a warmer thermostat opens later and never delays the oil.
        let hotter = WarmUpWithOil { drive: Stretch { engine: of(heat * 1.2), ..stretch(1.0) }, ..warm_up };
        let more = hotter.with_thermostat(celsius(set), celsius(80.0), &mut Silent).unwrap();
        prop_assert!(time(more.opens) <= time(ends.opens) + 1e-3 && time(more.oil_warm) <= time(ends.oil_warm) + 1e-3);
        let later = warm_up.with_thermostat(celsius(set + 5.0), celsius(80.0), &mut Silent).unwrap();
        prop_assert!(time(later.opens) >= time(ends.opens) - 1e-3);
        if between > 1.0 {
            prop_assert!(time(later.oil_warm) <= time(ends.oil_warm) + 1e-3 * time(ends.oil_warm).min(1e3));
        }
        let until = time(ends.opens);
        prop_assume!(until < 5000.0 && until > 1.0);
        let rate = |share: f64, [e, o]: [f64; 2]| {
            let air = celsius(start).base();
            [
                (heat * share - between * (e - o) - loss * (e - air)) / engine,
                (to_oil * share + between * (e - o) - sump * (o - air)) / oil,
            ]
        };
        let mut x = [celsius(start).base(); 2];
        for (share, lasts) in [(0.4, idle.min(until)), (1.0, (until - idle).max(0.0))] {
            let step = lasts / 2000.0;
            for _ in 0..2000 {
                let add = |x: [f64; 2], k: [f64; 2], h: f64| [x[0] + h * k[0], x[1] + h * k[1]];
                let k1 = rate(share, x);
                let k2 = rate(share, add(x, k1, step / 2.0));
                let k3 = rate(share, add(x, k2, step / 2.0));
                let k4 = rate(share, add(x, k3, step));
                for i in 0..2 {
                    x[i] += step / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]);
                }
            }
        }
        prop_assert!((x[0] - celsius(set).base()).abs() < 1e-4, "{} instead of {set}", x[0] - 273.15);
    }

    /// Tied together so fast that they are one, two lumps take what one takes.
    #[test]
    fn two_lumps_tied_together_are_one(
        engine in 20e3..150e3_f64, oil in 5e3..50e3_f64, loss in 0.0..60.0_f64, heat in 5e3..40e3_f64, start in -30.0..20.0_f64,
    ) {
        let stretch = Stretch { engine: of(heat * engine / (engine + oil)), oil: of(heat * oil / (engine + oil)), sump: of(loss * oil / (engine + oil)) };
        let two = WarmUpWithOil {
            lumps: Lumps {
                engine: of(engine), oil: of(oil), between: of(20e3), engine_loss: of(loss * engine / (engine + oil)),
                ambient: celsius(start),
            },
            idle: stretch,
            idle_for: of(0.0),
            drive: stretch,
            start: celsius(start),
        };
        let one = WarmUp { heat: of(heat), heat_capacity: of(engine + oil), loss: of(loss), ambient: celsius(start), start: celsius(start) };
        let ends = two.with_thermostat(celsius(75.0), celsius(100.0), &mut Silent).unwrap();
        match (ends.opens, one.time_to(celsius(75.0), &mut Silent).unwrap()) {
            (WarmUpEnd::Reached { after: two }, WarmUpEnd::Reached { after: one }) => {
                prop_assert!((two.base() / one.base() - 1.0).abs() < 1e-7, "{two:?} {one:?}");
            }
            (WarmUpEnd::NeverReached { settles_at: two }, WarmUpEnd::NeverReached { settles_at: one }) => {
                prop_assert!((two.base() - one.base()).abs() < 1e-6);
            }
            // Settling within a breath of the target: either is right.
            (two, one) => prop_assert!(false, "{two:?} {one:?}"),
        }
    }

    #[test]
    fn no_odd_number_of_the_oil_falls_over(value in odd(), which in 0..10, oil in any_oil(), balance in any_balance()) {
        let mut oil = oil;
        let bad: Estimate<ThermalConductance> = Estimate::exact(of(value));
        match which {
            0 => oil.heat = Estimate::exact(of(value)),
            1 => oil.block = bad,
            2 => oil.sump = bad,
            3 => oil.cooler = OilCooler::ToCoolant { conductance: bad },
            4 => oil.cooler = OilCooler::ToAir { conductance: bad, opens: None },
            5 => oil.cooler = OilCooler::ToAir { conductance: spread(80.0, 0.1), opens: Some(of(value)) },
            _ => oil.ambient = of(value),
        }
        if let Ok(state) = oil.at(celsius(90.0), &mut Silent) {
            prop_assert!(state.temperature.likely.base().is_finite());
        }
        if let Ok(Outcome::Steady(state)) = oil.settle(&balance, &mut Silent) {
            prop_assert!(state.outlet_temperature.base().is_finite());
        }
        let sump = SumpToAir { still: bad, driving: bad };
        prop_assert_eq!(sump.at(of(20.0)).is_ok(), (0.0..=1e3).contains(&value));
        let stretch = Stretch { engine: of(value), oil: of(1e3), sump: of(10.0) };
        let lumps = Lumps { engine: of(1e5), oil: of(5e4), between: of(value), engine_loss: of(10.0), ambient: celsius(0.0) };
        let warm_up = WarmUpWithOil { lumps, idle: stretch, idle_for: of(value), drive: stretch, start: celsius(0.0) };
        if let Ok(ends) = warm_up.with_thermostat(celsius(82.0), celsius(80.0), &mut Silent)
            && let WarmUpEnd::Reached { after } = ends.opens
        {
            prop_assert!(after.base().is_finite());
        }
    }
}

/// A coolant frozen at the temperatures met says nothing of the oil.
fn frozen(error: HeatError) -> Result<Outcome, HeatError> {
    match error {
        HeatError::Fluid(_) => Ok(Outcome::None(NoSteadyState {
            limit: celsius(100.0),
            limit_by: Limit::Ceiling,
            reason: Reason::RadiatorTooSmall,
            carried: of(0.0),
            deficit: of(1.0),
            deficit_wide_open: of(1.0),
        })),
        other => Err(other),
    }
}
