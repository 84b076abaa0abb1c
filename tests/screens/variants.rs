//! Variants side by side, and what moves a figure.

use sunharp::model::Address;
use sunharp::stage::study::Cancel;
use sunharp::tui::event::Input;
use sunharp::workbook::desk::{ErrandDesk, Found, What};
use sunharp::workbook::sway::{self, Sway};

use super::harness::{Play, TRIAL};

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        insta::assert_snapshot!(name, screen);
    });
}

/// What moves a figure of the trial project, tried to the end.
fn tried(play: &Play, id: &str) -> Sway {
    let mut last = None;
    sway::run(&play.state.workbook.snapshot(), &Address::drawn(id), &Cancel::default(), &mut |sway| {
        last = Some(sway.clone());
    });
    last.unwrap()
}

#[test]
fn what_moves_a_figure_is_listed_with_the_strongest_first() {
    let mut play = Play::trial();
    play.press("fheader length<Enter>e").press("m").shows("what moves it: beginning");
    let sway = tried(&play, "absorber.header_length");
    assert_eq!(sway.tried, sway.all);
    // By hand: a sheet of 11 pitches of 4 in and two stubs of 2 in are 48 in; one riser more adds 4 in, 5 % of the pitch
    // 2.2 in, 5 % of a stub 0.1 in.
    let change = |id: &str| sway.nudges.iter().find(|nudge| nudge.entry == id).map(|nudge| nudge.change.abs());
    for (id, inches) in [("absorber.riser_count", 4.0), ("absorber.riser_pitch", 2.2), ("absorber.stub_left", 0.1)] {
        let wanted = inches / 48.0;
        assert!((change(id).unwrap() - wanted).abs() < 1e-6, "{id}: {:?} {wanted}", change(id));
    }
    assert!(sway.nudges.windows(2).all(|two| two[0].change.abs() >= two[1].change.abs()));
    let revision = play.state.workbook.revision();
    play.give(Input::Found(Box::new(Found { revision, what: What::Sway(sway) })));
    play.shows("what moves it, all").shows("risers to ");
    stored("what-moves-it", &mut play);
}

#[test]
fn a_cancelled_errand_ends_without_a_result() {
    let play = Play::trial();
    let cancel = Cancel::default();
    cancel.cancel();
    let mut told = 0;
    sway::run(&play.state.workbook.snapshot(), &Address::drawn("absorber.area"), &cancel, &mut |_| told += 1);
    assert!(told <= 1);
}

#[test]
fn what_was_changed_is_kept_as_a_variant_compared_and_taken_over() {
    let mut play = Play::trial();
    play.press("d").shows("A variant is a named set").press("<Esc>");
    play.press("friser pitch<Enter><Enter>5 in<Enter>d").shows("keep the 1 unsaved change as a variant");
    play.press("<Enter><Enter>").shows("give the variant a name").press("wide<Enter>").shows("variant wide kept");
    let text = play.state.workbook.text().to_owned();
    assert!(text.contains("[variant.wide]\n\"absorber.riser_pitch\" = \"5 in\"\n"), "{text}");
    assert!(text.contains("riser_pitch = \"4 in\""), "the design is as saved again");
    play.press("d").press("<Enter>").shows("the design beside 'wide'").shows("being computed ...");
    let (sender, inbox) = std::sync::mpsc::channel();
    let mut desk = ErrandDesk::start(move |found| drop(sender.send(found)));
    desk.ask(&play.state.workbook, play.state.errand());
    let found = inbox.recv().unwrap();
    play.give(Input::Found(Box::new(found))).shows("as drawn").shows("what differs").shows("pressure drop of one harp");
    stored("variant", &mut play);
    play.press("<Esc>d<Down><Enter>").shows("variant wide taken over");
    assert!(play.state.workbook.text().contains("\nriser_pitch = \"5 in\""));
    play.press("uuu");
    assert_eq!(play.state.workbook.text(), TRIAL);
}
