//! The pictures that a stage declares, by title, with a few words below. How they are painted is for a face.

use super::enclosure::{drawing, sheets::Material};
use super::{Solution, absorber, commissioning, enclosure, plumbing, site};
use crate::model::scene::Scene;
use crate::model::{Chart, Fig, Stage};

/// What a picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub enum Drawing {
    /// A plot.
    Chart(Chart),
    /// A drawing to scale.
    Scene(Scene),
}

/// One picture of a stage.
#[derive(Debug)]
pub struct Picture {
    /// What is seen, in words.
    pub title: &'static str,
    /// Makes it from results.
    pub draw: fn(&Solution) -> Fig<Drawing>,
    /// Sentences that stand beside it, with ids in braces.
    pub caption: &'static [&'static str],
}

static SITE: [Picture; 3] = [
    Picture {
        title: "sun paths over the skyline",
        draw: |s| site::pictures::sun_paths(s).map(Drawing::Chart),
        caption: &[
            "Noon of the longest day {site.noon_summer}, of the shortest {site.noon_winter} high; the skyline takes \
             {site.horizon_loss_year} of the year's sun.",
        ],
    },
    Picture {
        title: "sun on the plane by month",
        draw: |s| site::pictures::monthly_plane(s).map(Drawing::Chart),
        caption: &["{site.plane_year} in the year; sky models reach from {site.plane_year_low} to \
                    {site.plane_year_high}."],
    },
    Picture {
        title: "sun by tilt",
        draw: |s| site::pictures::tilt_curve(s).map(Drawing::Chart),
        caption: &["Within 1 % of the best is {site.tilt_range}; the tilt entered gives up {site.tilt_loss}."],
    },
];

static ABSORBER: [Picture; 4] = [
    Picture {
        title: "the harp from the front, to scale",
        draw: |s| {
            s.absorber
                .harp
                .as_ref()
                .map(|harp| Drawing::Scene(absorber::drawing::harp_scene(harp)))
                .map_err(Clone::clone)
        },
        caption: &[
            "o is the place of a riser in a header.",
            "a left stub {absorber.stub_left}, b first hole {absorber.hole.1}, c pitch {absorber.pitch}, d headers \
             {absorber.header_spacing} apart.",
            "Holes from the left end: {absorber.hole}.",
            "{absorber.riser_count} risers, each cut {absorber.riser_cut}; diagonal {absorber.diagonal}.",
            "Sheet {absorber.edge_strip} beyond the outermost riser.",
        ],
    },
    Picture {
        title: "temperature across the sheet",
        draw: |s| absorber::pictures::fin_profile(s).map(Drawing::Chart),
        caption: &[
            "The sheet between two risers is {absorber.across_fin} hotter than on them: fin efficiency \
             {absorber.fin_efficiency}.",
            "A flat line wants a thicker sheet or a narrower pitch than {absorber.pitch}.",
        ],
    },
    Picture {
        title: "efficiency and the site's working points",
        draw: |s| absorber::pictures::efficiency_curve(s).map(Drawing::Chart),
        caption: &[
            "On absorber area {absorber.eta0}, on the opening {absorber.eta0_aperture}, on the outside \
             {absorber.eta0_gross} at no difference.",
            "Not for stagnation: there the curve reads 6 to 12 K low.",
        ],
    },
    Picture {
        title: "flow of each riser",
        draw: |s| absorber::pictures::riser_flows(s).map(Drawing::Chart),
        caption: &[
            "Uneven flow costs {absorber.flow_penalty} of the heat; the hottest riser leaves {absorber.hottest_excess} \
             above the mean.",
            "Momentum factors are theory, not measured: shares are good to perhaps a factor of 1.5.",
        ],
    },
];

static PLUMBING: [Picture; 10] = [
    Picture {
        title: "pump and loop",
        draw: |s| plumbing::pictures::pump_curve(s).map(Drawing::Chart),
        caption: &[
            "The pump gives {plumbing.pump_flow} at {plumbing.pump_head}; wanted is {plumbing.flow}. Most pressure \
                    goes into {plumbing.dominates}.",
        ],
    },
    Picture {
        title: "the loop unrolled, along its way and up by its height",
        draw: |s| plumbing::pictures::unrolled(s).map(Drawing::Scene),
        caption: &[
            "{plumbing.pipe_total} of pipe, {plumbing.loop_height} high; can be shut in: {plumbing.shut_in_parts}.",
        ],
    },
    Picture {
        title: "the year's heat by month",
        draw: |s| plumbing::year::pictures::months(s).map(Drawing::Chart),
        caption: &["The sun gives {plumbing.solar_fraction_year} of {plumbing.load_year}; by the monthly correlation \
                    {plumbing.correlation_fraction}."],
    },
    Picture {
        title: "the tank through the worst week",
        draw: |s| plumbing::year::pictures::worst_week(s).map(Drawing::Chart),
        caption: &["{plumbing.worst_week}."],
    },
    Picture {
        title: "an empty house in a clear midsummer",
        draw: |s| plumbing::year::pictures::empty(s).map(Drawing::Chart),
        caption: &["Plate {plumbing.empty_plate}, tank {plumbing.empty_tank} at most; the plate is at 100 °C for \
                    {plumbing.empty_hours} hours of the fortnight."],
    },
    Picture {
        title: "a power cut at noon of a clear day",
        draw: |s| plumbing::year::pictures::cut(s).map(Drawing::Chart),
        caption: &["The plate reaches {plumbing.cut_plate}; 100 °C {plumbing.cut_time} after the cut."],
    },
    Picture {
        title: "the loop's pressure after the cut",
        draw: |s| plumbing::year::pictures::cut_pressure(s).map(Drawing::Chart),
        caption: &[
            "At most {plumbing.cut_pressure}, with the relief valve at {plumbing.relief_setting}; it is open for \
             {plumbing.cut_relief}.",
        ],
    },
    Picture {
        title: "the loop's pressure, empty house",
        draw: |s| plumbing::year::pictures::empty_pressure(s).map(Drawing::Chart),
        caption: &["At most {plumbing.empty_pressure} in that fortnight."],
    },
    Picture {
        title: "the coldest clear night",
        draw: |s| plumbing::year::pictures::night(s).map(Drawing::Chart),
        caption: &["The plate falls to {plumbing.night_plate}, below freezing for {plumbing.night_hours} hours."],
    },
    Picture {
        title: "the loop's pressure, coldest clear night",
        draw: |s| plumbing::year::pictures::night_pressure(s).map(Drawing::Chart),
        caption: &["At the top it falls to {plumbing.night_pressure}; below the air's it would draw air in."],
    },
];

