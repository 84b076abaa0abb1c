//! What the loop asks of the shop: pipe, fittings, insulation, parts, glycol.

use super::closed;
use super::entries::part::PartKind;
use super::entries::{self as e, LoopType, run, service};
use super::network::Network;
use super::pipework::{self, Line, Tubing, given_at};
use crate::model::{Choice, Demand, Fig, Shelf};
use crate::stage::demands::size;
use crate::stage::{Group, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Length};

/// What the list reads.
pub static DEMANDS: Group = Group {
    name: "what the loop needs",
    entries: &["plumbing.coil_tube", "plumbing.coil_length", "plumbing.run.*.insulation", "plumbing.run.*.thickness"],
    groups: &[&pipework::LINES, &super::pressure_rows::GLYCOL],
};

/// Scrap of pipe and insulation (common practice, no source).
const PIPE_SCRAP: f64 = 0.05;

/// Lines of the bill for goods of several sizes; what goes beyond them is counted with the last.
const PIPES: [&str; 4] = ["pipe", "pipe-2", "pipe-3", "pipe-4"];
const ELBOWS: [&str; 4] = ["elbow", "elbow-2", "elbow-3", "elbow-4"];
const TEES: [&str; 4] = ["tee", "tee-2", "tee-3", "tee-4"];
const INSULATION: [&str; 4] = ["pipe-insulation", "pipe-insulation-2", "pipe-insulation-3", "pipe-insulation-4"];

/// The lines of one sort of goods: item and amount, equal items together.
#[derive(Default)]
struct Sizes(Vec<(String, f64)>);

impl Sizes {
    fn add(&mut self, item: String, amount: f64) {
        if amount <= 0.0 {
            return;
        }
        match self.0.iter_mut().find(|(known, _)| *known == item) {
            Some((_, sum)) => *sum += amount,
            None => self.0.push((item, amount)),
        }
    }

    fn lines(self, keys: &[&'static str; 4], of: impl Fn(&'static str, String, f64) -> Demand) -> Vec<Demand> {
        let key = |at: usize| keys[at.min(keys.len() - 1)];
        self.0.into_iter().enumerate().map(|(at, (item, amount))| of(key(at), item, amount)).collect()
    }
}

/// The list; without written runs only the pipe of the loop.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let lines = s.plumbing.lines.as_ref().map_err(Clone::clone)?;
    let (mut pipe, mut elbows, mut tees, mut insulation) =
        (Sizes::default(), Sizes::default(), Sizes::default(), Sizes::default());
    let network = s.plumbing.layout.network.as_ref().ok();
    for line in lines {
        pipe.add(tubing(line), line.run.length.si());
    }
    let Some(network) = network else {
        return Ok(
            pipe.lines(&PIPES, |key, item, metres| goods(key, item, Length::from_si(metres), "pipe of the loop"))
        );
    };
    for branch in &network.branches {
        let line = pipework::line(&s.inputs, network, branch)?;
        pipe.add(tubing(&line), line.run.length.si());
    }
    for stretch in network.stretches() {
        let line = pipework::line(&s.inputs, network, stretch)?;
        elbows.add(tubing(&line), s.inputs.at(&run::ELBOWS, &stretch.run)? as f64);
        let hanging = stretch.along.iter().filter(|name| network.kind(name).is_some_and(PartKind::is_terminal)).count();
        tees.add(tubing(&line), (s.inputs.at(&run::TEES, &stretch.run)? + hanging) as f64);
        if let Some(material) = given_at(&s.inputs, &run::INSULATION, &stretch.run)? {
            let thickness = size(s.inputs.at(&run::THICKNESS, &stretch.run)?);
            insulation.add(format!("{material}, {thickness} on {}", size(line.od)), line.run.length.si());
        }
    }
    let count = |purpose| {
        move |key, item, number: f64| Demand {
            quantity: counted(number),
            ..goods(key, item, Length::default(), purpose)
        }
    };
    let mut list =
        pipe.lines(&PIPES, |key, item, metres| goods(key, item, Length::from_si(metres), "pipe of the loop"));
    list.extend(
        elbows
            .lines(&ELBOWS, |key, item, number| count("turns of the loop")(key, format!("elbow 90°, {item}"), number)),
    );
    list.extend(
        tees.lines(&TEES, |key, item, number| count("branches of the loop")(key, format!("tee, {item}"), number)),
    );
    list.extend(insulation.lines(&INSULATION, |key, item, metres| Demand {
        shelf: Shelf::Insulation,
        ..goods(key, item, Length::from_si(metres), "insulation of the loop")
    }));
    list.extend(coil(s, network)?);
    list.extend(parts(network));
    list.extend(glycol(s)?);
    Ok(list)
}

fn counted(number: f64) -> Quantity {
    Quantity::new(crate::units::Kind::Count, number)
}

fn goods(key: &'static str, item: String, length: Length, purpose: &'static str) -> Demand {
    Demand { key, item, shelf: Shelf::Plumbing, quantity: length.into(), purpose, scrap: PIPE_SCRAP }
}

fn coil(s: &Solution, network: &Network) -> Fig<Option<Demand>> {
    if network.part_of(PartKind::Coil).is_none() {
        return Ok(None);
    }
    let length = s.inputs.get(&service::COIL_LENGTH)?;
    Ok(Some(goods("coil-tube", s.inputs.get(&service::COIL_TUBE)?, length, "coil in the tank")))
}

/// Valves, pump, vessel and the like, by kind.
fn parts(network: &Network) -> Vec<Demand> {
    let kinds = PartKind::OPTIONS.iter().filter(|(kind, _, _)| !matches!(kind, PartKind::Panels | PartKind::Coil));
    let of = |(kind, word, _): &(PartKind, &'static str, &'static str)| {
        let number = network.parts_of(*kind).len();
        (number > 0).then(|| Demand {
            quantity: Quantity::count(number),
            scrap: 0.0,
            ..goods(kind.key(), (*word).to_owned(), Length::default(), "parts of the loop")
        })
    };
    kinds.filter_map(of).collect()
}

fn glycol(s: &Solution) -> Fig<Option<Demand>> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(None);
    }
    let contents = s.plumbing.contents.clone()?.total();
    let reserve = s.plumbing.working.closed.as_ref().map_err(Clone::clone)?.vessel.reserve;
    let (volume, _) = closed::glycol_to_buy(&s.inputs, contents, reserve)?;
    let item = "propylene glycol, inhibited".to_owned();
    Ok(Some(Demand { quantity: volume.into(), ..goods("glycol", item, Length::default(), "liquid of the loop") }))
}

fn tubing(line: &Line) -> String {
    match &line.tubing {
        Tubing::Copper(tube) => tube.name(),
        Tubing::Hose(name) => format!("{name}, bore {}", size(line.run.bore)),
    }
}
