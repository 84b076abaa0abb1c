//! The declarations of computed figures and of what they hang on.

use std::collections::BTreeSet;

use super::{Solution, entry, figure};
use crate::model::{Fig, Stage, TradeUnits, Value};
use crate::units::Kind;

/// A part of the solution that is computed in one go, and what it reads.
///
/// What a figure depends on is declared here once for all figures of the group; a test perturbs every entry and
/// compares.
#[derive(Debug)]
pub struct Group {
    /// Its name, for people.
    pub name: &'static str,
    /// The entries that it reads itself.
    pub entries: &'static [&'static str],
    /// The groups whose results it reads.
    pub groups: &'static [&'static Self],
}

impl Group {
    /// All entries that a result of this group can depend on. A group that is reached by many ways is entered once.
    pub fn depends(&self) -> BTreeSet<&'static str> {
        let (mut all, mut seen) = (BTreeSet::new(), BTreeSet::new());
        let mut pending = vec![self];
        while let Some(group) = pending.pop() {
            if seen.insert(std::ptr::from_ref(group)) {
                all.extend(group.entries);
                pending.extend(group.groups);
            }
        }
        all
    }
}

/// The key that one declaration of several like figures runs over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// January to December, keys `1` to `12`.
    Month,
    /// The last days of the logger file.
    LogDay,
    /// The last efficiency points of the logger file.
    Point,
    /// The tasks of the calendar.
    Upkeep,
    /// The holes of a header, keys from `1`.
    Hole,
    /// The risers of a harp from the inlet, keys from `1`.
    Riser,
    /// The coils and lengths that the risers are cut from.
    RiserBar,
    /// What is left of those coils and lengths, longest first.
    Offcut,
    /// The lengths that the headers are cut from.
    HeaderBar,
    /// The rows of the joint log.
    Joint,
    /// The parts of the cut list.
    Part,
    /// The rows of one step up and down.
    Choice,
    /// The layers of the box from its back to its top.
    DepthLayer,
    /// The weep holes of a box.
    WeepHole,
    /// The strips under the absorber.
    Strip,
    /// The lines of screws of a box.
    ScrewLine,
    /// The screws of all lines.
    Screw,
    /// The runs of the loop in the order of flow, keys from `1`.
    Run,
    /// The groups of panels side by side, keys from `1`.
    PanelGroup,
    /// The boards that rails and strips are cut from.
    TimberBar,
    /// The cuts of these boards.
    TimberCut,
    /// The sheets that boards, insulation and absorber are cut from.
    SheetPlan,
    /// The cuts of these sheets.
    SheetCut,
    /// Temperatures of a table in whole degrees Celsius.
    Celsius,
    /// The lines of the bill of materials, by their keys.
    Material,
    /// The mounts along a rail, keys from `1`.
    Mount,
    /// Published rules of pressure tests, by their names.
    TestRule,
    /// The cases of money and carbon: `poor`, `likely`, `good`.
    Case,
    /// The links from the glass to rafter or soil, by their names.
    Link,
}

impl Axis {
    /// One row of it in a word or two.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Month => "month",
            Self::LogDay => "day",
            Self::Point => "point",
            Self::Upkeep => "task",
            Self::Hole => "hole",
            Self::Riser => "riser",
            Self::RiserBar | Self::HeaderBar | Self::TimberBar => "bar",
            Self::Offcut => "offcut",
            Self::Joint => "joint",
            Self::Part => "part",
            Self::Choice => "choice",
            Self::DepthLayer => "layer",
            Self::WeepHole => "weep hole",
            Self::Strip => "strip",
            Self::ScrewLine => "line of screws",
            Self::Screw => "screw",
            Self::Run => "run",
            Self::PanelGroup => "group of panels",
            Self::TimberCut | Self::SheetCut => "cut",
            Self::SheetPlan => "sheet",
            Self::Celsius => "°C",
            Self::Material => "material",
            Self::Mount => "mount",
            Self::TestRule => "rule",
            Self::Case => "case",
            Self::Link => "link",
        }
    }

    /// Whether a key can stand on this axis at all; how many there are depends on the project.
    pub fn takes(self, key: &str) -> bool {
        if matches!(self, Self::Material | Self::Link | Self::Case | Self::TestRule) {
            return !key.is_empty();
        }
        let number: Option<i32> = key.parse().ok().filter(|number: &i32| number.to_string() == key);
        number.is_some_and(|number| match self {
            Self::Celsius | Self::Material | Self::Link | Self::Case | Self::TestRule => true,
            Self::Month => (1..=12).contains(&number),
            Self::LogDay | Self::Point | Self::Upkeep => number > 0,
            Self::Hole
            | Self::Riser
            | Self::RiserBar
            | Self::HeaderBar
            | Self::Offcut
            | Self::Joint
            | Self::Part
            | Self::Choice
            | Self::DepthLayer
            | Self::WeepHole
            | Self::Strip
            | Self::ScrewLine
            | Self::Screw
            | Self::Mount
            | Self::Run
            | Self::PanelGroup
            | Self::TimberBar
            | Self::TimberCut
            | Self::SheetPlan
            | Self::SheetCut => number >= 1,
        })
    }
}

