//! The bench cards of the absorber stage.

use crate::model::Stage;
use crate::stage::Axis;
use crate::stage::card::{Card, shown};

const EMPTY_FIRST: &str = "Before every torch step: harp empty, dry, open at both ends.";

/// The cards of this file.
pub static CARDS: &[Card] = &[
    Card {
        id: "absorber.header-holes",
        stage: Stage::Absorber,
        title: "Header drilling",
        axis: Some(Axis::Hole),
        figures: &[
            shown("absorber.hole").called("hole").within("± 0.5 mm").from("left end of the header"),
            shown("absorber.hole_upper").called("upper header").within("± 0.5 mm").from("its left end"),
            shown("absorber.hole_mark").called("mark"),
            shown("absorber.hole_size").called("hole or collar").within("+ 0.05 mm"),
            shown("absorber.pitch").called("pitch, do not step it"),
            shown("absorber.riser_count").called("holes in each header"),
            shown("absorber.header_length").called("header"),
            shown("absorber.header_pair").called("the pair"),
        ],
        steps: &["absorber.drill-headers"],
        caution: "Drilled copper is sharp: gloves, goggles, deburr before you touch.",
    },
    Card {
        id: "absorber.riser-cut",
        stage: Stage::Absorber,
        title: "Riser cutting",
        axis: None,
        figures: &[
            shown("absorber.riser_cut").called("cut").within("± 1 mm").from("square end"),
            shown("absorber.riser_count").called("for one panel"),
            shown("absorber.risers_wanted").called("for all panels"),
            shown("absorber.depth_mark").called("depth ring").from("each end"),
            shown("absorber.riser_bars").called("coils and lengths"),
        ],
        steps: &["absorber.cut-risers"],
        caution: "A wheel cutter leaves a burr that narrows the bore: ream every end.",
    },
    Card {
        id: "absorber.harp-square",
        stage: Stage::Absorber,
        title: "Harp square",
        axis: None,
        figures: &[
            shown("absorber.diagonal").called("each diagonal").within("2 mm apart").from("outermost joints"),
            shown("absorber.diagonal_1").called("first, read"),
            shown("absorber.diagonal_2").called("second, read"),
            shown("absorber.header_spacing").called("headers apart").within("± 1 mm").from("centre to centre"),
            shown("absorber.stub_left").called("left stub"),
            shown("absorber.stub_right").called("right stub"),
            shown("absorber.depth_mark").called("depth rings at"),
        ],
        steps: &["absorber.dry-fit", "absorber.second-diagonal"],
        caution: "Nothing is heated before every depth ring stands at its place.",
    },
    Card {
        id: "absorber.joints",
        stage: Stage::Absorber,
        title: "Header joints",
        axis: None,
        figures: &[
            shown("absorber.joint_count").called("riser ends"),
            shown("absorber.filler_joints").called("places that take filler"),
            shown("absorber.header_filler").called("closed by"),
            shown("absorber.header_alloy").called("filler"),
            shown("absorber.joint_gap").called("gap each side").within("0.05 to 0.13 mm"),
            shown("absorber.lap").called("lap"),
            shown("absorber.depth_mark").called("depth ring"),
        ],
        steps: &["absorber.join"],
        caution: EMPTY_FIRST,
    },
    Card {
        id: "absorber.sheet-bond",
        stage: Stage::Absorber,
        title: "Sheet bond",
        axis: None,
        figures: &[
            shown("absorber.bond_width").called("line wide").within("± 1 mm"),
            shown("absorber.solder_per_metre").called("solder a metre"),
            shown("absorber.bond_run").called("line in all"),
            shown("absorber.solder").called("alloy"),
            shown("absorber.solder_solidus").called("begins to melt"),
            shown("absorber.solder_mass").called("solder for the sheet"),
            shown("absorber.flux_mass").called("flux"),
            shown("absorber.bond_film").called("film, clamp it down"),
        ],
        steps: &["absorber.solder-sheet"],
        caution: EMPTY_FIRST,
    },
    Card {
        id: "absorber.harp-content",
        stage: Stage::Absorber,
        title: "Harp content",
        axis: None,
        figures: &[
            shown("absorber.content").called("holds").within("± 5 %"),
            shown("absorber.tube_mass").called("tube, dry"),
            shown("absorber.sheet_mass").called("sheet"),
        ],
        steps: &["absorber.weigh"],
        caution: "Less coming out than went in is a pocket that will freeze.",
    },
    Card {
        id: "absorber.growth",
        stage: Stage::Absorber,
        title: "Room to grow",
        axis: None,
        figures: &[
            shown("absorber.riser_growth").called("risers grow"),
            shown("absorber.header_growth").called("headers grow"),
            shown("enclosure.clearance").called("free at each edge"),
            shown("absorber.stagnation_worst").called("at"),
        ],
        steps: &[],
        caution: "Held fast at both ends the harp tears its own joints.",
    },
];
