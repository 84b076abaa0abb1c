//! The numbers beside a plot: round steps in the units that are shown, or names.

use super::ChartAxis;
use crate::units::table::{self, Unit};
use crate::units::{Kind, System};

/// A place on an axis with what is written there.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Where, in SI base units.
    pub at: f64,
    /// The number or name.
    pub text: String,
}

/// Steps of angles, degrees.
const ANGLES: [f64; 7] = [5.0, 10.0, 15.0, 30.0, 45.0, 90.0, 180.0];

/// Length of an axis from which on it is divided in feet where feet are used (project rule).
const FEET_FROM: f64 = 6.0;

/// The unit of an axis.
fn unit(axis: &ChartAxis, system: System) -> &'static Unit {
    let (low, high) = axis.range;
    let (table, size) = (table::of(axis.kind), low.abs().max(high.abs()));
    // Beside a plot nobody reads thousandths: from the size of a man on, feet.
    let feet = table.by_symbol("ft").filter(|feet| system == System::Us && feet.from_si(size) >= FEET_FROM);
    feet.filter(|_| axis.kind == Kind::Length).unwrap_or_else(|| table.printed(size, system))
}

/// What the axis measures, with its unit.
pub fn words(axis: &ChartAxis, system: System) -> String {
    match unit(axis, system).symbol {
        symbol if symbol.is_empty() || !axis.names.is_empty() => axis.label.to_owned(),
        symbol => format!("{} in {symbol}", axis.label),
    }
}

/// The bounds that are drawn; never of no extent.
pub fn bounds(axis: &ChartAxis) -> [f64; 2] {
    let (low, high) = axis.range;
    if high > low { [low, high] } else { [low, low + 1.0] }
}

/// At most so many ticks.
pub fn ticks(axis: &ChartAxis, most: u16, system: System) -> Vec<Tick> {
    let [low, high] = bounds(axis);
    if !axis.names.is_empty() {
        let named = (0_u16..).map(|place| low + f64::from(place)).zip(axis.names);
        return named.map(|(at, name)| Tick { at, text: (*name).to_owned() }).collect();
    }
    let unit = unit(axis, system);
    let (low, high) = (unit.from_si(low), unit.from_si(high));
    let (step, decimals) = step(axis.kind, (high - low) / f64::from(most.max(1)));
    let slack = step * 1e-6;
    let mut ticks = Vec::new();
    let mut number = ((low - slack) / step).ceil() * step;
    while number <= high + slack {
        ticks.push(Tick { at: unit.to_si(number), text: format!("{:.decimals$}", number + 0.0) });
        number += step;
    }
    ticks
}

/// The smallest round step that is no smaller than this, with its decimals.
fn step(kind: Kind, least: f64) -> (f64, usize) {
    if kind == Kind::Angle {
        return (ANGLES.into_iter().find(|step| *step >= least).unwrap_or(ANGLES[6]), 0);
    }
    let round = (-6_i32..12).flat_map(|power| [1.0, 2.0, 5.0].map(|digit| (digit * 10_f64.powi(power), power)));
    let found = round.into_iter().find(|(step, _)| *step >= least);
    found.map_or((1e12, 0), |(step, power)| (step, usize::try_from(-power).unwrap_or(0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(axis: &ChartAxis, most: u16, system: System) -> Vec<String> {
        ticks(axis, most, system).into_iter().map(|tick| tick.text).collect()
    }

    #[test]
    fn ticks_are_round_in_the_units_shown_and_no_more_than_wanted() {
        let tilt = ChartAxis::of("tilt", Kind::Angle, (0.0, 90_f64.to_radians()));
        assert_eq!(texts(&tilt, 6, System::Si), ["0", "15", "30", "45", "60", "75", "90"]);
        let pipe = ChartAxis::of("length", Kind::Length, (0.0, 1.0));
        assert_eq!(texts(&pipe, 5, System::Us), ["0", "10", "20", "30"]);
        assert_eq!(words(&pipe, System::Us), "length in in");
        let head = ChartAxis::of("head", Kind::Length, (0.0, 4.0));
        assert_eq!(words(&head, System::Us), "head in ft");
        assert_eq!(texts(&head, 3, System::Us), ["0", "5", "10"]);
        let months = ChartAxis { names: &["J", "F", "M"], ..ChartAxis::of("month", Kind::Count, (0.0, 2.0)) };
        assert_eq!(texts(&months, 1, System::Si), ["J", "F", "M"]);
        let nothing = ChartAxis::of("nothing", Kind::Percent, (0.0, 0.0));
        assert!(ticks(&nothing, 5, System::Si).len() > 1);
    }
}
