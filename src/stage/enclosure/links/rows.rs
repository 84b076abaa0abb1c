//! Figures, checks, step and methods of the links between panels.

use super::{
    FREE, GRIP, HOSE, HOSE_CUT, HOSES, LEAST_GAP, RIGID, ROOM, ROOM_HOT, SHRINK, SLEEVE, STUBS, free_least, gap_least,
    grip, hose_cut, hoses_wanted, rigid_growth, room, room_hot, shrink, stubs_outside,
};
use crate::handbook::hose;
use crate::model::{Evidence, Fig, Judgement, Stage, Step, Verdict, Why};
use crate::physics::expansion::end_play;
use crate::stage::method::Method;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Severity, Solution};
use crate::units::Kind::{Count, Length};
use crate::units::Quantity;
use crate::units::si::{Dimension, difference};

/// Sums of decimal lengths in binary: what is short by less than a nanometre is long enough.
const HAIR: f64 = 1e-9;

fn room_check(s: &Solution) -> Fig<Judgement> {
    if hoses_wanted(s)? == 0 {
        return Ok(Judgement::does_not_apply("a single panel has no neighbour"));
    }
    let (left, right) = stubs_outside(s)?;
    let at_least = |found: crate::units::si::Length, limit: crate::units::si::Length, part: &str, verdict: Verdict| {
        let verdict = if (found - limit).si() >= -HAIR { Verdict::Clear } else { verdict };
        Judgement::of(verdict).with(found, limit).margin(found - limit).part(part)
    };
    let grip = grip(s)?;
    worst([
        Ok(at_least(left.min(right), grip, "stub outside the box for the grip of the hose", Verdict::Stop)),
        room_hot(s).map(|room| at_least(room, end_play(), "room between hot stubs", Verdict::Stop)),
        free_least(s).and_then(|free| Ok(at_least(room(s)?, free, "free length of the hose", Verdict::Caution))),
        room(s).map(|room| at_least(room, grip, "room to take a hose off and a panel out", Verdict::Caution)),
    ])
}

fn hose_check(s: &Solution) -> Fig<Judgement> {
    if hoses_wanted(s)? == 0 {
        return Ok(Judgement::does_not_apply("a single panel has no neighbour"));
    }
    let name = s.inputs.get(&HOSE)?;
    let hose = hose::hose(&name).ok_or_else(|| Why::Invalid(vec![HOSE.spec.id.to_owned()]))?;
    let worst = s.absorber.stagnation.clone()?.worst;
    let margin = difference(hose.hottest, worst);
    let judgement = Judgement::stop_unless(hose.hottest >= worst).with(worst, hose.hottest).margin(margin).part(name);
    Ok(judgement.resting_on(hose.provenance))
}

fn sleeve(s: &Solution) -> Fig<Judgement> {
    if hoses_wanted(s)? == 0 {
        return Ok(Judgement::does_not_apply("a single panel has no neighbour"));
    }
    Ok(Judgement::caution_unless(s.inputs.get(&SLEEVE)?))
}