static ENCLOSURE: [Picture; 8] = [
    Picture {
        title: "the rack from the side, to scale",
        draw: |s| enclosure::rack::drawing::rack_scene(s).map(Drawing::Scene),
        caption: &[
            "Tilt {site.tilt}, {enclosure.rise_over_run}; rise {enclosure.rise}, run {enclosure.run}.",
            "Mounts from the left end of the row: {enclosure.mount_position}.",
            "Weakest link: {enclosure.weakest_link}. Screening only.",
        ],
    },
    Picture {
        title: "the cap in section, to scale",
        draw: |s| enclosure::capping::drawing::cap_scene(s).map(Drawing::Scene),
        caption: &[
            "Strip {enclosure.cap_developed}; bends at {enclosure.cap_bend_1} and {enclosure.cap_bend_2} from the edge on \
             the glass.",
        ],
    },
    Picture {
        title: "section of the box, to scale",
        draw: |s| drawing::section(s).map(Drawing::Scene),
        caption: &[
            "Inside {enclosure.inside_height} to the glass, rails {enclosure.rail_width} wide.",
            "Seat {enclosure.seat_depth} deep, back board {enclosure.back_seat}.",
            "Header axis {enclosure.stub_hole_height} up from the back of the rail.",
        ],
    },
    Picture {
        title: "long rail from outside: holes and screws",
        draw: |s| drawing::long_rail(s).map(Drawing::Scene),
        caption: &[
            "o is a screw; at the lower edge those of the back board.",
            "Stub holes {enclosure.stub_hole_lower} and {enclosure.stub_hole_upper} from the lower end.",
            "Equal spacing would meet: {enclosure.equal_spacing_hits}.",
        ],
    },
    Picture {
        title: "timber cut plan, to scale",
        draw: |s| drawing::timber_cuts(s).map(Drawing::Scene),
        caption: &["{enclosure.timber_bars} bars; {enclosure.timber_waste} left; {enclosure.timber_plan_proof}."],
    },
    Picture {
        title: "plywood cut plan, to scale",
        draw: |s| drawing::sheet_cuts(s, Material::Plywood).map(Drawing::Scene),
        caption: &["Numbers are the order of the cuts.", "{enclosure.sheet_plan_proof}."],
    },
    Picture {
        title: "insulation cut plan, to scale",
        draw: |s| drawing::sheet_cuts(s, Material::Behind).map(Drawing::Scene),
        caption: &["The first sheets; numbers are the order of the cuts.", "{enclosure.sheet_plan_proof}."],
    },
    Picture {
        title: "absorber sheet cut plan, to scale",
        draw: |s| drawing::sheet_cuts(s, Material::Absorber).map(Drawing::Scene),
        caption: &["Numbers are the order of the cuts.", "Joints lie midway between risers."],
    },
];

static COMMISSIONING: [Picture; 2] = [
    Picture {
        title: "efficiency points beside both lines",
        draw: |s| commissioning::pictures::efficiency(s).map(Drawing::Chart),
        caption: &[
            "Measured gain {commissioning.eta0} ± {commissioning.eta0_doubt}, loss {commissioning.loss} ± \
             {commissioning.loss_doubt}.",
            "{commissioning.agreement}.",
        ],
    },
    Picture {
        title: "heat of each day beside what was expected",
        draw: |s| commissioning::pictures::days(s).map(Drawing::Chart),
        caption: &[
            "{commissioning.log_days} days count; they brought {commissioning.log_share} of what was expected of the drawing.",
        ],
    },
];

/// The pictures of a stage, in the order in which they are leafed through.
pub fn of(stage: Stage) -> &'static [Picture] {
    match stage {
        Stage::Site => &SITE,
        Stage::Absorber => &ABSORBER,
        Stage::Plumbing => &PLUMBING,
        Stage::Enclosure => &ENCLOSURE,
        Stage::Commissioning => &COMMISSIONING,
        Stage::Safety => &[],
    }
}
