//! Follows a day, and looks at its books.

use coldmark::day::{CapState, Drive, EventKind, Heats, Lumps, Options, Start, Stretch, run};
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

/// What the events say passed the cap, trifles and steam with it, is what the samples say is out: to a gram, so to a
/// millilitre; and where the cap is said to be shut hardly anything passes.
#[allow(dead_code)]
pub fn adds_up(drive: &Drive) {
    let passed: f64 = drive
        .events
        .iter()
        .map(|event| match event.kind {
            EventKind::CapOpens { mass, .. } => mass.base(),
            EventKind::VacuumValveOpens { mass, .. } => -mass.base(),
            EventKind::CoolantBoils { blown_out, .. } => blown_out.base(),
            _ => 0.0,
        })
        .sum();
    let trifles = drive.trifles.out_mass.base() - drive.trifles.back_mass.base();
    // Where the car has stood since it was filled may have been warmer or colder than where it was filled.
    let at = |sample: Option<&coldmark::day::Sample>| sample.map_or(0.0, |sample| sample.out.base());
    let out = at(drive.samples.last()) - at(drive.samples.first());
    assert!((passed + trifles - out).abs() < 1e-3, "{passed} and {trifles}, but {out} is out: {:?}", drive.events);
    let valve = |event: &&coldmark::day::Event| {
        matches!(event.kind, EventKind::CapOpens { .. } | EventKind::VacuumValveOpens { .. })
    };
    for sample in drive.samples.iter().filter(|sample| sample.cap != CapState::Shut) {
        let during = |event: &coldmark::day::Event| {
            let until = event.kind.until().unwrap();
            event.time <= sample.time && sample.time <= until
        };
        let told = drive.events.iter().filter(valve).any(during);
        let trifles = drive.trifles.outward + drive.trifles.inward > 0;
        let steams = sample.cap == CapState::LetsOut && sample.vapour.base() > 0.0;
        assert!(told || trifles || steams, "{sample:?}");
    }
}
