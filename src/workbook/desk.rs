//! The desk where studies are done: one worker thread, the newest request wins.

mod errand;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

use super::{Workbook, fingerprint};
use crate::model::Why;
use crate::stage::Solution;
use crate::stage::study::{Cancel, Outcome, STUDIES};

pub use errand::{Errand, ErrandDesk, Found, What};

/// What came back from one study.
#[derive(Clone, Debug)]
pub struct Report {
    /// The study, as its place in the declared list.
    pub study: usize,
    /// What it was computed from.
    pub fingerprint: String,
    /// What it found.
    pub outcome: Outcome,
}

struct Request {
    studies: Vec<usize>,
    solution: Arc<Solution>,
    cancel: Cancel,
}

/// The desk. Dropping it lets the worker finish and go.
pub struct Desk {
    requests: Sender<Request>,
    running: Option<(u64, Cancel)>,
}

impl Desk {
    /// Starts the worker; every report goes to `deliver`, on the worker's thread.
    pub fn start(deliver: impl Fn(Report) + Send + 'static) -> Self {
        let (requests, inbox) = channel();
        thread::spawn(move || work(&inbox, &deliver));
        Self { requests, running: None }
    }

    /// Asks for the studies that are due; a request for an older text is cancelled.
    pub fn ask(&mut self, workbook: &Workbook) {
        let revision = workbook.revision();
        if self.running.as_ref().is_some_and(|(asked, _)| *asked == revision) {
            return;
        }
        if let Some((_, cancel)) = self.running.take() {
            cancel.cancel();
        }
        let studies = workbook.due_studies();
        let cancel = Cancel::default();
        self.running = Some((revision, cancel.clone()));
        if !studies.is_empty() {
            let solution = Arc::clone(&workbook.evaluation().drawn);
            // If the worker is gone, figures that wait for it stay marked as being computed.
            let _ = self.requests.send(Request { studies, solution, cancel });
        }
    }
}

fn work(inbox: &Receiver<Request>, deliver: &dyn Fn(Report)) {
    while let Ok(mut request) = inbox.recv() {
        while let Ok(newer) = inbox.try_recv() {
            request = newer;
        }
        for study in request.studies {
            let run = || (STUDIES[study].run)(&request.solution, &request.cancel);
            let outcome = catch_unwind(AssertUnwindSafe(run)).unwrap_or_else(|_| Some(failed(study)));
            if let Some(outcome) = outcome.filter(|_| !request.cancel.is_cancelled()) {
                deliver(Report { study, fingerprint: fingerprint(study, &request.solution.inputs), outcome });
            }
        }
    }
}

/// What a study that panicked counts as: its figures say so, the program goes on.
fn failed(study: usize) -> Outcome {
    let reason = format!("the study '{}' failed; please report this with the project file", STUDIES[study].id);
    (STUDIES[study].failed)(Why::OutOfRange(reason))
}
