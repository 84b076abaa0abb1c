//! What could mend a failing check of the loop: candidate changes of entries, the cheapest kind first.
//!
//! Lives here: what is worth trying. Must not live here: whether it helps; the workbook tries and judges.

mod pressure;
mod sold;

use super::entries::part::{self, PartKind};
use super::entries::run;
use super::entries::{self as e, service};
use super::network::{Network, Stretch};
use super::pipework::{Tubing, given_at};
use super::year::entries::LOCK_OUT;
use crate::handbook::tube::{self, TubeSize};
use crate::model::Fig;
use crate::stage::Solution;
use crate::units::si::{Dimension, Volume};
use sold::Sold;

/// One entry that gets another text, or is taken out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// The entry.
    pub id: String,
    /// Its new text; none to take it out.
    pub typed: Option<String>,
}

/// How dear a change is, the cheapest first (project rule: work before goods, small goods before pipe).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// A setting is moved, a handle taken off.
    Setting,
    /// A small part is added, moved or exchanged.
    SmallPart,
    /// Pipe is laid otherwise or exchanged.
    Pipe,
    /// A vessel, reservoir or pump is exchanged.
    LargePart,
}

/// One change that may mend a check.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// How dear its kind is.
    pub effort: Effort,
    /// Within one kind the smaller amount is the cheaper: metres, litres, steps.
    pub amount: f64,
    /// What is changed.
    pub edits: Vec<Edit>,
}

fn set(id: impl Into<String>, typed: impl Into<String>) -> Edit {
    Edit { id: id.into(), typed: Some(typed.into()) }
}

fn of(entry: &str, row: &str) -> String {
    entry.replacen('*', row, 1)
}

fn one(effort: Effort, amount: f64, edit: Edit) -> Candidate {
    Candidate { effort, amount, edits: vec![edit] }
}

/// Changes worth trying for a check, the cheapest first; none where nothing simple is known.
pub fn candidates(s: &Solution, check: &str) -> Vec<Candidate> {
    let found = match check {
        "plumbing.relief-reach" => pressure::relief_reach(s),
        "plumbing.pipe-speed" => wider_pipe(s),
        "plumbing.pump-duty" | "plumbing.drainback-fill" => stronger_pump(s),
        "plumbing.suction" => lower_pump(s),
        "plumbing.reservoir-size" => reservoir(s),
        "plumbing.vessel-size" => pressure::vessel(s),
        "plumbing.relief-chain" => pressure::lower_relief(s),
        "plumbing.drain-falls" => falls(s),
        "plumbing.night-flow" => check_valve(s),
        "plumbing.hose-rating" => metal(s),
        "plumbing.steam-parts" => move_part(s),
        "plumbing.cold-slug" => cold_slug(s),
        "plumbing.potable-expansion" => potable_vessel(s),
        "plumbing.lockout" => lockout(s),
        "plumbing.loop-parts" => missing_parts(s),
        _ => Ok(Vec::new()),
    };
    let mut list = found.unwrap_or_default();
    list.sort_by(|a, b| a.effort.cmp(&b.effort).then_with(|| a.amount.total_cmp(&b.amount)));
    list
}

fn network(s: &Solution) -> Fig<&Network> {
    s.plumbing.layout.network.as_ref().map_err(Clone::clone)
}

/// A name that no part has.
fn free_name(network: &Network, stem: &str) -> String {
    let taken = |name: &String| network.parts.contains_key(name);
    (2..100).map(|number| format!("{stem}-{number}")).find(|name| !taken(name)).unwrap_or_else(|| stem.to_owned())
}

/// The parts along a run with another one at a place among them.
fn with_part(stretch: &Stretch, at: usize, name: &str) -> Edit {
    let mut along = stretch.along.clone();
    along.insert(at.min(along.len()), name.to_owned());
    set(of(run::ALONG.spec.id, &stretch.run), along.join(", "))
}

/// The parts along a run without one of them.
fn without_part(stretch: &Stretch, name: &str) -> Edit {
    let along: Vec<&str> = stretch.along.iter().map(String::as_str).filter(|part| *part != name).collect();
    let id = of(run::ALONG.spec.id, &stretch.run);
    if along.is_empty() { Edit { id, typed: None } } else { set(id, along.join(", ")) }
}

/// A new part of a kind, at the start or the end of each run of the loop.
fn added(network: &Network, kind: (&str, &str), also: &[Edit], setting: Option<&str>) -> Vec<Candidate> {
    let name = free_name(network, kind.1);
    let mut list = Vec::new();
    for (step, stretch) in network.circuit.iter().enumerate() {
        for at in [0, stretch.along.len()] {
            let mut edits = vec![set(of(part::KIND.spec.id, &name), kind.0), with_part(stretch, at, &name)];
            edits.extend(setting.map(|typed| set(of(part::SETTING.spec.id, &name), typed)));
            edits.extend(also.iter().cloned());
            list.push(Candidate { effort: Effort::SmallPart, amount: step as f64, edits });
        }
    }
    list
}

