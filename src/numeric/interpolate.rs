//! Interpolation that keeps the order of the data.

/// Why a table cannot be interpolated, or a point not be read from it.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum TableError {
    #[error("the table has {rows} rows; it needs at least {least}")]
    TooShort { rows: usize, least: usize },
    #[error("row {row} is not larger than the row before it")]
    NotRising { row: usize },
    #[error("row {row} is not a number")]
    NotFinite { row: usize },
    #[error("{at} is outside the table, which runs from {low} to {high}")]
    Outside { at: f64, low: f64, high: f64 },
}

/// A piecewise cubic through all points that is monotone wherever the data are
/// (F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) 238–246).
#[derive(Clone, Debug, PartialEq)]
pub struct MonotoneCubic {
    x: Vec<f64>,
    y: Vec<f64>,
    slope: Vec<f64>,
}

impl MonotoneCubic {
    /// From points whose arguments rise strictly; at least two.
    ///
    /// # Errors
    /// When a value is not finite, the arguments do not rise, or there are too few rows.
    pub fn new(points: &[(f64, f64)]) -> Result<Self, TableError> {
        if points.len() < 2 {
            return Err(TableError::TooShort { rows: points.len(), least: 2 });
        }
        for (row, &(x, y)) in points.iter().enumerate() {
            if !x.is_finite() || !y.is_finite() {
                return Err(TableError::NotFinite { row: row + 1 });
            }
            if row > 0 && x <= points[row - 1].0 {
                return Err(TableError::NotRising { row: row + 1 });
            }
        }
        let (x, y): (Vec<_>, Vec<_>) = points.iter().copied().unzip();
        let slope = slopes(&x, &y);
        Ok(Self { x, y, slope })
    }

    /// The ends of the table.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        (self.x[0], self.x[self.x.len() - 1])
    }

    /// The value at a point inside the table.
    ///
    /// # Errors
    /// Outside the table: nothing is extrapolated.
    pub fn at(&self, x: f64) -> Result<f64, TableError> {
        let (low, high) = self.ends();
        if !(low..=high).contains(&x) {
            return Err(TableError::Outside { at: x, low, high });
        }
        let i = self.x.partition_point(|&knot| knot <= x).clamp(1, self.x.len() - 1) - 1;
        let h = self.x[i + 1] - self.x[i];
        let t = (x - self.x[i]) / h;
        let (t2, t3) = (t * t, t * t * t);
        Ok((2.0 * t3 - 3.0 * t2 + 1.0) * self.y[i]
            + (t3 - 2.0 * t2 + t) * h * self.slope[i]
            + (3.0 * t2 - 2.0 * t3) * self.y[i + 1]
            + (t3 - t2) * h * self.slope[i + 1])
    }
}

fn slopes(x: &[f64], y: &[f64]) -> Vec<f64> {
    let n = x.len();
    let h: Vec<f64> = x.windows(2).map(|w| w[1] - w[0]).collect();
    let delta: Vec<f64> = y.windows(2).zip(&h).map(|(w, h)| (w[1] - w[0]) / h).collect();
    let mut slope = vec![0.0; n];
    if n == 2 {
        return vec![delta[0]; 2];
    }
    for i in 1..n - 1 {
        // Zero at a local extreme; the weighted harmonic mean of Fritsch and Butland elsewhere.
        if delta[i - 1] * delta[i] > 0.0 {
            let (w1, w2) = (2.0 * h[i] + h[i - 1], h[i] + 2.0 * h[i - 1]);
            slope[i] = (w1 + w2) / (w1 / delta[i - 1] + w2 / delta[i]);
        }
    }
    slope[0] = end_slope(h[0], h[1], delta[0], delta[1]);
    slope[n - 1] = end_slope(h[n - 2], h[n - 3], delta[n - 2], delta[n - 3]);
    slope
}

/// The three-point slope at an end, limited so that the curve stays monotone.
fn end_slope(h0: f64, h1: f64, delta0: f64, delta1: f64) -> f64 {
    let slope = ((2.0 * h0 + h1) * delta0 - h0 * delta1) / (h0 + h1);
    if slope * delta0 <= 0.0 {
        0.0
    } else if delta0 * delta1 <= 0.0 && slope.abs() > 3.0 * delta0.abs() {
        3.0 * delta0
    } else {
        slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn meets_points_and_stays_monotone() {
        let points = [(0.0, 0.0), (1.0, 0.1), (2.0, 5.0), (4.0, 5.1), (7.0, 9.0)];
        let curve = MonotoneCubic::new(&points).unwrap();
        for (x, y) in points {
            assert!((curve.at(x).unwrap() - y).abs() < 1e-12);
        }
        let mut last = -1.0;
        for i in 0..=700 {
            let y = curve.at(f64::from(i) * 0.01).unwrap();
            assert!(y >= last - 1e-12, "falls at {i}");
            last = y;
        }
        assert!(matches!(curve.at(7.01), Err(TableError::Outside { .. })));
        assert!(matches!(MonotoneCubic::new(&[(0.0, 1.0), (0.0, 2.0)]), Err(TableError::NotRising { row: 2 })));
    }
}
