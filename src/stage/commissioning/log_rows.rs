//! The figures of the logger file: its faults and days, the efficiency points, their line and what it means.

use std::sync::Arc;

use super::log::Judged;
use super::log_entries as e;
use super::logged::{CLOCK, DAYS, DRIFT, EXPECTED, FILE, FIT, HEAT_PER_AREA, POINTS, POWER, PUMP, STAGNATION};
use super::performance::{Bend, Compared, EfficiencyPoint, Fitted};
use crate::logger::{Log, stamp};
use crate::model::{Fig, TradeUnits, Value, Why};
use crate::physics::night::clock_drift;
use crate::stage::{Axis, Figure, Solution};
use crate::units::Kind::{Count, Energy, Irradiation, LossCoefficient, Number, Percent, Temperature, Time as Duration};
use crate::units::Quantity;
use crate::units::si::{Dimension, Energy as Joule, HeatTransfer, Time};

/// A British thermal unit of the international table, J.
const BTU: f64 = 1055.056;
/// What two monitored systems of 5.9 m² brought in a day, 25 to 30 kBtu, in the middle, J/m² (verified).
const YARDSTICK: f64 = 27.5e3 * BTU / 5.9;
/// Most days and points that are listed one by one: the last ones.
pub const LISTED: usize = 31;

fn log(s: &Solution) -> Fig<Arc<Log>> {
    s.commissioning.logged.log.clone()
}

fn days(s: &Solution) -> Fig<&Vec<Judged>> {
    s.commissioning.logged.days.as_ref().map_err(Why::clone)
}

/// The days that count; none is a reason.
fn counting(s: &Solution) -> Fig<Vec<Judged>> {
    let found: Vec<Judged> = days(s)?.iter().copied().filter(Judged::counts).collect();
    let none = || Why::out_of_range("no day of the log has 95 % of its daylight");
    if found.is_empty() { Err(none()) } else { Ok(found) }
}

fn points(s: &Solution) -> Fig<&Vec<EfficiencyPoint>> {
    s.commissioning.logged.points.as_ref().map_err(Why::clone)
}

fn fitted(s: &Solution) -> Fig<Fitted> {
    s.commissioning.logged.fitted.clone()
}

fn compared(s: &Solution) -> Fig<Compared> {
    s.commissioning.logged.compared.clone()
}

fn expected(s: &Solution) -> Fig<&Vec<Joule>> {
    s.commissioning.logged.expected.as_ref().map_err(Why::clone)
}

/// Heat of the days that count over what was expected of them.
fn log_share(s: &Solution) -> Fig<f64> {
    let counting = days(s)?.iter().zip(expected(s)?).filter(|(day, _)| day.counts());
    let (gained, wanted) = counting.fold((0.0, 0.0), |sum, (day, heat)| (sum.0 + day.gained.si(), sum.1 + heat.si()));
    if wanted > 0.0 { Ok(gained / wanted) } else { Err(Why::out_of_range("no heat was expected on a day that counts")) }
}

/// Mean over the days that count.
fn daily(s: &Solution, of: fn(&Judged) -> f64) -> Fig<f64> {
    let days = counting(s)?;
    Ok(days.iter().map(of).sum::<f64>() / days.len() as f64)
}

/// Mean heat of a day for each square metre of absorber, J/m².
fn heat_per_area(s: &Solution) -> Fig<f64> {
    let area = s.absorber.collector.as_ref().map_err(Why::clone)?.absorber_area().si();
    let count = crate::stage::plumbing::panel_count(&s.inputs)? as f64;
    Ok(daily(s, |day| day.gained.si())? / (area * count))
}

/// The item of a listed row, counted from the last ones.
fn listed<'a, T>(all: &'a [T], key: &str, id: &str) -> Fig<&'a T> {
    let first = all.len().saturating_sub(LISTED);
    let number: Option<usize> = key.parse().ok();
    let item = number.and_then(|number| all[first..].get(number.checked_sub(1)?));
    item.ok_or_else(|| Why::missing(format!("{id}.{key}")))
}

/// How many rows there are of days and of points.
pub fn listed_days(s: &Solution) -> usize {
    days(s).map_or(0, |days| days.len().min(LISTED))
}

/// How many rows there are of points.
pub fn listed_points(s: &Solution) -> usize {
    points(s).map_or(0, |points| points.len().min(LISTED))
}

