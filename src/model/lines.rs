//! Plain lines for an 80-column page and for a screen reader: one fact a line, folded between words.
//!
//! A page is kept as its lines, so that a face with a layout of its own can print the same words.

use std::fmt::Write;

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// The width of the page.
pub const WIDTH: usize = 80;

/// One line before it is folded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A heading, underlined on a plain page.
    Heading(String),
    /// Words, indented by so many columns.
    Fact(usize, String),
    /// An empty line.
    Space,
}

/// A page that grows line by line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Page(Vec<Line>);

impl Page {
    /// Puts a heading with a line under it; an empty line stands above all but the first.
    pub fn heading(&mut self, text: &str) {
        self.space();
        self.0.push(Line::Heading(text.to_owned()));
    }

    /// Puts a smaller heading.
    pub fn subheading(&mut self, text: &str) {
        self.space();
        self.fact(0, text);
    }

    /// Puts an empty line, unless the page begins here.
    pub fn space(&mut self) {
        if !self.0.is_empty() {
            self.0.push(Line::Space);
        }
    }

    /// Puts a fact, indented, folded at the width of the page; what is folded stands two further in.
    pub fn fact(&mut self, indent: usize, text: &str) {
        self.0.push(Line::Fact(indent, text.to_owned()));
    }

    /// Puts `name: text`, unless the text is empty.
    pub fn named(&mut self, indent: usize, name: &str, text: &str) {
        if !text.is_empty() {
            self.fact(indent, &format!("{name}: {text}"));
        }
    }

    /// Puts another page behind this one.
    pub fn append(&mut self, other: &Self) {
        self.0.extend(other.0.iter().cloned());
    }

    /// The lines as they were put.
    pub fn lines(&self) -> &[Line] {
        &self.0
    }

    /// The page as text.
    pub fn text(self) -> String {
        let mut text = String::new();
        for line in &self.0 {
            match line {
                Line::Heading(words) => {
                    put_folded(&mut text, 0, words);
                    let _ = writeln!(text, "{}", "=".repeat(words.width().min(WIDTH)));
                }
                Line::Fact(indent, words) => put_folded(&mut text, *indent, words),
                Line::Space => text.push('\n'),
            }
        }
        text
    }
}

fn put_folded(text: &mut String, indent: usize, words: &str) {
    for (number, line) in fold(words, WIDTH - indent - 2).into_iter().enumerate() {
        let indent = if number == 0 { indent } else { indent + 2 };
        let _ = writeln!(text, "{:indent$}{line}", "");
    }
}

/// Folds between words; a word that is wider than the line is broken.
fn fold(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in text.split_whitespace().flat_map(|word| pieces(word, width)) {
        let wide = word.width();
        if used > 0 && used + 1 + wide > width {
            lines.push(String::new());
            used = 0;
        }
        if let Some(line) = lines.last_mut() {
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            line.push_str(&word);
            used += wide;
        }
    }
    lines
}

fn pieces(word: &str, width: usize) -> Vec<String> {
    let mut pieces = vec![String::new()];
    let mut used = 0;
    for c in word.chars() {
        let wide = c.width().unwrap_or(0);
        if used + wide > width {
            pieces.push(String::new());
            used = 0;
        }
        if let Some(piece) = pieces.last_mut() {
            piece.push(c);
        }
        used += wide;
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_the_page_and_no_word_is_lost() {
        let mut page = Page::default();
        let long = "x".repeat(300);
        page.fact(4, &format!("a few words and {long} and 給湯 {}", "給湯".repeat(60)));
        let text = page.text();
        assert!(text.lines().all(|line| line.width() <= WIDTH), "{text}");
        assert_eq!(text.matches('x').count(), 300);
        assert_eq!(text.matches('湯').count(), 61);
    }
}
