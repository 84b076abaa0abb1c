//! Statistics of a few readings: mean of repeats, weighted least squares, agreement of two numbers.
//!
//! Lives here: mathematics with plain numbers, whatever their unit. Must not live here: what a fit means for a panel
//! (`performance_point` and the commissioning stage).

use super::domain::{DomainError, finite, positive, within};
use super::linear;

/// Mean and scatter of repeated readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeats {
    /// Arithmetic mean.
    pub mean: f64,
    /// Standard deviation of one reading, from n − 1.
    pub deviation: f64,
    /// Standard uncertainty of the mean, s/√n.
    pub mean_uncertainty: f64,
}

impl Repeats {
    /// Statistics of two readings or more.
    pub fn of(readings: &[f64]) -> Result<Self, DomainError> {
        let count = within("number of readings", readings.len() as f64, 2.0, f64::MAX)?;
        for &reading in readings {
            finite("reading", reading)?;
        }
        let mean = readings.iter().sum::<f64>() / count;
        let squares: f64 = readings.iter().map(|reading| (reading - mean).powi(2)).sum();
        let deviation = (squares / (count - 1.0)).sqrt();
        Ok(Self { mean, deviation, mean_uncertainty: deviation / count.sqrt() })
    }
}

/// One point of a fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Abscissa, taken as exact.
    pub x: f64,
    /// Ordinate.
    pub y: f64,
    /// Standard uncertainty of y.
    pub uncertainty: f64,
}

/// How the points weigh.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighting {
    /// By 1/u², the covariance taken from the u alone.
    ByUncertainty,
    /// All alike, the covariance scaled with the scatter about the fit.
    Equal,
}

/// A polynomial y = Σ cᵢ xⁱ fitted to points.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Coefficients, lowest power first.
    pub coefficients: Vec<f64>,
    /// Covariance of the coefficients.
    pub covariance: Vec<Vec<f64>>,
    /// Σ ((y − fit)/u)² for [`Weighting::ByUncertainty`], Σ (y − fit)² for [`Weighting::Equal`].
    pub sum_of_squares: f64,
    /// Points less coefficients.
    pub degrees_of_freedom: usize,
}

impl Fit {
    /// Standard uncertainty of a coefficient; `None` for an index that does not exist.
    pub fn uncertainty(&self, index: usize) -> Option<f64> {
        Some(self.covariance.get(index)?.get(index)?.sqrt())
    }

    /// Value of the polynomial at x and its standard uncertainty, √(xᵀ C x).
    pub fn predict(&self, x: f64) -> (f64, f64) {
        let powers = powers(x, self.coefficients.len());
        let value = powers.iter().zip(&self.coefficients).map(|(p, c)| p * c).sum();
        let variance: f64 = self
            .covariance
            .iter()
            .zip(&powers)
            .map(|(row, p)| p * row.iter().zip(&powers).map(|(c, q)| c * q).sum::<f64>())
            .sum();
        (value, variance.sqrt())
    }

    /// Standard deviation of the points about an equally weighted fit; `None` without a degree of freedom.
    pub fn scatter(&self) -> Option<f64> {
        (self.degrees_of_freedom > 0).then(|| (self.sum_of_squares / self.degrees_of_freedom as f64).sqrt())
    }
}

fn powers(x: f64, count: usize) -> Vec<f64> {
    std::iter::successors(Some(1.0), |power| Some(power * x)).take(count).collect()
}

