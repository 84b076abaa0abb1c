//! Finding a fault: one symptom, one measurement at a time, each with the value that this project should show.

/// One measurement on the way.
#[derive(Debug)]
pub struct Look {
    /// What to measure.
    pub measure: &'static str,
    /// What this project should show, ids in braces.
    pub expect: &'static str,
    /// What is likely if it shows something else.
    pub otherwise: &'static str,
}

/// A symptom and the measurements that part its causes, the easiest first.
#[derive(Debug)]
pub struct Symptom {
    /// What it is called on the command line.
    pub name: &'static str,
    /// What is seen.
    pub seen: &'static str,
    /// The measurements in order.
    pub looks: &'static [Look],
    /// What is left if all of them show what they should.
    pub left: &'static str,
}

const fn look(measure: &'static str, expect: &'static str, otherwise: &'static str) -> Look {
    Look { measure, expect, otherwise }
}

/// All symptoms.
pub static SYMPTOMS: &[Symptom] = &[
    Symptom {
        name: "large-rise",
        seen: "sun, pump on, outlet much hotter than inlet",
        looks: &[
            look(
                "flow by bucket or meter",
                "{plumbing.flow}",
                "air in the loop, strainer, pump speed, a valve, slush of ice",
            ),
            look(
                "cold pressure",
                "{commissioning.cold_pressure} at 20 °C",
                "liquid lost: find where before you top up",
            ),
            look(
                "both sensors in one bath",
                "apart by 0.1 K at most",
                "the pair differs: keep its offset or change one",
            ),
        ],
        left: "the sun is stronger than it looks: hold the sun sensor beside another",
    },
    Symptom {
        name: "small-rise",
        seen: "sun, pump on, outlet hardly hotter than inlet",
        looks: &[
            look("flow by bucket or meter", "{plumbing.flow}", "too much flow: throttle on the pump's pressure side"),
            look("shade and dirt on the glass", "none at noon", "wash it cool; cut what shades it"),
            look(
                "heat of one panel in good sun",
                "{absorber.useful_power} at 900 W/m², 20 °C air, 45 °C in",
                "solder line off the sheet, wet insulation, broken seal",
            ),
            look("both sensors in one bath", "apart by 0.1 K at most", "the pair differs"),
            look("which pipe is hot", "the outlet at the top", "pump or pipes the wrong way round"),
        ],
        left: "take performance points: sunharp show FILE commissioning.causes says which way it is off",
    },
    Symptom {
        name: "pump-off-hot",
        seen: "panel hot, pump off",
        looks: &[
            look(
                "pressure, from a distance",
                "at most {commissioning.proof_pressure}",
                "keep away; sunharp procedure FILE emergency",
            ),
            look(
                "ohms of the panel sensor, unplugged",
                "{commissioning.sensor_table.60} at 60 °C, {commissioning.sensor_table.100} at 100 °C",
                "open, short, or another curve",
            ),
            look("tank at its limit", "below {plumbing.tank_limit}", "the limit holds the pump: that is its work"),
            look("lock-out", "free below {commissioning.lock_out}", "latched: it frees when the panel has cooled"),
            look("pump: hum, watts", "{commissioning.pump_power}", "seized or without power: an electrician"),
        ],
        left: "start difference {commissioning.start_difference} too large, or the sensor is not on hot metal",
    },
    Symptom {
        name: "pump-at-night",
        seen: "the pump runs at night",
        looks: &[
            look(
                "display of the panel against its ohms",
                "{commissioning.sensor_table.20} at 20 °C",
                "short: a thermistor in a short reads hot",
            ),
            look("tank sensor in its well", "ohms as the tank's temperature", "out of its well: it reads the room"),
            look("frost mode", "acts at {commissioning.frost_trip}", "a cold night: it is protecting the panel"),
        ],
        left: "a timer or a holiday mode that cools at night",
    },
    Symptom {
        name: "warm-at-night",
        seen: "panel warm at night, pump off",
        looks: &[
            look(
                "return pipe a metre above the tank",
                "air and 3 K at most",
                "check valve dirty or missing: {commissioning.reverse_head} drive it",
            ),
            look("two hours after sunset again", "cold", "it flows backwards: valve or heat trap"),
        ],
        left: "the panel's own heat: two thirds of it are gone after {absorber.time_standing}",
    },
    Symptom {
        name: "cycling",
        seen: "the pump starts and stops all the time",
        looks: &[
            look("starts in a day", "12 at most", "count them in the log: {commissioning.log_starts}"),
            look("flow", "{plumbing.flow}", "too much"),
            look(
                "stop difference",
                "{commissioning.stop_difference}, never cycles below {commissioning.greatest_stop}",
                "set start wider",
            ),
            look(
                "place of the panel sensor",
                "on the plate or the top header, insulated",
                "in still air or too far from the plate",
            ),
        ],
        left: "a morning with clouds",
    },
    Symptom {
        name: "cold-panel",
        seen: "one panel or one riser stays cold",
        looks: &[
            look("outlets of all panels", "within 2.8 K", "the hotter one has less flow"),
            look("risers at the top", "within 3 K", "air or a plug of solder: flush that panel alone, both ways"),
            look("pipe runs", "return from the far end, no sag", "no equal paths: throttle the near panels"),
        ],
        left: "sheet off its riser: tap along the seam when it is cold",
    },
    Symptom {
        name: "pressure-falls",
        seen: "pressure falls, no drip seen",
        looks: &[
            look(
                "pressure at the same temperature as last time",
                "{commissioning.cold_pressure} at 20 °C",
                "only the temperature has changed, or liquid is lost",
            ),
            look(
                "tap on the vessel",
                "hollow above, dull below",
                "water-logged: precharge {commissioning.precharge_today}",
            ),
            look("vents and the relief valve's can", "dry", "vent hissing, relief valve weeping"),
        ],
        left: "air that leaves in the first weeks: bleed after 1, 7 and 30 days",
    },
    Symptom {
        name: "relief-lifts",
        seen: "pressure rises and the relief valve lifts",
        looks: &[
            look(
                "precharge, loop empty",
                "{commissioning.precharge_today}",
                "lost: renew it; a vessel that loses it again is done",
            ),
            look("filling pressure", "{commissioning.fill_pressure}", "overfilled, or filled warm"),
            look("path to the vessel", "open, handle off", "a valve between panel and vessel"),
            look(
                "hot pressure",
                "at most {commissioning.proof_pressure}",
                "vessel too small for the steam of this loop",
            ),
        ],
        left: "no use for the heat: sunharp procedure FILE stagnation",
    },
    Symptom {
        name: "dark-liquid",
        seen: "milky or dark liquid, or a smell",
        looks: &[
            look("pH", "7.5 or more", "overheated: flush and fill anew"),
            look("share by refractometer", "{plumbing.glycol}", "topped up with water, or not mixed"),
        ],
        left: "dirt from the first weeks: strainer, then look again in a month",
    },
    Symptom {
        name: "burst",
        seen: "a riser or header has burst",
        looks: &[
            look(
                "litres drained",
                "{commissioning.drain_expected}",
                "a pocket stayed full: fall 2 cm a metre everywhere",
            ),
            look("freezing point", "5 K below {site.record_low}", "mix too weak"),
            look(
                "the night",
                "the plate froze in air up to {site.frost_warmest_air}",
                "a clear sky froze it above 0 °C of air",
            ),
        ],
        left: "a valve that did not open: prove each mechanism alone",
    },
    Symptom {
        name: "fog",
        seen: "fog inside the glass",
        looks: &[
            look(
                "does it clear by noon",
                "yes",
                "rain gets in, or a pinhole: pressure test at {commissioning.test_pressure}",
            ),
            look("weep holes", "open, at the bottom", "clear them"),
            look(
                "a wipe on the inside",
                "water, no oil after six months",
                "paint, binder or sealant gives off: stagnation too hot for it",
            ),
        ],
        left: "breathing of a wooden box: it is normal on some mornings",
    },
    Symptom {
        name: "brown-wood",
        seen: "brown wood at the stubs or rails",
        looks: &[look(
            "rail temperature in strong sun without flow",
            "below 77 °C",
            "stop: cover, then metal and fibre between",
        )],
        left: "old stain: mark its edge and look again in a month",
    },
    Symptom {
        name: "tap",
        seen: "the tap is too hot or too cool",
        looks: &[
            look(
                "mixed water",
                "{safety.mixing_valve_setting}, 2 K either way",
                "scale or a stuck valve: nobody showers",
            ),
            look("tank top", "at most {plumbing.tank_limit}", "limit or its sensor"),
            look("cold pressure against hot", "alike", "a pressure reducer in one of them"),
        ],
        left: "heater behind the tank: its setting is {safety.final_temperature}",
    },
    Symptom {
        name: "cools-overnight",
        seen: "the tank is much cooler in the morning",
        looks: &[
            look(
                "loss of a night without draw",
                "at most {commissioning.night_drop} in ten hours from its limit",
                "more: gaps in the jacket, or a siphon in the pipes",
            ),
            look(
                "pipe a metre above the tank",
                "air and 3 K",
                "it flows backwards, which takes {commissioning.night_power} at 0.3 L/min: warm-at-night",
            ),
        ],
        left: "somebody drew hot water",
    },
    Symptom {
        name: "readings-jump",
        seen: "readings jump",
        looks: &[
            look("faults of the log", "{commissioning.log_faults}", "85.0 and -127: power or wire of a digital sensor"),
            look("joint of the sensor's wire", "dry, soldered, sleeved", "wet: it reads hot or cold as it likes"),
            look("leads and bond", "twisted, far from mains, box bonded", "a long lead beside mains"),
        ],
        left: "a sensor that dies when it is hot: hold it in boiling water",
    },
];

/// The symptom of a name.
pub fn symptom(name: &str) -> Option<&'static Symptom> {
    SYMPTOMS.iter().find(|symptom| symptom.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::{entry, figure};

    #[test]
    fn what_is_expected_names_declared_figures_only() {
        for look in SYMPTOMS.iter().flat_map(|symptom| symptom.looks) {
            for text in [look.measure, look.expect, look.otherwise] {
                for id in text.split('{').skip(1).filter_map(|rest| Some(rest.split_once('}')?.0)) {
                    assert!(figure(id).is_some() || entry(id).is_some(), "{id}");
                }
            }
        }
    }

    #[test]
    fn every_symptom_has_a_name_of_its_own() {
        let mut names: Vec<&str> = SYMPTOMS.iter().map(|symptom| symptom.name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), SYMPTOMS.len());
    }
}
