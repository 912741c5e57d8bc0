//! Byte offsets to lines and columns. Counts are zero-based inside and become one-based only here.

use super::Cut;
use schemars::JsonSchema;
use serde::Serialize;

/// A place as people and editors count it: lines and columns from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
pub struct Position {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
}

/// Where the lines of a text start.
#[derive(Clone, Debug)]
pub struct Lines<'a> {
    text: &'a str,
    starts: Vec<u32>,
}

impl<'a> Lines<'a> {
    /// Finds the lines of `text`. A line ends after its `\n`; a text always has at least one line.
    pub fn of(text: &'a str) -> Self {
        let mut starts = vec![0];
        starts.extend(memchr::memchr_iter(b'\n', text.as_bytes()).map(|at| at as u32 + 1));
        Lines { text, starts }
    }

    /// The position of a byte offset. An offset inside a character counts as that character's.
    pub fn position(&self, offset: u32) -> Position {
        let line = self.starts.partition_point(|start| *start <= offset).saturating_sub(1);
        let start = self.starts.get(line).copied().unwrap_or(0) as usize;
        let mut end = (offset as usize).min(self.text.len());
        while !self.text.is_char_boundary(end) {
            end -= 1;
        }
        let mut before = self.text.cut(start..end);
        if line == 0 {
            // A byte-order mark takes no column: editors do not show it.
            before = before.strip_prefix('\u{feff}').unwrap_or(before);
        }
        let column = before.chars().count();
        Position { line: line as u32 + 1, column: column as u32 + 1 }
    }

    /// The text of a line counted from 1, without its line end.
    pub fn line(&self, line: u32) -> &'a str {
        let index = line.saturating_sub(1) as usize;
        let start = self.starts.get(index).copied().unwrap_or(self.text.len() as u32) as usize;
        let end = self.starts.get(index + 1).map_or(self.text.len(), |next| *next as usize);
        let line = self.text.cut(start..end);
        let line = line.strip_suffix('\n').unwrap_or(line);
        let line = line.strip_suffix('\r').unwrap_or(line);
        if index == 0 { line.strip_prefix('\u{feff}').unwrap_or(line) } else { line }
    }
}

#[cfg(test)]
mod tests {
    use super::{Lines, Position};

    fn check(text: &str, offset: u32, line: u32, column: u32) {
        assert_eq!(Lines::of(text).position(offset), Position { line, column }, "{text:?} at {offset}");
    }

    #[test]
    fn counts_from_one() {
        check("", 0, 1, 1);
        check("ab\ncd", 0, 1, 1);
        check("ab\ncd", 2, 1, 3);
        check("ab\ncd", 3, 2, 1);
        check("ab\ncd\n", 6, 3, 1);
    }

    #[test]
    fn columns_are_characters() {
        check("é×💪x", 8, 1, 4);
        check("\u{feff}ab", 4, 1, 2);
    }

    #[test]
    fn lines_come_without_their_ends() {
        let lines = Lines::of("\u{feff}one\r\ntwo\n");
        assert_eq!(lines.line(1), "one");
        assert_eq!(lines.line(2), "two");
        assert_eq!(lines.line(3), "");
        assert_eq!(lines.line(9), "");
    }
}
