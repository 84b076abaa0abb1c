//! The real program in a real terminal: from its start to the first frame with figures, from a key to the frame that
//! answers it.
//!
//! Wanted: 50 ms to the first frame, 16 ms from a key. What the terminal itself takes is in it.

#![allow(clippy::unwrap_used)]

use std::io::{Read, Write};
use std::num::NonZero;
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex};
use std::thread;
use std::time::Duration;

use divan::Bencher;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

const SAMPLES: [&str; 3] = ["garden-washroom", "harbour-laundry", "boatyard-shower"];
/// How long a screen may take to come before the bench gives up.
const PATIENCE: Duration = Duration::from_secs(20);

/// The program on a terminal of 80 by 24.
struct Running {
    screen: Arc<(Mutex<vt100::Parser>, Condvar)>,
    keys: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    _terminal: Box<dyn MasterPty + Send>,
    _folder: tempfile::TempDir,
}

impl Running {
    fn start(sample: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-projects/{sample}.toml"));
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_sunharp"));
        command.arg(file);
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LC_ALL", "C.UTF-8");
        command.env("XDG_STATE_HOME", folder.path());
        let parser = vt100::Parser::new(NonZero::new(24).unwrap(), NonZero::new(80).unwrap(), 0);
        let screen = Arc::new((Mutex::new(parser), Condvar::new()));
        let shown = Arc::clone(&screen);
        let mut output = pair.master.try_clone_reader().unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        thread::spawn(move || {
            let mut bytes = [0_u8; 8192];
            while let Ok(count @ 1..) = output.read(&mut bytes) {
                shown.0.lock().unwrap().process(&bytes[..count]);
                shown.1.notify_all();
            }
        });
        let keys = pair.master.take_writer().unwrap();
        Self { screen, keys, child, _terminal: pair.master, _folder: folder }
    }

    /// Waits until the screen is as wanted; gives what is on it.
    fn wait(&self, wanted: impl Fn(&str) -> bool) -> String {
        let parser = self.screen.0.lock().unwrap();
        let waiting = |parser: &mut vt100::Parser| !wanted(&parser.screen().contents());
        let (parser, late) = self.screen.1.wait_timeout_while(parser, PATIENCE, waiting).unwrap();
        let text = parser.screen().contents();
        assert!(!late.timed_out(), "{text}");
        text
    }

    fn press(&mut self, keys: &str) {
        self.keys.write_all(keys.as_bytes()).unwrap();
        self.keys.flush().unwrap();
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// From the start of the process to the page of the day, whose counts come from the solved project.
#[divan::bench(args = SAMPLES, sample_count = 15, sample_size = 1)]
fn start_to_figures(bencher: Bencher, sample: &str) {
    bencher.bench_local(|| {
        let running = Running::start(sample);
        running.wait(|text| text.contains("steps done"));
        running
    });
}

/// From a key that moves down a stage's page, and up again, to the changed screen.
#[divan::bench(args = SAMPLES, sample_count = 50, sample_size = 1)]
fn key_to_screen(bencher: Bencher, sample: &str) {
    let mut running = Running::start(sample);
    running.wait(|text| text.contains("steps done"));
    running.press("\x1b[C");
    let mut before = running.wait(|text| text.contains("In short") && !text.contains("being computed"));
    let mut down = false;
    bencher.bench_local(|| {
        down = !down;
        running.press(if down { "\x1b[B" } else { "\x1b[A" });
        before = running.wait(|text| *text != before);
    });
}
