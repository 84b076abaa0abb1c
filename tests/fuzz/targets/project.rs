//! Any text as a project file: problems or entries, and an evaluation; never a panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sunharp::project::Project;

fuzz_target!(|bytes: &[u8]| {
    let (text, project) = Project::read_bytes(bytes);
    for problem in &project.problems {
        assert!(problem.span.start <= problem.span.end && problem.span.end <= text.len().max(1));
    }
});
