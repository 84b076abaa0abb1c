//! Changing any entry moves only what declares that it depends on it, and every declaration moves something.
//!
//! The project of `world.rs` is the sample with everything else filled in. Every entry is changed in turn by a few
//! percent, to the ends of what is usual, to other words, and taken out; all figures and checks are compared.

mod perturb;
mod world;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::thread;

use sunharp::model::{EntrySpec, Fig, Value};
use sunharp::solve::Evaluation;
use sunharp::stage::study::STUDIES;
use sunharp::stage::{self, Axis, Group};

use super::tables::none;
use world::Base;

/// Declared dependencies that no change of the project moves, each with the reason why it is declared.
const CANNOT_BE_SEEN: &[(&str, &str, &str)] = &[];

/// What moved when one entry was changed.
#[derive(Default)]
struct Moves {
    /// Ids of figures, without the key of an axis.
    figures: BTreeSet<&'static str>,
    /// Ids of checks.
    checks: BTreeSet<&'static str>,
}

/// The rows of one figure: their keys, and the value of each.
struct Rows {
    keys: Arc<[String]>,
    values: Vec<Fig<Value>>,
}

/// Every figure, in the order of the stages; the keys of an axis are asked for once, because this is done thousands of
/// times.
fn rows(evaluation: &Evaluation) -> impl Iterator<Item = (&'static str, Rows)> {
    let mut known: Vec<(Option<Axis>, Arc<[String]>)> = vec![(None, Arc::new([String::new()]))];
    stage::figures().iter().map(move |figure| {
        let keys = match (known.iter().find(|(axis, _)| *axis == figure.axis), figure.axis) {
            (None, Some(axis)) => {
                let keys: Arc<[String]> = evaluation.keys(axis).into();
                known.push((figure.axis, Arc::clone(&keys)));
                keys
            }
            (Some((_, keys)), _) => Arc::clone(keys),
            (None, None) => unreachable!("figures without an axis come first"),
        };
        let values = keys.iter().map(|key| (figure.read)(&evaluation.drawn, key)).collect();
        (figure.id, Rows { keys, values })
    })
}

impl Rows {
    fn same_as(&self, other: &Self) -> bool {
        self.keys == other.keys && self.values.iter().zip(&other.values).all(|(a, b)| same(a, b))
    }
}

fn same(a: &Fig<Value>, b: &Fig<Value>) -> bool {
    match (a, b) {
        (Ok(a), Ok(b)) => a.same_as(b),
        (Err(a), Err(b)) => a == b,
        _ => false,
    }
}

/// An evaluation with its figures laid out, so that many others are compared with it.
struct Before {
    evaluation: Evaluation,
    rows: Vec<Rows>,
}

impl Before {
    fn new(evaluation: Evaluation) -> Self {
        Self { rows: rows(&evaluation).map(|(_, rows)| rows).collect(), evaluation }
    }
}

impl Moves {
    fn note(&mut self, before: &Before, after: &Evaluation) {
        let pairs = before.rows.iter().zip(rows(after));
        self.figures.extend(pairs.filter(|(was, (_, is))| !was.same_as(is)).map(|(_, (id, _))| id));
        for (was, is) in before.evaluation.verdicts.iter().zip(&after.verdicts) {
            if was.verdict != is.verdict || was.judgement != is.judgement {
                self.checks.insert(was.check.id);
            }
        }
    }
}

/// Changes every entry of a base in turn.
fn moves_from(base: &Base) -> BTreeMap<&'static str, Moves> {
    let before = Before::new(base.evaluate(None));
    let is_first = base.name == world::FIRST;
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let of_thread = |first: usize| -> Vec<(&'static str, Moves)> {
        let mine = base.changed().into_iter().skip(first).step_by(threads);
        mine.map(|spec| (spec.id, moves_of(base, &before, spec, is_first))).collect()
    };
    thread::scope(|scope| {
        let running: Vec<_> = (0..threads).map(|first| scope.spawn(move || of_thread(first))).collect();
        running.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    })
}

/// Changes one entry in every way from the first base, in fewer ways from the others. Slow studies run for
/// the first change of what they declare, where the entry has its first value.
fn moves_of(base: &Base, before: &Before, spec: &'static EntrySpec, is_first: bool) -> Moves {
    let mut moves = Moves::default();
    for id in base.ids_of(spec) {
        let mut changes = perturb::changes(spec, base.value(&id).as_ref());
        if !is_first {
            perturb::only_the_near(&mut changes);
        }
        for (at, change) in changes.into_iter().enumerate() {
            let changed = base.with(&id, change);
            let slowly = at == 0 && (is_first || spec.id.contains('*')) && slow_studies_declare(spec.id);
            let after = if slowly {
                changed.evaluate_after(spec.id, &before.evaluation.drawn)
            } else {
                changed.evaluate_quickly(&before.evaluation.drawn)
            };
            moves.note(before, &after);
        }
    }
    moves
}

/// Whether a slow study declares that it reads an entry.
fn slow_studies_declare(entry: &str) -> bool {
    let mut slow = STUDIES.iter().filter(|study| world::SLOW.contains(&study.id));
    slow.any(|study| study.group.depends().contains(entry))
}

