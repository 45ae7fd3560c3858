//! Fittings, mesh and sags against an independent implementation (the open-source fluids library) and published laws.

use coldmark::crankcase::element::{
    Fittings, KnittedMesh, Sag, bend_loss, elbow_loss, entrance_loss, exit_loss, half_bend_loss, mesh_surface,
    mesh_wire,
};
use coldmark::crankcase::oil::{Standing, sag_blockage};
use coldmark::quantity::si::{Area, Length, MassDensity, VolumeRate};
use coldmark::quantity::{Measured, pascals};
use coldmark::scribe::{Silent, Writing};

use crate::accuracy::{Row, Tally, table};

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    vec![losses(), mesh()]
}

/// The losses taken where none is entered. A bend is taken between the two radii of the table.
fn losses() -> Row {
    let mut tally = Tally::new("default losses of ends, bends, elbows", "fluids 1.3.1 (Python)", "%", 15.0);
    let taken = [
        ("sharp entrance", entrance_loss()),
        ("exit", exit_loss()),
        ("bend 90", bend_loss()),
        ("bend 45", half_bend_loss()),
        ("mitre 90", elbow_loss()),
    ];
    let mut points = 0;
    for record in table("crank_minor_losses.csv") {
        if let Some((_, loss)) = taken.iter().find(|(name, _)| record[0].starts_with(name)) {
            tally.relative(loss.likely().base(), record[1].parse().unwrap());
            points += 1;
        }
    }
    assert_eq!(points, 7);
    tally.row()
}

/// Drag of cylinders across the flow, 1 + 10/Re^(2/3) (F. M. White, Viscous Fluid Flow, from memory), summed over the wires.
fn mesh() -> Row {
    const AREA: f64 = 2e-3;
    const DEPTH: f64 = 0.05;
    let mut tally = Tally::new(
        "pressure of dry knitted mesh",
        "drag of cylinders, 1 + 10/Re^(2/3) (White, from memory)",
        "%",
        20.0,
    );
    let mesh = KnittedMesh {
        soaked: Measured::from_base(1.0),
        ..KnittedMesh::new(Area::from_base(AREA), Length::from_base(DEPTH))
    };
    let element = mesh.element(&mut Silent).unwrap();
    let (wire, surface) = (mesh_wire().likely().base(), mesh_surface().likely().base());
    for speed in [0.06, 0.1, 0.2, 0.5, 1.0, 2.0, 3.0_f64] {
        let reynolds = 1.2041 * speed * wire / 1.813e-5;
        let drag = 1.0 + 10.0 / reynolds.powf(2.0 / 3.0);
        let expected = drag * surface / std::f64::consts::PI * DEPTH * 0.5 * 1.2041 * speed * speed;
        tally.relative(element.drop_at(VolumeRate::from_base(speed * AREA)).base(), expected);
    }
    tally.row()
}

#[test]
fn a_mist_eliminator_costs_what_handbooks_say() {
    // A pad of 100 to 150 mm at 3 m/s: some 50 to 250 Pa dry, handbooks of gas cleaning, from memory.
    for depth in [0.1, 0.15] {
        let mesh = KnittedMesh {
            soaked: Measured::from_base(1.0),
            ..KnittedMesh::new(Area::from_base(0.01), Length::from_base(depth))
        };
        let drop = mesh.element(&mut Silent).unwrap().drop_at(VolumeRate::from_base(0.03)).base();
        assert!((50.0..250.0).contains(&drop), "{drop}");
    }
}

#[test]
fn a_sag_opens_at_the_head_of_its_liquid() {
    // 100 mm of water are 9.8 mbar by definition of the millimetre of water.
    let blockage =
        sag_blockage(Standing::Water, Length::from_base(0.1), MassDensity::from_base(1000.0), &mut Silent).unwrap();
    assert!((blockage.pressure.base() - 980.665).abs() < 1e-9);
    let sag = Sag::in_hose(blockage.pressure, Length::from_base(0.016));
    assert!(sag.check().is_ok() && Sag { head: pascals(-1.0), ..sag }.check().is_err());
}

#[test]
fn a_run_counts_each_of_its_fittings() {
    let sum = Fittings::of_run(2, 3, 1).sum().base();
    let [bend, half, elbow, ends] =
        [bend_loss(), half_bend_loss(), elbow_loss(), entrance_loss()].map(|loss| loss.likely().base());
    assert!((sum - (2.0 * bend + 3.0 * half + elbow + ends + 1.0)).abs() < 1e-12);
    let mut writing = Writing::default();
    assert!(KnittedMesh::new(Area::from_base(1e-3), Length::from_base(0.02)).element(&mut writing).is_ok());
    assert_eq!(writing.chapters[0].steps.len(), 2);
}
