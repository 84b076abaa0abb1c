//! The program: picks the face and nothing else.

use std::process::ExitCode;

use sunharp::cli;

fn main() -> ExitCode {
    match cli::parse(std::env::args_os()) {
        Ok(command) => cli::report(&command),
        Err(code) => code,
    }
}
