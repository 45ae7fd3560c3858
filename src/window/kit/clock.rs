//! A time of the day as people read it: hours and minutes.

use crate::quantity::Measured;
use crate::quantity::si::Time;
use egui_plot::GridMark;

/// "1:45": hours and full minutes of a number of seconds, in the words of the study.
#[must_use]
pub fn clock(seconds: f64) -> String {
    if seconds.is_finite() { crate::study::clock(Time::from_base(seconds)) } else { "–".to_owned() }
}

/// Steps a clock is divided by, in seconds.
const STEPS: [f64; 11] = [60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 10_800.0, 21_600.0, 43_200.0];

/// Grid marks at round times, at least `smallest` seconds apart.
pub(super) fn clock_marks((low, high): (f64, f64), smallest: f64) -> Vec<GridMark> {
    let Some(step_size) = STEPS.into_iter().find(|step| *step >= smallest) else { return Vec::new() };
    let count = (high - low) / step_size;
    if !(count.is_finite() && (0.0..=500.0).contains(&count)) {
        return Vec::new();
    }
    let first = (low / step_size).ceil();
    let places = (0..=500_u32).map(|index| (first + f64::from(index)) * step_size);
    places.take_while(|value| *value <= high).map(|value| GridMark { value, step_size }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seconds_read_as_hours_and_minutes() {
        for (seconds, read) in [(0.0, "0:00"), (59.0, "0:00"), (60.0, "0:01"), (6300.0, "1:45"), (36_000.0, "10:00")] {
            assert_eq!(clock(seconds), read);
        }
        assert_eq!(clock(-0.1), "0:00");
        assert_eq!(clock(f64::NAN), "–");
    }

    #[test]
    fn marks_stand_at_round_times() {
        let read: Vec<String> = clock_marks((0.0, 7000.0), 700.0).iter().map(|mark| clock(mark.value)).collect();
        assert_eq!(read, ["0:00", "0:15", "0:30", "0:45", "1:00", "1:15", "1:30", "1:45"]);
        assert!(clock_marks((0.0, f64::NAN), 60.0).is_empty());
        assert!(clock_marks((0.0, 1e9), 1e9).is_empty());
    }
}
