//! Words about the window: what it shows when it opens, and a picture of it.

use super::UnitsWord;
use crate::quantity::Measured;
use crate::quantity::si::Time;
use crate::study::{self, Duty, Moment, Part};
use std::path::{Path, PathBuf};

/// How the window looks when it opens.
#[derive(Clone, Debug, Default, clap::Args)]
#[command(next_help_heading = "The window")]
pub struct LookWords {
    /// Paint once, save a picture (PNG), leave.
    #[arg(long, value_name = "FILE")]
    pub picture: Option<PathBuf>,
    /// Size of the window, such as 1280x800.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size)]
    pub size: Option<(f32, f32)>,
    /// The dark theme.
    #[arg(long)]
    pub dark: bool,
    /// Units to read in.
    #[arg(long, value_enum)]
    pub units: Option<UnitsWord>,
    /// The part whose inputs are open, such as tank or catch-can.
    #[arg(long, value_parser = part)]
    pub part: Option<Part>,
    /// The moment the drawing shows, such as idle or full-throttle.
    #[arg(long, value_parser = moment)]
    pub moment: Option<Moment>,
    /// The time of the day shown, in hours and minutes, such as 1:45.
    #[arg(long, value_name = "TIME", value_parser = time, conflicts_with = "moment")]
    pub day: Option<Time>,
}

impl LookWords {
    /// Whether the day of the project in `file`, or of the demo without one, has the time asked for.
    ///
    /// A project that has faults or no day says so in the window, and is not refused here.
    ///
    /// # Errors
    /// In words: what was asked, and how long the day is.
    pub fn check(&self, file: Option<&Path>) -> Result<(), String> {
        let Some(asked) = self.day else { return Ok(()) };
        let project = match file.map(crate::file::open) {
            Some(Ok(project)) => project,
            Some(Err(_)) => return Ok(()),
            None => crate::file::demo(),
        };
        let Ok(lasts) = study::day_lasts(&project) else { return Ok(()) };
        if asked <= lasts {
            return Ok(());
        }
        // The end in whole minutes, rounded down, can itself be asked for.
        let end = study::clock(lasts);
        let asked = study::clock(asked);
        Err(format!(
            "--day {asked} lies after the end of the day, which lasts {end}; ask for a time from 0:00 to {end}"
        ))
    }
}

fn size(text: &str) -> Result<(f32, f32), String> {
    let wrong = || format!("'{text}' is no size from 600x400 to 8000x8000; write it like 1280x800");
    let (width, height) = text.split_once('x').ok_or_else(wrong)?;
    let (width, height) = (width.parse::<u16>().map_err(|_| wrong())?, height.parse::<u16>().map_err(|_| wrong())?);
    if (600..=8000).contains(&width) && (400..=8000).contains(&height) {
        Ok((f32::from(width), f32::from(height)))
    } else {
        Err(wrong())
    }
}

fn time(text: &str) -> Result<Time, String> {
    let wrong = || format!("'{text}' is no time of a day from 0:00 to 99:59; write it like 1:45");
    let (hours, minutes) = text.split_once(':').ok_or_else(wrong)?;
    let (hours, minutes) = (hours.parse::<u8>().map_err(|_| wrong())?, minutes.parse::<u8>().map_err(|_| wrong())?);
    if hours < 100 && minutes < 60 {
        Ok(Time::from_base(f64::from(hours) * 3600.0 + f64::from(minutes) * 60.0))
    } else {
        Err(wrong())
    }
}

const PARTS: [(&str, Part); 12] = [
    ("tank", Part::Tank),
    ("cap", Part::Cap),
    ("thermostat", Part::Thermostat),
    ("radiator", Part::Radiator),
    ("engine", Part::Engine),
    ("coolant", Part::Coolant),
    ("surroundings", Part::Surroundings),
    ("crankcase", Part::Crankcase),
    ("breather", Part::Breather),
    ("valve", Part::Valve),
    ("catch-can", Part::CatchCan),
    ("cover-joint", Part::CoverJoint),
];

const MOMENTS: [(&str, Moment); 7] = [
    ("cold-morning", Moment::ColdMorning),
    ("idle", Moment::Driving(Duty::Idle)),
    ("cruise", Moment::Driving(Duty::Cruise)),
    ("hill", Moment::Driving(Duty::Hill)),
    ("full-throttle", Moment::Driving(Duty::FullThrottle)),
    ("overrun", Moment::Driving(Duty::Overrun)),
    ("hot-stop", Moment::HotStop),
];

fn one_of<T: Copy>(text: &str, what: &str, words: &[(&str, T)]) -> Result<T, String> {
    let found = words.iter().find(|(word, _)| *word == text);
    let all = || words.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ");
    found.map(|(_, value)| *value).ok_or_else(|| format!("'{text}' is no {what}; write one of: {}", all()))
}

fn part(text: &str) -> Result<Part, String> {
    one_of(text, "part", &PARTS)
}

fn moment(text: &str) -> Result<Moment, String> {
    one_of(text, "moment", &MOMENTS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_and_moment_has_a_word() {
        for wanted in Part::ALL {
            assert!(PARTS.iter().any(|(word, value)| *value == wanted && part(word) == Ok(wanted)));
        }
        for wanted in Moment::ALL {
            assert!(MOMENTS.iter().any(|(word, value)| *value == wanted && moment(word) == Ok(wanted)));
        }
        assert!(part("wing").unwrap_err().contains("catch-can"));
    }

    #[test]
    fn times_are_read_or_refused() {
        assert_eq!(time("1:45").unwrap().base(), 6300.0);
        assert_eq!(time("0:00").unwrap().base(), 0.0);
        for wrong in ["1", "1:60", "-1:00", "100:00", "1:2:3", "a:b", ""] {
            assert!(time(wrong).unwrap_err().contains("write it like 1:45"), "{wrong}");
        }
    }

    #[test]
    fn sizes_are_read_or_refused() {
        assert_eq!(size("1280x800"), Ok((1280.0, 800.0)));
        for wrong in ["1280", "x", "10x10", "-1x800", "99999x1", "1280x800x1"] {
            assert!(size(wrong).is_err(), "{wrong}");
        }
    }
}
