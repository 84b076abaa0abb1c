//! What comes in: keys in our own words, paste, resizing, reports of the worker.
//!
//! Key releases and modifiers other than Ctrl are settled here, once.

use std::fmt;
use std::time::Duration;

use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

use crate::workbook::Report;
use crate::workbook::desk::Found;

/// A key that the workbook knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Tabulator.
    Tab,
    /// Tabulator with shift.
    BackTab,
    /// Enter.
    Enter,
    /// Escape.
    Esc,
    /// Delete to the left.
    Backspace,
    /// Delete to the right.
    Delete,
    /// To the beginning.
    Home,
    /// To the end.
    End,
    /// One page up.
    PageUp,
    /// One page down.
    PageDown,
    /// A character.
    Char(char),
    /// A letter with Ctrl.
    Ctrl(char),
}

/// The keys that have a name of their own, as printed in help and read from key scripts.
const NAMES: [(Key, &str); 14] = [
    (Key::Up, "Up"),
    (Key::Down, "Down"),
    (Key::Left, "Left"),
    (Key::Right, "Right"),
    (Key::Tab, "Tab"),
    (Key::BackTab, "Shift-Tab"),
    (Key::Enter, "Enter"),
    (Key::Esc, "Esc"),
    (Key::Backspace, "Backspace"),
    (Key::Delete, "Delete"),
    (Key::Home, "Home"),
    (Key::End, "End"),
    (Key::PageUp, "PageUp"),
    (Key::PageDown, "PageDown"),
];

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Char(' ') => f.write_str("Space"),
            Self::Char(letter) => write!(f, "{letter}"),
            Self::Ctrl(letter) => write!(f, "Ctrl-{}", letter.to_ascii_uppercase()),
            named => f.write_str(NAMES.iter().find(|(key, _)| key == named).map_or("", |(_, name)| name)),
        }
    }
}

impl Key {
    /// Reads a script of keys: characters stand for themselves, names stand in angle brackets, as in `<Down>5 in<Enter>`.
    ///
    /// A bracket that holds no known name stands for itself.
    pub fn script(text: &str) -> Vec<Self> {
        let mut keys = Vec::new();
        let mut rest = text;
        while let Some(first) = rest.chars().next() {
            let named = rest.strip_prefix('<').and_then(|inner| inner.split_once('>'));
            if let Some((key, after)) = named.and_then(|(name, after)| Some((Self::named(name)?, after))) {
                keys.push(key);
                rest = after;
            } else {
                keys.push(Self::Char(first));
                rest = &rest[first.len_utf8()..];
            }
        }
        keys
    }

    fn named(name: &str) -> Option<Self> {
        let known = NAMES.iter().find(|(_, known)| *known == name).map(|(key, _)| *key);
        if name == "Space" {
            return Some(Self::Char(' '));
        }
        known.or_else(|| Some(Self::Ctrl(name.strip_prefix("Ctrl-")?.chars().next()?.to_ascii_lowercase())))
    }
}

/// Anything that the workbook on screen reacts to.
#[derive(Debug)]
pub enum Input {
    /// A key.
    Key(Key),
    /// Text pasted in one go.
    Paste(String),
    /// The terminal has another size: columns and rows.
    Resize(u16, u16),
    /// The terminal came to the front, or the program was resumed.
    Back,
    /// So much time has passed since the session began.
    Time(Duration),
    /// A study came back.
    Report(Box<Report>),
    /// An errand brought something back.
    Found(Box<Found>),
    /// A worker failed; the words are for people.
    WorkerFailed(String),
    /// Unsaved work could not be kept; the words are for people.
    DraftFailed(String),
}

impl Input {
    /// The meaning of a terminal event; none if it means nothing here.
    pub fn of_event(event: Event) -> Option<Self> {
        match event {
            Event::Key(key) if key.kind != KeyEventKind::Release => of_key(key).map(Self::Key),
            Event::Paste(text) => Some(Self::Paste(text)),
            Event::Resize(columns, rows) => Some(Self::Resize(columns, rows)),
            Event::FocusGained => Some(Self::Back),
            _ => None,
        }
    }
}

fn of_key(key: KeyEvent) -> Option<Key> {
    let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
    let alt = key.modifiers.contains(KeyModifiers::ALT);
    let shift = key.modifiers.contains(KeyModifiers::SHIFT);
    Some(match key.code {
        // Ctrl and Alt together is how some keyboards type ordinary characters.
        KeyCode::Char(letter) if ctrl && !alt => Key::Ctrl(letter.to_ascii_lowercase()),
        KeyCode::Char(letter) if shift && letter.is_ascii_lowercase() => Key::Char(letter.to_ascii_uppercase()),
        KeyCode::Char(letter) => Key::Char(letter),
        KeyCode::Tab if shift => Key::BackTab,
        KeyCode::Tab => Key::Tab,
        KeyCode::BackTab => Key::BackTab,
        KeyCode::Enter => Key::Enter,
        KeyCode::Esc => Key::Esc,
        KeyCode::Backspace => Key::Backspace,
        KeyCode::Delete => Key::Delete,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        KeyCode::Up => Key::Up,
        KeyCode::Down => Key::Down,
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn key_scripts_hold_names_and_characters() {
        let keys = Key::script("<Down>5 <in<Ctrl-C>");
        let wanted =
            [Key::Down, Key::Char('5'), Key::Char(' '), Key::Char('<'), Key::Char('i'), Key::Char('n'), Key::Ctrl('c')];
        assert_eq!(keys, wanted);
    }

    #[test]
    fn a_released_key_means_nothing() {
        let mut key = KeyEvent::new(KeyCode::Char('q'), KeyModifiers::NONE);
        key.kind = KeyEventKind::Release;
        assert!(Input::of_event(Event::Key(key)).is_none());
    }
}
