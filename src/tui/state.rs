//! What is on screen: the open project, where the builder is in it, and what lies over the page.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

mod over;

pub use over::{Answer, Find, Over, Question, Sheet, Subject, Writing};

use super::bench::Bench;
use super::command::{Act, Place};
use super::ink::Role;
use super::layout::{self, Areas, Plan};
use super::page::{self, Line};
use super::theme::Theme;
use crate::model::{Address, PanelLetter, Stage, Why};
use crate::project::draft::{Drafts, Marks};
use crate::solve::Evaluation;
use crate::solve::judge::Judged;
use crate::stage;
use crate::stage::plumbing::mend::Candidate;
use crate::units::System;
use crate::workbook::changes::Changes;
use crate::workbook::desk::Errand;
use crate::workbook::sway::Sway;
use crate::workbook::today::{self, Today};
use crate::workbook::{Differences, Workbook, compare};

/// What a session begins with.
#[derive(Clone, Debug)]
pub struct Setup {
    /// How it looks.
    pub theme: Theme,
    /// Columns and rows of the terminal.
    pub size: (u16, u16),
    /// Where drafts are kept, if they are.
    pub drafts: Option<Drafts>,
    /// The project is the sample.
    pub demo: bool,
}

/// Everything on screen.
pub struct State {
    /// The open project.
    pub workbook: Workbook,
    pub(super) setup: Setup,
    /// Whether the page of the day is shown; else that of the stage.
    pub(super) is_today: bool,
    pub(super) stage: Stage,
    /// The builder's place on the pages: of each stage, and last of the day.
    pub(super) spots: [Spot; 7],
    /// The day's work, as far as it was worked out.
    pub(super) day: Day,
    /// What has been tried of the lessons; none if there is nobody to teach.
    pub(super) lessons: Option<BTreeSet<Act>>,
    pub(super) marks: Marks,
    /// The marks as they are kept on the disk.
    pub(super) kept_marks: Marks,
    /// What is asked of the errand desk.
    pub(super) errand: Option<Errand>,
    /// What was found of what moves a figure.
    pub(super) sway: Option<Sway>,
    /// What happened since the last commit, as it was when it was asked for.
    pub(super) since: Option<Changes>,
    /// The change found to mend a check, and for which revision.
    pub(super) mend: Option<(&'static str, u64, Option<Candidate>)>,
    /// The variant that was computed last: its name, the revision, everything.
    pub(super) variant: Option<(String, u64, Arc<Evaluation>)>,
    /// The day and time at which the session began, in seconds of the common clock.
    pub(super) began: u64,
    /// Figures and steps whose rows are shown one by one.
    pub(super) unfolded: BTreeSet<&'static str>,
    pub(super) panel: Option<PanelLetter>,
    pub(super) other_units: bool,
    /// What lies over the page; the last one has the keys.
    pub(super) over: Vec<Over>,
    pub(super) message: Message,
    pub(super) last: Option<LastChange>,
    /// What the program is asked to do outside the screen.
    pub(super) want: Option<Want>,
    pub(super) opened_with: String,
    /// Whether the project stands on the disk at all.
    pub(super) on_disk: bool,
    pub(super) kept: Option<Unsaved>,
    pub(super) bench: Bench,
    /// The time since the session began, as the loop last told it.
    pub(super) now: Duration,
}

/// Where the builder is on the page of a stage.
#[derive(Clone, Debug, Default)]
pub struct Spot {
    /// The line that keys act on.
    pub line: Option<Line>,
    /// Where it was, should it go away.
    pub index: usize,
    /// The first line in view.
    pub top: usize,
}

/// The day's work, and the evaluation that it was worked out from.
#[derive(Default)]
pub struct Day {
    pub of: Option<Arc<Evaluation>>,
    pub found: Today,
}

/// What the program says in its line.
#[derive(Clone, Debug)]
pub struct Message {
    pub role: Role,
    pub text: String,
}

/// The last change and what it moved.
pub struct LastChange {
    pub label: String,
    pub before: Arc<Evaluation>,
    pub differences: Differences,
}

/// What the program is asked to do outside the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Want {
    /// End.
    Quit,
    /// Hand a text to the clipboard of the terminal.
    Copy(String),
    /// Give the terminal back to the shell until resumed.
    Suspend,
}

/// Unsaved work: the revision of the text, and the field that is being typed in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsaved {
    pub revision: u64,
    pub field: Option<(String, String)>,
}

