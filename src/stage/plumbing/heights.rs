//! Heights around the loop: high and low points, falls, the head that turns the loop at night.
//!
//! Lives here: sums of rises and what follows from them. Must not live here: friction and flow.

use super::entries::part::{self, PartKind};
use super::entries::run;
use super::network::{Network, Stretch};
use crate::model::{Fig, Inputs};
use crate::stage::absorber::geometry::Harp;
use crate::stage::site::entries::TILT;
use crate::units::si::{Dimension, Length, Ratio};

/// Fall that empties a pipe: 2 cm in each metre (rating criterion, 1/4 in a foot, verified).
pub const LEAST_FALL: f64 = 0.02;
/// Heights that count as equal, m.
const LEVEL: f64 = 1e-6;

/// One place of the loop with its height.
#[derive(Clone, Debug, PartialEq)]
pub struct Vertex {
    /// The place.
    pub place: String,
    /// Its height over the lowest place of the loop.
    pub height: Length,
    /// The run that leads on from here; none from the inlet of a part to its outlet.
    pub run: Option<usize>,
}

/// The loop's heights, once around from the panels' outlet.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// The places in the order of flow.
    pub vertices: Vec<Vertex>,
    /// What the rises add up to once around; zero if they were measured well.
    pub gap: Length,
    /// Height of the panels' outlet.
    pub panels_top: Length,
    /// Height of the panels' inlet.
    pub panels_bottom: Length,
}

/// Outlet of the panels over their inlet: harp and tilt, unless it is entered.
fn part_rise(inputs: &Inputs, network: &Network, harp: &Fig<Harp>, name: &str) -> Fig<Length> {
    match inputs.at(&part::RISE, name) {
        Err(crate::model::Why::Missing(_)) => {}
        given => return given,
    }
    if network.kind(name) != Some(PartKind::Panels) {
        return Ok(Length::default());
    }
    let harp = harp.as_ref().map_err(Clone::clone)?;
    Ok(harp.header_spacing * inputs.get(&TILT)?.si().sin())
}

/// Adds the rises up.
pub fn profile(inputs: &Inputs, network: &Network, harp: &Fig<Harp>) -> Fig<Profile> {
    let mut vertices = Vec::new();
    let mut height = 0.0;
    let mut bottom = 0.0;
    for (index, stretch) in network.circuit.iter().enumerate() {
        vertices.push(Vertex { place: stretch.from.clone(), height: Length::from_si(height), run: Some(index) });
        height += inputs.at(&run::RISE, &stretch.run)?.si();
        bottom = height;
        let rise = part_rise(inputs, network, harp, &stretch.to)?.si();
        if rise != 0.0 {
            vertices.push(Vertex { place: stretch.to.clone(), height: Length::from_si(height), run: None });
        }
        height += rise;
    }
    let lowest = vertices.iter().map(|vertex| vertex.height.si()).fold(0.0, f64::min);
    for vertex in &mut vertices {
        vertex.height -= Length::from_si(lowest);
    }
    Ok(Profile {
        vertices,
        gap: Length::from_si(height),
        panels_top: Length::from_si(-lowest),
        panels_bottom: Length::from_si(bottom - lowest),
    })
}

/// Whether a point is looked for at the top or at the bottom.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extreme {
    /// Higher than what comes before and after: air stays there.
    High,
    /// Lower: liquid stays there.
    Low,
}

impl Profile {
    /// The highest place.
    pub fn top(&self) -> Length {
        self.vertices.iter().map(|vertex| vertex.height).fold(Length::default(), Length::max)
    }

    /// Height at which a part stands: of its outlet, or of the run that it sits along.
    ///
    /// A part along a run lies between the ends of it; the share is its place among the parts along.
    pub fn height_of(&self, network: &Network, name: &str) -> Option<Length> {
        if let Some(vertex) = self.vertices.iter().find(|vertex| vertex.place == name && vertex.run.is_some()) {
            return Some(vertex.height);
        }
        for (index, stretch) in network.circuit.iter().enumerate() {
            if let Some(at) = stretch.along.iter().position(|part| part == name) {
                let (from, to) = self.ends(index);
                let share = if stretch.along.len() > 1 { at as f64 / (stretch.along.len() - 1) as f64 } else { 0.5 };
                return Some(from + (to - from) * share);
            }
        }
        let branch = network
            .branches
            .iter()
            .find(|branch| branch.from == name || branch.to == name || branch.along.iter().any(|part| part == name))?;
        let joint = if branch.to == name || network.kind(&branch.to).is_some_and(PartKind::is_terminal) {
            &branch.from
        } else {
            &branch.to
        };
        self.vertices.iter().find(|vertex| vertex.place == *joint).map(|vertex| vertex.height)
    }

    /// Heights of both ends of a run of the loop.
    pub fn ends(&self, index: usize) -> (Length, Length) {
        let at = self.vertices.iter().position(|vertex| vertex.run == Some(index)).unwrap_or(0);
        let next = self.vertices.get(at + 1).or(self.vertices.first());
        (self.vertices[at].height, next.map_or(self.vertices[at].height, |vertex| vertex.height))
    }

