//! The declaration of an entry: everything the file, the form, the help and the docs need to know about it.
//!
//! Each entry is one static in its stage's `entries.rs`. Its id is its path in the file.

use crate::units::{HasKind, Kind, Quantity, System, si};

use super::Value;

/// Who gives the value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The builder decides it: a key in the file. A reading of it replaces it in the as-built figures.
    Decide,
    /// It can only be measured: readings alone, never a key.
    Measure,
}

/// What one value stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// One value for the whole project; readings carry no panel letter.
    Project,
    /// One design for all panels; readings carry the panel's letter.
    Panel,
}

/// How several readings of one quantity become one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fold {
    /// The last one counts.
    Latest,
    /// Their mean.
    Mean,
    /// The largest, where large is bad.
    Largest,
    /// The smallest, where small is bad.
    Smallest,
}

/// What can be typed.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A number with its unit.
    Quantity {
        /// What it is a number of.
        kind: Kind,
        /// Physically possible, SI; outside is invalid.
        hard: (f64, f64),
        /// What a builder would expect, SI; outside is odd.
        usual: (f64, f64),
    },
    /// One of the words that the function lists, each with its meaning.
    Choice(fn() -> Vec<(&'static str, &'static str)>),
    /// Anything on one line.
    Text,
    /// Yes or no.
    Flag,
    /// A day, written year-month-day.
    Date,
}

impl Shape {
    /// What it is a number of; none if it is none.
    pub const fn kind(&self) -> Option<Kind> {
        match self {
            Self::Quantity { kind, .. } => Some(*kind),
            Self::Choice(_) | Self::Text | Self::Flag | Self::Date => None,
        }
    }
}

/// What may stand in the place of `*` in the id of a repeated row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowKey {
    /// A name without a dot.
    Name,
    /// A month, `1` to `12`.
    Month,
    /// An hour of the day by the clock hour at which it ends, `1` to `24`.
    Hour,
    /// An angle with its unit, such as `90°` or `112.5°`; it is the last part of the id, so a point does no harm.
    Angle,
}

impl RowKey {
    /// Whether a key can stand there.
    pub fn fits(self, key: &str) -> bool {
        match self {
            Self::Name => !key.is_empty() && !key.contains('.'),
            Self::Month => (1..=12).any(|month: u8| month.to_string() == key),
            Self::Hour => (1..=24).any(|hour: u8| hour.to_string() == key),
            Self::Angle => crate::units::parse(Kind::Angle, key).is_ok(),
        }
    }
}

/// The units that the trade uses for one thing where those of its kind would mislead, in both families.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TradeUnits {
    /// Symbol of the SI family.
    pub si: &'static str,
    /// Symbol of the US family.
    pub us: &'static str,
}

impl TradeUnits {
    /// Power of pumps and elements: watts everywhere, as on their plates.
    pub const ELECTRIC_POWER: Self = Self { si: "W", us: "W" };
    /// Electricity: kilowatt hours everywhere, as on the meter.
    pub const ELECTRICITY: Self = Self { si: "kWh", us: "kWh" };
    /// Lengths that no bench measures: heads, heights, pipe runs, ladders, wire off the roll.
    pub const SITE: Self = Self { si: "m", us: "ft" };
    /// Speed of water in a pipe.
    pub const WATER_SPEED: Self = Self { si: "m/s", us: "ft/s" };
    /// Hours of work, never days: a working day is not 24 of them.
    pub const WORK: Self = Self { si: "h", us: "h" };
    /// Distances on a map.
    pub const MAP: Self = Self { si: "km", us: "mi" };

    /// The symbol in a family.
    pub const fn symbol(self, system: System) -> &'static str {
        match system {
            System::Si => self.si,
            System::Us => self.us,
        }
    }

    /// A quantity in these units; as its kind is printed if it has none of that symbol.
    pub fn text(self, quantity: Quantity, system: System) -> String {
        quantity.text_in(self.symbol(system)).unwrap_or_else(|| quantity.text(system))
    }
}

