//! The bench cards of the plumbing stage.

use crate::model::Stage;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[
    Card {
        id: "plumbing.filling",
        stage: Stage::Plumbing,
        title: "Filling the loop",
        axis: None,
        figures: &[
            shown("plumbing.cold_fill").called("fill to, now").from("gauge at the vessel"),
            shown("plumbing.loop_content").called("loop holds"),
            shown("plumbing.glycol_volume").called("glycol"),
            shown("plumbing.precharge_wanted").called("precharge, empty").within("± 0.2 bar"),
            shown("plumbing.relief_lowest").called("relief opens"),
            shown("plumbing.vessel_greatest").called("highest pressure"),
            shown("plumbing.reservoir_needed").called("reservoir, drainback"),
        ],
        steps: &["plumbing.vessel", "plumbing.relief"],
        caution: "A panel in the sun boils what is in it: fill at dawn or with the glass covered.",
    },
    Card {
        id: "plumbing.flow-setting",
        stage: Stage::Plumbing,
        title: "Setting the flow",
        axis: None,
        figures: &[
            shown("plumbing.flow").called("design flow").within("± 20 %"),
            shown("plumbing.pump_flow").called("pump gives"),
            shown("plumbing.pump_head").called("head there"),
            shown("plumbing.velocity").called("fastest run"),
            shown("plumbing.group_evenness").called("least group"),
            shown("plumbing.lockout_limit").called("lock-out, at most"),
        ],
        steps: &["plumbing.check-valve"],
        caution: "Never close a valve on a hot panel. Unplug the pump at low sun instead.",
    },
];
