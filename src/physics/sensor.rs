//! Temperature sensors: resistance to temperature and back.
//!
//! Lives here: platinum after IEC 60751, and the common 10 kΩ thermistor by fit, table and beta equation. Must not
//! live here: which sensor may sit where, loggers' sentinels.

use super::domain::{DomainError, finite, not_negative, positive, within};
use super::root::{self, Bracket};
use crate::units::si::{
    Dimension, ElectricalResistance, Temperature, TemperatureInterval, ZERO_CELSIUS, celsius, in_celsius,
};

/// Coefficients of the Callendar–Van Dusen equation in IEC 60751 (verified page): A 1/°C, B 1/°C², C 1/°C⁴.
const PLATINUM: (f64, f64, f64) = (3.9083e-3, -5.775e-7, -4.183e-12);
/// Range of the platinum equation, °C.
const PLATINUM_RANGE: (f64, f64) = (-200.0, 850.0);

/// A platinum sensor of the 3.85e-3 curve by its resistance at 0 °C (100 or 1000 Ω).
///
/// Some makers follow a 3.983e-3 or 3.916e-3 curve: the reading is then wrong by several kelvin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Platinum {
    /// R₀.
    pub at_zero: ElectricalResistance,
}

/// Tolerance classes of IEC 60751 (verified page; ranges for wire-wound elements from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlatinumClass {
    /// ±(0.15 + 0.002 |t|) K, −100 to 450 °C.
    A,
    /// ±(0.30 + 0.005 |t|) K, −196 to 600 °C.
    B,
}

impl PlatinumClass {
    /// Largest permitted error at a temperature.
    pub fn tolerance(self, temperature: Temperature) -> Result<TemperatureInterval, DomainError> {
        let (fixed, slope, low, high) = match self {
            Self::A => (0.15, 0.002, -100.0, 450.0),
            Self::B => (0.30, 0.005, -196.0, 600.0),
        };
        within("sensor temperature", temperature.si(), celsius(low).si(), celsius(high).si())?;
        Ok(TemperatureInterval::from_si(fixed + slope * in_celsius(temperature).abs()))
    }
}

/// R/R₀ at t in °C.
fn platinum_ratio(t: f64) -> f64 {
    let (a, b, c) = PLATINUM;
    let below = if t < 0.0 { c * (t - 100.0) * t.powi(3) } else { 0.0 };
    1.0 + a * t + b * t * t + below
}

impl Platinum {
    /// R = R₀ (1 + A t + B t² + C (t − 100) t³), the last term below 0 °C only; −200 to 850 °C.
    pub fn resistance(&self, temperature: Temperature) -> Result<ElectricalResistance, DomainError> {
        let zero = positive("resistance at 0 °C", self.at_zero.si())?;
        let (low, high) = PLATINUM_RANGE;
        within("sensor temperature", temperature.si(), celsius(low).si(), celsius(high).si())?;
        let ohms = zero * platinum_ratio(in_celsius(temperature));
        Ok(ElectricalResistance::from_si(finite("resistance", ohms)?))
    }

    /// Inverse of [`Platinum::resistance`]: the quadratic's root at and above 0 °C, a search below it.
    pub fn temperature(&self, resistance: ElectricalResistance) -> Result<Temperature, DomainError> {
        let zero = positive("resistance at 0 °C", self.at_zero.si())?;
        let (low, high) = (platinum_ratio(PLATINUM_RANGE.0), platinum_ratio(PLATINUM_RANGE.1));
        let ratio = within("resistance", resistance.si(), zero * low, zero * high)? / zero;
        let (a, b, _) = PLATINUM;
        if ratio >= 1.0 {
            return Ok(celsius((-a + (a * a - 4.0 * b * (1.0 - ratio)).sqrt()) / (2.0 * b)));
        }
        // A little wider than the range, so that rounding cannot push its ends outside.
        let frost = Bracket { low: PLATINUM_RANGE.0 - 0.1, high: 0.1 };
        let surplus = |t: f64| platinum_ratio(t) - ratio;
        let unsettled = DomainError::NotSettled { what: "platinum temperature", residual: surplus(0.0) };
        root::find(frost, 1e-10, surplus).map(celsius).ok_or(unsettled)
    }

