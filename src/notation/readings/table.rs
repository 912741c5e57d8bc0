//! Rows of a table whose head names its columns.

use super::vocabulary::Role;
use super::{Choice, Fate, Habits, Named, Names, Place, readings};
use crate::source::Cut;
use crate::training::fold;
use std::borrow::Cow;
use std::cell::RefCell;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Lift,
    /// `Set 1`: one set, with its load perhaps.
    Set,
    /// `3x8`
    Counts,
    Sets,
    /// `Set`: the number of the set, or how many there are.
    SetNumber,
    Reps,
    Load(Option<&'static str>),
    Rpe,
    Rir,
    Remark,
}

/// The columns of a table, the sign between its cells, and the lift and number of the last row's set.
#[derive(Clone, Debug)]
pub struct Columns(Vec<Column>, char, RefCell<(String, u32)>);

/// What parts cells: of a table on a page, or pasted from a spreadsheet.
const PARTING: [char; 4] = ['|', '\t', ';', ','];
/// No head of a column is longer, in bytes.
const LONGEST: usize = 24;

impl Columns {
    /// The columns a row names; `None` where one of them is not known, or the lift or the reps have none.
    pub fn named(row: &str) -> Option<Self> {
        // Most rows are lines of words, which their end tells, or their first cell.
        if row.ends_with('.') {
            return None;
        }
        let start = row.bytes().take_while(|byte| matches!(byte, b' ' | b'|')).count();
        let first = row.as_bytes().get(start..)?;
        let first = first.get(..LONGEST + 4).unwrap_or(first);
        let length = memchr::memchr3(b'|', b';', b',', first).into_iter().chain(memchr::memchr(b'\t', first)).min()?;
        named(row.get(start..start + length)?.trim())?;
        let sign = PARTING.into_iter().find(|sign| row.contains(*sign))?;
        let columns = cells(row, sign).map(named).collect::<Option<Vec<Column>>>()?;
        let count = |wanted: Column| columns.iter().filter(|column| **column == wanted).count();
        let reps = count(Column::Reps) + count(Column::Counts);
        let sets = if count(Column::Set) > 0 { reps == 0 } else { reps == 1 };
        (count(Column::Lift) == 1 && sets).then(|| Columns(columns, sign, RefCell::default()))
    }

    /// Whether a line is parted as the head was, into as many cells. Empty ones at a row's end are often not there.
    pub fn has_row(&self, row: &str) -> bool {
        let parts = cells(row, self.1).count();
        row.contains(self.1) && if self.1 == '|' { parts == self.0.len() } else { parts <= self.0.len() }
    }

    /// Whether a row is the line of dashes below the head.
    pub fn is_rule(row: &str) -> bool {
        row.contains("--") && row.chars().all(|c| matches!(c, '|' | '-' | ':' | ' '))
    }

