//! `book`: the whole project on paper, written to a folder as three files of fixed names.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use super::failure::{Answer, Failure};
use super::verdicts::put_register;
use super::{materials, office, opening, procedure};
use crate::book::{self, Sheets, Source};
use crate::model::lines::Page;
use crate::model::paper::Paper;
use crate::model::text::clean;
use crate::project::store::{self, RealDisk, Stamp};
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
    let mut register = Page::default();
    put_register(&mut register, evaluation);
    let sheets = Sheets {
        register,
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
    let no_folder = |error| refused(&format!("{}: this folder cannot be made: {error}", folder.display()));
    fs::create_dir_all(folder).map_err(no_folder)?;
    let parts = [
        (HTML, printed.html.into_bytes(), "the book, for a browser and its printer"),
        (TEXT, printed.text.into_bytes(), "the same words as plain text"),
        (TEMPLATE, printed.template, "print at 100 %, measure its ruler, then mark by it"),
    ];
    let paths = parts.each_ref().map(|(name, _, _)| folder.join(name));
    // Nothing is written unless all three can be.
    let [html, text, template] = paths.each_ref().map(|path| seen(path));
    let stamps = [html?, text?, template?];
    let mut page = Page::default();
    for (((_, bytes, what), path), stamp) in parts.iter().zip(&paths).zip(&stamps) {
        store::save(&RealDisk, path, bytes, stamp.as_ref()).map_err(|error| refused(&error))?;
        page.fact(0, &format!("{}: {what}", clean(&path.display().to_string())));
    }
    Ok(Answer { notices, text: page.text(), code: 0 })
}

/// The stamp of an earlier book; none if there is none. What is no plain file, such as a link to elsewhere, is not the
/// book's to replace.
fn seen(path: &Path) -> Result<Option<Stamp>, Failure> {
    match fs::symlink_metadata(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Ok(found) if found.is_file() => {
            store::load(&RealDisk, path).map(|(_, stamp)| Some(stamp)).map_err(|error| refused(&error))
        }
        Ok(_) => Err(refused(&format!("{} is no plain file; nothing was written", path.display()))),
        Err(error) => Err(refused(&format!("{}: {error}", path.display()))),
    }
}

fn refused(error: &dyn std::fmt::Display) -> Failure {
    Failure::file(clean(&error.to_string()))
}