    /// Error that the resistance of the leads makes in a two-wire circuit: +2.6 K for 1 Ω on 100 Ω, +0.26 K on 1000 Ω.
    pub fn lead_error(&self, leads: ElectricalResistance) -> Result<TemperatureInterval, DomainError> {
        let zero = positive("resistance at 0 °C", self.at_zero.si())?;
        let leads = not_negative("resistance of the leads", leads.si())?;
        Ok(TemperatureInterval::from_si(leads / (zero * PLATINUM.0)))
    }
}

/// The commonest curve of a thermistor with 10 kΩ at 25 °C: (°C, Ω), printed alike in two instrument manuals
/// (verified).
///
/// "10 k" alone does not name a curve: others with 10 kΩ at 25 °C differ by kelvins at 90 °C. Compare in ice and at
/// 50 °C.
pub const THERMISTOR_TABLE: [(f64, f64); 12] = [
    (-20.0, 97081.0),
    (0.0, 32650.0),
    (10.0, 19901.0),
    (20.0, 12493.0),
    (40.0, 5326.0),
    (50.0, 3602.0),
    (60.0, 2488.0),
    (80.0, 1255.0),
    (90.0, 915.5),
    (100.0, 678.6),
    (120.0, 389.6),
    (150.0, 186.1),
];

/// The three-term equation of a thermistor, 1/T = a + b ln R + c (ln R)³ (Steinhart and Hart 1968).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreeTerm {
    /// a, 1/K.
    pub a: f64,
    /// b, 1/K.
    pub b: f64,
    /// c, 1/K.
    pub c: f64,
}

/// Fit to [`THERMISTOR_TABLE`] through 0, 60 and 150 °C: within 0.12 K of it from 0 to 150 °C.
pub const THERMISTOR_10K: ThreeTerm = ThreeTerm { a: 1.12002947e-3, b: 2.35640976e-4, c: 8.17647964e-8 };
/// Temperatures that [`THERMISTOR_10K`] may be used for, °C: the ends of the table it was compared with.
const THERMISTOR_RANGE: (f64, f64) = (-20.0, 150.0);

/// A temperature and the resistance found at it.
pub type Calibration = (Temperature, ElectricalResistance);

impl ThreeTerm {
    /// The curve through three measured points, for a sensor of one's own.
    ///
    /// Best spread over the range of use: interpolates well, extrapolates badly. The three resistances must differ
    /// and the curve must fall.
    pub fn through(points: [Calibration; 3]) -> Result<Self, DomainError> {
        let mut rows = [(0.0, 0.0); 3];
        for (row, (temperature, resistance)) in rows.iter_mut().zip(points) {
            let kelvin = positive("calibration temperature", temperature.si())?;
            *row = (positive("calibration resistance", resistance.si())?.ln(), 1.0 / kelvin);
        }
        let [(l1, y1), (l2, y2), (l3, y3)] = rows;
        let (g2, g3) = ((y2 - y1) / (l2 - l1), (y3 - y1) / (l3 - l1));
        let c = (g3 - g2) / ((l3 - l2) * (l1 + l2 + l3));
        let b = g2 - c * (l1 * l1 + l1 * l2 + l2 * l2);
        let curve = Self { a: y1 - (b + c * l1 * l1) * l1, b, c };
        positive("second term of the thermistor curve", b)?;
        positive("third term of the thermistor curve", c)?;
        Ok(curve)
    }

    /// Temperature for a resistance. The equation alone; see [`thermistor_temperature`] for the checked range.
    pub fn temperature(&self, resistance: ElectricalResistance) -> Result<Temperature, DomainError> {
        let l = positive("resistance", resistance.si())?.ln();
        let inverse = positive("1/T of the thermistor curve", self.a + self.b * l + self.c * l.powi(3))?;
        Ok(Temperature::from_si(finite("sensor temperature", 1.0 / inverse)?))
    }

    /// Resistance for a temperature: the one real root of the cubic (Cardano), for b and c above zero.
    pub fn resistance(&self, temperature: Temperature) -> Result<ElectricalResistance, DomainError> {
        let kelvin = positive("sensor temperature", temperature.si())?;
        let c = positive("third term of the thermistor curve", self.c)?;
        let half = (self.a - 1.0 / kelvin) / (2.0 * c);
        let third = self.b / (3.0 * c);
        let root = (half * half + third.powi(3)).sqrt();
        let ohms = ((root - half).cbrt() - (root + half).cbrt()).exp();
        Ok(ElectricalResistance::from_si(positive("resistance of the thermistor", ohms)?))
    }
}