/// How a figure wants to be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// As its kind is printed.
    Plain,
    /// A length that is marked or cut: tape marks in US units, millimetres in SI.
    Tape,
    /// In the units that the trade uses for this very thing, whatever its kind and size.
    In(TradeUnits),
}

/// A computed figure.
pub struct Figure {
    /// The id, `stage.name_with_underscores`.
    pub id: &'static str,
    /// A short name for people.
    pub label: &'static str,
    /// What it is a number of; none for words.
    pub kind: Option<Kind>,
    /// The axis it runs over, if it stands for several.
    pub axis: Option<Axis>,
    /// How it wants to be printed.
    pub show: Show,
    /// Reads it from the solution; the key is empty without an axis.
    pub read: fn(&Solution, &str) -> Fig<Value>,
    /// The formula, symbols in braces.
    pub formula: &'static str,
    /// What each symbol of the formula is: symbol and id.
    pub terms: &'static [(&'static str, &'static str)],
    /// The method's name in docs/methods.md.
    pub method: &'static str,
    /// The part of the solution it comes from.
    pub group: &'static Group,
}

impl Figure {
    /// A figure that is a number.
    pub const fn new(
        id: &'static str,
        label: &'static str,
        kind: Kind,
        group: &'static Group,
        read: fn(&Solution, &str) -> Fig<Value>,
    ) -> Self {
        Self {
            id,
            label,
            kind: Some(kind),
            axis: None,
            show: Show::Plain,
            read,
            formula: "",
            terms: &[],
            method: "",
            group,
        }
    }

    /// A figure that is a word.
    pub const fn word(
        id: &'static str,
        label: &'static str,
        group: &'static Group,
        read: fn(&Solution, &str) -> Fig<Value>,
    ) -> Self {
        let mut figure = Self::new(id, label, Kind::Number, group, read);
        figure.kind = None;
        figure
    }

    /// Runs over an axis.
    #[must_use]
    pub const fn axis(mut self, axis: Axis) -> Self {
        self.axis = Some(axis);
        self
    }

    /// Printed as a tape mark.
    #[must_use]
    pub const fn tape(mut self) -> Self {
        self.show = Show::Tape;
        self
    }

    /// Printed in the trade's units of this thing.
    #[must_use]
    pub const fn shown_in(mut self, units: TradeUnits) -> Self {
        self.show = Show::In(units);
        self
    }

    /// Gives the formula with its symbols in braces, what each symbol is, and the method's name in docs/methods.md.
    #[must_use]
    pub const fn by(
        mut self,
        method: &'static str,
        formula: &'static str,
        terms: &'static [(&'static str, &'static str)],
    ) -> Self {
        self.method = method;
        self.formula = formula;
        self.terms = terms;
        self
    }

    /// The stage that it belongs to.
    pub fn stage(&self) -> Stage {
        Stage::of_id(self.id).unwrap_or(Stage::Site)
    }
}

/// All entries that a figure, or an entry itself, can depend on.
pub fn depends(id: &str) -> BTreeSet<&'static str> {
    match (figure(id), entry(id)) {
        (Some((figure, _)), _) => figure.group.depends(),
        (None, Some(spec)) => BTreeSet::from([spec.id]),
        (None, None) => BTreeSet::new(),
    }
}
