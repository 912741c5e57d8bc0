//! What `export` answers: one object a line, or all of them in one answer.

use super::columns::{Cell, Cells, Column, Scene};
use crate::present::envelope::plain_json;
use crate::questions::export::Line;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;
use serde_json::value::RawValue;
use serde_json::{Map, json};

/// The answer.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Answer {
    /// How many lifters were asked.
    lifters: usize,
    /// How many rows there are.
    count: usize,
    /// The file, or the folder of files, that they were written to.
    written: Option<String>,
    /// The rows; null where they were written to a file.
    #[schemars(schema_with = "rows_schema")]
    rows: Option<Vec<Box<RawValue>>>,
}

impl Answer {
    /// All rows in one answer.
    pub fn of(lifters: usize, rows: Vec<Box<RawValue>>) -> Self {
        Answer { lifters, count: rows.len(), written: None, rows: Some(rows) }
    }

    /// What was written to a file instead.
    pub fn written(lifters: usize, count: usize, file: &str) -> Self {
        Answer { lifters, count, written: Some(file.to_owned()), rows: None }
    }
}

/// Rows of sets, each an object on a line of its own (JSON Lines).
pub fn lines<'a>(scene: &Scene<'a>, lines: impl Iterator<Item = Line<'a>>) -> String {
    let (mut cells, mut out) = (Cells::new(scene, entry), String::new());
    for line in lines {
        out.push('{');
        cells.put(line, &mut out);
        out.push_str("}\n");
    }
    out
}

/// The rows of one lifter, kept for an answer.
pub fn rows<'a>(scene: &Scene<'a>, lines: impl Iterator<Item = Line<'a>>) -> Vec<Box<RawValue>> {
    let mut cells = Cells::new(scene, entry);
    let row = |line: Line<'a>| {
        let mut row = String::from("{");
        cells.put(line, &mut row);
        row.push('}');
        RawValue::from_string(row).ok()
    };
    lines.filter_map(row).collect()
}

/// An entry of a row's object. Every number is one, so it cannot fail; names of columns are plain words.
fn entry(out: &mut String, column: &Column, cell: Cell<'_>) {
    out.clear();
    out.extend(["\"", column.name, "\":"]);
    out.push_str(&plain_json(serde_json::to_string(&cell).unwrap_or_default()));
}

/// The data dictionary: a table of column, type, unit, what it is, and when it is empty.
const DICTIONARY: &str = include_str!("../../../docs/export.md");

/// The rows, as the dictionary tells their columns.
fn rows_schema(_: &mut SchemaGenerator) -> Schema {
    let mut properties = Map::new();
    for line in DICTIONARY.lines() {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let [name, kind, _, is, empty] = cells[..] else { continue };
        let kind = match kind {
            "text" | "date" => "string",
            "whole number" => "integer",
            "number" => "number",
            "true or false" => "boolean",
            "list" => "array",
            _ => continue,
        };
        let mut column = json!({ "description": is, "type": [kind, "null"] });
        if kind == "array" {
            column = json!({ "description": is, "type": kind, "items": { "type": "string" } });
        } else if empty == "never" {
            column = json!({ "description": is, "type": kind });
        }
        properties.insert(name.trim_matches('`').to_owned(), column);
    }
    let required: Vec<&String> = properties.keys().collect();
    let row = json!({ "type": "object", "required": required, "properties": properties });
    json_schema!({ "type": ["array", "null"], "items": row })
}
