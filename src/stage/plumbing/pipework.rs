//! The pipe of the loop, run by run: bore, fittings, insulation, content. One straight run while none is written.
//!
//! Lives here: what each run is made of. Must not live here: flow and what it costs (`hydraulics`).

use super::circuit::tube as loop_tube;
use super::entries::part::{self, PartKind};
use super::entries::run::{self, Place};
use super::entries::{self as e, service};
use super::network::{Network, Stretch};
use crate::handbook::tube::{self, TubeSize};
use crate::handbook::{hose, insulation};
use crate::model::{Entry, Fig, Inputs, Why};
use crate::physics::fittings::{Fitting, FittingCount, HoseBarb};
use crate::physics::pipe::{DRAWN_TUBE_ROUGHNESS, HOSE_ROUGHNESS, Run};
use crate::physics::pipe_loss::InsulatedPipe;
use crate::stage::Group;
use crate::units::si::{Dimension, Length, LineConductance, ThermalConductivity, Volume};
use std::f64::consts::FRAC_PI_4;

/// Film coefficients of a pipe's outside, W/(m²·K), within the ranges 8 to 10 and 20 to 25 (from memory).
const FILM: (f64, f64) = (9.0, 22.0);
/// Wall of a hose that is not entered, m: it only makes the outside a little wider.
const HOSE_WALL: f64 = 3e-3;
/// Conductivity that a bare pipe is given, W/(m·K); without thickness it has no effect.
const NO_MATTER: f64 = 0.04;

/// What a run is made of.
#[derive(Clone, Debug, PartialEq)]
pub enum Tubing {
    /// Copper by its handbook row.
    Copper(&'static TubeSize),
    /// Hose or plastic by its name.
    Hose(String),
}

/// One run of pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// What it is made of.
    pub tubing: Tubing,
    /// What a flow meets in it.
    pub run: Run,
    /// Outer diameter.
    pub od: Length,
    /// Where it lies.
    pub place: Place,
}

/// Pipe and fittings as they are written.
pub static LINES: Group = Group {
    name: "runs of pipe",
    entries: &[
        "plumbing.pipe",
        "plumbing.pipe_length",
        "plumbing.elbows",
        "plumbing.run.*.pipe",
        "plumbing.run.*.length",
        "plumbing.run.*.elbows",
        "plumbing.run.*.tees",
        "plumbing.run.*.loss",
        "plumbing.run.*.hose",
        "plumbing.run.*.bore",
        "plumbing.run.*.barb",
        "plumbing.run.*.place",
    ],
    groups: &[&super::layout::NETWORK],
};

fn named(name: &str, id: &str) -> Fig<&'static TubeSize> {
    tube::tube(name).ok_or_else(|| Why::Invalid(vec![id.to_owned()]))
}

/// A row's entry that may be left out.
pub fn given_at<T>(inputs: &Inputs, entry: &Entry<T>, row: &str) -> Fig<Option<T>> {
    match inputs.at(entry, row) {
        Ok(value) => Ok(Some(value)),
        Err(Why::Missing(_)) => Ok(None),
        Err(why) => Err(why),
    }
}

/// Every run of the loop in the order of flow; the one pipe of a project that writes no runs.
pub fn lines(inputs: &Inputs, network: &Fig<Network>) -> Fig<Vec<Line>> {
    match network {
        Ok(network) => network.circuit.iter().map(|stretch| line(inputs, network, stretch)).collect(),
        Err(_) if inputs.rows("plumbing.run").is_empty() => Ok(vec![plain(inputs)?]),
        Err(why) => Err(why.clone()),
    }
}

/// The whole loop as one pipe.
fn plain(inputs: &Inputs) -> Fig<Line> {
    let tube = loop_tube(inputs)?;
    let elbows = count_of(inputs.get(&e::ELBOWS)?)?;
    let run = Run {
        bore: tube.bore(),
        length: inputs.get(&e::PIPE_LENGTH)?,
        roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
        fittings: vec![FittingCount { fitting: Fitting::Elbow90, count: elbows }],
        plain_loss: 0.0,
    };
    let place = Place::Indoors;
    Ok(Line { name: "loop".to_owned(), tubing: Tubing::Copper(tube), run, od: tube.od, place })
}

fn count_of(count: usize) -> Fig<u32> {
    u32::try_from(count).map_err(Why::out_of_range)
}

