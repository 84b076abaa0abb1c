//! The six stages of a build, in their order.

/// A stage of the build.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// Sun, weather, water and place.
    Site,
    /// The copper harp and its sheet.
    Absorber,
    /// Box, insulation, glass and rack.
    Enclosure,
    /// Loop, tank and what the sun will give in a year.
    Plumbing,
    /// The judge over the whole project.
    Safety,
    /// Tests, fill, settings and proof.
    Commissioning,
}

impl Stage {
    /// All stages in the order in which they are worked.
    pub const ALL: [Self; 6] =
        [Self::Site, Self::Absorber, Self::Enclosure, Self::Plumbing, Self::Safety, Self::Commissioning];

    /// The word used for the stage in ids, in the file and on screen.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Site => "site",
            Self::Absorber => "absorber",
            Self::Enclosure => "enclosure",
            Self::Plumbing => "plumbing",
            Self::Safety => "safety",
            Self::Commissioning => "commissioning",
        }
    }

    /// The stage that an id belongs to, by its first word.
    pub fn of_id(id: &str) -> Option<Self> {
        let first = id.split('.').next()?;
        Self::ALL.into_iter().find(|stage| stage.word() == first)
    }
}
