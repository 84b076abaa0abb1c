//! Every way out gives the terminal back, keeps what is unsaved, and ends at once.

use std::time::Duration;

use portable_pty::CommandBuilder;
use rustix::process::Signal;

use super::session::Session;

/// A session with a change that is not saved.
fn unsaved() -> Session {
    let mut session = Session::trial();
    session.wait("Trial wash house").press("friser pitch\r").wait("── riser pitch ──");
    session.press("\r5 in\r").wait("riser pitch = 5 in; ");
    session
}

#[test]
fn a_draft_is_kept_while_work_is_unsaved_and_offered_at_the_next_start() {
    let mut session = unsaved();
    session.until("a draft", || !session.drafts().is_empty());
    session.press("q").wait("save and quit").press("\x1b[B\r");
    assert_eq!(session.end(), 0);
    assert!(session.drafts().is_empty(), "given up, so the draft goes");
}

#[test]
fn a_request_to_end_gives_the_terminal_back_and_keeps_the_draft() {
    for (signal, code) in [(Signal::TERM, 143), (Signal::INT, 130)] {
        let mut session = unsaved();
        session.signal(signal);
        assert_eq!(session.end(), code);
        session.terminal_is_given_back();
        assert_eq!(session.drafts().len(), 1);
        assert!(!session.file().contains("5 in"));
    }
}

#[test]
fn a_hangup_ends_the_program_and_keeps_the_draft() {
    let mut session = unsaved();
    session.signal(Signal::HUP);
    assert_eq!(session.end(), 129);
    assert_eq!(session.drafts().len(), 1);
}

#[test]
fn a_closed_terminal_ends_the_program_and_keeps_the_draft() {
    let mut session = unsaved();
    session.close_terminal();
    let code = session.end();
    assert_eq!(code, 129);
    assert_eq!(session.drafts().len(), 1);
}

/// The state letter of a process and the ticks of processor time that it has used.
#[cfg(target_os = "linux")]
fn state_and_ticks(session: &Session) -> (char, u64) {
    let stat = std::fs::read_to_string(format!("/proc/{}/stat", session.pid().as_raw_nonzero())).unwrap();
    let fields: Vec<&str> = stat.rsplit_once(')').unwrap().1.split_whitespace().collect();
    let ticks = |index: usize| fields[index].parse::<u64>().unwrap();
    (fields[0].chars().next().unwrap(), ticks(11) + ticks(12))
}

#[cfg(target_os = "linux")]
#[test]
fn an_idle_screen_uses_no_processor_time() {
    let mut session = Session::trial();
    session.wait("Trial wash house");
    // The studies of the first second must come to their end before idleness can be seen.
    let quiet = || {
        let before = state_and_ticks(&session).1;
        std::thread::sleep(Duration::from_millis(300));
        state_and_ticks(&session).1 == before
    };
    session.until("a third of a second without a tick", quiet);
    let before = state_and_ticks(&session).1;
    std::thread::sleep(Duration::from_secs(1));
    assert!(state_and_ticks(&session).1 <= before + 1);
}

#[cfg(target_os = "linux")]
#[test]
fn a_suspended_program_stops_and_comes_back_with_its_whole_screen() {
    // A shell between us and the program makes suspending real: without one the system ignores it.
    let program = env!("CARGO_BIN_EXE_sunharp");
    let mut shell = CommandBuilder::new("/bin/sh");
    shell.args(["-i"]);
    let mut session = Session::start(shell, &[("PS1", "ready> "), ("PATH", "/usr/bin:/bin")]);
    session.wait("ready> ").press(&format!("{program} project.toml\r")).wait("Trial wash house").wait("[today]");
    session.press("\x1a").wait("Stopped").terminal_is_given_back();
    session.press("fg\r").wait("Trial wash house").wait("[today]");
    session.press("q").wait("ready> ").terminal_is_given_back();
}

#[test]
fn a_key_to_suspend_without_a_shell_changes_nothing() {
    let mut session = Session::trial();
    session.wait("Trial wash house").press("\x1a").press("\x1b[C").wait("[site");
    session.press("q");
    assert_eq!(session.end(), 0);
}

/// Set by the test below for the run of the one after it, in a terminal of its own.
const PANIC_HERE: &str = "SUNHARP_TEST_PANIC_HERE";

#[test]
fn a_panic_gives_the_terminal_back_before_it_is_told() {
    let mut own = CommandBuilder::new(std::env::current_exe().unwrap());
    own.args(["--exact", "pty::leaving::panics_with_the_terminal_taken", "--nocapture"]);
    let mut session = Session::start(own, &[(PANIC_HERE, "1")]);
    session.wait("the words of the panic");
    assert_ne!(session.end(), 0);
    session.terminal_is_given_back();
    session.wait("a worker failed: ");
}

#[test]
fn panics_with_the_terminal_taken() {
    if std::env::var_os(PANIC_HERE).is_none() {
        return;
    }
    let (sender, inbox) = std::sync::mpsc::channel();
    let mut screen = sunharp::tui::terminal::Screen::take(move |words| sender.send(words).unwrap()).unwrap();
    screen.draw(|frame| frame.render_widget("on the screen", frame.area())).unwrap();
    let failed = std::thread::spawn(|| panic!("a worker's panic")).join();
    assert!(failed.is_err());
    let words = inbox.recv().unwrap();
    let first = words.lines().last().unwrap_or_default();
    panic!("the words of the panic; a worker failed: {first}");
}
