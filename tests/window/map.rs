//! The operating map: in words for whoever cannot see it, compared with another ventilation, in both units.

use crate::support::{Moves as _, Window, demo};
use coldmark::quantity::UnitSystem;
use coldmark::study::{Duty, Moment, Part};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

const SI: &str = "Operating map of the crankcase: Manifold pressure, absolute, kPa against Engine speed, rpm";

fn described(window: &Window, label: &str) -> String {
    window.get_by_label(label).accesskit_node().data().description().unwrap().to_owned()
}

fn press(window: &mut Window, segment: &str) {
    window.get_by_role_and_label(Role::RadioButton, segment).click_accesskit();
    window.run();
}

fn compare_with(window: &mut Window, other: &str) {
    window.get_by_role_and_label(Role::ComboBox, "Compare with").scroll_to_me();
    window.run();
    window.get_by_role_and_label(Role::ComboBox, "Compare with").click();
    window.run();
    window.get_by_role_and_label(Role::Button, other).scroll_to_me();
    window.run();
    window.get_by_role_and_label(Role::Button, other).click();
    window.run();
}

#[test]
fn the_map_says_where_the_breather_turns_round() {
    let mut window = demo();
    for part in [Part::Crankcase, Part::Breather, Part::Valve] {
        window.part(part);
        let words = described(&window, SI);
        assert!(
            words.contains("The breather turns round above") && words.contains(" kPa in the manifold: below that"),
            "{words}"
        );
        assert!(words.contains("passes its pressure limit: at light load above "), "{words}");
        assert!(
            words.contains("(0.5 kPa allowed); under load, from ") && words.contains("(1.5 kPa allowed)"),
            "{words}"
        );
        // Here the speed makes no difference, and none is named.
        assert!(!words.contains(" rpm"), "{words}");
        for line in ["limit, light load", "limit under load from here up", "limit, under load"] {
            assert!(window.shows(line), "{line}");
        }
        assert!(window.shows("judged on the high blow-by"));
        // Who sees it reads the same.
        assert!(window.query_all_by_label(&words).next().is_some(), "{part:?}");
    }
    // Other parts have none.
    window.part(Part::Tank);
    assert!(window.query_by_label(SI).is_none());
}

#[test]
fn the_map_follows_the_blow_by_and_the_inputs() {
    let mut window = demo();
    window.part(Part::Crankcase);
    let high = described(&window, SI);
    press(&mut window, "Likely blow-by");
    let likely = described(&window, SI);
    assert!(high.contains("At the high blow-by") && likely.contains("At the likely blow-by"), "{likely}");
    press(&mut window, "High blow-by");
    assert_eq!(described(&window, SI), high);
    window.part(Part::Breather);
    window.enter("Hose length", "3 m");
    assert_ne!(described(&window, SI), high);
}

#[test]
fn the_map_reads_in_the_units_chosen() {
    let mut window = demo();
    window.state_mut().read_in(UnitSystem::Us, true);
    window.state_mut().show_moment(Moment::Driving(Duty::FullThrottle));
    window.part(Part::Breather);
    let label = SI.replace("kPa", "psi");
    let words = described(&window, &label);
    assert!(words.contains("psi in the manifold"), "{words}");
    assert!(window.shows("Crankcase pressure, gauge: from ") && window.shows("inH2O"));
    assert!(window.shows("now: full throttle"));
}

#[test]
fn another_ventilation_is_laid_over_the_map() {
    let mut window = demo();
    window.part(Part::Valve);
    assert!(window.query_by_role_and_label(Role::RadioButton, "Difference").is_none());
    compare_with(&mut window, "The valve stuck shut");
    let words = described(&window, SI);
    assert!(words.contains("The valve stuck shut: the crankcase stands"), "{words}");
    assert!(words.contains("lets gas out everywhere"), "{words}");
    press(&mut window, "Difference");
    assert!(window.shows("Crankcase pressure, the other less as it is: from "));
    press(&mut window, "The other");
    assert!(window.shows("limit, light load, the other"));
    // A project without a valve cannot have it stuck; nothing else is asked of the person.
    compare_with(&mut window, "nothing");
    assert!(!described(&window, SI).contains("stuck"));
}

#[test]
fn a_ventilation_without_a_way_out_has_no_numbers() {
    let mut window = demo();
    window.part(Part::Crankcase);
    compare_with(&mut window, "PCV valve and no other way out");
    let words = described(&window, SI);
    assert!(words.contains("There is no breather to turn round"), "{words}");
}
