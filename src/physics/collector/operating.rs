//! A collector with liquid flowing through it: the steady operating point and every temperature in it.
//!
//! No flow is `stagnation`'s subject; the share of each riser `harp`'s.

use super::check::not_settled;
use super::{Collector, CollectorError, Losses, Stream, Surroundings};
use crate::physics::convection::GapConvection;
use crate::physics::domain::{not_negative, within};
use crate::physics::fin::{fin_efficiency, flow_factor};
use crate::physics::fluid::{Fluid, Properties};
use crate::physics::loss::Outside;
use crate::physics::optics::{Caught, Sunlight};
use crate::physics::tube::{TubeFlow, nusselt};
use crate::units::si::{Dimension, HeatFluxDensity, HeatTransfer, MassRate, Power, Temperature, Velocity};
use std::f64::consts::PI;

/// Most passes of the iteration; ordinary collectors need about a dozen.
const MOST_PASSES: usize = 300;
/// The iteration ends when plate and liquid move less than this, K.
const STEADY: f64 = 1e-9;

/// The conditions of an operating point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operating {
    /// Sun on the plane of the collector.
    pub sun: Sunlight,
    /// Air temperature T_a.
    pub ambient: Temperature,
    /// Effective sky temperature T_s.
    pub sky: Temperature,
    /// Wind at the collector.
    pub wind: Velocity,
    /// Liquid at the inlet T_i.
    pub inlet: Temperature,
    /// Flow through the whole collector ṁ, above zero.
    pub mass_flow: MassRate,
    /// The liquid.
    pub fluid: Fluid,
}

/// Whether the mean liquid lies in the range of its property data.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LiquidState {
    /// Inside the data. Whether it boils depends on the loop's pressure and is not asked here.
    Known,
    /// Below its freezing point: the properties are those at the freezing point, the liquid would be ice.
    BelowFreezing,
    /// Above 120 °C (water) or 100 °C (glycol), [`Fluid::data_limit`]: the properties are those at that limit.
    AboveData,
}

/// The steady state of a collector with flow. Areas are absorber area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OperatingPoint {
    /// The conditions it was solved for.
    pub conditions: Operating,
    /// Absorbed sun S, the extra loss to a cold sky subtracted.
    pub absorbed: HeatFluxDensity,
    /// That extra loss.
    pub sky_offset: HeatFluxDensity,
    /// h_w.
    pub wind_coefficient: HeatTransfer,
    /// U_t.
    pub top_loss: HeatTransfer,
    /// U_b.
    pub back_loss: HeatTransfer,
    /// U_e.
    pub edge_loss: HeatTransfer,
    /// U_L = U_t + U_b + U_e at the mean plate temperature.
    pub total_loss: HeatTransfer,
    /// Mean temperature of the cover T_c, if there is one.
    pub cover: Option<Temperature>,
    /// Convection in the gap, if there is one.
    pub gap: Option<GapConvection>,
    /// Radiation coefficient from plate to cover.
    pub plate_to_cover_radiation: Option<HeatTransfer>,
    /// Radiation coefficient from the outermost face to the sky.
    pub outer_radiation: HeatTransfer,
    /// Fin parameter m, 1/m.
    pub fin_parameter: f64,
    /// F of the fin between two risers (of the edge fin when there is one riser).
    pub fin_efficiency: f64,
    /// F′.
    pub efficiency_factor: f64,
    /// F″.
    pub flow_factor: f64,
    /// F_R = F′F″.
    pub heat_removal_factor: f64,
    /// Useful heat Q.
    pub useful_power: Power,
    /// Q over sun on the absorber area; `None` without sun.
    pub efficiency: Option<f64>,
    /// Liquid at the outlet.
    pub outlet: Temperature,
    /// Mean of the liquid along the risers.
    pub mean_fluid: Temperature,
    /// Mean of the plate.
    pub mean_plate: Temperature,
    /// Sheet at the riser, at the outlet end.
    pub root_at_outlet: Temperature,
    /// Sheet half-way between two risers, at the outlet end.
    pub middle_at_outlet: Temperature,
    /// Re in a riser at equal flows.
    pub reynolds: f64,
    /// Nu in a riser.
    pub nusselt: f64,
    /// h from tube to liquid.
    pub tube_coefficient: HeatTransfer,
    /// Share of the tube's inner surface that works; 1 unless the wall is taken as a fin.
    pub tube_wall_effectiveness: f64,
    /// Properties at the mean liquid temperature.
    pub properties: Properties,
    /// Whether those lie in the range of the data.
    pub liquid: LiquidState,
}

impl OperatingPoint {
    /// Gain F_R(τα) = F_R S/G of the straight line Q/A = F_R(τα) G − F_R U_L (T_i − T_a); `None` without sun.
    ///
    /// At this point's flow, incidence and loss, on absorber area (Duffie & Beckman 6.16, from memory).
    pub fn optical_gain(&self) -> Option<f64> {
        let sun = self.conditions.sun.total();
        (sun.si() > 0.0).then(|| self.heat_removal_factor * self.absorbed.si() / sun.si())
    }

