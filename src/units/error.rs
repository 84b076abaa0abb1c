//! What can be wrong with a typed quantity, said in one sentence each.
//!
//! The sentence quotes the token in question and says what is allowed; the hint is what to type next.

use std::ops::Range;

use super::quantity::Kind;
use super::table;

/// Longest token that a message quotes in full.
const LONGEST_QUOTE: usize = 32;

/// A text that is no quantity of the wanted kind.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{problem}")]
pub struct UnitError {
    /// The bytes of the text that are in question.
    pub span: Range<usize>,
    /// What is wrong.
    pub problem: UnitProblem,
    /// What to type instead, if that can be told.
    pub hint: Option<String>,
}

/// Why a text is no quantity of the wanted kind.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum UnitProblem {
    /// Nothing but spaces.
    #[error("'' is empty; {}", wanted_here(*.wanted))]
    Empty {
        /// The wanted kind.
        wanted: Kind,
    },
    /// Longer than any quantity can be.
    #[error("'{token}' is too long for a quantity; {limit} characters are allowed")]
    TooLong {
        /// The start of the text.
        token: String,
        /// Characters allowed.
        limit: usize,
    },
    /// No number where one must stand.
    #[error("'{token}' is no number; {} is wanted here: a number such as 12, 1.5 or 3/4 and its unit", table::of(*.wanted).noun)]
    NoNumber {
        /// What stands there.
        token: String,
        /// The wanted kind.
        wanted: Kind,
    },
    /// Digits and marks that do not form a number.
    #[error("'{token}' is no number; digits with at most one point or comma between them are allowed")]
    BadNumber {
        /// The digits and marks.
        token: String,
    },
    /// A comma before exactly three digits.
    #[error("'{token}' can be read in two ways; a comma before exactly three digits is not allowed, a point is")]
    AmbiguousComma {
        /// The number.
        token: String,
    },
    /// Groups of three digits.
    #[error("'{token}' is written in groups; digits without grouping and at most one point or comma are allowed")]
    Grouped {
        /// The number.
        token: String,
    },
    /// A fraction over zero, or a mixed number whose fraction is not below one.
    #[error("'{token}' is no fraction; one such as 1/4, or 2 1/8 with the fraction below one, is allowed")]
    BadFraction {
        /// The fraction.
        token: String,
    },
    /// No unit where one must stand.
    #[error("'{token}' has no unit; {}", wanted_here(*.wanted))]
    MissingUnit {
        /// The number.
        token: String,
        /// The wanted kind.
        wanted: Kind,
    },
    /// A unit nobody knows.
    #[error("'{token}' is no unit known here{}; {}", closest_unit(*.closest), wanted_here(*.wanted))]
    UnknownUnit {
        /// The unit as typed.
        token: String,
        /// The wanted kind.
        wanted: Kind,
        /// The likeliest unit meant.
        closest: Option<&'static str>,
    },
    /// A unit of another kind.
    #[error("'{token}' is {}; {}", table::of(*.other).noun, wanted_here(*.wanted))]
    OtherKind {
        /// The unit as typed.
        token: String,
        /// The kind it belongs to.
        other: Kind,
        /// The wanted kind.
        wanted: Kind,
    },
    /// A unit behind a plain number.
    #[error("'{token}' is not allowed here; {} without a unit is wanted", table::of(*.wanted).noun)]
    UnitNotWanted {
        /// The unit as typed.
        token: String,
        /// The wanted kind.
        wanted: Kind,
    },
    /// A second number.
    #[error("'{token}' is a second number; only one quantity is allowed here")]
    TwoNumbers {
        /// The second number with its unit.
        token: String,
    },
    /// Text behind the unit.
    #[error("'{token}' stands behind the quantity; only a number and its unit are allowed")]
    Trailing {
        /// The text behind.
        token: String,
    },
    /// A plus-minus sign.
    #[error("'{token}' gives a tolerance; only the value itself is allowed here")]
    Tolerance {
        /// The sign and what follows.
        token: String,
    },
    /// Too large or too small for the program's numbers.
    #[error("'{token}' is too large or too small to compute with; {allowed} are allowed")]
    OutOfRange {
        /// The range of numbers.
        allowed: &'static str,
        /// The number.
        token: String,
    },
    /// A count with a fraction.
    #[error("'{token}' is not whole; a whole number is wanted here")]
    NotWhole {
        /// The number.
        token: String,
    },
    /// A count below zero.
    #[error("'{token}' is below zero; a whole number from 0 up is wanted here")]
    Negative {
        /// The number.
        token: String,
    },
    /// A temperature that cannot be.
    #[error("'{token}' is below absolute zero; temperatures from -273.15 C or -459.67 F up are allowed")]
    BelowAbsoluteZero {
        /// The temperature.
        token: String,
    },
}

fn wanted_here(wanted: Kind) -> String {
    let row = table::of(wanted);
    let units = if row.is_unitless() { String::new() } else { format!(": {}", row.offer()) };
    format!("{} is wanted here{units}", row.noun)
}

fn closest_unit(closest: Option<&'static str>) -> String {
    closest.map(|unit| format!(", the closest is '{unit}'")).unwrap_or_default()
}

/// A token fit to be quoted: shortened, and without characters that steer a terminal or turn its text around.
pub(super) fn quotable(token: &str) -> String {
    let mut quoted: String =
        token.chars().take(LONGEST_QUOTE).map(|c| if steers(c) { '\u{FFFD}' } else { c }).collect();
    if token.chars().nth(LONGEST_QUOTE).is_some() {
        quoted.push('…');
    }
    quoted
}

/// Control characters, and marks of direction (Unicode Standard Annex 9) that are invisible themselves.
fn steers(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}' | '\u{061C}')
}
