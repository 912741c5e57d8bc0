//! Bytes of a text to positions of the wire, and back. A line ends with `\n`, `\r\n` or `\r`, as the wire has it; a
//! character is counted in the unit that was agreed on.

use crate::source::{Cut, Span};
use gen_lsp_types::{Position, Range};

/// The unit in which characters of a line are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// Units of UTF-16, which every editor knows.
    Utf16,
}

/// A byte-order mark: editors do not count it.
const MARK: &str = "\u{feff}";

/// A text with the starts of its lines.
pub struct Text<'t> {
    text: &'t str,
    starts: Vec<usize>,
    encoding: Encoding,
}

impl<'t> Text<'t> {
    /// Finds the lines of a text.
    pub fn of(text: &'t str, encoding: Encoding) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![if text.starts_with(MARK) { MARK.len() } else { 0 }];
        let ends = memchr::memchr2_iter(b'\n', b'\r', bytes);
        // Of `\r\n` only the `\n` ends the line.
        let ends = ends.filter(|at| bytes.get(*at) == Some(&b'\n') || bytes.get(at + 1) != Some(&b'\n'));
        starts.extend(ends.map(|at| at + 1));
        Text { text, starts, encoding }
    }

    /// Where a line starts and ends, without its line end.
    fn line(&self, line: usize) -> Option<(usize, &'t str)> {
        let start = *self.starts.get(line)?;
        let end = self.starts.get(line + 1).copied().unwrap_or(self.text.len());
        Some((start, self.text.get(start..end)?.trim_end_matches(['\n', '\r'])))
    }

    /// The position of a byte; one inside a character counts as that character's, one in a line end as the line's end.
    pub fn position(&self, offset: u32) -> Position {
        let offset = offset as usize;
        let line = self.starts.partition_point(|start| *start <= offset).saturating_sub(1);
        let (start, text) = self.line(line).unwrap_or((0, ""));
        let mut end = offset.saturating_sub(start).min(text.len());
        while !text.is_char_boundary(end) {
            end -= 1;
        }
        let before = text.head(end);
        let character = match self.encoding {
            Encoding::Utf8 => before.len(),
            Encoding::Utf16 => before.encode_utf16().count(),
        };
        Position { line: line as u32, character: character as u32 }
    }

    /// The byte of a position. One behind a line's end is that end, one inside a character its beginning, one behind
    /// the text the text's end.
    pub fn offset(&self, position: Position) -> usize {
        let Some((start, text)) = self.line(position.line as usize) else { return self.text.len() };
        let (mut units, wanted) = (0, position.character as usize);
        for (at, c) in text.char_indices() {
            units += match self.encoding {
                Encoding::Utf8 => c.len_utf8(),
                Encoding::Utf16 => c.len_utf16(),
            };
            if units > wanted {
                return start + at;
            }
        }
        start + text.len()
    }

    /// The range of a span.
    pub fn range(&self, span: Span) -> Range {
        Range { start: self.position(span.start), end: self.position(span.end) }
    }

    /// The span of a range; one the wrong way round is empty.
    pub fn span(&self, range: Range) -> Span {
        Span::new(self.offset(range.start), self.offset(range.end))
    }
}
