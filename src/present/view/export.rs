//! `export` as comma-separated values (RFC 4180): a header, lines that end in CR LF, quotes where a cell needs them.

use crate::import::is_like_a_formula;
use crate::present::rows::columns::{COLUMNS, Cell, Cells, Scene};
use crate::present::{sanitize, wording};
use crate::questions::export::Line;
use std::borrow::Cow;

/// What was written to a file.
pub fn written(lifters: usize, count: usize, file: &str) -> String {
    let lifters = if lifters == 1 { String::new() } else { format!(" of {lifters} lifters") };
    format!("{}{lifters} in {}\n", wording::count(count as u64, "row"), sanitize(file))
}

/// What stands in a folder of Parquet of others than those who were asked: whoever asks all files counts it.
pub fn others(folders: &[String]) -> String {
    let words = match folders {
        [] => return String::new(),
        [one] => format!("{} stays", sanitize(one)),
        [first, others @ ..] => format!("{} and {} more stay", sanitize(first), others.len()),
    };
    format!("{words}: no lifter of this journal is called so\n")
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
    let mut out = String::new();
    for (nth, column) in COLUMNS.iter().enumerate() {
        out.push_str(if nth > 0 { "," } else { "" });
        put(&mut out, column.name);
    }
    out + END
}

/// Rows of sets.
pub fn show<'a>(scene: &Scene<'a>, lines: impl Iterator<Item = Line<'a>>) -> String {
    let (mut cells, mut out) = (Cells::new(scene, |out, _, cell| field(out, cell)), String::new());
    for line in lines {
        cells.put(line, &mut out);
        out.push_str(END);
    }
    out
}

/// What ends a line.
const END: &str = "\r\n";

fn field(out: &mut String, cell: Cell<'_>) {
    out.clear();
    match cell {
        Cell::Null => {}
        Cell::Text(text) => put(out, &guarded(text)),
        Cell::Number(digits) => out.push_str(&digits),
        Cell::Flag(flag) => out.push_str(if flag { "true" } else { "false" }),
        Cell::List(words) => put(out, &guarded(words.join(PARTED).into())),
    }
}

/// A field, in quotes where it needs them.
fn put(out: &mut String, text: &str) {
    if text.bytes().any(|byte| matches!(byte, b',' | b'"' | b'\r' | b'\n')) {
        out.extend(["\"", &text.replace('"', "\"\""), "\""]);
    } else {
        out.push_str(text);
    }
}

/// Words that a spreadsheet would take for a formula, with an apostrophe before them, so that it shows them and runs
/// nothing. One that begins with apostrophes before such a sign gets one more, so that the guard can be taken off again.
/// Numbers are no words.
fn guarded(text: Cow<'_, str>) -> Cow<'_, str> {
    if is_like_a_formula(&text) { format!("'{text}").into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::{Cell, field, guarded};

    #[test]
    fn what_a_spreadsheet_would_run_is_guarded() {
        for text in ["=1+1", "+1", "-x", "@a", "\tb", "\rc", "＝1+1", "＋1", "－x", "＠a"] {
            assert_eq!(guarded(text.into()), format!("'{text}"));
        }
        assert_eq!(guarded("'=1".into()), "''=1");
        assert_eq!(guarded("'tis heavy".into()), "'tis heavy");
        assert_eq!(guarded("Front squat".into()), "Front squat");
    }

    /// RFC 4180, 2: a cell with a comma, a quote or a line break is quoted, a quote in it doubled.
    #[test]
    fn cells_are_quoted_as_the_standard_says() {
        let written = |text: &'static str| {
            let mut out = String::new();
            field(&mut out, Cell::Text(text.into()));
            out
        };
        assert_eq!(written("a,b"), "\"a,b\"");
        assert_eq!(written("say \"hm\""), "\"say \"\"hm\"\"\"");
        assert_eq!(written("two\nlines"), "\"two\nlines\"");
        assert_eq!(["plain", ""].map(written), ["plain", ""]);
    }
}
