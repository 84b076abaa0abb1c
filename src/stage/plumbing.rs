//! Plumbing: loop, tank, load, and what the sun gives in a year.
//!
//! Which figure comes from where: `rows`; flow and friction are put together in `circuit`, the hot water wanted in
//! `load`, the year in `year`; the laws are in `physics`.

pub mod cards;
pub mod checks;
pub mod circuit;
pub mod closed;
pub mod demands;
pub mod emptying;
pub mod entries;
pub mod exchange;
pub mod flow_rows;
pub mod heights;
pub mod hydraulics;
pub mod layout;
pub mod load;
pub mod mend;
pub mod methods;
pub mod money;
pub mod network;
pub mod pictures;
pub mod pipework;
pub mod pressure_checks;
pub mod pressure_rows;
pub mod pump_label;
pub mod rows;
pub mod run_insulation;
pub mod steam;
pub mod steps;
pub mod walk;
pub mod working;
pub mod year;

use super::commissioning::logged;
use super::commissioning::performance::Fitted;
use super::{Group, absorber, enclosure, site};
use crate::model::{Fig, Inputs, Why};
use crate::physics::exchanger::CollectorExchanger;
use crate::physics::fluid::Fluid;
use crate::physics::glycol;
use crate::units::si::{Area, Dimension, HeatTransfer, Ratio};
use circuit::{Contents, Row};
use entries::{self as e, LoopType, YearPanel};
use load::Load;
use year::correlation::{Correlation, Given};

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// The loop as it is laid out.
    pub layout: layout::Layout,
    /// The liquid in the panel.
    pub fluid: Fig<Fluid>,
    /// All panels together and their flow.
    pub row: Fig<Row>,
    /// The loop's pipe, run by run.
    pub lines: Fig<Vec<pipework::Line>>,
    /// What the flow costs in it.
    pub pipe: Fig<hydraulics::PipeCost>,
    /// The loop at work.
    pub working: working::Working,
    /// Liquid in panels and pipe.
    pub contents: Fig<Contents>,
    /// Effectiveness of coil or plate as computed; none without either.
    pub computed_effectiveness: Fig<Option<Ratio>>,
    /// The effectiveness that counts; none where the panels' water is the tank's.
    pub effectiveness: Fig<Option<Ratio>>,
    /// The panels as one straight line of efficiency.
    pub line: Fig<CollectorLine>,
    /// Hot water wanted.
    pub load: Fig<Load>,
    /// The year by the monthly correlation.
    pub correlation: Fig<Correlation>,
    /// Tank per outside area of the panels, L/m².
    pub storage: Fig<Ratio>,
}

/// All panels as the monthly correlation sees them: Q = F_R′/F_R · A (F_R(τα) G − F_R U_L (T − T_a)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CollectorLine {
    /// Absorber area of all panels A.
    pub area: Area,
    /// F_R(τα).
    pub optical_gain: f64,
    /// F_R U_L.
    pub loss: HeatTransfer,
    /// F_R′/F_R; 1 without an exchanger.
    pub exchanger_factor: f64,
}

/// The liquid in the panel.
pub static LIQUID: Group =
    Group { name: "liquid of the loop", entries: &["plumbing.loop", "plumbing.glycol"], groups: &[] };

/// All panels together.
pub static ROW: Group =
    Group { name: "panels and their flow", entries: &["plumbing.flow_per_area"], groups: &[&enclosure::BOX] };

/// Flow in the pipe.
pub static PIPE: Group = Group { name: "flow in the pipe", entries: &[], groups: &[&ROW, &LIQUID, &pipework::LINES] };

/// Pressure drop of the whole loop.
pub static LOOP: Group = Group {
    name: "flow in the loop",
    entries: &[
        "plumbing.coil_tube",
        "plumbing.coil_length",
        "plumbing.part.*.test_flow",
        "plumbing.part.*.test_drop",
        "plumbing.part.*.setting",
    ],
    groups: &[&PIPE, &flow_rows::PANEL_FLOW],
};

/// Liquid in panels and pipe.
pub static CONTENTS: Group = Group {
    name: "content of the loop",
    entries: &["plumbing.drained_length", "plumbing.coil_tube", "plumbing.coil_length", "plumbing.part.*.volume"],
    groups: &[&absorber::HEAT, &pipework::LINES],
};

/// Tank against area.
pub static STORAGE: Group = Group { name: "storage", entries: &["plumbing.tank"], groups: &[&enclosure::BOX] };

/// Water drawn in a day.
pub static DRAW: Group =
    Group { name: "water drawn", entries: &["plumbing.people", "plumbing.per_person"], groups: &[] };

/// Heat wanted.
pub static HOT_WATER: Group = Group {
    name: "hot water wanted",
    entries: &["plumbing.tap", "plumbing.away.*.from", "plumbing.away.*.days"],
    groups: &[&DRAW, &site::MAINS],
};

/// The panels as one straight line.
pub static LINE: Group = Group {
    name: "the panels as a straight line",
    entries: &["plumbing.year_panel", "plumbing.fitted_gain", "plumbing.fitted_loss"],
    groups: &[&absorber::HEAT, &LIQUID, &pressure_rows::EFFECTIVENESS, &logged::FIT],
};