/// Temperature of the common 10 kΩ thermistor by [`THERMISTOR_10K`], −20 to 150 °C.
pub fn thermistor_temperature(resistance: ElectricalResistance) -> Result<Temperature, DomainError> {
    let (low, high) = THERMISTOR_RANGE;
    let ends = (THERMISTOR_10K.resistance(celsius(high))?.si(), THERMISTOR_10K.resistance(celsius(low))?.si());
    within("resistance of the thermistor", resistance.si(), ends.0, ends.1)?;
    THERMISTOR_10K.temperature(resistance)
}

/// Resistance of the common 10 kΩ thermistor by [`THERMISTOR_10K`], −20 to 150 °C.
pub fn thermistor_resistance(temperature: Temperature) -> Result<ElectricalResistance, DomainError> {
    let (low, high) = THERMISTOR_RANGE;
    within("sensor temperature", temperature.si(), celsius(low).si(), celsius(high).si())?;
    THERMISTOR_10K.resistance(temperature)
}

/// A thermistor as its data sheet's front page gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beta {
    /// R₂₅ at 25 °C.
    pub at_25_celsius: ElectricalResistance,
    /// B between 25 and 85 °C, K (3977.5 K for the common 10 kΩ curve).
    pub beta: f64,
}

impl Beta {
    /// The two numbers of a sheet from the resistances at 25 and 85 °C: B = ln(R₂₅/R₈₅)/(1/298.15 − 1/358.15).
    pub fn between_25_and_85(
        at_25_celsius: ElectricalResistance,
        at_85_celsius: ElectricalResistance,
    ) -> Result<Self, DomainError> {
        let cold = positive("resistance at 25 °C", at_25_celsius.si())?;
        let warm = positive("resistance at 85 °C", at_85_celsius.si())?;
        let span = 1.0 / (ZERO_CELSIUS + 25.0) - 1.0 / (ZERO_CELSIUS + 85.0);
        Ok(Self { at_25_celsius, beta: positive("beta", (cold / warm).ln() / span)? })
    }

    /// Temperature by the rougher two-point equation, 1/T = 1/298.15 + ln(R/R₂₅)/B.
    ///
    /// Off by +0.7 K at 0 °C, −0.3 at 60, +0.3 at 100, +0.8 at 120 and +2.0 at 150 °C for the common curve.
    pub fn temperature(&self, resistance: ElectricalResistance) -> Result<Temperature, DomainError> {
        let ratio =
            positive("resistance", resistance.si())? / positive("resistance at 25 °C", self.at_25_celsius.si())?;
        let inverse = 1.0 / (ZERO_CELSIUS + 25.0) + ratio.ln() / positive("beta", self.beta)?;
        Ok(Temperature::from_si(finite("sensor temperature", 1.0 / positive("1/T of the beta equation", inverse)?)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn platinum_goes_there_and_back_on_both_sides_of_zero() {
        let sensor = Platinum { at_zero: ElectricalResistance::from_si(1000.0) };
        for degrees in [-199.0, -40.0, -0.5, 0.0, 60.0, 300.0, 849.0] {
            let back = sensor.temperature(sensor.resistance(celsius(degrees)).unwrap()).unwrap();
            assert!((in_celsius(back) - degrees).abs() < 1e-6, "{degrees}");
        }
        assert!(sensor.temperature(ElectricalResistance::from_si(1.0)).is_err());
    }

    #[test]
    fn a_thermistor_goes_there_and_back() {
        for degrees in [-20.0, 0.0, 3.0, 60.0, 149.0] {
            let back = thermistor_temperature(thermistor_resistance(celsius(degrees)).unwrap()).unwrap();
            assert!((in_celsius(back) - degrees).abs() < 1e-6, "{degrees}");
        }
        assert!(thermistor_temperature(ElectricalResistance::from_si(100.0)).is_err());
    }

    #[test]
    fn three_points_give_their_own_curve_back() {
        let points = [0.0, 60.0, 150.0].map(|t| (celsius(t), THERMISTOR_10K.resistance(celsius(t)).unwrap()));
        let curve = ThreeTerm::through(points).unwrap();
        assert!((curve.b / THERMISTOR_10K.b - 1.0).abs() < 1e-9);
        assert!((curve.c / THERMISTOR_10K.c - 1.0).abs() < 1e-6);
    }

    #[test]
    fn equal_resistances_make_no_curve() {
        let point = (celsius(20.0), ElectricalResistance::from_si(12493.0));
        assert!(ThreeTerm::through([point, point, point]).is_err());
    }
}
