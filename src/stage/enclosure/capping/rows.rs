//! Figures, checks, step and methods of the caps.

use super::entries as e;
use super::{CAP_SCREWS, LENGTHS, METALS, PIECES, PROFILE, SCREWS, caps, profile};
use crate::handbook::galvanic::anodic_indices;
use crate::handbook::hose::sealants;
use crate::model::{Evidence, Fig, Judgement, Stage, Step, Value, Why};
use crate::physics::galvanic::Surroundings;
use crate::stage::enclosure::glass::hottest_cover;
use crate::stage::method::Method;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Severity, Solution};
use crate::units::Kind::{Count, Force, Length};
use crate::units::Quantity;
use crate::units::si::difference;

/// The copper that a cap comes near, by its name in the series.
const COPPER: &str = "copper, silver solder";

fn metals(s: &Solution) -> Fig<Judgement> {
    let limit = Quantity::number(Surroundings::Harsh.largest_difference());
    let cap = super::cap_metal(&s.inputs)?;
    let judge = |other, part: &str| {
        let found = super::contact(cap, other)?;
        let margin = Quantity::number(Surroundings::Harsh.largest_difference() - found.difference);
        let verdict = Judgement::caution_unless(found.within_limit);
        let judgement = verdict.with(Quantity::number(found.difference), limit).margin(margin).part(part);
        Ok(judgement.resting_on(cap.provenance).resting_on(other.provenance))
    };
    let copper = anodic_indices().get(COPPER).ok_or_else(|| Why::missing(e::METAL.spec.id))?;
    worst([
        super::screw_metal(&s.inputs).and_then(|screw| judge(screw, "its screws")),
        judge(copper, "copper, or water that runs off it"),
    ])
}

fn sealant(s: &Solution) -> Fig<Judgement> {
    let name = s.inputs.get(&e::SEALANT)?;
    let sealant = sealants().iter().find(|sealant| sealant.name == name);
    let limit = sealant.ok_or_else(|| Why::Invalid(vec![e::SEALANT.spec.id.to_owned()]))?.hottest;
    let cover = hottest_cover(s)?;
    Ok(Judgement::stop_unless(cover <= limit).with(cover, limit).margin(difference(limit, cover)).part(name))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.cap_top", "cap, leg over glass and rail", Length, &PROFILE, |s, _| {
        Ok(profile(s)?.top.into())
    })
    .tape()
    .by(
        "cap-profile",
        "{lap} + {clearance} + {shoulder}",
        &[
            ("lap", "enclosure.cap_lap"),
            ("clearance", "enclosure.glass_clearance"),
            ("shoulder", "enclosure.glass_shoulder"),
        ],
    ),
    Figure::new("enclosure.cap_developed", "cap, width of the flat strip", Length, &PROFILE, |s, _| {
        Ok(profile(s)?.developed.into())
    })
    .tape()
    .by(
        "cap-profile",
        "straight parts of {top}, {drop}, {hem} and the neutral fibre of both bends",
        &[("top", "enclosure.cap_top"), ("drop", "enclosure.cap_drop"), ("hem", "enclosure.cap_hem")],
    ),
    Figure::new("enclosure.cap_bend_1", "cap, first bend line, right", Length, &PROFILE, |s, _| {
        Ok(profile(s)?.first_bend.into())
    })
    .tape()
    .by("cap-profile", "from the edge on the glass to the middle of the bend", &[]),
    Figure::new("enclosure.cap_bend_2", "cap, second bend line, hem", Length, &PROFILE, |s, _| {
        Ok(profile(s)?.second_bend.into())
    })
    .tape()
    .by("cap-profile", "from the edge on the glass to the middle of the hem", &[]),
    Figure::new("enclosure.cap_lower", "lower cap, length", Length, &LENGTHS, |s, _| Ok(caps(s)?.lower.into()))
        .tape()
        .by("cap-lengths", "{W}", &[("W", "enclosure.outside_width")]),
    Figure::new("enclosure.cap_side", "side caps, length", Length, &LENGTHS, |s, _| Ok(caps(s)?.side.into()))
        .tape()
        .by("cap-lengths", "{L} + {lap}", &[("L", "enclosure.outside_length"), ("lap", "enclosure.cap_overlap")]),
    Figure::new("enclosure.cap_upper", "upper cap, length", Length, &LENGTHS, |s, _| Ok(caps(s)?.upper.into()))
        .tape()
        .by("cap-lengths", "{W} + 2 × {lap}", &[("W", "enclosure.outside_width"), ("lap", "enclosure.cap_overlap")]),
    Figure::new("enclosure.cap_side_pieces", "pieces of a side cap", Count, &PIECES, |s, _| {
        Ok(Quantity::count(super::side_pieces(s)?).into())
    })
    .by(
        "cap-lengths",
        "({side} − {lap}) / ({stock} − {lap}), rounded up",
        &[("side", "enclosure.cap_side"), ("lap", "enclosure.cap_overlap"), ("stock", "enclosure.cap_stock")],
    ),
    Figure::new("enclosure.cap_screws", "screws of one panel's caps", Count, &SCREWS, |s, _| {
        Ok(Quantity::count(super::screws(s)?).into())
    })
    .by("cap-screws", "each side / {s}, rounded up, and one more", &[("s", "enclosure.cap_screw_spacing")]),
    Figure::new("enclosure.cap_screw_load", "pull on a cap screw", Force, &CAP_SCREWS, |s, _| {
        Ok(super::screw_load(s)?.into())
    })
    .by(
        "cap-screws",
        "0.5 × {p} × short side × {s}",
        &[("p", "enclosure.glass_pressure"), ("s", "enclosure.cap_screw_spacing")],
    ),
    Figure::new("enclosure.cap_screw_holds", "a cap screw holds", Force, &CAP_SCREWS, |s, _| {
        Ok(super::screw_holds(&s.inputs)?.into())
    })
    .by(
        "cap-screws",
        "2850 G² {D} lb/in × {thread} × 1.6 × moisture",
        &[("D", "enclosure.cap_screw_diameter"), ("thread", "enclosure.cap_screw_thread")],
    ),
    Figure::word("enclosure.cap_may_touch", "metals that may touch the cap", &METALS, |s, _| {
        Ok(Value::Text(super::companions(&s.inputs)?.join("; ")))
    })
    .by("galvanic", "within 0.15 V of {metal}", &[("metal", "enclosure.cap_metal")]),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.cap-metals", "metals at the cap", Severity::Nuisance, metals)
        .says(
            "The cap and {part} lie {found} V apart; outdoors {limit} V is the most that may touch.",
            "The same metal for cap and screws, or plastic washers between; keep copper and its run-off away from it.",
        )
        .blind_to("coatings, washers, treated timber, salt air; how large each metal's face is")
        .source("anodic index and 0.15 V outdoors: page on the galvanic table (verified)")
        .recalls_beside("some metals of the table")
        .needs(&["enclosure.cap_metal", "enclosure.cap_screw_metal"]),
    Check::new("enclosure.sealant", "sealant against the hot cover", Severity::Nuisance, sealant)
        .says(
            "{part} bears {limit}; with the panel empty in the sun the cover can reach {found}.",
            "Neutral-cure or high-temperature silicone. Vinegar-smelling silicone eats copper.",
        )
        .blind_to("outgassing that fogs the glass; the label: read that it cures neutral")
        .source("the sheet of the sealant wins")
        .recalls("limits of sealants")
        .needs(&["enclosure.sealant", "enclosure.cover_hottest"]),
];

