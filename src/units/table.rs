//! The one declared table of units: how each is printed and typed, what it is worth, and which ones are
//! printed by default.
//!
//! Here lie the shape of the table and the look-up by kind; the rows lie in `mechanical` and `thermal`.
//! Reading and printing are elsewhere and know no unit by name.

mod mechanical;
mod thermal;

use super::quantity::{Kind, System};

/// How many figures a printed number carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Digits {
    /// Significant figures that are always shown.
    pub significant: usize,
    /// Decimals that are always shown.
    pub decimals: usize,
    /// Whether zeros at the end of the decimals are dropped.
    pub trimmed: bool,
}

impl Digits {
    /// A fixed number of decimals.
    const fn decimals(decimals: usize) -> Self {
        Self { significant: 0, decimals, trimmed: false }
    }

    /// A number of significant figures; whole numbers are never cut.
    const fn significant(significant: usize) -> Self {
        Self { significant, decimals: 0, trimmed: false }
    }

    /// The same figures without zeros at the end.
    const fn trimmed(self) -> Self {
        Self { trimmed: true, ..self }
    }
}

/// Where a unit stands when it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// `4.5 bar`
    After,
    /// `35.0°`
    Attached,
    /// `R-10.0`: the unit's prefix stands before the number instead of the symbol behind it.
    Before,
}

/// One unit of one kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// The unit as it is printed; it may be typed too.
    pub symbol: &'static str,
    /// Other spellings that may be typed. The first one is plain ASCII if the symbol is not.
    pub aliases: &'static [&'static str],
    /// A word that may be typed before the number instead, as in `R-10`; empty for most.
    pub prefix: &'static str,
    /// Value of one unit in SI base units.
    pub factor: f64,
    /// Added to a number before the factor is applied: zero except for scales of temperature.
    pub offset: f64,
    /// Figures shown.
    pub digits: Digits,
    /// Where the unit is printed.
    pub place: Place,
    /// Units with the same chain above 0 may be typed together, the larger one first: `3 ft 11 in`.
    pub chain: u8,
}

impl Unit {
    /// A unit with three significant figures that stands behind its number.
    const fn new(symbol: &'static str, aliases: &'static [&'static str], factor: f64) -> Self {
        let digits = Digits::significant(3);
        Self { symbol, aliases, prefix: "", factor, offset: 0.0, digits, place: Place::After, chain: 0 }
    }

    const fn with_digits(self, digits: Digits) -> Self {
        Self { digits, ..self }
    }

    const fn with_offset(self, offset: f64) -> Self {
        Self { offset, ..self }
    }

    const fn with_prefix(self, prefix: &'static str) -> Self {
        Self { prefix, ..self }
    }

    const fn placed(self, place: Place) -> Self {
        Self { place, ..self }
    }

    const fn in_chain(self, chain: u8) -> Self {
        Self { chain, ..self }
    }

    /// The number in SI base units of `value` of this unit.
    pub fn to_si(&self, value: f64) -> f64 {
        (value + self.offset) * self.factor
    }

    /// How many of this unit `si` is.
    pub fn from_si(&self, si: f64) -> f64 {
        si / self.factor - self.offset
    }

    /// The spelling that any keyboard can type.
    pub fn typed(&self) -> &'static str {
        let ascii = self.aliases.iter().find(|alias| alias.is_ascii());
        if self.symbol.is_ascii() { self.symbol } else { ascii.unwrap_or(&self.symbol) }
    }

    /// Every spelling that may be typed behind a number.
    pub fn spellings(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.symbol).chain(self.aliases.iter().copied())
    }
}

/// From which size on a unit is the printed one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rung {
    /// Smallest number in SI base units, sign aside, that is printed in this unit.
    pub from: f64,
    /// The unit's symbol.
    pub symbol: &'static str,
}

/// A ladder of one unit for every size.
const fn always(symbol: &'static str) -> Rung {
    from(0.0, symbol)
}

const fn from(from: f64, symbol: &'static str) -> Rung {
    Rung { from, symbol }
}

/// All units of one kind.
#[derive(Debug)]
pub struct KindUnits {
    /// The kind.
    pub kind: Kind,
    /// The kind with its article, for sentences: `a length`.
    pub noun: &'static str,
    /// The units, the likeliest to be typed first. A kind without units has one whose symbol is empty.
    pub units: &'static [Unit],
    /// Printed units of the SI family, the smallest rung first.
    pub si: &'static [Rung],
    /// Printed units of the US family, the smallest rung first.
    pub us: &'static [Rung],
}

