//! Laws of the project file: nothing is touched but what was asked for, and everything can be taken back.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use proptest::prelude::*;
use sunharp::model::{Address, EntrySpec, PanelLetter, Role, Shape};
use sunharp::project::draft::Drafts;
use sunharp::project::edit::{set_entry, unset_entry};
use sunharp::project::store::RealDisk;
use sunharp::project::{Project, Splice};
use sunharp::stage;
use sunharp::units::{Kind, Quantity, System, example};
use sunharp::workbook::change::{NewReading, NewSignOff};
use sunharp::workbook::{Workbook, sample};

/// Every sample project, as it is and with the line ends and the mark of other systems.
fn texts() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    let mut texts = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "toml") {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let text = fs::read_to_string(&path).unwrap();
            texts.push((format!("{name} with CRLF and mark"), foreign(&text)));
            texts.push((name, text));
        }
    }
    assert!(texts.len() >= 2);
    texts
}

fn foreign(text: &str) -> String {
    format!("\u{feff}{}", text.replace('\n', "\r\n"))
}

fn open(path: &Path) -> Workbook {
    Workbook::open(Arc::new(RealDisk), path, "2026-05-01".parse().unwrap()).unwrap()
}

fn written(folder: &tempfile::TempDir, text: &str) -> PathBuf {
    let path = folder.path().join("project.toml");
    fs::write(&path, text).unwrap();
    path
}

/// Another possible text for an entry than the one it has.
fn another(spec: &EntrySpec, now: Option<&str>) -> Option<String> {
    let candidates: Vec<String> = match spec.shape {
        Shape::Quantity { kind, hard, .. } => {
            let typed = now.or(spec.default).and_then(|typed| spec.read(typed).ok());
            let start = typed.and_then(|value| value.quantity()).map_or(hard.0.max(0.0).midpoint(hard.1), |q| q.si);
            let step = if kind == Kind::Count { 1.0 } else { 0.02 * start };
            let near = [start + step, start - step].map(|si| Quantity::new(kind, si).text(System::Si));
            near.into_iter().chain([example(kind)]).collect()
        }
        Shape::Choice(words) => words().iter().map(|(word, _)| (*word).to_owned()).collect(),
        Shape::Text => vec!["other words, 2\" tape, 'and' \\ more".to_owned(), "plain".to_owned()],
        Shape::Flag => vec!["yes".to_owned(), "no".to_owned()],
        Shape::Date => vec!["2026-02-03".to_owned(), "2026-02-04".to_owned()],
    };
    candidates.into_iter().find(|typed| Some(typed.as_str()) != now && spec.read(typed).is_ok())
}

fn decided() -> impl Iterator<Item = &'static EntrySpec> {
    stage::entries().iter().copied().filter(|spec| spec.role == Role::Decide && !spec.id.contains('*'))
}

fn differing_lines(a: &str, b: &str) -> usize {
    assert_eq!(a.lines().count(), b.lines().count());
    a.split('\n').zip(b.split('\n')).filter(|(a, b)| a != b).count()
}

#[test]
fn opening_and_saving_keeps_every_byte() {
    for (name, text) in texts() {
        let folder = tempfile::tempdir().unwrap();
        let path = written(&folder, &text);
        let mut workbook = open(&path);
        assert!(!workbook.is_dirty(), "{name}");
        workbook.save().unwrap();
        assert_eq!(fs::read(&path).unwrap(), text.as_bytes(), "{name}");
    }
}

#[test]
fn samples_have_no_problems() {
    for (name, text) in texts() {
        assert_eq!(Project::read(&text).problems, [], "{name}");
    }
}

#[test]
fn changing_any_entry_of_a_sample_changes_one_line_and_undo_gives_the_first_bytes() {
    for (name, text) in texts() {
        let project = Project::read(&text);
        let mut changed = 0;
        for (id, given) in &project.entries {
            let spec = stage::entry(id).unwrap();
            let Some(typed) = another(spec, Some(&given.typed)) else { continue };
            let splice = set_entry(&text, &project, id, &typed).unwrap_or_else(|error| panic!("{name} {id}: {error}"));
            let after = splice.apply(&text).unwrap();
            assert_eq!(differing_lines(&text, &after), 1, "{name} {id}");
            assert_eq!(Project::read(&after).entries[id].typed, typed.trim(), "{name} {id}");
            assert_eq!(splice.inverse().apply(&after).unwrap(), text, "{name} {id}");
            changed += 1;
        }
        assert!(changed > 20, "{name}: only {changed} entries could be changed");
    }
}

