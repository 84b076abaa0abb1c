//! The pictures of the year as plots: months as bars, the worst week's tank, the worst days minute by minute.

use super::from_sun;
use super::worst_days::{Curve, WorstDays};
use super::worst_pressures::{Rest, Under, along};
use crate::model::{Chart, ChartAxis, Fig, Why};
use crate::stage::Solution;
use crate::stage::plumbing::closed;
use crate::units::Kind;
use crate::units::si::{Dimension, Temperature};

/// Half the width of a bar, in months.
const HALF_BAR: f64 = 0.3;
const DAY: f64 = 86_400.0;

/// Heat of each month: from the sun, from the further heater, lacking, one on the other up to the load.
pub fn months(solution: &Solution) -> Fig<Chart> {
    let year = solution.studies.year.as_deref().map_err(Why::clone)?;
    let months = &year.outcome.months;
    // With an element in the tank the losses can make the sun's share negative: then the bar begins at nothing.
    let sun = |index: usize| from_sun(&months[index]).si().max(0.0);
    let bought = |index: usize| sun(index) + months[index].auxiliary().si();
    let lacked = |index: usize| bought(index) + months[index].shortage().si();
    let most = (0..12).map(|index| lacked(index).max(months[index].load().si())).fold(0.0, f64::max);
    let x = ChartAxis::months();
    let at = |of: &dyn Fn(usize) -> (f64, f64)| -> Vec<(f64, f64, f64)> {
        (0..12).map(|index| (index as f64, of(index).0, of(index).1)).filter(|(_, low, high)| high > low).collect()
    };
    let mut chart = Chart::new("heat by month", x, ChartAxis::of("a month", Kind::Energy, (0.0, most)))
        .bars("from the sun", HALF_BAR, at(&|index| (0.0, sun(index))))
        .bars("further heater", HALF_BAR, at(&|index| (sun(index), bought(index))));
    let lacking = at(&|index| (bought(index), lacked(index)));
    if !lacking.is_empty() {
        chart = chart.bars("lacking", HALF_BAR, lacking);
    }
    Ok(chart.line("wanted", (0..12).map(|index| (index as f64, months[index].load().si())).collect()))
}

/// The tank's highest and lowest layer through the worst week, and the panels' outlet.
pub fn worst_week(solution: &Solution) -> Fig<Chart> {
    let year = solution.studies.year.as_deref().map_err(Why::clone)?.of_real_hours()?;
    let first = year.outcome.worst_week.first_day;
    let hours: Vec<_> = (first..first + 7).flat_map(|day| year.day(day)).collect();
    let curve = |of: &dyn Fn(usize) -> Temperature| -> Vec<(f64, f64)> {
        (0..hours.len()).map(|hour| ((hour + 1) as f64 * 3600.0, of(hour).si())).collect()
    };
    let top = curve(&|hour| hours[hour].top);
    let bottom = curve(&|hour| hours[hour].lowest);
    let outlet = curve(&|hour| hours[hour].collector);
    Ok(plot(
        "the worst week",
        7.0 * DAY,
        &[("top of the tank", top), ("bottom of the tank", bottom), ("panels", outlet)],
    ))
}

/// The empty house.
pub fn empty(solution: &Solution) -> Fig<Chart> {
    let days = worst(solution)?;
    let span = super::worst_days::EMPTY_DAYS as f64 * DAY;
    Ok(plot("empty house in a clear midsummer", span, &temperatures(&days.empty)))
}

/// The power cut.
pub fn cut(solution: &Solution) -> Fig<Chart> {
    let chart = plot("power cut at noon of a clear day", DAY, &temperatures(&worst(solution)?.cut));
    Ok(chart.mark("no electricity", (0.5 * DAY, DAY)))
}

/// The night.
pub fn night(solution: &Solution) -> Fig<Chart> {
    let (at, curve) = worst(solution)?.night.as_ref().map_err(Why::clone)?;
    Ok(plot(format!("coldest clear night, {at}"), DAY, &temperatures(curve)))
}

/// The pressure of the empty house's fortnight.
pub fn empty_pressure(solution: &Solution) -> Fig<Chart> {
    let span = super::worst_days::EMPTY_DAYS as f64 * DAY;
    pressure(solution, "pressure, empty house", span, &along(solution, &worst(solution)?.empty, Rest::AsTheTank)?)
}

/// The pressure on the day of the power cut.
pub fn cut_pressure(solution: &Solution) -> Fig<Chart> {
    let moments = along(solution, &worst(solution)?.cut, Rest::AsTheTank)?;
    Ok(pressure(solution, "pressure, power cut at noon", DAY, &moments)?.mark("no electricity", (0.5 * DAY, DAY)))
}

/// The pressure of the coldest night.
pub fn night_pressure(solution: &Solution) -> Fig<Chart> {
    let (_, curve) = worst(solution)?.night.as_ref().map_err(Why::clone)?;
    pressure(solution, "pressure, coldest clear night", DAY, &along(solution, curve, Rest::AsTheAir)?)
}

fn pressure(solution: &Solution, title: &str, span: f64, moments: &[Under]) -> Fig<Chart> {
    let network = solution.plumbing.layout.network.as_ref().map_err(Why::clone)?;
    let relief = closed::relief(&solution.inputs, network)?.si();
    let of = |read: &dyn Fn(&Under) -> f64| -> Vec<(f64, f64)> {
        moments.iter().map(|now| (now.seconds, read(now))).collect()
    };
    let least = moments.iter().map(|now| now.at_top.si()).fold(0.0, f64::min);
    let y = ChartAxis::of("gauge pressure", Kind::Pressure, (least, 1.05 * relief));
    Ok(Chart::new(title, time(span), y)
        .line("at the vessel or the mains", of(&|now| now.pressure.si()))
        .line("at the top of the loop", of(&|now| now.at_top.si()))
        .line("relief setting", vec![(0.0, relief), (span, relief)]))
}

fn worst(solution: &Solution) -> Fig<&WorstDays> {
    solution.studies.worst_days.as_deref().map_err(Why::clone)
}

fn temperatures(curve: &Curve) -> [(&'static str, Vec<(f64, f64)>); 3] {
    let of = |read: &dyn Fn(usize) -> f64| -> Vec<(f64, f64)> {
        curve.moments.iter().enumerate().map(|(index, now)| (now.seconds, read(index))).collect()
    };
    [
        ("plate", of(&|index| curve.moments[index].plate)),
        ("top of the tank", of(&|index| curve.moments[index].tank)),
        ("air", of(&|index| curve.moments[index].air)),
    ]
}

const fn time(span: f64) -> ChartAxis {
    ChartAxis::of("time", Kind::Time, (0.0, span))
}

fn plot(title: impl Into<String>, span: f64, curves: &[(&str, Vec<(f64, f64)>)]) -> Chart {
    let all = || curves.iter().flat_map(|(_, points)| points.iter().map(|point| point.1));
    let (least, most) = (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
    let y = ChartAxis::of("temperature", Kind::Temperature, (least.min(most - 1.0), most));
    let mut chart = Chart::new(title, time(span), y);
    for (label, points) in curves {
        chart = chart.line(*label, points.clone());
    }
    chart
}
