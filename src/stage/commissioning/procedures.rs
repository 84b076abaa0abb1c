//! The procedures of a finished plant: acceptance, hand-over, repair, rest and restart, change, end.

use crate::model::OnlyFor;
use crate::stage::plumbing::steps::WITH_VESSEL;
use crate::stage::procedure::Line::{Check, Do, DoIn, Step};
use crate::stage::procedure::Procedure;

/// Loops that hold glycol.
const GLYCOL: OnlyFor = OnlyFor { entry: "plumbing.loop", choices: &["glycol"] };

const HOT: &str = "Nothing is opened hot: cover, pump off, wait until the plate is below 60 °C, pressure off.";
const STEAM: &str = "Stand clear of panel and relief discharge: steam comes without warning.";
const TORCH: &str = "A wet or closed harp under a torch is a steam bomb: empty, dry, open at both ends.";
const HEIGHT: &str = "Work at height with the protection that the safety page names, never alone.";

/// The procedures of this file.
pub static PROCEDURES: &[Procedure] = &[
    Procedure {
        name: "acceptance",
        title: "Acceptance sheet",
        when: "before the plant is handed over: every line clear, or overruled in writing",
        lines: &[
            Check("pressure test of the panel", "commissioning.panel-proof"),
            Check("pressure test of the loop", "commissioning.loop-proof"),
            Check("litres flushed", "commissioning.flush-litres"),
            Check("litres filled against the computed content", "commissioning.filled-litres"),
            Check("air left", "commissioning.air-left"),
            Check("glycol mixed and as much as wanted", "commissioning.glycol-samples"),
            Check("pH of the liquid", "commissioning.liquid-ph"),
            Step("precharge read, vessel open", "commissioning.vessel-open"),
            Step("cold pressure with its temperature", "commissioning.cold-pressure"),
            Check("flow within 10 % of the design", "commissioning.flow-design"),
            Check("panel outlets within 2.8 K", "commissioning.panels-balance"),
            Check("risers within 3 K", "commissioning.risers-balance"),
            Check("pair of sensors within 0.1 K", "commissioning.pair-offset"),
            Check("panel sensor against a thermometer", "commissioning.sensor-plausible"),
            Check("start and stop", "commissioning.proof-start-stop"),
            Check("tank limit", "commissioning.proof-tank-limit"),
            Check("lock-out", "commissioning.proof-lock-out"),
            Check("power cut", "commissioning.proof-power-cut"),
            Check("time to drain", "commissioning.proof-drain"),
            Check("litres drained", "commissioning.drained-litres"),
            Check("refill", "commissioning.proof-refill"),
            Check("night without flow", "commissioning.proof-night"),
            Check("mixing valve, cold shut", "commissioning.proof-mixing"),
            Check("relief valve lifted", "commissioning.proof-relief"),
            Check("frost protection", "commissioning.proof-frost"),
            Check("earth-fault trip", "commissioning.proof-trip"),
            Check("bond", "commissioning.proof-bond"),
            Check("no flow is noticed", "commissioning.proof-no-flow"),
            Step("all put back after the proofs", "commissioning.put-back"),
            Check("every material against stagnation", "safety.stagnation-material"),
            Check("relief path of every panel", "safety.relief-path"),
            Check("scald", "safety.scald"),
            Check("frost", "safety.freezing"),
            Check("measured against computed", "commissioning.performance-agrees"),
            Check("seven days that count", "commissioning.log-week"),
            Step("labels fixed, read back by a second person", "commissioning.handover"),
        ],
        cautions: &[],
    },
    Procedure {
        name: "handover",
        title: "What the hand-over pack holds",
        when: "once everything on the acceptance sheet stands; written for a stranger",
        lines: &[
            Do("The project file itself, dated; where its history is kept."),
            Do("Schematic with numbered valves, the same numbers on the valves, normally open or shut."),
            Do("Photos of every joint before it was closed in."),
            Do(
                "Pressure test: panels {commissioning.test_pressure}, loop {commissioning.gauge_target} on its gauge; gauge \
                and temperatures.",
            ),
            Do("Liquid: {plumbing.loop}, date, share, freezing point, pH; where old liquid goes."),
            Do("Settings: start {commissioning.start_difference}, stop {commissioning.stop_difference}, tank limit \
                {plumbing.tank_limit}, lock-out {commissioning.lock_out}, frost {commissioning.frost_trip}."),
            Do("Sensors {commissioning.sensor_type}: {commissioning.sensor_table.0} at 0 °C, \
                {commissioning.sensor_table.60} at 60 °C, {commissioning.sensor_table.100} at 100 °C; pair offset \
                {commissioning.pair_offset}."),
            Do("What is normal: flow {commissioning.flow}, cold pressure {commissioning.cold_pressure} at 20 °C, \
                {absorber.useful_power} a panel in good sun, drained {commissioning.drain_expected}."),
            Do("Measured gain {commissioning.eta0} ± {commissioning.eta0_doubt}, loss {commissioning.loss} ± \
                {commissioning.loss_doubt}."),
            Do("Start, stop, emergency: cover the glass, pump off, leave every valve as it is, keep off the panel."),
            Do("Labels: how it is kept from freezing and what to do; hot discharge; which liquid; valve numbers."),
            Do("Spare parts, permits, who to call; what to watch; the calendar with its days."),
        ],
        cautions: &["A later owner who knows nothing of it will leave it unconnected or open it hot."],
    },
    Procedure {
        name: "repair",
        title: "Repair of a soldered panel",
        when: "a joint weeps, or a riser has burst",
        lines: &[
            Do(
                "Cover the glass or wait for night; pump off; plate below 60 °C; pressure off at the drain, not at the joint.",
            ),
            Do("Drain: {commissioning.drain_expected} must come, and the panel holds more than you see. Catch glycol."),
            Do(
                "Take the panel down: {enclosure.people} people by its weight, {enclosure.lifters} named for the lift. Fewer than the \
                weight asks for: a hoist. Glass off, harp open at both ends and blown dry.",
            ),
            Do(
                "Shield: the sheet line melts at {absorber.solder_solidus}, far below brazing heat; wet cloth and heat paste between, \
                short and hot with a small flame, the nearest risers' seams watched.",
            ),
            Do("Timber and insulation out of the flame's way; fire watch {safety.fire_watch} afterwards."),
            Do(
                "Look along the seam by tapping and by a lamp: where the sheet has come off, resolder from the centre outward.",
            ),
            Do("Test again at {commissioning.test_pressure} as a new panel: a panel that was hot once is a new panel."),
            Do(
                "Glass on, loop closed, fill, purge, cold pressure {commissioning.cold_pressure}; new points beside the old.",
            ),
        ],
        cautions: &[HOT, TORCH, HEIGHT],
    },
    Procedure {
        name: "lay-up",
        title: "Laying up for the season",
        when: "before weeks without use, in frost or in summer",
        lines: &[
            Do(
                "Frost: drain everything that holds water; {commissioning.drain_expected} from panels and falling pipe, each \
                litre counted; blow through; drains left open with a can below.",
            ),
            DoIn(
                GLYCOL,
                "Glycol that stays: freezing point 5 K below {site.record_low}, pH above 7.5, both written down.",
            ),
            Do(
                "Sun without use: covers tied on, for an empty panel reaches {absorber.stagnation_worst}; pump unplugged; \
                never a valve shut between panels and relief valve.",
            ),
            Do("Tank: heater off, cold feed shut, drained where the room can freeze."),
            Do("A label on the controller: laid up, by whom, when, what is shut."),
        ],
        cautions: &[HOT, STEAM, HEIGHT],
    },
    Procedure {
        name: "restart",
        title: "Restart after rest",
        when: "before the first shower of the season",
        lines: &[
            Do("Walk the path from each panel to the relief valve: no valve shut, no plug, no nest in the discharge."),
            DoIn(
                WITH_VESSEL,
                "Vessel: precharge {commissioning.precharge_today} at its temperature, loop empty or vessel shut off.",
            ),
            Do(
                "Before sunrise: fill {plumbing.loop_content} into panels and pipe, purge at {commissioning.flush_flow}, cold \
                pressure {commissioning.cold_pressure}, no drop at any joint.",
            ),
            Do("Covers off while the pump runs; flow near {plumbing.flow}; rise and sensors looked at."),
            Do(
                "Hot water: tank to {safety.final_temperature} and every tap run hot for minutes, nobody near the spray; then \
                the first shower.",
            ),
            Do("Mixing valve with the cold shut; relief valve lifted; earth-fault button."),
        ],
        cautions: &[
            HOT,
            "Water that stood warm for weeks grows legionella: heat and flush before anybody breathes spray.",
        ],
    },
    Procedure {
        name: "stagnation",
        title: "When heat has nowhere to go",
        when: "long holidays, a full tank every July, a pump that failed",
        lines: &[
            Do(
                "Choose one: cover; cool at night through the panels; a load to dump into; a steeper tilt; a drainback that \
                empties itself. Each keeps the plate from {absorber.stagnation_worst}.",
            ),
            Do(
                "Tank at its limit {plumbing.tank_limit}: let the pump rest and the loop steam into its vessel, or drain.",
            ),
            Do("After a week of it: pH and colour of the liquid, relief valve dry, hoses and sensor wires looked at."),
        ],
        cautions: &[HOT, STEAM],
    },
    Procedure {
        name: "substitution",
        title: "When the shop has another size",
        when: "a tube, sheet, glass or valve is not to be had",
        lines: &[
            Do("Change the entry first: sunharp set FILE ID VALUE tells everything that moves."),
            Do(
                "Tube: 15 and 15.88 mm, 22 and 22.2, 28 and 28.6 do not fit each other; measure, and look at the joint gap.",
            ),
            Do(
                "Other bore: content {plumbing.loop_content} and drained litres change, and with them vessel and glycol.",
            ),
            Do("Sheet: thinner or other metal moves stagnation {absorber.stagnation_worst} and gain {absorber.eta0}."),
            Do("Weaker part: the test pressure {commissioning.test_pressure} is capped by the weakest rating \
                {plumbing.weakest_rating}."),
            Do("Steps that were signed on the old size are stale now; do them again or say why not."),
        ],
        cautions: &["Mixed metals and a hose without a rating at heat are not a substitution."],
    },
    Procedure {
        name: "end-of-life",
        title: "Taking it down for good",
        when: "it is not worth another repair",
        lines: &[
            Do(
                "Covered and cold; electricity taken off by an electrician; pressure off; drain {plumbing.loop_content} from \
                panels and pipe.",
            ),
            DoIn(GLYCOL, "Glycol to the waste site in its can; old liquid never to soil or drain."),
            Do(
                "Glass first, two people, gloves; then box and harp: {enclosure.people} people by its weight, {enclosure.lifters} \
                named for the lift; fewer than the weight asks for: a hoist.",
            ),
            Do(
                "Copper to the scrap yard: {absorber.tube_mass} of tube and {absorber.sheet_mass} of sheet a panel; solder with lead apart.",
            ),
            Do("Timber that was painted or charred, and fibre, go as your waste site says; roof closed by a roofer."),
            Do("Caps on the pipes to the tank, marked; the plan of the house corrected."),
        ],
        cautions: &[HOT, HEIGHT],
    },
    Procedure {
        name: "emergency",
        title: "Steam, leak, smell, fire",
        when: "now",
        lines: &[
            Do("Everybody away from the panel, the discharge and below the roof's edge."),
            Do("Electricity of the pump off at the breaker. Leave every valve as it is."),
            Do(
                "Cover the glass from a distance, or wait for evening: the panel can stand at {absorber.stagnation_worst}.",
            ),
            Do("Hot water on skin: cool under running tap water for twenty minutes, call for help."),
            Do("Fire: out of the house, call the fire service, say that glass and pressure are on the roof."),
            Do("Opened again only cold: plate below 60 °C and no pressure on the gauge."),
        ],
        cautions: &[STEAM],
    },
];
