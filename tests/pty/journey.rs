//! The journey that a new user takes, key by key.
//!
//! Before Escape the tests wait for the last row, and after it for the page: Escape and a letter that arrive together
//! are one key to a terminal.

use super::session::Session;

const RIGHT: &str = "\x1b[C";
const DOWN: &str = "\x1b[B";

#[test]
fn a_new_user_changes_the_pitch_sees_what_moves_undoes_ticks_a_step_explains_and_saves_one_line() {
    let mut session = Session::trial();
    let before = session.file();
    session.wait("Trial wash house").wait("[today]");
    session.press(RIGHT).press(RIGHT).press(DOWN).wait("── riser pitch ──");
    session.press("\r").wait("understood: 4 in = 101.6 mm");
    session.press("5 in").wait("figures would move, these most:");
    session.press("\r").wait("riser pitch = 5 in; ").wait("* unsaved");
    session.press("m").wait("riser pitch: 4 in -> 5 in");
    session.wait("Tab next link").press("\x1b").wait("? help").press("u").wait("undone: riser pitch = 5 in");
    session.press("fsheet bought\r").wait("── step ──").press("\r").wait("sign off: Tube");
    session.press("type M, wall 0.7 mm\r").wait("signed off: Tube").press("u").wait("undone: step");
    session
        .press("fstagnation temp")
        .wait("figure   stagnation temperature")
        .press("\r")
        .wait("── stagnation temperature ──");
    session.press("e").wait("the largest of standard, severe and site").wait("Tab next link");
    session.press("\x1b").wait("? help");
    session.press("friser pitch\r").wait("── riser pitch ──").press("\r5 in\r").wait("riser pitch = 5 in; ");
    session.press("s").wait("saved: project.toml").press("q");
    assert_eq!(session.end(), 0);
    session.terminal_is_given_back();
    let after = session.file();
    let changed: Vec<(&str, &str)> = before.lines().zip(after.lines()).filter(|(was, is)| was != is).collect();
    assert_eq!(changed, [("riser_pitch = \"4 in\"", "riser_pitch = \"5 in\"")]);
    assert_eq!(before.lines().count(), after.lines().count());
    assert!(session.drafts().is_empty());
}

#[test]
fn a_step_is_ticked_with_a_reading() {
    let mut session = Session::trial();
    session.wait("Trial wash house");
    for (find, evidence) in
        [("sheet bought", "all"), ("drill both", "1 mm"), ("cut 11", "0.5 mm"), ("dry-fit", "90 in")]
    {
        session.press(&format!("f{find}\r")).wait("Enter sign off");
        session.press("\r").wait("sign off: ").press(evidence).press("\r").wait("signed off: ");
    }
    session.press("s").wait("saved: ").press("q");
    assert_eq!(session.end(), 0);
    assert!(session.file().contains("value = \"90 in\""), "{}", session.file());
}

#[test]
fn pasted_text_stays_in_the_field_and_a_line_end_in_it_is_no_enter() {
    let mut session = Session::trial();
    session.wait("Trial wash house").press(RIGHT).press(RIGHT).press(DOWN).wait("── riser pitch ──");
    session.press("\r").wait("understood: 4 in");
    session
        .press("\x1b[200~5 in\r\x1b[201~")
        .wait("understood: 5 in = 127 mm")
        .press("\x1b")
        .wait("nothing was changed");
    session.press("q");
    assert_eq!(session.end(), 0);
}