fn undeclared(name: &str, moves: &BTreeMap<&'static str, Moves>) -> Vec<String> {
    let mut complaints = Vec::new();
    for (entry, moved) in moves {
        for id in &moved.figures {
            let figure = stage::figure(id).unwrap().0;
            if !figure.group.depends().contains(entry) {
                complaints.push(format!("{name}: {entry} moves figure {id}; group '{}' omits it", figure.group.name));
            }
        }
        for id in &moved.checks {
            if !stage::check(id).unwrap().depends().contains(entry) {
                complaints.push(format!("{name}: {entry} moves check {id}, whose needs do not lead to it"));
            }
        }
    }
    complaints
}

/// Every group that a figure hangs on, with those figures.
fn groups() -> BTreeMap<&'static str, (&'static Group, Vec<&'static str>)> {
    let mut found: BTreeMap<&'static str, (&'static Group, Vec<&'static str>)> = BTreeMap::new();
    for figure in stage::figures() {
        let mut pending = vec![figure.group];
        while let Some(group) = pending.pop() {
            let (_, figures) = found.entry(group.name).or_insert((group, Vec::new()));
            if figures.last() != Some(&figure.id) {
                figures.push(figure.id);
                pending.extend(group.groups);
            }
        }
    }
    found
}

/// Entries of a group that move no figure which hangs on it, and groups that it names without any effect.
fn dead(all: &[BTreeMap<&'static str, Moves>]) -> Vec<String> {
    let mut complaints = Vec::new();
    for (name, (group, figures)) in groups() {
        let moves = |entry: &str| {
            let moved = all.iter().filter_map(|moves| moves.get(entry));
            moved.into_iter().any(|moves| figures.iter().any(|figure| moves.figures.contains(figure)))
        };
        for entry in group.entries {
            let excused = CANNOT_BE_SEEN.iter().any(|(group, id, _)| *group == name && id == entry);
            match (moves(entry), excused) {
                (false, false) => {
                    complaints.push(format!("group '{name}' declares {entry}, which moves nothing of it"));
                }
                (true, true) => {
                    complaints.push(format!("group '{name}' is excused for {entry}, which moves it after all"));
                }
                _ => {}
            }
        }
        for inner in group.groups {
            if !inner.depends().iter().any(|entry| moves(entry)) {
                complaints.push(format!("group '{name}' names group '{}', which moves nothing of it", inner.name));
            }
        }
    }
    complaints
}

#[test]
fn a_figure_that_moves_undeclared_is_caught() {
    let moved = Moves { figures: BTreeSet::from(["absorber.diagonal"]), checks: BTreeSet::from(["absorber.bond"]) };
    let complaints = undeclared("planted", &BTreeMap::from([("site.longitude", moved)]));
    assert_eq!(complaints.len(), 2, "{complaints:?}");
    let nothing_moves = dead(&[BTreeMap::new()]);
    assert!(
        nothing_moves.contains(&"group 'sun\'s height' declares site.latitude, which moves nothing of it".to_owned())
    );
}

#[test]
fn what_is_reused_of_an_earlier_solution_is_what_would_be_computed() {
    let base = world::bases().remove(0);
    let before = base.evaluate(None);
    let mut complaints = Vec::new();
    for spec in stage::entries() {
        let changes = perturb::changes(spec, base.value(spec.id).as_ref());
        let Some(change) = changes.into_iter().next() else { continue };
        let changed = base.with(spec.id, change);
        let mut moves = Moves::default();
        let fresh = Before::new(changed.evaluate_fresh(&before.drawn));
        moves.note(&fresh, &changed.evaluate_quickly(&before.drawn));
        complaints.extend(moves.figures.iter().map(|id| format!("{} leaves {id} as it was", spec.id)));
    }
    none(&complaints);
}

#[test]
fn everything_that_slow_studies_do_not_declare_may_change_at_once() {
    let base = world::bases().remove(0);
    let mut changed = base.clone();
    for spec in base.changed().into_iter().filter(|spec| !slow_studies_declare(spec.id)) {
        for id in base.ids_of(spec) {
            if let Some(change) = perturb::changes(spec, base.value(&id).as_ref()).into_iter().next() {
                changed = changed.with(&id, change);
            }
        }
    }
    let mut moves = Moves::default();
    moves.note(&Before::new(base.evaluate(None)), &changed.evaluate(None));
    let slow = STUDIES.iter().filter(|study| world::SLOW.contains(&study.id));
    let of_slow: Vec<&str> = slow.map(|study| study.group.name).collect();
    let figures = moves.figures.iter().filter(|id| of_slow.contains(&stage::figure(id).unwrap().0.group.name));
    none(
        &figures
            .map(|id| format!("{id} moves, though nothing that its study declares was changed"))
            .collect::<Vec<_>>(),
    );
}

#[test]
fn an_entry_moves_only_what_declares_it_and_every_declaration_moves_something() {
    let bases = world::bases();
    let mut complaints = Vec::new();
    let mut all = Vec::new();
    for base in &bases {
        let moves = moves_from(base);
        complaints.extend(undeclared(&base.name, &moves));
        all.push(moves);
    }
    complaints.extend(dead(&all));
    none(&complaints);
}
