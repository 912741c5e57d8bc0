//! `best` as JSON.

use super::shared::MarkJson;
use crate::questions::best::{Answer, Bound, Found};
use serde::Serialize;

/// One mark, or the table.
#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
pub enum Best {
    /// One mark.
    One(Box<One>),
    /// The table.
    Table(Table),
}

/// The best at one bound.
#[derive(Clone, Debug, Serialize)]
pub struct One {
    lift: String,
    reps: Option<u32>,
    sets: Option<u32>,
    best: Option<MarkJson>,
}

/// A row for each rep count.
#[derive(Clone, Debug, Serialize)]
pub struct Table {
    lift: String,
    rows: Vec<Row>,
}

#[derive(Clone, Debug, Serialize)]
struct Row {
    reps: u32,
    standing: bool,
    best: MarkJson,
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Best {
    let lift = answer.lift.clone();
    match &answer.found {
        Found::One(bound, best) => Best::One(Box::new(One {
            lift,
            reps: match bound {
                Bound::Reps(reps) => Some(*reps),
                _ => None,
            },
            sets: (answer.sets > 1).then_some(answer.sets),
            best: best.as_ref().map(MarkJson::of),
        })),
        Found::Table(rows, _) => Best::Table(Table {
            lift,
            rows: rows
                .iter()
                .map(|row| Row { reps: row.reps, standing: row.standing, best: MarkJson::of(&row.best) })
                .collect(),
        }),
    }
}
