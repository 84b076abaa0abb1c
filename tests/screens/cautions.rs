//! Cautions where the danger is: on every card and step, beside who has the last word; the hazard register on its page.

use insta::assert_snapshot;
use sunharp::model::{Address, PanelLetter, Stage, Step};
use sunharp::stage;
use sunharp::stage::card::{Card, cards};
use sunharp::stage::safety::questions::SHORT_WORD;
use sunharp::stage::safety::register::REGISTER;
use sunharp::tui::theme::Theme;

use super::harness::{FULL, Play, SAMPLE};

/// What stands on the screen, as one line of words.
fn words(play: &mut Play) -> String {
    play.screen().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text as one line of words, with the project's numbers in it.
fn filled(play: &Play, text: &str, panel: Option<PanelLetter>) -> String {
    let evaluation = play.state.workbook.evaluation();
    evaluation.fill(text, panel, evaluation.system()).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The step that a tick on a card is about: the first that is not done, else the last.
fn step_of(play: &Play, card: &Card, panel: Option<PanelLetter>) -> Option<&'static Step> {
    let evaluation = play.state.workbook.evaluation();
    let done = |step: &Step| {
        let address = Address { id: step.id.to_owned(), panel: step.per_panel.then_some(panel).flatten() };
        evaluation.step(&address).is_some_and(|of| of.standing.word() == "done")
    };
    let steps: Vec<&'static Step> = card.steps.iter().filter_map(|id| stage::step(id)).collect();
    steps.iter().find(|step| !done(step)).or_else(|| steps.last()).copied()
}

#[test]
fn every_card_shows_what_can_hurt_and_who_has_the_last_word_at_eighty_by_twenty_four() {
    let mut play = Play::of(SAMPLE, FULL, (80, 24));
    let panel = play.state.workbook.project().panels.first().copied();
    play.press("b").shows("card 1 of");
    for card in cards() {
        assert!(!card.caution.is_empty(), "{}", card.id);
        play.shows(card.title);
        let shown = words(&mut play);
        assert!(shown.contains(SHORT_WORD), "{}: {shown}", card.id);
        let of_step = step_of(&play, card, panel).map_or(&[][..], |step| step.cautions);
        for caution in of_step.iter().chain([&card.caution]) {
            let caution = filled(&play, caution, panel);
            assert!(shown.contains(&caution), "{} hides '{caution}':\n{}", card.id, play.screen());
        }
        play.press("<Right>");
    }
}

#[test]
fn every_step_with_cautions_shows_them_beside_who_has_the_last_word() {
    let mut play = Play::of(SAMPLE, FULL, (80, 60));
    for stage in Stage::ALL {
        let of_stage = stage::steps().iter().filter(|step| step.stage == stage && !step.cautions.is_empty());
        let mut unseen: Vec<&Step> = of_stage.copied().collect();
        play.press("<End>");
        for _ in 0..120 {
            let shown = words(&mut play);
            let all_there =
                |step: &Step| step.cautions.iter().all(|caution| shown.contains(&filled(&play, caution, None)));
            let before = unseen.len();
            unseen.retain(|step| !(shown.contains(&filled(&play, step.title, None)) && all_there(step)));
            assert!(unseen.len() == before || shown.contains(SHORT_WORD), "{}", play.screen());
            play.press("<Up>");
        }
        let left: Vec<&str> = unseen.iter().map(|step| step.id).collect();
        assert!(left.is_empty(), "{left:?} do not show what can hurt");
        play.press("<Right>");
    }
}

/// Severity and verdict are words, not colours: the register of the sample at the least size, without any colour.
#[test]
fn the_register_is_read_without_colour_at_eighty_by_twenty_four() {
    let mut play = Play::of(SAMPLE, Theme { colors: false, ascii: false }, (80, 24));
    for _ in 1..=Stage::ALL.iter().position(|stage| *stage == Stage::Safety).unwrap() {
        play.press("<Right>");
    }
    play.shows("Hazard register: stops first, then what is unknown").shows(SHORT_WORD);
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        assert_snapshot!("register-plain", screen);
    });
    play.press("<Enter>").shows("at stake:");
}

#[test]
fn every_hazard_has_its_line_with_severity_and_verdict_and_leads_to_its_checks() {
    let mut play = Play::of(SAMPLE, Theme { colors: false, ascii: true }, (100, 80));
    play.press("<Right><Right><Right><Right>");
    for hazard in REGISTER {
        let state = play.state.workbook.evaluation().hazard(hazard);
        let (verdict, severity) = (state.verdict().word(), hazard.severity().word());
        let screen = play.screen();
        let start = &hazard.title[..hazard.title.len().min(18)];
        let of_hazard = |line: &&str| line.trim_start_matches(['>', ' ']).starts_with(start);
        let line = screen.lines().find(of_hazard).unwrap_or_else(|| panic!("no line of {}:\n{screen}", hazard.key));
        assert!(line.contains(verdict), "{line}");
        assert!(line.contains(&severity[..severity.len().min(8)]), "{line}");
    }
    play.press("<Enter>");
    let first = play.state.workbook.evaluation().register()[0].hazard;
    let label = stage::check(first.checks[0]).unwrap().label;
    play.shows(&label[..label.len().min(20)]);
}
