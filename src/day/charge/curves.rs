//! The coolant's properties in plain numbers, read many thousand times in a day: cubics between the whole degrees.

use crate::fluid::{FluidError, Mix, water};
use crate::quantity::si::ThermodynamicTemperature;
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::Silent;

/// The lowest temperature of the tables, K; whole degrees Celsius lie above it, so that every join of the published
/// curves falls on a knot.
const LOWEST: f64 = 233.15;
/// The knots reach up to 130 °C.
const CELLS: usize = 170;
/// A cell narrower than this (K) takes the cubics of the one above it.
const NARROW: f64 = 0.02;

/// Cubics over one kelvin, in the distance from its lower end.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Cell {
    density: [f64; 4],
    /// Of the bubble pressure.
    logarithm: [f64; 4],
    specific_heat: [f64; 4],
    /// At the lower end, J/kg.
    enthalpy: f64,
}

/// Density, bubble pressure, specific heat and enthalpy of a coolant: the density within 10⁻⁸ of what [`Mix`] says, the
/// bubble pressure within 10⁻⁶, the specific heat within 10⁻⁵.
///
/// From its freezing point, at least −40 °C, to 130 °C. Enthalpy counts from the lowest temperature told.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Curves {
    mix: Mix,
    /// Number of the first cell.
    first: usize,
    /// Where it begins, K.
    low: f64,
    high: f64,
    cells: Vec<Cell>,
}

impl Curves {
    /// Reads the mix once.
    pub fn new(mix: &Mix) -> Result<Self, FluidError> {
        // The freezing point of very strong mixes is not given; there the mix itself says how far down it reaches.
        let freezing = mix.freezing_point(&mut Silent).map_or(LOWEST, Measured::base);
        let low = freezing.max(LOWEST);
        let first = ((low - LOWEST).floor().max(0.0) as usize).min(CELLS - 2);
        let mut cells = Vec::with_capacity(CELLS - first);
        for number in first..CELLS {
            let base = LOWEST + number as f64;
            let from = low.max(base);
            let (from, to) = if base + 1.0 - from < NARROW { (base + 1.0, base + 2.0) } else { (from, base + 1.0) };
            cells.push(cell(mix, base, from, to)?);
        }
        let mut enthalpy = 0.0;
        for cell in &mut cells {
            cell.enthalpy = enthalpy;
            enthalpy += integral(&cell.specific_heat, 1.0);
        }
        Ok(Self { mix: *mix, first, low, high: LOWEST + CELLS as f64, cells })
    }

    /// The temperatures told of, K.
    pub const fn ends(&self) -> (f64, f64) {
        (self.low, self.high)
    }

    /// The cell of a temperature (K) and the distance from its lower end.
    fn find(&self, temperature: f64) -> Option<(&Cell, f64)> {
        if !(self.low..=self.high).contains(&temperature) {
            return None;
        }
        let whole = (temperature - LOWEST).floor().min((CELLS - 1) as f64);
        let number = (whole as usize).saturating_sub(self.first);
        self.cells.get(number).map(|cell| (cell, temperature - LOWEST - (number + self.first) as f64))
    }

    fn told(&self, temperature: f64) -> Result<(&Cell, f64), FluidError> {
        match self.find(temperature) {
            Some(found) => Ok(found),
            // The mix names the limit that was passed.
            None => Err(match self.mix.density(ThermodynamicTemperature::from_base(temperature), &mut Silent) {
                Err(error) => error,
                Ok(_) => FluidError::Frozen {
                    mix: self.mix,
                    temperature: ThermodynamicTemperature::from_base(temperature),
                    freezing: ThermodynamicTemperature::from_base(self.low),
                },
            }),
        }
    }

    /// Density at a temperature in K, kg/m³.
    pub fn density(&self, temperature: f64) -> Result<f64, FluidError> {
        self.told(temperature).map(|(cell, x)| cubic(&cell.density, x))
    }

    /// Pressure at which the coolant begins to boil at a temperature in K, Pa absolute.
    pub fn bubble(&self, temperature: f64) -> Result<f64, FluidError> {
        self.told(temperature).map(|(cell, x)| cubic(&cell.logarithm, x).exp())
    }

    /// Specific heat at a temperature in K, J/(kg·K).
    pub fn specific_heat(&self, temperature: f64) -> Result<f64, FluidError> {
        self.told(temperature).map(|(cell, x)| cubic(&cell.specific_heat, x))
    }

    /// Enthalpy of the liquid at a temperature in K, J/kg: ∫ cp dT.
    pub fn enthalpy(&self, temperature: f64) -> Result<f64, FluidError> {
        self.told(temperature).map(|(cell, x)| cell.enthalpy + integral(&cell.specific_heat, x))
    }

