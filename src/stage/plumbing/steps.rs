//! The checklist of the plumbing stage.

use crate::model::{Evidence, OnlyFor, Stage, Step};

/// Loops that may have an expansion vessel; one that drains back has air in its reservoir.
pub const WITH_VESSEL: OnlyFor = OnlyFor { entry: "plumbing.loop", choices: &["direct", "glycol", "thermosiphon"] };

const HOT: &str = "A panel in the sun boils what is in it: cover the glass before you open or fill anything.";
const TORCH: &str = "Torch: extinguisher at hand, timber and insulation out of reach, fire watch for 60 minutes after.";
const SHUT_IN: &str = "Water shut in between two valves gains bars for every degree. It can burst a panel in minutes.";
const POTABLE: &str = "Work on the drinking-water side usually needs a licensed plumber. Ask the local authority.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("plumbing.schematic", Stage::Plumbing, "Draw the loop with every valve numbered")
        .detail(
            "Pump, valves, vents, drains, sensors, relief, tank: as it will be built ({plumbing.loop} loop, \
             {plumbing.panel_count} panels, {plumbing.flow}). A stranger must find the valve by its number.",
        )
        .evidence(Evidence::Note("where the drawing is kept"))
        .after(&["site.pipe-path", "site.load"])
        .relies(&["plumbing.loop", "plumbing.tank"]),
    Step::new("plumbing.falls", Stage::Plumbing, "Lay every run with a fall of 2 cm in each metre, no sag")
        .detail(
            "Read a level on each run and on each header. A sag keeps water, and water that stays freezes. The loop \
             is {plumbing.pipe_total} long.",
        )
        .evidence(Evidence::Note("the smallest fall found, and on which run"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop"])
        .cautions(&[TORCH, "Roof and ladder work: a second person, a tied ladder, no wet or windy day."]),
    Step::new("plumbing.shut-in", Stage::Plumbing, "Walk the loop: no part can be shut in without a relief valve")
        .detail(
            "Close each valve in your mind, one after another and in pairs; hoses and check valves count. What holds \
             liquid and lies in the sun must reach the relief valve by an open way. Take the handles off where they \
             could cut it off.",
        )
        .evidence(Evidence::Note("valves by number whose handles were taken off"))
        .after(&["plumbing.schematic"])
        .held_by(&["safety.relief-path"])
        .cautions(&[SHUT_IN])
        .read_back(),
    Step::new("plumbing.relief", Stage::Plumbing, "Fit the relief valve, {plumbing.relief_setting}, and its discharge")
        .detail(
            "Full bore, falling all the way, ends low in sight over a metal can that holds {plumbing.loop_content}; no \
             valve, no trap, no thread at its end, no plastic.",
        )
        .evidence(Evidence::Note("setting on the rating plate; discharge looked at point by point"))
        .after(&["plumbing.shut-in"])
        .relies(&["plumbing.relief_setting", "plumbing.loop"])
        .held_by(&["safety.relief-path"])
        .cautions(&["What it discharges scalds. Nobody stands, sleeps or plays below its end."])
        .read_back()
        .licensed(),
    Step::new("plumbing.vessel", Stage::Plumbing, "Read the precharge of the expansion vessel while the loop is empty")
        .detail(
            "On the cold leg, connected downward, nothing between it and the panels that can close. An open \
             loop has a reservoir with air instead: note its level.",
        )
        .evidence(Evidence::Note("precharge and temperature, vessel size; or the reservoir's level"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop", "plumbing.relief_setting"])
        .only_for(WITH_VESSEL),
    Step::new("plumbing.check-valve", Stage::Plumbing, "See that nothing flows backward at night")
        .detail(
            "The tank's bottom stands 0.6 m or more above the panels' top, or a check valve opens the right way only \
             above the head that a warm tank and cold panels make. A drainback loop must still drain: no check valve \
             in its way.",
        )
        .evidence(Evidence::Note("height difference, or the arrow's direction and the opening pressure"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop"]),
    Step::new("plumbing.vents-drains", Stage::Plumbing, "Vents by hand at high points, drains at low points, a fill pair")
        .detail(
            "Automatic vents fail outdoors, in glycol and in steam. Fill and drain ports with a valve between them let \
             you flush one way round.",
        )
        .evidence(Evidence::Note("vents and drains by number"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop"]),
    Step::new("plumbing.hoses", Stage::Plumbing, "Hoses marked for pressure at temperature, and bonded across")
        .detail(
            "The panel can reach {absorber.stagnation_worst} dry. Hoses need a rating at that heat and at \
             {plumbing.relief_setting}; two clamps each, no kink. A copper wire across each keeps the bond to earth.",
        )
        .evidence(Evidence::Note("markings read, ohms across each"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.relief_setting", "plumbing.loop"])
        .cautions(&[SHUT_IN]),
    Step::new("plumbing.insulation", Stage::Plumbing, "Insulate every pipe, rated for its heat, jacketed outdoors")
        .detail(
            "Near the panels it must stand the stagnating panel, {absorber.stagnation_worst}. Joints taped dry, a UV \
             cover outside, animals kept out. Leave joints bare until the loop test is done.",
        )
        .evidence(Evidence::Note("thickness, limit of the material, what covers it"))
        .after(&["commissioning.loop-test"])
        .relies(&["plumbing.loop"]),
    Step::new("plumbing.exchanger", Stage::Plumbing, "Exchanger, liquid and drinking water may meet as they do")
        .detail(
            "A single wall usually wants water or food-grade propylene glycol and less pressure in the loop than in the \
             drinking water; never ethylene glycol. The label on the exchanger says how many walls.",
        )
        .evidence(Evidence::Note("walls, liquid, and who said it is allowed"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop", "plumbing.glycol"])
        .cautions(&[POTABLE])
        .read_back()
        .licensed(),
    Step::new("plumbing.backflow", Stage::Plumbing, "Backflow device as the local code asks; fill hose taken away")
        .detail("With a check valve or pressure reducer in the cold feed, heating water needs a potable vessel too.")
        .evidence(Evidence::Note("class of the device, date of its test"))
        .after(&["plumbing.schematic"])
        .cautions(&[POTABLE])
        .read_back()
        .licensed(),
    Step::new("plumbing.supports", Stage::Plumbing, "Pipes held, free to grow, and guarded from touch")
        .detail(
            "Hot copper grows about 1.7 mm in each metre for 100 K: leave it room. Bare metal that can pass 60 °C and \
             be touched gets a guard or a label.",
        )
        .evidence(Evidence::Note("spacing of the supports"))
        .after(&["plumbing.schematic"])
        .relies(&["plumbing.loop"])
        .cautions(&[HOT]),
];
