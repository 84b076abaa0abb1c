//! Spelling of units: one canonical form for the many ways to type a product of units, and the search in the
//! table by that form.
//!
//! `W/(m²·K)`, `W/m2K`, `W/m2/K`, `W m-2 K-1` and `W per m2 K` are one unit. Everything behind the first stroke
//! is in the denominator until its bracket closes, as people write it.

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write as _;
use std::sync::LazyLock;

use super::quantity::Kind;
use super::table::{self, Unit};

/// Spellings of a factor that hold wherever the factor stands.
pub const SYNONYMS: [(&str, &str); 11] = [
    ("l", "L"),
    ("hr", "h"),
    ("sec", "s"),
    ("BTU", "Btu"),
    ("btu", "Btu"),
    ("°C", "C"),
    ("degC", "C"),
    ("°F", "F"),
    ("degF", "F"),
    ("ohm", "Ω"),
    ("um", "µm"),
];

/// Distance of two spellings from which on the one is no longer a slip of the other, in thirds of its length.
const THIRDS_OF_SLIP: usize = 3;

/// Longest token that is searched for a slip of the hand.
const LONGEST_SLIP: usize = 24;

/// Units by canonical form; several kinds may share one, such as `oz` or `W/(m·K)`.
static INDEX: LazyLock<HashMap<String, Vec<(Kind, &'static Unit)>>> = LazyLock::new(|| {
    let mut index: HashMap<String, Vec<(Kind, &'static Unit)>> = HashMap::new();
    for kind in Kind::ALL {
        for unit in table::of(kind).units {
            for form in unit.spellings().filter_map(canonical) {
                let entries = index.entry(form).or_default();
                if !entries.contains(&(kind, unit)) {
                    entries.push((kind, unit));
                }
            }
        }
    }
    index
});

/// One character for the many that look alike: primes, minus signs, strokes, points.
pub(super) fn plain(c: char) -> char {
    match c {
        '\u{2212}' | '\u{2010}'..='\u{2013}' => '-',
        '\u{2032}' | '\u{2018}' | '\u{2019}' => '\'',
        '\u{2033}' | '\u{201C}' | '\u{201D}' => '"',
        '\u{2044}' | '\u{2215}' => '/',
        '\u{00B7}' | '\u{22C5}' | '\u{2219}' | '\u{2022}' => '*',
        '\u{03BC}' => 'µ',
        '\u{2126}' => 'Ω',
        '\u{00BA}' => '°',
        other => other,
    }
}

/// The unit of `kind` that is spelt like this.
pub(super) fn of_kind(kind: Kind, text: &str) -> Option<&'static Unit> {
    candidates(text).into_iter().find(|(of, _)| *of == kind).map(|(_, unit)| unit)
}

/// The first kind that has a unit spelt like this.
pub(super) fn any_kind(text: &str) -> Option<Kind> {
    candidates(text).first().map(|(kind, _)| *kind)
}

fn candidates(text: &str) -> Vec<(Kind, &'static Unit)> {
    canonical(text).and_then(|form| INDEX.get(&form).cloned()).unwrap_or_default()
}

/// The spelling of `kind` that lies closest to a token nobody knows: first a slip of the shift key, then a slip
/// of up to a third of the letters.
pub(super) fn closest(kind: Kind, token: &str) -> Option<&'static Unit> {
    if token.chars().count() > LONGEST_SLIP {
        return None;
    }
    let lower = token.to_lowercase();
    let spelt = table::of(kind).units.iter().flat_map(|unit| unit.spellings().map(move |spelling| (unit, spelling)));
    let (distance, _, length, unit) = spelt
        .filter(|(_, spelling)| !spelling.is_empty())
        .map(|(unit, spelling)| {
            let folded = edit_distance(&lower, &spelling.to_lowercase());
            (folded, edit_distance(token, spelling), spelling.chars().count(), unit)
        })
        .min_by_key(|(folded, exact, ..)| (*folded, *exact))?;
    (distance * THIRDS_OF_SLIP <= length.max(token.chars().count())).then_some(unit)
}

/// How many letters to insert, drop, change or swap with their neighbour (optimal string alignment distance).
pub(super) fn edit_distance(one: &str, other: &str) -> usize {
    let one: Vec<char> = one.chars().collect();
    let other: Vec<char> = other.chars().collect();
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=other.len()).collect();
    for (i, a) in one.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, b) in other.iter().enumerate() {
            let changed = last[j] + usize::from(a != b);
            let mut least = changed.min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && *a == other[j - 1] && one[i - 1] == *b {
                least = least.min(before[j - 1] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut last, row);
    }
    last.last().copied().unwrap_or_default()
}

/// The canonical form of a unit's spelling: its factors with their exponents in alphabetical order.
///
/// `None` if the text is no product of units. The empty text is the canonical form of no unit.
fn canonical(text: &str) -> Option<String> {
    let mut product = Product::default();
    let chars: Vec<char> = text.chars().map(expand).map(plain).collect();
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        at += match c {
            '(' => product.open(),
            ')' => product.close()?,
            '/' => product.divide()?,
            '1' if !chars.get(at + 1).is_some_and(char::is_ascii_digit) => product.one(),
            c if is_separator(c) => 1,
            _ => product.factor(&chars[at..])?,
        };
    }
    product.finish()
}

/// Raised and lowered digits of an exponent or a formula, and degree signs fused with their letter.
///
/// Only units are read this way: a raised digit in a number is none.
fn expand(c: char) -> char {
    match c {
        '¹' => '1',
        '²' | '\u{2082}' => '2',
        '³' => '3',
        '\u{207B}' => '-',
        '\u{2103}' => 'C',
        '\u{2109}' => 'F',
        other => other,
    }
}