#[test]
fn entering_what_was_not_there_keeps_all_that_was() {
    for (name, text) in texts() {
        let project = Project::read(&text);
        for spec in decided().filter(|spec| !project.entries.contains_key(spec.id)) {
            let typed = another(spec, None).unwrap_or_else(|| panic!("{}: no example can be typed", spec.id));
            let splice = set_entry(&text, &project, spec.id, &typed).unwrap();
            assert_eq!(splice.old, "", "{name} {}", spec.id);
            let after = splice.apply(&text).unwrap();
            assert_eq!(after.contains("\r\n"), text.contains("\r\n"), "{name} {}", spec.id);
            let lone = |text: &str| text.matches('\n').count() - text.matches("\r\n").count();
            assert!(!text.contains("\r\n") || lone(&after) == 0, "{name} {}: a line end of the other sort", spec.id);
            let read = Project::read(&after);
            assert_eq!(read.entries[spec.id].typed, typed);
            let gone = unset_entry(&after, &read, spec.id).unwrap().apply(&after).unwrap();
            assert!(!Project::read(&gone).entries.contains_key(spec.id), "{name} {}", spec.id);
        }
    }
}

#[test]
fn an_entry_can_be_set_in_an_empty_file_and_in_one_without_a_last_line_end() {
    for text in ["format = 1", "format = 1\n", "format = 1\n[absorber]", "# only words\nformat = 1\n\n"] {
        for spec in decided() {
            let Some(typed) = another(spec, None) else { continue };
            let project = Project::read(text);
            let splice = set_entry(text, &project, spec.id, &typed).unwrap();
            let after = splice.apply(text).unwrap();
            assert_eq!(Project::read(&after).entries[spec.id].typed, typed, "{after}");
            assert_eq!(splice.inverse().apply(&after).unwrap(), text);
        }
    }
}

/// A step that can be signed off now, with what it asks for.
fn signable(workbook: &Workbook) -> (Address, NewSignOff) {
    use sunharp::model::Evidence;
    use sunharp::solve::progress::Standing;
    let state =
        workbook.evaluation().steps.iter().find(|state| {
            matches!(state.standing, Standing::Open) && !matches!(state.step.evidence, Evidence::Reading(_))
        });
    let sign_off = NewSignOff {
        by: "Ines \"the torch\"".to_owned(),
        read_back_by: "Tom".to_owned(),
        evidence: "seen, it's even".to_owned(),
    };
    (state.expect("no step is open").address.clone(), sign_off)
}

#[test]
fn records_are_put_in_without_touching_anything_else_and_can_be_taken_back() {
    for (name, text) in texts() {
        let folder = tempfile::tempdir().unwrap();
        let mut workbook = open(&written(&folder, &text));
        let panel = PanelLetter::new('A').unwrap();
        let reading = NewReading { typed: "4 1/16 in".to_owned(), by: "Ines".to_owned(), ..NewReading::default() };
        workbook.add_reading(&Address::on("absorber.riser_pitch", panel), &reading).unwrap();
        workbook.add_reading(&Address::on("absorber.riser_pitch", panel), &reading).unwrap();
        let (step, sign_off) = signable(&workbook);
        workbook.sign_off(&step, &sign_off).unwrap();
        workbook.withdraw_sign_off(&step, "the wrong panel").unwrap();
        workbook.add_log("test", "Ines", "first fill").unwrap();
        workbook.save().unwrap();
        let after = workbook.text().to_owned();
        assert_eq!(fs::read_to_string(workbook.path()).unwrap(), after);
        assert!(is_subsequence(&text, &after), "{name}: a line of before is gone");
        let (was, is) = (Project::read(&text), Project::read(&after));
        assert_eq!(is.problems, [], "{name}");
        assert_eq!(is.entries, was.entries, "{name}");
        assert_eq!(is.records.readings.len(), was.records.readings.len() + 2, "{name}");
        assert_eq!(is.records.sign_offs.len(), was.records.sign_offs.len() + 1, "{name}");
        assert_eq!(is.records.log.len(), was.records.log.len() + 1, "{name}");
        while workbook.undo().is_some() {}
        assert_eq!(workbook.text(), text, "{name}");
        while workbook.redo().is_some() {}
        assert_eq!(workbook.text(), after, "{name}");
    }
}

