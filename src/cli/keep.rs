//! `keep-weather`: the twelve monthly means of the weather file kept in the project.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::text::clean;
use crate::workbook::change::ChangeError;

/// Keeps the means and saves.
pub fn keep(file: &Path) -> Result<Answer, Failure> {
    let (mut workbook, notices) = opening::project(file)?;
    workbook.take_lock();
    let was = workbook.text().to_owned();
    workbook.keep_monthly_summary().map_err(|error| refused(&error))?;
    let name = clean(&file.display().to_string());
    if workbook.text() == was {
        let text = format!("{name} holds these monthly means already; nothing was written\n");
        return Ok(Answer { notices, text, code: 0 });
    }
    workbook.save().map_err(|error| Failure::file(clean(&error.to_string())))?;
    let text = format!("Twelve monthly means of sun and air now stand in {name}: it opens without its weather file.\n");
    Ok(Answer { notices, text, code: 0 })
}

fn refused(error: &ChangeError) -> Failure {
    let text = clean(&error.to_string());
    match error {
        ChangeError::ReadOnly(_) => Failure::file(text),
        _ => Failure::usage(text),
    }
}
