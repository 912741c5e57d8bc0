//! The rep records of a lift, and which of them are new in a block.

use crate::analysis::strength::evidence::Evidence;
use crate::history::{History, Mark};
use crate::questions::best::{self, Estimate, Found};
use crate::training::LiftId;
use chrono::NaiveDate;

/// The rep records of a lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Records {
    /// The lift.
    pub lift: String,
    /// One for each mark that is the best at a rep count, from few reps to many.
    pub records: Vec<Record>,
}

/// The best mark at some rep counts.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// It is the best from so many reps on.
    pub from: u32,
    /// Up to so many: those of the mark.
    pub to: u32,
    /// No record of more reps has the same or a heavier load.
    pub standing: bool,
    /// The mark.
    pub mark: Mark,
    /// The estimated maximum of that set, where its effort is known.
    pub estimate: Option<Estimate>,
    /// Whether it was done in the block.
    pub new: bool,
    /// The best at `to` reps when the block began, where there was one and it is another.
    pub before: Option<Mark>,
}

impl Records {
    /// Those of a lift, with the first and last day of the block, if there is one; nothing where no clean set has reps.
    pub(super) fn of(
        history: &History<'_>,
        lift: LiftId,
        evidence: &Evidence<'_>,
        days: Option<(NaiveDate, Option<NaiveDate>)>,
    ) -> Option<Records> {
        let rows = table(history, lift, evidence);
        let eve = days.and_then(|(starts, _)| starts.pred_opt());
        let earlier = eve.map_or_else(Vec::new, |eve| best::records(&history.as_of(eve), lift));
        let mut records = Vec::new();
        for rows in rows.chunk_by(|one, other| one.best.mark == other.best.mark) {
            let (Some(first), Some(last)) = (rows.first(), rows.last()) else { continue };
            let before = earlier.iter().find(|row| row.reps == last.reps).map(|row| row.best.mark.clone());
            let date = last.best.mark.date;
            let is_in =
                |(starts, ends): (NaiveDate, Option<NaiveDate>)| date >= starts && ends.is_none_or(|ends| date <= ends);
            records.push(Record {
                from: first.reps,
                to: last.reps,
                standing: last.standing,
                mark: last.best.mark.clone(),
                estimate: last.best.estimate,
                new: days.is_some_and(is_in),
                before: before.filter(|mark| *mark != last.best.mark),
            });
        }
        (!records.is_empty()).then(|| Records { lift: history.log.lift_name(lift).to_owned(), records })
    }
}

fn table(history: &History<'_>, lift: LiftId, evidence: &Evidence<'_>) -> Vec<best::Row> {
    let ask = best::Ask {
        lift,
        bound: None,
        exactly: false,
        sets: 1,
        with_faults: false,
        since: None,
        until: None,
        block: None,
    };
    match best::of_evidence(history, &ask, evidence).found {
        Found::Table { rows, .. } => rows,
        Found::One { .. } => Vec::new(),
    }
}