    /// The temperature (K) of an enthalpy in J/kg; the inverse of [`Curves::enthalpy`].
    pub fn temperature(&self, enthalpy: f64) -> Result<f64, FluidError> {
        let number = self.cells.partition_point(|cell| cell.enthalpy <= enthalpy).saturating_sub(1);
        let Some(cell) = self.cells.get(number) else { return self.density(f64::NAN) };
        let over = enthalpy - cell.enthalpy;
        // The specific heat hardly changes over a kelvin: two steps of Newton's reach the last digits.
        let mut x = over / cell.specific_heat[0];
        for _ in 0..3 {
            x -= (integral(&cell.specific_heat, x) - over) / cubic(&cell.specific_heat, x);
        }
        let temperature = LOWEST + (number + self.first) as f64 + x;
        self.told(temperature).map(|_| temperature)
    }

    /// The temperature (K) at which the coolant begins to boil at an absolute pressure in Pa.
    pub fn boils_at(&self, pressure: f64) -> Result<f64, FluidError> {
        let target = pressure.ln();
        let number = self.cells.partition_point(|cell| cell.logarithm[0] <= target).saturating_sub(1);
        let Some(cell) = self.cells.get(number) else { return self.density(f64::NAN) };
        let [c0, c1, c2, c3] = cell.logarithm;
        let mut x = (target - c0) / c1;
        for _ in 0..3 {
            x -= (cubic(&cell.logarithm, x) - target) / (c1 + x * (2.0 * c2 + 3.0 * c3 * x));
        }
        if (-1e-9..=1.0 + 1e-9).contains(&x) {
            return Ok(LOWEST + (number + self.first) as f64 + x);
        }
        // Beyond 130 °C, or no pressure at all.
        self.mix.boiling_point(AbsolutePressure::from_base(pressure), &mut Silent).map(Measured::base)
    }

    /// Heat that makes vapour of the liquid at a temperature in K, J/kg: water's, which boils off first.
    pub fn latent_heat(temperature: f64) -> Result<f64, FluidError> {
        water::latent_heat(ThermodynamicTemperature::from_base(temperature), &mut Silent).map(Measured::base)
    }
}

fn cubic(c: &[f64; 4], x: f64) -> f64 {
    c[0] + x * (c[1] + x * (c[2] + x * c[3]))
}

/// Of a cubic from 0 to x.
fn integral(c: &[f64; 4], x: f64) -> f64 {
    x * (c[0] + x * (c[1] / 2.0 + x * (c[2] / 3.0 + x * c[3] / 4.0)))
}

/// The cubics through four temperatures from `low` to `high`, in the distance from `base`.
fn cell(mix: &Mix, base: f64, low: f64, high: f64) -> Result<Cell, FluidError> {
    let at = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0].map(|share| low + share * (high - low));
    let mut values = [[0.0; 4]; 3];
    for (i, &temperature) in at.iter().enumerate() {
        let kelvin = ThermodynamicTemperature::from_base(temperature);
        let read = [
            mix.density(kelvin, &mut Silent)?.base(),
            mix.vapour_pressure(kelvin, &mut Silent)?.base().ln(),
            mix.specific_heat(kelvin, &mut Silent)?.base(),
        ];
        for (row, value) in values.iter_mut().zip(read) {
            if let Some(slot) = row.get_mut(i) {
                *slot = value;
            }
        }
    }
    let x = at.map(|temperature| temperature - base);
    let [density, logarithm, specific_heat] = values.map(|y| through(&x, y));
    Ok(Cell { density, logarithm, specific_heat, enthalpy: 0.0 })
}

/// The cubic through four points, by divided differences.
fn through(x: &[f64; 4], y: [f64; 4]) -> [f64; 4] {
    let [x0, x1, x2, x3] = *x;
    let [y0, y1, y2, y3] = y;
    let (d01, d12, d23) = ((y1 - y0) / (x1 - x0), (y2 - y1) / (x2 - x1), (y3 - y2) / (x3 - x2));
    let (d02, d13) = ((d12 - d01) / (x2 - x0), (d23 - d12) / (x3 - x1));
    let d = (d13 - d02) / (x3 - x0);
    [
        y0 - d01 * x0 + d02 * x0 * x1 - d * x0 * x1 * x2,
        d01 - d02 * (x0 + x1) + d * (x0 * x1 + x0 * x2 + x1 * x2),
        d02 - d * (x0 + x1 + x2),
        d,
    ]
}
