//! The index over a log.

use crate::problems::nearest;
use crate::training::{BlockId, Gear, LiftBook, LiftId, Log, Session, Set, Work, fold};
use chrono::NaiveDate;
use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

/// No lift of that name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoLift {
    /// The name.
    pub name: String,
    /// Whether the lift book knows it, and only the journal does not.
    pub in_book: bool,
    /// Names like it that the journal has.
    pub near: Vec<String>,
}

/// No block of that name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoBlock {
    /// The name.
    pub name: String,
    /// Names like it, or all there are.
    pub near: Vec<String>,
}

/// Which week of which block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WeekKey {
    /// The block.
    pub block: BlockId,
    /// The week, from 1.
    pub week: u32,
}

/// Where in a log work and sessions stand, found when somebody asks. It holds for one log.
#[derive(Debug, Default)]
pub struct Index {
    /// Of each lift, the places of its work, that to come too: session and work.
    by_lift: OnceLock<Vec<Vec<(u32, u32)>>>,
    /// Of each week of a block, the places of its sessions, those to come too.
    by_week: OnceLock<HashMap<WeekKey, Vec<u32>>>,
    /// Those weeks in order.
    weeks: OnceLock<Vec<WeekKey>>,
}

impl Index {
    fn weeks(&self, log: &Log) -> &[WeekKey] {
        self.weeks.get_or_init(|| {
            let mut weeks: Vec<WeekKey> = self.by_week(log).keys().copied().collect();
            weeks.sort_unstable();
            weeks
        })
    }

    fn by_lift(&self, log: &Log) -> &[Vec<(u32, u32)>] {
        self.by_lift.get_or_init(|| {
            let mut by_lift = vec![Vec::new(); log.lifts.len()];
            for (session, at) in log.sessions.iter().zip(0..) {
                for (work, nth) in session.works.iter().zip(0..) {
                    if let Some(places) = by_lift.get_mut(work.lift.0 as usize) {
                        places.push((at, nth));
                    }
                }
            }
            by_lift
        })
    }

    fn by_week(&self, log: &Log) -> &HashMap<WeekKey, Vec<u32>> {
        self.by_week.get_or_init(|| {
            let mut by_week: HashMap<WeekKey, Vec<u32>> = HashMap::new();
            for (session, at) in log.sessions.iter().zip(0..) {
                if let (Some(block), Some(week)) = (session.block, session.week) {
                    by_week.entry(WeekKey { block, week }).or_default().push(at);
                }
            }
            by_week
        })
    }
}

/// A lifter's log with today's date, indexed by lift.
#[derive(Debug)]
pub struct History<'a> {
    /// Everything.
    pub log: &'a Log,
    /// No session after it is looked at.
    pub today: NaiveDate,
    book: &'a LiftBook,
    /// How many sessions are dated up to today.
    past: usize,
    index: Arc<Index>,
}

/// Work on a lift, with the session it stands in.
#[derive(Clone, Copy, Debug)]
pub struct Done<'a> {
    /// The session.
    pub session: &'a Session,
    /// The work line.
    pub work: &'a Work,
}

impl<'a> Done<'a> {
    /// Its work sets, in order.
    pub fn work_sets(self) -> impl Iterator<Item = Set<'a>> {
        self.work.groups.iter().flat_map(|group| group.sets()).filter(|set| set.is_work())
    }
}

impl<'a> History<'a> {
    /// A log as it stood on a day.
    pub fn new(log: &'a Log, book: &'a LiftBook, today: NaiveDate) -> Self {
        History::indexed(log, book, today, Arc::default())
    }

    /// The same, where an index of this very log is kept.
    pub fn indexed(log: &'a Log, book: &'a LiftBook, today: NaiveDate, index: Arc<Index>) -> Self {
        let past = log.sessions.partition_point(|session| session.date <= today);
        History { log, today, book, past, index }
    }

