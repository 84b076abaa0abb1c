//! Two builders, one project: merging, settling, telling what changed, taking a design elsewhere.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use proptest::prelude::*;
use sunharp::project::Project;
use sunharp::project::edit::{Written, add_field, add_table, set_entry, unset_entry};
use sunharp::project::merge::{SECTION, merge};
use sunharp::workbook::sample;

/// Entries that a builder changes, each with two values.
const ENTRIES: [(&str, [&str; 2]); 6] = [
    ("absorber.riser_pitch", ["4 1/2 in", "5 in"]),
    ("absorber.riser_count", ["10", "12"]),
    ("enclosure.air_gap", ["1 1/4 in", "30 mm"]),
    ("plumbing.tank", ["120 gal", "500 L"]),
    ("project.builder", ["Ines and Tomas", "Tomas"]),
    ("site.record_low", ["-10 °F", "-20 °C"]),
];

/// One edit of one side: what sort, where, and which words.
type Edit = (u8, usize, u8);

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    proptest::collection::vec((0..8_u8, 0..400_usize, 0..4_u8), 0..7)
}

/// A text after the edits of one builder; an edit that cannot be made is left out.
fn edited(text: &str, who: &str, edits: &[Edit]) -> String {
    edits.iter().fold(text.to_owned(), |text, edit| one(&text, who, *edit).unwrap_or(text))
}

fn one(text: &str, who: &str, (sort, place, words): Edit) -> Option<String> {
    let project = Project::read(text);
    let (id, values) = ENTRIES[place % ENTRIES.len()];
    // Some words are the same on both sides.
    let said = if words < 2 { format!("both saw {words}") } else { format!("{who} saw {words}") };
    let field = |words: &str| Written::Text(words.to_owned());
    let by = field(who);
    let splice = match sort {
        0 => set_entry(text, &project, id, values[usize::from(words) % 2]),
        1 => unset_entry(text, &project, id),
        2 => {
            let key = format!("2026-06-0{}-1", 1 + words);
            let path = ["reading", "absorber.riser_pitch@A", &key];
            add_table(text, &project, &path, &[("value", field("4 in")), ("by", by), ("note", field(&said))])
        }
        3 => add_table(text, &project, &["log", "2026-06-01-1"], &[("by", by), ("text", field(&said))]),
        4 => {
            let path = ["note", id, "2026-06-01-1"];
            add_table(text, &project, &path, &[("by", by), ("text", field(&said))])
        }
        5 => add_field(text, &project, &["sign_off", "absorber.join@A", "2026-04-26-1", "withdrawn"], &said),
        6 => return Some(comment_above(text, place, &said)),
        _ => return Some(comment_beside(text, place, &said)),
    };
    splice.ok()?.apply(text).ok()
}

fn comment_above(text: &str, place: usize, said: &str) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    lines.insert(1 + place % lines.len(), format!("# {said}"));
    lines.join("\n") + "\n"
}

fn comment_beside(text: &str, place: usize, said: &str) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let at = place % lines.len();
    if !lines[at].is_empty() && !lines[at].contains('#') {
        lines[at] = format!("{} # {said}", lines[at]);
    }
    lines.join("\n") + "\n"
}

/// What the comments of a text say, each once.
fn comments(text: &str) -> BTreeSet<String> {
    text.lines().filter_map(|line| Some(line.split_once('#')?.1.trim().to_owned())).collect()
}

/// Every record without its number, which may have moved.
fn records(text: &str) -> BTreeSet<String> {
    let records = Project::read(text).records;
    let mut said = BTreeSet::new();
    said.extend(records.readings.iter().map(|r| format!("{} {} {} {}", r.of, r.date, r.typed, r.note)));
    said.extend(records.sign_offs.iter().map(|r| format!("{} {} {} {:?}", r.of, r.date, r.evidence, r.saw)));
    said.extend(records.notes.iter().map(|r| format!("{} {} {} {}", r.of, r.date, r.by, r.text)));
    said.extend(records.log.iter().map(|r| format!("{} {} {}", r.date, r.by, r.text)));
    said
}

