//! What a newcomer tries first, told on the page of the day and ticked off by doing it.

use super::command::Act;
use super::state::State;

/// One thing to try: what counts as done, and the words.
struct Lesson {
    acts: &'static [Act],
    words: &'static str,
}

/// In this order; each works in the sample and in an empty project alike.
const LESSONS: [Lesson; 7] = [
    Lesson { acts: &[Act::NextStage], words: "Right turns the page, Left back: go to the absorber" },
    Lesson { acts: &[Act::Commit], words: "Down to 'riser pitch', Enter, type 5 in, Enter: see what moves" },
    Lesson { acts: &[Act::Undo], words: "u takes a change back, as far back as you like" },
    Lesson { acts: &[Act::Explain], words: "e on a line explains it: formula, numbers, source" },
    Lesson { acts: &[Act::Find], words: "f finds anything by a part of its name" },
    Lesson { acts: &[Act::Bench], words: "b goes to the bench: a job's figures in large type" },
    Lesson { acts: &[Act::Panel], words: "p shows a panel as built, n the other units" },
];

/// Notes that something was done that a lesson asks for.
pub fn note(state: &mut State, act: Act) {
    if let Some(done) = &mut state.lessons {
        done.insert(act);
        if LESSONS.iter().all(|lesson| lesson.acts.iter().any(|act| done.contains(act))) {
            state.lessons = None;
        }
    }
}

/// The lessons with what is done; none once all are, or where there is nobody to teach.
pub fn words(state: &State) -> Vec<String> {
    let Some(done) = &state.lessons else { return Vec::new() };
    let line = |lesson: &Lesson| {
        let mark = if lesson.acts.iter().any(|act| done.contains(act)) { "[x]" } else { "[ ]" };
        format!("{mark} {}", lesson.words)
    };
    LESSONS.iter().map(line).collect()
}
