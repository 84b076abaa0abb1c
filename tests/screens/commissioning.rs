//! The page of commissioning: what is answered in short, and its pictures from the sample's logger file.

use std::path::Path;

use insta::assert_snapshot;
use sunharp::tui::theme::Theme;

use super::harness::{FULL, Play};

const BOATYARD: &str = include_str!("../../sample-projects/boatyard-shower.toml");

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        assert_snapshot!(name, screen);
    });
}

/// The sample with its weather and log named from anywhere, at the page of commissioning.
fn at_the_page(theme: Theme, size: (u16, u16)) -> Play {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    let named = |text: &str, file: &str| text.replace(file, &folder.join(file).to_string_lossy().replace('\\', "/"));
    let text = named(&named(BOATYARD, "weather/miami-tmy2.tm2"), "logs/boatyard-shower.csv");
    let mut play = Play::of(&text, theme, size);
    play.press("<Right><Right><Right><Right><Right>");
    play
}

#[test]
fn the_page_answers_in_short_and_shows_its_pictures() {
    let ascii = Theme { colors: true, ascii: true };
    for (look, theme, size) in [("small", FULL, (80, 24)), ("wide", FULL, (120, 36)), ("ascii", ascii, (80, 24))] {
        let mut play = at_the_page(theme, size);
        play.shows("In short").shows("proofs").shows("measured").shows("due");
        play.shows("the gain agrees with what was computed");
        if look == "small" {
            stored("commissioning-in-short", &mut play);
        }
        play.press("v").shows("efficiency points beside both lines, 1 of 2").shows("computed from the drawing");
        stored(&format!("efficiency-points-{look}"), &mut play);
        play.press("<Right>").shows("heat of each day beside what was expected, 2 of 2").shows("3 days count");
        stored(&format!("heat-by-day-{look}"), &mut play);
    }
}

#[test]
fn without_a_log_the_pictures_say_what_they_need() {
    let mut play = Play::of("format = 1\n", FULL, (80, 24));
    play.press("<Right><Right><Right><Right><Right>v").shows("This picture cannot be drawn yet.").shows("logger file");
}

/// Commissioned on the first of April: a month later the weekly and the monthly round are due, and the day says so.
#[test]
fn what_the_calendar_asks_for_stands_on_the_page_of_the_day() {
    let text = "format = 1\n[commissioning]\ncommissioned = 2026-04-01\n";
    let mut play = Play::of(text, FULL, (80, 24));
    play.at_the_day().shows("Due by the calendar").shows("log read, pressure cold written with its temperature");
    let mut before = Play::of("format = 1\n", FULL, (80, 24));
    before.at_the_day().hides("Due by the calendar");
}
