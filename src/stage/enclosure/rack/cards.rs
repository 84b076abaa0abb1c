//! The bench card of the rack.

use crate::model::Stage;
use crate::stage::Axis;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[Card {
    id: "enclosure.rack",
    stage: Stage::Enclosure,
    title: "Rack and mounts",
    axis: Some(Axis::Mount),
    figures: &[
        shown("enclosure.mount_position").called("anchor centre").within("± 5 mm").from("left end of the row"),
        shown("site.tilt").called("tilt").within("± 1°"),
        shown("enclosure.rise_over_run").called("rise over run"),
        shown("enclosure.row_fall").called("fall over the row, 2 cm/m").from("high end of the headers"),
        shown("enclosure.lag_diameter").called("lag, diameter"),
        shown("enclosure.lag_length").called("lag, length"),
        shown("enclosure.lag_pilot_least").called("pilot, from"),
        shown("enclosure.lag_pilot_most").called("pilot, to"),
        shown("enclosure.lag_edge").called("to the rafter's edge").within("at least"),
    ],
    steps: &["enclosure.mount-holes", "enclosure.rack-level"],
    caution: "A fall kills. Screening only: local code and a licensed engineer decide.",
}];
