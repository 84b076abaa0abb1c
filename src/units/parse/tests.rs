//! Laws of reading: every way to write a quantity, every reason to refuse one, no input that panics.

use proptest::prelude::*;

use super::super::error::UnitProblem;
use super::super::quantity::{Kind, Quantity, System};
use super::super::table;
use super::parse;

fn si(kind: Kind, text: &str) -> f64 {
    parse(kind, text).unwrap_or_else(|error| panic!("{text}: {error}")).si
}

fn refused(kind: Kind, text: &str) -> (String, String) {
    let error = parse(kind, text).expect_err(text);
    (error.to_string(), error.hint.unwrap_or_default())
}

#[track_caller]
fn reads(kind: Kind, texts: &[&str], expected: f64) {
    for text in texts {
        let got = si(kind, text);
        assert!((got - expected).abs() <= 1e-12 * expected.abs().max(1e-3), "{text}: {got} instead of {expected}");
    }
}

#[test]
fn an_inch_can_be_written_in_many_ways() {
    let whole =
        ["47 in", "47\"", "47in", "47 inches", "47″", "47”", "47''", " 47\u{A0}in ", "47 in.", "+47 in", "47.0 in"];
    reads(Kind::Length, &whole, 47.0 * 0.0254);
    reads(Kind::Length, &["2-1/8 in", "2 1/8\"", "2⅛\"", "2 ⅛ in", "2-⅛ in", "17/8 in", "2.125in"], 2.125 * 0.0254);
    reads(Kind::Length, &["1/2 in", "½ in", "½\"", ".5 in", "0,5 in", "1⁄2 in"], 0.0127);
}

#[test]
fn feet_and_inches_add_up() {
    let ways = [
        "3' 11 1/4\"",
        "3 ft 11-1/4 in",
        "3'11¼\"",
        "3'-11 1/4\"",
        "3ft 11.25in",
        "3ft11.25in",
        "3ft-11 1/4in",
        "47 1/4\"",
    ];
    reads(Kind::Length, &ways, 47.25 * 0.0254);
    reads(Kind::Length, &["-3' 11 1/4\"", "−3′ 11 1⁄4″", "- 47 1/4 in"], -47.25 * 0.0254);
    reads(Kind::Length, &["3' 0 1/4\"", "1 yd 0 1/4 in"], 36.25 * 0.0254);
    reads(Kind::Length, &["1 m 20 cm", "1m20cm", "1 m 200 mm"], 1.2);
}

#[test]
fn point_and_comma_are_decimal_marks() {
    reads(Kind::Length, &["15,9 mm", "15.9 mm", "15.9mm", "1.59e1 mm", "1,59E+1 mm", "159e−1 mm"], 0.0159);
    reads(Kind::Length, &["1e-3 m", "1000 µm", "1000 um", "1000 μm"], 1e-3);
    reads(Kind::Length, &["12.345 mm"], 0.012345);
}

#[test]
fn each_trade_unit_is_read() {
    reads(Kind::Temperature, &["60 F", "60°F", "60 ℉", "60 degF", "60 deg F"], 288.7055555555556);
    reads(Kind::Temperature, &["15.5 °C", "15,5C", "15.5 ° C", "15.5 ºC"], 288.65);
    reads(Kind::Temperature, &["-4 °C", "−4 °C", "- 4 C", "–4 C"], 269.15);
    reads(Kind::TemperatureDifference, &["9 F", "5 K", "5 °C"], 5.0);
    reads(Kind::Pressure, &["2 bar", "200 kPa", "0.2 MPa", "2000 mbar"], 2e5);
    reads(Kind::Flow, &["90 l/h", "90 L/hr", "1.5 l/min", "1.5 lpm"], 2.5e-5);
    reads(Kind::FlowPerArea, &["1.2 l/min m2", "1.2 L/min/m²", "1.2 L/(min·m²)", "1.2 L/min per m²"], 2e-5);
    reads(Kind::Length, &["20 oz", "20 oz/ft2", "20 oz/ft²", "20 oz per ft2"], 20.0 / 16.0 / (0.323 * 144.0) * 0.0254);
    reads(Kind::Mass, &["5 lb 8 oz", "5.5 lb"], 5.5 * 0.45359237);
    reads(Kind::Time, &["1 h 30 min", "1h30min", "90 min", "5400 s", "1,5 hours"], 5400.0);
    reads(Kind::Percent, &["45 %", "45%", "45 percent"], 0.45);
    reads(Kind::Extinction, &["4 1/m", "4/m", "4 m-1", "4 m⁻¹", "0.04 1/cm"], 4.0);
    reads(Kind::Resistance, &["1 kohm", "1 kΩ", "1000 ohm", "1000 Ω", "1000 \u{2126}"], 1000.0);
    reads(Kind::Number, &["0.95", "0,95", "19/20"], 0.95);
    reads(Kind::Count, &["12", "12.0", " 12 ", "1.2e1"], 12.0);
}

