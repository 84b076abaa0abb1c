//! Figures and checks of the pane beyond its size: blocks, snow, plastic, who confirms.

use super::{HOTTEST, SNOWED, UnderPressure, block_length, gap_under_snow, hottest_cover, snow_load, under_snow};
use crate::model::{Entry, EntrySpec, Fig, Judgement, Verdict};
use crate::stage::enclosure::entries::{self as e, Glass};
use crate::stage::enclosure::{PANE, PRESSURE};
use crate::stage::method::Method;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Severity, Solution};
use crate::units::Kind::{Length, Pressure, Temperature};
use crate::units::si::{self, Dimension, celsius, difference};

/// Who confirmed the pane.
pub static CONFIRMED: Entry<String> = Entry::text("enclosure.glass_confirmed", "pane confirmed by")
    .why("the glazier or the chart of the glass standard: name, load and day");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&CONFIRMED.spec];

/// Hottest that polycarbonate bears for good, °C: 212 °F on one maker's page, 250 °F without load on another (both
/// verified); the lower holds.
const PLASTIC_HOTTEST: f64 = 100.0;
/// Room that glass keeps to the plate, m (project rule).
const LEAST_ROOM: f64 = 0.005;

fn pressed(s: &Solution) -> Fig<&UnderPressure> {
    s.enclosure.under_pressure.as_ref().map_err(Clone::clone)
}

fn snow(s: &Solution) -> Fig<Judgement> {
    let pressed = under_snow(s)?;
    let stress = pressed.bending.stress;
    let carries = Judgement::stop_unless(stress <= pressed.allowable)
        .with(stress, pressed.allowable)
        .margin(pressed.allowable - stress)
        .part("stress");
    let (room, least) = (gap_under_snow(s)?, si::Length::from_si(LEAST_ROOM));
    let free = Judgement::stop_unless(room >= least).with(room, least).margin(room - least).part("room to the plate");
    let (bend, limit) = (pressed.bending.deflection, pressed.deflection_limit);
    let stiff = Judgement::caution_unless(bend <= limit).with(bend, limit).margin(limit - bend).part("deflection");
    worst([Ok(carries), Ok(free), Ok(stiff)])
}

fn plastic(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::GLASS)? != Glass::Polycarbonate {
        return Ok(Judgement::of(Verdict::Clear));
    }
    let (cover, limit) = (hottest_cover(s)?, celsius(PLASTIC_HOTTEST));
    let verdict = if cover > limit { Verdict::Stop } else { Verdict::Caution };
    Ok(Judgement::of(verdict).with(cover, limit).margin(difference(limit, cover)))
}

