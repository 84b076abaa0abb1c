//! A flat-plate collector as it is designed: sizes, materials, box; what is admitted and what follows at once.
//!
//! The balances live below it: `operating` (with flow), `stagnation` (without), `curve`, `capacity`, `harp`. Judging
//! the design does not live here.

mod capacity;
mod check;
mod curve;
mod harp;
mod operating;
mod stagnation;

pub use capacity::HeatCapacities;
pub use curve::{CurvePoint, EfficiencyCurve};
pub use harp::{HarpFlows, Regime};
pub use operating::{LiquidState, Operating, OperatingPoint};
pub use stagnation::{Exposure, Stagnation};

use super::convection::{AirGap, WindLaw, air_pressure};
use super::domain::DomainError;
use super::fin::{BondLine, Sheet, Strip, TubeWall};
use super::fluid::Fluid;
use super::loss::{self, Glazing, KleinInput, Outside, TopLoss, Wall};
use super::optics::{Caught, IncidenceModifier, Pane, PlateOptics};
use crate::units::si::{
    Angle, Area, Dimension, HeatTransfer, Insulance, Length, LineConductance, MassDensity, MassRate, Ratio,
    SpecificHeatCapacity, Temperature, ThermalConductivity, Velocity,
};
use thiserror::Error;

/// A collector or a condition that cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum CollectorError {
    /// One number by itself is impossible, or a balance did not settle.
    #[error(transparent)]
    Domain(#[from] DomainError),
    /// Two sizes contradict each other.
    #[error("{field} must be {relation}")]
    Contradiction {
        /// The field that must change.
        field: &'static str,
        /// What it must be.
        relation: &'static str,
    },
}

/// How the headers are connected.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Connection {
    /// In at one lower corner, out at the opposite upper corner: both headers flow the same way.
    Diagonal,
    /// In and out at the same side: the headers flow opposite ways.
    SameSide,
}

/// The harp's pressure losses beside wall friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HarpFittings {
    /// How the headers are connected.
    pub connection: Connection,
    /// Loss coefficient K of one riser with its two tees, on the riser's velocity head.
    pub riser_loss: f64,
    /// Momentum factor of the dividing header; theory 1 (Bernoulli), not verified.
    pub dividing_momentum: f64,
    /// Momentum factor of the combining header; theory 2 (full mixing), not verified.
    pub combining_momentum: f64,
}

/// The line that holds the sheet to a riser.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bond {
    /// Conductivity of the filler.
    pub conductivity: ThermalConductivity,
    /// Width of the line.
    pub width: Length,
    /// Mean thickness of the filler.
    pub thickness: Length,
    /// Share of the riser's length that is bonded, above 0 to 1.
    pub soldered_fraction: Ratio,
}

impl Bond {
    /// Conductance of the solder line `C_b` = k b φ/γ.
    pub fn conductance(&self) -> LineConductance {
        let line = BondLine {
            conductivity: self.conductivity.si(),
            width: self.width.si(),
            thickness: self.thickness.si(),
            contact: self.soldered_fraction.si(),
        };
        LineConductance(line.conductance())
    }
}

/// A transparent cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// Refractive index; glass 1.526.
    pub refractive_index: f64,
    /// Extinction of sunlight, 1/m.
    pub extinction: f64,
    /// Thickness of the pane.
    pub thickness: Length,
    /// Long-wave emittance; glass about 0.88.
    pub emittance: Ratio,
    /// Air gap between plate and pane.
    pub gap: Length,
}

/// A layer of insulation with a board outside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Insulation {
    /// Thickness; zero for none.
    pub thickness: Length,
    /// Conductivity at 10 °C mean.
    pub conductivity_at_ten: ThermalConductivity,
    /// Growth of the conductivity with temperature, 1/K.
    pub temperature_factor: f64,
    /// Thickness of the board; zero for none.
    pub board_thickness: Length,
    /// Conductivity of the board.
    pub board_conductivity: ThermalConductivity,
    /// Resistance between the outer face and the air.
    pub outside_resistance: Insulance,
}

/// Density and specific heat of a material, for the heat capacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// ρ.
    pub density: MassDensity,
    /// c.
    pub specific_heat: SpecificHeatCapacity,
}

/// The materials whose heat capacity counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Materials {
    /// Absorber sheet.
    pub sheet: Material,
    /// Risers and headers.
    pub tube: Material,
    /// Insulation of back and edge.
    pub insulation: Material,
    /// Cover.
    pub glass: Material,
}

