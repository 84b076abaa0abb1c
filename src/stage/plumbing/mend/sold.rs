//! What a change is written in: the project's units, in the steps in which things are sold and tapes are read.
//!
//! Rounding goes to the far side of a limit, so that it never undoes what the change is for.

use crate::model::Inputs;
use crate::physics::customary::{FOOT, INCH, PSI};
use crate::stage::general;
use crate::units::System;
use crate::units::si::{Temperature, in_celsius};

/// Nominal volumes that vessels are sold in, L (common practice, no source).
const VESSELS: [f64; 14] = [8.0, 12.0, 18.0, 25.0, 35.0, 50.0, 80.0, 100.0, 140.0, 200.0, 300.0, 400.0, 500.0, 1000.0];
/// The same in US gallons (common practice, no source).
const VESSELS_US: [f64; 13] = [2.0, 4.5, 7.0, 10.0, 14.0, 20.0, 26.0, 34.0, 44.0, 62.0, 80.0, 119.0, 264.0];
/// A US gallon, L (exact by definition).
const GALLON: f64 = 3.785_411_784;
/// Keeps a number that is whole but for rounding where it is.
const TINY: f64 = 1e-9;
/// A degree that is nearer to its limit than this sits on it, K.
const TOUCH: f64 = 1e-6;

/// The way in which a project writes changes.
#[derive(Clone, Copy, Debug)]
pub struct Sold(System);

impl Sold {
    /// By the units of the project's results.
    pub fn of(inputs: &Inputs) -> Self {
        Self(inputs.get(&general::UNITS).unwrap_or(System::Si))
    }

    fn is_us(self) -> bool {
        self.0 == System::Us
    }

    /// Steps in which relief settings are taken, Pa: 5 psi or 0.5 bar (common practice, no source).
    pub fn relief_step(self) -> f64 {
        if self.is_us() { 5.0 * PSI } else { 0.5e5 }
    }

    /// The highest step that lies at least one whole step below a limit, Pa; none if that is nothing.
    pub fn relief_below(self, limit: f64) -> Option<f64> {
        let step = self.relief_step();
        let steps = (limit / step + TINY).floor() - 1.0;
        (steps >= 1.0).then_some(steps * step)
    }

    /// The lowest step that is not below a pressure, Pa.
    pub fn relief_from(self, least: f64) -> f64 {
        (least / self.relief_step() - TINY).ceil() * self.relief_step()
    }

    /// A relief setting that lies on a step, in words.
    pub fn relief(self, pressure: f64) -> String {
        if self.is_us() { format!("{:.0} psi", pressure / PSI) } else { format!("{:.1} bar", pressure / 1e5) }
    }

    /// An opening pressure, rounded up: a tenth of a psi, a millibar.
    pub fn opening(self, pressure: f64) -> String {
        if self.is_us() {
            format!("{:.1} psi", (pressure / PSI * 10.0).ceil().max(1.0) / 10.0)
        } else {
            format!("{:.0} mbar", (pressure / 100.0).ceil().max(1.0))
        }
    }

    /// A head of a pump, rounded up.
    pub fn head(self, metres: f64) -> String {
        if self.is_us() {
            format!("{:.2} ft", (metres / FOOT * 100.0 - TINY).ceil() / 100.0)
        } else {
            format!("{:.2} m", (metres * 100.0 - TINY).ceil() / 100.0)
        }
    }

    /// A rise, to a hundredth of an inch or a millimetre, the larger amount where it does not come out.
    pub fn rise(self, metres: f64) -> String {
        let away = |steps: f64| steps.signum() * (steps.abs() - TINY).ceil();
        if self.is_us() {
            format!("{:.2} in", away(metres / INCH * 100.0) / 100.0)
        } else {
            format!("{:.3} m", away(metres * 1e3) / 1e3)
        }
    }

    /// How far a pump is moved at a time, m: two feet, half a metre.
    pub fn move_step(self) -> f64 {
        if self.is_us() { 2.0 * FOOT } else { 0.5 }
    }

    /// The volumes that vessels are sold in, each with its words and its litres, the smallest first.
    pub fn vessels(self) -> Vec<(String, f64)> {
        if self.is_us() {
            VESSELS_US.iter().map(|gallons| (format!("{gallons} gal"), gallons * GALLON)).collect()
        } else {
            VESSELS.iter().map(|litres| (format!("{litres} L"), *litres)).collect()
        }
    }

    /// A volume that holds so many litres, rounded up to a gallon or to five litres, with its words.
    pub fn volume(self, litres: f64) -> String {
        if self.is_us() {
            format!("{:.0} gal", (litres / GALLON - TINY).ceil())
        } else {
            format!("{:.0} L", (litres / 5.0 - TINY).ceil() * 5.0)
        }
    }

    /// A highest temperature, rounded down to a whole degree that lies below it.
    pub fn at_most(self, limit: Temperature) -> String {
        let celsius = in_celsius(limit);
        if self.is_us() {
            format!("{:.0} °F", (celsius * 1.8 + 32.0 - TOUCH).floor())
        } else {
            format!("{:.0} °C", (celsius - TOUCH).floor())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    /// 150 psi are 1 034 213.6 Pa, 20 °C are 68 °F, 4 L are 1.06 gal (handbook conversions).
    #[test]
    fn a_change_lies_on_a_sold_step_beyond_the_limit_in_the_projects_units() {
        let (us, si) = (Sold(System::Us), Sold(System::Si));
        let below = |sold: Sold, limit: f64| sold.relief_below(limit).map(|pressure| sold.relief(pressure));
        assert_eq!(below(us, 1_034_214.0).as_deref(), Some("145 psi"));
        assert_eq!(below(us, 1_050_000.0).as_deref(), Some("145 psi"));
        assert_eq!(below(si, 10.0e5).as_deref(), Some("9.5 bar"));
        assert_eq!(below(si, 0.9e5), None);
        assert_eq!(us.relief(us.relief_from(1_034_213.0)), "150 psi");
        assert_eq!((us.at_most(celsius(20.5)), si.at_most(celsius(20.0))), ("68 °F".to_owned(), "19 °C".to_owned()));
        assert_eq!((us.volume(4.0), si.volume(4.0)), ("2 gal".to_owned(), "5 L".to_owned()));
        assert_eq!((us.rise(-0.1), si.rise(-0.1001)), ("-3.94 in".to_owned(), "-0.101 m".to_owned()));
        assert_eq!((us.head(3.048), si.head(3.001)), ("10.00 ft".to_owned(), "3.01 m".to_owned()));
    }
}
