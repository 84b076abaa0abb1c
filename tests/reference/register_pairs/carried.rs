//! Metals and glass, and what carries the panel.

use super::super::rack::{ground, loaded};
use super::{Pair, by, pair, small, with};
use crate::support::Bench;
use sunharp::model::Verdict::{Caution, Clear, Stop, Unknown};

/// A pane whose seat is out of square by so much.
fn square(second: &str) -> Bench {
    Bench::small().reading("enclosure.diagonal_1@A", "2.000 m").reading("enclosure.diagonal_2@A", second)
}

fn lifters(fewer: usize) -> Bench {
    let bench = small(&[("enclosure.hoist", "no")]);
    let judged = bench.evaluate().verdict("enclosure.lift").unwrap().judgement.clone().unwrap();
    bench.with("enclosure.lifters", &format!("{}", judged.limit.unwrap().si - fewer as f64))
}

/// A clamp that is used to so much of what it holds; all other links hold far more.
fn chain(used: f64) -> Bench {
    let bench = with(
        loaded(),
        &[
            ("enclosure.clamp_holds", "50 kN"),
            ("enclosure.bracket_holds", "50 kN"),
            ("enclosure.rail_holds", "50 kN"),
            ("enclosure.base_holds", "50 kN"),
            ("enclosure.lags", "8"),
            ("enclosure.cap_screw_spacing", "20 mm"),
            ("enclosure.glass_pressure", "500 Pa"),
        ],
    );
    let pull = bench.number("enclosure.net_up") * bench.number("enclosure.outside_area") / 4.0;
    bench.with("enclosure.clamp_holds", &format!("{} N", pull / used))
}

fn on_the_roof(more: f64) -> Bench {
    let weighs = loaded().number("enclosure.dead_wet");
    loaded().with("enclosure.roof_allowance", &format!("{} Pa", weighs + more))
}

/// Ballast that just stands by its weight, and a little more.
fn ballast(more: f64) -> Bench {
    let needs = ground().number("enclosure.rack_moment_weight").max(ground().number("enclosure.rack_slide_weight"));
    by(&ground(), ("enclosure.ballast", "kg"), (0.0, 5000.0), ("enclosure.rack_weight", needs), more)
}

fn capped(screws: &str) -> Bench {
    small(&[("enclosure.cap_metal", "copper, silver solder"), ("enclosure.cap_screw_metal", screws)])
}

/// The number at which a check stops to be clear, between one at which it is and one at which it is not.
fn turning((clear, not): (f64, f64), check: &str, at: impl Fn(f64) -> Bench) -> f64 {
    let (mut low, mut high) = (clear, not);
    assert_eq!(at(low).verdict(check), Clear, "{check} at {low}");
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if at(middle).verdict(check) == Clear { low = middle } else { high = middle }
    }
    low
}

/// A pane that is pressed until the code's check turns, and so much of it.
fn pressed(share: f64) -> Bench {
    let at = |pascal: f64| small(&[("enclosure.glass_pressure", &format!("{pascal} Pa"))]);
    at(turning((500.0, 20_000.0), "enclosure.wind-on-glass", at) * share)
}

fn snowed(share: f64) -> Bench {
    let at = |pascal: f64| with(loaded(), &[("site.snow_load", &format!("{pascal} Pa"))]);
    at(turning((500.0, 14_000.0), "enclosure.glass-snow", at) * share)
}

/// The pressure on the pane as the panel's own coefficients give it at the allowable level, and a little more.
fn pane(more: f64) -> Bench {
    let panel = 0.6 * loaded().number("enclosure.net_suction").max(loaded().number("enclosure.net_push"));
    loaded().with("enclosure.glass_pressure", &format!("{} Pa", panel + more))
}

fn flush(height: &str) -> Bench {
    with(loaded(), &[("enclosure.standoff", height), ("enclosure.edge_distance", "2 m")])
}

