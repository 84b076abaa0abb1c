//! Holes of the box and what carries the absorber: stub holes with sleeves, weep holes, support strips, clips.
//!
//! Positions run along a long rail from its lower end, and along the lower short rail from its left end.

use super::entries as e;
use super::heat::Growth;
use super::timber::TimberBox;
use super::{BOX, GROWTH};
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::physics::expansion;
use crate::stage::absorber::{self, geometry::Harp};
use crate::stage::worst::worst;
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Length};
use crate::units::{Kind, Quantity};

/// Where the absorber is held.
pub static FIXED_AT: Entry<Fixed> = Entry::choice("enclosure.fixed_at", "absorber held")
    .why("everywhere else its clips slide; held at a corner, all growth goes one way")
    .default("lower corner");

/// Sleeve of a stub.
pub static SLEEVE: Entry<Length> = Entry::quantity("enclosure.sleeve", "wall of the stub sleeve")
    .why("mineral sleeve between the slot of the stub and the wood")
    .hard(0.0, 0.1)
    .usual(0.006, 0.05)
    .default("12 mm");

/// Number of weep holes.
pub static WEEPS: Entry<usize> =
    Entry::count("enclosure.weep_holes", "weep holes").why("in the lower rail; 2 to 4 from memory").default("2");

/// Diameter of a weep hole.
pub static WEEP_DIAMETER: Entry<Length> = Entry::quantity("enclosure.weep_diameter", "diameter of a weep hole")
    .why("8 mm from memory; behind it a stainless mesh against insects")
    .hard(0.002, 0.03)
    .usual(0.006, 0.012)
    .default("8 mm");

/// Spacing of support strips.
pub static STRIP_SPACING: Entry<Length> = Entry::quantity("enclosure.strip_spacing", "largest spacing of supports")
    .why("strips under the absorber across the risers; soldered copper sags when it is hot")
    .hard(0.1, 3.0)
    .usual(0.3, 0.8)
    .default("600 mm");

/// Width of support strips.
pub static STRIP_WIDTH: Entry<Length> = Entry::quantity("enclosure.strip_width", "width of a support strip")
    .why("of the strip on the back board")
    .hard(0.01, 0.2)
    .default("40 mm");

/// Wood in a support strip.
pub static STRIP_HEIGHT: Entry<Length> = Entry::quantity("enclosure.strip_height", "wood of a support strip")
    .why("height of its wood; the rest up to the absorber is mineral board. 0 mm: mineral board alone")
    .hard(0.0, 0.3)
    .default("0 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &FIXED_AT.spec,
    &SLEEVE.spec,
    &WEEPS.spec,
    &WEEP_DIAMETER.spec,
    &STRIP_SPACING.spec,
    &STRIP_WIDTH.spec,
    &STRIP_HEIGHT.spec,
];

/// Where the absorber is held against sliding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixed {
    /// At a corner of the lower header.
    LowerCorner,
    /// In its middle.
    Middle,
}

impl Choice for Fixed {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::LowerCorner, "lower corner", "one clip at an end of the lower header holds, all others slide"),
        (Self::Middle, "middle", "one clip in the middle holds, all others slide"),
    ];
}

impl Fixed {
    /// The share of a growth that goes to the edge that moves most.
    pub fn share(self) -> f64 {
        match self {
            Self::LowerCorner => 1.0,
            Self::Middle => 0.5,
        }
    }
}

/// A hole through a rail, or what else must be kept clear of there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Its middle along the rail.
    pub middle: Length,
    /// Its length along the rail.
    pub along: Length,
    /// Its lower edge, from the back edge of the rail.
    pub bottom: Length,
    /// Its upper edge, from the back edge of the rail.
    pub top: Length,
}

/// Holes and supports of one box.
#[derive(Clone, Debug, PartialEq)]
pub struct Openings {
    /// From the back edge of a long rail to the middle of its stub holes.
    pub stub_height: Length,
    /// The wood cut away for the lower and the upper header, sleeve counted, in either long rail.
    pub stub_cuts: [Opening; 2],
    /// Weep holes in the lower short rail.
    pub weeps: Vec<Opening>,
    /// Middles of the support strips along the long rails.
    pub strips: Vec<Length>,
}

/// Least distance of a weep hole from the inside corner, m (project rule).
const WEEP_FROM_CORNER: f64 = 0.030;
/// Wood left between the back board and a weep hole, m (project rule).
const WEEP_ABOVE_FLOOR: f64 = 0.002;
/// Distance of the outermost supports from the axis of their header, m (project rule).
const STRIP_FROM_HEADER: f64 = 0.100;
/// Most weep holes and most strips of one box.
const MOST: usize = 100;

