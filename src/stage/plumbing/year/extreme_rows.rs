//! The figures of the worst days and of one step up and down.

use super::choices::{CHOICES, Choice, Choices, Found};
use super::worst_days::{Curve, WORST_DAYS, WorstDays};
use super::worst_pressures::{self, Rest, Under, along};
use crate::model::{Fig, Value, Why};
use crate::stage::plumbing::pressure_rows::VESSEL;
use crate::stage::plumbing::rows::plain;
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::Kind::{Count, Number, Percent, Pressure, Temperature, Time};
use crate::units::si::{self, Dimension};

fn worst(s: &Solution) -> Fig<&WorstDays> {
    s.studies.worst_days.as_deref().map_err(Clone::clone)
}

fn night(s: &Solution) -> Fig<&Curve> {
    worst(s)?.night.as_ref().map(|(_, curve)| curve).map_err(Why::clone)
}

fn hours(time: si::Time) -> Value {
    plain(Count, (time.si() / 3600.0).round())
}

fn choices(s: &Solution) -> Fig<&Choices> {
    s.studies.choices.as_deref().map_err(Clone::clone)
}

fn choice<'a>(s: &'a Solution, key: &str) -> Fig<&'a Choice> {
    let row = key.parse().ok().and_then(|row: usize| choices(s).ok()?.rows.get(row.checked_sub(1)?));
    row.ok_or_else(|| choices(s).err().unwrap_or_else(|| Why::out_of_range("there is no such row")))
}

fn found<'a>(s: &'a Solution, key: &str) -> Fig<&'a Found> {
    choice(s, key)?.found.as_ref().map_err(Why::clone)
}

/// How many rows the table of steps has.
pub fn choice_count(s: &Solution) -> usize {
    choices(s).map_or(0, |choices| choices.rows.len())
}

/// Pressures of the worst days.
pub static WORST_PRESSURES: Group = Group {
    name: "pressures of the worst days",
    entries: &["plumbing.mains_pressure"],
    groups: &[&WORST_DAYS, &VESSEL],
};

fn empty_pressures(s: &Solution) -> Fig<Vec<Under>> {
    along(s, &worst(s)?.empty, Rest::AsTheTank)
}

