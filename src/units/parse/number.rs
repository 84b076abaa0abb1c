//! Reading of one number: decimal with point or comma, fraction, mixed number.
//!
//! Units and the meaning of several numbers in a row lie elsewhere.

use std::ops::Range;

use super::text::Text;
use crate::units::error::{UnitError, UnitProblem};

/// The range of numbers in words.
pub(super) const ALLOWED: &str = "numbers from 1e-300 to 1e300";

/// A number as it was typed, without its sign.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Number {
    /// The value.
    pub value: f64,
    /// Where it stands.
    pub places: Range<usize>,
    /// Numerator and denominator, if it is typed as nothing but a fraction.
    pub fraction: Option<(f64, f64)>,
}

/// Whether a number can begin at this place.
pub(super) fn begins(text: &Text, at: usize) -> bool {
    match text.at(at) {
        Some(c) if c.is_ascii_digit() || vulgar(c).is_some() => true,
        Some('.' | ',') => text.is(at + 1, |c| c.is_ascii_digit()),
        _ => false,
    }
}

/// Reads the number that begins at this place; the caller has looked with [`begins`].
pub(super) fn read(text: &Text, at: usize) -> Result<Number, UnitError> {
    if let Some(value) = text.at(at).and_then(vulgar) {
        return Ok(Number { value, places: at..at + 1, fraction: None });
    }
    let marks_end = text.skip(at, |c| c.is_ascii_digit() || c == '.' || c == ',');
    let end = exponent_end(text, marks_end);
    let is_plain = end == marks_end && (at..end).all(|place| text.is(place, |c| c.is_ascii_digit()));
    if is_plain {
        if let Some(fraction) = fraction(text, at)? {
            return Ok(fraction);
        }
        if let Some(mixed) = mixed(text, at..end)? {
            return Ok(mixed);
        }
    }
    Ok(Number { value: decimal(text, at..marks_end, end)?, places: at..end, fraction: None })
}

/// The end of `e-3` behind the digits, or the end of the digits.
fn exponent_end(text: &Text, digits_end: usize) -> usize {
    if !text.is(digits_end, |c| c == 'e' || c == 'E') {
        return digits_end;
    }
    let digits = digits_end + 1 + usize::from(text.is(digits_end + 1, |c| c == '+' || c == '-'));
    let end = text.skip(digits, |c| c.is_ascii_digit());
    if end > digits { end } else { digits_end }
}

/// Reads digits with at most one decimal mark.
fn decimal(text: &Text, marks: Range<usize>, end: usize) -> Result<f64, UnitError> {
    let places = marks.start..end;
    let typed = text.plain(marks.clone());
    let at = typed.find(['.', ',']);
    let (whole, rest) = at.map_or((typed.as_str(), ""), |at| (&typed[..at], &typed[at + 1..]));
    if rest.contains(['.', ',']) {
        return Err(grouped(text, &places, &typed));
    }
    if at.is_some() && rest.is_empty() {
        return Err(text.error(&places, |token| UnitProblem::BadNumber { token }));
    }
    if typed.contains(',') && rest.len() == 3 {
        return Err(ambiguous(text, &places, whole, rest));
    }
    let exponent = text.plain(marks.end..end);
    let value: f64 = format!("0{whole}.{rest}0{exponent}").parse().unwrap_or(f64::NAN);
    let is_lost = value == 0.0 && typed.contains(|c: char| ('1'..='9').contains(&c));
    if !value.is_finite() || is_lost {
        return Err(text.error(&places, |token| UnitProblem::OutOfRange { token, allowed: ALLOWED }));
    }
    Ok(value)
}

/// `1,200`: both readings are shown, or the only one that grouping leaves.
fn ambiguous(text: &Text, places: &Range<usize>, whole: &str, decimals: &str) -> UnitError {
    let behind = tail(text, places.end);
    let kept = decimals.trim_end_matches('0');
    let zero = if whole.is_empty() { "0" } else { whole };
    let point = if kept.is_empty() { zero.to_owned() } else { format!("{zero}.{kept}") };
    let hint = if whole.trim_start_matches('0').is_empty() {
        format!("write '{point}{behind}'")
    } else {
        format!("write '{point}{behind}' or '{whole}{decimals}{behind}'")
    };
    text.error(places, |token| UnitProblem::AmbiguousComma { token }).with_hint(hint)
}

