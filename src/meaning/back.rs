//! Places of a page that was read with lines written anew, as places of the page that it was.

use crate::source::{Edit, Span};

/// Places of a page with lines written anew, as places of the page before.
pub(super) struct Back {
    /// Where each new line stands, and where the old one did.
    lines: Vec<(Span, Span)>,
}

impl Back {
    /// The way back through edits, which come in order.
    pub(super) fn through(edits: &[Edit]) -> Self {
        let mut moved = 0i64;
        let lines = edits.iter().map(|edit| {
            let start = (i64::from(edit.span.start) + moved) as usize;
            moved += edit.text.len() as i64 - edit.span.len() as i64;
            (Span::new(start, start + edit.text.len()), edit.span)
        });
        Back { lines: lines.collect() }
    }

    /// The old place of a new one; whether it stands in a line that was written anew.
    pub(super) fn place(&self, span: Span) -> (Span, bool) {
        let at = self.lines.partition_point(|(new, _)| new.start <= span.start);
        match at.checked_sub(1).and_then(|before| self.lines.get(before)) {
            None => (span, false),
            Some((new, old)) if span.start <= new.end && !new.is_empty() => (*old, true),
            Some((new, old)) => {
                let back = |at: u32| (i64::from(at) - i64::from(new.end) + i64::from(old.end)) as usize;
                (Span::new(back(span.start), back(span.end)), false)
            }
        }
    }
}