#[test]
fn products_of_units_are_read_in_any_spelling() {
    let ways = ["4 W/(m2 K)", "4 W/m²K", "4 W/m2/K", "4 W/m2K", "4 W/(m²·K)", "4 W/(m^2*K)", "4 W m-2 K-1", "4W/m²°C"];
    reads(Kind::LossCoefficient, &ways, 4.0);
    let us = ["1 Btu/h ft2 F", "1 BTU/(hr·ft²·°F)", "1 Btu/hft2F", "1 btu/h/ft2/F"];
    reads(Kind::LossCoefficient, &us, 5.678263341113488);
    reads(Kind::Conductivity, &["0.04 W/mK", "0.04 W/(m K)", "40 mW/mK"], 0.04);
}

#[test]
fn insulation_is_read_by_its_r_value() {
    reads(
        Kind::Insulance,
        &["R-10", "R10", "R 10", "R-10.0", "10 h·ft²·°F/Btu", "10 h ft2 F/Btu"],
        1.761_101_836_823_019,
    );
    reads(Kind::Insulance, &["RSI 1.76", "RSI-1.76", "RSI1,76", "1.76 m2K/W", "1.76 m²·K/W"], 1.76);
}

#[test]
fn an_angle_is_degrees_or_a_slope() {
    reads(Kind::Angle, &["195°", "195 deg", "195 degrees", "195 °"], 195_f64.to_radians());
    reads(Kind::Angle, &["4/12", "4 in 12", "1/3", " 4/12 "], (1.0_f64 / 3.0).atan());
    reads(Kind::Angle, &["36° 30'", "36.5°", "36°30'0\""], 36.5_f64.to_radians());
    assert!(refused(Kind::Angle, "35").1.contains("'35 deg', or a slope such as '4/12'"));
    assert!(parse(Kind::Angle, "4/0").is_err() && parse(Kind::Angle, "4 in 0").is_err());
}

#[test]
fn a_comma_before_three_digits_is_refused_with_both_spellings() {
    let (message, hint) = refused(Kind::Length, "1,200 mm");
    assert_eq!(
        message,
        "'1,200' can be read in two ways; a comma before exactly three digits is not allowed, a point is"
    );
    assert_eq!(hint, "write '1.2 mm' or '1200 mm'");
    assert_eq!(refused(Kind::Length, "0,125 in").1, "write '0.125 in'");
    assert_eq!(refused(Kind::Volume, "1,200,000 L").1, "write '1200000 L'");
    assert_eq!(refused(Kind::Volume, "1.200,5 L").1, "write '1200.5 L'");
    assert_eq!(refused(Kind::Length, "1 200 mm").1, "write '1200 mm' without a space between the digits");
}

#[test]
fn a_missing_unit_is_refused_with_the_units_that_fit() {
    let (message, hint) = refused(Kind::Length, "47");
    assert_eq!(message, "'47' has no unit; a length is wanted here: mm, cm, m, in, ft");
    assert_eq!(hint, "write '47 mm' or '47 in'");
    assert_eq!(refused(Kind::Insulance, "10").1, "write '10 m2K/W' or 'R-10'");
    assert_eq!(refused(Kind::Percent, "45").0, "'45' has no unit; a percentage is wanted here: %");
    assert_eq!(refused(Kind::Length, "3' 11").1, "write '3' 11\"'");
}

#[test]
fn an_unknown_unit_names_the_closest() {
    let (message, hint) = refused(Kind::Length, "47 MM");
    let expected = "'MM' is no unit known here, the closest is 'mm'; a length is wanted here: mm, cm, m, in, ft";
    assert_eq!(message, expected);
    assert_eq!(hint, "write '47 mm'");
    assert_eq!(refused(Kind::Pressure, "30 Psi").1, "write '30 psi'");
    assert_eq!(refused(Kind::Length, "47 cubits").1, "");
    let other = "'psi' is a pressure; a length is wanted here: mm, cm, m, in, ft";
    assert_eq!(refused(Kind::Length, "30 psi").0, other);
    assert_eq!(refused(Kind::Length, "3 m2").0, "'m2' is an area; a length is wanted here: mm, cm, m, in, ft");
}

#[test]
fn what_is_no_quantity_is_refused() {
    let texts = [
        "",
        "  ",
        "mm",
        "nan",
        "inf",
        "NaN mm",
        "-inf m",
        "in 47",
        "47 in junk",
        "47 in 5",
        "47 in 5 in",
        "5 mm 3 in",
        "11 in 3 ft",
        "1e999 m",
        "1e-999 m",
        "1e305 m",
        "5. mm",
        "1..2 mm",
        "1.2.3 mm",
        "5 1/0 in",
        "5 9/8 in",
        "2.5 1/8 in",
        "1/2/3 in",
        "± 5 mm",
        "15 ± 1 mm",
        "--5 mm",
        "5 mm -",
        "5 - mm",
        "3 ft - 11 in",
        "12² mm",
        "٣ mm",
        "0x10 mm",
        "1_000 mm",
        "5 m/m",
        "5 m m",
        "47'' in",
        "\u{0}",
        "5 mm\u{202E}",
        "R-10",
        "4/12",
        "20-30 mm",
    ];
    for text in texts {
        assert!(parse(Kind::Length, text).is_err(), "{text}");
    }
    for text in ["1.5", "-1", "1/2", "12 in", "1e17", "12 %", "1,200"] {
        assert!(parse(Kind::Count, text).is_err(), "{text}");
    }
    for text in ["R--10", "R-", "R-10 m2K/W", "R-10-5", "10"] {
        assert!(parse(Kind::Insulance, text).is_err(), "{text}");
    }
    assert!(parse(Kind::Temperature, "-460 F").is_err() && parse(Kind::Number, "5 %").is_err());
}

