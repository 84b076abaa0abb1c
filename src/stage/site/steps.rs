//! The checklist of the site stage.

use crate::model::{Evidence, Stage, Step};

const ROOF: &str = "Roof and ladder: a second person, the ladder tied at one in four, no wet or windy day.";
const SUN: &str = "Never look into the sun, nor through any glass at it.";

/// The steps of this file.
pub static STEPS: &[Step] = &[
    Step::new("site.true-south", Stage::Site, "Find true north on the spot, and the way the glass will face")
        .detail(
            "By the shadow of a plumb line at solar noon, or by a map; a compass alone shows magnetic north and hates \
             iron. The design says {site.azimuth}.",
        )
        .evidence(Evidence::Reading("site.measured_azimuth"))
        .relies(&["site.azimuth", "site.latitude"])
        .cautions(&[SUN]),
    Step::new("site.horizon", Stage::Site, "Take the horizon every 10 to 15 degrees")
        .detail("Bearing and height of roofs, trees and hills, from where the middle of the glass will be.")
        .evidence(Evidence::Note("where the table of bearings and heights is kept, and its date"))
        .after(&["site.true-south"])
        .cautions(&[SUN]),
    Step::new("site.shade", Stage::Site, "Look for shade at winter noon and at summer noon")
        .detail(
            "At noon the sun stands {site.noon_winter} high on the shortest day and {site.noon_summer} on the longest. \
             Look along both.",
        )
        .evidence(Evidence::Note("what stands in the way, winter and summer"))
        .after(&["site.true-south"])
        .relies(&["site.latitude"])
        .cautions(&[SUN]),
    Step::new("site.plane-fit", Stage::Site, "Sketch the panels on their place, with the way to service them")
        .detail(
            "Tilt {site.tilt}, {plumbing.panel_area_total} outside in all. Leave a way for two people and a ladder, and \
             room for snow to slide.",
        )
        .evidence(Evidence::Note("where the sketch with sizes is kept"))
        .relies(&["site.tilt"])
        .cautions(&[ROOF]),
    Step::new("site.structure", Stage::Site, "Know what will carry the panels")
        .detail("Rafters: size, span, spacing, wood, age, rot. Ground: soil, frost depth, footing.")
        .evidence(Evidence::Note("what was found, and who judged it"))
        .after(&["site.plane-fit"])
        .relies(&["site.wind_speed", "site.snow_load"])
        .held_by(&["site.local-loads"])
        .cautions(&[ROOF, "Wind can lift with more than the panel's own weight many times over."])
        .read_back()
        .licensed(),
    Step::new("site.weather", Stage::Site, "Choose the weather, and write down the extremes that it lacks")
        .detail(
            "Station {site.station}. Its coldest hour is {site.air_lowest}; the record low entered is \
             {site.record_low}. Wind and snow come from the local code.",
        )
        .evidence(Evidence::Note("station and years; sources of record low, wind and snow"))
        .relies(&["site.weather_file", "site.record_low", "site.wind_speed", "site.snow_load"]),
    Step::new("site.water", Stage::Site, "Know the water: pressure, hardness, chloride, pH")
        .detail("From the utility's sheet, or by test strips. It decides scale, pitting, and which metals may meet it.")
        .evidence(Evidence::Note("pressure range, hardness, chloride, pH, and where from")),
    Step::new("site.load", Stage::Site, "Count people, litres and the weeks when nobody draws")
        .detail(
            "The design says {plumbing.people} people and {plumbing.per_person} each: {plumbing.daily_volume} a day at \
             {plumbing.tap}. In weeks without draw the panel stands hot.",
        )
        .evidence(Evidence::Note("who was asked, the back-up heater, the weeks away"))
        .relies(&["plumbing.people", "plumbing.per_person", "plumbing.tap"]),
    Step::new("site.permit", Stage::Site, "Ask for permits: building office, neighbours, insurer")
        .detail(
            "Ask about roof and wind, drinking water, pressure and electricity. {site.jurisdiction} decides here; this \
             program cannot.",
        )
        .evidence(Evidence::Note("office, date, answer, number"))
        .relies(&["site.premises", "site.jurisdiction"])
        .read_back()
        .licensed(),
    Step::new("site.pipe-path", Stage::Site, "Walk the pipe's way and measure it")
        .detail("Length there and back, height from tank to panels, each place that can freeze, each wall to be drilled.")
        .evidence(Evidence::Note("metres, height difference, frost places"))
        .relies(&["plumbing.pipe_length"])
        .cautions(&[ROOF, "Before you drill: find wires, pipes and gas."]),
];
