//! `changes`: what happened since the last commit, or between any two files or revisions.

use std::path::Path;
use std::sync::Arc;

use super::failure::{Answer, Failure};
use super::opening;
use crate::model::lines::Page;
use crate::model::text::clean;
use crate::project::store::{self, RealDisk};
use crate::solve::rows;
use crate::stage;
use crate::workbook::changes::{Changes, between};
use crate::workbook::compare::Moved;
use crate::workbook::{Workbook, revision};

/// What is compared with a file when nothing else is named.
const LAST_COMMIT: &str = "HEAD";

/// Figures that moved by less are only counted.
const WORTH_A_LINE: f64 = 0.01;

/// Tells what happened from the first to the second; of one file alone, since the last commit.
pub fn changes(first: &str, second: Option<&str>) -> Result<Answer, Failure> {
    let (before, after) = match second {
        None => (at_revision(LAST_COMMIT, Path::new(first))?, state(first, first)?),
        Some(second) => (state(first, second)?, state(second, first)?),
    };
    let (before, after) = (opening::studied(before), opening::studied(after));
    let names = second.map_or((LAST_COMMIT, first), |second| (first, second));
    Ok(Answer::of(told(&before, &after, &between(&before, &after), names)))
}

/// The project of a file, of `REVISION:FILE`, or of a revision of the file named beside it.
fn state(named: &str, beside: &str) -> Result<Workbook, Failure> {
    let path = Path::new(named);
    if path.exists() {
        let (bytes, _) = store::load(&RealDisk, path).map_err(|error| Failure::file(clean(&error.to_string())))?;
        return Ok(unsaved(path, String::from_utf8_lossy(&bytes).into_owned()));
    }
    match named.split_once(':') {
        Some((revision, file)) => at_revision(revision, Path::new(file)),
        None => at_revision(named, Path::new(beside)),
    }
}

fn at_revision(revision: &str, file: &Path) -> Result<Workbook, Failure> {
    let text = revision::text_at(revision, file);
    let text = text.ok_or_else(|| {
        let (revision, file) = (clean(revision), clean(&file.display().to_string()));
        Failure::file(format!("there is no {file} at the revision '{revision}' to compare with"))
    })?;
    Ok(unsaved(file, text))
}

fn unsaved(path: &Path, text: String) -> Workbook {
    Workbook::unsaved(Arc::new(RealDisk), path, text, opening::today())
}

fn told(before: &Workbook, after: &Workbook, changes: &Changes, (from, to): (&str, &str)) -> String {
    let mut page = Page::default();
    page.heading(&format!("From {} to {}", clean(from), clean(to)));
    if changes.is_empty() {
        page.fact(0, "Nothing has changed.");
    }
    put(&mut page, "Entries", changes.entries.iter().map(entry));
    put(&mut page, "Panels added", changes.panels.iter().cloned());
    put(&mut page, "Records", changes.records.iter().map(|line| clean(line)));
    let flips = changes.differences.flips.iter().map(|flip| {
        let panel = flip.panel.map_or_else(String::new, |panel| format!(", panel {panel}"));
        format!("{}{panel}: was {}, is {} ({})", flip.label, flip.was, flip.is, flip.check)
    });
    put(&mut page, "Verdicts", flips);
    put(&mut page, "Steps to look at again", changes.differences.stale.iter().map(ToString::to_string));
    put_figures(&mut page, before, after, &changes.differences.moved);
    page.text()
}

fn put(page: &mut Page, title: &str, lines: impl Iterator<Item = String>) {
    let lines: Vec<String> = lines.collect();
    if !lines.is_empty() {
        page.subheading(title);
        for line in &lines {
            page.fact(2, line);
        }
    }
}

fn entry((id, was, is): &(String, Option<String>, Option<String>)) -> String {
    let typed = |text: &Option<String>| text.as_ref().map_or_else(|| "nothing".to_owned(), |text| clean(text));
    let label = stage::entry(id).map_or("", |spec| spec.label);
    format!("{label}: was {}, is {} ({})", typed(was), typed(is), clean(id))
}

/// Figures of the design, or of a panel where the design's own stayed; small moves are counted only.
fn put_figures(page: &mut Page, before: &Workbook, after: &Workbook, moved: &[Moved]) {
    let is_computed = |moved: &&Moved| stage::figure(&moved.address.id).is_some();
    let of_design = |id: &str| moved.iter().any(|other| other.address.panel.is_none() && other.address.id == id);
    let told: Vec<&Moved> = moved
        .iter()
        .filter(is_computed)
        .filter(|moved| moved.address.panel.is_none() || !of_design(&moved.address.id))
        .collect();
    let (large, small): (Vec<&Moved>, Vec<&Moved>) =
        told.into_iter().partition(|moved| moved.relative().is_none_or(|share| share.abs() >= WORTH_A_LINE));
    let system = after.evaluation().system();
    let text = |workbook: &Workbook, moved: &Moved, value: &crate::model::Fig<_>| match value {
        Ok(value) => workbook.evaluation().value_text(&moved.address, value, system),
        Err(why) => format!("not known ({})", clean(&why.to_string())),
    };
    put(
        page,
        "Figures",
        large.iter().map(|moved| {
            let label = rows::label_of(&moved.address, moved.label);
            let (was, is) = (text(before, moved, &moved.was), text(after, moved, &moved.is));
            format!("{label}: was {was}, is {is} ({})", clean(&moved.address.to_string()))
        }),
    );
    if !small.is_empty() {
        page.fact(2, &format!("{} more moved by less than 1 %", small.len()));
    }
}
