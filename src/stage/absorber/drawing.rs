//! The harp as a drawing in millimetres, seen from the front. Sizes come from `geometry`; how it looks is for a face.

use super::geometry::Harp;
use crate::model::scene::{Part, Scene, Shape};
use crate::units::si::{Dimension, Length};

/// Room above the upper header for its dimension line, in header diameters.
const DIMENSION_ROOM: f64 = 1.5;
/// Heights of the measures a, b and c, in shares of the sheet's length.
const STUB_LEVEL: f64 = 0.25;
const HOLE_LEVEL: f64 = 0.5;
const PITCH_LEVEL: f64 = 0.75;

/// Draws the harp: sheet, risers, headers, a hole in each header for every riser, the header's length, and under the
/// letters a to d the left stub, the first hole, the pitch and the header spacing.
///
/// The length of the dimension line is written by the face, in the units of whoever looks; what the letters measure
/// stands in the words beside the picture.
///
/// x runs from the left end of the headers, the datum of the running dimensions (of the one that reaches farther, if
/// they are mirrored); y from the lower edge of the lower header.
pub fn harp_scene(harp: &Harp) -> Scene {
    let width = mm(harp.header_length);
    let header = mm(harp.header.od);
    let spacing = mm(harp.header_spacing);
    let riser = mm(harp.riser_outer_diameter);
    let between = mm(harp.sheet_length);
    // Tees keep the sheet off the headers, at both alike.
    let beside = (between - mm(harp.plate_length)) / 2.0;
    let rectangle = |part, x, y, width, height| Shape::Rectangle { part, x, y, width, height };
    let holes: Vec<f64> = harp.holes.iter().map(|hole| mm(*hole)).collect();
    let upper_first = harp.upper_holes.first().map_or(0.0, |hole| mm(*hole));
    let ahead = upper_first - holes.first().copied().unwrap_or(0.0);
    let (lower_left, upper_left) = (ahead.max(0.0), (-ahead).max(0.0));
    let holes: Vec<f64> = holes.iter().map(|hole| hole + lower_left).collect();
    let sheet_left = holes.first().copied().unwrap_or(0.0) - mm(harp.edge_width);

    let mut shapes =
        vec![rectangle(Part::Sheet, sheet_left, header + beside, mm(harp.sheet_width), mm(harp.plate_length))];
    shapes.extend(holes.iter().map(|x| rectangle(Part::Tube, x - riser / 2.0, header, riser, between)));
    for (left, y) in [(lower_left, 0.0), (upper_left, spacing)] {
        shapes.push(rectangle(Part::Tube, left, y, width, header));
        shapes.extend(holes.iter().map(|x| Shape::Circle {
            part: Part::Hole,
            centre: (*x, y + header / 2.0),
            radius: riser / 2.0,
        }));
    }
    shapes.extend(measures(harp, lower_left, &holes));
    let line = spacing + header * (1.0 + DIMENSION_ROOM);
    shapes.push(Shape::Line { part: Part::Dimension, from: (upper_left, line), to: (upper_left + width, line) });
    Scene { shapes, size: (width + ahead.abs(), line) }
}

/// The measures of the lower header and its risers, each at its own height so that none covers another.
fn measures(harp: &Harp, left: f64, holes: &[f64]) -> Vec<Shape> {
    let level = |share: f64| mm(harp.header.od) + share * mm(harp.sheet_length);
    let along = |letter, share, from, to| Shape::Named { from: (from, level(share)), to: (to, level(share)), letter };
    let (first, second) = (holes.first().copied().unwrap_or(left), holes.get(1).copied().unwrap_or(left));
    let axis = mm(harp.header.od) / 2.0;
    let beyond = left + mm(harp.header_length) - mm(harp.stub_right) / 2.0;
    vec![
        along('a', STUB_LEVEL, left, left + mm(harp.stub_left)),
        along('b', HOLE_LEVEL, left, first),
        along('c', PITCH_LEVEL, first, second),
        Shape::Named { from: (beyond, axis), to: (beyond, axis + mm(harp.header_spacing)), letter: 'd' },
    ]
}

fn mm(length: Length) -> f64 {
    length.si() * 1000.0
}