fn cut_pressures(s: &Solution) -> Fig<Vec<Under>> {
    along(s, &worst(s)?.cut, Rest::AsTheTank)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("plumbing.empty_plate", "hottest plate, empty house", Temperature, &WORST_DAYS, |s, _| {
        Ok(worst(s)?.empty.hottest.into())
    })
    .by("worst-days", "hottest minute of fourteen clear midsummer days without draw", &[]),
    Figure::new("plumbing.empty_tank", "hottest tank, empty house", Temperature, &WORST_DAYS, |s, _| {
        Ok(worst(s)?.empty.tank.into())
    })
    .by("worst-days", "hottest layer in that fortnight", &[]),
    Figure::new("plumbing.empty_hours", "hours the plate is at 100 °C, empty house", Count, &WORST_DAYS, |s, _| {
        Ok(hours(worst(s)?.empty.boiling))
    })
    .by("worst-days", "minutes of that fortnight with the plate at 100 °C or more", &[]),
    Figure::new("plumbing.cut_plate", "hottest plate, power cut at noon", Temperature, &WORST_DAYS, |s, _| {
        Ok(worst(s)?.cut.hottest.into())
    })
    .by("worst-days", "hottest minute of that day", &[]),
    Figure::new("plumbing.cut_time", "from the cut to 100 °C at the plate", Time, &WORST_DAYS, |s, _| {
        let never = || Why::out_of_range("the plate does not reach 100 °C on that day");
        match worst(s)?.cut.reaches_hundred_after(NOON).ok_or_else(never)? {
            none if none.si() <= 0.0 => {
                Err(Why::out_of_range("the panels stand hot before noon already: the tank is at its limit"))
            }
            some => Ok(some.into()),
        }
    })
    .by("worst-days", "minutes from noon", &[]),
    Figure::new("plumbing.empty_pressure", "highest pressure, empty house", Pressure, &WORST_PRESSURES, |s, _| {
        Ok(worst_pressures::greatest(&empty_pressures(s)?)?.pressure.into())
    })
    .by("worst-pressures", "highest moment of the fortnight, at the vessel", &[]),
    Figure::new("plumbing.cut_pressure", "highest pressure, power cut at noon", Pressure, &WORST_PRESSURES, |s, _| {
        Ok(worst_pressures::greatest(&cut_pressures(s)?)?.pressure.into())
    })
    .by("worst-pressures", "highest minute of that day, at the vessel", &[]),
    Figure::new("plumbing.cut_relief", "relief valve open, power cut at noon", Time, &WORST_PRESSURES, |s, _| {
        Ok(si::Time::from_si(worst_pressures::relief_open(&cut_pressures(s)?)).into())
    })
    .by("worst-pressures", "minutes of that day at the relief setting", &[]),
    Figure::new(
        "plumbing.night_pressure",
        "lowest pressure at the top, coldest night",
        Pressure,
        &WORST_PRESSURES,
        |s, _| Ok(worst_pressures::least_at_top(&along(s, night(s)?, Rest::AsTheAir)?)?.at_top.into()),
    )
    .by("worst-pressures", "lowest minute from noon to noon, liquid outside the panels as cold as the air", &[]),
    Figure::new("plumbing.night_plate", "coldest plate, coldest night", Temperature, &WORST_DAYS, |s, _| {
        Ok(night(s)?.coldest.into())
    })
    .by("worst-days", "coldest minute from noon to noon around the file's coldest still plate", &[]),
    Figure::new("plumbing.night_hours", "hours the plate is below 0 °C that night", Count, &WORST_DAYS, |s, _| {
        Ok(hours(night(s)?.freezing))
    })
    .by("worst-days", "minutes from noon to noon", &[]),
    Figure::word("plumbing.night_date", "the coldest night ends", &WORST_DAYS, |s, _| {
        let (at, _) = worst(s)?.night.as_ref().map_err(Why::clone)?;
        Ok(Value::Text(at.to_string()))
    })
    .by("worst-days", "the dark hour with the coldest still plate", &[]),
    Figure::word("plumbing.choice", "one step away", &CHOICES, |s, key| Ok(Value::Text(choice(s, key)?.words.clone())))
        .axis(Axis::Choice)
        .by("one-step", "one entry changed, all else as entered", &[]),
    Figure::new("plumbing.choice_share", "solar share, one step away", Percent, &CHOICES, |s, key| {
        Ok(plain(Percent, found(s, key)?.fraction))
    })
    .axis(Axis::Choice)
    .by("one-step", "the year of the changed project", &[]),
    Figure::new("plumbing.choice_gain", "solar share won, one step away", Percent, &CHOICES, |s, key| {
        Ok(plain(Percent, found(s, key)?.fraction - choices(s)?.now.fraction))
    })
    .axis(Axis::Choice)
    .by("one-step", "share of the changed project − {f}", &[("f", "plumbing.solar_fraction_year")]),
    Figure::new("plumbing.choice_cost", "priced materials, one step away", Number, &CHOICES, |s, key| {
        Ok(plain(Number, choice(s, key)?.cost.clone()?))
    })
    .axis(Axis::Choice)
    .by("one-step", "bill of the changed project less the bill, over differing lines with a price", &[]),
    Figure::new("plumbing.choice_stagnation", "hours locked hot, one step away", Count, &CHOICES, |s, key| {
        Ok(plain(Count, found(s, key)?.stagnation.round()))
    })
    .axis(Axis::Choice)
    .by("one-step", "hours the panels stand hot, locked, in the year of the changed project", &[]),
];

/// The moment of the cut, s from midnight.
const NOON: f64 = 43_200.0;
