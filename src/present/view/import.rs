//! `import` as text: the pages that were written, and what is to be known of the rows.

use crate::present::import::{Outcome, Writing};
use crate::present::wording::{all_of, count};
use crate::present::{Doc, Role};

/// The pages that were written.
pub fn written(writing: &Writing) -> Doc {
    let mut out = Doc::new();
    for page in writing.pages.iter().filter(|_| writing.is_written) {
        out.pieces(vec![
            (Role::Answer, format!("new page {}", page.path.as_deref().unwrap_or(""))),
            (Role::Plain, format!(": {}, {}", count(page.sessions as u64, "session"), count(page.sets, "set"))),
        ]);
    }
    out
}

/// Why nothing was written, where something was to be.
pub(super) fn not_written(writing: &Writing, out: &mut Doc) {
    if let [first, more @ ..] = &writing.already[..] {
        let more = if more.is_empty() { String::new() } else { format!("; so have {} more", more.len()) };
        out.line(Role::Caution, format!("{first}{more}"));
    }
    if writing.was_to_be_written && !writing.is_written {
        out.line(Role::Caution, "nothing was written");
    }
}

/// The columns that a file has.
pub fn columns_of(file: &std::path::Path, header: &[String]) -> String {
    let names: Vec<String> = header.iter().map(|name| format!("`{name}`")).collect();
    format!("{} has the columns {}", file.display(), all_of(&names))
}

/// What is to be known beside the pages: each row that was not understood, and what was left out.
pub fn report(outcome: &Outcome) -> Doc {
    let mut out = Doc::new();
    for fault in &outcome.faults {
        let column = fault.column.as_ref().map_or(String::new(), |column| format!(", {column}"));
        let found = if fault.read.is_empty() { "nothing there".into() } else { format!("found `{}`", fault.read) };
        out.line(Role::Error, format!("row {}{column}: {found}, wanted {}", fault.row, fault.wanted));
    }
    let mut counts = vec![format!("{} of {} taken", outcome.taken, count(outcome.rows as u64, "row"))];
    let parts = [
        (outcome.rows_at_fault(), "not understood"),
        (outcome.unwanted, "left out by `only:`"),
        (outcome.blank.len(), "blank"),
    ];
    counts.extend(parts.iter().filter(|(number, _)| *number > 0).map(|(number, what)| format!("{number} {what}")));
    out.line(Role::Title, counts.join(", "));
    for (what, names) in [("columns left out", &outcome.left_out_columns), ("new here", &outcome.new_lifts)] {
        if !names.is_empty() {
            out.line(Role::Place, format!("{what}: {}", names.join(", ")));
        }
    }
    not_written(&outcome.writing, &mut out);
    out
}
