//! The tilted surface keeps the volume.

use super::*;

fn metres(value: f64) -> Length {
    Length::from_base(value)
}

fn shapes() -> Vec<Tank> {
    let (a, b, c, d, e) = (metres(0.14), metres(0.08), metres(0.20), metres(0.12), metres(0.18));
    let shapes = [
        TankShape::UprightCylinder { diameter: a, height: e },
        TankShape::LyingCylinder { diameter: a, length: c },
        TankShape::Box { length: c, width: d, height: e },
        TankShape::TaperedBox { bottom_length: a, bottom_width: b, top_length: c, top_width: d, height: e },
    ];
    shapes.into_iter().map(|shape| Tank::new(shape).unwrap()).collect()
}

#[test]
fn the_tilted_surface_keeps_the_volume() {
    for tank in shapes() {
        let capacity = tank.capacity().base();
        for share in [0.02, 0.2, 0.5, 0.8, 0.98] {
            for (sx, sy) in [(0.5, 0.0), (0.0, -0.8), (0.3, 0.4), (-2.0, 1.0), (1e-9, 0.2), (1e-4, 1e-4)] {
                let volume = share * capacity;
                let level = tank.height_at(Volume::from_base(volume), &mut Silent).unwrap().base();
                let middle = surface_at_middle(&tank, volume, level, sx, sy).unwrap();
                let found = volume_below(&tank, middle, sx, sy);
                assert!((found - volume).abs() < 2e-5 * capacity, "{:?} {share} {sx} {sy}", tank.shape());
            }
        }
    }
}

#[test]
fn a_cut_rectangle_has_the_area_of_its_parts() {
    // A square of side 2 cut by x + y ≥ 1 leaves a triangle of legs 1.
    assert!((clipped(1.0, 1.0, 1.0, 1.0, 1.0) - 0.5).abs() < 1e-12);
    assert!((clipped(1.0, 1.0, 1.0, 1.0, 0.0) - 2.0).abs() < 1e-12);
    assert!((clipped(1.0, 1.0, 1.0, 1e-12, 0.5) - 1.0).abs() < 1e-9);
}

/// The closed forms of the wedge and of the clipped box against slices of them.
#[test]
fn closed_forms_are_the_sums_of_their_slices() {
    let (radius, height) = (0.057, 0.18);
    for slope in [1e-4, 0.05, 0.6, 1.7] {
        for z0 in [-0.09, -0.01, 0.0, 0.03, 0.09, 0.2, 0.3] {
            let slices = simpson(-PI / 2.0, PI / 2.0, |phi| {
                let wet = (z0 + slope * radius * phi.sin()).clamp(0.0, height);
                2.0 * (radius * phi.cos()).powi(2) * wet
            });
            let closed = wedge(radius, slope, z0) - wedge(radius, slope, z0 - height);
            assert!((closed - slices).abs() < 1e-9, "slope {slope}, z₀ {z0}: {closed} {slices}");
        }
    }
    let (a, b) = (0.07, 0.06);
    for (p, q) in [(0.6, 0.0), (0.0, 0.5), (0.6, 0.5), (0.6, 1e-6), (1e-3, 0.8), (1e-9, 0.4), (0.0, 0.0)] {
        for z0 in [-0.05, -0.01, 0.0, 0.02, 0.09, 0.2, 0.3] {
            let slices = simpson(-a, a, |x| simpson(-b, b, |y| (z0 + p * x + q * y).clamp(0.0, height)));
            let closed = corner(a, b, p, q, z0) - corner(a, b, p, q, z0 - height);
            assert!((closed - slices).abs() < 1e-8, "slopes {p} {q}, z₀ {z0}: {closed} {slices}");
        }
    }
}
