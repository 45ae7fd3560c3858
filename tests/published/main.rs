//! Checks against published values and independent computations. Each file names its sources.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod accuracy;
mod blow_by;
mod coolant;
mod element;
mod fluid;
mod heat;
mod moisture;
mod network;
mod oil;

/// Prints the table that the README shows; the README's copy must agree.
#[test]
fn accuracy_table() {
    let parts = [
        fluid::accuracy(),
        coolant::accuracy(),
        heat::accuracy(),
        blow_by::accuracy(),
        element::accuracy(),
        network::accuracy(),
        moisture::accuracy(),
        oil::accuracy(),
    ];
    println!("| quantity | checked against | points | largest deviation | allowed |");
    println!("| --- | --- | --- | --- | --- |");
    for row in parts.into_iter().flatten() {
        println!(
            "| {} | {} | {} | {:.2e} {} | {:.2e} |",
            row.quantity, row.reference, row.points, row.largest, row.unit, row.allowed
        );
    }
}
