//! Records set and taken back: the standing rows of `best`'s table, before and after.

use crate::analysis::compare::ranking::compare;
use crate::history::{History, Mark};
use crate::questions::best::{Row, records};
use crate::training::{Amount, LiftId, Tolerance, fold, words};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

words! {
    /// Which way a record went.
    pub enum Turn {
        /// It is better than before.
        Set = "set",
        /// It is worse than before, or there is none.
        TakenBack = "taken back",
    }
}

/// A record that is another than before.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RecordChange {
    /// The lift.
    pub lift: String,
    /// At least so many reps.
    pub reps: u32,
    /// Which way.
    pub turn: Turn,
    /// The best before.
    pub was: Option<Mark>,
    /// The best now.
    pub is: Option<Mark>,
}

/// By lift in order of the alphabet, then by reps.
pub(super) fn changes(before: Option<&History<'_>>, after: Option<&History<'_>>) -> Vec<RecordChange> {
    let mut by_lift: BTreeMap<String, (String, Vec<Row>, Vec<Row>)> = BTreeMap::new();
    for (name, rows) in tables(before) {
        by_lift.insert(fold(&name), (name, rows, Vec::new()));
    }
    for (name, rows) in tables(after) {
        let both = by_lift.entry(fold(&name)).or_default();
        (both.0, both.2) = (name, rows);
    }
    by_lift.into_values().flat_map(|(lift, was, is)| of_lift(&lift, &was, &is)).collect()
}

fn tables(history: Option<&History<'_>>) -> Vec<(String, Vec<Row>)> {
    let Some(history) = history else { return Vec::new() };
    let lifts = (0..history.log.lifts.len()).map(|at| LiftId(at as u32));
    lifts.map(|lift| (history.log.lift_name(lift).to_owned(), records(history, lift))).collect()
}

fn of_lift(lift: &str, was: &[Row], is: &[Row]) -> Vec<RecordChange> {
    let mut reps: Vec<u32> = was.iter().chain(is).filter(|row| row.standing).map(|row| row.reps).collect();
    reps.sort_unstable();
    reps.dedup();
    let at = |rows: &[Row], reps: u32| rows.iter().find(|row| row.reps == reps).map(|row| row.best.mark.clone());
    let stands = |rows: &[Row], reps: u32| rows.iter().any(|row| row.reps == reps && row.standing);
    let changes = reps.into_iter().filter_map(|reps| {
        let (before, after) = (at(was, reps), at(is, reps));
        let turn = if stands(is, reps) && beats(after.as_ref(), before.as_ref()) {
            Turn::Set
        } else if stands(was, reps) && beats(before.as_ref(), after.as_ref()) {
            Turn::TakenBack
        } else {
            return None;
        };
        Some(RecordChange { lift: lift.to_owned(), reps, turn, was: before, is: after })
    });
    changes.collect()
}

/// Whether one is the heavier, or the only one. Of unlike kinds neither is.
fn beats(one: Option<&Mark>, other: Option<&Mark>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => {
            let ways = compare((&one.load, one.load.kilograms), (&other.load, other.load.kilograms), Tolerance::EXACT);
            ways.is_some_and(|ways| ways.is_gt())
        }
        (Some(one), None) => matches!(one.amount, Amount::Reps(_)),
        _ => false,
    }
}
