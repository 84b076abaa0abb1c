//! Records that two builders made on one day under one number: both stay, one of them under the next free number.
//!
//! Which one moves hangs on what they say, not on whose they are, so that the order of the sides makes no difference.

use std::collections::BTreeSet;

use crate::project::edit::key_text;
use crate::project::outline::{Outline, Section};
use crate::project::records::{day_of_key, names};

/// Gives new numbers where two different new records have the same.
pub fn records(base: &Outline, ours: &mut Outline, theirs: &mut Outline) {
    let paths =
        |outline: &Outline| outline.sections.iter().map(|section| section.path.clone()).collect::<BTreeSet<_>>();
    let mut taken: BTreeSet<Vec<String>> = paths(base);
    taken.extend(paths(ours));
    taken.extend(paths(theirs));
    for path in paths(ours).intersection(&paths(theirs)) {
        let (Some(mine), Some(yours)) = (ours.section(path), theirs.section(path)) else { continue };
        if !is_record(path) || base.section(path).is_some() || says(mine) == says(yours) {
            continue;
        }
        let moves = if says(mine) < says(yours) { &mut *theirs } else { &mut *ours };
        let free = next_free(path, &taken);
        taken.insert(free.clone());
        if let Some(section) = moves.sections.iter_mut().find(|section| section.path == *path) {
            rename(section, &free);
        }
    }
}

fn is_record(path: &[String]) -> bool {
    let depth = if path.first().is_some_and(|first| first == "log") { 2 } else { 3 };
    path.len() == depth && names(path).is_some_and(|(_, _, key)| day_of_key(key).is_some())
}

/// What a record says, whatever the order of its lines.
fn says(section: &Section) -> Vec<(&[String], &str)> {
    let mut lines: Vec<(&[String], &str)> =
        section.items.iter().map(|item| (item.path.as_slice(), item.value.as_str())).collect();
    lines.sort_unstable();
    lines
}

fn next_free(path: &[String], taken: &BTreeSet<Vec<String>>) -> Vec<String> {
    let mut free = path.to_vec();
    let day = path.last().and_then(|key| key.rsplit_once('-')).map_or("", |(day, _)| day).to_owned();
    let mut number = 1_u32;
    while taken.contains(&free) {
        if let Some(key) = free.last_mut() {
            *key = format!("{day}-{number}");
        }
        number += 1;
    }
    free
}

fn rename(section: &mut Section, path: &[String]) {
    for item in &mut section.items {
        item.path.splice(..path.len(), path.iter().cloned());
    }
    section.header = format!("[{}]", path.iter().map(|key| key_text(key)).collect::<Vec<_>>().join("."));
    section.path = path.to_vec();
}
