//! Files that are no project, or almost one.

use super::*;

/// The code and the place of every problem.
fn problems(text: &str) -> Vec<String> {
    Project::read(text).problems.iter().map(|found| format!("{} {}", found.fault.code(), found.place)).collect()
}

fn messages(text: &str) -> Vec<String> {
    Project::read(text).problems.iter().map(|found| found.fault.to_string()).collect()
}

#[test]
fn an_entry_has_one_place_in_the_file() {
    let quoted = "format = 1\n\"absorber.riser_pitch\" = '4 in'\n";
    assert_eq!(
        messages(quoted),
        ["nothing is called '\"absorber.riser_pitch\"'; did you mean 'absorber.riser_pitch'?"]
    );
    assert!(Project::read(quoted).entries.is_empty());
    let ways = [
        "format = 1\nabsorber.riser_pitch = '4 in'\n",
        "format = 1\nabsorber = { riser_pitch = '4 in' }\n",
        "format = 1\n[absorber]\n\"riser_pitch\" = '4 in'\n",
    ];
    for text in ways {
        assert_eq!(problems(text), Vec::<String>::new());
        assert_eq!(Project::read(text).entries["absorber.riser_pitch"].typed, "4 in");
    }
}

#[test]
fn what_is_no_table_where_one_is_wanted_is_said_so() {
    let wrong = [
        ("absorber = 3", "nothing is called 'absorber'; it is a table, written [absorber]"),
        ("[[panel]]\nx = 1", "nothing is called 'panel'; it is a table, written [panel]"),
        ("log = 3", "'log' must be a day and a running number, such as 2026-04-18-1"),
        ("[[reading]]\nvalue = 1", "'reading' must be a day and a running number, such as 2026-04-18-1"),
        ("[note.\"site.tilt\"]\ntext = 'x'", "'text' must be a day and a running number, such as 2026-04-18-1"),
    ];
    for (text, message) in wrong {
        assert_eq!(messages(&format!("format = 1\n{text}\n")), [message]);
    }
}

#[test]
fn empty_tables_that_nothing_is_looked_for_in_are_reported() {
    assert_eq!(problems("format = 1\n[panel.A]\n[absorber]\n[log]\n"), Vec::<String>::new());
    assert_eq!(problems("format = 1\n[panels.A]\n[absorbr]\n"), ["unknown-key 2:9", "unknown-key 3:2"]);
}

#[test]
fn a_record_without_fields_and_one_with_fields_too_deep_are_reported() {
    let head = "format = 1\n[panel.A]\n";
    assert_eq!(problems(&format!("{head}[sign_off.\"absorber.buy\".2026-04-18-1]\n")), ["no-field 3:26"]);
    let deep = format!("{head}[log.2026-04-18-1]\ntext = 'x'\nby.name = 'y'\n");
    assert_eq!(messages(&deep), ["nothing is called 'by.name'"]);
}

#[test]
fn what_a_sign_off_saw_is_read_however_it_is_written() {
    let text = "format = 1\n[sign_off.\"absorber.buy\".2026-04-18-1]\nby = 'I'\nsaw = { \"absorber.riser_count\" = 11, \
                absorber.solder = 'x' }\n";
    let project = Project::read(text);
    assert_eq!(project.problems, []);
    let saw = &project.records.sign_offs[0].saw;
    assert_eq!((saw["absorber.riser_count"].as_str(), saw["absorber.solder"].as_str()), ("11", "x"));
}

#[test]
fn the_day_a_panel_was_started_is_a_day() {
    for day in ["2026-04-12", "'2026-04-12'"] {
        assert_eq!(problems(&format!("format = 1\n[panel.A]\nstarted = {day}\n")), Vec::<String>::new());
    }
    for day in ["3", "'soon'", "2026-04-12T10:00:00", "'20260412'"] {
        assert_eq!(problems(&format!("format = 1\n[panel.A]\nstarted = {day}\n")), ["wrong-sort 3:11"], "{day}");
    }
}

#[test]
fn a_reading_of_a_figure_is_read_as_its_kind() {
    let text = |typed: &str| format!("format = 1\n[reading.\"absorber.content\".2026-04-18-1]\nvalue = '{typed}'\n");
    assert!(Project::read(&text("2.1 L")).records.readings[0].value.is_some());
    assert_eq!(problems(&text("2.1 in")), ["entry 3:9"]);
    assert_eq!(
        problems("format = 1\n[reading.\"absorber.hole\".2026-04-18-1]\nvalue = '1 in'\n"),
        ["no-such-subject 2:26"]
    );
}

#[test]
fn a_file_that_is_no_text_is_read_only_and_its_fault_can_be_shown() {
    let (text, project) = Project::read_bytes(b"format = 1\n\xc3\x28 = 2\n");
    let problem = project.read_only().unwrap();
    assert_eq!(problem.fault.code(), "not-text");
    assert_eq!(&text[problem.span.clone()], "\u{fffd}");
}

#[test]
fn empty_and_bare_files_have_no_format_and_nothing_else() {
    for text in ["", "\n", "\u{feff}", "# only a comment", "\u{feff}\r\n"] {
        assert_eq!(problems(text).len(), 1, "{text:?}");
        assert!(Project::read(text).read_only().is_none());
    }
}

#[test]
fn nesting_without_end_is_an_error_and_not_a_crash() {
    let deep = 100_000;
    for text in [
        format!("{}x = 1\n", "a.".repeat(deep)),
        format!("[{}x]\ny = 1\n", "a.".repeat(deep)),
        format!("x = {}1{}\n", "[".repeat(deep), "]".repeat(deep)),
        format!("x = {}{}\n", "{ x = ".repeat(deep), "}".repeat(deep)),
    ] {
        assert!(!Project::read(&text).problems.is_empty());
    }
}

#[test]
fn a_huge_file_of_nonsense_is_read_to_its_end() {
    let lines = 20_000;
    let text = (0..lines).map(|line| format!("k{line} = {line}\n")).collect::<Vec<_>>().concat();
    let found = Project::read(&text).problems;
    assert_eq!(found.len(), lines + 1);
    assert_eq!(found.last().unwrap().place.line, lines);
    let long = "x".repeat(1 << 20);
    assert_eq!(problems(&format!("format = 1\n{long} = 1\n")), ["unknown-key 2:1"]);
}

#[test]
fn no_prefix_and_no_damaged_byte_of_a_file_brings_the_reader_down() {
    let sample = include_bytes!("../../../sample-projects/garden-washroom.toml");
    for end in (0..sample.len()).step_by(7) {
        Project::read_bytes(&sample[..end]);
    }
    for at in (0..sample.len()).step_by(11) {
        for byte in [b'"', b'\n', b'[', b'.', 0xff] {
            let mut damaged = sample.to_vec();
            damaged[at] = byte;
            Project::read_bytes(&damaged);
        }
    }
}
