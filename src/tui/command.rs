//! The one table of commands: what each is called, its keys, where it works, and the words about it.
//!
//! The footer, the help page, the menu, docs/keys.md and the tests are derived from it.

use std::fmt::Write;

use super::event::Key;

/// What a command does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // each is explained by its line in the table
pub enum Act {
    Open,
    Explain,
    Record,
    TakeBack,
    Moved,
    SinceCommit,
    Undo,
    Redo,
    Find,
    Attention,
    Panel,
    Units,
    Pictures,
    NextPicture,
    PreviousPicture,
    KeepWeather,
    Save,
    Faults,
    Help,
    Quit,
    Suspend,
    Menu,
    Bench,
    Today,
    Pin,
    Copy,
    Write,
    Records,
    Variants,
    Sway,
    Mend,
    NextCard,
    PreviousCard,
    NextFigure,
    Tick,
    Clock,
    NextStage,
    PreviousStage,
    Down,
    Up,
    PageDown,
    PageUp,
    First,
    Last,
    Follow,
    NextLink,
    GoTo,
    Close,
    Commit,
    NextField,
    PreviousField,
}

/// Where a command works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The page of a stage.
    Page,
    /// A sheet of text over the page.
    Sheet,
    /// A picture over the page.
    Picture,
    /// Fields to type in.
    Form,
    /// A question with answers, or the menu.
    Question,
    /// Finding by name.
    Find,
    /// The bench cards.
    Bench,
}

impl Place {
    /// All places, in the order of docs/keys.md.
    pub const ALL: [Self; 7] =
        [Self::Page, Self::Bench, Self::Sheet, Self::Picture, Self::Form, Self::Question, Self::Find];

    /// What the place is called.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Page => "on a page",
            Self::Sheet => "on a sheet of text",
            Self::Picture => "at a picture",
            Self::Form => "while typing",
            Self::Question => "at a question or in the menu",
            Self::Find => "while finding",
            Self::Bench => "at the bench",
        }
    }
}

/// One line of the table.
#[derive(Debug)]
pub struct Command {
    /// What it does.
    pub act: Act,
    /// Where it works.
    pub places: &'static [Place],
    /// Its keys, the one shown in the footer first.
    pub keys: &'static [Key],
    /// A word or two for the footer and the menu.
    pub label: &'static str,
    /// One line for the help.
    pub help: &'static str,
    /// Whether the footer shows it; the rest stands in the help.
    pub footer: bool,
}

const fn command(
    act: Act,
    places: &'static [Place],
    keys: &'static [Key],
    label: &'static str,
    help: &'static str,
) -> Command {
    Command { act, places, keys, label, help, footer: true }
}

impl Command {
    const fn quiet(mut self) -> Self {
        self.footer = false;
        self
    }

    /// The keys as words, such as `Right or Tab`.
    pub fn key_words(&self) -> String {
        let words: Vec<String> = self.keys.iter().map(ToString::to_string).collect();
        words.join(" or ")
    }
}

const PAGE: &[Place] = &[Place::Page];
const LISTS: &[Place] = &[Place::Page, Place::Sheet, Place::Question, Place::Find];
const EVERYWHERE: &[Place] =
    &[Place::Page, Place::Bench, Place::Sheet, Place::Picture, Place::Form, Place::Question, Place::Find];
const BENCH: &[Place] = &[Place::Bench];
const PAGE_AND_BENCH: &[Place] = &[Place::Page, Place::Bench];
const PICTURE: &[Place] = &[Place::Picture];
const READING: &[Place] = &[Place::Sheet, Place::Picture, Place::Question];
const TYPING: &[Place] = &[Place::Form, Place::Find];

