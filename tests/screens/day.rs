//! The page of the day, the lessons of a newcomer, pins, finding records.

use std::sync::Arc;

use sunharp::project::store::RealDisk;
use sunharp::tui::command::Place;
use sunharp::tui::event::{Input, Key};
use sunharp::tui::{Setup, Want, start, update};
use sunharp::workbook::sample;

use super::harness::{FULL, Play, TRIAL};

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        insta::assert_snapshot!(name, screen);
    });
}

#[test]
fn the_page_of_the_day_lists_what_can_be_done_and_leads_to_it() {
    let mut play = Play::trial();
    play.at_the_day().shows("To do now").shows("panel A: 0 of").shows("the project: 0 of");
    stored("day", &mut play);
    play.press("<End>").shows("Look at first");
    play.press("t").hides("[today]").press("t").press("<Home>").shows("[today]");
}

#[test]
fn enter_on_a_step_of_the_day_goes_to_its_line_on_its_page() {
    let mut play = Play::trial();
    play.at_the_day();
    let mut screen = play.screen();
    for _ in 0..30 {
        if screen.contains("Enter go to it") {
            break;
        }
        screen = play.press("<Down>").screen();
    }
    play.press("<Enter>").hides("[today]").shows("Enter sign off");
    assert_eq!(play.state.place(), Place::Page);
    play.press("t").shows("[today]");
}

#[test]
fn a_stale_step_comes_first_and_what_is_missing_is_counted() {
    let mut play = Play::trial();
    play.press("fsheet bought<Enter><Enter>all<Enter>fdrill both<Enter><Enter>1 mm<Enter>");
    play.press("friser pitch<Enter><Enter>5 in<Enter>").at_the_day().shows("1 stale").shows("stale");
    let mut bare = Play::of("format = 1\n\n[project]\nname = \"Bare\"\n", FULL, (80, 24));
    bare.at_the_day().shows("Learn by doing").press("<End>").shows("Most waits for").shows("checks wait");
    stored("day-of-an-empty-project", &mut bare);
}

#[test]
fn the_lessons_tick_themselves_off_and_go_when_all_are_done() {
    let workbook = sample::open(Arc::new(RealDisk), "2026-05-02".parse().unwrap());
    let mut state = start(workbook, Setup { theme: FULL, size: (80, 24), drafts: None, demo: true });
    let mut press = |script: &str| {
        for key in Key::script(script) {
            update(&mut state, [Input::Key(key)]);
        }
        let mut terminal = ratatui::Terminal::new(ratatui::backend::TestBackend::new(80, 24)).unwrap();
        terminal.draw(|frame| sunharp::tui::draw(&state, frame)).unwrap();
        terminal.backend().to_string()
    };
    assert!(press("").contains("[ ] Right turns the page"));
    assert!(press("<Right><Right><Left><Left>").contains("[x] Right turns the page"));
    assert!(press("<Right><Right><Down><Enter>5 in<Enter>ut").contains("[x] u takes a change back"));
    assert!(press("<Esc><Esc>").contains("[x] Down to 'riser pitch'"));
    let last = press("t<Esc><Esc>fpitch<Enter>e<Esc>b<Esc>pt");
    assert!(last.contains("[today]") && !last.contains("Learn by doing"), "{last}");
}

#[test]
fn a_pinned_figure_stays_in_view_on_every_page_and_from_session_to_session() {
    let mut play = Play::trial();
    play.press("friser pitch<Enter>i").shows("riser pitch is pinned").shows("── riser pitch 4 in ─");
    play.press("<Right>").shows("── riser pitch 4 in ─").press("?").shows("── riser pitch 4 in ─").press("<Esc>");
    play.press("friser pitch<Enter>n").shows("── riser pitch 101.6 mm ─").press("n");
    let mut play = play.crash_and_reopen();
    play.shows("── riser pitch 4 in ─")
        .press("friser pitch<Enter>i")
        .shows("no longer pinned")
        .hides("── riser pitch 4 in ─");
}

#[test]
fn records_are_found_and_shown_with_who_when_and_evidence() {
    let mut play = Play::trial();
    play.press("fsheet bought<Enter><Enter>type M, wall 0.7 mm<Enter>");
    play.press("fwall 0.7").shows("record   2026-05-02 Ines signed, type M, wall 0.7 mm").press("<Enter>");
    play.shows("2026-05-02 signed ").shows("type M, wall 0.7 mm").shows("Ines").press("<Esc>");
    play.press("frp<Enter>").shows("› riser pitch");
}

#[test]
fn a_figure_is_handed_to_the_clipboard_of_the_terminal() {
    let mut play = Play::trial();
    play.press("friser pitch<Enter>Y").shows("sent to the terminal's clipboard: 4 in");
    assert_eq!(play.state.take_want(), Some(Want::Copy("4 in".to_owned())));
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn the_page_of_the_day_uses_the_room_of_a_wide_screen() {
    for (name, size) in [("day-wide", (120, 36)), ("day-huge", (200, 60))] {
        let mut play = Play::of(super::harness::SAMPLE, FULL, size);
        play.at_the_day().shows("To do now");
        stored(name, &mut play);
    }
}

#[test]
fn a_note_that_is_hostile_or_a_megabyte_long_is_shown_clean_and_short() {
    let long = "x".repeat(1_000_000);
    let text = format!(
        "{TRIAL}\n[note.\"absorber.riser_pitch\".2026-05-01-1]\nby = \"Zoë 給湯\"\ntext = \"\\u001b[31mred \\u202eback {long}\"\n"
    );
    let mut play = Play::of(&text, FULL, (80, 24));
    play.press("friser pitch<Enter>l").shows("2026-05-01 note ");
    let buffer = play.buffer();
    assert!(buffer.content.iter().all(|cell| !cell.symbol().contains(['\u{1b}', '\u{202e}'])));
    play.press("<Esc>fred<Down>").buffer();
}

#[test]
fn what_another_panel_came_to_stands_beside_the_same_step() {
    let mut play = Play::of(TRIAL, FULL, (120, 36));
    play.press("fsheet bought<Enter><Enter>all<Enter>fcut 11<Enter><Enter>0.5 mm<Enter>").shows("signed off: Cut");
    play.press("fcut 11<Down><Enter>").shows("on panel A: 0.5 mm (Ines, 2026-05-02)");
}

#[test]
fn what_two_builders_wrote_in_different_ways_stands_on_the_page_of_the_day_until_it_is_settled() {
    let conflict = "\n[conflict.\"absorber.riser_pitch\"]\nbase = \"4 in\"\nours = \"4 in\"\ntheirs = \"5 in\"\n";
    let mut play = Play::of(&format!("{TRIAL}{conflict}"), FULL, (80, 24));
    play.shows("[today]").shows("Two builders differ").shows("ours 4 in, theirs 5 in").press("<Home><Enter>");
    play.shows("theirs: 5 in").press("<Down><Down><Enter>").shows("settled: riser pitch").hides("Two builders differ");
    assert!(play.state.workbook.text().contains("riser_pitch = \"5 in\""), "{}", play.state.workbook.text());
    play.press("u").shows("Two builders differ");
}
