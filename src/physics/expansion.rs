//! Growth of parts with temperature, and the clearances that follow from it.
//!
//! Lives here: linear expansion with its coefficients and their ranges. Must not live here: movement of timber with
//! moisture (`timber`), growth of liquids (`fluid`).

use super::domain::{DomainError, within};
use crate::units::si::{Dimension, Length, Temperature, TemperatureInterval, celsius, difference, in_celsius};

/// A mean coefficient of linear expansion and the temperatures between which it may be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficient {
    /// α, 1/K.
    pub per_kelvin: f64,
    /// Lowest temperature, °C.
    pub lowest_celsius: f64,
    /// Highest temperature, °C.
    pub highest_celsius: f64,
}

/// Copper, mean from 20 to 100 °C: 9.4e-6 /°F, printed for 70 to 212 °F (verified page of a copper handbook).
pub const COPPER_TO_100: Coefficient =
    Coefficient { per_kelvin: 16.9e-6, lowest_celsius: 20.0, highest_celsius: 100.0 };

/// Copper, mean from 20 to 200 °C: 9.6e-6 /°F, printed to 392 °F (same page).
///
/// All clearances use this one, through [`copper_growth`]. Below 20 °C the true mean is smaller (about 16.5e-6 /K), so it overstates the
/// shrinkage in winter by some 5 %.
pub const COPPER_TO_200: Coefficient =
    Coefficient { per_kelvin: 17.3e-6, lowest_celsius: -60.0, highest_celsius: 200.0 };

/// Copper, mean from 20 to 300 °C: 9.8e-6 /°F, printed for 68 to 572 °F (verified page on copper's expansion).
///
/// Only for what gets hotter than [`COPPER_TO_200`] reaches: a plate with a selective coating that stands empty.
pub const COPPER_TO_300: Coefficient =
    Coefficient { per_kelvin: 17.64e-6, lowest_celsius: -60.0, highest_celsius: 300.0 };

/// Aluminium, wrought (from memory).
pub const ALUMINIUM: Coefficient = Coefficient { per_kelvin: 23.6e-6, lowest_celsius: -60.0, highest_celsius: 200.0 };

/// Carbon steel (from memory).
pub const STEEL: Coefficient = Coefficient { per_kelvin: 11.7e-6, lowest_celsius: -60.0, highest_celsius: 200.0 };

/// Soda-lime float glass, 8.3e-6 /K (verified technical bulletin).
pub const GLASS: Coefficient = Coefficient { per_kelvin: 8.3e-6, lowest_celsius: -60.0, highest_celsius: 250.0 };

/// Polycarbonate sheet, 0.065 mm/(m·K) (verified maker's page).
pub const POLYCARBONATE: Coefficient = Coefficient { per_kelvin: 65e-6, lowest_celsius: -40.0, highest_celsius: 130.0 };

/// Softwood along the grain, 4e-6 /K (from memory).
pub const TIMBER_ALONG_GRAIN: Coefficient =
    Coefficient { per_kelvin: 4e-6, lowest_celsius: -60.0, highest_celsius: 100.0 };

/// A change of temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Temperature when the part was fixed.
    pub from: Temperature,
    /// Temperature it comes to.
    pub to: Temperature,
}

/// Growth ΔL = α L ΔT; negative for a fall of temperature. No range is checked.
pub fn linear_growth(per_kelvin: f64, length: Length, interval: TemperatureInterval) -> Length {
    Length::from_si(per_kelvin * length.si() * interval.si())
}

impl Coefficient {
    /// Growth ΔL = α L (T₂ − T₁) of a part, negative when it shrinks.
    ///
    /// Both temperatures must lie in the coefficient's own range; the error names the one that does not.
    pub fn growth(&self, length: Length, swing: Swing) -> Result<Length, DomainError> {
        let (low, high) = (celsius(self.lowest_celsius).si(), celsius(self.highest_celsius).si());
        within("temperature when fixed", swing.from.si(), low, high)?;
        within("temperature reached", swing.to.si(), low, high)?;
        Ok(linear_growth(self.per_kelvin, length, difference(swing.to, swing.from)))
    }
}

/// Growth of copper, for every clearance of a panel: the mean to 200 °C, beyond that the mean to 300 °C.
///
/// An error above 300 °C: no solder, paint or coating of the handbook stands that long before.
pub fn copper_growth(length: Length, swing: Swing) -> Result<Length, DomainError> {
    let hottest = in_celsius(swing.from).max(in_celsius(swing.to));
    let coefficient = if hottest > COPPER_TO_200.highest_celsius { COPPER_TO_300 } else { COPPER_TO_200 };
    coefficient.growth(length, swing)
}

/// Play added to every computed movement at a free end: 3 mm (project rule).
pub fn end_play() -> Length {
    Length::from_si(0.003)
}

/// The oblong hole through which a header stub leaves the box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StubHole {
    /// Across the header's direction of growth: outside diameter + 6 mm.
    pub width: Length,
    /// Along the growth: outside diameter + growth + 6 mm, the absorber being held in its middle.
    pub length: Length,
}

/// A header stub and the growth of its header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stub {
    /// Outside diameter of the stub.
    pub outside_diameter: Length,
    /// Growth of the whole header; its sign does not matter.
    pub growth: Length,
}

impl Stub {
    /// Size of the hole for the stub (project rule): 3 mm of play on each side, and half the growth to each side.
    pub fn hole(&self) -> StubHole {
        let width = self.outside_diameter + end_play() * 2.0;
        StubHole { width, length: width + self.growth.abs() }
    }
}

/// Least free length of a flexible hose between two stubs: four times the offset that it must follow (from memory).
pub fn hose_free_length(offset: Length) -> Length {
    offset.abs() * 4.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_hotter_than_the_coefficient_reaches_is_refused() {
        let swing = Swing { from: celsius(20.0), to: celsius(140.0) };
        assert!(COPPER_TO_100.growth(Length::from_si(2.0), swing).is_err());
        assert!(COPPER_TO_200.growth(Length::from_si(2.0), swing).is_ok());
    }

    #[test]
    fn a_stub_hole_grows_along_the_header_only() {
        let hole = Stub { outside_diameter: Length::from_si(0.022), growth: Length::from_si(-0.0025) }.hole();
        assert!((hole.width.si() - 0.028).abs() < 1e-12);
        assert!((hole.length.si() - 0.0305).abs() < 1e-12);
    }
}
