//! The bench cards of the absorber stage.

use crate::model::Stage;
use crate::stage::Axis;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[Card {
    id: "absorber.header-holes",
    stage: Stage::Absorber,
    title: "Header drilling",
    axis: Some(Axis::Hole),
    figures: &[
        shown("absorber.hole").called("hole").within("± 0.5 mm").from("left end of the header"),
        shown("absorber.riser_pitch").called("pitch, do not step it"),
        shown("absorber.header_length").called("header, both alike"),
    ],
    steps: &["absorber.drill-headers"],
    caution: "Drilled copper is sharp: gloves, goggles, deburr before you touch.",
}];
