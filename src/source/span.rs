//! Half-open byte ranges into a page's text.

/// A half-open range of bytes in a page: `start` is in it, `end` is the first byte after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// First byte of the range.
    pub start: u32,
    /// First byte after the range.
    pub end: u32,
}

impl Span {
    /// The range from `start` up to, and without, `end`.
    pub fn new(start: usize, end: usize) -> Self {
        Span { start: clamp(start), end: clamp(end.max(start)) }
    }

    /// Where `piece` stands in `page`, of which it must be a slice: the pieces of a syntax tree are, so their place need
    /// not be stored beside them. A piece from elsewhere is a mistake of ours, which the tests are stopped by; a lifter
    /// is not, and gets an empty span at the page's end.
    pub fn of(page: &str, piece: &str) -> Self {
        let base = page.as_ptr() as usize;
        let start = (piece.as_ptr() as usize).wrapping_sub(base);
        let is_slice = start.checked_add(piece.len()).is_some_and(|end| end <= page.len());
        debug_assert!(is_slice, "{piece:?} is no slice of its page");
        if !is_slice {
            return Span::new(page.len(), page.len());
        }
        Span::new(start, start + piece.len())
    }

    /// How many bytes the range holds.
    pub fn len(self) -> usize {
        (self.end - self.start) as usize
    }

    /// Whether the range holds no byte.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// The text that the range stands for in `page`, which it must fit.
    pub fn text(self, page: &str) -> &str {
        let text = page.get(self.start as usize..self.end as usize);
        debug_assert!(text.is_some(), "{self:?} does not fit its page");
        text.unwrap_or_default()
    }

    /// The range without the white space at the ends of its text in `page`.
    #[must_use]
    pub fn trimmed(self, page: &str) -> Self {
        let text = self.text(page);
        let start = self.start as usize + (text.len() - text.trim_start().len());
        Span::new(start, start + text.trim().len())
    }

    /// The smallest range that holds both.
    #[must_use]
    pub fn cover(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}

/// Pages are at most 4 GiB (`Page::new` refuses longer ones), so this never cuts.
fn clamp(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::Span;

    #[test]
    fn a_slice_knows_its_place() {
        let page = "- Front squat: 3x8";
        assert_eq!(Span::of(page, &page[2..13]), Span::new(2, 13));
        assert_eq!(Span::of(page, &page[18..]), Span::new(18, 18));
    }

    #[test]
    #[should_panic = "\"elsewhere\" is no slice of its page"]
    fn a_piece_from_elsewhere_stops_the_tests() {
        Span::of("abc", "elsewhere");
    }

    #[test]
    #[should_panic = "does not fit its page"]
    fn a_span_of_a_longer_page_stops_the_tests() {
        Span::new(2, 9).text("abc");
    }
}
