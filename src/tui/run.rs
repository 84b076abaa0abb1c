//! The loop: one thread owns the state and the screen and waits on one channel for keys, signals and reports.

use std::io;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::{Duration, Instant, SystemTime};

use super::event::Input;
use super::state::{Setup, State, Want};
use super::terminal::Screen;
use super::theme::Theme;
use super::{Ended, Options, TuiError, draw, start, update};
use crate::workbook::desk::ErrandDesk;
use crate::workbook::{Desk, Workbook};

/// The longest time that unsaved work is kept nowhere but in memory.
const DRAFT_AFTER: Duration = Duration::from_millis(700);

/// What wakes the loop.
enum News {
    Input(Input),
    /// The terminal has another size.
    Resized,
    /// The program was stopped and goes on.
    Resumed,
    /// A signal asks the program to end.
    End(i32),
    /// The terminal is gone.
    Hangup,
}

/// Shows the workbook until the builder leaves.
pub fn run(workbook: Workbook, options: Options) -> Result<Ended, TuiError> {
    let theme = Theme::settle(options.color, options.glyphs, |name| std::env::var(name).ok());
    let (sender, inbox) = channel();
    let panics = sender.clone();
    let mut screen = Screen::take(move |words| {
        let _ = panics.send(News::Input(Input::WorkerFailed(words))); // nobody listens once the loop has ended
    })?;
    listen::signals(&sender)?;
    listen::keys(&sender)?;
    let reports = sender.clone();
    let desk = Desk::start(move |report| {
        let _ = reports.send(News::Input(Input::Report(Box::new(report))));
    });
    let finds = sender.clone();
    let errands = ErrandDesk::start(move |found| {
        let _ = finds.send(News::Input(Input::Found(Box::new(found))));
    });
    let setup = Setup { theme, size: screen.size()?, drafts: options.drafts, demo: options.demo };
    let mut state = start(workbook, setup);
    let now = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH);
    state.resume(now.map_or(0, |now| now.as_secs()));
    let mut session = Session { state, desk, errands, draft_due: None, began: Instant::now() };
    let ended = session.until_end(&mut screen, &inbox);
    session.leave(ended);
    if ended == Ended::Hangup {
        screen.abandon();
    }
    Ok(ended)
}

struct Session {
    state: State,
    desk: Desk,
    errands: ErrandDesk,
    /// When the draft must be kept.
    draft_due: Option<Instant>,
    began: Instant,
}

impl Session {
    /// Goes on until the end. A terminal that fails is one that is gone.
    fn until_end(&mut self, screen: &mut Screen, inbox: &Receiver<News>) -> Ended {
        loop {
            match self.turn(screen, inbox) {
                Ok(None) => {}
                Ok(Some(ended)) => return ended,
                Err(_) => return Ended::Hangup,
            }
        }
    }

    /// Draws, waits for news and lets it act; tells the end.
    fn turn(&mut self, screen: &mut Screen, inbox: &Receiver<News>) -> io::Result<Option<Ended>> {
        screen.draw(|frame| draw(&self.state, frame))?;
        if self.state.take_ring() {
            screen.ring()?;
        }
        self.desk.ask(&self.state.workbook);
        self.errands.ask(&self.state.workbook, self.state.errand());
        let Some(news) = self.wait(inbox) else { return Ok(None) };
        let mut inputs = vec![Input::Time(self.began.elapsed())];
        let mut ended = None;
        for news in std::iter::once(news).chain(inbox.try_iter()) {
            match news {
                News::Input(input) => inputs.push(input),
                News::Resized => {
                    let (columns, rows) = screen.size()?;
                    inputs.push(Input::Resize(columns, rows));
                }
                News::Resumed => {
                    screen.take_again()?;
                    inputs.push(Input::Back);
                }
                News::End(number) => ended = Some(Ended::Signal(number)),
                News::Hangup => ended = Some(Ended::Hangup),
            }
            if ended.is_some() {
                break; // the system wakes a stopped program right after a hangup; nothing may be drawn then
            }
        }
        // What was typed before the end belongs into the draft.
        update(&mut self.state, inputs);
        if ended.is_some() {
            return Ok(ended);
        }
        self.state.keep_marks(false);
        match self.state.take_want() {
            Some(Want::Copy(text)) => screen.copy(&text)?,
            Some(Want::Quit) => return Ok(Some(Ended::Quit)),
            Some(Want::Suspend) => {
                screen.suspend()?;
                update(&mut self.state, [Input::Back]);
            }
            None => {}
        }
        Ok(None)
    }

