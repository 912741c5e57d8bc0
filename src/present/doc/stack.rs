//! A row's cells set one after the other, over as many lines as they need.

use super::Role;
use super::breaks::{broken, width};
/// Blanks between columns.
pub(super) const GAP: usize = 2;

/// Blanks before the lines of a row after its first.
pub(super) const INDENT: usize = 2;

pub(super) type Line = Vec<(Role, String)>;

/// Cells set one after the other.
pub(super) struct Stack {
    screen: usize,
    lines: Vec<Line>,
    line: Line,
    used: usize,
}

impl Stack {
    /// Nothing yet, on a screen so wide.
    pub(super) fn new(screen: usize) -> Self {
        Stack { screen, lines: Vec::new(), line: Vec::new(), used: 0 }
    }

    /// Sets a cell, on the line begun where it fits there and need not be apart, and over several lines where it fits on
    /// none.
    pub(super) fn put(&mut self, title: &str, role: Role, text: &str, apart: bool) {
        let wide = width(title) + width(text);
        if self.used > 0 && !apart && self.used + GAP + wide <= self.screen {
            self.line.push((Role::Plain, " ".repeat(GAP)));
            self.used += GAP;
        } else if self.used > 0 {
            self.next(INDENT);
        }
        self.line.push((Role::Place, title.to_owned()));
        self.used += width(title);
        let (first, room) = (self.screen.saturating_sub(self.used), self.screen.saturating_sub(2 * INDENT));
        // A title may leave no room for what it is of.
        let fits = title.is_empty() || broken(text, first, room).first().is_none_or(|piece| width(piece) <= first);
        let pieces = broken(text, if fits { first } else { room }, room);
        for (nth, piece) in pieces.into_iter().enumerate() {
            if nth > 0 || !fits {
                self.next(2 * INDENT);
            }
            self.used += width(&piece);
            self.line.push((role, piece));
        }
    }

    fn next(&mut self, indent: usize) {
        self.lines.push(std::mem::take(&mut self.line));
        self.line.push((Role::Plain, " ".repeat(indent)));
        self.used = indent;
    }

    /// The lines.
    pub(super) fn done(mut self) -> Vec<Line> {
        self.lines.push(self.line);
        self.lines
    }
}
