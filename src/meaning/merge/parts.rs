//! What a merged page is made of.

use crate::notation::{Section, Title};

/// A section of the merged page, as whichever version has it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Node {
    pub(super) base: Option<usize>,
    pub(super) ours: Option<usize>,
    pub(super) theirs: Option<usize>,
}

/// Text of the merged page, with the line of ours from which on it stands there too.
#[derive(Clone)]
pub(super) struct Part {
    pub(super) lead: String,
    /// Whether it stood at the top of its page, and so had no need of a blank line.
    pub(super) was_first: bool,
    pub(super) text: String,
    pub(super) line: Option<usize>,
    pub(super) settled: bool,
}

/// The date of a session.
pub(super) fn date(section: &Section<'_>) -> Option<chrono::NaiveDate> {
    if let Title::Session(heading) = &section.title { Some(heading.date.value) } else { None }
}
