//! The figures of the year: what the simulation found, and the monthly correlation beside it.

use super::correlation::{Correlation, Part};
use super::pipes::{PIPES, pipes};
use super::{YEAR, Year, from_sun};
use crate::climate::HourOfYear;
use crate::model::{Fig, TradeUnits, Value, Why};
use crate::stage::plumbing::CORRELATION;
use crate::stage::plumbing::rows::{AREA, plain, row};
use crate::stage::site::basis;
use crate::stage::site::rows::month;
use crate::stage::{Axis, Figure, Solution};
use crate::units::Kind::{Conductance, Count, Energy, Irradiation, Number, Percent, Temperature};
use crate::units::Quantity;
use crate::units::si::{Dimension, RadiantExposure, Time};
use crate::year::Tally;

fn year(s: &Solution) -> Fig<&Year> {
    s.studies.year.as_deref().map_err(Clone::clone)
}

/// A year of real hours: what mean days cannot tell is read from it alone.
fn real(s: &Solution) -> Fig<&Year> {
    year(s)?.of_real_hours()
}

fn whole(s: &Solution) -> Fig<&Tally> {
    Ok(&year(s)?.outcome.year)
}

fn of_month<'a>(s: &'a Solution, key: &str) -> Fig<&'a Tally> {
    Ok(&year(s)?.outcome.months[month(key)])
}

fn real_whole(s: &Solution) -> Fig<&Tally> {
    Ok(&real(s)?.outcome.year)
}

fn correlation(s: &Solution) -> Fig<&Correlation> {
    s.plumbing.correlation.as_ref().map_err(Clone::clone)
}

fn part<'a>(s: &'a Solution, key: &str) -> Fig<&'a Part> {
    correlation(s)?.months[month(key)].part.as_ref().ok_or_else(no_load)
}

fn no_load() -> Why {
    Why::out_of_range("no heat is wanted then: the mains are as warm as the tap, or nobody draws")
}

/// Whole hours.
fn hours(time: Time) -> Value {
    plain(Count, (time.si() / 3600.0).round())
}

/// A day of the year as people write it.
fn date(day: u16) -> String {
    let at = HourOfYear::new(usize::from(day.saturating_sub(1)) * 24).unwrap_or(HourOfYear::FIRST);
    at.to_string().split(',').next().unwrap_or_default().to_owned()
}

fn worst_week(s: &Solution) -> Fig<Value> {
    let week = &real(s)?.outcome.worst_week;
    let last = week.first_day + 6;
    let share = week.tally.solar_fraction().ok_or_else(no_load)?;
    Ok(Value::Text(format!("{} to {}, solar share {:.0} %", date(week.first_day), date(last), 100.0 * share)))
}

