//! `meet`: the attempts of a meet or test day, to take or taken.

use super::caution::CAUTION;
pub use super::meet_outcome::{Formula, LiftOutcome, MeetBefore, NoPoints, NoTotal, Other, Outcome, Taken};
pub use super::meet_plan::{Attempt, LiftPlan, Missing, Plan};
use crate::history::{Done, History, Meet, MeetKind};
use crate::source::Place;
use crate::training::{CompetitionLift, LiftId, Mass, Session, fold};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

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
        plan: to_come.then(|| super::meet_plan::plan(history, meet, ask.chance, ask.step)),
        outcome: (!to_come).then(|| super::meet_outcome::outcome(history, meet, ask.points)),
    };
    Answer { meet: Some(named), caution: to_come.then_some(CAUTION) }
}

/// Which lifts of a journal are competed on.
pub(super) struct Lifts<'h, 'a> {
    history: &'h History<'a>,
    /// By the names that settings give.
    set: Vec<(CompetitionLift, LiftId)>,
}

impl<'h, 'a> Lifts<'h, 'a> {
    pub(super) fn of(history: &'h History<'a>) -> Self {
        let names = &history.log.competitor.lifts;
        let set = names.iter().filter_map(|(lift, name)| Some((*lift, history.find_lift(name).ok()?))).collect();
        Lifts { history, set }
    }

    /// What a lift of the journal is at a meet or test day: by the settings, else by its name; at a meet also by its
    /// family, since nothing else is lifted there.
    pub(super) fn competed(&self, lift: LiftId, kind: MeetKind) -> Option<CompetitionLift> {
        if let Some((competed, _)) = self.set.iter().find(|(_, id)| *id == lift) {
            return Some(*competed);
        }
        let known = self.history.log.lift(lift)?;
        let by_name = CompetitionLift::ALL.into_iter().find(|competed| {
            let is_set = self.history.log.competitor.lift(*competed).is_some();
            !is_set && competed.names().iter().any(|name| fold(name) == fold(&known.name))
        });
        let by_family = || CompetitionLift::of_family(known.family).filter(|_| !known.bodyweight);
        by_name.or_else(|| if kind == MeetKind::Meet { by_family() } else { None })
    }

    /// The work of a meet's sessions that is of competition lifts, in the order written.
    pub(super) fn works(&self, meet: &Meet<'a>) -> Vec<(CompetitionLift, Done<'a>)> {
        let done = |session: &'a Session| session.works.iter().map(move |work| Done { session, work });
        let works = meet.sessions.iter().copied().flat_map(done);
        works.filter_map(|done| Some((self.competed(done.work.lift, meet.kind)?, done))).collect()
    }

    /// The lift of the journal that is meant by a competition lift: the one of the settings, else that of the last meet
    /// or test day that had it, else the first of its names that there is work on. Its name alone where there is none.
    pub(super) fn meant(&self, competed: CompetitionLift) -> (String, Option<LiftId>) {
        let named = |name: &str| (name.to_owned(), self.history.find_lift(name).ok());
        if let Some(name) = self.history.log.competitor.lift(competed) {
            return named(name);
        }
        let name = |id: LiftId| self.history.log.lift_name(id).to_owned();
        let done = self.history.meets().into_iter().rev().filter(|meet| !meet.is_to_come(self.history.today));
        let last = done.flat_map(|meet| self.works(&meet)).find(|(of, done)| *of == competed && done.work.has_work());
        if let Some((_, done)) = last {
            return (name(done.work.lift), Some(done.work.lift));
        }
        let with_work = |id: &LiftId| self.history.works_of(*id).any(|done| done.work.has_work());
        let known = competed.names().iter().filter_map(|name| self.history.find_lift(name).ok()).find(with_work);
        match known {
            Some(id) => (name(id), Some(id)),
            None => named(competed.names().first().copied().unwrap_or_default()),
        }
    }
}
