//! Rows of the unit table: sizes, masses, flows, forces, angles, times and plain numbers.
//!
//! Factors are exact by definition (NIST SP 811, 2008, appendix B) unless a line says otherwise.

use std::f64::consts::PI;

use super::{Digits, KindUnits, Place, Unit, always, from};
use crate::units::quantity::Kind;

/// Inch, m.
pub(super) const INCH: f64 = 0.0254;
/// Foot, m.
pub(super) const FOOT: f64 = 0.3048;
/// Statute mile of 5280 feet, m.
const MILE: f64 = 5280.0 * FOOT;
/// Avoirdupois pound, kg.
pub(super) const POUND: f64 = 0.45359237;
/// Grain, kg: a 7000th of the pound.
const GRAIN: f64 = POUND / 7000.0;
/// From this density on a number is a material's; below it is something dissolved or floating, kg/m³.
const MOST_DISSOLVED: f64 = 5.0;
/// Seconds of an hour.
pub(super) const HOUR: f64 = 3600.0;
/// Standard acceleration of free fall, m/s².
const GRAVITY: f64 = 9.80665;
/// US gallon, 231 cubic inches, m³.
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// Pound-force per square inch, Pa.
const PSI: f64 = POUND * GRAVITY / (INCH * INCH);
/// Conventional metre of water, Pa: 1000 kg/m³ and standard gravity.
const METRE_OF_WATER: f64 = 1000.0 * GRAVITY;
/// Litre, m³.
const LITRE: f64 = 1e-3;
/// Thickness of copper sheet of one ounce per square foot, m: ounce-weight sheet of ASTM B370 with the handbook
/// density of 0.323 lb/in³ (from memory).
const COPPER_OUNCE: f64 = INCH / 16.0 / (0.323 * 144.0);
/// Degree, rad.
const DEGREE: f64 = PI / 180.0;

/// Bench lengths in millimetres: tenths, and finer below 10 mm so that sheet and foil keep three figures.
const BENCH_MILLIMETRES: Digits = Digits { significant: 3, decimals: 1, trimmed: true };
/// Bench lengths in inches: thousandths, and finer for foil.
const BENCH_INCHES: Digits = Digits { significant: 3, decimals: 3, trimmed: true };
/// The fewest figures that do not hide a site dimension.
const SITE: Digits = Digits { significant: 3, decimals: 1, trimmed: true };

pub(super) static LENGTH: KindUnits = KindUnits {
    kind: Kind::Length,
    noun: "a length",
    units: &[
        Unit::new("mm", &["millimetre", "millimetres", "millimeter", "millimeters"], 1e-3)
            .with_digits(BENCH_MILLIMETRES)
            .in_chain(2),
        Unit::new("cm", &["centimetre", "centimetres", "centimeter", "centimeters"], 1e-2)
            .with_digits(BENCH_MILLIMETRES)
            .in_chain(2),
        Unit::new("m", &["metre", "metres", "meter", "meters"], 1.0)
            .with_digits(Digits { significant: 4, decimals: 1, trimmed: true })
            .in_chain(2),
        Unit::new("in", &["\"", "''", "inch", "inches"], INCH).with_digits(BENCH_INCHES).in_chain(1),
        Unit::new("ft", &["'", "foot", "feet"], FOOT).with_digits(SITE).in_chain(1),
        Unit::new("yd", &["yard", "yards"], 3.0 * FOOT).with_digits(SITE).in_chain(1),
        Unit::new("km", &["kilometre", "kilometres", "kilometer", "kilometers"], 1e3),
        Unit::new("mi", &["mile", "miles"], MILE),
        Unit::new("µm", &["um", "micron", "microns"], 1e-6),
        Unit::new("mil", &["mils", "thou"], 1e-3 * INCH),
        Unit::new("oz/ft²", &["oz/ft2", "oz"], COPPER_OUNCE),
    ],
    si: &[always("mm"), from(10.0, "m")],
    us: &[always("in"), from(30.0 * FOOT, "ft")],
};

pub(super) static AREA: KindUnits = KindUnits {
    kind: Kind::Area,
    noun: "an area",
    units: &[
        Unit::new("m²", &["m2", "sq m", "sqm"], 1.0).with_digits(Digits {
            significant: 3,
            decimals: 2,
            trimmed: false,
        }),
        Unit::new("cm²", &["cm2", "sq cm"], 1e-4),
        Unit::new("mm²", &["mm2", "sq mm"], 1e-6),
        Unit::new("ft²", &["ft2", "sq ft", "sqft"], FOOT * FOOT).with_digits(Digits {
            significant: 3,
            decimals: 1,
            trimmed: false,
        }),
        Unit::new("in²", &["in2", "sq in", "sqin"], INCH * INCH),
    ],
    si: &[always("mm²"), from(1e-3, "cm²"), from(1e-1, "m²")],
    us: &[always("in²"), from(FOOT * FOOT, "ft²")],
};

