//! Rows of the unit table: temperatures, heat, radiation, insulation and electrical resistance.
//!
//! Every Btu is the international table Btu, 1055.05585262 J; a therm is 100 000 of them (NIST SP 811, 2008,
//! appendix B: exact). Other factors follow from the definitions of the inch, the pound and the degree Fahrenheit.

use super::mechanical::{FOOT, HOUR, INCH};
use super::{Digits, KindUnits, Place, Unit, always, from};
use crate::units::quantity::Kind;
use crate::units::si::ZERO_CELSIUS;

/// International table British thermal unit, J.
const BTU: f64 = 1055.05585262;
/// Degree Fahrenheit as a difference, K.
const FAHRENHEIT: f64 = 5.0 / 9.0;
/// Zero of the Fahrenheit scale in degrees of its own size above absolute zero.
const ZERO_FAHRENHEIT: f64 = 459.67;
/// Btu/(h·ft²·°F), W/(m²·K).
const US_LOSS: f64 = BTU / (HOUR * FOOT * FOOT * FAHRENHEIT);
/// Kilowatt hour, J.
const KILOWATT_HOUR: f64 = 1e3 * HOUR;

pub(super) static TEMPERATURE: KindUnits = KindUnits {
    kind: Kind::Temperature,
    noun: "a temperature",
    units: &[
        Unit::new("°C", &["C", "degC", "deg C", "° C"], 1.0).with_offset(ZERO_CELSIUS).with_digits(Digits::decimals(1)),
        Unit::new("°F", &["F", "degF", "deg F", "° F"], FAHRENHEIT)
            .with_offset(ZERO_FAHRENHEIT)
            .with_digits(Digits::decimals(1)),
        Unit::new("K", &["kelvin"], 1.0).with_digits(Digits::decimals(1)),
    ],
    si: &[always("°C")],
    us: &[always("°F")],
};

pub(super) static TEMPERATURE_DIFFERENCE: KindUnits = KindUnits {
    kind: Kind::TemperatureDifference,
    noun: "a temperature difference",
    units: &[
        Unit::new("K", &["kelvin"], 1.0).with_digits(Digits::decimals(1)),
        Unit::new("°C", &["C", "degC", "deg C", "° C"], 1.0).with_digits(Digits::decimals(1)),
        Unit::new("°F", &["F", "degF", "deg F", "° F"], FAHRENHEIT).with_digits(Digits::decimals(1)),
    ],
    si: &[always("K")],
    us: &[always("°F")],
};

pub(super) static POWER: KindUnits = KindUnits {
    kind: Kind::Power,
    noun: "a power",
    units: &[
        Unit::new("W", &["watt", "watts"], 1.0),
        Unit::new("kW", &[], 1e3),
        Unit::new("Btu/h", &["Btuh"], BTU / HOUR),
    ],
    si: &[always("W"), from(1e4, "kW")],
    us: &[always("Btu/h")],
};

pub(super) static ENERGY: KindUnits = KindUnits {
    kind: Kind::Energy,
    noun: "an energy",
    units: &[
        Unit::new("kWh", &[], KILOWATT_HOUR),
        Unit::new("MJ", &[], 1e6),
        Unit::new("kJ", &[], 1e3),
        Unit::new("J", &["joule", "joules"], 1.0),
        Unit::new("Btu", &[], BTU),
        Unit::new("therm", &["therms"], 1e5 * BTU),
        Unit::new("Wh", &[], HOUR),
        Unit::new("MWh", &[], 1e3 * KILOWATT_HOUR),
        Unit::new("GJ", &[], 1e9),
    ],
    si: &[always("kJ"), from(KILOWATT_HOUR / 10.0, "kWh")],
    us: &[always("Btu"), from(1e6 * BTU, "therm")],
};

pub(super) static IRRADIATION: KindUnits = KindUnits {
    kind: Kind::Irradiation,
    noun: "an irradiation",
    units: &[
        Unit::new("kWh/m²", &["kWh/m2"], KILOWATT_HOUR),
        Unit::new("MJ/m²", &["MJ/m2"], 1e6),
        Unit::new("Wh/m²", &["Wh/m2"], HOUR),
        Unit::new("Btu/ft²", &["Btu/ft2"], BTU / (FOOT * FOOT)),
        Unit::new("kBtu/ft²", &["kBtu/ft2"], 1e3 * BTU / (FOOT * FOOT)),
        Unit::new("kJ/m²", &["kJ/m2"], 1e3),
        Unit::new("J/m²", &["J/m2"], 1.0),
    ],
    si: &[always("kWh/m²")],
    us: &[always("Btu/ft²"), from(1e4 * BTU / (FOOT * FOOT), "kBtu/ft²")],
};

pub(super) static IRRADIANCE: KindUnits = KindUnits {
    kind: Kind::Irradiance,
    noun: "an irradiance",
    units: &[
        Unit::new("W/m²", &["W/m2"], 1.0),
        Unit::new("kW/m²", &["kW/m2"], 1e3),
        Unit::new("Btu/(h·ft²)", &["Btu/h ft2"], BTU / (HOUR * FOOT * FOOT)),
    ],
    si: &[always("W/m²")],
    us: &[always("Btu/(h·ft²)")],
};

