//! `tidy` as JSON.

use crate::source::{Lines, Revision};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Tidy {
    pages: Vec<PageJson>,
    written: bool,
}

#[derive(Clone, Debug, Serialize)]
struct PageJson {
    page: String,
    changed: bool,
    edits: Vec<EditJson>,
}

#[derive(Clone, Debug, Serialize)]
struct EditJson {
    line: u32,
    column: u32,
    end_column: u32,
    text: String,
}

/// The answer as JSON: every page that was looked at, and whether all that change were written.
pub fn json(pages: &[String], revisions: &[Revision], written: bool) -> Tidy {
    let edits = |page: &String| revisions.iter().find(|revision| revision.before.path() == page).map(edits);
    let pages = pages.iter().map(|page| {
        let edits = edits(page).unwrap_or_default();
        PageJson { page: page.clone(), changed: !edits.is_empty(), edits }
    });
    Tidy { pages: pages.collect(), written }
}

fn edits(revision: &Revision) -> Vec<EditJson> {
    let lines = Lines::of(revision.before.text());
    let placed = revision.edits().into_iter().map(|edit| {
        let start = lines.position(edit.span.start);
        EditJson {
            line: start.line,
            column: start.column,
            end_column: lines.position(edit.span.end).column,
            text: edit.text,
        }
    });
    placed.collect()
}
