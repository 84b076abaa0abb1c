//! The loop in numbers: flow of all panels, litres. Friction lives in `hydraulics`, heat over the year in `year`.

use super::entries as e;
use super::network::Network;
use super::pipework::{self, Line};
use super::{heights, panel_count};
use crate::handbook::tube::{self, TubeSize};
use crate::model::{Fig, Inputs, Why};
use crate::stage::absorber;
use crate::stage::enclosure::timber::TimberBox;
use crate::units::si::{Area, Dimension, Temperature, Volume, VolumeRate, celsius};

/// All panels together, side by side: each gets the same flow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// How many.
    pub count: usize,
    /// Outside area of all boxes.
    pub outside_area: Area,
    /// Flow of all panels.
    pub flow: VolumeRate,
}

/// Liquid in the loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// In one panel.
    pub panel: Volume,
    /// In all panels.
    pub panels: Volume,
    /// In the pipe, branches included.
    pub pipe: Volume,
    /// In coil, exchanger, filter and meter.
    pub parts: Volume,
    /// What runs out of panels and falling pipe.
    pub drains: Volume,
}

impl Contents {
    /// Panels, pipe, coil and parts, without tank, reservoir and vessel.
    pub fn total(&self) -> Volume {
        self.panels + self.pipe + self.parts
    }
}

/// The temperature at which friction is shown: a warm tank's water on its way to the panel, as at the working point.
pub fn working_temperature() -> Temperature {
    celsius(45.0)
}

/// Outside area of all boxes.
pub fn outside_area(inputs: &Inputs, timber_box: &Fig<TimberBox>) -> Fig<Area> {
    let timber_box = timber_box.as_ref().map_err(Clone::clone)?;
    Ok(timber_box.outside_width * timber_box.outside_length * panel_count(inputs)? as f64)
}

/// Area and flow of all panels.
pub fn row(inputs: &Inputs, timber_box: &Fig<TimberBox>) -> Fig<Row> {
    let count = panel_count(inputs)?;
    let outside_area = outside_area(inputs, timber_box)?;
    let flow = VolumeRate::from_si(inputs.get(&e::FLOW_PER_AREA)? * outside_area.si());
    Ok(Row { count, outside_area, flow })
}

/// The pipe of the loop by its handbook name.
pub fn tube(inputs: &Inputs) -> Fig<&'static TubeSize> {
    tube::tube(&inputs.get(&e::PIPE)?).ok_or_else(|| Why::Invalid(vec![e::PIPE.spec.id.to_owned()]))
}

/// Litres in panels, pipe and parts.
pub fn contents(
    inputs: &Inputs,
    absorber: &absorber::Results,
    network: &Fig<Network>,
    lines: &Fig<Vec<Line>>,
) -> Fig<Contents> {
    let count = panel_count(inputs)? as f64;
    let panel = absorber.heat.as_ref().map_err(Clone::clone)?.capacity.volume;
    let panels = panel * count;
    let lines = lines.as_ref().map_err(Clone::clone)?;
    let sum = |lines: &[Line]| lines.iter().map(Line::content).fold(Volume::default(), |sum, next| sum + next);
    let (mut pipe, mut falling, mut parts) = (sum(lines), sum(lines), Volume::default());
    if let Ok(network) = network {
        for branch in &network.branches {
            pipe += pipework::line(inputs, network, branch)?.content();
        }
        falling = heights::draining(network)
            .iter()
            .filter_map(|(index, _)| lines.get(*index))
            .map(Line::content)
            .fold(Volume::default(), |sum, next| sum + next);
        parts = pipework::part_contents(inputs, network)?;
    }
    if let Some(coil) = pipework::coil(inputs, network)? {
        parts += pipework::content(&coil);
    }
    let drained = inputs.given(&e::DRAINED_LENGTH)?.map(|length| Ok(tube(inputs)?.content(length))).transpose()?;
    Ok(Contents { panel, panels, pipe, parts, drains: panels + drained.unwrap_or(falling) })
}
