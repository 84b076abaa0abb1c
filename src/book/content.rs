//! What stands in the book: one tree of sections, printed alike by every printer.
//!
//! Lives here: the shape of the tree and the order of its parts. Must not live here: how anything looks.

mod cards;
mod front;
mod judged;
mod methods;
mod records;
mod stages;
mod steps;

pub use front::title;

use super::Source;
use crate::model::Stage;
use crate::model::lines::Page;
use crate::stage::picture::Drawing;

/// The whole book.
#[derive(Clone, Debug)]
pub struct Book {
    /// What the project is called.
    pub title: String,
    /// Its parts in order.
    pub sections: Vec<Section>,
}

/// One part; it begins a page.
#[derive(Clone, Debug)]
pub struct Section {
    /// A name for links.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Whether it holds cautions, so that it must say who has the last word.
    pub cautions: bool,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

/// One piece of a part.
#[derive(Clone, Debug)]
pub enum Block {
    /// A smaller title.
    Heading(String),
    /// A paragraph.
    Par(Tone, String),
    /// A check, a step or a method with what is said about it.
    Item(Item),
    /// Single figures or entries.
    Figures(Vec<FigureLine>),
    /// Anything with rows and columns.
    Table(Table),
    /// A drawing to scale or a plot.
    Picture(Box<Picture>),
    /// A card for the bench; it has a page of its own.
    Card(Card),
    /// A page that is also printed by itself.
    Sheet(Page),
    /// The same in type that is read from two metres, each heading on a page of its own.
    Poster(Page),
}

/// How something is to be read, told in words and only underlined by looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As it is.
    Plain,
    /// Aside.
    Quiet,
    /// Work goes on with care.
    Caution,
    /// Something is missing.
    Unknown,
    /// Work stops.
    Stop,
    /// No fault was found in what could be seen.
    Clear,
}

/// Something with an id, a state and lines about it.
#[derive(Clone, Debug)]
pub struct Item {
    /// How it is to be read.
    pub tone: Tone,
    /// Its state in a word; empty for none.
    pub tag: String,
    /// What it is, in words.
    pub title: String,
    /// Its id.
    pub id: String,
    /// Name and text of each line; the name may be empty, a line without text is not printed.
    pub lines: Vec<(&'static str, String)>,
}

/// A figure or an entry.
#[derive(Clone, Debug)]
pub struct FigureLine {
    /// Its name.
    pub label: String,
    /// Its id.
    pub id: String,
    /// Its value with its unit, or why there is none.
    pub value: String,
    /// Whether there is a value.
    pub known: bool,
    /// By which method, with which formula; empty for an entry.
    pub by: String,
}

/// Rows and columns.
#[derive(Clone, Debug)]
pub struct Table {
    /// The heads of the columns; the first one names the rows.
    pub head: Vec<String>,
    /// The rows; each has as many cells as there are heads.
    pub rows: Vec<Vec<String>>,
    /// What is said below.
    pub notes: Vec<String>,
}

/// A picture with its words.
#[derive(Clone, Debug)]
pub struct Picture {
    /// What is seen.
    pub title: String,
    /// The picture, or why there is none.
    pub drawing: Result<Drawing, String>,
    /// Sentences below.
    pub caption: Vec<String>,
}

/// A card for the bench.
#[derive(Clone, Debug)]
pub struct Card {
    /// The job.
    pub title: String,
    /// Its id.
    pub id: String,
    /// Its figures, the one looked for most often first.
    pub figures: Vec<CardLine>,
    /// What runs from hole to hole or from cut to cut.
    pub rows: Option<Table>,
    /// The steps that are ticked here, with their state.
    pub steps: Vec<String>,
    /// What can hurt here, stops and overrulings first.
    pub cautions: Vec<String>,
}

/// One figure of a card.
#[derive(Clone, Debug)]
pub struct CardLine {
    /// What it is called at this job.
    pub label: String,
    /// Its value.
    pub value: String,
    /// Tolerance, datum, and what panels as built come to.
    pub beside: String,
}

/// Puts the whole book together.
pub fn book(source: Source<'_>) -> Book {
    let mut sections = vec![front::state(source), front::cautions(source)];
    let labels = Section::of("labels", "Emergency card and labels", vec![Block::Poster(source.sheets.labels.clone())]);
    // The page itself says first and last who has the last word.
    sections.push(Section { cautions: false, ..labels });
    sections.extend(Stage::ALL.map(|stage| stages::section(source, stage)));
    sections.push(cards::section(source.evaluation));
    sections.push(Section::of("materials", "Materials", vec![Block::Sheet(source.sheets.materials.clone())]));
    sections.push(Section::of("office", "Office", vec![Block::Sheet(source.sheets.questions.clone())]));
    let procedures = source.sheets.procedures.iter().cloned().map(Block::Sheet).collect();
    sections.push(Section::of("procedures", "Acceptance, hand-over and later life", procedures));
    sections.push(records::section(source));
    sections.push(methods::section());
    Book { title: title(source), sections }
}

impl Section {
    /// A part with cautions in it.
    fn of(id: &str, title: &str, blocks: Vec<Block>) -> Self {
        Self { id: id.to_owned(), title: title.to_owned(), cautions: true, blocks }
    }
}

impl Item {
    /// An item about which nothing is said yet.
    fn new(tone: Tone, tag: &str, title: impl Into<String>, id: impl Into<String>) -> Self {
        Self { tone, tag: tag.to_owned(), title: title.into(), id: id.into(), lines: Vec::new() }
    }

    /// Adds a line, unless its text is empty.
    fn say(&mut self, name: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.lines.push((name, text));
        }
    }
}
