//! Every input there is, whatever is chosen: a project shows only those its choices ask for.

use crate::quantity::{Estimate, Measured};
use crate::study::{Choice, Count, Field, Label, Project, Visitor};
use std::collections::BTreeSet;
use std::sync::LazyLock;

/// Whether some choices ask for the input, or the part, at this path.
pub(super) fn exists(path: &str) -> bool {
    ALL.contains(&without_rows(path))
}

/// The part that holds an input of this name, if there is one only.
pub(super) fn only_place_of(key: &str) -> Option<&'static str> {
    let mut places = ALL.iter().filter_map(|path| path.rsplit_once('.').filter(|(_, last)| *last == key));
    let (place, _) = places.next()?;
    places.next().is_none().then_some(place)
}

/// `circuit.hoses[2].bore` is known as `circuit.hoses.bore`.
fn without_rows(path: &str) -> String {
    path.split('.').map(|part| part.split('[').next().unwrap_or(part)).collect::<Vec<_>>().join(".")
}

static ALL: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let mut survey = Survey { choose: Choose::Mixed(1), path: Vec::new(), known: BTreeSet::new() };
    // At most three choices stand before an input, five words at most each: a test proves that this many mixtures
    // show them all.
    for _ in 0..1000 {
        Project::blank().visit(&mut survey);
    }
    survey.known
});

/// Projects that among them make every choice every way. An input that hangs on a choice is hidden in one of them.
pub(super) fn every_choice() -> impl Iterator<Item = Project> {
    // No choice has more words than this; a test proves it.
    (0..MOST_WORDS).map(|word| {
        let mut project = Project::blank();
        project.visit(&mut Survey { choose: Choose::Same(word), path: Vec::new(), known: BTreeSet::new() });
        project
    })
}

const MOST_WORDS: usize = 18;

#[derive(Clone, Copy)]
enum Choose {
    /// The word of this number, counted round.
    Same(usize),
    /// Words by turns without a pattern.
    Mixed(u64),
}

/// Notes every input it is shown, and makes every choice in its own way.
struct Survey {
    choose: Choose,
    path: Vec<&'static str>,
    known: BTreeSet<String>,
}

impl Survey {
    fn note(&mut self, key: &'static str) {
        let path = self.path.iter().copied().chain([key]).collect::<Vec<_>>().join(".");
        self.known.insert(path);
    }
}

impl Visitor for Survey {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.note(label.key);
        self.path.push(label.key);
        body(self);
        self.path.pop();
    }

    fn optional_group(
        &mut self,
        label: &'static Label,
        _known: &'static Label,
        _value: &mut bool,
        body: impl FnOnce(&mut Self),
    ) {
        self.group(label, body);
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        self.note(label.key);
        let number = match &mut self.choose {
            Choose::Same(word) => *word,
            Choose::Mixed(state) => {
                // Knuth's 64 bit linear congruential generator; the high bits are the good ones.
                *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                (*state >> 40) as usize
            }
        };
        if let Some(word) = C::ALL.get(number % C::ALL.len().max(1)) {
            *value = *word;
        }
    }

    fn list<T: Default>(&mut self, label: &'static Label, _value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        self.note(label.key);
        self.path.push(label.key);
        item(&mut T::default(), self);
        self.path.pop();
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, _value: &mut Q) {
        self.note(field.key);
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, _value: &mut Option<Q>, _absent: &'static str) {
        self.note(field.key);
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, _value: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
        self.note(field.key);
    }

    fn text(&mut self, label: &'static Label, _value: &mut String) {
        self.note(label.key);
    }

    fn count(&mut self, count: &'static Count, _value: &mut u32) {
        self.note(count.label.key);
    }

    fn switch(&mut self, label: &'static Label, _value: &mut bool) {
        self.note(label.key);
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, _value: &mut Vec<Q>) {
        self.note(field.key);
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        _columns: (&'static Field, &'static Field),
        _value: &mut Vec<(A, B)>,
    ) {
        self.note(label.key);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The number of words of the longest choice, and of choices met.
    struct Longest(usize, usize);
    impl Visitor for Longest {
        fn group(&mut self, _: &'static Label, body: impl FnOnce(&mut Self)) {
            body(self);
        }
        fn choice<C: Choice>(&mut self, _: &'static Label, _: &mut C) {
            self.0 = self.0.max(C::ALL.len());
            self.1 += 1;
        }
        fn list<T: Default>(&mut self, _: &'static Label, _: &mut Vec<T>, _: impl Fn(&mut T, &mut Self)) {}
        fn quantity<Q: Measured>(&mut self, _: &'static Field, _: &mut Q) {}
        fn optional<Q: Measured>(&mut self, _: &'static Field, _: &mut Option<Q>, _: &'static str) {}
        fn estimate<Q: Measured>(&mut self, _: &'static Field, _: &mut Option<Estimate<Q>>, _: Estimate<Q>) {}
        fn text(&mut self, _: &'static Label, _: &mut String) {}
        fn count(&mut self, _: &'static Count, _: &mut u32) {}
        fn switch(&mut self, _: &'static Label, _: &mut bool) {}
        fn readings<Q: Measured>(&mut self, _: &'static Field, _: &mut Vec<Q>) {}
        fn pairs<A: Measured, B: Measured>(
            &mut self,
            _: &'static Label,
            _: (&'static Field, &'static Field),
            _: &mut Vec<(A, B)>,
        ) {
        }
    }

    #[test]
    fn no_choice_has_more_words_than_are_tried() {
        for mut project in every_choice() {
            let mut longest = Longest(0, 0);
            project.visit(&mut longest);
            assert!(longest.0 >= 3 && longest.0 <= MOST_WORDS && longest.1 > 8, "{} {}", longest.0, longest.1);
        }
    }

    #[test]
    fn knows_inputs_behind_several_choices() {
        for path in ["tank.vent_length", "tank.top_width", "ventilation.valve.table", "circuit.hoses[3].bore"] {
            assert!(exists(path), "{path}");
        }
        assert!(!exists("tank.colour") && !exists("vent_length") && !exists(""));
        assert_eq!(only_place_of("vent_length"), Some("tank"));
        assert_eq!(only_place_of("bore"), None);
        // Twice as many mixtures find nothing more.
        let mut survey = Survey { choose: Choose::Mixed(7), path: Vec::new(), known: ALL.clone() };
        for _ in 0..5000 {
            Project::blank().visit(&mut survey);
        }
        assert_eq!(survey.known, *ALL);
    }
}