#[test]
fn an_error_points_at_its_token() {
    let cases = [
        (Kind::Length, " 2⅛ psi ", "psi"),
        (Kind::Length, "3' 11 furlongs", "furlongs"),
        (Kind::Length, "47 in wide", "wide"),
        (Kind::Length, "µ 1,200 mm", "µ 1,200 mm"),
        (Kind::Length, "−1,200 mm", "1,200"),
        (Kind::Length, "47", "47"),
        (Kind::Pressure, "15 ± 1 bar", "± 1 bar"),
    ];
    for (kind, text, token) in cases {
        let error = parse(kind, text).expect_err(text);
        assert_eq!(&text[error.span.clone()], token);
        assert!(error.to_string().contains(&format!("'{token}'")), "{error}");
    }
}

#[test]
fn a_message_never_carries_control_characters_or_long_tokens() {
    let message = refused(Kind::Length, "5 \u{1b}[31m\u{202e}mm").0;
    assert!(!message.contains(['\u{1b}', '\u{202e}']));
    assert!(refused(Kind::Length, &"9".repeat(5000)).0.len() < 200);
    assert!(matches!(parse(Kind::Length, &"é".repeat(5000)).unwrap_err().problem, UnitProblem::TooLong { .. }));
}

fn any_kind() -> impl Strategy<Value = Kind> {
    prop::sample::select(Kind::ALL.to_vec())
}

fn any_system() -> impl Strategy<Value = System> {
    prop::sample::select(vec![System::Si, System::Us])
}

/// Numbers of every size that a builder or the program can meet, as multiples of a printed unit.
fn any_si(kind: Kind, mantissa: f64, power: i32) -> f64 {
    match kind {
        Kind::Count => (mantissa.abs() * 1e5).round(),
        Kind::Temperature => 300.0 + 29.0 * mantissa,
        Kind::Angle | Kind::Percent => mantissa,
        _ => mantissa * 10_f64.powi(power),
    }
}

proptest! {
    #[test]
    fn printing_and_reading_give_the_number_back(
        kind in any_kind(), system in any_system(), mantissa in -9.99_f64..9.99, power in -5_i32..8,
    ) {
        let quantity = Quantity::new(kind, any_si(kind, mantissa, power));
        let text = quantity.text(system);
        let again = parse(kind, &text).map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
        let unit = table::of(kind).printed(quantity.si, system);
        // Half of the last decimal, or half of the last significant figure, whichever the unit shows.
        let by_decimals = 0.5 * 10_f64.powi(-i32::try_from(unit.digits.decimals).unwrap()) * unit.factor;
        let by_figures = match unit.digits.significant {
            0 => by_decimals,
            figures => 0.5 * 10_f64.powi(1 - i32::try_from(figures).unwrap()) * quantity.si.abs(),
        };
        let bound = if unit.digits.decimals == 0 { by_figures } else { by_decimals.min(by_figures) };
        let error = (again.si - quantity.si).abs();
        prop_assert!(error <= bound * (1.0 + 1e-9) + 1e-12 * quantity.si.abs(), "{text}: {error} above {bound}");
        prop_assert_eq!(again.text(system), text);
    }

    #[test]
    fn every_spelling_of_a_unit_reads_as_its_factor(kind in any_kind(), value in 1_u32..500) {
        for unit in table::of(kind).units {
            for spelling in unit.spellings() {
                let read = parse(kind, &format!("{value} {spelling}"));
                prop_assert_eq!(read.map(|quantity| quantity.si), Ok(unit.to_si(f64::from(value))), "{}", spelling);
            }
        }
    }

    #[test]
    fn no_text_panics(kind in any_kind(), text in any::<String>()) {
        let _ = parse(kind, &text).map_err(|error| error.to_string());
    }

    #[test]
    fn no_mixture_of_meaningful_characters_panics(
        kind in any_kind(), text in r#"[-+−±0-9.,/ eE'"°%²⅛½ RSIfthminozWKFCkbar()*^·µ]{0,24}"#,
    ) {
        match parse(kind, &text) {
            Ok(quantity) => prop_assert!(quantity.si.is_finite()),
            Err(error) => {
                prop_assert!(text.get(error.span.clone()).is_some(), "{:?} in {}", error.span, text);
                prop_assert!(error.to_string().contains('\''));
            }
        }
    }
}

#[test]
fn a_bare_share_of_one_is_answered_with_its_percent() {
    let error = parse(Kind::Percent, "0.95").unwrap_err();
    assert_eq!(error.hint.as_deref(), Some("write '95 %' for 0.95 of one"));
}
