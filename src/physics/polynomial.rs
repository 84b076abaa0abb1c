//! Value of a polynomial.
//!
//! Only the arithmetic; fitting one lives in `statistics`.

/// Σ c_i x^i by Horner's rule, coefficients from the lowest power up; 0 without coefficients.
pub fn value(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coefficients_count_from_the_lowest_power() {
        assert!((value(&[1.0, 2.0, 3.0], 2.0) - 17.0).abs() < 1e-15);
        assert!(value(&[], 2.0).abs() < 1e-15);
    }
}
