//! `export` as JSON: one object a line, or all of them in one answer.

use crate::present::rows::columns::{Object, Scene, cells};
use crate::questions::export::Line;
use serde::Serialize;

/// The answer.
#[derive(Serialize)]
pub struct Export {
    lifters: usize,
    count: usize,
    written: Option<String>,
    rows: Option<Vec<Object>>,
}

/// Rows of sets, each an object on a line of its own (JSON Lines).
pub fn lines<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> String {
    let mut out = String::new();
    for line in lines {
        // Nothing in it has keys other than text, and every number is one, so this cannot fail.
        out += &serde_json::to_string(&Object(cells(scene, &line))).unwrap_or_default();
        out.push('\n');
    }
    out
}

/// The rows of one lifter, kept for an answer.
pub fn rows<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> Vec<Object> {
    lines.map(|line| Object(cells(scene, &line))).collect()
}

/// The answer as JSON.
pub fn json(lifters: usize, rows: Vec<Object>) -> Export {
    Export { lifters, count: rows.len(), written: None, rows: Some(rows) }
}

/// What was written to a file instead.
pub fn written(lifters: usize, count: usize, file: String) -> Export {
    Export { lifters, count, written: Some(file), rows: None }
}
