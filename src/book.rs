//! The book: the whole project on paper, for a binder, a stranger or a bench without a screen.
//!
//! Lives here: what stands in the book, in which order, and how it is printed as HTML, as plain text and as a drilling
//! template. Pure: an evaluation goes in, texts and bytes come out. Must not live here: files, formulas, commands.

mod content;
mod html;
mod svg;
mod template;
mod text;

use jiff::civil::Date;

use crate::model::lines::Page;
use crate::model::paper::Paper;
use crate::project::Project;
use crate::solve::Evaluation;

/// What the book is printed from.
#[derive(Clone, Copy, Debug)]
pub struct Source<'a> {
    /// Everything computed, studies included.
    pub evaluation: &'a Evaluation,
    /// The records, and what is wrong with the file.
    pub project: &'a Project,
    /// The project file, as the reader would look for it.
    pub file: &'a str,
    /// The day that is printed on every part.
    pub today: Date,
    /// The paper.
    pub paper: Paper,
    /// Pages that are also printed by themselves.
    pub sheets: &'a Sheets,
}

/// Plain pages that other commands print by themselves and the book takes in whole.
#[derive(Clone, Debug, Default)]
pub struct Sheets {
    /// The hazard register.
    pub register: Page,
    /// The emergency card, the labels, what is read back.
    pub labels: Page,
    /// The questions for the office.
    pub questions: Page,
    /// The bill of materials.
    pub materials: Page,
    /// Acceptance, hand-over and the other procedures.
    pub procedures: Vec<Page>,
}

/// The three parts.
#[derive(Clone, Debug)]
pub struct Printed {
    /// One page for a browser, with everything in it.
    pub html: String,
    /// The same words, at most 80 columns wide.
    pub text: String,
    /// The drilling template, PDF.
    pub template: Vec<u8>,
}

/// Prints the book.
pub fn print(source: Source<'_>) -> Printed {
    let book = content::book(source);
    Printed {
        html: html::print(&book, source.evaluation, source.paper),
        text: text::print(&book),
        template: template::print(source),
    }
}
