//! A step before those that come first: asked for on its line, a reason and two names, then seen wherever the step is.

use super::harness::Play;

#[test]
fn a_step_is_let_come_first_with_a_reason_and_two_names() {
    let mut play = Play::trial();
    play.press("fdry-fit<Enter>p<Home>fdry-fit<Enter>").shows("waits").press("c").shows("write down");
    play.shows("do it before the steps that come first");
    for _ in 0..8 {
        let screen = play.screen();
        if screen.lines().any(|line| line.starts_with('›') && line.contains("do it before")) {
            break;
        }
        play.press("<Down>");
    }
    play.press("<Enter>").shows("out of order").press("drill is away<Enter><Enter>").shows("and who");
    play.press("Ines<Enter>").shows("two people decide this together").press("<Ctrl-U>Tomas<Enter>");
    play.shows("out of order: ").shows("by Ines and Tomas");
    let text = play.state.workbook.text().to_owned();
    assert!(text.contains("reason = \"drill is away\"") && text.contains("skips = ["), "{text}");
    play.press("l").shows("out of order").press("<Esc>u").hides("drill is away");
}
