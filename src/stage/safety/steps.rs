//! The checklist of the safety stage.

use crate::model::{Evidence, Stage, Step};

const SCALD: &str =
    "Water at the tank limit burns an adult in {safety.burn_at_tank}, a child sooner. Keep hands out of the jet.";
const HEIGHT: &str =
    "Never alone, never in wind, rain or ice. Follow local rules for work at height; a fall from a shed roof can kill.";
const MAINS: &str = "Mains can kill: a licensed electrician does it, and proves it dead before anybody touches it.";
const ROOF: &str = "Loads here are screening only: local code and a licensed engineer decide.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("safety.licences", Stage::Safety, "Every licensed item has a name and a number, every permit its date")
        .detail(
            "Plumber: {safety.plumber}. Electrician: {safety.electrician}. Engineer: {safety.engineer}. Permit: \
             {safety.permit}. Ask {site.jurisdiction}; write down also what they said you may do yourself.",
        )
        .evidence(Evidence::Note("who, when, number, for each of them"))
        .relies(&["safety.plumber", "safety.electrician", "safety.engineer", "safety.permit", "site.jurisdiction"])
        .held_by(&["safety.licensed", "safety.licence-dates"])
        .licensed(),
    Step::new("safety.register", Stage::Safety, "Every check of the register read aloud; none left unknown")
        .detail(
            "An unknown check is an open one. Read also what each check cannot see: that part is yours to look at.",
        )
        .evidence(Evidence::Note("date of the printed register, checks still unknown and why")),
    Step::new("safety.stops", Stage::Safety, "Every stop cleared, or the work halted")
        .detail(
            "A stop is cleared by a change in the build, not by an argument. Overruling one takes a written reason and two \
             names; where it can kill, one of them is the licensed person; a panel that can be shut in without relief \
             cannot be overruled.",
        )
        .evidence(Evidence::Note("what was changed for each stop"))
        .after(&["safety.register"])
        .held_by(&[
            "safety.stagnation-material",
            "safety.lead",
            "safety.scald",
            "safety.freezing",
            "safety.legionella",
            "safety.relief-path",
        ]),
    Step::new("safety.relief-walk", Stage::Safety, "Relief path walked from every panel with a finger on the pipe")
        .detail(
            "From each panel to its relief valve: no valve, no check valve, no cap, no hose that can be shut. Discharge \
             full-bore, falling, seen, no thread at its end, into a metal can marked hot. {safety.trapped_pressure} for each \
             kelvin is what a shut panel gains.",
        )
        .evidence(Evidence::Note("who walked it, photograph of the rating plate and of the discharge"))
        .relies(&["safety.shut_in", "plumbing.relief_setting", "plumbing.loop"])
        .held_by(&[
            "safety.relief-path",
            "plumbing.relief-reach",
            "safety.relief-size",
            "safety.relief-setting",
            "safety.discharge",
            "safety.joint-pressure",
        ])
        .licensed(),
    Step::new("safety.frost-proof", Stage::Safety, "Each frost protection proven alone")
        .detail(
            "The plate freezes in calm air of {safety.freezing_air_calm}. Water in the panel: switch one mechanism off and \
             see the other work, one of them with the power off. Drainback: pump really off, {plumbing.panels_content} out of the \
             panels into a bucket. Glycol: refractometer before the first night of 5 °C.",
        )
        .evidence(Evidence::Note("each mechanism alone: what was done, what was seen; litres or freezing point"))
        .relies(&[
            "plumbing.loop",
            "plumbing.glycol",
            "safety.frost_passive",
            "safety.frost_second",
            "safety.drain_fall",
            "site.record_low",
        ])
        .held_by(&["safety.freezing"]),
    Step::new("safety.scald-test", Stage::Safety, "Mixing valve: shut its cold feed and read the tap")
        .detail(
            "Rated for {safety.hot_supply}, set to {safety.mixing_valve_setting} for {safety.tap_use}. With the cold feed shut the flow must \
             stop, or stay within 2 K of the setting: read it after 5 seconds. Again after 6 to 8 and 12 to 15 weeks, then \
             every year.",
        )
        .evidence(Evidence::Note("tap before, tap with the cold feed shut, hot supply at the time"))
        .relies(&[
            "safety.mixing_valve_rating",
            "safety.mixing_valve_setting",
            "safety.tap_use",
            "plumbing.tank_limit",
            "plumbing.loop",
        ])
        .held_by(&["safety.scald", "safety.tap-valve"])
        .cautions(&[SCALD])
        .read_back()
        .licensed(),
    Step::new("safety.legionella-route", Stage::Safety, "Way of the water to every tap drawn: 60 °C stage, dead legs")
        .detail(
            "All solar-warmed water passes {safety.final_temperature}; nine in ten die there within {safety.kill_time}. Dead \
             legs cut out or flushed and listed. Farthest outlet: over 50 °C within a minute, cold below 20 °C within two. After \
             weeks away: flush and heat before the first shower.",
        )
        .evidence(Evidence::Note("final stage and its temperature; dead legs"))
        .relies(&["safety.final_stage", "safety.final_temperature", "site.premises", "plumbing.loop"])
        .held_by(&["safety.legionella"])
        .licensed(),
    Step::new("safety.anchors", Stage::Safety, "Anchors by the engineer's or the code's drawing")
        .detail(
            "Size, depth, rafter hit, torque of each; flashing over each hole. Wind {site.wind_speed}, snow \
             {site.snow_load}, panel {enclosure.mass_dry} dry, {enclosure.mass_wet} full. The weakest link of glass, cap, \
             frame, bracket, rail, lag and rafter counts.",
        )
        .evidence(Evidence::Note("for each anchor: size, depth, what it is in, torque"))
        .after(&["safety.licences"])
        .relies(&["site.wind_speed", "site.snow_load", "site.tilt", "safety.engineer"])
        .held_by(&["enclosure.wind-on-glass", "safety.licensed", "safety.roof-holes"])
        .cautions(&[ROOF])
        .licensed(),
    Step::new("safety.fire", Stage::Safety, "Torch place ready: extinguisher, shield, someone who stays")
        .detail(
            "Timber and wool out of reach or shielded; extinguisher in reach; {safety.fire_watch} of watch after the last \
             flame. At a wall of wood the torch stays out.",
        )
        .evidence(Evidence::Note("times of last flame and end of watch, who stayed"))
        .relies(&[
            "safety.fire_watch",
            "safety.fume",
            "safety.torch",
            "safety.hot_work_clear",
            "safety.extinguisher",
        ])
        .held_by(&["safety.fire-watch", "safety.fume", "safety.torch-place", "safety.cylinders"]),
    Step::new("safety.breaker", Stage::Safety, "Breaker tripped, bonding measured")
        .detail(
            "Leakage breaker tripped by its button, isolator in reach, pump not under a joint. Panels, copper and rack bonded \
             to the building's earth, a jumper over every hose: 0.1 ohm or less each (project rule).",
        )
        .evidence(Evidence::Note("date of the trip, ohms of each jumper, who"))
        .after(&["safety.licences"])
        .relies(&["safety.rcd_tested", "safety.electrician", "safety.bonded_to"])
        .held_by(&["safety.mains", "safety.bonding"])
        .cautions(&[MAINS])
        .read_back()
        .licensed(),
    Step::new("safety.height-plan", Stage::Safety, "Height plan: protection, ladder, partner, weather")
        .detail(
            "{safety.work_height} up, {safety.fall_protection}. Ladder at {safety.ladder_angle} (4 to 1 is 76°), tied, three feet \
             above the edge. No panel carried above {safety.handling_wind}: it pushes with {safety.handling_force}. Who is on \
             the ground, who calls for help, below which weather nobody goes up.",
        )
        .evidence(Evidence::Note("anchor or rail, ladder, partner, weather limit"))
        .relies(&[
            "safety.work_height",
            "safety.fall_protection",
            "safety.second_person",
            "safety.access",
            "safety.handling_wind",
        ])
        .held_by(&["safety.height", "safety.ladder", "safety.handling-wind"])
        .cautions(&[HEIGHT])
        .read_back()
        .licensed(),
    Step::new("safety.labels", Stage::Safety, "Labels on: hot discharge, fluid, frost action, emergency")
        .detail(
            "Emergency, in this order: 1 cover the glass, 2 pump off, 3 do not open the loop, 4 no cold water into a hot \
             panel, then where the relief can stands. Fluid and freezing point at the fill valve.",
        )
        .evidence(Evidence::Note("where each hangs, photograph"))
        .relies(&["plumbing.loop", "plumbing.glycol"]),
    Step::new("safety.briefed", Stage::Safety, "Everyone who lives or works with it briefed")
        .detail(
            "What is hot, what must never be shut, what to do on the hottest day and before frost, and whom to call. Whoever \
             moves in later reads the same page.",
        )
        .evidence(Evidence::Note("names and date"))
        .after(&["safety.labels"]),
];
