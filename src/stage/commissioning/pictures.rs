//! The plots of commissioning: efficiency points beside both lines, day by day what came beside what was expected.

use super::log_rows::LISTED;
use super::performance::EfficiencyPoint;
use crate::model::{Chart, ChartAxis, Fig, Why};
use crate::stage::Solution;
use crate::units::Kind;
use crate::units::si::Dimension;

/// Points of a line.
const STEPS: u32 = 40;
/// Room above and below the points, of the sun.
const ROOM: f64 = 0.05;
/// Half the width of an efficiency point, of the axis.
const HALF_POINT: f64 = 0.004;
/// Half the width of a day's bar, and its distance from the day's middle, in days.
const HALF_BAR: f64 = 0.18;
const BESIDE: f64 = 0.2;

/// Each steady window as a bar of twice its doubt, the line through all, and the line that was computed at their sun.
pub fn efficiency(s: &Solution) -> Fig<Chart> {
    let logged = &s.commissioning.logged;
    let points = logged.points.as_ref().map_err(Why::clone)?;
    let none = || Why::out_of_range("the log has no steady window");
    let widest = points.iter().map(EfficiencyPoint::reduced).reduce(f64::max).ok_or_else(none)?;
    let sun = points.iter().map(|point| point.straight).sum::<f64>() / points.len() as f64;
    let most = 1.15 * widest.max(0.01);
    let curve = &s.absorber.heat.as_ref().map_err(Why::clone)?.curve;
    let along = |of: &dyn Fn(f64) -> f64| -> Vec<(f64, f64)> {
        let places = (0..=STEPS).map(|step| most * f64::from(step) / f64::from(STEPS));
        places.map(|x| (x, of(x))).collect()
    };
    let bar = |point: &EfficiencyPoint| {
        let (value, doubt) = (point.efficiency.value, 2.0 * point.efficiency.uncertainty);
        (point.reduced(), value - doubt, value + doubt)
    };
    let x = ChartAxis::of("liquid over air / sun, m²K/W", Kind::Number, (0.0, most));
    let lowest = points.iter().map(|point| bar(point).1).fold(curve.eta0, f64::min);
    let highest = points.iter().map(|point| bar(point).2).fold(curve.eta0, f64::max);
    let y = ChartAxis::of("of the sun on the absorber", Kind::Percent, ((lowest - ROOM).max(0.0), highest + ROOM));
    let mut chart = Chart::new("efficiency", x, y)
        .bars("steady windows, 2 doubts up and down", HALF_POINT * most, points.iter().map(bar).collect())
        .line("computed from the drawing", along(&|x| curve.eta0 - (curve.a1.si() + curve.a2 * x * sun) * x));
    if let Ok(line) = &logged.fitted {
        chart = chart.line("measured", along(&|x| line.eta0.value - line.loss.value * x));
    }
    Ok(chart)
}

/// The last days: heat that came beside heat that was expected.
pub fn days(s: &Solution) -> Fig<Chart> {
    let logged = &s.commissioning.logged;
    let days = logged.days.as_ref().map_err(Why::clone)?;
    let expected = logged.expected.as_ref().map_err(Why::clone)?;
    let first = days.len().saturating_sub(LISTED);
    let last = || days.iter().zip(expected).skip(first).enumerate();
    let most = last().map(|(_, (day, heat))| day.gained.si().max(heat.si())).fold(0.0, f64::max);
    let at = |index: usize, side: f64| (index + 1) as f64 + side * BESIDE;
    let came = last().map(|(index, (day, _))| (at(index, -1.0), 0.0, day.gained.si())).collect();
    let wanted = last().map(|(index, (_, heat))| (at(index, 1.0), 0.0, heat.si().max(0.0))).collect();
    let x = ChartAxis::of("day of the log", Kind::Count, (0.5, (days.len() - first) as f64 + 0.5));
    Ok(Chart::new("heat by day", x, ChartAxis::of("a day", Kind::Energy, (0.0, most)))
        .bars("measured", HALF_BAR, came)
        .bars("expected", HALF_BAR, wanted))
}
