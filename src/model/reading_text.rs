//! From the text of an entry to its value: parsed, bounded, and refused in plain words.

use jiff::civil::Date;

use super::{EntrySpec, Shape, Value};
use crate::units::{self, Kind, Quantity, System};

/// Why a typed text is not a value of an entry.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TypedError {
    /// The number or its unit cannot be read.
    #[error("{0}")]
    Unit(#[from] units::UnitError),
    /// The number is read but is physically impossible here.
    #[error("'{typed}' is outside what is possible here: {low} to {high}")]
    Impossible {
        /// The text.
        typed: String,
        /// The lowest possible value.
        low: String,
        /// The highest possible value.
        high: String,
    },
    /// Not one of the declared words.
    #[error("'{typed}' is not one of: {allowed}{hint}")]
    Word {
        /// The text.
        typed: String,
        /// The words.
        allowed: String,
        /// The nearest word, as a clause, or nothing.
        hint: String,
    },
    /// Neither yes nor no.
    #[error("'{0}' is neither yes nor no")]
    Flag(String),
    /// Not a day.
    #[error("'{0}' is not a day; write year-month-day, such as 2026-04-18")]
    Date(String),
    /// Nothing typed.
    #[error("nothing is typed")]
    Empty,
}

/// How many words are listed in an error before the rest is only counted.
const WORDS_LISTED: usize = 12;

impl EntrySpec {
    /// Reads a text as a value of this entry.
    ///
    /// # Errors
    /// [`TypedError`], in plain words, with what is allowed.
    pub fn read(&self, typed: &str) -> Result<Value, TypedError> {
        let text = typed.trim();
        if text.is_empty() {
            return Err(TypedError::Empty);
        }
        match self.shape {
            Shape::Quantity { kind, hard, .. } => bounded(kind, hard, text).map(Value::Quantity),
            Shape::Choice(words) => word(&words(), text).map(Value::Choice),
            Shape::Text => Ok(Value::Text(text.to_owned())),
            Shape::Flag => match text {
                "yes" | "true" => Ok(Value::Flag(true)),
                "no" | "false" => Ok(Value::Flag(false)),
                _ => Err(TypedError::Flag(text.to_owned())),
            },
            Shape::Date => day(text).map(Value::Date).ok_or_else(|| TypedError::Date(text.to_owned())),
        }
    }

    /// Says in one line why a possible value is odd; none if nobody would wonder.
    pub fn odd(&self, value: &Value, system: System) -> Option<String> {
        let (Shape::Quantity { kind, usual: (low, high), .. }, Value::Quantity(quantity)) = (self.shape, value) else {
            return None;
        };
        let print = |si: f64| self.print(Quantity::new(kind, si), system);
        if quantity.si < low {
            Some(format!("unusually small: {} or more is usual", print(low)))
        } else if quantity.si > high {
            Some(format!("unusually large: {} or less is usual", print(high)))
        } else {
            None
        }
    }

    fn print(&self, quantity: Quantity, system: System) -> String {
        self.shown_in.map_or_else(|| quantity.text(system), |units| units.text(quantity, system))
    }

    /// What can be typed, in one line.
    pub fn allowed(&self, system: System) -> String {
        match self.shape {
            Shape::Quantity { kind, hard: (low, high), .. } => {
                let print = |si: f64| self.print(Quantity::new(kind, si), system);
                match (low.is_finite(), high.is_finite()) {
                    (true, true) => format!("{} to {}", print(low), print(high)),
                    (true, false) => format!("{} or more", print(low)),
                    (false, true) => format!("{} or less", print(high)),
                    (false, false) => format!("such as {}", units::example(kind)),
                }
            }
            Shape::Choice(words) => listed(&words()),
            Shape::Text => "any words on one line".to_owned(),
            Shape::Flag => "yes or no".to_owned(),
            Shape::Date => "a day, such as 2026-04-18".to_owned(),
        }
    }
}

/// A day written year-month-day; other notations, and times of day, are not taken.
pub fn day(text: &str) -> Option<Date> {
    text.parse::<Date>().ok().filter(|day| day.to_string() == text)
}

fn bounded(kind: Kind, (low, high): (f64, f64), text: &str) -> Result<Quantity, TypedError> {
    let quantity = units::parse(kind, text)?;
    if quantity.si < low || quantity.si > high {
        let system = system_of(kind, text);
        let print = |si: f64| {
            if si.is_finite() { Quantity::new(kind, si).text(system) } else { "any".to_owned() }
        };
        return Err(TypedError::Impossible { typed: text.to_owned(), low: print(low), high: print(high) });
    }
    Ok(quantity)
}

/// The family of units that a text was typed in: the US one only if its last unit is printed there and nowhere else.
fn system_of(kind: Kind, text: &str) -> System {
    let table = units::table::of(kind);
    let ends =
        |unit: &&units::table::Unit| unit.spellings().any(|spelling| !spelling.is_empty() && text.ends_with(spelling));
    let longest = |unit: &&units::table::Unit| {
        unit.spellings().filter(|spelling| text.ends_with(spelling)).map(str::len).max().unwrap_or(0)
    };
    let typed = table.units.iter().filter(ends).max_by_key(longest);
    let stands_in =
        |ladder: &[units::table::Rung]| typed.is_some_and(|unit| ladder.iter().any(|rung| rung.symbol == unit.symbol));
    if stands_in(table.us) && !stands_in(table.si) { System::Us } else { System::Si }
}

fn word(words: &[(&'static str, &'static str)], text: &str) -> Result<String, TypedError> {
    if let Some((known, _)) = words.iter().find(|(known, _)| *known == text) {
        return Ok((*known).to_owned());
    }
    let nearest = units::nearest(text, words.iter().map(|(known, _)| *known));
    let hint = nearest.map_or_else(String::new, |known| format!("; did you mean '{known}'?"));
    Err(TypedError::Word { typed: text.to_owned(), allowed: listed(words), hint })
}

fn listed(words: &[(&'static str, &'static str)]) -> String {
    let mut shown: Vec<&str> = words.iter().take(WORDS_LISTED).map(|(known, _)| *known).collect();
    let more = format!("and {} more", words.len().saturating_sub(WORDS_LISTED));
    if words.len() > WORDS_LISTED {
        shown.push(&more);
    }
    shown.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 12 bar is 174.0 psi (NIST SP 811: 1 psi = 6894.757 Pa).
    #[test]
    fn a_refusal_names_the_bounds_in_the_family_that_was_typed() {
        let refused = |typed: &str| bounded(Kind::Pressure, (0.0, 12e5), typed).unwrap_err().to_string();
        assert_eq!(refused("200 psi"), "'200 psi' is outside what is possible here: 0 psi to 174 psi");
        assert_eq!(refused("20 bar"), "'20 bar' is outside what is possible here: 0 Pa to 12.0 bar");
    }
}
