//! What `draft` answers: the draft, and each of its plans in the notation.

use super::pages::{draft::quotes, plan};
use super::view::draft::changes;
use crate::questions::draft::{Answer, Drafted, DraftedWork};
use crate::training::{Unit, spelling};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// The answer of `draft`, with its page.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Spelled<'a> {
    #[serde(flatten)]
    answer: &'a Answer,
    /// The draft in the notation.
    page: &'a str,
    /// The drafted sessions, in order of time.
    sessions: Vec<Session<'a>>,
    /// What is said of the whole draft, in quoted lines of the page.
    notes: Vec<String>,
    /// The page that the draft was written to; null where it was only shown.
    written: Option<&'a str>,
}

/// A session that is drafted.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Session<'a> {
    /// The day.
    date: NaiveDate,
    /// The time, where another session of that day could be taken for this one: `18:30`.
    time: Option<String>,
    /// The day's label, without the word "day".
    day: Option<&'a str>,
    /// The gym, where it is not the usual one.
    gym: Option<&'a str>,
    /// The lines of work, in order.
    works: Vec<Work<'a>>,
    /// The lifts that are not planned again, in quoted lines of the page.
    notes: Vec<String>,
}

/// A line of work that is drafted.
#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Work<'a> {
    /// The lift.
    lift: &'a str,
    /// The plan in the notation.
    plan: String,
    /// What was done to the plan before, in words; null where there is nothing to say.
    changes: Option<String>,
}

impl<'a> Spelled<'a> {
    /// Spells the plans out, and changes of loads in a unit.
    pub fn new(answer: &'a Answer, page: &'a str, unit: Unit, written: Option<&'a str>) -> Self {
        let work = |work: &'a DraftedWork| Work {
            lift: &work.lift,
            plan: plan(&work.groups),
            changes: Some(changes(&work.changes, unit)).filter(|words| !words.is_empty()),
        };
        let session = |session: &'a Drafted| Session {
            date: session.date,
            time: session.minute.map(spelling::clock),
            day: session.day.as_deref(),
            gym: session.gym.as_deref(),
            works: session.works.iter().map(work).collect(),
            notes: quotes(&session.notes),
        };
        let (sessions, notes) = (answer.sessions.iter().map(session).collect(), quotes(&answer.notes));
        Spelled { answer, page, sessions, notes, written }
    }
}
