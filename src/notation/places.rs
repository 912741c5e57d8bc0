//! What may stand at a place of a page, told by the reader itself: it reads what stands before the place.

use super::expected::ExpectedSet;
use super::reader::{Reader, Standing};
use crate::source::Page;

/// What may stand at a byte of a page: what the grammar would read there, after all that stands before it. A word that
/// the place touches is taken as one that is being typed, so that what is told is what may stand in its place.
pub fn expected_at(page: &Page, offset: usize) -> ExpectedSet {
    let mut reader = Reader::new(page);
    loop {
        let (start, standing) = (reader.at, reader.standing());
        let in_prose = start < reader.prose_until;
        match reader.next() {
            Some(line) if line.text.ends_with('\n') && start + line.text.len() <= offset => {}
            _ if in_prose => return ExpectedSet::NOTHING,
            line => return standing.expected_at(line.map_or("", |line| line.text), offset.saturating_sub(start)),
        }
    }
}

impl Standing {
    /// The same for a byte of one line, read as it stands.
    pub fn expected_at(self, line: &str, offset: usize) -> ExpectedSet {
        let line = line.trim_end_matches(['\n', '\r']);
        let typed = line.get(..offset.min(line.len())).unwrap_or(line);
        let before = typed.trim_end_matches(char::is_alphabetic);
        // The sign between sets and reps is no word.
        let typed = if matches!(typed.get(before.len()..), Some("x" | "X")) { typed } else { before };
        let Ok(page) = Page::new("", typed.as_bytes().to_vec()) else { return ExpectedSet::NOTHING };
        let mut reader = Reader::resumed(&page, self);
        if reader.next().is_none() {
            reader.blank();
        }
        reader.expected
    }
}