    /// Waits for news, without end unless a draft is due or a clock runs; none if it was their time.
    fn wait(&mut self, inbox: &Receiver<News>) -> Option<News> {
        self.draft_due = if self.state.draft_is_due() {
            self.draft_due.or_else(|| Some(Instant::now() + DRAFT_AFTER))
        } else {
            None
        };
        let tick = self.state.next_tick().map(|tick| self.began + tick);
        let Some(due) = self.draft_due.into_iter().chain(tick).min() else {
            return inbox.recv().ok().or(Some(News::Hangup));
        };
        match inbox.recv_timeout(due.saturating_duration_since(Instant::now())) {
            Ok(news) => Some(news),
            Err(RecvTimeoutError::Disconnected) => Some(News::Hangup),
            Err(RecvTimeoutError::Timeout) => {
                if self.draft_due.is_some_and(|due| due <= Instant::now()) {
                    self.draft_due = None;
                    self.keep_draft();
                }
                update(&mut self.state, [Input::Time(self.began.elapsed())]);
                None
            }
        }
    }

    fn keep_draft(&mut self) {
        if let Err(error) = self.state.keep_draft() {
            update(&mut self.state, [Input::DraftFailed(error.to_string())]);
        }
    }

    /// Leaves the draft as it has to be: kept if the end was not the builder's will, gone if nothing is unsaved.
    fn leave(&mut self, ended: Ended) {
        self.state.keep_marks(true);
        if ended != Ended::Quit || self.state.draft_is_due() {
            let _ = self.state.keep_draft(); // there is no screen left to tell a failure on
        }
    }
}

#[cfg(unix)]
mod listen {
    //! The threads that wait for signals and for keys.

    use super::{Input, News, Sender};
    use rustix::event::{PollFd, PollFlags, poll};
    use rustix::io::Errno;
    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM, SIGWINCH};
    use signal_hook::iterator::Signals;
    use std::io;
    use std::thread;
    use std::time::Duration;

    /// Waits for signals.
    pub fn signals(sender: &Sender<News>) -> io::Result<()> {
        let sender = sender.clone();
        let mut signals = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGCONT, SIGWINCH])?;
        thread::Builder::new().name("signals".to_owned()).spawn(move || {
            for signal in signals.forever() {
                let news = match signal {
                    SIGWINCH => News::Resized,
                    SIGCONT => News::Resumed,
                    SIGHUP => News::Hangup,
                    other => News::End(other),
                };
                if sender.send(news).is_err() {
                    return;
                }
            }
        })?;
        Ok(())
    }

    /// Waits for keys. The terminal itself is polled, since crossterm spins on one that is gone.
    pub fn keys(sender: &Sender<News>) -> io::Result<()> {
        let sender = sender.clone();
        thread::Builder::new().name("keys".to_owned()).spawn(move || {
            while is_readable() {
                if !drain(&sender) {
                    return;
                }
            }
            let _ = sender.send(News::Hangup); // nobody listens once the loop has ended
        })?;
        Ok(())
    }

    /// Waits until the terminal has something; false once it is gone.
    fn is_readable() -> bool {
        loop {
            let mut ends = [PollFd::from_borrowed_fd(rustix::stdio::stdin(), PollFlags::IN)];
            match poll(&mut ends, None) {
                Err(Errno::INTR) => {}
                Err(_) => return false,
                Ok(_) => return !ends[0].revents().intersects(PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL),
            }
        }
    }

    /// Passes on all events that are there; false if nobody listens or the terminal fails.
    fn drain(sender: &Sender<News>) -> bool {
        while let Ok(true) = crossterm::event::poll(Duration::ZERO) {
            let Ok(event) = crossterm::event::read() else {
                let _ = sender.send(News::Hangup);
                return false;
            };
            if let Some(input) = Input::of_event(event)
                && sender.send(News::Input(input)).is_err()
            {
                return false;
            }
        }
        true
    }
}

#[cfg(not(unix))]
mod listen {
    //! The thread that waits for keys; there are no signals here.

    use super::{Input, News, Sender};
    use std::io;
    use std::thread;

    /// There are none.
    pub fn signals(_sender: &Sender<News>) -> io::Result<()> {
        Ok(())
    }

    /// Waits for keys.
    pub fn keys(sender: &Sender<News>) -> io::Result<()> {
        let sender = sender.clone();
        thread::Builder::new().name("keys".to_owned()).spawn(move || {
            while let Ok(event) = crossterm::event::read() {
                if let Some(input) = Input::of_event(event)
                    && sender.send(News::Input(input)).is_err()
                {
                    return;
                }
            }
        })?;
        Ok(())
    }
}
