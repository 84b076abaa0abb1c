//! What the loop asks of the shop: pipe.

use super::entries as e;
use crate::model::{Demand, Fig, Shelf};
use crate::stage::{Group, Solution};

/// What the list reads.
pub static DEMANDS: Group =
    Group { name: "what the loop needs", entries: &["plumbing.pipe", "plumbing.pipe_length"], groups: &[] };

/// Scrap of pipe (common practice, no source).
const PIPE_SCRAP: f64 = 0.05;

/// The list.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    Ok(vec![Demand {
        key: "pipe",
        item: s.inputs.get(&e::PIPE)?,
        shelf: Shelf::Plumbing,
        quantity: s.inputs.get(&e::PIPE_LENGTH)?.into(),
        purpose: "pipe of the loop",
        scrap: PIPE_SCRAP,
    }])
}
