//! The work that is compared: which sets of a week count, what is planned of it, and which weeks a week is held against.

use crate::analysis::plan::planned_lines::stands_in;
use crate::history::{History, WeekKey};
use crate::training::{
    Amount, BlockId, EffortRange, LiftId, Load, Mass, PlannedGroup, Session, Status, Substance, Work,
};

/// A week is held against the mean of so many loading weeks before it.
const WEEKS_BEFORE: usize = 3;

/// Which end of a plan's ranges is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// The fewest sets, and the least of each.
    Least,
    /// The most, where the plan says it.
    Most,
}

/// One set, done or planned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) amount: Amount,
    /// How hard, on the RPE scale.
    pub(super) effort: Option<f64>,
    /// The load as a mass.
    pub(super) load: Option<Mass>,
    /// Whether the load is in the tonnage: those with the lifter's own weight are not.
    pub(super) in_tonnage: bool,
    pub(super) sides: u32,
    /// Whether it is planned and not done yet.
    pub(super) is_planned: bool,
    /// Whether it is planned with no load, of a lift that has one in these weeks.
    pub(super) is_load_open: bool,
}

/// Work on one lift in one session, in the order written.
#[derive(Clone, Debug)]
pub(super) struct Worked<'a> {
    pub(super) session: &'a Session,
    pub(super) lift: LiftId,
    /// At least one.
    pub(super) sets: Vec<Entry>,
}

/// Whether a session is training: meets and test days are what a peak is for, not part of its work.
pub(super) fn is_training(session: &Session) -> bool {
    session.meet.is_none() && !session.test_day
}

/// The sets that a line plans and that are still to be done, as of the history's today.
pub(super) fn planned<'a>(history: &History<'_>, session: &Session, work: &'a Work) -> Option<&'a [PlannedGroup]> {
    let swapped = || session.works.iter().any(|other| stands_in(other, work));
    let to_come = match work.status {
        Status::Skipped => false,
        Status::Nothing => session.date > history.today || session.date == history.today && !swapped(),
        Status::Done | Status::AsPlanned => session.date > history.today,
    };
    work.plan().filter(|_| to_come).map(|plan| &*plan.groups)
}

/// Whether anything of a session is planned and still to be done.
pub(super) fn is_planned(history: &History<'_>, session: &Session) -> bool {
    session.works.iter().any(|work| planned(history, session, work).is_some())
}

/// Whether a session has work up to today.
pub(super) fn has_work(history: &History<'_>, session: &Session) -> bool {
    session.date <= history.today && session.has_work()
}

/// The training of a week, to come or not.
pub(super) fn sessions<'a>(history: &History<'a>, key: WeekKey) -> impl Iterator<Item = &'a Session> {
    history.all_of_week(key).filter(|session| is_training(session))
}

/// The work of a week, done or planned and not done yet, in order of time. All that this question knows of a week's
/// sets comes from here.
pub(super) fn week<'a>(history: &History<'a>, key: WeekKey, end: End) -> Vec<Worked<'a>> {
    let lines = sessions(history, key).flat_map(|session| session.works.iter().map(move |work| (session, work)));
    lines
        .map(|(session, work)| Worked { session, lift: work.lift, sets: entries(history, session, work, end) })
        .filter(|worked| !worked.sets.is_empty())
        .collect()
}

fn entries(history: &History<'_>, session: &Session, work: &Work, end: End) -> Vec<Entry> {
    let own = session.own_mass();
    if let Some(groups) = planned(history, session, work) {
        let is_bodyweight = history.log.lift(work.lift).is_some_and(|lift| lift.bodyweight);
        return groups.iter().flat_map(|group| planned_entries(group, own, is_bodyweight, end)).collect();
    }
    if session.date > history.today {
        return Vec::new();
    }
    let sets = work.groups.iter().flat_map(|group| group.sets()).filter(|set| set.is_work());
    sets.map(|set| Entry {
        amount: set.amount,
        effort: set.effort.map(|effort| effort.value()),
        load: set.group.load.kilograms(own),
        in_tonnage: set.group.load.added().is_none(),
        sides: set.sides(),
        is_planned: false,
        is_load_open: false,
    })
    .collect()
}

/// The sets of a planned group. A bodyweight lift with no load is planned with the lifter's own weight, as it is done.
fn planned_entries(
    group: &PlannedGroup,
    own: Option<Mass>,
    is_bodyweight: bool,
    end: End,
) -> impl Iterator<Item = Entry> + use<> {
    let (sets, amount) = match end {
        End::Least => (group.fewest, group.amounts.least()),
        End::Most => (group.most, group.amounts.most().unwrap_or(group.amounts.least())),
    };
    let bodyweight = Load::other(Substance::Bodyweight(Mass::ZERO), "bw", false);
    let load = if is_bodyweight && !group.has_load() { &bodyweight } else { &group.load };
    let entry = Entry {
        amount,
        effort: group.effort.map(middle),
        load: load.kilograms(own),
        in_tonnage: load.added().is_none(),
        sides: group.sides(),
        is_planned: true,
        is_load_open: *load == Load::None,
    };
    (0..sets).map(move |_| entry).filter(|entry| !entry.amount.is_nothing())
}

/// The middle of a planned effort, as a range that was done counts.
fn middle(effort: EffortRange) -> f64 {
    f64::midpoint(effort.low.value(), effort.high.value())
}

/// Whether a week is a deload or peak week; of one that is planned, by its block or by all of its sessions.
pub(super) fn is_light(history: &History<'_>, key: WeekKey) -> bool {
    let week = history.week(key);
    let done = week.sessions.iter().any(|session| session.has_work());
    let mut planned = sessions(history, key).filter(|session| is_planned(history, session)).peekable();
    let is_so_planned = !done && planned.peek().is_some() && planned.all(|session| session.deload || session.peak);
    week.light || is_so_planned
}

/// The weeks of a block that have a session, in order.
pub(super) fn weeks(history: &History<'_>, block: BlockId) -> Vec<WeekKey> {
    history.keys_of(block).collect()
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
    pub(super) fn of(history: &History<'a>, key: WeekKey, end: End) -> Self {
        let before = weeks(history, key.block).into_iter().filter(|other| other.week < key.week);
        let loading = before.filter(|other| !is_light(history, *other));
        let worked = loading.map(|loading| (loading.week, week(history, loading, end)));
        let mut before: Vec<_> = worked.filter(|(_, work)| !work.is_empty()).collect();
        let before = before.split_off(before.len().saturating_sub(WEEKS_BEFORE));
        let mut weeks = Weeks { before, now: week(history, key, end) };
        let is_loaded = |worked: &&Worked<'a>| worked.sets.iter().any(|set| set.load.is_some());
        let loaded: Vec<LiftId> = weeks.work().filter(is_loaded).map(|worked| worked.lift).collect();
        let work = weeks.before.iter_mut().flat_map(|(_, work)| work).chain(&mut weeks.now);
        for set in work.filter(|worked| !loaded.contains(&worked.lift)).flat_map(|worked| &mut worked.sets) {
            set.is_load_open = false;
        }
        weeks
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
