//! A kind at a place.

use super::ProblemKind;
use crate::source::{Edit, Span};

/// Something wrong at one place of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong.
    pub kind: ProblemKind,
    /// The text that is at fault.
    pub span: Span,
    /// What to put where; applying it removes the problem.
    pub fix: Option<Edit>,
}

impl Problem {
    /// A problem without a known fix.
    pub fn new(kind: ProblemKind, span: Span) -> Self {
        Problem { kind, span, fix: None }
    }

    /// The same problem with a fix that puts `text` in the place of `span`.
    #[must_use]
    pub fn with_fix(mut self, span: Span, text: impl Into<String>) -> Self {
        self.fix = Some(Edit::new(span, text));
        self
    }
}
