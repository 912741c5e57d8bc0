//! Lines of text in roles, laid out for one width. What lays something out says what a piece is, never how it looks.

use super::breaks::{atoms, width};
use super::{Breaks, Piece, Role};

/// Lines of text in roles.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typeset {
    lines: Vec<Vec<Piece>>,
}

impl Typeset {
    /// Nothing yet.
    pub fn new() -> Self {
        Typeset::default()
    }

    /// Adds a line of one role.
    pub fn line(&mut self, role: Role, text: impl Into<String>) {
        self.lines.push(vec![(role, text.into())]);
    }

    /// Adds a line of several pieces.
    pub fn pieces(&mut self, pieces: Vec<Piece>) {
        self.lines.push(pieces);
    }

    /// Adds an empty line.
    pub fn gap(&mut self) {
        self.lines.push(Vec::new());
    }

    /// Adds text of one role, broken between words so that no line is wider than `width`; lines after the
    /// first begin with `indent` blanks, the first one with those of the text.
    pub fn wrapped(&mut self, role: Role, text: &str, width: usize, indent: usize) {
        self.broken(&[(role, text.to_owned())], width, Breaks { indent, whole: 0 });
    }

    /// Adds pieces one after the other, broken between words as [`Typeset::wrapped`] does.
    pub(crate) fn broken(&mut self, pieces: &[Piece], screen: usize, breaks: Breaks) {
        let mut line: Vec<Piece> = Vec::new();
        let mut used = 0;
        let mut blank = true;
        for (nth, (role, text)) in pieces.iter().enumerate() {
            let words = text.trim_start_matches(' ');
            let lead = text.len() - words.len();
            line.push((*role, " ".repeat(lead)));
            used += lead;
            let mut glued = lead == 0 || !blank;
            for word in if nth < breaks.whole { vec![words.to_owned()] } else { atoms(words) } {
                let gap = usize::from(!blank && !glued);
                if !blank && used + gap + width(&word) > screen {
                    let rest = vec![(*role, " ".repeat(breaks.indent))];
                    self.lines.push(joined(std::mem::replace(&mut line, rest)));
                    used = breaks.indent;
                } else if gap == 1 {
                    line.push((*role, " ".into()));
                    used += 1;
                }
                used += width(&word);
                blank = false;
                glued = false;
                line.push((*role, word));
            }
        }
        self.lines.push(joined(line));
    }

    /// Adds the lines of another.
    pub fn append(&mut self, other: Typeset) {
        self.lines.extend(other.lines);
    }

    /// The lines.
    pub(crate) fn lines(&self) -> &[Vec<Piece>] {
        &self.lines
    }
}

/// Pieces of one role run together, so that each is painted once.
fn joined(line: Vec<Piece>) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    for (role, text) in line {
        match out.last_mut().filter(|(last, _)| *last == role) {
            Some((_, before)) => before.push_str(&text),
            None => out.push((role, text)),
        }
    }
    out
}