/// All commands.
pub static COMMANDS: &[Command] = &[
    command(
        Act::Tick,
        BENCH,
        &[Key::Char(' '), Key::Enter],
        "tick",
        "tick the card's step; a dangerous one asks who read it back, a done one whether to take it back",
    ),
    command(
        Act::Record,
        BENCH,
        &[Key::Char('r')],
        "record",
        "record a reading of the figure in the large type, or of the next one that is measured",
    ),
    command(Act::Clock, BENCH, &[Key::Char('t')], "clock", "start or stop the clock that counts a time of the card"),
    command(Act::NextCard, BENCH, &[Key::Right], "next card", "next card, from stage to stage"),
    command(Act::PreviousCard, BENCH, &[Key::Left], "card before", "card before").quiet(),
    command(Act::Down, BENCH, &[Key::Down], "onward", "next hole, riser or part; without such rows the next figure"),
    command(Act::Up, BENCH, &[Key::Up], "back one", "hole, riser or part before; without such rows the figure before")
        .quiet(),
    command(Act::NextFigure, BENCH, &[Key::Tab], "next figure", "put the next figure of the card into the large type"),
    command(Act::Open, PAGE, &[Key::Enter], "open", "act on the line: edit, explain, read a check, sign a step off"),
    command(
        Act::Explain,
        PAGE_AND_BENCH,
        &[Key::Char('e')],
        "explain",
        "formula, numbers and source of the line; its full text",
    ),
    command(
        Act::TakeBack,
        PAGE_AND_BENCH,
        &[Key::Char('x')],
        "take back",
        "take the sign-off of a step back, with the reason",
    ),
    command(Act::Undo, PAGE_AND_BENCH, &[Key::Char('u')], "undo", "take the last change back"),
    command(Act::Save, PAGE_AND_BENCH, &[Key::Char('s')], "save", "save the project file"),
    command(Act::Find, PAGE_AND_BENCH, &[Key::Char('f'), Key::Char('/')], "find", "find anything by part of its name"),
    command(
        Act::Bench,
        PAGE,
        &[Key::Char('b')],
        "bench",
        "bench cards: a job's figures in large type, ticked by one key",
    ),
    command(Act::Record, PAGE, &[Key::Char('r')], "record", "record a reading: value, who, with what"),
    command(
        Act::Write,
        PAGE_AND_BENCH,
        &[Key::Char('c')],
        "write",
        "write down: a note, hours, a log entry, an overruling; take a reading back; add a panel",
    ),
    command(
        Act::Variants,
        PAGE,
        &[Key::Char('d')],
        "variants",
        "keep what was changed as a variant, compare a variant with the design, or take one over",
    ),
    command(
        Act::Sway,
        &[Place::Sheet],
        &[Key::Char('m')],
        "what moves it",
        "on the sheet of a figure: move every entry a little and list what the figure does",
    ),
    command(
        Act::Mend,
        &[Place::Sheet],
        &[Key::Char('c')],
        "change so",
        "on the sheet of a check that stops: make the cheapest change that mends it, as one step to undo",
    ),
    command(Act::Today, PAGE, &[Key::Char('t')], "today", "go to the page of the day, and back"),
    command(Act::Pin, PAGE, &[Key::Char('i')], "pin", "pin the figure over every page, or take it off"),
    command(Act::Records, PAGE, &[Key::Char('l')], "records", "everything that was recorded, the latest first"),
    command(Act::Copy, PAGE, &[Key::Char('Y')], "copy", "send the figure to the terminal's clipboard (OSC 52)"),
    command(Act::Moved, PAGE, &[Key::Char('m')], "moved", "list what the last change moved"),
    command(
        Act::SinceCommit,
        PAGE,
        &[Key::Char('h')],
        "since commit",
        "what happened since the last commit, where the project lies in a git repository",
    ),
    command(Act::Redo, PAGE_AND_BENCH, &[Key::Char('U'), Key::Char('y')], "redo", "make the last undone change again"),
    command(
        Act::Attention,
        PAGE,
        &[Key::Char('a')],
        "attention",
        "go to the next stop or unknown, in this stage or a later one",
    ),
    command(Act::Panel, PAGE, &[Key::Char('p')], "panel", "show the design as drawn, or the next panel as built"),
    command(Act::Panel, BENCH, &[Key::Char('p')], "panel", "work on the next panel, at the card where it was left"),
    command(Act::Pictures, PAGE, &[Key::Char('v')], "pictures", "view the pictures of the stage"),
    command(Act::NextPicture, PICTURE, &[Key::Right, Key::Tab], "next", "next picture"),
    command(Act::PreviousPicture, PICTURE, &[Key::Left, Key::BackTab], "before", "picture before"),
    command(
        Act::Units,
        &[Place::Page, Place::Bench, Place::Picture],
        &[Key::Char('n')],
        "units",
        "show results in the other family of units",
    ),
    command(Act::Faults, PAGE, &[Key::Char('w')], "wrong lines", "list what is wrong in the project file"),
    command(
        Act::KeepWeather,
        PAGE,
        &[Key::Char('k')],
        "keep weather",
        "keep the weather file's monthly means in the project, for whoever opens it without the file",
    ),
    command(Act::Help, PAGE_AND_BENCH, &[Key::Char('?')], "help", "show all keys"),
    command(Act::Quit, PAGE, &[Key::Char('q')], "quit", "leave; asks if there is unsaved work"),
    command(Act::Menu, PAGE, &[Key::Esc], "menu", "everything that can be done here, to be chosen with the arrows"),
    command(Act::NextStage, PAGE, &[Key::Right, Key::Tab], "next stage", "go to the next stage").quiet(),
    command(Act::PreviousStage, PAGE, &[Key::Left, Key::BackTab], "stage before", "go to the stage before").quiet(),
    command(Act::Follow, &[Place::Sheet], &[Key::Enter], "follow", "go on to what the line names"),
    command(Act::NextLink, &[Place::Sheet], &[Key::Tab], "next link", "go to the next line that leads on"),
    command(
        Act::GoTo,
        &[Place::Sheet],
        &[Key::Char('g')],
        "go to it",
        "leave the sheet and go to its line on its page",
    ),
    command(Act::Follow, &[Place::Question], &[Key::Enter], "choose", "take the answer of the line"),
    command(Act::Follow, &[Place::Find], &[Key::Enter], "go to it", "go to what was found"),
    command(Act::Commit, &[Place::Form], &[Key::Enter], "take it", "take what is typed; before the last field, go on"),
    command(Act::NextField, &[Place::Form], &[Key::Tab, Key::Down], "next", "next field, or next word of a list"),
    command(
        Act::PreviousField,
        &[Place::Form],
        &[Key::BackTab, Key::Up],
        "before",
        "field before, or the word before in a list",
    )
    .quiet(),
    command(Act::Close, BENCH, &[Key::Esc, Key::Char('q'), Key::Char('b')], "back", "go back to the page of the stage"),
    command(Act::Close, READING, &[Key::Esc, Key::Char('q')], "back", "go back without doing anything"),
    command(Act::Close, TYPING, &[Key::Esc], "give up", "go back without doing anything"),
    command(Act::Down, LISTS, &[Key::Down], "down", "next line").quiet(),
    command(Act::Up, LISTS, &[Key::Up], "up", "line before").quiet(),
    command(Act::PageDown, LISTS, &[Key::PageDown], "page down", "one screen down").quiet(),
    command(Act::PageUp, LISTS, &[Key::PageUp], "page up", "one screen up").quiet(),
    command(Act::First, &[Place::Page, Place::Sheet], &[Key::Home], "first", "first line").quiet(),
    command(Act::Last, &[Place::Page, Place::Sheet], &[Key::End], "last", "last line").quiet(),
    command(Act::Quit, EVERYWHERE, &[Key::Ctrl('c')], "quit", "leave from anywhere; asks if there is unsaved work")
        .quiet(),
    command(Act::Suspend, EVERYWHERE, &[Key::Ctrl('z')], "suspend", "back to the shell; 'fg' returns here").quiet(),
];

