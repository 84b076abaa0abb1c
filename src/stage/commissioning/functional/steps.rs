//! The steps of the functional proofs, and the one that puts back what they changed.

use crate::model::{Evidence, Stage, Step};
use crate::stage::commissioning::steps::{COLD, HOT, STEAM};

const fn proof(id: &'static str, title: &'static str, reading: &'static str) -> Step {
    Step::new(id, Stage::Commissioning, title)
        .evidence(Evidence::Reading(reading))
        .after(&["commissioning.settings", "commissioning.outlets"])
}

/// The steps of this file.
pub static STEPS: &[Step] = &[
    proof("commissioning.prove-start", "Cover and uncover: the pump starts", "commissioning.start_found")
        .detail("Set at {commissioning.start_difference}; by the controller's display within 1 K.")
        .relies(&["commissioning.start_difference", "commissioning.sensor_type"])
        .cautions(&["Cover and uncover from the ground or from a fixed platform."]),
    proof("commissioning.prove-stop", "Cover the panel: the pump stops", "commissioning.stop_found")
        .detail("Set at {commissioning.stop_difference}; within 1 K.")
        .relies(&["commissioning.stop_difference", "commissioning.sensor_type"]),
    proof("commissioning.prove-tank-limit", "Tank limit lowered: the pump stands in 10 s", "commissioning.limit_stop")
        .detail("Lower the limit below the tank's temperature while the pump runs; then set {plumbing.tank_limit} again.")
        .relies(&["plumbing.tank_limit"]),
    proof("commissioning.prove-lock-out", "Hot panel by resistor: the pump stays off", "commissioning.lock_out_held")
        .detail("Unplug the panel's sensor, put {commissioning.resistor_lock_out} in its place: above the lock-out.")
        .relies(&["commissioning.lock_out", "commissioning.sensor_type"])
        .cautions(&["Keep off the controller's mains side: an electrician's work."]),
    proof("commissioning.prove-power-cut", "Power cut for two hours, watched from a distance", "commissioning.cut_pressure")
        .detail(
            "Late in the day, pump and controller unplugged, no valve touched. At most {commissioning.proof_pressure}; the \
             relief valve stays shut; afterwards the pump stays locked until the panel has cooled.",
        )
        .relies(&["plumbing.relief_setting", "plumbing.loop"])
        .held_by(&["safety.relief-path", "safety.stagnation-material"])
        .cautions(&[STEAM])
        .read_back(),
    proof("commissioning.prove-drain", "Time how long it drains", "commissioning.drain_time")
        .detail("Within 10 minutes; {commissioning.drain_expected} must come. A loop that stays full: the time of the test water.")
        .relies(&["plumbing.loop"])
        .cautions(&["Low sun: an empty panel heats within minutes."]),
    proof("commissioning.prove-refill", "Time how long it refills", "commissioning.refill_time")
        .detail("Flow within 2 minutes, no gurgle after 10. A loop that stays full: from the pump's start.")
        .after(&["commissioning.prove-drain"])
        .relies(&["plumbing.loop"])
        .cautions(&[HOT]),
    proof("commissioning.prove-night", "Two in the morning: nothing flows", "commissioning.night_pipe")
        .detail(
            "Pump off, tank hot, the panel cold: its own heat goes with a time constant of {absorber.time_standing}, so two \
             hours after sunset at the least. The return pipe a metre above the tank within 3 K of the air. Backwards drive \
             {commissioning.reverse_head}; a creeping 0.3 L/min would take {commissioning.night_power}.",
        ),
    proof("commissioning.prove-mixing", "Mixing valve with the cold feed shut", "commissioning.cold_fail")
        .detail("At most {safety.mixing_valve_setting} and 2 K more, or it shuts. Hand out of the water.")
        .relies(&["safety.mixing_valve_setting", "plumbing.tank_limit"])
        .cautions(&["What comes out can scald: thermometer first, nobody under the shower."])
        .licensed()
        .held_by(&["safety.scald", "safety.scald-year", "safety.legionella"]),
    proof("commissioning.prove-relief", "Lift the relief valve by hand, cold", "commissioning.reseat_time")
        .detail("See where it goes before you lift. Dry again within 5 minutes.")
        .relies(&["plumbing.relief_setting"])
        .cautions(&[COLD, "What the relief valve lets out scalds: see where it goes first."])
        .licensed(),
    proof("commissioning.prove-frost", "Frost by resistor: protection acts", "commissioning.frost_acts")
        .detail("{commissioning.resistor_frost} in the panel sensor's place. Then the mechanism without power, alone.")
        .relies(&["commissioning.frost_trip", "commissioning.sensor_type", "plumbing.loop"])
        .held_by(&["safety.freezing", "safety.frost-valve"]),
    proof("commissioning.prove-frost-unpowered", "Frost protection without power", "commissioning.frost_unpowered")
        .detail("Power off: valve, draining or glycol by itself. Ice and salt on a frost valve's bulb.")
        .relies(&["plumbing.loop"]),
    proof("commissioning.prove-trip", "Earth-fault button: the pump goes dead", "commissioning.trips").licensed()
        .held_by(&["safety.mains"]),
    proof("commissioning.prove-bond", "Bond measured: 0.1 Ω or less", "commissioning.bond").licensed()
        .held_by(&["safety.bonding"]),
    proof("commissioning.prove-no-flow", "No flow: the pump unplugged at low sun", "commissioning.no_flow_pressure")
        .detail(
            "No valve is closed on a hot panel. At most {commissioning.proof_pressure}, and somebody would notice within \
             the day.",
        )
        .relies(&["plumbing.relief_setting"])
        .held_by(&["safety.relief-path"])
        .cautions(&[STEAM]),
    Step::new("commissioning.put-back", Stage::Commissioning, "Everything that a proof changed is put back")
        .detail(
            "Resistors out, sensors plugged and in their wells, limit at {plumbing.tank_limit}, cold feed open, valves \
             open and handles off, covers off, power on. Read every setting aloud against the photo.",
        )
        .evidence(Evidence::Note("who read, what stood differently"))
        .after(&[
            "commissioning.prove-start",
            "commissioning.prove-stop",
            "commissioning.prove-tank-limit",
            "commissioning.prove-lock-out",
            "commissioning.prove-power-cut",
            "commissioning.prove-refill",
            "commissioning.prove-night",
            "commissioning.prove-mixing",
            "commissioning.prove-relief",
            "commissioning.prove-frost",
            "commissioning.prove-frost-unpowered",
            "commissioning.prove-trip",
            "commissioning.prove-bond",
            "commissioning.prove-no-flow",
        ])
        .relies(&["plumbing.tank_limit", "commissioning.start_difference", "commissioning.stop_difference"])
        .read_back(),
];
