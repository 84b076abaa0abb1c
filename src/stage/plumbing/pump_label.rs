//! The pump against its label: how near the design flow it runs, and whether its label reaches that far.

use super::flow_rows::{PUMP, flow_of, is_pumped, point, pump};
use crate::model::{Fig, Judgement, Value, Verdict};
use crate::physics::pump::Duty;
use crate::stage::{Check, Figure, Severity, Solution};
use crate::units::si::{Dimension, VolumeRate};

/// How far a pump may run from the design flow (project rule).
const OFF_TARGET: f64 = 0.2;

/// What is said of a point that the label does not reach.
const BEYOND: &str = "beyond the last point of its label, where the curve is only drawn on";

/// Whether the pump runs at more flow than its label tells of.
fn beyond_label(s: &Solution) -> Fig<bool> {
    Ok(point(s)?.flow > pump(s)?.label_end)
}

fn pump_duty(s: &Solution) -> Fig<Judgement> {
    if !is_pumped(s)? {
        return Ok(Judgement::does_not_apply("this loop has no pump"));
    }
    let wanted = flow_of(s)?;
    let least = wanted * (1.0 - OFF_TARGET);
    match pump(s)?.duty {
        Duty::CannotLift { .. } => {
            Ok(Judgement::of(Verdict::Stop).with(VolumeRate::default(), wanted).margin(-wanted).part("it cannot lift"))
        }
        Duty::Runs(point) => {
            let share = point.flow.si() / wanted.si();
            let near = (share - 1.0).abs() <= OFF_TARGET;
            let word = if share < 1.0 { "too little" } else { "too much" };
            let judgement = Judgement::caution_unless(near && !beyond_label(s)?).with(point.flow, wanted);
            let word = match (near, beyond_label(s)?) {
                (_, false) => word.to_owned(),
                (true, true) => format!("near it but {BEYOND}"),
                (false, true) => format!("{word} and {BEYOND}"),
            };
            Ok(judgement.margin(point.flow - least).part(word))
        }
    }
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[Figure::word("plumbing.pump_label", "is that flow on the pump's label", &PUMP, |s, _| {
        Ok(Value::Text(if beyond_label(s)? { format!("no, {BEYOND}") } else { "yes, within its points".to_owned() }))
    })
    .by(
        "pump-point",
        "{Q} against the greatest flow among the points of the label",
        &[("Q", "plumbing.pump_flow")],
    )];

/// The checks of this file.
pub static CHECKS: &[Check] =
    &[Check::new("plumbing.pump-duty", "pump against design flow", Severity::Injury, pump_duty)
        .says(
            "The pump gives {found}, {part}; the design flow is {limit}, 20 % either way.",
            "Another pump or speed, a wider pipe, or a balancing valve where it is too much. Beyond its label: the \
             maker's whole curve, or a measured flow.",
        )
        .blind_to("wear, scale, cold thick glycol and parts without a test point: {plumbing.uncounted_parts}")
        .source("label of the pump; 20 %: project rule")
        .needs(&["plumbing.pump_flow", "plumbing.loop"])];
