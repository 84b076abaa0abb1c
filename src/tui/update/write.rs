//! Writing down: notes, hours, log entries, overrulings, readings taken back, panels added.

use super::super::bench;
use super::super::form::{Field, Form, Purpose, Slot};
use super::super::page::Line;
use super::super::state::{Answer, Over, Question, State, Subject, Writing};
use super::super::words;
use super::{changing, form};
use crate::model::{Address, text::clean};
use crate::project::draft::Working;
use crate::solve::progress::Standing;
use crate::stage::{self, Severity};
use crate::workbook::record::{NewNote, NewOverruling};
use crate::workbook::today::hours;

/// How many readings of a line can be taken back from the list; older ones by hand in the file.
const READINGS: usize = 3;

/// Asks what to write down about the line, or about the card.
pub fn open(state: &mut State) {
    if form::refuses_writing(state) {
        return;
    }
    let mut answers = vec![("back; nothing is written".to_owned(), Answer::GoBack)];
    let subject = subject(state);
    if let Some(of) = &subject {
        let name = words::name(state, of);
        answers.push((format!("a note on {name}"), Answer::Write(Writing::Note(of.clone()))));
        answers.extend(about_step(state, of));
        answers.extend(about_check(state, of));
        answers.extend(readings(state, of));
    }
    answers.push(("the log: test, fault, repair, top-up, decision".to_owned(), Answer::Write(Writing::Log)));
    if let Some(panel) = state.workbook.next_panel() {
        answers.push((format!("add panel {panel} to the project"), Answer::Write(Writing::Panel)));
    }
    let at = usize::from(answers.len() > 1);
    let says = vec!["Records are only added; u takes the last one out again.".to_owned()];
    state.over.push(Over::Question(Question { title: "write down".to_owned(), says, answers, at }));
}

/// What the line, or the card's step, is about.
fn subject(state: &State) -> Option<Address> {
    if state.is_at_bench() {
        return bench::step(state, state.bench.card()?).map(|of| of.address.clone());
    }
    match state.selected()? {
        Line::Entry(id) | Line::Figure(id) => Some(state.shown(&id)),
        Line::Step(address) => Some(address),
        Line::Check(id) | Line::Rows(id) | Line::Panels(id) => Some(Address::drawn(id)),
        Line::Heading(_) | Line::Answer(_) | Line::Says(_) | Line::Conflict(_) | Line::Hazard(_) => None,
    }
}

fn about_step(state: &State, of: &Address) -> Vec<(String, Answer)> {
    if state.workbook.evaluation().step(of).is_none() {
        return Vec::new();
    }
    let hand = ("hours that it took".to_owned(), Answer::Write(Writing::Hours(of.clone())));
    let mut answers = time_of(state, of, hand);
    answers.extend(out_of_order(state, of));
    answers
}

/// A step that only waits may be done before the others with a written reason.
fn out_of_order(state: &State, of: &Address) -> Option<(String, Answer)> {
    let state = state.workbook.evaluation().step(of)?;
    let Standing::Waiting(first) = &state.standing else { return None };
    if first.iter().any(|before| state.step.firm.contains(&before.id.as_str())) {
        return None;
    }
    let text = "do it before the steps that come first, with a reason and two names".to_owned();
    Some((text, Answer::Write(Writing::Overrule(of.clone()))))
}

fn time_of(state: &State, of: &Address, hand: (String, Answer)) -> Vec<(String, Answer)> {
    match &state.marks.working_on {
        Some(working) if working.step == of.to_string() => {
            let taken = hours(seconds(state, working));
            vec![(format!("stop counting the time: {taken} so far"), Answer::Write(Writing::Hours(of.clone())))]
        }
        Some(working) => {
            vec![(format!("start counting the time on it, and drop that on {}", clean(&working.step)), begin(of)), hand]
        }
        None => vec![("start counting the time that it takes".to_owned(), begin(of)), hand],
    }
}

fn begin(of: &Address) -> Answer {
    Answer::Write(Writing::Begin(of.clone()))
}

fn seconds(state: &State, working: &Working) -> f64 {
    std::time::Duration::from_secs(state.clock().saturating_sub(working.since)).as_secs_f64()
}

fn about_check(state: &State, of: &Address) -> Option<(String, Answer)> {
    let judged = state.workbook.evaluation().verdict(&of.id).filter(|judged| judged.blocks())?;
    if !judged.check.can_be_overruled {
        return None;
    }
    let panel = judged.address.panel.or(judged.panel);
    let of = Address { id: of.id.clone(), panel };
    let text = format!("overrule this stop{}, with a reason and two names", words::on_panel(panel));
    Some((text, Answer::Write(Writing::Overrule(of))))
}

fn readings(state: &State, of: &Address) -> Vec<(String, Answer)> {
    let records = &state.workbook.project().records;
    let mut found: Vec<_> = records
        .readings
        .iter()
        .filter(|reading| reading.of.id == of.id && reading.withdrawn.is_none())
        .filter(|reading| of.panel.is_none() || reading.of.panel == of.panel)
        .collect();
    found.sort_by_key(|reading| std::cmp::Reverse((reading.date, reading.key.clone())));
    let answer = |reading: &&crate::model::Reading| {
        let whose = words::on_panel(reading.of.panel);
        let text = format!("take back the reading {}{whose} of {}", clean(&reading.typed), reading.date);
        (text, Answer::Write(Writing::Reading(reading.of.clone(), reading.key.clone())))
    };
    found.iter().take(READINGS).map(answer).collect()
}

