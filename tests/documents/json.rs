//! The page on JSON: it names every field that is printed, and no other.

use std::collections::BTreeSet;
use std::process::Command;

use serde_json::Value;

const PAGE: &str = include_str!("../../docs/json.md");

/// All keys of a value and of what is in it.
fn keys(value: &Value, into: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                into.insert(key.clone());
                keys(value, into);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| keys(item, into)),
        _ => {}
    }
}

fn printed(text: &str) -> BTreeSet<String> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("project.toml");
    std::fs::write(&path, text).unwrap();
    let output =
        Command::new(env!("CARGO_BIN_EXE_sunharp")).args(["show", path.to_str().unwrap(), "--json"]).output().unwrap();
    let mut found = BTreeSet::new();
    keys(&serde_json::from_slice(&output.stdout).unwrap(), &mut found);
    found
}

#[test]
fn every_field_that_is_printed_is_on_the_page() {
    let sample = sunharp::workbook::sample::TEXT;
    let more =
        "\n[sign_off.\"absorber.coupon\".2026-04-16-1]\nby = \"Ines\"\nsaw = { \"absorber.solder\" = \"other\" }\n";
    for key in printed(sample).iter().chain(&printed(&format!("{sample}{more}"))).chain(&printed("format = 1\nx = 1\n"))
    {
        assert!(PAGE.contains(&format!("`{key}`")), "{key}");
    }
}

#[test]
fn every_field_of_the_page_is_printed() {
    let found = printed(&format!("{}\n[x]\ny = 1\n", sunharp::workbook::sample::TEXT));
    let rows = PAGE.lines().filter(|line| line.starts_with("| `"));
    let fields = rows.map(|line| line[1..].split('|').next().unwrap());
    for field in fields.flat_map(|cell| cell.split('`').skip(1).step_by(2)) {
        assert!(found.contains(field), "{field}");
    }
}
