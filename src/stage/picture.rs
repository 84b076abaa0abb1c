//! The pictures that a stage declares, by title, with a few words below. How they are painted is for a face.

use super::{Solution, absorber, site};
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

static ABSORBER: [Picture; 1] = [Picture {
    title: "the harp from the front, to scale",
    draw: |s| {
        s.absorber.harp.as_ref().map(|harp| Drawing::Scene(absorber::drawing::harp_scene(harp))).map_err(Clone::clone)
    },
    caption: &[
        "o is a hole in a header.",
        "Holes from the left end: {absorber.hole}.",
        "{absorber.riser_count} risers, each cut {absorber.riser_cut}.",
        "Headers {absorber.header_spacing} apart, diagonal {absorber.diagonal}.",
    ],
}];

/// The pictures of a stage, in the order in which they are leafed through.
pub fn of(stage: Stage) -> &'static [Picture] {
    match stage {
        Stage::Site => &SITE,
        Stage::Absorber => &ABSORBER,
        _ => &[],
    }
}
