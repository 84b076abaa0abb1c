//! Fields to type in: one for an entry, several for a reading or a sign-off.

use tui_input::{Input, InputRequest};

use super::event::Key;
use super::ink::Par;
use crate::model::{Address, EntrySpec, Shape, text::clean};

/// What a form is filled in for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// An entry gets a new text.
    Set(String),
    /// A reading of an entry, perhaps on a panel.
    Reading(String),
    /// A reading at the bench, of an entry of the card on the panel that is worked on.
    ReadingHere(Address),
    /// A step is signed off.
    SignOff(Address),
    /// A sign-off is taken back.
    Withdraw(Address),
    /// The project is saved under another name.
    SaveBeside,
    /// What was changed is kept as a variant.
    Variant,
    /// A dated event goes into the log.
    Log,
    /// A note is pinned.
    Note(Address),
    /// Hours of work are logged.
    Hours(Address),
    /// A stop is overruled.
    Overrule(Address),
    /// A reading is taken back, by its key.
    TakeBackReading(Address, String),
}

/// What a field is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// The value, the evidence, the reason or the name: what the form is about.
    Main,
    /// Who did it.
    Who,
    /// Who read it back.
    ReadBack,
    /// Measured with what.
    Instrument,
    /// On which panel.
    Panel,
    /// What sort of event.
    Sort,
    /// A file that belongs to it.
    File,
    /// The second of two who decide.
    Second,
    /// Which of them is licensed.
    Licensed,
}

/// One field.
#[derive(Clone, Debug)]
pub struct Field {
    pub slot: Slot,
    pub label: &'static str,
    /// What is asked, in one line.
    pub hint: String,
    pub input: Input,
    /// The entry whose value is typed here, if it is one.
    pub spec: Option<&'static EntrySpec>,
    /// The words to choose from, with their meanings; empty for free text.
    pub words: Vec<(String, String)>,
    /// Which of the words that match what is typed is chosen.
    pub chosen: usize,
    /// Whether a word is chosen at all: nothing is, where nothing is entered, until a hand moves or types.
    pub is_decided: bool,
    /// Whether what it holds is still as it was opened: the first character typed takes its place.
    pub is_fresh: bool,
}

/// The most characters that a field takes.
const LONGEST: usize = 500;

impl Field {
    pub fn new(slot: Slot, label: &'static str, hint: impl Into<String>) -> Self {
        let input = Input::default();
        Self {
            slot,
            label,
            hint: hint.into(),
            input,
            spec: None,
            words: Vec::new(),
            chosen: 0,
            is_decided: true,
            is_fresh: false,
        }
    }

    /// Begins with a text.
    #[must_use]
    pub fn holding(mut self, text: &str) -> Self {
        self.input = Input::new(text.to_owned());
        self.is_fresh = !text.is_empty();
        self
    }

    /// A field for the value of an entry; `now` is what stands there.
    #[must_use]
    pub fn of_entry(mut self, spec: &'static EntrySpec, now: &str) -> Self {
        self.spec = Some(spec);
        let words = match spec.shape {
            Shape::Choice(words) => words(),
            Shape::Flag => vec![("yes", ""), ("no", "")],
            _ => return self.holding(now),
        };
        self.choosing(words.into_iter().map(|(word, meaning)| (clean(word), clean(meaning))).collect(), now)
    }

    /// A field where one of these words is chosen.
    #[must_use]
    pub fn choosing(mut self, words: Vec<(String, String)>, now: &str) -> Self {
        let now = words.iter().position(|(word, _)| word == now);
        self.is_decided = now.is_some();
        self.chosen = now.unwrap_or(0);
        self.words = words;
        self
    }

    /// The words that hold what is typed.
    pub fn matching(&self) -> Vec<&(String, String)> {
        let typed = self.input.value().trim().to_lowercase();
        let holds = |(word, meaning): &&(String, String)| {
            word.to_lowercase().contains(&typed) || meaning.to_lowercase().contains(&typed)
        };
        self.words.iter().filter(holds).collect()
    }

    /// What the field stands for now.
    pub fn value(&self) -> String {
        if self.words.is_empty() || !self.is_decided {
            return self.input.value().trim().to_owned();
        }
        let chosen = self.matching().get(self.chosen).map(|(word, _)| word.clone());
        chosen.unwrap_or_else(|| self.input.value().trim().to_owned())
    }

