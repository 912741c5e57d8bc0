//! Flat text: one line a set, with its day and lift. Two blanks part the columns and none is padded, so that a line that
//! changes leaves all others alone.

use crate::analysis::rows::Row;
use crate::present::{Role, wording};
use crate::questions::flatten::{BlockKey, Line, What};
use crate::training::spelling::{self, Spelled};
use crate::training::{AsideKind, RemarkKind};

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
        .pace(row.rest(), row.tempo())
        .remarks(row.remarks())
        .text()
}