/// Lays the openings out.
pub fn openings(inputs: &Inputs, harp: &Harp, timber_box: &TimberBox, growth: &Growth) -> Fig<Openings> {
    let sleeve = inputs.get(&SLEEVE)?;
    let height = timber_box.header_height(inputs, harp)?;
    let lower =
        timber_box.rail_thickness + inputs.get(&e::EDGE_THICKNESS)? + inputs.get(&e::CLEARANCE)? + harp.header.od * 0.5;
    let fixed = inputs.get(&FIXED_AT)?;
    let round = growth.hole.width + sleeve * 2.0;
    let (lower_moves, upper_moves) = match fixed {
        Fixed::LowerCorner => (Length::from_si(0.0), growth.riser),
        Fixed::Middle => (growth.riser * 0.5, growth.riser * 0.5),
    };
    let cut = |axis: Length, moves: Length, outward: f64| Opening {
        middle: axis + moves * (0.5 * outward),
        along: round + moves.max(growth.header),
        bottom: height - round * 0.5,
        top: height + round * 0.5,
    };
    Ok(Openings {
        stub_height: height,
        stub_cuts: [cut(lower, lower_moves, -1.0), cut(lower + harp.header_spacing, upper_moves, 1.0)],
        weeps: weeps(inputs, timber_box)?,
        strips: strips(inputs, harp, lower)?,
    })
}

