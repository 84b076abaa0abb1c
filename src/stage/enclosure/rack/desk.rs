//! One city's rule for small solar mounts on a roof, by which its office answers at the desk and beyond which it asks for an
//! engineer. A published example of where screening ends, and never a permission: every place has its own.

use super::checks::{ENGINEER, at_least};
use super::entries::{self as e, MountKind};
use super::{MOUNTS, mounts};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::enclosure::loads;
use crate::stage::method::Method;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, Force, Length, Pressure};

/// Weight over the panel's area, Pa (4 psf).
const WEIGHT: f64 = 191.521;
/// Weight on one support, N (60 lb).
const ON_SUPPORT: f64 = 266.893;
/// Supports apart, m (48 in).
const APART: f64 = 1.2192;
/// Lag, m (5/16 in), and its thread in the rafter, m (2.5 in).
const LAG: f64 = 0.007_937_5;
const THREAD: f64 = 0.0635;
/// Height over the roof, m (24 in).
const HEIGHT: f64 = 0.6096;

/// Weight on a mount.
pub static MOUNT_WEIGHT: Group =
    Group { name: "weight on a mount, full", entries: &[], groups: &[&MOUNTS, &loads::DEAD_WET] };

/// Weight that the most loaded mount carries, full, plumb downward.
fn mount_weight(s: &Solution) -> Fig<Force> {
    Ok(loads::dead(s, loads::mass_wet(s)?)? * mounts(s)?.area)
}

fn desk(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::MOUNT_KIND)? == MountKind::Ground {
        return Ok(Judgement::does_not_apply("the rule is for mounts on a roof"));
    }
    let inputs = &s.inputs;
    let weight = loads::mass_wet(s).and_then(|mass| loads::dead(s, mass)).map(|found| {
        let limit = Pressure::from_si(WEIGHT);
        Judgement::caution_unless(found <= limit).with(found, limit).margin(limit - found).part("weight over the area")
    });
    let support = mount_weight(s).map(|found| {
        let limit = Force::from_si(ON_SUPPORT);
        Judgement::caution_unless(found <= limit).with(found, limit).margin(limit - found).part("weight on one support")
    });
    let at_most = |found: Length, limit: f64, part: &str| {
        let limit = Length::from_si(limit);
        Judgement::caution_unless(found <= limit).with(found, limit).margin(limit - found).part(part)
    };
    let least = |found: Length, limit: f64, part: &str| at_least(found, Length::from_si(limit), part, Verdict::Caution);
    worst([
        weight,
        support,
        inputs.get(&e::MOUNT_SPACING).map(|apart| at_most(apart, APART, "supports apart")),
        inputs.get(&e::LAG_DIAMETER).map(|lag| least(lag, LAG, "diameter of the lag")),
        inputs.get(&e::LAG_THREAD).map(|thread| least(thread, THREAD, "lag in the rafter")),
        inputs.get(&e::STANDOFF).map(|height| at_most(height, HEIGHT, "height over the roof")),
    ])
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[Figure::new("enclosure.mount_weight", "weight on the most loaded mount", Kind::Force, &MOUNT_WEIGHT, |s, _| {
        Ok(mount_weight(s)?.into())
    })
    .by("desk-rule", "{dead} × {A}", &[("dead", "enclosure.dead_wet"), ("A", "enclosure.mount_area")])];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "enclosure.desk-rule",
    "one city's rule for small roof mounts",
    Severity::Deadly,
    desk,
)
.says(
    "{part}: {found}, where one city's rule for small mounts ends at {limit}. Beyond it that city asks for an engineer.",
    "An engineer. Inside the rule as well the question is the office's: ask whether a rule like it holds here.",
)
.blind_to(
    "wind and snow of this place, the rafters and their age, tiles, the rule of your own office: an example of one city, \
     no permission; ask. Screening only; local code and a licensed engineer decide",
)
.ask(ENGINEER)
.source("4 psf, 60 lb on a support, 48 in apart, 5/16 in lag 2.5 in deep, 24 in high: permit page of one city (verified)")
.needs(&[
    "enclosure.mount_kind",
    "enclosure.dead_wet",
    "enclosure.mount_weight",
    "enclosure.mount_spacing",
    "enclosure.lag_diameter",
    "enclosure.lag_thread",
    "enclosure.standoff",
])];

/// The methods of this file.
pub static METHODS: &[Method] = &[Method {
    id: "desk-rule",
    title: "One city's rule for small roof mounts",
    what: "Full weight over the panel's area, times the area of the most loaded mount, plumb downward. Up to 4 psf, 60 lb on a \
           support, supports 48 in apart, lags of 5/16 in at least 2.5 in in the rafter and 24 in over the roof that city \
           permits a small collector at its desk. It stands here as an example of where screening ends; it permits nothing \
           anywhere else, and wind and snow are not in it. Screening only: local code and a licensed engineer decide.",
    source: "eligibility requirements of a city for a pool heating permit (verified)",
    code: "stage::enclosure::rack::desk",
}];
