//! The audit of a weather file: it finds clocks that are wrong, numbers that cannot be, and says what was filled.

use std::fmt;

use super::Hour;
use crate::units::si::{Angle, Dimension, ZERO_CELSIUS};

/// Shifts tried by the clock check, minutes either way.
const WIDEST_SHIFT: i32 = 90;
/// A shift beyond this is a warning, minutes.
const TOLERATED_SHIFT: f64 = 10.0;
/// The same without beam data: afternoon clouds alone move the day's middle (project rule).
const TOLERATED_NOON_SHIFT: f64 = 30.0;
/// Beam, diffuse and global that disagree by more than this at the best shift, W/m² (project rule).
const TOLERATED_RESIDUAL: f64 = 25.0;

/// What the readers and the preparation noted on the way.
#[derive(Clone, Debug, Default)]
pub(super) struct Notes {
    pub leap_rows: usize,
    pub clock_shift: f64,
    pub negative_irradiance: usize,
    pub split_by_model: usize,
    pub closed: usize,
    pub pressure_from_altitude: bool,
    pub filled: Vec<(&'static str, usize)>,
    pub dropped: Vec<(&'static str, usize)>,
}

impl Notes {
    /// Counts filled hours of a column.
    pub fn fill(&mut self, column: &'static str, hours: usize) {
        if hours == 0 {
            return;
        }
        match self.filled.iter_mut().find(|entry| entry.0 == column) {
            Some(entry) => entry.1 += hours,
            None => self.filled.push((column, hours)),
        }
    }
}

/// How the clock was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ClockMethod {
    /// Global against diffuse and beam: GHI = DHI + DNI cos Z holds at one sun time only.
    Closure,
    /// Without beam data: the day's light is taken as even about solar noon.
    NoonSymmetry,
}

/// What the clock check found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClockCheck {
    /// How it was done.
    pub method: ClockMethod,
    /// Minutes by which the sun stands later than the stamps say; −90 and 90 mean "or more".
    pub shift_minutes: f64,
    /// Root mean square of GHI − DHI − DNI cos Z as stamped, W/m²; closure only.
    pub residual_as_stamped: Option<f64>,
    /// The same at the shift found.
    pub residual_at_shift: Option<f64>,
}

/// Findings about a weather file.
#[derive(Clone, Debug, PartialEq)]
pub struct Audit {
    /// Shift that was asked for when reading, minutes.
    pub clock_shift_applied: f64,
    /// The clock check, after that shift. `None` for a year without light.
    pub clock: Option<ClockCheck>,
    /// Everything worth telling.
    pub warnings: Vec<Warning>,
}

/// Something doubtful in a weather file. The values are kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warning {
    /// The sun time differs from the stamps.
    Clock {
        /// The check.
        check: ClockCheck,
    },
    /// Global, beam and diffuse do not fit each other at any time.
    PartsDisagree {
        /// Root mean square at the best shift, W/m².
        residual: f64,
    },
    /// Rows of 29 February were left out.
    LeapDay {
        /// Rows.
        rows: usize,
    },
    /// Gaps were filled.
    Filled {
        /// What.
        column: &'static str,
        /// Hours.
        hours: usize,
    },
    /// A column with too many gaps is taken as not given.
    Dropped {
        /// What.
        column: &'static str,
        /// Hours missing.
        hours: usize,
    },
    /// Beam and diffuse were computed from global by Erbs' correlation.
    SplitByModel {
        /// Hours.
        hours: usize,
    },
    /// One of global, beam and diffuse was computed from the other two.
    Closed {
        /// Hours.
        hours: usize,
    },
    /// The pressure is the standard atmosphere's at the station's height.
    PressureFromAltitude,
    /// Neither infrared nor dew point: the sky temperature is a rough guess.
    NoMoisture,
    /// Months whose clearness is outside 0.3 to 0.8, for which the diffuse share is held at the nearest end.
    ClearnessHeld {
        /// Months.
        months: usize,
    },
    /// No air temperature is known; the standard atmosphere's at this height stands in.
    AirUnknown,
    /// No wind is known; 3 m/s stand in.
    WindUnknown,
    /// Negative irradiance was taken as zero.
    NegativeIrradiance {
        /// Values.
        values: usize,
    },
    /// Hours with a value that nature hardly gives.
    Implausible {
        /// What.
        what: Doubt,
        /// Hours.
        hours: usize,
    },
}

/// What nature hardly gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Doubt {
    /// GHI > 1.1 G_on cos Z + 50.
    GlobalAboveSpace,
    /// DHI > GHI + 20.
    DiffuseAboveGlobal,
    /// DNI > G_on.
    BeamAboveSpace,
    /// |T| > 60 °C.
    Temperature,
    /// Dew point above the air by more than 0.5 K.
    DewPointAboveAir,
}

