//! Any bytes as a page: no panic, printed back byte for byte, every piece and every problem in its place; what is tidied
//! stays tidy.
//!
//! `cargo fuzz run -s none page fuzz/corpus/page journal-example` seeds it with the example journal.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::notation::{pieces, read, tidy};
use loadline::source::Page;

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
    let tidied = page.edited(&tidy(&page, &[], &|_| None)).expect("edits that fit the page");
    assert!(tidy(&tidied, &[], &|_| None).is_empty());
});
