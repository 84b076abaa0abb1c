//! Questions for the office: what is asked before work begins, and whom. The law is never answered here.

/// One question.
#[derive(Debug)]
pub struct Question {
    /// Its key: the answer is kept as `safety.answer.KEY`.
    pub key: &'static str,
    /// Who is asked.
    pub whom: &'static str,
    /// The question, with ids in braces.
    pub text: &'static str,
}

const fn ask(key: &'static str, whom: &'static str, text: &'static str) -> Question {
    Question { key, whom, text }
}

/// Printed beside every caution, where there is little room.
pub const SHORT_WORD: &str = "Local codes, permits and licensed people have the last word.";

/// Printed above and below every page of cautions.
pub const LAST_WORD: &str =
    "Computed figures and common practice. Local codes, permits and licensed people have the last word.";

const BUILDING: &str = "building authority";
const WATER: &str = "water authority";
const PLUMBER: &str = "licensed plumber";
const ELECTRICIAN: &str = "licensed electrician";
const ENGINEER: &str = "structural engineer";
const FIRE: &str = "fire authority";
const HEALTH: &str = "health authority";
const INSURER: &str = "insurer";

/// All questions; every one is printed for every project.
pub static QUESTIONS: &[Question] = &[
    ask("codes", BUILDING, "Which editions of which codes hold for solar water heating at this place?"),
    ask(
        "permit",
        BUILDING,
        "Which permits does this work need, and which of it may the owner do? Permit so far: {safety.permit}.",
    ),
    ask(
        "roof",
        BUILDING,
        "Panels of {enclosure.mass_dry} dry and {enclosure.mass_wet} full, {plumbing.panel_count} of them, at {site.tilt}: do \
         roof attachment and roof holes need drawings or an engineer?",
    ),
    ask(
        "wind-snow",
        BUILDING,
        "Which design wind speed, exposure and ground snow load hold here? Entered: {site.wind_speed}, {site.snow_load}.",
    ),
    ask(
        "protected",
        BUILDING,
        "Is the building or the street protected, and does the boundary or a neighbour's light matter?",
    ),
    ask("inspections", BUILDING, "What does the inspector want to see open, in which order, and on what notice?"),
    ask("structure", ENGINEER, "Do roof, rack and anchors carry these loads? Which screws, how deep, into what?"),
    ask(
        "flashing",
        "roofer",
        "How is every hole in the roof flashed, and does the roof's warranty survive it? Holes planned: {safety.roof_holes}.",
    ),
    ask(
        "backflow",
        WATER,
        "Which class of backflow device does a {plumbing.loop} loop need, who tests it and how often?",
    ),
    ask(
        "exchanger",
        WATER,
        "May a single-wall exchanger stand between drinking water and {safety.loop_liquid}, at {plumbing.relief_setting} in the \
         loop?",
    ),
    ask("lead", WATER, "Which mark must pumps, valves and fittings carry for drinking water?"),
    ask("relief", PLUMBER, "Relief at {plumbing.relief_setting}: which valve, which discharge pipe, where may it end?"),
    ask(
        "tank",
        PLUMBER,
        "Tank limit {plumbing.tank_limit}: which temperature and pressure relief does the store need? 210 °F with 125 or 150 psi \
         stand in the codes that we read.",
    ),
    ask(
        "floor",
        ENGINEER,
        "The tank holds {plumbing.tank_water} of water and has a weight of its own: does the floor below carry it, full?",
    ),
    ask(
        "mixing",
        PLUMBER,
        "Which mixing valve is required at the tank and at each tap, and who tests it? Taps at {safety.tap_hottest}.",
    ),
    ask(
        "legionella",
        HEALTH,
        "Solar-warmed water stands between 25 and 45 °C: which final temperature, records and duties hold here?",
    ),
    ask("shared", HEALTH, "Premises: {site.premises}. Which duties come with other people's hot water?"),
    ask("mains", ELECTRICIAN, "Who connects pump, controller and leakage breaker, and who signs for it?"),
    ask(
        "bonding",
        ELECTRICIAN,
        "How are panels, copper and rack bonded to the building's earth, and is lightning protection needed?",
    ),
    ask(
        "hot-work",
        FIRE,
        "Torch work at the building: permit, distances, watch? Planned: {safety.fire_watch} of watch.",
    ),
    ask(
        "timber",
        FIRE,
        "Timber boxes whose wood may reach {enclosure.back_face} when empty: may they stand on this roof?",
    ),
    ask("gas", PLUMBER, "Is a gas heater part of the system, and who may connect or change it?"),
    ask("waste", "waste office", "Where do old glycol, lead dross, flux and treated offcuts go?"),
    ask("insurance", INSURER, "Is home-built solar heating covered: fire, water, a person who falls?"),
];
