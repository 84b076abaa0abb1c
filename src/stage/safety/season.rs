//! What a whole year shows: the hottest water a mixing valve meets, germs day by day, frost valves, a power cut.
//!
//! Judged by the studies of the plumbing stage: while one of them is out, the check is unknown. Where the year runs with
//! panels as measured, that of the drawn ones stands beside it and the worse of both is judged (project rule).

use super::entries::water as e;
use super::entries::{self as answers, Passive};
use crate::model::{Choice, Fig, Judgement, Verdict, Why};
use crate::physics::legionella;
use crate::stage::plumbing::entries::{self as pipes, LoopType};
use crate::stage::plumbing::{self, year::Year};
use crate::stage::{self, Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Temperature, Time, difference};
use crate::units::{Kind, Quantity};

/// Days in a row that may pass without all of the tank at 60 °C (project rule).
const DAYS_WITHOUT: f64 = 7.0;
/// Days after which a frost valve is tested again (project rule).
const TEST_AGAIN: i32 = 366;

/// Powers of ten beyond which a number says nothing more: not one germ in a thousand million is left (project rule).
const MOST_TOLD: f64 = 9.0;

/// The simulated year, as the plumbing stage has it.
pub static DAYS: Group = Group { name: "germs day by day", entries: &[], groups: &[&plumbing::year::YEAR] };

/// A figure of another stage by its id.
fn figure(s: &Solution, id: &str) -> Fig<Quantity> {
    let (figure, key) = stage::figure(id).ok_or_else(|| Why::missing(id))?;
    (figure.read)(s, key)?.quantity().ok_or_else(|| Why::missing(id))
}

fn year(s: &Solution) -> Fig<&Year> {
    s.studies.year.as_ref().map_err(Clone::clone)?.of_real_hours()
}

/// Powers of ten killed in the top of the tank in one day, by its hourly temperatures.
fn killed(year: &Year, day: u16) -> Fig<f64> {
    let hour = Time::from_si(3600.0);
    let history: Vec<(Temperature, Time)> = year.day(day).iter().map(|end| (end.top, hour)).collect();
    legionella::log_reduction(&history).map_err(Why::out_of_range)
}

/// Days of the year on which the top of the tank kills less than a tenfold: nothing but growth happens there.
fn idle_days(s: &Solution) -> Fig<usize> {
    let mut most = 0;
    for year in year(s)?.and_as_drawn() {
        let killed = (1..=365).map(|day| killed(year, day)).collect::<Fig<Vec<_>>>()?;
        most = most.max(killed.iter().filter(|powers| **powers < 1.0).count());
    }
    Ok(most)
}

fn best_day(s: &Solution) -> Fig<f64> {
    let mut least = f64::INFINITY;
    for year in year(s)?.and_as_drawn() {
        let killed = (1..=365).map(|day| killed(year, day)).collect::<Fig<Vec<_>>>()?;
        least = least.min(killed.into_iter().fold(0.0, f64::max));
    }
    Ok(least)
}

/// Hottest layer of the year.
fn peak(s: &Solution) -> Fig<Temperature> {
    let peak = |year: &Year| year.outcome.peak_tank.temperature;
    let found = year(s)?;
    Ok(found.and_as_drawn().map(peak).fold(peak(found), |a, b| if b > a { b } else { a }))
}

fn scald_year(s: &Solution) -> Fig<Judgement> {
    let peak = peak(s)?;
    let limit = s.safety.hot_supply.clone()?;
    let hottest = if peak > limit { peak } else { limit };
    let rating = s.inputs.get(&answers::MIXING_RATING)?;
    let margin = difference(rating, hottest);
    let part = if peak > limit { "the hottest hour of the year" } else { "what is set before it, above every hour" };
    Ok(Judgement::stop_unless(margin.si() >= 0.0).with(hottest, rating).margin(margin).part(part))
}

fn germs(s: &Solution) -> Fig<Judgement> {
    let gap = year(s)?.and_as_drawn().map(Year::longest_without_pass).fold(0, usize::max) as f64;
    let judgement = Judgement::caution_unless(gap <= DAYS_WITHOUT).part("days in a row without all of it at 60 °C");
    let days = |count| Quantity::new(Kind::Count, count);
    Ok(judgement.with(days(gap), days(DAYS_WITHOUT)).margin(Quantity::number(DAYS_WITHOUT - gap)))
}

const MILD: &str = "the record low does not freeze the plate";