/// The steps of this file.
pub static STEPS: &[Step] = &[Step::new("enclosure.caps", Stage::Enclosure, "Caps folded: strip, two bend lines, hem, laps")
    .per_panel()
    .detail(
        "Strip {enclosure.cap_developed} wide; bend at {enclosure.cap_bend_1} and {enclosure.cap_bend_2} from the edge on the \
         glass. Lower cap {enclosure.cap_lower} first, side caps {enclosure.cap_side} over it, upper cap \
         {enclosure.cap_upper} over both. The lower cap gets a drain notch of 6 mm every 300 mm (common practice, no \
         source): water must never stand against the glass.",
    )
    .evidence(Evidence::Note("width of a trial piece after folding; laps; notches"))
    .after(&["enclosure.second-diagonal"])
    .relies(&["enclosure.cap_metal", "enclosure.cap_thickness", "enclosure.cap_lap", "enclosure.cap_drop"])
    .cautions(&["Cut sheet is a knife: gloves, goggles, hem every edge that a hand can reach."])];

/// The methods of this file.
pub static METHODS: &[Method] = &[
    Method {
        id: "cap-profile",
        title: "Folded cap",
        what: "Legs are outside sizes. Flat width is the sum of the straight parts and of the neutral fibre of each bend: \
               inside radius of the right bend one thickness, hem closed, neutral fibre at 0.42 of the thickness. Fold a \
               trial piece: benches differ by half a millimetre.",
        source: "shop formula, from memory",
        code: "physics::bend, stage::enclosure::capping",
    },
    Method {
        id: "cap-lengths",
        title: "Lengths of the caps",
        what: "Like shingles: the side caps lap over the lower one, the upper one over the side caps.",
        source: "common practice, no source",
        code: "stage::enclosure::capping::caps",
    },
    Method {
        id: "cap-screws",
        title: "Screws of the caps",
        what: "Suction lifts the pane against the caps; in the middle of a long side each metre carries half of pressure \
               times short side. Withdrawal of a wood screw from side grain with the factors of wind and wet timber. Pulling \
               of the head through the cap is not computed. Screening only: local code and a licensed engineer decide.",
        source: "plate reactions: Timoshenko, from memory; withdrawal: NDS, from memory",
        code: "physics::lag, stage::enclosure::capping",
    },
    Method {
        id: "galvanic",
        title: "Metals that may touch",
        what: "Difference of the anodic indices, 0.15 V at most outdoors. A small piece of the less noble metal in a large \
               noble one fares worse than the figure says.",
        source: "page on the galvanic table (verified); some metals from memory",
        code: "physics::galvanic, handbook::galvanic",
    },
];
