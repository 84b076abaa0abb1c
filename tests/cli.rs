//! The program itself, run as a user or a script would run it, without a terminal.

mod commissioning;
mod json;
mod spoken;

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use sunharp::stage;
use sunharp::workbook::sample;
use unicode_width::UnicodeWidthStr;

fn run(arguments: &[&str]) -> Output {
    run_in(Path::new(env!("CARGO_TARGET_TMPDIR")), arguments)
}

fn run_in(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sunharp"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("ended by a signal")
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// A folder with a project of this text in it.
fn project(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("project.toml");
    fs::write(&path, text).unwrap();
    let path = path.to_str().unwrap().to_owned();
    (folder, path)
}

fn json(arguments: &[&str]) -> Value {
    let output = run(arguments);
    serde_json::from_str(&out(&output)).unwrap_or_else(|error| panic!("{error}: {}", err(&output)))
}

fn files_in(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// The sample with a joint that the absorber stage stops: a drilled hole closed with soft solder.
fn stopped() -> String {
    sample::TEXT
        .replace("joint = \"tee\"", "joint = \"drilled\"")
        .replace("header_filler = \"brazed\"", "header_filler = \"soldered\"")
}

#[test]
fn check_ends_with_one_if_a_check_says_stop() {
    let (_folder, path) = project(&stopped());
    let output = run(&["check", &path]);
    assert_eq!(code(&output), 1, "{}", out(&output));
    assert!(out(&output).contains("stop: "));
    assert_eq!(code(&run(&["check", &path, "--json"])), 1);
}

#[test]
fn the_weather_is_kept_in_the_project_once_and_only_where_there_is_a_file_of_it() {
    let (_folder, path) = project(sample::TEXT);
    let output = run(&["keep-weather", &path]);
    assert_eq!(code(&output), 0, "{}", err(&output));
    assert!(out(&output).contains("Twelve monthly means"), "{}", out(&output));
    let kept = fs::read_to_string(&path).unwrap();
    assert!(kept.contains("[site.monthly.12]"), "{kept}");
    assert!(out(&run(&["keep-weather", &path])).contains("nothing was written"));
    assert_eq!(fs::read_to_string(&path).unwrap(), kept);
    let (_folder, path) = project("format = 1\n\n[site]\nlatitude = \"36°\"\nlongitude = \"-80°\"\n");
    let output = run(&["keep-weather", &path]);
    assert_eq!(code(&output), 2, "{}", err(&output));
}

#[test]
fn check_ends_with_zero_if_much_is_unknown_unless_it_is_strict() {
    let (_folder, path) = project("format = 1\n");
    let counts = json(&["check", &path, "--json"])["counts"].clone();
    assert!(counts["unknown"].as_u64().unwrap() > 0);
    assert_eq!(counts["stop"], 0, "nothing is known, so nothing can be a stop");
    let output = run(&["check", &path]);
    assert_eq!(code(&output), 0);
    assert!(out(&output).contains(&format!("{} unknown", counts["unknown"])));
    assert_eq!(code(&run(&["check", &path, "--strict"])), 1);
}

#[test]
fn wrong_use_ends_with_two_and_says_what_is_allowed() {
    let (_folder, path) = project(sample::TEXT);
    let cases: [(&[&str], &str); 10] = [
        (&["show"], "FILE"),
        (&["show", &path, "--unit", "us"], "--units"),
        (&["show", &path, "absorber.riser_ptch"], "did you mean 'absorber.riser_pitch'?"),
        (&["show", &path, "absorber.riser_pitch@a"], "one capital letter"),
        (&["show", &path, "absorber.riser_pitch@Z"], "it has A, B, C"),
        (&["explain", &path, "absorber.nothing_like_that_at_all"], "figures"),
        (&["set", &path, "absorber.riser_pitch", "5"], "write '5 mm' or '5 in'"),
        (&["set", &path, "absorber.header_length", "5 in"], "computed"),
        (&["set", &path, "absorber.diagonal_1", "5 in"], "measured"),
        (&["set", &path, "absorber.riser_pitch@A", "5 in"], "reading"),
    ];
    for (arguments, hint) in cases {
        let output = run(arguments);
        assert_eq!(code(&output), 2, "{arguments:?}");
        assert!(err(&output).contains(hint), "{arguments:?}: {}", err(&output));
        assert_eq!(out(&output), "", "{arguments:?}");
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), sample::TEXT);
    let nothing = run(&[]);
    assert_eq!(code(&nothing), 2);
    assert!(err(&nothing).contains("sunharp demo"));
}

#[test]
fn a_file_that_cannot_be_read_ends_with_three() {
    let folder = tempfile::tempdir().unwrap();
    for command in ["open", "show", "check"] {
        let missing = run_in(folder.path(), &[command, "missing.toml"]);
        assert_eq!(code(&missing), 3, "{command}");
        assert!(err(&missing).contains("sunharp new"), "{}", err(&missing));
        assert_eq!(code(&run_in(folder.path(), &[command, "."])), 3, "{command} of a folder");
    }
    let mistyped = run_in(folder.path(), &["shwo"]);
    assert!(err(&mistyped).contains("did you mean the command 'show'?"));
    let (_folder, path) = project("format = 1\n[absorber]\nriser_pitch = 4 in\n");
    let broken = run(&["show", &path]);
    assert_eq!(code(&broken), 3);
    assert!(err(&broken).contains("project.toml:3:15"), "{}", err(&broken));
    assert_eq!(code(&run(&["set", &path, "absorber.riser_pitch", "4 in"])), 3);
}

#[test]
fn a_fault_in_one_line_is_told_and_the_rest_is_shown() {
    let (_folder, path) = project(&sample::TEXT.replace("riser_pitch = \"4 in\"", "riser_pitch = \"4\""));
    let output = run(&["show", &path, "absorber.riser_pitch", "site.latitude"]);
    assert_eq!(code(&output), 0);
    assert!(err(&output).contains("riser_pitch = \"4\""));
    assert!(out(&output).contains("36.1°"));
}

#[test]
fn explain_puts_the_projects_numbers_into_the_formula() {
    let (_folder, path) = project(sample::TEXT);
    let shown = out(&run(&["explain", &path, "absorber.header_length"]));
    for part in ["Formula: left + sheet + right", "(4 in)", "Source: ", "Can depend on: ", "absorber.stub_left"] {
        assert!(shown.contains(part), "{part}: {shown}");
    }
    assert!(out(&run(&["explain", &path, "absorber.riser_pitch"])).contains("Can move: "));
    assert!(out(&run(&["explain", &path, "absorber.square"])).contains("It cannot see: "));
    assert!(out(&run(&["explain", &path, "absorber.coupon"])).contains("How: "));
}

#[test]
fn set_changes_one_line_and_says_what_moved() {
    for text in [sample::TEXT.to_owned(), format!("\u{feff}{}", sample::TEXT.replace('\n', "\r\n"))] {
        let (folder, path) = project(&text);
        let output = run(&["set", &path, "absorber.riser_pitch", "5 in"]);
        assert_eq!(code(&output), 0, "{}", err(&output));
        assert!(out(&output).contains("was 4 in, is 5 in (absorber.riser_pitch)"), "{}", out(&output));
        assert!(out(&output).contains("(absorber.sheet_across)"));
        let after = fs::read_to_string(&path).unwrap();
        let different: Vec<_> = text.split('\n').zip(after.split('\n')).filter(|(was, is)| was != is).collect();
        assert_eq!(text.split('\n').count(), after.split('\n').count());
        assert_eq!(different.len(), 1);
        assert!(different[0].1.trim_end() == "riser_pitch = \"5 in\"");
        let again = run(&["set", &path, "absorber.riser_pitch", "5 in"]);
        assert!(out(&again).contains("nothing was written"));
        let left: Vec<PathBuf> = files_in(folder.path());
        assert!(left.iter().all(|path| !path.to_string_lossy().ends_with(".saving")), "{left:?}");
    }
}

#[test]
fn set_takes_a_negative_number() {
    let (_folder, path) = project(sample::TEXT);
    assert_eq!(code(&run(&["set", &path, "site.record_low", "-12 °F"])), 0);
    assert!(fs::read_to_string(&path).unwrap().contains("record_low = \"-12 °F\""));
}

#[test]
fn set_leaves_a_project_alone_that_is_open_elsewhere() {
    let (_folder, path) = project(sample::TEXT);
    let mut workbook = sunharp::workbook::Workbook::open(
        std::sync::Arc::new(sunharp::project::store::RealDisk),
        Path::new(&path),
        "2026-05-01".parse().unwrap(),
    )
    .unwrap();
    workbook.take_lock();
    let output = run(&["set", &path, "absorber.riser_pitch", "5 in"]);
    assert_eq!(code(&output), 3);
    assert!(err(&output).contains("another sunharp"), "{}", err(&output));
    assert_eq!(fs::read_to_string(&path).unwrap(), sample::TEXT);
}

#[test]
fn looking_writes_nothing() {
    let (folder, path) = project(sample::TEXT);
    let before = (files_in(folder.path()), fs::metadata(&path).unwrap().modified().unwrap());
    for arguments in
        [vec!["open", &path], vec!["show", &path], vec!["check", &path], vec!["explain", &path, "site.tilt"]]
    {
        run_in(folder.path(), &arguments);
    }
    run_in(folder.path(), &["demo"]);
    run_in(folder.path(), &["figures"]);
    assert_eq!((files_in(folder.path()), fs::metadata(&path).unwrap().modified().unwrap()), before);
}

#[test]
fn new_makes_a_project_without_problems_and_never_writes_over_one() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(code(&run_in(folder.path(), &["new", "mine.toml"])), 0);
    let text = fs::read_to_string(folder.path().join("mine.toml")).unwrap();
    assert!(text.starts_with("format = 1\n"));
    let shown = run_in(folder.path(), &["show", "mine.toml"]);
    assert_eq!((code(&shown), err(&shown)), (0, String::new()));
    fs::write(folder.path().join("mine.toml"), "mine").unwrap();
    assert_eq!(code(&run_in(folder.path(), &["new", "mine.toml"])), 3);
    assert_eq!(fs::read_to_string(folder.path().join("mine.toml")).unwrap(), "mine");
}

