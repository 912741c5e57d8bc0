//! The weeks of the blocks.

use super::{Done, History};
use crate::training::{BlockId, Session};

/// Which week of which block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WeekKey {
    /// The block.
    pub block: BlockId,
    /// The week, from 1.
    pub week: u32,
}

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

impl<'a> History<'a> {
    /// The week of a block that holds today.
    pub fn week_today(&self) -> Option<WeekKey> {
        let block = self.block_today()?;
        Some(WeekKey { block, week: self.log.block(block)?.week_of(self.today) })
    }

    /// A week of a block, up to today. It may be empty.
    pub fn week(&self, key: WeekKey) -> Week<'a> {
        let here = |session: &&Session| session.block == Some(key.block) && session.week == Some(key.week);
        let sessions: Vec<&Session> = self.sessions().iter().filter(here).collect();
        let light = self.is_light(key, &sessions);
        Week { key, sessions, light }
    }

    /// Every week that has a session, in order of block and week.
    pub fn weeks(&self) -> Vec<Week<'a>> {
        let mut weeks: std::collections::BTreeMap<WeekKey, Vec<&'a Session>> = std::collections::BTreeMap::new();
        for session in self.sessions() {
            if let (Some(block), Some(week)) = (session.block, session.week) {
                weeks.entry(WeekKey { block, week }).or_default().push(session);
            }
        }
        weeks.into_iter().map(|(key, sessions)| Week { light: self.is_light(key, &sessions), key, sessions }).collect()
    }

    /// Whether a meet stands in a week, done or to come. Such a week is lighter than a loading week for the meet's sake.
    pub fn has_meet(&self, key: WeekKey) -> bool {
        let here = |session: &&Session| session.block == Some(key.block) && session.week == Some(key.week);
        self.log.sessions.iter().filter(here).any(|session| session.meet.is_some())
    }

    fn is_light(&self, key: WeekKey, sessions: &[&Session]) -> bool {
        let said = self
            .log
            .block(key.block)
            .is_some_and(|block| block.deload.contains(&key.week) || block.peak.contains(&key.week));
        let mut with_work =
            sessions.iter().filter(|session| session.works.iter().any(|work| work.has_work())).peekable();
        said || (with_work.peek().is_some() && with_work.all(|session| session.deload || session.peak))
    }
}
