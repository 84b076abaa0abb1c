//! The checks of the logger file: is it sound, is its clock right, does the plant do what was computed.

use super::log::Judged;
use super::performance::{AGREES, POWER_HOURS};
use crate::logger::Log;
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, TemperatureInterval, Time, difference};

/// Clock against the sun, s (project rule).
const CLOCK: f64 = 600.0;
/// Days that the hand-over wants (project rule).
const DAYS: usize = 7;
/// Share of the heat that may go back to the sky (project rule).
const LOST: f64 = 0.05;
/// Starts of the pump in a day (project rule).
const STARTS: u32 = 12;
/// Room below the solidus of the sheet's solder at which it stops, K (project rule).
const SOLDER_ROOM: f64 = 20.0;

fn log(s: &Solution) -> Fig<std::sync::Arc<Log>> {
    s.commissioning.logged.log.clone()
}

fn counting(s: &Solution) -> Fig<Vec<Judged>> {
    Ok(s.commissioning.logged.days.clone()?.into_iter().filter(Judged::counts).collect())
}

fn order(s: &Solution) -> Fig<Judgement> {
    let faults = &log(s)?.faults;
    let (verdict, part) = if faults.backward.any() {
        (Verdict::Stop, format!("{} rows go back in time", faults.backward.count))
    } else if faults.date_order_guessed {
        (Verdict::Caution, "its dates can be read with day or with month first".to_owned())
    } else if faults.summer_time.is_empty() {
        (Verdict::Clear, "every row comes after the one before".to_owned())
    } else {
        (Verdict::Caution, "its clock keeps summer time".to_owned())
    };
    Ok(Judgement::of(verdict).part(part))
}

fn sound(s: &Solution) -> Fig<Judgement> {
    let told = log(s)?.faults.sentences();
    let found = Quantity::count(told.len());
    Ok(Judgement::caution_unless(told.is_empty()).with(found, Quantity::count(0)).part(told.join("; ")))
}

fn clock(s: &Solution) -> Fig<Judgement> {
    let error = s.commissioning.logged.clock.clone()?;
    let off = error.si().abs();
    let part = if (off - 3600.0).abs() <= CLOCK { "an hour: summer time, or the wrong zone" } else { "set it anew" };
    let limit = Time::from_si(CLOCK);
    let found = Judgement::caution_unless(off <= CLOCK).with(error, limit);
    Ok(found.margin(Time::from_si(CLOCK - off)).part(part))
}

fn week(s: &Solution) -> Fig<Judgement> {
    let found = counting(s)?.len();
    Ok(Judgement::caution_unless(found >= DAYS).with(Quantity::count(found), Quantity::count(DAYS)))
}

fn lost(s: &Solution) -> Fig<Judgement> {
    let days = counting(s)?;
    let sum = |of: fn(&Judged) -> f64| days.iter().map(of).sum::<f64>();
    let (gained, lost) = (sum(|day| day.gained.si()), sum(|day| day.lost.si()));
    if gained <= 0.0 {
        return Err(Why::out_of_range("no day that counts brought heat in"));
    }
    let share = Quantity::percent(lost / gained);
    let limit = Quantity::percent(LOST);
    Ok(Judgement::caution_unless(lost <= LOST * gained)
        .with(share, limit)
        .margin(Quantity::percent(LOST - lost / gained)))
}

fn starts(s: &Solution) -> Fig<Judgement> {
    let days = counting(s)?;
    let most = days.iter().map(|day| day.starts).max();
    let most = most.ok_or_else(|| Why::out_of_range("no day of the log has 95 % of its daylight"))?;
    let number = |count: u32| Quantity::new(crate::units::Kind::Count, f64::from(count));
    Ok(Judgement::caution_unless(most <= STARTS).with(number(most), number(STARTS)))
}

fn agrees(s: &Solution) -> Fig<Judgement> {
    let compared = s.commissioning.logged.compared.clone()?;
    let larger = if compared.eta0_z.abs() >= compared.loss_z.abs() { compared.eta0_z } else { compared.loss_z };
    let part = compared.sentence(&s.commissioning.logged.fitted.clone()?);
    Ok(Judgement::caution_unless(compared.agrees()).with(Quantity::number(larger), Quantity::number(AGREES)).part(part))
}

fn power(s: &Solution) -> Fig<Judgement> {
    let power = s.commissioning.logged.power.clone()?;
    let ratio = power.ratio.filter(|_| power.hours >= POWER_HOURS).ok_or_else(|| {
        Why::out_of_range(format_args!("{} hours of the log count; the check wants {POWER_HOURS}", power.hours))
    })?;
    let judged = Judgement::caution_unless(ratio >= 1.0).with(Quantity::percent(ratio), Quantity::percent(1.0));
    Ok(judged.margin(Quantity::percent(ratio - 1.0)))
}

