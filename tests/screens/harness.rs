//! Plays key scripts against the real state on a terminal of text.

use std::path::PathBuf;
use std::sync::Arc;

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use sunharp::project::draft::Drafts;
use sunharp::project::store::RealDisk;
use sunharp::tui::command::Place;
use sunharp::tui::event::{Input, Key};
use sunharp::tui::theme::Theme;
use sunharp::tui::{Setup, State, draw, start, update};
use sunharp::workbook::Workbook;

/// The sample project.
pub const SAMPLE: &str = include_str!("../../sample-projects/garden-washroom.toml");

/// A project of which nothing is built yet. It is the tests' own, so that the sample may tell another story.
pub const TRIAL: &str = include_str!("trial.toml");

/// Colours and all characters.
pub const FULL: Theme = Theme { colors: true, ascii: false };

/// A workbook on a terminal of text, in a folder of its own.
pub struct Play {
    pub state: State,
    terminal: Terminal<TestBackend>,
    folder: tempfile::TempDir,
}

impl Play {
    /// Opens a project of this text.
    pub fn of(text: &str, theme: Theme, size: (u16, u16)) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("project.toml"), text).unwrap();
        Self::in_folder(folder, theme, size)
    }

    fn in_folder(folder: tempfile::TempDir, theme: Theme, size: (u16, u16)) -> Self {
        let today = "2026-05-02".parse().unwrap();
        let path = folder.path().join("project.toml");
        let workbook = Workbook::open(Arc::new(RealDisk), &path, today).unwrap();
        let drafts = Some(Drafts::in_folder(folder.path().join("drafts")));
        let mut state = start(workbook, Setup { theme, size, drafts, demo: false });
        state.resume(0);
        // What the program says at the start is not to be lost.
        if state.place() == Place::Page && state.workbook.project().problems.is_empty() {
            update(&mut state, [Input::Key(Key::Right)]);
        }
        let terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
        Self { state, terminal, folder }
    }

    /// The page of the day, where every session begins; the other plays begin at the first stage.
    pub fn at_the_day(&mut self) -> &mut Self {
        self.press("t").shows("[today]")
    }

    /// The trial project at the size that screens are designed for.
    pub fn trial() -> Self {
        Self::of(TRIAL, FULL, (80, 24))
    }

    /// Ends the session as a crash would, keeping what the loop keeps, and opens the file again.
    pub fn crash_and_reopen(self) -> Self {
        let Self { mut state, folder, .. } = self;
        state.keep_draft().unwrap();
        state.keep_marks(true);
        drop(state);
        Self::in_folder(folder, FULL, (80, 24))
    }

    /// Presses the keys of a script, one by one.
    pub fn press(&mut self, script: &str) -> &mut Self {
        for key in Key::script(script) {
            update(&mut self.state, [Input::Key(key)]);
        }
        self
    }

    /// Lets one input act.
    pub fn give(&mut self, input: Input) -> &mut Self {
        update(&mut self.state, [input]);
        self
    }

    /// Gives the terminal another size.
    pub fn resize(&mut self, columns: u16, rows: u16) -> &mut Self {
        self.terminal.backend_mut().resize(columns, rows);
        self.terminal.resize(Rect::new(0, 0, columns, rows)).unwrap();
        self.give(Input::Resize(columns, rows))
    }

    /// What is drawn now, cell by cell.
    pub fn buffer(&mut self) -> Buffer {
        self.terminal.draw(|frame| draw(&self.state, frame)).unwrap();
        self.terminal.backend().buffer().clone()
    }

    /// What is drawn now, as text.
    pub fn screen(&mut self) -> String {
        let buffer = self.buffer();
        let width = usize::from(buffer.area.width).max(1);
        let rows = buffer.content.chunks(width).map(|row| {
            let text: String = row.iter().map(ratatui::buffer::Cell::symbol).collect();
            text.trim_end().to_owned() + "\n"
        });
        rows.collect()
    }

    /// The file on the disk.
    pub fn file(&self) -> String {
        std::fs::read_to_string(self.path()).unwrap()
    }

    /// Where the file is.
    pub fn path(&self) -> PathBuf {
        self.folder.path().join("project.toml")
    }

    /// Fails with the screen if a text is not on it.
    pub fn shows(&mut self, text: &str) -> &mut Self {
        let screen = self.screen();
        assert!(screen.contains(text), "{text:?} is not on the screen:\n{screen}");
        self
    }

    /// Fails with the screen if a text is on it.
    pub fn hides(&mut self, text: &str) -> &mut Self {
        let screen = self.screen();
        assert!(!screen.contains(text), "{text:?} is on the screen:\n{screen}");
        self
    }
}
