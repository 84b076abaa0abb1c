//! The figures of the plumbing stage.

use super::{CONTENTS, DRAW, HOT_WATER, LINE, LOOP, PIPE, ROW, STORAGE, circuit, hydraulics, load, panel_count};
use crate::model::{Fig, TradeUnits, Value};
use crate::physics::fluid::Fluid;
use crate::stage::site::rows::month;
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::Kind::{Area, Count, Energy, Flow, LossCoefficient, Number, Percent, Pressure, Speed, Volume};
use crate::units::si::celsius;
use crate::units::{Kind, Quantity};

/// Water that a tank is filled with, °C.
const COLD_FILL: f64 = 10.0;

static TANK_WATER: Group = Group { name: "water of the tank", entries: &["plumbing.tank"], groups: &[] };

static PANELS: Group = Group { name: "panels", entries: &[], groups: &[] };

/// A number of a kind.
pub(super) fn plain(kind: Kind, si: f64) -> Value {
    Quantity::new(kind, si).into()
}

/// All panels together.
pub(super) fn row(s: &Solution) -> Fig<&circuit::Row> {
    s.plumbing.row.as_ref().map_err(Clone::clone)
}

fn pipe(s: &Solution) -> Fig<&hydraulics::PipeCost> {
    s.plumbing.pipe.as_ref().map_err(Clone::clone)
}

