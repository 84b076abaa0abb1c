//! The rack from the side, to scale: ground or roof line, legs, panel on its rails.

use super::entries::{self as e, MountKind};
use super::{rise, run};
use crate::model::Fig;
use crate::model::scene::{Part, Scene, Shape};
use crate::stage::Solution;
use crate::stage::site::entries as site;
use crate::stage::site::entries::surroundings::ROOF_SLOPE;
use crate::units::si::{Dimension, Length};

/// Ground drawn beyond the feet, a part of the panel's run.
const GROUND_BEYOND: f64 = 0.1;

fn mm(length: Length) -> f64 {
    length.si() * 1000.0
}

/// Draws the panel as a sloping band over its base line, its legs, and its rise and run as dimensions.
///
/// x runs from the lower edge of the panel backward, y upward from the base line under the lower edge.
pub fn rack_scene(s: &Solution) -> Fig<Scene> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let (run, rise) = (mm(run(s)?), mm(rise(s)?));
    let tilt = s.inputs.get(&site::TILT)?.si();
    let depth = timber_box.parts.iter().find(|part| !part.is_board()).map_or(0.0, |part| mm(part.width));
    let kind = s.inputs.get(&e::MOUNT_KIND)?;
    let front = if kind == MountKind::Ground { mm(s.inputs.get(&e::RACK_FRONT)?) } else { 0.0 };
    let line = |part, from: (f64, f64), to: (f64, f64)| Shape::Line { part, from, to };
    // Room on the left for what the depth of the box leans over the lower edge.
    let left = depth * tilt.sin();
    let (low, high) = ((left, front), (left + run, front + rise));
    let over = |(x, y): (f64, f64)| (x - depth * tilt.sin(), y + depth * tilt.cos());
    let beyond = run * GROUND_BEYOND;
    let base = match kind {
        MountKind::Ground => ((0.0, 0.0), (left + run + beyond, 0.0)),
        MountKind::Flush => (low, high),
        MountKind::RoofRack => (low, (high.0, run * s.inputs.get(&ROOF_SLOPE)?.si().tan())),
    };
    let mut shapes = vec![
        line(Part::Timber, base.0, base.1),
        line(Part::Sheet, over(low), over(high)),
        line(Part::Timber, low, high),
        line(Part::Timber, low, over(low)),
        line(Part::Timber, high, over(high)),
    ];
    if kind != MountKind::Flush {
        shapes.push(line(Part::Tube, high, (high.0, base.1.1)));
    }
    if kind == MountKind::Ground {
        shapes.push(line(Part::Tube, low, (low.0, 0.0)));
    }
    let right = left + run + beyond;
    shapes.push(line(Part::Dimension, (right, front), (right, high.1)));
    let height = over(high).1;
    shapes.push(line(Part::Dimension, (left, height), (left + run, height)));
    Ok(Scene { shapes, size: (right, height) })
}
