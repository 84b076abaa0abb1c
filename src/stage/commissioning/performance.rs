//! Efficiency points of a log, the line through them, and how it agrees with what was computed from the drawing.
//!
//! Lives here: which windows count, the sums, the common errors that no number of points shrinks, the comparison. Must
//! not live here: finding steady windows (`logger`), least squares (`physics::statistics`).

use super::log::{Facing, Place};
use crate::logger::{HourLog, Log, Window};
use crate::model::{Fig, Why};
use crate::physics::collector_curve::{CollectorCurve, Weather};
use crate::physics::fluid::Fluid;
use crate::physics::performance_point::HeatReading;
use crate::physics::statistics::{Comparison, Point, Uncertain, Weighting, fit_polynomial, with_common_error};
use crate::physics::sun::Direction;
use crate::units::si::{Area, Dimension, HeatCapacity, HeatFluxDensity, HeatTransfer, Ratio, VolumeRate, celsius};

/// Widest angle of incidence of a point, cosine of 30° (ISO 24194, from memory).
const LEAST_COSINE: f64 = 0.866;
/// Cosine below which light only grazes the glass: beam passes no more by the law of [`SLANT`] (at 0.09).
const GRAZING: f64 = 0.05;
/// Least standard uncertainty of a point of its own (project rule).
const LEAST_SCATTER: f64 = 0.003;
/// Doubt of the heat capacity of the panel (project rule).
const CAPACITY_DOUBT: f64 = 0.2;
/// Doubts that all points share: area, specific heat, what diffuse light gives (project rules).
const AREA_DOUBT: f64 = 0.005;
const HEAT_DOUBT: f64 = 0.002;
const DIFFUSE_DOUBT: f64 = 0.003;
/// b₀ of one pane, K = 1 − b₀ (1/cos θ − 1) (Duffie & Beckman, from memory).
const SLANT: f64 = 0.1;
/// What counts of diffuse light: K at 60° by the same law.
const DIFFUSE: f64 = 0.9;
/// Doubt of glass and sun sensor together at 30° against straight on (project rule).
const SLANT_DOUBT: f64 = 0.01;
/// Doubt of the air against the liquid that all points share, K (project rule).
const AIR_DOUBT: f64 = 0.3;
/// Fewest points of a line (ISO 9806-1:1994 as reported: four inlet temperatures).
const FEWEST: usize = 4;
/// Least spread of x that a line is put through, m²K/W (project rule).
const LEAST_SPREAD: f64 = 0.008;
/// Spread of x and number of points from which a bend is looked for (project rule).
const BEND_SPREAD: f64 = 0.05;
const BEND_POINTS: usize = 10;
/// Doubt of the computed η₀ and U (project rule).
const PREDICTED_DOUBT: (f64, f64) = (0.03, 0.5);
/// |z| up to which two numbers agree at about 95 %.
pub const AGREES: f64 = 2.0;
/// Limits of an hour of the power check (ISO 24194, from memory).
const POWER_SUN: f64 = 800.0;
const POWER_AIR: f64 = 5.0;
const POWER_WIND: f64 = 10.0;
const POWER_DRIFT: f64 = 5.0 / 3600.0;
/// Fewest hours of the power check (from memory).
pub const POWER_HOURS: usize = 20;

/// All panels together as the log sees them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plant {
    /// Absorber area of all panels.
    pub area: Area,
    /// Their effective heat capacity.
    pub capacity: HeatCapacity,
    /// The liquid.
    pub liquid: Fluid,
    /// Place and clock.
    pub place: Place,
    /// Which way they look.
    pub facing: Facing,
}

/// Standard uncertainties that all points share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubts {
    /// Of the sun sensor, of its reading.
    pub sun: f64,
    /// Of the flow, of its reading.
    pub flow: f64,
    /// Of outlet less inlet, K.
    pub pair: f64,
}

/// One efficiency point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EfficiencyPoint {
    /// Middle of its window, on the log's clock.
    pub at: f64,
    /// Irradiance, W/m².
    pub sun: f64,
    /// What it counts for, straight on, W/m².
    pub straight: f64,
    /// 1/cos θ − 1.
    pub slant: f64,
    /// Mean liquid over air, K.
    pub excess: f64,
    /// Efficiency on absorber area with the uncertainty of its own, common errors left out.
    pub efficiency: Uncertain,
    /// Capacity rate of the flow over area, W/(m²·K).
    pub rate: f64,
}