impl State {
    /// A session that begins; [`super::start`] asks about drafts.
    pub(super) fn new(workbook: Workbook, setup: Setup) -> Self {
        let opened_with = workbook.text().to_owned();
        let on_disk = !workbook.is_dirty();
        let is_new = setup.demo || workbook.project().entries.keys().all(|id| id.starts_with("project."));
        let lessons = is_new.then(BTreeSet::new);
        let hint = "arrows move, Enter acts, Esc shows everything that can be done, ? all keys";
        Self {
            workbook,
            setup,
            is_today: true,
            stage: Stage::Site,
            spots: Default::default(),
            day: Day::default(),
            lessons,
            marks: Marks::default(),
            kept_marks: Marks::default(),
            errand: None,
            sway: None,
            since: None,
            mend: None,
            variant: None,
            began: 0,
            unfolded: BTreeSet::new(),
            panel: None,
            other_units: false,
            over: Vec::new(),
            message: Message { role: Role::Quiet, text: hint.to_owned() },
            last: None,
            want: None,
            opened_with,
            on_disk,
            kept: None,
            bench: Bench::default(),
            now: Duration::ZERO,
        }
    }

    /// The look.
    pub fn theme(&self) -> Theme {
        self.setup.theme
    }

    /// What is asked of the program outside the screen; asked once.
    pub fn take_want(&mut self) -> Option<Want> {
        self.want.take()
    }

    /// The stage whose page is shown.
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// Where keys go at the moment.
    pub fn place(&self) -> Place {
        match self.over.last() {
            None => Place::Page,
            Some(Over::Form(_)) => Place::Form,
            Some(Over::Sheet(_)) => Place::Sheet,
            Some(Over::Question(_)) => Place::Question,
            Some(Over::Picture(_)) => Place::Picture,
            Some(Over::Find(_)) => Place::Find,
            Some(Over::Bench) => Place::Bench,
        }
    }

    /// The family of units that results are shown in.
    pub(super) fn system(&self) -> System {
        match (self.workbook.evaluation().system(), self.other_units) {
            (System::Us, false) | (System::Si, true) => System::Us,
            _ => System::Si,
        }
    }

    /// How the screen is divided; none if it is too small.
    pub(super) fn areas(&self) -> Option<Areas> {
        layout::areas(self.setup.size, self.plan())
    }

    /// By what plan the screen is divided.
    pub(super) fn plan(&self) -> Plan {
        match self.over.last() {
            None => Plan::Page,
            Some(Over::Bench) => Plan::Bench,
            Some(_) if self.is_at_bench() => Plan::OverBench,
            Some(Over::Form(_) | Over::Question(_)) => Plan::Form,
            Some(Over::Sheet(_) | Over::Find(_) | Over::Picture(_)) => Plan::Sheet,
        }
    }

    /// Whether the bench cards are shown, or something over them.
    pub(super) fn is_at_bench(&self) -> bool {
        self.over.iter().any(|over| matches!(over, Over::Bench))
    }

    /// When the screen changes by itself: at the next second of a running clock, since the session began.
    pub fn next_tick(&self) -> Option<Duration> {
        let clock = self.bench.clock.as_ref().filter(|clock| !clock.is_told)?;
        let left = clock.left(self.now);
        let rest = Duration::from_nanos(u64::from(left.subsec_nanos()));
        let step = if rest.is_zero() { Duration::from_secs(1) } else { rest };
        Some(self.now + step.min(left.max(Duration::from_nanos(1))))
    }

    /// Whether the terminal is asked to ring; asked once.
    pub fn take_ring(&mut self) -> bool {
        std::mem::take(&mut self.bench.rings)
    }

    /// The thing of an id as the page shows it: as drawn, or on the panel that is shown.
    pub(super) fn shown(&self, id: &str) -> Address {
        Address { id: id.to_owned(), panel: self.panel }
    }

    /// The verdict of a check as it is shown: for the panel that is looked at where it is judged for each, else the
    /// worst.
    pub(super) fn judged(&self, id: &str) -> Option<&Judged> {
        let evaluation = self.workbook.evaluation();
        evaluation.verdict_of(&self.shown(id)).or_else(|| evaluation.verdict(id))
    }

    pub(super) fn spot(&self) -> &Spot {
        &self.spots[self.spot_index()]
    }

    pub(super) fn spot_mut(&mut self) -> &mut Spot {
        let index = self.spot_index();
        &mut self.spots[index]
    }

    fn spot_index(&self) -> usize {
        if self.is_today { Stage::ALL.len() } else { self.stage_index() }
    }

    /// Works the day out anew if anything has changed since.
    pub(super) fn settle_day(&mut self) {
        let evaluation = self.workbook.evaluation();
        let is_new = self.day.of.as_ref().is_none_or(|of| !Arc::ptr_eq(of, evaluation));
        if is_new {
            let found = today::today(evaluation, &self.workbook.project().records);
            self.day = Day { of: Some(Arc::clone(evaluation)), found };
        }
    }