/// One written run, with the losses of its ends and of the parts along it.
pub fn line(inputs: &Inputs, network: &Network, stretch: &Stretch) -> Fig<Line> {
    let row = &stretch.run;
    let mut fittings = vec![
        FittingCount { fitting: Fitting::Elbow90, count: count_of(inputs.at(&run::ELBOWS, row)?)? },
        FittingCount { fitting: Fitting::TeeRun, count: count_of(inputs.at(&run::TEES, row)?)? },
    ];
    fittings.extend(stretch.along.iter().filter_map(|name| fitting_of(network.kind(name)?)).map(one));
    if is_wide(network, &stretch.from) {
        fittings.push(one(Fitting::TankOutlet));
    }
    if is_wide(network, &stretch.to) {
        fittings.push(one(Fitting::TankInlet));
    }
    let mut plain_loss = inputs.at(&run::LOSS, row)?;
    let (tubing, bore, od, roughness) = if let Some(hose) = given_at(inputs, &run::HOSE, row)? {
        let bore = inputs.at(&run::BORE, row)?;
        if let Some(barb_bore) = given_at(inputs, &run::BARB, row)? {
            let barb = HoseBarb { line_bore: bore, barb_bore };
            plain_loss += 2.0 * barb.loss_coefficient().map_err(Why::out_of_range)?;
        }
        (Tubing::Hose(hose), bore, bore + Length::from_si(2.0 * HOSE_WALL), HOSE_ROUGHNESS)
    } else {
        let tube = match given_at(inputs, &run::PIPE, row)? {
            Some(name) => named(&name, &run::PIPE.spec.id.replacen('*', row, 1))?,
            None => loop_tube(inputs)?,
        };
        (Tubing::Copper(tube), tube.bore(), tube.od, DRAWN_TUBE_ROUGHNESS)
    };
    let length = inputs.at(&run::LENGTH, row)?;
    let run = Run { bore, length, roughness: Length::from_si(roughness), fittings, plain_loss };
    Ok(Line { name: row.clone(), tubing, run, od, place: inputs.at(&run::PLACE, row)? })
}

const fn one(fitting: Fitting) -> FittingCount {
    FittingCount { fitting, count: 1 }
}

/// What the flow meets in a part that it passes; none where a test point tells.
const fn fitting_of(kind: PartKind) -> Option<Fitting> {
    match kind {
        PartKind::IsolatingValve => Some(Fitting::FullBoreValve),
        PartKind::BalancingValve | PartKind::MixingValve => Some(Fitting::GlobeValve),
        PartKind::CheckValve => Some(Fitting::SwingCheck),
        kind if kind.is_terminal() => Some(Fitting::TeeRun),
        _ => None,
    }
}

/// Whether the pipe opens into something much wider there.
fn is_wide(network: &Network, place: &str) -> bool {
    matches!(network.kind(place), Some(PartKind::Tank | PartKind::Reservoir | PartKind::SealedReservoir))
}

/// The coil as a run of its own, where the loop has one.
pub fn coil(inputs: &Inputs, network: &Fig<Network>) -> Fig<Option<Run>> {
    let has_coil = network.as_ref().is_ok_and(|network| network.part_of(PartKind::Coil).is_some());
    if !has_coil {
        return Ok(None);
    }
    let tube = named(&inputs.get(&service::COIL_TUBE)?, service::COIL_TUBE.spec.id)?;
    Ok(Some(Run {
        bore: tube.bore(),
        length: inputs.get(&service::COIL_LENGTH)?,
        roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
        fittings: Vec::new(),
        plain_loss: 0.0,
    }))
}

impl Line {
    /// What it holds.
    pub fn content(&self) -> Volume {
        content(&self.run)
    }

    /// Heat that it loses per metre and kelvin.
    pub fn conductance(&self, inputs: &Inputs) -> Fig<LineConductance> {
        let surface = if self.place == Place::Outdoors { FILM.1 } else { FILM.0 };
        let (conductivity, thickness) = match given_at(inputs, &run::INSULATION, &self.name)? {
            Some(name) => {
                let material = insulation::materials()
                    .get(&name)
                    .ok_or_else(|| Why::Invalid(vec![run::INSULATION.spec.id.replacen('*', &self.name, 1)]))?;
                (material.conductivity.at_24_celsius, inputs.at(&run::THICKNESS, &self.name)?)
            }
            None => (ThermalConductivity::from_si(NO_MATTER), Length::from_si(0.0)),
        };
        InsulatedPipe { od: self.od, thickness, conductivity, surface }.conductance().map_err(Why::out_of_range)
    }

    /// The hose of the handbook, if it is one of copper's stead.
    pub fn hose(&self) -> Option<&'static hose::Hose> {
        match &self.tubing {
            Tubing::Hose(name) => hose::hose(name),
            Tubing::Copper(_) => None,
        }
    }

    /// The plastic pipe of the handbook, if it is one.
    pub fn plastic(&self) -> Option<&'static hose::PlasticPipe> {
        match &self.tubing {
            Tubing::Hose(name) => hose::plastic_pipe(name),
            Tubing::Copper(_) => None,
        }
    }
}

/// What a run of pipe holds.
pub fn content(run: &Run) -> Volume {
    Volume::from_si(FRAC_PI_4 * run.bore.si().powi(2) * run.length.si())
}

/// What the parts of the loop hold on its own side: exchanger, filter, meter; tank, vessel and reservoir are apart.
pub fn part_contents(inputs: &Inputs, network: &Network) -> Fig<Volume> {
    let mut sum = Volume::default();
    for kind in [PartKind::Exchanger, PartKind::Filter, PartKind::FlowMeter] {
        for name in network.parts_of(kind) {
            sum += given_at(inputs, &part::VOLUME, name)?.unwrap_or_default();
        }
    }
    Ok(sum)
}
