//! The index over a log.

use crate::problems::nearest;
use crate::training::{BlockId, Gear, LiftBook, LiftId, Log, Session, Set, Work, fold};
use chrono::NaiveDate;
use std::cmp::Ordering;
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

/// A block has no such week.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoWeek {
    /// The block's name.
    pub block: String,
    /// The week.
    pub week: u32,
    /// How many it has.
    pub weeks: u32,
}

/// No work on a lift on that day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoWork {
    /// The lift.
    pub lift: String,
    /// The day.
    pub date: NaiveDate,
    /// The last day before with work on it, and the first after.
    pub near: Vec<NaiveDate>,
}

/// Which week of which block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WeekKey {
    /// The block.
    pub block: BlockId,
    /// The week, from 1.
    pub week: u32,
}

impl WeekKey {
    /// The week that a session is of; nothing outside of blocks.
    pub fn of(session: &Session) -> Option<WeekKey> {
        Some(WeekKey { block: session.block?, week: session.week? })
    }
}

/// Where in a log work and sessions stand, found when somebody asks. It holds for one log.
#[derive(Debug, Default)]
pub struct Index {
    /// Of each lift, the places of its work, that to come too: session and work.
    by_lift: OnceLock<Vec<Vec<(u32, u32)>>>,
    /// The places of the sessions of blocks, those to come too, in order of block and week, then of time.
    by_week: OnceLock<Vec<(WeekKey, u32)>>,
    /// Up to each session, the latest block that one is of: where it is an early one, none before is of a later.
    up_to: OnceLock<Vec<Option<BlockId>>>,
    /// What few sessions have.
    rare: OnceLock<Rare>,
}

/// Places of what few sessions have, in order of time: who looks for it need not go through all of them.
#[derive(Debug, Default)]
struct Rare {
    /// Meets and test days.
    tests: Vec<u32>,
    /// Sessions with a note of pain.
    pains: Vec<u32>,
    /// Work that stood in for another lift: session and work.
    instead: Vec<(u32, u32)>,
}

impl Index {
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

    fn by_week(&self, log: &Log) -> &[(WeekKey, u32)] {
        self.by_week.get_or_init(|| {
            let places = log.sessions.iter().zip(0..);
            let mut by_week: Vec<(WeekKey, u32)> =
                places.filter_map(|(session, at)| Some((WeekKey::of(session)?, at))).collect();
            by_week.sort_unstable();
            by_week
        })
    }

    fn up_to(&self, log: &Log) -> &[Option<BlockId>] {
        self.up_to.get_or_init(|| {
            let mut latest = None;
            let blocks = log.sessions.iter().map(|session| {
                latest = latest.max(session.block);
                latest
            });
            blocks.collect()
        })
    }

    fn rare(&self, log: &Log) -> &Rare {
        self.rare.get_or_init(|| {
            let mut rare = Rare::default();
            for (session, at) in log.sessions.iter().zip(0..) {
                if session.meet.is_some() || session.test_day {
                    rare.tests.push(at);
                }
                if !session.pains.is_empty() {
                    rare.pains.push(at);
                }
                for (work, nth) in session.works.iter().zip(0..) {
                    if work.details.as_ref().is_some_and(|details| details.instead_of.is_some()) {
                        rare.instead.push((at, nth));
                    }
                }
            }
            rare
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
        self.done_at(self.places_of_lift(lift))
    }

    /// Before a block, the week of that number of the latest one in which work was done on a lift.
    pub fn last_done_before(&self, WeekKey { block, week }: WeekKey, lift: LiftId) -> Option<WeekKey> {
        let up_to = self.index.up_to(self.log);
        let mut latest: Option<WeekKey> = None;
        for (at, nth) in self.places_of_lift(lift).iter().rev() {
            let session = self.log.sessions.get(*at as usize)?;
            if latest.is_some_and(|latest| up_to.get(*at as usize).is_none_or(|up_to| *up_to <= Some(latest.block))) {
                break;
            }
            let has_work = || session.works.get(*nth as usize).is_some_and(|work| work.has_work());
            let key = WeekKey::of(session).filter(|key| key.week == week && key.block < block && has_work());
            latest = latest.max(key);
        }
        latest
    }

    /// Every session of a week of a block, those to come too, in order of time.
    pub fn all_of_week(&self, key: WeekKey) -> impl DoubleEndedIterator<Item = &'a Session> + use<'a, '_> {
        let log = self.log;
        self.places_of(key).iter().filter_map(move |(_, at)| log.sessions.get(*at as usize))
    }

    /// The sessions of a week of a block up to today.
    pub(super) fn past_of_week(&self, key: WeekKey) -> Vec<&'a Session> {
        let places = self.places_of(key);
        let past = places.partition_point(|(_, at)| (*at as usize) < self.past);
        self.all_of_week(key).take(past).collect()
    }