    /// Reads a row that it has.
    pub fn row(&self, row: &str, names: &dyn Names, habits: &Habits, unit: &'static str) -> Fate {
        let cells = cells(row, self.1);
        let mut each: Vec<&str> = Vec::new();
        let (mut lift, mut sets, mut reps, mut load, mut rest) =
            (String::new(), String::new(), String::new(), String::new(), String::new());
        let mut number = None;
        for (column, cell) in self.0.iter().zip(cells) {
            if cell.is_empty() || cell == "-" {
                continue;
            }
            match column {
                Column::Lift => lift = cell.trim_matches('*').to_owned(),
                Column::Set => each.push(cell),
                Column::Counts => reps = cell.to_owned(),
                Column::SetNumber => number = cell.trim_start_matches('#').parse::<u32>().ok(),
                Column::Sets => sets = format!("{cell} sets x "),
                Column::Reps if cell.contains([',', '/', ' ']) => reps = cell.replace(", ", ",").replace(' ', ","),
                Column::Reps if cell.ends_with(char::is_alphabetic) => reps = cell.to_owned(),
                Column::Reps => reps = format!("{cell} reps"),
                Column::Load(unit) => {
                    let bare = cell.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
                    let unit = unit.filter(|_| bare).map_or(String::new(), |unit| format!(" {unit}"));
                    load = format!(" @ {cell}{unit}");
                }
                Column::Rpe => rest.push_str(&format!(" RPE {cell}")),
                Column::Rir => rest.push_str(&format!(" RIR {cell}")),
                Column::Remark => rest.push_str(&format!(" ({})", cell.trim_matches(['(', ')']))),
            }
        }
        let plain = |text: &&str| text.chars().all(|c| c.is_ascii_digit());
        if each.len() > 1 {
            reps = each.join(if each.iter().all(plain) { "," } else { ", " });
        } else if let [one] = each.as_slice() {
            reps = if plain(one) { format!("{one} reps") } else { (*one).to_owned() };
        }
        // The first set of a lift has the number one, and the next one more; of any other nobody knows what it counts.
        let before = number.map(|number| self.2.replace((lift.clone(), number)));
        let in_order =
            before.is_none_or(|(last, before)| number == Some(1) || (last == lift && number == before.checked_add(1)));
        let Some(Named { name, .. }) = names.lift(&fold(&lift)) else {
            return if reps.is_empty() { Fate::Prose } else { Fate::UnknownLift(lift, Vec::new()) };
        };
        let read =
            |sets: &str| readings(&format!("{name} {sets}{reps}{load}{rest}"), Place::default(), names, habits, unit);
        let fate = match (read(&sets), number.filter(|_| !in_order)) {
            (Fate::Read(one), Some(number)) => match read(&format!("{number} sets x ")) {
                Fate::Read(more) => Fate::Several(vec![one, more]),
                _ => Fate::Several(vec![one]),
            },
            (fate, _) => fate,
        };
        match fate {
            Fate::Prose if reps.is_empty() => Fate::Prose,
            Fate::Prose => Fate::Unread,
            Fate::Several(choices) => {
                Fate::Several(choices.into_iter().map(|choice| Choice { below: false, ..choice }).collect())
            }
            other => other,
        }
    }
}

fn cells(row: &str, sign: char) -> impl Iterator<Item = &str> {
    let row = row.trim_matches([' ', '\r']);
    let row = if sign == '|' { row.strip_prefix('|').unwrap_or(row) } else { row };
    let row = if sign == '|' { row.strip_suffix('|').unwrap_or(row) } else { row };
    row.split(sign).map(str::trim)
}

/// The heads of columns, in small letters.
const HEADS: [(Column, &[&str]); 9] = [
    (Column::Lift, &["lift", "exercise", "movement", "übung", "exercice", "ejercicio"]),
    (Column::Sets, &["sets", "sätze", "séries", "series"]),
    (Column::SetNumber, &["set", "set #", "set no", "set no.", "set nr", "set nr.", "#", "satz", "satz nr."]),
    (Column::Counts, &["sets x reps", "setsxreps", "sets × reps"]),
    (Column::Load(Some("kg")), &["kg", "weight (kg)", "load (kg)"]),
    (Column::Load(Some("lb")), &["lb", "lbs", "weight (lb)", "weight (lbs)", "load (lb)"]),
    (Column::Remark, &["notes", "note", "remarks", "comment", "comments"]),
    (Column::Rpe, &["rpe"]),
    (Column::Rir, &["rir"]),
];

/// The heads of one word that other lines have as well.
const WORDS: [(Role, Column); 2] = [(Role::Reps, Column::Reps), (Role::LoadKey, Column::Load(None))];

fn named(head: &str) -> Option<Column> {
    let head = head.trim_matches(['*', ' ']);
    if head.len() > LONGEST {
        return None;
    }
    let small = if head.is_ascii() { Cow::Borrowed(head) } else { Cow::Owned(head.to_lowercase()) };
    let is = |word: &&str| word.eq_ignore_ascii_case(&small);
    let known = HEADS.iter().find(|(_, words)| words.iter().any(is)).map(|(column, _)| *column);
    let known = known.or_else(|| Role::first(&small.to_lowercase(), &WORDS));
    // `Set 1`, `S1`
    known.or_else(|| {
        let letters = small.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
        let nth = small.tail(letters.len()).trim_start().parse::<u8>();
        (nth.is_ok() && ["set", "s"].iter().any(|word| word.eq_ignore_ascii_case(letters))).then_some(Column::Set)
    })
}
