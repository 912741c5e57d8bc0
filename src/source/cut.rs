//! Pieces of a text, cut at offsets that were counted in it.

use std::ops::Range;

/// Cuts a text. An offset that does not fit it is a fault of the program's, found wherever debug assertions are on, as in
/// all tests; elsewhere the text is cut at the last place before it that fits, so that none of it is lost.
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
        self.cut(0..end)
    }

    fn tail(&self, start: usize) -> &str {
        self.cut(start..self.len())
    }

    fn cut(&self, range: Range<usize>) -> &str {
        let piece = self.get(range.clone());
        debug_assert!(piece.is_some(), "an offset that was not counted in this text");
        piece.unwrap_or_else(|| nearest(self, range))
    }
}

/// The piece between the last places that fit.
fn nearest(text: &str, range: Range<usize>) -> &str {
    let [start, end] = [range.start, range.end].map(|at| text.floor_char_boundary(at));
    text.get(start..end).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn what_stands_before_and_behind_any_offset_is_all_of_the_text() {
        let text = "- Bänkdrücken: 3x8";
        for at in 0..text.len() + 3 {
            assert_eq!(format!("{}{}", nearest(text, 0..at), nearest(text, at..text.len())), text, "{at}");
        }
    }
}
