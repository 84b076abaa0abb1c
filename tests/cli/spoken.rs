//! The words that are printed: nothing that a terminal would obey, no promise, who has the last word.

use super::*;

#[test]
fn nothing_that_a_terminal_would_obey_is_ever_printed() {
    let (_folder, path) = project(HOSTILE);
    let commands: [&[&str]; 9] = [
        &["open", &path],
        &["show", &path, "--json"],
        &["show", &path, "\u{1b}[31m"],
        &["show", &path, "project.name@\u{1b}"],
        &["check", &path],
        &["check", &path, "--json"],
        &["explain", &path, "project.name"],
        &["set", &path, "project.name", "\u{1b}[31m\u{202e}"],
        &["show", "no\u{1b}[31mfile\u{202e}"],
    ];
    for arguments in commands {
        let output = run(arguments);
        for text in [out(&output), err(&output)] {
            let obeyed = |c: char| c.is_control() && c != '\n';
            let turns = |c: char| matches!(c, '\u{200b}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
            assert!(!text.contains(|c| obeyed(c) || turns(c)), "{arguments:?}: {text:?}");
        }
    }
}

#[test]
fn our_own_words_promise_nothing() {
    let texts = [out(&run(&["figures"])), out(&run(&["demo"])), out(&run(&["--help"]))];
    for word in texts.iter().flat_map(|text| text.split(|c: char| !c.is_alphanumeric())) {
        let promise = ["safe", "ok", "fine", "harmless", "approved"].contains(&word.to_lowercase().as_str());
        assert!(!promise, "{word}");
    }
}

/// Every page of cautions says who has the last word.
#[test]
fn every_page_of_cautions_defers_to_local_code_and_licensed_practice() {
    use sunharp::stage::safety::questions::SHORT_WORD;
    let (_folder, path) = project(sample::TEXT);
    let mut pages: Vec<Vec<String>> = ["check", "labels", "questions", "show"]
        .iter()
        .map(|command| vec![(*command).to_owned(), path.clone()])
        .collect();
    for procedure in stage::procedure::procedures() {
        pages.push(vec!["procedure".to_owned(), path.clone(), procedure.name.to_owned()]);
    }
    for symptom in stage::commissioning::trouble::SYMPTOMS {
        pages.push(vec!["trouble".to_owned(), path.clone(), symptom.name.to_owned()]);
    }
    for step in stage::steps().iter().filter(|step| !step.cautions.is_empty()).take(6) {
        pages.push(vec!["explain".to_owned(), path.clone(), step.id.to_owned()]);
    }
    for page in pages {
        let arguments: Vec<&str> = page.iter().map(String::as_str).collect();
        let text = of_words(&out(&run(&arguments)));
        assert!(text.contains(SHORT_WORD), "{}: {text}", page.join(" "));
        for word in text.split(|c: char| !c.is_alphanumeric()) {
            let word = word.to_lowercase();
            assert!(!["safe", "ok", "fine", "harmless", "approved"].contains(&word.as_str()), "{}: {word}", page[0]);
        }
    }
}

/// For a screen reader: every hazard and check begins with its verdict as a word and names its severity in words; every
/// clear says what it cannot see, or that there is nothing to judge.
#[test]
fn check_reads_aloud_verdict_and_severity_in_words() {
    use sunharp::stage::safety::register::REGISTER;
    let (_folder, path) = project(sample::TEXT);
    let text = out(&run(&["check", &path]));
    let verdicts = ["clear: ", "caution: ", "unknown: ", "stop: "];
    let (register, checks) = text.split_once("\nChecks\n").unwrap();
    let register = register.split_once("Hazard register: stops first, then what is unknown\n").unwrap().1;
    let lines: Vec<&str> =
        register.lines().filter(|line| verdicts.iter().any(|word| line.trim_start().starts_with(word))).collect();
    let hazards = lines.iter().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    assert_eq!(hazards.count(), REGISTER.len());
    let flat = of_words(register);
    for hazard in REGISTER {
        assert!(flat.contains(&format!("{} ({}", hazard.title, hazard.severity().word())), "{}", hazard.key);
    }
    assert!(register.trim_start().starts_with("unknown: "), "{register}");
    let mut blocks: Vec<String> = Vec::new();
    for line in checks.lines() {
        if verdicts.iter().any(|word| line.strip_prefix("  ").is_some_and(|line| line.starts_with(word))) {
            blocks.push(String::new());
        }
        if let Some(block) = blocks.last_mut() {
            block.push_str(line);
            block.push(' ');
        }
    }
    assert!(blocks.len() >= stage::checks().len());
    for block in blocks {
        assert!(block.contains("At stake: "), "{block}");
        if block.starts_with("  clear: ") {
            assert!(block.contains("This check found no fault") || block.contains("Does not apply: "), "{block}");
            assert!(block.contains("Cannot see: "), "{block}");
        }
    }
}
