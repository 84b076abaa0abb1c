//! What the builder decides about mounts and rack, and what maker, engineer or pull test say they hold.

use crate::handbook::timber;
use crate::model::{Choice, Entry, EntrySpec};
use crate::units::si::{Force, Length, Mass, Pressure, Ratio};

/// Kind of mount.
pub static MOUNT_KIND: Entry<MountKind> =
    Entry::choice("enclosure.mount_kind", "how the panels stand").why("decides which loads and which links count");

/// Gap between panels.
pub static PANEL_GAP: Entry<Length> = Entry::quantity("enclosure.panel_gap", "gap between panels")
    .why("from box to box in the row; the hoses between the panels live in it")
    .hard(0.0, 5.0)
    .usual(0.05, 0.6);

/// Spacing of mounts.
pub static MOUNT_SPACING: Entry<Length> = Entry::quantity("enclosure.mount_spacing", "mounts along a rail")
    .why("centre to centre: a multiple of the rafter spacing, so that every mount finds a rafter")
    .hard(0.1, 10.0)
    .usual(0.4, 2.5);

/// Rails.
pub static RAILS: Entry<usize> = Entry::count("enclosure.rails", "rails under a row")
    .why("across the rafters, placed so that each carries the same share")
    .hard(1.0, 20.0)
    .default("2");

/// Diameter of the lag.
pub static LAG_DIAMETER: Entry<Length> = Entry::quantity("enclosure.lag_diameter", "lag screw, diameter")
    .why("of the shank")
    .hard(0.0063, 0.032)
    .usual(0.0063, 0.0127);

/// Length of the lag.
pub static LAG_LENGTH: Entry<Length> = Entry::quantity("enclosure.lag_length", "lag screw, length")
    .why("under the head; what bracket, shingles and deck take does not hold")
    .hard(0.02, 0.6);

/// Thread in the rafter.
pub static LAG_THREAD: Entry<Length> = Entry::quantity("enclosure.lag_thread", "lag thread in the rafter")
    .why("without the tip, in sound wood of the rafter itself")
    .hard(0.005, 0.4);

/// Lags of a mount.
pub static LAGS: Entry<usize> =
    Entry::count("enclosure.lags", "lag screws of one mount").why("in one rafter").hard(1.0, 20.0).default("1");

/// Timber of the rafter.
pub static RAFTER_TIMBER: Entry<String> = Entry::listed("enclosure.rafter_timber", "rafter timber", species)
    .why("its grade stamp names it; the lightest if unsure");

/// Thickness of the rafter.
pub static RAFTER_THICKNESS: Entry<Length> = Entry::quantity("enclosure.rafter_thickness", "rafter thickness")
    .why("the real one, across the lag: it decides the edge distance")
    .hard(0.01, 0.3)
    .usual(0.03, 0.08);

/// Wet.
pub static LAG_WET: Entry<bool> = Entry::flag("enclosure.lag_wet", "timber may get wet")
    .why("wet timber holds seven tenths (from memory)")
    .default("yes");

/// Clamps.
pub static CLAMPS: Entry<usize> = Entry::count("enclosure.clamps", "clamps of one panel")
    .why("that hold the box to the rails")
    .hard(1.0, 100.0)
    .default("4");

/// What a clamp holds.
pub static CLAMP_HOLDS: Entry<Force> = Entry::quantity("enclosure.clamp_holds", "one clamp holds")
    .why("allowable load on clamp and box, from its sheet, a pull test or an engineer")
    .hard(1.0, 1e6);

/// What a bracket holds.
pub static BRACKET_HOLDS: Entry<Force> = Entry::quantity("enclosure.bracket_holds", "one bracket holds")
    .why("allowable uplift of foot or bracket, from its sheet or an engineer")
    .hard(1.0, 1e6);

/// What a rail holds.
pub static RAIL_HOLDS: Entry<Force> = Entry::quantity("enclosure.rail_holds", "one span of rail holds")
    .why("allowable load on a rail between two mounts, from its sheet or an engineer")
    .hard(1.0, 1e6);

/// What rafter or soil holds.
pub static BASE_HOLDS: Entry<Force> = Entry::quantity("enclosure.base_holds", "rafter or soil holds")
    .why("allowable uplift at one mount or anchor: rafter and its ties by an engineer, soil by a pull test")
    .hard(1.0, 1e6);

