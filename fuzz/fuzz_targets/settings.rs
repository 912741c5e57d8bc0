//! Any bytes as settings: no panic, every problem lies in its file, and every fix leaves one problem less. An odd
//! count of bytes is a lifter's.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::commands::wrong_cautions;
use loadline::journal::{Memory, open};
use loadline::problems::Problem;
use loadline::source::apply;

fn problems(bytes: &[u8], path: &str) -> Vec<Problem> {
    let files = Memory::default().with("journal.yaml", "").with(path, bytes);
    let journal = open(&files);
    let wrong = wrong_cautions(&files, &journal);
    journal.problems.into_iter().chain(wrong).map(|(_, problem)| problem).collect()
}

fuzz_target!(|bytes: &[u8]| {
    let path = ["journal.yaml", "ilse/lifter.yaml"][bytes.len() % 2];
    let found = problems(bytes, path);
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for problem in &found {
        assert!(text.get(problem.span.start as usize..problem.span.end as usize).is_some(), "{problem:?}");
        let Some(fix) = &problem.fix else { continue };
        let fixed = apply(text, std::slice::from_ref(fix)).expect("a fix that fits its file");
        assert!(problems(fixed.as_bytes(), path).len() < found.len(), "{problem:?}");
    }
});
