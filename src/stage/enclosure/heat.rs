//! How hot the faces of wood and insulation get when the panel stands empty in the sun.
//!
//! All faces are judged in the hour that drives the plate to its worst stagnation temperature.

use super::entries as e;
use super::openings;
use super::second_layer::{self, SecondLayer, second_layer};
use super::{OUTSIDE_RESISTANCE, WOOD_CONDUCTIVITY, material};
use crate::handbook::{Provenance, insulation};
use crate::model::{Fig, Inputs, Why};
use crate::physics::expansion::{Stub, StubHole, Swing, copper_growth};
use crate::physics::layers::{self, Conductivity, FaceLimit, Layer, Stack};
use crate::physics::rail::{self, Rail};
use crate::stage::absorber::{self, entries as a, geometry::Harp};
use crate::units::si::{
    Dimension, HeatTransfer, Insulance, Length, Temperature, TemperatureInterval, ThermalConductivity, celsius,
    in_celsius,
};

/// Highest temperature of a wood face that is clear, and above which the work stops, °C: 77 °C for years has started
/// fires (verified abstract, Fire and Materials 2007); 65 °C is a project rule.
pub const WOOD_CLEAR: f64 = 65.0;
/// See [`WOOD_CLEAR`].
pub const WOOD_STOP: f64 = 77.0;
/// The name of stone wool in the handbook: its limit goes by the product's own sheet, and linings are made of it.
pub const STONE_WOOL: &str = "mineral (rock) wool board C612 IVA";

/// Convection from the air of the gap to a rail, W/(m²·K) (project value).
const RAIL_CONVECTION: f64 = 3.0;
/// Long-wave emittance of bare wood and of a bright metal facing (from memory).
const WOOD_EMITTANCE: f64 = 0.9;
const FACING_EMITTANCE: f64 = 0.1;

/// The plate, the cover and the air in the worst hour.
#[derive(Clone, Copy, Debug)]
pub struct WorstHour {
    /// The plate.
    pub plate: Temperature,
    /// The glass.
    pub cover: Temperature,
    /// The air.
    pub air: Temperature,
}

impl WorstHour {
    /// Temperature of the air between plate and glass: the mean of both, K.
    fn gap(&self) -> f64 {
        0.5 * (self.plate.si() + self.cover.si())
    }
}

/// Finds plate, cover and air in the worst hour.
pub fn worst_hour(absorber: &absorber::Results) -> Fig<WorstHour> {
    let exposure = absorber.stagnation.clone()?.worst_exposure;
    let collector = absorber.collector.clone()?;
    let balance = collector.stagnate(&exposure).map_err(Why::out_of_range)?;
    let cover = balance.cover.ok_or_else(|| Why::out_of_range("a panel without glass has no box to judge"))?;
    Ok(WorstHour { plate: balance.plate, cover, air: exposure.ambient })
}

/// Growth of the copper from 20 °C to stagnation.
#[derive(Clone, Copy, Debug)]
pub struct Growth {
    /// Of a header, stubs included.
    pub header: Length,
    /// Of a riser, header axis to header axis.
    pub riser: Length,
    /// The hole for a stub.
    pub hole: StubHole,
}

/// Growth of headers and risers. A header slides through its hole along its own axis; what pushes it along the rail is
/// the growth of the risers. The slot takes the larger of both: a header that sticks in one hole turns in the other.
pub fn growth(harp: &Harp, worst: Temperature) -> Fig<Growth> {
    let swing = Swing { from: celsius(20.0), to: worst };
    let grow = |length| copper_growth(length, swing).map_err(Why::out_of_range);
    let header = grow(harp.header_length)?;
    let riser = grow(harp.header_spacing)?;
    let hole = Stub { outside_diameter: harp.header.od, growth: riser.max(header) }.hole();
    Ok(Growth { header, riser, hole })
}

/// Wood behind insulation.
#[derive(Clone, Debug)]
pub struct Behind {
    /// Face of the back board.
    pub back: Temperature,
    /// Face of the rail behind the edge insulation, which is heated as a rail beside the plate is.
    pub edge: Temperature,
    /// Least insulation behind the plate that keeps the back board clear.
    pub least_back: Fig<Length>,
    /// Between two layers of insulation, if there are two.
    pub interface: Option<Temperature>,
    /// Least first layer that keeps the second 20 K below its limit.
    pub least_first: Fig<Length>,
    /// Upper face of the wood of a support strip, if it holds wood.
    pub strip: Option<Temperature>,
}

