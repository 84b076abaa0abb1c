//! The walk along the loop: what can be shut in without relief.
//!
//! Every valve that can be closed is taken as closed, every check valve as one way. What then cannot reach an opening
//! is shut in; closing fewer valves can only open ways, so no other choice of valves is worse. How hot a part gets,
//! and what the pressure does to it, does not live here.

use std::collections::{BTreeMap, BTreeSet};

use super::entries::part::{self, PartKind};
use super::network::{Network, Stretch};
use crate::model::{Fig, Inputs};

/// Liquid that can be shut in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShutIn {
    /// Parts and runs that hold it.
    pub holds: Vec<String>,
    /// The valves that shut it in; none where the loop has no opening at all.
    pub by: Vec<String>,
}

/// One thing that liquid stands in or passes.
#[derive(Debug)]
struct Item {
    name: String,
    role: Role,
}

/// What a thing does to pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Role {
    /// Pipe: pressure passes.
    Pipe,
    /// A part that pressure passes.
    Through,
    /// A valve that can be closed.
    Closed,
    /// A check valve.
    OneWay,
    /// Pressure leaves the loop here.
    Opening,
}

/// All things of the loop, and which follows which in the direction of flow.
#[derive(Debug, Default)]
struct Graph {
    items: Vec<Item>,
    next: Vec<Vec<usize>>,
    before: Vec<Vec<usize>>,
    places: BTreeMap<String, usize>,
}

/// Everything that can be shut in, section by section.
pub fn shut_in(inputs: &Inputs, network: &Network) -> Fig<Vec<ShutIn>> {
    let mut locked = BTreeSet::new();
    for name in network.parts.keys() {
        if inputs.at(&part::LOCKED, name)? {
            locked.insert(name.as_str());
        }
    }
    Ok(Graph::of(network, &locked).sections())
}

impl Graph {
    fn of(network: &Network, locked: &BTreeSet<&str>) -> Self {
        let mut graph = Self::default();
        let item = |name: &str| {
            let role = match network.kind(name) {
                Some(kind) if kind.relieves() => Role::Opening,
                Some(kind) if kind.can_close() && !locked.contains(name) => Role::Closed,
                Some(PartKind::CheckValve) => Role::OneWay,
                _ => Role::Through,
            };
            Item { name: name.to_owned(), role }
        };
        for stretch in network.stretches() {
            graph.add(stretch, &item);
        }
        graph
    }

    fn push(&mut self, item: Item) -> usize {
        self.items.push(item);
        self.next.push(Vec::new());
        self.before.push(Vec::new());
        self.items.len() - 1
    }

    fn place(&mut self, name: &str, item: &impl Fn(&str) -> Item) -> usize {
        if let Some(known) = self.places.get(name) {
            return *known;
        }
        let index = self.push(item(name));
        self.places.insert(name.to_owned(), index);
        index
    }

    fn add(&mut self, stretch: &Stretch, item: &impl Fn(&str) -> Item) {
        let mut last = self.place(&stretch.from, item);
        for name in &stretch.along {
            let pipe = self.pipe(&stretch.run);
            let part = self.push(item(name));
            self.join(last, pipe);
            self.join(pipe, part);
            last = part;
        }
        let pipe = self.pipe(&stretch.run);
        let end = self.place(&stretch.to, item);
        self.join(last, pipe);
        self.join(pipe, end);
    }

    fn pipe(&mut self, run: &str) -> usize {
        self.push(Item { name: format!("run {run}"), role: Role::Pipe })
    }

    fn join(&mut self, from: usize, to: usize) {
        self.next[from].push(to);
        self.before[to].push(from);
    }

    /// Whether pressure can get from here to an opening.
    fn reaches_opening(&self, start: usize) -> bool {
        let mut seen = vec![false; self.items.len()];
        let mut open = vec![start];
        seen[start] = true;
        while let Some(at) = open.pop() {
            let role = self.items[at].role;
            if role == Role::Opening {
                return true;
            }
            let back = if role == Role::OneWay { &[][..] } else { &self.before[at][..] };
            let with_flow = self.next[at].iter().map(|to| (*to, true));
            for (to, with_flow) in with_flow.chain(back.iter().map(|to| (*to, false))) {
                let role = self.items[to].role;
                if !seen[to] && role != Role::Closed && (with_flow || role != Role::OneWay) {
                    seen[to] = true;
                    open.push(to);
                }
            }
        }
        false
    }

    fn sections(&self) -> Vec<ShutIn> {
        let holds = |at: usize| !matches!(self.items[at].role, Role::Closed | Role::OneWay);
        let shut: Vec<bool> = (0..self.items.len()).map(|at| holds(at) && !self.reaches_opening(at)).collect();
        let mut done = vec![false; self.items.len()];
        let mut sections = Vec::new();
        for start in 0..self.items.len() {
            if !shut[start] || done[start] {
                continue;
            }
            let (mut parts, mut pipes, mut by) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
            let mut open = vec![start];
            done[start] = true;
            while let Some(at) = open.pop() {
                let item = &self.items[at];
                if item.role == Role::Pipe {
                    pipes.insert(item.name.clone());
                } else {
                    parts.push(item.name.clone());
                }
                for to in self.next[at].iter().chain(&self.before[at]) {
                    if !holds(*to) {
                        by.insert(self.items[*to].name.clone());
                    } else if !done[*to] {
                        done[*to] = true;
                        open.push(*to);
                    }
                }
            }
            parts.extend(pipes);
            sections.push(ShutIn { holds: parts, by: by.into_iter().collect() });
        }
        sections
    }
}

impl ShutIn {
    /// The section in words.
    pub fn words(&self) -> String {
        let what = self.holds.join(", ");
        if self.by.is_empty() { what } else { format!("{what} (shut by {})", self.by.join(" and ")) }
    }
}

#[cfg(test)]
mod tests;
