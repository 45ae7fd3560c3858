//! Follows a day, and looks at its books.

use coldmark::day::{Drive, Heats, Lumps, Options, Start, Stretch, run};
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::Silent;

pub fn follow(lumps: &Lumps, day: &[(Stretch, Heats)], start: f64) -> Drive {
    follow_with(lumps, day, start, &Options::default())
}

pub fn follow_with(lumps: &Lumps, day: &[(Stretch, Heats)], start: f64, options: &Options<'_>) -> Drive {
    let (stretches, heats): (Vec<_>, Vec<_>) = day.iter().copied().unzip();
    run(lumps, &stretches, &heats, &Start { temperature: celsius(start) }, options, &mut Silent).unwrap()
}

/// The books of every day must close so well.
#[allow(dead_code)] // The published checks do not ask it.
pub fn closes(drive: &Drive) {
    let closures = &drive.closures;
    assert!(closures.energy.base().abs() < 1e-3, "{closures:?}");
    assert!(closures.coolant.base().abs() < 1e-3, "{closures:?}");
}
