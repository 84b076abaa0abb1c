//! The checklist of the commissioning stage.

use crate::model::{Evidence, Stage, Step};
use crate::stage::plumbing::steps::WITH_VESSEL;

const PRESSURE: &str = "Test with water, not air: compressed air stores thousands of times the energy.";
pub(super) const COLD: &str = "No spanner on a hot or pressurised joint: cold, pump off, pressure off first.";
const SHUT_IN: &str = "Never leave a full part shut in daylight: it gains bars for every degree.";
pub(super) const HOT: &str = "Water on a hot panel flashes to steam, and cold water can break hot glass.";
pub(super) const STEAM: &str = "Stand clear of the relief discharge and of the panel: steam comes without warning.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("commissioning.loop-test", Stage::Commissioning, "Prove the loop at {commissioning.gauge_target} and hold")
        .detail(
            "Panels covered or before sunrise. Vessel and relief valve shut off or plugged for the test only. Fill with \
             water, let air out at the top, pump and write down how much goes in. Settle 15 to 30 minutes, hold 60, a \
             dry tissue on every joint. Enter gauge and temperature at start and end. Drain afterwards where it can \
             freeze.",
        )
        .evidence(Evidence::Reading("commissioning.loop_end"))
        .after(&[
            "absorber.retest",
            "enclosure.test-in-box",
            "enclosure.rack-level",
            "enclosure.links",
            "safety.breaker",
            "plumbing.falls",
            "plumbing.shut-in",
            "plumbing.vents-drains",
            "plumbing.hoses",
        ])
        .relies(&["plumbing.relief_setting", "plumbing.weakest_rating", "commissioning.test_medium"])
        .held_by(&["commissioning.test-medium"])
        .cautions(&[PRESSURE, SHUT_IN, COLD])
        .read_back()
        .licensed(),
    Step::new("commissioning.flush", Stage::Commissioning, "Flush until a white cloth stays clean")
        .detail(
            "At least {commissioning.flush_volume}, panel by panel and then the other way round, at \
             {commissioning.flush_flow}; two hours at the design flow are what facility criteria ask. Panels covered or at \
             night. Weigh what came out.",
        )
        .evidence(Evidence::Reading("commissioning.flushed"))
        .after(&["commissioning.loop-test"])
        .held_by(&["commissioning.loop-proof"])
        .cautions(&[HOT]),
    Step::new("commissioning.relief-refitted", Stage::Commissioning, "Relief valve refitted and its path walked")
        .detail(
            "Every plug of the test is out. With a finger on the pipe go from each panel to the relief valve and on to \
             the end of its discharge: no valve, no plug, no cap.",
        )
        .evidence(Evidence::Note("setting on the plate, plugs counted back, who walked it"))
        .after(&["commissioning.loop-test", "commissioning.flush", "plumbing.relief"])
        .relies(&["plumbing.relief_setting"])
        .held_by(&["safety.relief-path"])
        .read_back()
        .licensed(),
    Step::new("commissioning.vessel-open", Stage::Commissioning, "Vessel open to the loop and its precharge read")
        .detail(
            "Loop without pressure, precharge {commissioning.precharge_today} by tyre gauge, then its valve open and the \
             handle off. An open loop: reservoir and its air space instead.",
        )
        .evidence(Evidence::Note("precharge and temperature, or the reservoir's level"))
        .after(&["commissioning.loop-test", "commissioning.flush", "plumbing.vessel"])
        .relies(&["plumbing.loop", "plumbing.relief_setting"])
        .only_for(WITH_VESSEL)
        .read_back(),
    Step::new("commissioning.shaded", Stage::Commissioning, "Panels shaded, plate at 60 °C or less before filling")
        .detail(
            "Cover the glass or fill before sunrise. Dry in the sun the plate can reach {absorber.stagnation_worst}. \
             Read its temperature by the sensor's ohms.",
        )
        .evidence(Evidence::Note("plate temperature of each panel, and the time"))
        .after(&["commissioning.flush"])
        .cautions(&[HOT]),
    Step::new("commissioning.fill", Stage::Commissioning, "Fill the loop and count the litres")
        .detail(
            "Panels and pipe hold {plumbing.loop_content}; vessel, exchanger or reservoir come on top. Liquid at 21 °C or \
             less, {commissioning.fill_pressure} on the gauge. Glycol {commissioning.glycol_volume}: two samples 15 \
             minutes apart, freezing point 5 K below the record low, pH. Take the fill hose away.",
        )
        .evidence(Evidence::Reading("commissioning.filled"))
        .after(&[
            "commissioning.shaded",
            "commissioning.relief-refitted",
            "commissioning.vessel-open",
            "plumbing.exchanger",
            "plumbing.backflow",
        ])
        .firmly_after(&["commissioning.shaded", "commissioning.relief-refitted", "commissioning.vessel-open"])
        .relies(&["plumbing.loop", "plumbing.glycol", "plumbing.relief_setting"])
        .held_by(&[
            "commissioning.loop-proof",
            "safety.relief-path",
            "plumbing.relief-reach",
            "safety.relief-size",
            "safety.relief-setting",
            "safety.discharge",
            "safety.joint-pressure",
            "safety.cross-connection",
            "safety.cold-slug",
            "safety.freezing",
            "safety.lead",
            "safety.lead-surfaces",
            "safety.galvanic",
            "safety.stagnation-material",
            "safety.frost-valve",
            "plumbing.relief-chain",
            "plumbing.vessel-size",
            "plumbing.hose-rating",
            "plumbing.steam-parts",
            "plumbing.cold-slug",
            "enclosure.timber-behind",
            "enclosure.timber-rail",
        ])
        .cautions(&[HOT, SHUT_IN])
        .read_back(),
    Step::new("commissioning.air", Stage::Commissioning, "Purge the air and see how much is left")
        .detail(
            "Return hose under the liquid, no bubble for ten minutes. Then pump a measured bit in and read the pressure \
             before and after: much water for little pressure is air. Bleed again after 1, 7 and 30 days.",
        )
        .evidence(Evidence::Reading("commissioning.squeeze_added"))
        .after(&["commissioning.fill"])
        .cautions(&["Open the vessel's valve again before the sun comes."]),
    Step::new("commissioning.cold-pressure", Stage::Commissioning, "Set the cold pressure and write down its temperature")
        .detail(
            "{commissioning.cold_pressure} on the gauge at 20 °C, {commissioning.cold_today} at \
             {commissioning.vessel_temperature}. A pressure without its temperature cannot be compared next year. An open \
             or drainback loop: the level instead.",
        )
        .evidence(Evidence::Note("pressure and temperature, or the level"))
        .after(&["commissioning.air"])
        .relies(&["plumbing.relief_setting"]),
    Step::new("commissioning.measure-flow", Stage::Commissioning, "Measure the flow: bucket and watch, five times")
        .detail(
            "{commissioning.bucket_volume} should take {commissioning.bucket_design} at {plumbing.flow}. Each timing is \
             a reading of its own. A closed loop: read its flow meter and turn it into a time for the same volume.",
        )
        .evidence(Evidence::Reading("commissioning.bucket_time"))
        .after(&["commissioning.cold-pressure"])
        .relies(&["plumbing.flow_per_area", "plumbing.pipe"])
        .cautions(&["The water can be hot enough to burn: gloves, a low sun."]),
    Step::new("commissioning.outlets", Stage::Commissioning, "All panels and risers equally warm")
        .detail(
            "In steady sun: panel outlets within 2.8 K of each other, risers at the top within 3 K. The hotter one has \
             less flow; a cold riser is plugged or holds air.",
        )
        .evidence(Evidence::Reading("commissioning.outlets_spread"))
        .after(&["commissioning.measure-flow"])
        .cautions(&[COLD]),
    Step::new("commissioning.sensors", Stage::Commissioning, "Read the panel sensor's ohms beside a thermometer")
        .per_panel()
        .detail(
            "{commissioning.sensor_type}: {commissioning.sensor_table.0} at 0 °C, {commissioning.sensor_table.60} at \
             60 °C. In ice water and in hot water if you can; the pair of panel and tank sensor in one bath within \
             0.1 K, or note the offset.",
        )
        .evidence(Evidence::Reading("commissioning.sensor_ohms"))
        .after(&["commissioning.measure-flow"])
        .relies(&["commissioning.sensor_type"])
        .cautions(&["Unplug the sensor from the controller and keep off its mains side: an electrician's work."]),
    Step::new("commissioning.drain-back", Stage::Commissioning, "Stop the pump and measure what drains")
        .detail(
            "A drainback loop: {commissioning.drain_expected} must come back within ten minutes; less is a pocket that \
             will freeze. Any other loop: measure what runs out when the test water is drained.",
        )
        .evidence(Evidence::Reading("commissioning.drained"))
        .after(&["commissioning.measure-flow"])
        .relies(&["plumbing.loop", "plumbing.pipe_length", "plumbing.drained_length"])
        .cautions(&["Low sun: an empty panel heats within minutes."]),
    Step::new("commissioning.settings", Stage::Commissioning, "Set the controller and photograph it")
        .detail(
            "Start {commissioning.start_difference}, stop {commissioning.stop_difference} above the tank; tank limit \
             {plumbing.tank_limit}; panel lock-out {commissioning.lock_out}; frost {commissioning.frost_trip}.",
        )
        .evidence(Evidence::Note("all settings, where the photo is"))
        .after(&["commissioning.sensors"])
        .relies(&[
            "plumbing.tank_limit",
            "plumbing.loop",
            "commissioning.sensor_type",
            "commissioning.start_difference",
            "commissioning.stop_difference",
        ])
        .held_by(&[
            "safety.scald",
            "safety.scald-year",
            "safety.tap-valve",
            "safety.tank-limit",
            "safety.legionella",
            "safety.freezing",
            "safety.frost-valve",
            "safety.power-cut",
            "safety.relief-path",
            "safety.mains",
            "safety.bonding",
            "plumbing.lockout",
            "plumbing.potable-expansion",
            "commissioning.sensor-plausible",
        ]),
];

