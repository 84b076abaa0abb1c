//! `show`: the report or the JSON of a project, or the part of it that was asked for.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::selection::Selection;
use super::{json, opening, report};
use crate::units::System;

/// Prints a project.
pub fn show(file: &Path, ids: &[String], as_json: bool, units: Option<System>) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let selection = Selection::of(&workbook, ids)?;
    let workbook = opening::studied(workbook);
    let text = if as_json {
        json::document(&workbook, &selection, units)
    } else if selection.is_all() {
        report::whole(&workbook, units)
    } else {
        let evaluation = workbook.evaluation();
        report::selected(evaluation, &selection, units.unwrap_or_else(|| evaluation.system()))
    };
    Ok(Answer { notices, text, code: 0 })
}
