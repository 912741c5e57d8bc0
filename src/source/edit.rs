//! A change of text: the one type behind fixes, tidying and the editor's quick fixes.

use super::Span;

/// Puts `text` in the place of `span`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edit {
    /// What is replaced; empty to insert.
    pub span: Span,
    /// What stands there afterwards; empty to delete.
    pub text: String,
}

impl Edit {
    /// The edit that puts `text` in the place of `span`.
    pub fn new(span: Span, text: impl Into<String>) -> Self {
        Edit { span, text: text.into() }
    }
}

/// Two edits touch the same bytes, or one lies outside the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Overlap;

/// Applies edits, in any order, to a text.
///
/// # Errors
/// [`Overlap`] where two of them touch the same bytes or one does not fit the text: nothing is changed then.
pub fn apply(text: &str, edits: &[Edit]) -> Result<String, Overlap> {
    if edits.iter().any(|edit| text.get(edit.span.start as usize..edit.span.end as usize).is_none()) {
        return Err(Overlap);
    }
    String::from_utf8(apply_to_bytes(text.as_bytes(), edits)?).map_err(|_| Overlap)
}

/// The same for bytes, some of which may be no text.
pub(super) fn apply_to_bytes(bytes: &[u8], edits: &[Edit]) -> Result<Vec<u8>, Overlap> {
    let mut sorted: Vec<&Edit> = edits.iter().collect();
    sorted.sort();
    let mut out = Vec::with_capacity(bytes.len());
    let mut done = 0;
    for edit in sorted {
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        if start < done || end > bytes.len() {
            return Err(Overlap);
        }
        out.extend_from_slice(bytes.get(done..start).ok_or(Overlap)?);
        out.extend_from_slice(edit.text.as_bytes());
        done = end;
    }
    out.extend_from_slice(bytes.get(done..).ok_or(Overlap)?);
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::{Edit, Overlap, apply};
    use crate::source::Span;

    #[test]
    fn edits_apply_in_any_order() {
        let edits = [Edit::new(Span::new(4, 5), "X"), Edit::new(Span::new(0, 0), ">")];
        assert_eq!(apply("ab cde", &edits).as_deref(), Ok(">ab cXe"));
    }

    #[test]
    fn overlaps_are_refused() {
        let edits = [Edit::new(Span::new(0, 3), "X"), Edit::new(Span::new(2, 4), "Y")];
        assert_eq!(apply("abcdef", &edits), Err(Overlap));
        assert_eq!(apply("é", &[Edit::new(Span::new(1, 1), "x")]), Err(Overlap));
        assert_eq!(apply("a", &[Edit::new(Span::new(5, 9), "x")]), Err(Overlap));
    }
}
