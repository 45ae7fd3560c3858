//! The coefficients of the glycol solutions. Private numbers, SI units; `w` is the share by mass.

use super::Base;

/// Freezing to boiling of one glycol in water.
///
/// ρ, cp, k and ln μ of the solution are Σᵢ Σⱼ C[i][j] aⁱ Xʲ with a = T − `temperature_base` and X = w − `share_base`
/// (Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, 2010), for 0.05 ≤ w ≤ 0.60 from the
/// freezing point to 100 °C.
pub(super) struct Solution {
    pub temperature_base: f64,
    pub share_base: f64,
    pub density: Surface,
    pub specific_heat: Surface,
    pub conductivity: Surface,
    pub ln_viscosity: Surface,
    /// Freezing point in kelvin as a polynomial in X.
    pub freezing: [f64; 6],
    pub pure: Pure,
    /// ln ps = c₁ + c₂/T + c₃ ln T + c₄ T^c₅, ps in Pa (DIPPR equation 101).
    pub vapour: [f64; 4],
    /// c₅ of the same equation.
    pub vapour_exponent: i32,
    /// The constant A of the one-constant Margules activity coefficients.
    pub margules: f64,
    /// Above 100 °C: κ = 1 + `growth[0]`·w + `growth[1]`·w².
    pub growth: [f64; 2],
    pub density_at_20: f64,
    /// kg/mol.
    pub molar_mass: f64,
    /// Growth of the second published density set over that of this one.
    pub second_set: f64,
    /// What a builder should count on above the computed freezing point, K.
    pub freezing_allowance: f64,
}

/// The pure glycol as polynomials in z = (t − 50 °C)/80 K.
pub(super) struct Pure {
    /// L/kg.
    pub volume: [f64; 4],
    pub specific_heat: [f64; 3],
    pub conductivity: [f64; 3],
    pub ln_viscosity: [f64; 5],
}

/// The rows i = 0 to 3 of a double polynomial.
pub(super) struct Surface(pub [f64; 6], pub [f64; 5], pub [f64; 4], pub [f64; 3]);

impl Surface {
    /// Σᵢ Σⱼ C[i][j] aⁱ Xʲ.
    #[inline]
    pub fn at(&self, a: f64, x: f64) -> f64 {
        polynomial(&self.0, x)
            + a * (polynomial(&self.1, x) + a * (polynomial(&self.2, x) + a * polynomial(&self.3, x)))
    }
}

/// Σ cᵢ xⁱ by Horner's rule.
#[inline]
pub(super) fn polynomial<const N: usize>(coefficients: &[f64; N], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Molar mass of water, kg/mol.
pub(super) const WATER_MOLAR_MASS: f64 = 0.018_015_268;

impl Base {
    /// The coefficients; none for water.
    pub(super) const fn solution(self) -> Option<&'static Solution> {
        match self {
            Self::Water => None,
            Self::EthyleneGlycol => Some(&ETHYLENE_GLYCOL),
            Self::PropyleneGlycol => Some(&PROPYLENE_GLYCOL),
        }
    }
}

static ETHYLENE_GLYCOL: Solution = Solution {
    temperature_base: 304.878,
    share_base: 0.308_462,
    density: Surface(
        [1034.0, 131.1, 0.749, -106.2, -96.23, 489.1],
        [-0.4781, -0.6876, 0.7855, 1.229, -7.211],
        [-2.692e-3, 4.805e-3, -3.995e-3, -1.153e-2],
        [4.725e-6, 1.690e-6, 4.982e-5],
    ),
    specific_heat: Surface(
        [3737.0, -1799.0, -993.3, 2610.0, 1537.0, -16180.0],
        [2.930, 10.46, 3.516, -1.189, -42.72],
        [-4.675e-3, -4.147e-2, 5.109e-2, -0.1643],
        [-1.389e-5, 1.847e-5, -7.138e-4],
    ),
    conductivity: Surface(
        [0.4720, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678],
        [8.903e-4, -1.473e-3, 6.814e-4, -2.412e-3, 2.555e-3],
        [-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5],
        [-2.789e-9, -1.142e-8, 2.365e-8],
    ),
    ln_viscosity: Surface(
        [-6.437_255, 2.471, 0.03328, 1.659, 3.089, -18.65],
        [-2.550e-2, -1.171e-2, 1.086e-2, 3.157e-3, 1.831e-2],
        [1.782e-4, 1.052e-4, 1.051e-4, 4.063e-4],
        [-7.669e-7, -1.634e-6, -6.475e-6],
    ),
    freezing: [257.9, -80.80, -133.4, -72.93, 100.6, 11.40],
    pure: Pure {
        volume: [0.915_560_867, 0.048_905_756, 0.005_224_805, 0.000_795_470],
        specific_heat: [2533.19, 375.221, -14.4168],
        conductivity: [0.257_185, 0.007_965, -0.008_393],
        ln_viscosity: [-4.983_738, -2.450_960, 1.112_786, -0.554_830, 0.177_779],
    },
    vapour: [84.09, -10411.0, -8.1976, 1.6536e-18],
    vapour_exponent: 6,
    margules: -0.12,
    growth: [0.0, 0.33],
    density_at_20: 1113.7,
    molar_mass: 0.062_067_84,
    second_set: 0.90,
    freezing_allowance: 3.0,
};

static PROPYLENE_GLYCOL: Solution = Solution {
    temperature_base: 305.8583,
    share_base: 0.307_031,
    density: Surface(
        [1018.0, 76.04, -24.98, -155.0, -113.1, 234.2],
        [-0.5406, -0.9450, 0.2700, 2.829, -2.221],
        [-2.666e-3, 5.541e-3, -4.018e-3, -7.175e-3],
        [1.347e-5, -1.343e-5, 3.376e-5],
    ),
    specific_heat: Surface(
        [3882.0, -1304.0, -1598.0, 353.9, 5000.0, -4959.0],
        [2.699, 5.070, 0.9534, 31.02, -71.35],
        [-1.659e-3, -4.752e-3, 0.1167, -0.2950],
        [-1.032e-5, 1.522e-4, -4.870e-4],
    ),
    conductivity: Surface(
        [0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104],
        [7.955e-4, -1.678e-3, 1.563e-3, -2.518e-3, -3.605e-3],
        [3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5],
        [-5.966e-9, 1.493e-8, 9.897e-8],
    ),
    ln_viscosity: Surface(
        [-6.224_055, 3.328, 0.5453, -3.900, -1.587, 35.64],
        [-3.045e-2, -3.984e-2, -8.600e-4, 0.1054, 4.475e-2],
        [2.525e-4, 4.332e-4, -1.593e-4, -1.589e-3],
        [-1.399e-6, -1.860e-6, -4.465e-7],
    ),
    freezing: [259.9, -66.31, -109.4, -228.3, -340.9, 146.5],
    pure: Pure {
        volume: [0.986_954_009, 0.061_636_930, 0.008_595_085, 0.001_794_800],
        specific_heat: [2654.789, 471.5127, -36.03798],
        conductivity: [0.199_139, -0.003_976, 0.0],
        ln_viscosity: [-4.401_968, -3.329_447, 1.798_346, -0.815_637, 0.196_151],
    },
    vapour: [212.8, -15420.0, -28.109, 2.1564e-5],
    vapour_exponent: 2,
    margules: 0.47,
    growth: [0.33, 0.0],
    density_at_20: 1036.35,
    molar_mass: 0.076_094_42,
    second_set: 0.97,
    freezing_allowance: 0.0,
};
