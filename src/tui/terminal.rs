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

    /// Hands a text to the terminal's clipboard by the operating system command 52, which works through ssh as well.
    /// Whether the terminal takes it cannot be known.
    pub fn copy(&self, text: &str) -> io::Result<()> {
        execute!(stdout(), style::Print(format!("\u{1b}]52;c;{}\u{7}", base64(text.as_bytes()))))
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

/// Bytes as base 64 (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let packed =
            three.iter().fold(0_usize, |packed, byte| packed << 8 | usize::from(*byte)) << (8 * (3 - three.len()));
        for place in 0..4 {
            let letter = LETTERS[packed >> (18 - 6 * place) & 63];
            text.push(if place <= three.len() { char::from(letter) } else { '=' });
        }
    }
    text
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

#[cfg(test)]
mod tests {
    use super::base64;

    #[test]
    fn base_64_agrees_with_the_test_vectors_of_its_standard() {
        // RFC 4648, section 10.
        let pairs =
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foob", "Zm9vYg=="), ("foobar", "Zm9vYmFy")];
        for (text, wanted) in pairs {
            assert_eq!(base64(text.as_bytes()), wanted);
        }
    }
}