/// The design of one flat-plate collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Collector {
    /// Number of risers n.
    pub riser_count: usize,
    /// Distance between riser axes W.
    pub riser_pitch: Length,
    /// Length of a riser that carries sheet L.
    pub riser_length: Length,
    /// Outer diameter of the risers D.
    pub riser_outer_diameter: Length,
    /// Bore of the risers `D_i`.
    pub riser_bore: Length,
    /// Outer diameter of the headers.
    pub header_outer_diameter: Length,
    /// Bore of the headers.
    pub header_bore: Length,
    /// Length of one header, stubs included.
    pub header_length: Length,
    /// Conductivity of the tube wall.
    pub tube_conductivity: ThermalConductivity,
    /// Whether the tube wall is taken as a fin fed along the bond; else it is taken as isothermal.
    pub tube_wall_as_fin: bool,
    /// Thickness of the sheet δ.
    pub sheet_thickness: Length,
    /// Conductivity of the sheet k.
    pub sheet_conductivity: ThermalConductivity,
    /// Width of sheet held at tube temperature B: the bond's width for a flat sheet lying on a round tube, the tube's
    /// outer diameter for a grooved sheet.
    pub fin_base: Length,
    /// Width of sheet from the axis of an outermost riser to the edge; half a pitch in an even layout.
    pub edge_width: Length,
    /// The solder line.
    pub bond: Bond,
    /// Solar absorptance at normal incidence `α_n`.
    pub absorptance: Ratio,
    /// Long-wave emittance of the plate `ε_p`.
    pub emittance: Ratio,
    /// The cover, or none.
    pub cover: Option<Cover>,
    /// Behind the plate.
    pub back: Insulation,
    /// Around it.
    pub edge: Insulation,
    /// Height of the edge that loses heat.
    pub edge_height: Length,
    /// Tilt from the horizontal.
    pub tilt: Angle,
    /// Height above the sea.
    pub altitude: Length,
    /// Law for the wind on the outer face.
    pub wind_law: WindLaw,
    /// Outside area of the whole collector.
    pub gross_area: Area,
    /// Connection and losses of the harp.
    pub harp: HarpFittings,
    /// For the heat capacity.
    pub materials: Materials,
}

/// Loss coefficients at one plate temperature, per area of absorber.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Losses {
    /// Through the top.
    top: TopLoss,
    /// Through the back U_b, W/(m²·K).
    back: f64,
    /// Through the edge U_e, W/(m²·K).
    edge: f64,
}

impl Losses {
    /// U_L, W/(m²·K).
    fn total(&self) -> f64 {
        self.top.coefficient + self.back + self.edge
    }

    /// Absorbed sun S = Σ G \[(τα) + (1 − τ_a) U_t/(h_w + h_o)\] − sky offset, W/m².
    fn absorbed(&self, caught: &Caught) -> f64 {
        caught.plate + caught.pane * self.top.kept_from_cover - self.top.sky_offset
    }
}

impl Collector {
    /// Width of the sheet across the risers.
    pub fn sheet_width(&self) -> Length {
        self.riser_pitch * (self.riser_count as f64 - 1.0) + self.edge_width * 2.0
    }

    /// Area of the absorber A = sheet width × L; the base of every figure except where gross is said.
    pub fn absorber_area(&self) -> Area {
        self.sheet_width() * self.riser_length
    }

    /// Absorber area over gross area: times this, η₀, a₁ and a₂ are on gross area.
    pub fn gross_ratio(&self) -> f64 {
        self.absorber_area().si() / self.gross_area.si()
    }

    /// Conductance of the solder line, see [`Bond::conductance`].
    pub fn bond_conductance(&self) -> LineConductance {
        self.bond.conductance()
    }

    /// (τα) at an angle of incidence, see [`PlateOptics::product`].
    pub fn transmittance_absorptance(&self, incidence: Angle) -> f64 {
        self.optics().product(incidence)
    }

    /// How (τα) changes with the direction of the light.
    pub fn incidence_modifier(&self) -> IncidenceModifier {
        self.optics().incidence_modifier(self.tilt)
    }

    /// Top loss by Klein's explicit formula, a cross-check of [`loss::glazed`]; `None` without cover or where the plate
    /// is no warmer than the air.
    pub fn top_loss_by_klein(&self, plate: Temperature, ambient: Temperature, wind: Velocity) -> Option<HeatTransfer> {
        let cover = self.cover?;
        let input = KleinInput {
            plate: plate.si(),
            ambient: ambient.si(),
            wind_coefficient: self.wind_law.coefficient(wind).si(),
            plate_emittance: self.emittance.si(),
            cover_emittance: cover.emittance.si(),
            tilt: self.tilt.si(),
        };
        loss::klein(&input).map(HeatTransfer::from_si)
    }

