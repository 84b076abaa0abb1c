//! The screws of the box: lines along the rails, laid out so that none meets a hole, a seat or a strip's own screws.
//!
//! Lives here: what is asked, shown and judged. A line is found by geometry from the sizes of the box alone, in `lines`.

mod lines;

pub use lines::{Line, Obstacle, Screws, Wood, lay_out};

use super::entries as e;
use super::openings::{self as o, Openings};
use super::timber::TimberBox;
use super::{BOX, Results};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::physics::screw_layout::{ScrewLayoutError, Span};
use crate::stage::worst::worst;
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Length};
use crate::units::{Kind, Quantity};

/// Length of the screws.
pub static LENGTH: Entry<Length> = Entry::quantity("enclosure.screw_length", "length of the box screws")
    .why("from the outside of the board or rail to the tip")
    .hard(0.005, 0.3)
    .usual(0.025, 0.08)
    .default("40 mm");

/// Diameter of the screws.
pub static DIAMETER: Entry<Length> = Entry::quantity("enclosure.screw_diameter", "diameter of the screws")
    .why("of the thread; two diameters of wood are left beside a hole")
    .hard(0.001, 0.012)
    .usual(0.003, 0.006)
    .default("4 mm");

/// Length of the cap screws in the wood.
pub static CAP_LENGTH: Entry<Length> = Entry::quantity("enclosure.cap_screw_length", "cap screws in the wood")
    .why("how deep the screws of the glass cap go into the outside of the rails")
    .hard(0.003, 0.1)
    .usual(0.01, 0.03)
    .default("15 mm");

/// Line of the cap screws.
pub static CAP_LINE: Entry<Length> = Entry::quantity("enclosure.cap_screw_line", "cap screws below the top")
    .why("from the top of the rails down to the line of the screws that hold the glass cap")
    .hard(0.003, 0.3)
    .usual(0.015, 0.04)
    .default("22 mm");

/// Largest spacing.
pub static SPACING: Entry<Length> = Entry::quantity("enclosure.screw_spacing", "largest spacing of screws")
    .why("150 mm: common practice, no source")
    .hard(0.02, 1.0)
    .usual(0.075, 0.3)
    .default("150 mm");

/// End distance.
pub static END: Entry<Length> = Entry::quantity("enclosure.screw_end", "screws from the end of a rail")
    .why("least distance, so that the end does not split; ten diameters: common practice, no source")
    .hard(0.005, 0.3)
    .usual(0.02, 0.1)
    .default("40 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&LENGTH.spec, &DIAMETER.spec, &CAP_LENGTH.spec, &CAP_LINE.spec, &SPACING.spec, &END.spec];

/// The wood of the project's box.
pub fn wood(inputs: &Inputs, timber_box: &TimberBox, openings: &Openings) -> Fig<Wood> {
    let half = inputs.get(&o::STRIP_WIDTH)? * 0.5;
    let strips = if inputs.get(&o::STRIP_HEIGHT)?.si() > 0.0 { &openings.strips[..] } else { &[] };
    Ok(Wood {
        long: timber_box.outside_length,
        short: timber_box.outside_width,
        rail_thickness: timber_box.rail_thickness,
        rail_width: timber_box.rail_width,
        floor: timber_box.floor,
        ledge: timber_box.ledge(),
        seat_width: inputs.get(&e::GLASS_BITE)? + inputs.get(&e::GLASS_CLEARANCE)?,
        board: inputs.get(&e::BACK_BOARD)?,
        back_seat: timber_box.back_seat,
        corner: inputs.get(&e::CORNER)?,
        stub_cuts: openings.stub_cuts.to_vec(),
        weeps: openings.weeps.clone(),
        strips: strips.iter().map(|strip| Span::around(*strip, half)).collect(),
    })
}

/// The screws of the project's box.
pub fn screws(inputs: &Inputs) -> Fig<Screws> {
    Ok(Screws {
        length: inputs.get(&LENGTH)?,
        diameter: inputs.get(&DIAMETER)?,
        cap_length: inputs.get(&CAP_LENGTH)?,
        cap_line: inputs.get(&CAP_LINE)?,
        spacing: inputs.get(&SPACING)?,
        end: inputs.get(&END)?,
    })
}

/// The lines of the project's box.
pub fn lines(inputs: &Inputs, timber_box: &TimberBox, openings: &Openings) -> Fig<Vec<Line>> {
    Ok(lay_out(&wood(inputs, timber_box, openings)?, &screws(inputs)?))
}

/// The screws of the box.
pub static SCREWS: Group = Group {
    name: "screws of the box",
    entries: &[
        "enclosure.screw_length",
        "enclosure.screw_diameter",
        "enclosure.cap_screw_length",
        "enclosure.cap_screw_line",
        "enclosure.screw_spacing",
        "enclosure.screw_end",
        "enclosure.strip_width",
        "enclosure.strip_height",
        "enclosure.glass_bite",
        "enclosure.glass_clearance",
    ],
    groups: &[&o::OPENINGS, &BOX],
};

fn all(results: &Results) -> Fig<&Vec<Line>> {
    results.screws.as_ref().map_err(Clone::clone)
}

fn line_of<'a>(s: &'a Solution, key: &str) -> Fig<&'a Line> {
    let row: usize = key.parse().map_err(|_| Why::missing(LENGTH.spec.id))?;
    row.checked_sub(1).and_then(|row| all(&s.enclosure).ok()?.get(row)).ok_or_else(|| Why::missing(LENGTH.spec.id))
}

