//! docs/export.md tells every column, in order, and no other; and what it says of types and of what is never empty holds.

use super::table;
use crate::support::journal::example;
use loadline::present::rows::columns::{COLUMNS, Is};
use std::fs;
use std::path::Path;

/// The rows of the dictionary: name, type, unit, meaning, when empty.
pub(super) fn dictionary() -> Vec<Vec<String>> {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/export.md")).unwrap();
    let section = text.split("\n## Columns\n").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows = section.lines().filter(|line| line.starts_with("| `"));
    rows.map(|row| row.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect()).collect()
}

#[test]
fn the_dictionary_and_the_header_have_the_same_columns() {
    let (header, _) = table(&example(), &[]);
    let told: Vec<String> = dictionary().iter().map(|row| row[0].trim_matches('`').to_owned()).collect();
    assert_eq!(told, header);
}

/// The types that the columns are told to have, with their units.
#[test]
fn the_dictionary_tells_what_each_column_is() {
    for (row, column) in dictionary().iter().zip(&COLUMNS) {
        let told = match (row[1].as_str(), row[2].as_str()) {
            ("text", _) => Is::Text,
            ("date", _) => Is::Date,
            ("whole number", _) => Is::Whole,
            ("number", "kg") => Is::Kilograms,
            ("number", "m") => Is::Metres,
            ("number", "RPE" | "of 10") => Is::Points,
            ("true or false", _) => Is::Flag,
            ("list", _) => Is::List,
            _ => panic!("{row:?}"),
        };
        assert_eq!(column.is, told, "{row:?}");
    }
}

#[test]
fn cells_are_of_the_type_that_is_told() {
    let (_, mut rows) = table(&example(), &["--all"]);
    rows.extend(table(&example(), &["--all", "--on", "2026-09-01"]).1);
    for (at, told) in dictionary().iter().enumerate() {
        assert_eq!(told.len(), 5, "{told:?}");
        let cells = || rows.iter().map(|row| row[at].as_str());
        let full = || cells().filter(|cell| !cell.is_empty());
        match told[1].as_str() {
            "true or false" => assert!(full().all(|cell| ["true", "false"].contains(&cell)), "{told:?}"),
            "whole number" => assert!(full().all(|cell| cell.parse::<u32>().is_ok()), "{told:?}"),
            "number" => assert!(full().all(|cell| cell.parse::<f64>().is_ok()), "{told:?}"),
            "date" => assert!(full().all(|cell| cell.len() == 10), "{told:?}"),
            "text" | "list" => {}
            other => panic!("{other}"),
        }
        if told[4] == "never" {
            assert!(cells().all(|cell| !cell.is_empty()), "{told:?}");
        }
    }
}
