//! `export` as comma-separated values (RFC 4180): a header, lines that end in CR LF, quotes where a cell needs them.

use crate::present::rows::columns::{COLUMNS, Cell, Scene, cells};
use crate::present::{sanitize, wording};
use crate::questions::export::Line;
use csv::{Terminator, WriterBuilder};

/// What was written to a file.
pub fn written(lifters: usize, count: usize, file: &str) -> String {
    let lifters = if lifters == 1 { String::new() } else { format!(" of {lifters} lifters") };
    format!("{}{lifters} in {}\n", wording::count(count as u64, "row"), sanitize(file))
}

/// Whether a file that begins so is an export, of either shape.
pub fn is_one(first: &[u8]) -> bool {
    let begins = |with: &str| first.starts_with(with.as_bytes());
    begins("lifter,date,time,") || begins("{\"lifter\":")
}

/// What parts the words of a list in one cell.
const PARTED: &str = "; ";

/// The names of the columns.
pub fn header() -> String {
    rows(std::iter::once(COLUMNS.iter().map(|column| column.name.to_owned()).collect()))
}

/// Rows of sets.
pub fn show<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> String {
    rows(lines.map(|line| cells(scene, &line).into_iter().map(cell).collect()))
}

fn rows(rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    for row in rows {
        // Every row has as many cells, and memory takes them all, so this cannot fail.
        let _ = writer.write_record(&row);
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn cell(cell: Cell) -> String {
    match cell {
        Cell::Null => String::new(),
        Cell::Text(text) => guarded(text),
        Cell::Number(digits) => digits,
        Cell::Flag(flag) => flag.to_string(),
        Cell::List(words) => guarded(words.join(PARTED)),
    }
}

/// Words that a spreadsheet would take for a formula, with an apostrophe before them, so that it shows them and runs
/// nothing (OWASP, "CSV Injection": a cell that begins with `=`, `+`, `-`, `@`, a tab or a carriage return). One that begins
/// with apostrophes before such a sign gets one more, so that the guard can be taken off again. Numbers are no words.
fn guarded(text: String) -> String {
    let first = text.trim_start_matches('\'').chars().next();
    let is_formula = matches!(first, Some('=' | '+' | '-' | '@' | '\t' | '\r'));
    if is_formula { format!("'{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::{guarded, rows};

    #[test]
    fn what_a_spreadsheet_would_run_is_guarded() {
        for text in ["=1+1", "+1", "-x", "@a", "\tb", "\rc"] {
            assert_eq!(guarded(text.into()), format!("'{text}"));
        }
        assert_eq!(guarded("'=1".into()), "''=1");
        assert_eq!(guarded("'tis heavy".into()), "'tis heavy");
        assert_eq!(guarded("Front squat".into()), "Front squat");
    }

    /// RFC 4180, 2: lines end in CR LF; a cell with a comma, a quote or a line break is quoted, a quote in it doubled.
    #[test]
    fn cells_are_quoted_as_the_standard_says() {
        let row = ["a,b", "say \"hm\"", "plain", ""].map(str::to_owned).to_vec();
        assert_eq!(rows(std::iter::once(row)), "\"a,b\",\"say \"\"hm\"\"\",plain,\r\n");
    }
}
