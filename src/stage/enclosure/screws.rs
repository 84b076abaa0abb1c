//! The screws of the box: lines along the rails, laid out so that none meets a hole, a seat or a strip's own screws.
//!
//! A line is found by geometry from the sizes of the box alone (`lay_out`), so that random boxes can be tried. The
//! search itself is `physics::screw_layout`.

use super::entries::{self as e, Corner};
use super::joinery::BackSeat;
use super::openings::{self as o, Opening, Openings};
use super::timber::TimberBox;
use super::{BOX, Results};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::physics::screw_layout::{ScrewLayoutError, ScrewLine, Span, equally_spaced, positions};
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

/// The wood that is screwed, and what is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Length of a long rail.
    pub long: Length,
    /// Outside, across the risers: the length of a line along a short side.
    pub short: Length,
    /// Thickness of the rails.
    pub rail_thickness: Length,
    /// Width of the rails.
    pub rail_width: Length,
    /// From the back edge of a rail to the floor of the box.
    pub floor: Length,
    /// From the back edge of a rail to the ledge of the glass seat.
    pub ledge: Length,
    /// How far the glass seat reaches into the rail from inside.
    pub seat_width: Length,
    /// Thickness of the back board.
    pub board: Length,
    /// How the back board is held.
    pub back_seat: BackSeat,
    /// How the corners are joined.
    pub corner: Corner,
    /// Cut-outs for stubs in either long rail.
    pub stub_cuts: Vec<Opening>,
    /// Weep holes in the lower short rail.
    pub weeps: Vec<Opening>,
    /// Support strips with screws of their own through the long rails; empty if they have none.
    pub strips: Vec<Span>,
}

/// The screws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screws {
    /// From head to tip.
    pub length: Length,
    /// Diameter of the thread.
    pub diameter: Length,
    /// Of the cap screws in the wood.
    pub cap_length: Length,
    /// Of the cap screws below the top of the rails.
    pub cap_line: Length,
    /// Largest spacing.
    pub spacing: Length,
    /// Least distance from an end.
    pub end: Length,
}

impl Screws {
    /// Wood between a screw's axis and an opening: half a screw and two diameters (project rule).
    pub fn beside(&self) -> Length {
        self.diameter * 2.5
    }
}

/// Something in the way of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Obstacle {
    /// What it is.
    pub name: &'static str,
    /// Where no screw's axis may lie.
    pub span: Span,
}

/// One line of screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Where it runs.
    pub name: &'static str,
    /// From where its positions are measured.
    pub datum: &'static str,
    /// Equal lines on one box.
    pub times: usize,
    /// Length of the line.
    pub length: Length,
    /// What is in the way.
    pub obstacles: Vec<Obstacle>,
    /// Positions from the datum, or why there are none.
    pub positions: Result<Vec<Length>, ScrewLayoutError>,
    /// Screws that equal spacing would drive into something, with what.
    pub equal_spacing_hits: Vec<(usize, &'static str)>,
}

/// Names of the lines, in order.
const BACK_LONG: &str = "back board, long side";
const BACK_SHORT: &str = "back board, lower side";
const CAP_LONG: &str = "glass cap, long side";
const CAP_SHORT: &str = "glass cap, short side";
const CORNER: &str = "corner, long rail into short";

/// Lays out every line of screws of a box.
///
/// Screws from behind reach as far up as they are long; screws from the side lie at one height. Whatever they could
/// meet is kept clear along the line, grown by [`Screws::beside`].
pub fn lay_out(wood: &Wood, screws: &Screws) -> Vec<Line> {
    let mut lines = Vec::new();
    if let Some((low, high)) = back_heights(wood, screws) {
        let mut long = meeting(&wood.stub_cuts, "stub hole", (low, high), screws);
        long.extend(wood.strips.iter().map(|strip| grown("support strip", *strip, screws)));
        lines.push(line(BACK_LONG, (LOWER_END, 2), wood.long, long, screws));
        let weeps = meeting(&wood.weeps, "weep hole", (low, high), screws);
        lines.push(line(BACK_SHORT, (LEFT_END, 1), wood.short, weeps, screws));
    }
    let half = screws.diameter * 0.5;
    let at = wood.rail_width - screws.cap_line;
    let cap_heights = (at - half, at + half);
    let in_seat =
        (at + half > wood.ledge && screws.cap_length > wood.rail_thickness - wood.seat_width) || at < screws.beside();
    for (name, times, length, cuts) in
        [(CAP_LONG, (LOWER_END, 2), wood.long, &wood.stub_cuts[..]), (CAP_SHORT, (LEFT_END, 2), wood.short, &[])]
    {
        let mut obstacles = meeting(cuts, "stub hole", cap_heights, screws);
        if in_seat {
            let all = Span { from: Length::from_si(0.0), to: length };
            obstacles.push(grown("glass seat or back edge", all, screws));
        }
        lines.push(line(name, times, length, obstacles, screws));
    }
    lines.push(corner(wood, screws));
    lines
}

