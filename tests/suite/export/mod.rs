//! The table of sets: its dictionary, its totals in a database, and its two shapes.
//!
//! - `dictionary.rs`: docs/export.md against the header
//! - `totals.rs`: the CSV in SQLite, against `volume`
//! - `scale.rs`: the scripts of docs/scale.md
//! - `engine.rs`: the statements of docs/scale.md and docs/export.md in DuckDB, over CSV and Parquet
//! - `parquet.rs`: the types, the rows and the folders of Parquet, where the feature `parquet` is on
//! - `sessions.rs`: what sessions say beside their sets
//! - `shapes.rs`: CSV and JSON lines, spreadsheets, files, many lifters

mod dictionary;
mod engine;
#[cfg(feature = "parquet")]
mod parquet;
mod scale;
mod sessions;
mod shapes;
mod totals;

use crate::support::run;
use std::path::Path;

/// The header and the rows of an export as CSV.
fn table(root: &Path, arguments: &[&str]) -> (Vec<String>, Vec<Vec<String>>) {
    let out = run::run(root, 80, &[&["export"], arguments].concat());
    assert!(!out.contains("--- "), "{arguments:?}\n{out}");
    let mut reader = csv::Reader::from_reader(out.as_bytes());
    let header = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    (header, rows)
}
