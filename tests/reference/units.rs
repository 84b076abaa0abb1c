//! Units and tape marks against published factors, a unit library and worked shop cases.

use serde::Deserialize;
use sunharp::units::si::{Dimension, Length};
use sunharp::units::tape::{Division, MetricStep, Row, TapeMark, running, running_millimetres, stepped_drift};
use sunharp::units::{Kind, parse, table};

#[track_caller]
fn agrees(text: &str, kind: Kind, si: f64, relative: f64) {
    let read = parse(kind, text).map(|quantity| quantity.si);
    assert!(read.as_ref().is_ok_and(|read| (read / si - 1.0).abs() <= relative), "{text}: {read:?} instead of {si}");
}

/// NIST Special Publication 811 (2008), appendix B.8: factors printed in bold there, exact. From memory.
#[test]
fn exact_factors_are_those_of_the_national_standard() {
    let exact = 1e-14;
    agrees("1 in", Kind::Length, 0.0254, exact);
    agrees("1 ft", Kind::Length, 0.3048, exact);
    agrees("1 yd", Kind::Length, 0.9144, exact);
    agrees("1 mil", Kind::Length, 2.54e-5, exact);
    agrees("1 lb", Kind::Mass, 0.45359237, exact);
    agrees("1 gal", Kind::Volume, 3.785411784e-3, exact);
    agrees("1 mph", Kind::Speed, 0.44704, exact);
    agrees("1 atm", Kind::Pressure, 101_325.0, exact);
    agrees("1 mH2O", Kind::Pressure, 9806.65, exact);
    agrees("1 Btu", Kind::Energy, 1055.05585262, exact);
    agrees("1 kWh", Kind::Energy, 3.6e6, exact);
}

/// The same appendix: factors rounded there to seven figures. From memory.
#[test]
fn rounded_factors_are_those_of_the_national_standard() {
    let rounded = 5e-7;
    agrees("1 psi", Kind::Pressure, 6.894757e3, rounded);
    agrees("1 psf", Kind::Pressure, 4.788026e1, rounded);
    agrees("1 ftH2O", Kind::Pressure, 2.989067e3, rounded);
    agrees("1 inH2O", Kind::Pressure, 2.490889e2, rounded);
    agrees("1 qt", Kind::Volume, 9.463529e-4, rounded);
    agrees("1 fl oz", Kind::Volume, 2.957353e-5, rounded);
    agrees("1 gpm", Kind::Flow, 6.309020e-5, rounded);
    agrees("1 kn", Kind::Speed, 5.144444e-1, rounded);
    agrees("1 Btu/h", Kind::Power, 2.930711e-1, rounded);
    agrees("1 Btu/ft2", Kind::Irradiation, 1.135653e4, rounded);
    agrees("1 Btu/h ft2 F", Kind::LossCoefficient, 5.678263, rounded);
    agrees("1 Btu in/h ft2 F", Kind::Conductivity, 1.442279e-1, rounded);
    agrees("R-1", Kind::Insulance, 1.761102e-1, rounded);
    agrees("1 lb/ft3", Kind::Density, 1.601846e1, rounded);
    agrees("1 lbf", Kind::Force, 4.448222, rounded);
    // The therm (EC) there rests on a Btu rounded to 1055.06 J.
    agrees("1 therm", Kind::Energy, 1.05506e8, 5e-6);
}

#[derive(Deserialize)]
struct Factor {
    kind: String,
    unit: String,
    si: f64,
}

/// `data/unit_factors.csv`: every unit of the table with offset zero, converted to SI base units by the Python
/// unit library pint 0.25.3 from the expression in the third column.
#[test]
fn every_factor_agrees_with_a_unit_library() {
    let mut reader = csv::Reader::from_reader(include_str!("data/unit_factors.csv").as_bytes());
    let factors: Vec<Factor> = reader.deserialize().map(|row| row.unwrap()).collect();
    for kind in Kind::ALL {
        let scaled = table::of(kind).units.iter().filter(|unit| unit.offset == 0.0 && !unit.symbol.is_empty());
        for unit in scaled.filter(|_| kind != Kind::Temperature) {
            let row = factors.iter().find(|row| row.kind == format!("{kind:?}") && row.unit == unit.symbol);
            let expected = row.unwrap_or_else(|| panic!("{kind:?} {} has no row", unit.symbol)).si;
            assert!((unit.factor / expected - 1.0).abs() < 1e-13, "{kind:?} {}: {expected}", unit.symbol);
        }
    }
}

