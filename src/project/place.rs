//! Line and column of a byte in a text, counted as people and editors count them.

use std::fmt;
use std::ops::Range;

/// A place in a text file, both counted from one; columns count characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The line.
    pub line: usize,
    /// The character in the line.
    pub column: usize,
}

impl Place {
    /// The places of byte offsets in rising order, found in one walk over the text.
    ///
    /// An offset inside a character means its start, one behind the end the end.
    pub fn of_all(text: &str, offsets: impl IntoIterator<Item = usize>) -> Vec<Self> {
        let mut place = Self { line: 1, column: 1 };
        let mut done = 0;
        offsets
            .into_iter()
            .map(|offset| {
                let end = whole_characters(text, &(offset..offset)).start.max(done);
                for c in text[done..end].chars() {
                    match c {
                        '\n' => place = Self { line: place.line + 1, column: 1 },
                        '\u{feff}' => {}
                        _ => place.column += 1,
                    }
                }
                done = end;
                place
            })
            .collect()
    }
}

/// A span widened to whole characters, and cut off at the end of the text.
pub fn whole_characters(text: &str, span: &Range<usize>) -> Range<usize> {
    let mut start = span.start.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let mut end = span.end.clamp(start, text.len());
    while !text.is_char_boundary(end) {
        end += 1;
    }
    start..end
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_skip_the_byte_order_mark() {
        let text = "\u{feff}a = 1\r\nµ = x";
        let places = Place::of_all(text, [3, text.len() - 5, text.len() - 4, text.len() - 1, 999]);
        let expected = [(1, 1), (2, 1), (2, 2), (2, 5), (2, 6)].map(|(line, column)| Place { line, column });
        assert_eq!(places, expected);
    }
}