/// What the roof may carry.
pub static ROOF_ALLOWANCE: Entry<Pressure> = Entry::quantity("enclosure.roof_allowance", "roof may carry in addition")
    .why("dead load beyond what lies on it now, from an engineer or the building authority")
    .hard(0.0, 20_000.0);

/// Height over the roof.
pub static STANDOFF: Entry<Length> = Entry::quantity("enclosure.standoff", "height over the roof")
    .why("roof to the top of the panel: the code's figures for flush panels hold to 10 in")
    .hard(0.0, 3.0);

/// Distance to the edge.
pub static EDGE_DISTANCE: Entry<Length> = Entry::quantity("enclosure.edge_distance", "nearest edge of the roof")
    .why("from the panels to eave, ridge or verge: wind is strongest there, and so is the fall")
    .hard(0.0, 100.0);

/// Way for service.
pub static SERVICE_WAY: Entry<Length> = Entry::quantity("enclosure.service_way", "way for service")
    .why("clear width to reach every panel with a person and a ladder; fire rules may ask for more")
    .hard(0.0, 20.0);

/// Base of the rack.
pub static RACK_BASE: Entry<Length> = Entry::quantity("enclosure.rack_base", "rack, front to back feet")
    .why("on the ground, centre to centre")
    .hard(0.1, 10.0);

/// Height of the lower edge.
pub static RACK_FRONT: Entry<Length> = Entry::quantity("enclosure.rack_front", "lower edge above ground")
    .why("above snow, splash and grass")
    .hard(0.0, 5.0);

/// Friction.
pub static FRICTION: Entry<Ratio> = Entry::quantity("enclosure.ground_friction", "friction of feet on ground")
    .why("from an engineer (0.4 is recalled, for orientation)")
    .hard(0.05, 1.0);

/// Ballast.
pub static BALLAST: Entry<Mass> = Entry::quantity("enclosure.ballast", "ballast for one panel")
    .why("fixed to the rack; 0 kg if there is none")
    .hard(0.0, 5000.0);

/// Anchors.
pub static ANCHORS: Entry<usize> = Entry::count("enclosure.anchors", "ground anchors of one panel")
    .why("half of them behind; 0 where the rack stands by its weight alone");

/// Pull of an anchor.
pub static ANCHOR_HOLDS: Entry<Force> = Entry::quantity("enclosure.anchor_holds", "one anchor holds, pull")
    .why("allowable pull of the anchor itself, from its sheet")
    .hard(1.0, 1e6);

/// Shear of an anchor.
pub static ANCHOR_SHEAR: Entry<Force> = Entry::quantity("enclosure.anchor_shear", "one anchor holds, sideways")
    .why("allowable shear, from its sheet or a test")
    .hard(1.0, 1e6);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &MOUNT_KIND.spec,
    &PANEL_GAP.spec,
    &MOUNT_SPACING.spec,
    &RAILS.spec,
    &LAG_DIAMETER.spec,
    &LAG_LENGTH.spec,
    &LAG_THREAD.spec,
    &LAGS.spec,
    &RAFTER_TIMBER.spec,
    &RAFTER_THICKNESS.spec,
    &LAG_WET.spec,
    &CLAMPS.spec,
    &CLAMP_HOLDS.spec,
    &BRACKET_HOLDS.spec,
    &RAIL_HOLDS.spec,
    &BASE_HOLDS.spec,
    &ROOF_ALLOWANCE.spec,
    &STANDOFF.spec,
    &EDGE_DISTANCE.spec,
    &SERVICE_WAY.spec,
    &RACK_BASE.spec,
    &RACK_FRONT.spec,
    &FRICTION.spec,
    &BALLAST.spec,
    &ANCHORS.spec,
    &ANCHOR_HOLDS.spec,
    &ANCHOR_SHEAR.spec,
];

/// How the panels stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MountKind {
    /// Parallel to the roof.
    Flush,
    /// On legs on a roof.
    RoofRack,
    /// On the ground.
    Ground,
}

impl Choice for MountKind {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Flush, "flush", "parallel to the roof, close above it"),
        (Self::RoofRack, "roof rack", "on legs on a roof, steeper than it"),
        (Self::Ground, "ground", "on a rack on the ground"),
    ];
}

fn species() -> Vec<(&'static str, &'static str)> {
    timber::specific_gravities().all().iter().map(|species| (species.name.as_str(), "")).collect()
}