fn day_words(day: &Judged) -> String {
    let kwh = |energy: Joule| energy.si() / 3.6e6;
    let counts = if day.counts() { "" } else { ", does not count" };
    let date = stamp(day.start);
    format!(
        "{}: {:.2} kWh, {:.2} kWh sent to the sky, {:.0} % of daylight, {} starts{counts}",
        &date[..date.len().min(10)],
        kwh(day.gained),
        kwh(day.lost),
        100.0 * day.cover,
        day.starts
    )
}

fn point_words(point: &EfficiencyPoint) -> String {
    let (value, doubt) = (100.0 * point.efficiency.value, 200.0 * point.efficiency.uncertainty);
    format!(
        "{}: {:.0} W/m², liquid {:.1} K over air, {value:.1} ± {doubt:.1} %",
        stamp(point.at),
        point.sun,
        point.excess
    )
}

fn bend_words(bend: Bend) -> String {
    match bend {
        Bend::NotSought => "not sought: it wants ten points over a wide span".to_owned(),
        Bend::NotResolved => "not told from a straight line: no finding".to_owned(),
        Bend::Found(a2) => format!("a₂ = {:.4} ± {:.4} W/(m²·K²)", a2.value, 2.0 * a2.uncertainty),
    }
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("commissioning.log_channels", "columns found", &FILE, |s, _| {
        let words: Vec<&str> = log(s)?.channels.iter().map(|channel| channel.word()).collect();
        Ok(Value::Text(if words.is_empty() { "none but the time".to_owned() } else { words.join(", ") }))
    })
    .by("log-file", "columns of {file} that are named and there", &[("file", "commissioning.log_file")]),
    Figure::word("commissioning.log_span", "time covered", &FILE, |s, _| {
        let (from, to) = log(s)?.span;
        Ok(Value::Text(format!("{} to {}", stamp(from), stamp(to))))
    })
    .by("log-file", "first and last row that count", &[]),
    Figure::new("commissioning.log_rows", "rows that count", Count, &FILE, |s, _| {
        Ok(Quantity::new(Count, log(s)?.used as f64).into())
    })
    .by("log-file", "rows in order of time, doubled ones once", &[]),
    Figure::new("commissioning.log_step", "step of the log", Duration, &FILE, |s, _| {
        Ok(Time::from_si(log(s)?.step).into())
    })
    .by("log-file", "median from row to row", &[]),
    Figure::word("commissioning.log_faults", "faults of the log", &FILE, |s, _| {
        let told = log(s)?.faults.sentences();
        Ok(Value::Text(if told.is_empty() { "none seen".to_owned() } else { told.join("; ") }))
    })
    .by("log-faults", "each sort of fault once, with its count and first line", &[]),
    Figure::new("commissioning.clock_error", "clock ahead of the sun", Duration, &CLOCK, |s, _| {
        Ok(s.commissioning.logged.clock.clone()?.into())
    })
    .by(
        "log-clock",
        "middle of clear days' sun − computed middle, clock ahead of universal time by {clock}",
        &[("clock", "commissioning.log_clock")],
    ),
    Figure::new("commissioning.clock_drift", "clock may have drifted by", Duration, &DRIFT, |s, _| {
        let (from, to) = log(s)?.span;
        Ok(clock_drift(s.inputs.get(&e::CRYSTAL)?, Time::from_si(to - from)).into())
    })
    .by("log-clock", "{crystal} millionths of the time covered", &[("crystal", "commissioning.log_crystal")]),
    Figure::new("commissioning.log_days", "days that count", Count, &DAYS, |s, _| {
        Ok(Quantity::count(days(s)?.iter().filter(|day| day.counts()).count()).into())
    })
    .by("log-heat", "days with 95 % of their daylight", &[]),
    Figure::new("commissioning.log_heat", "heat of a day, mean", Energy, &DAYS, |s, _| {
        Ok(Joule::from_si(daily(s, |day| day.gained.si())?).into())
    })
    .by("log-heat", "∫ ρ c_p q (T_out − T_in) dt where it is above zero", &[]),
    Figure::new(
        "commissioning.log_heat_per_area",
        "heat of a day over absorber",
        Irradiation,
        &HEAT_PER_AREA,
        |s, _| Ok(Quantity::new(Irradiation, heat_per_area(s)?).into()),
    )
    .by("log-heat", "{heat} / absorber area of all panels", &[("heat", "commissioning.log_heat")]),
    Figure::new("commissioning.log_yardstick", "that heat / two monitored homes", Percent, &HEAT_PER_AREA, |s, _| {
        Ok(Quantity::percent(heat_per_area(s)? / YARDSTICK).into())
    })
    .by("yardstick", "{heat} / (27.5 kBtu on 5.9 m²)", &[("heat", "commissioning.log_heat_per_area")]),
    Figure::new("commissioning.log_lost", "heat sent to the sky a day, mean", Energy, &DAYS, |s, _| {
        Ok(Joule::from_si(daily(s, |day| day.lost.si())?).into())
    })
    .by("log-heat", "∫ ρ c_p q (T_in − T_out) dt where it is above zero", &[]),
    Figure::new("commissioning.log_pump_energy", "pump, electricity of a day", Energy, &PUMP, |s, _| {
        let power = s.inputs.get(&e::PUMP_POWER)?;
        Ok(Joule::from_si(daily(s, |day| day.pump.si())? * power.si()).into())
    })
    .shown_in(TradeUnits::ELECTRICITY)
    .by("log-heat", "{P} × time the pump ran", &[("P", "commissioning.pump_power")]),
    Figure::new("commissioning.log_starts", "most starts of the pump in a day", Count, &DAYS, |s, _| {
        let most = counting(s)?.iter().map(|day| day.starts).max().unwrap_or(0);
        Ok(Quantity::new(Count, f64::from(most)).into())
    })
    .by("log-heat", "changes from off to on, the largest of the days that count", &[]),
    Figure::word("commissioning.log_day", "day of the log", &DAYS, |s, key| {
        Ok(Value::Text(day_words(listed(days(s)?, key, "commissioning.log_day")?)))
    })
    .axis(Axis::LogDay)
    .by("log-heat", "the last 31 days", &[]),
    Figure::new("commissioning.day_expected", "heat expected of a day of the log", Energy, &EXPECTED, |s, key| {
        Ok((*listed(expected(s)?, key, "commissioning.day_expected")?).into())
    })
    .axis(Axis::LogDay)
    .by(
        "log-expected",
        "A Σ (η₀ K G − a₁ ΔT − a₂ ΔT²) t while liquid moves; η₀ = {η₀}",
        &[("η₀", "absorber.eta0")],
    ),
    Figure::new("commissioning.log_share", "heat of the log / expected", Percent, &EXPECTED, |s, _| {
        Ok(Quantity::percent(log_share(s)?).into())
    })
    .by("log-expected", "{heat} / expected, over the days that count", &[("heat", "commissioning.log_heat")]),
    Figure::new("commissioning.points", "efficiency points", Count, &POINTS, |s, _| {
        Ok(Quantity::count(points(s)?.len()).into())
    })
    .by("efficiency-points", "steady windows with the sun within 30° of straight on", &[]),
    Figure::word("commissioning.point", "efficiency point", &POINTS, |s, key| {
        Ok(Value::Text(point_words(listed(points(s)?, key, "commissioning.point")?)))
    })
    .axis(Axis::Point)
    .by("efficiency-points", "η = (ρ q c_p (T_out − T_in) + C dT_m/dt)/(A G), the last 31", &[]),
    Figure::new("commissioning.eta0", "measured gain η₀", Percent, &FIT, |s, _| {
        Ok(Quantity::percent(fitted(s)?.eta0.value).into())
    })
    .by("efficiency-line", "η = η₀ − U x through {n} points", &[("n", "commissioning.points")]),
    Figure::new("commissioning.eta0_doubt", "give or take, 95 %", Percent, &FIT, |s, _| {
        Ok(Quantity::percent(2.0 * fitted(s)?.eta0.uncertainty).into())
    })
    .by(
        "efficiency-line",
        "2 √(u_fit² + η₀² (u_sun² + u_flow² + …)), u_sun = {u}",
        &[("u", "commissioning.sun_doubt")],
    ),
    Figure::new("commissioning.loss", "measured loss U", LossCoefficient, &FIT, |s, _| {
        Ok(HeatTransfer::from_si(fitted(s)?.loss.value).into())
    })
    .by("efficiency-line", "slope of η over x = (T_m − T_air)/G", &[]),
    Figure::new("commissioning.loss_doubt", "give or take, 95 %", LossCoefficient, &FIT, |s, _| {
        Ok(HeatTransfer::from_si(2.0 * fitted(s)?.loss.uncertainty).into())
    })
    .by("efficiency-line", "2 √(u_fit² + U² (u_flow² + …)), u_flow = {u}", &[("u", "commissioning.flow_doubt")]),
    Figure::new("commissioning.fit_scatter", "scatter of the points, χ² per point", Number, &FIT, |s, _| {
        Ok(Quantity::number(fitted(s)?.scatter).into())
    })
    .by("efficiency-line", "Σ ((η − line)/u)² / (n − 2); far below 1 the doubts of the points are too large", &[]),
    Figure::word("commissioning.bend", "bend of the line", &FIT, |s, _| Ok(Value::Text(bend_words(fitted(s)?.bend))))
        .by("efficiency-line", "a₂ of a parabola, told only where it is twice its uncertainty", &[]),
    Figure::new("commissioning.eta0_z", "gain, measured less computed over doubt", Number, &FIT, |s, _| {
        Ok(Quantity::number(compared(s)?.eta0_z).into())
    })
    .by(
        "performance-agreement",
        "({measured} − {computed}) / √(u² + u²)",
        &[("measured", "commissioning.eta0"), ("computed", "absorber.eta0")],
    ),
    Figure::new("commissioning.loss_z", "loss, measured less computed over doubt", Number, &FIT, |s, _| {
        Ok(Quantity::number(compared(s)?.loss_z).into())
    })
    .by(
        "performance-agreement",
        "({measured} − (a₁ + a₂ ΔT)) / √(u² + u²)",
        &[("measured", "commissioning.loss")],
    ),
    Figure::word("commissioning.agreement", "measured against computed", &FIT, |s, _| {
        Ok(Value::Text(compared(s)?.sentence(&fitted(s)?)))
    })
    .by(
        "performance-agreement",
        "|z| ≤ 2 agrees: {z0}, {z1}",
        &[("z0", "commissioning.eta0_z"), ("z1", "commissioning.loss_z")],
    ),
    Figure::word("commissioning.causes", "likely causes", &FIT, |s, _| {
        Ok(Value::Text(compared(s)?.causes().to_owned()))
    })
    .by(
        "performance-agreement",
        "by the signs of {z0} and {z1}",
        &[("z0", "commissioning.eta0_z"), ("z1", "commissioning.loss_z")],
    ),
    Figure::new("commissioning.fitted_gain", "measured gain F_R(τα)", Percent, &FIT, |s, _| {
        Ok(fitted(s)?.at_inlet().0.into())
    })
    .by("efficiency-line", "{η₀} / (1 + U A/(2 C))", &[("η₀", "commissioning.eta0")]),
    Figure::new("commissioning.fitted_loss", "measured loss F_R U_L", LossCoefficient, &FIT, |s, _| {
        Ok(fitted(s)?.at_inlet().1.into())
    })
    .by("efficiency-line", "{U} / (1 + U A/(2 C))", &[("U", "commissioning.loss")]),
    Figure::new("commissioning.stagnation", "stagnation by the log", Temperature, &STAGNATION, |s, _| {
        Ok(s.commissioning.logged.stagnation.clone()?.into())
    })
    .by(
        "performance-agreement",
        "T_a + max(1, r) ({worst} − T_a), r = measured over computed η₀/U",
        &[("worst", "absorber.stagnation_worst")],
    ),
    Figure::new("commissioning.power_hours", "hours of the power check", Count, &POWER, |s, _| {
        Ok(Quantity::count(s.commissioning.logged.power.clone()?.hours).into())
    })
    .by("power-check", "hours with 800 W/m², incidence ≤ 30°, wind ≤ 10 m/s, drift ≤ 5 K/h", &[]),
    Figure::new("commissioning.power_ratio", "power measured / promised", Percent, &POWER, |s, _| {
        let none = || Why::out_of_range("no hour of the log counts for the power check");
        Ok(Quantity::percent(s.commissioning.logged.power.clone()?.ratio.ok_or_else(none)?).into())
    })
    .by("power-check", "Σ Q / Σ A (η₀ G − a₁ ΔT − a₂ ΔT²) {f}", &[("f", "commissioning.power_factor")]),
];
