//! Drawings of the enclosure in millimetres: section of the box, screws and holes of a long rail, cut plans.
//!
//! Sizes come from the results; how a drawing looks is for a face.

use super::cutting::{self, TimberCut};
use super::entries as e;
use super::screws::Line;
use super::sheets::{self, Material, SheetCutting};
use crate::model::scene::{Part, Scene, Shape};
use crate::model::{Choice, Fig, Why};
use crate::stage::Solution;
use crate::units::si::{Dimension, Length};

fn mm(length: Length) -> f64 {
    length.si() * 1000.0
}

fn rectangle(part: Part, corner: (f64, f64), size: (f64, f64)) -> Shape {
    Shape::Rectangle { part, x: corner.0, y: corner.1, width: size.0, height: size.1 }
}

fn label(at: (f64, f64), text: impl Into<String>) -> Shape {
    Shape::Label { at, text: text.into() }
}

/// Across how many millimetres of the inside the section is drawn, from the left rail.
const SECTION: f64 = 260.0;

/// The left part of the box cut across the risers: rail, back board, insulation, a stub, plate, glass.
pub fn section(s: &Solution) -> Fig<Scene> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Why::clone)?;
    let harp = s.absorber.harp.as_ref().map_err(Why::clone)?;
    let openings = s.enclosure.openings.as_ref().map_err(Why::clone)?;
    let behind_rail = timber_box
        .depth
        .iter()
        .take_while(|layer| layer.name.starts_with("lip") || layer.name == "back board")
        .map(|layer| mm(layer.thickness));
    let behind_rail: f64 = behind_rail.sum::<f64>() - mm(timber_box.floor);
    let (rail, width) = (mm(timber_box.rail_thickness), mm(timber_box.rail_width));
    let seat = mm(s.inputs.get(&e::GLASS_BITE)? + s.inputs.get(&e::GLASS_CLEARANCE)?);
    let (board, glass) = (mm(s.inputs.get(&e::BACK_BOARD)?), mm(s.inputs.get(&e::GLASS_THICKNESS)?));
    let floor = behind_rail + mm(timber_box.floor);
    let ledge = behind_rail + mm(timber_box.ledge());
    let top = behind_rail + width;
    let back = mm(s.inputs.get(&e::BACK_THICKNESS)? + s.inputs.get(&super::second_layer::THICKNESS)?);
    let edge = mm(s.inputs.get(&e::EDGE_THICKNESS)?);
    let axis = behind_rail + mm(openings.stub_height);
    let tube = mm(harp.header.od);
    let mut shapes = vec![
        rectangle(Part::Timber, (0.0, behind_rail), (rail - seat, width)),
        rectangle(Part::Timber, (rail - seat, behind_rail), (seat, ledge - behind_rail)),
        rectangle(Part::Timber, (rail - mm(timber_box.board_seat), floor - board), (SECTION, board)),
        rectangle(Part::Sheet, (rail, floor), (SECTION - rail, back)),
        rectangle(Part::Sheet, (rail, floor + back), (edge, (ledge - floor - back).max(0.0))),
        rectangle(Part::Tube, (0.0, axis - tube / 2.0), (SECTION, tube)),
    ];
    let pane = ledge + (top - ledge - glass) / 2.0;
    shapes.push(rectangle(Part::Sheet, (rail - seat, pane), (SECTION - rail + seat, glass)));
    for (height, words) in [
        (floor - board / 2.0, "back board"),
        (floor + back / 2.0, "insulation"),
        (axis, "header"),
        (axis + tube / 2.0 + (pane - axis - tube / 2.0) / 2.0, "air gap"),
        (pane + glass / 2.0, "glass"),
    ] {
        shapes.push(label((SECTION * 0.55, height), words));
    }
    Ok(Scene { shapes, size: (SECTION + rail, top) })
}

/// The long rail from outside, lying: stub holes and the screws that go into it, from the lower end.
pub fn long_rail(s: &Solution) -> Fig<Scene> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Why::clone)?;
    let openings = s.enclosure.openings.as_ref().map_err(Why::clone)?;
    let lines = s.enclosure.screws.as_ref().map_err(Why::clone)?;
    let (length, width) = (mm(timber_box.outside_length), mm(timber_box.rail_width));
    let mut shapes = vec![
        rectangle(Part::Timber, (0.0, 0.0), (length, width)),
        Shape::Line { part: Part::Timber, from: (0.0, mm(timber_box.ledge())), to: (length, mm(timber_box.ledge())) },
    ];
    for cut in &openings.stub_cuts {
        let (left, bottom) = (mm(cut.middle - cut.along * 0.5), mm(cut.bottom));
        shapes.push(rectangle(Part::Tube, (left, bottom), (mm(cut.along), mm(cut.top) - bottom)));
    }
    let marks = |line: &Line, height: f64| -> Vec<Shape> {
        let circle = |at: &Length| Shape::Circle { part: Part::Hole, centre: (mm(*at), height), radius: 2.0 };
        line.positions.iter().flatten().map(circle).collect()
    };
    let cap = width - mm(s.inputs.get(&super::screws::CAP_LINE)?);
    for line in lines.iter().filter(|line| line.name.ends_with("long side")) {
        shapes.extend(marks(line, if line.name.starts_with("glass cap") { cap } else { 0.0 }));
    }
    Ok(Scene { shapes, size: (length, width) })
}

