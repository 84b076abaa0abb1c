//! The folded metal cap that holds the glass and sheds the water: widths, bend lines, lengths, screws, metals, sealant.
//!
//! Profile from the glass outward: lap over the glass, across clearance and shoulder to the outer face of the rail, down
//! the rail, hem folded back. Folding itself is in `physics::bend`.

pub mod cards;
pub mod drawing;
pub mod entries;
pub mod rows;

use std::f64::consts::{FRAC_PI_2, PI};

use super::entries as own;
use super::rack::lag;
use super::timber::TimberBox;
use crate::handbook::galvanic::{AnodicIndex, anodic_indices};
use crate::handbook::timber;
use crate::model::{Demand, Fig, Inputs, Shelf, Why};
use crate::physics::bend::Bend;
use crate::physics::galvanic::{Contact, Galvanic, Surroundings, compare};
use crate::physics::lag::{Adjustments, Screw};
use crate::stage::demands::{panels, size};
use crate::stage::{Group, Solution};
use crate::units::si::{Angle, Dimension, Force, Length};
use crate::units::{Kind, Quantity};
use entries as e;

/// The folded profile.
pub static PROFILE: Group = Group {
    name: "profile of the cap",
    entries: &[
        "enclosure.cap_lap",
        "enclosure.cap_drop",
        "enclosure.cap_hem",
        "enclosure.cap_thickness",
        "enclosure.glass_clearance",
    ],
    groups: &[&super::PANE],
};

/// Lengths of the caps.
pub static LENGTHS: Group =
    Group { name: "lengths of the caps", entries: &["enclosure.cap_overlap"], groups: &[&super::BOX] };

/// Pieces of the caps.
pub static PIECES: Group = Group { name: "pieces of the caps", entries: &["enclosure.cap_stock"], groups: &[&LENGTHS] };

/// Screws of the caps.
pub static SCREWS: Group =
    Group { name: "screws of the caps", entries: &["enclosure.cap_screw_spacing"], groups: &[&super::BOX] };

/// Pull and hold of a cap screw.
pub static CAP_SCREWS: Group = Group {
    name: "pull on the screws of the caps",
    entries: &[
        "enclosure.glass_pressure",
        "enclosure.cap_screw_diameter",
        "enclosure.cap_screw_thread",
        "enclosure.timber",
        "enclosure.lag_wet",
    ],
    groups: &[&SCREWS],
};

/// Metals beside the cap.
pub static METALS: Group = Group { name: "metals beside the cap", entries: &["enclosure.cap_metal"], groups: &[] };

/// What the caps need.
pub static DEMANDS: Group =
    Group { name: "what the caps need", entries: &["enclosure.cap_metal"], groups: &[&PROFILE, &LENGTHS, &SCREWS] };

/// The profile, unfolded.
#[derive(Clone, Copy, Debug)]
pub struct Profile {
    /// Top leg, outside.
    pub top: Length,
    /// Width of the flat strip.
    pub developed: Length,
    /// Middle of the bend between top and drop, from the edge on the glass.
    pub first_bend: Length,
    /// Middle of the hem's bend, from the same edge.
    pub second_bend: Length,
}

/// Unfolds the profile. The inside radius of the right bend is the sheet's thickness, the hem is closed.
pub fn profile(s: &Solution) -> Fig<Profile> {
    let pane = s.enclosure.pane.as_ref().map_err(Clone::clone)?;
    let inputs = &s.inputs;
    let (drop, hem) = (inputs.get(&e::DROP)?, inputs.get(&e::HEM)?);
    let thickness = inputs.get(&e::THICKNESS)?;
    let top = inputs.get(&e::LAP)? + inputs.get(&own::GLASS_CLEARANCE)? + pane.shoulder;
    let bend = |angle, inside_radius| {
        Bend { angle: Angle::from_si(angle), inside_radius, thickness }.allowance().map_err(Why::out_of_range)
    };
    let right = bend(FRAC_PI_2, thickness)?;
    let folded = bend(PI, Length::from_si(0.0))?;
    let straight = [top - thickness * 2.0, drop - thickness * 3.0, hem - thickness];
    if straight.iter().any(|leg| leg.si() <= 0.0) {
        return Err(Why::out_of_range("a leg of the cap is too short to be folded from this sheet"));
    }
    Ok(Profile {
        top,
        developed: straight[0] + right + straight[1] + folded + straight[2],
        first_bend: straight[0] + right / 2.0,
        second_bend: straight[0] + right + straight[1] + folded / 2.0,
    })
}