/// Every screw that is marked, line by line; lines without a layout have none.
pub fn marked(results: &Results) -> Vec<(&Line, Length)> {
    let lines = all(results).map_or(&[][..], Vec::as_slice);
    lines.iter().flat_map(|line| line.positions.iter().flatten().map(move |at| (line, *at))).collect()
}

fn screw<'a>(s: &'a Solution, key: &str) -> Fig<(&'a Line, Length)> {
    all(&s.enclosure)?;
    let row: usize = key.parse().map_err(|_| Why::missing(LENGTH.spec.id))?;
    let marked = marked(&s.enclosure);
    row.checked_sub(1).and_then(|row| marked.get(row).copied()).ok_or_else(|| Why::missing(LENGTH.spec.id))
}

fn hits_in_words(line: &Line) -> String {
    match line.equal_spacing_hits.as_slice() {
        [] => "nothing".to_owned(),
        [(screw, name)] => format!("{name} (screw {screw})"),
        [(first, name), .., (last, _)] => format!("{name} (screws {first} to {last})"),
    }
}

fn layout(s: &Solution) -> Fig<Judgement> {
    let lines = all(&s.enclosure)?;
    worst(lines.iter().map(|line| match &line.positions {
        Ok(_) => Ok(Judgement::of(Verdict::Clear).part(line.name)),
        Err(ScrewLayoutError::NoLayout) => Ok(Judgement::of(Verdict::Stop).part(line.name)),
        Err(error) => Err(Why::out_of_range(format!("{}: {error}", line.name))),
    }))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("enclosure.screw_line", "line of screws", &SCREWS, |s, key| {
        Ok(Value::Text(line_of(s, key)?.name.to_owned()))
    })
    .axis(Axis::ScrewLine)
    .by("screw-layout", "the lines of screws of one box", &[]),
    Figure::new("enclosure.screw_line_count", "screws of the line", Kind::Count, &SCREWS, |s, key| {
        let line = line_of(s, key)?;
        let found = line.positions.as_ref().map_err(|error| Why::out_of_range(format!("{}: {error}", line.name)))?;
        Ok(Quantity::count(found.len()).into())
    })
    .axis(Axis::ScrewLine)
    .by(
        "screw-layout",
        "fewest that keep {spacing} and every hole, seat and strip",
        &[("spacing", "enclosure.screw_spacing")],
    ),
    Figure::word("enclosure.equal_spacing_hits", "equal spacing would meet", &SCREWS, |s, key| {
        Ok(Value::Text(hits_in_words(line_of(s, key)?)))
    })
    .axis(Axis::ScrewLine)
    .by("screw-layout", "screws at equal spacing against holes, seats and strips", &[]),
    Figure::new("enclosure.screws", "screws of one box", Kind::Count, &SCREWS, |s, _| {
        let count = |line: &Line| line.positions.as_ref().map_or(0, |found| found.len() * line.times);
        Ok(Quantity::count(all(&s.enclosure)?.iter().map(count).sum()).into())
    })
    .by("screw-layout", "all lines, equal ones as often as there are", &[]),
    Figure::word("enclosure.screw_in", "screw belongs to", &SCREWS, |s, key| {
        let (line, _) = screw(s, key)?;
        Ok(Value::Text(format!("{}, from the {}", line.name, line.datum)))
    })
    .axis(Axis::Screw)
    .by("screw-layout", "line and datum", &[]),
    Figure::new("enclosure.screw_at", "screw, from its datum", Kind::Length, &SCREWS, |s, key| {
        Ok(screw(s, key)?.1.into())
    })
    .axis(Axis::Screw)
    .tape()
    .by(
        "screw-layout",
        "as near to equal spacing as holes, seats and strips allow; {end} from an end at least",
        &[("end", "enclosure.screw_end")],
    ),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new("enclosure.screw-layout", "screws clear of holes and seats", Severity::Injury, layout)
    .says(
        "No layout of screws exists for this line: {part}. Every way to set them meets a stub hole, a seat, a strip or a weep \
         hole, or leaves a gap wider than {enclosure.screw_spacing}.",
        "Shorter screws, a wider largest spacing, another line for the cap, or a narrower sleeve.",
    )
    .blind_to("screws that are not in the list; the drill that wanders; knots; how hard a screw holds")
    .source("own geometry; two diameters of wood beside a hole: project rule")
    .needs(&["enclosure.screws"])];
