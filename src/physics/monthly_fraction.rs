//! Monthly solar fraction by the correlation of Klein, Beckman and Duffie: an outside check of the simulated year.
//!
//! The hour-by-hour year lives in `year`.

use super::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{Area, Dimension, Energy, HeatTransfer, RadiantExposure, Temperature, Time, in_celsius};

/// Storage that the correlation was made with, L/m².
const STANDARD_STORAGE: f64 = 75.0;
/// Storage for which its correction was published, L/m².
const STORAGE_RANGE: (f64, f64) = (37.5, 300.0);
/// Range of X for which the polynomial was fitted (from memory).
const LOSS_RATIO_RANGE: (f64, f64) = (0.0, 18.0);
/// Range of Y for which the polynomial was fitted (from memory).
const GAIN_RATIO_RANGE: (f64, f64) = (0.0, 3.0);

/// One month of a plant, as the correlation sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Month {
    /// Collector area A, on the basis of the two collector figures.
    pub area: Area,
    /// F_R (τα)_n.
    pub optical_gain: f64,
    /// F_R U_L.
    pub loss: HeatTransfer,
    /// F_R′/F_R of the collector's exchanger; 1 without one.
    pub exchanger_factor: f64,
    /// Month's mean (τα) over (τα)_n.
    pub incidence_ratio: f64,
    /// Month's irradiation of the collector plane, H N.
    pub irradiation: RadiantExposure,
    /// Mean air temperature of the month T_a.
    pub air: Temperature,
    /// Length of the month Δt.
    pub duration: Time,
    /// Load of the month L.
    pub load: Energy,
    /// Storage per collector area M in L/m².
    pub storage_litres_per_area: f64,
    /// Temperatures of a plant for hot water only; none for space heating.
    pub hot_water: Option<HotWater>,
}

/// Temperatures of a plant for hot water only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotWater {
    /// Least acceptable temperature at the tap T_w.
    pub delivered: Temperature,
    /// Temperature of the mains T_m.
    pub mains: Temperature,
}

/// What the correlation gives.
#[derive(Clone, Debug, PartialEq)]
pub struct MonthlyFraction {
    /// X, reference losses over load, with its corrections.
    pub loss_ratio: f64,
    /// Y, absorbed sun over load.
    pub gain_ratio: f64,
    /// f, the part of the load met by the sun, held between 0 and 1.
    pub fraction: f64,
    /// Where the month lies outside what was published; empty inside it.
    pub outside_range: Vec<Outside>,
}

/// A way for a month to lie outside the published range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outside {
    /// X is not between 0 and 18.
    LossRatio,
    /// Y is not between 0 and 3.
    GainRatio,
    /// Y ≤ X/12: the liquid correlation does not hold.
    GainTooSmall,
    /// Storage is not between 37.5 and 300 L/m².
    Storage,
    /// The polynomial left 0 to 1 and was held at the end.
    FractionHeld,
}

