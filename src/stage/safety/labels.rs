//! Text to print and hang up: the emergency card, labels, and what the second person reads back before five steps.

/// One sheet.
#[derive(Debug)]
pub struct Label {
    /// Its name.
    pub title: &'static str,
    /// Where it hangs.
    pub hangs: &'static str,
    /// Its lines, with ids in braces.
    pub lines: &'static [&'static str],
}

/// The emergency card.
pub static EMERGENCY: Label = Label {
    title: "EMERGENCY: solar hot water",
    hangs: "beside pump and controller, and by the telephone",
    lines: &[
        "Steam, a bang, a leak, a smell of char. In this order:",
        "1. Keep everybody away from the panels and from the relief discharge.",
        "2. Cover the glass, from the side, if it can be done without climbing.",
        "3. Pump off at the isolator.",
        "4. Do not open the loop, do not close a valve, do not touch the relief valve.",
        "5. No cold water into or onto a hot panel: steam, and glass that breaks.",
        "6. Fire or char: call the fire service first. Burns: cool running water, then medical help.",
        "Empty in the sun the plate can reach {absorber.stagnation_worst}.",
        "The relief valve opens at {plumbing.relief_setting}; near-boiling water and steam come out of it.",
        "The loop ({plumbing.loop}) holds {plumbing.loop_content}.",
        "It is cool when the panel sensor reads below 60 °C and the glass has been covered for hours.",
        "Frost: the plate freezes in calm air of {safety.freezing_air_calm} under a clear sky.",
        "Plumber: {safety.plumber}. Electrician: {safety.electrician}.",
    ],
};

/// All labels, the emergency card first.
pub static LABELS: &[&Label] = &[
    &EMERGENCY,
    &Label {
        title: "HOT: relief discharge",
        hangs: "at the end of the discharge, above the can",
        lines: &[
            "Steam and near-boiling water without warning, when the pressure passes {plumbing.relief_setting}.",
            "Nobody stands, sits or plays here. Nothing is put over this end. The can must hold {plumbing.loop_content}.",
        ],
    },
    &Label {
        title: "Liquid of this loop",
        hangs: "at the fill valve",
        lines: &[
            "Loop: {plumbing.loop}. Liquid: {safety.loop_liquid}. Glycol by volume: {plumbing.glycol}.",
            "Freezes at {safety.liquid_freezes} by the mixture, {safety.freezing_point} as measured. Record low here: \
             {site.record_low}.",
            "Never ethylene glycol. Never top up with anything else. Fill hose off after filling.",
        ],
    },
    &Label {
        title: "Exchanger",
        hangs: "at the exchanger",
        lines: &[
            "Walls: {safety.exchanger_walls}. Loop relief {plumbing.relief_setting}; drinking water at least \
             {safety.potable_pressure}.",
            "Change of liquid or of pressure: ask the water authority first.",
        ],
    },
    &Label {
        title: "Hot water",
        hangs: "at the mixing valve",
        lines: &[
            "The store can reach {safety.hot_supply}: an adult is burned in {safety.burn_at_tank}, a child sooner.",
            "Set to {safety.mixing_valve_setting}. Never set higher, never by-passed. Cold feed shut and tap read each year.",
            "At 60 °C an adult burns in about 3 to 5 s, a child sooner.",
        ],
    },
    &Label {
        title: "Never close",
        hangs: "at every valve between a panel and its relief valve or vessel",
        lines: &[
            "This valve stays open while there is liquid in the panels. Handle off, wire seal.",
            "A shut full panel gains {safety.trapped_pressure} for each kelvin (1.8 °F) that the sun warms it.",
        ],
    },
    &Label {
        title: "Frost",
        hangs: "beside the controller",
        lines: &[
            "Protection: {safety.frost_passive} and {safety.frost_second}; loop {plumbing.loop}.",
            "The plate freezes in calm air of {safety.freezing_air_calm} under a clear sky. A power cut does not stop frost.",
            "Before each winter: test the valve, measure the litres that drain, or the freezing point by refractometer.",
        ],
    },
    &Label {
        title: "Mains",
        hangs: "at isolator and breaker",
        lines: &[
            "Pump and controller. Trip the leakage breaker by its button each year; last on {safety.rcd_tested}.",
            "Work inside: {safety.electrician}. Panels, copper and rack are bonded; take no jumper off.",
        ],
    },
];

/// What a second person reads aloud, and the first one answers, before a step is done.
#[derive(Debug)]
pub struct ReadBack {
    /// The step.
    pub step: &'static str,
    /// The lines, with ids in braces.
    pub lines: &'static [&'static str],
}

/// The five steps that hurt worst when one thing was forgotten.
pub static READ_BACKS: [ReadBack; 5] = [
    ReadBack {
        step: "absorber.join",
        lines: &[
            "You have looked through the harp: empty, dry, open at both ends, every cap off.",
            "Nothing that burns within {safety.hot_work_clear}; extinguisher and water within your reach.",
            "Somebody stays for {safety.fire_watch} after the last flame. Who?",
            "The air goes {safety.fume}; your filler is {safety.brazing_filler}.",
        ],
    },
    ReadBack {
        step: "commissioning.loop-test",
        lines: &[
            "You test with {commissioning.test_medium}, to {commissioning.gauge_target} on this gauge and no further.",
            "The weakest part stands {plumbing.weakest_rating}. Panels are covered or the sun is not up.",
            "You know where relief valve and vessel are shut off, and who writes down that they are opened again.",
            "Nobody stands in line with a joint. No spanner goes on a joint under pressure.",
        ],
    },
    ReadBack {
        step: "enclosure.lift-plan",
        lines: &[
            "The panel weighs {enclosure.mass_dry} and is empty. It asks for {enclosure.people} people or a hoist.",
            "The wind stays below {safety.handling_wind}; it is dry; you have walked the way.",
            "What catches whoever works {safety.work_height} up: {safety.fall_protection}. One voice gives the word. Whose?",
        ],
    },
    ReadBack {
        step: "commissioning.fill",
        lines: &[
            "Every plug of the test is out; from each panel you have followed the pipe to the relief valve and to its end.",
            "The vessel is open to the loop and its precharge was read.",
            "The plates read 60 °C or less and the glass is covered: dry in the sun they reach {absorber.stagnation_worst}.",
            "You fill {plumbing.loop_content} of {safety.loop_liquid}; the fill hose comes off afterwards.",
        ],
    },
    ReadBack {
        step: "commissioning.prove-no-flow",
        lines: &[
            "Nobody stands at the discharge when you lift the relief valve, set to {plumbing.relief_setting}.",
            "The mixing valve is set to {safety.mixing_valve_setting}; no hand is under the tap that you test.",
            "No valve is closed on a hot panel for any test. The pump is unplugged at low sun only.",
            "If it steams, you walk away, cover the glass from the side, and wait.",
        ],
    },
];

/// What is read back before a step; none where no text is kept for it.
pub fn read_back(step: &str) -> Option<&'static ReadBack> {
    READ_BACKS.iter().find(|text| text.step == step)
}
