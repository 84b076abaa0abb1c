//! Reading what people type: a number with its unit, of a kind that is known beforehand.
//!
//! Here the terms of a text get their meaning by the kind; the number, the splitting and the spelling of units
//! have modules of their own. Nothing is guessed: what can be read in two ways is refused with both spellings.

mod number;
mod term;
mod text;

#[cfg(test)]
mod tests;

use std::ops::Range;

use self::number::Number;
use self::term::{Term, Terms};
use self::text::Text;
use super::error::{UnitError, UnitProblem};
use super::quantity::{Kind, Quantity};
use super::spelling;
use super::table::{self, Place, Unit};

/// Longest text that is looked at, in characters.
const LONGEST: usize = 200;
/// Largest number that is computed with, and its inverse the smallest.
const LARGEST: f64 = 1e300;
/// Largest count that a number of the program holds without a gap.
const LARGEST_COUNT: f64 = 9_007_199_254_740_992.0;

/// Reads a quantity of the wanted kind: `47 in`, `3' 11 1/4"`, `15,9 mm`, `60 F`, `R-10`, `4/12`.
///
/// The unit must be typed, except for plain numbers and counts, which take none. Point and comma are decimal
/// marks; grouping is refused. A slope such as `4/12` or `4 in 12` is an angle. The page for builders,
/// `docs/units.md`, lists every spelling.
///
/// # Errors
/// [`UnitError`] names the place in the text, what is wrong with it and what is allowed.
///
/// ```
/// use sunharp::units::{Kind, parse};
///
/// let width = parse(Kind::Length, "3' 11 1/4\"").unwrap();
/// assert!((width.si - 1.20015).abs() < 1e-12);
/// let refused = parse(Kind::Length, "30 psi").unwrap_err();
/// assert_eq!(refused.to_string(), "'psi' is a pressure; a length is wanted here: mm, cm, m, in, ft");
/// ```
pub fn parse(kind: Kind, text: &str) -> Result<Quantity, UnitError> {
    let Some(text) = Text::new(text, LONGEST) else {
        return Err(too_long(text));
    };
    let all = text.without_spaces_behind(text.skip_spaces(0)..text.len());
    if text.skip_spaces(0) == text.len() {
        return Err(text.error(&(0..text.len()), |_| UnitProblem::Empty { wanted: kind }).with_hint(sample(kind)));
    }
    if let Some(sign) = all.clone().find(|at| text.is(*at, |c| c == '±')) {
        return Err(text.error(&(sign..all.end), |token| UnitProblem::Tolerance { token }));
    }
    let si = match prefixed(kind, &text, &all)? {
        Some(si) => si,
        None => meaning(kind, &text, &term::split(kind, &text)?)?,
    };
    bounded(kind, si, &text, &all)
}

fn too_long(text: &str) -> UnitError {
    let token = super::error::quotable(text);
    UnitError { span: 0..text.len(), problem: UnitProblem::TooLong { token, limit: LONGEST }, hint: None }
}

/// The number in SI base units of a text that begins with a word, such as `R-10`.
fn prefixed(kind: Kind, text: &Text, all: &Range<usize>) -> Result<Option<f64>, UnitError> {
    let word_end = text.skip(all.start, spelling::is_letter);
    let word = text.plain(all.start..word_end);
    let unit = table::of(kind).units.iter().find(|unit| !unit.prefix.is_empty() && unit.prefix == word);
    let Some(unit) = unit else {
        return Ok(None);
    };
    let hyphen = usize::from(text.is(word_end, |c| c == '-'));
    let at = text.skip_spaces(word_end + hyphen);
    if !number::begins(text, at) {
        return Err(text.error(all, |token| UnitProblem::NoNumber { token, wanted: kind }).with_hint(sample(kind)));
    }
    let number = number::read(text, at)?;
    if number.places.end < all.end {
        let rest = text.skip_spaces(number.places.end)..all.end;
        return Err(text.error(&rest, |token| UnitProblem::Trailing { token }));
    }
    Ok(Some(unit.to_si(number.value)))
}

