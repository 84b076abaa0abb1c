//! What a builder does, as key scripts; the screens are stored as text and were read when they were stored.

use super::harness::{FULL, Play, SAMPLE, TRIAL};
use sunharp::model::Stage;
use sunharp::tui::Want;
use sunharp::tui::command::Place;
use sunharp::tui::event::{Input, Key};
use sunharp::tui::theme::Theme;

fn stored(name: &str, play: &mut Play) {
    let screen = play.screen();
    insta::with_settings!({prepend_module_to_snapshot => false, omit_expression => true}, {
        insta::assert_snapshot!(name, screen);
    });
}

#[test]
fn the_first_screen_shows_the_project_and_how_to_go_on() {
    let mut play = Play::trial();
    play.shows("Trial wash house").shows("[site");
    stored("first", &mut play);
}

#[test]
fn a_wider_riser_pitch_shows_what_moves_before_and_after_and_undo_takes_it_back() {
    let mut play = Play::trial();
    play.press("<Right><Down><Enter>5 in");
    play.shows("understood: 5 in = 127 mm").shows("figures would move, these most:");
    stored("pitch-typed", &mut play);
    play.press("<Enter>").shows("riser pitch = 5 in; ").shows("figures moved").shows("* unsaved");
    play.press("m").shows("riser pitch: 4 in -> 5 in  +25.0 %");
    stored("pitch-moved", &mut play);
    play.press("<Esc>u").shows("undone: riser pitch = 5 in").hides("* unsaved");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn the_stagnation_temperature_is_found_and_explained_and_its_terms_lead_on() {
    let mut play = Play::trial();
    play.press("fworst stagn").shows("figure   stagnation temperature");
    stored("find", &mut play);
    play.press("<Enter>")
        .shows("› stagnation temperature")
        .press("e")
        .shows("the largest of standard, severe and site");
    play.shows("source: ");
    stored("explain", &mut play);
    play.press("<Tab><Enter>").shows("── empty in the sun, standard").press("<Esc>").shows("── stagnation temperature");
}

#[test]
fn a_step_is_signed_off_with_a_reading_and_taken_back_with_a_reason() {
    let mut play = Play::trial();
    play.press("fsheet bought<Enter><Enter>").shows("sign off: Tube").press("<Enter>");
    play.shows("this step is done when there is evidence")
        .press("tube type M, wall 0.7 mm<Enter>")
        .shows("signed off: Tube");
    play.press("fdrill both<Enter><Enter>1 mm<Enter>").press("fcut 11<Enter><Enter>0.5 mm<Enter>");
    play.press("fdry-fit<Enter>").shows("open").press("<Enter>").shows("reading");
    stored("sign-off", &mut play);
    play.press("90 lb").shows("refused");
    play.press("<Ctrl-U>90 in").shows("understood: 90 in = 2286 mm").press("<Enter>").shows("signed off: Dry-fit");
    play.shows("A done, B waits, C waits  waits");
    assert!(
        play.state.workbook.text().contains("[reading.\"absorber.diagonal_1@A\".2026-05-02-1]"),
        "{}",
        play.state.workbook.text()
    );
    play.press("x").shows("take back: Dry-fit").press("<Enter>").shows("say why").press("wrong panel<Enter>");
    play.shows("taken back: Dry-fit");
    assert!(play.state.workbook.text().contains("wrong panel"));
}

#[test]
fn a_step_whose_ground_has_moved_is_stale_and_says_from_what_to_what() {
    let mut play = Play::trial();
    play.press("fsheet bought<Enter><Enter>all<Enter>fdrill both<Enter><Enter>1 mm<Enter>");
    play.press("friser pitch<Enter><Enter>5 in")
        .shows("would need another look")
        .press("<Enter>")
        .shows("1 step stale");
    play.press("fdrill both<Enter>").shows("stale").shows("riser pitch was 4 in, is 5 in");
    stored("stale", &mut play);
}

#[test]
fn a_list_of_words_is_narrowed_by_typing() {
    let mut play = Play::trial();
    play.press("friser tube<Enter><Enter>").shows("› 1/2 in type M").press("3/4 in type l");
    play.shows("understood: 3/4 in type L");
    stored("words", &mut play);
    play.press("<Enter>").shows("riser tube = 3/4 in type L");
}

#[test]
fn a_reading_of_an_entry_is_recorded_with_who_and_with_what_and_shown_on_its_panel() {
    let mut play = Play::trial();
    play.press("friser pitch<Enter>r4 1/16 in<Enter>").press("<Enter>tape<Enter>").press("<Down><Down><Enter>");
    play.shows("reading of riser pitch on p").press("pp").shows("panel B as built").shows("measured");
    stored("as-built", &mut play);
}

#[test]
fn an_impossible_value_is_refused_with_what_is_allowed_and_the_form_stays() {
    let mut play = Play::trial();
    play.press("<Right><Down><Enter>4 kg").shows("refused").shows("allowed: 0.591 in to 39.37 in");
    stored("refused", &mut play);
    play.press("<Enter>").shows("› value      4 kg").press("<Esc>").shows("nothing was changed");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn an_emptied_field_takes_the_entry_out_of_the_file() {
    let mut play = Play::trial();
    play.press("fleft stub<Enter><Enter><Backspace>").shows("Enter takes the entry out of the file");
    play.press("<Enter>").shows("left stub taken out").shows("assumed");
    assert!(!play.state.workbook.text().contains("stub_left"));
}

#[test]
fn a_paste_goes_into_the_field_without_its_control_characters() {
    let mut play = Play::trial();
    play.press("<Right><Down><Enter>").give(Input::Paste("\u{1b}[31m5 in\r\n".to_owned())).shows("[31m5 in");
    play.press("<Ctrl-U>").give(Input::Paste("5 in\n".to_owned())).shows("understood: 5 in = 127 mm");
}

#[test]
fn saving_changes_one_line_of_the_file() {
    let mut play = Play::trial();
    play.press("<Right><Down><Enter>5 in<Enter>s").shows("saved: ").hides("* unsaved");
    let file = play.file();
    let changed: Vec<(&str, &str)> = TRIAL.lines().zip(file.lines()).filter(|(was, is)| was != is).collect();
    assert_eq!(changed, [("riser_pitch = \"4 in\"", "riser_pitch = \"5 in\"")]);
    assert_eq!(TRIAL.lines().count(), file.lines().count());
}

#[test]
fn quitting_asks_only_when_there_is_something_to_lose() {
    let mut play = Play::trial();
    play.press("q");
    assert_eq!(play.state.take_want(), Some(Want::Quit));
    play.press("<Right><Down><Enter>5 in<Enter>q").shows("save and quit");
    stored("quit", &mut play);
    assert_eq!(play.state.take_want(), None);
    play.press("<Down><Down><Enter>");
    assert_eq!(play.state.take_want(), None);
    play.press("<Ctrl-C><Enter>");
    assert_eq!(play.state.take_want(), Some(Want::Quit));
    assert!(play.file().contains("riser_pitch = \"5 in\""));
}

#[test]
fn unsaved_work_comes_back_after_a_crash_with_the_field_that_was_being_typed() {
    let mut play = Play::trial();
    play.press("<Right><Down><Enter>5 in<Enter><Up><Enter>12");
    let mut play = play.crash_and_reopen();
    play.shows("An earlier session ended with work").shows("'12' was being typed for risers");
    stored("draft", &mut play);
    play.press("<Enter>").shows("› value      12").press("<Esc>").shows("unsaved");
    assert!(play.state.workbook.text().contains("riser_pitch = \"5 in\""));
    play.press("u").hides("* unsaved");
    assert_eq!(play.state.workbook.text(), TRIAL);
}

#[test]
fn a_change_made_elsewhere_is_taken_when_clean_and_asked_about_when_not() {
    let mut play = Play::trial();
    let theirs = TRIAL.replace("riser_count = 11", "riser_count = 10");
    std::fs::write(play.path(), &theirs).unwrap();
    play.give(Input::Back).shows("the file was read again");
    assert_eq!(play.state.workbook.text(), theirs);
    play.press("<Right><Down><Enter>5 in<Enter>");
    std::fs::write(play.path(), TRIAL).unwrap();
    play.press("s").shows("the file was changed elsewhere");
    stored("conflict", &mut play);
    play.press("<Down><Enter>").shows("project-mine.toml").press("<Enter>").shows("saved: ");
    assert_eq!(play.file(), TRIAL);
    let mine = std::fs::read_to_string(play.path().with_file_name("project-mine.toml")).unwrap();
    assert!(mine.contains("riser_pitch = \"5 in\""));
}

#[test]
fn a_broken_file_opens_for_looking_and_says_where_it_is_broken() {
    let mut play = Play::of("format = 1\n[absorber]\nriser_pitch = 4 in\n", FULL, (80, 24));
    play.shows("read-only").press("w").shows("line 3, column");
    stored("broken", &mut play);
    play.press("<Esc><Right><Right><Down><Enter>").shows("read-only: ").shows("[absorber");
}

#[test]
fn faults_that_leave_the_rest_usable_are_listed_with_their_places() {
    let text = TRIAL.replace("riser_pitch = \"4 in\"", "riser_pitch = \"4 kg\"\nriser_pich = \"4 in\"");
    let mut play = Play::of(&text, FULL, (80, 24));
    play.shows("2 faults; w lists them").press("w").shows("did you mean");
    stored("faults", &mut play);
    play.press("<Esc>friser pitch<Enter>").shows("refused");
}

#[test]
fn keys_typed_faster_than_the_screen_is_drawn_mean_the_same() {
    let keys = Key::script("fstagnation temp<Enter>e<Esc>friser pitch<Enter><Enter>5 in<Enter>");
    let mut play = Play::trial();
    sunharp::tui::update(&mut play.state, keys.into_iter().map(Input::Key));
    play.shows("riser pitch = 5 in; ");
}

#[test]
fn everything_can_be_reached_from_the_menu_with_arrows_and_enter() {
    let mut play = Play::trial();
    play.press("<Esc>").shows("── menu");
    stored("menu", &mut play);
    play.press("<Down><Down><Down><Enter>").shows("part of a name");
}

#[test]
fn lines_all_over_every_page_can_be_opened_and_explained() {
    let mut play = Play::of(SAMPLE, FULL, (80, 24));
    for _ in Stage::ALL {
        play.press("<Home>");
        let mut last = String::new();
        // Rows that Enter unfolds join the page, which then has thousands of lines: two dozen stops meet every sort.
        for _ in 0..25 {
            let now = play.screen();
            if now == last {
                break;
            }
            last = now;
            for key in ["<Enter>", "e"] {
                play.press(key).screen();
                while play.state.place() != Place::Page {
                    play.press("<Esc>");
                }
            }
            // Each line of a thousand takes minutes; a few pages at a time meets lines of every sort.
            play.press("<PageDown><PageDown><Down>");
        }
        play.press("<Right>");
    }
    assert_eq!(play.state.workbook.text(), SAMPLE, "looking changes nothing");
}

/// The trial project with every study run, so that every picture can be drawn.
fn studied(theme: Theme, size: (u16, u16)) -> Play {
    let text = TRIAL.replace(
        "\n[absorber]",
        "\n[site.horizon]\n\"90°\" = \"12°\"\n\"180°\" = \"4°\"\n\"270°\" = \"20°\"\n\n[absorber]",
    );
    let mut play = Play::of(&text, theme, size);
    play.state.workbook.run_studies();
    play
}

#[test]
fn the_pictures_of_a_stage_are_leafed_through_and_left() {
    let ascii = Theme { colors: true, ascii: true };
    for (look, theme, size) in [("small", FULL, (80, 24)), ("wide", FULL, (120, 36)), ("ascii", ascii, (80, 24))] {
        let mut play = studied(theme, size);
        play.press("v").shows("sun paths over the skyline, 1 of 3").shows("a 21 June");
        stored(&format!("sun-paths-{look}"), &mut play);
        play.press("<Right>").shows("sun on the plane by month, 2 of 3").shows("cautious to hopeful sky");
        stored(&format!("monthly-plane-{look}"), &mut play);
        play.press("<Tab>").shows("sun by tilt, 3 of 3").shows("within 1 % of the best: ");
        stored(&format!("tilt-curve-{look}"), &mut play);
        play.press("<Right>").shows("1 of 3").press("<Left>").shows("3 of 3").press("<Esc>").shows("In short");
        play.press("<Right>v").shows("the harp from the front").shows("48\"").shows("hole 11 at 44\"");
        stored(&format!("harp-{look}"), &mut play);
        play.press("n").shows("1219.2 mm").press("<Esc><Right><Right><Right>v").shows("this stage has no pictures");
    }
}

#[test]
fn the_pictures_of_the_year_show_its_months_its_worst_week_and_its_worst_days() {
    let ascii = Theme { colors: true, ascii: true };
    for (look, theme, size) in [("wide", FULL, (120, 36)), ("ascii", ascii, (80, 24))] {
        let mut play = studied(theme, size);
        play.press("<Right><Right><Right>v").shows("the year's heat by month, 3 of ").shows("further heater");
        stored(&format!("year-months-{look}"), &mut play);
        play.press("<Right>").shows("the tank through the worst week");
        stored(&format!("worst-week-{look}"), &mut play);
        play.press("<Right><Right>").shows("a power cut at noon");
        stored(&format!("power-cut-{look}"), &mut play);
        play.press("<Right><Right><Right>").shows("the coldest clear night");
    }
}

#[test]
fn a_picture_that_cannot_be_drawn_says_what_it_needs() {
    let mut play = Play::of("format = 1\n", FULL, (80, 24));
    play.press("v").shows("This picture cannot be drawn yet.").shows("needs latitude");
    Play::trial().press("v<Left>").shows("being computed");
}

#[test]
fn the_first_lines_of_site_and_absorber_answer_what_is_asked_first() {
    let mut play = studied(FULL, (80, 24));
    play.shows("In short").shows(" to the skyline, ").shows(" band; rests on hourly weather file");
    play.shows("is within 1 % of the best");
    stored("site-in-short", &mut play);
    play.press("<End><Home>").shows("In short");
    play.press("<Right>").shows("useful from one panel").shows("hole 1 at 4\" to hole 11 at 44\"");
    stored("absorber-in-short", &mut play);
}

#[test]
fn the_monthly_means_of_the_weather_are_kept_in_the_project_and_taken_out_again() {
    let mut play = Play::trial();
    play.press("k").shows("monthly means kept").shows("* unsaved");
    assert!(play.state.workbook.text().contains("monthly"), "{}", play.state.workbook.text());
    play.press("k").shows("kept already").press("u").hides("* unsaved");
    assert_eq!(play.state.workbook.text(), TRIAL);
    Play::of("format = 1\n", FULL, (80, 24)).press("k").hides("* unsaved");
}

#[test]
fn a_second_session_on_the_same_file_may_only_look() {
    let first = Play::trial();
    let second = sunharp::workbook::Workbook::open(
        std::sync::Arc::new(sunharp::project::store::RealDisk),
        &first.path(),
        "2026-05-02".parse().unwrap(),
    );
    let setup = sunharp::tui::Setup { theme: FULL, size: (80, 24), drafts: None, demo: false };
    let second = sunharp::tui::start(second.unwrap(), setup);
    assert!(second.workbook.read_only().is_some());
}

#[test]
fn the_page_of_every_stage_and_the_help_are_as_stored() {
    let mut play = Play::of(TRIAL, FULL, (120, 36));
    play.press("<Right>");
    stored("absorber-wide", &mut play);
    play.press("?").shows("assumed");
    stored("help", &mut play);
    for (size, look) in [((80, 24), ""), ((200, 60), "-huge")] {
        let mut play = Play::of(SAMPLE, FULL, size);
        for page in ["site", "absorber", "enclosure", "plumbing", "safety", "commissioning"] {
            play.shows(&format!("[{page} "));
            stored(&format!("page-{page}{look}"), &mut play);
            play.press("<Right>");
        }
    }
}

#[test]
fn every_sheet_is_as_stored() {
    let mut play = Play::of(SAMPLE, FULL, (80, 24));
    for (name, keys) in [
        ("sheet-figure", "fabsorber.stagnation_worst<Enter>e"),
        ("sheet-check", "fpump locked out while hot<Enter><Enter>"),
        ("sheet-step", "fabsorber.flush<Enter>e"),
        ("sheet-records", "l"),
        ("sheet-moved", "m"),
        ("sheet-help", "?"),
        ("sheet-menu", "<Esc>"),
        ("sheet-variants", "d"),
        ("sheet-write", "c"),
    ] {
        play.press(keys);
        stored(name, &mut play);
        play.press("<Esc>");
    }
}

/// Runs git in the folder of a play, as a builder who is somebody.
fn git(play: &Play, arguments: &[&str]) {
    let who = ["-c", "user.name=Ines", "-c", "user.email=ines@example.org"];
    let mut command = std::process::Command::new("git");
    command.current_dir(play.path().parent().unwrap()).args(who).args(arguments);
    assert!(command.stdout(std::process::Stdio::null()).status().unwrap().success(), "git {arguments:?}");
}

#[test]
fn what_happened_since_the_last_commit_is_told_on_a_sheet() {
    let mut play = Play::trial();
    play.press("h").shows("no commit holds this file yet");
    git(&play, &["init", "--quiet"]);
    git(&play, &["add", "project.toml"]);
    git(&play, &["commit", "--quiet", "-m", "As drawn"]);
    play.press("h").shows("Nothing has changed since the last commit.").press("<Esc>");
    play.press("friser pitch<Enter><Enter>5 in<Enter>h")
        .shows("since the last commit")
        .shows("riser pitch: 4 in -> 5 in");
    stored("since-commit", &mut play);
    play.press("<Esc>u");
    assert_eq!(play.state.workbook.text(), TRIAL);
}
