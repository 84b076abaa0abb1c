//! What can lie over a page: forms, sheets, questions with their answers, finding, the bench.

use crate::model::Address;
use crate::project::draft::Draft;
use crate::project::merge::Side;
use crate::tui::command::Act;
use crate::tui::form::Form;
use crate::workbook::find::Hit;

/// What lies over a page.
pub enum Over {
    /// Fields to type in.
    Form(Box<Form>),
    /// A text.
    Sheet(Sheet),
    /// A question with answers.
    Question(Question),
    /// A picture of the stage, by its place among them.
    Picture(usize),
    /// Finding by name.
    Find(Find),
    /// The bench cards.
    Bench,
}

/// What a sheet is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A figure or entry: formula, numbers, source.
    Figure(Address),
    /// A check in full.
    Check(&'static str),
    /// A step in full.
    Step(Address),
    /// What the last change moved.
    Moved,
    /// What is wrong in the file.
    Faults,
    /// All keys.
    Help,
    /// What was written about something, or everything that was.
    Records(Option<Address>),
    /// A variant beside the design.
    Variant(String),
    /// What happened since the last commit.
    SinceCommit,
}

/// A text over the page.
#[derive(Clone, Debug)]
pub struct Sheet {
    pub subject: Subject,
    /// The row that keys act on.
    pub at: usize,
    /// The first row in view.
    pub top: usize,
}

/// A question.
pub struct Question {
    pub title: String,
    pub says: Vec<String>,
    pub answers: Vec<(String, Answer)>,
    pub at: usize,
}

/// What an answer does.
#[derive(Clone, Debug)]
pub enum Answer {
    Run(Act),
    GoBack,
    SaveAndQuit,
    QuitWithoutSaving,
    KeepBeside,
    TakeTheirs,
    TakeDraft(Box<Draft>),
    GiveUpDraft,
    /// A second person has read a step back; an empty name is still to be typed.
    ReadBack(Address, String),
    /// A sign-off is taken back for a reason; an empty one is still to be typed.
    TakeBack(Address, String),
    /// Something is written down.
    Write(Writing),
    /// One side's value stands where two builders differ.
    Settle(String, Side),
    /// What was changed is kept as a variant.
    KeepVariant,
    /// A variant is compared with the design.
    Variant(String),
    /// A variant becomes the design.
    TakeVariant(String),
}

/// What can be written down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Writing {
    /// A dated event.
    Log,
    /// A note on something.
    Note(Address),
    /// The time that a step takes begins to count.
    Begin(Address),
    /// The time that was counted, or one typed by hand.
    Hours(Address),
    /// The stop of a check is overruled.
    Overrule(Address),
    /// A reading is taken back.
    Reading(Address, String),
    /// The next panel is added.
    Panel,
}

/// Finding by name.
#[derive(Default)]
pub struct Find {
    pub typed: tui_input::Input,
    pub hits: Vec<Hit>,
    pub at: usize,
    pub top: usize,
}
