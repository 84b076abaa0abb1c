//! What the builder decides about the caps: profile, sheet, screws, sealant.

use crate::handbook::{galvanic, hose};
use crate::model::{Entry, EntrySpec};
use crate::units::si::Length;

/// Metal of the caps.
pub static METAL: Entry<String> = Entry::listed("enclosure.cap_metal", "cap, metal", metals)
    .why("its screws and all that touches it must lie near it in the galvanic series");

/// Thickness of the sheet.
pub static THICKNESS: Entry<Length> = Entry::quantity("enclosure.cap_thickness", "cap, thickness")
    .why("of its sheet")
    .hard(0.0002, 0.003)
    .usual(0.0004, 0.0015)
    .default("0.6 mm");

/// Lap over the glass.
pub static LAP: Entry<Length> = Entry::quantity("enclosure.cap_lap", "cap, lap over the glass")
    .why("more shades the plate, less lets go of the glass; as wide as the bite")
    .hard(0.004, 0.05)
    .usual(0.008, 0.025)
    .default("12 mm");

/// Drop over the rail.
pub static DROP: Entry<Length> = Entry::quantity("enclosure.cap_drop", "cap, down the rail")
    .why("covers the joint of glass and rail and takes the screws")
    .hard(0.01, 0.2)
    .usual(0.02, 0.08)
    .default("30 mm");

/// Hem.
pub static HEM: Entry<Length> = Entry::quantity("enclosure.cap_hem", "cap, hem")
    .why("folded back: no sharp edge for hands, and a drip")
    .hard(0.004, 0.03)
    .default("8 mm");

/// Lap of caps.
pub static OVERLAP: Entry<Length> = Entry::quantity("enclosure.cap_overlap", "cap, lap of the pieces")
    .why("like shingles, the upper piece over the lower one")
    .hard(0.005, 0.2)
    .usual(0.015, 0.08)
    .default("25 mm");

/// Length of the sheet.
pub static STOCK: Entry<Length> = Entry::quantity("enclosure.cap_stock", "cap, longest piece")
    .why("what sheet or folding bench gives in one piece")
    .hard(0.2, 10.0)
    .default("2.4 m");

/// Metal of the screws.
pub static SCREW_METAL: Entry<String> = Entry::listed("enclosure.cap_screw_metal", "cap screws, metal", metals)
    .why("small screws in a large cap: they must not be the one that is eaten");

/// Diameter of the screws.
pub static SCREW_DIAMETER: Entry<Length> = Entry::quantity("enclosure.cap_screw_diameter", "cap screws, diameter")
    .why("of the shank")
    .hard(0.0024, 0.0095)
    .usual(0.003, 0.006);

/// Thread of the screws.
pub static SCREW_THREAD: Entry<Length> =
    Entry::quantity("enclosure.cap_screw_thread", "cap screws, thread in the rail")
        .why("in the side grain of the rail, without the tip")
        .hard(0.003, 0.2);

/// Spacing of the screws.
pub static SCREW_SPACING: Entry<Length> = Entry::quantity("enclosure.cap_screw_spacing", "cap screws, spacing")
    .why("along the rail; suction on the glass pulls at them")
    .hard(0.02, 1.0)
    .usual(0.1, 0.4);

/// Sealant.
pub static SEALANT: Entry<String> = Entry::listed("enclosure.sealant", "sealant at the glass", sealants)
    .why("neutral cure only: vinegar-smelling silicone eats copper; butyl melts near a hot plate");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &METAL.spec,
    &THICKNESS.spec,
    &LAP.spec,
    &DROP.spec,
    &HEM.spec,
    &OVERLAP.spec,
    &STOCK.spec,
    &SCREW_METAL.spec,
    &SCREW_DIAMETER.spec,
    &SCREW_THREAD.spec,
    &SCREW_SPACING.spec,
    &SEALANT.spec,
];

fn metals() -> Vec<(&'static str, &'static str)> {
    galvanic::anodic_indices().all().iter().map(|metal| (metal.name.as_str(), "")).collect()
}

fn sealants() -> Vec<(&'static str, &'static str)> {
    hose::sealants().iter().map(|sealant| (sealant.name.as_str(), sealant.note.as_deref().unwrap_or(""))).collect()
}
