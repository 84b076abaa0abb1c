//! The harp as a drawing in millimetres, seen from the front. Sizes come from `geometry`; how it looks is for a face.

use super::geometry::Harp;
use crate::model::scene::{Part, Scene, Shape};
use crate::units::si::{Dimension, Length};

/// Room above the upper header for its dimension line, in header diameters.
const DIMENSION_ROOM: f64 = 1.5;

/// Draws the harp: sheet, risers, headers, a hole in each header for every riser, and the header's length.
///
/// The length of the dimension line is written by the face, in the units of whoever looks.
///
/// x runs from the left end of the headers, the datum of the running dimensions (of the one that reaches farther, if
/// they are mirrored); y from the lower edge of the lower header.
pub fn harp_scene(harp: &Harp) -> Scene {
    let width = mm(harp.header_length);
    let header = mm(harp.header.od);
    let spacing = mm(harp.header_spacing);
    let riser = mm(harp.riser_outer_diameter);
    let between = mm(harp.sheet_length);
    let rectangle = |part, x, y, width, height| Shape::Rectangle { part, x, y, width, height };
    let holes: Vec<f64> = harp.holes.iter().map(|hole| mm(*hole)).collect();
    let upper_first = harp.upper_holes.first().map_or(0.0, |hole| mm(*hole));
    let ahead = upper_first - holes.first().copied().unwrap_or(0.0);
    let (lower_left, upper_left) = (ahead.max(0.0), (-ahead).max(0.0));
    let holes: Vec<f64> = holes.iter().map(|hole| hole + lower_left).collect();
    let sheet_left = holes.first().copied().unwrap_or(0.0) - mm(harp.edge_width);

    let mut shapes = vec![rectangle(Part::Sheet, sheet_left, header, mm(harp.sheet_width), between)];
    shapes.extend(holes.iter().map(|x| rectangle(Part::Tube, x - riser / 2.0, header, riser, between)));
    for (left, y) in [(lower_left, 0.0), (upper_left, spacing)] {
        shapes.push(rectangle(Part::Tube, left, y, width, header));
        shapes.extend(holes.iter().map(|x| Shape::Circle {
            part: Part::Hole,
            centre: (*x, y + header / 2.0),
            radius: riser / 2.0,
        }));
    }
    let line = spacing + header * (1.0 + DIMENSION_ROOM);
    shapes.push(Shape::Line { part: Part::Dimension, from: (upper_left, line), to: (upper_left + width, line) });
    Scene { shapes, size: (width + ahead.abs(), line) }
}

fn mm(length: Length) -> f64 {
    length.si() * 1000.0
}