#[allow(clippy::too_many_lines)] // one table, read line by line
pub fn pairs() -> Vec<Pair> {
    vec![
        // Metals: 0.15 V in the wet (galvanic table); iron lies 0.50 V from copper, brass 0.05 V.
        pair(
            "absorber.mixed-metals",
            Caution,
            |check| small(&[("absorber.sheet_metal", "aluminium 1100")]).verdict(check),
            |check| small(&[("absorber.sheet_metal", "copper C12200 (DHP)")]).verdict(check),
        ),
        pair(
            "enclosure.cap-metals",
            Caution,
            |check| capped("lead").verdict(check),
            |check| capped("brass, bronze").verdict(check),
        ),
        // Glass: bite 10 mm, diagonals 3 mm (project rules).
        pair(
            "enclosure.glass-kind",
            Stop,
            |check| small(&[("enclosure.glass", "annealed")]).verdict(check),
            |check| small(&[("enclosure.glass", "tempered")]).verdict(check),
        ),
        pair(
            "enclosure.glass-seat",
            Caution,
            |check| small(&[("enclosure.glass_bite", "9.99 mm")]).verdict(check),
            |check| small(&[("enclosure.glass_bite", "10 mm")]).verdict(check),
        ),
        pair(
            "enclosure.square",
            Stop,
            |check| square("2.00301 m").verdict(check),
            |check| square("2.00299 m").verdict(check),
        ),
        pair(
            "enclosure.glass-confirmed",
            Unknown,
            |check| Bench::small().verdict(check),
            |check| small(&[("enclosure.glass_confirmed", "F. Pane, 2026-04-01")]).verdict(check),
        ),
        pair(
            "enclosure.wind-on-glass",
            Caution,
            |check| pressed(1.001).verdict(check),
            |check| pressed(0.999).verdict(check),
        ),
        // The pane bends too much before it breaks; under far more it stops.
        pair(
            "enclosure.wind-on-glass",
            Stop,
            |check| pressed(4.0).verdict(check),
            |check| pressed(0.999).verdict(check),
        ),
        pair(
            "enclosure.glass-snow",
            Caution,
            |check| snowed(1.001).verdict(check),
            |check| snowed(0.999).verdict(check),
        ),
        pair("enclosure.pane-pressure", Caution, |check| pane(-0.1).verdict(check), |check| pane(0.1).verdict(check)),
        // Lift and anchorage.
        pair("enclosure.lift", Stop, |check| lifters(1).verdict(check), |check| lifters(0).verdict(check)),
        pair("enclosure.chain", Caution, |check| chain(0.801).verdict(check), |check| chain(0.799).verdict(check)),
        pair("enclosure.chain", Stop, |check| chain(1.001).verdict(check), |check| chain(0.799).verdict(check)),
        // 1.5 diameters of 5/16 in on either side are 0.9375 in.
        pair(
            "enclosure.lag-fit",
            Stop,
            |check| with(loaded(), &[("enclosure.rafter_thickness", "0.937 in")]).verdict(check),
            |check| with(loaded(), &[("enclosure.rafter_thickness", "0.938 in")]).verdict(check),
        ),
        pair(
            "enclosure.roof-load",
            Stop,
            |check| on_the_roof(-0.01).verdict(check),
            |check| on_the_roof(0.01).verdict(check),
        ),
        pair(
            "enclosure.rack-stands",
            Stop,
            |check| ballast(-0.01).verdict(check),
            |check| ballast(0.01).verdict(check),
        ),
        pair(
            "site.local-loads",
            Unknown,
            |check| loaded().without("site.snow_load").verdict(check),
            |check| loaded().verdict(check),
        ),
        // 10 in over the roof (wind code).
        pair(
            "enclosure.flush-limits",
            Caution,
            |check| flush("10.01 in").verdict(check),
            |check| flush("10 in").verdict(check),
        ),
    ]
}
