//! Edits of files that people wrote by hand in every way that TOML allows.

use super::*;

const PITCH: &str = "absorber.riser_pitch";

fn set(text: &str, id: &str, typed: &str) -> Result<String, EditError> {
    set_entry(text, &Project::read(text), id, typed).and_then(|splice| {
        let after = splice.apply(text)?;
        assert_eq!(splice.inverse().apply(&after)?, text);
        Ok(after)
    })
}

fn unset(text: &str, id: &str) -> Result<String, EditError> {
    unset_entry(text, &Project::read(text), id)?.apply(text)
}

#[test]
fn a_key_is_put_where_its_table_is_whatever_way_it_is_written() {
    let cases = [
        ("", "[absorber]\nriser_pitch = \"4 in\"\n"),
        ("format = 1", "format = 1\n\n[absorber]\nriser_pitch = \"4 in\"\n"),
        ("[absorber]", "[absorber]\nriser_pitch = \"4 in\""),
        ("[absorber]\r\nriser_count = 11 # n", "[absorber]\r\nriser_count = 11 # n\r\nriser_pitch = \"4 in\""),
        ("absorber.riser_count = 11\n", "absorber.riser_count = 11\nabsorber.riser_pitch = \"4 in\"\n"),
        ("\u{feff}absorber.riser_count = 11", "\u{feff}absorber.riser_count = 11\nabsorber.riser_pitch = \"4 in\""),
        ("absorber = { riser_count = 11 }\n", "absorber = { riser_count = 11, riser_pitch = \"4 in\" }\n"),
        ("[absorber] # µ\nriser_pitch = '5 in' # ¾\n", "[absorber] # µ\nriser_pitch = \"4 in\" # ¾\n"),
        ("[plumbing]\n[site]\n", "[absorber]\nriser_pitch = \"4 in\"\n\n[plumbing]\n[site]\n"),
    ];
    for (before, after) in cases {
        assert_eq!(set(before, PITCH, "4 in").as_deref(), Ok(after), "{before}");
    }
}

#[test]
fn a_key_is_taken_out_and_nothing_else_is() {
    let cases = [
        ("[absorber]\nriser_pitch = '4 in' # ¾\nriser_count = 11", "[absorber]\nriser_count = 11"),
        ("[absorber]\r\nriser_pitch = '4 in'\r\n", "[absorber]\r\n"),
        ("absorber.riser_pitch = '4 in'", ""),
        ("absorber = { riser_count = 11, riser_pitch = '4 in' }", "absorber = { riser_count = 11 }"),
        ("absorber = { riser_pitch = '4 in' , riser_count = 11 }", "absorber = { riser_count = 11 }"),
    ];
    for (before, after) in cases {
        assert_eq!(unset(before, PITCH).as_deref(), Ok(after), "{before}");
    }
    assert_eq!(unset("[absorber]\n", PITCH), Err(EditError::NotThere(PITCH.to_owned())));
}

#[test]
fn what_the_file_may_not_hold_is_refused_in_the_words_of_the_fault() {
    let refused = set("format = 1\n", "absorber.riser_wall", "1 mm").unwrap_err();
    assert_eq!(refused, EditError::Refused(Fault::OnlyMeasured("absorber.riser_wall".to_owned())));
    let spill = set("absorber = 3\n", PITCH, "4 in").unwrap_err();
    assert_eq!(spill, EditError::WouldSpill(PITCH.to_owned()));
}

#[test]
fn a_string_that_looks_like_a_table_is_left_alone() {
    let text = "[project]\nname = \"\"\"\n[absorber]\n# riser_pitch\"\"\"\n[site]\n";
    let after = set(text, PITCH, "4 in");
    assert!(after.is_err() || after.as_ref().is_ok_and(|after| after.contains("\n[absorber]\n# riser_pitch\"\"\"\n")));
}

#[test]
fn typed_text_cannot_break_out_of_its_quotes() {
    for typed in ["\"", "'", "'\"\\", "a\nb = 1", "\u{7f}\u{0}\u{1b}", "\"\"\"", "''' # x", "¾ µ 給湯 \u{202e}"] {
        let after = set("format = 1\n", "project.name", typed).unwrap();
        let project = Project::read(&after);
        assert!(project.problems.is_empty(), "{after}: {:?}", project.problems);
        assert_eq!(project.entries["project.name"].typed, typed.trim());
    }
}

#[test]
fn a_splice_for_another_text_is_refused() {
    let splice = Splice { at: 1, old: "a".to_owned(), new: "b".to_owned() };
    for text in ["", "a", "µa", "ba\u{301}", "bb"] {
        assert!(splice.apply(text).is_err() || text.as_bytes()[1] == b'a');
    }
    let behind = Splice { at: usize::MAX - 1, old: "a".to_owned(), new: String::new() };
    assert_eq!(behind.apply("a"), Err(EditError::Moved));
}
