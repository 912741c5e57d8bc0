//! `meet`: the attempts of a meet or test day, to take or taken.

mod lifts;
mod outcome;
mod plan;

use crate::analysis::strength::caution::CAUTION;
use crate::history::{History, Meet, MeetKind};
use crate::source::Place;
use crate::training::Mass;
use chrono::NaiveDate;
pub use outcome::{Formula, LiftOutcome, MeetBefore, NoPoints, NoTotal, Other, Outcome, Points, Taken};
pub use plan::{Attempt, LiftPlan, Missing, Plan, Planned};

/// What is asked.
#[derive(Clone, Debug)]
pub struct Ask<'a> {
    /// The meet or test day; nothing where the journal has none.
    pub meet: Option<Meet<'a>>,
    /// The chance that the third attempts shall have, above 0 and below 1.
    pub chance: f64,
    /// Attempts are whole multiples of it, and at least so far apart.
    pub step: Mass,
    /// By which formula a total is scored.
    pub points: Formula,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The meet or test day; nothing where the journal has none.
    pub meet: Option<Named>,
    /// The attempts to take, where it is still to come.
    pub plan: Option<Plan>,
    /// What came of it, where it is done.
    pub outcome: Option<Outcome>,
    /// The caution, wherever attempts are proposed.
    pub caution: Option<&'static str>,
}

/// A meet or test day by its name.
#[derive(Clone, Debug, PartialEq, Eq)]
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
    pub place: Place,
}

impl Named {
    /// How it is called: by its name, else by its kind.
    pub fn title(&self) -> &str {
        self.name.as_deref().unwrap_or(self.kind.words())
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask<'_>) -> Answer {
    let Some(meet) = &ask.meet else { return Answer { meet: None, plan: None, outcome: None, caution: None } };
    let named = Named {
        kind: meet.kind,
        name: Some(meet.name.to_owned()).filter(|name| !name.is_empty()),
        date: meet.date,
        days_out: (meet.date - history.today).num_days(),
        place: history.log.place(meet.first.page, meet.first.line),
    };
    if meet.is_to_come(history.today) {
        let plan = plan::plan(history, meet, ask.chance, ask.step);
        Answer { meet: Some(named), plan: Some(plan), outcome: None, caution: Some(CAUTION) }
    } else {
        let outcome = outcome::outcome(history, meet, ask.points);
        Answer { meet: Some(named), plan: None, outcome: Some(outcome), caution: None }
    }
}