/// The number in SI base units that the terms mean together.
fn meaning(kind: Kind, text: &Text, read: &Terms) -> Result<f64, UnitError> {
    let sign = if read.is_negative { -1.0 } else { 1.0 };
    if kind == Kind::Angle
        && let Some(slope) = slope(text, &read.terms)?
    {
        return Ok(sign * slope);
    }
    match read.terms.as_slice() {
        [term] => Ok(unit_of(kind, text, term)?.to_si(sign * term.number.value)),
        terms => Ok(sign * chained(kind, text, terms)?),
    }
}

/// The angle of a slope typed as rise over run, `4/12` or `4 in 12`.
fn slope(text: &Text, terms: &[Term]) -> Result<Option<f64>, UnitError> {
    let (rise, run) = match terms {
        [Term { number: Number { fraction: Some(parts), .. }, unit }] if unit.is_empty() => *parts,
        [rise, run] if text.plain(rise.unit.clone()) == "in" && run.unit.is_empty() => {
            (rise.number.value, run.number.value)
        }
        _ => return Ok(None),
    };
    if run > 0.0 {
        return Ok(Some((rise / run).atan()));
    }
    let places = terms[0].places().start..terms[terms.len() - 1].places().end;
    Err(text.error(&places, |token| UnitProblem::BadFraction { token }))
}

/// The sum of terms such as `3 ft 11 in`, each smaller than the one before and without mixing families.
fn chained(kind: Kind, text: &Text, terms: &[Term]) -> Result<f64, UnitError> {
    if terms[0].unit.is_empty() {
        return Err(second_number(text, &terms[0], &terms[1]));
    }
    let mut larger = unit_of(kind, text, &terms[0])?;
    let mut sum = larger.to_si(terms[0].number.value);
    for pair in terms.windows(2) {
        let [before, term] = pair else { continue };
        if term.unit.is_empty() {
            return Err(second_number(text, before, term));
        }
        let unit = unit_of(kind, text, term)?;
        if unit.chain == 0 || unit.chain != larger.chain || unit.factor >= larger.factor {
            return Err(second_number(text, before, term));
        }
        sum += unit.to_si(term.number.value);
        larger = unit;
    }
    Ok(sum)
}

/// The error for a number too many; `1 200` looks like grouping, `3' 11` lacks its last mark.
fn second_number(text: &Text, before: &Term, second: &Term) -> UnitError {
    let error = text.error(&second.places(), |token| UnitProblem::TwoNumbers { token });
    let digits = text.typed(&second.number.places);
    if before.unit.is_empty() && digits.len() == 3 && digits.bytes().all(|byte| byte.is_ascii_digit()) {
        let joined = format!("{}{}", text.typed(&before.number.places), text.typed(&second.places()));
        return error.with_hint(format!("write '{joined}' without a space between the digits"));
    }
    if second.unit.is_empty() && text.plain(before.unit.clone()) == "'" {
        return error.with_hint(format!("write '{} {}\"'", text.typed(&before.places()), digits));
    }
    error
}

/// The unit of a term, or why there is none.
fn unit_of(kind: Kind, text: &Text, term: &Term) -> Result<&'static Unit, UnitError> {
    let name = text.plain(term.unit.clone());
    if let Some(unit) = spelling::of_kind(kind, &name) {
        return Ok(unit);
    }
    if term.unit.is_empty() {
        let error = text.error(&term.number.places, |token| UnitProblem::MissingUnit { token, wanted: kind });
        return Err(error.with_hint(both_families(kind, text.typed(&term.number.places))));
    }
    if let Some(error) = trailing(kind, text, term) {
        return Err(error);
    }
    if table::of(kind).is_unitless() {
        return Err(text.error(&term.unit, |token| UnitProblem::UnitNotWanted { token, wanted: kind }));
    }
    let closest = spelling::closest(kind, &name);
    let other = spelling::any_kind(&name);
    let error = text.error(&term.unit, |token| match other {
        Some(other) => UnitProblem::OtherKind { token, other, wanted: kind },
        None => UnitProblem::UnknownUnit { token, wanted: kind, closest: closest.map(Unit::typed) },
    });
    let number = text.typed(&term.number.places);
    Err(match closest {
        Some(unit) if other.is_none() => error.with_hint(format!("write '{}'", spelt(number, unit))),
        _ => error,
    })
}

