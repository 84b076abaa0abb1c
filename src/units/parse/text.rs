//! A typed text as plain characters with their places, so that messages can point at bytes of the original.

use std::ops::Range;

use crate::units::error::{UnitError, UnitProblem, quotable};
use crate::units::spelling::plain;

/// A text to be read.
pub(super) struct Text<'a> {
    source: &'a str,
    chars: Vec<(usize, char)>,
}

impl<'a> Text<'a> {
    /// Prepares at most `limit` characters; `None` if the text has more.
    pub(super) fn new(source: &'a str, limit: usize) -> Option<Self> {
        let chars: Vec<_> = source.char_indices().map(|(at, c)| (at, plain(c))).take(limit + 1).collect();
        (chars.len() <= limit).then_some(Self { source, chars })
    }

    /// Number of characters.
    pub(super) fn len(&self) -> usize {
        self.chars.len()
    }

    /// The plain character at a place.
    pub(super) fn at(&self, place: usize) -> Option<char> {
        self.chars.get(place).map(|(_, c)| *c)
    }

    /// Whether the character at a place has a property.
    pub(super) fn is(&self, place: usize, property: impl Fn(char) -> bool) -> bool {
        self.at(place).is_some_and(property)
    }

    /// The first place from `place` on whose character lacks a property.
    pub(super) fn skip(&self, mut place: usize, property: impl Fn(char) -> bool) -> usize {
        while self.is(place, &property) {
            place += 1;
        }
        place
    }

    /// The first place from `place` on that is no space.
    pub(super) fn skip_spaces(&self, place: usize) -> usize {
        self.skip(place, char::is_whitespace)
    }

    /// The places without the spaces at their end.
    pub(super) fn without_spaces_behind(&self, places: Range<usize>) -> Range<usize> {
        let mut end = places.end;
        while end > places.start && self.is(end - 1, char::is_whitespace) {
            end -= 1;
        }
        places.start..end
    }

    /// The plain characters of some places.
    pub(super) fn plain(&self, places: Range<usize>) -> String {
        places.filter_map(|place| self.at(place)).collect()
    }

    /// The bytes of some places.
    fn bytes(&self, places: &Range<usize>) -> Range<usize> {
        let byte = |place: usize| self.chars.get(place).map_or(self.source.len(), |(at, _)| *at);
        byte(places.start)..byte(places.end)
    }

    /// The text of some places as typed.
    pub(super) fn typed(&self, places: &Range<usize>) -> &'a str {
        self.source.get(self.bytes(places)).unwrap_or_default()
    }

    /// An error about some places; `problem` is made from their text.
    pub(super) fn error(&self, places: &Range<usize>, problem: impl FnOnce(String) -> UnitProblem) -> UnitError {
        UnitError { span: self.bytes(places), problem: problem(quotable(self.typed(places))), hint: None }
    }
}

impl UnitError {
    /// The same error with what to type instead.
    pub(super) fn with_hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }
}