/// Spaces, multiplication signs and the point of an abbreviation stand between factors.
fn is_separator(c: char) -> bool {
    c.is_whitespace() || c == '*' || c == '.'
}

/// Whether a character may be part of a factor's name.
pub(super) fn is_letter(c: char) -> bool {
    c.is_alphabetic()
}

/// A product of units while it is read.
#[derive(Default)]
struct Product {
    exponents: BTreeMap<String, i32>,
    /// For each open bracket whether the world around it, and what stands behind a stroke in it, is below the line.
    brackets: Vec<(bool, bool)>,
    /// The level outside all brackets.
    below: bool,
    /// A stroke wants a factor behind it.
    hungry: bool,
}

impl Product {
    fn is_below(&self) -> bool {
        self.brackets.last().map_or(self.below, |(around, divided)| around ^ divided)
    }

    fn open(&mut self) -> usize {
        let around = self.is_below();
        self.brackets.push((around, false));
        1
    }

    fn close(&mut self) -> Option<usize> {
        let closed = self.brackets.pop().is_some();
        (closed && !self.hungry).then_some(1)
    }

    fn divide(&mut self) -> Option<usize> {
        if self.hungry {
            return None;
        }
        self.hungry = true;
        match self.brackets.last_mut() {
            Some((_, divided)) => *divided = true,
            None => self.below = true,
        }
        Some(1)
    }

    fn one(&mut self) -> usize {
        self.hungry = false;
        1
    }

    /// Reads a name and its exponent; gives the number of characters read.
    fn factor(&mut self, chars: &[char]) -> Option<usize> {
        let (name, length) = name_of(chars)?;
        if name == "per" {
            self.divide()?;
            return Some(length);
        }
        let (exponent, read) = if name.ends_with(is_letter) { exponent_of(&chars[length..])? } else { (1, 0) };
        let name = SYNONYMS.iter().find(|(typed, _)| *typed == name).map_or(name, |(_, meant)| (*meant).to_owned());
        let signed = if self.is_below() { -exponent } else { exponent };
        *self.exponents.entry(name).or_default() += signed;
        self.hungry = false;
        Some(length + read)
    }

    fn finish(self) -> Option<String> {
        if self.hungry || !self.brackets.is_empty() {
            return None;
        }
        let mut form = String::new();
        for (name, exponent) in &self.exponents {
            write!(form, "{name}^{exponent} ").ok()?;
        }
        Some(form)
    }
}

/// The name at the start: letters, a degree sign with letters, or one mark.
fn name_of(chars: &[char]) -> Option<(String, usize)> {
    let marks = usize::from(matches!(chars.first()?, '°' | '%' | '\'' | '"'));
    let degree = chars[0] == '°';
    let letters = if marks == 1 && !degree { 0 } else { chars[marks..].iter().take_while(|c| is_letter(**c)).count() };
    let length = marks + letters;
    (length > 0).then(|| (chars[..length].iter().collect(), length))
}

/// The exponent at the start, one digit with or without `^` and sign; 1 if there is none.
fn exponent_of(chars: &[char]) -> Option<(i32, usize)> {
    let caret = usize::from(chars.first() == Some(&'^'));
    let minus = usize::from(chars.get(caret) == Some(&'-'));
    let read = caret + minus;
    match chars.get(read).and_then(|c| c.to_digit(10)) {
        Some(_) if chars.get(read + 1).is_some_and(char::is_ascii_digit) => None,
        Some(0) => None,
        Some(digit) => {
            let exponent = i32::try_from(digit).ok()?;
            Some((if minus == 1 { -exponent } else { exponent }, read + 1))
        }
        None if read > 0 => None,
        None => Some((1, 0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_product_has_one_form() {
        let forms = ["W/(m²·K)", "W/m²K", "W/m2/K", "W/(m2 K)", "W/(m^2*K)", "W m-2 K-1", "W per m2 K", "W/(K m2)"];
        for form in forms {
            assert_eq!(canonical(form), canonical("W/m2K"), "{form}");
        }
        assert_eq!(canonical("a/(b/c)"), canonical("a c/b"));
    }

    #[test]
    fn what_is_no_product_has_no_form() {
        for text in ["W//m2", "W/", "W/(m2 K", "W)", "m^", "m22", "m-", "±", "3", "W+K", "/(", "()/"] {
            assert_eq!(canonical(text), None, "{text}");
        }
    }

    #[test]
    fn no_spelling_means_two_units_of_one_kind() {
        for (form, entries) in INDEX.iter() {
            let mut kinds: Vec<Kind> = entries.iter().map(|(kind, _)| *kind).collect();
            kinds.sort();
            kinds.dedup();
            assert_eq!(kinds.len(), entries.len(), "{form}");
        }
    }

    #[test]
    fn every_spelling_of_the_table_is_found() {
        for kind in Kind::ALL {
            for unit in table::of(kind).units {
                for spelling in unit.spellings() {
                    assert_eq!(of_kind(kind, spelling), Some(unit), "{kind:?} {spelling}");
                }
            }
        }
    }

    #[test]
    fn slips_of_the_hand_find_the_unit_meant() {
        let cases = [
            (Kind::Length, "MM", "mm"),
            (Kind::Pressure, "Psi", "psi"),
            (Kind::Pressure, "barr", "bar"),
            (Kind::Length, "inchs", "in"),
            (Kind::Power, "kw", "kW"),
            (Kind::Flow, "gmp", "gpm"),
        ];
        for (kind, typed, meant) in cases {
            assert_eq!(closest(kind, typed).map(|unit| unit.symbol), Some(meant), "{typed}");
        }
        assert_eq!(closest(Kind::Length, "parsec"), None);
    }
}