/// Lengths of the four caps of a panel. Lowest first: the side caps lap over the lower one, the upper one over them.
#[derive(Clone, Copy, Debug)]
pub struct Caps {
    /// The lower cap: the outside of the box.
    pub lower: Length,
    /// Each side cap: the outside of the box and one lap folded over the lower cap.
    pub side: Length,
    /// The upper cap: the outside of the box and a lap at each end.
    pub upper: Length,
}

impl Caps {
    /// All four.
    fn total(&self) -> Length {
        self.lower + self.side * 2.0 + self.upper
    }
}

/// The caps of one panel.
pub fn caps(s: &Solution) -> Fig<Caps> {
    caps_of(&s.inputs, s.enclosure.timber_box.as_ref().map_err(Clone::clone)?)
}

fn caps_of(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Caps> {
    let lap = inputs.get(&e::OVERLAP)?;
    Ok(Caps {
        lower: timber_box.outside_width,
        side: timber_box.outside_length + lap,
        upper: timber_box.outside_width + lap * 2.0,
    })
}

/// Pieces that a side cap is put together from, lapped like shingles.
pub fn side_pieces(s: &Solution) -> Fig<usize> {
    pieces_of(&s.inputs, caps(s)?.side)
}

/// Pieces of one cap of a length.
fn pieces_of(inputs: &Inputs, whole: Length) -> Fig<usize> {
    let (stock, lap) = (inputs.get(&e::STOCK)?, inputs.get(&e::OVERLAP)?);
    if stock <= lap {
        return Err(Why::out_of_range("the sheet of the caps is shorter than their lap"));
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // positive lengths, capped
    let pieces = (((whole - lap) / (stock - lap)).si() - 1e-9).ceil().clamp(1.0, 1e4) as usize;
    Ok(pieces)
}

/// What the caps of one panel are cut into: name, length and count. A cap longer than its stock comes in equal pieces,
/// each a lap longer than its share.
pub fn trims(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Vec<(&'static str, Length, usize)>> {
    let (caps, lap) = (caps_of(inputs, timber_box)?, inputs.get(&e::OVERLAP)?);
    let mut list = Vec::new();
    for (name, whole, caps) in [("lower cap", caps.lower, 1), ("side cap", caps.side, 2), ("upper cap", caps.upper, 1)]
    {
        let pieces = pieces_of(inputs, whole)?;
        let count = pieces as f64;
        list.push((name, (whole + lap * (count - 1.0)) / count, pieces * caps));
    }
    Ok(list)
}

/// Screws of one panel's caps: along each outside length one every spacing, and one more.
pub fn screws(s: &Solution) -> Fig<usize> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let spacing = s.inputs.get(&e::SCREW_SPACING)?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // positive lengths, capped
    let along = |length: Length| ((length / spacing).si() - 1e-9).ceil().clamp(1.0, 1e4) as usize + 1;
    Ok(2 * (along(timber_box.outside_width) + along(timber_box.outside_length)))
}

/// Share of load × short side that a plate's edge carries for each metre in the middle of its long side: 0.50 for
/// ratios of 2 and more, less for squarer panes (Timoshenko, edge reactions, from memory).
const EDGE_SHARE: f64 = 0.5;

/// Pull on the most loaded cap screw under suction on the glass.
pub fn screw_load(s: &Solution) -> Fig<Force> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let short = timber_box.inside_width.min(timber_box.inside_length);
    let line = s.inputs.get(&own::GLASS_PRESSURE)? * short * EDGE_SHARE;
    Ok(line * s.inputs.get(&e::SCREW_SPACING)?)
}

/// Allowable withdrawal of one cap screw from the rail under wind.
pub fn screw_holds(inputs: &Inputs) -> Fig<Force> {
    let name = inputs.get(&own::TIMBER)?;
    let species =
        timber::specific_gravities().get(&name).ok_or_else(|| Why::Invalid(vec![own::TIMBER.spec.id.to_owned()]))?;
    let screw = Screw {
        diameter: inputs.get(&e::SCREW_DIAMETER)?,
        thread: inputs.get(&e::SCREW_THREAD)?,
        specific_gravity: species.value,
    };
    let adjustments =
        Adjustments { duration: lag::WIND_DURATION, moisture: lag::moisture(inputs)?, ..Adjustments::none() };
    screw.wood_screw_withdrawal(adjustments).map_err(Why::out_of_range)
}

fn metal(name: &str, id: &str) -> Fig<&'static AnodicIndex> {
    anodic_indices().get(name).ok_or_else(|| Why::Invalid(vec![id.to_owned()]))
}