/// Goes on with what was chosen.
pub fn begin_writing(state: &mut State, writing: Writing) {
    match writing {
        Writing::Log => {
            let sorts = ["test", "fault", "repair", "top-up", "decision"];
            let sorts = sorts.map(|sort| (sort.to_owned(), String::new())).to_vec();
            let fields = vec![
                Field::new(Slot::Main, "what", "what happened, in a few words"),
                Field::new(Slot::Sort, "sort", "what sort of event").choosing(sorts, ""),
                form::who(state),
            ];
            form::push(state, Form::new(Purpose::Log, "log entry", fields));
        }
        Writing::Note(of) => {
            let fields = vec![
                Field::new(Slot::Main, "note", "what the next one should know"),
                form::who(state),
                Field::new(Slot::File, "file", "a photo or paper, named from the project's folder; may stay empty"),
            ];
            let title = format!("note on {}", words::name(state, &of));
            form::push(state, Form::new(Purpose::Note(of), title, fields));
        }
        Writing::Begin(of) => {
            state.marks.working_on = Some(Working { step: of.to_string(), since: state.clock() });
            let name = words::name(state, &of);
            state.say(format!("the time on it counts; c on it stops: {name}"));
        }
        Writing::Hours(of) => {
            let working = state.marks.working_on.as_ref().filter(|working| working.step == of.to_string());
            let taken = working.map_or_else(String::new, |working| hours(seconds(state, working).max(60.0)));
            let fields = vec![
                Field::new(Slot::Main, "time", "how long it took, such as 1.5 h or 40 min").holding(&taken),
                form::who(state),
            ];
            let title = format!("hours on {}", words::name(state, &of));
            form::push(state, Form::new(Purpose::Hours(of), title, fields));
        }
        Writing::Overrule(of) => overrule(state, of),
        Writing::Reading(of, key) => {
            let field = Field::new(Slot::Main, "reason", "why the reading does not hold");
            let title = format!("take back a reading of {}", words::name(state, &of));
            form::push(state, Form::new(Purpose::TakeBackReading(of, key), title, vec![field]));
        }
        Writing::Panel => {
            let panel = state.workbook.next_panel().map_or_else(String::new, |panel| panel.to_string());
            changing::change(state, format!("panel {panel} added"), |workbook| workbook.add_panel().map(drop));
        }
    }
}

fn overrule(state: &mut State, of: Address) {
    let deadly = stage::check(&of.id).is_some_and(|check| check.severity == Severity::Deadly);
    let licensed = stage::step(&of.id).is_some_and(|step| step.licensed);
    let mut fields = vec![
        Field::new(Slot::Main, "reason", "why the work may go on all the same"),
        form::who(state),
        Field::new(Slot::Second, "and who", "the second person who decides it"),
    ];
    if deadly {
        fields.push(Field::new(Slot::Licensed, "licensed", "this can kill: which of the two is the licensed person"));
    }
    if licensed {
        fields.push(Field::new(Slot::Licensed, "licensed", "licensed work: which of the two is the licensed person"));
    }
    let what = if stage::step(&of.id).is_some() { "out of order" } else { "overrule" };
    let title = format!("{what}: {}", words::name(state, &of));
    form::push(state, Form::new(Purpose::Overrule(of), title, fields));
}

/// Takes what was typed; false if it is refused.
pub fn take(state: &mut State, form: &Form) -> bool {
    let main = form.value(Slot::Main);
    let by = form.value(Slot::Who);
    match &form.purpose {
        Purpose::Log => {
            if main.is_empty() {
                state.refuse("write down what happened");
                return false;
            }
            let sort = form.value(Slot::Sort);
            changing::change(state, format!("log: {main}"), |workbook| workbook.add_log(&sort, &by, &main))
        }
        Purpose::Note(of) => {
            let note = NewNote { text: main, by, file: form.value(Slot::File) };
            let label = format!("note on {}", words::name(state, of));
            changing::change(state, label, |workbook| workbook.add_note(of, &note))
        }
        Purpose::Hours(of) => {
            let label = format!("{main} on {}", words::name(state, of));
            let taken = changing::change(state, label, |workbook| workbook.add_hours(of, &main, &by, ""));
            if taken {
                state.marks.working_on.take_if(|working| working.step == of.to_string());
            }
            taken
        }
        Purpose::Overrule(of) => {
            let (second, licensed) = (form.value(Slot::Second), form.value(Slot::Licensed));
            let overruling = NewOverruling { reason: main, by, second, licensed };
            if stage::step(&of.id).is_some() {
                let label = format!("out of order: {}", words::name(state, of));
                return changing::change(state, label, |workbook| workbook.let_come_first(of, &overruling));
            }
            let label = format!("overruled: {}", words::name(state, of));
            changing::change(state, label, |workbook| workbook.overrule(of, &overruling))
        }
        Purpose::TakeBackReading(of, key) => {
            let label = format!("reading of {} taken back", words::name(state, of));
            changing::change(state, label, |workbook| workbook.withdraw_reading(of, key, &main))
        }
        _ => true, // the other purposes are taken where they are opened
    }
}

/// Everything that was recorded about the line, or everything at all where nothing was.
pub fn records_of(state: &State) -> Subject {
    Subject::Records(subject(state).filter(|of| words::records::any(state, of)))
}
