//! What a grammar function says when it cannot read on.

use crate::problems::{Problem, ProblemKind};
use crate::source::Span;
use nom::error::{ErrorKind, ParseError};

/// What every grammar function gives: the text after what it read, and the value.
pub(crate) type Reading<'a, T> = nom::IResult<&'a str, T, Miss<'a>>;

/// A problem whose place is the piece of text itself.
#[derive(Debug, Clone)]
pub(crate) struct Trouble<'a> {
    pub(crate) kind: ProblemKind,
    pub(crate) piece: &'a str,
    pub(crate) fix: Option<(&'a str, String)>,
}

impl<'a> Trouble<'a> {
    pub(crate) fn new(kind: ProblemKind, piece: &'a str) -> Self {
        Trouble { kind, piece, fix: None }
    }

    /// The same with a fix for the underlined piece.
    pub(crate) fn fixed(self, text: impl Into<String>) -> Self {
        let piece = self.piece;
        self.fixed_at(piece, text)
    }

    /// The same with a fix for another piece.
    pub(crate) fn fixed_at(mut self, piece: &'a str, text: impl Into<String>) -> Self {
        self.fix = Some((piece, text.into()));
        self
    }

    /// The problem, placed in its page.
    pub(crate) fn placed(self, page: &str) -> Problem {
        let problem = Problem::new(self.kind, Span::of(page, self.piece));
        match self.fix {
            Some((piece, text)) => problem.with_fix(Span::of(page, piece), text),
            None => problem,
        }
    }

    /// A failure: what was begun can be nothing else, so no other reading is tried.
    pub(crate) fn fail<T>(self) -> Reading<'a, T> {
        Err(self.failure())
    }

    /// The same for `?` to pass on.
    pub(crate) fn failure(self) -> nom::Err<Miss<'a>> {
        let rest = self.piece;
        nom::Err::Failure(Miss { rest, trouble: Some(Box::new(self)) })
    }
}

/// Why a grammar function stopped: where, and once it was committed, with which trouble.
#[derive(Debug)]
pub(crate) struct Miss<'a> {
    pub(crate) rest: &'a str,
    pub(crate) trouble: Option<Box<Trouble<'a>>>,
}

impl<'a> ParseError<&'a str> for Miss<'a> {
    fn from_error_kind(rest: &'a str, _: ErrorKind) -> Self {
        Miss { rest, trouble: None }
    }

    fn append(_: &'a str, _: ErrorKind, other: Self) -> Self {
        other
    }

    /// Of two readings that failed, the one that got farther knows better what was meant.
    fn or(self, other: Self) -> Self {
        if other.rest.len() < self.rest.len() { other } else { self }
    }
}

/// The trouble of a committed reading, or nothing where it merely did not fit.
pub(crate) fn trouble_of(error: nom::Err<Miss<'_>>) -> Option<Trouble<'_>> {
    match error {
        nom::Err::Failure(miss) | nom::Err::Error(miss) => miss.trouble.map(|boxed| *boxed),
        nom::Err::Incomplete(_) => None,
    }
}

/// The plain "this does not fit here", for `alt` to go on.
pub(crate) fn no_fit<'a, T>(rest: &'a str) -> Reading<'a, T> {
    Err(nom::Err::Error(Miss { rest, trouble: None }))
}