    /// Types a key; whether it meant anything here.
    pub fn key(&mut self, key: Key) -> bool {
        let request = match key {
            Key::Char(letter) => InputRequest::InsertChar(letter),
            Key::Backspace => InputRequest::DeletePrevChar,
            Key::Delete => InputRequest::DeleteNextChar,
            Key::Left => InputRequest::GoToPrevChar,
            Key::Right => InputRequest::GoToNextChar,
            Key::Home | Key::Ctrl('a') => InputRequest::GoToStart,
            Key::End | Key::Ctrl('e') => InputRequest::GoToEnd,
            Key::Ctrl('u') => InputRequest::DeleteLine,
            Key::Ctrl('w') => InputRequest::DeletePrevWord,
            Key::Ctrl('k') => InputRequest::DeleteTillEnd,
            _ => return false,
        };
        let full = self.input.value().chars().count() >= LONGEST;
        if full && matches!(request, InputRequest::InsertChar(_)) {
            return true;
        }
        let before = self.input.value().to_owned();
        let replaces = matches!(request, InputRequest::InsertChar(_) | InputRequest::DeletePrevChar);
        if std::mem::take(&mut self.is_fresh) && replaces {
            self.input.reset();
        }
        self.input.handle(request);
        if self.input.value() != before {
            self.chosen = 0;
            self.is_decided = true;
        }
        true
    }

    /// Types a pasted text, cleaned.
    pub fn paste(&mut self, text: &str) {
        for letter in clean(text.trim()).chars().filter(|letter| *letter != char::REPLACEMENT_CHARACTER) {
            self.key(Key::Char(letter));
        }
    }
}

/// A form.
pub struct Form {
    pub purpose: Purpose,
    pub title: String,
    pub fields: Vec<Field>,
    /// The field that is typed in.
    pub at: usize,
    /// What the present text would mean.
    pub echo: Vec<Par>,
    /// Whether the echo is of an older text.
    pub echo_is_old: bool,
    /// What the fields held at first.
    first: Vec<String>,
}

impl Form {
    pub fn new(purpose: Purpose, title: impl Into<String>, fields: Vec<Field>) -> Self {
        let first: Vec<String> = fields.iter().map(Field::value).collect();
        let at = fields.iter().position(|field| field.slot == Slot::Main).unwrap_or(0);
        Self { purpose, title: title.into(), fields, at, echo: Vec::new(), echo_is_old: true, first }
    }

    /// Begins at its first field that is empty.
    #[must_use]
    pub fn at_first_gap(mut self) -> Self {
        self.at = self.fields.iter().position(|field| field.value().is_empty()).unwrap_or(0);
        self
    }

    /// Begins at its first field that is empty, at the last one if none is.
    #[must_use]
    pub fn at_first_gap_or_last(mut self) -> Self {
        self.at = self.fields.iter().position(|field| field.value().is_empty()).unwrap_or(self.fields.len() - 1);
        self
    }

    /// The value of a field; empty if the form has no such field.
    pub fn value(&self, slot: Slot) -> String {
        self.fields.iter().find(|field| field.slot == slot).map(Field::value).unwrap_or_default()
    }

    /// The field that is typed in.
    pub fn field(&self) -> &Field {
        &self.fields[self.at]
    }

    pub fn field_mut(&mut self) -> &mut Field {
        &mut self.fields[self.at]
    }

    /// Whether anything was typed since it was opened.
    pub fn is_touched(&self) -> bool {
        !self.fields.iter().map(Field::value).eq(self.first.iter().cloned())
    }

    /// The entry and the text typed for it so far, where that is worth keeping.
    pub fn half_typed(&self) -> Option<(String, String)> {
        match &self.purpose {
            Purpose::Set(id) if self.is_touched() => Some((id.clone(), self.value(Slot::Main))),
            _ => None,
        }
    }

    /// Whether there is another field or word to go to.
    pub fn has_next(&self) -> bool {
        self.fields.len() > 1 || !self.field().words.is_empty()
    }

    /// Goes to the next field, or to the next word of a list.
    pub fn next(&mut self, list: bool) {
        let words = self.field().matching().len();
        if list && words > 0 {
            let field = self.field_mut();
            let onward = usize::from(std::mem::replace(&mut field.is_decided, true));
            field.chosen = (field.chosen + onward).min(words - 1);
        } else {
            self.at = (self.at + 1) % self.fields.len();
        }
    }

    /// Goes to the field before, or to the word before in a list.
    pub fn previous(&mut self, list: bool) {
        if list && !self.field().words.is_empty() {
            let field = self.field_mut();
            let back = usize::from(std::mem::replace(&mut field.is_decided, true));
            field.chosen = field.chosen.saturating_sub(back);
        } else {
            self.at = (self.at + self.fields.len() - 1) % self.fields.len();
        }
    }
}
