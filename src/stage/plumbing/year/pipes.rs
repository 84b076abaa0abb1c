//! What the loop's pipe loses and holds: run by run where the loop is written, else half of its length each way.

use super::entries as y;
use crate::handbook::insulation;
use crate::handbook::tube::{self, TubeSize};
use crate::model::{Entry, Fig, Inputs, Why};
use crate::physics::pipe_loss::{InsulatedPipe, filled_heat_capacity};
use crate::stage::plumbing::entries::part::PartKind;
use crate::stage::plumbing::entries::run::{self, Place};
use crate::stage::plumbing::entries::{self as e, LoopType};
use crate::stage::plumbing::network::{Network, Stretch};
use crate::stage::plumbing::{circuit, layout};
use crate::stage::{Group, Solution, plumbing};
use crate::units::si::{Dimension, HeatCapacity, Length, ThermalConductance, ThermalConductivity, celsius};

/// Conductivity of insulation that is not named, W/(m·K) (foam and wool when warm; common practice, no source).
pub const INSULATION: f64 = 0.04;
/// Film coefficient of surfaces in a room, W/(m²·K) (8 to 10, from memory).
pub const INDOORS: f64 = 9.0;
/// The same in the open (20 to 25, from memory).
const OUTDOORS: f64 = 22.0;

/// The pipe of the loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pipes {
    /// UA from the panels to the tank.
    pub hot: ThermalConductance,
    /// UA from the tank to the panels.
    pub cold: ThermalConductance,
    /// Heat capacity of pipe and filling; nothing in a loop that drains.
    pub capacity: HeatCapacity,
}

/// What pipe losses read.
pub static PIPES: Group = Group {
    name: "losses of the pipe",
    entries: &[
        "plumbing.pipe_insulation",
        "plumbing.run.*.pipe",
        "plumbing.run.*.length",
        "plumbing.run.*.insulation",
        "plumbing.run.*.thickness",
        "plumbing.run.*.place",
    ],
    groups: &[&layout::NETWORK, &plumbing::CONTENTS, &plumbing::LIQUID],
};

/// One piece of pipe.
struct Piece {
    tube: &'static TubeSize,
    length: Length,
    thickness: Length,
    conductivity: f64,
    film: f64,
}

impl Piece {
    fn loss(&self) -> Fig<f64> {
        let pipe = InsulatedPipe {
            od: self.tube.od,
            thickness: self.thickness,
            conductivity: ThermalConductivity::from_si(self.conductivity),
            surface: self.film,
        };
        Ok(pipe.conductance().map_err(Why::out_of_range)?.0 * self.length.si())
    }
}

/// The pipe of a solution.
pub fn pipes(solution: &Solution) -> Fig<Pipes> {
    let inputs = &solution.inputs;
    let [hot, cold] = match &solution.plumbing.layout.network {
        Ok(network) => written(inputs, network)?,
        Err(Why::Missing(_)) => [half(inputs)?, half(inputs)?],
        Err(why) => return Err(why.clone()),
    };
    let loss = |pieces: &[Piece]| -> Fig<ThermalConductance> {
        let each = pieces.iter().map(Piece::loss).collect::<Fig<Vec<_>>>()?;
        Ok(ThermalConductance::from_si(each.iter().sum()))
    };
    let mut capacity = 0.0;
    if inputs.get(&e::LOOP)? != LoopType::Drainback {
        let liquid = solution.plumbing.fluid.clone()?.properties_at(circuit::working_temperature().si());
        for piece in hot.iter().chain(&cold) {
            let per_metre = filled_heat_capacity(piece.tube.od, piece.tube.wall, &liquid);
            capacity += per_metre.map_err(Why::out_of_range)? * piece.length.si();
        }
    }
    Ok(Pipes { hot: loss(&hot)?, cold: loss(&cold)?, capacity: HeatCapacity::from_si(capacity) })
}

/// Half of the loop's length, insulated alike all along.
fn half(inputs: &Inputs) -> Fig<Vec<Piece>> {
    Ok(vec![Piece {
        tube: circuit::tube(inputs)?,
        length: inputs.get(&e::PIPE_LENGTH)? * 0.5,
        thickness: inputs.get(&y::PIPE_INSULATION)?,
        conductivity: INSULATION,
        film: INDOORS,
    }])
}

/// The runs from the panels to the tank, and those from there back.
fn written(inputs: &Inputs, network: &Network) -> Fig<[Vec<Piece>; 2]> {
    let turn = turn(network);
    let mut sides = [Vec::new(), Vec::new()];
    for (at, stretch) in network.circuit.iter().enumerate() {
        sides[usize::from(at > turn)].push(piece(inputs, stretch)?);
    }
    Ok(sides)
}

/// The last run on the way to the tank: what gives off the heat, else the reservoir.
fn turn(network: &Network) -> usize {
    let ends_at = |kinds: &[PartKind]| {
        let kind = |stretch: &Stretch| network.parts.get(&stretch.to).is_some_and(|kind| kinds.contains(kind));
        network.circuit.iter().position(kind)
    };
    ends_at(&[PartKind::Tank, PartKind::Coil, PartKind::Exchanger])
        .or_else(|| ends_at(&[PartKind::Reservoir, PartKind::SealedReservoir]))
        .unwrap_or(network.circuit.len() / 2)
}

/// What a part of the loop says of the exchanger's kind; nothing where none is written.
pub fn exchanger(solution: &Solution) -> Option<y::ExchangerType> {
    let network = solution.plumbing.layout.network.as_ref().ok()?;
    network.parts.values().find_map(|kind| match kind {
        PartKind::Coil => Some(y::ExchangerType::Coil),
        PartKind::Exchanger => Some(y::ExchangerType::Plate),
        _ => None,
    })
}

fn piece(inputs: &Inputs, stretch: &Stretch) -> Fig<Piece> {
    let name = &stretch.run;
    let (thickness, conductivity) = match optional(inputs, &run::INSULATION, name)? {
        None => (Length::from_si(0.0), INSULATION),
        Some(material) => {
            let found = insulation::materials().get(&material);
            let found = found.ok_or_else(|| Why::Invalid(vec![run::INSULATION.spec.id.replacen('*', name, 1)]))?;
            (inputs.at(&run::THICKNESS, name)?, found.conductivity.at(celsius(50.0).si()))
        }
    };
    Ok(Piece {
        // A hose counts as the loop's pipe: it is short.
        tube: match optional(inputs, &run::PIPE, name)? {
            None => circuit::tube(inputs)?,
            Some(size) => {
                tube::tube(&size).ok_or_else(|| Why::Invalid(vec![run::PIPE.spec.id.replacen('*', name, 1)]))?
            }
        },
        length: inputs.at(&run::LENGTH, name)?,
        thickness,
        conductivity,
        film: match inputs.at(&run::PLACE, name)? {
            Place::Indoors => INDOORS,
            Place::Outdoors => OUTDOORS,
        },
    })
}

fn optional<T>(inputs: &Inputs, entry: &Entry<T>, row: &str) -> Fig<Option<T>> {
    match inputs.at(entry, row) {
        Ok(value) => Ok(Some(value)),
        Err(Why::Missing(_)) => Ok(None),
        Err(why) => Err(why),
    }
}
