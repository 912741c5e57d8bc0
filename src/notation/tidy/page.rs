//! A page's edits, line by line.

use super::line::{Names, put};
use super::pen::Pen;
use super::same::same;
use crate::notation::grammar::heading::{block_name, heading};
use crate::notation::grammar::tokens::lexed;
use crate::notation::nodes::{Line, LineKind};
use crate::notation::reader::{Reader, Standing};
use crate::problems::Severity;
use crate::source::{Edit, Page, Span, apply};

/// The edits that give a page its one spelling, in order. None joins or splits a line. Untouched are prose, lines with
/// an error of their own, and the lines that hold one of the places `left_alone` (sorted): only reading the whole journal
/// finds that they have an error, or are no training.
pub fn tidy(page: &Page, left_alone: &[u32], names: Names<'_>) -> Vec<Edit> {
    let mut out = Vec::new();
    let mut reader = Reader::new(page);
    loop {
        let standing = reader.standing();
        let Some(line) = reader.next() else { return out };
        let span = Span::of(page.text(), line.text);
        if stays(page, &line, span, left_alone) {
            continue;
        }
        // A name in the settings may be one that a page cannot hold, such as `Press: heavy`.
        let unknown: Names<'_> = &|_| None;
        let found = [names, unknown].into_iter().find_map(|names| of_line(standing, &line, span.start == 0, names));
        out.extend(found.into_iter().flatten().map(|edit| {
            let place = Span { start: edit.span.start + span.start, end: edit.span.end + span.start };
            Edit::new(place, edit.text)
        }));
    }
}

fn stays(page: &Page, line: &Line<'_>, span: Span, left_alone: &[u32]) -> bool {
    let own = line.problems.iter().any(|problem| problem.kind.severity() == Severity::Error);
    let first = left_alone.partition_point(|place| *place < span.start);
    // A place at the page's very end belongs to its last line.
    let last = span.end as usize == page.text().len();
    own || left_alone.get(first).is_some_and(|place| *place < span.end || (last && *place == span.end))
}

/// The edits of a line, with places in it; nothing where it would not say the same with them.
fn of_line(standing: Standing, line: &Line<'_>, is_first: bool, names: Names<'_>) -> Option<Vec<Edit>> {
    let text = line.text.strip_suffix('\n').unwrap_or(line.text);
    let text = text.strip_suffix('\r').unwrap_or(text);
    let text = if is_first { text.strip_prefix('\u{feff}').unwrap_or(text) } else { text };
    let mut pen = Pen::new(line.text);
    put(&mut pen, text, &line.kind, names)?;
    let edits = pen.done();
    if edits.is_empty() {
        return Some(edits);
    }
    let after = apply(line.text, &edits).ok()?;
    says_the_same(standing, line, after).then_some(edits)
}

fn says_the_same(standing: Standing, line: &Line<'_>, after: String) -> bool {
    if let LineKind::Block(block) = &line.kind {
        // Whether it is a block's heading depends on what follows it.
        let text = after.trim_end_matches(['\n', '\r']);
        return heading(text.trim_start_matches('\u{feff}')).and_then(|(_, text)| lexed(text, block_name))
            == Some(block.name);
    }
    let Ok(page) = Page::new("", after.into_bytes()) else { return false };
    let mut lines = Reader::resumed(&page, standing);
    let again = lines.next();
    let alike = |again: &Line<'_>| {
        let kinds = |line: &Line<'_>| line.problems.iter().map(|problem| problem.kind.name()).collect::<Vec<_>>();
        same(&line.kind, &again.kind) && kinds(line) == kinds(again)
    };
    lines.next().is_none() && again.is_some_and(|again| alike(&again))
}
