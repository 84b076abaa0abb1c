//! Imports go down only, and only a few files touch the world outside: read from the source itself.

use super::source::{self, Source};

/// The layers, low to high. Those of one row stand beside each other and do not know each other.
const LAYERS: &[&[&str]] = &[
    &["units"],
    &["physics"],
    &["handbook"],
    &["model"],
    &["scene"],
    &["climate", "logger"],
    &["year"],
    &["stage"],
    &["solve"],
    &["project"],
    &["workbook"],
    &["book"],
    &["cli", "tui"],
    &["main"],
];

/// A part of another layer's folder that is a layer of its own.
const PARTS: &[(&str, &str)] = &[("model/scene", "scene")];

/// The modules of the standard library that reach the world outside; `time` stands for any clock.
const GUARDED: &[&str] = &["fs", "env", "time", "process", "thread", "net"];

/// Who may reach what. A path stands for the file and for the folder of its name.
const ALLOWED: &[(&str, &[&str])] = &[
    ("project/store", &["fs", "time", "process"]),
    ("project/draft", &["fs"]),
    ("climate/prepare", &["thread"]),
    ("workbook/desk", &["thread"]),
    ("workbook/revision", &["process"]),
    ("cli", &["env", "process", "fs", "thread", "time"]),
    ("tui", &["env", "process", "fs", "thread", "time"]),
    ("main", &["env", "process", "fs", "thread", "time"]),
];

/// Everything that a file does against the two tables.
fn violations(source: &Source) -> Vec<String> {
    let stem = source.path.trim_end_matches(".rs");
    if stem == "lib" {
        return Vec::new();
    }
    let Some(own) = layer_of_file(stem) else {
        return vec![format!("{}: no layer is called so; add it to the table", source.path)];
    };
    source::paths(&source.code)
        .iter()
        .filter_map(|path| climbs(stem, own, path).or_else(|| reaches_out(stem, path)))
        .map(|complaint| format!("{}: {complaint}", source.path))
        .collect()
}

/// The layer that a file belongs to, by its path without the ending.
fn layer_of_file(stem: &str) -> Option<&'static str> {
    let part = PARTS.iter().find(|(path, _)| is_at_or_under(stem, path)).map(|(_, layer)| *layer);
    let name = part.or_else(|| stem.split('/').next())?;
    LAYERS.iter().copied().flatten().find(|layer| **layer == name).copied()
}

/// The row of a layer in the table, counted from below.
fn row(layer: &str) -> Option<usize> {
    LAYERS.iter().position(|row| row.contains(&layer))
}

fn is_at_or_under(stem: &str, path: &str) -> bool {
    stem.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}

/// The complaint if a path of names leads to a higher layer or to one beside the file's own.
fn climbs(stem: &str, own: &str, path: &[String]) -> Option<String> {
    let below_root = from_root(stem, path)?;
    let shown = path.join("::");
    let Some(target) = layer_of_file(&below_root.join("/")) else {
        return Some(format!("{shown} leads to no known layer"));
    };
    (target != own && row(target) >= row(own)).then(|| format!("{shown} climbs"))
}

/// The names below the root of the crate; none if the path does not begin there.
fn from_root<'a>(stem: &str, path: &'a [String]) -> Option<&'a [String]> {
    match path.first()?.as_str() {
        "crate" | "sunharp" if path.len() > 1 => Some(&path[1..]),
        "super" => {
            let ups = path.iter().take_while(|name| *name == "super").count();
            let depth = stem.split('/').count();
            let rest = &path[ups..];
            let names_a_layer = rest.first().is_some_and(|name| row(name).is_some());
            (ups >= depth && names_a_layer).then_some(rest)
        }
        _ => None,
    }
}

/// The complaint if a path of names reaches the world outside where it must not.
fn reaches_out(stem: &str, path: &[String]) -> Option<String> {
    let names: Vec<&str> = path.iter().map(String::as_str).collect();
    let reached = match names.as_slice() {
        ["std", "*"] => "*",
        ["std", module, ..] if GUARDED.contains(module) => module,
        [_, .., "now"] => "time",
        _ => return None,
    };
    let allowed = ALLOWED.iter().any(|(path, modules)| is_at_or_under(stem, path) && modules.contains(&reached));
    (!allowed).then(|| format!("{} reaches out of the program", path.join("::")))
}

#[test]
fn imports_go_down_only_and_few_files_reach_out() {
    let found: Vec<String> = source::all().iter().flat_map(violations).collect();
    assert!(found.is_empty(), "\n{}", found.join("\n"));
}

#[test]
fn planted_violations_are_caught() {
    let planted = [
        ("physics/fin.rs", "use crate::model::Fig;", "crate::model::Fig climbs"),
        ("physics/fin.rs", "use crate::{units::si, stage::Group};", "crate::stage::Group climbs"),
        ("physics/fin.rs", "fn f() { crate::solve::evaluate() }", "crate::solve::evaluate climbs"),
        ("solve/judge.rs", "use super::super::workbook::Workbook;", "super::super::workbook::Workbook climbs"),
        ("project.rs", "use super::workbook;", "super::workbook climbs"),
        ("climate/raw.rs", "use crate::logger::Log;", "crate::logger::Log climbs"),
        ("tui/screen.rs", "use crate::cli::Failure;", "crate::cli::Failure climbs"),
        ("model/entry.rs", "use crate::model::scene::Scene;", "crate::model::scene::Scene climbs"),
        ("stage/site.rs", "use crate::gui::Window;", "crate::gui::Window leads to no known layer"),
        ("stage/site.rs", "use std::{sync::Arc, fs::File};", "std::fs::File reaches out of the program"),
        ("stage/site.rs", "let now = jiff::Zoned::now();", "jiff::Zoned::now reaches out of the program"),
        ("workbook/find.rs", "use std::thread;", "std::thread reaches out of the program"),
        ("book/page.rs", "use std::fs;", "std::fs reaches out of the program"),
        ("gui.rs", "", "no layer is called so; add it to the table"),
    ];
    for (path, code, expected) in planted {
        assert_eq!(violations(&Source::of(path, code)), [format!("{path}: {expected}")]);
    }
}

#[test]
fn what_is_allowed_passes() {
    let allowed = [
        ("stage/site.rs", "use crate::{model::Fig, climate::Climate}; use super::World; // crate::workbook"),
        ("stage/absorber/rows.rs", "use crate::model::scene::Scene; use super::super::Figure;"),
        ("workbook/desk.rs", "use std::thread;"),
        ("project/store.rs", "use std::fs::{self, File}; use std::time::SystemTime; SystemTime::now();"),
        ("handbook/tube.rs", "use std::sync::LazyLock; const TEXT: &str = \"std::fs\";"),
        ("main.rs", "use sunharp::cli; use std::env;"),
    ];
    for (path, code) in allowed {
        assert_eq!(violations(&Source::of(path, code)), Vec::<String>::new());
    }
}
