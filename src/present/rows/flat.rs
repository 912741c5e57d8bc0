//! Flat text: one line a set, with its day and lift. Two blanks part the columns and none is padded, so that a line that
//! changes leaves all others alone.

use crate::analysis::rows::{Row, SetDone};
use crate::present::{Role, wording};
use crate::questions::flatten::{BlockKey, Line, What};
use crate::source::Place;
use crate::training::spelling::{self, Spelled};
use crate::training::{AsideKind, RemarkKind};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// The answer of `flatten`.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct Answer<'a> {
    lines: Vec<Flat<'a>>,
}

/// A line in the spelling of the notation.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Flat<'a> {
    /// The session's date, or the first day of the block; null for what stands outside both.
    date: Option<NaiveDate>,
    /// The session's label, without the word "day".
    day: Option<&'a str>,
    /// The block that it is about.
    block: Option<&'a str>,
    /// The lift that it is about.
    lift: Option<&'a str>,
    /// What kind of line it is.
    kind: String,
    /// What it says.
    text: String,
    /// The set, where it is one.
    set: Option<FlatSet<'a>>,
    /// Where it stands.
    #[serde(flatten)]
    place: &'a Place,
}

/// A set or a warm-up.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct FlatSet<'a> {
    /// Which one of the lift in its session, from 1.
    number: u32,
    /// What was done.
    #[serde(flatten)]
    done: SetDone,
    /// Remarks in parentheses.
    remarks: Vec<&'a str>,
}

/// Every line in the spelling of the notation.
pub(crate) fn answer<'a>(lines: &'a [Line<'a>]) -> Answer<'a> {
    let flat = lines.iter().map(|line| Flat {
        date: line.date,
        day: line.day,
        block: match &line.what {
            What::Block(block) | What::BlockKey(block, _) => Some(&block.name),
            _ => None,
        },
        lift: line.lift,
        kind: match &line.what {
            What::Set(row) if !row.warm_up => "set".to_owned(),
            _ => key(line),
        },
        text: match &line.what {
            What::BlockKey(_, BlockKey::Max(load)) => load.text().unwrap_or_default(),
            _ => text(line),
        },
        set: match &line.what {
            What::Set(row) => Some(FlatSet { number: row.number, done: row.done(), remarks: row.remarks().collect() }),
            _ => None,
        },
        place: &line.place,
    });
    Answer { lines: flat.collect() }
}

/// A line in roles, with no blank at its end.
pub(crate) fn line(line: &Line<'_>) -> Vec<(Role, String)> {
    let date = line.date.map_or("undated".to_owned(), wording::date);
    let day = line.day.map(spelling::day);
    let lift = line.lift.map(str::to_owned);
    let role = role(&line.what);
    let columns = match &line.what {
        What::Block(block) => vec![(Role::Title, format!("block {}", block.name)), (role, text(line))],
        What::BlockKey(block, _) => {
            vec![(Role::Title, format!("block {}", block.name)), (role, key(line)), (role, text(line))]
        }
        What::Set(row) if row.warm_up => {
            vec![(role, format!("{} {}", key(line), row.number)), (role, text(line))]
        }
        _ => vec![(role, key(line)), (role, text(line))],
    };
    let lift = lift.filter(|_| !matches!(line.what, What::BlockKey(..)));
    let first = [Some((Role::Place, date)), day.map(|day| (Role::Place, day)), lift.map(|lift| (Role::Answer, lift))];
    let mut out: Vec<(Role, String)> = Vec::new();
    for (role, column) in first.into_iter().flatten().chain(columns).filter(|(_, column)| !column.is_empty()) {
        if !out.is_empty() {
            out.push((Role::Plain, "  ".into()));
        }
        out.push((role, column));
    }
    out
}

fn role(what: &What<'_>) -> Role {
    match what {
        What::Set(row) if !row.warm_up => Role::Plain,
        What::Aside(aside) if aside.kind == AsideKind::Unread => Role::Error,
        What::Aside(aside) if aside.kind == AsideKind::Session => Role::Title,
        What::Skipped(_) => Role::Behind,
        What::Plan(_) | What::Set(_) | What::Remark(..) | What::InsteadOf(_) => Role::Place,
        _ => Role::Plain,
    }
}

/// What kind of line it is, or the number of its set.
pub(crate) fn key(line: &Line<'_>) -> String {
    let word = match &line.what {
        What::Block(_) => "block",
        What::BlockKey(_, key) => match key {
            BlockKey::Phase(_) => "phase",
            BlockKey::Goal(_) => "goal",
            BlockKey::Deload(_) => "deload",
            BlockKey::Peak(_) => "peak",
            BlockKey::Max(_) => "max",
        },
        What::Aside(aside) => aside.kind.word(),
        What::Set(row) if row.warm_up => "warm-up",
        What::Set(row) => return row.number.to_string(),
        What::Plan(_) => "plan",
        What::Skipped(_) => "skipped",
        What::Nothing => "no sets",
        What::Remark(kind, _) => match kind {
            RemarkKind::Setup => "setup",
            RemarkKind::Cue => "cue",
            RemarkKind::Why => "why",
            RemarkKind::Note => "note",
        },
        What::InsteadOf(_) => "instead of",
    };
    word.to_owned()
}

/// What a line says after its key, in the spelling of the notation.
pub(crate) fn text(line: &Line<'_>) -> String {
    match &line.what {
        What::Block(block) => block.ends.map_or(String::new(), |ends| format!("until {ends}")),
        What::BlockKey(_, key) => match key {
            BlockKey::Phase(words) | BlockKey::Goal(words) => (*words).to_owned(),
            BlockKey::Deload(of) | BlockKey::Peak(of) => spelling::weeks(of),
            BlockKey::Max(load) => format!("{} {}", line.lift.unwrap_or(""), load.text().unwrap_or_default()),
        },
        What::Aside(aside) => aside.text.clone(),
        What::Set(row) => set(row),
        What::Skipped(why) => why.map_or(String::new(), |why| format!("({why})")),
        What::Nothing => String::new(),
        What::Plan(text) | What::Remark(_, text) | What::InsteadOf(text) => (*text).to_owned(),
    }
}

/// `8 @ 120 kg RPE 6 !depth rest 3:00 (slow)`
pub(crate) fn set(row: &Row<'_>) -> String {
    Spelled::of(spelling::amount(row.amount(), row.set.group.per_side))
        .load(row.load().text())
        .effort(row.effort())
        .faults(row.faults(), row.missed())
        .pace(row.pace())
        .remarks(row.remarks())
        .text()
}
