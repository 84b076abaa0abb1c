//! Mutations: every check of the safety stage has a project that trips it, with the verdict, and one a hair inside.
//!
//! Where each limit comes from stands beside the tests of the single subjects; here it is only seen that none is left out.

use crate::support::{Bench, SMALL, crossing, workbook};
use sunharp::model::Verdict::{self, Caution, Clear, Stop, Unknown};
use sunharp::stage;
use sunharp::workbook::Workbook;

type Answers = &'static [(&'static str, &'static str)];

/// How a project is made from the small one.
enum Project {
    /// By other answers.
    With(Answers),
    /// By taking an answer out.
    Without(&'static str),
    /// Otherwise.
    Made(fn() -> Verdict),
}
use Project::{Made, With, Without};

struct Pair {
    check: &'static str,
    trips: Project,
    verdict: Verdict,
    inside: Project,
}

const fn pair(check: &'static str, trips: Project, verdict: Verdict, inside: Project) -> Pair {
    Pair { check, trips, verdict, inside }
}

fn judged(project: &Project, check: &str) -> Verdict {
    match project {
        With(answers) => with(answers).verdict(check),
        Without(id) => Bench::small().without(id).verdict(check),
        Made(make) => make(),
    }
}

fn with(answers: Answers) -> Bench {
    answers.iter().fold(Bench::small(), |bench, (entry, typed)| bench.with(entry, typed))
}

fn glycol() -> Bench {
    with(&[("plumbing.loop", "glycol"), ("plumbing.glycol", "50 %"), ("plumbing.exchanger_effectiveness", "60 %")])
}

fn soldered(bar: &str) -> Verdict {
    let bench = with(&[
        ("absorber.header_filler", "soldered"),
        ("safety.joint_solder", "Sn50Pb50"),
        ("absorber.emittance", "10 %"),
    ])
    .with("plumbing.relief_setting", bar);
    let at = |percent: f64| bench.clone().with("absorber.absorptance", &format!("{percent} %"));
    at(crossing((20.0, 100.0), "absorber.stagnation_worst", 120.9, at)).verdict("safety.joint-pressure")
}

fn relief(over: f64) -> Verdict {
    let most = Bench::small().number("safety.steam_power_most");
    Bench::small().with("safety.relief_power", &format!("{} W", most + over)).verdict("safety.relief-size")
}

fn boiling(over: f64) -> Verdict {
    let hottest = Bench::small().number("absorber.stagnation_worst");
    at_boiling(hottest, over).verdict("safety.steam")
}

/// The small project with the relief setting under which its liquid boils at a temperature, and a little more.
fn at_boiling(degrees: f64, over: f64) -> Bench {
    let at = |bar: f64| Bench::small().with("plumbing.relief_setting", &format!("{bar} bar"));
    at(crossing((0.2, 12.0), "safety.boiling", degrees, at) + over)
}

/// The small project under the weather that the program carries, with people who draw.
fn year(changes: &[(&str, &str)]) -> Workbook {
    let body = SMALL.trim_start().strip_prefix("format = 1").unwrap();
    let mut text = body
        .replace("[site]\n", "[site]\nlongitude = \"-80°\"\nweather_file = \"carried:greensboro-tmy3\"\n")
        .replace("[plumbing]\n", "[plumbing]\npeople = 4\nper_person = \"50 L\"\n");
    for (id, typed) in changes {
        let (stage, name) = id.split_once('.').unwrap();
        let heading = format!("[{stage}]\n");
        let old = text.lines().find(|line| line.starts_with(&format!("{name} = "))).map(str::to_owned);
        text = old.map_or(text.clone(), |line| text.replacen(&format!("{line}\n"), "", 1));
        text = text.replacen(&heading, &format!("{heading}{name} = \"{typed}\"\n"), 1);
    }
    workbook(&text)
}

fn of_year(changes: &[(&str, &str)], check: &str) -> Verdict {
    year(changes).evaluation().verdict(check).unwrap().verdict
}

/// Hottest that the valve meets in the year with a tank limit of 90 °C, and its rating by so much over or under it.
fn valve(over: f64) -> Verdict {
    let limit = ("plumbing.tank_limit", "90 °C");
    let book = year(&[limit]);
    let hottest = book.evaluation().verdict("safety.scald-year").unwrap().judgement.clone().unwrap().found.unwrap();
    let rating = format!("{} °C", hottest.si - 273.15 + over);
    of_year(&[limit, ("safety.mixing_valve_rating", &rating)], "safety.scald-year")
}

/// Heat of a power cut at noon on the worst day, and a relief setting under which the liquid just boils or just not.
fn cut(over: f64) -> Verdict {
    let book = year(&[]);
    let hottest = book.evaluation().verdict("safety.power-cut").unwrap().judgement.clone().unwrap().found.unwrap();
    let bar = at_boiling(hottest.si - 273.15, over).number("plumbing.relief_setting") / 1e5;
    of_year(&[("plumbing.relief_setting", &format!("{bar} bar"))], "safety.power-cut")
}

/// A tank that its element heats through and through to a temperature each day.
fn heated(set: &str) -> Verdict {
    let element = [
        ("plumbing.auxiliary", "element"),
        ("plumbing.element_power", "6 kW"),
        ("plumbing.element_set", set),
        ("plumbing.tank_layers", "1"),
    ];
    of_year(&element, "safety.legionella-days")
}

fn drawn_solder(alloy: &'static str) -> Verdict {
    Bench::small().with("absorber.solder", alloy).verdict("safety.lead")
}

const FAN: (&str, &str) = ("safety.fume", "window and fan");
const REACH: (&str, &str) = ("safety.hot_within_reach", "yes");

#[allow(clippy::too_many_lines)] // one table, read line by line
fn pairs() -> Vec<Pair> {
    vec![
        pair("safety.stagnation-material", With(&[("safety.hose_limit", "60 °C")]), Stop, With(&[])),
        pair(
            "safety.scald",
            With(&[("safety.mixing_valve_setting", "47.01 °C")]),
            Stop,
            With(&[("safety.mixing_valve_setting", "46.99 °C")]),
        ),
        // Tank limit 90 °C with a 65 °C valve.
        pair(
            "safety.scald",
            With(&[("plumbing.tank_limit", "90 °C"), ("safety.mixing_valve_rating", "65 °C")]),
            Stop,
            With(&[("plumbing.tank_limit", "65 °C"), ("safety.mixing_valve_rating", "65.01 °C")]),
        ),
        // The same over the simulated year.
        pair(
            "safety.scald-year",
            Made(|| {
                of_year(
                    &[("plumbing.tank_limit", "90 °C"), ("safety.mixing_valve_rating", "65 °C")],
                    "safety.scald-year",
                )
            }),
            Stop,
            Made(|| valve(0.01)),
        ),
        pair("safety.scald-year", Made(|| valve(-0.01)), Stop, Made(|| valve(0.01))),
        // Set-point of a bath, 44 °C (scheme of one country, verified).
        pair(
            "safety.tap-valve",
            With(&[("safety.mixing_valve_setting", "44.01 °C")]),
            Caution,
            With(&[("safety.mixing_valve_setting", "44 °C")]),
        ),
        pair("safety.tap-valve", With(&[("safety.mixing_valve_class", "tempering")]), Stop, With(&[])),
        // A choice of 10 K that holds 50 °C (rating criterion, verified).
        pair(
            "safety.tank-limit",
            With(&[("plumbing.tank_limit", "45 °C"), ("safety.tank_limit_highest", "49.99 °C")]),
            Caution,
            With(&[("plumbing.tank_limit", "45 °C"), ("safety.tank_limit_highest", "50 °C")]),
        ),
        pair(
            "safety.tank-limit",
            With(&[("plumbing.tank_limit", "80.01 °C")]),
            Stop,
            With(&[("plumbing.tank_limit", "80 °C")]),
        ),
        pair(
            "safety.outlets",
            Made(|| Bench::small().reading("safety.cold_outlet", "20.01 °C").verdict("safety.outlets")),
            Caution,
            Made(|| Bench::small().reading("safety.cold_outlet", "20 °C").verdict("safety.outlets")),
        ),
        // Water in the panel with +4 °C air under a clear sky.
        pair(
            "safety.freezing",
            With(&[("site.record_low", "4 °C"), ("safety.frost_passive", "none")]),
            Stop,
            With(&[("site.record_low", "9.1 °C"), ("safety.frost_passive", "none")]),
        ),
        pair(
            "safety.frost-valve",
            With(&[("safety.frost_valve_tested", "2025-05-30")]),
            Caution,
            With(&[("safety.frost_valve_tested", "2025-05-31")]),
        ),
        pair("safety.power-cut", Made(|| cut(-0.01)), Caution, Made(|| cut(0.01))),
        pair(
            "safety.legionella",
            With(&[("safety.final_temperature", "49.99 °C")]),
            Stop,
            With(&[("safety.final_temperature", "60 °C")]),
        ),
        pair("safety.legionella-days", Made(|| heated("58 °C")), Caution, Made(|| heated("64 °C"))),
        pair("safety.relief-path", With(&[("safety.shut_in", "yes")]), Stop, With(&[("safety.shut_in", "no")])),
        pair("safety.steam", Made(|| boiling(-0.001)), Caution, Made(|| boiling(0.001))),
        pair("safety.joint-pressure", Made(|| soldered("5.88 bar")), Stop, Made(|| soldered("5.86 bar"))),
        pair(
            "safety.relief-setting",
            With(&[("plumbing.weakest_rating", "5.99 bar")]),
            Stop,
            With(&[("plumbing.weakest_rating", "6 bar")]),
        ),
        pair("safety.relief-size", Made(|| relief(-0.1)), Stop, Made(|| relief(0.1))),
        pair(
            "safety.discharge",
            With(&[("safety.discharge_bore", "19.99 mm")]),
            Stop,
            With(&[("safety.discharge_bore", "20 mm")]),
        ),
        // Single-wall exchanger with the wrong liquid.
        pair(
            "safety.cross-connection",
            Made(|| glycol().with("safety.loop_liquid", "inhibited glycol").verdict("safety.cross-connection")),
            Stop,
            Made(|| glycol().verdict("safety.cross-connection")),
        ),
        pair(
            "safety.cold-slug",
            Made(|| glycol().with("safety.cold_slug", "nothing").verdict("safety.cold-slug")),
            Stop,
            Made(|| glycol().with("safety.cold_slug", "potable flow").verdict("safety.cold-slug")),
        ),
        // Leaded solder on a potable loop.
        pair("safety.lead", Made(|| drawn_solder("Sn50Pb50")), Stop, Made(|| drawn_solder("Sn96.5Ag3.5"))),
        pair(
            "safety.lead-surfaces",
            With(&[("safety.wetted.valve.lead", "0.351 %")]),
            Stop,
            With(&[("safety.wetted.pump.lead", "0.249 %"), ("safety.wetted.valve.lead", "0.249 %")]),
        ),
        pair(
            "safety.galvanic",
            With(&[("safety.contact_metal", "lead")]),
            Caution,
            With(&[("safety.contact_metal", "18 % Cr stainless")]),
        ),
        pair(
            "safety.fume",
            With(&[FAN, ("safety.joints_session", "31")]),
            Caution,
            With(&[FAN, ("safety.joints_session", "30")]),
        ),
        pair("safety.dust", With(&[("safety.treated_timber", "yes")]), Stop, With(&[("safety.treated_timber", "no")])),
        pair(
            "safety.torch-place",
            With(&[("safety.hot_work_clear", "0.999 m"), ("safety.torch_shield", "no")]),
            Stop,
            With(&[("safety.hot_work_clear", "1 m"), ("safety.torch_shield", "no")]),
        ),
        pair(
            "safety.cylinders",
            With(&[("safety.flashback_arrestors", "no")]),
            Stop,
            With(&[("safety.torch", "air-fuel"), ("safety.flashback_arrestors", "no")]),
        ),
        pair(
            "safety.fire-watch",
            With(&[("safety.fire_watch", "59.9 min")]),
            Caution,
            With(&[("safety.fire_watch", "60 min")]),
        ),
        pair(
            "safety.harp-open",
            Made(|| Bench::small().reading("safety.harp_open@A", "no").verdict("safety.harp-open")),
            Stop,
            With(&[]),
        ),
        pair(
            "safety.glass-handling",
            With(&[("safety.glass_hands", "alone")]),
            Stop,
            With(&[("safety.glass_hands", "two people")]),
        ),
        pair(
            "safety.height",
            With(&[("safety.fall_protection", "ladder"), ("safety.work_height", "6.01 ft")]),
            Stop,
            With(&[("safety.fall_protection", "harness"), ("safety.work_height", "6.01 ft")]),
        ),
        pair(
            "safety.ladder",
            With(&[("safety.ladder_height", "4.51 m")]),
            Caution,
            With(&[("safety.ladder_height", "4.5 m")]),
        ),
        pair(
            "safety.handling-wind",
            With(&[("safety.handling_wind", "10.01 m/s"), ("enclosure.lifters", "12")]),
            Stop,
            With(&[("safety.handling_wind", "10 m/s"), ("enclosure.lifters", "12")]),
        ),
        pair(
            "safety.roof-holes",
            With(&[("safety.roof_flashed", "no")]),
            Stop,
            With(&[("safety.roof_flashed", "yes")]),
        ),
        pair(
            "safety.electrical",
            With(&[("safety.rcd_tested", "2025-05-30")]),
            Caution,
            With(&[("safety.rcd_tested", "2025-05-31")]),
        ),
        pair("safety.mains", With(&[("safety.isolator", "no")]), Stop, With(&[("safety.isolator", "yes")])),
        pair(
            "safety.bonding",
            Made(|| Bench::small().reading("safety.bond_resistance", "0.101 ohm").verdict("safety.bonding")),
            Stop,
            Made(|| Bench::small().reading("safety.bond_resistance", "0.1 ohm").verdict("safety.bonding")),
        ),
        pair(
            "safety.hot-surfaces",
            With(&[REACH, ("safety.hot_guarded", "no")]),
            Caution,
            With(&[REACH, ("safety.hot_guarded", "yes")]),
        ),
        pair("safety.licensed", Without("safety.permit"), Unknown, With(&[])),
        pair(
            "safety.licence-dates",
            With(&[("safety.licence.plumber.until", "2026-05-31")]),
            Stop,
            With(&[("safety.licence.plumber.until", "2026-06-01")]),
        ),
        pair(
            "safety.inspection",
            With(&[("safety.inspection_date", "2026-06-02")]),
            Caution,
            With(&[("safety.inspection_date", "2026-06-01")]),
        ),
        // What other stages judge: thin wool behind a selective plate, unlined rails, annealed glass.
        pair(
            "enclosure.timber-behind",
            With(&[("absorber.emittance", "10 %"), ("enclosure.back_thickness", "25 mm")]),
            Stop,
            With(&[("absorber.emittance", "10 %"), ("enclosure.back_thickness", "100 mm")]),
        ),
        pair(
            "enclosure.timber-rail",
            With(&[("absorber.emittance", "10 %"), ("enclosure.rail_lining", "0 mm")]),
            Stop,
            With(&[]),
        ),
        pair(
            "enclosure.glass-kind",
            With(&[("enclosure.glass", "annealed")]),
            Stop,
            With(&[("enclosure.glass", "tempered")]),
        ),
    ]
}

#[test]
fn every_pair_trips_with_its_verdict_and_is_clear_a_hair_inside() {
    for Pair { check, trips, verdict, inside } in pairs() {
        assert_eq!(judged(&trips, check), verdict, "{check} is to trip");
        assert_eq!(judged(&inside, check), Clear, "{check} inside its limit");
    }
}

#[test]
fn no_check_of_the_safety_stage_is_without_a_pair() {
    let pairs = pairs();
    for check in stage::checks().iter().filter(|check| check.id.starts_with("safety.")) {
        assert!(pairs.iter().any(|pair| pair.check == check.id), "{} has no pair", check.id);
    }
}