fn frost_valve(s: &Solution) -> Fig<Judgement> {
    if matches!(s.inputs.get(&pipes::LOOP)?, LoopType::Drainback | LoopType::Glycol) {
        return Ok(Judgement::does_not_apply("no water stands in the panel while it freezes"));
    }
    if super::water::mild(s)?.is_some() {
        return Ok(Judgement::does_not_apply(MILD));
    }
    let passive = s.inputs.get(&answers::FROST_PASSIVE)?;
    if passive == Passive::None {
        return Ok(Judgement::of(Verdict::Stop).part("there is no valve that works without power"));
    }
    let tested = s.inputs.get(&e::FROST_TESTED)?;
    let days = (s.world.today - tested).get_days();
    if days < 0 {
        return Err(Why::out_of_range("the day of the valve's test lies in the future"));
    }
    let part = format!("{}, tested {tested}", passive.word());
    Ok(Judgement::caution_unless(days <= TEST_AGAIN).part(part))
}

/// A power cut at noon: whether the panel boils then, and what that asks for.
fn power_cut(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&pipes::LOOP)? == LoopType::Drainback {
        let drained = stage::check("commissioning.drained-litres").ok_or_else(|| Why::missing(pipes::LOOP.spec.id))?;
        return (drained.judge)(s);
    }
    let hottest: Temperature = figure(s, "plumbing.cut_plate")?.typed();
    let boils: Temperature = s.safety.boiling.clone()?;
    let margin = difference(boils, hottest);
    Ok(Judgement::caution_unless(margin.si() > 0.0).with(hottest, boils).margin(margin).part("heat at noon"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("safety.idle_days", "days the tank's top kills nothing", Kind::Count, &DAYS, |s, _| {
        Ok(Quantity::count(idle_days(s)?).into())
    })
    .by("legionella-days", "days with Σ Δt/D(T) below 1, T the top of the tank", &[]),
    Figure::new(
        "safety.log_reduction",
        "most killed in a day, powers of ten (9: 9 or more)",
        Kind::Number,
        &DAYS,
        |s, _| Ok(Quantity::number(best_day(s)?.min(MOST_TOLD)).into()),
    )
    .by("legionella-days", "largest Σ Δt/D(T) of a day, D = 2 min × 10^((60 °C − T)/5.86 K), 9 at most", &[]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.scald-year", "mixing valve through the year", Severity::Serious, scald_year)
        .says(
            "The mixing valve stands {limit}; it can meet {found}: {part}.",
            "A valve rated for solar-heated supply, or a lower limit of tank, element or final stage.",
        )
        .blind_to("a year hotter than the typical one, a week without draw that the year does not hold, a controller that fails")
        .ask("a licensed plumber")
        .source("the larger of tank limit and simulated peak (project rule)")
        .needs(&["plumbing.tank_peak", "safety.hot_supply", "safety.mixing_valve_rating"]),
    Check::new("safety.legionella-days", "germs in the solar tank, day by day", Severity::Deadly, germs)
        .says(
            "{found} days in a row pass without all of the tank at 60 °C; a week is the most. {plumbing.growth_hours} hours a \
             year some of it stands between 25 and 45 °C; on {safety.idle_days} days even its top kills nothing.",
            "All water passes a final stage of 60 °C before a tap; or heat the whole tank once a week. Ask a plumber.",
        )
        .blind_to(
            "slime and dead legs, for which the times of free water do not hold; the cool foot below the coil; a year unlike \
             the typical one",
        )
        .ask("a licensed plumber; on shared premises and at workplaces the health authority")
        .source("bands: code of practice (verified); times: secondary source; a week: project rule")
        .needs(&["plumbing.sixty_gap", "plumbing.growth_hours", "safety.idle_days"]),
    Check::new("safety.frost-valve", "frost valve tested", Severity::Serious, frost_valve)
        .says(
            "Frost valve: {part}. A valve that sticks protects nothing.",
            "Open it once before each winter: cold spray or ice on a cold valve, the power off for a power-fail valve.",
        )
        .blind_to("scale that grows after the test; whether enough water runs through it")
        .source("a stuck valve is a line of its own: project rule")
        .needs(&[
            "plumbing.loop",
            "site.record_low",
            "site.coldest_air",
            "site.frost_warmest_air",
            "safety.freezing_air_calm",
            "safety.frost_passive",
            "safety.frost_valve_tested",
        ]),
    Check::new("safety.power-cut", "power cut at noon", Severity::Serious, power_cut)
        .says(
            "Power cut: {found} against {limit}. On the worst day the plate boils its liquid after the pump stops; relief, \
             vessel and discharge must be ready on any day.",
            "Room in the vessel for all the liquid of panels and pipes above them, a free relief, nothing plastic near; or a \
             panel that drains.",
        )
        .blind_to("a cut that lasts for days; what people do in their fright: the emergency card is for that")
        .source("minute by minute through the worst day of the year: this program's simulation")
        .needs(&[
            "plumbing.loop",
            "plumbing.cut_plate",
            "safety.boiling",
            "commissioning.drained",
            "commissioning.drain_expected",
        ]),
];