pub(super) static VOLUME: KindUnits = KindUnits {
    kind: Kind::Volume,
    noun: "a volume",
    units: &[
        Unit::new("L", &["litre", "litres", "liter", "liters"], LITRE),
        Unit::new("mL", &["ml", "cc"], 1e-6),
        Unit::new("m³", &["m3", "cu m"], 1.0),
        Unit::new("gal", &["gallon", "gallons"], GALLON),
        Unit::new("qt", &["quart", "quarts"], GALLON / 4.0),
        Unit::new("fl oz", &["floz"], GALLON / 128.0),
        Unit::new("ft³", &["ft3", "cu ft", "cuft"], FOOT * FOOT * FOOT),
        Unit::new("in³", &["in3", "cu in"], INCH * INCH * INCH),
        Unit::new("cm³", &["cm3"], 1e-6),
    ],
    si: &[always("mL"), from(LITRE, "L")],
    us: &[always("fl oz"), from(GALLON / 4.0, "gal")],
};

pub(super) static MASS: KindUnits = KindUnits {
    kind: Kind::Mass,
    noun: "a mass",
    units: &[
        Unit::new("kg", &["kilogram", "kilograms"], 1.0),
        Unit::new("g", &["gram", "grams"], 1e-3),
        Unit::new("lb", &["lbs", "pound", "pounds"], POUND).in_chain(1),
        Unit::new("oz", &["ounce", "ounces"], POUND / 16.0).in_chain(1),
    ],
    si: &[always("g"), from(1.0, "kg")],
    us: &[always("oz"), from(POUND, "lb")],
};

pub(super) static PRESSURE: KindUnits = KindUnits {
    kind: Kind::Pressure,
    noun: "a pressure",
    units: &[
        Unit::new("bar", &[], 1e5),
        Unit::new("kPa", &[], 1e3),
        Unit::new("Pa", &["pascal", "N/m2"], 1.0),
        Unit::new("psi", &["psig", "lbf/in2"], PSI),
        Unit::new("psf", &["lbf/ft2"], PSI / 144.0),
        Unit::new("mbar", &["hPa"], 1e2),
        Unit::new("MPa", &["N/mm2"], 1e6),
        Unit::new("mH2O", &["m H2O", "mWC"], METRE_OF_WATER),
        Unit::new("mmH2O", &["mm H2O", "mmWC"], METRE_OF_WATER * 1e-3),
        Unit::new("ftH2O", &["ft H2O", "ftWC"], METRE_OF_WATER * FOOT),
        Unit::new("inH2O", &["in H2O", "inWC"], METRE_OF_WATER * INCH),
        Unit::new("atm", &[], 101_325.0),
    ],
    si: &[always("Pa"), from(1e4, "bar")],
    us: &[always("psi")],
};

pub(super) static FLOW: KindUnits = KindUnits {
    kind: Kind::Flow,
    noun: "a flow",
    units: &[
        Unit::new("L/min", &["lpm"], LITRE / 60.0),
        Unit::new("L/h", &["lph"], LITRE / HOUR),
        Unit::new("gpm", &["gal/min"], GALLON / 60.0),
        Unit::new("gal/h", &["gph"], GALLON / HOUR),
        Unit::new("m³/h", &["m3/h"], 1.0 / HOUR),
        Unit::new("L/s", &["lps"], LITRE),
        Unit::new("m³/s", &["m3/s"], 1.0),
    ],
    si: &[always("L/min")],
    us: &[always("gpm")],
};

pub(super) static FLOW_PER_AREA: KindUnits = KindUnits {
    kind: Kind::FlowPerArea,
    noun: "a flow per area",
    units: &[
        Unit::new("L/(min·m²)", &["L/min m2", "lpm/m2"], LITRE / 60.0),
        Unit::new("L/(h·m²)", &["L/h m2", "lph/m2"], LITRE / HOUR),
        Unit::new("gpm/ft²", &["gpm/ft2", "gal/min ft2"], GALLON / 60.0 / (FOOT * FOOT)),
        Unit::new("gal/(h·ft²)", &["gal/h ft2", "gph/ft2"], GALLON / HOUR / (FOOT * FOOT)),
        Unit::new("L/(s·m²)", &["L/s m2"], LITRE),
    ],
    si: &[always("L/(min·m²)")],
    us: &[always("gpm/ft²")],
};

pub(super) static COVERAGE: KindUnits = KindUnits {
    kind: Kind::Coverage,
    noun: "a coverage",
    units: &[
        Unit::new("m²/L", &["m2/L"], 1.0 / LITRE),
        Unit::new("ft²/gal", &["ft2/gal", "sq ft/gal"], FOOT * FOOT / GALLON),
        Unit::new("m²/m³", &["m2/m3"], 1.0),
    ],
    si: &[always("m²/L")],
    us: &[always("ft²/gal")],
};