    /// Groups of neighbouring places, all at one height, with a lower (or higher) one on either side.
    pub fn extremes(&self, which: Extreme) -> Vec<Vec<usize>> {
        let count = self.vertices.len();
        let sign = if which == Extreme::High { 1.0 } else { -1.0 };
        let height = |at: usize| sign * self.vertices[at % count].height.si();
        let mut groups = Vec::new();
        for start in 0..count {
            // A group begins where the place before it lies lower.
            if height(start) <= height(start + count - 1) + LEVEL {
                continue;
            }
            let mut end = start;
            while end + 1 < start + count && (height(end + 1) - height(start)).abs() <= LEVEL {
                end += 1;
            }
            if height(end + 1) < height(start) - LEVEL {
                groups.push((start..=end).map(|at| at % count).collect());
            }
        }
        groups
    }

    /// The first high or low point that has none of the parts that serve it, by the name of its place.
    pub fn unserved(&self, network: &Network, which: Extreme, serves: fn(PartKind) -> bool) -> Option<String> {
        let is_served = |group: &Vec<usize>| group.iter().any(|at| self.is_served(network, group, *at, serves));
        let group = self.extremes(which).into_iter().find(|group| !is_served(group))?;
        group.first().map(|at| self.vertices[*at].place.clone())
    }

    /// Whether one place of a level group is served: itself, by what hangs there, or by the runs that meet there.
    fn is_served(&self, network: &Network, group: &[usize], at: usize, serves: fn(PartKind) -> bool) -> bool {
        let served = |name: &str| network.kind(name).is_some_and(serves);
        let vertex = &self.vertices[at];
        let in_group = |place: &String| group.iter().any(|at| self.vertices[*at].place == *place);
        // On a run that lies level with the group a part serves wherever it sits.
        let along = |stretch: &Stretch, nearest: Option<&String>| {
            let level = in_group(&stretch.from) && in_group(&stretch.to) && group.len() > 1;
            nearest.is_some_and(|name| served(name)) || level && stretch.along.iter().any(|name| served(name))
        };
        let after = vertex.run.map(|index| &network.circuit[index]);
        // Only the port at this height counts: the run to a part's other port ends at another height.
        let has_two_ports = self.vertices.iter().filter(|other| other.place == vertex.place).count() > 1;
        let comes_here = !has_two_ports || vertex.run.is_none();
        let before = network.circuit.iter().find(|stretch| comes_here && stretch.to == vertex.place);
        served(&vertex.place)
            || network.hanging_at(&vertex.place).any(served)
            || after.is_some_and(|stretch| along(stretch, stretch.along.first()))
            || before.is_some_and(|stretch| along(stretch, stretch.along.last()))
    }
}

/// A run that drains, with its fall toward the reservoir.
#[derive(Clone, Debug, PartialEq)]
pub struct DrainSlope {
    /// Fall over length.
    pub fall: Ratio,
    /// The run.
    pub run: String,
    /// It drains with the flow; against it before the panels.
    pub forward: bool,
}

/// The runs that drain, by their place in the loop, and whether they drain with the flow.
///
/// Behind the panels a run drains forward to the reservoir, before the panels backward through the pump. What lies
/// between reservoir and pump stays full. Without a reservoir every run counts, forward.
pub fn draining(network: &Network) -> Vec<(usize, bool)> {
    let is_reservoir =
        |place: &str| matches!(network.kind(place), Some(PartKind::Reservoir | PartKind::SealedReservoir));
    let reservoir = network.circuit.iter().position(|stretch| is_reservoir(&stretch.to));
    let is_pump = |name: &str| network.kind(name) == Some(PartKind::Pump);
    let mut list = Vec::new();
    let mut behind_pump = false;
    for (index, stretch) in network.circuit.iter().enumerate() {
        if reservoir.is_none_or(|at| index <= at) {
            list.push((index, true));
            continue;
        }
        behind_pump |= is_pump(&stretch.from) || stretch.along.iter().any(|name| is_pump(name));
        if behind_pump {
            list.push((index, false));
        }
    }
    list
}

/// The fall of every run that drains.
pub fn drain_slopes(inputs: &Inputs, network: &Network) -> Fig<Vec<DrainSlope>> {
    let slope = |(index, forward): (usize, bool)| {
        let name = &network.circuit[index].run;
        let slope = inputs.at(&run::RISE, name)?.si() / inputs.at(&run::LENGTH, name)?.si();
        Ok(DrainSlope { fall: Ratio::from_si(if forward { -slope } else { slope }), run: name.clone(), forward })
    };
    draining(network).into_iter().map(slope).collect()
}

/// The least fall among the runs that drain.
pub fn least_fall(inputs: &Inputs, network: &Network) -> Fig<Option<DrainSlope>> {
    let slopes = drain_slopes(inputs, network)?;
    Ok(slopes.into_iter().min_by(|a, b| a.fall.si().total_cmp(&b.fall.si())))
}

/// Bottom of the tank (the port that feeds the loop) over the top of the panels; negative where the tank stands below.
pub fn tank_over_panels(network: &Network, profile: &Profile) -> Option<Length> {
    let station = network.circuit.iter().find(|stretch| {
        matches!(network.kind(&stretch.to), Some(PartKind::Tank | PartKind::Coil | PartKind::Exchanger))
    })?;
    let lowest = profile.vertices.iter().filter(|vertex| vertex.place == station.to).map(|vertex| vertex.height);
    lowest.reduce(Length::min).map(|bottom| bottom - profile.panels_top)
}
