//! `best` as JSON.

use super::shared::{MarkJson, Number, kg};
use crate::history::Mark;
use crate::questions::best::{Answer, Bound, Estimate, Found};
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
    best: Option<BestMark>,
    caution: Option<&'static str>,
}

/// A row for each rep count.
#[derive(Clone, Debug, Serialize)]
pub struct Table {
    lift: String,
    rows: Vec<Row>,
    caution: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
struct Row {
    reps: u32,
    standing: bool,
    best: BestMark,
}

/// A mark, and what it says of the maximum.
#[derive(Clone, Debug, Serialize)]
struct BestMark {
    #[serde(flatten)]
    mark: MarkJson,
    est_max_kg: Option<Number>,
    low_kg: Option<Number>,
    high_kg: Option<Number>,
}

fn best_mark(mark: &Mark, estimate: Option<&Estimate>) -> BestMark {
    BestMark {
        mark: MarkJson::of(mark),
        est_max_kg: estimate.map(|estimate| kg(estimate.maximum)),
        low_kg: estimate.map(|estimate| kg(estimate.low)),
        high_kg: estimate.map(|estimate| kg(estimate.high)),
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Best {
    let lift = answer.lift.clone();
    match &answer.found {
        Found::One(bound, best, estimate) => Best::One(Box::new(One {
            lift,
            reps: match bound {
                Bound::Reps(reps) => Some(*reps),
                _ => None,
            },
            sets: (answer.sets > 1).then_some(answer.sets),
            best: best.as_ref().map(|mark| best_mark(mark, estimate.as_ref())),
            caution: answer.caution,
        })),
        Found::Table(rows, _) => Best::Table(Table {
            lift,
            rows: rows
                .iter()
                .map(|row| Row {
                    reps: row.reps,
                    standing: row.standing,
                    best: best_mark(&row.best, row.estimate.as_ref()),
                })
                .collect(),
            caution: answer.caution,
        }),
    }
}
