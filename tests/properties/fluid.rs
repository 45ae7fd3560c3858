//! Properties of the fluids.

use coldmark::fluid::{
    Base, Basis, FluidError, Mix, air, crankcase_gas, mass_share_from_volume, volume_share_from_mass, water,
};
use coldmark::quantity::si::{Length, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, Measured, celsius, in_celsius};
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

fn any_base() -> impl Strategy<Value = Base> {
    prop::sample::select(Base::ALL.to_vec())
}

fn glycol() -> impl Strategy<Value = Base> {
    prop::sample::select(vec![Base::EthyleneGlycol, Base::PropyleneGlycol])
}

fn basis() -> impl Strategy<Value = Basis> {
    prop::sample::select(Basis::ALL.to_vec())
}

/// Any mix of the range, water among them.
fn mix() -> impl Strategy<Value = Mix> {
    prop_oneof![
        1 => Just(Mix::water()),
        9 => (glycol(), 0.0..=0.70, basis())
            .prop_map(|(base, share, basis)| Mix::new(base, Ratio::from_base(share), basis).unwrap()),
    ]
}

fn by_mass(base: Base, w: f64) -> Mix {
    Mix::new(base, Ratio::from_base(w), Basis::ByMass).unwrap()
}

/// Every bit pattern, and often numbers near the range.
fn any_number(likely: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    prop_oneof![any::<u64>().prop_map(f64::from_bits), likely]
}

/// Where the mix is liquid: from its freezing point or −40 °C on.
fn coldest(mix: &Mix) -> f64 {
    mix.freezing_point(&mut Silent).map_or(-40.0, |t| (in_celsius(t) + 1e-9).max(-40.0))
}

/// The four properties of the liquid.
fn liquid(mix: &Mix, t: f64) -> [f64; 4] {
    let t = celsius(t);
    [
        mix.density(t, &mut Silent).unwrap().base(),
        mix.specific_heat(t, &mut Silent).unwrap().base(),
        mix.viscosity(t, &mut Silent).unwrap().base(),
        mix.conductivity(t, &mut Silent).unwrap().base(),
    ]
}

fn sound<Q: Measured>(result: Result<Q, FluidError>) -> Result<(), TestCaseError> {
    match result {
        Ok(value) => prop_assert!(value.base().is_finite() && value.base() >= 0.0, "{value:?}"),
        Err(FluidError::Table(_) | FluidError::NotSolved(_)) => prop_assert!(false, "{:?}", result),
        Err(error) => prop_assert!(error.to_string().len() > 20, "{error}"),
    }
    Ok(())
}