/// Solar fraction of one month for a liquid plant with storage.
///
/// X = A F_R U_L (F_R′/F_R)(100 − T_a) Δt/L · (M/75)^−0.25, for hot water only also ·
/// (11.6 + 1.18 T_w + 3.86 T_m − 2.32 T_a)/(100 − T_a);
/// Y = A F_R(τα)_n (F_R′/F_R)\[(τα)/(τα)_n\] H N/L;
/// f = 1.029 Y − 0.065 X − 0.245 Y² + 0.0018 X² + 0.0215 Y³
/// (Klein, Beckman & Duffie, Solar Energy 18, 113, 1976; polynomial and corrections as in several public codes).
/// Temperatures in °C inside the formula. Outside 0 < X < 18, 0 < Y < 3 (from memory), Y > X/12 (Handbook of Energy
/// Engineering Calculations, p. 336) and 37.5 to 300 L/m² the value still comes, with the reason in
/// [`MonthlyFraction::outside_range`]. Two-tank plants agree with a simulation to about 0.03; one mixed tank with an
/// element, and drainback with cooled pipes, do not.
pub fn monthly_fraction(month: &Month) -> Result<MonthlyFraction, DomainError> {
    let area = positive("collector area", month.area.si())?;
    let load = positive("load", month.load.si())?;
    let seconds = positive("length of the month", month.duration.si())?;
    let loss = positive("collector loss coefficient", month.loss.si())?;
    let optical = positive("collector optical gain", month.optical_gain)?;
    let irradiation = not_negative("irradiation", month.irradiation.si())?;
    let exchanger = within("exchanger factor", positive("exchanger factor", month.exchanger_factor)?, 0.0, 1.0)?;
    let incidence = positive("incidence ratio", month.incidence_ratio)?;
    let storage = positive("storage per area", month.storage_litres_per_area)?;
    let air = within("air temperature", in_celsius(month.air), -70.0, 60.0)?;
    let spread = match month.hot_water {
        None => 100.0 - air,
        Some(HotWater { delivered, mains }) => {
            let delivered = finite("delivered temperature", in_celsius(delivered))?;
            11.6 + 1.18 * delivered + 3.86 * finite("mains temperature", in_celsius(mains))? - 2.32 * air
        }
    };
    let x = area * loss * exchanger * spread * seconds / load * (storage / STANDARD_STORAGE).powf(-0.25);
    let y = area * optical * exchanger * incidence * irradiation / load;
    let f = 1.029 * y - 0.065 * x - 0.245 * y * y + 0.0018 * x * x + 0.0215 * y * y * y;
    let fraction = f.clamp(0.0, 1.0);
    let inside = |value: f64, range: (f64, f64)| value > range.0 && value < range.1;
    let outside_range = [
        (!inside(x, LOSS_RATIO_RANGE), Outside::LossRatio),
        (!inside(y, GAIN_RATIO_RANGE), Outside::GainRatio),
        (y <= x / 12.0, Outside::GainTooSmall),
        (!(STORAGE_RANGE.0..=STORAGE_RANGE.1).contains(&storage), Outside::Storage),
        ((fraction - f).abs() > 0.0, Outside::FractionHeld),
    ];
    Ok(MonthlyFraction {
        loss_ratio: finite("loss ratio X", x)?,
        gain_ratio: finite("gain ratio Y", y)?,
        fraction: finite("monthly fraction", fraction)?,
        outside_range: outside_range.into_iter().filter_map(|(is, note)| is.then_some(note)).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn month() -> Month {
        Month {
            area: Area::from_si(4.0),
            optical_gain: 0.7,
            loss: HeatTransfer::from_si(4.9),
            exchanger_factor: 0.93,
            incidence_ratio: 0.94,
            irradiation: RadiantExposure::from_si(420e6),
            air: celsius(8.0),
            duration: Time::from_si(2_592_000.0),
            load: Energy::from_si(1.1e9),
            storage_litres_per_area: 75.0,
            hot_water: Some(HotWater { delivered: celsius(50.0), mains: celsius(12.0) }),
        }
    }

    #[test]
    fn more_sun_never_lowers_the_fraction_inside_the_range() {
        let at = |irradiation: f64| {
            monthly_fraction(&Month { irradiation: RadiantExposure::from_si(irradiation), ..month() }).unwrap().fraction
        };
        assert!((20..80).all(|step| at(f64::from(step + 1) * 1e7) >= at(f64::from(step) * 1e7)));
    }

    #[test]
    fn outside_the_published_range_the_value_comes_with_its_reason() {
        let dark = monthly_fraction(&Month { irradiation: RadiantExposure::from_si(0.0), ..month() }).unwrap();
        assert!(dark.fraction < f64::MIN_POSITIVE);
        assert_eq!(dark.outside_range, [Outside::GainRatio, Outside::GainTooSmall, Outside::FractionHeld]);
        let huge = monthly_fraction(&Month { storage_litres_per_area: 400.0, ..month() }).unwrap();
        assert_eq!(huge.outside_range, [Outside::Storage]);
        assert_eq!(monthly_fraction(&month()).unwrap().outside_range, []);
    }

    #[test]
    fn a_month_without_load_is_refused() {
        assert!(monthly_fraction(&Month { load: Energy::from_si(0.0), ..month() }).is_err());
    }
}
