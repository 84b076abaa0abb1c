//! `explain`: where a number comes from, with the project's own numbers in its formula.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use super::verdicts::{put_check, put_step, put_step_details};
use crate::model::lines::Page;
use crate::model::{Address, text::clean};
use crate::solve::Evaluation;
use crate::solve::rows;
use crate::stage;
use crate::units::System;
use crate::workbook::Workbook;
use crate::workbook::explain::{Explanation, explain as explanation};
use crate::workbook::mend::words as mend_words;

/// Explains a figure, an entry, a check or a step.
pub fn explain(file: &Path, typed: &str, units: Option<System>) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let address = opening::address(&workbook, typed)?;
    let workbook = opening::studied(workbook);
    let evaluation = workbook.evaluation();
    let system = units.unwrap_or_else(|| evaluation.system());
    let mut page = Page::default();
    if let Some(found) = explanation(evaluation, &address, system) {
        put_figure(&mut page, evaluation, &found, system);
    } else if !put_others(&mut page, &workbook, &address, system) {
        return Err(opening::unknown(&address.id));
    }
    Ok(Answer { notices, text: page.text(), code: 0 })
}

fn put_figure(page: &mut Page, evaluation: &Evaluation, found: &Explanation, system: System) {
    if let Some(row) = evaluation.row(&found.address) {
        let value = rows::value(evaluation, &row, system);
        page.fact(0, &format!("{}: {value} ({})", rows::label(&row), clean(&found.address.to_string())));
    }
    page.named(2, "Why it matters", found.why);
    if let Some(spec) = stage::entry(&found.address.id).filter(|_| found.method.is_none()) {
        page.named(2, "Can be", &spec.allowed(system));
        page.named(2, "Assumed if nothing is entered", spec.default.unwrap_or_default());
    }
    page.named(2, "Formula", &found.formula);
    page.named(2, "With this project's numbers", &found.numbers);
    for term in &found.terms {
        let text = format!("{}, {}, {} ({})", term.label, term.text, term.origin.word(), term.address);
        page.named(4, term.symbol, &clean(&text));
    }
    if let Some(method) = found.method {
        page.named(2, "Method", &format!("{} ({}): {}", method.title, method.id, method.what));
        page.named(2, "Source", method.source);
        page.named(2, "Computed by", method.code);
    }
    page.named(2, "Can depend on", &found.depends_on.join(", "));
    page.named(2, "Can move", &found.moves.join(", "));
}

/// A check, or a step: on the panel named, or on all of them. False if nothing is called so.
fn put_others(page: &mut Page, workbook: &Workbook, address: &Address, system: System) -> bool {
    let evaluation = workbook.evaluation();
    let is_meant = |of: &Address| of.id == address.id && (address.panel.is_none() || of.panel == address.panel);
    let verdicts: Vec<_> = evaluation.verdicts.iter().filter(|judged| is_meant(&judged.address)).collect();
    for judged in &verdicts {
        put_check(page, evaluation, judged, system);
    }
    if let Some(mend) = workbook.mend(&address.id) {
        page.named(2, "Cheapest change that mends it", &clean(&mend_words(&mend)));
    }
    if let Some(judged) = verdicts.first() {
        let check = judged.check;
        page.named(2, "If it is not clear", check.severity.word());
        page.named(2, "Judges by", &check.needs.join(", "));
        page.named(2, "Limit from", check.source);
        page.named(2, "From memory", check.recalled);
        page.named(2, "It cannot see", check.blind_to);
        page.named(2, "Can be overruled in writing", if check.can_be_overruled { "yes, by two people" } else { "no" });
    }
    let states: Vec<_> = evaluation.steps.iter().filter(|state| is_meant(&state.address)).collect();
    for state in &states {
        put_step(page, evaluation, state, system);
    }
    if let Some(state) = states.first() {
        put_step_details(page, evaluation, state, system);
    } else if let Some(only) = stage::step(&address.id).and_then(|step| step.only) {
        let chosen = format!("only where {} is {}", only.entry, only.choices.join(", "));
        page.named(2, "Does not apply", &chosen);
    }
    stage::check(&address.id).is_some() || stage::step(&address.id).is_some()
}
