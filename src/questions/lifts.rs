//! `lifts`: the lifts of the journal.

use crate::history::History;
use crate::training::{Family, LiftId};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// The answer: a row for each lift with a work set, in order of the first one.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The rows.
    pub lifts: Vec<Row>,
}

/// One lift.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// Its name.
    pub lift: String,
    /// Its family.
    pub family: Family,
    /// The first day with a work set.
    pub first: NaiveDate,
    /// The last day with one.
    pub last: NaiveDate,
    /// Sessions with one.
    pub sessions: u32,
    /// Work sets.
    pub sets: u32,
}

/// Answers.
pub fn answer(history: &History<'_>) -> Answer {
    let mut lifts: Vec<Row> = Vec::new();
    for (at, lift) in history.log.lifts.iter().enumerate() {
        let mut row: Option<Row> = None;
        let mut last_session = None;
        for done in history.works_of(LiftId(at as u32)) {
            let sets = u32::try_from(done.work_sets().count()).unwrap_or(u32::MAX);
            if sets == 0 {
                continue;
            }
            let date = done.session.date;
            let row = row.get_or_insert_with(|| Row {
                lift: lift.name.clone(),
                family: lift.family,
                first: date,
                last: date,
                sessions: 0,
                sets: 0,
            });
            row.last = date;
            row.sets += sets;
            let session: *const _ = done.session;
            if last_session != Some(session) {
                row.sessions += 1;
                last_session = Some(session);
            }
        }
        lifts.extend(row);
    }
    lifts.sort_by_key(|one| one.first);
    Answer { lifts }
}