const COUNT: (&str, &str) = ("n", "plumbing.panel_count");
/// Outside area, as a term of a formula.
pub(super) const AREA: (&str, &str) = ("A", "plumbing.panel_area_total");
const FLOW: (&str, &str) = ("Q", "plumbing.flow");
const VOLUME: (&str, &str) = ("V", "plumbing.daily_volume");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("plumbing.panel_count", "panels", Count, &PANELS, |s, _| {
        Ok(Quantity::count(panel_count(&s.inputs)?).into())
    })
    .by("panel-row", "panels listed in the project", &[]),
    Figure::new("plumbing.panel_area_total", "outside area of all panels", Area, &ROW, |s, _| {
        Ok(row(s)?.outside_area.into())
    })
    .by("panel-row", "{n} × outside width × outside length of the box", &[COUNT]),
    Figure::new("plumbing.tank_water", "water of the full tank weighs", Kind::Mass, &TANK_WATER, |s, _| {
        Ok((s.inputs.get(&super::entries::TANK)? * Fluid::Water.density(celsius(COLD_FILL))).into())
    })
    .by("tank-water", "{V} × density at 10 °C", &[("V", "plumbing.tank")]),
    Figure::new("plumbing.flow", "design flow", Flow, &ROW, |s, _| Ok(row(s)?.flow.into())).by(
        "panel-row",
        "{q} × {A}",
        &[("q", "plumbing.flow_per_area"), AREA],
    ),
    Figure::new("plumbing.velocity", "speed in the fastest run", Speed, &PIPE, |s, _| {
        Ok(pipe(s)?.fastest()?.drop.velocity.into())
    })
    .shown_in(TradeUnits::WATER_SPEED)
    .by("pipe-friction", "v = 4 {Q}/(π D²), D the narrowest bore among the runs", &[FLOW]),
    Figure::new("plumbing.reynolds", "Reynolds number in the fastest run", Number, &PIPE, |s, _| {
        Ok(plain(Number, pipe(s)?.fastest()?.drop.reynolds))
    })
    .by("pipe-friction", "Re = ρ {v} D/μ at 45 °C", &[("v", "plumbing.velocity")]),
    Figure::new("plumbing.pipe_drop", "pressure drop of the pipe", Pressure, &PIPE, |s, _| Ok(pipe(s)?.total().into()))
        .by(
            "pipe-friction",
            "Σ (f L/D + ΣK) ρ v²/2 over {L} of pipe at {Q} and 45 °C",
            &[("L", "plumbing.pipe_total"), FLOW],
        ),
    Figure::new("plumbing.loop_drop", "pressure drop of the whole loop", Pressure, &LOOP, |s, _| {
        Ok(s.plumbing.working.cost.as_ref().map_err(Clone::clone)?.total.into())
    })
    .by(
        "pipe-friction",
        "{pipe} + {panels} + {coil} + {parts}",
        &[
            ("pipe", "plumbing.pipe_drop"),
            ("panels", "plumbing.panels_drop"),
            ("coil", "plumbing.coil_drop"),
            ("parts", "plumbing.parts_drop"),
        ],
    ),
    Figure::new("plumbing.panels_content", "liquid in all panels", Volume, &CONTENTS, |s, _| {
        Ok(s.plumbing.contents.clone()?.panels.into())
    })
    .by("loop-content", "{n} × {harp}", &[COUNT, ("harp", "absorber.content")]),
    Figure::new("plumbing.pipe_content", "liquid in the pipe", Volume, &CONTENTS, |s, _| {
        Ok(s.plumbing.contents.clone()?.pipe.into())
    })
    .by("loop-content", "Σ π D²/4 L over {L}, and the branches", &[("L", "plumbing.pipe_total")]),
    Figure::new("plumbing.parts_content", "liquid in coil and parts", Volume, &CONTENTS, |s, _| {
        Ok(s.plumbing.contents.clone()?.parts.into())
    })
    .by("loop-content", "bore of the coil × its length, and what exchanger, filter and meter hold", &[]),
    Figure::new("plumbing.loop_content", "liquid in the whole loop", Volume, &CONTENTS, |s, _| {
        Ok(s.plumbing.contents.clone()?.total().into())
    })
    .by(
        "loop-content",
        "{panels} + {pipe} + {parts}; tank, reservoir and vessel come on top",
        &[
            ("panels", "plumbing.panels_content"),
            ("pipe", "plumbing.pipe_content"),
            ("parts", "plumbing.parts_content"),
        ],
    ),
    Figure::new("plumbing.storage_per_area", "litres of tank per m² outside", Number, &STORAGE, |s, _| {
        Ok(s.plumbing.storage.clone()?.into())
    })
    .by("panel-row", "{tank} in litres / {A} in m²", &[("tank", "plumbing.tank"), AREA]),
    Figure::new("plumbing.daily_volume", "hot water in a day", Volume, &DRAW, |s, _| {
        Ok(load::daily_volume(&s.inputs)?.into())
    })
    .by("load", "{n} × {each}", &[("n", "plumbing.people"), ("each", "plumbing.per_person")]),
    Figure::new("plumbing.load_day", "heat for a day, coldest mains", Energy, &HOT_WATER, |s, _| {
        Ok(s.plumbing.load.clone()?.coldest_day.into())
    })
    .by("load", "Q = ρ {V} c_p ({T} − {Tm})", &[VOLUME, ("T", "plumbing.tap"), ("Tm", "site.mains_coldest")]),
    Figure::new("plumbing.load_month", "heat wanted, month", Energy, &HOT_WATER, |s, key| {
        Ok(s.plumbing.load.clone()?.monthly[month(key)].into())
    })
    .axis(Axis::Month)
    .by("load", "days with a draw × ρ {V} c_p ({T} − mains of the month)", &[VOLUME, ("T", "plumbing.tap")]),
    Figure::new("plumbing.optical_gain", "gain of the panels F_R(τα)", Percent, &LINE, |s, _| {
        Ok(plain(Percent, s.plumbing.line.clone()?.optical_gain))
    })
    .by(
        "collector-line",
        "{F_R} × absorbed / sun at the working point, or as fitted",
        &[("F_R", "absorber.heat_removal_factor")],
    ),
    Figure::new("plumbing.inlet_loss", "loss of the panels F_R U_L", LossCoefficient, &LINE, |s, _| {
        Ok(s.plumbing.line.clone()?.loss.into())
    })
    .by(
        "collector-line",
        "{F_R} × {U_L} at the working point, or as fitted",
        &[("F_R", "absorber.heat_removal_factor"), ("U_L", "absorber.loss_coefficient")],
    ),
    Figure::new("plumbing.exchanger_factor", "kept through the exchanger F_R′/F_R", Percent, &LINE, |s, _| {
        Ok(plain(Percent, s.plumbing.line.clone()?.exchanger_factor))
    })
    .by(
        "collector-exchanger",
        "1/(1 + A {loss}/C (1/{ε} − 1)); 100 % without an exchanger",
        &[("loss", "plumbing.inlet_loss"), ("ε", "plumbing.exchanger_used")],
    ),
    Figure::new("plumbing.load_year", "heat wanted in a year", Energy, &HOT_WATER, |s, _| {
        Ok(s.plumbing.load.clone()?.year().into())
    })
    .by("load", "sum of twelve months", &[]),
];