fn weeps(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Vec<Opening>> {
    let count = inputs.get(&WEEPS)?.min(MOST);
    let diameter = inputs.get(&WEEP_DIAMETER)?;
    let left = timber_box.rail_thickness + Length::from_si(WEEP_FROM_CORNER);
    let between = timber_box.outside_width - left * 2.0;
    let bottom = timber_box.floor + Length::from_si(WEEP_ABOVE_FLOOR);
    Ok((0..count)
        .map(|hole| {
            let share = if count > 1 { hole as f64 / (count as f64 - 1.0) } else { 0.5 };
            Opening { middle: left + between * share, along: diameter, bottom, top: bottom + diameter }
        })
        .collect())
}

fn strips(inputs: &Inputs, harp: &Harp, lower: Length) -> Fig<Vec<Length>> {
    let from_header = Length::from_si(STRIP_FROM_HEADER);
    let between = harp.header_spacing - from_header * 2.0;
    if between.si() <= 0.0 {
        return Ok(vec![lower + harp.header_spacing * 0.5]);
    }
    let gaps = (between / inputs.get(&STRIP_SPACING)?).si().ceil().clamp(1.0, MOST as f64);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // clamped on the line above
    let last = gaps as usize;
    Ok((0..=last).map(|strip| lower + from_header + between * (strip as f64 / gaps)).collect())
}

/// How many support strips a box has.
pub fn strip_count(inputs: &Inputs, harp: &Harp) -> Fig<usize> {
    Ok(strips(inputs, harp, Length::from_si(0.0))?.len())
}

/// Holes and supports.
pub static OPENINGS: Group = Group {
    name: "holes and supports",
    entries: &[
        "enclosure.fixed_at",
        "enclosure.sleeve",
        "enclosure.weep_holes",
        "enclosure.weep_diameter",
        "enclosure.strip_spacing",
    ],
    groups: &[&GROWTH, &BOX],
};

/// How many support strips there are.
pub static STRIPS: Group =
    Group { name: "number of supports", entries: &["enclosure.strip_spacing"], groups: &[&absorber::HARP] };

/// Where the absorber is held.
pub static CLIPS: Group = Group { name: "clips", entries: &["enclosure.fixed_at"], groups: &[&GROWTH] };

fn found(s: &Solution) -> Fig<&Openings> {
    s.enclosure.openings.as_ref().map_err(Clone::clone)
}

fn growth(s: &Solution) -> Fig<&Growth> {
    s.enclosure.growth.as_ref().map_err(Clone::clone)
}

fn of_row<T: Copy>(rows: &[T], key: &str, id: &str) -> Fig<T> {
    let row: usize = key.parse().map_err(|_| Why::missing(id))?;
    row.checked_sub(1).and_then(|row| rows.get(row).copied()).ok_or_else(|| Why::missing(id))
}

/// What a clip at the far corner must let through: the growth of header and riser together.
fn clip_way(s: &Solution) -> Fig<Length> {
    let growth = growth(s)?;
    Ok(growth.header.hypot(growth.riser) * s.inputs.get(&FIXED_AT)?.share() + expansion::end_play())
}

/// Least wood between a stub's cut-out and the seat above it or the back below it, m (project rule).
const LEAST_WOOD: f64 = 0.006;
/// Least mineral sleeve that keeps wood from hot copper, m (project rule): the default of the entry. No sleeve at all is a
/// stop, for wood then lies on copper as hot as the plate.
const LEAST_SLEEVE: f64 = 0.012;

fn stub_hole(s: &Solution) -> Fig<Judgement> {
    let openings = found(s)?;
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let least = Length::from_si(LEAST_WOOD);
    let left = |wood: Length, part: &str| {
        Judgement::stop_unless(wood >= least).with(wood, least).margin(wood - least).part(part)
    };
    let cut = openings.stub_cuts[0];
    let wanted = Length::from_si(LEAST_SLEEVE);
    let sleeve = s.inputs.get(&SLEEVE)?;
    let verdict = match sleeve.si() {
        thick if thick >= LEAST_SLEEVE => Verdict::Clear,
        thick if thick > 0.0 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let away = Judgement::of(verdict).with(sleeve, wanted).margin(sleeve - wanted);
    worst([
        Ok(left(timber_box.ledge() - cut.top, "wood between the hole and the glass seat")),
        Ok(left(cut.bottom - timber_box.floor, "wood between the hole and the back board")),
        Ok(away.part("mineral sleeve between copper and wood")),
    ])
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.stub_hole_lower", "lower stub hole, middle", Kind::Length, &OPENINGS, |s, _| {
        Ok(found(s)?.stub_cuts[0].middle.into())
    })
    .tape()
    .by(
        "stub-hole",
        "from the lower end of a long rail: {rail} + {edge} + {clearance} + half a header, shifted by half its way if it \
         slides",
        &[
            ("rail", "enclosure.rail_thickness"),
            ("edge", "enclosure.edge_thickness"),
            ("clearance", "enclosure.clearance"),
        ],
    ),
    Figure::new("enclosure.stub_hole_upper", "upper stub hole, middle", Kind::Length, &OPENINGS, |s, _| {
        Ok(found(s)?.stub_cuts[1].middle.into())
    })
    .tape()
    .by(
        "stub-hole",
        "axis of the lower header + {spacing}, shifted outward by half the way of this header",
        &[("spacing", "absorber.header_spacing")],
    ),
    Figure::new("enclosure.stub_hole_height", "stub holes, up from the back", Kind::Length, &OPENINGS, |s, _| {
        Ok(found(s)?.stub_height.into())
    })
    .tape()
    .by(
        "stub-hole",
        "back board or not by {seat} + {behind} + {free} + half a header",
        &[
            ("seat", "enclosure.back_seat"),
            ("behind", "enclosure.back_thickness"),
            ("free", "enclosure.under_clearance"),
        ],
    ),
    Figure::new("enclosure.stub_cut_length", "wood cut for a stub, along", Kind::Length, &OPENINGS, |s, _| {
        Ok(found(s)?.stub_cuts[1].along.into())
    })
    .tape()
    .by("stub-hole", "slot of the upper header + 2 × {sleeve}", &[("sleeve", "enclosure.sleeve")]),
    Figure::new("enclosure.stub_cut_width", "wood cut for a stub, across", Kind::Length, &OPENINGS, |s, _| {
        let cut = found(s)?.stub_cuts[1];
        Ok((cut.top - cut.bottom).into())
    })
    .tape()
    .by(
        "stub-hole",
        "{slot} + 2 × {sleeve}",
        &[("slot", "enclosure.stub_hole_width"), ("sleeve", "enclosure.sleeve")],
    ),
    Figure::new("enclosure.weep_at", "weep hole from the left end", Kind::Length, &OPENINGS, |s, key| {
        Ok(of_row(&found(s)?.weeps, key, WEEPS.spec.id)?.middle.into())
    })
    .axis(Axis::WeepHole)
    .tape()
    .by("weep-holes", "30 mm from each inside corner of the lower rail, the others between", &[]),
    Figure::new("enclosure.strip_at", "support strip, middle", Kind::Length, &OPENINGS, |s, key| {
        Ok(of_row(&found(s)?.strips, key, STRIP_SPACING.spec.id)?.into())
    })
    .axis(Axis::Strip)
    .tape()
    .by(
        "supports",
        "from the lower end of a long rail; 100 mm inside each header, at most {spacing} apart",
        &[("spacing", "enclosure.strip_spacing")],
    ),
    Figure::new("enclosure.strips", "support strips", Kind::Count, &OPENINGS, |s, _| {
        Ok(Quantity::count(found(s)?.strips.len()).into())
    })
    .by("supports", "as many as {spacing} asks for", &[("spacing", "enclosure.strip_spacing")]),
    Figure::new("enclosure.clip_way", "way of the clip that slides most", Kind::Length, &CLIPS, |s, _| {
        Ok(clip_way(s)?.into())
    })
    .by(
        "supports",
        "√({header}² + {riser}²), half of it if held in the middle, and 3 mm",
        &[("header", "enclosure.header_growth"), ("riser", "enclosure.riser_growth")],
    ),
    Figure::word("enclosure.held_at", "held, all else slides", &CLIPS, |s, _| {
        let words = match s.inputs.get(&FIXED_AT)? {
            Fixed::LowerCorner => "at one end of the lower header",
            Fixed::Middle => "in the middle of the middle strip",
        };
        growth(s)?;
        Ok(Value::Text(words.to_owned()))
    })
    .by("supports", "as entered", &[]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "enclosure.stub-hole",
    "stub holes in the rails",
    Severity::Injury,
    stub_hole,
)
.says(
    "{part}: {found}; {limit} is wanted.",
    "A wider air gap or more insulation behind gives room; a wider sleeve keeps the wood cooler.",
)
.blind_to("heat along the copper is not computed: a stub is a thermal short-cut; whether the sleeve was really fitted")
.source("6 mm of wood and 12 mm of sleeve: project rules")
.needs(&["enclosure.stub_cut_width", "enclosure.stub_hole_height", "enclosure.rail_width", "enclosure.sleeve"])];