/// The year by the monthly correlation.
pub static CORRELATION: Group = Group {
    name: "the monthly correlation",
    entries: &["plumbing.tank"],
    groups: &[&LINE, &HOT_WATER, &site::SUN, &site::MAINS],
};

/// Solves the stage.
pub fn solve(
    inputs: &Inputs,
    site: &site::Results,
    absorber: &absorber::Results,
    enclosure: &enclosure::Results,
    fitted: &Fig<Fitted>,
) -> Results {
    let load = load::load(inputs, &site.mains);
    let row = circuit::row(inputs, &enclosure.timber_box);
    let fluid = fluid(inputs);
    let computed_effectiveness = fluid.clone().and_then(|fluid| {
        let flow = row.as_ref().map_err(Why::clone)?.flow;
        exchange::computed_effectiveness(inputs, fluid, flow)
    });
    let effectiveness = exchange::effectiveness(inputs, &computed_effectiveness);
    let line = line(inputs, absorber, fitted, &effectiveness);
    let storage = circuit::outside_area(inputs, &enclosure.timber_box)
        .and_then(|area| Ok(litres_per_area(inputs.get(&e::TANK)?, area)));
    let layout = layout::layout(inputs, &absorber.harp, &fluid);
    let lines = pipework::lines(inputs, &layout.network);
    let contents = circuit::contents(inputs, absorber, &layout.network, &lines);
    let given = working::Given {
        inputs,
        site,
        absorber,
        layout: &layout,
        lines: &lines,
        fluid: &fluid,
        row: &row,
        contents: &contents,
    };
    Results {
        working: given.work(),
        pipe: fluid.clone().and_then(|fluid| hydraulics::pipe(&lines, fluid, row.as_ref().map_err(Why::clone)?.flow)),
        layout,
        lines,
        contents,
        correlation: year::correlation::correlation(inputs, Given { site, line: &line, load: &load }),
        line,
        load,
        computed_effectiveness,
        effectiveness,
        storage,
        fluid,
        row,
    }
}

/// The liquid in the panel: water, or glycol by the volume share on the jug.
pub fn fluid(inputs: &Inputs) -> Fig<Fluid> {
    match inputs.get(&e::LOOP)? {
        LoopType::Direct | LoopType::Drainback | LoopType::Thermosiphon => Ok(Fluid::Water),
        LoopType::Glycol => {
            let by_mass = glycol::mass_fraction(inputs.get(&e::GLYCOL)?.si()).map_err(Why::out_of_range)?;
            glycol::mixture(by_mass).map_err(Why::out_of_range)
        }
    }
}

/// Copper tubes by their handbook names.
pub fn tube_names() -> Vec<(&'static str, &'static str)> {
    super::absorber::entries::tube_names()
}

/// How many panels there are; none is a gap, not a number.
pub fn panel_count(inputs: &Inputs) -> Fig<usize> {
    match inputs.panels().len() {
        0 => Err(Why::missing("panel.A")),
        count => Ok(count),
    }
}

/// Litres of tank for each square metre.
fn litres_per_area(tank: crate::units::si::Volume, area: Area) -> Ratio {
    Ratio::from_si(tank.si() * 1e3 / area.si())
}

/// F_R(τα) and F_R U_L of the panels as measured, where the year is to use them; none where it uses the drawing.
pub fn measured_panel(inputs: &Inputs, fitted: &Fig<Fitted>) -> Fig<Option<(f64, HeatTransfer)>> {
    match inputs.get(&e::YEAR_PANEL)? {
        YearPanel::Computed => Ok(None),
        YearPanel::Fitted => Ok(Some((inputs.get(&e::FITTED_GAIN)?.si(), inputs.get(&e::FITTED_LOSS)?))),
        YearPanel::Log => {
            let (gain, loss) = fitted.clone()?.at_inlet();
            Ok(Some((gain.si(), loss)))
        }
    }
}

fn line(
    inputs: &Inputs,
    absorber: &absorber::Results,
    fitted: &Fig<Fitted>,
    effectiveness: &Fig<Option<Ratio>>,
) -> Fig<CollectorLine> {
    let count = panel_count(inputs)? as f64;
    let collector = absorber.collector.as_ref().map_err(Clone::clone)?;
    let point = &absorber.heat.as_ref().map_err(Clone::clone)?.point;
    let area = collector.absorber_area() * count;
    let no_sun = || Why::out_of_range("the working point has no sun");
    let (optical_gain, loss) = match measured_panel(inputs, fitted)? {
        Some(measured) => measured,
        None => (point.optical_gain().ok_or_else(no_sun)?, point.inlet_loss()),
    };
    let rate = point.conditions.mass_flow.si() * count * point.properties.specific_heat;
    let exchanger_factor = match effectiveness.clone()? {
        None => 1.0,
        Some(effectiveness) => {
            let exchanger = CollectorExchanger {
                area,
                loss,
                collector_rate: rate,
                storage_rate: f64::INFINITY,
                effectiveness: effectiveness.si(),
            };
            exchanger.factor().map_err(Why::out_of_range)?
        }
    };
    Ok(CollectorLine { area, optical_gain, loss, exchanger_factor })
}
