//! The rack: mounts and their shares, lag screws, the rack on the ground, tilt as rise over run. Screening only.
//!
//! Lives here: geometry and strength of what carries the panels. Must not live here: the loads themselves (`loads`), the
//! comparison of all links (`chain`), pictures and cards.

pub mod cards;
pub mod checks;
pub mod demands;
pub mod desk;
pub mod drawing;
pub mod entries;
pub mod lag;
pub mod rows;
pub mod steps;

use super::loads::{self, HELPING_DEAD, WIND_SHARE};
use crate::model::{Fig, Why};
use crate::physics::rack::{NeededWeight, Rack};
use crate::physics::wind::force_on_panel;
use crate::stage::site::entries as site;
use crate::stage::site::entries::surroundings as around;
use crate::stage::{Group, Solution};
use crate::units::si::{Angle, Area, Dimension, Force, Length, Velocity};
use entries::{self as e, MountKind};

/// The row on its mounts.
pub static ROW: Group =
    Group { name: "the row on its rails", entries: &["site.rows", "enclosure.panel_gap"], groups: &[&super::BOX] };

/// The mounts.
pub static MOUNTS: Group =
    Group { name: "mounts", entries: &["enclosure.mount_spacing", "enclosure.rails"], groups: &[&ROW] };

/// Uplift of one mount.
pub static MOUNT_UP: Group = Group { name: "uplift of a mount", entries: &[], groups: &[&MOUNTS, &loads::UP] };

/// Load of one mount downward.
pub static MOUNT_DOWN: Group =
    Group { name: "load of a mount downward", entries: &[], groups: &[&MOUNTS, &loads::DOWN] };

/// Tilt in other words.
pub static TILTED: Group = Group { name: "tilt as a slope", entries: &["site.tilt"], groups: &[] };

/// Plan and height of the tilted panel.
pub static PLAN: Group = Group { name: "the tilted panel", entries: &["site.tilt"], groups: &[&super::BOX] };

/// Back legs over a sloping roof.
pub static LEGS: Group =
    Group { name: "back legs", entries: &["site.roof_slope", "enclosure.mount_kind"], groups: &[&PLAN] };

/// The rack on the ground.
pub static GROUND: Group = Group {
    name: "the rack on the ground",
    entries: &[
        "enclosure.mount_kind",
        "enclosure.rack_base",
        "enclosure.rack_front",
        "enclosure.ground_friction",
        "site.tilt",
    ],
    groups: &[&loads::SUCTION, &super::BOX],
};

/// Weight of the rack on the ground.
pub static GROUND_WEIGHT: Group = Group {
    name: "weight of the rack on the ground",
    entries: &["enclosure.rack_mass", "enclosure.ballast"],
    groups: &[&super::MASS],
};

/// Pull and shear of the anchors.
pub static ANCHORS: Group =
    Group { name: "anchors of the rack", entries: &["enclosure.anchors"], groups: &[&GROUND, &GROUND_WEIGHT] };

/// Dead load on the roof.
pub static ROOF: Group =
    Group { name: "dead load on the roof", entries: &["enclosure.mount_kind"], groups: &[&loads::DEAD_WET] };

/// Wind that hands can hold.
pub static SAIL: Group = Group { name: "wind at the lift", entries: &["enclosure.lifters"], groups: &[&super::BOX] };

/// A row of panels on its rails.
#[derive(Clone, Debug)]
pub struct Row {
    /// Panels beside each other.
    pub panels: usize,
    /// Length of the row.
    pub length: Length,
}

/// The row; the gap is asked only where there are neighbours. One panel is counted while none is listed.
pub fn row(s: &Solution) -> Fig<Row> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    let all = s.inputs.panels().len().max(1);
    let panels = all.div_ceil(s.inputs.get(&around::ROWS)?.max(1));
    let gaps = if panels > 1 { s.inputs.get(&e::PANEL_GAP)? * (panels - 1) as f64 } else { Length::from_si(0.0) };
    Ok(Row { panels, length: timber_box.outside_width * panels as f64 + gaps })
}

/// The mounts of one row.
#[derive(Clone, Debug)]
pub struct Mounts {
    /// Mounts along one rail, from the left end of the row.
    pub positions: Vec<Length>,
    /// Rails that share the panel's slope.
    pub rails: usize,
    /// Length of rail that the most loaded mount carries.
    pub share: Length,
    /// Area that it carries.
    pub area: Area,
}

/// As few mounts as the spacing allows, both ends overhanging alike.
pub fn mounts(s: &Solution) -> Fig<Mounts> {
    let length = row(s)?.length;
    let spacing = s.inputs.get(&e::MOUNT_SPACING)?;
    let rails = s.inputs.get(&e::RAILS)?.max(1);
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // both lengths are positive and bounded
    let count = ((length / spacing).si() - 1e-9).ceil().clamp(2.0, 1e4) as usize;
    let overhang = (length - spacing * (count - 1) as f64) / 2.0;
    if overhang.si() < 0.0 {
        return Err(Why::out_of_range("the mounts stand farther apart than the row is long"));
    }
    let end = spacing / 2.0 + overhang;
    let share = if count > 2 { spacing.max(end) } else { end };
    Ok(Mounts {
        positions: (0..count).map(|index| overhang + spacing * index as f64).collect(),
        rails,
        share,
        area: share * timber_box.outside_length / rails as f64,
    })
}