#[test]
fn every_line_of_the_starter_that_waits_behind_a_mark_can_be_used() {
    let folder = tempfile::tempdir().unwrap();
    run_in(folder.path(), &["new", "mine.toml"]);
    let text = fs::read_to_string(folder.path().join("mine.toml")).unwrap();
    let is_waiting =
        |line: &str| line.strip_prefix("# ").is_some_and(|rest| rest.contains(" = \"") && !rest.contains(": "));
    let taken: Vec<String> =
        text.lines().map(|line| if is_waiting(line) { line[2..].to_owned() } else { line.to_owned() }).collect();
    let project = sunharp::project::Project::read(&taken.join("\n"));
    assert_eq!(project.problems, []);
    assert!(project.entries.len() > text.lines().filter(|line| is_waiting(line)).count());
}

#[test]
fn without_a_terminal_demo_and_open_print_the_report() {
    let (_folder, path) = project(sample::TEXT);
    for arguments in [vec!["demo"], vec!["open", &path], vec![path.as_str()]] {
        let output = run(&arguments);
        assert_eq!((code(&output), err(&output)), (0, String::new()), "{arguments:?}");
        let text = out(&output);
        for heading in ["Site", "Absorber", "Enclosure", "Plumbing", "Entries", "Figures", "Checks", "Steps"] {
            assert!(text.lines().any(|line| line == heading), "{heading}");
        }
        for line in text.lines() {
            assert!(line.width() <= 80, "{line}");
        }
    }
}

