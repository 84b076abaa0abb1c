//! `merge` and `settle`: the work of two builders made one, and what they disagreed about decided.

use std::path::Path;

use super::failure::{self, Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::text::clean;
use crate::project::merge::{Conflict, MergeError, Side, merge as merged};
use crate::project::store::{self, RealDisk, Stamp};

/// Merges THEIRS into OURS, both made from BASE; exit code 1 if something must be settled.
pub fn merge(base: &Path, ours: &Path, theirs: &Path) -> Result<Answer, Failure> {
    let (was, _) = load(base)?;
    let (mine, stamp) = load(ours)?;
    let (other, _) = load(theirs)?;
    let found = merged(&was, &mine, &other).map_err(|error| refused(&error, base, ours, theirs))?;
    if found.text != mine {
        store::save(&RealDisk, ours, found.text.as_bytes(), Some(&stamp))
            .map_err(|error| Failure::file(clean(&error.to_string())))?;
    }
    let mut page = Page::default();
    for conflict in &found.conflicts {
        page.fact(0, &words(conflict));
    }
    if !found.conflicts.is_empty() {
        page.fact(0, "Both values stand in the file. 'sunharp settle FILE KEY ours' or 'theirs' decides.");
    }
    let code = if found.conflicts.is_empty() { 0 } else { failure::STOP };
    Ok(Answer { text: page.text(), code, ..Answer::default() })
}

/// Decides a conflict and saves.
pub fn settle(file: &Path, key: &str, side: Side) -> Result<Answer, Failure> {
    let (mut workbook, _) = opening::project(file)?;
    workbook.take_lock();
    workbook.settle(key, side).map_err(|error| Failure::usage(clean(&format!("{key}: {error}"))))?;
    workbook.save().map_err(|error| Failure::file(clean(&error.to_string())))?;
    let left = workbook.project().conflicts.len();
    Ok(Answer::of(format!("{} settled; {left} left to settle\n", clean(key))))
}

fn load(path: &Path) -> Result<(String, Stamp), Failure> {
    let (bytes, stamp) = store::load(&RealDisk, path).map_err(|error| Failure::file(clean(&error.to_string())))?;
    let text = String::from_utf8(bytes);
    let name = path.display();
    text.map(|text| (text, stamp)).map_err(|_| Failure::file(clean(&format!("{name} is not UTF-8 text"))))
}

fn refused(error: &MergeError, base: &Path, ours: &Path, theirs: &Path) -> Failure {
    let of = |side: &Side| match side {
        Side::Base => base,
        Side::Ours => ours,
        Side::Theirs => theirs,
    };
    let file = match error {
        MergeError::Broken(side, _) | MergeError::Tangled(side) => format!("{}: ", of(side).display()),
        MergeError::TwoWays(_) => String::new(),
    };
    Failure::file(clean(&format!("{file}{error}; nothing was written")))
}

fn words(conflict: &Conflict) -> String {
    let did = |value: &Option<String>| value.as_ref().map_or_else(|| "taken out".to_owned(), |text| clean(text));
    let (was, ours, theirs) = (did(&conflict.base), did(&conflict.ours), did(&conflict.theirs));
    format!("to settle: {}: was {was}, ours {ours}, theirs {theirs}", clean(&conflict.key))
}
