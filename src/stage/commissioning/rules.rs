//! Pressure tests that others ask for, beside this project's own: pressure and time of published rules.
//!
//! Which rule binds is for the authority; the project's own test is in `proof`.

use crate::model::{Fig, Why};
use crate::stage::plumbing::entries::RELIEF;
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::Kind::{Pressure as Bar, Time as Duration};
use crate::units::si::{Dimension, Pressure, Time};

/// A pound per square inch, Pa.
const PSI: f64 = 6894.757;
const MINUTE: f64 = 60.0;

/// A published rule: its pressure from the highest working pressure, and how long it is held where the rule says so.
struct Rule {
    key: &'static str,
    pressure: fn(f64) -> f64,
    hold: Option<f64>,
}

/// The rules, water first. The relief setting is taken for the highest working pressure.
///
/// United States model plumbing code: water at the working pressure or air at 50 psi, 15 minutes (verified). Water rules
/// of the United Kingdom: 1.5 × the working pressure (verified). EN 806-4: 1.1 × the design pressure, that being 1.5 × the
/// working pressure (verified). Navy manual: air at 75 psi for 2 to 3 hours, overnight if in doubt (verified).
static RULES: [Rule; 5] = [
    Rule { key: "us-water", pressure: |working| working, hold: Some(15.0 * MINUTE) },
    Rule { key: "uk-water", pressure: |working| 1.5 * working, hold: None },
    Rule { key: "en-806-4", pressure: |working| 1.1 * 1.5 * working, hold: None },
    Rule { key: "us-air", pressure: |_| 50.0 * PSI, hold: Some(15.0 * MINUTE) },
    Rule { key: "navy-air", pressure: |_| 75.0 * PSI, hold: Some(120.0 * MINUTE) },
];

/// The keys of the rules.
pub fn keys() -> Vec<String> {
    RULES.iter().map(|rule| rule.key.to_owned()).collect()
}

static PRESSURES: Group =
    Group { name: "published test pressures", entries: &["plumbing.relief_setting"], groups: &[] };

static HOLDS: Group = Group { name: "published test times", entries: &[], groups: &[] };

fn rule(key: &str, id: &str) -> Fig<&'static Rule> {
    RULES.iter().find(|rule| rule.key == key).ok_or_else(|| Why::missing(format!("{id}.{key}")))
}

fn pressure(s: &Solution, key: &str) -> Fig<Pressure> {
    let rule = rule(key, "commissioning.published_test")?;
    Ok(Pressure::from_si((rule.pressure)(s.inputs.get(&RELIEF)?.si())))
}

fn hold(key: &str) -> Fig<Time> {
    let none = || Why::out_of_range("by the procedure of the rule itself");
    rule(key, "commissioning.published_hold")?.hold.map(Time::from_si).ok_or_else(none)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("commissioning.published_test", "test pressure by rule", Bar, &PRESSURES, |s, key| {
        Ok(pressure(s, key)?.into())
    })
    .axis(Axis::TestRule)
    .by(
        "test-rules",
        "{relief} times 1, 1.5 and 1.65 for water; 50 and 75 psi of air",
        &[("relief", "plumbing.relief_setting")],
    ),
    Figure::new("commissioning.published_hold", "test held by rule", Duration, &HOLDS, |_, key| Ok(hold(key)?.into()))
        .axis(Axis::TestRule)
        .by("test-rules", "15 minutes; 2 hours", &[]),
];
