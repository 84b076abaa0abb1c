//! The page on units against the declared table.

use sunharp::units::{Kind, parse, table};

const PAGE: &str = include_str!("../../docs/units.md");

/// The text under the heading that names a kind, up to the next heading; nothing if there is none.
fn section(kind: Kind) -> &'static str {
    let noun = table::of(kind).noun;
    let name = noun.split_once(' ').map_or(noun, |(_article, name)| name);
    let is_named = |part: &&str| part.lines().next().is_some_and(|line| line.to_lowercase() == name);
    PAGE.split("\n### ").find(is_named).unwrap_or_default()
}

#[test]
fn every_spelling_of_every_unit_is_on_the_page() {
    for kind in Kind::ALL {
        for unit in table::of(kind).units.iter().filter(|unit| !unit.symbol.is_empty()) {
            for spelling in unit.spellings() {
                assert!(section(kind).contains(&format!("`{spelling}`")), "{kind:?} {spelling}");
            }
            assert!(unit.prefix.is_empty() || section(kind).contains(&format!("`{}", unit.prefix)), "{}", unit.prefix);
        }
    }
}

#[test]
fn every_unit_that_stands_for_a_kind_in_print_is_named_on_the_page() {
    for kind in Kind::ALL.into_iter().filter(|kind| !table::of(*kind).is_unitless()) {
        let line = section(kind).lines().find(|line| line.starts_with("Printed: ")).unwrap_or_default();
        for rung in table::of(kind).si.iter().chain(table::of(kind).us) {
            assert!(line.contains(&format!("`{}`", rung.symbol)), "{kind:?} {}", rung.symbol);
        }
    }
}

#[test]
fn every_example_of_a_kind_can_be_typed() {
    for kind in Kind::ALL {
        let line = section(kind).lines().find(|line| line.starts_with("Example")).unwrap_or_default();
        for example in line.split('`').skip(1).step_by(2) {
            assert!(parse(kind, example).is_ok(), "{kind:?} {example}");
        }
    }
}

#[test]
fn the_page_names_no_kind_twice() {
    let headings: Vec<&str> = PAGE.lines().filter(|line| line.starts_with("### ")).collect();
    assert_eq!(headings.len(), Kind::ALL.len());
}

#[test]
fn every_synonym_of_a_factor_is_on_the_page() {
    for (typed, meant) in sunharp::units::SYNONYMS {
        assert!(PAGE.contains(&format!("`{typed}` for `{meant}`")), "{typed}");
    }
}
