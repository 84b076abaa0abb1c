//! The bench cards: large type at every size, leafing, ticking, taking back, the place of each panel.

use insta::assert_snapshot;
use sunharp::tui::command::Place;
use sunharp::tui::theme::Theme;

use super::harness::{FULL, Play, TRIAL};

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        assert_snapshot!(name, screen);
    });
}

/// At the card of the header's holes, with the steps before the drilling done.
fn at_the_drill(theme: Theme, size: (u16, u16)) -> Play {
    let mut play = Play::of(TRIAL, theme, (80, 24));
    play.press("fsheet bought<Enter><Enter>type M<Enter>").shows("signed off");
    play.resize(size.0, size.1);
    play.press("bfabsorber.hole.3<Enter>");
    play
}

#[test]
fn a_card_shows_its_first_figure_large_at_every_size_and_look() {
    let plain = Theme { colors: false, ascii: false };
    let ascii = Theme { colors: true, ascii: true };
    for (name, theme, size) in [
        ("card", FULL, (80, 24)),
        ("card-phone", FULL, (40, 12)),
        ("card-wide", FULL, (120, 36)),
        ("card-huge", FULL, (200, 60)),
        ("card-plain", plain, (80, 24)),
        ("card-ascii", ascii, (80, 24)),
        ("card-phone-ascii", ascii, (40, 12)),
    ] {
        let mut play = at_the_drill(theme, size);
        play.shows("Header marks").shows("riser 3 of 11");
        stored(name, &mut play);
    }
}

#[test]
fn at_eighty_by_twenty_four_the_first_figure_is_at_least_five_rows_high() {
    for theme in [FULL, Theme { colors: true, ascii: true }] {
        let mut play = at_the_drill(theme, (80, 24));
        let inked = |row: &str| row.contains("██") || row.contains("##");
        let screen = play.screen();
        let rows = screen.lines().skip_while(|row| !inked(row)).take_while(|row| inked(row)).count();
        assert!(rows >= 5, "{screen}");
    }
}

#[test]
fn arrows_space_and_enter_are_enough_to_go_along_tick_and_take_back() {
    let mut play = at_the_drill(FULL, (80, 24));
    play.press("<Up><Up><Up>").shows("riser 1 of 11").shows("this is the first one");
    play.press("<Down>").shows("riser 2 of 11").shows("[ ] open");
    play.press("<Space>").shows("sign off: Mark both headers").press("0.5 mm<Enter>").shows("[x] done");
    play.press("<Enter>").shows("take it back?").shows("the record stays in the file");
    play.press("<Enter>").shows("[x] done");
    play.press("<Space><Down><Enter>").shows("[ ] open").shows("taken back: Mark both headers");
    assert!(play.state.workbook.text().contains("withdrawn = \"ticked by mistake\""), "{}", play.state.workbook.text());
    play.press("u").shows("[x] done").press("u").shows("[ ] open");
}

#[test]
fn a_step_that_waits_says_for_what_and_leads_back_to_the_card() {
    let mut play = Play::of(TRIAL, FULL, (80, 24));
    play.press("bfabsorber.hole.1<Enter>").shows("waits");
    play.press("<Space>").shows("step on panel A").shows("it cannot be ticked yet").press("<Esc>");
    assert_eq!(play.state.place(), Place::Bench);
}

#[test]
fn each_panel_is_found_where_it_was_left() {
    let mut play = at_the_drill(FULL, (80, 24));
    play.press("<Down>").shows("riser 4 of 11").press("p").shows("panel B  US").press("fabsorber.hole.7<Enter>");
    play.shows("riser 7 of 11").press("pp").shows("panel A  US").shows("riser 4 of 11");
    play.press("<Esc>b").shows("riser 4 of 11").press("n").shows("panel A  SI").press("q");
    assert_eq!(play.state.place(), Place::Page);
}

#[test]
fn a_bench_that_is_too_small_says_so() {
    let mut play = at_the_drill(FULL, (80, 24));
    let text = play.resize(35, 9).screen().split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(text, "The bench needs 36 columns and 10 rows; this terminal has 35 and 9.");
}
