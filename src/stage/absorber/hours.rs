//! Hours of work: by the piece, by the builder's own log, and for the harps that remain.
//!
//! The log is kept step by step (`[log]` with sort `hours`); the times by the piece are what is assumed until then.

use super::PLATE;
use super::entries::{self as e, Joint};
use super::joints;
use crate::model::{Entry, EntrySpec, Fig, Fold, Inputs, PanelLetter, TradeUnits, Why};
use crate::stage::{Figure, Group, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, Time};

/// Minutes for a hole.
pub static HOLE_TIME: Entry<Time> = Entry::quantity("absorber.hole_time", "time for a hole")
    .why("mark, punch, pilot, drill or pull, deburr; from memory until a panel is done")
    .hard(0.0, 7200.0)
    .default("6 min");

/// Minutes for a cut.
pub static CUT_TIME: Entry<Time> = Entry::quantity("absorber.cut_time", "time for a riser")
    .why("straighten, cut, ream, ring; from memory until a panel is done")
    .hard(0.0, 7200.0)
    .default("4 min");

/// Minutes for a joint.
pub static JOINT_TIME: Entry<Time> = Entry::quantity("absorber.joint_time", "time for a joint")
    .why("clean, fit, close one place with filler, look; from memory until a panel is done")
    .hard(0.0, 7200.0)
    .default("4 min");

/// Minutes for a metre of sheet line.
pub static BOND_TIME: Entry<Time> = Entry::quantity("absorber.bond_time", "time for a metre of sheet line")
    .why("clean, flux, clamp, solder, wash; from memory until a panel is done")
    .hard(0.0, 36_000.0)
    .default("8 min");

/// Hours for the rest.
pub static OTHER_TIME: Entry<Time> = Entry::quantity("absorber.other_time", "time for the rest of a harp")
    .why("setting up, tests, washing, paint; from memory until a panel is done")
    .hard(0.0, 360_000.0)
    .default("8 h");

/// Hours that a harp took.
pub static HOURS_USED: Entry<Time> = Entry::quantity("absorber.hours_used", "hours for the harp")
    .shown_in(TradeUnits::WORK)
    .why("of all hands together, from first hole to last coat; left out, the hours logged step by step count")
    .hard(0.0, 3.6e6)
    .per_panel()
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&HOLE_TIME.spec, &CUT_TIME.spec, &JOINT_TIME.spec, &BOND_TIME.spec, &OTHER_TIME.spec, &HOURS_USED.spec];

static ESTIMATE: Group = Group {
    name: "hours by the piece",
    entries: &[
        "absorber.joint",
        "absorber.hole_time",
        "absorber.cut_time",
        "absorber.joint_time",
        "absorber.bond_time",
        "absorber.other_time",
    ],
    groups: &[&PLATE],
};

static HOURS: Group = Group { name: "hours of the panels", entries: &["absorber.hours_used"], groups: &[&ESTIMATE] };

/// The log is no entry: nothing that is typed moves what was logged.
static LOGGED: Group = Group { name: "hours in the log", entries: &[], groups: &[] };

/// A part of the work on one harp that has a time by the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Task {
    Holes,
    Cuts,
    Joints,
    Bond,
    Rest,
}

impl Task {
    const ALL: [Self; 5] = [Self::Holes, Self::Cuts, Self::Joints, Self::Bond, Self::Rest];

    /// The task that a step of one harp belongs to.
    fn of(step: &str) -> Self {
        match step {
            "absorber.drill-headers" => Self::Holes,
            "absorber.cut-risers" => Self::Cuts,
            "absorber.join" => Self::Joints,
            "absorber.solder-sheet" => Self::Bond,
            _ => Self::Rest,
        }
    }
}

/// The last long step of a harp: once it is logged, the small ones between are taken to be in the log as well.
const LAST: &str = "absorber.blacken";

/// The steps of one harp.
fn harp_steps() -> impl Iterator<Item = &'static str> {
    super::steps::STEPS.iter().filter(|step| step.per_panel).map(|step| step.id)
}

/// Seconds in the log for a task on a panel; none where nothing was written, or where the rest is still going on.
fn logged(inputs: &Inputs, task: Task, panel: PanelLetter) -> Option<f64> {
    let of = |step: &str| inputs.worked(step, panel);
    if task == Task::Rest && of(LAST).is_none() {
        return None;
    }
    let mut times = harp_steps().filter(|step| Task::of(step) == task).filter_map(of).peekable();
    times.peek()?;
    Some(times.sum())
}

/// All seconds in the log for a panel.
fn all_logged(inputs: &Inputs, panel: PanelLetter) -> f64 {
    harp_steps().filter_map(|step| inputs.worked(step, panel)).sum()
}