/// Room between two bars or two sheets, mm.
const BETWEEN: f64 = 120.0;

/// The boards that rails and strips are cut from, one above the other, each from its datum end.
pub fn timber_cuts(s: &Solution) -> Fig<Scene> {
    let cuts = cutting::best(s)?;
    let bars: Vec<(&TimberCut, usize)> =
        cuts.iter().flat_map(|cut| (0..cut.plan.bars.len()).map(move |bar| (cut, bar))).collect();
    let marks = cutting::marks(&cuts);
    let (mut shapes, mut longest) = (Vec::new(), 0.0_f64);
    let height = BETWEEN * bars.len() as f64;
    for (row, (cut, number)) in bars.iter().enumerate() {
        let bottom = height - BETWEEN * (row as f64 + 1.0) + 0.2 * BETWEEN;
        let Some(kind) = cut.job.bars.get(cut.plan.bars[*number].stock) else { continue };
        let (from, to) = (mm(kind.stretch.from.length()), mm(kind.stretch.to.length()));
        longest = longest.max(to);
        shapes.push(rectangle(Part::Sheet, (from, bottom), (to - from, 0.6 * BETWEEN)));
        let name = format!("{}, bar {}", kind.name, number + 1);
        for mark in marks.iter().filter(|mark| mark.bar == name) {
            let (left, right) = (mm(mark.from), mm(mark.at));
            shapes.push(rectangle(Part::Timber, (left, bottom), (right - left, 0.6 * BETWEEN)));
            shapes.push(label((left + 0.1 * (right - left), bottom + 0.3 * BETWEEN), mark.part));
        }
    }
    Ok(Scene { shapes, size: (longest, height) })
}

/// Most sheets of one drawing.
const MOST_SHEETS: usize = 4;

/// The sheets of one material side by side, with their pieces and the numbers of the cuts.
pub fn sheet_cuts(s: &Solution, material: Material) -> Fig<Scene> {
    let cuts = sheets::best(s)?;
    let none = || Why::out_of_range(format!("no sheet of {} is entered", material.word()));
    let cut = cuts.iter().find(|cut| cut.job.material == material).ok_or_else(none)?;
    let (mut shapes, mut right, mut top) = (Vec::new(), 0.0_f64, 0.0_f64);
    for number in 0..cut.plan.sheets.len().min(MOST_SHEETS) {
        let left = if number == 0 { 0.0 } else { right + BETWEEN };
        let size = one_sheet(cut, number, left, &mut shapes).unwrap_or((0.0, 0.0));
        right = left + size.0;
        top = top.max(size.1);
    }
    Ok(Scene { shapes, size: (right, top) })
}

fn one_sheet(cut: &SheetCutting, number: usize, left: f64, shapes: &mut Vec<Shape>) -> Option<(f64, f64)> {
    let sheet = cut.sheet(number)?;
    let size = (mm(sheet.sides.width.length()), mm(sheet.sides.height.length()));
    shapes.push(rectangle(Part::Sheet, (left, 0.0), size));
    for placed in &cut.plan.sheets.get(number)?.layout.placed {
        let sides = sheet.pieces[placed.piece].sides;
        let (wide, high) = if placed.turned { (sides.height, sides.width) } else { (sides.width, sides.height) };
        let corner = (left + mm(placed.left.length()), mm(placed.bottom.length()));
        shapes.push(rectangle(Part::Timber, corner, (mm(wide.length()), mm(high.length()))));
        shapes.push(label(
            (corner.0 + 0.1 * mm(wide.length()), corner.1 + 0.5 * mm(high.length())),
            cut.job.pieces[placed.piece],
        ));
    }
    for (order, one) in cut.sequence(number)?.cuts.iter().enumerate() {
        let (at, middle) = (mm(one.at.length()), 0.5 * (mm(one.from.length()) + mm(one.to.length())));
        let place = if one.upright { (left + at, middle) } else { (left + middle, at) };
        shapes.push(label(place, (order + 1).to_string()));
    }
    Some(size)
}
