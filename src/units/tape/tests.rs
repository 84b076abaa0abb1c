//! Laws of tape marks.

use proptest::prelude::*;

use super::*;
use crate::units::{Kind, parse};

fn inches(value: f64) -> Length {
    Length::from_si(value * 0.0254)
}

fn printed(value: f64, division: Division) -> String {
    mark(inches(value), division).unwrap().to_string()
}

#[test]
fn marks_are_reduced_and_carried() {
    assert_eq!(printed(47.25, Division::Sixteenth), "47 1/4\"");
    assert_eq!(printed(47.5, Division::SixtyFourth), "47 1/2\"");
    assert_eq!(printed(46.97, Division::Sixteenth), "47\"");
    assert_eq!(printed(0.0, Division::Sixteenth), "0\"");
    assert_eq!(printed(0.25, Division::Quarter), "1/4\"");
    assert_eq!(printed(-47.25, Division::Sixteenth), "-47 1/4\"");
    assert_eq!(printed(-0.01, Division::Sixteenth), "0\"");
    assert_eq!(printed(11.0 + 17.0 / 32.0, Division::ThirtySecond), "11 17/32\"");
}

#[test]
fn the_middle_between_two_marks_goes_to_the_farther_one() {
    for whole in 0..200 {
        let middle = f64::from(whole) + 1.0 / 32.0;
        assert_eq!(mark(inches(middle), Division::Sixteenth).unwrap().numerator, 1, "{middle}");
        assert_eq!(mark(inches(-middle), Division::Sixteenth).unwrap().numerator, 1, "-{middle}");
    }
}

#[test]
fn feet_are_split_off_on_wish() {
    let feet = |value: f64| mark(inches(value), Division::Sixteenth).unwrap().with_feet().to_string();
    assert_eq!(feet(47.25), "3' 11 1/4\"");
    assert_eq!(feet(36.25), "3' 0 1/4\"");
    assert_eq!(feet(36.0), "3' 0\"");
    assert_eq!(feet(-36.0), "-3' 0\"");
    assert_eq!(feet(11.5), "11 1/2\"");
    assert_eq!(feet(0.0), "0\"");
    assert_eq!(feet(35.99), "3' 0\"");
}

#[test]
fn millimetre_marks_show_their_step() {
    let text = |value: f64, step| millimetres(Length::from_si(value * 1e-3), step).unwrap().to_string();
    assert_eq!(text(1190.04, MetricStep::Tenth), "1190.0 mm");
    assert_eq!(text(1190.3, MetricStep::Half), "1190.5 mm");
    assert_eq!(text(1190.5, MetricStep::Whole), "1191 mm");
    assert_eq!(text(-0.2, MetricStep::Whole), "0 mm");
}

#[test]
fn what_no_tape_can_show_is_refused() {
    for length in [f64::NAN, f64::INFINITY, -1e7] {
        assert_eq!(mark(Length::from_si(length), Division::Half), Err(TapeError::NoMark));
        assert_eq!(millimetres(Length::from_si(length), MetricStep::Whole), Err(TapeError::NoMark));
    }
    let endless = Row { first: inches(1.0), pitch: inches(1.0), count: usize::MAX };
    assert_eq!(running(endless, Division::Half), Err(TapeError::TooMany { count: usize::MAX }));
    assert!(stepped_drift(endless, Division::Half).is_err());
}

#[test]
fn an_empty_row_has_no_marks_and_no_drift() {
    let none = Row { first: inches(1.0), pitch: inches(4.55), count: 0 };
    assert_eq!(running(none, Division::Sixteenth), Ok(Vec::new()));
    assert_eq!(stepped_drift(none, Division::Sixteenth), Ok(Length::from_si(0.0)));
}

fn any_division() -> impl Strategy<Value = Division> {
    prop::sample::select(Division::ALL.to_vec())
}

proptest! {
    #[test]
    fn a_mark_and_its_residual_make_the_length(value in -500.0_f64..500.0, division in any_division()) {
        let mark = mark(inches(value), division).unwrap();
        prop_assert!((mark.length().si() + mark.residual.si() - inches(value).si()).abs() < 1e-12);
        prop_assert!(mark.numerator < mark.denominator && mark.denominator <= division.denominator());
        prop_assert!(mark.numerator % 2 == 1 || (mark.numerator == 0 && mark.denominator == 1));
    }

    #[test]
    fn hole_positions_never_accumulate_rounding(
        first in 0.0_f64..20.0, pitch in 0.5_f64..12.0, count in 1_usize..200, division in any_division(),
    ) {
        let row = Row { first: inches(first), pitch: inches(pitch), count };
        let marks = running(row, division).unwrap();
        prop_assert_eq!(marks.len(), count);
        for (i, mark) in marks.iter().enumerate() {
            let real = inches(first + pitch * i as f64).si();
            prop_assert!((mark.length().si() - real).abs() <= division.length().si() / 2.0 + 1e-9);
        }
        for step in MetricStep::ALL {
            for (i, mark) in running_millimetres(row, step).unwrap().iter().enumerate() {
                let real = inches(first + pitch * i as f64).si();
                prop_assert!((mark.length().si() - real).abs() <= step.length().si() / 2.0 + 1e-9);
            }
        }
    }

    #[test]
    fn a_printed_mark_can_be_typed_again(value in -500.0_f64..500.0, division in any_division()) {
        let mark = mark(inches(value), division).unwrap();
        for text in [mark.to_string(), mark.with_feet().to_string()] {
            let read = parse(Kind::Length, &text).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert!((read.si - mark.length().si()).abs() < 1e-12, "{}", text);
        }
        let metric = millimetres(inches(value), MetricStep::Tenth).unwrap();
        let read = parse(Kind::Length, &metric.to_string()).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert!((read.si - metric.length().si()).abs() < 1e-12);
    }
}
