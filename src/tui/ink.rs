//! Words with roles: pieces, paragraphs, and how they are cut and wrapped to a width.
//!
//! Everything drawn passes through here, so that widths are counted in cells and what is cut shows a mark.

use ratatui::text::{Line, Span};
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

use super::state::Subject;
use super::theme::Theme;

/// What a piece of text stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the names are the meaning
pub enum Role {
    Plain,
    Quiet,
    Strong,
    Heading,
    Current,
    Selected,
    Key,
    Field,
    Assumed,
    Entered,
    Measured,
    Computed,
    Clear,
    Caution,
    Unknown,
    Stop,
    Refused,
    Done,
    Stale,
    Waits,
}

impl Role {
    /// All roles.
    pub const ALL: [Self; 20] = [
        Self::Plain,
        Self::Quiet,
        Self::Strong,
        Self::Heading,
        Self::Current,
        Self::Selected,
        Self::Key,
        Self::Field,
        Self::Assumed,
        Self::Entered,
        Self::Measured,
        Self::Computed,
        Self::Clear,
        Self::Caution,
        Self::Unknown,
        Self::Stop,
        Self::Refused,
        Self::Done,
        Self::Stale,
        Self::Waits,
    ];
}

/// Some words in one role.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    pub role: Role,
    pub text: String,
}

/// A paragraph: its pieces, how far it is indented, and what its line leads to.
#[derive(Clone, Debug, Default)]
pub struct Par {
    pub indent: usize,
    pub pieces: Vec<Piece>,
    pub leads_to: Option<Subject>,
}

impl Par {
    /// A paragraph of one piece.
    pub fn new(role: Role, text: impl Into<String>) -> Self {
        Self { pieces: vec![Piece { role, text: text.into() }], ..Self::default() }
    }

    /// A plain paragraph.
    pub fn plain(text: impl Into<String>) -> Self {
        Self::new(Role::Plain, text)
    }

    /// A paragraph that begins with a short word in a role of its own.
    pub fn tagged(role: Role, tag: &str, text: impl Into<String>) -> Self {
        Self::new(role, format!("{tag} ")).and(Role::Plain, text)
    }

    /// An empty line.
    pub fn gap() -> Self {
        Self::default()
    }

    /// Adds a piece.
    #[must_use]
    pub fn and(mut self, role: Role, text: impl Into<String>) -> Self {
        self.pieces.push(Piece { role, text: text.into() });
        self
    }

    /// Indents it.
    #[must_use]
    pub const fn indented(mut self, columns: usize) -> Self {
        self.indent = columns;
        self
    }

    /// Says what its line leads to.
    #[must_use]
    pub fn leading_to(mut self, subject: Subject) -> Self {
        self.leads_to = Some(subject);
        self
    }

    /// Breaks it into rows of at most this many cells.
    pub fn wrap(&self, width: usize, theme: Theme) -> Vec<Vec<Piece>> {
        let room = width.saturating_sub(self.indent).max(1);
        let mut rows = Rows { done: vec![self.fresh_row()], used: 0, room };
        for piece in &self.pieces {
            for word in piece.text.split_inclusive(' ') {
                rows.word(piece.role, &theme.text(word), &self.fresh_row());
            }
        }
        rows.done
    }

    fn fresh_row(&self) -> Vec<Piece> {
        if self.indent == 0 {
            return Vec::new();
        }
        vec![Piece { role: Role::Plain, text: " ".repeat(self.indent) }]
    }
}

struct Rows {
    done: Vec<Vec<Piece>>,
    used: usize,
    room: usize,
}

impl Rows {
    fn word(&mut self, role: Role, word: &str, fresh: &[Piece]) {
        let width = word.trim_end_matches(' ').width();
        if self.used > 0 && self.used + width > self.room {
            self.done.push(fresh.to_vec());
            self.used = 0;
        }
        for part in word.graphemes(true) {
            let cells = part.width();
            if self.used + cells > self.room {
                if part == " " {
                    return; // a space at the end of a row
                }
                self.done.push(fresh.to_vec());
                self.used = 0;
            }
            self.push(role, part);
            self.used += cells;
        }
    }

    fn push(&mut self, role: Role, part: &str) {
        // A space that keeps words together has done its work.
        let part = if part == "\u{a0}" { " " } else { part };
        let Some(row) = self.done.last_mut() else { return };
        match row.last_mut() {
            Some(last) if last.role == role => last.text.push_str(part),
            _ => row.push(Piece { role, text: part.to_owned() }),
        }
    }
}

/// The text cut to a width in cells, with a mark where something was cut off.
pub fn cut(text: &str, width: usize, theme: Theme) -> String {
    let text = theme.text(text);
    if text.width() <= width {
        return text.into_owned();
    }
    let mark = theme.cut();
    let room = width.saturating_sub(mark.width());
    let mut kept = String::new();
    let mut used = 0;
    for part in text.graphemes(true) {
        if used + part.width() > room {
            break;
        }
        kept.push_str(part);
        used += part.width();
    }
    if mark.width() <= width {
        kept.push_str(mark);
    }
    kept
}

/// The text cut or filled with spaces to exactly this many cells.
pub fn fit(text: &str, width: usize, theme: Theme) -> String {
    let mut fitted = cut(text, width, theme);
    fitted.push_str(&" ".repeat(width.saturating_sub(fitted.width())));
    fitted
}

/// A row of pieces as ratatui draws it.
pub fn line(pieces: &[Piece], theme: Theme) -> Line<'static> {
    let spans = pieces.iter().map(|piece| Span::styled(theme.text(&piece.text).into_owned(), theme.style(piece.role)));
    Line::from(spans.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    const THEME: Theme = Theme { colors: true, ascii: false };

    #[test]
    fn nothing_is_wider_than_its_room() {
        let par =
            Par::tagged(Role::Stop, "stop", "給湯 wide words and a averyveryverylongwordindeed 2⅛ in").indented(2);
        for width in 3..60 {
            for row in par.wrap(width, THEME) {
                let text: String = row.iter().map(|piece| piece.text.as_str()).collect();
                assert!(text.trim_end().width() <= width.max(4), "{width}: {text:?}");
            }
            assert_eq!(fit("給湯 temperature", width, THEME).width(), width);
        }
        assert_eq!(cut("temperature", 0, THEME), "");
    }

    #[test]
    fn what_is_cut_ends_with_a_mark() {
        assert_eq!(cut("temperature", 6, THEME), "tempe…");
        assert_eq!(cut("60 °F", 5, THEME), "60 °F");
        let ascii = Theme { colors: true, ascii: true };
        assert_eq!(cut("temperature", 6, ascii), "tem...");
        assert_eq!(cut("2 m²", 9, ascii), "2 m^2");
    }
}
