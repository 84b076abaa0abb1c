//! Long-wave radiation between grey surfaces, as coefficients that multiply a temperature difference.
//!
//! Sunlight does not live here: see `optics` and `cover`.

/// Stefan-Boltzmann constant, W/(m²·K⁴): CODATA 2018.
pub const STEFAN_BOLTZMANN: f64 = 5.670374419e-8;

/// Two temperatures, K, that exchange radiation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Temperature of the one side, K.
    pub one: f64,
    /// Temperature of the other side, K.
    pub other: f64,
}

impl Between {
    /// σ (T₁² + T₂²)(T₁ + T₂), W/(m²·K): the coefficient of two black surfaces, never singular.
    pub fn black(self) -> f64 {
        STEFAN_BOLTZMANN * (self.one * self.one + self.other * self.other) * (self.one + self.other)
    }
}

/// Coefficient of a small grey surface in wide surroundings such as the sky, W/(m²·K).
///
/// h = ε σ (T₁² + T₂²)(T₁ + T₂); ε in 0 to 1. Grey-body radiation in every heat-transfer handbook, from memory.
pub fn to_surroundings(between: Between, emittance: f64) -> f64 {
    emittance * between.black()
}

/// Coefficient between two long parallel plates of emittances ε₁, ε₂ in (0, 1], W/(m²·K).
///
/// h = σ (T₁² + T₂²)(T₁ + T₂) / (1/ε₁ + 1/ε₂ − 1). Handbook form, from memory.
pub fn parallel_plates(between: Between, emittances: [f64; 2]) -> f64 {
    between.black() / (emittances[0].recip() + emittances[1].recip() - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_coefficient_carries_the_difference_of_fourth_powers() {
        let between = Between { one: 370.0, other: 290.0 };
        let exact = STEFAN_BOLTZMANN * (370.0_f64.powi(4) - 290.0_f64.powi(4));
        assert!((between.black() * 80.0 - exact).abs() < 1e-9 * exact);
        assert!((parallel_plates(between, [1.0, 1.0]) - between.black()).abs() < 1e-12);
    }
}
