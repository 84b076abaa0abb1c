//! The plots of the absorber: temperature across the sheet, efficiency with working points, flow of each riser.
//!
//! The drawing to scale is in `drawing`.

use crate::model::{Chart, ChartAxis, Fig};
use crate::stage::Solution;
use crate::units::Kind;
use crate::units::si::{Dimension, HeatFluxDensity, TemperatureInterval, celsius, difference, in_celsius};

/// Points of a line.
const POINTS: u32 = 60;

/// The sheet from one riser to the next, at the outlet end: hottest in the middle.
///
/// T = T_e + (T_root − T_e) cosh(m x)/cosh(m a), x from the middle, a half the free width (Duffie & Beckman 6.5, from
/// memory).
pub fn fin_profile(s: &Solution) -> Fig<Chart> {
    let collector = s.absorber.collector.as_ref().map_err(Clone::clone)?;
    let point = &s.absorber.heat.as_ref().map_err(Clone::clone)?.point;
    let (pitch, base) = (collector.riser_pitch.si(), collector.fin_base.si());
    let free = 0.5 * (pitch - base);
    let no_gain = point.conditions.ambient.si() + point.absorbed.si() / point.total_loss.si();
    let root = point.root_at_outlet.si();
    let at = |place: f64| {
        let from_middle = (place - 0.5 * pitch).abs();
        let reach = (point.fin_parameter * free).cosh();
        let beyond = if from_middle >= free { 1.0 } else { (point.fin_parameter * from_middle).cosh() / reach };
        no_gain + (root - no_gain) * beyond
    };
    let sheet = (0..=POINTS).map(|step| pitch * f64::from(step) / f64::from(POINTS)).map(|x| (x, at(x))).collect();
    let liquid = point.outlet.si();
    let top = point.middle_at_outlet.si().max(root);
    let x = ChartAxis::of("from riser to riser", Kind::Length, (0.0, pitch));
    let y = ChartAxis::of("at the outlet end", Kind::Temperature, (liquid - 1.0, top + 1.0));
    Ok(Chart::new("temperature across the sheet", x, y)
        .line("sheet", sheet)
        .line("liquid", vec![(0.0, liquid), (pitch, liquid)]))
}

/// Mean liquid at which the months are marked, °C: a tank in use (project rule).
const TANK: f64 = 50.0;

/// Efficiency over the difference of mean liquid and air, in three suns, with the coldest and the warmest month.
pub fn efficiency_curve(s: &Solution) -> Fig<Chart> {
    let heat = s.absorber.heat.as_ref().map_err(Clone::clone)?;
    let most = heat.curve.points.iter().map(|point| point.difference.si()).fold(60.0, f64::max);
    let x = ChartAxis::of("mean liquid above air", Kind::TemperatureDifference, (0.0, most));
    let y = ChartAxis::of("of the sun on the absorber", Kind::Percent, (0.0, 1.0));
    let mut chart = Chart::new("efficiency", x, y);
    for sun in [1000.0, 700.0, 400.0] {
        let at = |step: u32| {
            let dt = most * f64::from(step) / f64::from(POINTS);
            (dt, heat.curve.efficiency(TemperatureInterval::from_si(dt), HeatFluxDensity::from_si(sun)))
        };
        let points = (0..=POINTS).map(at).filter(|(_, eta)| *eta >= 0.0).collect();
        chart = chart.line(format!("at {sun} W/m²"), points);
    }
    let point = &heat.point;
    let working = difference(point.mean_fluid, point.conditions.ambient).si();
    chart = chart.mark("working point", (working, working));
    if let Ok(weather) = &s.site.weather {
        let air = weather.monthly.iter().map(|month| in_celsius(*month));
        let (coldest, warmest) =
            air.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), air| (low.min(air), high.max(air)));
        let above = |air: f64| difference(celsius(TANK), celsius(air)).si().clamp(0.0, most);
        chart = chart.mark("liquid at 50 °C, warmest to coldest month", (above(warmest), above(coldest)));
    }
    Ok(chart)
}

/// Half the width of a bar.
const HALF_BAR: f64 = 0.35;

/// Flow of each riser against the mean, as bars from the inlet end.
pub fn riser_flows(s: &Solution) -> Fig<Chart> {
    let flows = &s.absorber.flow.as_ref().map_err(Clone::clone)?.working.relative_flows;
    let count = flows.len() as f64;
    let most = flows.iter().copied().fold(1.0, f64::max);
    let least = flows.iter().copied().fold(0.0, f64::min);
    let bar = |(index, share): (usize, &f64)| {
        let riser = index as f64 + 1.0;
        let edge = |x: f64, on: bool| (x, if on { share.min(0.0) } else { 0.0 }, if on { share.max(0.0) } else { 0.0 });
        let (left, right) = (riser - HALF_BAR, riser + HALF_BAR);
        [edge(left, false), edge(left, true), edge(right, true), edge(right, false)]
    };
    let bars = flows.iter().enumerate().flat_map(bar).collect();
    let x = ChartAxis::of("riser from the inlet", Kind::Count, (0.5, count + 0.5));
    let y = ChartAxis::of("flow against the mean", Kind::Percent, (least, most * 1.05));
    Ok(Chart::new("flow of each riser", x, y).band("riser", bars).line("mean", vec![(0.5, 1.0), (count + 0.5, 1.0)]))
}
