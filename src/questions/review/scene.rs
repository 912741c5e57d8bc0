//! What every caution looks at: the block, and what came before it.

use crate::analysis::strength::evidence::Ratings;
use crate::history::{ByLift, Done, History, Week, WeekKey};
use crate::source::{PageId, Place};
use crate::training::{Block, BlockId, LiftId, Session};
use chrono::NaiveDate;
use std::cell::RefCell;

/// The block that is looked at, as of the history's today.
pub(super) struct Scene<'s, 'a> {
    pub(super) history: &'s History<'a>,
    /// The lifter's curves, each learned once.
    pub(super) ratings: &'s RefCell<Ratings<'s, 'a>>,
    pub(super) id: BlockId,
    pub(super) block: &'a Block,
}

impl<'a> Scene<'_, 'a> {
    /// The block's sessions up to today.
    pub(super) fn sessions(&self) -> impl Iterator<Item = &'a Session> + use<'a> {
        self.history.of_block(self.id).into_iter()
    }

    /// The block's work lines up to today.
    pub(super) fn works(&self) -> impl Iterator<Item = Done<'a>> + use<'a> {
        self.sessions().flat_map(|session| session.works.iter().map(move |work| Done { session, work }))
    }

    /// The lifts of the block's lines, in order of the first.
    pub(super) fn lifts(&self) -> Vec<LiftId> {
        ByLift::of(self.works()).lifts().to_vec()
    }

    /// The block's weeks that have a session.
    pub(super) fn weeks(&self) -> Vec<Week<'a>> {
        self.history.weeks_of(self.id).collect()
    }

    /// The block's last week that is no deload and no peak; nothing where it has no end.
    pub(super) fn last_loading_week(&self) -> Option<u32> {
        let last = self.block.week_of(self.block.ends?);
        (1..=last).rev().find(|week| !self.history.week(WeekKey { block: self.id, week: *week }).light)
    }

    /// A lift's name.
    pub(super) fn name(&self, lift: LiftId) -> String {
        self.history.log.lift_name(lift).to_owned()
    }

    /// A line of a page.
    pub(super) fn place(&self, page: PageId, line: u32) -> Place {
        self.history.log.place(page, line)
    }

    /// The first meet, or test day where those are wanted, on a day or after it, whether it has been yet or not.
    pub(super) fn next_test(&self, from: NaiveDate, test_days: bool) -> Option<&'a Session> {
        let tests = self.history.tests().skip_while(|session| session.date < from);
        tests.into_iter().find(|session| session.meet.is_some() || (test_days && session.test_day))
    }
}

/// Whether a session is training: meets and test days are what it is for.
pub(super) fn is_training(session: &Session) -> bool {
    session.meet.is_none() && !session.test_day
}

/// The days of so many weeks.
pub(super) fn days(weeks: f64) -> i64 {
    (weeks * 7.0) as i64
}
