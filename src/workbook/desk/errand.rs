//! Errands: what is computed only when somebody asks for it, on a worker of its own, the newest first.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

use super::super::sway::{self, Sway};
use super::super::{Workbook, fingerprint, mend, sky};
use crate::model::Address;
use crate::solve::{Evaluation, Snapshot};
use crate::stage::plumbing::mend::Candidate;
use crate::stage::study::{Cancel, STUDIES};

/// What is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Errand {
    /// What moves a figure.
    Sway(Address),
    /// The project with the values of a variant.
    Variant(String),
    /// The cheapest change that mends a check which stops.
    Mend(&'static str),
}

/// What came back, and for which revision of the text.
#[derive(Clone, Debug)]
pub struct Found {
    /// The revision that it was computed for.
    pub revision: u64,
    /// What it is.
    pub what: What,
}

/// What came back.
#[derive(Clone, Debug)]
pub enum What {
    /// What moves a figure, as far as it was tried.
    Sway(Sway),
    /// The project with the values of a variant, every study run anew where it must be.
    Variant(String, Arc<Evaluation>),
    /// The change that mends a check; none of those tried does without it.
    Mend(&'static str, Option<Candidate>),
}

struct Request {
    errand: Errand,
    revision: u64,
    snapshot: Snapshot,
    variant: crate::model::Entries,
    cancel: Cancel,
}

/// The desk. Dropping it lets the worker finish and go.
pub struct ErrandDesk {
    requests: Sender<Request>,
    running: Option<(Errand, u64, Cancel)>,
}

impl ErrandDesk {
    /// Starts the worker; everything found goes to `deliver`, on the worker's thread.
    pub fn start(deliver: impl Fn(Found) + Send + 'static) -> Self {
        let (requests, inbox) = channel();
        thread::spawn(move || work(&inbox, &deliver));
        Self { requests, running: None }
    }

    /// Asks for what is wanted now; what nobody wants any more is cancelled.
    pub fn ask(&mut self, workbook: &Workbook, wanted: Option<&Errand>) {
        let revision = workbook.revision();
        let same = |(errand, of, _): &(Errand, u64, Cancel)| Some(errand) == wanted && *of == revision;
        if self.running.as_ref().is_some_and(same) || (self.running.is_none() && wanted.is_none()) {
            return;
        }
        if let Some((.., cancel)) = self.running.take() {
            cancel.cancel();
        }
        let Some(errand) = wanted else { return };
        let variant = match errand {
            Errand::Variant(name) => workbook.variant(name).cloned().unwrap_or_default(),
            Errand::Sway(_) | Errand::Mend(_) => BTreeMap::new(),
        };
        let cancel = Cancel::default();
        self.running = Some((errand.clone(), revision, cancel.clone()));
        let snapshot = workbook.snapshot();
        // If the worker is gone, what was asked for stays marked as being computed.
        let _ = self.requests.send(Request { errand: errand.clone(), revision, snapshot, variant, cancel });
    }
}

fn work(inbox: &Receiver<Request>, deliver: &dyn Fn(Found)) {
    while let Ok(mut request) = inbox.recv() {
        while let Ok(newer) = inbox.try_recv() {
            request = newer;
        }
        run(&request, deliver);
    }
}

fn run(request: &Request, deliver: &dyn Fn(Found)) {
    let revision = request.revision;
    match &request.errand {
        Errand::Sway(of) => sway::run(&request.snapshot, of, &request.cancel, &mut |sway| {
            deliver(Found { revision, what: What::Sway(sway.clone()) });
        }),
        Errand::Mend(check) => {
            let found = mend::cheapest(&request.snapshot, check, &request.cancel);
            if !request.cancel.is_cancelled() {
                deliver(Found { revision, what: What::Mend(check, found) });
            }
        }
        Errand::Variant(name) => {
            if let Some(evaluation) = variant(&request.snapshot, &request.variant, &request.cancel) {
                deliver(Found { revision, what: What::Variant(name.clone(), Arc::new(evaluation)) });
            }
        }
    }
}

/// The project with other values: first what is quick, then the studies whose inputs differ. Values that the weather
/// hangs on are left as drawn, because weather is read by the workbook only.
pub fn variant(snapshot: &Snapshot, values: &crate::model::Entries, cancel: &Cancel) -> Option<Evaluation> {
    let values: BTreeMap<_, _> =
        values.iter().filter(|(id, _)| !sky::reads(id)).map(|(id, given)| (id.clone(), given.clone())).collect();
    let quick = sway::over(snapshot, &values, &[], cancel)?;
    let before = crate::solve::evaluate(snapshot);
    let differs = |index: &usize| fingerprint(*index, &quick.drawn.inputs) != fingerprint(*index, &before.drawn.inputs);
    let studies: Vec<usize> = (0..STUDIES.len()).filter(differs).collect();
    sway::over(snapshot, &values, &studies, cancel)
}