fn confirmed(s: &Solution) -> Fig<Judgement> {
    s.inputs.get(&CONFIRMED)?;
    Ok(Judgement::of(Verdict::Clear))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.glass_deflection_linear", "deflection, upper bound", Length, &PRESSURE, |s, _| {
        Ok(pressed(s)?.linear.deflection.into())
    })
    .by("glass-pressure", "w = α {q} a⁴/D, small deflection", &[("q", "enclosure.glass_pressure")]),
    Figure::new("enclosure.glass_allowable", "stress the glass may carry, wind", Pressure, &PRESSURE, |s, _| {
        Ok(pressed(s)?.allowable.into())
    })
    .by("glass-duration", "design stress of {kind} for 60 s", &[("kind", "enclosure.glass")]),
    Figure::new("enclosure.glass_deflection_limit", "deflection allowed", Length, &PRESSURE, |s, _| {
        Ok(pressed(s)?.deflection_limit.into())
    })
    .by(
        "glass-pressure",
        "least of a sixtieth of the short side, 25 mm, {gap} − 5 mm",
        &[("gap", "enclosure.air_gap")],
    ),
    Figure::new("enclosure.glass_snow", "snow and own weight across the glass", Pressure, &SNOWED, |s, _| {
        Ok(snow_load(s)?.into())
    })
    .by(
        "glass-snow",
        "{S} + {m} g cos β / area",
        &[("S", "enclosure.snow_normal"), ("m", "enclosure.glass_mass")],
    ),
    Figure::new("enclosure.glass_snow_stress", "stress of the glass, snow", Pressure, &SNOWED, |s, _| {
        Ok(under_snow(s)?.bending.stress.into())
    })
    .by("glass-snow", "large deflection under {q}", &[("q", "enclosure.glass_snow")]),
    Figure::new("enclosure.glass_snow_deflection", "deflection of the glass, snow", Length, &SNOWED, |s, _| {
        Ok(under_snow(s)?.bending.deflection.into())
    })
    .by("glass-snow", "large deflection under {q}", &[("q", "enclosure.glass_snow")]),
    Figure::new("enclosure.glass_snow_allowable", "stress the glass may carry, snow", Pressure, &SNOWED, |s, _| {
        Ok(under_snow(s)?.allowable.into())
    })
    .by("glass-duration", "design stress of {kind} × (30 d / 60 s)^−p", &[("kind", "enclosure.glass")]),
    Figure::new("enclosure.glass_snow_room", "glass to plate under snow", Length, &SNOWED, |s, _| {
        Ok(gap_under_snow(s)?.into())
    })
    .by("glass-snow", "{gap} − {w}", &[("gap", "enclosure.air_gap"), ("w", "enclosure.glass_snow_deflection")]),
    Figure::new("enclosure.cover_hottest", "cover in the worst hour", Temperature, &HOTTEST, |s, _| {
        Ok(hottest_cover(s)?.into())
    })
    .by("cover-worst", "balance of the empty panel at {T_p}", &[("T_p", "absorber.stagnation_worst")]),
    Figure::new("enclosure.block_length", "setting block, length", Length, &PANE, |s, _| {
        Ok(block_length(s.enclosure.pane.as_ref().map_err(Clone::clone)?).into())
    })
    .tape()
    .by(
        "setting-blocks",
        "27 mm for each m² of {w} × {l}, 100 mm at least",
        &[("w", "enclosure.glass_width"), ("l", "enclosure.glass_length")],
    ),
    Figure::new("enclosure.block_place", "setting block, from each end", Length, &PANE, |s, _| {
        Ok((s.enclosure.pane.as_ref().map_err(Clone::clone)?.width / 4.0).into())
    })
    .tape()
    .by("setting-blocks", "{w} / 4, to the middle of the block", &[("w", "enclosure.glass_width")]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.glass-snow", "glass under snow", Severity::Serious, snow)
        .says(
            "Under snow that lies for a month the glass comes to {found} ({part}); the limit is {limit}.",
            "Thicker glass, a smaller pane or a steeper tilt; a wider air gap where it would touch the plate.",
        )
        .blind_to(
            "drifts, sliding snow and ice; somebody who clears the glass: screening only; local code and a licensed \
             engineer decide",
        )
        .ask("a licensed engineer or the building authority for the snow")
        .source("room to the plate 5 mm: project rule")
        .recalls("30-day strength of tempered glass 3.0 × 23.3 MPa: ASTM E1300")
        .needs(&["enclosure.glass_snow_stress", "enclosure.glass_snow_room", "enclosure.glass_snow_deflection"]),
    Check::new("enclosure.plastic-cover", "plastic cover over a hot plate", Severity::Serious, plastic)
        .says(
            "Empty in full sun a polycarbonate cover comes to {found}; {limit} is the most it bears for good.",
            "Tempered glass. Plastic only over a plate that can never stand empty in the sun, in a rebate of 20 mm, with \
             4 to 5 mm of clearance at every edge.",
        )
        .blind_to("ageing, yellowing, hail, fire; multi-wall sheet, whose inner skin is hotter than the balance says")
        .source("212 °F and 250 °F without load: two makers' pages (verified); the lower holds")
        .needs(&["enclosure.glass", "enclosure.cover_hottest"]),
    Check::new("enclosure.glass-confirmed", "pane confirmed by a glazier", Severity::Serious, confirmed)
        .says(
            "Nobody has confirmed the pane for its wind and snow yet.",
            "Show size, thickness, {enclosure.glass_pressure} and {enclosure.glass_snow} to a glazier, or read the chart.",
        )
        .blind_to("whether the glazier saw the real loads: screening only; local code and a licensed engineer decide")
        .ask("a glazier, or a licensed engineer, by the charts of the glass standard")
        .source("project rule")
        .needs(&["enclosure.glass_confirmed"]),
];

/// The methods of this file.
pub static METHODS: &[Method] = &[
    Method {
        id: "glass-duration",
        title: "Strength of glass and the length of its load",
        what: "Glass weakens under a load that lasts: design stress for 60 s at 0.8 % breakage, times (t/60 s)^−p; p is \
               1/16 for annealed glass and smaller for tempered. A gust is taken as 60 s, snow as 30 days. Screening only: \
               local code and a licensed engineer decide.",
        source: "19, 39 and 77 MPa: technical bulletin on float glass (verified); durations: ASTM E1300, from memory",
        code: "physics::glass::Treatment::allowable",
    },
    Method {
        id: "glass-snow",
        title: "Pane under snow",
        what: "Snow across the glass and the pane's own weight, for 30 days, by the same plate as under wind; what is left \
               of the air gap below the middle of the pane. Screening only: local code and a licensed engineer decide.",
        source: "as for the pane under uniform pressure",
        code: "stage::enclosure::glass::under_snow",
    },
    Method {
        id: "cover-worst",
        title: "Cover in the worst hour",
        what: "The mean cover temperature in the heat balance of the empty panel in the worst hour; the middle of the \
               pane is hotter, its edge cooler.",
        source: "the heat balance of the absorber stage",
        code: "stage::enclosure::heat::worst_hour",
    },
    Method {
        id: "setting-blocks",
        title: "Setting blocks",
        what: "Two blocks of EPDM or silicone, Shore A 85, at the quarter points of the lower edge, 3 mm wider than the \
               glass is thick, with a gap for water beside them.",
        source: "glazing practice, from memory",
        code: "stage::enclosure::glass::block_length",
    },
];
