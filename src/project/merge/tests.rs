//! Small merges whose result can be said beforehand.

use super::*;

const BASE: &str = "format = 1\n\n[absorber]\nriser_count = 11 # as bought\nriser_pitch = \"4 in\"\n\n[plumbing]\ntank = \"140 gal\"\n";

fn merged(ours: &str, theirs: &str) -> Merged {
    merge(BASE, ours, theirs).unwrap()
}

#[test]
fn a_change_of_one_side_is_taken_with_its_comment() {
    let theirs = BASE.replace("\"4 in\"", "\"5 in\" # Tomas, by tape");
    assert_eq!(merged(BASE, &theirs), Merged { text: theirs.clone(), conflicts: Vec::new() });
    assert_eq!(merged(&theirs, BASE).text, theirs);
}

#[test]
fn both_stay_when_two_builders_tick_on_one_day() {
    let record = |by: &str| format!("{BASE}\n[log.2026-04-18-1]\nby = \"{by}\"\n");
    let one = merged(&record("Ines"), &record("Tomas"));
    let other = merged(&record("Tomas"), &record("Ines"));
    assert_eq!(one, other);
    let end = "[log.2026-04-18-1]\nby = \"Ines\"\n\n[log.2026-04-18-2]\nby = \"Tomas\"\n";
    assert!(one.text.ends_with(end), "{}", one.text);
}

#[test]
fn one_record_that_came_by_two_ways_stays_one() {
    let ours = format!("{BASE}\n[log.2026-04-18-1]\nby = \"Ines\"\n");
    assert_eq!(merged(&ours, &ours).text, ours);
}

#[test]
fn what_both_changed_is_kept_twice_and_marked() {
    let found = merged(&BASE.replace("4 in", "5 in"), &BASE.replace("4 in", "6 in"));
    let mark = "[conflict.\"absorber.riser_pitch\"]\nbase = \"4 in\"\nours = \"5 in\"\ntheirs = \"6 in\"\n";
    assert!(found.text.contains("riser_pitch = \"5 in\"\n") && found.text.ends_with(mark), "{}", found.text);
    assert_eq!(found.conflicts.len(), 1);
}

#[test]
fn what_one_changed_and_the_other_took_out_stays_and_is_marked() {
    let without = BASE.replace("riser_pitch = \"4 in\"\n", "");
    let changed = BASE.replace("4 in", "5 in");
    for found in [merged(&without, &changed), merged(&changed, &without)] {
        assert!(found.text.contains("riser_pitch = \"5 in\"") && found.conflicts.len() == 1, "{}", found.text);
    }
    assert_eq!(merged(&without, BASE).text, without);
    assert_eq!(merged(BASE, &without).text, without);
}

#[test]
fn comments_of_both_sides_stay() {
    let ours = BASE.replace("# as bought", "# Ines: eleven").replace("[plumbing]", "# the cellar\n[plumbing]");
    let theirs =
        BASE.replace("# as bought", "# Tomas: eleven").replace("[plumbing]", "# warm side\n[plumbing]") + "# end\n";
    let (one, other) = (merged(&ours, &theirs), merged(&theirs, &ours));
    assert_eq!(one, other);
    for words in ["# Ines: eleven", "# Tomas: eleven", "# the cellar", "# warm side", "# end"] {
        assert!(one.text.contains(words), "{words} in\n{}", one.text);
    }
}

#[test]
fn a_table_that_one_side_took_out_goes_and_new_comments_stay() {
    let without = BASE.replace("\n[plumbing]\ntank = \"140 gal\"\n", "");
    assert_eq!(merged(BASE, &without).text, without);
    let remark = BASE.replace("[plumbing]", "# the cellar\n[plumbing]");
    for found in [merged(&remark, &without), merged(&without, &remark)] {
        assert!(found.text.contains("# the cellar") && !found.text.contains("[plumbing]"), "{}", found.text);
    }
}

#[test]
fn line_ends_and_mark_of_our_side_stay() {
    let ours = format!("\u{feff}{}", BASE.replace('\n', "\r\n"));
    let found = merged(&ours, &BASE.replace("140 gal", "120 gal"));
    assert_eq!(found.text, ours.replace("140 gal", "120 gal"));
}

#[test]
fn a_line_without_an_end_is_closed_before_another_follows() {
    let found = merged(BASE.trim_end(), &format!("{BASE}people = 3\n"));
    assert_eq!(found.text, format!("{BASE}people = 3\n"));
}

#[test]
fn a_broken_side_is_named() {
    assert!(matches!(merge(BASE, BASE, "a = "), Err(MergeError::Broken(Side::Theirs, _))));
}

#[test]
fn a_table_written_in_two_ways_is_left_to_people() {
    let ours = "format = 1\nabsorber = { riser_count = 11 }\n";
    let theirs = "format = 1\n\n[absorber]\nriser_pitch = \"4 in\"\n";
    assert!(matches!(merge("format = 1\n", ours, theirs), Err(MergeError::TwoWays(_))));
}
