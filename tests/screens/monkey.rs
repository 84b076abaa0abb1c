//! Random keys with a fixed seed: nothing panics, every command runs, nothing is lost.

use std::collections::BTreeSet;

use super::harness::{FULL, Play, SAMPLE};
use crate::support::Dice;
use sunharp::model::Stage;
use sunharp::project::Project;
use sunharp::tui::command::{self, Act, Place};
use sunharp::tui::event::{Input, Key};

/// A project without weather and glass: little can be computed, so that evaluating is quick.
const QUICK: &str = "format = 1\n\n[project]\nname = \"Quick\"\nbuilder = \"Ines\"\n\n[absorber]\nriser_count = 5\n\
                     riser_pitch = \"4 in\" # tape\n\n[panel.A]\n\n[panel.B]\n";

/// What a hand would type into a field.
const TYPED: [&str; 13] =
    ["4 in", "5 in", "2 in", "9 mm", "6", "12", "50 %", "60 °F", "2 gpm", "30 psi", "Ines", "35°", "4 kg"];

#[derive(Default)]
struct Seen {
    acts: BTreeSet<Act>,
    stages: BTreeSet<Stage>,
    edits: usize,
    saves: usize,
}

enum Stroke {
    Key(Key),
    Paste(&'static str),
}

struct Monkey {
    play: Play,
    dice: Dice,
    seen: Seen,
    first: String,
}

impl Monkey {
    fn new(text: &str, seed: u64) -> Self {
        Self { play: Play::of(text, FULL, (80, 24)), dice: Dice(seed), seen: Seen::default(), first: text.to_owned() }
    }

    fn run(mut self, strokes: usize) -> Self {
        let mut left = strokes;
        while left > 0 {
            if self.dice.below(40) == 0 {
                let (columns, rows) = (self.dice.below(180), self.dice.below(60));
                self.play.resize(u16::try_from(columns).unwrap(), u16::try_from(rows).unwrap());
            }
            for stroke in self.next() {
                match stroke {
                    Stroke::Key(key) => self.key(key),
                    Stroke::Paste(text) => {
                        self.play.give(Input::Paste(text.to_owned())).buffer();
                    }
                }
                left = left.saturating_sub(1);
            }
        }
        self
    }

    /// The next few strokes: a key that means something here, a stray one, or a value and Enter.
    fn next(&mut self) -> Vec<Stroke> {
        let place = self.play.state.place();
        let keys = match (place, self.dice.below(10)) {
            (_, 0) => vec![Key::Char(char::from(u8::try_from(self.dice.below(94)).unwrap() + 33))],
            (Place::Form, 1..=2) => return self.value(&[Key::Ctrl('u')]),
            (Place::Form, 3..=6) | (Place::Sheet | Place::Question | Place::Picture | Place::Bench, 1..=4) => {
                vec![Key::Esc]
            }
            (Place::Form, 7..=8) => vec![self.dice.pick(&[Key::Down, Key::Tab, Key::Enter, Key::Esc]), Key::Enter],
            (Place::Find, 1..=3) => {
                Key::script(self.dice.pick(&["a", "t", "<Enter>", "pitch<Enter>", "step<Down><Enter>"]))
            }
            (Place::Page, 1) => Key::script(self.dice.pick(&["b<Right>t", "b<Left> ", "b<Tab>e", "bp<Down>"])),
            (Place::Picture, 5..=7) => vec![self.dice.pick(&[Key::Left, Key::Right])],
            (Place::Page, 2) => vec![self.dice.pick(&[Key::Down, Key::Enter, Key::Right, Key::PageDown])],
            (Place::Page, 3) => vec![Key::Down, Key::Enter, Key::Down, Key::Enter],
            (Place::Page, 4..=7) => {
                let to = self.dice.pick(&[Key::Up, Key::Down, Key::Down, Key::Home]);
                return self.value(&[to, Key::Enter]);
            }
            _ => {
                let commands: Vec<&command::Command> = command::at(place).collect();
                let keys = self.dice.pick(&commands).keys;
                vec![self.dice.pick(keys)]
            }
        };
        keys.into_iter().map(Stroke::Key).collect()
    }

    /// Some keys, then a value in one go, then Enter.
    fn value(&mut self, keys: &[Key]) -> Vec<Stroke> {
        let mut strokes: Vec<Stroke> = keys.iter().copied().map(Stroke::Key).collect();
        strokes.push(Stroke::Paste(self.dice.pick(&TYPED)));
        strokes.push(Stroke::Key(Key::Enter));
        strokes
    }

    fn key(&mut self, key: Key) {
        let place = self.play.state.place();
        let was_dirty = self.play.state.workbook.is_dirty();
        let before = self.play.state.workbook.revision();
        let act = command::act(place, key);
        self.seen.acts.extend(act);
        sunharp::tui::update(&mut self.play.state, [Input::Key(key)]);
        self.play.state.take_want();
        self.seen.stages.insert(self.play.state.stage());
        if act == Some(Act::Commit) && self.play.state.workbook.revision() != before {
            self.seen.edits += 1;
        }
        self.play.buffer();
        if was_dirty && !self.play.state.workbook.is_dirty() && act != Some(Act::Undo) && act != Some(Act::Redo) {
            self.check_file();
        }
    }

    fn check_file(&mut self) {
        let file = self.play.file();
        if file == self.play.state.workbook.text() {
            self.seen.saves += 1;
        }
        let project = Project::read(&file);
        assert!(project.read_only().is_none(), "{:?}\n{file}", project.problems);
    }

    /// Takes everything back, by key, and compares with the first text.
    fn undo_all(&mut self) {
        self.play.resize(80, 24);
        while self.play.state.place() != Place::Page {
            self.play.press("<Esc>");
        }
        while self.play.state.workbook.can_undo() {
            self.play.press("u");
        }
        assert_eq!(self.play.state.workbook.text(), self.first);
    }
}

#[test]
fn fifteen_thousand_random_keys_on_a_quick_project_lose_nothing() {
    let mut monkey = Monkey::new(QUICK, 7).run(15_000);
    let all: BTreeSet<Act> = command::COMMANDS.iter().map(|command| command.act).collect();
    let never: Vec<&Act> = all.difference(&monkey.seen.acts).collect();
    assert!(never.is_empty(), "never run: {never:?}");
    assert_eq!(monkey.seen.stages.len(), Stage::ALL.len());
    assert!(monkey.seen.edits >= 200, "{} edits", monkey.seen.edits);
    assert!(monkey.seen.saves > 0);
    monkey.undo_all();
}

#[test]
fn three_hundred_random_keys_on_the_sample_lose_nothing() {
    let mut monkey = Monkey::new(SAMPLE, 11);
    // All stages and the page of the day.
    for _ in 0..=Stage::ALL.len() {
        monkey.key(Key::Right);
    }
    let mut monkey = monkey.run(300);
    assert_eq!(monkey.seen.stages.len(), Stage::ALL.len());
    monkey.undo_all();
}