fn stagnation(s: &Solution) -> Fig<Judgement> {
    let measured = s.commissioning.logged.stagnation.clone()?;
    let computed = s.absorber.stagnation.as_ref().map_err(Why::clone)?.worst;
    let room = difference(s.absorber.solder.clone()?.solidus, measured);
    let verdict = if room < TemperatureInterval::from_si(SOLDER_ROOM) {
        Verdict::Stop
    } else if measured > computed {
        Verdict::Caution
    } else {
        Verdict::Clear
    };
    Ok(Judgement::of(verdict).with(measured, computed).margin(room))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("commissioning.log-order", "order of the logger's rows", Severity::Nuisance, order)
        .says(
            "The log cannot be taken as it is: {part}.",
            "Ask whoever ran the logger: two files in one, or a clock that was set? Cut the file apart; write offsets \
             from universal time.",
        )
        .blind_to("a clock that was wrong all the time: the sun's check sees that")
        .source("project rule")
        .needs(&["commissioning.log_faults"]),
    Check::new("commissioning.log-sound", "readings of the logger", Severity::Nuisance, sound)
        .says(
            "{part}. What is no reading was left out, never held over.",
            "85.0 and -127 are a digital sensor's cry for power or wire; a still sensor has come loose; mend it before \
             you trust what it says.",
        )
        .blind_to("a sensor that is wrong by a steady amount: ice, boiling water and the pair in one bath show that")
        .source("sentinels seen in public reports; limits: project rules")
        .needs(&["commissioning.log_faults"]),
    Check::new("commissioning.log-clock", "logger's clock against the sun", Severity::Nuisance, clock)
        .says(
            "On clear days the log's sun comes {found} late by its own clock; {limit} is allowed: {part}.",
            "Set commissioning.log_clock or the logger. Without the right clock angle of the sun and days are wrong.",
        )
        .blind_to(
            "shade in the morning or evening that the skyline does not tell; a sun sensor that is not in the plane",
        )
        .source("10 min: project rule")
        .needs(&["commissioning.clock_error"]),
    Check::new("commissioning.log-week", "days that count", Severity::Nuisance, week)
        .says(
            "{found} days have 95 % of their daylight; {limit} are wanted.",
            "Log on; look for what stops the logger.",
        )
        .blind_to("whether those days show every season: come back in the other half of the year")
        .source("seven days of 95 %: project rule")
        .needs(&["commissioning.log_days"]),
    Check::new("commissioning.log-lost", "heat sent to the sky", Severity::Nuisance, lost)
        .says(
            "{found} of the heat that came in went out again; {limit} is allowed.",
            "Look at the night: a pump that runs, a check valve that leaks, a sensor out of its well.",
        )
        .blind_to("flow that the meter does not see, such as a slow thermosiphon backwards")
        .source("5 %: project rule")
        .needs(&["commissioning.log_heat", "commissioning.log_lost"]),
    Check::new("commissioning.log-starts", "starts of the pump", Severity::Nuisance, starts)
        .says(
            "The pump started {found} times in one day; up to {limit} is common on a morning with clouds.",
            "Less flow, a larger start difference, the panel sensor nearer to the plate.",
        )
        .blind_to("starts shorter than the logger's step")
        .source("12 a day: project rule")
        .needs(&["commissioning.log_starts"]),
    Check::new(
        "commissioning.performance-agrees",
        "measured panel against the computed one",
        Severity::Nuisance,
        agrees,
    )
    .says(
        "z is {found}, {limit} is the most: {part}. Likely: {commissioning.causes}.",
        "Look at the causes in their order, then take new points. Do not change the drawing to fit.",
    )
    .blind_to("errors that move measured and computed alike; what happens in stronger wind and at night")
    .source("z of two numbers with their uncertainties; computed ones ± 0.03 and ± 0.5 W/(m²·K): project rule")
    .needs(&["commissioning.agreement"]),
    Check::new("commissioning.power-check", "power in the field against the promised", Severity::Nuisance, power)
        .says(
            "Over the hours that count the panels gave {found} of what was promised.",
            "Flow and pair of sensors first, then glass, shade and insulation.",
        )
        .blind_to("hours with less sun, and anything behind the outlet sensor")
        .source("in the manner of ISO 24194")
        .recalls("its limits")
        .needs(&["commissioning.power_ratio"]),
    Check::new("commissioning.fit-stagnation", "stagnation by what was measured", Severity::Serious, stagnation)
        .says(
            "By the measured line the empty plate stands at {found}, by the computed one at {limit}; the solder's \
             solidus is {margin} above it.",
            "Judge solder, insulation, coating, hoses and sensors again at the higher number.",
        )
        .blind_to("a measured line that is lower: it changes no limit")
        .source("the line may scale upward only; 20 K below the solidus: project rules")
        .needs(&["commissioning.stagnation", "absorber.stagnation_worst", "absorber.solder"]),
];