    /// Loss F_R U_L of the same line. U_L is that of this point's plate: it grows as the plate warms.
    pub fn inlet_loss(&self) -> HeatTransfer {
        self.total_loss * self.heat_removal_factor
    }
}

/// What is known of the liquid's temperature before the solution, K.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Known {
    /// At the inlet.
    Inlet(f64),
    /// Half the sum of inlet and outlet.
    Middle(f64),
}

/// The inside of one riser.
pub(super) struct TubeSide {
    pub(super) reynolds: f64,
    pub(super) nusselt: f64,
    /// W/(m²·K).
    pub(super) coefficient: f64,
    pub(super) effectiveness: f64,
    /// From the fin's root to the liquid, m·K/W.
    pub(super) root: f64,
}

/// The equations of an operating point with all that stays constant in them.
struct Balance<'a> {
    collector: &'a Collector,
    outside: Outside,
    caught: Caught,
    mass_flow: f64,
    fluid: Fluid,
    known: Known,
    area: f64,
}

/// One pass of the iteration, SI.
struct Pass {
    losses: Losses,
    absorbed: f64,
    tube: TubeSide,
    properties: Properties,
    efficiency_factor: f64,
    flow_factor: f64,
    inlet: f64,
    /// Useful heat per area, W/m².
    useful: f64,
    fluid: f64,
    plate: f64,
}

impl Collector {
    /// The steady operating point: one mean plate and one mean liquid temperature, iterated.
    ///
    /// Q = A F_R \[S − U_L (T_i − T_a)\], F_R = F′F″, T_f = T_i + q (1 − F″)/(F_R U_L), T_p = T_i + q (1 − F_R)/(F_R
    /// U_L), q = Q/A; S, U_L at T_p, liquid at T_f, until both move less than 1e-9 K. Hottel, Whillier and Bliss as in
    /// Duffie & Beckman ch. 6 (from memory). Equal flow in all risers; reversed heat flow (a night) is allowed.
    /// Impossible sizes and conditions are refused by name.
    pub fn operate(&self, conditions: &Operating) -> Result<OperatingPoint, CollectorError> {
        within("inlet", conditions.inlet.si(), 200.0, 500.0)?;
        self.solve(conditions, Known::Inlet(conditions.inlet.si()))
    }

    /// The same with the inlet unknown and the middle of inlet and outlet given; the inlet in `conditions` is replaced.
    pub(super) fn solve(&self, conditions: &Operating, known: Known) -> Result<OperatingPoint, CollectorError> {
        let Operating { sun, ambient, sky, wind, mass_flow, fluid, .. } = *conditions;
        self.check()?;
        let surroundings = Surroundings { ambient, sky, wind };
        surroundings.check()?;
        Stream { fluid, mass_flow }.check()?;
        not_negative("beam", sun.beam.si())?;
        not_negative("sky_diffuse", sun.sky_diffuse.si())?;
        not_negative("ground_reflected", sun.ground_reflected.si())?;
        within("incidence", sun.incidence.si(), -PI, PI)?;
        let balance = Balance {
            collector: self,
            outside: self.outside(surroundings),
            caught: self.optics().catch(&sun, self.tilt),
            mass_flow: mass_flow.si(),
            fluid,
            known,
            area: self.absorber_area().si(),
        };
        let pass = balance.settle()?;
        Ok(balance.report(&pass, conditions))
    }

    /// Heat transfer inside a riser that carries `riser_flow` kg/s.
    pub(super) fn tube_side(&self, properties: &Properties, riser_flow: f64) -> TubeSide {
        let bore = self.riser_bore.si();
        let flow = TubeFlow {
            reynolds: 4.0 * riser_flow / (PI * bore * properties.viscosity),
            prandtl: properties.prandtl(),
            bore_over_length: bore / self.riser_length.si(),
        };
        let nusselt = nusselt(flow);
        let coefficient = nusselt * properties.conductivity / bore;
        let effectiveness = self.tube_wall().map_or(1.0, |wall| wall.effectiveness(coefficient));
        let root = self.bond_conductance().si().recip() + (PI * bore * coefficient * effectiveness).recip();
        TubeSide { reynolds: flow.reynolds, nusselt, coefficient, effectiveness, root }
    }
}

/// Brings a temperature in kelvin into the range of the liquid's data and says whether it lay there.
pub(super) fn known_range(fluid: Fluid, kelvin: f64) -> (f64, LiquidState) {
    let freezing = fluid.freezing_point().si();
    let hottest = fluid.data_limit().si();
    if kelvin < freezing {
        (freezing, LiquidState::BelowFreezing)
    } else if kelvin > hottest {
        (hottest, LiquidState::AboveData)
    } else {
        (kelvin, LiquidState::Known)
    }
}

