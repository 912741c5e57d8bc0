//! What `tidy` does to pages, edit by edit.

use crate::source::{Lines, Position, Revision};
use schemars::JsonSchema;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Answer {
    /// Every page that was looked at.
    pages: Vec<Tidied>,
    /// Whether all that change were written.
    written: bool,
}

/// A page that was looked at.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Tidied {
    /// Its path below the journal's root.
    page: String,
    /// Whether it would change, or did.
    changed: bool,
    /// What changes in it.
    edits: Vec<Replaced>,
}

/// A part of a line with what takes its place.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Replaced {
    /// Where it begins.
    #[serde(flatten)]
    start: Position,
    /// The column after it.
    end_column: u32,
    /// What takes its place.
    text: String,
}

/// The answer: every page that was looked at, and whether all that change were written.
pub fn answer(pages: &[String], revisions: &[Revision], written: bool) -> Answer {
    let edits = |page: &String| revisions.iter().find(|revision| revision.before.path() == page).map(edits);
    let pages = pages.iter().map(|page| {
        let edits = edits(page).unwrap_or_default();
        Tidied { page: page.clone(), changed: !edits.is_empty(), edits }
    });
    Answer { pages: pages.collect(), written }
}

fn edits(revision: &Revision) -> Vec<Replaced> {
    let lines = Lines::of(revision.before.text());
    let placed = revision.edits().into_iter().map(|edit| {
        let (start, end) = (lines.position(edit.span.start), lines.position(edit.span.end));
        Replaced { start, end_column: end.column, text: edit.text }
    });
    placed.collect()
}
