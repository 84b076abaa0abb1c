//! Everything computed from one set of inputs: the design as drawn, or one panel as built.

use super::materials::Bill;
use super::study::Studies;
use super::{World, absorber, commissioning, enclosure, plumbing, safety, site};
use crate::model::Inputs;

/// Solves a set of inputs anew, as `solve` does: what a study needs to see a neighbour of a project.
pub type Solver = fn(Inputs, &World, &Studies, Option<&Solution>) -> Solution;

/// The results of all stages for one set of inputs. Groups hold a value or the reason why there is none.
#[derive(Clone, Debug)]
pub struct Solution {
    /// What it was computed from.
    pub inputs: Inputs,
    /// How it was computed.
    pub solver: Solver,
    /// The world it was computed in.
    pub world: World,
    /// What the studies brought back.
    pub studies: Studies,
    /// Sun, weather and water.
    pub site: site::Results,
    /// The harp.
    pub absorber: absorber::Results,
    /// Box, glass and masses.
    pub enclosure: enclosure::Results,
    /// Loop, load and tank.
    pub plumbing: plumbing::Results,
    /// Loads and dangers in numbers.
    pub safety: safety::Results,
    /// Proofs in numbers.
    pub commissioning: commissioning::Results,
    /// What the shop must deliver.
    pub bill: Bill,
}
