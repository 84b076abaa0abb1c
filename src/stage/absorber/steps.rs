//! The checklist of the absorber stage.

use crate::model::{Condition, Evidence, Stage, Step};

const EMPTY_FIRST: &str = "Before every torch step: harp empty, dry, open at both ends. A wet or closed harp under a \
                           torch is a steam bomb.";
const TORCH: &str = "Torch: extinguisher at hand, timber and insulation out of reach, fire watch for 60 minutes after.";
const FUME: &str =
    "Flux and fume: open door and fan, goggles; wash hands before food. No galvanised metal, no cadmium.";
const PRESSURE: &str = "Test with water, not air: compressed air stores thousands of times the energy.";
const SHARP: &str = "Drilled copper and cut sheet are sharp: gloves, goggles, deburr before you touch.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("absorber.buy", Stage::Absorber, "Tube, sheet, solder and flux bought as designed")
        .detail(
            "{absorber.riser_tube} for risers ({absorber.riser_length_total} a panel before waste), \
             {absorber.header_tube} for headers, sheet {absorber.sheet_thickness}, solder {absorber.solder}. Measure \
             wall and sheet with a micrometer: thin stock is sold under the same name.",
        )
        .evidence(Evidence::Note("what was bought, and the measured wall and thickness"))
        .relies(&[
            "absorber.riser_tube",
            "absorber.header_tube",
            "absorber.sheet_thickness",
            "absorber.sheet_metal",
            "absorber.solder",
        ]),
    Step::new("absorber.make-jigs", Stage::Absorber, "Make the jigs: marker, cradles, board with stops, clamp bars")
        .detail(
            "Angle {absorber.jig_marker} long as line marker; V-grooves {absorber.jig_groove} deep, \
             {absorber.jig_cradles} apart; board {absorber.jig_board_length} × {absorber.jig_board_width} with slots of \
             {absorber.jig_slot} at the holes and shims of {absorber.jig_shim} under the risers; {absorber.clamp_bars} \
             clamp bars. No timber under a joint that is brazed: lay the harp on steel there.",
        )
        .evidence(Evidence::Note("diagonals of the board's stops"))
        .relies(&[
            "absorber.riser_count",
            "absorber.riser_pitch",
            "absorber.header_spacing",
            "absorber.header_tube",
            "absorber.riser_tube",
        ])
        .cautions(&[TORCH]),
    Step::new("absorber.coupon", Stage::Absorber, "Solder a coupon: 200 mm of bond, cut it, look at it")
        .detail(
            "Line {absorber.bond_width} wide. Pull it or cut it: the wetted width must be there over the whole length.",
        )
        .evidence(Evidence::Note("wetted width and solder used per metre"))
        .after(&["absorber.buy"])
        .relies(&["absorber.solder", "absorber.bond_width"])
        .held_by(&["safety.fume", "safety.torch-place", "safety.cylinders"])
        .cautions(&[TORCH, FUME])
        .wants(&[Condition::Ventilated]),
    Step::new(
        "absorber.drill-headers",
        Stage::Absorber,
        "Mark both headers as a pair for {absorber.riser_count} risers, then drill or cut",
    )
        .per_panel()
        .detail(
            "Clamp them together, mark from one end with running dimensions, never by stepping the pitch: first riser \
             {absorber.hole.1}. Then {absorber.header_work}.",
        )
        .evidence(Evidence::Note("worst deviation"))
        .after(&["absorber.buy"])
        .relies(&[
            "absorber.riser_count",
            "absorber.riser_pitch",
            "absorber.stub_left",
            "absorber.sheet_width",
            "absorber.header_tube",
        ])
        .cautions(&[SHARP]),
    Step::new(
        "absorber.cut-risers",
        Stage::Absorber,
        "Cut {absorber.riser_count} risers to {absorber.riser_cut}, square, reamed",
    )
    .per_panel()
    .detail(
        "Ring the insertion depth on every end before any heat. A wheel cutter leaves a burr that narrows the bore: \
         ream it.",
    )
    .evidence(Evidence::Note("longest minus shortest"))
    .after(&["absorber.buy"])
    .relies(&[
        "absorber.riser_count",
        "absorber.header_spacing",
        "absorber.joint",
        "absorber.tee_shoulder",
        "absorber.insertion",
        "absorber.header_tube",
    ])
    .cautions(&[SHARP]),
    Step::new("absorber.cut-sheet", Stage::Absorber, "Cut the sheet: pieces {absorber.sheet_piece_width} wide")
        .detail(
            "{absorber.sheet_pieces} pieces of {absorber.sheet_piece_length} for all panels: {absorber.sheet_layout}. \
             Gauge {absorber.sheet_gauge}; measure it. Copper has no grain: a piece may lie either way. Leave \
             {absorber.butt_gap} where two meet on a riser.",
        )
        .after(&["absorber.buy"])
        .relies(&["absorber.sheet_thickness", "absorber.riser_count", "absorber.riser_pitch"])
        .cautions(&[SHARP]),
    Step::new("absorber.dry-fit", Stage::Absorber, "Dry-fit the harp in the fixture and read both diagonals")
        .per_panel()
        .detail(
            "Both should be {absorber.diagonal} between the outermost joints; they may differ by 2 mm. Insertion rings \
             at the header's crown, all of them.",
        )
        .evidence(Evidence::Reading("absorber.diagonal_1"))
        .after(&["absorber.drill-headers", "absorber.cut-risers"])
        .relies(&["absorber.riser_pitch", "absorber.header_spacing"]),
    Step::new("absorber.second-diagonal", Stage::Absorber, "Read the second diagonal")
        .per_panel()
        .detail("Rack the harp until both agree within 2 mm.")
        .evidence(Evidence::Reading("absorber.diagonal_2"))
        .after(&["absorber.dry-fit"])
        .relies(&["absorber.riser_pitch", "absorber.header_spacing"]),
    Step::new("absorber.depth-check", Stage::Absorber, "Every depth ring at its place, all {absorber.joint_count}")
        .per_panel()
        .detail(
            "Ring {absorber.depth_mark} from the riser's end, at the crown or the cup's edge. A riser too deep chokes \
             the header and cannot be seen once it is closed.",
        )
        .evidence(Evidence::Note("rings that were set right"))
        .after(&["absorber.second-diagonal"])
        .relies(&["absorber.joint", "absorber.insertion", "absorber.header_tube"])
        .held_by(&["absorber.insertion", "absorber.tee-room", "absorber.joint-gap"]),
    Step::new("absorber.open-to-braze", Stage::Absorber, "Harp empty, dry, open at both ends")
        .per_panel()
        .detail("Look through both headers; blow through. Caps and plugs off. Only then light the torch for the joints.")
        .after(&["absorber.depth-check"])
        .cautions(&[EMPTY_FIRST]),
    Step::new(
        "absorber.join",
        Stage::Absorber,
        "Join {absorber.joint_count} header joints: outermost pair first, then from the centre outward",
    )
    .per_panel()
    .detail(
        "Bright metal both sides. Tack the outermost pair, check the diagonals, then work from the centre outward. \
         Braze before any sheet is soldered: brazing heat would melt the sheet's line.",
    )
    .evidence(Evidence::Note("who, alloy, joints reworked; a row of the joint log for each"))
    .after(&["absorber.open-to-braze"])
    .firmly_after(&["absorber.open-to-braze"])
    .relies(&["absorber.header_filler", "absorber.joint"])
    .held_by(&[
        "absorber.pressure-joints",
        "absorber.joint-kind",
        "absorber.square",
        "safety.harp-open",
        "safety.fume",
        "safety.torch-place",
        "safety.cylinders", "safety.fire-watch",
    ])
    .cautions(&[EMPTY_FIRST, TORCH, FUME])
    .read_back()
    .wants(&[Condition::Ventilated]),
    Step::new("absorber.flux-out", Stage::Absorber, "Wash the flux out, inside and outside, the same day")
        .per_panel()
        .detail("Warm water and a brush until a white cloth stays clean; residue pits copper and lifts paint.")
        .evidence(Evidence::Note("litres flushed"))
        .after(&["absorber.join"]),
    Step::new("absorber.harp-test", Stage::Absorber, "Pressure-test the bare harp with water")
        .per_panel()
        .detail(
            "Test pressure {commissioning.test_pressure}: settle 15 to 30 minutes, hold 60. A dry tissue on every \
             joint. The commissioning page corrects the gauge for temperature.",
        )
        .evidence(Evidence::Note("p and T at start and end, gauge, joints that wept"))
        .after(&["absorber.flux-out"])
        .relies(&["plumbing.relief_setting"])
        .cautions(&[PRESSURE])
        .read_back(),
    Step::new("absorber.riser-flow", Stage::Absorber, "See water run through each riser")
        .per_panel()
        .detail("A riser plugged with filler stays cold for life. Warm water: touch each one at the top.")
        .after(&["absorber.harp-test"]),
    Step::new("absorber.open-to-solder", Stage::Absorber, "Harp empty, dry, open at both ends, after its test")
        .per_panel()
        .detail("Drained, blown through, dried with warm air; no cap, no plug, no valve shut. A pocket of water bursts.")
        .after(&["absorber.riser-flow"])
        .cautions(&[EMPTY_FIRST]),
    Step::new("absorber.solder-sheet", Stage::Absorber, "Solder the sheet: from the centre outward, alternate risers")
        .per_panel()
        .detail(
            "Heat the tube, feed until a fillet shows on both sides, line {absorber.bond_width}. Clamp the sheet down. \
             Keep the line 50 mm short of the header or shield the joint.",
        )
        .evidence(Evidence::Reading("absorber.bond_length"))
        .after(&["absorber.open-to-solder", "absorber.coupon"])
        .firmly_after(&["absorber.open-to-solder"])
        .relies(&["absorber.solder", "absorber.bond_width", "absorber.sheet_thickness"])
        .held_by(&[
            "absorber.sheet-solder",
            "absorber.coupon-bond",
            "safety.lead",
            "safety.harp-open",
            "safety.fume",
            "safety.torch-place",
            "safety.cylinders", "safety.fire-watch",
        ])
        .cautions(&[EMPTY_FIRST, TORCH, FUME])
        .wants(&[Condition::Ventilated]),
    Step::new("absorber.weigh-solder", Stage::Absorber, "Weigh what the sheet took: solder, and flux beside it")
        .per_panel()
        .detail(
            "Reel before less reel after. {absorber.solder_mass} was reckoned with waste; far less tells of gaps. It \
             foretells the next panel: {absorber.solder_to_buy} still to be bought.",
        )
        .evidence(Evidence::Reading("absorber.solder_used"))
        .after(&["absorber.solder-sheet"])
        .relies(&["absorber.solder", "absorber.bond_width"]),
    Step::new("absorber.retest", Stage::Absorber, "Test the harp again: soldering may have opened a joint")
        .per_panel()
        .detail("Same pressure, {commissioning.test_pressure}, same care.")
        .evidence(Evidence::Note("p and T at start and end"))
        .after(&["absorber.solder-sheet"])
        .relies(&["plumbing.relief_setting"])
        .cautions(&[PRESSURE]),
    Step::new("absorber.blacken", Stage::Absorber, "Blacken the plate and let it cure")
        .per_panel()
        .detail(
            "Degrease, key with an abrasive pad, two thin coats. The product must stand {absorber.stagnation_worst} and \
             20 K more; a cure hotter than {absorber.solder_solidus} would melt the sheet's line. Then it waits \
             {absorber.paint_wait}.",
        )
        .cures("absorber.paint_wait")
        .evidence(Evidence::Note("product, its limit, coats"))
        .after(&["absorber.retest"])
        .relies(&["absorber.absorptance", "absorber.emittance", "absorber.solder"])
        .cautions(&["Paint vapour burns and harms: outdoors, mask, no flame near."])
        .wants(&[Condition::Outdoors, Condition::Dry])
        .held_by(&["absorber.paint-cure"]),
    Step::new("absorber.weigh", Stage::Absorber, "Pour the test water out and measure it")
        .per_panel()
        .detail(
            "The harp should hold {absorber.content}; write it on the panel. Less coming out than went in is a pocket.",
        )
        .evidence(Evidence::Note("litres poured out, mass dry"))
        .after(&["absorber.retest"])
        .relies(&["absorber.riser_count", "absorber.riser_tube", "absorber.header_tube"]),
    Step::new("absorber.count-hours", Stage::Absorber, "Write down the hours that this harp took")
        .per_panel()
        .detail(
            "All hands together. {absorber.hours_estimate} was reckoned by the piece; the next harp is foretold by what \
             is written here: {absorber.hours_left} for those that remain.",
        )
        .evidence(Evidence::Reading("absorber.hours_used"))
        .after(&["absorber.blacken"])
        .relies(&["absorber.riser_count", "absorber.joint"]),
];
