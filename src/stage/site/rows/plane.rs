//! The figures of the plane: band, skyline, the way it faces, best tilt, rows.

use crate::model::{Fig, TradeUnits, Value, Why};
use crate::stage::site::Sun;
use crate::stage::site::entries::surroundings::ROOF_SLOPE;
use crate::stage::site::entries::{self as e};
use crate::stage::site::orientation::{ORIENTATION, Orientation};
use crate::stage::site::rows::month;
use crate::stage::site::spacing::{self, ROW_SHADE, SPACING};
use crate::stage::site::sun::{self, FACING, SUN};
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::Kind::{Angle, Irradiation, Length, Percent};
use crate::units::Quantity;
use crate::units::si::{Dimension, Ratio};

static RACK: Group = Group { name: "rack on the roof", entries: &["site.tilt", "site.roof_slope"], groups: &[] };

fn sun_of(s: &Solution) -> Fig<Sun> {
    s.site.sun.clone()
}

fn percent(ratio: Ratio) -> Value {
    Quantity::percent(ratio.si()).into()
}

fn found(s: &Solution) -> Fig<std::sync::Arc<Orientation>> {
    s.studies.orientation.clone()
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("site.azimuth_used", "true azimuth that counts", Angle, &FACING, |s, _| {
        Ok(sun::azimuth(&s.inputs)?.into())
    })
    .by("true-north", "the true azimuth as entered, else compass bearing plus declination, within one turn", &[]),
    Figure::new("site.rack_angle", "panel against the roof", Angle, &RACK, |s, _| {
        Ok((s.inputs.get(&e::TILT)? - s.inputs.get(&ROOF_SLOPE)?).into())
    })
    .by("true-north", "{β} − {r}", &[("β", "site.tilt"), ("r", "site.roof_slope")]),
    Figure::new("site.plane_month_low", "the month, cautious sky", Irradiation, &SUN, |s, key| {
        Ok(sun_of(s)?.monthly_low[month(key)].into())
    })
    .axis(Axis::Month)
    .by("isotropic", "sum of the month's hours with a sky that is equally bright everywhere", &[]),
    Figure::new("site.plane_month_high", "the month, hopeful sky", Irradiation, &SUN, |s, key| {
        Ok(sun_of(s)?.monthly_high[month(key)].into())
    })
    .axis(Axis::Month)
    .by("perez", "sum of the month's hours with the hopeful sky", &[]),
    Figure::new("site.plane_spread", "width of the band", Percent, &SUN, |s, _| {
        let sun = sun_of(s)?;
        let middle = sun.annual.si();
        if middle <= 0.0 {
            return Err(Why::out_of_range("no sun falls on this plane"));
        }
        Ok(percent(Ratio::from_si((sun.annual_high.si() - sun.annual_low.si()) / middle)))
    })
    .by(
        "hay-davies",
        "({high} − {low}) / {middle}",
        &[("high", "site.plane_year_high"), ("low", "site.plane_year_low"), ("middle", "site.plane_year")],
    ),
    Figure::new("site.horizon_loss_year", "sun lost to the skyline, year", Percent, &SUN, |s, _| {
        Ok(percent(sun_of(s)?.lost_in_year()))
    })
    .by("skyline", "one less the sun behind the skyline over the sun with a free view", &[]),
    Figure::new("site.horizon_loss_month", "sun lost to the skyline, month", Percent, &SUN, |s, key| {
        Ok(percent(sun_of(s)?.lost_in_month(month(key))))
    })
    .axis(Axis::Month)
    .by("skyline", "the same for the month", &[]),
    Figure::new("site.sky_share", "sky left by the skyline", Percent, &SUN, |s, _| Ok(percent(sun_of(s)?.sky_share)))
        .by("skyline", "even sky light behind the skyline over that of a free view", &[]),
    Figure::new("site.best_tilt", "best tilt for the year", Angle, &ORIENTATION, |s, _| Ok(found(s)?.best.tilt.into()))
        .by("tilt-scan", "the tilt of 0° to 90° with the most sun, panels facing as they do", &[]),
    Figure::word("site.tilt_range", "good enough: within 1 % of the best", &ORIENTATION, |s, _| {
        Ok(Value::Text(found(s)?.range()))
    })
    .by("tilt-scan", "flattest and steepest whole degree within 1 % of the best", &[]),
    Figure::new("site.best_tilt_year", "sun at the best tilt, year", Irradiation, &ORIENTATION, |s, _| {
        Ok(found(s)?.best.total.into())
    })
    .by("tilt-scan", "the greatest of the scan", &[]),
    Figure::new("site.tilt_loss", "sun given up by the tilt entered", Percent, &ORIENTATION, |s, _| {
        Ok(percent(found(s)?.given_up()?))
    })
    .by(
        "tilt-scan",
        "one less the sun at {β} over {best}",
        &[("β", "site.tilt"), ("best", "site.best_tilt_year")],
    ),
    Figure::new("site.winter_tilt", "best tilt for the four dark months", Angle, &ORIENTATION, |s, _| {
        Ok(found(s)?.winter.tilt.into())
    })
    .by("tilt-scan", "as the best tilt, November to February or May to August alone", &[]),
    Figure::new("site.best_azimuth", "best way to face, with its own tilt", Angle, &ORIENTATION, |s, _| {
        Ok(found(s)?.anywhere.azimuth.into())
    })
    .by("tilt-scan", "coarse every 5°, then every degree around the best", &[]),
    Figure::new("site.best_azimuth_tilt", "best tilt facing that way", Angle, &ORIENTATION, |s, _| {
        Ok(found(s)?.anywhere.tilt.into())
    })
    .by("tilt-scan", "found together with {γ}", &[("γ", "site.best_azimuth")]),
    Figure::new("site.best_azimuth_year", "sun facing that way, year", Irradiation, &ORIENTATION, |s, _| {
        Ok(found(s)?.anywhere.total.into())
    })
    .by("tilt-scan", "the greatest of that scan", &[]),
    Figure::new("site.row_pitch_noon", "rows free at noon of the shortest day", Length, &SPACING, |s, _| {
        Ok(spacing::spacing(s)?.noon.into())
    })
    .shown_in(TradeUnits::SITE)
    .by(
        "row-shade",
        "L (sin {β} / tan αp + cos {β}), L the box up the slope, αp the sun's height across the rows",
        &[("β", "site.tilt")],
    ),
    Figure::new("site.row_pitch_comfort", "rows free from 9 to 15 h of the shortest day", Length, &SPACING, |s, _| {
        let comfort = spacing::spacing(s)?.comfort;
        Ok(comfort.ok_or_else(|| Why::out_of_range("the sun is not up from 9 to 15 h on the shortest day"))?.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("row-shade", "as at noon, the greater of 9 h and 15 h solar time", &[]),
    Figure::new("site.row_shade_noon", "slope in shade at noon of the shortest day", Percent, &ROW_SHADE, |s, _| {
        Ok(percent(spacing::shaded_at_noon(s)?))
    })
    .by("row-shade", "1 − ({P} / L) sin αp / sin(β + αp), not below zero", &[("P", "site.row_pitch")]),
    Figure::new("site.row_shade_year", "sun lost among the rows, year", Percent, &ROW_SHADE, |s, _| {
        Ok(percent(s.studies.row_shade.clone()?.all))
    })
    .by(
        "row-shade",
        "shaded share of beam and circumsolar light, hour by hour, all {n} rows",
        &[("n", "site.rows")],
    ),
];