fn typed(project: &Project, id: &str) -> Option<String> {
    project.entries.get(id).map(|given| given.typed.clone())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn nothing_of_either_side_is_lost_and_the_order_of_sides_makes_no_difference(ours in edits(), theirs in edits()) {
        let base = sample::TEXT;
        let (ours, theirs) = (edited(base, "Ines", &ours), edited(base, "Tomas", &theirs));
        let merged = merge(base, &ours, &theirs).unwrap();
        let (was, mine, other) = (Project::read(base), Project::read(&ours), Project::read(&theirs));
        let result = Project::read(&merged.text);

        prop_assert_eq!(result.problems.len(), merged.conflicts.len(), "{}", &merged.text);
        prop_assert_eq!(result.conflicts.len(), merged.conflicts.len());
        for id in was.entries.keys().chain(mine.entries.keys()).chain(other.entries.keys()) {
            let (was, mine, other) = (typed(&was, id), typed(&mine, id), typed(&other, id));
            let now = typed(&result, id);
            let marked = merged.conflicts.iter().any(|conflict| conflict.key == *id);
            if marked {
                prop_assert!(now.is_some() && [&mine, &other].contains(&&now), "{}", id);
            } else {
                let wanted = if mine == was { &other } else { &mine };
                prop_assert!(mine == was || other == was || mine == other, "{} not marked", id);
                prop_assert_eq!(&now, wanted, "{}", id);
            }
        }
        let found = records(&merged.text);
        for side in [&ours, &theirs] {
            prop_assert!(records(side).is_subset(&found), "{:?}", records(side).difference(&found));
            let new: BTreeSet<String> = comments(side).difference(&comments(base)).cloned().collect();
            prop_assert!(new.is_subset(&comments(&merged.text)), "{:?} in\n{}", new, &merged.text);
        }

        let turned = merge(base, &theirs, &ours).unwrap();
        let again = Project::read(&turned.text);
        let keys = |merged: &sunharp::project::merge::Merged| {
            merged.conflicts.iter().map(|conflict| conflict.key.clone()).collect::<BTreeSet<_>>()
        };
        prop_assert_eq!(keys(&merged), keys(&turned));
        prop_assert_eq!(records(&merged.text), records(&turned.text));
        prop_assert_eq!(comments(&merged.text), comments(&turned.text));
        for id in result.entries.keys().filter(|id| !keys(&merged).contains(*id)) {
            prop_assert_eq!(typed(&result, id), typed(&again, id));
        }
    }

    #[test]
    fn one_side_alone_is_taken_as_it_is(edits in edits()) {
        let theirs = edited(sample::TEXT, "Tomas", &edits);
        let merged = merge(sample::TEXT, sample::TEXT, &theirs).unwrap();
        prop_assert!(merged.conflicts.is_empty());
        prop_assert_eq!(Project::read(&merged.text).entries, Project::read(&theirs).entries);
        prop_assert_eq!(merge(sample::TEXT, &theirs, sample::TEXT).unwrap().text, theirs);
    }
}

fn run(folder: &Path, program: &str, arguments: &[&str]) -> Output {
    Command::new(program)
        .args(arguments)
        .current_dir(folder)
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env("GIT_AUTHOR_NAME", "Ines")
        .env("GIT_AUTHOR_EMAIL", "ines@example.org")
        .env("GIT_COMMITTER_NAME", "Ines")
        .env("GIT_COMMITTER_EMAIL", "ines@example.org")
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

fn sunharp(folder: &Path, arguments: &[&str]) -> (i32, String) {
    let output = run(folder, env!("CARGO_BIN_EXE_sunharp"), arguments);
    let text = [output.stdout, output.stderr].concat();
    (output.status.code().unwrap(), String::from_utf8(text).unwrap())
}

/// A folder with a repository whose merge driver is this program; none on a machine without git.
fn repository() -> Option<tempfile::TempDir> {
    Command::new("git").arg("--version").stdout(Stdio::null()).status().ok()?;
    let folder = tempfile::tempdir().unwrap();
    let driver = format!("{} merge %O %A %B", env!("CARGO_BIN_EXE_sunharp"));
    fs::write(folder.path().join(".gitattributes"), "*.toml merge=sunharp\n").unwrap();
    for arguments in [&["init", "-q", "-b", "main"][..], &["config", "merge.sunharp.driver", &driver]] {
        assert!(run(folder.path(), "git", arguments).status.success());
    }
    Some(folder)
}

fn commit(folder: &Path, text: &str) {
    fs::write(folder.join("project.toml"), text).unwrap();
    assert!(run(folder, "git", &["add", "."]).status.success());
    assert!(run(folder, "git", &["commit", "-q", "-m", "work"]).status.success());
}

#[test]
fn git_merges_two_builders_with_the_driver_set() {
    let Some(repository) = repository() else { return };
    let folder = repository.path();
    let pitch = |text: &str, typed: &str| text.replace("riser_pitch = \"4 in\"", &format!("riser_pitch = \"{typed}\""));
    let log = |who: &str| format!("\n[log.2026-06-01-1]\nsort = \"test\"\nby = \"{who}\"\ntext = \"held\"\n");
    commit(folder, sample::TEXT);
    assert!(run(folder, "git", &["checkout", "-q", "-b", "tomas"]).status.success());
    commit(folder, &(pitch(sample::TEXT, "5 in") + &log("Tomas")));
    assert!(run(folder, "git", &["checkout", "-q", "main"]).status.success());
    commit(folder, &(sample::TEXT.to_owned() + &log("Ines")));
    assert!(run(folder, "git", &["merge", "-q", "--no-edit", "tomas"]).status.success());
    let text = fs::read_to_string(folder.join("project.toml")).unwrap();
    let project = Project::read(&text);
    assert_eq!(project.problems, []);
    assert_eq!(typed(&project, "absorber.riser_pitch").as_deref(), Some("5 in"));
    assert_eq!(project.records.log.iter().filter(|event| event.text == "held").count(), 2);

    // Both change the pitch: git stops, both values stand in the file, one word settles it.
    assert!(run(folder, "git", &["checkout", "-q", "-b", "again"]).status.success());
    commit(folder, &text.replace("\"5 in\"", "\"6 in\""));
    assert!(run(folder, "git", &["checkout", "-q", "main"]).status.success());
    commit(folder, &text.replace("\"5 in\"", "\"4 1/2 in\""));
    assert!(!run(folder, "git", &["merge", "-q", "--no-edit", "again"]).status.success());
    let (code, said) = sunharp(folder, &["check", "project.toml"]);
    assert!(code == 1 && said.contains("one wrote '4 1/2 in', the other wrote '6 in'"), "{said}");
    let (code, said) = sunharp(folder, &["settle", "project.toml", "absorber.riser_pitch", "theirs"]);
    assert_eq!(code, 0, "{said}");
    let settled = Project::read(&fs::read_to_string(folder.join("project.toml")).unwrap());
    assert!(settled.problems.is_empty() && settled.conflicts.is_empty());
    assert_eq!(typed(&settled, "absorber.riser_pitch").as_deref(), Some("6 in"));
}

#[test]
fn what_changed_since_the_last_commit_is_told_in_the_words_of_the_workbook() {
    let Some(repository) = repository() else { return };
    let folder = repository.path();
    commit(folder, sample::TEXT);
    let (_, said) = sunharp(folder, &["changes", "project.toml"]);
    assert!(said.contains("Nothing has changed."), "{said}");
    let reading = "\n[reading.\"absorber.riser_pitch@B\".2026-06-01-1]\nvalue = \"4.1 in\"\nby = \"Tomas\"\n";
    let text = sample::TEXT.replace("glass = \"tempered\"", "glass = \"annealed\"") + reading;
    fs::write(folder.join("project.toml"), text).unwrap();
    for arguments in [&["changes", "project.toml"][..], &["changes", "HEAD", "project.toml"]] {
        let (code, said) = sunharp(folder, arguments);
        assert_eq!(code, 0, "{said}");
        for words in ["was tempered, is annealed", "reading of absorber.riser_pitch@B: 4.1 in", "is stop", "Figures"] {
            assert!(said.contains(words), "{words} in\n{said}");
        }
    }
    let (code, said) = sunharp(folder, &["changes", "no-such-tag", "project.toml"]);
    assert!(code == 3 && said.contains("no-such-tag"), "{said}");
}

#[test]
fn without_a_repository_nothing_is_compared_and_the_reason_is_said() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("project.toml"), sample::TEXT).unwrap();
    let (code, said) = sunharp(folder.path(), &["changes", "project.toml"]);
    assert!(code == 3 && said.contains("to compare with"), "{said}");
}

