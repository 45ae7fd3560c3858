//! Flow elements one by one.

use super::{AMBIENT, absolute, compliant, end, flow, symmetric};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, Fittings, FixedOrificeValve, Gas, Hose, Orifice, PlungerValve, Sag,
    SonicPort, TableValve,
};
use coldmark::quantity::si::{Area, Length, MassRate, Ratio};
use coldmark::quantity::{LinearResistance, Measured, QuadraticResistance, SonicConductance, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Mirrored ends give the mirrored flow, to the last bit.
    #[test]
    fn symmetric_elements_are_mirrored(
        element in symmetric(),
        pressures in (20e3..200e3, 20e3..200e3),
        warm in (250.0..450.0, 250.0..450.0),
    ) {
        prop_assert!(element.is_symmetric());
        let there = flow(&element, pressures.0, pressures.1, warm);
        let back = flow(&element, pressures.1, pressures.0, (warm.1, warm.0));
        prop_assert_eq!(there, -back);
    }

    /// Flow rises with the first pressure, never rises with the second, has the sign of the difference and is zero at
    /// none.
    #[test]
    fn compliant_elements_comply(
        element in compliant(),
        pressures in (20e3..200e3, 20e3..200e3),
        near in prop_oneof![Just(0.0), -1.0..1.0, -1e3..1e3, -1e5..1e5],
        more in 1e-3..1e4,
        warm in 250.0..450.0,
    ) {
        let (first, second): (f64, f64) = (pressures.0, f64::max(pressures.0 + near, 1e3).min(pressures.1 + 2e5));
        let warm = (warm, warm);
        let here = flow(&element, first, second, warm);
        prop_assert!(here * (first - second) >= 0.0);
        // Against rounding, and what the search for a hose's flow leaves.
        let slack = 1e-7 * here.abs() + 1e-16;
        prop_assert!(flow(&element, first + more, second, warm) >= here - slack);
        prop_assert!(flow(&element, first, second + more, warm) <= here + slack);
        prop_assert_eq!(flow(&element, first, first, warm), 0.0);
    }

    /// No jump anywhere: a small change of pressure makes a small change of flow.
    #[test]
    fn elements_have_no_jumps(element in compliant(), first in 20e3..200e3, gap in -2e3..2e3, warm in (300.0..400.0)) {
        let second = f64::max(first - gap, 1e3);
        let warm = (warm, warm);
        let here = flow(&element, first, second, warm);
        let beside = flow(&element, first + 1e-4, second, warm);
        let far = flow(&element, first + 0.2, second, warm).abs() + flow(&element, first - 0.2, second, warm).abs();
        prop_assert!((beside - here).abs() <= 0.02 * far + 1e-12, "{here} {beside} {far}");
    }

    /// Any number whatever in: a flow or an error out, never a panic and never a number that is none.
    #[test]
    fn elements_take_anything(
        figures in prop::array::uniform4(any::<f64>()),
        pressures in (any::<f64>(), any::<f64>()),
        warm in (any::<f64>(), any::<f64>()),
        gamma in prop_oneof![Just(1.4), any::<f64>()],
    ) {
        for element in anything(figures) {
            let gas = Gas { isentropic_exponent: Ratio::from_base(gamma) };
            if let Ok(flow) = element.flow(end(pressures.0, warm.0), end(pressures.1, warm.1), gas, &mut Silent) {
                prop_assert!(flow.base().is_finite());
            }
        }
    }
}

fn anything(figures: [f64; 4]) -> Vec<Element> {
    let [a, b, c, d] = figures;
    let area = Area::from_base(a);
    let mut all: Vec<Element> = vec![
        Orifice { effective_area: area }.into(),
        SonicPort { conductance: SonicConductance::from_base(a), critical_ratio: Ratio::from_base(b) }.into(),
        Hose {
            bore: Length::from_base(a),
            length: Length::from_base(b),
            fittings: Fittings::of_sum(Ratio::from_base(c)),
            roughness: Length::from_base(d),
        }
        .into(),
        BreatherElement { viscous: LinearResistance::from_base(a), inertial: QuadraticResistance::from_base(b) }.into(),
        PlungerValve {
            open_area: area,
            idle_area: Area::from_base(b),
            starts_reducing: pascals(c),
            fully_reduced: pascals(d),
            backfire_area: Area::from_base(0.0),
        }
        .into(),
        FixedOrificeValve { bore: Length::from_base(a), discharge: Ratio::from_base(b), seat_leak: Area::from_base(c) }
            .into(),
        CheckValve { effective_area: area, opening_pressure: pascals(b), seat_leak: Area::from_base(c) }.into(),
        Element::CheckInwards(CheckValve {
            effective_area: area,
            opening_pressure: pascals(b),
            seat_leak: Area::from_base(c),
        }),
        Sag { head: pascals(a), open_area: Area::from_base(b), leak: Area::from_base(c) }.into(),
    ];
    let points = [(pascals(a), MassRate::from_base(b)), (pascals(c), MassRate::from_base(d))];
    if let Ok(table) = TableValve::new(&points, absolute(AMBIENT), celsius(20.0)) {
        all.push(table.into());
    }
    all
}
