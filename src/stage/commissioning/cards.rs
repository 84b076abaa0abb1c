//! The bench cards of the commissioning stage.

use crate::model::Stage;
use crate::stage::Axis;
use crate::stage::card::{Card, shown};

/// The cards of this file.
pub static CARDS: &[Card] = &[
    Card {
        id: "commissioning.panel-test-card",
        stage: Stage::Commissioning,
        title: "Panel pressure test",
        axis: None,
        figures: &[
            shown("commissioning.test_pressure").called("pump to").within("at least 95 % of it"),
            shown("commissioning.panel_pumped").called("pumped in"),
            shown("commissioning.panel_start").called("p1"),
            shown("commissioning.panel_start_temperature").called("T1"),
            shown("commissioning.hold_time")
                .called("hold")
                .within("held {commissioning.panel_hold}")
                .timed()
                .keeping("commissioning.panel_hold"),
            shown("commissioning.panel_end").called("p2"),
            shown("commissioning.panel_end_temperature").called("T2"),
            shown("commissioning.panel_weeps").called("a joint weeps"),
            shown("commissioning.panel_result")
                .called("result")
                .within("off by {commissioning.panel_change}, may be {commissioning.panel_allowance}"),
        ],
        steps: &["absorber.harp-test", "absorber.retest", "enclosure.test-in-box"],
        caution: "Water, not air. Nobody in line with a joint. Never leave it shut in daylight.",
    },
    Card {
        id: "commissioning.loop-test-card",
        stage: Stage::Commissioning,
        title: "Loop pressure test",
        axis: None,
        figures: &[
            shown("commissioning.gauge_target")
                .called("pump to")
                .within("at least 95 % of it")
                .from("the loop's gauge"),
            shown("commissioning.loop_pumped").called("pumped in"),
            shown("commissioning.loop_start").called("p1"),
            shown("commissioning.loop_start_temperature").called("T1"),
            shown("commissioning.hold_time")
                .called("hold")
                .within("held {commissioning.loop_hold}")
                .timed()
                .keeping("commissioning.loop_hold"),
            shown("commissioning.loop_end").called("p2"),
            shown("commissioning.loop_end_temperature").called("T2"),
            shown("commissioning.loop_weeps").called("a joint weeps"),
            shown("commissioning.loop_result")
                .called("result")
                .within("off by {commissioning.loop_change}, may be {commissioning.loop_allowance}"),
        ],
        steps: &["commissioning.loop-test"],
        caution: "Panels covered or before sunrise. Relief valve and vessel are shut off: put them back before filling.",
    },
    Card {
        id: "commissioning.flow-card",
        stage: Stage::Commissioning,
        title: "Flow by bucket",
        axis: None,
        figures: &[
            shown("commissioning.bucket_design").called("should take").within("± 10 %"),
            shown("commissioning.bucket_volume").called("bucket"),
            shown("commissioning.flow").called("flow"),
            shown("commissioning.flow_uncertainty").called("give or take"),
            shown("plumbing.flow").called("design"),
            shown("commissioning.float_flow").called("by float meter"),
        ],
        steps: &["commissioning.measure-flow"],
        caution: "The water can be hot enough to burn: gloves, a low sun.",
    },
    Card {
        id: "commissioning.sensor-card",
        stage: Stage::Commissioning,
        title: "Sensor strip",
        axis: Some(Axis::Celsius),
        figures: &[
            shown("commissioning.sensor_table").called("ohms"),
            shown("commissioning.sensor_temperature").called("panel sensor says"),
            shown("commissioning.boiling_point").called("water boils at"),
            shown("commissioning.pair_offset").called("pair offset").within("0.1 K"),
            shown("commissioning.resistor_frost").called("resistor, frost"),
            shown("commissioning.resistor_lock_out").called("resistor, lock-out"),
            shown("commissioning.resistor_limit").called("resistor, tank limit"),
        ],
        steps: &["commissioning.sensors"],
        caution: "Unplug the sensor from the controller and keep off its mains side.",
    },
    Card {
        id: "commissioning.settings-card",
        stage: Stage::Commissioning,
        title: "Controller settings",
        axis: None,
        figures: &[
            shown("commissioning.start_difference").called("start"),
            shown("commissioning.stop_difference").called("stop"),
            shown("plumbing.tank_limit").called("tank limit"),
            shown("commissioning.lock_out").called("panel lock-out"),
            shown("commissioning.frost_trip").called("frost"),
            shown("commissioning.cold_pressure").called("cold pressure"),
        ],
        steps: &["commissioning.settings", "commissioning.put-back"],
        caution: "Read every setting aloud after each proof.",
    },
    Card {
        id: "commissioning.emergency-card",
        stage: Stage::Commissioning,
        title: "Emergency",
        axis: None,
        figures: &[
            shown("plumbing.relief_setting").called("relief valve lifts at"),
            shown("absorber.stagnation_worst").called("panel can be at"),
            shown("plumbing.loop_content").called("liquid in it"),
        ],
        steps: &[],
        caution: "Away from panel and discharge. Breaker off. Valves as they are. Cover the glass from a distance.",
    },
];
