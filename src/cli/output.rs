//! Writing to the standard output and the standard error; a reader that goes away is no error.

use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

use super::failure;

/// Prints an answer. A closed pipe ends quietly; a full disk is told.
pub fn print(text: &str, code: u8) -> ExitCode {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            notice(&format!("the answer cannot be written: {error}\n"));
            ExitCode::from(failure::FILE)
        }
        _ => ExitCode::from(code),
    }
}

/// Prints to the standard error; if nobody reads it, nobody is told.
pub fn notice(text: &str) {
    let mut err = io::stderr().lock();
    let _ = err.write_all(text.as_bytes()).and_then(|()| err.flush());
}
