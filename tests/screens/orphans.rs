//! Every stored screen is still compared by a test.

use std::fs;

#[test]
fn no_stored_screen_is_left_over_from_a_test_that_is_gone() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/screens");
    let read = |path: &std::path::Path| fs::read_to_string(path).unwrap();
    let files = |folder: &str, ending: &str| -> Vec<std::path::PathBuf> {
        let all = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
        all.filter(|path| path.extension().is_some_and(|found| found == ending)).collect()
    };
    let tests: String = files(folder, "rs").iter().map(|path| read(path)).collect();
    let stored = files(&format!("{folder}/snapshots"), "snap");
    assert!(stored.len() > 20, "the stored screens were not found");
    for path in stored {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        // A name is written out, or made of a beginning and the look.
        let begins = |at: usize| ["-{", "{"].iter().any(|end| tests.contains(&format!("\"{}{end}", &name[..at])));
        let made = name.rmatch_indices('-').any(|(at, _)| begins(at)) || begins(name.len());
        assert!(made || tests.contains(&format!("\"{name}\"")), "{name}.snap belongs to no test");
    }
}