/// An entry without its type: what tables, forms and the file work with.
#[derive(Debug)]
pub struct EntrySpec {
    /// The path in the file, and the name everywhere; one `*` stands for the key of a repeated row.
    pub id: &'static str,
    /// A short name for people.
    pub label: &'static str,
    /// One line: why it matters, or how to find it.
    pub why: &'static str,
    /// What can be typed.
    pub shape: Shape,
    /// The value assumed while nothing is entered, as typed.
    pub default: Option<&'static str>,
    /// Who gives the value.
    pub role: Role,
    /// What one value stands for.
    pub scope: Scope,
    /// How several readings become one.
    pub fold: Fold,
    /// What the key of a repeated row may be.
    pub row_key: RowKey,
    /// It belongs to the place and its authorities, not to the design: another place needs its own.
    pub of_place: bool,
    /// Units to print it in instead of those of its kind.
    pub shown_in: Option<TradeUnits>,
}

impl EntrySpec {
    /// The key of a repeated row in an id that this declaration covers; none if it does not cover it.
    pub fn row_key<'a>(&self, id: &'a str) -> Option<&'a str> {
        let (before, after) = self.id.split_once('*')?;
        let key = id.strip_prefix(before)?.strip_suffix(after)?;
        self.row_key.fits(key).then_some(key)
    }

    /// The parts of an id in the file, from the root: as many as the declaration has.
    pub fn path<'a>(&self, id: &'a str) -> Vec<&'a str> {
        id.splitn(self.id.split('.').count(), '.').collect()
    }
}

/// An entry with the type that a computation gets.
#[derive(Debug)]
pub struct Entry<T> {
    /// The declaration.
    pub spec: EntrySpec,
    /// Opens a value of the file; none if it is of another shape.
    pub open: fn(&Value) -> Option<T>,
}

/// A closed list of words for an entry.
pub trait Choice: Copy + PartialEq + 'static {
    /// Each variant with its word in the file and its meaning for people.
    const OPTIONS: &'static [(Self, &'static str, &'static str)];

    /// The word of this variant in the file.
    fn word(self) -> &'static str {
        Self::OPTIONS.iter().find(|(option, _, _)| *option == self).map_or("", |(_, word, _)| word)
    }

    /// The variant of a word.
    fn of_word(word: &str) -> Option<Self> {
        Self::OPTIONS.iter().find(|(_, known, _)| *known == word).map(|(option, _, _)| *option)
    }
}

fn options_of<C: Choice>() -> Vec<(&'static str, &'static str)> {
    C::OPTIONS.iter().map(|(_, word, meaning)| (*word, *meaning)).collect()
}

impl<T> Entry<T> {
    const fn declare(id: &'static str, label: &'static str, shape: Shape, open: fn(&Value) -> Option<T>) -> Self {
        let spec = EntrySpec {
            id,
            label,
            why: "",
            shape,
            default: None,
            role: Role::Decide,
            scope: Scope::Project,
            fold: Fold::Latest,
            row_key: RowKey::Name,
            of_place: false,
            shown_in: None,
        };
        Self { spec, open }
    }

    /// Says in one line why it matters or how to find it.
    #[must_use]
    pub const fn why(mut self, why: &'static str) -> Self {
        self.spec.why = why;
        self
    }

    /// The value assumed while nothing is entered, written as a builder would type it.
    #[must_use]
    pub const fn default(mut self, typed: &'static str) -> Self {
        self.spec.default = Some(typed);
        self
    }

    /// One design for all panels: readings carry a panel letter.
    #[must_use]
    pub const fn per_panel(mut self) -> Self {
        self.spec.scope = Scope::Panel;
        self
    }

    /// Says what the key of a repeated row may be; a name otherwise.
    #[must_use]
    pub const fn rows_by(mut self, row_key: RowKey) -> Self {
        self.spec.row_key = row_key;
        self
    }

    /// Belongs to the place and its authorities: who takes the design elsewhere must find it anew.
    #[must_use]
    pub const fn of_place(mut self) -> Self {
        self.spec.of_place = true;
        self
    }