/// Faces of back board and rail behind the insulation.
pub fn behind(inputs: &Inputs, hour: &WorstHour) -> Fig<Behind> {
    let conductivity = material(inputs)?.conductivity;
    let wood = Conductivity::constant(ThermalConductivity::from_si(WOOD_CONDUCTIVITY));
    let second = second_layer(inputs)?;
    let first = Layer { thickness: inputs.get(&e::BACK_THICKNESS)?, conductivity };
    let board = Layer { thickness: inputs.get(&e::BACK_BOARD)?, conductivity: wood };
    let behind_first = second.map_or(Layer { thickness: Length::from_si(0.0), conductivity }, aged);
    let back = [first, behind_first, board];
    let stack = Stack { hot: hour.plate, ambient: hour.air, layers: &back, outside: Insulance(OUTSIDE_RESISTANCE) };
    let limit = FaceLimit { layer: 0, face: 2, limit: celsius(WOOD_CLEAR) };
    let faces = layers::profile(&stack).map(|profile| profile.faces).map_err(Why::out_of_range)?;
    let least_first = match second {
        None => Err(Why::missing(second_layer::SECOND.spec.id)),
        Some(second) => {
            let stands = second_layer::limit(inputs, &second)? - TemperatureInterval::from_si(second_layer::MARGIN);
            let limit = FaceLimit { layer: 0, face: 1, limit: stands };
            layers::least_thickness(&stack, limit).map_err(Why::out_of_range)
        }
    };
    let around = inputs.get(&e::EDGE_THICKNESS)?.si() / conductivity.at(hour.gap());
    Ok(Behind {
        back: faces[2],
        interface: second.map(|_| faces[1]),
        least_first,
        strip: strip(inputs, &stack, wood)?,
        edge: wood_beside(inputs, hour, Facing { resistance: Insulance(around), emittance: WOOD_EMITTANCE })?,
        least_back: layers::least_thickness(&stack, limit).map_err(Why::out_of_range),
    })
}

/// A second layer with its conductivity as it is when aged.
fn aged(second: SecondLayer) -> Layer {
    let fresh = second.material.conductivity;
    let conductivity =
        Conductivity { at_24_celsius: fresh.at_24_celsius * second.ageing(), slope: fresh.slope * second.ageing() };
    Layer { thickness: second.thickness, conductivity }
}

/// Upper face of the wood in a support strip: mineral board above it, wood and back board below; none without wood.
fn strip(inputs: &Inputs, stack: &Stack, wood: Conductivity) -> Fig<Option<Temperature>> {
    let height = inputs.get(&openings::STRIP_HEIGHT)?;
    if height.si() <= 0.0 {
        return Ok(None);
    }
    let [first, second, board] = stack.layers else { return Ok(None) };
    let above = first.thickness + second.thickness - height;
    if above.si() < 0.0 {
        return Err(Why::out_of_range("the wood of the support strips is higher than the insulation"));
    }
    let layers = [Layer { thickness: above, ..*first }, Layer { thickness: height, conductivity: wood }, *board];
    let profile = layers::profile(&Stack { layers: &layers, ..*stack }).map_err(Why::out_of_range)?;
    Ok(Some(profile.faces[1]))
}

/// Wood of a rail beside and above the plate, heated by the gap's air and by radiation.
///
/// Unknown while no lining is entered. The lining is taken as stone wool at the temperature of the gap, on the warm
/// side of the truth.
pub fn rail_face(inputs: &Inputs, hour: &WorstHour) -> Fig<Temperature> {
    let lining = inputs.get(&e::RAIL_LINING)?;
    let wool = insulation::materials()
        .get(STONE_WOOL)
        .ok_or_else(|| Why::out_of_range("the handbook has no conductivity for the lining"))?;
    let emittance = if lining.si() > 0.0 { FACING_EMITTANCE } else { WOOD_EMITTANCE };
    let resistance = Insulance(lining.si() / wool.conductivity.at(hour.gap()));
    wood_beside(inputs, hour, Facing { resistance, emittance })
}

/// What stands between the gap and the wood of a rail.
#[derive(Clone, Copy)]
struct Facing {
    resistance: Insulance,
    emittance: f64,
}

fn wood_beside(inputs: &Inputs, hour: &WorstHour, facing: Facing) -> Fig<Temperature> {
    let rail = Rail {
        plate: hour.plate,
        cover: hour.cover,
        ambient: hour.air,
        plate_emittance: inputs.get(&a::EMITTANCE)?.si(),
        face_emittance: facing.emittance,
        view_of_plate: 0.5,
        convection: HeatTransfer::from_si(RAIL_CONVECTION),
        lining: facing.resistance,
        wood: Insulance(inputs.get(&e::RAIL_THICKNESS)?.si() / WOOD_CONDUCTIVITY),
        outside: Insulance(OUTSIDE_RESISTANCE),
    };
    rail::rail_faces(rail).map(|faces| faces.wood).map_err(Why::out_of_range)
}

/// The highest temperature that the insulation stands: the lower of the handbook's and the product sheet's.
///
/// Stone wool goes by its sheet alone: without one it is unknown.
pub fn insulation_limit(inputs: &Inputs) -> Fig<Temperature> {
    let material = material(inputs)?;
    match inputs.given(&e::INSULATION_LIMIT)? {
        Some(sheet) if in_celsius(sheet) < in_celsius(material.limit) => Ok(sheet),
        None if material.name == STONE_WOOL => Err(Why::missing(e::INSULATION_LIMIT.spec.id)),
        _ => Ok(material.limit),
    }
}

/// How that limit is known: a sheet that somebody read bears out the row of the table, too.
pub fn insulation_limit_provenance(inputs: &Inputs) -> Fig<Provenance> {
    let of_table = material(inputs)?.limit_provenance;
    Ok(inputs.given(&e::INSULATION_LIMIT)?.map_or(of_table, |_| Provenance::Printed))
}
