//! Pages that are made from the declared tables: they are as the tables would make them now.

use std::path::Path;

use sunharp::cli::docs::pages;

#[test]
fn the_generated_pages_are_those_that_the_tables_give() {
    for (name, page) in pages() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs").join(name);
        let found = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(found == page, "docs/{name} is not what the tables give: run 'cargo run -- docs docs'");
    }
}
