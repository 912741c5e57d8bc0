//! `export` as JSON: one object a line, or all of them in one answer.

use crate::present::rows::columns::{Object, Scene, cells};
use crate::questions::export::Line;
use serde::Serialize;
use serde_json::value::RawValue;

/// The answer.
#[derive(Serialize)]
pub struct Export {
    lifters: usize,
    count: usize,
    written: Option<String>,
    rows: Option<Vec<Box<RawValue>>>,
}

/// Rows of sets, each an object on a line of its own (JSON Lines).
pub fn lines<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> String {
    lines.map(|line| row(scene, &line) + "\n").collect()
}

/// The rows of one lifter, kept for an answer.
pub fn rows<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> Vec<Box<RawValue>> {
    lines.filter_map(|line| RawValue::from_string(row(scene, &line)).ok()).collect()
}

/// A row as an object. Nothing in it has keys other than text, and every number is one, so this cannot fail.
fn row(scene: &Scene<'_>, line: &Line<'_>) -> String {
    serde_json::to_string(&Object(cells(scene, line).collect())).unwrap_or_default()
}

/// The answer as JSON.
pub fn json(lifters: usize, rows: Vec<Box<RawValue>>) -> Export {
    Export { lifters, count: rows.len(), written: None, rows: Some(rows) }
}

/// What was written to a file instead.
pub fn written(lifters: usize, count: usize, file: String) -> Export {
    Export { lifters, count, written: Some(file), rows: None }
}