impl Balance<'_> {
    fn settle(&self) -> Result<Pass, CollectorError> {
        let (Known::Inlet(start) | Known::Middle(start)) = self.known;
        let (mut fluid, mut plate) = (start, start);
        let mut moved = f64::INFINITY;
        for _ in 0..MOST_PASSES {
            let pass = self.pass(fluid, plate).ok_or(not_settled("cover temperature", f64::NAN))?;
            // A sum, since the larger of a number and not-a-number would be the number.
            moved = (pass.fluid - fluid).abs() + (pass.plate - plate).abs();
            if moved < STEADY {
                return Ok(pass);
            }
            (fluid, plate) = (pass.fluid, pass.plate);
        }
        Err(not_settled("plate temperature", moved))
    }

    fn pass(&self, fluid: f64, plate: f64) -> Option<Pass> {
        let losses = self.collector.losses(plate, &self.outside)?;
        let loss = losses.total();
        let absorbed = losses.absorbed(&self.caught);
        let properties = self.fluid.properties_at(known_range(self.fluid, fluid).0);
        let tube = self.collector.tube_side(&properties, self.mass_flow / self.collector.riser_count as f64);
        let efficiency_factor = self.collector.efficiency_factor(loss, tube.root);
        let capacity_rate = self.mass_flow * properties.specific_heat;
        let flow_factor = flow_factor(capacity_rate / (self.area * loss * efficiency_factor));
        let removal = efficiency_factor * flow_factor;
        let ambient = self.outside.ambient;
        let inlet = match self.known {
            Known::Inlet(inlet) => inlet,
            Known::Middle(middle) => {
                let half_rise = 0.5 * self.area * removal / capacity_rate;
                (middle - half_rise * (absorbed + loss * ambient)) / (1.0 - half_rise * loss)
            }
        };
        let useful = removal * (absorbed - loss * (inlet - ambient));
        let over = useful / (removal * loss);
        Some(Pass {
            losses,
            absorbed,
            tube,
            properties,
            efficiency_factor,
            flow_factor,
            inlet,
            useful,
            fluid: inlet + over * (1.0 - flow_factor),
            plate: inlet + over * (1.0 - removal),
        })
    }

    fn report(&self, pass: &Pass, conditions: &Operating) -> OperatingPoint {
        let top = pass.losses.top;
        let loss = pass.losses.total();
        let power = self.area * pass.useful;
        let outlet = pass.inlet + power / (self.mass_flow * pass.properties.specific_heat);
        let strip = self.collector.strip(usize::from(self.collector.riser_count > 1));
        let free = strip.fins[0];
        let fin_parameter = self.collector.sheet().parameter(loss);
        let no_gain = self.outside.ambient + pass.absorbed / loss;
        let factor = strip.efficiency_factor(&self.collector.sheet(), loss, pass.tube.root);
        let root = outlet + strip.width() * factor * loss * (no_gain - outlet) * pass.tube.root;
        let middle = no_gain + (root - no_gain) / (fin_parameter * free).cosh();
        let sun = conditions.sun.total().si();
        OperatingPoint {
            conditions: Operating { inlet: Temperature::from_si(pass.inlet), ..*conditions },
            absorbed: HeatFluxDensity::from_si(pass.absorbed),
            sky_offset: HeatFluxDensity::from_si(top.sky_offset),
            wind_coefficient: HeatTransfer::from_si(self.outside.wind_coefficient),
            top_loss: HeatTransfer::from_si(top.coefficient),
            back_loss: HeatTransfer::from_si(pass.losses.back),
            edge_loss: HeatTransfer::from_si(pass.losses.edge),
            total_loss: HeatTransfer::from_si(loss),
            cover: top.cover.map(|cover| Temperature::from_si(cover.temperature)),
            gap: top.cover.map(|cover| cover.gap),
            plate_to_cover_radiation: top.cover.map(|cover| HeatTransfer::from_si(cover.inner_radiation)),
            outer_radiation: HeatTransfer::from_si(top.outer_radiation),
            fin_parameter,
            fin_efficiency: fin_efficiency(fin_parameter * free),
            efficiency_factor: pass.efficiency_factor,
            flow_factor: pass.flow_factor,
            heat_removal_factor: pass.efficiency_factor * pass.flow_factor,
            useful_power: Power::from_si(power),
            efficiency: (sun > 0.0).then(|| pass.useful / sun).filter(|share| share.is_finite()),
            outlet: Temperature::from_si(outlet),
            mean_fluid: Temperature::from_si(pass.fluid),
            mean_plate: Temperature::from_si(pass.plate),
            root_at_outlet: Temperature::from_si(root),
            middle_at_outlet: Temperature::from_si(middle),
            reynolds: pass.tube.reynolds,
            nusselt: pass.tube.nusselt,
            tube_coefficient: HeatTransfer::from_si(pass.tube.coefficient),
            tube_wall_effectiveness: pass.tube.effectiveness,
            properties: pass.properties,
            liquid: known_range(self.fluid, pass.fluid).1,
        }
    }
}
