//! Checks against published values and independent computations. Each file names its sources.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod accuracy;
mod blow_by;
#[path = "../day/car.rs"]
mod car;
mod coolant;
mod day;
mod derived;
mod element;
#[path = "../day/example.rs"]
mod example;
mod fluid;
#[path = "../day/follow.rs"]
mod follow;
mod heat;
mod joint;
mod lines;
mod moisture;
mod network;
mod oil;
mod oil_heat;
mod radiator;
mod readme;
mod road;
mod valve;

/// Prints the table of this run, and compares what does not hang on the last digit with the README's copy:
/// the rows and what is allowed. With `COLDMARK_WRITE_README=1` it writes the copy instead.
#[test]
fn accuracy_table() {
    let parts = [
        fluid::accuracy(),
        coolant::accuracy(),
        heat::accuracy(),
        oil_heat::accuracy(),
        radiator::accuracy(),
        blow_by::accuracy(),
        element::accuracy(),
        lines::accuracy(),
        network::accuracy(),
        derived::accuracy(),
        valve::accuracy(),
        joint::accuracy(),
        moisture::accuracy(),
        oil::accuracy(),
        road::accuracy(),
        day::accuracy(),
    ];
    let table = readme::Table::of(parts.into_iter().flatten());
    println!("{}", table.text());
    if std::env::var_os("COLDMARK_WRITE_README").is_some_and(|value| value == "1") {
        table.write();
    }
    table.compare();
}