/// Fits a polynomial of degree 1 to 3 by weighted least squares, C = (Xᵀ W X)⁻¹, c = C Xᵀ W y.
///
/// Normal equations with x scaled to its largest magnitude. Needs as many points as coefficients, and one more where
/// the points weigh alike; points at too few different x are refused. Source: any text on least squares.
pub fn fit_polynomial(points: &[Point], degree: u8, weighting: Weighting) -> Result<Fit, DomainError> {
    let terms = usize::from(degree) + 1;
    within("degree of the fit", f64::from(degree), 1.0, 3.0)?;
    let spare = usize::from(weighting == Weighting::Equal);
    within("number of points", points.len() as f64, (terms + spare) as f64, f64::MAX)?;
    let scale = positive("spread of x", points.iter().fold(0.0_f64, |most, point| most.max(point.x.abs())))?;
    let weight = |point: &Point| match weighting {
        Weighting::ByUncertainty => positive("uncertainty of a point", point.uncertainty).map(|u| 1.0 / (u * u)),
        Weighting::Equal => Ok(1.0),
    };
    let mut normal = vec![vec![0.0; terms]; terms];
    let mut right = vec![0.0; terms];
    for point in points {
        let weight = weight(point)?;
        let row = powers(finite("x of a point", point.x)? / scale, terms);
        for i in 0..terms {
            right[i] += weight * row[i] * finite("y of a point", point.y)?;
            for j in 0..terms {
                normal[i][j] += weight * row[i] * row[j];
            }
        }
    }
    let singular = DomainError::NotPositive { what: "number of different x beyond the degree", value: 0.0 };
    let inverse = linear::inverse(normal).ok_or(singular)?;
    let unscale = powers(1.0 / scale, terms);
    let coefficients: Vec<f64> = (0..terms)
        .map(|i| unscale[i] * inverse[i].iter().zip(&right).map(|(element, value)| element * value).sum::<f64>())
        .collect();
    let mut fit =
        Fit { coefficients, covariance: inverse, sum_of_squares: 0.0, degrees_of_freedom: points.len() - terms };
    for point in points {
        fit.sum_of_squares += weight(point)? * (point.y - fit.predict(point.x).0).powi(2);
    }
    let variance = if weighting == Weighting::Equal { fit.sum_of_squares / fit.degrees_of_freedom as f64 } else { 1.0 };
    for i in 0..terms {
        for j in 0..terms {
            fit.covariance[i][j] *= variance * unscale[i] * unscale[j];
        }
    }
    Ok(fit)
}

/// A number with its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    /// The number.
    pub value: f64,
    /// Its standard uncertainty.
    pub uncertainty: f64,
}

/// Two numbers that ought to agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparison {
    /// What was measured.
    pub measured: Uncertain,
    /// What was predicted.
    pub predicted: Uncertain,
}

impl Comparison {
    /// z = (measured − predicted)/√(u² + u²). |z| ≤ 2 is agreement at about 95 %.
    pub fn z(&self) -> Result<f64, DomainError> {
        let Self { measured, predicted } = self;
        let spread = positive("combined uncertainty", measured.uncertainty.hypot(predicted.uncertainty))?;
        finite("deviation", (measured.value - predicted.value) / spread)
    }
}

/// Adds an error that all points share, which more points do not shrink: u² = u_fit² + (value × relative)².
pub fn with_common_error(fitted: Uncertain, relative: f64) -> Uncertain {
    Uncertain { uncertainty: fitted.uncertainty.hypot(fitted.value * relative), ..fitted }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_on_a_parabola_give_it_back() {
        let points: Vec<Point> = (0..6)
            .map(|i| f64::from(i) * 0.02)
            .map(|x| Point { x, y: 0.8 - 3.0 * x - 20.0 * x * x, uncertainty: 0.01 })
            .collect();
        let fit = fit_polynomial(&points, 2, Weighting::ByUncertainty).unwrap();
        for (got, want) in fit.coefficients.iter().zip([0.8, -3.0, -20.0]) {
            assert!((got - want).abs() < 1e-7, "{got} {want}");
        }
    }

    #[test]
    fn points_at_one_place_make_no_line() {
        let point = Point { x: 0.03, y: 0.6, uncertainty: 0.01 };
        assert!(fit_polynomial(&[point, point, point], 1, Weighting::ByUncertainty).is_err());
        assert!(fit_polynomial(&[point], 1, Weighting::ByUncertainty).is_err());
    }

    #[test]
    fn a_shared_error_does_not_shrink() {
        let total = with_common_error(Uncertain { value: 0.76, uncertainty: 0.0 }, 0.03);
        assert!((total.uncertainty - 0.0228).abs() < 1e-12);
    }
}