    /// What was found to mend a check as the text stands now; none while it is being looked for.
    pub(super) fn mend_of(&self, check: &str) -> Option<&Option<Candidate>> {
        let (_, _, mend) =
            self.mend.as_ref().filter(|(of, revision, _)| *of == check && *revision == self.workbook.revision())?;
        Some(mend)
    }

    /// What the errand desk is to do.
    pub fn errand(&self) -> Option<&Errand> {
        self.errand.as_ref()
    }

    /// The time now, in seconds of the common clock.
    pub(super) fn clock(&self) -> u64 {
        self.began + self.now.as_secs()
    }

    pub(super) fn stage_index(&self) -> usize {
        Stage::ALL.iter().position(|stage| *stage == self.stage).unwrap_or(0)
    }

    /// The lines of the page and which of them keys act on.
    pub(super) fn lines(&self) -> (Vec<Line>, usize) {
        let lines = page::lines(self);
        let spot = self.spot();
        let place = spot.line.as_ref().and_then(|line| lines.iter().position(|other| other == line));
        let index = place.unwrap_or_else(|| page::nearest(&lines, spot.index));
        (lines, index)
    }

    /// The line that keys act on.
    pub(super) fn selected(&self) -> Option<Line> {
        let (mut lines, index) = self.lines();
        (index < lines.len()).then(|| lines.swap_remove(index)).filter(Line::is_selectable)
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        self.message = Message { role: Role::Plain, text: text.into() };
    }

    pub(super) fn refuse(&mut self, text: impl Into<String>) {
        self.message = Message { role: Role::Refused, text: text.into() };
    }

    /// Whether quitting now would lose work of the builder's. A sample that nobody touched is no work.
    pub(super) fn has_unsaved_work(&self) -> bool {
        self.workbook.is_dirty() && (self.on_disk || self.workbook.text() != self.opened_with)
    }

    /// What is not on the disk now; none if nothing would be lost.
    pub(super) fn unsaved(&self) -> Option<Unsaved> {
        let field = self.over.iter().rev().find_map(|over| match over {
            Over::Form(form) => form.half_typed(),
            _ => None,
        });
        let lost = self.has_unsaved_work() || field.is_some();
        lost.then(|| Unsaved { revision: self.workbook.revision(), field })
    }

    /// Whether the draft that is kept is not of what is unsaved now.
    pub(super) fn draft_is_due(&self) -> bool {
        self.setup.drafts.is_some() && self.unsaved() != self.kept
    }

    /// Keeps or drops the draft so that it is of what is unsaved now.
    pub fn keep_draft(&mut self) -> std::io::Result<()> {
        // Remembered even if keeping fails: it is told once, and tried again at the next change.
        self.kept = self.unsaved();
        let Some(drafts) = &self.setup.drafts else { return Ok(()) };
        if let Some(Unsaved { field, .. }) = &self.kept {
            let field = field.as_ref().map(|(id, typed)| (id.as_str(), typed.as_str()));
            return self.workbook.keep_draft(drafts, field);
        }
        self.workbook.drop_draft(drafts);
        Ok(())
    }

    /// Takes up the marks of an earlier session, and the time at which this one begins.
    pub fn resume(&mut self, began: u64) {
        self.began = began;
        let Some(drafts) = &self.setup.drafts else { return };
        self.marks = self.workbook.marks(drafts);
        self.kept_marks = self.marks.clone();
        self.bench.resume(&self.marks);
    }

    /// Keeps pins, running hours and, at the end, the place at the bench.
    pub fn keep_marks(&mut self, at_the_end: bool) {
        if at_the_end {
            self.bench.remember(&mut self.marks);
        }
        let Some(drafts) = self.setup.drafts.as_ref().filter(|_| self.marks != self.kept_marks) else { return };
        // Marks are a convenience: where they cannot be kept, work goes on without them.
        let _ = self.workbook.keep_marks(drafts, &self.marks);
        self.kept_marks = self.marks.clone();
    }

    /// Compares again what the last change moved; studies may have come back since.
    pub(super) fn compare_again(&mut self) {
        if let Some(last) = &mut self.last {
            let mut differences = compare::differences(&last.before, self.workbook.evaluation());
            let pending = |moved: &compare::Moved| [&moved.was, &moved.is].contains(&&Err(Why::Pending));
            differences.moved.retain(|moved| !pending(moved));
            last.differences = differences;
        }
    }

    /// How many declared figures moved; the rows of one axis count once, panels do not count again.
    pub(super) fn figures_moved(differences: &Differences) -> usize {
        let ids: BTreeSet<&str> = differences
            .moved
            .iter()
            .filter_map(|moved| stage::figure(&moved.address.id))
            .map(|(figure, _)| figure.id)
            .collect();
        ids.len()
    }
}
