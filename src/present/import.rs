//! What came of a table, for text and JSON.

use crate::import::Fault;
use schemars::JsonSchema;
use serde::Serialize;

/// A page that a table became.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "ImportedPage")]
pub struct Page {
    /// Its path below the journal's root; nothing where it is only printed.
    #[serde(rename = "page")]
    pub path: Option<String>,
    /// Its text.
    pub text: String,
    /// How many sessions it has.
    pub sessions: usize,
    /// How many sets.
    pub sets: u32,
}

/// What was to be written of an import, and was.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Writing {
    /// Days that have a session in the journal, in words.
    pub already: Vec<String>,
    /// The pages.
    pub pages: Vec<Page>,
    /// Whether they were written.
    #[serde(rename = "written")]
    pub is_written: bool,
    /// Whether they were to be.
    #[serde(skip)]
    pub was_to_be_written: bool,
}

/// What came of a table.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Outcome {
    /// Rows below the header.
    pub rows: usize,
    /// Rows that are in the pages.
    pub taken: usize,
    /// Rows that the mapping leaves out.
    pub unwanted: usize,
    /// Rows with nothing in them.
    pub blank: Vec<u64>,
    /// What was not understood, in order of rows.
    pub faults: Vec<Fault>,
    /// Columns that the mapping does not name.
    pub left_out_columns: Vec<String>,
    /// Lifts that nobody knows so far.
    pub new_lifts: Vec<String>,
    /// Its pages.
    #[serde(flatten)]
    pub writing: Writing,
}

impl Outcome {
    /// How many rows were not understood.
    pub fn rows_at_fault(&self) -> usize {
        let mut rows: Vec<u64> = self.faults.iter().map(|fault| fault.row).collect();
        rows.dedup();
        rows.len()
    }
}