/// The cap's metal.
pub fn cap_metal(inputs: &Inputs) -> Fig<&'static AnodicIndex> {
    metal(&inputs.get(&e::METAL)?, e::METAL.spec.id)
}

/// The metal of its screws.
pub fn screw_metal(inputs: &Inputs) -> Fig<&'static AnodicIndex> {
    metal(&inputs.get(&e::SCREW_METAL)?, e::SCREW_METAL.spec.id)
}

/// Two metals outdoors.
pub fn contact(first: &AnodicIndex, second: &AnodicIndex) -> Fig<Galvanic> {
    let volts = Contact { first_volts: first.volts, second_volts: second.volts };
    compare(volts, Surroundings::Harsh).map_err(Why::out_of_range)
}

/// The metals that may touch a cap outdoors.
pub fn companions(inputs: &Inputs) -> Fig<Vec<&'static str>> {
    let cap = cap_metal(inputs)?;
    let mut names = Vec::new();
    for other in anodic_indices().all() {
        if contact(cap, other)?.within_limit {
            names.push(other.name.as_str());
        }
    }
    Ok(names)
}

/// Scrap of the cap's sheet (common practice, no source).
const SHEET_SCRAP: f64 = 0.15;

/// What the caps of all panels ask of the shop.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let panels = panels(s);
    let (profile, caps) = (profile(s)?, caps(s)?);
    let count = |count: f64| Quantity::new(Kind::Count, count * panels);
    Ok(vec![
        Demand {
            key: "cap-sheet",
            item: format!("{}, {}", s.inputs.get(&e::METAL)?, size(s.inputs.get(&e::THICKNESS)?)),
            shelf: Shelf::Glazing,
            quantity: (caps.total() * profile.developed * panels).into(),
            purpose: "caps over the edge of the glass",
            scrap: SHEET_SCRAP,
        },
        Demand {
            key: "cap-screws",
            item: "screws for the caps, with sealing washers".to_owned(),
            shelf: Shelf::Fastenings,
            quantity: count(screws(s)? as f64),
            purpose: "caps",
            scrap: 0.05,
        },
        Demand {
            key: "setting-blocks",
            item: "setting blocks, EPDM or silicone, Shore A 85".to_owned(),
            shelf: Shelf::Glazing,
            quantity: count(2.0),
            purpose: "under the lower edge of the glass",
            scrap: 0.0,
        },
        Demand {
            key: "glazing-tape",
            item: "glazing tape, EPDM or silicone".to_owned(),
            shelf: Shelf::Glazing,
            quantity: (caps.total() * 2.0 * panels).into(),
            purpose: "below and above the edge of the glass",
            scrap: 0.05,
        },
    ])
}
