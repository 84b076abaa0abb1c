//! The bench card of the caps.

use crate::model::Stage;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[Card {
    id: "enclosure.caps",
    stage: Stage::Enclosure,
    title: "Glass caps",
    axis: None,
    figures: &[
        shown("enclosure.cap_developed").called("strip, width").within("± 0.5 mm"),
        shown("enclosure.cap_bend_1").called("bend, right").from("edge on the glass"),
        shown("enclosure.cap_bend_2").called("bend, hem").from("edge on the glass"),
        shown("enclosure.cap_lower").called("lower cap, 1"),
        shown("enclosure.cap_side").called("side caps, 2"),
        shown("enclosure.cap_upper").called("upper cap, 1"),
        shown("enclosure.cap_overlap").called("lap of pieces"),
        shown("enclosure.cap_screw_spacing").called("screws, spacing"),
    ],
    steps: &["enclosure.caps"],
    caution: "Cut sheet is a knife: gloves, goggles, hem every edge.",
}];