pub(super) static LOSS_COEFFICIENT: KindUnits = KindUnits {
    kind: Kind::LossCoefficient,
    noun: "a loss coefficient",
    units: &[
        Unit::new("W/(m²·K)", &["W/m2K", "W/m2C"], 1.0),
        Unit::new("Btu/(h·ft²·°F)", &["Btu/h ft2 F", "Btu/hft2F"], US_LOSS),
    ],
    si: &[always("W/(m²·K)")],
    us: &[always("Btu/(h·ft²·°F)")],
};

pub(super) static LOSS_SLOPE: KindUnits = KindUnits {
    kind: Kind::LossSlope,
    noun: "a slope of a loss coefficient",
    units: &[
        Unit::new("W/(m²·K²)", &["W/m2K2", "W/m2C2"], 1.0),
        Unit::new("Btu/(h·ft²·°F²)", &["Btu/h ft2 F2", "Btu/hft2F2"], US_LOSS / FAHRENHEIT),
    ],
    si: &[always("W/(m²·K²)")],
    us: &[always("Btu/(h·ft²·°F²)")],
};

pub(super) static CONDUCTANCE: KindUnits = KindUnits {
    kind: Kind::Conductance,
    noun: "a heat loss per kelvin",
    units: &[Unit::new("W/K", &["W/C"], 1.0), Unit::new("Btu/(h·°F)", &["Btu/h F", "Btu/hF"], BTU / HOUR / FAHRENHEIT)],
    si: &[always("W/K")],
    us: &[always("Btu/(h·°F)")],
};

pub(super) static LINE_CONDUCTANCE: KindUnits = KindUnits {
    kind: Kind::LineConductance,
    noun: "a conductance per run",
    units: &[
        Unit::new("W/(m·K)", &["W/m K", "W/mK", "W/m C", "W/mC"], 1.0),
        Unit::new("Btu/(h·ft·°F)", &["Btu/h ft F", "Btu/hftF"], BTU / (HOUR * FOOT * FAHRENHEIT)),
    ],
    si: &[always("W/(m·K)")],
    us: &[always("Btu/(h·ft·°F)")],
};

pub(super) static CONDUCTIVITY: KindUnits = KindUnits {
    kind: Kind::Conductivity,
    noun: "a thermal conductivity",
    units: &[
        Unit::new("W/(m·K)", &["W/m K", "W/mK", "W/m C", "W/mC"], 1.0),
        Unit::new("Btu·in/(h·ft²·°F)", &["Btu in/h ft2 F", "Btu in/hft2F"], US_LOSS * INCH),
        Unit::new("Btu/(h·ft·°F)", &["Btu/h ft F", "Btu/hftF"], US_LOSS * FOOT),
        Unit::new("mW/(m·K)", &["mW/m K", "mW/mK"], 1e-3),
    ],
    si: &[always("W/(m·K)")],
    us: &[always("Btu·in/(h·ft²·°F)")],
};

pub(super) static INSULANCE: KindUnits = KindUnits {
    kind: Kind::Insulance,
    noun: "a thermal resistance",
    units: &[
        Unit::new("m²·K/W", &["m2K/W", "m2C/W"], 1.0).with_prefix("RSI"),
        Unit::new("h·ft²·°F/Btu", &["h ft2 F/Btu", "hft2F/Btu"], 1.0 / US_LOSS).with_prefix("R").placed(Place::Before),
    ],
    si: &[always("m²·K/W")],
    us: &[always("h·ft²·°F/Btu")],
};

pub(super) static HEAT_CAPACITY: KindUnits = KindUnits {
    kind: Kind::HeatCapacity,
    noun: "a heat capacity",
    units: &[
        Unit::new("kJ/K", &["kJ/C"], 1e3),
        Unit::new("J/K", &["J/C"], 1.0),
        Unit::new("Wh/K", &["Wh/C"], HOUR),
        Unit::new("Btu/°F", &["Btu/F"], BTU / FAHRENHEIT),
    ],
    si: &[always("kJ/K")],
    us: &[always("Btu/°F")],
};

pub(super) static RESISTANCE: KindUnits = KindUnits {
    kind: Kind::Resistance,
    noun: "an electrical resistance",
    units: &[
        Unit::new("Ω", &["ohm", "ohms"], 1.0).with_digits(Digits::significant(5)),
        Unit::new("kΩ", &["kohm"], 1e3).with_digits(Digits::significant(5)),
        Unit::new("MΩ", &["Mohm"], 1e6),
    ],
    si: &[always("Ω"), from(1e6, "MΩ")],
    us: &[always("Ω"), from(1e6, "MΩ")],
};

pub(super) static EXTINCTION: KindUnits = KindUnits {
    kind: Kind::Extinction,
    noun: "an extinction coefficient",
    units: &[
        Unit::new("1/m", &[], 1.0),
        Unit::new("1/cm", &[], 1e2),
        Unit::new("1/mm", &[], 1e3),
        Unit::new("1/in", &[], 1.0 / INCH),
    ],
    si: &[always("1/m")],
    us: &[always("1/in")],
};
