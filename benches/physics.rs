//! How long the answers take, and the parts of them that a window asks for most often.
//!
//! `cargo bench --no-default-features` measures all, `… -- network` a part.
#![allow(clippy::unwrap_used, missing_docs)]

use coldmark::crankcase::arrangement::{Arrangement, Boundary, BreatherLine, Valve, Ventilation, solve};
use coldmark::crankcase::element::{BreatherElement, GenericPlunger, PlungerValve};
use coldmark::day::{Options, Start, run};
use coldmark::file::{demo, read_project, write_project};
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::quantity::si::{Area, Length, MassRate, Ratio};
use coldmark::quantity::{
    AbsolutePressure, LinearResistance, Measured, QuadraticResistance, UnitSystem, celsius, pascals,
};
use coldmark::scribe::Silent;
use coldmark::study;
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

#[path = "../tests/day/car.rs"]
mod car;
mod day;

/// What a keystroke in the window costs: all answers, and the curves beside them.
fn answers(c: &mut Criterion) {
    let project = demo();
    c.bench_function("answer", |b| b.iter(|| study::answer(black_box(&project)).unwrap()));
    c.bench_function("answer with working", |b| b.iter(|| study::answer_with_working(black_box(&project)).unwrap()));
    c.bench_function("curves", |b| b.iter(|| study::curves(black_box(&project)).unwrap()));
    c.bench_function("heat curves", |b| b.iter(|| study::heat_curves(black_box(&project)).unwrap()));
    c.bench_function("check of the inputs", |b| b.iter(|| black_box(&project).check().unwrap()));
    // A closed system feels engine speed at every place; an open one row by row.
    let mut closed = project.clone();
    closed.ventilation.arrangement = study::VentilationArrangement::ClosedWithFreshAirLine;
    for (name, project) in [("map 60 x 40", &closed), ("map 60 x 40, breather to the air", &project)] {
        let grid = study::map_grid(project, 60, 40).unwrap();
        c.bench_function(name, |b| {
            b.iter(|| study::map(black_box(project), &grid, &study::Variant::Present).unwrap());
        });
    }
    // The example's own day, both ends, crankcase and verdicts.
    let answers = study::answer(&project).unwrap();
    c.bench_function("day", |b| b.iter(|| study::day_with(black_box(&project), &answers, &|| false).unwrap()));
    // Three hours of second-by-second traces, averaged over 5 s.
    let mut driven = project.clone();
    driven.day = day::driven();
    let answers = study::answer(&driven).unwrap();
    c.bench_function("study day of 3 h", |b| {
        b.iter(|| study::day_with(black_box(&driven), &answers, &|| false).unwrap());
    });
    let text = write_project(&project, UnitSystem::Us);
    c.bench_function("read a project file", |b| b.iter(|| read_project(black_box(&text)).unwrap()));
}

fn properties(c: &mut Criterion) {
    let mut group = c.benchmark_group("properties");
    let mixes = [
        ("water", Mix::new(Base::Water, Ratio::from_base(0.0), Basis::ByMass).unwrap()),
        ("half ethylene glycol", Mix::new(Base::EthyleneGlycol, Ratio::from_base(0.5), Basis::ByVolume).unwrap()),
    ];
    let (at, pressure) = (celsius(71.3), AbsolutePressure::new(pascals(1.5e5)));
    for (name, mix) in &mixes {
        group.bench_function(format!("density of {name}"), |b| {
            b.iter(|| black_box(mix).density(black_box(at), &mut Silent).unwrap());
        });
        group.bench_function(format!("specific heat of {name}"), |b| {
            b.iter(|| black_box(mix).specific_heat(black_box(at), &mut Silent).unwrap());
        });
        group.bench_function(format!("viscosity of {name}"), |b| {
            b.iter(|| black_box(mix).viscosity(black_box(at), &mut Silent).unwrap());
        });
        group.bench_function(format!("conductivity of {name}"), |b| {
            b.iter(|| black_box(mix).conductivity(black_box(at), &mut Silent).unwrap());
        });
        group.bench_function(format!("vapour pressure of {name}"), |b| {
            b.iter(|| black_box(mix).vapour_pressure(black_box(at), &mut Silent).unwrap());
        });
        group.bench_function(format!("boiling point of {name}"), |b| {
            b.iter(|| black_box(mix).boiling_point(black_box(pressure), &mut Silent).unwrap());
        });
    }
    group.finish();
}

/// A breather and a valve at idle: four unknown pressures and a valve that moves.
fn network(c: &mut Criterion) {
    let element =
        BreatherElement { viscous: LinearResistance::from_base(2e5), inertial: QuadraticResistance::from_base(3e8) };
    let line = BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.6), 2).with_element(element);
    let ventilation = |arrangement: Arrangement| Ventilation {
        arrangement,
        valve: arrangement.has_valve().then(|| Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium))),
        baffle_area: Area::from_base(60e-6),
        ..Ventilation::breather_only(line)
    };
    let mut group = c.benchmark_group("network");
    let idle = Boundary::at(MassRate::from_base(0.12e-3), AbsolutePressure::new(pascals(35e3)));
    let full = Boundary::at(MassRate::from_base(1.6e-3), AbsolutePressure::new(pascals(98e3)));
    let with_valve = ventilation(Arrangement::BreatherWithValve);
    let breather = ventilation(Arrangement::BreatherOnly);
    group.bench_function("breather and valve at idle", |b| {
        b.iter(|| solve(black_box(&with_valve), black_box(&idle), &mut Silent).unwrap());
    });
    group.bench_function("breather and valve at full throttle", |b| {
        b.iter(|| solve(black_box(&with_valve), black_box(&full), &mut Silent).unwrap());
    });
    group.bench_function("one breather at full throttle", |b| {
        b.iter(|| solve(black_box(&breather), black_box(&full), &mut Silent).unwrap());
    });
    group.finish();
}

/// A day of three hours: a cold start, an hour of country road in pieces of 3 s, motorway, a pass, a hot stop, traffic.
fn through_a_day(c: &mut Criterion) {
    let lumps = day::car();
    let (stretches, heats) = day::legs();
    let start = Start { temperature: celsius(10.0) };
    c.bench_function("day of 3 h", |b| {
        b.iter(|| {
            let options = Options::default();
            run(black_box(&lumps), &stretches, &heats, &start, &options, &mut Silent).unwrap()
        });
    });
}

criterion_group!(benches, answers, properties, network, through_a_day);
criterion_main!(benches);
