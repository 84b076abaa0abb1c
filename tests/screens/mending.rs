//! The change that mends a check which stops: looked for beside the screen, shown on its sheet, made by one key.

use sunharp::tui::event::Input;
use sunharp::workbook::desk::ErrandDesk;

use super::harness::{FULL, Play, SAMPLE};

const LATE: &str = "lock_out = \"250 °F\"";

/// The sample with a pump that may start onto panels far too hot for it.
fn with_a_late_lock() -> String {
    let line = SAMPLE.lines().find(|line| line.starts_with("lock_out")).unwrap();
    SAMPLE.replace(line, LATE)
}

#[test]
fn a_check_that_stops_offers_the_cheapest_change_and_makes_it() {
    let text = with_a_late_lock();
    let mut play = Play::of(&text, FULL, (100, 40));
    let (sender, inbox) = std::sync::mpsc::channel();
    let mut desk = ErrandDesk::start(move |found| drop(sender.send(found)));
    play.press("fpump locked out while hot<Enter><Enter>").shows("the cheapest change that mends it: being looked for");
    desk.ask(&play.state.workbook, play.state.errand());
    let found = inbox.recv().unwrap();
    play.give(Input::Found(Box::new(found))).shows("without another stop (c makes it, u undoes it)").press("c");
    assert!(!play.state.workbook.text().contains(LATE), "{}", play.state.workbook.text());
    play.hides("the cheapest change that mends it").press("<Esc>u");
    assert_eq!(play.state.workbook.text(), text);
}

#[test]
fn a_check_that_does_not_stop_offers_nothing() {
    let mut play = Play::of(SAMPLE, FULL, (100, 40));
    play.press("fpump locked out while hot<Enter><Enter>").hides("the cheapest change");
    assert_eq!(play.state.errand(), None);
    play.press("c").shows("this check does not stop: there is nothing to mend");
}