/// What a key does at a place, if anything.
pub fn act(place: Place, key: Key) -> Option<Act> {
    at(place).find(|command| command.keys.contains(&key)).map(|command| command.act)
}

/// The commands of a place, in the order of the table.
pub fn at(place: Place) -> impl Iterator<Item = &'static Command> {
    COMMANDS.iter().filter(move |command| command.places.contains(&place))
}

/// docs/keys.md.
pub fn markdown() -> String {
    let mut page = String::from(
        "# Keys\n\nWritten from the table in src/tui/command.rs; a test compares. Everything can be reached with the \
         arrows, Tab, Enter and Esc alone: Esc on a page opens the menu. No mouse, no Alt.\n",
    );
    for place in Place::ALL {
        let _ = writeln!(page, "\n## Keys {}\n\n| key | what it does |\n|---|---|", place.title());
        for command in at(place) {
            let keys: Vec<String> = command.keys.iter().map(|key| format!("`{key}`")).collect();
            let _ = writeln!(page, "| {} | {} |", keys.join(" "), command.help);
        }
    }
    page.push_str(
        "\nWhile typing, the usual line keys work: arrows, Home, End, Backspace, Delete, Ctrl-A, Ctrl-E, Ctrl-U \
         (clear the line), Ctrl-W (delete a word).\n",
    );
    page
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_means_two_things_at_one_place() {
        for place in Place::ALL {
            let keys: Vec<Key> = at(place).flat_map(|command| command.keys.iter().copied()).collect();
            for (index, key) in keys.iter().enumerate() {
                assert!(!keys[..index].contains(key), "{key} twice {}", place.title());
            }
        }
    }

    #[test]
    fn no_command_needs_alt_or_a_character_beyond_ascii() {
        for key in COMMANDS.iter().flat_map(|command| command.keys) {
            if let Key::Char(letter) | Key::Ctrl(letter) = key {
                assert!(letter.is_ascii_graphic() || *letter == ' ', "{key}");
            }
        }
    }
}
