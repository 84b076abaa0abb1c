//! `set`: one entry changed and saved, and what moved by it.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::{Address, Fig, Role, Value, text::clean};
use crate::solve::Evaluation;
use crate::solve::rows;
use crate::stage;
use crate::workbook::Workbook;
use crate::workbook::change::ChangeError;
use crate::workbook::compare::{Differences, differences};

/// Changes an entry of a file.
pub fn set(file: &Path, typed_id: &str, typed: &str) -> Result<Answer, Failure> {
    let (mut workbook, notices) = opening::project(file)?;
    let id = entry_id(&workbook, typed_id)?;
    workbook.take_lock();
    let mut workbook = opening::studied(workbook);
    let before = workbook.evaluation().clone();
    let was = workbook.text().to_owned();
    workbook.set(&id, typed).map_err(|error| refused(&id, &error))?;
    if workbook.text() == was {
        return Ok(Answer { notices, text: format!("{id} is so already; nothing was written\n"), code: 0 });
    }
    workbook.save().map_err(|error| Failure::file(clean(&error.to_string())))?;
    let workbook = opening::studied(workbook);
    let text = told(&workbook, &id, &before);
    Ok(Answer { notices, text, code: 0 })
}

/// The id of an entry that can be decided; says what to do about anything else.
pub(super) fn entry_id(workbook: &Workbook, typed: &str) -> Result<String, Failure> {
    let Address { id, panel } = opening::address(workbook, typed)?;
    if stage::figure(&id).is_some() {
        return Err(Failure::usage(format!("'{id}' is computed; 'sunharp explain FILE {id}' tells from what")));
    }
    let spec = stage::entry(&id).ok_or_else(|| opening::unknown(&id))?;
    if spec.role == Role::Measure {
        return Err(Failure::usage(format!("'{id}' can only be measured; record it as a reading on the screen")));
    }
    if let Some(panel) = panel {
        let what = "what was measured on one panel is a reading, recorded on the screen";
        return Err(Failure::usage(format!("set changes the design: leave out '@{panel}'; {what}")));
    }
    Ok(id)
}

/// Why an entry was not changed.
pub(super) fn refused(id: &str, error: &ChangeError) -> Failure {
    let text = clean(&format!("{id}: {error}"));
    match error {
        ChangeError::ReadOnly(_) => Failure::file(text),
        ChangeError::Typed(crate::model::TypedError::Unit(unit)) => {
            Failure::usage(unit.hint.as_ref().map_or(text.clone(), |hint| format!("{text}; {}", clean(hint))))
        }
        _ => Failure::usage(text),
    }
}

fn told(workbook: &Workbook, id: &str, before: &Evaluation) -> String {
    let after = workbook.evaluation();
    let typed = after.drawn.inputs.typed(id).map_or_else(String::new, clean);
    let mut page = Page::default();
    page.fact(0, &format!("{id} = {typed}, saved in {}", clean(&workbook.path().display().to_string())));
    put_moved(&mut page, before, after, &differences(before, after));
    page.text()
}

/// Lists what moved.
pub(super) fn put_moved(page: &mut Page, before: &Evaluation, after: &Evaluation, found: &Differences) {
    let drawn = |address: &Address| {
        found.moved.iter().any(|moved| moved.address.id == address.id && moved.address.panel.is_none())
    };
    let told = || found.moved.iter().filter(|moved| moved.address.panel.is_none() || !drawn(&moved.address));
    page.fact(0, &format!("{} moved:", told().count()));
    for moved in told() {
        let was = text(before, &moved.address, &moved.was);
        let is = text(after, &moved.address, &moved.is);
        let label = rows::label_of(&moved.address, moved.label);
        page.fact(2, &format!("{label}: was {was}, is {is} ({})", clean(&moved.address.to_string())));
    }
    for flip in &found.flips {
        page.fact(2, &format!("check {}: was {}, is {} ({})", flip.label, flip.was, flip.is, flip.check));
    }
    for step in &found.stale {
        page.fact(2, &format!("step {step} was signed off before this change: look again"));
    }
}

fn text(evaluation: &Evaluation, address: &Address, value: &Fig<Value>) -> String {
    match value {
        Ok(value) => evaluation.value_text(address, value, evaluation.system()),
        Err(why) => format!("not known ({})", clean(&why.to_string())),
    }
}