    /// The same as it stood on another day.
    pub fn as_of(&self, today: NaiveDate) -> History<'a> {
        History::indexed(self.log, self.book, today, Arc::clone(&self.index))
    }

    /// Sessions up to today, in order of time.
    pub fn sessions(&self) -> &'a [Session] {
        self.log.sessions.get(..self.past).unwrap_or(&[])
    }

    /// Every work line up to today, in order of time.
    pub fn works(&self) -> impl DoubleEndedIterator<Item = Done<'a>> {
        self.sessions().iter().flat_map(|session| session.works.iter().map(move |work| Done { session, work }))
    }

    /// Every work line of a lift up to today, in order of time.
    pub fn works_of(&self, lift: LiftId) -> impl DoubleEndedIterator<Item = Done<'a>> {
        let log = self.log;
        let places = self.index.by_lift(log).get(lift.0 as usize).map_or(&[][..], Vec::as_slice);
        let past = places.partition_point(|(session, _)| (*session as usize) < self.past);
        places.iter().take(past).filter_map(move |(session, work)| {
            let session = log.sessions.get(*session as usize)?;
            Some(Done { session, work: session.works.get(*work as usize)? })
        })
    }

    /// Every session of a week of a block, those to come too, in order of time.
    pub fn all_of_week(&self, key: WeekKey) -> impl DoubleEndedIterator<Item = &'a Session> + use<'a, '_> {
        let log = self.log;
        self.places_of(key).iter().filter_map(move |at| log.sessions.get(*at as usize))
    }

    /// The sessions of a week of a block up to today.
    pub(super) fn past_of_week(&self, key: WeekKey) -> Vec<&'a Session> {
        let places = self.places_of(key);
        let past = places.partition_point(|at| (*at as usize) < self.past);
        self.all_of_week(key).take(past).collect()
    }

    /// Every week of a block that has a session, those to come too, in order.
    pub(super) fn week_keys(&self) -> &[WeekKey] {
        self.index.weeks(self.log)
    }

    fn places_of(&self, key: WeekKey) -> &[u32] {
        self.index.by_week(self.log).get(&key).map_or(&[], Vec::as_slice)
    }

    /// A name as names are compared: that of the lift it stands for.
    pub(super) fn folded(&self, name: &str) -> String {
        fold(self.book.find(name).map_or(name, |entry| &entry.name))
    }

    /// The lift of a name or of an `also:` name; `None` where the journal has none.
    pub fn lift_named(&self, name: &str) -> Option<LiftId> {
        let wanted = self.folded(name);
        self.log.lifts.iter().position(|lift| fold(&lift.name) == wanted).map(|at| LiftId(at as u32))
    }

    /// The same, for a name that somebody asks for.
    ///
    /// # Errors
    /// [`NoLift`] where the journal has none.
    pub fn find_lift(&self, name: &str) -> Result<LiftId, NoLift> {
        if let Some(lift) = self.lift_named(name) {
            return Ok(lift);
        }
        let entry = self.book.find(name);
        let names = self.log.lifts.iter().map(|lift| lift.name.as_str());
        let mut near = nearest(entry.map_or(name, |entry| &entry.name), names.clone());
        // `Fornt` and `Squt` are far from "Front squat", and near to a word of it.
        if near.is_empty() && name.trim().chars().count() > 3 {
            let is_near = |word: &str| word.chars().count() > 3 && !nearest(name, [word]).is_empty();
            near = names.filter(|lift| lift.split(' ').any(is_near)).take(3).collect();
        }
        let near = near.into_iter().map(str::to_owned).collect();
        Err(NoLift { name: name.to_owned(), in_book: entry.is_some(), near })
    }

    /// The block of a name.
    ///
    /// # Errors
    /// [`NoBlock`] where the journal has none.
    pub fn find_block(&self, name: &str) -> Result<BlockId, NoBlock> {
        let bare = name.trim();
        let bare = bare
            .get(..6)
            .filter(|word| word.eq_ignore_ascii_case("block "))
            .map_or(bare, |_| bare.get(6..).unwrap_or(bare));
        let wanted = fold(bare);
        let found =
            self.log.blocks.iter().position(|block| fold(&block.name) == wanted || fold(&block.name) == fold(name));
        if let Some(at) = found {
            return Ok(BlockId(at as u32));
        }
        let names = || self.log.blocks.iter().map(|block| block.name.as_str());
        let near: Vec<String> = nearest(bare, names()).into_iter().map(str::to_owned).collect();
        // A year of blocks is a short list; only of more than that the nearest are picked.
        let all: Vec<String> = names().map(str::to_owned).collect();
        let near = if all.len() <= 13 || near.is_empty() { all } else { near };
        Err(NoBlock { name: name.to_owned(), near })
    }

    /// The block that holds today; of two, the later one.
    pub fn block_today(&self) -> Option<BlockId> {
        let at = self.log.blocks.iter().rposition(|block| block.holds(self.today))?;
        Some(BlockId(at as u32))
    }

    /// The bars and plates where the lifter is today.
    pub fn gear(&self) -> &'a Gear {
        self.log.gear_at(self.log.gym_on(self.today))
    }

    /// The block that holds today; between blocks, the last one started.
    pub fn current_block(&self) -> Option<BlockId> {
        let started = || self.log.blocks.iter().rposition(|block| block.starts <= self.today);
        self.block_today().or_else(|| started().map(|at| BlockId(at as u32)))
    }
}
