//! The work that is compared: which sets of a week count, and which weeks a week is held against.

use crate::history::{History, WeekKey};
use crate::training::{LiftId, Session, Set};

/// A week is held against the mean of so many loading weeks before it.
const WEEKS_BEFORE: usize = 3;

/// Work on one lift in one session, in the order written.
#[derive(Clone, Debug)]
pub(super) struct Worked<'a> {
    pub(super) session: &'a Session,
    pub(super) lift: LiftId,
    /// At least one.
    pub(super) sets: Vec<Set<'a>>,
}

/// Whether a session is training: meets and test days are what a peak is for, not part of its work.
pub(super) fn is_training(session: &Session) -> bool {
    session.meet.is_none() && !session.test_day
}

/// The work of a week, in order of time. All that this question knows of a week's sets comes from here.
pub(super) fn week<'a>(history: &History<'a>, key: WeekKey) -> Vec<Worked<'a>> {
    let training = history.week(key).sessions.into_iter().filter(|session| is_training(session));
    let lines = training.flat_map(|session| session.works.iter().map(move |work| (session, work)));
    lines
        .map(|(session, work)| {
            let sets = work.groups.iter().flat_map(|group| group.sets()).filter(|set| set.is_work()).collect();
            Worked { session, lift: work.lift, sets }
        })
        .filter(|worked| !worked.sets.is_empty())
        .collect()
}

/// A week and those it is held against.
#[derive(Clone, Debug)]
pub(super) struct Weeks<'a> {
    /// The last loading weeks of its block before it that have work, by their numbers.
    pub(super) before: Vec<(u32, Vec<Worked<'a>>)>,
    /// The week itself.
    pub(super) now: Vec<Worked<'a>>,
}

impl<'a> Weeks<'a> {
    pub(super) fn of(history: &History<'a>, key: WeekKey) -> Self {
        let weeks = history.weeks().into_iter().filter(|week| week.key.block == key.block);
        let loading = weeks.filter(|week| week.key.week < key.week && !week.light);
        let worked = loading.map(|loading| (loading.key.week, week(history, loading.key)));
        let mut before: Vec<_> = worked.filter(|(_, work)| !work.is_empty()).collect();
        let before = before.split_off(before.len().saturating_sub(WEEKS_BEFORE));
        Weeks { before, now: week(history, key) }
    }

    /// All the work, in order of time.
    pub(super) fn work(&self) -> impl Iterator<Item = &Worked<'a>> {
        self.before.iter().flat_map(|(_, work)| work).chain(&self.now)
    }

    /// The lifts, in order of their first work.
    pub(super) fn lifts(&self) -> Vec<LiftId> {
        let mut lifts = Vec::new();
        for worked in self.work() {
            if !lifts.contains(&worked.lift) {
                lifts.push(worked.lift);
            }
        }
        lifts
    }

    /// Whether a lift was in at least half of the weeks before, and is not in this one.
    pub(super) fn is_taken_out(&self, lift: LiftId) -> bool {
        let is_in = |work: &[Worked<'a>]| work.iter().any(|worked| worked.lift == lift);
        let weeks = self.before.iter().filter(|(_, work)| is_in(work)).count();
        2 * weeks >= self.before.len() && !is_in(&self.now)
    }
}
