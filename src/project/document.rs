//! The TOML tree flattened to leaves with their places.
//!
//! The tree comes from the `toml` parser with spans; nothing here knows what a key means.

use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::fault::{Fault, Problem};

/// The bytes of a byte order mark at the start of a file.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// What stands on the right of an equals sign.
#[derive(Clone, Debug, PartialEq)]
pub enum Literal {
    /// A string.
    Text(String),
    /// A whole or real number, as written.
    Number(String),
    /// `true` or `false`.
    Flag(bool),
    /// A TOML date or time, as written.
    Moment(String),
    /// A list; strings only are kept.
    List(Vec<String>),
}

/// One key with its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaf {
    /// The keys from the root, unquoted.
    pub path: Vec<String>,
    /// Where the last key stands, in bytes of the text.
    pub key: Range<usize>,
    /// Where the value stands, quotes included.
    pub value: Range<usize>,
    /// What the value is.
    pub literal: Literal,
}

/// One table that has a header line of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Header {
    /// The keys from the root, unquoted.
    pub path: Vec<String>,
    /// Where the last key of the header stands.
    pub key: Range<usize>,
}

/// A parsed file: leaves and headers in the order of the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// All leaves.
    pub leaves: Vec<Leaf>,
    /// All tables with a header of their own.
    pub headers: Vec<Header>,
}

impl Document {
    /// Parses a text. With any syntax error only the errors come back: the rest of a broken tree cannot be trusted.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let (body, offset) = match text.strip_prefix(BYTE_ORDER_MARK) {
            Some(body) => (body, BYTE_ORDER_MARK.len_utf8()),
            None => (text, 0),
        };
        let (tree, errors) = DeTable::parse_recoverable(body);
        if !errors.is_empty() {
            let found = errors.iter().map(|error| {
                let span = error.span().unwrap_or(0..0);
                let fault = Fault::Syntax(error.message().trim().replace('\n', "; "));
                (span.start + offset..span.end + offset, fault)
            });
            return Err(Problem::all(text, found.collect()));
        }
        let mut document = Self::default();
        document.walk(text, offset, &mut Vec::new(), tree.get_ref());
        document.leaves.sort_by_key(|leaf| leaf.key.start);
        document.headers.sort_by_key(|header| header.key.start);
        Ok(document)
    }

    /// The leaf at a path.
    pub fn leaf(&self, path: &[&str]) -> Option<&Leaf> {
        self.leaves.iter().find(|leaf| leaf.path.iter().map(String::as_str).eq(path.iter().copied()))
    }

    fn walk(&mut self, text: &str, offset: usize, path: &mut Vec<String>, table: &DeTable<'_>) {
        for (key, value) in table {
            let shift = |span: Range<usize>| span.start + offset..span.end + offset;
            let key_span = shift(key.span());
            path.push(key.get_ref().to_string());
            match value.get_ref() {
                DeValue::Table(inner) => {
                    if is_header(text, &key_span) {
                        self.headers.push(Header { path: path.clone(), key: key_span });
                    }
                    self.walk(text, offset, path, inner);
                }
                other => self.leaves.push(Leaf {
                    path: path.clone(),
                    key: key_span,
                    value: shift(value.span()),
                    literal: literal(other),
                }),
            }
            path.pop();
        }
    }
}

/// Whether the key is the last one of a `[header]` line: only a closing bracket follows it.
fn is_header(text: &str, key: &Range<usize>) -> bool {
    let line_start = text[..key.start].rfind('\n').map_or(0, |at| at + 1);
    let before = text[line_start..key.start].trim_start_matches(BYTE_ORDER_MARK).trim_start();
    before.starts_with('[') && text[key.end..].trim_start_matches([' ', '\t']).starts_with(']')
}

fn literal(value: &DeValue<'_>) -> Literal {
    match value {
        DeValue::String(text) => Literal::Text(text.to_string()),
        DeValue::Integer(number) => Literal::Number(number.to_string()),
        DeValue::Float(number) => Literal::Number(number.to_string()),
        DeValue::Boolean(flag) => Literal::Flag(*flag),
        DeValue::Datetime(moment) => Literal::Moment(moment.to_string()),
        DeValue::Array(items) => {
            Literal::List(items.iter().filter_map(|item| item.get_ref().as_str().map(str::to_owned)).collect())
        }
        DeValue::Table(_) => Literal::List(Vec::new()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_hold_behind_a_byte_order_mark_and_in_crlf() {
        let text = "\u{feff}format = 1\r\n[absorber]\r\nriser_pitch = \"4 in\" # tape\r\n";
        let document = Document::parse(text).unwrap();
        let leaf = document.leaf(&["absorber", "riser_pitch"]).unwrap();
        assert_eq!(&text[leaf.value.clone()], "\"4 in\"");
        assert_eq!(&text[leaf.key.clone()], "riser_pitch");
        assert_eq!(document.headers.len(), 1);
    }

    #[test]
    fn inline_and_dotted_tables_have_no_header() {
        let document = Document::parse("a.b = 1\n[c.d]\ne = { f = 2 }\n").unwrap();
        let paths: Vec<String> = document.leaves.iter().map(|leaf| leaf.path.join(".")).collect();
        assert_eq!(paths, ["a.b", "c.d.e.f"]);
        assert_eq!(document.headers.iter().map(|h| h.path.join(".")).collect::<Vec<_>>(), ["c.d"]);
    }

    #[test]
    fn every_syntax_error_is_reported_with_its_place() {
        let problems = Document::parse("a = \nb = 4 in\n").unwrap_err();
        assert!(problems.len() >= 2, "{problems:?}");
        assert_eq!(problems[0].place.line, 1);
    }
}
