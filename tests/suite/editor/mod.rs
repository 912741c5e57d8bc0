//! The language server, spoken to in the same process: a small page with a marked cursor in, what the protocol carries out.

mod fixes;
mod frames;
mod going;
mod laws;
mod positions;
mod problems;
mod real;
mod renaming;
mod saying;
mod schemas;
mod tidying;

use crate::support::editor::Editor;
use crate::support::journal::Journal;
use serde_json::Value;

/// An editor on a journal of one block.
pub(crate) fn editor() -> (Journal, Editor) {
    let journal = Journal::new().page("");
    let editor = Editor::of(&journal);
    (journal, editor)
}

/// A range as `3:7-3:12`, lines and characters from 0.
pub(crate) fn range(value: &Value) -> String {
    let place = |end: &str| format!("{}:{}", value[end]["line"], value[end]["character"]);
    format!("{}-{}", place("start"), place("end"))
}
