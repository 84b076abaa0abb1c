//! What is slow by nature: studies over a drawn solution, run on a worker and laid into later evaluations.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::Solution;
use super::enclosure::cutting::TimberCut;
use super::enclosure::sheets::SheetCutting;
use super::plumbing::year::Year;
use super::plumbing::year::choices::Choices;
use super::plumbing::year::worst_days::WorstDays;
use super::site::orientation::Orientation;
use super::site::spacing::RowShade;
use crate::model::{Fig, Why};
use crate::physics::cutting::Plan;

/// Tells a running study that nobody waits for it any more.
#[derive(Clone, Debug, Default)]
pub struct Cancel(Arc<AtomicBool>);

impl Cancel {
    /// Asks the study to give up.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether it was asked to.
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

/// The results of all studies; what has not come back is pending.
#[derive(Clone, Debug)]
pub struct Studies {
    /// What the sun gives in a year.
    pub year: Fig<Arc<Year>>,
    /// The worst days.
    pub worst_days: Fig<Arc<WorstDays>>,
    /// One step up and one step down.
    pub choices: Fig<Arc<Choices>>,
    /// How the risers are cut.
    pub riser_cuts: Fig<Arc<Plan>>,
    /// How the headers are cut.
    pub header_cuts: Fig<Arc<Plan>>,
    /// How rails and strips are cut.
    pub timber_cuts: Fig<Arc<Vec<TimberCut>>>,
    /// How sheets are cut.
    pub sheet_cuts: Fig<Arc<Vec<SheetCutting>>>,
    /// The best tilt and the best way to face.
    pub orientation: Fig<Arc<Orientation>>,
    /// What rows take from each other.
    pub row_shade: Fig<Arc<RowShade>>,
}

impl Default for Studies {
    fn default() -> Self {
        Self {
            year: Err(Why::Pending),
            worst_days: Err(Why::Pending),
            choices: Err(Why::Pending),
            riser_cuts: Err(Why::Pending),
            header_cuts: Err(Why::Pending),
            timber_cuts: Err(Why::Pending),
            sheet_cuts: Err(Why::Pending),
            orientation: Err(Why::Pending),
            row_shade: Err(Why::Pending),
        }
    }
}

/// One declared study.
pub struct Study {
    /// Its name in ids and on screen.
    pub id: &'static str,
    /// A short name for people.
    pub label: &'static str,
    /// Runs it; none if it was cancelled.
    pub run: fn(&Solution, &Cancel) -> Option<Outcome>,
    /// The outcome that says why there is none.
    pub failed: fn(Why) -> Outcome,
    /// What it reads.
    pub group: &'static super::Group,
}

/// What a study brings back.
#[derive(Clone, Debug)]
pub enum Outcome {
    /// The year.
    Year(Fig<Arc<Year>>),
    /// The worst days.
    WorstDays(Fig<Arc<WorstDays>>),
    /// One step up and one step down.
    Choices(Fig<Arc<Choices>>),
    /// How the risers are cut.
    RiserCuts(Fig<Arc<Plan>>),
    /// How the headers are cut.
    HeaderCuts(Fig<Arc<Plan>>),
    /// How rails and strips are cut.
    TimberCuts(Fig<Arc<Vec<TimberCut>>>),
    /// How sheets are cut.
    SheetCuts(Fig<Arc<Vec<SheetCutting>>>),
    /// The best tilt and the best way to face.
    Orientation(Fig<Arc<Orientation>>),
    /// What rows take from each other.
    RowShade(Fig<Arc<RowShade>>),
}

impl Outcome {
    /// Lays the result into the set.
    pub fn lay_into(self, studies: &mut Studies) {
        match self {
            Self::Year(year) => studies.year = year,
            Self::WorstDays(days) => studies.worst_days = days,
            Self::Choices(choices) => studies.choices = choices,
            Self::RiserCuts(plan) => studies.riser_cuts = plan,
            Self::HeaderCuts(plan) => studies.header_cuts = plan,
            Self::TimberCuts(plans) => studies.timber_cuts = plans,
            Self::SheetCuts(plans) => studies.sheet_cuts = plans,
            Self::Orientation(found) => studies.orientation = found,
            Self::RowShade(shade) => studies.row_shade = shade,
        }
    }
}

/// All studies.
pub static STUDIES: &[Study] = &[
    Study {
        id: "year",
        label: "the year, hour by hour",
        run: super::plumbing::year::study,
        failed: |why| Outcome::Year(Err(why)),
        group: &super::plumbing::year::YEAR,
    },
    Study {
        id: "riser-cuts",
        label: "the best way to cut the risers",
        run: super::absorber::cutting::study,
        failed: |why| Outcome::RiserCuts(Err(why)),
        group: &super::absorber::cutting::RISER_CUTS,
    },
    Study {
        id: "header-cuts",
        label: "the best way to cut the headers",
        run: super::absorber::header_cuts::study,
        failed: |why| Outcome::HeaderCuts(Err(why)),
        group: &super::absorber::header_cuts::HEADER_CUTS,
    },
    Study {
        id: "timber-cuts",
        label: "the best way to cut the timber",
        run: super::enclosure::cutting::study,
        failed: |why| Outcome::TimberCuts(Err(why)),
        group: &super::enclosure::cutting::TIMBER_CUTS,
    },
    Study {
        id: "sheet-cuts",
        label: "the best way to cut the sheets",
        run: super::enclosure::sheets::study,
        failed: |why| Outcome::SheetCuts(Err(why)),
        group: &super::enclosure::sheets::SHEET_CUTS,
    },
    Study {
        id: "tilt",
        label: "the best tilt and way to face",
        run: super::site::orientation::study,
        failed: |why| Outcome::Orientation(Err(why)),
        group: &super::site::orientation::ORIENTATION,
    },
    Study {
        id: "row-shade",
        label: "the shade of one row on the next",
        run: super::site::spacing::study,
        failed: |why| Outcome::RowShade(Err(why)),
        group: &super::site::spacing::ROW_SHADE,
    },
    Study {
        id: "worst-days",
        label: "the worst days, minute by minute",
        run: super::plumbing::year::worst_days::study,
        failed: |why| Outcome::WorstDays(Err(why)),
        group: &super::plumbing::year::worst_days::WORST_DAYS,
    },
    Study {
        id: "one-step",
        label: "one step up and one step down",
        run: super::plumbing::year::choices::study,
        failed: |why| Outcome::Choices(Err(why)),
        group: &super::plumbing::year::choices::CHOICES,
    },
];
