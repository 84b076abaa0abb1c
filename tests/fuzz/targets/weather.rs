//! Any bytes as a weather file: an error, or a climate whose every number is finite; never a panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sunharp::climate::{Climate, Plane};
use sunharp::physics::transposition::SkyModel;
use sunharp::units::si::{Angle, Dimension};

/// A whole file that each input is written over, so that the fuzzer starts behind the count of hours.
const WHOLE: &[u8] = include_bytes!("../../../sample-projects/weather/greensboro-tmy3-reduced.csv");

fuzz_target!(|bytes: &[u8]| {
    judge(bytes);
    if let [a, b, c, rest @ ..] = bytes {
        let at = usize::from(*a) << 16 | usize::from(*b) << 8 | usize::from(*c);
        let at = at % WHOLE.len();
        let end = (at + rest.len()).min(WHOLE.len());
        judge(&[&WHOLE[..at], rest, &WHOLE[end..]].concat());
    }
});

fn judge(bytes: &[u8]) {
    let Ok(climate) = Climate::from_bytes("fuzz", bytes) else { return };
    assert_eq!(climate.hours().len(), 8760);
    let plane = Plane { tilt: Angle::from_si(0.7), azimuth: Angle::from_si(3.5), albedo: 0.2.into() };
    for model in [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez] {
        assert!(climate.plane(&plane, model).year_total().si().is_finite());
    }
    assert!(climate.hours().iter().all(|hour| hour.dry_bulb.is_finite() && hour.wind.is_finite()));
}