fn difference(s: &Solution) -> Fig<Value> {
    Ok(plain(Percent, super::checks::difference(s)?))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("plumbing.solar_fraction_year", "solar share of the year", Percent, &YEAR, |s, _| {
        Ok(plain(Percent, whole(s)?.solar_fraction().ok_or_else(no_load)?))
    })
    .by("hourly-year", "1 − (auxiliary + lacking)/load", &[]),
    Figure::new("plumbing.delivered_year", "heat from the sun in a year", Energy, &YEAR, |s, _| {
        Ok(from_sun(whole(s)?).into())
    })
    .by("hourly-year", "load less {auxiliary} and {lacking}", &[AUXILIARY, LACKING]),
    Figure::new("plumbing.delivered_per_area", "the year's heat per outside area", Irradiation, &YEAR, |s, _| {
        Ok(RadiantExposure::from_si(from_sun(whole(s)?).si() / row(s)?.outside_area.si()).into())
    })
    .by("hourly-year", "{Q} / {A}", &[("Q", "plumbing.delivered_year"), AREA]),
    Figure::new("plumbing.auxiliary_year", "heat of the further heater", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.auxiliary().into())
    })
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.shortage_year", "heat that was lacking", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.shortage().into())
    })
    .by("hourly-year", "mixed water colder than {T}: what is lacking, over the hours", &[("T", "plumbing.tap")]),
    Figure::new("plumbing.tank_gain_year", "heat from the loop into the tank", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.into_tank().into())
    })
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.tank_loss_year", "heat lost by the tank", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.tank_loss().into())
    })
    .by(
        "hourly-year",
        "UA (T − {room}) over the hours, UA by {insulation}",
        &[("room", "plumbing.tank_room"), ("insulation", "plumbing.tank_insulation")],
    ),
    Figure::new("plumbing.pipe_loss_year", "heat lost by the pipe", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.pipe_loss().into())
    })
    .by("hourly-year", "to the outside air while the pump runs", &[]),
    Figure::new("plumbing.hot_pipe_loss", "heat lost by the pipe to the tank", Conductance, &PIPES, |s, _| {
        Ok(pipes(s)?.hot.into())
    })
    .by("pipe-loss", "sum over runs of length/(ln(r2/r1)/(2π k) + 1/(2π r2 h))", &[]),
    Figure::new("plumbing.cold_pipe_loss", "heat lost by the pipe to the panels", Conductance, &PIPES, |s, _| {
        Ok(pipes(s)?.cold.into())
    })
    .by("pipe-loss", "sum over runs of length/(ln(r2/r1)/(2π k) + 1/(2π r2 h))", &[]),
    Figure::new("plumbing.pump_hours", "hours the pump runs", Count, &YEAR, |s, _| Ok(hours(whole(s)?.pump_time())))
        .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.pump_energy", "electricity of the pump", Energy, &YEAR, |s, _| {
        Ok(whole(s)?.pump_energy().into())
    })
    .shown_in(TradeUnits::ELECTRICITY)
    .by("hourly-year", "{P} while it runs", &[("P", "plumbing.pump_power")]),
    Figure::new("plumbing.pump_starts", "starts of the pump", Count, &YEAR, |s, _| {
        Ok(plain(Count, f64::from(whole(s)?.starts())))
    })
    .by("hourly-year", "counted; short cycling in the morning is usual", &[]),
    Figure::new("plumbing.tank_peak", "hottest the tank gets", Temperature, &YEAR, |s, _| {
        Ok(real(s)?.outcome.peak_tank.temperature.into())
    })
    .by("hourly-year", "hottest layer of the year; loop limit {T}", &[("T", "plumbing.tank_limit")]),
    Figure::new("plumbing.tank_peak_month", "hottest the tank gets, month", Temperature, &YEAR, |s, key| {
        Ok(real(s)?.outcome.months[month(key)].peak_tank().into())
    })
    .axis(Axis::Month)
    .by("hourly-year", "hottest layer of the month", &[]),
    Figure::new("plumbing.outlet_peak", "hottest the panels' outlet gets", Temperature, &YEAR, |s, _| {
        Ok(real(s)?.outcome.peak_collector.temperature.into())
    })
    .by("hourly-year", "by the straight line; {T} judges materials", &[("T", "absorber.stagnation_worst")]),
    Figure::new("plumbing.growth_hours", "hours with water at 25 to 45 °C", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.growth_time()))
    })
    .by("hourly-year", "any layer of the tank between them", &[]),
    Figure::new("plumbing.sixty_hours", "hours the tank's top is at 60 °C", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.top_hot_time()))
    })
    .by("hourly-year", "highest layer at 60 °C or more", &[]),
    Figure::new("plumbing.sixty_all_hours", "hours all the tank is at 60 °C", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.all_hot_time()))
    })
    .by("hourly-year", "lowest layer at 60 °C or more", &[]),
    Figure::new("plumbing.hundred_hours", "hours the tank's top is at 100 °C", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.boiling_time()))
    })
    .by("hourly-year", "highest layer at 100 °C or more", &[]),
    Figure::new("plumbing.sixty_days", "days with all the tank at 60 °C", Count, &YEAR, |s, _| {
        Ok(Quantity::count(real(s)?.passes().filter(|pass| *pass).count()).into())
    })
    .by("hourly-year", "every layer at 60 °C or more for an hour of the day", &[]),
    Figure::new("plumbing.sixty_gap", "most days in a row without that", Count, &YEAR, |s, _| {
        Ok(Quantity::count(real(s)?.longest_without_pass()).into())
    })
    .by("hourly-year", "days between two days with all the tank at 60 °C", &[]),
    Figure::new("plumbing.stagnation_hours", "hours the panels stand hot, locked", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.locked_time()))
    })
    .by("hourly-year", "pump locked by tank or panel, panel hot enough to start it", &[]),
    Figure::new("plumbing.steam_hours", "hours the panels' outlet is at 100 °C (212 °F)", Count, &YEAR, |s, _| {
        Ok(hours(real_whole(s)?.steam_time()))
    })
    .by("hourly-year", "by the straight line: rough above the usual excess", &[]),
    Figure::word("plumbing.worst_week", "worst week", &YEAR, |s, _| worst_week(s)).by(
        "hourly-year",
        "seven days with the most auxiliary heat and lack",
        &[],
    ),
    Figure::word("plumbing.year_basis", "the year rests on", &YEAR, |s, _| {
        Ok(Value::Text(basis::words(year(s)?.format).to_owned()))
    })
    .by("hourly-year", "the hours that were simulated", &[]),
    Figure::new("plumbing.year_residual", "what the year's energy does not close by", Percent, &YEAR, |s, _| {
        let outcome = &year(s)?.outcome;
        Ok(plain(Percent, outcome.tank_residual.max(outcome.collector_residual)))
    })
    .by("hourly-year", "|sum| over sum of magnitudes, tank and panels, the worse", &[]),
    Figure::new("plumbing.solar_fraction_month", "solar share, month", Percent, &YEAR, |s, key| {
        Ok(plain(Percent, of_month(s, key)?.solar_fraction().ok_or_else(no_load)?))
    })
    .axis(Axis::Month)
    .by("hourly-year", "1 − (auxiliary + lacking)/load", &[]),
    Figure::new("plumbing.delivered_month", "heat from the sun, month", Energy, &YEAR, |s, key| {
        Ok(from_sun(of_month(s, key)?).into())
    })
    .axis(Axis::Month)
    .by("hourly-year", "load less auxiliary heat and lack", &[]),
    Figure::new("plumbing.auxiliary_month", "heat of the further heater, month", Energy, &YEAR, |s, key| {
        Ok(of_month(s, key)?.auxiliary().into())
    })
    .axis(Axis::Month)
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.shortage_month", "heat that was lacking, month", Energy, &YEAR, |s, key| {
        Ok(of_month(s, key)?.shortage().into())
    })
    .axis(Axis::Month)
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.loss_month", "heat lost by tank and pipe, month", Energy, &YEAR, |s, key| {
        let month = of_month(s, key)?;
        Ok((month.tank_loss() + month.pipe_loss()).into())
    })
    .axis(Axis::Month)
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.pump_hours_month", "hours the pump runs, month", Count, &YEAR, |s, key| {
        Ok(hours(of_month(s, key)?.pump_time()))
    })
    .axis(Axis::Month)
    .by("hourly-year", "sum over the hours", &[]),
    Figure::new("plumbing.correlation_fraction", "solar share by the correlation", Percent, &CORRELATION, |s, _| {
        Ok(plain(Percent, correlation(s)?.fraction().ok_or_else(no_load)?.si()))
    })
    .by("monthly-correlation", "sum of f × load / {wanted}", &[("wanted", "plumbing.load_year")]),
    Figure::new("plumbing.correlation_difference", "simulated less correlated share", Percent, &YEAR, |s, _| {
        difference(s)
    })
    .by(
        "monthly-correlation",
        "{simulated} − {correlated}",
        &[("simulated", "plumbing.solar_fraction_year"), ("correlated", "plumbing.correlation_fraction")],
    ),
    Figure::word("plumbing.year_notes", "where the correlation does not hold", &CORRELATION, |s, _| {
        Ok(Value::Text(correlation(s)?.notes()))
    })
    .by("monthly-correlation", "months outside the published range", &[]),
    Figure::new("plumbing.correlation_month", "share by the correlation, month", Percent, &CORRELATION, |s, key| {
        Ok(plain(Percent, part(s, key)?.fraction))
    })
    .axis(Axis::Month)
    .by("monthly-correlation", "f = 1.029 Y − 0.065 X − 0.245 Y² + 0.0018 X² + 0.0215 Y³, held to 0 … 100 %", &[]),
    Figure::new("plumbing.loss_ratio_month", "loss over load (correlation), month", Number, &CORRELATION, |s, key| {
        Ok(plain(Number, part(s, key)?.loss_ratio))
    })
    .axis(Axis::Month)
    .by(
        "monthly-correlation",
        "X = A {loss} {F} (11.6 + 1.18 {T} + 3.86 T_m − 2.32 T_a) Δt / load × (tank/75)^−0.25",
        &[("loss", "plumbing.inlet_loss"), ("F", "plumbing.exchanger_factor"), ("T", "plumbing.tap")],
    ),
    Figure::new("plumbing.gain_ratio_month", "gain over load (correlation), month", Number, &CORRELATION, |s, key| {
        Ok(plain(Number, part(s, key)?.gain_ratio))
    })
    .axis(Axis::Month)
    .by(
        "monthly-correlation",
        "Y = A {gain} {F} 0.96 × sun of the month / load",
        &[("gain", "plumbing.optical_gain"), ("F", "plumbing.exchanger_factor")],
    ),
];

const AUXILIARY: (&str, &str) = ("auxiliary", "plumbing.auxiliary_year");
const LACKING: (&str, &str) = ("lacking", "plumbing.shortage_year");
