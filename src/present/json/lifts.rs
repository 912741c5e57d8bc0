//! `lifts` as JSON.

use crate::questions::lifts::Answer;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Lifts {
    lifts: Vec<Row>,
}

#[derive(Clone, Debug, Serialize)]
struct Row {
    lift: String,
    family: &'static str,
    first: String,
    last: String,
    sessions: u32,
    sets: u32,
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Lifts {
    let lifts = answer.lifts.iter().map(|row| Row {
        lift: row.lift.clone(),
        family: row.family.word(),
        first: row.first.to_string(),
        last: row.last.to_string(),
        sessions: row.sessions,
        sets: row.sets,
    });
    Lifts { lifts: lifts.collect() }
}
