//! The air's side of a core: fins with louvres or without.

use super::duct::{duct_nusselt, fin_efficiency};
use super::geometry::{Fin, Louvres, Matrix, Sizes};
use super::{HeatError, MatrixPoint};
use crate::fluid::air;
use crate::quantity::si::{Length, Ratio};
use crate::quantity::{Amount, DEGREE, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::{DEFINITION, heat as source};

/// Reynolds numbers of the louvre pitch at which the correlation of louvred fins holds.
pub const LOUVRE_REYNOLDS: Range = Range::new(
    "Reynolds number of the louvre pitch",
    Kind::Number,
    100.0,
    3000.0,
    "check louvre pitch and fin sizes, or take the fins as plain",
);
/// Prandtl number of air, within 2 % from −40 to 130 °C.
const PRANDTL: f64 = 0.71;

/// What the air's side does, in SI numbers.
pub(super) struct Outside {
    /// η₀·h·A, W/K.
    pub conductance: f64,
    pub reynolds: f64,
    pub efficiency: f64,
}

/// The air's side with the air `by` times as fast as at the point.
pub(super) fn side(
    matrix: &Matrix,
    sizes: &Sizes,
    point: &MatrixPoint,
    by: f64,
    scribe: &mut impl Scribe,
) -> Result<Outside, HeatError> {
    let density = air::density(point.air_pressure, point.air_temperature, scribe)?.base();
    let viscosity = air::viscosity(point.air_temperature, scribe)?.base();
    let specific_heat = air::specific_heat().base();
    let flux = density * point.face_velocity.base() * by / sizes.free_share;
    let (transfer, reynolds) = match &matrix.fin {
        Fin::Louvred(louvres) => {
            let reynolds = flux * louvres.pitch.base() / viscosity;
            let factor = louvred_j_factor(matrix, louvres, Ratio::from_base(reynolds), scribe)?.base();
            (factor * flux * specific_heat / PRANDTL.powf(2.0 / 3.0), reynolds)
        }
        Fin::Plain => {
            // A passage between two fins and two tubes.
            let (narrow, wide) = (matrix.fin_pitch.base() - matrix.fin_thickness.base(), sizes.fin_length);
            let (narrow, wide) = (narrow.min(wide), narrow.max(wide));
            let diameter = 2.0 * narrow * wide / (narrow + wide);
            let reynolds = flux * diameter / viscosity;
            let nusselt = duct_nusselt(
                Ratio::from_base(reynolds),
                Ratio::from_base(PRANDTL),
                Ratio::from_base(narrow / wide),
                Ratio::from_base(matrix.depth.base() / diameter),
                scribe,
            )?;
            (nusselt.base() * viscosity * specific_heat / (PRANDTL * diameter), reynolds)
        }
    };
    // A fin touches a tube at both ends, so half of it stands on each.
    let (conductivity, thickness) = (matrix.fin_conductivity.base(), matrix.fin_thickness.base());
    let parameter = (2.0 * transfer / (conductivity * thickness)).sqrt() * 0.5 * sizes.fin_length;
    let efficiency = fin_efficiency(Ratio::from_base(parameter), scribe)?.base();
    let surface = sizes.fin_surface + sizes.tube_surface;
    let whole = 1.0 - sizes.fin_surface / surface * (1.0 - efficiency);
    let conductance = whole * transfer * surface;
    scribe.step(|| {
        Step::new("Conductance of the air's side", "1/R_a", "1/R_a = [1 − (A_fin/A_a)·(1 − η)]·h_a·A_a", &DEFINITION)
            .with_amount("h_a", Amount::new(transfer, Kind::HeatTransfer))
            .with_amount("A_fin", Amount::new(sizes.fin_surface, Kind::Area))
            .with_amount("A_a", Amount::new(surface, Kind::Area))
            .with_amount("η", Amount::new(efficiency, Kind::Share))
            .gives_amount(Amount::new(conductance, Kind::HeatConductance))
    });
    Ok(Outside { conductance, reynolds, efficiency })
}

/// Colburn factor of corrugated fins with louvres between flat tubes, by the louvre pitch's Reynolds number:
///
/// j = Re^−0.49·(θ/90°)^0.27·(F_p/L_p)^−0.14·(F_l/L_p)^−0.29·(T_d/L_p)^−0.23·(L_l/L_p)^0.68·(T_p/L_p)^−0.28·(δ/L_p)^−0.05
///
/// with the air's velocity in the narrowest section. T_d is the depth of the fins, which is the tubes' in the cores of one
/// row that the correlation was made from. Nine in ten of those lie within 15 %.
///
/// # Errors
/// A Reynolds number outside 100 to 3000, sizes that are no core's.
pub fn louvred_j_factor(
    matrix: &Matrix,
    louvres: &Louvres,
    reynolds: Ratio,
    scribe: &mut impl Scribe,
) -> Result<Ratio, HeatError> {
    let sizes = Matrix { fin: Fin::Louvred(*louvres), ..*matrix }.sizes()?;
    let re = LOUVRE_REYNOLDS.check(reynolds)?.base();
    let pitch = louvres.pitch.base();
    let over = |length: Length| length.base() / pitch;
    let louvre_length = Length::from_base(louvres.length_share.base() * sizes.fin_length);
    let fin_length = Length::from_base(sizes.fin_length);
    let factor = re.powf(-0.49)
        * (louvres.angle.base() / (90.0 * DEGREE)).powf(0.27)
        * over(matrix.fin_pitch).powf(-0.14)
        * over(fin_length).powf(-0.29)
        * over(matrix.depth).powf(-0.23)
        * over(louvre_length).powf(0.68)
        * over(matrix.tube_pitch).powf(-0.28)
        * over(matrix.fin_thickness).powf(-0.05);
    scribe.step(|| {
        let small = |length: Length| Amount::of_kind(length, Kind::SmallLength);
        Step::new(
            "Colburn factor of louvred fins",
            "j",
            "j = Re^−0.49·(θ/90°)^0.27·(F_p/L_p)^−0.14·(F_l/L_p)^−0.29·(T_d/L_p)^−0.23·(L_l/L_p)^0.68·(T_p/L_p)^−0.28·(δ/L_p)^−0.05",
            &source::LOUVRED_FINS,
        )
        .with_amount("Re", Amount::number(re))
        .with("θ", louvres.angle)
        .with_amount("L_p", small(louvres.pitch))
        .with_amount("F_p", small(matrix.fin_pitch))
        .with_amount("F_l", small(fin_length))
        .with_amount("T_d", small(matrix.depth))
        .with_amount("L_l", small(louvre_length))
        .with_amount("T_p", small(matrix.tube_pitch))
        .with_amount("δ", small(matrix.fin_thickness))
        .gives_amount(Amount::number(factor))
    });
    Ok(Ratio::from_base(factor))
}