impl EfficiencyPoint {
    /// Reduced temperature, m²K/W.
    pub fn reduced(&self) -> f64 {
        self.excess / self.straight
    }
}

/// The efficiency points of a log.
pub fn points(log: &Log, plant: &Plant) -> Fig<Vec<EfficiencyPoint>> {
    let steep = log.windows.iter().filter_map(|window| Some((window, slant(plant, window.at)?)));
    steep.map(|(window, slant)| point(window, slant, plant)).collect()
}

/// Cosine of the sun's angle on the panels, 0.05 at the least.
pub(super) fn incidence(plant: &Plant, at: f64) -> f64 {
    let normal = Direction::normal(plant.facing.tilt, plant.facing.azimuth);
    plant.place.sun(at).dot(normal).max(GRAZING)
}

/// 1/cos θ − 1 at a moment; none where the sun slants too much.
fn slant(plant: &Plant, at: f64) -> Option<f64> {
    let cosine = incidence(plant, at);
    (cosine >= LEAST_COSINE).then(|| cosine.recip() - 1.0)
}

/// What the sun counts for, straight on: beam by its slant, never below nothing, diffuse light as at 60°.
pub(super) fn straightened(plant: &Plant, at: f64, sun: f64, slant: f64) -> f64 {
    let diffuse = plant.place.diffuse_share(at, sun, (1.0 + slant).recip());
    sun * ((1.0 - diffuse) * (1.0 - SLANT * slant).max(0.0) + diffuse * DIFFUSE)
}

/// η = (Q + C dT_m/dt)/(A K G): what the panel itself takes up while it warms is heat as well.
fn point(window: &Window, slant: f64, plant: &Plant) -> Fig<EfficiencyPoint> {
    let mean = 0.5 * (window.inlet + window.outlet);
    let heat = HeatReading {
        flow: VolumeRate::from_si(window.flow),
        flow_relative: 0.0,
        inlet: celsius(window.inlet),
        outlet: celsius(window.outlet),
        temperature_uncertainty: 0.0,
        density: plant.liquid.density(celsius(window.inlet)).si(),
        specific_heat: plant.liquid.specific_heat(celsius(mean)).si(),
        specific_heat_relative: 0.0,
    };
    let moved = heat.heat().map_err(Why::out_of_range)?;
    let straight = straightened(plant, window.at, window.sun, slant);
    let through = plant.area.si() * straight;
    let stored = plant.capacity.si() * window.drift / through;
    let carried = moved.heat.si() / through;
    let uncertainty = (carried * window.scatter.max(LEAST_SCATTER)).hypot(CAPACITY_DOUBT * stored);
    Ok(EfficiencyPoint {
        at: window.at,
        sun: window.sun,
        straight,
        slant,
        excess: mean - window.air,
        efficiency: Uncertain { value: carried + stored, uncertainty },
        rate: moved.mass_flow.si() * heat.specific_heat / plant.area.si(),
    })
}

/// Whether the line bends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bend {
    /// Too few points or too narrow to look for it.
    NotSought,
    /// Looked for and not told from nothing: no finding.
    NotResolved,
    /// a₂, W/(m²·K²), with its standard uncertainty.
    Found(Uncertain),
}

/// The line through the points, common errors included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted {
    /// η₀ with its standard uncertainty.
    pub eta0: Uncertain,
    /// U, W/(m²·K), with its standard uncertainty.
    pub loss: Uncertain,
    /// χ² over degrees of freedom.
    pub scatter: f64,
    /// The bend.
    pub bend: Bend,
    /// Mean excess of the points, K.
    pub excess: f64,
    /// Mean capacity rate over area, W/(m²·K).
    pub rate: f64,
}

