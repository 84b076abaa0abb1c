//! What one panel weighs, dry and full, and how many hands that asks for.

use super::entries as e;
use super::glass::Pane;
use super::material;
use super::second_layer::second_layer;
use super::timber::TimberBox;
use crate::handbook::timber;
use crate::model::{Fig, Inputs, Why};
use crate::physics::fluid::Fluid;
use crate::physics::lift::{self, Coupling, Lift};
use crate::stage::absorber::{geometry::Harp, quantities};
use crate::units::si::{Angle, Dimension, Length, Mass, MassDensity, Volume, celsius};

/// Density of plywood, kg/m³: 7.0 kg/m² at 12 mm (handbook table of panels, from memory).
const PLYWOOD_DENSITY: f64 = 583.0;

/// Mass of one panel by its parts. Screws, cap, paint, mounts and sealant are not counted.
#[derive(Clone, Copy, Debug)]
pub struct Masses {
    /// Tubes.
    pub tube: Mass,
    /// Absorber sheet.
    pub sheet: Mass,
    /// Glass.
    pub glass: Mass,
    /// Rails and back board.
    pub timber: Mass,
    /// Insulation behind and around.
    pub insulation: Mass,
}

impl Masses {
    /// The panel without liquid.
    pub fn dry(&self) -> Mass {
        self.tube + self.sheet + self.glass + self.timber + self.insulation
    }
}

/// What is weighed.
#[derive(Clone, Copy, Debug)]
pub struct Parts<'a> {
    /// The harp.
    pub harp: &'a Harp,
    /// The box.
    pub timber_box: &'a TimberBox,
    /// The pane.
    pub pane: &'a Pane,
}

/// Weighs the parts of one panel.
pub fn masses(inputs: &Inputs, parts: Parts) -> Fig<Masses> {
    Ok(Masses {
        tube: quantities::tube_mass(inputs, parts.harp)?,
        sheet: quantities::sheet_mass(inputs, parts.harp)?,
        glass: parts.pane.mass,
        timber: timber_mass(inputs, parts.timber_box)?,
        insulation: insulation_volume(inputs, parts.harp, parts.timber_box)?.total() * material(inputs)?.density
            + second_mass(inputs, parts.timber_box)?,
    })
}

fn timber_mass(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Mass> {
    let species = inputs.get(&e::TIMBER)?;
    let species =
        timber::specific_gravities().get(&species).ok_or_else(|| Why::Invalid(vec![e::TIMBER.spec.id.to_owned()]))?;
    let mut sum = Mass::from_si(0.0);
    for part in &timber_box.parts {
        let density = if part.is_board() { MassDensity::from_si(PLYWOOD_DENSITY) } else { species.density() };
        let volume: Volume = part.length * part.width * part.thickness * part.count as f64;
        sum += volume * density;
    }
    Ok(sum)
}

/// The second layer over the whole inside.
fn second_mass(inputs: &Inputs, timber_box: &TimberBox) -> Fig<Mass> {
    Ok(second_layer(inputs)?.map_or(Mass::from_si(0.0), |second| {
        let volume: Volume = timber_box.inside_width * timber_box.inside_length * second.thickness;
        volume * second.material.density
    }))
}

/// Insulation by its place.
#[derive(Clone, Copy, Debug)]
pub struct InsulationVolume {
    /// Behind the plate, over the whole inside.
    pub back: Volume,
    /// Around the plate.
    pub edge: Volume,
}

impl InsulationVolume {
    /// Both.
    pub fn total(&self) -> Volume {
        self.back + self.edge
    }
}

/// Volume of the insulation: a sheet over the inside of the box, and a strip around the plate up to the glass.
pub fn insulation_volume(inputs: &Inputs, harp: &Harp, timber_box: &TimberBox) -> Fig<InsulationVolume> {
    let behind = inputs.get(&e::BACK_THICKNESS)?;
    let around = inputs.get(&e::EDGE_THICKNESS)?;
    let perimeter = (timber_box.inside_width + timber_box.inside_length - around * 2.0) * 2.0;
    let height = inputs.get(&e::AIR_GAP)? + harp.header.od;
    Ok(InsulationVolume {
        back: timber_box.inside_width * timber_box.inside_length * behind,
        edge: perimeter * height * around,
    })
}

/// The panel full of its liquid at 20 °C.
pub fn wet(dry: Mass, harp: &Harp, liquid: Fluid) -> Mass {
    dry + harp.content() * liquid.density(celsius(20.0))
}

/// Load that one person should lift of a wide panel: hands half a metre out, at 75 cm, no handles, no twist (lift of a
/// project rule, by the equation).
pub fn one_person() -> Fig<Mass> {
    lift::recommended_weight(Lift {
        horizontal: Length::from_si(0.5),
        vertical: Length::from_si(0.75),
        travel: Length::from_si(0.25),
        twist: Angle::from_si(0.0),
        frequency: 1.0,
        coupling: Coupling::Poor,
    })
    .map_err(Why::out_of_range)
}

/// The people that a dry panel asks for, two at least.
pub fn people(dry: Mass) -> Fig<usize> {
    let share = (dry.si() / one_person()?.si()).ceil();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a positive mass over a positive mass, capped
    let people = share.clamp(2.0, 1000.0) as usize;
    Ok(people)
}
