//! `book`: the whole project on paper, written to a folder as three files of fixed names.

use std::fs;
use std::path::Path;

use super::failure::{Answer, Failure};
use super::{materials, office, opening, procedure};
use crate::book::{self, Sheets, Source};
use crate::model::lines::Page;
use crate::model::paper::Paper;
use crate::model::text::clean;
use crate::project::store::{self, RealDisk, StoreError};
use crate::stage::procedure::procedures;

/// The page for a browser and its printer.
const HTML: &str = "book.html";
/// The same as plain text.
const TEXT: &str = "book.txt";
/// The drilling template.
const TEMPLATE: &str = "header-template.pdf";

/// Writes the book. The folder is made if it is not there; only the three files of the book are ever replaced in it.
pub fn book(file: &Path, folder: &Path, paper: Paper) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    let evaluation = workbook.evaluation();
    let sheets = Sheets {
        labels: office::labels_of(evaluation),
        questions: office::questions_of(evaluation, workbook.today()),
        materials: materials::page(&evaluation.drawn.bill, evaluation.system()),
        procedures: procedures().iter().map(|found| procedure::page_of(evaluation, found)).collect(),
    };
    let name = file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let printed = book::print(Source {
        evaluation,
        project: workbook.project(),
        file: &name,
        today: workbook.today(),
        paper,
        sheets: &sheets,
    });
    let refused = |error: &dyn std::fmt::Display| Failure::file(clean(&format!("{}: {error}", folder.display())));
    fs::create_dir_all(folder).map_err(|error| refused(&format!("the folder cannot be made: {error}")))?;
    let parts = [
        (HTML, printed.html.into_bytes(), "the book, for a browser and its printer"),
        (TEXT, printed.text.into_bytes(), "the same words as plain text"),
        (TEMPLATE, printed.template, "print at 100 %, measure its ruler, then drill by it"),
    ];
    let mut page = Page::default();
    for (name, bytes, what) in parts {
        let path = folder.join(name);
        write(&path, &bytes).map_err(|error| Failure::file(clean(&error.to_string())))?;
        page.fact(0, &format!("{}: {what}", clean(&path.display().to_string())));
    }
    Ok(Answer { notices, text: page.text(), code: 0 })
}

/// Writes one part in place of an earlier one, whole or not at all.
fn write(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    let seen = if path.exists() { Some(store::load(&RealDisk, path)?.1) } else { None };
    store::save(&RealDisk, path, bytes, seen.as_ref()).map(drop)
}
