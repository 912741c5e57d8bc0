//! Pieces of a text, cut at offsets that were counted in it.

use std::ops::Range;

/// Cuts a text. An offset that does not fit it is a fault of the program's, found wherever debug assertions are on, as in
/// all tests; elsewhere the piece is empty.
pub trait Cut {
    /// What stands before an offset.
    fn head(&self, end: usize) -> &str;
    /// What stands from an offset on.
    fn tail(&self, start: usize) -> &str;
    /// What stands between two offsets.
    fn cut(&self, range: Range<usize>) -> &str;
}

impl Cut for str {
    fn head(&self, end: usize) -> &str {
        fitting(self.get(..end))
    }

    fn tail(&self, start: usize) -> &str {
        fitting(self.get(start..))
    }

    fn cut(&self, range: Range<usize>) -> &str {
        fitting(self.get(range))
    }
}

fn fitting(piece: Option<&str>) -> &str {
    debug_assert!(piece.is_some(), "an offset that was not counted in this text");
    piece.unwrap_or("")
}
