//! Plain lines for an 80-column page and for a screen reader: one fact a line, folded between words.

use std::fmt::Write;

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// The width of the page.
pub const WIDTH: usize = 80;

/// A page that grows line by line.
#[derive(Debug, Default)]
pub struct Page(String);

impl Page {
    /// Puts a heading with a line under it; an empty line stands above all but the first.
    pub fn heading(&mut self, text: &str) {
        self.space();
        self.fact(0, text);
        let _ = writeln!(self.0, "{}", "=".repeat(text.width().min(WIDTH)));
    }

    /// Puts a smaller heading.
    pub fn subheading(&mut self, text: &str) {
        self.space();
        self.fact(0, text);
    }

    /// Puts an empty line, unless the page begins here.
    pub fn space(&mut self) {
        if !self.0.is_empty() {
            self.0.push('\n');
        }
    }

    /// Puts a fact, indented, folded at the width of the page; what is folded stands two further in.
    pub fn fact(&mut self, indent: usize, text: &str) {
        for (number, line) in fold(text, WIDTH - indent - 2).into_iter().enumerate() {
            let indent = if number == 0 { indent } else { indent + 2 };
            let _ = writeln!(self.0, "{:indent$}{line}", "");
        }
    }

    /// Puts `name: text`, unless the text is empty.
    pub fn named(&mut self, indent: usize, name: &str, text: &str) {
        if !text.is_empty() {
            self.fact(indent, &format!("{name}: {text}"));
        }
    }

    /// The page as text.
    pub fn text(self) -> String {
        self.0
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
