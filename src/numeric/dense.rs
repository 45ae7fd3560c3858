//! A small full set of linear equations, on the stack.

/// Solves `A x = b` for the leading `n` rows by elimination with row exchanges; `b` becomes `x` and `A` is used up.
/// False when the matrix is singular or not finite, and then `b` holds nothing of use.
#[must_use]
pub fn solve_dense<const N: usize>(a: &mut [[f64; N]; N], b: &mut [f64; N], n: usize) -> bool {
    let n = n.min(N);
    for k in 0..n {
        let mut pivot = k;
        for i in k + 1..n {
            if a[i][k].abs() > a[pivot][k].abs() {
                pivot = i;
            }
        }
        if !(a[pivot][k].abs() > 0.0 && a[pivot][k].is_finite()) {
            return false;
        }
        a.swap(k, pivot);
        b.swap(k, pivot);
        let top = a[k];
        for i in k + 1..n {
            let factor = a[i][k] / top[k];
            if factor != 0.0 {
                for (below, above) in a[i][k + 1..n].iter_mut().zip(&top[k + 1..n]) {
                    *below -= factor * above;
                }
                b[i] -= factor * b[k];
            }
        }
    }
    for k in (0..n).rev() {
        let known: f64 = a[k][k + 1..n].iter().zip(&b[k + 1..n]).map(|(a, x)| a * x).sum();
        b[k] = (b[k] - known) / a[k][k];
    }
    b[..n].iter().all(|x| x.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solves_what_needs_exchanges_and_refuses_the_singular() {
        let mut a = [[0.0, 2.0, 1.0], [1.0, -2.0, -3.0], [-1.0, 1.0, 2.0]];
        let mut b = [-8.0, 0.0, 3.0];
        assert!(solve_dense(&mut a, &mut b, 3));
        for (found, expected) in b.into_iter().zip([-4.0, -5.0, 2.0]) {
            assert!((found - expected).abs() < 1e-12, "{b:?}");
        }
        let mut a = [[1.0, 2.0], [2.0, 4.0]];
        assert!(!solve_dense(&mut a, &mut [1.0, 2.0], 2));
    }
}
