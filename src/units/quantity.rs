//! A number with the kind of quantity it is: what passes between text, declared entries and figures.
//!
//! Typed quantities ([`super::si`]) compute; a [`Quantity`] is how the same number travels through tables that
//! hold every kind.

use super::si::{self, Dimension};

/// What sort of quantity a number is. Decides the units that may be typed and the ones that are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Length, m.
    Length,
    /// Area, m².
    Area,
    /// Volume, m³.
    Volume,
    /// Mass, kg.
    Mass,
    /// Absolute temperature, K.
    Temperature,
    /// Difference of two temperatures, K.
    TemperatureDifference,
    /// Pressure above the atmosphere, or a pressure drop, Pa.
    Pressure,
    /// Volume flow, m³/s.
    Flow,
    /// Volume flow per collector area, m/s.
    FlowPerArea,
    /// Mass flow, kg/s.
    MassFlow,
    /// Speed of wind or water, m/s.
    Speed,
    /// Power, W.
    Power,
    /// Heat or work, J.
    Energy,
    /// Irradiation, J/m².
    Irradiation,
    /// Irradiance, W/m².
    Irradiance,
    /// Heat loss coefficient, W/(m²·K).
    LossCoefficient,
    /// Change of a loss coefficient with temperature, W/(m²·K²).
    LossSlope,
    /// Heat loss of a whole part, W/K.
    Conductance,
    /// Conductance of a bond or a pipe per metre of run, W/(m·K).
    LineConductance,
    /// Thermal conductivity of a material, W/(m·K).
    Conductivity,
    /// Thermal resistance of an area, m²·K/W.
    Insulance,
    /// Heat capacity of a whole part, J/K.
    HeatCapacity,
    /// Density, kg/m³.
    Density,
    /// Angle, rad. A slope such as `4/12` may be typed for it.
    Angle,
    /// Time, s.
    Time,
    /// Force, N.
    Force,
    /// Electrical resistance, Ω.
    Resistance,
    /// Absorption per path length, 1/m.
    Extinction,
    /// Area that a volume of paint covers, m²/m³.
    Coverage,
    /// Pure number shown as it is.
    Number,
    /// Fraction of one shown in percent.
    Percent,
    /// Whole number of things.
    Count,
}

impl Kind {
    /// Every kind, in the order of declaration.
    pub const ALL: [Self; 32] = [
        Self::Length,
        Self::Area,
        Self::Volume,
        Self::Mass,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Pressure,
        Self::Flow,
        Self::FlowPerArea,
        Self::MassFlow,
        Self::Speed,
        Self::Power,
        Self::Energy,
        Self::Irradiation,
        Self::Irradiance,
        Self::LossCoefficient,
        Self::LossSlope,
        Self::Conductance,
        Self::LineConductance,
        Self::Conductivity,
        Self::Insulance,
        Self::HeatCapacity,
        Self::Density,
        Self::Angle,
        Self::Time,
        Self::Force,
        Self::Resistance,
        Self::Extinction,
        Self::Coverage,
        Self::Number,
        Self::Percent,
        Self::Count,
    ];

    /// The SI unit that `si` of a quantity is given in.
    pub const fn si_unit(self) -> &'static str {
        match self {
            Self::Length => "m",
            Self::Area => "m²",
            Self::Volume => "m³",
            Self::Mass => "kg",
            Self::Temperature | Self::TemperatureDifference => "K",
            Self::Pressure => "Pa",
            Self::Flow => "m³/s",
            Self::FlowPerArea | Self::Speed => "m/s",
            Self::MassFlow => "kg/s",
            Self::Power => "W",
            Self::Energy => "J",
            Self::Irradiation => "J/m²",
            Self::Irradiance => "W/m²",
            Self::LossCoefficient => "W/(m²·K)",
            Self::LossSlope => "W/(m²·K²)",
            Self::Conductance => "W/K",
            Self::LineConductance | Self::Conductivity => "W/(m·K)",
            Self::Insulance => "m²·K/W",
            Self::HeatCapacity => "J/K",
            Self::Density => "kg/m³",
            Self::Angle => "rad",
            Self::Time => "s",
            Self::Force => "N",
            Self::Resistance => "Ω",
            Self::Extinction => "1/m",
            Self::Coverage => "m²/m³",
            Self::Number | Self::Percent | Self::Count => "1",
        }
    }
}

/// A number in SI base units together with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// What the number is.
    pub kind: Kind,
    /// The number in SI base units.
    pub si: f64,
}

/// The two families of units that results are printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum System {
    /// Metres, litres, bar, °C.
    #[default]
    Si,
    /// Inches, gallons, psi, °F.
    Us,
}

impl Quantity {
    /// Makes a quantity of `kind` from a number in SI base units.
    pub const fn new(kind: Kind, si: f64) -> Self {
        Self { kind, si }
    }

    /// A pure number.
    pub const fn number(value: f64) -> Self {
        Self::new(Kind::Number, value)
    }

    /// A fraction of one, printed in percent.
    pub const fn percent(fraction: f64) -> Self {
        Self::new(Kind::Percent, fraction)
    }

    /// A count of things.
    pub fn count(value: usize) -> Self {
        Self::new(Kind::Count, value as f64)
    }

    /// Opens the quantity as a typed one.
    ///
    /// The caller names the type; the declared kind of an entry and its type are checked against each other by
    /// a test over the whole table.
    pub fn typed<D: Dimension>(self) -> D {
        D::from_si(self.si)
    }
}

/// A typed quantity whose kind is known from its type alone.
pub trait HasKind: Dimension {
    /// The kind of this type.
    const KIND: Kind;

    /// Closes the typed quantity into a [`Quantity`].
    fn quantity(self) -> Quantity {
        Quantity::new(Self::KIND, self.si())
    }
}

macro_rules! kinds {
    ($($type:ty => $kind:ident),+ $(,)?) => {
        $(impl HasKind for $type {
            const KIND: Kind = Kind::$kind;
        }

        impl From<$type> for Quantity {
            fn from(value: $type) -> Self {
                value.quantity()
            }
        })+
    };
}

// A table of type and kind: the orphan rule asks for one impl a type, so the table is a macro call.
kinds! {
    si::Length => Length,
    si::Area => Area,
    si::Volume => Volume,
    si::Mass => Mass,
    si::Temperature => Temperature,
    si::TemperatureInterval => TemperatureDifference,
    si::Pressure => Pressure,
    si::VolumeRate => Flow,
    si::MassRate => MassFlow,
    si::Velocity => Speed,
    si::Power => Power,
    si::Energy => Energy,
    si::RadiantExposure => Irradiation,
    si::HeatFluxDensity => Irradiance,
    si::HeatTransfer => LossCoefficient,
    si::ThermalConductance => Conductance,
    si::LineConductance => LineConductance,
    si::ThermalConductivity => Conductivity,
    si::Insulance => Insulance,
    si::HeatCapacity => HeatCapacity,
    si::MassDensity => Density,
    si::Angle => Angle,
    si::Time => Time,
    si::Force => Force,
    si::ElectricalResistance => Resistance,
    si::Ratio => Number,
}
