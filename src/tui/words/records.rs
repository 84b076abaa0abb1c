//! Records as paragraphs: what, on which panel, when, by whom, on what evidence; what was taken back and why.

use jiff::civil::Date;

use crate::model::{Address, record::moment, text::clean};
use crate::stage;
use crate::tui::ink::{Par, Role};
use crate::tui::state::{State, Subject};
use crate::workbook::today::hours;

/// A record with its moment, so that all sorts can be put in one order.
struct Entry {
    date: Date,
    key: String,
    par: Par,
}

/// Whether anything was recorded about something.
pub fn any(state: &State, of: &Address) -> bool {
    !entries(state, Some(of)).is_empty()
}

/// The records about something, or all of them; the latest first.
pub fn pars(state: &State, of: Option<&Address>) -> Vec<Par> {
    let mut entries = entries(state, of);
    entries.sort_by(|a, b| moment(b.date, &b.key).cmp(&moment(a.date, &a.key)));
    if entries.is_empty() {
        return vec![Par::plain(
            "Nothing was recorded yet. c writes down, r records a reading, Enter signs a step off.",
        )];
    }
    entries.into_iter().map(|entry| entry.par).collect()
}

fn entries(state: &State, of: Option<&Address>) -> Vec<Entry> {
    let about = |subject: &Address| {
        of.is_none_or(|of| subject.id == of.id && (of.panel.is_none() || subject.panel == of.panel))
    };
    // On the sheet of one thing its name need not stand in every line.
    let name =
        |subject: &Address| if of.is_none() { format!("{} ", super::name(state, subject)) } else { String::new() };
    let mut entries = readings(state, &about, &name);
    entries.extend(sign_offs(state, &about, &name));
    entries.extend(others(state, &about, &name, of.is_none()));
    entries
}

/// A record's line: its day, its sort, what it says, who made it, and why it was taken back.
fn entry(date: Date, key: &str, sort: &str, says: String, by: &str, withdrawn: Option<&String>) -> Entry {
    let mut par =
        Par::new(Role::Quiet, format!("{date} ")).and(Role::Strong, format!("{sort} ")).and(Role::Plain, says);
    if !by.is_empty() {
        par = par.and(Role::Quiet, format!(", {}", clean(by)));
    }
    if let Some(reason) = withdrawn {
        par = par.and(Role::Caution, format!("; taken back: {}", clean(reason)));
    }
    Entry { date, key: key.to_owned(), par }
}

/// The most characters of one record that are shown; the file has them all.
const LONGEST: usize = 400;

/// What somebody wrote, cleaned and cut where it is out of all proportion.
fn says(text: &str) -> String {
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{} ... (cut; all of it stands in the file)", clean(&text[..end])),
        None => clean(text),
    }
}

/// Where the line of a subject leads, if anything is called so.
fn leading(entry: Entry, of: &Address) -> Entry {
    let subject = if stage::step(&of.id).is_some() {
        Some(Subject::Step(of.clone()))
    } else if let Some(check) = stage::check(&of.id) {
        Some(Subject::Check(check.id))
    } else if stage::figure(&of.id).is_some() || stage::entry(&of.id).is_some() {
        Some(Subject::Figure(of.clone()))
    } else {
        None
    };
    let par = match subject {
        Some(subject) => entry.par.leading_to(subject),
        None => entry.par,
    };
    Entry { par, ..entry }
}

/// Picks the records about something.
type About<'a> = &'a dyn Fn(&Address) -> bool;
/// Names what a record is about.
type Name<'a> = &'a dyn Fn(&Address) -> String;

fn readings(state: &State, about: About<'_>, name: Name<'_>) -> Vec<Entry> {
    let records = &state.workbook.project().records.readings;
    let one = |it: &crate::model::Reading| {
        let with = if it.instrument.is_empty() { String::new() } else { format!(" with {}", clean(&it.instrument)) };
        let note = if it.note.is_empty() { String::new() } else { format!(" ({})", clean(&it.note)) };
        let panel = super::on_panel(it.of.panel.filter(|_| of_one(&it.of, name)));
        let says = format!("{}{}{panel}{with}{note}", name(&it.of), clean(&it.typed));
        leading(entry(it.date, &it.key, "reading", says, &it.by, it.withdrawn.as_ref()), &it.of)
    };
    records.iter().filter(|it| about(&it.of)).map(one).collect()
}

fn sign_offs(state: &State, about: About<'_>, name: Name<'_>) -> Vec<Entry> {
    let records = &state.workbook.project().records.sign_offs;
    let one = |it: &crate::model::SignOff| {
        let second = if it.read_back_by.is_empty() {
            String::new()
        } else {
            format!(", read back by {}", clean(&it.read_back_by))
        };
        let evidence = says(&it.evidence);
        let panel = super::on_panel(it.of.panel.filter(|_| of_one(&it.of, name)));
        let says = format!("{}{evidence}{panel}{second}", name(&it.of));
        leading(entry(it.date, &it.key, "signed", says, &it.by, it.withdrawn.as_ref()), &it.of)
    };
    records.iter().filter(|it| about(&it.of)).map(one).collect()
}

/// Whether one thing's records are listed: then the panel is named, since the thing is not.
fn of_one(of: &Address, name: Name<'_>) -> bool {
    name(of).is_empty()
}

fn others(state: &State, about: About<'_>, name: Name<'_>, all: bool) -> Vec<Entry> {
    let records = &state.workbook.project().records;
    let mut found = Vec::new();
    for it in records.overrides.iter().filter(|it| about(&it.of)) {
        let says = format!("{}{}", name(&it.of), says(&it.reason));
        let word = if it.skips.is_empty() { "overruled" } else { "out of order" };
        found.push(leading(entry(it.date, &it.key, word, says, &it.by.join(" and "), None), &it.of));
    }
    for it in records.notes.iter().filter(|it| about(&it.of)) {
        let file = if it.file.is_empty() { String::new() } else { format!(" [{}]", clean(&it.file)) };
        let says = format!("{}{}{file}", name(&it.of), says(&it.text));
        found.push(leading(entry(it.date, &it.key, "note", says, &it.by, None), &it.of));
    }
    for it in records.log.iter().filter(|it| it.of.as_ref().map_or(all, about)) {
        let mut parts = vec![it.of.as_ref().map_or_else(String::new, |of| name(of).trim().to_owned())];
        parts.push(it.time.map_or_else(String::new, hours));
        parts.push(says(&it.text));
        parts.retain(|part| !part.is_empty());
        let line = entry(it.date, &it.key, &clean(&it.sort), parts.join(", "), &it.by, None);
        found.push(match &it.of {
            Some(of) => leading(line, of),
            None => line,
        });
    }
    found
}
