//! Words that this program never prints: nothing here is ever vouched for.

use std::path::Path;

use super::none;
use crate::source;

const FORBIDDEN: [&str; 5] = ["safe", "ok", "fine", "harmless", "approved"];

/// The forbidden words that stand whole in a text.
fn forbidden(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric() && c != '_')
        .map(str::to_lowercase)
        .filter(|word| FORBIDDEN.contains(&word.as_str()))
        .collect()
}

#[test]
fn whole_words_are_found_and_parts_of_words_are_not() {
    assert_eq!(forbidden("It is SAFE, OK?"), ["safe", "ok"]);
    assert_eq!(forbidden("fail-safe"), ["safe"]);
    assert_eq!(forbidden("safety.lead, finest, took, unsafe_code"), Vec::<String>::new());
}

#[test]
fn no_string_of_the_program_vouches_for_anything() {
    let mut complaints = Vec::new();
    for source in source::all() {
        for (line, text) in &source.literals {
            for word in forbidden(text) {
                complaints.push(format!("src/{}:{line}: '{word}' in \"{text}\"", source.path));
            }
        }
    }
    none(&complaints);
}

#[test]
fn no_table_of_the_handbook_vouches_for_anything() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/handbook/tables");
    let mut complaints = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let text = std::fs::read_to_string(entry.path()).unwrap();
        for (at, line) in text.lines().enumerate() {
            for word in forbidden(line) {
                complaints.push(format!("{}:{}: '{word}'", entry.file_name().display(), at + 1));
            }
        }
    }
    none(&complaints);
}
