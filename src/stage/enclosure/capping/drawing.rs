//! The cap in section, to scale: rail, glass on its seat, folded sheet.

use super::entries as e;
use super::profile;
use crate::model::Fig;
use crate::model::scene::{Part, Scene, Shape};
use crate::stage::Solution;
use crate::stage::enclosure::entries as own;
use crate::units::si::{Dimension, Length};

fn mm(length: Length) -> f64 {
    length.si() * 1000.0
}

/// Rail drawn below the drop of the cap, mm.
const BELOW: f64 = 20.0;
/// Glass drawn inward of the seat, mm.
const INWARD: f64 = 20.0;

/// Draws the section across a long side: x from the outer face of the rail inward, y upward from the foot of what is
/// drawn.
pub fn cap_scene(s: &Solution) -> Fig<Scene> {
    let profile = profile(s)?;
    let inputs = &s.inputs;
    let (rail, bite) = (mm(inputs.get(&own::RAIL_THICKNESS)?), mm(inputs.get(&own::GLASS_BITE)?));
    let (glass, drop) = (mm(inputs.get(&own::GLASS_THICKNESS)?), mm(inputs.get(&e::DROP)?));
    let (top, hem) = (mm(profile.top), mm(inputs.get(&e::HEM)?));
    let height = drop + BELOW;
    let seat = height - glass;
    let glass_edge = rail - bite;
    let shoulder = glass_edge - mm(inputs.get(&own::GLASS_CLEARANCE)?);
    let rectangle = |part, x, y, width, height| Shape::Rectangle { part, x, y, width, height };
    let line = |from, to| Shape::Line { part: Part::Tube, from, to };
    let label = |x: f64, y: f64, text: &str| Shape::Label { at: (x, y), text: text.to_owned() };
    let cap = height + 1.0;
    let shapes = vec![
        rectangle(Part::Timber, 0.0, 0.0, rail, seat),
        rectangle(Part::Timber, 0.0, seat, shoulder.max(0.0), glass),
        rectangle(Part::Sheet, glass_edge, seat, bite + INWARD, glass),
        line((-1.0, cap), (top, cap)),
        line((-1.0, cap), (-1.0, height - drop)),
        line((-2.0, height - drop), (-2.0, height - drop + hem)),
        label(glass_edge + bite, seat - 6.0, "glass"),
        label(rail / 4.0, BELOW / 2.0, "rail"),
        Shape::Line { part: Part::Dimension, from: (0.0, cap + 6.0), to: (top, cap + 6.0) },
    ];
    Ok(Scene { shapes, size: (rail + INWARD, cap + 6.0) })
}
