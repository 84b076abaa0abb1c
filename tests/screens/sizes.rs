//! Every screen at every size: nothing breaks, and nothing is drawn outside its lines.

use super::harness::{FULL, Play, TRIAL};

/// A way to each place that can be drawn.
const WAYS: [&str; 17] = [
    "",
    "<Right><Down><Enter>5 in",
    "friser tube<Enter><Enter>",
    "fstagnation temp<Enter>e",
    "fstagn",
    "fsheet bought<Enter><Enter>",
    "<Esc>",
    "?",
    "v",
    "<Right>v",
    "b",
    "b<Space>",
    "be",
    "t",
    "c",
    "l",
    "<Right><Down><Enter>5 in<Enter>q",
];

#[test]
fn nothing_breaks_from_no_size_at_all_to_a_wide_screen() {
    for (number, way) in WAYS.iter().enumerate() {
        let mut play = Play::trial();
        play.press(way);
        for columns in (0..=130).step_by(if number == 0 { 1 } else { 7 }) {
            for rows in (0..=50).step_by(if number == 0 { 1 } else { 3 }) {
                play.resize(columns, rows).buffer();
            }
        }
        play.resize(250, 80).buffer();
    }
}

#[test]
fn a_screen_that_is_too_small_says_so_in_one_sentence_with_both_sizes() {
    let mut play = Play::of(TRIAL, FULL, (59, 17));
    let text = play.screen().split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(text, "This page needs 60 columns and 18 rows; this terminal has 59 and 17.");
    play.resize(60, 18).shows("Trial wash house");
}

#[test]
fn names_in_any_script_keep_the_columns_straight() {
    let text = TRIAL
        .replace("name = \"Trial wash house\"", "name = \"給湯 מים \\u001b[31m e\\u0301\"")
        .replace("builder = \"Ines\"", "builder = \"Zoë 給湯給湯給湯給湯給湯給湯給湯給湯給湯\"");
    let mut play = Play::of(&text, FULL, (80, 24));
    let buffer = play.buffer();
    // Below the summary.
    for y in 9..13 {
        let word: String = (71..78).map(|x| buffer[(x, y)].symbol()).collect();
        assert_eq!(word, "entered", "row {y}:\n{}", play.screen());
    }
}
