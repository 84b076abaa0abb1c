//! The lines of screws of a box by geometry: what is in the way of each, and where its screws go.
//!
//! Everything comes from the sizes of the box, so that random boxes can be tried. The search along one line is
//! `physics::screw_layout`.

use super::super::entries::Corner;
use super::super::joinery::BackSeat;
use super::super::openings::Opening;
use crate::physics::screw_layout::{ScrewLayoutError, ScrewLine, Span, equally_spaced, positions};
use crate::units::si::{Dimension, Length};

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
