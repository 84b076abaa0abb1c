//! `today`: what can be done now, what is stale, stopped and missing.

use std::path::Path;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::{Address, Verdict, text::clean};
use crate::stage;
use crate::workbook::Workbook;
use crate::workbook::today::{Job, Need, Plot, today};

/// Prints the day's work.
pub fn day(file: &Path) -> Result<Answer, Failure> {
    let (workbook, notices) = opening::project(file)?;
    let workbook = opening::studied(workbook);
    let day = today(workbook.evaluation(), &workbook.project().records);
    let mut page = Page::default();
    let (stops, unknowns) = (day.stops, day.unknowns);
    page.fact(0, &format!("{}: {stops} stop, {unknowns} unknown", clean(&file.display().to_string())));
    for conflict in workbook.project().conflicts.values() {
        page.fact(0, &format!("Two builders differ: {} ('sunharp settle' chooses)", clean(&conflict.key)));
    }
    if !day.due.is_empty() {
        page.subheading("Due by the calendar");
    }
    for (task, since) in &day.due {
        let (name, what) = (task.name, task.what);
        page.fact(2, &format!("{name}, since {since}: {what} (commissioning.upkeep.{name})"));
    }
    for plot in &day.plots {
        put_plot(&mut page, &workbook, plot);
    }
    if !day.urgent.is_empty() {
        page.subheading("Look at first");
    }
    for (id, verdict) in &day.urgent {
        page.fact(2, &format!("{verdict}: {} ({id})", stage::check(id).map_or(*id, |check| check.label)));
    }
    if !day.missing.is_empty() {
        page.subheading("Most waits for");
    }
    for (id, count) in &day.missing {
        let label = stage::entry(id).map_or("", |spec| spec.label);
        page.fact(2, &format!("{label} ({}): {count} figures and checks", clean(id)));
    }
    Ok(Answer { notices, text: page.text(), code: 0 })
}

fn put_plot(page: &mut Page, workbook: &Workbook, plot: &Plot) {
    let whose = plot.panel.map_or_else(|| "The project".to_owned(), |panel| format!("Panel {panel}"));
    page.subheading(&format!("{whose}: {} of {} steps done, {} waiting", plot.done, plot.all, plot.waiting));
    for Job { step, needs } in &plot.open {
        let needs: Vec<String> = needs.iter().map(Need::words).collect();
        put_step(page, workbook, "open", step, &needs.join(", "));
    }
    for step in &plot.stale {
        put_step(page, workbook, "stale", step, "");
    }
    for step in &plot.held {
        put_step(page, workbook, &format!("held by a {}", Verdict::Stop), step, "");
    }
}

fn put_step(page: &mut Page, workbook: &Workbook, word: &str, step: &Address, needs: &str) {
    let evaluation = workbook.evaluation();
    let title = stage::step(&step.id).map_or("", |step| step.title);
    let title = evaluation.fill(title, step.panel, evaluation.system());
    page.fact(2, &format!("{word}: {title} ({step})"));
    page.named(4, "Needs", needs);
}
