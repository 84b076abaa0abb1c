//! The page on the project file: every example in it can be read, and what it says about order holds.

use sunharp::project::{Project, edit};
use sunharp::workbook::sample;

const PAGE: &str = include_str!("../../docs/project-file.md");

/// Every example of the page; one that is only a part of a file gets the format line in front.
fn examples() -> Vec<String> {
    PAGE.split("```toml\n")
        .skip(1)
        .map(|rest| rest.split("```").next().unwrap().to_owned())
        .map(|text| if text.starts_with("format") { text } else { format!("format = 1\n\n{text}") })
        .collect()
}

#[test]
fn every_example_can_be_read_without_a_problem() {
    assert!(examples().len() >= 8);
    for text in examples() {
        assert_eq!(Project::read(&text).problems, [], "{text}");
    }
}

#[test]
fn the_examples_show_every_sort_of_record() {
    let projects: Vec<Project> = examples().iter().map(|text| Project::read(text)).collect();
    let any = |has: fn(&Project) -> bool| projects.iter().any(has);
    assert!(any(|project| !project.records.readings.is_empty()));
    assert!(any(|project| !project.records.sign_offs.is_empty()));
    assert!(any(|project| project.records.sign_offs.iter().any(|record| record.withdrawn.is_some())));
    assert!(any(|project| !project.records.overrides.is_empty()));
    assert!(any(|project| !project.records.notes.is_empty()));
    assert!(any(|project| !project.records.log.is_empty()));
    assert!(any(|project| !project.variants.is_empty()));
    assert!(any(|project| !project.panels.is_empty()));
}

#[test]
fn new_sections_go_where_the_page_says() {
    let mut text = "format = 1\n".to_owned();
    let panel: [(&str, edit::Written); 0] = [];
    let words = [("text", edit::Written::Text("words".to_owned()))];
    let add = |text: &str, path: &[&str], fields: &[(&str, edit::Written)]| {
        edit::add_table(text, &Project::read(text), path, fields).unwrap().apply(text).unwrap()
    };
    text = add(&text, &["log", "2026-05-02-1"], &words);
    text = add(&text, &["note", "absorber.riser_pitch", "2026-05-02-1"], &words);
    text = add(&text, &["panel", "A"], &panel);
    for id in ["plumbing.people", "site.altitude", "absorber.riser_count", "project.name"] {
        let typed = if id == "site.altitude" { "10 m" } else { "4" };
        text = edit::set_entry(&text, &Project::read(&text), id, typed).unwrap().apply(&text).unwrap();
    }
    let sections: Vec<&str> = text
        .lines()
        .filter(|line| line.starts_with('['))
        .map(|line| line.trim_start_matches('[').split(['.', ']']).next().unwrap())
        .collect();
    let stated = PAGE.split("The order is: ").nth(1).unwrap();
    let place = |section: &str| stated.find(&format!("`{section}`")).or_else(|| stated.find("the six stages")).unwrap();
    assert_eq!(sections, ["project", "site", "absorber", "plumbing", "panel", "note", "log"], "{text}");
    assert!(sections.is_sorted_by_key(|section| place(section)));
}

#[test]
fn every_section_of_the_sample_is_on_the_page() {
    for header in Project::read(sample::TEXT).document.headers {
        assert!(PAGE.contains(&format!("`{}`", header.path[0])), "{}", header.path[0]);
    }
}
