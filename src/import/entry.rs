//! What a row says: the sets of one kind, on one date, of one lift.

use super::cells::{Cell, Cells};
use super::fault::Fault;
use super::load;
use super::table::{Row, Table};
use crate::journal::{Field, Mapping, Source};
use crate::notation;
use crate::training::{Amount, Distance, decimal};
use chrono::{Datelike, NaiveDate};

/// An effort as it is written: from so hard to so hard, in thousandths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WrittenEffort {
    /// The lower number.
    pub low: i64,
    /// The higher one; the same where there is one.
    pub high: i64,
    /// Whether they are reps in reserve.
    pub in_reserve: bool,
}

/// Sets that are all the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sets {
    /// How many.
    pub count: u32,
    /// What each of them was.
    pub amount: Amount,
    /// Whether that is of each side.
    pub per_side: bool,
    /// The load, in the notation.
    pub load: Option<String>,
    /// How hard.
    pub effort: Option<WrittenEffort>,
    /// The names of faults.
    pub faults: Vec<String>,
    /// Reps missed after the last of them.
    pub missed: u32,
}

/// A row that is understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Which row.
    pub row: u64,
    /// The session's date.
    pub date: NaiveDate,
    /// When it began, in minutes after midnight.
    pub minute: Option<u16>,
    /// The day's label, without the word "day".
    pub day: Option<String>,
    /// The lift, as written.
    pub lift: String,
    /// Its sets.
    pub sets: Sets,
    /// The lifter's own weight, with its unit.
    pub bodyweight: Option<String>,
    /// A note, on one line.
    pub note: Option<String>,
}

/// Reads a row: what it says, nothing where it is not wanted, or all that is wrong with it.
pub(super) fn read(table: &Table, row: &Row, mapping: &Mapping) -> Result<Option<Entry>, Vec<Fault>> {
    let cells = Cells { table, row, mapping };
    if row.open_quote {
        return Err(vec![cells.fault(None, "\"", "a quote that closes; all after it was taken for one cell")]);
    }
    if row.after_quote {
        let wanted = "cells that end with their closing quote; a quote within one is written twice";
        return Err(vec![cells.fault(None, "\"", wanted)]);
    }
    if row.cells.len() != table.header.len() {
        let (found, wanted) = (row.cells.len(), table.header.len());
        return Err(vec![cells.fault(None, &format!("{found} cells"), format!("{wanted}, as in the first row"))]);
    }
    if !is_wanted(&cells).map_err(|fault| vec![fault])? {
        return Ok(None);
    }
    let mut faults = Vec::new();
    let (date, in_date) =
        keep(cells.needed(Field::Date).and_then(|cell| cells.date(&cell)), &mut faults).unwrap_or_default();
    let entry = Entry {
        row: row.number,
        date,
        minute: keep(time(&cells, in_date), &mut faults).flatten(),
        day: keep(cells.get(Field::Day), &mut faults).flatten().map(|cell| label(&cell.text)),
        lift: keep(lift(&cells), &mut faults).unwrap_or_default(),
        sets: Sets {
            count: keep(sets(&cells), &mut faults).unwrap_or(1),
            amount: keep(amount(&cells), &mut faults).unwrap_or(Amount::Reps(0)),
            per_side: keep(per_side(&cells), &mut faults).unwrap_or(false),
            load: keep(load::read(&cells), &mut faults).flatten(),
            effort: keep(effort(&cells), &mut faults).flatten(),
            faults: keep(cells.get(Field::Faults), &mut faults)
                .flatten()
                .map_or_else(Vec::new, |cell| names(&cell.text)),
            missed: keep(missed(&cells), &mut faults).unwrap_or(0),
        },
        bodyweight: keep(bodyweight(&cells), &mut faults).flatten(),
        note: keep(note(&cells), &mut faults).flatten(),
    };
    if faults.is_empty() && !(1900..=9999).contains(&entry.date.year()) {
        faults.push(cells.fault(None, &entry.date.to_string(), "a year of four digits; is the date format right?"));
    }
    if faults.is_empty() { Ok(Some(entry)) } else { Err(faults) }
}

fn keep<T>(read: Result<T, Fault>, faults: &mut Vec<Fault>) -> Option<T> {
    read.map_err(|fault| faults.push(fault)).ok()
}