const LOWER_END: &str = "lower end of the rail";
const LEFT_END: &str = "left end of the rail";
const BACK_EDGE: &str = "back edge of the rail";

/// Between which heights in a rail the screws of the back board lie; none for a board in a groove.
fn back_heights(wood: &Wood, screws: &Screws) -> Option<(Length, Length)> {
    let half = screws.diameter * 0.5;
    match wood.back_seat {
        BackSeat::Groove => None,
        BackSeat::Between => Some((wood.floor - wood.board * 0.5 - half, wood.floor - wood.board * 0.5 + half)),
        BackSeat::Rebate => Some((Length::from_si(0.0), screws.length)),
        BackSeat::On => Some((Length::from_si(0.0), screws.length - wood.board)),
    }
}

/// The openings that screws between two heights could meet.
fn meeting(openings: &[Opening], name: &'static str, heights: (Length, Length), screws: &Screws) -> Vec<Obstacle> {
    let wood = screws.diameter * 2.0;
    openings
        .iter()
        .filter(|opening| heights.1 + wood > opening.bottom && heights.0 - wood < opening.top)
        .map(|opening| grown(name, Span::around(opening.middle, opening.along * 0.5), screws))
        .collect()
}

fn grown(name: &'static str, span: Span, screws: &Screws) -> Obstacle {
    Obstacle { name, span: Span { from: span.from - screws.beside(), to: span.to + screws.beside() } }
}

/// Screws of one corner, up a long rail: clear of the back board, of the glass seat and of a stub hole that is near.
fn corner(wood: &Wood, screws: &Screws) -> Line {
    let zero = Length::from_si(0.0);
    let mut obstacles = vec![grown("glass seat", Span { from: wood.ledge, to: wood.rail_width }, screws)];
    if wood.back_seat != BackSeat::On {
        obstacles.push(grown("back board", Span { from: zero, to: wood.floor }, screws));
    }
    let end = wood.rail_thickness + screws.beside();
    for cut in &wood.stub_cuts {
        let from_an_end = cut.middle.min(wood.long - cut.middle) - cut.along * 0.5;
        if from_an_end < end {
            obstacles.push(grown("stub hole", Span { from: cut.bottom, to: cut.top }, screws));
        }
    }
    // Two screws at least: spacings of half the rail and end distances of a fifth.
    let up_a_rail = Screws { end: screws.end.min(wood.rail_width / 5.0), spacing: wood.rail_width * 0.5, ..*screws };
    line(CORNER, (BACK_EDGE, 4), wood.rail_width, obstacles, &up_a_rail)
}

fn line(
    name: &'static str,
    (datum, times): (&'static str, usize),
    length: Length,
    obstacles: Vec<Obstacle>,
    screws: &Screws,
) -> Line {
    let kept_clear: Vec<Span> = obstacles.iter().map(|obstacle| obstacle.span).collect();
    let wanted = ScrewLine {
        length,
        end_distance: screws.end,
        least_spacing: (screws.diameter * 4.0).min(screws.spacing),
        most_spacing: screws.spacing,
        kept_clear: &kept_clear,
    };
    let hits = |(index, at): (usize, &Length)| {
        obstacles.iter().find(|obstacle| obstacle.span.holds(*at)).map(|obstacle| (index + 1, obstacle.name))
    };
    let equal_spacing_hits =
        equally_spaced(&wanted).map_or(Vec::new(), |equal| equal.iter().enumerate().filter_map(hits).collect());
    Line { name, datum, times, length, positions: positions(&wanted), equal_spacing_hits, obstacles }
}

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

/// The lines of the project's box.
pub fn lines(inputs: &Inputs, timber_box: &TimberBox, openings: &Openings) -> Fig<Vec<Line>> {
    let screws = Screws {
        length: inputs.get(&LENGTH)?,
        diameter: inputs.get(&DIAMETER)?,
        cap_length: inputs.get(&CAP_LENGTH)?,
        cap_line: inputs.get(&CAP_LINE)?,
        spacing: inputs.get(&SPACING)?,
        end: inputs.get(&END)?,
    };
    Ok(lay_out(&wood(inputs, timber_box, openings)?, &screws))
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
