//! The bench card of the glass.

use crate::model::Stage;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[Card {
    id: "enclosure.glass",
    stage: Stage::Enclosure,
    title: "Glass",
    axis: None,
    figures: &[
        shown("enclosure.glass_width").called("across").within("+ 0, − 2 mm"),
        shown("enclosure.glass_length").called("along").within("+ 0, − 2 mm"),
        shown("enclosure.glass_thickness").called("thickness"),
        shown("enclosure.glass_mass").called("mass"),
        shown("enclosure.glass_clearance")
            .called("free at every edge")
            .within("{enclosure.glass_clearance_least} at least"),
        shown("enclosure.glass_bite").called("bite"),
        shown("enclosure.block_place").called("block, middle").from("each end of the lower edge"),
        shown("enclosure.block_length").called("block, length"),
    ],
    steps: &["enclosure.glaze"],
    caution: "Two persons, gloves, goggles. A knock on an edge breaks all of it; never set it on stone.",
}];