/// Fits η = η₀ − U x by weighted least squares, then adds the errors that all points share.
///
/// A χ² above its degrees of freedom widens the fit's own uncertainty by its root (what scatters more than it should is
/// known less well). A wrong sun sensor scales η and x alike: it moves η₀ and leaves U. A wrong slant is fitted once
/// more, to see by how much it tilts the line.
pub fn fit(points: &[EfficiencyPoint], doubts: Doubts) -> Fig<Fitted> {
    if points.len() < FEWEST {
        let count = points.len();
        return Err(Why::out_of_range(format_args!("{count} steady points; a line wants {FEWEST} or more")));
    }
    let reduced = || points.iter().map(EfficiencyPoint::reduced);
    let spread = reduced().fold(f64::NEG_INFINITY, f64::max) - reduced().fold(f64::INFINITY, f64::min);
    if spread < LEAST_SPREAD {
        return Err(Why::out_of_range(
            "the points lie too near together for a line: measure with a cold and a hot tank",
        ));
    }
    let plain = plain(points, 0.0);
    let line = fit_polynomial(&plain, 1, Weighting::ByUncertainty).map_err(Why::out_of_range)?;
    let slanted = self::plain(points, SLANT_DOUBT);
    let slanted = fit_polynomial(&slanted, 1, Weighting::ByUncertainty).map_err(Why::out_of_range)?;
    let tilts = |index: usize| slanted.coefficients[index] - line.coefficients[index];
    let scatter = line.sum_of_squares / line.degrees_of_freedom.max(1) as f64;
    let widened = scatter.max(1.0).sqrt();
    let own = |index: usize| line.uncertainty(index).unwrap_or(0.0) * widened;
    let (eta0, loss) = (line.coefficients[0], -line.coefficients[1]);
    let mean = |of: fn(&EfficiencyPoint) -> f64| points.iter().map(of).sum::<f64>() / points.len() as f64;
    let (sun, rate) = (mean(|point| point.straight), mean(|point| point.rate));
    let scale = doubts.flow.hypot(AREA_DOUBT).hypot(HEAT_DOUBT);
    let shift = (doubts.pair * rate / sun).hypot(loss * AIR_DOUBT / sun);
    let eta0 = Uncertain { value: eta0, uncertainty: own(0).hypot(shift).hypot(tilts(0)) };
    let loss = Uncertain { value: loss, uncertainty: own(1).hypot(tilts(1)) };
    Ok(Fitted {
        eta0: with_common_error(eta0, scale.hypot(doubts.sun).hypot(DIFFUSE_DOUBT)),
        loss: with_common_error(loss, scale),
        scatter,
        bend: bend(&plain, spread, sun),
        excess: mean(|point| point.excess),
        rate,
    })
}

/// The points as numbers, the sun taken for too strong by a share at 30° that grows with its slant.
fn plain(points: &[EfficiencyPoint], doubt: f64) -> Vec<Point> {
    let at_thirty = LEAST_COSINE.recip() - 1.0;
    let one = |point: &EfficiencyPoint| {
        let too_strong = 1.0 + doubt * point.slant / at_thirty;
        Point {
            x: point.reduced() * too_strong,
            y: point.efficiency.value * too_strong,
            uncertainty: point.efficiency.uncertainty,
        }
    };
    points.iter().map(one).collect()
}

/// a₂ from the curve through the points, x² at their mean sun.
fn bend(points: &[Point], spread: f64, sun: f64) -> Bend {
    if spread <= BEND_SPREAD || points.len() < BEND_POINTS {
        return Bend::NotSought;
    }
    let Ok(curve) = fit_polynomial(points, 2, Weighting::ByUncertainty) else { return Bend::NotResolved };
    let uncertainty = curve.uncertainty(2).unwrap_or(f64::INFINITY) / sun;
    let value = -curve.coefficients[2] / sun;
    if value.abs() > AGREES * uncertainty { Bend::Found(Uncertain { value, uncertainty }) } else { Bend::NotResolved }
}

impl Fitted {
    /// From mean to inlet temperature at the flow of the log: F_R(τα) and F_R U_L.
    ///
    /// r = 1/(1 + U/(2 C/A)), Duffie & Beckman 6.19 (from memory); exact for a straight line.
    pub fn at_inlet(&self) -> (Ratio, HeatTransfer) {
        let ratio = 1.0 / (1.0 + self.loss.value / (2.0 * self.rate));
        (Ratio::from_si(self.eta0.value * ratio), HeatTransfer::from_si(self.loss.value * ratio))
    }
}

/// The fit beside the computed line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// Computed η₀.
    pub eta0: f64,
    /// Computed U at the points' mean excess, W/(m²·K).
    pub loss: f64,
    /// z of η₀.
    pub eta0_z: f64,
    /// z of U.
    pub loss_z: f64,
    /// Measured over computed η₀/U: above 1 the plate stands hotter than computed.
    pub hotter: f64,
}

