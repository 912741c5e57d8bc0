//! `history`: every mark of one lift, oldest first.

pub use crate::analysis::strength::heaviest::Ask;
use crate::history::{Done, History, Mark, Marked};
use crate::training::is_within;
use schemars::JsonSchema;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// Its marks, faulted ones and failed attempts too.
    pub marks: Vec<Planned>,
}

/// A mark, and what it was done for.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Planned {
    /// The mark.
    #[serde(flatten)]
    pub mark: Mark,
    /// The plan of its line.
    pub plan: Option<String>,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let within = |done: &Done<'_>| is_within(done.session.date, ask.since, ask.until);
    let mut marks = Vec::new();
    for done in history.works_of(ask.lift).filter(within) {
        let plan = done.work.plan().map(|plan| plan.text.to_string());
        let of_line = Marked::of(done, |_| true).into_iter();
        marks.extend(of_line.map(|mark| Planned { mark: mark.shown(history, |_| true), plan: plan.clone() }));
    }
    Answer { lift: history.log.lift_name(ask.lift).to_owned(), marks }
}