impl Audit {
    pub(super) fn of(latitude: Angle, hours: &[Hour], notes: &Notes) -> Self {
        // Where most hours were completed, the closure only finds what was put in.
        let measured = (notes.split_by_model + notes.closed) * 2 < hours.len();
        let clock = if measured { closure(latitude, hours) } else { noon(latitude, hours) };
        let mut warnings = Vec::new();
        warnings.extend(clock.and_then(clock_warning));
        let residual = clock.and_then(|check| check.residual_at_shift).filter(|rms| *rms > TOLERATED_RESIDUAL);
        warnings.extend(residual.map(|residual| Warning::PartsDisagree { residual }));
        note_warnings(notes, &mut warnings);
        if hours.iter().all(|hour| hour.dew_point.is_none() && hour.infrared.is_none()) {
            warnings.push(Warning::NoMoisture);
        }
        warnings.extend(doubts(hours));
        Self { clock_shift_applied: notes.clock_shift, clock, warnings }
    }
}

fn clock_warning(check: ClockCheck) -> Option<Warning> {
    let tolerated = match check.method {
        ClockMethod::Closure => TOLERATED_SHIFT,
        ClockMethod::NoonSymmetry => TOLERATED_NOON_SHIFT,
    };
    (check.shift_minutes.abs() > tolerated).then_some(Warning::Clock { check })
}

fn note_warnings(notes: &Notes, warnings: &mut Vec<Warning>) {
    let counted = [
        (notes.leap_rows, Warning::LeapDay { rows: notes.leap_rows }),
        (notes.split_by_model, Warning::SplitByModel { hours: notes.split_by_model }),
        (notes.closed, Warning::Closed { hours: notes.closed }),
        (notes.negative_irradiance, Warning::NegativeIrradiance { values: notes.negative_irradiance }),
        (usize::from(notes.pressure_from_altitude), Warning::PressureFromAltitude),
    ];
    warnings.extend(counted.into_iter().filter(|(count, _)| *count > 0).map(|(_, warning)| warning));
    warnings.extend(notes.filled.iter().map(|&(column, hours)| Warning::Filled { column, hours }));
    warnings.extend(notes.dropped.iter().map(|&(column, hours)| Warning::Dropped { column, hours }));
}

type Rule = fn(&Hour) -> bool;

fn doubts(hours: &[Hour]) -> impl Iterator<Item = Warning> {
    let rules: [(Doubt, Rule); 5] = [
        (Doubt::GlobalAboveSpace, |hour| {
            let light = &hour.sunlight;
            light.global > 1.1 * light.extraterrestrial_normal * light.sun.up.max(0.0) + 50.0
        }),
        (Doubt::DiffuseAboveGlobal, |hour| hour.sunlight.diffuse > hour.sunlight.global + 20.0),
        (Doubt::BeamAboveSpace, |hour| hour.sunlight.beam_normal > hour.sunlight.extraterrestrial_normal),
        (Doubt::Temperature, |hour| (hour.dry_bulb - ZERO_CELSIUS).abs() > 60.0),
        (Doubt::DewPointAboveAir, |hour| hour.dew_point.is_some_and(|dew| dew > hour.dry_bulb + 0.5)),
    ];
    rules
        .map(|(what, rule)| (what, hours.iter().filter(|hour| rule(hour)).count()))
        .into_iter()
        .filter_map(|(what, hours)| (hours > 0).then_some(Warning::Implausible { what, hours }))
}

/// The sun of an hour in the frame of the earth's axis, so that time is a rotation.
struct Turning {
    /// GHI − DHI.
    level_beam: f64,
    /// DNI.
    beam_normal: f64,
    /// Part of cos Z that time does not change, sin δ sin φ.
    fixed: f64,
    /// cos δ cos H cos φ.
    toward: f64,
    /// cos δ sin H cos φ.
    west: f64,
}

impl Turning {
    fn of(latitude: Angle, hour: &Hour) -> Self {
        let (sin_phi, cos_phi) = latitude.si().sin_cos();
        let (light, sun) = (&hour.sunlight, hour.sunlight.sun);
        Self {
            level_beam: light.global - light.diffuse,
            beam_normal: light.beam_normal,
            fixed: (sun.north * cos_phi + sun.up * sin_phi) * sin_phi,
            toward: (sun.up * cos_phi - sun.north * sin_phi) * cos_phi,
            west: -sun.east * cos_phi,
        }
    }
}