const GROWTH: (&str, &str) = ("ΔL", "enclosure.header_growth");
const OUT: (&str, &str) = ("stubs", "enclosure.stubs_outside");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.link_shrink", "header shrinks in winter", Length, &SHRINK, |s, _| Ok(shrink(s)?.into())).by(
        "links",
        "17.3e-6/K × {L} × (20 °C − {T})",
        &[("L", "absorber.header_length"), ("T", "site.record_low")],
    ),
    Figure::new("enclosure.link_free_least", "least free length of a hose", Length, &FREE, |s, _| {
        Ok(free_least(s)?.into())
    })
    .tape()
    .by("links", "4 × the larger of {ΔL} and {winter}", &[GROWTH, ("winter", "enclosure.link_shrink")]),
    Figure::new("enclosure.link_grip", "grip of a hose on each stub", Length, &GRIP, |s, _| Ok(grip(s)?.into()))
        .tape()
        .by("links", "1.5 × outside diameter of the header", &[]),
    Figure::new("enclosure.stubs_outside", "both stubs outside the boxes", Length, &STUBS, |s, _| {
        let (left, right) = stubs_outside(s)?;
        Ok((left + right).into())
    })
    .tape()
    .by(
        "links",
        "{left} + {right} − 2 × (clearance + edge + rail)",
        &[("left", "absorber.stub_left"), ("right", "absorber.stub_right")],
    ),
    Figure::new("enclosure.link_room", "room between stubs, 20 °C", Length, &ROOM, |s, _| Ok(room(s)?.into()))
        .tape()
        .by("links", "{gap} − {stubs}", &[("gap", "enclosure.panel_gap"), OUT]),
    Figure::new("enclosure.link_room_hot", "room between stubs at stagnation", Length, &ROOM_HOT, |s, _| {
        Ok(room_hot(s)?.into())
    })
    .by("links", "{room} − {ΔL}", &[("room", "enclosure.link_room"), GROWTH]),
    Figure::new("enclosure.panel_gap_least", "least gap between boxes", Length, &LEAST_GAP, |s, _| {
        Ok(gap_least(s)?.into())
    })
    .tape()
    .by(
        "links",
        "{stubs} + largest of {free}, {ΔL} + 3 mm, {grip}",
        &[OUT, ("free", "enclosure.link_free_least"), GROWTH, ("grip", "enclosure.link_grip")],
    ),
    Figure::new("enclosure.link_cut", "hose for one link, cut", Length, &HOSE_CUT, |s, _| Ok(hose_cut(s)?.into()))
        .tape()
        .by("links", "{room} + 2 × {grip}", &[("room", "enclosure.link_room"), ("grip", "enclosure.link_grip")]),
    Figure::new("enclosure.link_count", "hoses between panels", Count, &HOSES, |s, _| {
        Ok(Quantity::count(hoses_wanted(s)?).into())
    })
    .by("links", "two between neighbours of a row", &[]),
    Figure::new("enclosure.row_growth", "growth of a row soldered through", Length, &RIGID, |s, _| {
        Ok(rigid_growth(s)?.into())
    })
    .by("links", "panels of a row × {ΔL}: why links are hoses", &[GROWTH]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.link-room", "room for the hoses between panels", Severity::Injury, room_check)
        .says(
            "Between neighbours there is {found} ({part}); {limit} is needed.",
            "Set the boxes {enclosure.panel_gap_least} apart or change the stubs; a panel must come out without its \
             neighbours.",
        )
        .blind_to("stubs that do not face each other, a row that is not straight, hoses that are stiff when cold")
        .source("room to take a hose off: project rule")
        .recalls("four times the movement and 1.5 diameters of grip")
        .needs(&[
            "enclosure.link_room",
            "enclosure.link_room_hot",
            "enclosure.link_free_least",
            "enclosure.link_grip",
            "enclosure.link_count",
        ]),
    Check::new("enclosure.link-hose", "hose between panels against stagnation", Severity::Serious, hose_check)
        .says(
            "{part} bears {limit} dry; next to an empty panel it can see {found}.",
            "Corrugated stainless, or a hose with a printed rating at that temperature and the loop's pressure.",
        )
        .blind_to("pressure at that temperature, steam, ageing: read what is printed on the hose")
        .ask("the maker for the rating at the temperature")
        .source("limits of hoses: handbook table; EPDM coolant hose: verified")
        .recalls_beside("the other rows of that table")
        .needs(&["enclosure.link_hose", "absorber.stagnation_worst", "enclosure.link_count"]),
    Check::new("enclosure.link-sleeve", "sleeves of the hoses", Severity::Nuisance, sleeve)
        .says(
            "The hoses between the panels lie bare in sun and weather.",
            "Insulation that stands the heat, and over it a jacket that stands the sun; clamps stay reachable.",
        )
        .blind_to("insulation that melts at the hot end")
        .source("common practice, no source")
        .needs(&["enclosure.link_sleeve", "enclosure.link_count"]),
];

/// The steps of this file.
pub static STEPS: &[Step] = &[Step::new("enclosure.links", Stage::Enclosure, "Panels linked: hoses, two clamps on each end")
    .detail(
        "{enclosure.link_count} hoses of {enclosure.link_cut}: {enclosure.link_grip} of grip on each beaded stub, two clamps, \
         tightened again after the first hot day. Then a sleeve. Take one panel out and put it back before the row is \
         filled: it must come without its neighbours.",
    )
    .evidence(Evidence::Note("grip at each end; clamps; panel taken out and put back"))
    .after(&["enclosure.lift-plan"])
    .relies(&["enclosure.link_hose", "enclosure.panel_gap", "absorber.stub_left", "absorber.stub_right"])
    .held_by(&["enclosure.link-room", "enclosure.link-hose"])
    .cautions(&["Panels covered and cold: an empty panel in the sun burns at a touch."])];

/// The methods of this file.
pub static METHODS: &[Method] = &[Method {
    id: "links",
    title: "Links between panels",
    what: "Each panel is held in its middle, so the stubs of two neighbours close their room by the growth of one header and \
           open it in winter. A hose is free over at least four times that movement and grips 1.5 diameters on each stub. \
           Room for taking a hose off: one grip (project rule).",
    source: "growth: copper handbook (verified); hose lengths: from memory",
    code: "physics::expansion, stage::enclosure::links",
}];
