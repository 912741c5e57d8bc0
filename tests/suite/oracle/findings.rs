//! Where the program and SQLite disagree.

use crate::support::cases;
use crate::support::snapshot::difference;
use std::collections::BTreeMap;
use std::fmt::Debug;

/// Where the program and SQLite disagree. All are gathered, so that one fault does not hide another.
#[derive(Default)]
pub(super) struct Findings(BTreeMap<&'static str, (u32, String)>);

impl Findings {
    /// Notes an answer that is not the witness's; the first one of each question is kept whole.
    pub(super) fn same<T: Debug + PartialEq>(
        &mut self,
        question: &'static str,
        of: &dyn Debug,
        program: T,
        witness: T,
    ) {
        if program != witness {
            let (program, witness) = (format!("{program:#?}"), format!("{witness:#?}"));
            let first = || (0, format!("{of:?}\n{}", difference(&witness, &program)));
            self.0.entry(question).or_insert_with(first).0 += 1;
        }
    }

    pub(super) fn assert_none(&self) {
        let all: Vec<String> =
            self.0.iter().map(|(question, (count, text))| format!("{count} x {question}: {text}\n")).collect();
        assert!(all.is_empty(), "{}", all.join("\n"));
    }
}

/// How many journals the oracle looks at: a few where a person waits for the tests, more where
/// `LOADLINE_JOURNALS` says so, as `.ci/run` does.
pub(super) fn journals() -> u64 {
    cases("LOADLINE_JOURNALS", 12) as u64
}
