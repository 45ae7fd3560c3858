//! What to measure to know the blow-by better, told.

use crate::quantity::si::Ratio;
use crate::quantity::{Amount, Kind};
use crate::say;
use crate::study::{Band, Means, Narrow, Section, Sentence};

/// A band in words: "4.2 times", or that it has no low end.
fn times(factor: Option<Ratio>) -> Sentence {
    match factor {
        Some(factor) => say![Amount::of_kind(factor, Kind::Number), " times"],
        None => say!["a band without a low end"],
    }
}

impl Narrow {
    /// What to measure, and how much it would help.
    #[must_use]
    pub fn advice(&self) -> Sentence {
        let now = match self.now {
            Some(_) => say![
                "at full throttle the high blow-by is ",
                times(self.now),
                " the low one, known ",
                self.knowledge.name()
            ],
            None => say!["at full throttle the low blow-by is nothing, known ", self.knowledge.name()],
        };
        let mut advice = match self.best() {
            Some(best) => say![now, "; ", best.by.name(), " would bring it to ", times(best.factor)],
            None => say![now, "; nothing that could be measured narrows it"],
        };
        let best = self.best().map(|best| best.by);
        // Only what narrows stands behind "would bring it to"; a wider band is one of another level, and is said so.
        let now = self.now.map_or(f64::INFINITY, |now| now.value);
        let narrows = |way: &&Band<Means>| way.factor.is_some_and(|factor| factor.value < 0.99 * now);
        let others = || self.ways.iter().filter(|way| Some(way.by) != best);
        for other in others().filter(narrows) {
            advice = say![advice, ", ", other.by.name(), " to ", times(other.factor)];
        }
        for other in others().filter(|way| !narrows(way)) {
            let name = other.by.name().trim_end_matches(',');
            advice = say![advice, "; ", name, " leaves ", times(other.factor), ", no narrower"];
            // It goes before the rules of thumb all the same.
            if other.by == Means::LeakDown {
                advice = say![advice, ", but of this very engine"];
            }
        }
        if let Some(widest) = self.figures.first() {
            advice = say![
                advice,
                ". Of what the leak-down test rests on, ",
                widest.by.name(),
                " leaves most open, ",
                times(widest.factor)
            ];
            for other in
                self.figures.iter().skip(1).filter(|other| other.factor.is_none_or(|factor| factor.value > 1.005))
            {
                advice = say![advice, ", then ", other.by.name(), ", ", times(other.factor)];
            }
            advice = say![advice, ": ", widest.by.settled_by()];
        }
        advice
    }
}

/// The rows of it.
pub(super) fn narrow_section(narrow: &Narrow) -> Section {
    let mut section = Section::new("blow_by", "Blow-by: what to measure");
    let mut row = |key: &str, label: &str, factor: Option<Ratio>| match factor {
        Some(factor) => {
            section.amount(key, label, Amount::of_kind(factor, Kind::Number));
        }
        None => {
            section.absent(key, label, "the low end is nothing");
        }
    };
    row("band_now", "High over low at full throttle, as it is known", narrow.now);
    for way in &narrow.ways {
        let label = format!("High over low with {}", way.by.name().trim_end_matches(','));
        row(&format!("band_with_{}", way.by.word()), &label, way.factor);
    }
    for figure in &narrow.figures {
        let label = format!("Of the leak-down test, left open by {} alone: high over low", figure.by.name());
        row(&format!("band_of_{}", figure.by.word()), &label, figure.factor);
    }
    section.words("measure", "What to measure", narrow.advice());
    section
}