impl KindUnits {
    /// The unit printed for a number of this size in this family.
    pub fn printed(&self, si: f64, system: System) -> &'static Unit {
        let ladder = match system {
            System::Si => self.si,
            System::Us => self.us,
        };
        let rung = ladder.iter().rev().find(|rung| si.abs() >= rung.from).or(ladder.first());
        rung.and_then(|rung| self.by_symbol(rung.symbol)).unwrap_or(&self.units[0])
    }

    /// The unit with this printed symbol.
    pub fn by_symbol(&self, symbol: &str) -> Option<&'static Unit> {
        self.units.iter().find(|unit| unit.symbol == symbol)
    }

    /// Whether a number of this kind is typed without a unit.
    pub fn is_unitless(&self) -> bool {
        self.units.iter().all(|unit| unit.symbol.is_empty())
    }

    /// The first few units, as typed, for messages.
    pub fn offer(&self) -> String {
        self.units.iter().take(OFFERED).map(Unit::typed).collect::<Vec<_>>().join(", ")
    }
}

/// Units named in a message; all of them are on the page for builders.
const OFFERED: usize = 5;

/// The units of a kind.
pub const fn of(kind: Kind) -> &'static KindUnits {
    match kind {
        Kind::Length => &mechanical::LENGTH,
        Kind::Area => &mechanical::AREA,
        Kind::Volume => &mechanical::VOLUME,
        Kind::Mass => &mechanical::MASS,
        Kind::Temperature => &thermal::TEMPERATURE,
        Kind::TemperatureDifference => &thermal::TEMPERATURE_DIFFERENCE,
        Kind::Pressure => &mechanical::PRESSURE,
        Kind::Flow => &mechanical::FLOW,
        Kind::FlowPerArea => &mechanical::FLOW_PER_AREA,
        Kind::Coverage => &mechanical::COVERAGE,
        Kind::MassFlow => &mechanical::MASS_FLOW,
        Kind::Speed => &mechanical::SPEED,
        Kind::Power => &thermal::POWER,
        Kind::Energy => &thermal::ENERGY,
        Kind::Irradiation => &thermal::IRRADIATION,
        Kind::Irradiance => &thermal::IRRADIANCE,
        Kind::LossCoefficient => &thermal::LOSS_COEFFICIENT,
        Kind::LossSlope => &thermal::LOSS_SLOPE,
        Kind::Conductance => &thermal::CONDUCTANCE,
        Kind::LineConductance => &thermal::LINE_CONDUCTANCE,
        Kind::Conductivity => &thermal::CONDUCTIVITY,
        Kind::Insulance => &thermal::INSULANCE,
        Kind::HeatCapacity => &thermal::HEAT_CAPACITY,
        Kind::Density => &mechanical::DENSITY,
        Kind::Angle => &mechanical::ANGLE,
        Kind::Time => &mechanical::TIME,
        Kind::Force => &mechanical::FORCE,
        Kind::Resistance => &thermal::RESISTANCE,
        Kind::Extinction => &thermal::EXTINCTION,
        Kind::Number => &mechanical::NUMBER,
        Kind::Percent => &mechanical::PERCENT,
        Kind::Count => &mechanical::COUNT,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_stands_in_its_own_row() {
        for (place, kind) in Kind::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, place);
            assert_eq!(of(kind).kind, kind);
        }
        assert_eq!(Kind::ALL.len(), Kind::Count as usize + 1);
    }

    #[test]
    fn every_printed_symbol_is_a_unit_of_its_kind() {
        for kind in Kind::ALL {
            for ladder in [of(kind).si, of(kind).us] {
                assert!(ladder.iter().all(|rung| of(kind).by_symbol(rung.symbol).is_some()), "{kind:?}");
                assert!(ladder.is_sorted_by(|low, high| low.from < high.from), "{kind:?}");
                assert!(ladder.first().is_some_and(|rung| rung.from == 0.0), "{kind:?}");
            }
        }
    }

    #[test]
    fn every_unit_can_be_typed_on_a_plain_keyboard() {
        for unit in Kind::ALL.into_iter().flat_map(|kind| of(kind).units) {
            assert!(unit.typed().is_ascii(), "{}", unit.symbol);
            assert!(unit.factor.is_finite() && unit.factor > 0.0, "{}", unit.symbol);
        }
    }
}
