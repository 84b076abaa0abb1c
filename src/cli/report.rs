//! The plain report: stage by stage entries, figures, checks and steps.

use super::selection::Selection;
use super::verdicts::{put_check, put_step};
use crate::model::lines::Page;
use crate::model::{Address, Stage, text::clean};
use crate::solve::findings::Counts;
use crate::solve::rows;
use crate::solve::{Evaluation, Row};
use crate::stage::safety::questions::LAST_WORD;
use crate::stage::{self, general};
use crate::units::System;
use crate::workbook::Workbook;

/// The whole report of a project.
pub fn whole(workbook: &Workbook, units: Option<System>) -> String {
    let evaluation = workbook.evaluation();
    let mut page = Page::default();
    let name = Address::drawn(general::NAME.spec.id);
    let title = if evaluation.value(&name).is_ok() {
        evaluation.text(&name, evaluation.system())
    } else {
        clean(&workbook.path().display().to_string())
    };
    page.heading(&title);
    page.fact(0, &format!("File: {}", clean(&workbook.path().display().to_string())));
    page.fact(0, &format!("Date: {}", workbook.today()));
    page.fact(0, &format!("Checks: {}", Counts::of(evaluation).text()));
    let done = evaluation.steps.iter().filter(|state| state.standing.word() == "done").count();
    page.fact(0, &format!("Steps: {done} of {} done", evaluation.steps.len()));
    page.fact(0, LAST_WORD);
    put_sections(&mut page, evaluation, &Selection::default(), units.unwrap_or_else(|| evaluation.system()));
    page.text()
}

/// The part of the report that was asked for.
pub fn selected(evaluation: &Evaluation, selection: &Selection, system: System) -> String {
    let mut page = Page::default();
    put_sections(&mut page, evaluation, selection, system);
    page.text()
}

fn put_sections(page: &mut Page, evaluation: &Evaluation, selection: &Selection, system: System) {
    let rows = selection.rows(evaluation, false);
    for stage in std::iter::once(None).chain(Stage::ALL.map(Some)) {
        let mine: Vec<&Row> = rows.iter().filter(|row| Stage::of_id(&row.address.id) == stage).collect();
        let (figures, entries): (Vec<&Row>, Vec<&Row>) =
            mine.into_iter().partition(|row| stage::figure(&row.address.id).is_some());
        let checks = || evaluation.verdicts.iter().filter(|judged| selection.has_check(judged));
        let checks: Vec<_> = checks().filter(|judged| Some(judged.check.stage()) == stage).collect();
        let steps = || evaluation.steps.iter().filter(|state| selection.has_step(state));
        let steps: Vec<_> = steps().filter(|state| Some(state.step.stage) == stage).collect();
        if figures.is_empty() && entries.is_empty() && checks.is_empty() && steps.is_empty() {
            continue;
        }
        if selection.is_all() {
            page.heading(&capital(stage.map_or("project", Stage::word)));
        }
        put_rows(page, evaluation, "Entries", &entries, system);
        put_rows(page, evaluation, "Figures", &figures, system);
        put_group(page, "Checks", &checks, |page, judged| put_check(page, evaluation, judged, system));
        put_group(page, "Steps", &steps, |page, state| put_step(page, evaluation, state, system));
    }
}

fn put_rows(page: &mut Page, evaluation: &Evaluation, title: &str, rows: &[&Row], system: System) {
    put_group(page, title, rows, |page, row| {
        let value = rows::value(evaluation, row, system);
        page.fact(2, &format!("{}: {value} ({})", rows::label(row), clean(&row.address.to_string())));
    });
}

fn put_group<T>(page: &mut Page, title: &str, items: &[&T], put: impl Fn(&mut Page, &T)) {
    if items.is_empty() {
        return;
    }
    page.subheading(title);
    for item in items {
        put(page, item);
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
