//! The edits of a line, collected.

use crate::notation::grammar::lexer::is_space;
use crate::source::{Edit, Span};

/// Collects the edits of one line. Every piece that it is given must be a slice of that line.
pub(super) struct Pen<'a> {
    line: &'a str,
    edits: Vec<Edit>,
}

impl<'a> Pen<'a> {
    pub(super) fn new(line: &'a str) -> Self {
        Pen { line, edits: Vec::new() }
    }

    /// The edits, with places in the line.
    pub(super) fn done(self) -> Vec<Edit> {
        self.edits
    }

    /// Puts a text in the place of a piece.
    pub(super) fn put(&mut self, piece: &str, text: &str) {
        if piece != text {
            self.edits.push(Edit::new(Span::of(self.line, piece), text));
        }
    }

    /// Puts a text in the place of a gap that holds nothing else than blanks and these signs. A comment in it keeps the
    /// whole gap as it is.
    pub(super) fn gap(&mut self, gap: &str, text: &str, signs: &str) {
        if is_gap(gap, signs) {
            self.put(gap, text);
        }
    }

    /// What stands after one piece and before another.
    pub(super) fn between(&self, before: &str, after: &str) -> Option<&'a str> {
        let (from, to) = (Span::of(self.line, before).end, Span::of(self.line, after).start);
        self.line.get(from as usize..to as usize)
    }

    /// What stands after a piece, up to the end of the text that it stands in.
    pub(super) fn behind(&self, piece: &str, text: &str) -> Option<&'a str> {
        let (from, to) = (Span::of(self.line, piece).end, Span::of(self.line, text).end);
        self.line.get(from as usize..to as usize)
    }
}

/// Whether a gap holds nothing but blanks and these signs. A lone carriage return is no blank here: some editors take
/// it for a line's end.
pub(super) fn is_gap(gap: &str, signs: &str) -> bool {
    gap.chars().all(|c| (is_space(c) && c != '\r') || signs.contains(c))
}
