//! Days in the shop with the real program: a first project, a session on panel B, a recheck at the bench, a power cut.

use rustix::process::Signal;

use super::session::Session;

const RIGHT: &str = "\x1b[C";
const DOWN: &str = "\x1b[B";

/// Opens the find line, types, goes to what was found and waits until its line is there.
fn go_to(session: &mut Session, typed: &str, shown: &str) {
    session.press("f").wait("Enter go to it").press(typed).wait(shown).press("\r").wait("? help");
}

#[test]
fn a_first_project_goes_from_an_empty_file_to_its_first_answer() {
    let mut session = Session::with(&["project.toml"], &[]);
    session.press("q");
    assert_eq!(session.end(), 0);
    std::fs::write(session.folder().join("project.toml"), "format = 1\n").unwrap();
    let mut session = session.again();
    session.wait("Learn by doing").wait("[ ] Right turns the page").press("\x1b[F").wait("checks wait");
    for (entry, typed) in [
        ("absorber.riser_count", "11"),
        ("absorber.riser_pitch", "4 in"),
        ("absorber.stub_left", "2 in"),
        ("absorber.stub_right", "2 in"),
        ("absorber.header_spacing", "80 in"),
        ("absorber.riser_tube", "1/2 in type m"),
        ("absorber.header_tube", "1 in type m"),
    ] {
        session.press("f").wait("Enter go to it").press(&format!("{entry}\r")).wait("Enter edit");
        session.press("\r").wait("── ").press(&format!("{typed}\r")).wait(" moved");
    }
    // By hand: a left stub of 2 in, half a pitch of sheet, ten pitches of 4 in: the last hole at 44 in, 1117.6 mm.
    session.press("fabsorber.hole.11").wait("hole from").press("\r").wait("1117.6 mm");
    session.press("s").wait("saved: ").press("q");
    assert_eq!(session.end(), 0);
    assert!(session.file().contains("riser_count = 11"), "{}", session.file());
}

#[test]
fn a_session_on_panel_b_corrects_a_wrong_tick_and_sees_a_reading_out_of_tolerance() {
    let mut session = Session::trial();
    session.wait("Trial wash house").wait("[today]");
    go_to(&mut session, "sheet bought", "step");
    session.press("\r").wait("sign off: Tube").press("type M\r").wait("signed off: ");
    // At the bench, on panel B: a hole card is ticked too early and taken back without typing.
    session.press("b").wait("Space tick").press("p").wait("panel B").press("fabsorber.hole.2").wait("figure");
    session.press("\r").wait("riser 2 of 11").wait("[ ] open");
    session.press(" ").wait("sign off: Mark").press("1 mm\r").wait("[x] done");
    session.press(" ").wait("take it back?").press(DOWN).press("\r").wait("[ ] open");
    session.press(" ").wait("sign off: Mark").press("0.5 mm\r").wait("[x] done");
    session.press("\x1b").wait("[absorber");
    // The two diagonals differ by far more than the square check lets pass.
    session.press("s").wait("saved: ");
    let records = session.file();
    let saved: Vec<&str> =
        records.lines().filter(|line| line.starts_with("[sign_off.\"absorber.drill-headers@B\"")).collect();
    assert_eq!(saved.len(), 2, "{records}");
    assert!(records.contains("withdrawn = \"ticked by mistake\""), "{records}");
    for (entry, value) in [("absorber.diagonal_1", "90 in"), ("absorber.diagonal_2", "88 in")] {
        session.press("f").wait("Enter go to it").press(&format!("{entry}\r")).wait("r ");
        session.press("r").wait("reading of ").press(value).press("\r\r\r").wait("type to narrow");
        session.press(DOWN).press(DOWN).press("\r").wait(" moved");
    }
    session.press("f").wait("Enter go to it").press("absorber.square\r").wait("── check ──").wait("stop");
    session.press("s").wait("saved: ").press("q");
    assert_eq!(session.end(), 0);
    assert!(session.file().contains("[reading.\"absorber.diagonal_2@B\"."), "{}", session.file());
}

#[test]
fn three_numbers_are_rechecked_at_the_bench_within_five_keys_each() {
    let mut session = Session::trial();
    session.wait("Trial wash house").wait("[today]").press("fabsorber.hole.1").wait("hole").press("\r").wait("? help");
    session.press("b").wait("riser 1 of 11");
    session.press(DOWN).press(DOWN).wait("riser 3 of 11");
    session.press("\t").press("\t").press("\t").press("\t").wait("Space tick");
    // In the real type: the pitch of 4 in now stands where the hole stood.
    session.until("the pitch in the large type", || {
        session.text().lines().nth(1).is_some_and(|row| row.contains("pitch"))
    });
    session.press("\x1b").wait("[absorber").press("q");
    assert_eq!(session.end(), 0);
}

#[test]
fn a_kill_in_the_middle_of_typing_loses_a_second_at_most() {
    let mut session = Session::trial();
    session.wait("Trial wash house").wait("[today]").press(RIGHT).press(RIGHT).press(DOWN).wait("── riser pitch ──");
    session.press("\r").wait("understood: 4 in").press("5 in\r").wait("riser pitch = 5 in; ");
    session.press("fleft stub\r").wait("── left stub ──").press("\r").wait("understood: ").press("7 1/2");
    let kept = |session: &Session| {
        session.drafts().iter().any(|path| std::fs::read_to_string(path).is_ok_and(|draft| draft.contains("7 1/2")))
    };
    session.until("the half-typed field in the draft", || kept(&session));
    session.signal(Signal::KILL);
    session.end();
    let mut session = session.again();
    session.wait("An earlier session ended").wait("'7 1/2' was being typed for left stub");
    session.press("\r").wait("left stub").wait("7 1/2").press("\x1b").wait("* unsaved");
    session.press("s").wait("saved: ").press("q");
    assert_eq!(session.end(), 0);
    assert!(session.file().contains("riser_pitch = \"5 in\""), "{}", session.file());
}