/// Whether all lines of one text stand in another one, in the same order.
fn is_subsequence(part: &str, whole: &str) -> bool {
    let mut lines = whole.lines();
    part.lines().filter(|line| !line.is_empty()).all(|line| lines.any(|other| other == line))
}

#[test]
fn a_draft_brings_back_unsaved_work_and_the_half_typed_field() {
    let (folder, state) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let drafts = Drafts::in_folder(state.path().join("drafts"));
    let path = written(&folder, &foreign(sample::TEXT));
    let mut workbook = open(&path);
    assert_eq!(workbook.draft(&drafts), None);
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    let unsaved = workbook.text().to_owned();
    workbook.keep_draft(&drafts, None).unwrap();
    workbook.keep_draft(&drafts, Some(("absorber.header_spacing", "79 1/"))).unwrap();
    drop(workbook);

    let mut again = open(&path);
    let draft = again.draft(&drafts).expect("the draft is gone");
    assert_eq!(draft.text, unsaved);
    assert_eq!((draft.field.as_deref(), draft.typed.as_str()), (Some("absorber.header_spacing"), "79 1/"));
    again.take_draft(&draft.text).unwrap();
    assert_eq!(again.text(), unsaved);
    again.undo();
    assert_eq!(again.text(), foreign(sample::TEXT));
    again.drop_draft(&drafts);
    assert_eq!(open(&path).draft(&drafts), None);
}

#[test]
fn a_draft_belongs_to_one_file_only() {
    let (folder, other, state) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let drafts = Drafts::in_folder(state.path());
    let mut workbook = open(&written(&folder, sample::TEXT));
    workbook.set("absorber.riser_pitch", "5 in").unwrap();
    workbook.keep_draft(&drafts, None).unwrap();
    assert_eq!(open(&written(&other, sample::TEXT)).draft(&drafts), None);
}

/// One edit at random: which entry, and what is typed.
#[derive(Clone, Debug)]
struct Edit {
    entry: prop::sample::Index,
    words: String,
    takes_out: bool,
}

fn edit() -> impl Strategy<Value = Edit> {
    let words = prop_oneof!["\\PC{0,40}", "[ -~]{0,40}", any::<String>()];
    (any::<prop::sample::Index>(), words, prop::bool::weighted(0.2)).prop_map(|(entry, words, takes_out)| Edit {
        entry,
        words,
        takes_out,
    })
}

/// The splice of an edit, if the entry takes it: free text as it is, anything else its next possible text.
fn splice_of(edit: &Edit, specs: &[&'static EntrySpec], text: &str, project: &Project) -> Option<Splice> {
    let spec = specs[edit.entry.index(specs.len())];
    let now = project.entries.get(spec.id).map(|given| given.typed.as_str());
    if edit.takes_out {
        return unset_entry(text, project, spec.id).ok();
    }
    let typed = if matches!(spec.shape, Shape::Text) { edit.words.clone() } else { another(spec, now)? };
    spec.read(&typed).ok()?;
    let splice = set_entry(text, project, spec.id, &typed).expect("a possible text was refused");
    let after = Project::read(&splice.apply(text).unwrap());
    assert_eq!(after.entries[spec.id].typed, typed.trim());
    Some(splice)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_run_of_edits_stays_readable_and_can_be_taken_back(edits in prop::collection::vec(edit(), 1..16), crlf: bool) {
        let first = if crlf { foreign(sample::TEXT) } else { sample::TEXT.to_owned() };
        let specs: Vec<&'static EntrySpec> = decided().collect();
        let mut text = first.clone();
        let mut done = Vec::new();
        for edit in &edits {
            let project = Project::read(&text);
            if let Some(splice) = splice_of(edit, &specs, &text, &project) {
                text = splice.apply(&text).unwrap();
                prop_assert_eq!(&Project::read(&text).problems, &[]);
                done.push(splice);
            }
        }
        for splice in done.iter().rev() {
            text = splice.inverse().apply(&text).unwrap();
        }
        prop_assert_eq!(text, first);
    }
}
