//! What is on screen: the open project, where the builder is in it, and what lies over the page.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

use super::bench::Bench;
use super::command::{Act, Place};
use super::form::Form;
use super::ink::Role;
use super::layout::{self, Areas, Plan};
use super::page::{self, Line};
use super::theme::Theme;
use crate::model::{Address, PanelLetter, Stage, Why};
use crate::project::draft::{Draft, Drafts};
use crate::solve::Evaluation;
use crate::solve::judge::Judged;
use crate::stage;
use crate::units::System;
use crate::workbook::{Differences, Workbook, compare, find::Hit};

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
    pub(super) stage: Stage,
    pub(super) spots: [Spot; 6],
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
    /// Whether the terminal is asked to ring.
    pub(super) rings: bool,
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

/// What lies over a page.
pub enum Over {
    /// Fields to type in.
    Form(Box<Form>),
    /// A text.
    Sheet(Sheet),
    /// A question with answers.
    Question(Question),
    /// A picture of the stage, by its place among them.
    Picture(usize),
    /// Finding by name.
    Find(Find),
    /// The bench cards.
    Bench,
}

/// What a sheet is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A figure or entry: formula, numbers, source.
    Figure(Address),
    /// A check in full.
    Check(&'static str),
    /// A step in full.
    Step(Address),
    /// What the last change moved.
    Moved,
    /// What is wrong in the file.
    Faults,
    /// All keys.
    Help,
}

/// A text over the page.
#[derive(Clone, Debug)]
pub struct Sheet {
    pub subject: Subject,
    /// The row that keys act on.
    pub at: usize,
    /// The first row in view.
    pub top: usize,
}

/// A question.
pub struct Question {
    pub title: String,
    pub says: Vec<String>,
    pub answers: Vec<(String, Answer)>,
    pub at: usize,
}

/// What an answer does.
#[derive(Clone, Debug)]
pub enum Answer {
    Run(Act),
    GoBack,
    SaveAndQuit,
    QuitWithoutSaving,
    KeepBeside,
    TakeTheirs,
    TakeDraft(Box<Draft>),
    GiveUpDraft,
    /// A second person has read a step back; an empty name is still to be typed.
    ReadBack(Address, String),
    /// A sign-off is taken back for a reason; an empty one is still to be typed.
    TakeBack(Address, String),
}

/// Finding by name.
#[derive(Default)]
pub struct Find {
    pub typed: tui_input::Input,
    pub hits: Vec<Hit>,
    pub at: usize,
    pub top: usize,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Want {
    /// End.
    Quit,
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
        let hint = "arrows move, Enter acts, Esc shows everything that can be done, ? all keys";
        Self {
            workbook,
            setup,
            stage: Stage::Site,
            spots: Default::default(),
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
            rings: false,
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
        std::mem::take(&mut self.rings)
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
        &self.spots[self.stage_index()]
    }

    pub(super) fn spot_mut(&mut self) -> &mut Spot {
        let index = self.stage_index();
        &mut self.spots[index]
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
