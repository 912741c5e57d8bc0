//! What a function says when it cannot read on.

use super::tokens::Tokens;
use crate::problems::{Problem, ProblemKind as K};
use crate::source::Span;
use nom::error::{ErrorKind, ParseError};

/// What every grammar function gives: the tokens after what it read, and the value.
pub(crate) type Reading<'t, 'a, T> = nom::IResult<Tokens<'t, 'a>, T, Miss<'a>>;

/// A problem whose place is the piece of text itself.
#[derive(Debug, Clone)]
pub(crate) struct Trouble<'a> {
    pub(crate) kind: K,
    pub(crate) piece: &'a str,
    pub(crate) fix: Option<(&'a str, String)>,
}

impl<'a> Trouble<'a> {
    pub(crate) fn new(kind: K, piece: &'a str) -> Self {
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
    pub(crate) fn fail<'t, T>(self) -> Reading<'t, 'a, T> {
        Err(self.failure())
    }

    /// The same for `?` to pass on.
    pub(crate) fn failure(self) -> nom::Err<Miss<'a>> {
        nom::Err::Failure(Miss { at: 0, trouble: Some(Box::new(self)) })
    }
}

/// Why a grammar function stopped: where, and once it was committed, with which trouble.
#[derive(Debug)]
pub(crate) struct Miss<'a> {
    at: u32,
    pub(crate) trouble: Option<Box<Trouble<'a>>>,
}

impl<'a> ParseError<Tokens<'_, 'a>> for Miss<'a> {
    fn from_error_kind(rest: Tokens<'_, 'a>, _: ErrorKind) -> Self {
        Miss { at: rest.place(), trouble: None }
    }

    fn append(_: Tokens<'_, 'a>, _: ErrorKind, other: Self) -> Self {
        other
    }

    /// Of two readings that failed, the one that got farther knows better what was meant.
    fn or(self, other: Self) -> Self {
        if other.at > self.at { other } else { self }
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
pub(crate) fn no_fit<'t, 'a, T>(rest: Tokens<'t, 'a>) -> Reading<'t, 'a, T> {
    Err(nom::Err::Error(Miss { at: rest.place(), trouble: None }))
}
