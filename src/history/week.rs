//! The weeks of the blocks.

use super::{Done, History, WeekKey};
use crate::training::{BlockId, LiftId, Session};
use std::collections::HashMap;

/// A week of a block, up to today.
#[derive(Clone, Debug)]
pub struct Week<'a> {
    /// Which one.
    pub key: WeekKey,
    /// Its sessions, in order of time.
    pub sessions: Vec<&'a Session>,
    /// Whether it is a deload or peak week: its block says so, or every session of it with work is so marked.
    pub light: bool,
}

impl<'a> Week<'a> {
    /// Every work line of the week, in order of time.
    pub fn works(&self) -> impl Iterator<Item = Done<'a>> {
        self.sessions.iter().copied().flat_map(|session| session.works.iter().map(move |work| Done { session, work }))
    }
}

/// Work lines by their lifts.
#[derive(Debug, Default)]
pub struct ByLift<'a> {
    order: Vec<LiftId>,
    lines: HashMap<LiftId, Vec<Done<'a>>>,
}

impl<'a> ByLift<'a> {
    /// Of work lines in order of time.
    pub fn of(works: impl Iterator<Item = Done<'a>>) -> Self {
        let mut by_lift = ByLift::default();
        for done in works {
            let lines = by_lift.lines.entry(done.work.lift).or_default();
            if lines.is_empty() {
                by_lift.order.push(done.work.lift);
            }
            lines.push(done);
        }
        by_lift
    }

    /// The lifts, in order of their first line.
    pub fn lifts(&self) -> &[LiftId] {
        &self.order
    }

    /// The lines of a lift, in order of time.
    pub fn lines(&self, lift: LiftId) -> &[Done<'a>] {
        self.lines.get(&lift).map_or(&[], Vec::as_slice)
    }
}

impl<'a> History<'a> {
    /// The week of a block that holds today.
    pub fn week_today(&self) -> Option<WeekKey> {
        let block = self.block_today()?;
        Some(WeekKey { block, week: self.log.block(block)?.week_of(self.today) })
    }

    /// A week of a block, up to today. It may be empty.
    pub fn week(&self, key: WeekKey) -> Week<'a> {
        let sessions = self.past_of_week(key);
        let light = self.is_light(key, &sessions);
        Week { key, sessions, light }
    }

    /// Every week that has a session, in order of block and week.
    pub fn weeks(&self) -> impl DoubleEndedIterator<Item = Week<'a>> {
        self.trained(self.week_keys())
    }

    /// The same of one block.
    pub fn weeks_of(&self, block: BlockId) -> impl DoubleEndedIterator<Item = Week<'a>> {
        self.trained(self.keys_of(block))
    }

    /// The same of all blocks up to and with one.
    pub fn weeks_up_to(&self, block: BlockId) -> impl DoubleEndedIterator<Item = Week<'a>> {
        self.trained(self.keys_up_to(block))
    }

    fn trained(&self, keys: impl DoubleEndedIterator<Item = WeekKey>) -> impl DoubleEndedIterator<Item = Week<'a>> {
        keys.map(|key| self.week(key)).filter(|week| !week.sessions.is_empty())
    }

    /// Whether a meet stands in a week, done or to come. Such a week is lighter than a loading week for the meet's sake.
    pub fn has_meet(&self, key: WeekKey) -> bool {
        self.all_of_week(key).any(|session| session.meet.is_some())
    }

    fn is_light(&self, key: WeekKey, sessions: &[&Session]) -> bool {
        let said = self
            .log
            .block(key.block)
            .is_some_and(|block| block.deload.contains(&key.week) || block.peak.contains(&key.week));
        let mut with_work = sessions.iter().filter(|session| session.has_work()).peekable();
        said || (with_work.peek().is_some() && with_work.all(|session| session.deload || session.peak))
    }
}
