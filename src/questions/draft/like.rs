//! `draft block --like`: the first week of a block made from another lifter's, with efforts and no loads.

use super::block::{Ask, FIRST_WEEK, new_block};
use super::outlook::rpe;
use super::standing::{Standing, standing};
use super::week::line;
use super::weeks::{first_week_day, held, next_monday, training_of, worked_block};
use super::whole::{From, Weeks};
use super::{Answer, Drafted, DraftedWork, Kind, LeftOut, Note, Of, WeekKind, WhyNot, WhyOut, answered};
use crate::history::{History, WeekKey};
use crate::training::{Amount, Block, BlockId, EffortRange, Load, Session, fold};
use chrono::NaiveDate;

/// Answers.
///
/// # Errors
/// [`WhyNot`] says what stands in the way.
pub fn answer(history: &History<'_>, other: &History<'_>, ask: &Ask) -> Result<Answer, WhyNot> {
    let lifter = other.log.lifter.clone().unwrap_or_else(|| "the other lifter".to_owned());
    let blocks = (0..other.log.blocks.len()).rev().filter_map(|at| u32::try_from(at).ok().map(BlockId));
    let found = blocks.into_iter().find_map(|id| Some((id, other.log.block(id)?, first_week(other, id)?)));
    let (id, last, week) = found.ok_or_else(|| WhyNot::NoBlockLike(lifter.clone()))?;
    let standing = standing(history, worked_block(history).map(|(id, _)| id), ask.said())?;
    let (new, first, starts) = match standing {
        Some(standing) => {
            let weeks = standing.weeks(history)?;
            let free = next_monday(history.today)?;
            let over = || WhyNot::BlockOver { block: standing.block.name.clone(), week: 1, free };
            // Of a week that has begun, days may be past; who begins, begins with a whole one.
            let (first, starts) = *weeks.iter().find(|(_, starts)| *starts >= history.today).ok_or_else(over)?;
            (None, first, starts)
        }
        None => {
            let starts = ask.starts.map_or_else(|| next_monday(history.today), Ok)?;
            let is_free = !history.log.blocks.iter().any(|block| fold(&block.name) == fold(&last.name));
            let name = ask.name.clone().or_else(|| is_free.then(|| last.name.clone()));
            let new = new_block(history, last, &Ask { starts: Some(starts), name, ..ask.clone() })?;
            (Some(new), 1, starts)
        }
    };
    let (mut sessions, mut left_out) = (Vec::new(), Vec::new());
    for (of_day, session) in &held(other, WeekKey { block: id, week }) {
        let date = first_week_day(last, *of_day, starts)?;
        if date < history.today {
            left_out.push(LeftOut { date, lift: None, why: WhyOut::Past });
            continue;
        }
        let works = works(other, id, (session, date), &mut left_out);
        if !works.is_empty() {
            let day = session.day.as_deref().map(str::to_owned);
            sessions.push(Drafted {
                date,
                minute: session.minute,
                day,
                gym: None,
                placed: None,
                works,
                notes: Vec::new(),
            });
        }
    }
    if sessions.is_empty() {
        return Err(WhyNot::NoBlockLike(lifter));
    }
    sessions.sort_by_key(|drafted| drafted.date);
    if ask.whole {
        let from = From { history: other, id, block: last, week };
        let stands = standing.map(Standing::as_new);
        if let Some(new) = stands.as_ref().or(new.as_ref()) {
            let weeks = Weeks { from, own: history, new, after: first, standing, reps: None, keeps: false };
            let (later, out) = weeks.later()?;
            sessions.extend(later);
            left_out.extend(out);
        }
    }
    let block = standing.map(|standing| &standing.block.name).or(new.as_ref().map(|new| &new.name));
    let (block, from_block) = (block.cloned().unwrap_or_default(), last.name.clone());
    let of = Of { kind: Kind::Block, block, week: first, from_block, from_week: week, week_kind: WeekKind::Loading };
    let notes = vec![Note::Like { lifter, block: last.name.clone() }];
    answered(history, of, new, (sessions, notes), left_out)
}

/// The first loading week of a block with training in it, planned or done.
fn first_week(history: &History<'_>, id: BlockId) -> Option<u32> {
    let block: &Block = history.log.block(id)?;
    let mut weeks: Vec<u32> = history
        .log
        .sessions
        .iter()
        .filter(|session| session.block == Some(id))
        .filter_map(|session| session.week)
        .collect();
    weeks.sort_unstable();
    let trained = || {
        weeks.iter().copied().filter(|week| training_of(history, WeekKey { block: id, week: *week }).next().is_some())
    };
    trained().find(|week| WeekKind::of(history, block, *week) == WeekKind::Loading).or(trained().next())
}

/// The lines of a session without their loads. Where no effort is planned, it is that of a first week.
fn works(
    other: &History<'_>,
    id: BlockId,
    (session, date): (&Session, NaiveDate),
    left_out: &mut Vec<LeftOut>,
) -> Vec<DraftedWork> {
    let mut works = Vec::new();
    for work in &session.works {
        let lift = other.log.lift_name(work.lift).to_owned();
        let mut groups = line(other, id, session, work);
        if groups.is_empty() {
            left_out.push(LeftOut { date, lift: Some(lift), why: WhyOut::NothingWritten });
            continue;
        }
        for group in &mut groups {
            group.load = Load::None;
            if let Amount::Reps(_) = group.amounts.least() {
                let usual = EffortRange { low: rpe(FIRST_WEEK.0), high: rpe(FIRST_WEEK.1) };
                group.effort = group.effort.or(Some(usual));
            }
        }
        works.push(DraftedWork { lift, groups, changes: Vec::new() });
    }
    works
}
