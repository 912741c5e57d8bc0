//! Any bytes as a page: no panic, printed back byte for byte, every piece and every problem in its place; what is tidied
//! stays tidy, and is the same one set a line.
//!
//! `cargo fuzz run -s none page fuzz/corpus/page journal-example` seeds it with the example journal.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::journal::{Lifter, Memory, open};
use loadline::meaning::{self, lone};
use loadline::notation::{pieces, read};
use loadline::present::{doc, paint, view};
use loadline::questions::flatten::answer;
use loadline::source::Page;
use std::sync::LazyLock;

/// Nobody's settings are read twice.
static LIFTER: LazyLock<Lifter> =
    LazyLock::new(|| open(&Memory::default()).lifters.into_iter().next().expect("a journal without lifters has one"));

/// The page in the notation's own spelling; lines with an error keep theirs.
fn tidy(bytes: &[u8]) -> Page {
    let files = Memory::default().with("page.md", bytes);
    let revisions = meaning::tidy(&files, &LIFTER, &["page.md".into()], &|_| true, false, None).revisions;
    let after = revisions.into_iter().next().map(|revision| revision.after);
    after.unwrap_or_else(|| Page::new("page.md", bytes.to_vec()).expect("a page that was read"))
}

fn flat(page: Page) -> String {
    let read = lone(&LIFTER, vec![page]);
    paint(&doc::text(&view::flatten::show(&answer(&read.log, &read.asides)), 80), false)
}

fuzz_target!(|bytes: &[u8]| {
    let Ok(page) = Page::new("page.md", bytes.to_vec()) else { return };
    let lines = read(&page);
    assert!(lines.iter().map(|line| line.text).collect::<String>() == page.text());
    for line in &lines {
        assert!(pieces(line).iter().map(|piece| piece.text).collect::<String>() == line.text);
        for problem in &line.problems {
            assert!(page.text().get(problem.span.start as usize..problem.span.end as usize).is_some());
        }
    }
    let tidied = tidy(bytes);
    assert!(tidy(tidied.bytes()).bytes() == tidied.bytes());
    assert!(flat(page) == flat(tidied));
});
