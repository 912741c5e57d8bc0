//! `export` as comma-separated values (RFC 4180): a header, lines that end in CR LF, quotes where a cell needs them.

use crate::present::rows::columns::{COLUMNS, Cell, Scene, cells};
use crate::present::{sanitize, wording};
use crate::questions::export::Line;
use csv::{Terminator, Writer, WriterBuilder};
use std::borrow::Cow;

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
    let mut table = Table::new();
    table.row(COLUMNS.iter().map(|column| Cell::Text(Cow::Borrowed(column.name))));
    table.text()
}

/// Rows of sets.
pub fn show<'a>(scene: &Scene<'_>, lines: impl Iterator<Item = Line<'a>>) -> String {
    let mut table = Table::new();
    for line in lines {
        table.row(cells(scene, &line));
    }
    table.text()
}

/// Rows written into memory, which takes all of them: none of it can fail.
struct Table(Writer<Vec<u8>>);

impl Table {
    fn new() -> Self {
        Table(WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new()))
    }

    fn row<'a>(&mut self, cells: impl Iterator<Item = Cell<'a>>) {
        for cell in cells {
            let _ = match cell {
                Cell::Null => self.0.write_field(""),
                Cell::Text(text) => self.0.write_field(&*guarded(text)),
                Cell::Number(digits) => self.0.write_field(digits),
                Cell::Flag(flag) => self.0.write_field(if flag { "true" } else { "false" }),
                Cell::List(words) => self.0.write_field(&*guarded(words.join(PARTED).into())),
            };
        }
        let _ = self.0.write_record(None::<&[u8]>);
    }

    fn text(self) -> String {
        String::from_utf8(self.0.into_inner().unwrap_or_default()).unwrap_or_default()
    }
}

/// Words that a spreadsheet would take for a formula, with an apostrophe before them, so that it shows them and runs
/// nothing (OWASP, "CSV Injection": a cell that begins with `=`, `+`, `-`, `@`, a tab or a carriage return; the full-width
/// signs are the same to some). One that begins
/// with apostrophes before such a sign gets one more, so that the guard can be taken off again. Numbers are no words.
fn guarded(text: Cow<'_, str>) -> Cow<'_, str> {
    let first = text.trim_start_matches('\'').chars().next();
    let is_formula = matches!(first, Some('=' | '+' | '-' | '@' | '\t' | '\r' | '＝' | '＋' | '－' | '＠'));
    if is_formula { format!("'{text}").into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::{Cell, Table, guarded};

    #[test]
    fn what_a_spreadsheet_would_run_is_guarded() {
        for text in ["=1+1", "+1", "-x", "@a", "\tb", "\rc", "＝1+1", "＋1", "－x", "＠a"] {
            assert_eq!(guarded(text.into()), format!("'{text}"));
        }
        assert_eq!(guarded("'=1".into()), "''=1");
        assert_eq!(guarded("'tis heavy".into()), "'tis heavy");
        assert_eq!(guarded("Front squat".into()), "Front squat");
    }

    /// RFC 4180, 2: lines end in CR LF; a cell with a comma, a quote or a line break is quoted, a quote in it doubled.
    #[test]
    fn cells_are_quoted_as_the_standard_says() {
        let row = ["a,b", "say \"hm\"", "plain", ""].map(|text| Cell::Text(text.into()));
        let mut table = Table::new();
        table.row(row.into_iter());
        assert_eq!(table.text(), "\"a,b\",\"say \"\"hm\"\"\",plain,\r\n");
    }
}