    /// Printed in the trade's units of this thing.
    #[must_use]
    pub const fn shown_in(mut self, units: TradeUnits) -> Self {
        self.spec.shown_in = Some(units);
        self
    }

    /// Only ever measured; says how several readings become one.
    #[must_use]
    pub const fn measured(mut self, fold: Fold) -> Self {
        self.spec.role = Role::Measure;
        self.spec.fold = fold;
        self
    }

    /// Says how several readings become one; the last counts otherwise.
    #[must_use]
    pub const fn fold(mut self, fold: Fold) -> Self {
        self.spec.fold = fold;
        self
    }

    /// Physically possible bounds in SI units; outside, the entry is invalid.
    #[must_use]
    pub const fn hard(mut self, low: f64, high: f64) -> Self {
        if let Shape::Quantity { kind, usual, .. } = self.spec.shape {
            self.spec.shape = Shape::Quantity { kind, hard: (low, high), usual };
        }
        self
    }

    /// Bounds in SI units within which nobody would wonder; outside, the entry is odd.
    #[must_use]
    pub const fn usual(mut self, low: f64, high: f64) -> Self {
        if let Shape::Quantity { kind, hard, .. } = self.spec.shape {
            self.spec.shape = Shape::Quantity { kind, hard, usual: (low, high) };
        }
        self
    }
}

const ANY: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);

impl<T: HasKind> Entry<T> {
    /// An entry whose kind follows from its type.
    pub const fn quantity(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Quantity { kind: T::KIND, hard: ANY, usual: ANY }, quantity_of)
    }
}

impl Entry<si::Ratio> {
    /// A fraction of one, typed in percent.
    pub const fn percent(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Quantity { kind: Kind::Percent, hard: (0.0, 1.0), usual: ANY }, quantity_of)
    }
}

impl Entry<f64> {
    /// A number of a kind that has no typed quantity of its own; the computation gets it in SI.
    pub const fn plain(id: &'static str, label: &'static str, kind: Kind) -> Self {
        Self::declare(id, label, Shape::Quantity { kind, hard: ANY, usual: ANY }, |value| Some(value.quantity()?.si))
    }
}

impl Entry<usize> {
    /// A count of things.
    pub const fn count(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Quantity { kind: Kind::Count, hard: (0.0, 1e6), usual: ANY }, count_of)
    }
}

impl<C: Choice> Entry<C> {
    /// One word of a closed list.
    pub const fn choice(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Choice(options_of::<C>), |value| C::of_word(&word_of(value)?))
    }
}

impl Entry<String> {
    /// Free text on one line.
    pub const fn text(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Text, word_of)
    }

    /// One name of a handbook table.
    pub const fn listed(
        id: &'static str,
        label: &'static str,
        names: fn() -> Vec<(&'static str, &'static str)>,
    ) -> Self {
        Self::declare(id, label, Shape::Choice(names), word_of)
    }
}

impl Entry<bool> {
    /// Yes or no.
    pub const fn flag(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Flag, flag_of)
    }
}

impl Entry<jiff::civil::Date> {
    /// A day.
    pub const fn date(id: &'static str, label: &'static str) -> Self {
        Self::declare(id, label, Shape::Date, date_of)
    }
}

fn quantity_of<T: si::Dimension>(value: &Value) -> Option<T> {
    value.quantity().map(Quantity::typed)
}

fn count_of(value: &Value) -> Option<usize> {
    let number = value.quantity()?.si;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // bounded by the condition
    (0.0..=1e6).contains(&number).then_some(number.round() as usize)
}

fn word_of(value: &Value) -> Option<String> {
    match value {
        Value::Text(text) | Value::Choice(text) => Some(text.clone()),
        _ => None,
    }
}

fn flag_of(value: &Value) -> Option<bool> {
    match value {
        Value::Flag(flag) => Some(*flag),
        _ => None,
    }
}

fn date_of(value: &Value) -> Option<jiff::civil::Date> {
    match value {
        Value::Date(date) => Some(*date),
        _ => None,
    }
}
