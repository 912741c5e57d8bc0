//! Training from elsewhere. Of notes: `notes/`. Of tables: rows to sets, by a mapping that the lifter writes. What a row says is read or refused, never
//! guessed: each row ends among the sessions or among the faults.
//!
//! - `table.rs`: the bytes of a table to rows of cells
//! - `cells.rs`: the cells of a row by field, and one value in a cell
//! - `load.rs`: the load in a cell
//! - `entry.rs`: what a row says; `fault.rs`: what is wrong with it
//! - `sheet.rs`: entries gathered into sessions, lifts and groups
//! - `round_trip.rs`: whether a page says what the rows say

mod cells;
mod entry;
mod fault;
mod load;
pub mod notes;
mod round_trip;
mod sheet;
mod table;

pub use cells::is_like_a_formula;
pub use entry::{Entry, Sets, WrittenEffort};
pub use fault::Fault;
pub use round_trip::{Places, Wrong, unsaid};
pub use sheet::{Session, Work, gather};
pub use table::{NoTable, Table, read_table};

use crate::journal::Mapping;

/// What the rows of a table come to.
#[derive(Clone, Debug, Default)]
pub struct Rows {
    /// Those that are understood, in order.
    pub entries: Vec<Entry>,
    /// What was not.
    pub faults: Vec<Fault>,
    /// Rows that `only:` leaves out.
    pub unwanted: Vec<u64>,
    /// Rows in which no cell says anything.
    pub blank: Vec<u64>,
}

/// Reads every row of a table.
pub fn read_rows(table: &Table, mapping: &Mapping) -> Rows {
    let mut rows = Rows::default();
    for row in &table.rows {
        if row.cells.iter().all(|cell| cell.trim_ascii().is_empty()) {
            rows.blank.push(row.number);
            continue;
        }
        match entry::read(table, row, mapping) {
            Ok(Some(entry)) => rows.entries.push(entry),
            Ok(None) => rows.unwanted.push(row.number),
            Err(faults) => rows.faults.extend(faults),
        }
    }
    rows
}
