//! What the liquid does: steam and pressure, frost, and the water itself.

use super::super::stage_loop::{BOAT, GARDEN, HARBOUR, sample};
use super::{Pair, limit, of, pair, small};
use crate::support::Bench;
use sunharp::model::Verdict::{self, Caution, Stop};

fn drainback(share: f64) -> Bench {
    let bench = small(&[("plumbing.loop", "drainback"), ("plumbing.drained_length", "5 m")]);
    let litres = bench.number("commissioning.drain_expected") * 1e3 * share;
    bench.reading("commissioning.drained", &format!("{litres} L"))
}

fn acid(ph: &str) -> Bench {
    small(&[("plumbing.loop", "glycol"), ("plumbing.glycol", "50 %")]).reading("commissioning.liquid_ph", ph)
}

/// A valve beyond the panels, whose handle is taken off or not.
fn shut_in(locked: &'static str) -> [(&'static str, &'static str); 3] {
    [
        ("plumbing.run.return.along", "vent, v2"),
        ("plumbing.run.feed.along", "relief, check"),
        ("plumbing.part.v2.locked", locked),
    ]
}

/// A volume that is as large as its check asks, and a few litres more.
fn litres(name: &str, entry: &str, more: f64, check: &str) -> Verdict {
    let needs = limit(name, &[], check) * 1e3;
    of(name, &[(entry, &format!("{} L", needs + more))], check)
}

/// The seals of a pump within reach of steam, which stand what it boils at, and a little more.
fn seal(more: f64, check: &str) -> Verdict {
    let book = sample(GARDEN, &[("plumbing.loop", "direct")]);
    let judged = book.evaluation().verdict(check).unwrap().judgement.clone().unwrap();
    assert_eq!(judged.part.as_deref(), Some("pump"));
    let stands = format!("{} °C", judged.found.unwrap().si - 273.15 + more);
    of(GARDEN, &[("plumbing.loop", "direct"), ("plumbing.part.pump.limit", &stands)], check)
}

fn precharged(off: f64, check: &str) -> Verdict {
    let wanted = limit(HARBOUR, &[], check) / 1e5;
    of(HARBOUR, &[("plumbing.part.vessel.setting", &format!("{} bar", wanted + off))], check)
}

fn tested(medium: &str) -> Bench {
    let bench = small(&[("commissioning.test_medium", medium)]);
    bench.reading("commissioning.panel_start@A", "9 bar")
}

fn falls(rise: &'static str) -> [(&'static str, &'static str); 2] {
    [("plumbing.run.down.length", "10 m"), ("plumbing.run.down.rise", rise)]
}

fn record_low(over: f64, check: &str) -> Verdict {
    let file = limit(GARDEN, &[], check) - 273.15;
    of(GARDEN, &[("site.record_low", &format!("{} °C", file + over))], check)
}

fn plate_exchanger(against: &'static str) -> [(&'static str, &'static str); 2] {
    [("plumbing.part.coil.kind", "exchanger"), ("plumbing.slug_protection", against)]
}

#[allow(clippy::too_many_lines)] // one table, read line by line
pub fn pairs() -> Vec<Pair> {
    vec![
        // Steam and pressure.
        pair("plumbing.steam-parts", Stop, |check| seal(-0.01, check), |check| seal(0.01, check)),
        // 85 °C where the panel drains (project rule).
        pair(
            "plumbing.lockout",
            Stop,
            |check| of(GARDEN, &[("plumbing.lock_out", "85.01 °C")], check),
            |check| of(GARDEN, &[("plumbing.lock_out", "85 °C")], check),
        ),
        pair(
            "plumbing.relief-reach",
            Stop,
            |check| of(BOAT, &shut_in("no"), check),
            |check| of(BOAT, &shut_in("yes"), check),
        ),
        pair(
            "plumbing.relief-chain",
            Stop,
            |check| of(GARDEN, &[("plumbing.weakest_rating", "29.99 psi")], check),
            |check| of(GARDEN, &[("plumbing.weakest_rating", "30 psi")], check),
        ),
        pair(
            "plumbing.vessel-size",
            Stop,
            |check| litres(HARBOUR, "plumbing.part.vessel.volume", -0.01, check),
            |check| litres(HARBOUR, "plumbing.part.vessel.volume", 0.01, check),
        ),
        pair("plumbing.precharge", Caution, |check| precharged(0.201, check), |check| precharged(0.199, check)),
        pair(
            "plumbing.reservoir-size",
            Stop,
            |check| litres(GARDEN, "plumbing.part.reservoir.volume", -0.01, check),
            |check| litres(GARDEN, "plumbing.part.reservoir.volume", 0.01, check),
        ),
        pair(
            "plumbing.potable-expansion",
            Stop,
            |check| litres(BOAT, "plumbing.potable_vessel", -0.01, check),
            |check| litres(BOAT, "plumbing.potable_vessel", 0.01, check),
        ),
        pair(
            "commissioning.test-medium",
            Stop,
            |check| tested("air").verdict(check),
            |check| tested("water").verdict(check),
        ),
        // 1.5 times the relief setting.
        pair(
            "commissioning.test-pressure",
            Caution,
            |check| small(&[("plumbing.weakest_rating", "8.99 bar")]).verdict(check),
            |check| small(&[("plumbing.weakest_rating", "9.01 bar")]).verdict(check),
        ),
        // Frost. 2 cm in each metre; 5 % of the litres; a file's coldest hour.
        pair(
            "plumbing.drain-falls",
            Stop,
            |check| of(GARDEN, &falls("-19.9 cm"), check),
            |check| of(GARDEN, &falls("-20 cm"), check),
        ),
        pair(
            "commissioning.drained-litres",
            Caution,
            |check| drainback(0.949).verdict(check),
            |check| drainback(0.951).verdict(check),
        ),
        pair("site.record-low", Caution, |check| record_low(0.01, check), |check| record_low(-0.01, check)),
        pair(
            "plumbing.cold-slug",
            Stop,
            |check| of(HARBOUR, &plate_exchanger("none"), check),
            |check| of(HARBOUR, &plate_exchanger("bypass"), check),
        ),
        // Water. Household; 50 mg/L; pH 7 (from memory), 7.5 in the loop (project rule).
        pair(
            "site.public-water",
            Caution,
            |check| small(&[("site.premises", "shared")]).verdict(check),
            |check| small(&[("site.premises", "household")]).verdict(check),
        ),
        pair(
            "site.water-chloride",
            Caution,
            |check| small(&[("site.water_chloride", "50.1 mg/L")]).verdict(check),
            |check| small(&[("site.water_chloride", "49.9 mg/L")]).verdict(check),
        ),
        pair(
            "site.water-ph",
            Caution,
            |check| small(&[("site.water_ph", "6.99")]).verdict(check),
            |check| small(&[("site.water_ph", "7")]).verdict(check),
        ),
        pair(
            "commissioning.liquid-ph",
            Caution,
            |check| acid("7.49").verdict(check),
            |check| acid("7.5").verdict(check),
        ),
    ]
}
