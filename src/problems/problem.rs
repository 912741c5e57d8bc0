//! A kind at a place.

use super::ProblemKind;
use crate::source::{Edit, Span};

/// So many problems of a page are shown: nobody mends more in one go, and a page may have millions.
pub const SHOWN: usize = 1000;

/// Something wrong at one place of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong.
    pub kind: ProblemKind,
    /// The text that is at fault.
    pub span: Span,
    /// What to put where; applying it removes the problem.
    pub fix: Option<Edit>,
    /// What else could be meant, where only the lifter can tell.
    pub choices: Vec<Choice>,
}

/// One of several things that could be meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What it says, in words.
    pub say: String,
    /// What to put where for it.
    pub edit: Edit,
}

impl Problem {
    /// A problem without a known fix.
    pub fn new(kind: ProblemKind, span: Span) -> Self {
        Problem { kind, span, fix: None, choices: Vec::new() }
    }

    /// A problem of a whole file, which stands at its beginning.
    pub fn of_file(kind: ProblemKind) -> Self {
        Problem::new(kind, Span::default())
    }

    /// The same problem with a fix that puts `text` in the place of `span`.
    #[must_use]
    pub fn with_fix(mut self, span: Span, text: impl Into<String>) -> Self {
        self.fix = Some(Edit::new(span, text));
        self
    }
}
