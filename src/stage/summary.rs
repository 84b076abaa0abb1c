//! What a stage answers in one look: a few questions, each with one line built from its figures.

use crate::model::Stage;

/// One line of a summary.
#[derive(Debug, PartialEq, Eq)]
pub struct Answer {
    /// What is asked, in a word or two: at most eight letters, so that a space follows in the narrow column of a page.
    pub asks: &'static str,
    /// The answer, with ids in braces. A figure with rows stands for its first and its last row.
    pub text: &'static str,
}

const fn answer(asks: &'static str, text: &'static str) -> Answer {
    Answer { asks, text }
}

static SITE: [Answer; 4] = [
    answer("on plane", "{site.plane_year} a year, {site.plane_year_low} to {site.plane_year_high}"),
    answer("how sure", "{site.plane_spread} band; rests on {site.rests_on}"),
    answer(
        "lost",
        "{site.horizon_loss_year} to the skyline, {site.row_shade_year} to rows, {site.tilt_loss} to the tilt",
    ),
    answer("tilt", "{site.tilt_range} is within 1 % of the best"),
];

static ABSORBER: [Answer; 4] = [
    answer("heat", "{absorber.useful_power} useful from one panel at the working point"),
    answer("no flow", "{absorber.stagnation_worst} at most, empty in the sun"),
    answer("risers", "{absorber.riser_count} of {absorber.riser_cut}"),
    answer("holes", "{absorber.hole}, from the left end"),
];

static PLUMBING: [Answer; 3] = [
    answer("from sun", "{plumbing.solar_fraction_year} of {plumbing.load_year} a year"),
    answer("peaks", "tank {plumbing.tank_peak}; panels stand hot {plumbing.stagnation_hours} h"),
    answer("worst", "{plumbing.worst_week}"),
];

static ENCLOSURE: [Answer; 4] = [
    answer("box", "{enclosure.outside_width} × {enclosure.outside_length} outside, rails {enclosure.rail_width}"),
    answer("hot wood", "back {enclosure.back_face}, rail {enclosure.rail_face} at the hottest"),
    answer("glass", "{enclosure.glass_width} × {enclosure.glass_length}, {enclosure.glass_thickness}"),
    answer("mass", "{enclosure.mass_dry} dry, {enclosure.people} people"),
];

static COMMISSIONING: [Answer; 4] = [
    answer("proofs", "panel: {commissioning.panel_result}; loop: {commissioning.loop_result}"),
    answer("flow", "{commissioning.flow} of {plumbing.flow}; {commissioning.drain_expected} must drain"),
    answer("measured", "{commissioning.agreement}"),
    answer("due", "{commissioning.due}"),
];

/// The summary of a stage; empty where there is none.
pub fn of(stage: Stage) -> &'static [Answer] {
    match stage {
        Stage::Site => &SITE,
        Stage::Absorber => &ABSORBER,
        Stage::Plumbing => &PLUMBING,
        Stage::Enclosure => &ENCLOSURE,
        Stage::Commissioning => &COMMISSIONING,
        Stage::Safety => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::{entry, figure, picture};

    /// The ids in braces.
    fn ids(text: &str) -> Vec<&str> {
        text.split('{').skip(1).filter_map(|rest| Some(rest.split_once('}')?.0)).collect()
    }

    #[test]
    fn a_space_follows_what_is_asked() {
        for answer in Stage::ALL.iter().flat_map(|stage| of(*stage)) {
            assert!(answer.asks.chars().count() <= 8, "{}", answer.asks);
        }
    }

    #[test]
    fn summaries_and_captions_name_declared_figures_only() {
        for stage in Stage::ALL {
            let captions = picture::of(stage).iter().flat_map(|picture| picture.caption).copied();
            for text in of(stage).iter().map(|answer| answer.text).chain(captions) {
                for id in ids(text) {
                    assert!(figure(id).is_some() || entry(id).is_some(), "{id}");
                }
            }
        }
    }
}
