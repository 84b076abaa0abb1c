//! The hoses between the panels of a row: room for growth, grip, clamps, and room to take one panel out again.
//!
//! Lives here: lengths and counts. Must not live here: whether a hose bears heat and pressure of the loop (`safety`), the
//! loop itself (`plumbing`).

pub mod rows;

use super::entries as own;
use super::rack::entries::PANEL_GAP;
use crate::handbook::hose;
use crate::model::{Demand, Entry, EntrySpec, Fig, Shelf, Why};
use crate::physics::expansion::{Swing, copper_growth, end_play, hose_free_length};
use crate::stage::absorber::entries as a;
use crate::stage::demands::panels;
use crate::stage::site::entries::RECORD_LOW;
use crate::stage::site::entries::surroundings::ROWS;
use crate::stage::{Group, Solution, absorber};
use crate::units::si::{Dimension, Length, celsius};
use crate::units::{Kind, Quantity};

/// Kind of hose.
pub static HOSE: Entry<String> = Entry::listed("enclosure.link_hose", "hose between panels", hoses)
    .why("it sees the hottest panel; its rating at that temperature decides");

/// Sleeve.
pub static SLEEVE: Entry<bool> = Entry::flag("enclosure.link_sleeve", "hoses sleeved against sun and weather")
    .why("insulation that stands the heat, and a jacket that stands the sun");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&HOSE.spec, &SLEEVE.spec];

fn hoses() -> Vec<(&'static str, &'static str)> {
    hose::hoses().iter().map(|hose| (hose.name.as_str(), hose.note.as_deref().unwrap_or(""))).collect()
}

/// Shrinking of a header in winter.
pub static SHRINK: Group =
    Group { name: "winter shrinkage of a header", entries: &["site.record_low"], groups: &[&absorber::HARP] };

/// Least free length of a hose.
pub static FREE: Group = Group { name: "free length of a hose", entries: &[], groups: &[&super::GROWTH, &SHRINK] };

/// Grip of a hose.
pub static GRIP: Group = Group { name: "grip of a hose", entries: &[], groups: &[&absorber::HARP] };

/// What of a stub stands out of the box.
pub static STUBS: Group = Group {
    name: "stubs outside the box",
    entries: &[
        "absorber.stub_left",
        "absorber.stub_right",
        "enclosure.clearance",
        "enclosure.edge_thickness",
        "enclosure.rail_thickness",
    ],
    groups: &[],
};

/// Room between the stubs of neighbours.
pub static ROOM: Group = Group { name: "room between stubs", entries: &["enclosure.panel_gap"], groups: &[&STUBS] };

/// The same, hot.
pub static ROOM_HOT: Group = Group { name: "room between hot stubs", entries: &[], groups: &[&ROOM, &super::GROWTH] };

/// Hose to cut.
pub static HOSE_CUT: Group = Group { name: "hose to cut", entries: &[], groups: &[&ROOM, &GRIP] };

/// Gap of the boxes that is needed.
pub static LEAST_GAP: Group = Group { name: "gap between boxes", entries: &[], groups: &[&STUBS, &FREE, &GRIP] };

/// How many hoses there are.
pub static HOSES: Group = Group { name: "hoses", entries: &["site.rows"], groups: &[] };

/// Growth of a row that is soldered through.
pub static RIGID: Group =
    Group { name: "growth of a row soldered through", entries: &[], groups: &[&HOSES, &super::GROWTH] };

/// What the links need.
pub static DEMANDS: Group =
    Group { name: "what the links need", entries: &["enclosure.link_hose"], groups: &[&HOSE_CUT, &HOSES] };

/// Grip of a hose on its stub, in outside diameters (from memory).
const GRIP_SHARE: f64 = 1.5;
/// Clamps on one end of a hose (from memory).
const CLAMPS: usize = 2;

/// Growth of a header from 20 °C to its stagnation: what a stub of one panel comes toward that of the next.
pub fn growth(s: &Solution) -> Fig<Length> {
    Ok(s.enclosure.growth.clone()?.header)
}

/// Shrinking of a header from 20 °C to the record low, as a positive length.
pub fn shrink(s: &Solution) -> Fig<Length> {
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let swing = Swing { from: celsius(20.0), to: s.inputs.get(&RECORD_LOW)? };
    Ok(copper_growth(harp.header_length, swing).map_err(Why::out_of_range)?.abs())
}

/// Least free length between the stubs: four times the larger movement.
pub fn free_least(s: &Solution) -> Fig<Length> {
    Ok(hose_free_length(growth(s)?.max(shrink(s)?)))
}

/// Grip on each stub.
pub fn grip(s: &Solution) -> Fig<Length> {
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    Ok(harp.header.od * GRIP_SHARE)
}

/// What stands out of the box, left and right.
pub fn stubs_outside(s: &Solution) -> Fig<(Length, Length)> {
    let wall =
        s.inputs.get(&own::CLEARANCE)? + s.inputs.get(&own::EDGE_THICKNESS)? + s.inputs.get(&own::RAIL_THICKNESS)?;
    Ok((s.inputs.get(&a::STUB_LEFT)? - wall, s.inputs.get(&a::STUB_RIGHT)? - wall))
}

/// Room between the stub ends of neighbours at 20 °C; negative if they overlap.
pub fn room(s: &Solution) -> Fig<Length> {
    let (left, right) = stubs_outside(s)?;
    Ok(s.inputs.get(&PANEL_GAP)? - left - right)
}

/// The same with both panels at stagnation.
pub fn room_hot(s: &Solution) -> Fig<Length> {
    Ok(room(s)? - growth(s)?)
}

/// Hose cut for one link: the room and a grip at each end.
pub fn hose_cut(s: &Solution) -> Fig<Length> {
    Ok(room(s)?.max(Length::from_si(0.0)) + grip(s)? * 2.0)
}

/// Least gap between boxes: the stubs, and room for movement, for play and for taking a hose off.
pub fn gap_least(s: &Solution) -> Fig<Length> {
    let (left, right) = stubs_outside(s)?;
    Ok(left + right + room_least(s)?)
}

/// Least room between stub ends.
fn room_least(s: &Solution) -> Fig<Length> {
    Ok(free_least(s)?.max(growth(s)? + end_play()).max(grip(s)?))
}

/// Hoses of the whole field: two between neighbours of a row.
pub fn hoses_wanted(s: &Solution) -> Fig<usize> {
    let rows = s.inputs.get(&ROWS)?.max(1);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a count of panels
    let panels = panels(s) as usize;
    Ok(2 * panels.saturating_sub(rows))
}

/// Growth of a row whose headers were soldered through.
pub fn rigid_growth(s: &Solution) -> Fig<Length> {
    let rows = s.inputs.get(&ROWS)?.max(1) as f64;
    Ok(growth(s)? * (panels(s) / rows).ceil())
}

/// What the links of all panels ask of the shop; nothing for a single panel.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let hoses = hoses_wanted(s)?;
    if hoses == 0 {
        return Ok(Vec::new());
    }
    Ok(vec![
        Demand {
            key: "link-hose",
            item: s.inputs.get(&HOSE)?,
            shelf: Shelf::Plumbing,
            quantity: (hose_cut(s)? * hoses as f64).into(),
            purpose: "between panels",
            scrap: 0.05,
        },
        Demand {
            key: "hose-clamps",
            item: "hose clamps, constant tension, two on each end".to_owned(),
            shelf: Shelf::Plumbing,
            quantity: Quantity::new(Kind::Count, (hoses * 2 * CLAMPS) as f64),
            purpose: "hoses between panels",
            scrap: 0.0,
        },
    ])
}
