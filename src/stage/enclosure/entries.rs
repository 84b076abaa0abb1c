//! What the enclosure stage asks.

use crate::handbook::{insulation, timber};
use crate::model::{Choice, Entry, EntrySpec, Fold};
use crate::physics::glass::Treatment;
use crate::units::si::{Length, Pressure, Temperature, ZERO_CELSIUS};

/// Kind of glass.
pub static GLASS: Entry<Glass> = Entry::choice("enclosure.glass", "glass")
    .why("tempered: annealed glass breaks from its own hot middle, plastic softens over a plate that stands empty");

/// Thickness of the glass.
pub static GLASS_THICKNESS: Entry<Length> = Entry::quantity("enclosure.glass_thickness", "glass thickness")
    .why("as sold; the least thickness of the standard is used for strength")
    .hard(0.001, 0.025)
    .usual(0.003, 0.006);

/// Air gap.
pub static AIR_GAP: Entry<Length> = Entry::quantity("enclosure.air_gap", "air gap")
    .why("plate to glass; below 10 mm heat leaks through, above 50 mm the frame shades")
    .hard(0.001, 0.3)
    .usual(0.01, 0.05)
    .default("25 mm");

/// Material of the insulation.
pub static INSULATION: Entry<String> = Entry::listed("enclosure.insulation", "insulation", insulation_names)
    .why("next to the plate it sees the stagnation temperature: fibre with little binder, never foam");

/// Thickness behind the plate.
pub static BACK_THICKNESS: Entry<Length> = Entry::quantity("enclosure.back_thickness", "insulation behind")
    .why("as it lies compressed between plate and back board")
    .hard(0.0, 0.5)
    .usual(0.025, 0.15);

/// Thickness at the edge.
pub static EDGE_THICKNESS: Entry<Length> = Entry::quantity("enclosure.edge_thickness", "insulation at the edge")
    .why("between the rail and the plate; keeps the rail cooler too")
    .hard(0.0, 0.3)
    .usual(0.012, 0.05)
    .default("25 mm");

/// Back board.
pub static BACK_BOARD: Entry<Length> = Entry::quantity("enclosure.back_board", "back board")
    .why("plywood or board that closes the box")
    .hard(0.001, 0.05)
    .default("12 mm");

/// Rails of the box.
pub static RAIL_THICKNESS: Entry<Length> = Entry::quantity("enclosure.rail_thickness", "rail thickness")
    .why("the real thickness: a nominal 1 inch board is 3/4 in")
    .hard(0.005, 0.1)
    .usual(0.015, 0.05);

/// Lining of the rails.
pub static RAIL_LINING: Entry<Length> = Entry::quantity("enclosure.rail_lining", "rail lining")
    .why("mineral lining with a metal face, up to the glass seat; type 0 mm if there is none")
    .hard(0.0, 0.1)
    .usual(0.0, 0.03);

/// Space around the plate.
pub static CLEARANCE: Entry<Length> = Entry::quantity("enclosure.clearance", "clearance of the plate")
    .why("free space at each edge of the plate for its growth")
    .hard(0.0, 0.1)
    .default("10 mm");

/// Corner joint.
pub static CORNER: Entry<Corner> =
    Entry::choice("enclosure.corner", "corner joint").why("decides how long each rail is cut").default("butt");

/// Bite of the glass.
pub static GLASS_BITE: Entry<Length> = Entry::quantity("enclosure.glass_bite", "bite of the glass")
    .why("how far the glass lies on its seat; 10 to 13 mm from memory")
    .hard(0.004, 0.05)
    .default("12 mm");

/// Free space around the glass.
pub static GLASS_CLEARANCE: Entry<Length> = Entry::quantity("enclosure.glass_clearance", "clearance of the glass")
    .why("from each edge of the glass to the shoulder of its seat; 3 to 6 mm from memory")
    .hard(0.0, 0.05)
    .usual(0.003, 0.006)
    .default("4 mm");

/// Limit on the insulation's own sheet.
pub static INSULATION_LIMIT: Entry<Temperature> = Entry::quantity("enclosure.insulation_limit", "limit on its sheet")
    .why("highest service temperature that the maker's sheet of your insulation prints; the lower of sheet and table holds")
    .hard(ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 1300.0);

/// Species of the timber.
pub static TIMBER: Entry<String> = Entry::listed("enclosure.timber", "timber", species_names)
    .why("decides the mass of the box; the heaviest is assumed until you choose")
    .default("Southern pine");

/// Design pressure on the glass.
pub static GLASS_PRESSURE: Entry<Pressure> =
    Entry::quantity("enclosure.glass_pressure", "design pressure on the glass")
        .why("net wind or snow on one pane, from the local code or an engineer; there is no default")
        .hard(1.0, 20_000.0);