proptest! {
    #[test]
    fn nothing_is_ever_not_a_number(
        base in any_base(),
        basis in basis(),
        share in any_number(-0.1..0.8),
        t in any_number(200.0..500.0),
        p in any_number(0.0..1e6),
        z in any_number(-500.0..5000.0),
    ) {
        let share = Ratio::from_base(share);
        let (t, p) = (ThermodynamicTemperature::from_base(t), AbsolutePressure::from_base(p));
        sound(mass_share_from_volume(base, share, &mut Silent))?;
        sound(volume_share_from_mass(base, share, &mut Silent))?;
        sound(water::saturation_pressure(t, &mut Silent))?;
        sound(water::saturation_temperature(p, &mut Silent))?;
        sound(water::liquid_density(t, &mut Silent))?;
        sound(water::steam_density(t, &mut Silent))?;
        sound(water::latent_heat(t, &mut Silent))?;
        sound(water::specific_heat(t, &mut Silent))?;
        sound(water::viscosity(t, &mut Silent))?;
        sound(water::conductivity(t, &mut Silent))?;
        sound(air::standard_pressure(Length::from_base(z), &mut Silent))?;
        sound(air::density(p, t, &mut Silent))?;
        sound(air::viscosity(t, &mut Silent))?;
        sound(crankcase_gas::density(p, t, &mut Silent))?;
        match Mix::new(base, share, basis) {
            Err(error) => prop_assert!(error.to_string().contains("glycol")),
            Ok(mix) => {
                let all = mix.properties(t, p);
                sound(all.density)?;
                sound(all.specific_heat)?;
                sound(all.viscosity)?;
                sound(all.conductivity)?;
                sound(all.freezing_point)?;
                sound(all.freezing_point_safe)?;
                sound(all.boiling_point)?;
                sound(mix.vapour_pressure(t, &mut Silent))?;
                sound(mix.density(t, &mut Silent))?;
                let _ = mix.notes(t, p);
            }
        }
        if let Ok(mix) = Mix::from_concentrate(base, share, basis, Ratio::from_base(0.95)) {
            prop_assert!(mix.mass_share().base().is_finite());
        }
    }

    #[test]
    fn every_liquid_state_has_properties_and_writing_changes_nothing(mix in mix(), part in 0.0..=1.0) {
        let low = coldest(&mix);
        let t = celsius(low + part * (130.0 - low));
        let mut scribe = Writing::default();
        let density = mix.density(t, &mut scribe).unwrap();
        prop_assert!((700.0..1200.0).contains(&density.base()));
        prop_assert_eq!(density, mix.density(t, &mut Silent).unwrap());
        prop_assert_eq!(scribe.chapters[0].steps.last().unwrap().result.base, density.base());
        let heat = mix.specific_heat(t, &mut scribe).unwrap();
        prop_assert!((2000.0..4500.0).contains(&heat.base()));
        prop_assert_eq!(scribe.chapters[0].steps.last().unwrap().result.base, heat.base());
        let viscosity = mix.viscosity(t, &mut scribe).unwrap();
        prop_assert!((1e-4..5.0).contains(&viscosity.base()));
        prop_assert_eq!(scribe.chapters[0].steps.last().unwrap().result.base, viscosity.base());
        let conductivity = mix.conductivity(t, &mut scribe).unwrap();
        prop_assert!((0.2..0.7).contains(&conductivity.base()));
        prop_assert_eq!(scribe.chapters[0].steps.last().unwrap().result.base, conductivity.base());
        let pressure = mix.vapour_pressure(t, &mut scribe).unwrap();
        prop_assert_eq!(scribe.chapters[0].steps.last().unwrap().result.base, pressure.base());
    }

    #[test]
    fn density_falls_as_it_warms(mix in mix(), a in 5.0..=130.0, b in 5.0..=130.0) {
        prop_assume!(f64::abs(a - b) > 1e-6);
        let (cold, warm) = if a < b { (a, b) } else { (b, a) };
        prop_assert!(liquid(&mix, warm)[0] < liquid(&mix, cold)[0]);
    }

    #[test]
    fn viscosity_falls_as_it_warms(mix in mix(), a in 0.0..=1.0, b in 0.0..=1.0) {
        let low = coldest(&mix);
        let (cold, warm) = if a < b { (a, b) } else { (b, a) };
        prop_assume!(warm - cold > 1e-6);
        let at = |part: f64| liquid(&mix, low + part * (130.0 - low))[2];
        prop_assert!(at(warm) < at(cold));
    }

    #[test]
    fn boiling_rises_with_pressure(mix in mix(), a in 5e3..=600e3, b in 5e3..=600e3) {
        let (low, high) = if a < b { (a, b) } else { (b, a) };
        prop_assume!(high / low > 1.0 + 1e-9);
        let at = |p| mix.boiling_point(AbsolutePressure::from_base(p), &mut Silent).unwrap().base();
        prop_assert!(at(low) < at(high));
    }

    #[test]
    fn boiling_point_and_vapour_pressure_undo_each_other(mix in mix(), p in 5e3..=600e3) {
        let pressure = AbsolutePressure::from_base(p);
        let boiling = mix.boiling_point(pressure, &mut Silent).unwrap();
        let back = mix.vapour_pressure(boiling, &mut Silent).unwrap();
        prop_assert!((back.base() / p - 1.0).abs() < 1e-9, "{} and {p}", back.base());
        let again = mix.boiling_point(AbsolutePressure::from_base(back.base().clamp(5e3, 600e3)), &mut Silent).unwrap();
        prop_assert!((again.base() - boiling.base()).abs() < 1e-6);
    }

    #[test]
    fn saturation_of_water_undoes_itself(t in 273.15..=647.0) {
        let temperature = ThermodynamicTemperature::from_base(t);
        let pressure = water::saturation_pressure(temperature, &mut Silent).unwrap();
        prop_assume!(pressure.base() > 611.3);
        let back = water::saturation_temperature(pressure, &mut Silent).unwrap();
        prop_assert!((back.base() - t).abs() < 1e-6);
    }

    #[test]
    fn more_glycol_freezes_colder_and_boils_hotter(base in glycol(), a in 0.0..=0.7, b in 0.0..=0.7, p in 5e3..=600e3) {
        let (thin, rich) = if a < b { (a, b) } else { (b, a) };
        prop_assume!(rich - thin > 1e-6);
        let (thin, rich) = (by_mass(base, thin), by_mass(base, rich));
        let boiling = |mix: &Mix| mix.boiling_point(AbsolutePressure::from_base(p), &mut Silent).unwrap().base();
        prop_assert!(boiling(&rich) > boiling(&thin));
        if let (Ok(rich), Ok(thin)) = (rich.freezing_point(&mut Silent), thin.freezing_point(&mut Silent)) {
            prop_assert!(rich.base() < thin.base());
        }
    }

    #[test]
    fn no_step_where_the_pieces_join(base in glycol(), join in prop::sample::select(vec![0.05, 0.60]), t in 0.0..=130.0) {
        const NEAR: f64 = 1e-10;
        let sides = [join - NEAR, join + NEAR].map(|w| liquid(&by_mass(base, w), t));
        for (a, b) in sides[0].iter().zip(sides[1]) {
            prop_assert!((a / b - 1.0).abs() < 1e-8, "{a} and {b} at {join}");
        }
        // Beside plain water.
        for (a, b) in liquid(&by_mass(base, NEAR), t).iter().zip(liquid(&Mix::water(), t)) {
            prop_assert!((a / b - 1.0).abs() < 1e-8, "{a} and {b} beside water");
        }
    }

    #[test]
    fn no_step_at_100_degrees(mix in mix()) {
        for (a, b) in liquid(&mix, 100.0 - 1e-9).iter().zip(liquid(&mix, 100.0 + 1e-9)) {
            prop_assert!((a / b - 1.0).abs() < 1e-9, "{a} and {b}");
        }
    }

    #[test]
    fn one_mix_whichever_way_it_is_counted(base in glycol(), share in 0.0..=0.65, t in 0.0..=130.0) {
        let entered = Mix::new(base, Ratio::from_base(share), Basis::ByVolume).unwrap();
        let counted = Mix::new(base, entered.mass_share(), Basis::ByMass).unwrap();
        prop_assert!((counted.volume_share().base() - share).abs() < 1e-14);
        for (a, b) in liquid(&entered, t).iter().zip(liquid(&counted, t)) {
            prop_assert!((a / b - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_state_is_frozen_liquid_or_boiling(mix in mix(), t in -40.0..=130.0, p in 5e3..=600e3) {
        let state = mix.properties(celsius(t), AbsolutePressure::from_base(p));
        let boiling = in_celsius(state.boiling_point.unwrap());
        prop_assert!(state.freezing_point.is_ok() || mix.mass_share().base() > 0.60);
        match state.density {
            Ok(density) => {
                prop_assert_eq!(density, mix.density(celsius(t), &mut Silent).unwrap());
                prop_assert!(t <= boiling + 1e-9 && t >= coldest(&mix) - 1e-6);
            }
            Err(FluidError::Frozen { .. }) => prop_assert!(t < coldest(&mix)),
            Err(FluidError::Boils { .. }) => prop_assert!(t > boiling - 1e-9),
            Err(other) => prop_assert!(false, "{other}"),
        }
        prop_assert_eq!(state.density.is_ok(), state.viscosity.is_ok());
        prop_assert_eq!(state.density.is_ok(), state.specific_heat.is_ok());
        prop_assert_eq!(state.density.is_ok(), state.conductivity.is_ok());
    }

    #[test]
    fn higher_air_is_thinner(a in -400.0..=4000.0, b in -400.0..=4000.0) {
        let (low, high) = if a < b { (a, b) } else { (b, a) };
        prop_assume!(high - low > 1e-6);
        let at = |z| air::standard_pressure(Length::from_base(z), &mut Silent).unwrap().base();
        prop_assert!(at(high) < at(low));
    }

    #[test]
    fn steam_is_lighter_than_water_and_takes_heat_to_make(t in 273.15..=640.0) {
        let t = ThermodynamicTemperature::from_base(t);
        let (steam, liquid) = (water::steam_density(t, &mut Silent).unwrap(), water::liquid_density(t, &mut Silent).unwrap());
        prop_assert!(steam.base() < liquid.base());
        prop_assert!(water::latent_heat(t, &mut Silent).unwrap().base() > 0.0);
    }
}

#[test]
fn the_ends_of_the_range_are_inside() {
    for base in Base::ALL {
        let share = if base == Base::Water { 0.0 } else { 0.70 };
        for basis in Basis::ALL {
            let mix = Mix::new(base, Ratio::from_base(share), basis).unwrap();
            for p in [5e3, 600e3] {
                assert!(mix.boiling_point(AbsolutePressure::from_base(p), &mut Silent).is_ok());
            }
            assert!(mix.density(celsius(130.0), &mut Silent).is_ok());
            assert!(mix.density(ThermodynamicTemperature::from_base(403.15), &mut Silent).is_ok());
            if base != Base::Water {
                for low in [celsius(-40.0), ThermodynamicTemperature::from_base(233.15)] {
                    assert!(mix.viscosity(low, &mut Silent).is_ok());
                }
            }
        }
    }
}

#[test]
fn messages_name_the_value_the_limit_and_what_to_do() {
    let share = Ratio::from_base;
    let says = |error: FluidError, words: &[&str]| {
        let text = error.to_string();
        for word in words {
            assert!(text.contains(word), "\"{text}\" lacks \"{word}\"");
        }
    };
    let half = Mix::new(Base::EthyleneGlycol, share(0.5), Basis::ByVolume).unwrap();
    says(Mix::new(Base::EthyleneGlycol, share(0.8), Basis::ByMass).unwrap_err(), &["80 %", "70 %", "share of glycol"]);
    says(Mix::new(Base::Water, share(0.3), Basis::ByMass).unwrap_err(), &["30 %", "0 %", "choose"]);
    says(Mix::new(Base::Water, share(f64::NAN), Basis::ByMass).unwrap_err(), &["not a number"]);
    says(half.density(celsius(-40.0), &mut Silent).unwrap_err(), &["50 %", "-40 °C", "-39.855 °C", "ice", "choose"]);
    says(half.density(celsius(131.0), &mut Silent).unwrap_err(), &["131 °C", "130.0 °C", "check"]);
    says(Mix::water().density(celsius(-1.0), &mut Silent).unwrap_err(), &["plain water", "-1 °C", "0 °C"]);
    let strong = Mix::new(Base::PropyleneGlycol, share(0.65), Basis::ByMass).unwrap();
    says(strong.freezing_point(&mut Silent).unwrap_err(), &["65 % by mass", "60 %", "weaker"]);
    let state = half.properties(celsius(120.0), AbsolutePressure::from_base(101_325.0));
    says(state.density.unwrap_err(), &["120 °C", "101.33 kPa", "boiling point is 108", "raise the pressure"]);
    assert!(state.freezing_point.is_ok() && state.boiling_point.is_ok());
    let cold = half.properties(celsius(-40.0), AbsolutePressure::from_base(101_325.0));
    assert!(matches!(cold.density, Err(FluidError::Frozen { .. })) && cold.boiling_point.is_ok());
    says(
        half.boiling_point(AbsolutePressure::from_base(1e3), &mut Silent).unwrap_err(),
        &["1 kPa", "5 kPa", "600 kPa"],
    );
}
