//! Printing what people read: a number with its unit in the family that the project chose.
//!
//! The figures that each unit carries stand in its row of the table. Lengths are printed in mm below 10 m and in
//! inches below 30 ft, in decimals: fractions of an inch are the tape's ([`super::tape`]).

use super::quantity::{Quantity, System};
use super::table::{self, Digits, Place, Unit};

/// Printed instead of a number that is none.
const NO_NUMBER: &str = "?";
/// From this size on a number is printed with a power of ten.
const LARGE: f64 = 1e15;
/// Below this size a number that has significant figures is printed with a power of ten.
const SMALL: f64 = 1e-6;

impl Quantity {
    /// The number with its unit: `1190 mm`, `46.85 in`, `15.5 °C`, `R-10.0`.
    ///
    /// A number that is not finite is printed as `?`. What is printed can be typed again.
    pub fn text(self, system: System) -> String {
        with_unit(self.si, table::of(self.kind).printed(self.si, system))
    }

    /// The number and its unit apart, for columns. The unit is empty for plain numbers and counts.
    pub fn value_and_unit(self, system: System) -> (String, &'static str) {
        let unit = table::of(self.kind).printed(self.si, system);
        (number(self.si, unit), unit.symbol)
    }

    /// The number with a unit of the caller's choice, by the symbol or any spelling of the table.
    ///
    /// `None` if the kind has no such unit.
    pub fn text_in(self, unit_symbol: &str) -> Option<String> {
        super::spelling::of_kind(self.kind, unit_symbol).map(|unit| with_unit(self.si, unit))
    }
}

fn with_unit(si: f64, unit: &Unit) -> String {
    let number = number(si, unit);
    if number == NO_NUMBER {
        return number;
    }
    match unit.place {
        Place::After if unit.symbol.is_empty() => number,
        Place::Attached => format!("{number}{}", unit.symbol),
        // Behind the hyphen of the prefix a sign would be lost.
        Place::Before if !number.starts_with('-') => format!("{}-{number}", unit.prefix),
        Place::After | Place::Before => format!("{number} {}", unit.symbol),
    }
}

fn number(si: f64, unit: &Unit) -> String {
    let value = unit.from_si(si);
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let text = rounded(value, unit.digits);
    // A rounded negative zero is zero.
    let is_zero = !text.contains(|c: char| ('1'..='9').contains(&c));
    if is_zero { text.trim_start_matches('-').to_owned() } else { text }
}

fn rounded(value: f64, digits: Digits) -> String {
    let Digits { significant, decimals, trimmed } = digits;
    if value == 0.0 && significant > 0 {
        return "0".to_owned();
    }
    let figures = if significant == 0 { decimals + 2 } else { significant - 1 };
    if value.abs() >= LARGE || (significant > 0 && value.abs() < SMALL) {
        return format!("{value:.figures$e}");
    }
    let places = if significant == 0 { decimals } else { decimals.max(places_for(value, figures)) };
    let text = format!("{value:.places$}");
    if trimmed && text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Decimals that show the first figure and `figures` more, after rounding to them.
fn places_for(value: f64, figures: usize) -> usize {
    let scientific = format!("{value:.figures$e}");
    let exponent =
        scientific.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok()).unwrap_or_default();
    let figures = i32::try_from(figures).unwrap_or_default();
    usize::try_from(figures - exponent).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::super::quantity::Kind;
    use super::*;

    #[track_caller]
    fn prints(kind: Kind, si: f64, in_si: &str, in_us: &str) {
        assert_eq!(Quantity::new(kind, si).text(System::Si), in_si);
        assert_eq!(Quantity::new(kind, si).text(System::Us), in_us);
    }

    #[test]
    fn each_kind_is_printed_in_both_families() {
        prints(Kind::Length, 1.2001, "1200.1 mm", "47.248 in");
        prints(Kind::Length, 0.000546, "0.546 mm", "0.0215 in");
        prints(Kind::Length, 0.0159, "15.9 mm", "0.626 in");
        prints(Kind::Length, 270.0, "270 m", "885.8 ft");
        prints(Kind::Energy, 0.0, "0 kJ", "0 Btu");
        prints(Kind::Area, 2.0, "2.00 m²", "21.5 ft²");
        prints(Kind::Volume, 0.3, "300 L", "79.3 gal");
        prints(Kind::Temperature, 288.65, "15.5 °C", "59.9 °F");
        prints(Kind::TemperatureDifference, 5.0, "5.0 K", "9.0 °F");
        prints(Kind::Pressure, 2e5, "2.00 bar", "29.0 psi");
        prints(Kind::Flow, 1e-4 / 3.0, "2.00 L/min", "0.528 gpm");
        prints(Kind::Power, 1234.0, "1234 W", "4211 Btu/h");
        prints(Kind::LossCoefficient, 4.0, "4.00 W/(m²·K)", "0.704 Btu/(h·ft²·°F)");
        prints(Kind::Insulance, 1.7611, "1.76 m²·K/W", "R-10.0");
        prints(Kind::Angle, 0.61087, "35.0°", "35.0°");
        prints(Kind::Percent, 0.456, "45.6 %", "45.6 %");
        prints(Kind::Number, 0.95, "0.95", "0.95");
        prints(Kind::Count, 12.0, "12", "12");
        prints(Kind::Time, 5400.0, "90.0 min", "90.0 min");
    }

    #[test]
    fn zero_has_no_sign_and_no_number_is_a_question_mark() {
        for kind in Kind::ALL {
            for system in [System::Si, System::Us] {
                assert!(!Quantity::new(kind, -0.0).text(system).starts_with("-0"), "{kind:?}");
                for si in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
                    assert_eq!(Quantity::new(kind, si).text(system), "?");
                    assert_eq!(Quantity::new(kind, si).value_and_unit(system).0, "?");
                }
            }
        }
        assert_eq!(Quantity::new(Kind::Percent, -1e-7).text(System::Si), "0.0 %");
        assert_eq!(Quantity::new(Kind::Temperature, 273.149).text(System::Si), "0.0 °C");
    }

    #[test]
    fn a_negative_resistance_keeps_its_sign() {
        assert_eq!(Quantity::new(Kind::Insulance, -1.7611).text(System::Us), "-10.0 h·ft²·°F/Btu");
    }

    #[test]
    fn rounding_up_to_the_next_power_of_ten_adds_no_figure() {
        assert_eq!(Quantity::new(Kind::LossCoefficient, 9.996).text(System::Si), "10.0 W/(m²·K)");
        assert_eq!(Quantity::new(Kind::Power, 99.96).text(System::Si), "100 W");
    }

    #[test]
    fn a_unit_of_choice_is_found_by_any_spelling() {
        let wind = Quantity::new(Kind::Pressure, 1170.0);
        assert_eq!(wind.text_in("psf").as_deref(), Some("24.4 psf"));
        assert_eq!(wind.text_in("in H2O").as_deref(), Some("4.70 inH2O"));
        assert_eq!(Quantity::new(Kind::Length, 50e3).text_in("mi").as_deref(), Some("31.1 mi"));
        assert_eq!(wind.text_in("mm"), None);
        assert_eq!(Quantity::new(Kind::Flow, 1e-4).value_and_unit(System::Si), ("6.00".to_owned(), "L/min"));
    }
}