/// Who lifts.
pub static LIFTERS: Entry<usize> =
    Entry::count("enclosure.lifters", "people for the lift").why("who carry one panel at the same time");

/// Hoist.
pub static HOIST: Entry<bool> = Entry::flag("enclosure.hoist", "hoist or lift")
    .why("whether a hoist, a lift or a crane carries the panel instead of hands")
    .default("no");

/// First diagonal of the box.
pub static DIAGONAL_1: Entry<Length> = Entry::quantity("enclosure.diagonal_1", "first diagonal of the seat")
    .why("corner to corner of the glass seat; glass breaks in a frame that is out of square")
    .hard(0.1, 10.0)
    .per_panel()
    .measured(Fold::Latest);

/// Second diagonal of the box.
pub static DIAGONAL_2: Entry<Length> = Entry::quantity("enclosure.diagonal_2", "second diagonal of the seat")
    .why("the other corners")
    .hard(0.1, 10.0)
    .per_panel()
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &GLASS.spec,
    &GLASS_THICKNESS.spec,
    &AIR_GAP.spec,
    &INSULATION.spec,
    &BACK_THICKNESS.spec,
    &EDGE_THICKNESS.spec,
    &BACK_BOARD.spec,
    &RAIL_THICKNESS.spec,
    &RAIL_LINING.spec,
    &CLEARANCE.spec,
    &CORNER.spec,
    &GLASS_BITE.spec,
    &GLASS_CLEARANCE.spec,
    &INSULATION_LIMIT.spec,
    &TIMBER.spec,
    &GLASS_PRESSURE.spec,
    &LIFTERS.spec,
    &HOIST.spec,
    &DIAGONAL_1.spec,
    &DIAGONAL_2.spec,
];

/// Kind of glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glass {
    /// Tempered, low iron.
    TemperedLowIron,
    /// Tempered, ordinary.
    Tempered,
    /// Tempered, greenish.
    TemperedGreen,
    /// Not tempered.
    Annealed,
    /// Flat sheet of polycarbonate.
    Polycarbonate,
}

impl Glass {
    /// Extinction of sunlight, 1/m: 4 water-white (verified in a public library), 16 ordinary float (verified),
    /// 32 greenish (from memory); polycarbonate as 3 mm let 79 % through (0.787 to 0.791, exposure study, verified).
    pub const fn extinction(self) -> f64 {
        match self {
            Self::TemperedLowIron => 4.0,
            Self::Tempered | Self::Annealed => 16.0,
            Self::TemperedGreen => 32.0,
            Self::Polycarbonate => 50.0,
        }
    }

    /// Its heat treatment, which decides its strength; none for plastic.
    pub const fn treatment(self) -> Option<Treatment> {
        match self {
            Self::TemperedLowIron | Self::Tempered | Self::TemperedGreen => Some(Treatment::Tempered),
            Self::Annealed => Some(Treatment::Annealed),
            Self::Polycarbonate => None,
        }
    }
}

impl Choice for Glass {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::TemperedLowIron, "tempered low-iron", "clear at the edge; the best, dearest"),
        (Self::Tempered, "tempered", "ordinary tempered float"),
        (Self::TemperedGreen, "tempered green", "tempered, green at the edge"),
        (Self::Annealed, "annealed", "not tempered: refused on a collector"),
        (
            Self::Polycarbonate,
            "polycarbonate",
            "flat plastic sheet: 100 °C at most, grows eight times as much as glass",
        ),
    ];
}

/// How rails meet at a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Corner {
    /// Short rails between long ones.
    Butt,
    /// Short rails in a rabbet of the long ones.
    Rabbet,
    /// Mitred.
    Mitre,
    /// Half-lapped.
    HalfLap,
}

impl Choice for Corner {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Butt, "butt", "short rails stand between the long ones"),
        (Self::Rabbet, "rabbet", "short rails reach into a rabbet at the ends of the long ones"),
        (Self::Mitre, "mitre", "both cut at 45° to the outside size"),
        (Self::HalfLap, "half-lap", "both run to the outside, half their thickness each"),
    ];
}

/// The insulating materials of the handbook, with what they give off.
pub fn insulation_names() -> Vec<(&'static str, &'static str)> {
    insulation::materials()
        .all()
        .iter()
        .map(|material| (material.name.as_str(), material.outgas.as_deref().unwrap_or("")))
        .collect()
}

fn species_names() -> Vec<(&'static str, &'static str)> {
    timber::specific_gravities().all().iter().map(|species| (species.name.as_str(), "")).collect()
}