/// The error for text behind a unit that is known itself, as in `47 in wide`.
fn trailing(kind: Kind, text: &Text, term: &Term) -> Option<UnitError> {
    let spaces = term.unit.clone().rev().filter(|at| text.is(*at, char::is_whitespace));
    let known = spaces.map(|at| term.unit.start..at).find(|places| {
        let spelt = text.plain(places.clone());
        !spelt.trim().is_empty() && spelling::of_kind(kind, &spelt).is_some()
    })?;
    let whole = text.plain(term.unit.clone());
    let rest = text.skip_spaces(known.end)..term.unit.end;
    spelling::any_kind(&whole).is_none().then(|| text.error(&rest, |token| UnitProblem::Trailing { token }))
}

/// A number of the kind in each family of units, for hints.
fn both_families(kind: Kind, number: &str) -> String {
    let row = table::of(kind);
    let first = &row.units[0];
    let customary = row.units.iter().find(|unit| row.us.iter().any(|rung| rung.symbol == unit.symbol));
    if let Some(share) = share_of_one(kind, number) {
        return format!("write '{share} %' for {number} of one");
    }
    let slope = if kind == Kind::Angle { ", or a slope such as '4/12'" } else { "" };
    match customary.filter(|unit| *unit != first) {
        Some(customary) => format!("write '{}' or '{}'", spelt(number, first), spelt(number, customary)),
        None => format!("write '{}'{slope}", spelt(number, first)),
    }
}

/// The percent that a bare share of one such as `0.95` most likely means.
fn share_of_one(kind: Kind, number: &str) -> Option<f64> {
    let share: f64 = number.replace(',', ".").parse().ok()?;
    let percent = (share * 1e8).round() / 1e6;
    (kind == Kind::Percent && share > 0.0 && share <= 1.0).then_some(percent)
}

fn spelt(number: &str, unit: &Unit) -> String {
    match unit.place {
        Place::Before => format!("{}-{number}", unit.prefix),
        Place::After | Place::Attached => format!("{number} {}", unit.typed()),
    }
}

/// What may be typed for a kind, for hints.
fn sample(kind: Kind) -> String {
    if table::of(kind).is_unitless() { "write '12'".to_owned() } else { both_families(kind, "12") }
}

/// Refuses what no number of the kind can be.
fn bounded(kind: Kind, si: f64, text: &Text, all: &Range<usize>) -> Result<Quantity, UnitError> {
    let is_lost = si != 0.0 && si.abs() < 1.0 / LARGEST;
    let allowed = if kind == Kind::Count { "whole numbers up to 9e15" } else { number::ALLOWED };
    if !si.is_finite() || si.abs() > LARGEST || is_lost || (kind == Kind::Count && si > LARGEST_COUNT) {
        return Err(text.error(all, |token| UnitProblem::OutOfRange { token, allowed }));
    }
    match kind {
        Kind::Count if si < 0.0 => Err(text.error(all, |token| UnitProblem::Negative { token })),
        Kind::Count if si.fract() != 0.0 => Err(text.error(all, |token| UnitProblem::NotWhole { token })),
        Kind::Temperature if si < 0.0 => Err(text.error(all, |token| UnitProblem::BelowAbsoluteZero { token })),
        // Adding zero turns a negative zero into zero.
        _ => Ok(Quantity::new(kind, si + 0.0)),
    }
}
