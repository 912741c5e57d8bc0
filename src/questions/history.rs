//! `history`: every mark of one lift, oldest first.

use crate::history::{History, Mark, Marked};
use crate::training::LiftId;

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// Its marks, faulted ones and attempts too, with the plan each was done for.
    pub marks: Vec<(Mark, Option<String>)>,
}

/// Answers.
pub fn answer(history: &History<'_>, lift: LiftId) -> Answer {
    let mut marks = Vec::new();
    for done in history.works_of(lift) {
        for mark in Marked::of(done, |_| true) {
            marks.push((mark.shown(history, |_| true), done.work.plan().map(|plan| plan.text.to_string())));
        }
    }
    Answer { lift: history.log.lift_name(lift).to_owned(), marks }
}
