//! Knitted mesh across the way of the gas: the drag of its wires.

use super::defaults::{mesh_inertial_drag, mesh_soaked, mesh_surface, mesh_viscous_drag, mesh_wire};
use super::{BreatherElement, FlowError};
use crate::quantity::si::{Area, Length, Ratio};
use crate::quantity::{Kind, LinearResistance, Measured, QuadraticResistance, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::CYLINDER_DRAG;
use std::f64::consts::PI;

const AREA: Range = Range::new(
    "area of the mesh",
    Kind::SmallArea,
    1.0e-5,
    0.1,
    "across the way of the gas; 3 cm² in an outlet, 20 to 80 cm² in a can",
);
const DEPTH: Range =
    Range::new("depth of the mesh", Kind::SmallLength, 1.0e-3, 0.3, "along the way of the gas, 10 to 100 mm");
pub(super) const SURFACE: Range =
    Range::new("surface of the wires in a cubic metre", Kind::Number, 20.0, 2000.0, "145 to 480 m²/m³, from the maker");
pub(super) const WIRE: Range = Range::new("wire of the mesh", Kind::SmallLength, 2.0e-5, 2.0e-3, "0.1 to 0.3 mm");
pub(super) const DRAG: Range = Range::new("drag of a wire", Kind::Number, 0.1, 100.0, "1.8 + 10/Re");
pub(super) const SOAKED: Range = Range::new(
    "pressure of the wet mesh over the dry",
    Kind::Number,
    1.0,
    20.0,
    "1 dry, 1.5 as it works, 4 when it drips",
);

/// A pack of knitted mesh, its wires taken as cylinders across the flow: a metre cubed of it shows the flow `S/π` square
/// metres of wire, each with a drag coefficient `C₀ + C₁/Re`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnittedMesh {
    /// Area across the gas, 0.1 to 1000 cm².
    pub area: Area,
    /// Depth along the gas, 1 to 300 mm.
    pub depth: Length,
    /// Surface of the wires in a volume, 1/m, 20 to 2000.
    pub surface: Ratio,
    /// Diameter of the wire, 0.02 to 2 mm.
    pub wire: Length,
    /// Times the pressure of the dry mesh, 1 to 20.
    pub soaked: Ratio,
}

impl KnittedMesh {
    /// A pack of the usual mesh, wet as it works.
    #[must_use]
    pub fn new(area: Area, depth: Length) -> Self {
        Self {
            area,
            depth,
            surface: mesh_surface().likely(),
            wire: mesh_wire().likely(),
            soaked: mesh_soaked().likely(),
        }
    }

    /// What it does to the flow: `a = w C₁ (S/π) L μ/(2 d A)` and `b = w C₀ (S/π) L ρ/(2 A²)` in `Δp = a Q + b Q²`, for air of
    /// 20 °C and 101.325 kPa; wires at Reynolds numbers up to about 60, which is 3 m/s.
    ///
    /// # Errors
    /// A figure outside its range.
    pub fn element(&self, scribe: &mut impl Scribe) -> Result<BreatherElement, FlowError> {
        let (area, depth) = (AREA.check(self.area)?.base(), DEPTH.check(self.depth)?.base());
        let (surface, wire) = (SURFACE.check(self.surface)?.base(), WIRE.check(self.wire)?.base());
        let soaked = SOAKED.check(self.soaked)?.base();
        let (inertial_drag, viscous_drag) = (mesh_inertial_drag().likely(), mesh_viscous_drag().likely());
        let shown = surface / PI * depth;
        let viscous = soaked * viscous_drag.base() * shown * super::breather::REFERENCE_VISCOSITY / (2.0 * wire * area);
        let inertial = soaked * inertial_drag.base() * shown * super::breather::REFERENCE_DENSITY / (2.0 * area * area);
        let (viscous, inertial) = (LinearResistance::from_base(viscous), QuadraticResistance::from_base(inertial));
        let put_in = |step: Step| {
            step.with_number("w", soaked)
                .with_number("S", surface)
                .with_amount("L", crate::quantity::Amount::of_kind(self.depth, Kind::SmallLength))
                .with_amount("d", crate::quantity::Amount::of_kind(self.wire, Kind::SmallLength))
                .with_amount("A", crate::quantity::Amount::of_kind(self.area, Kind::SmallArea))
        };
        scribe.step(|| {
            let step = Step::new("linear part of the mesh", "a", "w C₁ (S/π) L μ_ref/(2 d A)", &CYLINDER_DRAG);
            put_in(step.with("C₁", viscous_drag)).gives(viscous)
        });
        scribe.step(|| {
            let step = Step::new("quadratic part of the mesh", "b", "w C₀ (S/π) L ρ_ref/(2 A²)", &CYLINDER_DRAG);
            put_in(step.with("C₀", inertial_drag)).gives(inertial)
        });
        let element = BreatherElement { viscous, inertial };
        element.check()?;
        Ok(element)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// White's correlation of a cylinder across the flow, from memory: 1 + 10/Re^(2/3).
    #[test]
    fn the_two_terms_stay_near_the_correlation() {
        for reynolds in [1.0, 2.0, 5.0, 10.0, 20.0, 40.0, 60.0_f64] {
            let expected = 1.0 + 10.0 / reynolds.powf(2.0 / 3.0);
            let found = mesh_inertial_drag().likely().base() + mesh_viscous_drag().likely().base() / reynolds;
            assert!((found / expected - 1.0).abs() < 0.2, "{reynolds}: {found} {expected}");
        }
    }
}
