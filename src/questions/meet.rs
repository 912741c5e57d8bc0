//! `meet`: the attempts of a meet or test day, to take or taken.

mod lifts;
mod outcome;
mod plan;

use crate::analysis::strength::caution::CAUTION;
use crate::analysis::weight_class::ToClass;
use crate::history::{History, Meet, MeetKind};
use crate::source::Place;
use chrono::NaiveDate;
pub use outcome::{Formula, LiftOutcome, MeetBefore, NoPoints, NoTotal, Other, Outcome, Taken};
pub use plan::{Attempt, LiftPlan, Missing, Plan, PlannedAttempt, Wanted};
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Ask<'a> {
    /// The meet or test day; nothing where the journal has none.
    pub meet: Option<Meet<'a>>,
    /// What is wanted of the attempts of one to come.
    pub wanted: Wanted,
    /// By which formula a total is scored.
    pub points: Formula,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The meet or test day; nothing where the journal has none.
    pub meet: Option<Named>,
    /// The caution, wherever attempts are proposed.
    pub caution: Option<&'static str>,
}

/// A meet or test day by its name.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Named {
    /// What kind of day.
    pub kind: MeetKind,
    /// The meet's name; nothing where none is written, and for test days.
    pub name: Option<String>,
    /// The day.
    pub date: NaiveDate,
    /// How many days from today to it; negative for one that is over.
    pub days_out: i64,
    /// Where that stands.
    #[serde(flatten)]
    pub place: Place,
    /// How far the last bodyweight is from the weight class, before a meet; null where settings name none.
    pub weight_class: Option<ToClass>,
    /// The attempts to take, where it is still to come.
    pub plan: Option<Plan>,
    /// What came of it, where it is done.
    #[serde(rename = "result")]
    pub outcome: Option<Outcome>,
}

impl Named {
    /// How it is called: by its name, else by its kind.
    pub fn title(&self) -> &str {
        self.name.as_deref().unwrap_or(self.kind.word())
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask<'_>) -> Answer {
    let Some(meet) = &ask.meet else { return Answer { meet: None, caution: None } };
    let to_come = meet.is_to_come(history.today);
    let named = Named {
        kind: meet.kind,
        name: Some(meet.name.to_owned()).filter(|name| !name.is_empty()),
        date: meet.date,
        days_out: (meet.date - history.today).num_days(),
        place: history.log.place(meet.first.page, meet.first.line),
        weight_class: (to_come && meet.kind == MeetKind::Meet).then(|| ToClass::of(history)).flatten(),
        plan: to_come.then(|| plan::plan(history, meet, ask.wanted)),
        outcome: (!to_come).then(|| outcome::outcome(history, meet, ask.points)),
    };
    Answer { meet: Some(named), caution: to_come.then_some(CAUTION) }
}
