//! What became of each planned line, and of work that nobody planned, session by session.

use super::against_plan::{FarFromPlan, HeldEffort, hold};
use super::planned_sums::Sums;
use crate::history::{Done, History, Mark, Marked, WeekKey};
use crate::source::{PageId, Place};
use crate::training::{LiftId, Mass, Plan, Session, Status, Tolerance, Work, fold, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::borrow::Cow;
use std::collections::{HashMap, VecDeque};

/// Where something stands.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Where {
    /// The session's date.
    pub date: NaiveDate,
    /// The block's name.
    pub block: Option<String>,
    /// The week of it.
    pub week: Option<u32>,
    /// The day's label.
    pub day: Option<String>,
    /// Where it stands.
    #[serde(flatten)]
    pub place: Place,
}

words! {
    /// What became of a planned line.
    pub enum Fate {
        /// Sets are written.
        Done = "done",
        /// Done just as planned.
        AsPlanned = "as planned",
        /// Nothing was done.
        Skipped = "skipped",
        /// Another lift was done in its place.
        Swapped = "swapped",
    }
}

/// A planned line.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Line {
    /// Where it stands.
    #[serde(flatten)]
    pub at: Where,
    /// The lift.
    pub lift: String,
    /// What became of it.
    pub fate: Fate,
    /// The plan as written.
    pub plan: String,
    /// How many days after the day that it was planned for it was done.
    pub days_late: i64,
    /// What was done.
    #[serde(skip)]
    pub done: Vec<Mark>,
    /// By how much the lightest set was lighter than its plan, in kilograms; null where none was, or it is not known.
    #[serde(rename = "lighter_by_kg")]
    pub lighter_by: Option<Mass>,
    /// What it comes to.
    #[serde(flatten)]
    pub sums: Sums,
    /// Each planned effort of which a set was done.
    #[serde(rename = "planned_efforts")]
    pub efforts: Vec<HeldEffort>,
}

/// A line that was skipped.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Skipped {
    /// Where it stands.
    #[serde(flatten)]
    pub at: Where,
    /// The lift.
    pub lift: String,
    /// The plan as written, where there is one.
    pub plan: Option<String>,
    /// Why, where that is written.
    pub reason: Option<String>,
}

/// A lift that another stood in for.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Swapped {
    /// Where the swap is written.
    #[serde(flatten)]
    pub at: Where,
    /// The lift that was not done.
    pub lift: String,
    /// The lift that was.
    pub by: String,
    /// The plan as written of the lift that was not done, where its line has one.
    pub plan: Option<String>,
}

/// Work that nobody planned.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Added {
    /// Where it stands.
    #[serde(flatten)]
    pub at: Where,
    /// The lift.
    pub lift: String,
    /// Work sets.
    pub sets: u32,
}

/// What is planned and still to come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ToCome {
    /// Lines.
    pub lines: u32,
    /// Sets: of a range, the fewest.
    pub sets: u32,
}

/// Whether anything is planned in it.
pub(crate) fn has_plan(session: &Session) -> bool {
    session.works.iter().any(|work| work.plan().is_some())
}

/// What a session planned for one day and done on another is known by: its week, its label, and without a label its day.
type SameSession = (Option<WeekKey>, Option<String>, Option<NaiveDate>);

/// What became of a session that was planned for one day and done on another.
enum Moved<'a> {
    /// It was done later: its plan counts there.
    Away,
    /// It is where an earlier one was done.
    From(&'a Session),
}

