//! `since` as JSON.

use super::shared::MarkJson;
use crate::questions::since::Answer;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Since {
    reps: u32,
    lift: Option<String>,
    family: Option<&'static str>,
    block: Option<String>,
    blocks_since: Option<u32>,
    last_high_rep_block: Option<String>,
    last_set: Option<MarkJson>,
    last_set_lift: Option<String>,
    weeks_since_set: Option<i64>,
    blocks: Vec<Block>,
}

#[derive(Clone, Debug, Serialize)]
struct Block {
    name: String,
    starts: String,
    weeks_with_work: u32,
    high_rep_weeks: u32,
    sets: u32,
    high_rep_sets: u32,
    high_rep: bool,
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Since {
    Since {
        reps: answer.reps,
        lift: answer.lift.clone(),
        family: answer.family.map(|family| family.word()),
        block: answer.block.clone(),
        blocks_since: answer.blocks_since,
        last_high_rep_block: answer.last_high_rep_block.clone(),
        last_set: answer.last_set.as_ref().map(MarkJson::of),
        last_set_lift: answer.last_set_lift.clone(),
        weeks_since_set: answer.weeks_since_set,
        blocks: answer
            .blocks
            .iter()
            .map(|row| Block {
                name: row.name.clone(),
                starts: row.starts.to_string(),
                weeks_with_work: row.weeks_with_work,
                high_rep_weeks: row.high_rep_weeks,
                sets: row.sets,
                high_rep_sets: row.high_rep_sets,
                high_rep: row.high_rep,
            })
            .collect(),
    }
}
