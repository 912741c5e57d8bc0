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

    /// Where `piece` stands in `page`, of which it must be a slice.
    ///
    /// The pieces of a syntax tree are slices of their page, so their place need not be stored beside
    /// them. A piece from elsewhere gives an empty span at the page's end rather than a panic.
    pub fn of(page: &str, piece: &str) -> Self {
        let base = page.as_ptr() as usize;
        let start = (piece.as_ptr() as usize).wrapping_sub(base);
        if start > page.len() || start + piece.len() > page.len() {
            return Span::new(page.len(), page.len());
        }
        Span::new(start, start + piece.len())
    }

    /// The text the range stands for, or nothing where it does not fit `page`.
    pub fn text(self, page: &str) -> &str {
        page.get(self.start as usize..self.end as usize).unwrap_or("")
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
    fn a_stranger_is_placed_at_the_end() {
        assert_eq!(Span::of("abc", "somewhere else entirely"), Span::new(3, 3));
    }
}
