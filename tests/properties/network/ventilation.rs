//! Whole ventilations: sensible ones are solved, others refused in words.

use super::{absolute, shaped, usual_line, usual_valve};
use coldmark::crankcase::arrangement::{
    Boundary, BreatherLine, PressureBands, PressureState, Valve, Ventilation, capacity, largest_blow_by, solve,
};
use coldmark::crankcase::element::{BreatherElement, GenericPlunger, PlungerValve};
use coldmark::quantity::si::{Area, Length, MassRate, ThermodynamicTemperature};
use coldmark::quantity::{GaugePressure, Measured, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// The same for whole arrangements.
    #[test]
    fn arrangements_take_anything(
        figures in prop::array::uniform4(prop_oneof![any::<f64>(), 1e-10..1e-2, 1.0..1e5]),
        state in prop::array::uniform7(prop_oneof![any::<f64>(), 1e-5..5e-3, 250.0..400.0, 2e4..1.2e5]),
        shape in 0_usize..8,
    ) {
        let ventilation = any_shape(figures, shape);
        let at = Boundary {
            blow_by: MassRate::from_base(state[0]),
            manifold: absolute(state[1]),
            ambient: absolute(state[2]),
            air_cleaner_depression: pascals(state[3]),
            crankcase_temperature: ThermodynamicTemperature::from_base(state[4]),
            ambient_temperature: ThermodynamicTemperature::from_base(state[5]),
            manifold_temperature: ThermodynamicTemperature::from_base(state[6]),
        };
        sound(&ventilation, &at)?;
        let near = Boundary { blow_by: MassRate::from_base(state[0]), ..Boundary::at(MassRate::from_base(1e-3), absolute(5e4)) };
        sound(&ventilation, &near)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Sensible ventilations at sensible states always have an answer, and it balances.
    #[test]
    fn sensible_ventilations_are_solved(
        blow_by in 0.0..4e-3,
        manifold in 18e3..101e3,
        bore in 5.0..25.0,
        length in 0.1..2.0,
        barb in prop::option::of(3.0..20.0),
        air_cleaner in 0.0..2e3,
        shape in 0_usize..8,
    ) {
        let mut line = BreatherLine::of_hose(Length::from_base(bore * 1e-3), Length::from_base(length), 2)
            .with_element(BreatherElement::default());
        line.barb_bore = barb.map(|barb| Length::from_base(barb * 1e-3));
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium)), shape);
        let at = Boundary {
            air_cleaner_depression: pascals(air_cleaner),
            ..Boundary::at(MassRate::from_base(blow_by), absolute(manifold))
        };
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
        let flows = &outcome.flows;
        let out: f64 = [flows.breather, flows.second_breather, flows.fresh_air].into_iter().flatten().map(Measured::base).sum();
        // A can open to the air in the valve's line adds to what the valve draws.
        let valve = flows.valve.map_or(0.0, Measured::base) + flows.can_vent.map_or(0.0, Measured::base);
        prop_assert!((out + valve - blow_by).abs() < 1e-8, "{outcome:?}");
        prop_assert!(outcome.solution.residual.base() < 2e-9);
        // The turning point and the sign of the fresh flow agree.
        if let (Ok(capacity), true) = (capacity(&ventilation, &at, &mut Silent), outcome.all.len() < 2) {
            let fresh = flows.breather.or(flows.fresh_air).unwrap().base();
            prop_assert!((blow_by - capacity.blow_by.base()) * fresh >= -1e-11, "{capacity:?} {fresh}");
        }
    }

    /// More blow-by never lowers the crankcase's pressure.
    #[test]
    fn pressure_rises_with_blow_by(manifold in 18e3..101e3, blow_by in 0.0..3e-3, more in 1e-6..1e-3, shape in 0_usize..8) {
        let line = BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.5), 2);
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Large)), shape);
        let pressure = |blow_by: f64| {
            let at = Boundary::at(MassRate::from_base(blow_by), absolute(manifold));
            solve(&ventilation, &at, &mut Silent).unwrap().crankcase_gauge.base()
        };
        prop_assert!(pressure(blow_by + more) >= pressure(blow_by) - 0.02);
    }

    /// The crankcase never passes the limit with less than the largest blow-by for it.
    #[test]
    fn largest_blow_by_is_the_largest(manifold in 18e3..101e3, limit in -500.0..3e3, shape in 0_usize..8) {
        let line = BreatherLine::of_hose(Length::from_base(0.012), Length::from_base(0.5), 2);
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium)), shape);
        let at = Boundary::at(MassRate::from_base(1e-3), absolute(manifold));
        let found = largest_blow_by(&ventilation, &at, GaugePressure::from_base(limit), &mut Silent).unwrap();
        for (factor, sign) in [(0.99, -1.0), (1.01, 1.0)] {
            let blow_by = MassRate::from_base(found.blow_by.base() * factor);
            let gauge = solve(&ventilation, &Boundary { blow_by, ..at }, &mut Silent).unwrap().crankcase_gauge.base();
            let sign = if found.blow_by.base() < 0.0 { -sign } else { sign };
            prop_assert!((gauge - limit) * sign >= -0.05, "{gauge} {limit}");
        }
    }

    /// Every pressure gets one finding, and findings do not get milder with distance from the good band.
    #[test]
    fn judgements_are_total(pressure in -1e5..1e5_f64) {
        for state in [PressureState::PartLoad, PressureState::FullThrottle] {
            prop_assert!(PressureBands::usual(state).judge(GaugePressure::from_base(pressure)).is_ok());
        }
    }
}