#[test]
fn a_design_is_taken_elsewhere_without_its_records_and_what_moved_is_told() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("old.toml"), sample::TEXT).unwrap();
    let place = ["--set", "site.latitude=54.3°", "--set", "site.longitude=10.1°"];
    let (code, said) = sunharp(folder.path(), &[&["adopt", "old.toml", "new.toml"][..], &place].concat());
    assert_eq!(code, 0, "{said}");
    for words in
        ["the design is kept", "records of the old build were left behind", "site.record_low (was \"-8 °F\")", "moved:"]
    {
        assert!(said.contains(words), "{words} in\n{said}");
    }
    let new = Project::read(&fs::read_to_string(folder.path().join("new.toml")).unwrap());
    let old = Project::read(sample::TEXT);
    assert_eq!(new.problems, []);
    assert_eq!(new.records, sunharp::model::Records::default());
    assert_eq!(typed(&new, "absorber.riser_pitch"), typed(&old, "absorber.riser_pitch"));
    assert_eq!(typed(&new, "site.latitude").as_deref(), Some("54.3°"));
    assert_eq!(typed(&new, "site.weather_file"), None);
    assert_eq!(new.panels, old.panels);
    let (code, _) = sunharp(folder.path(), &["adopt", "old.toml", "new.toml"]);
    assert_eq!(code, 3, "an existing file is never written over");
}

#[test]
fn a_settled_conflict_can_be_taken_back() {
    let theirs = sample::TEXT.replace("riser_pitch = \"4 in\"", "riser_pitch = \"5 in\"");
    let ours = sample::TEXT.replace("riser_pitch = \"4 in\"\n", "");
    let text = merge(sample::TEXT, &ours, &theirs).unwrap().text;
    assert!(text.contains(&format!("[{SECTION}.")));
    let disk = std::sync::Arc::new(sunharp::project::store::RealDisk);
    let mut workbook =
        sunharp::workbook::Workbook::unsaved(disk, Path::new("p.toml"), text.clone(), jiff::civil::date(2026, 6, 1));
    workbook.settle("absorber.riser_pitch", sunharp::project::merge::Side::Ours).unwrap();
    assert_eq!(typed(workbook.project(), "absorber.riser_pitch"), None);
    assert_eq!(workbook.undo().as_deref(), Some("settled: absorber.riser_pitch"));
    assert_eq!(workbook.text(), text);
}
