//! The tables against the mix they are read from.

use super::systems::mix;
use crate::day::charge::Curves;
use crate::fluid::{Base, Basis, FluidError, Mix};
use crate::quantity::si::{Ratio, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::Silent;
use proptest::prelude::*;

fn kelvin(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_base(value)
}

fn any_mix() -> impl Strategy<Value = Mix> {
    prop_oneof![
        Just(Mix::water()),
        (0.01..0.70f64).prop_map(|share| mix(Base::EthyleneGlycol, share)),
        (0.01..0.69f64)
            .prop_map(|share| Mix::new(Base::PropyleneGlycol, Ratio::from_base(share), Basis::ByMass).unwrap()),
    ]
}

proptest! {
    #[test]
    fn they_say_what_the_mix_says(mix in any_mix(), share in 0.0..1.0f64) {
        let curves = Curves::new(&mix).unwrap();
        let (low, high) = curves.ends();
        let t = low + share * (high - low);
        let density = mix.density(kelvin(t), &mut Silent).unwrap().base();
        prop_assert!((curves.density(t).unwrap() / density - 1.0).abs() < 1e-8);
        let bubble = mix.vapour_pressure(kelvin(t), &mut Silent).unwrap().base();
        prop_assert!((curves.bubble(t).unwrap() / bubble - 1.0).abs() < 1e-6);
        let heat = mix.specific_heat(kelvin(t), &mut Silent).unwrap().base();
        prop_assert!((curves.specific_heat(t).unwrap() / heat - 1.0).abs() < 1e-5, "{t}");
        // The enthalpy is what the specific heat adds up to, and leads back.
        let enthalpy = curves.enthalpy(t).unwrap();
        prop_assert!((curves.temperature(enthalpy).unwrap() - t).abs() < 1e-9);
        if t + 0.01 < high {
            let slope = (curves.enthalpy(t + 0.01).unwrap() - enthalpy) / 0.01;
            prop_assert!((slope / heat - 1.0).abs() < 1e-3, "{slope} {heat}");
        }
    }

    #[test]
    fn boiling_points_are_the_mix_s(mix in any_mix(), pressure in 5e3..500e3f64) {
        let curves = Curves::new(&mix).unwrap();
        let told = mix.boiling_point(AbsolutePressure::from_base(pressure), &mut Silent).unwrap().base();
        prop_assert!((curves.boils_at(pressure).unwrap() - told).abs() < 1e-4);
    }

    /// Where a mix has no answer, neither have they, and they say why.
    #[test]
    fn outside_they_say_so(mix in any_mix(), far in prop_oneof![Just(f64::NAN), Just(f64::INFINITY), any::<f64>()]) {
        let curves = Curves::new(&mix).unwrap();
        let (low, high) = curves.ends();
        for t in [low - 1e-6, high + 1e-6, far] {
            if !(low..=high).contains(&t) {
                prop_assert!(curves.density(t).is_err() && curves.enthalpy(t).is_err() && curves.bubble(t).is_err());
            }
        }
        let _ = (curves.temperature(far), curves.boils_at(far));
    }
}

#[test]
fn frost_is_named() {
    let mix = mix(Base::EthyleneGlycol, 0.3);
    let curves = Curves::new(&mix).unwrap();
    assert!(matches!(curves.density(250.0), Err(FluidError::Frozen { .. })));
    let freezing = mix.freezing_point(&mut Silent).unwrap().base();
    assert_eq!(curves.ends(), (freezing, 403.15));
}
