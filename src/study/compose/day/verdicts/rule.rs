//! Which rules, the day or the steady answer: likely against likely, unfavourable against unfavourable.

use std::cmp::Ordering;

/// A figure of which more is better, at the likely values and at the unfavourable end; without end below where it fails
/// without a figure, `None` where it is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Ends {
    pub likely: Option<f64>,
    pub unfavourable: Option<f64>,
}

impl Ends {
    /// Fails at the likely values, and so at the unfavourable end.
    pub const FAILS: Self = Self { likely: Some(f64::NEG_INFINITY), unfavourable: Some(f64::NEG_INFINITY) };

    pub const fn of(likely: f64, unfavourable: f64) -> Self {
        Self { likely: Some(likely), unfavourable: Some(unfavourable) }
    }
}

/// Whose figure a verdict shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ruled {
    Day,
    Steady,
    /// Neither holds; the day's figure is shown, for it names the moment.
    Both,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rule {
    pub ruled: Ruled,
    /// How the day stands to the steady answer at the unfavourable end: `Less` where it is the worse.
    unfavourable: Option<Ordering>,
}

impl Rule {
    /// What is to be said where the unfavourable ends stand the other way round.
    pub const fn also(self) -> &'static str {
        match (self.ruled, self.unfavourable) {
            (Ruled::Steady, Some(Ordering::Less)) => ", where the day is the worse",
            (Ruled::Day, Some(Ordering::Greater)) => ", where the steady answer is the worse",
            _ => "",
        }
    }
}

/// The worse state rules; of equal ones the worse likely figure, and of equal ones of these the worse unfavourable one.
pub(super) fn rule(day_weight: u8, day: Ends, steady_weight: u8, steady: Ends) -> Rule {
    let against = |day: Option<f64>, steady: Option<f64>| Some(day?.total_cmp(&steady?));
    let unfavourable = against(day.unfavourable, steady.unfavourable);
    let figures = match against(day.likely, steady.likely) {
        None | Some(Ordering::Equal) => unfavourable,
        likely => likely,
    };
    let ruled = match day_weight.cmp(&steady_weight) {
        Ordering::Greater => Ruled::Day,
        Ordering::Less => Ruled::Steady,
        Ordering::Equal if day_weight == super::weight(crate::study::State::DoesNotHold) => Ruled::Both,
        Ordering::Equal if figures == Some(Ordering::Less) => Ruled::Day,
        Ordering::Equal => Ruled::Steady,
    };
    Rule { ruled, unfavourable }
}

#[cfg(test)]
mod tests {
    use super::*;

    const THIN: u8 = 2;
    const FAILS: u8 = 3;

    #[test]
    fn like_is_weighed_against_like() {
        // The day is better at the likely values and worse at the unfavourable end.
        let mixed = rule(THIN, Ends::of(13.8, -8.0), THIN, Ends::of(8.2, 1.1));
        assert_eq!((mixed.ruled, mixed.also()), (Ruled::Steady, ", where the day is the worse"));
        let other = rule(THIN, Ends::of(5.0, 2.0), THIN, Ends::of(8.2, 1.1));
        assert_eq!((other.ruled, other.also()), (Ruled::Day, ", where the steady answer is the worse"));
        let worse = rule(THIN, Ends::of(5.0, 0.5), THIN, Ends::of(8.2, 1.1));
        assert_eq!((worse.ruled, worse.also()), (Ruled::Day, ""));
        let better = rule(THIN, Ends::of(9.0, 2.0), THIN, Ends::of(8.2, 1.1));
        assert_eq!((better.ruled, better.also()), (Ruled::Steady, ""));
    }

    #[test]
    fn the_unfavourable_end_decides_where_the_likely_does_not() {
        let known = |unfavourable| Ends { likely: None, unfavourable: Some(unfavourable) };
        assert_eq!(rule(THIN, known(-1.0), THIN, known(1.0)).ruled, Ruled::Day);
        assert_eq!(rule(THIN, Ends::of(1.0, -1.0), THIN, Ends::of(1.0, 1.0)).ruled, Ruled::Day);
        // Boiling at both ends of both is neither's.
        let boils = Ends { likely: Some(2.0), ..Ends::FAILS };
        assert_eq!(rule(THIN, boils, THIN, boils).also(), "");
    }

    #[test]
    fn the_worse_state_rules_whatever_the_figures() {
        assert_eq!(rule(FAILS, Ends::of(9.0, 9.0), THIN, Ends::of(1.0, 1.0)).ruled, Ruled::Day);
        let steady = rule(THIN, Ends::of(1.0, -9.0), FAILS, Ends::of(-1.0, -2.0));
        assert_eq!((steady.ruled, steady.also()), (Ruled::Steady, ", where the day is the worse"));
        assert_eq!(rule(FAILS, Ends::default(), FAILS, Ends::default()).ruled, Ruled::Both);
        assert_eq!(rule(THIN, Ends::default(), THIN, Ends::default()).ruled, Ruled::Steady);
    }
}
