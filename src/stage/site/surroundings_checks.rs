//! Checks on what stands around the panels and the way they face.

use super::entries::surroundings::{ROW_PITCH, ROWS};
use super::spacing;
use crate::model::{Fig, Judgement, Why};
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::Dimension;

/// Share of the year's sun that a skyline may take without a word, and that a tilt may give up (project rule).
const HORIZON_TOLERATED: f64 = 0.05;
const TILT_TOLERATED: f64 = 0.05;

fn share(found: f64, limit: f64) -> Judgement {
    let margin = Quantity::percent(limit - found);
    Judgement::caution_unless(found <= limit).with(Quantity::percent(found), Quantity::percent(limit)).margin(margin)
}

fn horizon_loss(s: &Solution) -> Fig<Judgement> {
    let sun = s.site.sun.clone()?;
    if s.inputs.keys(&super::entries::surroundings::HORIZON.spec).is_empty() {
        return Err(Why::missing("site.horizon.*"));
    }
    Ok(share(sun.lost_in_year().si(), HORIZON_TOLERATED))
}

fn orientation(s: &Solution) -> Fig<Judgement> {
    let found = s.studies.orientation.clone()?;
    Ok(share(found.given_up()?.si(), TILT_TOLERATED).part(found.range()))
}

fn row_pitch(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&ROWS)? < 2 {
        return Ok(Judgement::does_not_apply("there is a single row"));
    }
    let (pitch, free) = (s.inputs.get(&ROW_PITCH)?, spacing::spacing(s)?.noon);
    Ok(Judgement::caution_unless(pitch >= free).with(pitch, free).margin(pitch - free).part("rows"))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("site.horizon-loss", "sun lost to the skyline", Severity::Nuisance, horizon_loss)
        .says(
            "The skyline takes {found} of the year's sun; up to {limit} is usual.",
            "Look at the loss month by month: a higher place, a step aside or a pruned tree may be worth more than another \
             panel.",
        )
        .blind_to("trees that grow, leaves that fall, and what will be built")
        .source("5 %: project rule")
        .needs(&["site.horizon_loss_year"]),
    Check::new("site.orientation", "tilt against the best one", Severity::Nuisance, orientation)
        .says(
            "The tilt entered gives up {found} of the year's sun; within 1 % of the best is {part}.",
            "A steeper panel can still be right: it favours winter, sheds snow and stands cooler in summer. Else change \
             the tilt.",
        )
        .blind_to("when heat is wanted: the best tilt for the year is not the best for winter")
        .source("5 %: project rule")
        .needs(&["site.tilt_loss", "site.tilt_range"]),
    Check::new("site.row-pitch", "distance of the rows", Severity::Nuisance, row_pitch)
        .says(
            "The rows stand {found} apart; free of shade at noon of the shortest day they would need {limit}.",
            "Widen the rows, flatten the panels, or accept {site.row_shade_year} of the year's sun lost among the rows.",
        )
        .blind_to("sloped ground, and the sky that the front row hides")
        .source("shadow at the winter solstice, Duffie & Beckman section 1.9; the instant: project rule")
        .needs(&["site.row_pitch_noon", "site.row_pitch", "site.rows"]),
];
