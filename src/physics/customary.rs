//! The customary units in which some laws and tables of the United States are printed, in SI.
//!
//! Only what a published formula or table is written in. Reading and printing a user's units lives in `units`.

use crate::units::si::{Temperature, celsius};

/// Metres of an inch (exact).
pub const INCH: f64 = 0.0254;
/// Metres of a foot (exact).
pub const FOOT: f64 = 12.0 * INCH;
/// Newtons of a pound-force (exact).
pub const POUND_FORCE: f64 = 4.4482216152605;
/// Pascals of a pound-force per square inch.
pub const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// m³/s of a gallon of the United States a minute (exact).
pub const GALLON_PER_MINUTE: f64 = 3.785411784e-3 / 60.0;

/// Makes an absolute temperature from degrees Fahrenheit, t = (F − 32)/1.8 °C.
pub fn fahrenheit(degrees: f64) -> Temperature {
    celsius((degrees - 32.0) / 1.8)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::in_celsius;

    /// Conversion factors of the SI guide NIST SP 811 (from memory): 1 psi = 6894.757 Pa; 212 °F = 100 °C by
    /// definition.
    #[test]
    fn customary_units_are_those_of_the_conversion_tables() {
        assert!((PSI - 6894.757).abs() < 5e-4);
        assert!((FOOT - 0.3048).abs() < 1e-15);
        assert!((in_celsius(fahrenheit(212.0)) - 100.0).abs() < 1e-9);
    }
}
