//! A pressure test with gloves on: readings, countdown and verdict on one card, in digits that are read from afar.

use std::time::Duration;

use insta::assert_snapshot;
use sunharp::tui::command::Place;
use sunharp::tui::event::Input;
use sunharp::tui::theme::Theme;

use super::harness::{FULL, Play, TRIAL};

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        assert_snapshot!(name, screen);
    });
}

/// Rows of block type one under the other, the most there are.
fn rows_of_blocks(screen: &str) -> usize {
    let is_inked = |row: &str| row.contains(['█', '▀', '▄']) || row.contains("##");
    let (mut most, mut now) = (0, 0);
    for row in screen.lines() {
        now = if is_inked(row) { now + 1 } else { 0 };
        most = most.max(now);
    }
    most
}

fn is_tall(play: &mut Play) {
    let screen = play.screen();
    assert!(rows_of_blocks(&screen) >= 5, "{screen}");
}

fn at_the_card(theme: Theme) -> Play {
    let text = TRIAL.replace("[panel.A]", "[commissioning]\ngauge_division = \"1 psi\"\n\n[panel.A]");
    let mut play = Play::of(&text, theme, (80, 24));
    play.press("bfcommissioning.panel_pumped<Enter>").shows("Panel pressure test");
    play
}

/// 1.5 × 30 psi; 0.07 L pumped in make the harp soft enough for the hold to tell (by hand in the reference tests).
#[test]
fn readings_countdown_and_verdict_stand_on_one_card() {
    for (look, theme) in [("full", FULL), ("ascii", Theme { colors: true, ascii: true })] {
        let mut play = at_the_card(theme);
        play.press("r").shows("panel test, water pumped in").press("0.07 L<Enter>").press("r45 psi");
        is_tall(&mut play);
        stored(&format!("pressure-entry-{look}"), &mut play);
        play.press("<Enter>").shows("p1").press("r68 F<Enter>t").give(Input::Time(Duration::from_secs(750)));
        play.shows("clock");
        is_tall(&mut play);
        stored(&format!("pressure-countdown-{look}"), &mut play);
        play.give(Input::Time(Duration::from_mins(61))).shows("time is over").press("t");
        play.shows("61 min").press("<Enter>r45 psi<Enter>r68 F<Enter>rno<Enter>").shows("result");
        is_tall(&mut play);
        stored(&format!("pressure-verdict-{look}"), &mut play);
        assert_eq!(play.state.place(), Place::Bench);
        let text = play.state.workbook.text();
        for of in ["pumped", "start", "start_temperature", "hold", "end", "end_temperature", "weeps"] {
            assert!(text.contains(&format!("[reading.\"commissioning.panel_{of}@A\".2026-05-02-1]")), "{of}\n{text}");
        }
        assert!(text.contains("value = \"61 min\"") && text.contains("by = \"Ines\""), "{text}");
    }
}

#[test]
fn a_fall_of_the_gauge_is_a_leak_in_the_same_digits() {
    let mut play = at_the_card(FULL);
    play.press("r0.07 L<Enter>r45 psi<Enter>r68 F<Enter>t").give(Input::Time(Duration::from_hours(1)));
    play.press("t<Enter>r35 psi<Enter>r68 F<Enter>rno<Enter>").shows("result");
    is_tall(&mut play);
    let of = sunharp::model::Address::parse("commissioning.panel_result@A").unwrap();
    let said = play.state.workbook.evaluation().value(&of).unwrap().text(sunharp::units::System::Si);
    assert_eq!(said, "leak");
}

#[test]
fn a_card_without_readings_says_so() {
    let mut play = Play::trial();
    play.press("bfabsorber.hole.1<Enter>r").shows("nothing on this card is read off an instrument");
}
