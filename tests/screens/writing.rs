//! What is written down: notes with files, the log, hours, overrulings, readings taken back, panels; undone again.

use std::time::Duration;

use sunharp::tui::event::Input;

use super::harness::{Play, TRIAL};

/// Chooses the answer that holds a text.
fn choose(play: &mut Play, text: &str) {
    for _ in 0..20 {
        let here = play.screen().lines().any(|line| line.starts_with('›') && line.contains(text));
        if here {
            play.press("<Enter>");
            return;
        }
        play.press("<Down>");
    }
    panic!("{text:?} cannot be chosen:\n{}", play.screen());
}

#[test]
fn a_note_on_a_step_keeps_the_checksum_of_its_file() {
    let mut play = Play::trial();
    let photo = play.path().with_file_name("joint.jpg");
    std::fs::write(&photo, "abc").unwrap();
    play.press("fsheet bought<Enter>c").shows("write down");
    choose(&mut play, "a note on Tube");
    play.press("two tubes dented<Enter><Enter>missing.jpg<Enter>").shows("the file 'missing.jpg'");
    play.press("<Ctrl-U>joint.jpg<Enter>").shows("note on Tube");
    // FIPS 180-4's one-block message: the digest of "abc".
    let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    let text = play.state.workbook.text().to_owned();
    assert!(text.contains("file = \"joint.jpg\"") && text.contains(digest), "{text}");
    play.press("l").shows("note two tubes dented [joint.jpg]").press("<Esc>u");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn the_time_of_a_step_is_counted_and_becomes_the_estimate_for_the_next_panel() {
    let mut play = Play::trial();
    play.press("fsheet bought<Enter><Enter>all<Enter>");
    play.press("fdrill both<Enter>p<Home>fdrill both<Enter>c");
    choose(&mut play, "start counting the time that it takes");
    play.shows("the time on it counts").give(Input::Time(Duration::from_mins(90))).press("c");
    choose(&mut play, "stop counting the time: 90 min so far");
    play.press("<Enter>").press("<Enter>").shows("90 min on Mark both headers");
    let text = play.state.workbook.text().to_owned();
    assert!(text.contains("sort = \"hours\"") && text.contains("of = \"absorber.drill-headers@A\""), "{text}");
    play.at_the_day();
    let mut day = String::new();
    for _ in 0..12 {
        day += &play.press("<Down>").screen();
    }
    assert!(day.contains("about 90 min as on A"), "{day}");
}

#[test]
fn a_log_entry_and_a_panel_are_added_and_undone() {
    let mut play = Play::trial();
    play.press("c");
    choose(&mut play, "the log: test");
    play.press("<Enter>").press("<Enter>").shows("who").press("<Enter>").shows("write down what happened");
    play.press("<Esc>c");
    choose(&mut play, "the log: test");
    play.press("pinhole at joint 4<Enter>").press("fault<Enter>").press("<Enter>").shows("log: pinhole");
    assert!(play.state.workbook.text().contains("sort = \"fault\""), "{}", play.state.workbook.text());
    play.press("c");
    choose(&mut play, "add panel D");
    play.shows("panel D added");
    assert!(play.state.workbook.text().contains("[panel.D]"));
    play.press("uu");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn a_reading_is_taken_back_with_a_reason_and_stays_in_the_file() {
    let mut play = Play::trial();
    play.press("friser pitch<Enter>r4 1/16 in<Enter>").press("<Enter>tape<Enter>").press("<Down><Down><Enter>");
    play.shows("reading of riser pitch on p").press("c");
    choose(&mut play, "take back the reading 4 1/16 in on panel B");
    play.press("<Enter>").shows("say why it is taken back").press("read at the wrong hole<Enter>");
    play.shows("reading of riser pitch on p").press("l").shows("taken back: read at");
    let text = play.state.workbook.text();
    assert!(
        text.contains("value = \"4 1/16 in\"") && text.contains("withdrawn = \"read at the wrong hole\""),
        "{text}"
    );
    play.press("<Esc>uu");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn a_stop_is_overruled_with_a_reason_and_two_names_only() {
    let mut play = Play::trial();
    // Diagonals that differ by far more than the fixture allows.
    play.press("fdiagonal one<Enter>");
    let text = format!(
        "{TRIAL}\n[reading.\"absorber.diagonal_1@A\".2026-05-01-1]\nvalue = \"90 in\"\nby = \"Ines\"\n\n\
         [reading.\"absorber.diagonal_2@A\".2026-05-01-1]\nvalue = \"88 in\"\nby = \"Ines\"\n"
    );
    let mut play = Play::of(&text, super::harness::FULL, (80, 24));
    play.press("fabsorber.square<Enter>c").shows("overrule this stop");
    choose(&mut play, "overrule this stop");
    play.press("racked back since<Enter><Enter>Ines<Enter>").shows("two people decide this together");
    play.press("<Ctrl-U>Tomas<Enter>").shows("overruled: ");
    play.shows("overruled");
    let written = play.state.workbook.text().to_owned();
    assert!(written.contains("by = [\"Ines\", \"Tomas\"]"), "{written}");
    let judged = play.state.workbook.evaluation().verdict("absorber.square").unwrap().clone();
    assert!(judged.overruled.is_some() && !judged.blocks());
    play.press("u");
    assert_eq!(play.state.workbook.text(), text);
}
