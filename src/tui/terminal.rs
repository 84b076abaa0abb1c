//! The terminal: taken, given back on every way out, lent to the shell while suspended.
//!
//! ratatui's own `init` is not used: it knows nothing of paste and focus, and its panic hook gives the terminal back
//! for any thread while the screen goes on drawing.

use std::io::{self, Stdout, stdout};
use std::panic;
use std::thread;

use crossterm::event::{DisableBracketedPaste, DisableFocusChange, EnableBracketedPaste, EnableFocusChange};
use crossterm::{cursor, execute, style, terminal};
use ratatui::backend::CrosstermBackend;
use ratatui::layout::{Position, Rect};
use ratatui::{Frame, Terminal};

/// The terminal in our hands. Dropping it gives it back.
pub struct Screen {
    // None only after a hangup: then not even ratatui's own drop may write to the terminal.
    terminal: Option<Terminal<CrosstermBackend<Stdout>>>,
}

impl Screen {
    /// Takes the terminal.
    ///
    /// From now on a panic of this thread gives it back before it is told; a panic of any other thread is handed to
    /// `worker_failed` and nothing is written.
    pub fn take(worker_failed: impl Fn(String) + Send + Sync + 'static) -> io::Result<Self> {
        // Without this crossterm writes, where NO_COLOR is set, a sequence that takes bold and reverse away as well.
        style::force_color_output(true);
        hook(worker_failed);
        if let Err(error) = modes_on() {
            modes_off();
            return Err(error);
        }
        match Terminal::new(CrosstermBackend::new(stdout())) {
            Ok(terminal) => Ok(Self { terminal: Some(terminal) }),
            Err(error) => {
                modes_off();
                Err(error)
            }
        }
    }

    /// Columns and rows.
    pub fn size(&self) -> io::Result<(u16, u16)> {
        terminal::size()
    }

    /// Draws what has changed.
    pub fn draw(&mut self, draw: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        match &mut self.terminal {
            Some(terminal) => terminal.draw(draw).map(drop),
            None => Ok(()),
        }
    }

    /// Rings the terminal's bell.
    pub fn ring(&self) -> io::Result<()> {
        execute!(stdout(), style::Print('\u{7}'))
    }

    /// Takes the terminal again after the program was stopped, and draws everything anew at the next draw.
    pub fn take_again(&mut self) -> io::Result<()> {
        // The shell may have changed the modes; crossterm remembers only its own first change.
        let _ = terminal::disable_raw_mode();
        modes_on()?;
        let (width, height) = terminal::size()?;
        let area = Rect { x: Position::ORIGIN.x, y: Position::ORIGIN.y, width, height };
        // Not `clear`: that asks the terminal for its cursor and waits for an answer.
        self.terminal.as_mut().map_or(Ok(()), |terminal| terminal.resize(area))
    }

    /// Gives the terminal to the shell and stops until the shell wakes the program.
    #[cfg(unix)]
    pub fn suspend(&mut self) -> io::Result<()> {
        modes_off();
        // Not SIGSTOP: without a shell nobody would ever wake us; SIGTSTP is ignored then and we go on.
        rustix::process::kill_current_process_group(rustix::process::Signal::TSTP)?;
        self.take_again()
    }

    /// Elsewhere there is no shell to go back to.
    #[cfg(not(unix))]
    pub fn suspend(&mut self) -> io::Result<()> {
        Ok(())
    }

    /// The terminal is gone: forget it without a byte of output.
    pub fn abandon(mut self) {
        std::mem::forget(self.terminal.take());
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        if let Some(terminal) = self.terminal.take() {
            drop(terminal);
            modes_off();
        }
    }
}

fn modes_on() -> io::Result<()> {
    terminal::enable_raw_mode()?;
    execute!(stdout(), terminal::EnterAlternateScreen, EnableBracketedPaste, EnableFocusChange)
}

/// Gives the terminal back; every step is tried even if one fails.
fn modes_off() {
    let _ = execute!(stdout(), DisableFocusChange, DisableBracketedPaste, terminal::LeaveAlternateScreen, cursor::Show);
    let _ = terminal::disable_raw_mode();
}

fn hook(worker_failed: impl Fn(String) + Send + Sync + 'static) {
    let own = thread::current().id();
    let before = panic::take_hook();
    panic::set_hook(Box::new(move |info| {
        if thread::current().id() == own {
            modes_off();
            before(info);
        } else {
            worker_failed(info.to_string());
        }
    }));
}