/// Net uplift of the most loaded mount, across the panel; negative where the weight holds it.
pub fn mount_up(s: &Solution) -> Fig<Force> {
    Ok(loads::up(s)? * mounts(s)?.area)
}

/// Load downward of the most loaded mount, across the panel.
pub fn mount_down(s: &Solution) -> Fig<Force> {
    Ok(loads::down(s)?.pressure * mounts(s)?.area)
}

/// Rise for a run.
pub fn rise_over_run(s: &Solution) -> Fig<f64> {
    let tilt = s.inputs.get(&site::TILT)?.si();
    if tilt > 89.0_f64.to_radians() {
        return Err(Why::out_of_range("an upright panel has no run"));
    }
    Ok(tilt.tan())
}

/// Height of the tilted panel from its lower to its upper edge.
pub fn rise(s: &Solution) -> Fig<Length> {
    Ok(slope_length(s)? * s.inputs.get(&site::TILT)?.si().sin())
}

/// Length of the tilted panel on the level.
pub fn run(s: &Solution) -> Fig<Length> {
    Ok(slope_length(s)? * s.inputs.get(&site::TILT)?.si().cos())
}

/// Height of the back legs: over the roof's own slope on a roof, over the front legs on the ground; none flush.
pub fn back_legs(s: &Solution) -> Fig<Length> {
    let tilt = s.inputs.get(&site::TILT)?;
    let below = match s.inputs.get(&e::MOUNT_KIND)? {
        MountKind::Flush => tilt,
        MountKind::RoofRack => s.inputs.get(&around::ROOF_SLOPE)?,
        MountKind::Ground => Angle::from_si(0.0),
    };
    Ok(slope_length(s)? * (tilt - below).si().sin())
}

fn slope_length(s: &Solution) -> Fig<Length> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    Ok(timber_box.outside_length)
}

/// The rack on the ground under one panel.
#[derive(Clone, Copy, Debug)]
pub struct Ground {
    /// The balance.
    pub rack: Rack,
    /// What it needs.
    pub needed: NeededWeight,
}

/// Only a rack on the ground can turn over or slide.
pub fn ground(s: &Solution) -> Fig<Ground> {
    if s.inputs.get(&e::MOUNT_KIND)? != MountKind::Ground {
        return Err(Why::out_of_range("only a rack on the ground turns over or slides"));
    }
    let tilt = s.inputs.get(&site::TILT)?.si();
    let force = loads::suction(s)? * WIND_SHARE * loads::area(s)?;
    let rack = Rack {
        horizontal: force * tilt.sin(),
        uplift: force * tilt.cos(),
        height: s.inputs.get(&e::RACK_FRONT)? + rise(s)? / 2.0,
        arm: run(s)? / 2.0,
        base: s.inputs.get(&e::RACK_BASE)?,
        friction: s.inputs.get(&e::FRICTION)?.si(),
    };
    Ok(Ground { rack, needed: rack.needed_weight().map_err(Why::out_of_range)? })
}

/// Weight of panel, rack and ballast on the ground, empty.
pub fn ground_weight(s: &Solution) -> Fig<Force> {
    Ok(loads::weight(loads::mass_dry(s)? + s.inputs.get(&e::BALLAST)?))
}

/// Forces on one anchor of the rack on the ground.
#[derive(Clone, Copy, Debug)]
pub struct AnchorForces {
    /// Pull on one of the rear half.
    pub pull: Force,
    /// Shear on each.
    pub shear: Force,
}

/// What the weight does not hold: pull on the rear anchors by overturning or lift, and shear on all of them by sliding.
/// Friction is left out of the shear: a rack that lifts has none.
pub fn anchor_forces(s: &Solution) -> Fig<AnchorForces> {
    let Ground { rack, needed } = ground(s)?;
    let count = s.inputs.get(&e::ANCHORS)?;
    if count < 2 {
        return Err(Why::out_of_range("a rack with fewer than two anchors for each panel stands by its weight"));
    }
    let held = ground_weight(s)? * HELPING_DEAD;
    let turning = needed.overturning_moment / rack.base.si() - held.si() / 2.0;
    let lifting = rack.uplift.si() - held.si();
    let rear = (count / 2) as f64;
    Ok(AnchorForces {
        pull: Force::from_si(turning.max(lifting).max(0.0) / rear),
        shear: rack.horizontal / count as f64,
    })
}

/// Force that one person is asked to hold against the wind (project rule).
const HELD_BY_ONE: f64 = 20.0;
/// Drag coefficient of a panel in the hands: a square plate broadside in free air has 1.1 to 1.3 (from memory).
pub const DRAG: f64 = 1.2;

/// Wind at which the panel pushes each of the hands with 20 N.
pub fn lift_wind(s: &Solution) -> Fig<Velocity> {
    let people = s.inputs.get(&super::entries::LIFTERS)? as f64;
    let at_one = force_on_panel(loads::area(s)?, Velocity::from_si(1.0), DRAG).map_err(Why::out_of_range)?;
    Ok(Velocity::from_si((people * HELD_BY_ONE / at_one.si()).sqrt())) // the force grows with the square of the wind
}