    /// Plate and pane for sunlight.
    pub fn optics(&self) -> PlateOptics {
        let pane = self.cover.map(|cover| Pane {
            refractive_index: cover.refractive_index,
            optical_depth: cover.extinction * cover.thickness.si(),
        });
        PlateOptics { absorptance: self.absorptance.si(), pane }
    }

    fn sheet(&self) -> Sheet {
        Sheet { conductivity: self.sheet_conductivity.si(), thickness: self.sheet_thickness.si() }
    }

    /// The strip of sheet that riser `index` serves, counted from 0.
    fn strip(&self, index: usize) -> Strip {
        let base = self.fin_base.si();
        let half = 0.5 * (self.riser_pitch.si() - base);
        let edge = self.edge_width.si() - 0.5 * base;
        let fins = [if index == 0 { edge } else { half }, if index + 1 == self.riser_count { edge } else { half }];
        Strip { base, fins }
    }

    /// Efficiency factor F′ of the whole absorber, its strips weighed by their width; `loss` U_L in W/(m²·K), `root` in
    /// m·K/W.
    fn efficiency_factor(&self, loss: f64, root: f64) -> f64 {
        let sheet = self.sheet();
        let weighed = |strip: Strip| strip.width() * strip.efficiency_factor(&sheet, loss, root);
        let (edges, inner) = if self.riser_count == 1 { (1.0, 0.0) } else { (2.0, self.riser_count as f64 - 2.0) };
        let inner = if inner > 0.0 { inner * weighed(self.strip(1)) } else { 0.0 };
        (edges * weighed(self.strip(0)) + inner) / self.sheet_width().si()
    }

    fn tube_wall(&self) -> Option<TubeWall> {
        self.tube_wall_as_fin.then(|| TubeWall {
            outer_diameter: self.riser_outer_diameter.si(),
            bore: self.riser_bore.si(),
            conductivity: self.tube_conductivity.si(),
            bond_width: self.bond.width.si(),
        })
    }

    fn outside(&self, conditions: Surroundings) -> Outside {
        Outside {
            ambient: conditions.ambient.si(),
            sky: conditions.sky.si(),
            wind_coefficient: self.wind_law.coefficient(conditions.wind).si(),
        }
    }

    /// Losses at a plate temperature in kelvin; `None` when the cover has no balance.
    fn losses(&self, plate: f64, outside: &Outside) -> Option<Losses> {
        let emittance = self.emittance.si();
        let top = match self.cover {
            None => loss::unglazed(plate, emittance, outside),
            Some(cover) => {
                let gap = AirGap {
                    thickness: cover.gap.si(),
                    tilt: self.tilt.si(),
                    pressure: air_pressure(self.altitude).si(),
                };
                let cover_emittance = cover.emittance.si();
                loss::glazed(plate, &Glazing { plate_emittance: emittance, cover_emittance, gap }, outside)?
            }
        };
        let edge_area = 2.0 * (self.sheet_width().si() + self.riser_length.si()) * self.edge_height.si();
        let edge = self.edge.wall().coefficient(plate, outside.ambient);
        Some(Losses {
            top,
            back: self.back.wall().coefficient(plate, outside.ambient),
            edge: edge * edge_area / self.absorber_area().si(),
        })
    }
}

impl Insulation {
    fn wall(&self) -> Wall {
        let board = self.board_thickness.si();
        Wall {
            thickness: self.thickness.si(),
            conductivity_at_ten: self.conductivity_at_ten.si(),
            temperature_factor: self.temperature_factor,
            board_resistance: if board > 0.0 { board / self.board_conductivity.si() } else { 0.0 },
            outside_resistance: self.outside_resistance.si(),
        }
    }
}

/// Air, sky and wind around a collector.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Surroundings {
    /// Air temperature.
    ambient: Temperature,
    /// Effective sky temperature.
    sky: Temperature,
    /// Wind at the collector.
    wind: Velocity,
}

/// A liquid and how much of it flows.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stream {
    /// The liquid.
    fluid: Fluid,
    /// Flow through the whole collector.
    mass_flow: MassRate,
}

#[cfg(test)]
pub(super) mod laws;