/// Shift of the sun time with the smallest root mean square of GHI − DHI − DNI cos Z over GHI > 50, cos Z > 0.1.
fn closure(latitude: Angle, hours: &[Hour]) -> Option<ClockCheck> {
    let bright: Vec<Turning> =
        hours.iter().filter(|hour| hour.sunlight.global > 50.0).map(|hour| Turning::of(latitude, hour)).collect();
    let residual = |minutes: i32| {
        let (sine, cosine) = (f64::from(minutes) * 0.25).to_radians().sin_cos();
        let (mut sum, mut count) = (0.0, 0u32);
        for hour in &bright {
            let up = hour.fixed + hour.toward * cosine - hour.west * sine;
            if up > 0.1 {
                sum += (hour.level_beam - hour.beam_normal * up).powi(2);
                count += 1;
            }
        }
        (count > 0).then(|| (sum / f64::from(count)).sqrt())
    };
    let best = |shifts: &mut dyn Iterator<Item = i32>| {
        shifts.filter_map(|shift| residual(shift).map(|rms| (shift, rms))).min_by(|a, b| a.1.total_cmp(&b.1))
    };
    let coarse = best(&mut (-WIDEST_SHIFT..=WIDEST_SHIFT).step_by(5))?;
    let around = (coarse.0 - 4).max(-WIDEST_SHIFT)..=(coarse.0 + 4).min(WIDEST_SHIFT);
    let (shift, rms) = best(&mut around.into_iter())?;
    Some(ClockCheck {
        method: ClockMethod::Closure,
        shift_minutes: f64::from(shift),
        residual_as_stamped: residual(0),
        residual_at_shift: Some(rms),
    })
}

/// Shift that puts the middle of the year's light at solar noon.
fn noon(latitude: Angle, hours: &[Hour]) -> Option<ClockCheck> {
    let (mut toward, mut west) = (0.0, 0.0);
    for hour in hours {
        let turning = Turning::of(latitude, hour);
        toward += hour.sunlight.global * turning.toward;
        west += hour.sunlight.global * turning.west;
    }
    (toward.hypot(west) > 0.0).then(|| ClockCheck {
        method: ClockMethod::NoonSymmetry,
        shift_minutes: -west.atan2(toward).to_degrees() / 0.25,
        residual_as_stamped: None,
        residual_at_shift: None,
    })
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Clock { check } => {
                let or_more = if check.shift_minutes.abs() >= f64::from(WIDEST_SHIFT) { " or more" } else { "" };
                let (later, minutes) =
                    (if check.shift_minutes > 0.0 { "later" } else { "earlier" }, check.shift_minutes.abs());
                write!(f, "the sun stands {minutes:.0} minutes{or_more} {later} than the stamps of the file say")
            }
            Self::PartsDisagree { residual } => {
                write!(f, "global, beam and diffuse irradiance differ by {residual:.0} W/m² (rms) at every sun time")
            }
            Self::LeapDay { rows } => write!(f, "{rows} rows of 29 February are left out"),
            Self::Filled { column, hours } => write!(f, "{column}: {hours} missing hours are filled"),
            Self::Dropped { column, hours } => {
                write!(f, "{column}: {hours} hours are missing, the column is not used")
            }
            Self::SplitByModel { hours } => {
                write!(f, "beam and diffuse are computed from global irradiance in {hours} hours (Erbs 1982)")
            }
            Self::Closed { hours } => {
                write!(f, "one of global, beam and diffuse is computed from the others in {hours} hours")
            }
            Self::PressureFromAltitude => write!(f, "pressure is taken from the station's height"),
            Self::NoMoisture => write!(f, "neither infrared nor dew point is given: the sky temperature is a guess"),
            Self::ClearnessHeld { months } => {
                write!(
                    f,
                    "in {months} months the clearness is outside 0.3 to 0.8; the diffuse share is that of the end"
                )
            }
            Self::AirUnknown => write!(f, "no air temperature is known: the standard atmosphere's stands in"),
            Self::WindUnknown => write!(f, "no wind is known: 3 m/s stand in"),
            Self::NegativeIrradiance { values } => {
                write!(f, "{values} negative values of irradiance are taken as zero")
            }
            Self::Implausible { what, hours } => write!(f, "{what} in {hours} hours"),
        }
    }
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::GlobalAboveSpace => "global irradiance above what reaches the atmosphere",
            Self::DiffuseAboveGlobal => "diffuse above global irradiance",
            Self::BeamAboveSpace => "beam irradiance above what reaches the atmosphere",
            Self::Temperature => "air beyond ±60 °C",
            Self::DewPointAboveAir => "dew point above the air temperature",
        })
    }
}
