//! Any text as tokens: in order, none empty, each on whole characters, and between them nothing but white space and
//! closed comments. What may stand at a place of it is told without a panic.
//!
//! `cargo fuzz run -s none lexer fuzz/corpus/lexer journal-example -- -dict=fuzz/notation.dict` seeds it with the example
//! journal.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::notation::{expected_at, tokens};
use loadline::source::Page;

fn is_gap(gap: &str) -> bool {
    let rest = gap.trim_start_matches([' ', '\t', '\r', '\u{a0}', '\u{202f}', '\u{2007}', '\u{2009}']);
    rest.is_empty() || rest.strip_prefix("<!--").and_then(|inside| inside.split_once("-->")).is_some_and(|(_, rest)| is_gap(rest))
}

fuzz_target!(|text: &str| {
    let mut end = 0;
    for token in tokens(text) {
        assert!(token.start >= end && token.end > token.start);
        assert!(text.get(token.start as usize..token.end as usize).is_some());
        assert!(text.get(end as usize..token.start as usize).is_some_and(is_gap));
        end = token.end;
    }
    assert!(text.get(end as usize..).is_some_and(is_gap));
    let page = Page::new("page.md", text.into()).expect("a short page");
    for offset in [0, text.len() / 2, text.len()] {
        expected_at(&page, offset);
    }
});