/// Fixed points: the scales meet at −40; 60 °F = 288.70556 K by pint 0.25.3; water boils at 212 °F by definition
/// of the old scale, 100 °C.
#[test]
fn temperature_scales_meet_at_their_fixed_points() {
    agrees("-40 F", Kind::Temperature, 233.15, 1e-14);
    agrees("-40 C", Kind::Temperature, 233.15, 1e-14);
    agrees("60 F", Kind::Temperature, 288.7055555555556, 1e-14);
    agrees("212 F", Kind::Temperature, 373.15, 1e-14);
    agrees("100 C", Kind::Temperature, 373.15, 1e-14);
    assert!(parse(Kind::Temperature, "-459.67 F").unwrap().si.abs() < 1e-12);
}

/// Ounce-weight copper sheet of ASTM B370 as listed in handbooks, thickness in inches rounded to 0.0001. The list
/// is from memory.
#[test]
fn sheet_copper_by_weight_has_its_listed_thickness() {
    for (ounces, inches) in [(8, 0.0107), (10, 0.0134), (12, 0.0161), (16, 0.0215), (20, 0.0269), (32, 0.0430)] {
        let thickness = parse(Kind::Length, &format!("{ounces} oz")).unwrap().si / 0.0254;
        assert!((thickness - inches).abs() <= 0.5e-4, "{ounces} oz: {thickness}");
    }
}

#[derive(Deserialize)]
struct Header {
    n: usize,
    pitch_mm: f64,
    end_mm: f64,
    running_mm: Vec<f64>,
    running_16ths: Vec<u32>,
    max_error_running_mm: f64,
    last_hole_error_if_pitch_stepped_mm: f64,
}

impl Header {
    fn row(&self) -> Row {
        let first = Length::from_si(self.end_mm * 1e-3);
        Row { first, pitch: Length::from_si(self.pitch_mm * 1e-3), count: self.n }
    }
}

fn sixteenths(mark: &TapeMark) -> u32 {
    mark.inches * 16 + mark.numerator * 16 / mark.denominator
}

fn millimetres_of(length: Length) -> f64 {
    length.si() * 1e3
}

/// `data/holes.json`: header drilling cases computed outside this program. Sixteenths are floor(16 x/25.4 + 0.5)
/// of each running dimension; the last error is that of the rounded pitch stepped off from the first rounded hole.
#[test]
fn holes_of_a_header_match_the_worked_cases() {
    let headers: Vec<Header> = serde_json::from_str(include_str!("data/holes.json")).unwrap();
    assert_eq!(headers.len(), 4);
    for header in &headers {
        let marks = running(header.row(), Division::Sixteenth).unwrap();
        assert_eq!(marks.iter().map(sixteenths).collect::<Vec<_>>(), header.running_16ths);
        let worst = marks.iter().map(|mark| millimetres_of(mark.residual).abs()).fold(0.0, f64::max);
        assert!((worst - header.max_error_running_mm).abs() < 1e-9, "{worst}");
        let drift = millimetres_of(stepped_drift(header.row(), Division::Sixteenth).unwrap());
        assert!((drift - header.last_hole_error_if_pitch_stepped_mm).abs() < 1e-9, "{drift}");
        let metric = running_millimetres(header.row(), MetricStep::Tenth).unwrap();
        for (mark, real) in metric.iter().zip(&header.running_mm) {
            assert!((mark.millimetres - real).abs() <= 0.05 + 1e-9, "{mark} for {real}");
        }
    }
}

/// Arithmetic of the trade: 20 pitches of 4.55 in, each taken as 4-9/16 in, end 20 × 0.0125 = 0.25 in too far;
/// from one datum no hole is off by more than 1/32 in.
#[test]
fn stepping_a_rounded_pitch_drifts_and_running_dimensions_do_not() {
    let pitch = Length::from_si(4.55 * 0.0254);
    let row = Row { first: Length::from_si(0.0), pitch, count: 21 };
    let drift = stepped_drift(row, Division::Sixteenth).unwrap();
    assert!((drift.si() / 0.0254 - 0.25).abs() < 1e-12);
    let marks = running(row, Division::Sixteenth).unwrap();
    assert_eq!(marks[1].to_string(), "4 9/16\"");
    assert_eq!(marks[20].to_string(), "91\"");
    assert!(marks.iter().all(|mark| mark.residual.si().abs() <= 0.0254 / 32.0 + 1e-12));
}
