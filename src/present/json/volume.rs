//! `volume` as JSON.

use super::shared::Number;
use crate::questions::volume::{Answer, By};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Volume {
    by: &'static str,
    rows: Vec<Row>,
}

#[derive(Clone, Debug, Serialize)]
struct Row {
    key: Option<String>,
    block: Option<String>,
    week: Option<u32>,
    sessions: u32,
    sets: u32,
    reps: u64,
    tonnage_kg: Number,
    bodyweight_tonnage_kg: Option<Number>,
    seconds: u64,
    metres: Number,
    high_rep_sets: u32,
    average_kg: Option<Number>,
    average_effort: Option<Number>,
    sets_without_effort: u32,
    hard_sets: u32,
    average_relative_intensity: Option<Number>,
    lifts_at_80: Option<u64>,
    lifts_at_90: Option<u64>,
    sets_with_estimate: usize,
}

/// The word for what the rows are.
pub fn by_word(by: By) -> &'static str {
    match by {
        By::Week => "week",
        By::Block => "block",
        By::Lift => "lift",
        By::Family => "family",
        By::Day => "day",
        By::Month => "month",
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Volume {
    let rows = answer.rows.iter().map(|row| Row {
        key: row.key.clone(),
        block: row.block.clone(),
        week: row.week,
        sessions: row.sessions,
        sets: row.sets,
        reps: row.reps,
        tonnage_kg: Number(row.tonnage.rounded_kg()),
        // A sum that lacks a bodyweight is not the sum.
        bodyweight_tonnage_kg: (row.without_bodyweight == 0).then(|| Number(row.bodyweight_tonnage.rounded_kg())),
        seconds: row.seconds,
        metres: Number(row.metres.rounded_metres()),
        high_rep_sets: row.high_rep_sets,
        average_kg: row.tonnage.per_rep(row.tonnage_reps).map(Number),
        average_effort: row.average_effort().map(|effort| Number((effort * 100.0).round() / 100.0)),
        sets_without_effort: row.sets - row.sets_with_effort,
        hard_sets: row.hard_sets,
        average_relative_intensity: row
            .average_relative_intensity()
            .map(|percent| Number((percent * 100.0).round() / 100.0)),
        lifts_at_80: row.lifts_at(80.0),
        lifts_at_90: row.lifts_at(90.0),
        sets_with_estimate: row.against_maximum.len(),
    });
    Volume { by: by_word(answer.by), rows: rows.collect() }
}
