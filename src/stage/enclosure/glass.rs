//! The pane: its size on the seat, its clearance, what the design pressure does to it.

use super::entries as e;
use super::timber::TimberBox;
use crate::model::{Fig, Inputs, Why};
use crate::physics::expansion::{self, Swing};
use crate::physics::glass::{self, Bending, Elasticity};
use crate::units::si::{Area, Dimension, Length, Mass, Pressure, Temperature, Time, celsius};

/// The pane as it is ordered, and its seat.
#[derive(Clone, Copy, Debug)]
pub struct Pane {
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

/// Sizes the pane: the opening and a bite on each side.
pub fn pane(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Pane> {
    let bite = inputs.get(&e::GLASS_BITE)?;
    let width = timber_box.inside_width + bite * 2.0;
    let length = timber_box.inside_length + bite * 2.0;
    Ok(Pane {
        width,
        length,
        mass: glass::mass(width * length, inputs.get(&e::GLASS_THICKNESS)?),
        shoulder: inputs.get(&e::RAIL_THICKNESS)? - bite - inputs.get(&e::GLASS_CLEARANCE)?,
    })
}

/// Least clearance at each edge: half the pane's growth from 20 °C to its temperature at stagnation, and 3 mm of play.
/// The box is taken not to grow, which asks for a little more than needed.
pub fn least_clearance(pane: &Pane, hottest: Temperature) -> Fig<Length> {
    let swing = Swing { from: celsius(20.0), to: hottest };
    let growth = expansion::GLASS.growth(pane.length.max(pane.width), swing).map_err(Why::out_of_range)?;
    Ok(growth * 0.5 + expansion::end_play())
}

/// What the design pressure does to the pane.
#[derive(Clone, Copy, Debug)]
pub struct UnderPressure {
    /// Stress and deflection, by large deflection.
    pub bending: Bending,
    /// Stress by small deflection: an upper bound.
    pub linear_stress: Pressure,
    /// Stress that the glass may carry for a minute.
    pub allowable: Pressure,
    /// Largest deflection: a sixtieth of the short side, 25 mm, the air gap less 5 mm.
    pub deflection_limit: Length,
}

/// Judges the pane between its seats by the least thickness that may be delivered, for a load of 60 s.
pub fn under_pressure(inputs: &Inputs, timber_box: &TimberBox) -> Fig<UnderPressure> {
    let load = inputs.get(&e::GLASS_PRESSURE)?;
    let pane = glass::Pane {
        width: timber_box.inside_width,
        height: timber_box.inside_length,
        thickness: least_thickness(inputs.get(&e::GLASS_THICKNESS)?)?,
    };
    let short = pane.width.min(pane.height);
    let gap = inputs.get(&e::AIR_GAP)? - Length::from_si(0.005);
    Ok(UnderPressure {
        bending: glass::large_deflection(&pane, load).map_err(Why::out_of_range)?,
        linear_stress: glass::small_deflection(&pane, Elasticity::glass(), load).map_err(Why::out_of_range)?.stress,
        allowable: inputs.get(&e::GLASS)?.treatment().allowable(Time::from_si(60.0)).map_err(Why::out_of_range)?,
        deflection_limit: (short / 60.0).min(Length::from_si(0.025)).min(gap),
    })
}

/// Half the width of the band in which an entered thickness is taken for a nominal one.
const SAME_THICKNESS: f64 = 0.0002;

/// The least thickness that may be delivered as this nominal one.
fn least_thickness(nominal: Length) -> Fig<Length> {
    e::glass_thicknesses()
        .find(|row| (row.nominal - nominal).abs().si() <= SAME_THICKNESS)
        .map(|row| row.least)
        .ok_or_else(|| Why::out_of_range("the handbook knows no glass sold in this thickness"))
}
