//! What could mend a failing check of the loop: candidate changes of entries, the cheapest kind first.
//!
//! Lives here: what is worth trying. Must not live here: whether it helps; the workbook tries and judges.

use super::closed;
use super::entries::part::{self, PartKind};
use super::entries::run;
use super::entries::{self as e, service};
use super::network::{Network, Stretch};
use super::pipework::{Tubing, given_at};
use super::year::entries::LOCK_OUT;
use crate::handbook::tube::{self, TubeSize};
use crate::model::Fig;
use crate::stage::Solution;
use crate::units::si::{Dimension, Pressure, Volume, in_celsius};

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

/// Nominal volumes that vessels are sold in, L (common practice, no source).
const VESSELS: [f64; 14] = [8.0, 12.0, 18.0, 25.0, 35.0, 50.0, 80.0, 100.0, 140.0, 200.0, 300.0, 400.0, 500.0, 1000.0];

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
        "plumbing.relief-reach" => relief_reach(s),
        "plumbing.pipe-speed" => wider_pipe(s),
        "plumbing.pump-duty" | "plumbing.drainback-fill" => stronger_pump(s),
        "plumbing.suction" => lower_pump(s),
        "plumbing.reservoir-size" => reservoir(s),
        "plumbing.vessel-size" => vessel(s),
        "plumbing.relief-chain" => lower_relief(s),
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

/// Handles taken off, one or all; else a relief valve more.
fn relief_reach(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let sections = s.plumbing.layout.shut_in.as_ref().map_err(Clone::clone)?;
    let mut closers: Vec<&String> = sections.iter().flat_map(|section| &section.by).collect();
    closers.retain(|name| network.kind(name).is_some_and(PartKind::can_close));
    closers.sort();
    closers.dedup();
    let lock = |name: &&String| set(of(part::LOCKED.spec.id, name), "yes");
    let mut list: Vec<Candidate> = closers.iter().map(|name| one(Effort::Setting, 1.0, lock(name))).collect();
    for (at, first) in closers.iter().enumerate() {
        for second in &closers[at + 1..] {
            list.push(Candidate { effort: Effort::Setting, amount: 2.0, edits: vec![lock(first), lock(second)] });
        }
    }
    if closers.len() > 2 {
        let edits = closers.iter().map(lock).collect();
        list.push(Candidate { effort: Effort::Setting, amount: closers.len() as f64, edits });
    }
    list.extend(added(network, ("relief valve", "relief"), &[], None));
    if !closers.is_empty() {
        let unlocked: Vec<Edit> = closers.iter().map(lock).collect();
        list.extend(added(network, ("relief valve", "relief"), &unlocked, None));
    }
    Ok(list)
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
            edits.push(set(of(service::PUMP_HEAD.spec.id, row), format!("{head:.3} m")));
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
    let lowered = (1..=16).map(|half| {
        let by = 0.5 * f64::from(half);
        let metres = |si: f64| format!("{si:.3} m");
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
    let next = (needs / 5.0).ceil() * 5.0;
    Ok(name
        .map(|name| one(Effort::LargePart, next, set(of(part::VOLUME.spec.id, name), format!("{next} L"))))
        .into_iter()
        .collect())
}

/// The next larger vessels, and a higher relief setting.
fn vessel(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let Some(name) = network.part_of(PartKind::Vessel) else { return Ok(Vec::new()) };
    let has = given_at(&s.inputs, &part::VOLUME, name)?.map_or(0.0, litres);
    let mut list: Vec<Candidate> = VESSELS
        .iter()
        .filter(|size| **size > has)
        .map(|size| one(Effort::LargePart, *size, set(of(part::VOLUME.spec.id, name), format!("{size} L"))))
        .collect();
    let relief = closed::relief(&s.inputs, network)?.si();
    list.extend((1..=6).filter_map(|half| relief_at(s, network, relief + 0.5e5 * f64::from(half)).ok()));
    Ok(list)
}

/// All relief valves of the loop at one setting.
fn relief_at(s: &Solution, network: &Network, pressure: f64) -> Fig<Candidate> {
    let typed = format!("{:.2} bar", (pressure / 1e5 * 100.0).floor() / 100.0);
    let mut edits = Vec::new();
    for name in network.parts_of(PartKind::ReliefValve) {
        if given_at(&s.inputs, &part::SETTING, name)?.is_some() {
            edits.push(set(of(part::SETTING.spec.id, name), typed.clone()));
        }
    }
    edits.push(set(e::RELIEF.spec.id, typed));
    let moved = (pressure - closed::relief(&s.inputs, network)?.si()).abs();
    Ok(Candidate { effort: Effort::Setting, amount: moved, edits })
}

/// Relief at or below the weakest rating.
fn lower_relief(s: &Solution) -> Fig<Vec<Candidate>> {
    let network = network(s)?;
    let mut lowest: Option<Pressure> = s.inputs.given(&e::WEAKEST)?;
    for name in network.parts.keys() {
        lowest = lowest.into_iter().chain(given_at(&s.inputs, &part::RATING, name)?).reduce(Pressure::min);
    }
    for stretch in &network.circuit {
        lowest = lowest.into_iter().chain(given_at(&s.inputs, &run::RATING, &stretch.run)?).reduce(Pressure::min);
    }
    let relief = closed::relief(&s.inputs, network)?.si();
    let mut list: Vec<Candidate> =
        lowest.map(|limit| relief_at(s, network, limit.si())).transpose()?.into_iter().collect();
    list.extend((1..=8).filter_map(|half| relief_at(s, network, relief + 0.5e5 * f64::from(half)).ok()));
    Ok(list)
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
        edits.push(set(of(run::RISE.spec.id, &slope.run), format!("{signed:.3} m")));
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
    let setting = format!("{:.1} mbar", (head * 1.2 / 100.0).max(1.0).ceil());
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

fn cold_slug(s: &Solution) -> Fig<Vec<Candidate>> {
    let bypass = set(service::SLUG.spec.id, "bypass");
    let mut list = vec![one(Effort::SmallPart, 0.0, bypass.clone())];
    list.extend(added(network(s)?, ("check valve", "check"), &[bypass], Some("20 mbar")));
    Ok(list)
}

fn potable_vessel(s: &Solution) -> Fig<Vec<Candidate>> {
    let needs = litres(super::exchange::potable_vessel(&s.inputs)?);
    let size = |size: &f64| one(Effort::LargePart, *size, set(service::POTABLE_VESSEL.spec.id, format!("{size} L")));
    Ok(VESSELS.iter().filter(|volume| **volume >= needs).map(size).collect())
}

fn lockout(s: &Solution) -> Fig<Vec<Candidate>> {
    let limit = in_celsius(s.plumbing.working.lockout_limit.clone()?).floor();
    Ok(vec![one(Effort::Setting, 0.0, set(LOCK_OUT.spec.id, format!("{limit} °C")))])
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
