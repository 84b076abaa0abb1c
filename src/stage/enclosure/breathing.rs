//! Condensation and breathing of the box: how much air it changes a day, what dew that can leave, holes to dry it.

use super::BOX;
use super::openings as o;
use super::timber::TimberBox;
use crate::model::{Fig, Judgement, Why};
use crate::physics::breathing::{self, Swing};
use crate::stage::absorber::{self, Results as Absorber};
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::si::{Dimension, Mass, Temperature, Volume, celsius};
use crate::units::{Kind, Quantity};

/// A damp night: saturated air of 10 °C over glass that a clear sky has cooled by 5 K (project values).
const NIGHT: f64 = 10.0;
const GLASS_BELOW_AIR: f64 = 5.0;
/// Weep holes that a box needs to dry (from memory).
const LEAST_HOLES: usize = 2;

/// One breath of the box.
#[derive(Clone, Copy, Debug)]
pub struct Breath {
    /// Air that goes out and comes in.
    pub air: Volume,
    /// Water that this air can leave under cold glass.
    pub dew: Mass,
}

/// The breath of a box between a night of 10 °C and the worst stagnation, an upper bound: most of the inside is air, fibre
/// too.
pub fn breath(absorber: &Absorber, timber_box: &TimberBox) -> Fig<Breath> {
    let stagnation = absorber.stagnation.as_ref().map_err(Why::clone)?;
    let air = stagnation.worst_exposure.ambient.si();
    let swing = Swing { cold: celsius(NIGHT), hot: Temperature::from_si(0.5 * (stagnation.worst.si() + air)) };
    let volume: Volume = timber_box.inside_width * timber_box.inside_length * timber_box.inside_height;
    let air = breathing::breath(volume, swing).map_err(Why::out_of_range)?;
    let dew = breathing::dew(air, celsius(NIGHT), celsius(NIGHT - GLASS_BELOW_AIR)).map_err(Why::out_of_range)?;
    Ok(Breath { air, dew })
}

/// The breath of a box.
pub static BREATH: Group = Group { name: "breath of the box", entries: &[], groups: &[&BOX, &absorber::STAGNATION] };

fn found(s: &Solution) -> Fig<Breath> {
    s.enclosure.breath.clone()
}

fn holes(s: &Solution) -> Fig<Judgement> {
    let holes = s.inputs.get(&o::WEEPS)?;
    let (there, least) = (Quantity::count(holes), Quantity::count(LEAST_HOLES));
    let margin = Quantity::number(holes as f64 - LEAST_HOLES as f64);
    Ok(Judgement::caution_unless(holes >= LEAST_HOLES).with(there, least).margin(margin).part("weep holes"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.breath", "air that the box breathes a day", Kind::Volume, &BREATH, |s, _| {
        Ok(found(s)?.air.into())
    })
    .by(
        "breathing",
        "V (1 − 283 K/T_hot), T_hot the mean of {T_p} and the air",
        &[("T_p", "absorber.stagnation_worst")],
    ),
    Figure::new("enclosure.dew", "dew that one damp night can leave", Kind::Mass, &BREATH, |s, _| {
        Ok(found(s)?.dew.into())
    })
    .by("breathing", "{air} of saturated air of 10 °C under glass of 5 °C", &[("air", "enclosure.breath")]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "enclosure.breathing",
    "holes that let the box dry",
    Severity::Nuisance,
    holes,
)
.says(
    "The box has {found} {part}; {limit} at least let it breathe and drain. One day drives {enclosure.breath} out, one \
         damp night can leave {enclosure.dew} under the glass.",
    "Two to four meshed holes in the lower rail, and a joint or hole high on the shaded side for the air.",
)
.blind_to(
    "holes that insulation blocks; rain driven in; damp timber and wool, which give off far more; a leak of the harp",
)
.source("holes low and at the back: federal maintenance manual MO-405 (verified)")
.recalls("their number")
.needs(&["enclosure.weep_holes"])];
