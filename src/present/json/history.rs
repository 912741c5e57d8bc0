//! `history` as JSON.

use super::shared::MarkJson;
use crate::questions::history::Answer;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct History {
    lift: String,
    marks: Vec<PlannedMark>,
}

#[derive(Clone, Debug, Serialize)]
struct PlannedMark {
    #[serde(flatten)]
    mark: MarkJson,
    plan: Option<String>,
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> History {
    let marks = answer.marks.iter().map(|(mark, plan)| PlannedMark { mark: MarkJson::of(mark), plan: plan.clone() });
    History { lift: answer.lift.clone(), marks: marks.collect() }
}
