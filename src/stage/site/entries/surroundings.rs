//! What the site stage asks about the way the panels face and what stands around them.

use super::DEGREE;
use crate::model::{Entry, EntrySpec, RowKey};
use crate::units::si::{Angle, Length};

/// Bearing by the compass.
pub static MAGNETIC_AZIMUTH: Entry<Angle> = Entry::quantity("site.magnetic_azimuth", "azimuth by the compass")
    .why("read where no iron is near; taken with the declination while no true azimuth is entered")
    .hard(0.0, 360.0 * DEGREE);

/// Magnetic declination.
pub static DECLINATION: Entry<Angle> = Entry::quantity("site.declination", "magnetic declination, east positive")
    .why("how far the compass points east of true north here and now, from a chart; it drifts over the years")
    .hard(-180.0 * DEGREE, 180.0 * DEGREE)
    .usual(-30.0 * DEGREE, 30.0 * DEGREE);

/// Slope of the roof.
pub static ROOF_SLOPE: Entry<Angle> = Entry::quantity("site.roof_slope", "slope of the roof")
    .why("rise over run, such as 4/12; panels of the same tilt lie flush, others want a rack")
    .hard(0.0, 90.0 * DEGREE)
    .usual(0.0, 60.0 * DEGREE);

/// Height of the skyline at an azimuth.
pub static HORIZON: Entry<Angle> = Entry::quantity("site.horizon.*", "skyline at a bearing")
    .why("true bearing on the left, height above level on the right, seen from the middle of the glass")
    .hard(0.0, 90.0 * DEGREE)
    .usual(0.0, 60.0 * DEGREE)
    .rows_by(RowKey::Angle);

/// Rows of panels.
pub static ROWS: Entry<usize> = Entry::count("site.rows", "rows of panels, one behind the other")
    .why("a row behind another stands in its shade when the sun is low")
    .default("1");

/// Distance of the rows.
pub static ROW_PITCH: Entry<Length> = Entry::quantity("site.row_pitch", "distance of the rows")
    .why("level, from front edge to front edge")
    .hard(0.1, 100.0)
    .usual(1.0, 20.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&MAGNETIC_AZIMUTH.spec, &DECLINATION.spec, &ROOF_SLOPE.spec, &HORIZON.spec, &ROWS.spec, &ROW_PITCH.spec];