/// Time of a task on one harp, by the piece.
fn by_the_piece(s: &Solution, task: Task) -> Fig<Time> {
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let risers = harp.riser_count as f64;
    Ok(match task {
        Task::Holes => match s.inputs.get(&e::JOINT)? {
            Joint::Tee => Time::default(),
            Joint::Collar | Joint::Drilled => s.inputs.get(&HOLE_TIME)? * (risers * 2.0),
        },
        Task::Cuts => s.inputs.get(&CUT_TIME)? * risers,
        Task::Joints => s.inputs.get(&JOINT_TIME)? * joints::filler_joints(&s.inputs, harp)? as f64,
        Task::Bond => s.inputs.get(&BOND_TIME)? * (harp.plate_length.si() * risers),
        Task::Rest => s.inputs.get(&OTHER_TIME)?,
    })
}

/// Hours for one harp by the piece.
fn estimate(s: &Solution) -> Fig<Time> {
    Task::ALL.into_iter().try_fold(Time::default(), |sum, task| Ok(sum + by_the_piece(s, task)?))
}

/// What a harp took whose hours are all known: by its reading, else by its log once that holds every task.
fn done(s: &Solution) -> Fig<Vec<(PanelLetter, Time)>> {
    let mut done = s.inputs.of_panels(&HOURS_USED);
    for &panel in s.inputs.panels() {
        if done.iter().any(|(read, _)| *read == panel) {
            continue;
        }
        let mut is_whole = true;
        for task in Task::ALL {
            is_whole &= logged(&s.inputs, task, panel).is_some() || by_the_piece(s, task)?.si() <= 0.0;
        }
        if is_whole {
            done.push((panel, Time::from_si(all_logged(&s.inputs, panel))));
        }
    }
    Ok(done)
}

/// Time of a task on one harp: the mean of what the log has, else by the piece.
fn task_time(s: &Solution, task: Task) -> Fig<Time> {
    let taken: Vec<f64> = s.inputs.panels().iter().filter_map(|panel| logged(&s.inputs, task, *panel)).collect();
    if taken.is_empty() {
        return by_the_piece(s, task);
    }
    Ok(Time::from_si(taken.iter().sum::<f64>() / taken.len() as f64))
}

fn each(s: &Solution) -> Fig<Time> {
    let done = done(s)?;
    if done.is_empty() {
        return Task::ALL.into_iter().try_fold(Time::default(), |sum, task| Ok(sum + task_time(s, task)?));
    }
    Ok(done.iter().fold(Time::default(), |sum, (_, time)| sum + *time) / done.len() as f64)
}

/// What the harps that are not done still take: each less what its log has.
fn left(s: &Solution) -> Fig<Time> {
    let (each, done) = (each(s)?, done(s)?);
    if s.inputs.panels().is_empty() {
        return Ok(each);
    }
    let open = s.inputs.panels().iter().filter(|panel| done.iter().all(|(other, _)| other != *panel));
    let left = open.map(|panel| (each.si() - all_logged(&s.inputs, *panel)).max(0.0));
    Ok(Time::from_si(left.sum()))
}

/// All hours in the log.
fn in_the_log(s: &Solution) -> Fig<Time> {
    let all: f64 = s.inputs.panels().iter().map(|panel| all_logged(&s.inputs, *panel)).sum();
    if all > 0.0 { Ok(Time::from_si(all)) } else { Err(Why::out_of_range("the log has no hours of a harp yet")) }
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.hours_estimate", "hours for a harp, by the piece", Kind::Time, &ESTIMATE, |s, _| {
        Ok(estimate(s)?.into())
    }).shown_in(TradeUnits::WORK)
    .by(
        "hours",
        "holes × {hole} + {n} × {cut} + {places} × {joint} + metres × {bond} + {rest}",
        &[
            ("hole", "absorber.hole_time"),
            ("n", "absorber.riser_count"),
            ("cut", "absorber.cut_time"),
            ("places", "absorber.filler_joints"),
            ("joint", "absorber.joint_time"),
            ("bond", "absorber.bond_time"),
            ("rest", "absorber.other_time"),
        ],
    ),
    Figure::new("absorber.hours_logged", "hours in the log, all harps", Kind::Time, &LOGGED, |s, _| {
        Ok(in_the_log(s)?.into())
    }).shown_in(TradeUnits::WORK)
    .by("hours", "sum of the log's hours over all steps of the harps", &[]),
    Figure::new("absorber.hours_each", "hours for one more harp", Kind::Time, &HOURS, |s, _| Ok(each(s)?.into())).shown_in(TradeUnits::WORK).by(
        "hours",
        "mean of the harps that are done; until one is, what the log has of each task and {reckoned} for the others",
        &[("reckoned", "absorber.hours_estimate")],
    ),
    Figure::new("absorber.hours_left", "hours for the remaining harps", Kind::Time, &HOURS, |s, _| Ok(left(s)?.into())).shown_in(TradeUnits::WORK)
        .by(
            "hours",
            "{each} less what the log has, for each harp that is not done",
            &[("each", "absorber.hours_each")],
        ),
];
