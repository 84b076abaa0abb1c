//! Splitting a text into terms: a number and the unit text behind it, one after the other.
//!
//! What the terms mean together is decided by the kind, elsewhere.

use std::ops::Range;

use super::number::{self, Number};
use super::text::Text;
use crate::units::error::{UnitError, UnitProblem};
use crate::units::quantity::Kind;
use crate::units::{spelling, table};

/// A number and what stands behind it up to the next number.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Term {
    /// The number, without sign.
    pub number: Number,
    /// Where its unit stands; empty if there is none.
    pub unit: Range<usize>,
}

impl Term {
    /// Where the whole term stands.
    pub(super) fn places(&self) -> Range<usize> {
        self.number.places.start..self.unit.end.max(self.number.places.end)
    }
}

/// The terms of a text with the sign before the first of them.
pub(super) struct Terms {
    /// Whether a minus stands before the first number; it holds for the whole.
    pub is_negative: bool,
    /// The terms, at least one.
    pub terms: Vec<Term>,
}

/// Splits a text that is not empty.
pub(super) fn split(kind: Kind, text: &Text) -> Result<Terms, UnitError> {
    let start = text.skip_spaces(0);
    let is_signed = text.is(start, |c| c == '-' || c == '+');
    let mut at = if is_signed { text.skip_spaces(start + 1) } else { start };
    if !number::begins(text, at) {
        let all = text.without_spaces_behind(start..text.len());
        return Err(text.error(&all, |token| UnitProblem::NoNumber { token, wanted: kind }));
    }
    let mut terms = Vec::new();
    while at < text.len() {
        let term = read_term(kind, text, at)?;
        at = text.skip_spaces(term.unit.end.max(term.number.places.end));
        terms.push(term);
        if let Some(next) = joined(kind, text, at) {
            at = next;
        } else if at < text.len() && !number::begins(text, at) {
            let rest = text.without_spaces_behind(at..text.len());
            return Err(text.error(&rest, |token| UnitProblem::Trailing { token }));
        }
    }
    Ok(Terms { is_negative: is_signed && text.is(start, |c| c == '-'), terms })
}

/// The place behind the hyphen of `3'-11"`, which joins feet and inches.
fn joined(kind: Kind, text: &Text, at: usize) -> Option<usize> {
    let is_hyphen =
        kind == Kind::Length && at > 0 && text.is(at, |c| c == '-') && !text.is(at - 1, char::is_whitespace);
    (is_hyphen && number::begins(text, at + 1)).then_some(at + 1)
}

fn read_term(kind: Kind, text: &Text, at: usize) -> Result<Term, UnitError> {
    let number = number::read(text, at)?;
    let start = text.skip_spaces(number.places.end);
    let end = unit_end(text, start);
    let unit = text.without_spaces_behind(start..end);
    let unit = if unit.is_empty() { number.places.end..number.places.end } else { unit };
    let unit = shortened(kind, text, &unit).unwrap_or(unit);
    Ok(Term { number, unit })
}

/// The place where the unit text from `start` on ends: before the next number or at the end.
///
/// A digit right behind a letter is an exponent (`m2`), behind a mark it begins a number (`3'11"`).
fn unit_end(text: &Text, start: usize) -> usize {
    let mut at = start;
    while let Some(c) = text.at(at) {
        let before = (at > start).then(|| text.at(at - 1)).flatten();
        let is_in_name = before.is_some_and(|c| spelling::is_letter(c) || c == '^');
        let ends = match c {
            '-' => !is_in_name && number::begins(text, at + 1),
            '1' if before.is_none_or(char::is_whitespace) && is_reciprocal(text, at) => false,
            c if c.is_ascii_digit() => {
                let is_exponent = is_in_name || before.is_some_and(|c| c == '-' || c.is_ascii_digit());
                !(is_exponent || before == Some('/') || before == Some('('))
            }
            _ => number::begins(text, at),
        };
        if ends {
            return at;
        }
        at += 1;
    }
    at
}

/// Whether `1/m` stands here rather than a fraction.
fn is_reciprocal(text: &Text, at: usize) -> bool {
    text.is(at + 1, |c| c == '/') && text.is(at + 2, |c| spelling::is_letter(c) || c == '(')
}

/// In kinds whose units are typed in a row, `ft11in` is a unit and a number, not a power of `ft11`.
fn shortened(kind: Kind, text: &Text, unit: &Range<usize>) -> Option<Range<usize>> {
    if table::of(kind).units.iter().all(|unit| unit.chain == 0)
        || spelling::any_kind(&text.plain(unit.clone())).is_some()
    {
        return None;
    }
    let first = unit.clone().find(|at| text.is(*at, |c| c.is_ascii_digit()))?;
    let end = if text.is(first.checked_sub(1)?, |c| c == '-') { first - 1 } else { first };
    let name = text.without_spaces_behind(unit.start..end);
    spelling::of_kind(kind, &text.plain(name.clone())).filter(|unit| unit.chain > 0).map(|_| name)
}
