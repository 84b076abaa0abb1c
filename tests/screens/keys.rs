//! docs/keys.md against the table of commands.

use sunharp::tui::command;

#[test]
fn the_page_of_keys_is_written_from_the_table() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/keys.md");
    if std::env::var_os("SUNHARP_REWRITE").is_some() {
        std::fs::write(path, command::markdown()).unwrap();
    }
    let page = std::fs::read_to_string(path).unwrap();
    assert_eq!(page, command::markdown(), "run the tests with SUNHARP_REWRITE=1 to write docs/keys.md anew");
}
