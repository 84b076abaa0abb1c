//! The figures and methods of wind, snow and dead load.

use super::{DEAD_DRY, DEAD_WET, DOWN, EXPOSURE, PUSH, SNOW, SNOW_FLAT, SNOW_SLOPED, SUCTION, UP, WIND};
use crate::model::Value;
use crate::stage::Figure;
use crate::stage::method::Method;
use crate::units::Kind::{Number, Pressure};
use crate::units::Quantity;

const ARRAY: (&str, &str) = ("γ", "enclosure.array_factor");
const TILT: (&str, &str) = ("β", "site.tilt");
const RACK: (&str, &str) = ("rack", "enclosure.rack_mass");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.wind_kz", "exposure coefficient K_z", Number, &EXPOSURE, |s, _| {
        Ok(Quantity::number(super::exposure(s)?).into())
    })
    .by(
        "wind-pressure",
        "2.01 (z/z_g)^(2/α) of 2016 or 2.41 (z/z_g)^(2/α) of 2022, z = {z}, 15 ft at least",
        &[("z", "enclosure.wind_height")],
    ),
    Figure::new("enclosure.velocity_pressure", "velocity pressure of the wind", Pressure, &WIND, |s, _| {
        Ok(super::wind(s)?.printed.into())
    })
    .by(
        "wind-pressure",
        "0.613 {Kz} {Kzt} {Kd} {Ke} {V}²; the edition of 2022 leaves K_d to the net pressure",
        &[
            ("Kz", "enclosure.wind_kz"),
            ("Kzt", "enclosure.wind_topography"),
            ("Kd", "enclosure.wind_direction"),
            ("Ke", "enclosure.wind_elevation"),
            ("V", "site.wind_speed"),
        ],
    ),
    Figure::new("enclosure.net_suction", "net suction, strength level", Pressure, &SUCTION, |s, _| {
        Ok(super::suction(s)?.into())
    })
    .by(
        "wind-pressure",
        "{q} with K_d × {C} × {γ}",
        &[("q", "enclosure.velocity_pressure"), ("C", "enclosure.suction_coefficient"), ARRAY],
    ),
    Figure::new("enclosure.net_push", "net push, strength level", Pressure, &PUSH, |s, _| Ok(super::push(s)?.into()))
        .by(
            "wind-pressure",
            "{q} with K_d × {C} × {γ}",
            &[("q", "enclosure.velocity_pressure"), ("C", "enclosure.push_coefficient"), ARRAY],
        ),
    Figure::new(
        "enclosure.snow_flat",
        "snow on the flat",
        Pressure,
        &SNOW_FLAT,
        |s, _| Ok(super::snow_flat(s)?.into()),
    )
    .by(
        "snow-pressure",
        "0.7 {Ce} {Ct} {Is} {pg}",
        &[
            ("Ce", "enclosure.snow_exposure"),
            ("Ct", "enclosure.snow_thermal"),
            ("Is", "enclosure.snow_importance"),
            ("pg", "site.snow_load"),
        ],
    ),
    Figure::new("enclosure.snow_sloped", "snow on the slope, per level area", Pressure, &SNOW_SLOPED, |s, _| {
        Ok(super::snow_sloped(s)?.into())
    })
    .by("snow-pressure", "{Cs} × {flat}", &[("Cs", "enclosure.snow_slope"), ("flat", "enclosure.snow_flat")]),
    Figure::new("enclosure.snow_normal", "snow across the glass", Pressure, &SNOW, |s, _| {
        Ok(super::snow(s)?.normal_to_glass.into())
    })
    .by("snow-pressure", "{sloped} cos²{β}", &[("sloped", "enclosure.snow_sloped"), TILT]),
    Figure::new("enclosure.dead_dry", "dead load, dry", Pressure, &DEAD_DRY, |s, _| {
        Ok(super::dead(s, super::mass_dry(s)?)?.into())
    })
    .by(
        "dead-load",
        "({panel} + {rack}) g / {A}",
        &[("panel", "enclosure.mass_dry"), RACK, ("A", "enclosure.outside_area")],
    ),
    Figure::new("enclosure.dead_wet", "dead load, full", Pressure, &DEAD_WET, |s, _| {
        Ok(super::dead(s, super::mass_wet(s)?)?.into())
    })
    .by(
        "dead-load",
        "({panel} + {rack}) g / {A}",
        &[("panel", "enclosure.mass_wet"), RACK, ("A", "enclosure.outside_area")],
    ),
    Figure::new("enclosure.net_up", "net uplift, allowable level", Pressure, &UP, |s, _| Ok(super::up(s)?.into())).by(
        "load-combinations",
        "0.6 {W} − 0.6 {D} cos{β}",
        &[("W", "enclosure.net_suction"), ("D", "enclosure.dead_dry"), TILT],
    ),
    Figure::new("enclosure.net_down", "net load downward, allowable level", Pressure, &DOWN, |s, _| {
        Ok(super::down(s)?.pressure.into())
    })
    .by(
        "load-combinations",
        "largest of D + S, D + 0.6 W, D + 0.75 S + 0.75 (0.6 W) across the panel; {D} cos{β}, {S}, {W}",
        &[("D", "enclosure.dead_wet"), TILT, ("S", "enclosure.snow_normal"), ("W", "enclosure.net_push")],
    ),
    Figure::word("enclosure.down_combination", "combination that governs downward", &DOWN, |s, _| {
        Ok(Value::Text(super::down(s)?.combination.to_owned()))
    })
    .by("load-combinations", "the one that gives {down}", &[("down", "enclosure.net_down")]),
];

/// The methods of this file.
pub static METHODS: &[Method] = &[
    Method {
        id: "wind-pressure",
        title: "Wind pressure",
        what: "Velocity pressure of the strength-level 3 s gust with the code's factors, times net coefficients that \
               only the code for your zone, tilt and edition gives: none has a default. Editions before 2016 take no \
               height below 30 ft for parts of buildings in exposure B: enter 30 ft then. Screening only: local code and \
               a licensed engineer decide.",
        source: "ASCE 7: law of height of 2016 and before seen on a page (verified), that of 2022, the place of K_d \
                 and the 30 ft from memory",
        code: "physics::wind, stage::enclosure::loads",
    },
    Method {
        id: "snow-pressure",
        title: "Snow pressure",
        what: "Ground snow with the code's factors; glass is slippery, so the slope factor falls with the tilt where \
               snow can slide away. Drifts behind panels, and snow that slides on people below, are not computed. \
               Screening only: local code and a licensed engineer decide.",
        source: "ASCE 7, from memory; the part across the glass is geometry",
        code: "physics::snow, stage::enclosure::loads",
    },
    Method {
        id: "dead-load",
        title: "Dead load",
        what: "Weight of one panel and its share of the rack over the panel's outside area, empty and full. Screening \
               only: local code and a licensed engineer decide.",
        source: "weights of the parts; g 9.80665 m/s²",
        code: "stage::enclosure::loads",
    },
    Method {
        id: "load-combinations",
        title: "Loads together",
        what: "Combinations of allowable stress design, across the panel: uplift 0.6 D + 0.6 W with the empty panel; \
               downward D + S, D + 0.6 W, D + 0.75 S + 0.75 (0.6 W) with the full one. Earthquake, rain and \
               maintenance loads are not computed. Screening only: local code and a licensed engineer decide.",
        source: "ASCE 7, from memory",
        code: "stage::enclosure::loads",
    },
];
