//! What the safety stage asks about work outdoors: ladder, wind, roof holes, bonding, glass in the hands, hot parts.

use crate::model::{Choice, Entry, EntrySpec, Fold, TradeUnits};
use crate::units::si::{ElectricalResistance, Length, Velocity};

/// Way up.
pub static ACCESS: Entry<Access> = Entry::choice("safety.access", "way up").why("how people reach the work");

/// Height where the ladder leans.
pub static LADDER_HEIGHT: Entry<Length> = Entry::quantity("safety.ladder_height", "ladder leans at a height of")
    .shown_in(TradeUnits::SITE)
    .why("from the ground to where it touches")
    .hard(0.3, 30.0);

/// Foot of the ladder.
pub static LADDER_FOOT: Entry<Length> = Entry::quantity("safety.ladder_foot", "foot of the ladder, distance")
    .shown_in(TradeUnits::SITE)
    .why("from the foot to the point below where it leans: a quarter of the height")
    .hard(0.01, 30.0);

/// Ladder above the edge.
pub static LADDER_ABOVE: Entry<Length> = Entry::quantity("safety.ladder_above", "ladder above the edge")
    .shown_in(TradeUnits::SITE)
    .why("how far it stands over the edge that people step onto")
    .hard(0.0, 10.0);

/// Ladder tied.
pub static LADDER_TIED: Entry<bool> =
    Entry::flag("safety.ladder_tied", "ladder tied").why("at its top, before anybody carries anything");

/// Wind while handling.
pub static HANDLING_WIND: Entry<Velocity> = Entry::quantity("safety.handling_wind", "no panel carried above")
    .why("the wind in gusts above which a panel or a pane stays on the ground")
    .hard(0.0, 40.0)
    .usual(3.0, 10.0);

/// Holes in the roof.
pub static ROOF_HOLES: Entry<usize> = Entry::count("safety.roof_holes", "holes in the roof")
    .why("for mounts, pipes and wires; 0 for panels on the ground")
    .hard(0.0, 500.0);

/// Flashing.
pub static FLASHED: Entry<bool> = Entry::flag("safety.roof_flashed", "every hole flashed")
    .why("metal over and under the covering, not a bead of sealant; no plain wood under a mount");

/// Who seals the holes.
pub static ROOFER: Entry<String> =
    Entry::text("safety.roofer", "who seals the roof").why("name and number; a roof under warranty has its own rules");

/// Where the bond goes.
pub static BONDED_TO: Entry<Bond> = Entry::choice("safety.bonded_to", "panels and copper bonded to")
    .why("one earth for everything; a rod of its own can lie at another voltage");

/// Resistance of the bond.
pub static BOND_OHMS: Entry<ElectricalResistance> =
    Entry::quantity("safety.bond_resistance", "largest bond resistance")
        .why("from each panel and across each hose to the building's earth; each is a reading")
        .hard(0.0, 1e6)
        .measured(Fold::Largest);

/// Isolator.
pub static ISOLATOR: Entry<bool> = Entry::flag("safety.isolator", "isolator within reach of the pump")
    .why("so that whoever works on it can switch it off and see that it is off");

/// Pump out of the wet.
pub static PUMP_DRY: Entry<bool> = Entry::flag("safety.pump_dry", "pump and controller not below a joint")
    .why("what leaks drips; sensor wires run apart from mains");

/// Hands for the glass.
pub static GLASS_HANDS: Entry<GlassHands> = Entry::choice("safety.glass_hands", "how the pane is carried")
    .why("wet or dusty glass slips; an edge that is knocked breaks the whole pane");

/// Reach of hot parts.
pub static REACHABLE: Entry<bool> = Entry::flag("safety.hot_within_reach", "bare hot metal within reach")
    .why("stubs, pipes and relief discharge, for a child as well");

/// Guard of hot parts.
pub static GUARDED: Entry<bool> =
    Entry::flag("safety.hot_guarded", "hot parts insulated, guarded or labelled").why("all that can be touched");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &ACCESS.spec,
    &LADDER_HEIGHT.spec,
    &LADDER_FOOT.spec,
    &LADDER_ABOVE.spec,
    &LADDER_TIED.spec,
    &HANDLING_WIND.spec,
    &ROOF_HOLES.spec,
    &FLASHED.spec,
    &ROOFER.spec,
    &BONDED_TO.spec,
    &BOND_OHMS.spec,
    &ISOLATOR.spec,
    &PUMP_DRY.spec,
    &GLASS_HANDS.spec,
    &REACHABLE.spec,
    &GUARDED.spec,
];

/// Way up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// A leaning ladder.
    Ladder,
    /// Stairs, a scaffold tower, a lifting platform.
    Platform,
    /// From the ground.
    Ground,
}

impl Choice for Access {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Ladder, "ladder", "a leaning ladder"),
        (Self::Platform, "platform", "stairs, a scaffold tower or a lifting platform"),
        (Self::Ground, "ground", "everything is done standing on the ground"),
    ];
}

/// Where the bond goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bond {
    /// The building's earth.
    Building,
    /// A rod of its own.
    OwnRod,
    /// Nothing.
    Nothing,
}

impl Choice for Bond {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Building, "building earth", "the earth of the building's own wiring"),
        (Self::OwnRod, "own rod", "a rod of its own in the ground"),
        (Self::Nothing, "nothing", "no bond"),
    ];
}

/// How the pane is carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GlassHands {
    /// Two persons with gloves and goggles.
    Two,
    /// Suction lifter or trolley.
    Lifter,
    /// Alone or with bare hands.
    Alone,
}

impl Choice for GlassHands {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Two, "two people", "two people, gloves that grip, goggles, on edge"),
        (Self::Lifter, "lifter", "a suction lifter that was tested, or a glass trolley, gloves and goggles"),
        (Self::Alone, "alone", "one person, or without gloves and goggles"),
    ];
}
