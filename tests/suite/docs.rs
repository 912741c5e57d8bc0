//! The docs are run: the notation's examples are pages without a problem.

use crate::support::journal::Journal;
use std::path::Path;

#[test]
fn every_example_of_the_notation_reads() {
    let doc = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/notation.md")).unwrap();
    let mut count = 0;
    for block in doc.split("```journal\n").skip(1) {
        let page = block.split("```").next().unwrap();
        let out = Journal::new().page(page).run(&["check"]);
        assert!(out.starts_with("every line is understood"), "{page}\n{out}");
        count += 1;
    }
    assert!(count >= 10, "{count} examples");
}
