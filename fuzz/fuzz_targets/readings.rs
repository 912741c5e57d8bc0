//! Any text as lines typed in haste below a date: no panic; what is read stands in the notation and is read by it as it was
//! meant; tidying changes no set and no number of lines left out; no line takes long.
//!
//! `cargo fuzz run -s none readings fuzz/corpus/readings tests/data -- -dict=fuzz/notation.dict` seeds it with typed lines.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::journal::{Files, Journal, Memory, open};
use loadline::meaning;
use loadline::notation::readings::{Fate, Habits, Place, readings};
use loadline::training::LiftBook;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

static BOOK: LazyLock<LiftBook> = LazyLock::new(LiftBook::built_in);
/// Opened once: it reads the lift book, which takes longer than a page.
static OPENED: LazyLock<Journal> =
    LazyLock::new(|| open(&Memory::default().with("journal.yaml", "").with("page.md", "")));

/// A page's sessions, how many lines they leave out, and the page once it is tidied.
fn said(page: Vec<u8>) -> (String, u32, Vec<u8>) {
    let files = Memory::default().with("page.md", page);
    let lifter = &OPENED.lifters[0];
    let paths = OPENED.pages_of(lifter);
    let log = meaning::read(&files, lifter, paths.clone(), None).log;
    let tidied = meaning::tidy(&files, lifter, &paths, &|_| true, false, None).revisions;
    let after = tidied.into_iter().next().map(|revision| revision.after.bytes().to_vec());
    let after = after.unwrap_or_else(|| files.read("page.md").unwrap_or_default());
    (format!("{:?}", log.sessions), log.left_out, after)
}

/// No line may take so long: a thousand times what a line takes, for fuzzers run on busy machines, checks and all.
const LONG: Duration = Duration::from_secs(2);

/// Whether a line that took long is read soon after all: on a busy machine one try says little.
fn is_quick(line: &str, habits: &Habits) -> bool {
    (0..5).any(|_| {
        let start = Instant::now();
        readings(line, Place::default(), &*BOOK, habits, "kg");
        start.elapsed() < LONG
    })
}

fuzz_target!(|text: &str| {
    let habits = Habits::default();
    for line in text.lines() {
        let start = Instant::now();
        let fate = readings(line, Place::default(), &*BOOK, &habits, "kg");
        assert!(start.elapsed() < LONG || is_quick(line, &habits), "{line}");
        if let Fate::Read(choice) = fate {
            let page = format!("## 2026-03-05\n\n- {}\n", choice.text);
            let (sets, left_out, after) = said(page.clone().into_bytes());
            assert!(left_out == 0 || sets.contains("Percent") || choice.text.contains('%'), "{line}: {}", choice.text);
            assert!(after.starts_with(b"## 2026-03-05"), "{line}");
        }
    }
    let (sets, left_out, after) = said(format!("## 2026-03-05\n\n{text}\n").into_bytes());
    let (tidied, still_out, _) = said(after);
    assert!(sets == tidied && left_out == still_out);
});
