//! What the shop must deliver for all panels of a project, without scrap.
//!
//! Lives here: the gathering over the stages. What a stage needs is declared in its own folder: a function
//! `fn(&Solution) -> Fig<Vec<Demand>>` and the group of what it reads, put into [`SOURCES`]. Must not live here: prices,
//! stock lengths, cutting plans.

use super::{Group, Solution, absorber, enclosure, plumbing};
use crate::model::{Demand, Fig};
use crate::units::si::{Dimension, Length};

/// One part of the project that needs things from the shop.
pub struct Source {
    /// Its name, for people.
    pub name: &'static str,
    /// What it needs, for all panels together; one panel is counted while none is listed.
    pub demands: fn(&Solution) -> Fig<Vec<Demand>>,
    /// What that reads.
    pub group: &'static Group,
}

/// Everything that asks the shop for something.
pub static SOURCES: &[Source] = &[
    Source { name: "the harp", demands: absorber::demands::demands, group: &absorber::demands::DEMANDS },
    Source { name: "the jigs", demands: absorber::jigs::demands, group: &absorber::jigs::DEMANDS },
    Source { name: "the joints", demands: absorber::supplies::demands, group: &absorber::supplies::DEMANDS },
    Source { name: "the box", demands: enclosure::demands::demands, group: &enclosure::demands::DEMANDS },
    Source { name: "the caps", demands: enclosure::capping::demands, group: &enclosure::capping::DEMANDS },
    Source { name: "the rack", demands: enclosure::rack::demands::demands, group: &enclosure::rack::demands::DEMANDS },
    Source { name: "the links", demands: enclosure::links::demands, group: &enclosure::links::DEMANDS },
    Source { name: "the loop", demands: plumbing::demands::demands, group: &plumbing::demands::DEMANDS },
];

/// The panels that are bought for.
pub fn panels(s: &Solution) -> f64 {
    s.inputs.panels().len().max(1) as f64
}

/// A size in the name of a thing that is bought.
pub fn size(length: Length) -> String {
    format!("{} mm", (length.si() * 1e5).round() / 100.0)
}