    /// Every session of a block, those to come too, in order of time.
    pub fn all_of_block(&self, block: BlockId) -> Vec<&'a Session> {
        let mut places: Vec<u32> = self.places_of_block(block).iter().map(|(_, at)| *at).collect();
        // A heading may name a week that its date is not in.
        places.sort_unstable();
        places.into_iter().filter_map(|at| self.log.sessions.get(at as usize)).collect()
    }

    /// The sessions of a block up to today, in order of time.
    pub fn of_block(&self, block: BlockId) -> Vec<&'a Session> {
        let mut sessions = self.all_of_block(block);
        sessions.truncate(sessions.partition_point(|session| session.date <= self.today));
        sessions
    }

    /// The weeks of a block that have a session, those to come too, in order.
    pub fn keys_of(&self, block: BlockId) -> impl DoubleEndedIterator<Item = WeekKey> {
        keys(self.places_of_block(block))
    }

    /// Every week of a block that has a session, those to come too, in order.
    pub(super) fn week_keys(&self) -> impl DoubleEndedIterator<Item = WeekKey> {
        keys(self.index.by_week(self.log))
    }

    /// Every week up to and with a block that has a session, those to come too, in order.
    pub(super) fn keys_up_to(&self, block: BlockId) -> impl DoubleEndedIterator<Item = WeekKey> {
        let all = self.index.by_week(self.log);
        keys(all.get(..all.partition_point(|(key, _)| key.block <= block)).unwrap_or(&[]))
    }

    /// Every session from a day on, those to come too, in order of time.
    pub fn all_since(&self, first: NaiveDate) -> &'a [Session] {
        let sessions = &self.log.sessions;
        sessions.get(sessions.partition_point(|session| session.date < first)..).unwrap_or(&[])
    }

    /// Every session of a day, in order of time.
    pub fn all_on(&self, date: NaiveDate) -> &'a [Session] {
        let since = self.all_since(date);
        since.get(..since.partition_point(|session| session.date == date)).unwrap_or(&[])
    }

    /// The sessions from a day on up to today, in order of time.
    pub fn since(&self, first: NaiveDate) -> &'a [Session] {
        let sessions = self.sessions();
        sessions.get(sessions.partition_point(|session| session.date < first)..).unwrap_or(&[])
    }

    /// Every meet and test day, those to come too, in order of time.
    pub fn tests(&self) -> impl DoubleEndedIterator<Item = &'a Session> + use<'a, '_> {
        let log = self.log;
        self.index.rare(log).tests.iter().filter_map(move |at| log.sessions.get(*at as usize))
    }

    /// The sessions up to today with a note of pain, in order of time.
    pub fn with_pain(&self) -> impl DoubleEndedIterator<Item = &'a Session> + use<'a, '_> {
        let log = self.log;
        let places = &self.index.rare(log).pains;
        let past = places.partition_point(|at| (*at as usize) < self.past);
        places.iter().take(past).filter_map(move |at| log.sessions.get(*at as usize))
    }

    /// The work up to today that stood in for another lift, in order of time.
    pub fn stand_ins(&self) -> impl DoubleEndedIterator<Item = Done<'a>> {
        self.done_at(self.past_of(&self.index.rare(self.log).instead))
    }

    fn places_of(&self, key: WeekKey) -> &[(WeekKey, u32)] {
        range(self.index.by_week(self.log), |place| place.cmp(&key))
    }

    fn places_of_block(&self, block: BlockId) -> &[(WeekKey, u32)] {
        range(self.index.by_week(self.log), |place| place.block.cmp(&block))
    }

    fn places_of_lift(&self, lift: LiftId) -> &[(u32, u32)] {
        self.past_of(self.index.by_lift(self.log).get(lift.0 as usize).map_or(&[], Vec::as_slice))
    }

    fn done_at(&self, places: &[(u32, u32)]) -> impl DoubleEndedIterator<Item = Done<'a>> {
        let log = self.log;
        places.iter().filter_map(move |(session, work)| {
            let session = log.sessions.get(*session as usize)?;
            Some(Done { session, work: session.works.get(*work as usize)? })
        })
    }

    fn past_of<'p>(&self, places: &'p [(u32, u32)]) -> &'p [(u32, u32)] {
        places.get(..places.partition_point(|(session, _)| (*session as usize) < self.past)).unwrap_or(&[])
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

    /// A week that is asked for; one that is past the block's end is there where sessions are put into it.
    ///
    /// # Errors
    /// [`NoWeek`] where the block has fewer.
    pub fn find_week(&self, key: WeekKey) -> Result<u32, NoWeek> {
        let block = self.log.block(key.block);
        let ended = block.and_then(|block| Some((block, block.week_of(block.ends?))));
        match ended.filter(|(_, weeks)| *weeks < key.week && self.week(key).sessions.is_empty()) {
            Some((block, weeks)) => Err(NoWeek { block: block.name.clone(), week: key.week, weeks }),
            None => Ok(key.week),
        }
    }

    /// A day that is asked for.
    ///
    /// # Errors
    /// [`NoWork`] where the lift has no work on it.
    pub fn find_day(&self, lift: LiftId, date: NaiveDate) -> Result<NaiveDate, NoWork> {
        let days = || self.works_of(lift).filter(|done| done.work.has_work()).map(|done| done.session.date);
        if days().any(|day| day == date) {
            return Ok(date);
        }
        let near = [days().rfind(|day| *day < date), days().find(|day| *day > date)];
        Err(NoWork { lift: self.log.lift_name(lift).to_owned(), date, near: near.into_iter().flatten().collect() })
    }

    /// The block that holds today; of two, the later one.
    pub fn block_today(&self) -> Option<BlockId> {
        let at = self.log.blocks.iter().rposition(|block| block.holds(self.today))?;
        Some(BlockId(at as u32))
    }

    /// The block that was worked in last.
    pub fn block_of_last_work(&self) -> Option<BlockId> {
        self.sessions().iter().rev().filter(|session| session.has_work()).find_map(|session| session.block)
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

/// The places of the weeks that are neither before nor after what is wanted.
fn range(places: &[(WeekKey, u32)], order: impl Fn(&WeekKey) -> Ordering) -> &[(WeekKey, u32)] {
    let first = places.partition_point(|(key, _)| order(key).is_lt());
    let end = places.partition_point(|(key, _)| order(key).is_le());
    places.get(first..end).unwrap_or(&[])
}

/// The weeks of places, each once.
fn keys(places: &[(WeekKey, u32)]) -> impl DoubleEndedIterator<Item = WeekKey> {
    places.chunk_by(|(one, _), (other, _)| one == other).filter_map(|week| Some(week.first()?.0))
}