/// Several marks: groups of three with at most another mark before the decimals, or no number at all.
fn grouped(text: &Text, places: &Range<usize>, typed: &str) -> UnitError {
    let parts: Vec<&str> = typed.split(['.', ',']).collect();
    let marks: Vec<char> = typed.chars().filter(|c| !c.is_ascii_digit()).collect();
    let has_decimals = marks.first() != marks.last();
    let is_uniform = marks[..marks.len() - 1].iter().all(|mark| *mark == marks[0]);
    let groups = if has_decimals { &parts[1..parts.len() - 1] } else { &parts[1..] };
    if !is_uniform || parts.iter().any(|part| part.is_empty()) || groups.iter().any(|group| group.len() != 3) {
        return text.error(places, |token| UnitProblem::BadNumber { token });
    }
    let (whole, decimals) = parts.split_at(1 + groups.len());
    let joined = [whole.concat()].into_iter().chain(decimals.iter().map(|part| (*part).to_owned()));
    let plain = joined.collect::<Vec<_>>().join(".");
    let hint = format!("write '{plain}{}'", tail(text, places.end));
    text.error(places, |token| UnitProblem::Grouped { token }).with_hint(hint)
}

/// What follows the number, for the hint; nothing if it is long.
fn tail<'a>(text: &Text<'a>, from: usize) -> &'a str {
    const SHORT: usize = 24;
    let places = text.without_spaces_behind(from..text.len());
    if places.len() > SHORT { "" } else { text.typed(&places) }
}

/// Reads `7/8` if it stands here.
fn fraction(text: &Text, at: usize) -> Result<Option<Number>, UnitError> {
    let stroke = text.skip(at, |c| c.is_ascii_digit());
    let denominator_end = text.skip(stroke + 1, |c| c.is_ascii_digit());
    if stroke == at || !text.is(stroke, |c| c == '/') || denominator_end == stroke + 1 {
        return Ok(None);
    }
    let places = at..denominator_end;
    let above = decimal(text, at..stroke, stroke)?;
    let below = decimal(text, stroke + 1..denominator_end, denominator_end)?;
    if below == 0.0 || text.is(denominator_end, |c| c == '.' || c == ',' || c == '/') {
        return Err(text.error(&places, |token| UnitProblem::BadFraction { token }));
    }
    Ok(Some(Number { value: above / below, places, fraction: Some((above, below)) }))
}

/// Reads the fraction behind the whole part of `2 1/8`, `2-1/8`, `2⅛` or `2 ⅛`, if there is one.
fn mixed(text: &Text, whole: Range<usize>) -> Result<Option<Number>, UnitError> {
    let hyphen = usize::from(text.is(whole.end, |c| c == '-'));
    let at = if hyphen == 1 { whole.end + 1 } else { text.skip_spaces(whole.end) };
    let part = match text.at(at).and_then(vulgar) {
        Some(value) => Number { value, places: at..at + 1, fraction: None },
        None => match fraction(text, at)? {
            Some(part) => part,
            None => return Ok(None),
        },
    };
    let places = whole.start..part.places.end;
    if part.value >= 1.0 {
        return Err(text.error(&places, |token| UnitProblem::BadFraction { token }));
    }
    let value = decimal(text, whole.clone(), whole.end)? + part.value;
    Ok(Some(Number { value, places, fraction: None }))
}

/// The value of a fraction that is one character.
fn vulgar(c: char) -> Option<f64> {
    let (above, below) = match c {
        '¼' => (1.0, 4.0),
        '½' => (1.0, 2.0),
        '¾' => (3.0, 4.0),
        '⅐' => (1.0, 7.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        _ => return None,
    };
    Some(above / below)
}