/// The next wider sizes of the same standard.
fn wider(size: &'static TubeSize) -> Vec<&'static TubeSize> {
    let mut list: Vec<&'static TubeSize> =
        tube::all().iter().filter(|other| other.standard == size.standard && other.bore() > size.bore()).collect();
    list.sort_by(|a, b| a.bore().si().total_cmp(&b.bore().si()));
    list
}

/// Every run that is too fast one, two or three sizes wider.
fn wider_pipe(s: &Solution) -> Fig<Vec<Candidate>> {
    let runs = &s.plumbing.pipe.as_ref().map_err(Clone::clone)?.runs;
    let written = s.plumbing.layout.network.is_ok();
    let mut list = Vec::new();
    for sizes in 1..=4_usize {
        let mut edits = Vec::new();
        let mut metres = 0.0;
        for cost in runs.iter().filter(|cost| cost.drop.velocity.si() > super::checks::FASTEST) {
            let Tubing::Copper(size) = cost.line.tubing else { continue };
            let Some(next) = wider(size).get(sizes - 1).copied() else { continue };
            let id = if written { of(run::PIPE.spec.id, &cost.line.name) } else { e::PIPE.spec.id.to_owned() };
            metres += cost.line.run.length.si() * next.od.si();
            edits.push(set(id, next.name()));
        }
        if !edits.is_empty() {
            list.push(Candidate { effort: Effort::Pipe, amount: metres, edits });
        }
    }
    Ok(list)
}

/// The same pump with more head, a tenth at a time.
fn stronger_pump(s: &Solution) -> Fig<Vec<Candidate>> {
    let mut list = Vec::new();
    let rows = s.inputs.rows("plumbing.pump_point");
    for tenths in 11..=60 {
        let factor = f64::from(tenths) / 10.0;
        let mut edits = Vec::new();
        for row in &rows {
            let head = s.inputs.at(&service::PUMP_HEAD, row)?.si() * factor;
            edits.push(set(of(service::PUMP_HEAD.spec.id, row), Sold::of(&s.inputs).head(head)));
        }
        list.push(Candidate { effort: Effort::LargePart, amount: factor, edits });
    }
    Ok(list)
}

/// The pump set lower between the two runs that meet at it.
fn lower_pump(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let Some(pump) = network.part_of(PartKind::Pump) else { return Ok(Vec::new()) };
    let before = network.circuit.iter().find(|stretch| stretch.to == pump);
    let after = network.circuit.iter().find(|stretch| stretch.from == pump);
    let Some((before, after)) = before.zip(after) else { return Ok(Vec::new()) };
    let rise = |stretch: &Stretch| s.inputs.at(&run::RISE, &stretch.run).map(Dimension::si);
    let (down, up) = (rise(before)?, rise(after)?);
    let sold = Sold::of(&s.inputs);
    let lowered = (1..=16).map(|step| {
        let by = sold.move_step() * f64::from(step);
        let metres = |si: f64| sold.rise(si);
        let edits = vec![
            set(of(run::RISE.spec.id, &before.run), metres(down - by)),
            set(of(run::RISE.spec.id, &after.run), metres(up + by)),
        ];
        Candidate { effort: Effort::Pipe, amount: by, edits }
    });
    Ok(lowered.collect())
}

fn litres(volume: Volume) -> f64 {
    volume.si() * 1e3
}

fn reservoir(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let needs = litres(s.plumbing.working.emptying.as_ref().map_err(Clone::clone)?.needs);
    let name = network.part_of(PartKind::Reservoir).or(network.part_of(PartKind::SealedReservoir));
    let next = Sold::of(&s.inputs).volume(needs);
    Ok(name.map(|name| one(Effort::LargePart, needs, set(of(part::VOLUME.spec.id, name), next))).into_iter().collect())
}

/// More rise between the ends of every run that falls too little.
fn falls(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let slopes = super::heights::drain_slopes(&s.inputs, network)?;
    let mut edits = Vec::new();
    let mut metres = 0.0;
    for slope in slopes.iter().filter(|slope| slope.fall.si() < super::heights::LEAST_FALL) {
        let length = s.inputs.at(&run::LENGTH, &slope.run)?.si();
        // A millimetre more than enough, so that rounding does not undo it.
        let wanted = super::heights::LEAST_FALL * length + 1e-3;
        metres += wanted - slope.fall.si() * length;
        let signed = if slope.forward { -wanted } else { wanted };
        edits.push(set(of(run::RISE.spec.id, &slope.run), Sold::of(&s.inputs).rise(signed)));
    }
    Ok(vec![Candidate { effort: Effort::Pipe, amount: metres, edits }])
}

/// A check valve taken out of a drainback loop, or put into another one.
fn check_valve(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    if s.inputs.get(&e::LOOP)? == e::LoopType::Drainback {
        let mut edits = Vec::new();
        for name in network.parts_of(PartKind::CheckValve) {
            for stretch in network.circuit.iter().filter(|stretch| stretch.along.iter().any(|part| part == name)) {
                edits.push(without_part(stretch, name));
            }
            let row = format!("plumbing.part.{name}.");
            let given = s.inputs.ids().filter(|id| id.starts_with(&row));
            edits.extend(given.map(|id| Edit { id: id.to_owned(), typed: None }));
        }
        return Ok(vec![Candidate { effort: Effort::SmallPart, amount: 1.0, edits }]);
    }
    let head = s.plumbing.layout.night.clone()?.si();
    let setting = Sold::of(&s.inputs).opening(head * 1.2);
    Ok(added(network, ("check valve", "check"), &[], Some(&setting)))
}

/// Copper in place of each hose or plastic.
fn metal(s: &Solution) -> Fig<Vec<Candidate>> {
    let lines = s.plumbing.lines.as_ref().map_err(Clone::clone)?;
    let mut edits = Vec::new();
    let mut metres = 0.0;
    for line in lines.iter().filter(|line| matches!(line.tubing, Tubing::Hose(_))) {
        metres += line.run.length.si();
        for entry in [&run::HOSE.spec, &run::BORE.spec, &run::BARB.spec, &run::RATING.spec, &run::RATED_AT.spec] {
            let id = of(entry.id, &line.name);
            if s.inputs.typed(&id).is_some() {
                edits.push(Edit { id, typed: None });
            }
        }
        if given_at(&s.inputs, &run::PIPE, &line.name)?.is_none() && s.inputs.given(&e::PIPE)?.is_none() {
            edits.push(set(of(run::PIPE.spec.id, &line.name), "3/4 in type L"));
        }
    }
    Ok(vec![Candidate { effort: Effort::Pipe, amount: metres, edits }])
}

/// Each part that steam harms on another run.
fn move_part(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let steam = s.plumbing.working.steam.as_ref().map_err(Clone::clone)?;
    let mut list = Vec::new();
    for (name, limit) in super::steam::exposed(&s.inputs, network, steam)? {
        if limit.is_some_and(|limit| limit >= steam.saturation) {
            continue;
        }
        let Some(from) = network.circuit.iter().find(|stretch| stretch.along.contains(&name)) else { continue };
        for (step, to) in network.circuit.iter().enumerate().filter(|(_, to)| to.run != from.run) {
            let edits = vec![without_part(from, &name), with_part(to, to.along.len(), &name)];
            list.push(Candidate { effort: Effort::SmallPart, amount: step as f64, edits });
        }
    }
    Ok(list)
}

/// Pressure at which a usual check valve opens, Pa (common practice, no source).
const SLUG_OPENING: f64 = 2000.0;

fn cold_slug(s: &Solution) -> Fig<Vec<Candidate>> {
    let bypass = set(service::SLUG.spec.id, "bypass");
    let mut list = vec![one(Effort::SmallPart, 0.0, bypass.clone())];
    let opening = Sold::of(&s.inputs).opening(SLUG_OPENING);
    list.extend(added(network(s)?, ("check valve", "check"), &[bypass], Some(&opening)));
    Ok(list)
}

fn potable_vessel(s: &Solution) -> Fig<Vec<Candidate>> {
    let needs = litres(super::exchange::potable_vessel(&s.inputs)?);
    let enough = Sold::of(&s.inputs).vessels().into_iter().filter(|(_, litres)| *litres >= needs);
    let size = |(typed, litres)| one(Effort::LargePart, litres, set(service::POTABLE_VESSEL.spec.id, typed));
    Ok(enough.map(size).collect())
}

fn lockout(s: &Solution) -> Fig<Vec<Candidate>> {
    let limit = Sold::of(&s.inputs).at_most(s.plumbing.working.lockout_limit.clone()?);
    Ok(vec![one(Effort::Setting, 0.0, set(LOCK_OUT.spec.id, limit))])
}

/// A relief valve or a fill point where the loop has none; larger things are the builder's to place.
fn missing_parts(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let mut list = Vec::new();
    for (kind, word, stem) in
        [(PartKind::ReliefValve, "relief valve", "relief"), (PartKind::FillPoint, "fill point", "fill")]
    {
        if network.part_of(kind).is_none() {
            list.extend(added(network, (word, stem), &[], None));
        }
    }
    Ok(list)
}
