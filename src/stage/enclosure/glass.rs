//! The pane: its size on the seat, its clearance, its blocks, what wind and snow do to it.

pub mod cards;
pub mod rows;

use super::entries::{self as e, Glass};
use super::timber::TimberBox;
use super::{heat, loads};
use crate::handbook::glazing;
use crate::model::{Fig, Inputs, Why};
use crate::physics::expansion::{self, Coefficient, Swing};
use crate::physics::glass::{self, Bending, Elasticity};
use crate::stage::site::entries as site;
use crate::stage::{Group, Solution};
use crate::units::si::{Area, Dimension, Length, Mass, Pressure, Temperature, Time, celsius};

/// The pane as it is ordered, and its seat.
#[derive(Clone, Copy, Debug)]
pub struct Pane {
    /// What it is made of.
    pub kind: Glass,
    /// Across the risers.
    pub width: Length,
    /// Along the risers.
    pub length: Length,
    /// Its mass.
    pub mass: Mass,
    /// What is left of a rail outside the seat; negative if the seat does not fit on the rail.
    pub shoulder: Length,
}

impl Pane {
    /// Its area.
    pub fn area(&self) -> Area {
        self.width * self.length
    }
}

/// Density of polycarbonate, kg/m³ (maker's page, verified).
const PLASTIC_DENSITY: f64 = 1200.0;

/// Sizes the pane: the opening and a bite on each side.
pub fn pane(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Pane> {
    let bite = inputs.get(&e::GLASS_BITE)?;
    let width = timber_box.inside_width + bite * 2.0;
    let length = timber_box.inside_length + bite * 2.0;
    let (kind, thickness) = (inputs.get(&e::GLASS)?, inputs.get(&e::GLASS_THICKNESS)?);
    let mass = match kind {
        Glass::Polycarbonate => Mass::from_si(PLASTIC_DENSITY * (width * length * thickness).si()),
        _ => glass::mass(width * length, thickness),
    };
    Ok(Pane {
        kind,
        width,
        length,
        mass,
        shoulder: inputs.get(&e::RAIL_THICKNESS)? - bite - inputs.get(&e::GLASS_CLEARANCE)?,
    })
}

/// How the pane grows.
const fn growth_of(kind: Glass) -> Coefficient {
    match kind {
        Glass::Polycarbonate => expansion::POLYCARBONATE,
        _ => expansion::GLASS,
    }
}

/// Least clearance at each edge: half the pane's growth from 20 °C to its temperature at stagnation, and 3 mm of play.
/// The box is taken not to grow, which asks for a little more than needed.
pub fn least_clearance(pane: &Pane, hottest: Temperature) -> Fig<Length> {
    let swing = Swing { from: celsius(20.0), to: hottest };
    let growth = growth_of(pane.kind).growth(pane.length.max(pane.width), swing).map_err(Why::out_of_range)?;
    Ok(growth * 0.5 + expansion::end_play())
}

/// What the design pressure does to the pane.
#[derive(Clone, Copy, Debug)]
pub struct UnderPressure {
    /// Stress and deflection, by large deflection.
    pub bending: Bending,
    /// Stress and deflection by small deflection: an upper bound.
    pub linear: Bending,
    /// Stress that the glass may carry as long as the load lasts.
    pub allowable: Pressure,
    /// Largest deflection: a sixtieth of the short side, 25 mm, the air gap less 5 mm.
    pub deflection_limit: Length,
}

/// Judges the pane under the wind, for a load of 60 s: a gust lasts 3 s, for which glass stands more.
pub fn under_pressure(inputs: &Inputs, timber_box: &TimberBox) -> Fig<UnderPressure> {
    under(inputs, timber_box, inputs.get(&e::GLASS_PRESSURE)?, Time::from_si(60.0))
}

/// Duration of snow, s: 30 days.
const SNOW_LASTS: f64 = 30.0 * 86_400.0;

/// The pane under snow and its own weight across it, for 30 days.
pub fn under_snow(s: &Solution) -> Fig<UnderPressure> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    under(&s.inputs, timber_box, snow_load(s)?, Time::from_si(SNOW_LASTS))
}

/// Snow and the pane's own weight, across the pane.
pub fn snow_load(s: &Solution) -> Fig<Pressure> {
    let pane = s.enclosure.pane.as_ref().map_err(Clone::clone)?;
    let own = loads::weight(pane.mass) / pane.area() * s.inputs.get(&site::TILT)?.si().cos();
    Ok(loads::snow(s)?.normal_to_glass + own)
}

/// Room left between glass and the level of the plate when the pane hangs in under snow.
pub fn gap_under_snow(s: &Solution) -> Fig<Length> {
    Ok(s.inputs.get(&e::AIR_GAP)? - under_snow(s)?.bending.deflection)
}

/// The cover in the worst hour.
pub fn hottest_cover(s: &Solution) -> Fig<Temperature> {
    Ok(heat::worst_hour(&s.absorber)?.cover)
}

/// Length of a setting block: 27 mm for each square metre of glass, 100 mm at least (glazing practice, from memory).
pub fn block_length(pane: &Pane) -> Length {
    Length::from_si((0.027 * pane.area().si()).max(0.100))
}

/// The pane under snow.
pub static SNOWED: Group = Group {
    name: "the pane under snow",
    entries: &["enclosure.glass", "enclosure.glass_thickness", "enclosure.air_gap", "site.tilt"],
    groups: &[&super::PANE, &loads::SNOW],
};

/// The cover in the worst hour.
pub static HOTTEST: Group =
    Group { name: "the cover in the worst hour", entries: &[], groups: &[&crate::stage::absorber::STAGNATION] };

/// Judges the pane between its seats by the least thickness that may be delivered.
fn under(inputs: &Inputs, timber_box: &TimberBox, load: Pressure, duration: Time) -> Fig<UnderPressure> {
    let treatment = inputs.get(&e::GLASS)?.treatment();
    let treatment =
        treatment.ok_or_else(|| Why::out_of_range("the plate table is for glass; plastic goes by its maker"))?;
    let pane = glass::Pane {
        width: timber_box.inside_width,
        height: timber_box.inside_length,
        thickness: least_thickness(inputs.get(&e::GLASS_THICKNESS)?)?,
    };
    let short = pane.width.min(pane.height);
    let gap = inputs.get(&e::AIR_GAP)? - Length::from_si(0.005);
    Ok(UnderPressure {
        bending: glass::large_deflection(&pane, load).map_err(Why::out_of_range)?,
        linear: glass::small_deflection(&pane, Elasticity::glass(), load).map_err(Why::out_of_range)?,
        allowable: treatment.allowable(duration).map_err(Why::out_of_range)?,
        deflection_limit: (short / 60.0).min(Length::from_si(0.025)).min(gap),
    })
}

/// The least thickness that may be delivered as this nominal one.
fn least_thickness(nominal: Length) -> Fig<Length> {
    glazing::thickness_sold_as(nominal)
        .map(|row| row.least)
        .ok_or_else(|| Why::out_of_range("the handbook knows no glass sold in this thickness"))
}
