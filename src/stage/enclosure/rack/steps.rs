//! The checklist of loads, mounts and rack.

use crate::model::{Evidence, Stage, Step};

const FALL: &str = "Roof work kills: fall protection before the first step, no lone work, no wet or icy roof.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("enclosure.code-values", Stage::Enclosure, "Wind and snow values asked for at the authority or an engineer")
        .detail(
            "Gust {site.wind_speed}, ground snow {site.snow_load}, edition, exposure, coefficients of the zone. Ask too for \
             what is not computed here: earthquake, frost heave, bearing of the soil, the rafters and their ties, drifts, \
             snow that slides on people. Screening only.",
        )
        .evidence(Evidence::Note("who gave which value, edition, day"))
        .relies(&["site.wind_speed", "site.snow_load", "enclosure.wind_edition", "enclosure.suction_coefficient"])
        .licensed(),
    Step::new("enclosure.mount-holes", Stage::Enclosure, "Mounts marked from one end, rafter found, pilot hole drilled")
        .detail(
            "{enclosure.mounts} mounts a row, {enclosure.mount_spacing} apart, marked as running positions from its left end. \
             Pilot hole {enclosure.lag_pilot_least} to {enclosure.lag_pilot_most}, {enclosure.lag_edge} to the edge of the rafter, flashing over each hole. The \
             weakest link: {enclosure.weakest_link}. Screening only: local code and a licensed engineer decide.",
        )
        .evidence(Evidence::Note("rafter hit at each mount; thread in wood; torque; flashing"))
        .after(&["enclosure.code-values"])
        .relies(&[
            "enclosure.mount_kind",
            "enclosure.mount_spacing",
            "enclosure.lag_diameter",
            "enclosure.lag_thread",
            "enclosure.rafter_timber",
        ])
        .held_by(&[
            "enclosure.chain",
            "enclosure.lag-fit",
            "enclosure.roof-load",
            "enclosure.rack-stands",
            "safety.roof-holes",
            "safety.height",
            "safety.ladder",
        ])
        .cautions(&[FALL])
        .licensed(),
    Step::new("enclosure.rack-level", Stage::Enclosure, "Rack set: tilt, fall of the headers, way for service")
        .detail(
            "Tilt {site.tilt}, {enclosure.rise_over_run}; back legs {enclosure.back_legs} over the front ones. Headers fall \
             2 cm in each metre, {enclosure.row_fall} over the row, toward the drain. {enclosure.service_way} stays free.",
        )
        .evidence(Evidence::Note("tilt and fall as measured with a level"))
        .after(&["enclosure.mount-holes"])
        .relies(&["site.tilt", "enclosure.mount_kind", "enclosure.panel_gap"])
        .cautions(&[FALL]),
];
