//! Bad project files, one fault each, with the exact diagnostics beside them.
//!
//! `SUNHARP_REWRITE=1 cargo test bad_files` writes the diagnostics again; look at the difference before you keep it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use sunharp::cli::problems::render;
use sunharp::project::{Fault, Project};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad")
}

/// Every bad file: its name, its text as read, and the project.
fn files() -> Vec<(String, String, Project)> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "toml"));
    paths.sort();
    paths
        .iter()
        .map(|path| {
            let (text, project) = Project::read_bytes(&fs::read(path).unwrap());
            (path.file_name().unwrap().to_string_lossy().into_owned(), text, project)
        })
        .collect()
}

#[test]
fn bad_files_give_exactly_the_diagnostics_beside_them() {
    let rewrite = std::env::var_os("SUNHARP_REWRITE").is_some();
    for (name, text, project) in files() {
        let shown = render(&name, &text, &project.problems);
        let beside = folder().join(&name).with_extension("expected");
        if rewrite {
            fs::write(&beside, &shown).unwrap();
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        assert_eq!(shown, expected, "{name}");
    }
}

#[test]
fn every_bad_file_has_exactly_one_fault() {
    for (name, _, project) in files() {
        assert_eq!(project.problems.len(), 1, "{name}: {:?}", project.problems);
    }
}

#[test]
fn every_kind_of_fault_occurs_among_the_bad_files() {
    let found: BTreeSet<&str> =
        files().iter().flat_map(|(_, _, project)| &project.problems).map(|problem| problem.fault.code()).collect();
    let declared: BTreeSet<&str> = Fault::CODES.into_iter().collect();
    assert_eq!(found, declared);
}

#[test]
fn the_place_printed_is_the_place_of_the_problem() {
    for (name, text, project) in files() {
        let shown = render(&name, &text, &project.problems);
        let place = format!("--> {name}:{}", project.problems[0].place);
        assert!(shown.lines().any(|line| line.trim_start() == place), "{place} is not in\n{shown}");
    }
}

#[test]
fn only_files_that_cannot_be_trusted_refuse_to_be_written() {
    for (name, _, project) in files() {
        let forbids = project.problems[0].fault.forbids_writing();
        let wanted = ["not-text", "syntax", "unknown-format", "newer-format"];
        assert_eq!(forbids, wanted.contains(&project.problems[0].fault.code()), "{name}");
        assert_eq!(project.read_only().is_some(), forbids, "{name}");
    }
}

#[test]
fn diagnostics_hold_no_character_that_a_terminal_would_obey() {
    for (name, text, project) in files() {
        let shown = render("n\u{1b}[31mame\u{202e}", &text, &project.problems);
        assert!(!shown.chars().any(|c| c.is_control() && c != '\n'), "{name}");
        assert!(!shown.contains(['\u{202e}', '\u{2066}', '\u{feff}']), "{name}");
    }
}