/// The steps behind the functional proofs.
pub static LAST: &[Step] = &[
    Step::new("commissioning.performance", Stage::Commissioning, "Take four performance points or more")
        .detail(
            "Steady sun above 800 W/m², 15 minutes each, inlet from cool to hot: flow, inlet, outlet, air, sun. The \
             design gives {absorber.useful_power} a panel at 900 W/m², 20 °C air, 45 °C in. What was measured, gain \
             {commissioning.fitted_gain} and loss {commissioning.fitted_loss}, can stand for the drawn panel in the year: \
             plumbing.year_panel.",
        )
        .evidence(Evidence::Note("where the table of points is kept, or the logger file"))
        .after(&["commissioning.outlets", "commissioning.sensors", "commissioning.put-back"])
        .relies(&["plumbing.flow_per_area"]),
    Step::new("commissioning.seven-days", Stage::Commissioning, "Log seven days that count")
        .detail(
            "A day counts when 95 % of its daylight is there. For a typical year the correlation expects \
             {plumbing.delivered_year}; one week only tells whether something is badly wrong.",
        )
        .evidence(Evidence::Note("coverage, heat per day, pump starts"))
        .after(&["commissioning.put-back", "commissioning.performance"]),
    Step::new("commissioning.first-events", Stage::Commissioning, "Be there at the first frost, power cut and empty week")
        .detail("Look, measure, write down. What happens the first time happens every time.")
        .evidence(Evidence::Note("date and what happened, for each"))
        .after(&["commissioning.put-back"])
        .cautions(&[STEAM, "Ice below a panel and on the ladder."]),
    Step::new("commissioning.handover", Stage::Commissioning, "A second person reads the handover back")
        .detail(
            "Schematic, test records, liquid, settings, sensor curve, flow, drained litres, permits; how to cover, stop \
             and not open a hot loop. Written for a stranger.",
        )
        .evidence(Evidence::Note("who read it back, where the pack is"))
        .after(&["commissioning.seven-days", "commissioning.put-back", "commissioning.performance", "plumbing.schematic"])
        .firmly_after(&["commissioning.put-back"])
        .read_back(),
];
