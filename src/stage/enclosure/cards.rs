//! The bench cards of the enclosure stage.

use crate::model::Stage;
use crate::stage::Axis;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[
    Card {
        id: "enclosure.box",
        stage: Stage::Enclosure,
        title: "Box",
        axis: None,
        figures: &[
            shown("enclosure.inside_width").called("inside, across").within("± 1 mm"),
            shown("enclosure.inside_length").called("inside, along").within("± 1 mm"),
            shown("enclosure.inside_height").called("inside, to the glass").from("face of the back board"),
            shown("enclosure.diagonal").called("both inside diagonals").within("alike within 3 mm"),
            shown("enclosure.rail_width").called("rail"),
            shown("enclosure.back_thickness").called("insulation behind"),
            shown("enclosure.edge_thickness").called("insulation around"),
            shown("enclosure.stub_hole_lower").called("lower stub hole").from("lower end of the long rail"),
            shown("enclosure.stub_hole_upper").called("upper stub hole").from("lower end of the long rail"),
        ],
        steps: &["enclosure.cut", "enclosure.first-diagonal", "enclosure.second-diagonal"],
        caution: "Dust of treated timber and mineral wool: mask, gloves, goggles.",
    },
    Card {
        id: "enclosure.stub-slots",
        stage: Stage::Enclosure,
        title: "Stub holes",
        axis: None,
        figures: &[
            shown("enclosure.stub_hole_lower").called("lower, middle").from("lower end of the long rail"),
            shown("enclosure.stub_hole_upper").called("upper, middle").from("lower end of the long rail"),
            shown("enclosure.stub_hole_height").called("up").from("back edge of the rail"),
            shown("enclosure.stub_cut_length").called("cut along the rail"),
            shown("enclosure.stub_cut_width").called("cut across"),
            shown("enclosure.stub_hole_length").called("slot inside the sleeve"),
            shown("enclosure.sleeve").called("wall of the sleeve"),
        ],
        steps: &["enclosure.sleeves"],
        caution: "Clamp both long rails together; keep hands out of the line of the saw.",
    },
    Card {
        id: "enclosure.screws",
        stage: Stage::Enclosure,
        title: "Screws",
        axis: Some(Axis::Screw),
        figures: &[
            shown("enclosure.screw_at").called("screw").within("± 2 mm"),
            shown("enclosure.screw_in").called("line"),
            shown("enclosure.screw_spacing").called("never wider than"),
        ],
        steps: &["enclosure.screw"],
        caution: "Mark all before you drill: a screw in a stub hole holds the copper and tears it.",
    },
    Card {
        id: "enclosure.timber-cuts",
        stage: Stage::Enclosure,
        title: "Cuts of timber",
        axis: Some(Axis::TimberCut),
        figures: &[
            shown("enclosure.timber_cut_at").called("cut beyond").within("± 0.5 mm").from("one end of the board"),
            shown("enclosure.timber_cut_in").called("board: part"),
            shown("enclosure.saw_kerf").called("the saw takes"),
        ],
        steps: &["enclosure.cut"],
        caution: "Saw: guard on, push stick, no gloves at the blade, hold what falls.",
    },
    Card {
        id: "enclosure.sheet-cuts",
        stage: Stage::Enclosure,
        title: "Cuts of sheets",
        axis: Some(Axis::SheetCut),
        figures: &[
            shown("enclosure.sheet_cut_at").called("cut beyond").within("± 1 mm"),
            shown("enclosure.sheet_cut_in").called("sheet"),
            shown("enclosure.board_kerf").called("the saw takes"),
        ],
        steps: &["enclosure.cut"],
        caution: "Support both sides of a cut; mineral wool and metal edges: gloves, mask, goggles.",
    },
    Card {
        id: "enclosure.weep-holes",
        stage: Stage::Enclosure,
        title: "Weep holes",
        axis: Some(Axis::WeepHole),
        figures: &[
            shown("enclosure.weep_at").called("hole").from("left end of the lower rail"),
            shown("enclosure.weep_diameter").called("drill"),
        ],
        steps: &["enclosure.vents"],
        caution: "Goggles; the mesh goes on after the drill, or it is torn.",
    },
    Card {
        id: "enclosure.supports",
        stage: Stage::Enclosure,
        title: "Supports",
        axis: Some(Axis::Strip),
        figures: &[
            shown("enclosure.strip_at").called("strip, middle").from("lower end of the long rail"),
            shown("enclosure.clip_way").called("clips slide"),
            shown("enclosure.held_at").called("held"),
        ],
        steps: &["enclosure.hang"],
        caution: "No wood against copper: mineral board on every strip.",
    },
];
