//! The weeks of a block that drafts are made from, and what kind each of them is.

use super::{Meet, WeekKind, WhyNot, days_after, is_training};
use crate::analysis::plan::planned_lines::as_held;
use crate::analysis::plan::week_kind::week_kind;
use crate::history::{History, WeekKey};
use crate::training::{Block, BlockId, Session};
use chrono::{Datelike, NaiveDate};
use std::borrow::Cow;

/// Weeks of a block after one that has no end.
pub(super) const USUAL_WEEKS: u32 = 4;

/// The block that was worked in last.
pub(super) fn worked_block<'a>(history: &History<'a>) -> Option<(BlockId, &'a Block)> {
    let id = history.block_of_last_work()?;
    Some((id, history.log.block(id)?))
}

/// The weeks of a block with work up to today, in order.
pub(super) fn worked_weeks(history: &History<'_>, block: BlockId) -> Vec<WeekKey> {
    history.weeks_of(block).filter(|week| week.works().any(|done| done.work.has_work())).map(|week| week.key).collect()
}

/// The last loading week with training; where there is none, the last light one.
pub(super) fn loading_or_last(history: &History<'_>, worked: &[WeekKey]) -> Option<u32> {
    let trained = || worked.iter().rev().filter(|key| training_of(history, **key).next().is_some());
    trained().find(|key| !history.week(**key).light).or(trained().next()).map(|key| key.week)
}

/// The training of a week, also what is still to come of it.
pub(super) fn training_of<'a>(history: &History<'a>, key: WeekKey) -> impl Iterator<Item = &'a Session> {
    history.all_of_week(key).filter(|session| is_training(session) && !session.works.is_empty())
}

/// The training of a week as it was held, each session with the day that it is of.
pub(super) fn held<'a>(history: &History<'a>, key: WeekKey) -> Vec<(NaiveDate, Cow<'a, Session>)> {
    let sessions: Vec<&Session> = training_of(history, key).collect();
    let mut held = as_held(history, &sessions);
    held.sort_by_key(|(date, _)| *date);
    held
}

/// Block and week of a day, where its date alone would give others.
pub(super) fn placed(
    history: &History<'_>,
    (id, block): (BlockId, &Block),
    week: u32,
    date: NaiveDate,
) -> Option<(String, u32)> {
    let by_date = history.log.blocks.iter().rposition(|block| block.holds(date)).map(|at| BlockId(at as u32));
    let is_plain = by_date == Some(id) && block.week_of(date) == week;
    (!is_plain).then(|| (block.name.clone(), week))
}

/// What kind of week, and the meet in it.
pub(super) fn kind(history: &History<'_>, block: &Block, week: u32) -> (WeekKind, Option<Meet>) {
    kind_of(history, block.starts, (&block.deload, &block.peak), week)
}

/// The same of a block by its first day, its deload weeks and its peak weeks.
pub(super) fn kind_of(
    history: &History<'_>,
    first: NaiveDate,
    light: (&[u32], &[u32]),
    week: u32,
) -> (WeekKind, Option<Meet>) {
    let (kind, meet) = week_kind(history, first, light, week);
    let meet = meet.and_then(|session| Some(Meet { date: session.date, name: session.meet.as_deref()?.into() }));
    (kind, meet)
}

/// The day as many days after the new block's first as one was after the old block's.
pub(super) fn first_week_day(last: &Block, date: NaiveDate, starts: NaiveDate) -> Result<NaiveDate, WhyNot> {
    let days = (date - last.starts).num_days().rem_euclid(7);
    days_after(starts, days.unsigned_abs())
}

/// The Monday after today.
pub(super) fn next_monday(today: NaiveDate) -> Result<NaiveDate, WhyNot> {
    days_after(today, 7 - u64::from(today.weekday().num_days_from_monday()))
}
