//! The loop in numbers: flow, friction in pipe and panel, litres. Heat over the year does not live here.

use super::entries as e;
use super::panel_count;
use crate::handbook::tube::{self, TubeSize};
use crate::model::{Fig, Inputs, Why};
use crate::physics::fittings::{Fitting, FittingCount};
use crate::physics::fluid::Fluid;
use crate::physics::pipe::{DRAWN_TUBE_ROUGHNESS, Run, RunDrop};
use crate::stage::absorber;
use crate::stage::enclosure::timber::TimberBox;
use crate::units::si::{Area, Dimension, Length, Temperature, Volume, VolumeRate, celsius};

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

/// What the design flow costs in the loop's pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeCost {
    /// Speed, regime and drop.
    pub drop: RunDrop,
}

/// Liquid in the loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// In one panel.
    pub panel: Volume,
    /// In all panels.
    pub panels: Volume,
    /// In the pipe.
    pub pipe: Volume,
    /// What runs out of panels and falling pipe.
    pub drains: Volume,
}

impl Contents {
    /// Panels and pipe, without tank, vessel and exchanger.
    pub fn total(&self) -> Volume {
        self.panels + self.pipe
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

/// Friction of the whole loop pipe at the design flow.
pub fn pipe(inputs: &Inputs, fluid: Fluid, row: &Row) -> Fig<PipeCost> {
    let elbows = u32::try_from(inputs.get(&e::ELBOWS)?).map_err(Why::out_of_range)?;
    let run = Run {
        bore: tube(inputs)?.bore(),
        length: inputs.get(&e::PIPE_LENGTH)?,
        roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
        fittings: vec![FittingCount { fitting: Fitting::Elbow90, count: elbows }],
        plain_loss: 0.0,
    };
    let liquid = fluid.properties_at(working_temperature().si());
    let drop = run.pressure_drop(&liquid, row.flow).map_err(Why::out_of_range)?;
    Ok(PipeCost { drop })
}

/// Litres in panels and pipe.
pub fn contents(inputs: &Inputs, absorber: &absorber::Results) -> Fig<Contents> {
    let count = panel_count(inputs)? as f64;
    let panel = absorber.heat.as_ref().map_err(Clone::clone)?.capacity.volume;
    let tube = tube(inputs)?;
    let length = inputs.get(&e::PIPE_LENGTH)?;
    let falling = inputs.given(&e::DRAINED_LENGTH)?.unwrap_or(length);
    let panels = panel * count;
    Ok(Contents { panel, panels, pipe: tube.content(length), drains: panels + tube.content(falling) })
}