/// Sessions planned and not done, with the later one of the same label in the same week, or of the same day, that has
/// work and no plan: Wednesday's plan, done on Thursday.
fn done_later<'a>(history: &History<'_>, sessions: &[&'a Session]) -> HashMap<usize, Moved<'a>> {
    let label = |session: &Session| session.day.as_deref().map(fold);
    let mut waiting: HashMap<SameSession, VecDeque<usize>> = HashMap::new();
    let mut moved = HashMap::new();
    for (at, session) in sessions.iter().enumerate().filter(|(_, session)| session.date <= history.today) {
        // Without a label there is only the day itself to know a session by.
        let label = label(session);
        let day = label.is_none().then_some(session.date);
        if label.is_some() && WeekKey::of(session).is_none() {
            continue;
        }
        let same = (WeekKey::of(session), label, day);
        let has_work = session.has_work();
        if has_plan(session) {
            let untouched = session.works.iter().all(|work| work.status == Status::Nothing);
            if untouched && !has_work {
                waiting.entry(same).or_default().push_back(at);
            }
        } else if has_work
            && let Some(planned) = waiting.get_mut(&same).and_then(VecDeque::pop_front)
            && let Some(session) = sessions.get(planned)
        {
            moved.insert(planned, Moved::Away);
            moved.insert(at, Moved::From(session));
        }
    }
    moved
}

/// Sessions as they were held, each with the day that it is of: what was planned for one day and done later is one session, of
/// the day that it was planned for.
pub(crate) fn as_held<'a>(history: &History<'_>, sessions: &[&'a Session]) -> Vec<(NaiveDate, Cow<'a, Session>)> {
    let later = done_later(history, sessions);
    let held = sessions.iter().enumerate().filter_map(|(at, session)| match later.get(&at) {
        Some(Moved::Away) => None,
        Some(Moved::From(planned)) => Some((planned.date, Cow::Owned(with_its_plan(planned, session)))),
        None => Some((session.date, Cow::Borrowed(*session))),
    });
    held.collect()
}

/// A session with the plan that stands under an earlier day.
fn with_its_plan(planned: &Session, done: &Session) -> Session {
    let mut both = done.clone();
    both.works.extend(planned.works.iter().cloned());
    both.put_plans_to_work();
    both
}

/// The sessions before today that were planned and of which nothing is written, there or where they were done later.
pub(crate) fn without_a_word<'a>(history: &History<'_>, sessions: &[&'a Session]) -> Vec<&'a Session> {
    let later = done_later(history, sessions);
    let silent = sessions.iter().enumerate().filter(|(at, session)| {
        let nothing = session.works.iter().all(|work| work.status == Status::Nothing);
        session.date < history.today && has_plan(session) && nothing && !later.contains_key(at)
    });
    silent.map(|(_, session)| *session).collect()
}

/// Whether nothing was done on a line on which something could have been.
pub(crate) fn is_open(work: &Work) -> bool {
    matches!(work.status, Status::Nothing | Status::Skipped)
}

/// The lift that a line of work stood in for, and where that is written.
fn replaced(work: &Work) -> Option<(LiftId, u32)> {
    work.details.as_ref().and_then(|details| details.instead_of).filter(|_| work.has_work())
}

/// What became of what was planned, gathered session by session.
pub(crate) struct PlannedLines<'a> {
    history: &'a History<'a>,
    /// Only this lift.
    lift: Option<LiftId>,
    /// Whether anything is planned in the weeks that were looked at.
    planned_weeks: HashMap<WeekKey, bool>,
    /// Each planned line up to today.
    pub(crate) lines: Vec<Line>,
    /// Lines skipped, planned or not.
    pub(crate) skipped: Vec<Skipped>,
    /// Lifts that others stood in for.
    pub(crate) swapped: Vec<Swapped>,
    /// Work without a plan where others are planned.
    pub(crate) added: Vec<Added>,
    /// What is planned and still to come.
    pub(crate) to_come: ToCome,
}

impl<'a> PlannedLines<'a> {
    /// Of these sessions, and of one lift where it is named. A meet's attempts are changed on the day, and are no plan that
    /// was kept or missed.
    pub(crate) fn of<'b: 'a>(
        history: &'a History<'a>,
        lift: Option<LiftId>,
        sessions: impl Iterator<Item = &'b Session>,
    ) -> PlannedLines<'a> {
        let mut found = PlannedLines {
            history,
            lift,
            planned_weeks: HashMap::new(),
            lines: Vec::new(),
            skipped: Vec::new(),
            swapped: Vec::new(),
            added: Vec::new(),
            to_come: ToCome::default(),
        };
        let sessions: Vec<&Session> = sessions.filter(|session| session.meet.is_none()).collect();
        let later = done_later(history, &sessions);
        for (at, session) in sessions.iter().enumerate() {
            match later.get(&at) {
                Some(Moved::From(planned)) => found.done_late(planned, session),
                Some(Moved::Away) => {}
                None => found.session(session),
            }
        }
        found
    }

    fn wants(&self, lift: LiftId) -> bool {
        self.lift.is_none_or(|wanted| wanted == lift)
    }

    fn name(&self, lift: LiftId) -> String {
        self.history.log.lift_name(lift).to_owned()
    }

    fn at(&self, session: &Session, (page, line): (PageId, u32)) -> Where {
        let log = self.history.log;
        Where {
            date: session.date,
            block: log.block_name(session.block),
            week: session.week,
            day: session.day.as_deref().map(str::to_owned),
            place: log.place(page, line),
        }
    }

    /// A session that was planned for an earlier day of the week.
    fn done_late(&mut self, planned: &Session, done: &Session) {
        let before = self.lines.len();
        self.session(&with_its_plan(planned, done));
        let days = (done.date - planned.date).num_days();
        self.lines.iter_mut().skip(before).for_each(|line| line.days_late = days);
    }

    fn session(&mut self, session: &Session) {
        let today = self.history.today;
        if session.date <= today {
            self.swaps(session);
        }
        let others_planned = WeekKey::of(session).map_or(has_plan(session), |key| self.is_planned(key));
        let only = self.lift;
        for work in session.works.iter().filter(|work| only.is_none_or(|wanted| wanted == work.lift)) {
            let plan = work.plan();
            let swapped = is_open(work) && session.works.iter().any(|other| stands_in(other, work));
            let open_today = session.date == today && work.status == Status::Nothing;
            if session.date > today || open_today && !swapped {
                if let Some(plan) = plan {
                    self.to_come.lines += 1;
                    self.to_come.sets += plan.groups.iter().map(|group| group.fewest).sum::<u32>();
                }
            } else if swapped {
                self.lines.extend(plan.map(|plan| self.missed(session, work, plan, Fate::Swapped)));
            } else if is_open(work) {
                self.skipped(session, work);
            } else if let Some(plan) = plan {
                // A line of which an error costs all that was done says nothing of what was done.
                if !work.groups.is_empty() {
                    self.lines.push(self.done(Done { session, work }, plan));
                }
            } else if others_planned && !has_unread_plan(work) && work.has_work() && replaced(work).is_none() {
                let sets = Done { session, work }.work_sets().count();
                self.added.push(Added {
                    at: self.at(session, (work.page, work.line)),
                    lift: self.name(work.lift),
                    sets: u32::try_from(sets).unwrap_or(u32::MAX),
                });
            }
        }
    }

    /// Whether anything is planned in a week.
    fn is_planned(&mut self, key: WeekKey) -> bool {
        let history = self.history;
        let has_plan = || history.all_of_week(key).any(|session| has_plan(session) && session.meet.is_none());
        *self.planned_weeks.entry(key).or_insert_with(has_plan)
    }

    fn swaps(&mut self, session: &Session) {
        for work in &session.works {
            let Some((lift, line)) = replaced(work) else { continue };
            if !self.wants(lift) && !self.wants(work.lift) {
                continue;
            }
            let not_done = session.works.iter().filter(|other| is_open(other) && stands_in(work, other));
            self.swapped.push(Swapped {
                at: self.at(session, (work.page, line)),
                lift: self.name(lift),
                by: self.name(work.lift),
                plan: not_done.filter_map(Work::plan).map(|plan| plan.text.to_string()).next(),
            });
        }
    }

    fn skipped(&mut self, session: &Session, work: &Work) {
        let plan = work.plan();
        self.lines.extend(plan.map(|plan| self.missed(session, work, plan, Fate::Skipped)));
        // An empty line without a plan was neither planned nor left out on purpose.
        if plan.is_some() || work.status == Status::Skipped {
            self.skipped.push(Skipped {
                at: self.at(session, (work.page, work.line)),
                lift: self.name(work.lift),
                plan: plan.map(|plan| plan.text.to_string()),
                reason: reason(work),
            });
        }
    }

    fn missed(&self, session: &Session, work: &Work, plan: &Plan, fate: Fate) -> Line {
        let sums = match fate {
            Fate::Swapped => Sums::of_swapped(&plan.groups),
            _ => Sums { skipped: 1, ..Sums::of_missed(&plan.groups) },
        };
        Line {
            at: self.at(session, (work.page, work.line)),
            lift: self.name(work.lift),
            fate,
            plan: plan.text.to_string(),
            days_late: 0,
            done: Vec::new(),
            lighter_by: None,
            sums,
            efforts: Vec::new(),
        }
    }

    fn done(&self, done: Done<'_>, plan: &Plan) -> Line {
        let log = self.history.log;
        let sets: Vec<_> = done.work_sets().collect();
        let held = hold(&plan.groups, &sets, done.session.own_mass(), Tolerance::of(log.gear_at(done.session.gym)));
        let marks = Marked::of(done, |set| set.is_work());
        Line {
            at: self.at(done.session, (done.work.page, done.work.line)),
            lift: self.name(done.work.lift),
            fate: if done.work.status == Status::AsPlanned { Fate::AsPlanned } else { Fate::Done },
            plan: plan.text.to_string(),
            days_late: 0,
            done: marks.iter().map(|mark| mark.shown(self.history, |set| set.is_work())).collect(),
            lighter_by: held.iter().filter_map(|held| held.lighter_by).max(),
            sums: Sums::of_done(&plan.groups, &sets, &held, &FarFromPlan::of(&log.thresholds)),
            efforts: held.iter().filter_map(|held| held.effort).collect(),
        }
    }
}

/// Whether a line was done in the place of another of its session.
pub(crate) fn stands_in(work: &Work, other: &Work) -> bool {
    !std::ptr::eq(work, other) && replaced(work).is_some_and(|(lift, _)| lift == other.lift)
}

fn has_unread_plan(work: &Work) -> bool {
    work.plan().is_none() && work.details.as_ref().is_some_and(|details| details.plan.is_some())
}

/// Why a line was skipped, where that is written.
fn reason(work: &Work) -> Option<String> {
    work.details.as_ref().and_then(|details| details.skipped_because.as_deref()).map(str::to_owned)
}