fn any_shape(figures: [f64; 4], shape: usize) -> Ventilation {
    let [a, b, c, d] = figures;
    let line = BreatherLine::of_hose(Length::from_base(a), Length::from_base(b), 2);
    let valve = PlungerValve { open_area: Area::from_base(c), ..PlungerValve::generic(GenericPlunger::Medium) };
    let mut ventilation = shaped(line, Valve::Plunger(valve), shape);
    ventilation.baffle_area = Area::from_base(d);
    if shape.is_multiple_of(2) {
        ventilation.breather = Some(BreatherLine::of_hose(Length::from_base(0.012), Length::from_base(1.0), 2));
    }
    ventilation
}

fn sound(ventilation: &Ventilation, at: &Boundary) -> Result<(), TestCaseError> {
    if let Ok(outcome) = solve(ventilation, at, &mut Silent) {
        prop_assert!(outcome.crankcase_gauge.base().is_finite());
        prop_assert!(outcome.losses.iter().all(|loss| loss.flow.base().is_finite() && loss.drop.base().is_finite()));
        prop_assert!(outcome.solution.residual.base() < 2e-9);
    }
    if let Ok(capacity) = capacity(ventilation, at, &mut Silent) {
        prop_assert!(capacity.blow_by.base().is_finite());
    }
    if let Ok(largest) = largest_blow_by(ventilation, at, GaugePressure::from_base(500.0), &mut Silent) {
        prop_assert!(largest.blow_by.base().is_finite());
    }
    Ok(())
}

#[test]
fn wrong_states_are_named() {
    let ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let good = Boundary::at(MassRate::from_base(1e-3), absolute(50e3));
    let ask = |at: Boundary| solve(&ventilation, &at, &mut Silent).unwrap_err().to_string();
    assert!(ask(Boundary { blow_by: MassRate::from_base(1.0), ..good }).starts_with("blow-by is 1000 g/s"));
    assert!(ask(Boundary { manifold: absolute(-5e4), ..good }).starts_with("manifold pressure"));
    assert!(ask(Boundary { ambient: absolute(0.0), ..good }).starts_with("ambient pressure"));
    assert!(
        ask(Boundary { air_cleaner_depression: pascals(-1.0), ..good }).starts_with("depression of the air cleaner")
    );
    assert!(ask(Boundary { crankcase_temperature: celsius(300.0), ..good }).starts_with("crankcase gas temperature"));
}

#[test]
fn a_narrow_port_is_pointed_out() {
    let mut ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let at = Boundary::at(MassRate::from_base(0.2e-3), absolute(50e3));
    let narrow = |ventilation: &Ventilation| {
        solve(ventilation, &at, &mut Silent).unwrap().notes.iter().any(|note| note.key == "port-narrower")
    };
    assert!(!narrow(&ventilation));
    ventilation.port_bore = Some(Length::from_base(6e-3));
    assert!(!narrow(&ventilation));
    ventilation.port_bore = Some(Length::from_base(1.5e-3));
    assert!(narrow(&ventilation));
}
