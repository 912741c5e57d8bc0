//! `import` as JSON.

use crate::present::import::Outcome;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Import {
    rows: usize,
    taken: usize,
    unwanted: usize,
    blank: Vec<u64>,
    faults: Vec<FaultJson>,
    left_out_columns: Vec<String>,
    new_lifts: Vec<String>,
    already: Vec<String>,
    pages: Vec<PageJson>,
    written: bool,
}

#[derive(Clone, Debug, Serialize)]
struct FaultJson {
    row: u64,
    column: Option<String>,
    read: String,
    wanted: String,
}

#[derive(Clone, Debug, Serialize)]
struct PageJson {
    page: Option<String>,
    text: String,
    sessions: usize,
    sets: u32,
}

/// The answer as JSON.
pub fn json(outcome: &Outcome) -> Import {
    let faults = outcome.faults.iter().map(|fault| FaultJson {
        row: fault.row,
        column: fault.column.clone(),
        read: fault.read.clone(),
        wanted: fault.wanted.clone(),
    });
    let pages = outcome.pages.iter().map(|page| PageJson {
        page: page.path.clone(),
        text: page.text.clone(),
        sessions: page.sessions,
        sets: page.sets,
    });
    Import {
        rows: outcome.rows,
        taken: outcome.taken,
        unwanted: outcome.unwanted,
        blank: outcome.blank.clone(),
        faults: faults.collect(),
        left_out_columns: outcome.left_out_columns.clone(),
        new_lifts: outcome.new_lifts.clone(),
        already: outcome.already.clone(),
        pages: pages.collect(),
        written: outcome.is_written,
    }
}
