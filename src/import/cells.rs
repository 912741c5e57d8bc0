//! The cells of a row by field, and one value in a cell.

use super::fault::Fault;
use super::table::{Row, Table};
use crate::journal::{Field, Mapping, Source};
use chrono::format::{Parsed, StrftimeItems, parse};
use chrono::{NaiveDate, Timelike};

/// Longer cells say nothing of training.
const LONGEST: usize = 2000;
/// Digits before the point that are read.
const MOST_DIGITS: usize = 6;

/// A row's cells, by field.
pub(super) struct Cells<'t> {
    pub(super) table: &'t Table,
    pub(super) row: &'t Row,
    pub(super) mapping: &'t Mapping,
}

/// The value of a field in a row, and where it is from.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    /// Without blanks round it, and not empty.
    pub(super) text: String,
    /// The column, or the key of the constant.
    pub(super) column: String,
}

impl Cells<'_> {
    /// A fault in this row.
    pub(super) fn fault(&self, column: Option<&str>, read: &str, wanted: impl Into<String>) -> Fault {
        let read: String = read.chars().take(60).collect();
        Fault { row: self.row.number, column: column.map(str::to_owned), read, wanted: wanted.into() }
    }

    /// A fault in a cell of this row.
    pub(super) fn wrong(&self, cell: &Cell, wanted: impl Into<String>) -> Fault {
        self.fault(Some(&cell.column), &cell.text, wanted)
    }

    /// The column of a field, or the key of its constant.
    fn named(&self, field: Field) -> Option<&str> {
        Some(match self.mapping.source(field)? {
            Source::Column(name, _) => name,
            Source::Constant(_) => field.word(),
        })
    }

    /// The value of a field; nothing where the mapping has none, or the cell is empty.
    pub(super) fn get(&self, field: Field) -> Result<Option<Cell>, Fault> {
        let Some((source, column)) = self.mapping.source(field).zip(self.named(field)) else { return Ok(None) };
        let text = match source {
            Source::Constant(text) => text.clone(),
            Source::Column(name, _) => self.of_column(name)?,
        };
        let bad = |c: char| c.is_control() && !(field == Field::Note && matches!(c, '\t' | '\r' | '\n'));
        if text.chars().any(bad) {
            return Err(self.fault(Some(column), &text, "text without line breaks and control characters"));
        }
        if text.len() > LONGEST {
            return Err(self.fault(Some(column), &text, format!("no more than {LONGEST} bytes")));
        }
        Ok(Some(Cell { text, column: column.to_owned() }).filter(|cell| !cell.text.is_empty()))
    }

    /// The text of a column, without blanks round it.
    pub(super) fn of_column(&self, name: &str) -> Result<String, Fault> {
        let bytes = self.table.column(name).and_then(|at| self.row.cells.get(at)).map_or(&[][..], Vec::as_slice);
        let Ok(text) = std::str::from_utf8(bytes) else {
            return Err(self.fault(Some(name), &String::from_utf8_lossy(bytes), "text in UTF-8"));
        };
        let text = text.trim_matches(|c: char| c.is_whitespace());
        Ok(if self.mapping.formula_guard { unguarded(text) } else { text }.to_owned())
    }

    /// A field that every row must have.
    pub(super) fn needed(&self, field: Field) -> Result<Cell, Fault> {
        self.get(field)?.ok_or_else(|| self.fault(self.named(field), "", format!("a {}", field.word())))
    }

    /// A whole number.
    pub(super) fn whole(&self, cell: &Cell, least: u32) -> Result<u32, Fault> {
        let number = self.decimal(&cell.text).filter(|thousandths| thousandths % 1000 == 0);
        let number = number.and_then(|thousandths| u32::try_from(thousandths / 1000).ok());
        number
            .filter(|number| *number >= least)
            .ok_or_else(|| self.wrong(cell, format!("a whole number from {least} up")))
    }

    /// A decimal number in thousandths, with the mapping's decimal sign.
    pub(super) fn decimal(&self, text: &str) -> Option<i64> {
        let sign = if self.mapping.decimal_comma { ',' } else { '.' };
        let (negative, digits) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
        let (whole, decimals) = digits.split_once(sign).unwrap_or((digits, ""));
        let are_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        let ends_well = !digits.ends_with(sign) && !whole.is_empty() && whole.len() <= MOST_DIGITS;
        let decimals = decimals.trim_end_matches('0');
        if !ends_well || !are_digits(whole) || !are_digits(decimals) || decimals.len() > 3 {
            return None;
        }
        let thousandths = whole.parse::<i64>().ok()? * 1000 + format!("{decimals:0<3}").parse::<i64>().ok()?;
        Some(if negative { -thousandths } else { thousandths })
    }

    /// Yes or no.
    pub(super) fn flag(&self, cell: &Cell) -> Result<bool, Fault> {
        match cell.text.to_lowercase().as_str() {
            "true" | "yes" | "1" => Ok(true),
            "false" | "no" | "0" => Ok(false),
            _ => Err(self.wrong(cell, "true or false")),
        }
    }

    /// A date, and the time that its format may hold.
    pub(super) fn date(&self, cell: &Cell) -> Result<(NaiveDate, Option<u16>), Fault> {
        let format = &self.mapping.date_format;
        let mut parsed = Parsed::new();
        let read = parse(&mut parsed, &cell.text, StrftimeItems::new(format)).and_then(|()| parsed.to_naive_date());
        let minute = parsed.to_naive_time().ok().map(minute_of);
        let strict = format != "%Y-%m-%d" || cell.text.len() == 10;
        read.ok().filter(|_| strict).map(|date| (date, minute)).ok_or_else(|| {
            let hint =
                if format == "%Y-%m-%d" { "; other dates need a `date format:`, such as \"%d.%m.%Y\"" } else { "" };
            self.wrong(cell, format!("a date as {format}{hint}"))
        })
    }

    /// A time of day, in minutes after midnight.
    pub(super) fn time(&self, cell: &Cell) -> Result<u16, Fault> {
        let format = &self.mapping.time_format;
        let mut parsed = Parsed::new();
        let read = parse(&mut parsed, &cell.text, StrftimeItems::new(format)).and_then(|()| parsed.to_naive_time());
        read.map(minute_of).map_err(|_| self.wrong(cell, format!("a time as {format}")))
    }
}

fn minute_of(time: chrono::NaiveTime) -> u16 {
    u16::try_from(time.hour() * 60 + time.minute()).unwrap_or(0)
}

/// Words without the apostrophe that guards them from being run as a formula.
fn unguarded(text: &str) -> &str {
    text.strip_prefix('\'').filter(|_| is_like_a_formula(text)).unwrap_or(text)
}

/// Whether a spreadsheet would take words for a formula, with apostrophes before them or without (OWASP, "CSV Injection": a
/// cell that begins with `=`, `+`, `-`, `@`, a tab or a carriage return; the full-width signs are the same to some).
pub fn is_like_a_formula(text: &str) -> bool {
    let first = text.trim_start_matches('\'').chars().next();
    matches!(first, Some('=' | '+' | '-' | '@' | '\t' | '\r' | '＝' | '＋' | '－' | '＠'))
}
