//! The checks of the safety stage: what each says, what it cannot see, whom to ask. The judging is in `materials`
//! and `water`; other subjects have both in one file.

use super::{materials, water};
use crate::stage::{Check, Severity};

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.stagnation-material", "every material against stagnation", Severity::Serious, materials::stagnation)
        .says(
            "Part: {part}. It is rated {limit}; this panel can reach {found} empty in full sun.",
            "Change the part or move it away from the heat, or choose a coating that stays cooler.",
        )
        .blind_to("what was really bought; ageing, creep and sunlight; parts that are not in the list; timber has checks of its own")
        .source(
            "solder: handbook table; joints: application data sheet (verified); margins of 30 K and 20 K: project rules; \
             the rest: the data sheets that you entered",
        )
        .recalls_beside("the solidus of some alloys, the limit of some insulation")
        .needs(&[
            "absorber.stagnation_worst",
            "absorber.solder",
            "absorber.header_filler",
            "enclosure.insulation_stands",
            "safety.coating_limit",
            "safety.sealant_limit",
            "safety.hose_limit",
            "safety.sensor_limit",
        ]),
    Check::new("safety.scald", "scald", Severity::Serious, water::scald)
        .says(
            "{part}: {found} against {limit}. At the tank limit an adult is burned in {safety.burn_at_tank}, a child \
             sooner. At 60 °C an adult burns in about 3 to 5 s, a child sooner.",
            "A mixing valve rated for solar-heated supply, as near the taps as can be, set so that 49 °C is never passed.",
        )
        .blind_to("a valve that sticks: shut its cold feed and measure, then every year; taps that by-pass it")
        .ask("a licensed plumber")
        .source(
            "49 °C and burn table: scald literature after Moritz & Henriques 1947 (verified); hot inlet of valves: scheme \
             for thermostatic valves (verified)",
        )
        .needs(&[
            "safety.tap_hottest",
            "safety.hot_supply",
            "safety.mixing_valve_rating",
            "safety.burn_at_tank",
        ]),
    Check::new("safety.freezing", "frost", Severity::Serious, water::freezing)
        .says(
            "On a clear calm night this plate freezes in air of {safety.freezing_air_calm}. {part}: {found} against {limit}.",
            "Water in the panel: two independent mechanisms, one that works in a power cut. Drainback: 2 cm for each metre \
             everywhere and every litre measured out. Glycol: freezing point 5 K below the record low, by refractometer. Draining \
             by hand is judged on 18 hours of frost; a still panel is ice in three.",
        )
        .blind_to(
            "sags, traps and blocked drains; a valve that sticks; a very dry sky, under which the plate freezes sooner; \
             pipes in unheated rooms",
        )
        .ask("a licensed plumber, where potable water can freeze")
        .source(
            "two mechanisms, 18 h and fall: rating criterion (verified); night balance: project values; 5 K: \
             project rules",
        )
        .needs(&[
            "plumbing.loop",
            "site.record_low",
            "site.coldest_air",
            "safety.freezing_air_calm",
            "site.frost_warmest_air",
            "safety.liquid_freezes",
            "safety.frost_passive",
            "safety.frost_second",
            "safety.drain_fall",
            "commissioning.drained",
            "safety.freezing_point",
            "commissioning.drain_expected",
        ]),
    Check::new("safety.legionella", "legionella", Severity::Deadly, water::legionella)
        .says(
            "Way to the taps: {part}. Solar-warmed water stays for hours between 25 and 45 °C, where legionella grows; it \
             must pass 60 °C before a tap; the final stage holds {safety.final_temperature}.",
            "Ask a plumber about a final heating stage; a mixing valve near the tap resolves 60 °C against 49 °C.",
        )
        .blind_to("slime, dead legs and the cool foot of a tank; days without draw; the days are judged by a check of their own")
        .ask("a licensed plumber; on shared premises and at workplaces the health authority")
        .source("bands of a national code of practice and a world health text (verified)")
        .needs(&["safety.final_stage", "safety.final_temperature", "safety.final_bypass"]),
    Check::new("safety.relief-path", "relief path of every panel", Severity::Deadly, water::relief_path)
        .says(
            "Something can be shut in without relief ({part}). Do not fill. A shut full panel gains \
             {safety.trapped_pressure} for each kelvin and fails after {safety.trapped_kelvin}.",
            "No valve, check valve, cap or service hose between a panel and its relief; or a relief of its own.",
        )
        .blind_to("what nobody walked: follow every pipe with a finger on the drawing and on the wall; a valve added later")
        .ask("a licensed plumber")
        .source("facilities criteria for solar heating: nothing may shut off relief by accident (verified)")
        .needs(&["safety.shut_in", "plumbing.shut_in_parts"])
        .final_word(),
    Check::new("safety.steam", "steam when the pump stops", Severity::Deadly, water::steam)
        .says(
            "Steam: the panel boils at {limit} even under its relief pressure and can reach {found}. It needs room, and a \
             clear path to the relief valve.",
            "A vessel that takes all the liquid of panels and pipes above them; a discharge into a metal can; no plastic \
             within reach of steam. Or a panel that drains and a pump locked out while it is hot.",
        )
        .blind_to("the height of the loop: at its top the pressure is lower and steam comes sooner; how far steam reaches")
        .ask("a licensed plumber for relief valve and discharge")
        .source("vapour pressure: IAPWS SR1-86, within 1e-4 of IAPWS-95 (computed with a library)")
        .needs(&["absorber.stagnation_worst", "safety.boiling"]),
];
