//! A program in a terminal of its own, read through a screen model.

use std::io::{Read, Write};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use rustix::process::{Pid, Signal, kill_process};

/// How long anything may take.
const PATIENCE: Duration = Duration::from_secs(20);

/// The program on a terminal of 80 by 24.
pub struct Session {
    screen: Arc<Mutex<vt100::Parser>>,
    keys: Option<Box<dyn Write + Send>>,
    child: Box<dyn Child + Send + Sync>,
    terminal: Option<Box<dyn MasterPty + Send>>,
    reader: Option<thread::JoinHandle<()>>,
    closing: Arc<AtomicBool>,
    folder: Arc<tempfile::TempDir>,
}

impl Session {
    /// Opens the trial project in a folder of its own.
    pub fn trial() -> Self {
        Self::with(&["project.toml"], &[])
    }

    /// Runs the program with these arguments in a folder that holds the trial project.
    pub fn with(arguments: &[&str], environment: &[(&str, &str)]) -> Self {
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_sunharp"));
        command.args(arguments);
        Self::start(command, environment)
    }

    /// Starts a command.
    pub fn start(command: CommandBuilder, environment: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let trial = include_str!("../screens/trial.toml");
        std::fs::write(folder.path().join("project.toml"), trial).unwrap();
        Self::launch(Arc::new(folder), command, environment)
    }

    /// Opens the project of an ended session once more, in its folder.
    pub fn again(self) -> Self {
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_sunharp"));
        command.args(["project.toml"]);
        Self::launch(Arc::clone(&self.folder), command, &[])
    }

    fn launch(folder: Arc<tempfile::TempDir>, mut command: CommandBuilder, environment: &[(&str, &str)]) -> Self {
        let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        command.cwd(folder.path());
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LC_ALL", "C.UTF-8");
        command.env("XDG_STATE_HOME", folder.path().join("state"));
        for (name, value) in environment {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let screen = Arc::new(Mutex::new(vt100::Parser::new(NonZero::new(24).unwrap(), NonZero::new(80).unwrap(), 0)));
        let mut output = pair.master.try_clone_reader().unwrap();
        let shown = Arc::clone(&screen);
        let closing = Arc::new(AtomicBool::new(false));
        let is_closing = Arc::clone(&closing);
        let reader = thread::spawn(move || {
            let mut bytes = [0_u8; 8192];
            while let Ok(count @ 1..) = output.read(&mut bytes) {
                shown.lock().unwrap().process(&bytes[..count]);
                if is_closing.load(Ordering::Relaxed) {
                    return;
                }
            }
        });
        let keys = Some(pair.master.take_writer().unwrap());
        Self { screen, keys, child, terminal: Some(pair.master), reader: Some(reader), closing, folder }
    }

    /// What is on the screen.
    pub fn text(&self) -> String {
        self.screen.lock().unwrap().screen().contents()
    }

    /// Waits until a text is on the screen.
    pub fn wait(&mut self, text: &str) -> &mut Self {
        self.until(&format!("{text:?} on the screen"), || self.text().contains(text));
        self
    }

    /// Waits until something holds.
    pub fn until(&self, what: &str, holds: impl Fn() -> bool) {
        let start = Instant::now();
        while !holds() {
            assert!(start.elapsed() < PATIENCE, "never came: {what}\n{}", self.text());
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Types.
    pub fn press(&mut self, keys: &str) -> &mut Self {
        let writer = self.keys.as_mut().unwrap();
        writer.write_all(keys.as_bytes()).unwrap();
        writer.flush().unwrap();
        self
    }

    /// Sends a signal to the program.
    pub fn signal(&self, signal: Signal) {
        kill_process(self.pid(), signal).unwrap();
    }

    /// The program's process.
    pub fn pid(&self) -> Pid {
        Pid::from_raw(i32::try_from(self.child.process_id().unwrap()).unwrap()).unwrap()
    }

    /// Closes the terminal, as a window that is shut does.
    ///
    /// The reader holds an end of it open while it waits; a key that makes the program draw wakes it first.
    pub fn close_terminal(&mut self) {
        self.closing.store(true, Ordering::Relaxed);
        self.press("\x1b[B");
        self.reader.take().unwrap().join().unwrap();
        self.keys = None;
        self.terminal = None;
    }

    /// Waits for the end and gives the exit code.
    pub fn end(&mut self) -> u32 {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status.exit_code();
            }
            assert!(start.elapsed() < PATIENCE, "did not end:\n{}", self.text());
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Waits until every mode that the program sets is off again.
    pub fn terminal_is_given_back(&self) {
        self.until("all modes off", || {
            let parser = self.screen.lock().unwrap();
            let screen = parser.screen();
            !screen.alternate_screen()
                && !screen.hide_cursor()
                && !screen.bracketed_paste()
                && screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None
        });
    }

    /// The project file.
    pub fn file(&self) -> String {
        std::fs::read_to_string(self.folder().join("project.toml")).unwrap()
    }

    /// The folder that the program runs in.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// The drafts that are kept.
    pub fn drafts(&self) -> Vec<PathBuf> {
        let folder = self.folder().join("state/sunharp/drafts");
        let files = std::fs::read_dir(folder).into_iter().flatten();
        files
            .map(|file| file.unwrap().path())
            .filter(|path| path.extension().is_some_and(|end| end == "json"))
            .collect()
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        let _ = self.child.kill(); // it has ended already in most tests
        let _ = self.child.wait();
    }
}
