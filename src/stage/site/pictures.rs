//! The pictures of the site as plots: sun paths over the skyline, sun on the plane by month, the tilt curve.

use super::entries::{self as e};
use super::sun;
use crate::model::{Chart, ChartAxis, Fig};
use crate::physics::sun::{Direction, declination_cooper, hour_angle};
use crate::stage::Solution;
use crate::units::Kind;
use crate::units::si::{Angle, Dimension, RadiantExposure, Time};

/// Days whose paths are drawn: the solstices and an equinox (Cooper's declination is ±23.45° and about 0).
const DAYS: [(&str, f64); 3] = [("21 June", 172.0), ("equinox", 81.0), ("21 December", 355.0)];
/// Steps of a path, minutes of solar time.
const STEP: u32 = 15;
/// Steps of the skyline, degrees.
const SKYLINE_STEP: u32 = 2;

/// Paths of the sun on three days over the skyline, by true bearing and height.
pub fn sun_paths(solution: &Solution) -> Fig<Chart> {
    let latitude = solution.inputs.get(&e::LATITUDE)?;
    let horizon = sun::skyline(&solution.inputs)?;
    let turn = std::f64::consts::TAU;
    // The bearing opposite to the noon sun is the edge of the picture.
    let left = if latitude.si() < 0.0 { -0.5 * turn } else { 0.0 };
    let mut chart = Chart::new(
        "sun paths over the skyline",
        ChartAxis::of("true bearing", Kind::Angle, (left, left + turn)),
        ChartAxis::of("height", Kind::Angle, (0.0, 0.25 * turn)),
    );
    for (label, day) in DAYS {
        for stretch in path(latitude, day, left) {
            chart = chart.line(label, stretch);
        }
    }
    let skyline = (0..=360)
        .step_by(SKYLINE_STEP as usize)
        .map(|degree: u32| left + f64::from(degree).to_radians())
        .map(|bearing| (bearing, 0.0, horizon.elevation(Angle::from_si(bearing)).si()))
        .collect();
    Ok(chart.band("skyline", skyline))
}

/// The sun's way on a day while it is up, cut where it crosses the edge of the picture.
fn path(latitude: Angle, day: f64, left: f64) -> Vec<Vec<(f64, f64)>> {
    let turn = std::f64::consts::TAU;
    let declination = declination_cooper(day);
    let mut stretches: Vec<Vec<(f64, f64)>> = vec![Vec::new()];
    for minute in (0..=1440).step_by(STEP as usize) {
        let time = Time::from_si(f64::from(minute) * 60.0);
        let sun = Direction::of_sun(latitude, declination, hour_angle(time));
        let bearing = left + (sun.east.atan2(sun.north) - left).rem_euclid(turn);
        let jumps = |last: &[(f64, f64)]| last.last().is_some_and(|point| (point.0 - bearing).abs() > 0.5 * turn);
        let open = stretches.len() - 1;
        if sun.up <= 0.0 || jumps(&stretches[open]) {
            stretches.push(Vec::new());
        }
        if sun.up > 0.0 {
            let open = stretches.len() - 1;
            stretches[open].push((bearing, sun.up.clamp(-1.0, 1.0).asin()));
        }
    }
    stretches.retain(|stretch| stretch.len() > 1);
    stretches
}

/// Sun on the plane by month with the band of the sky models, and with a free view.
pub fn monthly_plane(solution: &Solution) -> Fig<Chart> {
    let sun = solution.site.sun.clone()?;
    let months = |values: [RadiantExposure; 12]| (0..12).map(f64::from).zip(values.map(Dimension::si));
    let most = sun.monthly_high.iter().chain(&sun.monthly_free).map(|value| value.si()).fold(0.0, f64::max);
    let x = ChartAxis::months();
    let band = months(sun.monthly_low).zip(sun.monthly_high).map(|((x, low), high)| (x, low, high.si())).collect();
    Ok(Chart::new("sun on the plane", x, ChartAxis::of("a month", Kind::Irradiation, (0.0, most)))
        .band("cautious to hopeful sky", band)
        .line("middle", months(sun.monthly).collect())
        .line("with a free view", months(sun.monthly_free).collect()))
}

/// The year's sun by tilt, with the tilt entered and the range within 1 % of the best.
pub fn tilt_curve(solution: &Solution) -> Fig<Chart> {
    let found = solution.studies.orientation.clone()?;
    let points: Vec<(f64, f64)> = found.curve.iter().map(|(tilt, total)| (tilt.si(), total.si())).collect();
    let x = ChartAxis::of("tilt", Kind::Angle, (0.0, 90.0_f64.to_radians()));
    let y = ChartAxis::of("a year", Kind::Irradiation, (0.0, found.best.total.si()));
    let chart = Chart::new("sun by tilt", x, y)
        .line("this way of facing", points)
        .mark("within 1 % of the best", (found.best.flattest.si(), found.best.steepest.si()));
    Ok(match solution.inputs.get(&e::TILT) {
        Ok(tilt) => chart.mark("tilt entered", (tilt.si(), tilt.si())),
        Err(_) => chart,
    })
}
