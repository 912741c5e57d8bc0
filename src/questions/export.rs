//! `export`: every set as a row, with what was planned beside what was done.

use crate::analysis::rows::{Row, of_session};
use crate::history::History;
use crate::training::{BlockId, Family, LiftId, Log, PlannedGroup, Session, Work, is_within};
use chrono::NaiveDate;
use std::collections::HashMap;

/// What is asked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// Only this lift.
    pub lift: Option<LiftId>,
    /// Only this family.
    pub family: Option<Family>,
    /// Only this block.
    pub block: Option<BlockId>,
    /// Only from this day on.
    pub since: Option<NaiveDate>,
    /// Only up to this day.
    pub until: Option<NaiveDate>,
}

/// A set that was planned.
#[derive(Clone, Copy, Debug)]
pub struct Planned<'a> {
    /// The session.
    pub session: &'a Session,
    /// The work line that the plan stands under.
    pub work: &'a Work,
    /// What it is to be.
    pub group: &'a PlannedGroup,
    /// Which planned set of the lift in its session, from 1.
    pub number: u32,
    /// Whether the plan leaves the choice to do it: the third set of `2-3x8`.
    pub optional: bool,
    /// The plan's line, from 1.
    pub line: u32,
}

/// One row.
#[derive(Clone, Copy, Debug)]
pub enum Line<'a> {
    /// A set that was done, or a warm-up.
    Set(Row<'a>),
    /// A set that was planned.
    Plan(Planned<'a>),
    /// What a session says beside its sets.
    Session(&'a Session),
}

impl<'a> Line<'a> {
    /// The session.
    pub fn session(&self) -> &'a Session {
        match self {
            Line::Set(row) => row.session,
            Line::Plan(planned) => planned.session,
            Line::Session(session) => session,
        }
    }

    /// The work line, where it is of one.
    pub fn work(&self) -> Option<&'a Work> {
        match self {
            Line::Set(row) => Some(row.work),
            Line::Plan(planned) => Some(planned.work),
            Line::Session(_) => None,
        }
    }
}

/// Answers of some of the sessions: one by one in order of time, first what each says of itself, then of each work line the plan,
/// the sets, the warm-ups. What was done after today is left out, what is planned for then is not. Of one lift or family,
/// sessions are none.
pub fn answer<'a>(history: &History<'a>, ask: &Ask, sessions: &'a [Session]) -> impl Iterator<Item = Line<'a>> {
    let (log, today) = (history.log, history.today);
    let Ask { lift, family, block, since, until } = ask.clone();
    let wanted = move |session: &&Session| {
        block.is_none_or(|block| session.block == Some(block)) && is_within(session.date, since, until)
    };
    let of_lift = move |work: &Work| {
        lift.is_none_or(|lift| work.lift == lift)
            && family.is_none_or(|family| log.lift(work.lift).map(|lift| lift.family) == Some(family))
    };
    sessions
        .iter()
        .filter(wanted)
        .flat_map(move |session| of_one(log, session, session.date <= today))
        .filter(move |line| line.work().map_or(lift.is_none() && family.is_none(), of_lift))
}

/// The rows of one session, in the order of its work lines.
fn of_one<'a>(log: &'a Log, session: &'a Session, is_past: bool) -> Vec<Line<'a>> {
    let mut done = if is_past { of_session(log, session) } else { Vec::new() }.into_iter().peekable();
    let mut numbers: HashMap<LiftId, u32> = HashMap::new();
    let mut lines = Vec::new();
    if is_past && says_more(session) {
        lines.push(Line::Session(session));
    }
    for work in &session.works {
        let plan = work.plan();
        for group in plan.iter().flat_map(|plan| &plan.groups) {
            for nth in 0..group.most.max(group.fewest) {
                let number = numbers.entry(work.lift).or_default();
                *number += 1;
                lines.push(Line::Plan(Planned {
                    session,
                    work,
                    group,
                    number: *number,
                    optional: nth >= group.fewest,
                    line: plan.map_or(work.line, |plan| plan.line),
                }));
            }
        }
        while let Some(row) = done.next_if(|row| std::ptr::eq(row.work, work)) {
            lines.push(Line::Set(row));
        }
    }
    lines
}

/// Whether it says anything beside its sets.
fn says_more(session: &Session) -> bool {
    session.bodyweight.is_some_and(|own| own.date == session.date)
        || session.sleep.is_some()
        || session.duration.is_some()
        || session.rpe.is_some()
        || session.gym.is_some()
        || !session.pains.is_empty()
        || !session.notes.is_empty()
}