fn is_wanted(cells: &Cells<'_>) -> Result<bool, Fault> {
    for (source, values) in &cells.mapping.only {
        let Source::Column(name, _) = source else { continue };
        let text = cells.of_column(name)?;
        if !values.contains(&text) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// When the session began. A time in the date's cell is asked for by naming that column once more: where every set has a
/// time of its own, nobody wants a session for each.
fn time(cells: &Cells<'_>, in_date: Option<u16>) -> Result<Option<u16>, Fault> {
    let column = |field| match cells.mapping.source(field) {
        Some(Source::Column(name, _)) => Some(name),
        _ => None,
    };
    if column(Field::Time).is_some() && column(Field::Time) == column(Field::Date) {
        return Ok(in_date);
    }
    cells.get(Field::Time)?.map(|cell| cells.time(&cell)).transpose()
}

/// A label as the journal keeps it: `technique` of `technique day`, `2` of `day 2`.
fn label(text: &str) -> String {
    let word = |bare: Option<&str>| bare.map(str::trim).filter(|bare| !bare.is_empty()).map(str::to_owned);
    let lower = text.to_ascii_lowercase();
    let before = lower.ends_with(" day").then(|| text.get(..text.len() - 4)).flatten();
    let after = lower.starts_with("day ").then(|| text.get(4..)).flatten();
    word(before).or_else(|| word(after)).unwrap_or_else(|| text.to_owned())
}

fn lift(cells: &Cells<'_>) -> Result<String, Fault> {
    let cell = cells.needed(Field::Lift)?;
    if holds_comment(&cell.text) {
        return Err(cells.wrong(&cell, "a lift's name without `<!--`"));
    }
    Ok(cell.text.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn holds_comment(text: &str) -> bool {
    text.contains("<!--") || text.contains("-->")
}

/// How many sets; one where the mapping says nothing of it.
fn sets(cells: &Cells<'_>) -> Result<u32, Fault> {
    if cells.mapping.source(Field::Sets).is_none() {
        return Ok(1);
    }
    let cell = cells.needed(Field::Sets)?;
    let sets = cells.whole(&cell, 1)?;
    if sets > MOST_SETS {
        return Err(cells.wrong(&cell, format!("no more than {MOST_SETS} sets in a row")));
    }
    Ok(sets)
}

/// More sets than this in one row are something else.
const MOST_SETS: u32 = 100;

/// Reps, seconds or metres: one of them.
fn amount(cells: &Cells<'_>) -> Result<Amount, Fault> {
    let mut found: Vec<(Field, Cell)> = Vec::new();
    for field in [Field::Reps, Field::Seconds, Field::Metres] {
        found.extend(cells.get(field)?.map(|cell| (field, cell)));
    }
    match found.as_slice() {
        [(Field::Reps, cell)] => Ok(Amount::Reps(cells.whole(cell, 0)?)),
        [(Field::Seconds, cell)] => Ok(Amount::Seconds(cells.whole(cell, 0)?)),
        [(_, cell)] => match cells.decimal(&cell.text).filter(|thousandths| *thousandths >= 0) {
            Some(thousandths) => Ok(Amount::Metres(Distance::metres(thousandths))),
            None => Err(cells.wrong(cell, "a number of metres, with at most three decimals")),
        },
        [] => Err(cells.fault(None, "", "reps, seconds or metres")),
        several => {
            let read: Vec<String> = several.iter().map(|(_, cell)| format!("{} {}", cell.column, cell.text)).collect();
            Err(cells.fault(None, &read.join(", "), "one of reps, seconds and metres, and the others empty"))
        }
    }
}

fn per_side(cells: &Cells<'_>) -> Result<bool, Fault> {
    cells.get(Field::PerSide)?.map_or(Ok(false), |cell| cells.flag(&cell))
}

fn missed(cells: &Cells<'_>) -> Result<u32, Fault> {
    cells.get(Field::Missed)?.map_or(Ok(0), |cell| cells.whole(&cell, 0))
}

/// An effort on the scale that the mapping says. The middle of two half points is what the notation makes of a range of
/// both, and is written so.
fn effort(cells: &Cells<'_>) -> Result<Option<WrittenEffort>, Fault> {
    let Some(cell) = cells.get(Field::Effort)? else { return Ok(None) };
    let scale = cells.needed(Field::EffortScale)?;
    let in_reserve = match scale.text.to_ascii_uppercase().as_str() {
        "RPE" => false,
        "RIR" => true,
        _ => return Err(cells.wrong(&scale, "RPE or RIR")),
    };
    let (low, high) = cell
        .text
        .split_once('-')
        .map_or((cell.text.as_str(), cell.text.as_str()), |(low, high)| (low.trim(), high.trim()));
    let range = cells.decimal(low).zip(cells.decimal(high)).map(|(low, high)| match low == high && low % 500 == 250 {
        true => (low - 250, high + 250),
        false => (low, high),
    });
    let fits = |(low, high): &(i64, i64)| {
        let within = if in_reserve { 0..=9000 } else { 1000..=10_000 };
        low <= high && within.contains(low) && within.contains(high) && low % 500 == 0 && high % 500 == 0
    };
    let scale = if in_reserve { "reps in reserve, 0 to 9 in halves" } else { "an RPE, 1 to 10 in halves" };
    let (low, high) = range.filter(fits).ok_or_else(|| cells.wrong(&cell, scale))?;
    Ok(Some(WrittenEffort { low, high, in_reserve }))
}

/// Names parted by commas, semicolons or blanks, with or without their `!`.
fn names(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| matches!(c, ',' | ';') || c.is_whitespace());
    parts.map(|part| part.trim_start_matches('!').to_owned()).filter(|part| !part.is_empty()).collect()
}

fn bodyweight(cells: &Cells<'_>) -> Result<Option<String>, Fault> {
    let Some(cell) = cells.get(Field::Bodyweight)? else { return Ok(None) };
    let wrong = || cells.wrong(&cell, "a mass, such as 83.1");
    let Some(number) = cells.decimal(&cell.text) else {
        let text = load::with_points(cells, &cell.text);
        let whole = notation::mass(&text).filter(|(thousandths, _)| *thousandths > 0).ok_or_else(wrong)?;
        let (thousandths, unit) = (whole.0, whole.1.ok_or_else(wrong)?);
        return Ok(Some(format!("{} {}", decimal(thousandths), unit.word())));
    };
    let unit = match load::unit(cells, Field::BodyweightUnit)? {
        Some(unit) => Some(unit),
        None => load::unit(cells, Field::Unit)?,
    };
    let unit = unit.ok_or_else(|| load::no_unit(cells, &cell.column, &cell.text))?;
    if number > 0 { Ok(Some(format!("{} {}", decimal(number), unit.word()))) } else { Err(wrong()) }
}

/// A note; line breaks in it become blanks.
fn note(cells: &Cells<'_>) -> Result<Option<String>, Fault> {
    let Some(cell) = cells.get(Field::Note)? else { return Ok(None) };
    if holds_comment(&cell.text) {
        return Err(cells.wrong(&cell, "a note without `<!--`"));
    }
    Ok(Some(cell.text.split_whitespace().collect::<Vec<_>>().join(" ")))
}