/// A project as someone with bad intentions would write it.
const HOSTILE: &str = "format = 1\n[project]\nname = \"\\u001b]0;owned\\u0007\\u009b31m \u{202e}gnp.exe \u{2066}\"\n\
    builder = \"\\u001b[2J\"\n\"b\\u001b[31mad\" = \"x\"\n[absorber]\nriser_pitch = \"\\u001b[1A \u{202e}4\"\n\
    sheet_metal = \"cop\\u0007per\"\n[site]\nweather_file = \"\\u001b[5m\u{200b}.csv\"\njurisdiction = \"\\r\\nfake line\"\n\
    [panel.A]\n[sign_off.\"absorber.coupon\".2026-04-18-1]\nby = \"\\u001b[31mInes\"\nevidence = \"\u{2067}x\"\n\
    saw = { \"absorber.so\\u001blder\" = \"\\u001b[7m\" }\n[log.2026-04-18-1]\ntext = \"\\u001bc\"\n";

#[test]
fn commissioning_can_be_done_without_a_screen() {
    let boatyard = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-projects/boatyard-shower.toml");
    let flat = |output: &Output| out(output).split_whitespace().collect::<Vec<_>>().join(" ");
    let shown = flat(&run(&["show", boatyard, "commissioning"]));
    for words in
        ["measured gain", "faults of the log", "20 rows doubled", "clock ahead of the sun", "resistor for frost"]
    {
        assert!(shown.contains(words), "{words}\n{shown}");
    }
    let checked = out(&run(&["check", boatyard]));
    for id in ["commissioning.log-sound", "commissioning.performance-agrees", "commissioning.proof-power-cut"] {
        assert!(checked.contains(id), "{id}");
    }
    let list = flat(&run(&["procedure", boatyard]));
    for name in ["acceptance", "handover", "repair", "lay-up", "restart", "substitution", "end-of-life", "emergency"] {
        assert!(list.contains(&format!(" {name}: ")), "{list}");
    }
    let output = run(&["procedure", boatyard, "acceptance"]);
    assert!(out(&output).lines().all(|line| line.width() <= 80));
    let sheet = flat(&output);
    assert!(sheet.contains("clear: measured against computed (commissioning.performance-agrees)"), "{sheet}");
    assert!(sheet.contains("unknown: relief valve lifted (commissioning.proof-relief)"), "{sheet}");
}