pub(super) static MASS_FLOW: KindUnits = KindUnits {
    kind: Kind::MassFlow,
    noun: "a mass flow",
    units: &[
        Unit::new("kg/s", &[], 1.0),
        Unit::new("kg/min", &[], 1.0 / 60.0),
        Unit::new("kg/h", &[], 1.0 / HOUR),
        Unit::new("lb/h", &[], POUND / HOUR),
        Unit::new("lb/min", &[], POUND / 60.0),
        Unit::new("g/s", &[], 1e-3),
    ],
    si: &[always("kg/s")],
    us: &[always("lb/h")],
};

pub(super) static SPEED: KindUnits = KindUnits {
    kind: Kind::Speed,
    noun: "a speed",
    units: &[
        Unit::new("m/s", &["mps"], 1.0),
        Unit::new("km/h", &["kph", "kmh"], 1000.0 / HOUR),
        Unit::new("mph", &["mi/h"], MILE / HOUR),
        Unit::new("ft/s", &["fps"], FOOT),
        Unit::new("kn", &["kt", "kts", "knot", "knots"], 1852.0 / HOUR),
        Unit::new("ft/min", &["fpm"], FOOT / 60.0),
    ],
    si: &[always("m/s")],
    us: &[always("mph")],
};

pub(super) static DENSITY: KindUnits = KindUnits {
    kind: Kind::Density,
    noun: "a density",
    units: &[
        Unit::new("kg/m³", &["kg/m3"], 1.0),
        Unit::new("g/cm³", &["g/cm3"], 1e3),
        Unit::new("kg/L", &[], 1e3),
        Unit::new("lb/ft³", &["lb/ft3", "pcf"], POUND / (FOOT * FOOT * FOOT)),
        Unit::new("lb/gal", &[], POUND / GALLON),
        Unit::new("lb/in³", &["lb/in3"], POUND / (INCH * INCH * INCH)),
        Unit::new("mg/L", &["ppm"], 1e-3),
        Unit::new("gpg", &[], GRAIN / GALLON),
    ],
    si: &[always("mg/L"), from(MOST_DISSOLVED, "kg/m³")],
    us: &[always("mg/L"), from(MOST_DISSOLVED, "lb/ft³")],
};

pub(super) static ANGLE: KindUnits = KindUnits {
    kind: Kind::Angle,
    noun: "an angle",
    units: &[
        Unit::new("°", &["deg", "degree", "degrees"], DEGREE)
            .with_digits(Digits::decimals(1))
            .placed(Place::Attached)
            .in_chain(1),
        Unit::new("rad", &["radian", "radians"], 1.0).with_digits(Digits::significant(4)),
        Unit::new("'", &["arcmin"], DEGREE / 60.0).placed(Place::Attached).in_chain(1),
        Unit::new("\"", &["arcsec"], DEGREE / 3600.0).placed(Place::Attached).in_chain(1),
    ],
    si: &[always("°")],
    us: &[always("°")],
};

pub(super) static TIME: KindUnits = KindUnits {
    kind: Kind::Time,
    noun: "a time",
    units: &[
        Unit::new("s", &["second", "seconds", "secs"], 1.0).in_chain(1),
        Unit::new("min", &["mins", "minute", "minutes"], 60.0).in_chain(1),
        Unit::new("h", &["hrs", "hour", "hours"], HOUR).in_chain(1),
        Unit::new("d", &["day", "days"], 24.0 * HOUR).in_chain(1),
    ],
    si: &[always("s"), from(120.0, "min"), from(2.0 * HOUR, "h"), from(48.0 * HOUR, "d")],
    us: &[always("s"), from(120.0, "min"), from(2.0 * HOUR, "h"), from(48.0 * HOUR, "d")],
};

pub(super) static FORCE: KindUnits = KindUnits {
    kind: Kind::Force,
    noun: "a force",
    units: &[
        Unit::new("N", &["newton", "newtons"], 1.0),
        Unit::new("kN", &[], 1e3),
        Unit::new("lbf", &[], POUND * GRAVITY),
    ],
    si: &[always("N"), from(1e4, "kN")],
    us: &[always("lbf")],
};

pub(super) static NUMBER: KindUnits = KindUnits {
    kind: Kind::Number,
    noun: "a plain number",
    units: &[Unit::new("", &[], 1.0).with_digits(Digits::significant(4).trimmed())],
    si: &[always("")],
    us: &[always("")],
};

pub(super) static PERCENT: KindUnits = KindUnits {
    kind: Kind::Percent,
    noun: "a percentage",
    units: &[Unit::new("%", &["percent"], 1e-2).with_digits(Digits::decimals(1))],
    si: &[always("%")],
    us: &[always("%")],
};

pub(super) static COUNT: KindUnits = KindUnits {
    kind: Kind::Count,
    noun: "a whole number",
    units: &[Unit::new("", &[], 1.0).with_digits(Digits::decimals(0))],
    si: &[always("")],
    us: &[always("")],
};