/// Holds a fit against a curve.
pub fn compare(fitted: &Fitted, curve: &CollectorCurve) -> Fig<Compared> {
    let loss = curve.a1.si() + curve.a2 * fitted.excess.max(0.0);
    let z = |measured: Uncertain, value: f64, uncertainty: f64| {
        let comparison = Comparison { measured, predicted: Uncertain { value, uncertainty } };
        comparison.z().map_err(Why::out_of_range)
    };
    if fitted.loss.value <= 0.0 {
        return Err(Why::out_of_range("the fitted line rises: a sensor or a column is wrong"));
    }
    Ok(Compared {
        eta0: curve.eta0,
        loss,
        eta0_z: z(fitted.eta0, curve.eta0, PREDICTED_DOUBT.0)?,
        loss_z: z(fitted.loss, loss, PREDICTED_DOUBT.1)?,
        hotter: fitted.eta0.value / fitted.loss.value / (curve.eta0 / loss),
    })
}

impl Compared {
    /// Whether both numbers agree.
    pub fn agrees(&self) -> bool {
        self.eta0_z.abs() <= AGREES && self.loss_z.abs() <= AGREES
    }

    /// The comparison as a sentence.
    pub fn sentence(&self, fitted: &Fitted) -> String {
        let told = |what: &str, z: f64, measured: f64, computed: f64| {
            let side = if z < 0.0 { "lower" } else { "higher" };
            if z.abs() <= AGREES {
                format!("{what} agrees with what was computed (z {z:.1})")
            } else {
                format!("{what} is {:.0} % {side} than computed (z {z:.1})", 100.0 * (measured / computed - 1.0).abs())
            }
        };
        let gain = told("the gain", self.eta0_z, fitted.eta0.value, self.eta0);
        let loss = told("the loss", self.loss_z, fitted.loss.value, self.loss);
        format!("{gain}; {loss}")
    }

    /// The likely causes, the easiest to look at first.
    pub fn causes(&self) -> &'static str {
        let side = |z: f64| {
            if z.abs() <= AGREES {
                0
            } else if z < 0.0 {
                -1
            } else {
                1
            }
        };
        match (side(self.eta0_z), side(self.loss_z)) {
            (0, 0) => "none: measured and computed agree",
            (-1, 0) => "dirty glass; shade; flow lower than logged; sun sensor reads high; bond of the sheet; paint",
            (0, 1) => "wet insulation; gap or air leak in the box; more wind than was taken; outlet sensor off",
            (-1, 1) => "pair of sensors: swap inlet and outlet and look again; then glass, bond, wet insulation",
            (1, 0) => "sun sensor dirty, tilted or shaded: it reads low; flow meter reads high; area too small",
            (0, -1) => "less wind than was taken; air sensor in the sun; outlet sensor off",
            _ => "pair of sensors or flow meter: hold both against bucket and bath before anything else",
        }
    }
}

/// Field power check in the manner of ISO 24194.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerCheck {
    /// Hours that count.
    pub hours: usize,
    /// Measured over promised heat; none without an hour.
    pub ratio: Option<f64>,
}

/// Sum of measured over sum of promised power, Q = A (η₀ G − a₁ ΔT − a₂ ΔT²) × factor, over the hours that count.
///
/// Hours with G ≥ 800 W/m², air ≥ 5 °C, wind ≤ 10 m/s where it is logged, incidence ≤ 30°, drift ≤ 5 K/h (from memory).
pub fn power(log: &Log, plant: &Plant, curve: &CollectorCurve, factor: Ratio) -> Fig<PowerCheck> {
    let counts = |hour: &&HourLog| {
        hour.sun >= POWER_SUN
            && hour.air >= POWER_AIR
            && hour.wind.is_none_or(|wind| wind <= POWER_WIND)
            && hour.drift.abs() <= POWER_DRIFT
    };
    let (mut hours, mut measured, mut promised) = (0, 0.0, 0.0);
    for hour in log.hours.iter().filter(counts) {
        let Some(slant) = slant(plant, hour.at) else { continue };
        let mean = celsius(0.5 * (hour.inlet + hour.outlet));
        let weather = Weather {
            irradiance: HeatFluxDensity::from_si(straightened(plant, hour.at, hour.sun, slant)),
            air: celsius(hour.air),
        };
        let flux = curve.power(weather, mean).map_err(Why::out_of_range)?;
        hours += 1;
        let inlet = celsius(hour.inlet);
        measured += hour.heat * plant.liquid.density(inlet).si() * plant.liquid.specific_heat(mean).si();
        promised += plant.area.si() * flux.si() * factor.si();
    }
    Ok(PowerCheck { hours, ratio: (promised > 0.0).then(|| measured / promised) })
}