#[test]
fn trouble_asks_for_one_measurement_at_a_time() {
    let boatyard = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-projects/boatyard-shower.toml");
    let ask = |answers: &[&str]| out(&run(&[&["trouble", boatyard, "large-rise"], answers].concat()));
    let first = ask(&[]);
    assert!(first.contains("Measure: flow by bucket or meter") && first.contains("gpm"), "{first}");
    assert!(!first.contains("cold pressure"), "{first}");
    assert!(ask(&["no"]).contains("Likely: air in the loop"));
    assert!(ask(&["yes"]).contains("Measure: cold pressure"));
    assert!(ask(&["yes", "yes", "yes"]).contains("All as it should be"));
    let wrong = run(&["trouble", boatyard, "large-ris"]);
    assert_eq!(code(&wrong), 2);
    assert!(err(&wrong).contains("did you mean 'large-rise'?"), "{}", err(&wrong));
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let (_folder, path) = project(sample::TEXT);
    for arguments in [vec!["show", &path], vec!["show", &path, "--json"], vec!["figures"], vec!["--help"], vec!["man"]]
    {
        let mut process = Command::new(env!("CARGO_BIN_EXE_sunharp"))
            .args(&arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(process.stdout.take());
        let mut told = String::new();
        process.stderr.take().unwrap().read_to_string(&mut told).unwrap();
        assert_eq!(process.wait().unwrap().code(), Some(0), "{arguments:?}");
        assert_eq!(told, "", "{arguments:?}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_sunharp"))
        .arg("figures")
        .stdout(full)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!(code(&output), 3);
    assert!(err(&output).contains("cannot be written"));
}

#[test]
fn figures_lists_every_declared_id() {
    let listed = out(&run(&["figures"]));
    let declared = stage::entries().iter().map(|spec| spec.id).chain(stage::figures().iter().map(|figure| figure.id));
    let judged = stage::checks().iter().map(|check| check.id).chain(stage::steps().iter().map(|step| step.id));
    for id in declared.chain(judged) {
        let starts = |line: &str| line.trim_start().strip_prefix(id).is_some_and(|rest| rest.starts_with([':', '.']));
        assert!(listed.lines().any(starts), "{id}");
    }
}

#[test]
fn help_completions_and_manual_come_from_the_same_declaration() {
    let help = out(&run(&["--help"]));
    for command in ["demo", "new", "open", "show", "explain", "check", "set", "figures"] {
        assert!(help.lines().any(|line| line.trim_start().starts_with(command)), "{command}");
        assert!(out(&run(&["man"])).contains(&format!("sunharp\\-{command}")), "{command}");
    }
    for shell in ["bash", "zsh", "fish"] {
        assert!(out(&run(&["completions", shell])).contains("explain"), "{shell}");
    }
}

#[test]
fn a_check_that_is_judged_for_each_panel_is_told_for_each_or_for_the_one_named() {
    let (_folder, path) = project(sample::TEXT);
    let Some(check) = stage::checks().iter().find(|check| check.per_panel) else { return };
    let rows = |id: &str| json(&["show", &path, id, "--json"])["checks"].as_array().unwrap().len();
    assert_eq!(rows(check.id), 3);
    assert_eq!(rows(&format!("{}@B", check.id)), 1);
    let explained = out(&run(&["explain", &path, &format!("{}@B", check.id)]));
    assert!(explained.contains(&format!("({}@B)", check.id)), "{explained}");
    assert!(!explained.contains(&format!("({}@A)", check.id)), "{explained}");
}

#[test]
fn the_bill_is_printed_for_the_shop_and_for_a_spreadsheet() {
    let (_folder, path) = project(sample::TEXT);
    let plain = run(&["materials", &path]);
    assert_eq!(code(&plain), 0, "{}", err(&plain));
    let text = out(&plain);
    assert!(text.contains("Tube and sheet") && text.contains("[ ] 1/2 in type M (riser-tube)"), "{text}");
    assert!(text.lines().all(|line| line.width() <= 80), "{text}");
    let table = out(&run(&["materials", &path, "--csv", "--units", "si"]));
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let headers = reader.headers().unwrap().clone();
    let at = |name: &str| headers.iter().position(|header| header == name).unwrap();
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let risers = records.iter().find(|record| &record[at("key")] == "riser-tube").unwrap();
    let number = |name: &str| risers[at(name)].parse::<f64>().unwrap();
    assert!((number("with_scrap") / number("needed") - 1.05).abs() < 0.01, "{table}");
}

#[test]
fn today_tells_for_each_panel_what_can_be_done_and_what_most_waits_for() {
    let trial = include_str!("screens/trial.toml");
    let (_folder, path) = project(trial);
    let output = run(&["today", &path]);
    assert_eq!(code(&output), 0, "{}", err(&output));
    let text = out(&output);
    for wanted in ["Panel A: 0 of ", "Panel C: 0 of ", "The project: 0 of ", "  open: ", "    Needs: ", "Look at first"]
    {
        assert!(text.contains(wanted), "{wanted:?}\n{text}");
    }
    assert!(text.lines().all(|line| line.width() <= 80), "{text}");
    let (_folder, bare) = project("format = 1\n");
    assert!(out(&run(&["today", &bare])).contains("riser tube (absorber.riser_tube): "));
}

/// What is printed on one line of words.
fn of_words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
