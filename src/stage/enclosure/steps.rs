//! The checklist of the enclosure stage.

use crate::model::{Evidence, Stage, Step};

const DUST: &str = "Mineral wool and treated timber: mask, gloves, goggles. Offcuts of treated timber are never burnt.";
const GLASS: &str = "Glass: two persons, gloves, goggles. Never cut, drill or wet hot tempered glass; a knock on an edge breaks all of it.";
const PRESSURE: &str = "Test with water, not air: compressed air stores thousands of times the energy.";
const HOT: &str =
    "Glass and copper burn at a touch in the sun, and an empty panel is the hottest of all. Keep children away.";
const LIFT: &str =
    "Lifting and roof work kill. Dry panel only, no wind, no ladder carry; follow local rules for work at height.";

/// Entries that decide the sizes of the box.
const BOX: &[&str] = &[
    "enclosure.clearance",
    "enclosure.edge_thickness",
    "enclosure.rail_thickness",
    "enclosure.back_board",
    "enclosure.back_thickness",
    "enclosure.air_gap",
    "enclosure.glass_thickness",
    "enclosure.corner",
    "enclosure.back_seat",
    "enclosure.glazing_tape",
    "absorber.riser_count",
    "absorber.riser_pitch",
    "absorber.header_spacing",
    "absorber.header_tube",
    "absorber.sheet_width",
];

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("enclosure.buy", Stage::Enclosure, "Timber, board, insulation and glass seen before they are paid for")
        .detail(
            "Dry, resin-poor, untreated timber inside the box: preservatives and resin fog the glass. {enclosure.insulation}: \
             read the limit on its sheet against {absorber.stagnation_worst}; ask for little binder. Order the glass only \
             when the seat is measured.",
        )
        .evidence(Evidence::Note("species and moisture of the timber; limit and binder of the insulation"))
        .relies(&["enclosure.timber", "enclosure.insulation", "enclosure.insulation_limit"])
        .held_by(&["enclosure.insulation-limit", "safety.dust"]),
    Step::new("enclosure.cut", Stage::Enclosure, "Cut the box by the cut list, every length from one datum")
        .per_panel()
        .detail(
            "Inside {enclosure.inside_width} × {enclosure.inside_length}, outside {enclosure.outside_width} × \
             {enclosure.outside_length}. Both rails of a pair are cut clamped together. The seat takes the bite and the \
             clearance of the glass; {enclosure.glass_shoulder} of the rail is left outside it.",
        )
        .evidence(Evidence::Note("longest minus shortest of each pair"))
        .after(&["enclosure.buy"])
        .relies(BOX)
        .held_by(&["enclosure.glass-seat", "safety.dust"])
        .cautions(&[DUST]),
    Step::new("enclosure.first-diagonal", Stage::Enclosure, "Join the corners and read the first diagonal of the seat")
        .per_panel()
        .detail("Both diagonals of the inside should be {enclosure.diagonal}; those of the seat may differ by 3 mm.")
        .evidence(Evidence::Reading("enclosure.diagonal_1"))
        .after(&["enclosure.cut"])
        .relies(BOX),
    Step::new("enclosure.second-diagonal", Stage::Enclosure, "Read the second diagonal of the seat")
        .per_panel()
        .detail("Rack the frame until both agree, then fix the back board: it holds the frame square.")
        .evidence(Evidence::Reading("enclosure.diagonal_2"))
        .after(&["enclosure.first-diagonal"])
        .relies(BOX),
    Step::new("enclosure.sleeves", Stage::Enclosure, "Stub holes cut and sleeved; no wood against copper")
        .per_panel()
        .detail(
            "Middles {enclosure.stub_hole_lower} and {enclosure.stub_hole_upper} from the lower end of each long rail, \
             {enclosure.stub_hole_height} up from its back. Wood cut {enclosure.stub_cut_width} × \
             {enclosure.stub_cut_length}, the long way along the rail; the mineral sleeve leaves a slot of \
             {enclosure.stub_hole_width} × {enclosure.stub_hole_length}. 25 mm from copper to wood is wanted. A photograph \
             of each hole before it is covered.",
        )
        .evidence(Evidence::Note("holes, sleeves, where the photographs are"))
        .after(&["enclosure.second-diagonal"])
        .relies(&[
            "absorber.header_tube",
            "absorber.sheet_width",
            "absorber.stub_left",
            "absorber.stub_right",
            "enclosure.sleeve",
            "enclosure.fixed_at",
        ])
        .held_by(&["enclosure.timber-behind", "enclosure.stub-hole"]),
    Step::new("enclosure.screw", Stage::Enclosure, "Screw holes marked from one datum, clear of every opening")
        .per_panel()
        .detail(
            "{enclosure.screws} screws, at most {enclosure.screw_spacing} apart, by the marks of the card and not by equal \
             steps: they keep off stub holes, seats and strips. Lay a screw on each mark and look where its tip comes to.",
        )
        .evidence(Evidence::Note("marks compared with the card"))
        .after(&["enclosure.cut"])
        .relies(&[
            "enclosure.screw_length",
            "enclosure.screw_spacing",
            "enclosure.cap_screw_line",
            "enclosure.back_seat",
            "enclosure.back_thickness",
            "enclosure.sleeve",
        ])
        .held_by(&["enclosure.screw-layout", "enclosure.joints"]),
    Step::new("enclosure.insulate", Stage::Enclosure, "Insulation in, lining up to the glass seat")
        .per_panel()
        .detail(
            "{enclosure.back_thickness} behind the plate, {enclosure.edge_thickness} around it, {enclosure.rail_lining} of \
             lining with the metal face inward. Wood behind then stays at {enclosure.back_face}, the rail at \
             {enclosure.rail_face} at the hottest. It gives off: {enclosure.binder}. Bake fibre \
             outdoors at the heat that it will see, 2 to 4 hours (from memory), so that its binder does not fog the glass; no \
             adhesive tape inside.",
        )
        .evidence(Evidence::Note("thickness as laid; low-binder proof"))
        .after(&["enclosure.sleeves"])
        .relies(&[
            "enclosure.insulation",
            "enclosure.back_thickness",
            "enclosure.edge_thickness",
            "enclosure.rail_lining",
            "absorber.emittance",
            "absorber.absorptance",
        ])
        .held_by(&[
            "enclosure.insulation-limit",
            "enclosure.second-insulation",
            "enclosure.timber-behind",
            "enclosure.timber-rail",
            "safety.dust",
        ])
        .cautions(&[DUST]),
    Step::new("enclosure.hang", Stage::Enclosure, "Hang the absorber on clips, never on its solder")
        .per_panel()
        .detail(
            "Solder creeps under steady load when it is hot: the clips carry sheet and tubes. {enclosure.strips} strips; it is \
             held {enclosure.held_at} and slides everywhere else, by up to {enclosure.clip_way}.",
        )
        .evidence(Evidence::Note("number of clips, where it is held"))
        .after(&["enclosure.insulate", "absorber.blacken"]),
    Step::new("enclosure.growth-free", Stage::Enclosure, "Push the absorber both ways by hand: it must slide")
        .per_panel()
        .detail(
            "A header grows by {enclosure.header_growth}, a riser by {enclosure.riser_growth}. That must be free at the \
             edges that slide (half of it at each edge if it is held in the middle), and 3 mm more.",
        )
        .evidence(Evidence::Note("free way at each edge"))
        .after(&["enclosure.hang"])
        .relies(&[
            "enclosure.clearance",
            "enclosure.fixed_at",
            "absorber.header_spacing",
            "absorber.riser_count",
            "absorber.riser_pitch",
        ])
        .held_by(&["enclosure.growth-gap"]),
    Step::new("enclosure.vents", Stage::Enclosure, "Weep holes low and at the back, meshed, not blocked")
        .per_panel()
        .detail("{enclosure.weep_holes} of {enclosure.weep_diameter}, the first {enclosure.weep_at.1} from the left end of the lower rail; \
             insulation stays clear of them and rain cannot drive in.")
        .evidence(Evidence::Note("number and diameter"))
        .after(&["enclosure.hang"]),
    Step::new("enclosure.test-in-box", Stage::Enclosure, "Pressure-test the panel again, in its box, before the glass")
        .per_panel()
        .detail(
            "{commissioning.test_pressure}: settle 15 to 30 minutes, hold 60, in the shade. Behind glass a leak is found \
             by a wet wall. Drain it fully afterwards and leave both ends open.",
        )
        .evidence(Evidence::Note("p and T at start and end, litres drained"))
        .after(&["enclosure.growth-free"])
        .relies(&["plumbing.relief_setting"])
        .cautions(&[PRESSURE, "Never cap a full panel in daylight: {safety.trapped_pressure} for every kelvin."]),
    Step::new("enclosure.sensor", Stage::Enclosure, "Sensor fitted to the plate and wired, before the glass")
        .per_panel()
        .detail(
            "Near the hot end, metal to metal, clamped and not glued, wire rated for {absorber.stagnation_worst}. The frost \
             sensor sits on the plate too: under a clear sky it freezes in air that does not.",
        )
        .evidence(Evidence::Note("resistance at a known temperature"))
        .after(&["enclosure.hang"]),
    Step::new("enclosure.glaze", Stage::Enclosure, "Glass on: mark seen, clearance all round, caps fixed")
        .per_panel()
        .detail(
            "{enclosure.glass_width} × {enclosure.glass_length}, {enclosure.glass_thickness}, {enclosure.glass_mass}. At \
             least {enclosure.glass_clearance_least} free at every edge, two blocks at the quarter points of the lower \
             edge, no metal or screw against the glass, drain gap beside the blocks. Sealant then waits \
             {enclosure.sealant_wait}.",
        )
        .cures("enclosure.sealant_wait")
        .evidence(Evidence::Note("clearance per side; mark of tempered glass seen; photograph"))
        .after(&["enclosure.test-in-box", "enclosure.sensor", "enclosure.vents", "enclosure.second-diagonal"])
        .relies(&["enclosure.glass", "enclosure.glass_thickness", "enclosure.glass_bite", "enclosure.glass_clearance"])
        .held_by(&[
            "enclosure.glass-kind",
            "enclosure.glass-seat",
            "enclosure.square",
            "enclosure.growth-gap",
            "safety.glass-handling",
        ])
        .cautions(&[GLASS]),
    Step::new("enclosure.bake-out", Stage::Enclosure, "Bake out: one clear day, glazed, dry, open at both ends")
        .per_panel()
        .detail(
            "Empty and open at both ends, vents open, nobody touching; under the glass or a scrap sheet. It should come \
             towards {absorber.stagnation_standard}, never above {absorber.stagnation_worst}. Then cover it and leave it \
             covered until it is filled. Haze that is even all over comes from binder, paint or sealant: wait and bake again; drops \
             at one place are water. Smoke, smell of char or a drop of solder: cover at once and open the box.",
        )
        .evidence(Evidence::Note("highest plate temperature, sun and air; haze yes or no"))
        .after(&["enclosure.glaze"])
        .relies(&["absorber.solder", "absorber.absorptance", "absorber.emittance", "enclosure.insulation"])
        .held_by(&[
            "absorber.sheet-solder",
            "enclosure.insulation-limit",
            "enclosure.timber-behind",
            "enclosure.timber-rail",
            "enclosure.second-insulation",
            "safety.stagnation-material",
        ])
        .cautions(&[HOT, "A wet or closed harp boils and bursts: look through it from end to end first."])
        .read_back(),
    Step::new("enclosure.rain-test", Stage::Enclosure, "Hose the cool panel, then look inside")
        .per_panel()
        .detail("In the morning, covered the day before: 30 minutes of rain from a hose, then no drop inside.")
        .evidence(Evidence::Note("dry inside, or where it came in"))
        .after(&["enclosure.bake-out"])
        .cautions(&["Never hose tempered glass that is hot: it breaks."]),
    Step::new("enclosure.lift-plan", Stage::Enclosure, "Lift planned: mass, people, way, weather, who gives the word")
        .detail(
            "{enclosure.mass_dry} dry, {enclosure.mass_wet} full: {enclosure.people} people on level ground, or a hoist. \
             Weigh the first finished panel. Walk the way with empty hands. Not in wind: a panel is a sail.",
        )
        .evidence(Evidence::Note("mass as weighed, people, way, tackle"))
        .after(&["enclosure.rain-test"])
        .relies(&["enclosure.lifters", "enclosure.hoist", "enclosure.glass_thickness", "enclosure.timber"])
        .held_by(&["enclosure.lift", "safety.height", "safety.ladder", "safety.handling-wind"])
        .cautions(&[LIFT])
        .read_back()
        .licensed(),
];
