//! `volume`: how much was done, by week, block, lift, family, day, or month.

use crate::analysis::strength::evidence::{Evidence, Ratings};
use crate::history::{Done, History};
use crate::science::Equation;
use crate::science::volume_measures::{self, SetAt};
use crate::training::{Amount, BlockId, Distance, Family, LiftId, Session, Set, Tonnage, fold};
use chrono::{Datelike, NaiveDate};
use std::collections::{HashMap, HashSet};

/// What the rows are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Weeks of blocks.
    Week,
    /// Blocks.
    Block,
    /// Lifts.
    Lift,
    /// Families.
    Family,
    /// Day labels.
    Day,
    /// Calendar months.
    Month,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// What the rows are.
    pub by: By,
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

/// The answer: rows in order of their first work.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What the rows are.
    pub by: By,
    /// From how many reps on a set is a high-rep set.
    pub high_reps: u32,
    /// The rows.
    pub rows: Vec<Row>,
}

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// The lift, family, label, month or block; nothing for weeks, and for work without one.
    pub key: Option<String>,
    /// The block, for weeks.
    pub block: Option<String>,
    /// The week, for weeks.
    pub week: Option<u32>,
    /// Sessions with work in the row.
    pub sessions: u32,
    /// Work sets.
    pub sets: u32,
    /// Reps, of both sides.
    pub reps: u64,
    /// Kilograms times reps, of loads that are a mass without the lifter's own.
    pub tonnage: Tonnage,
    /// The reps counted in `tonnage`.
    pub tonnage_reps: u64,
    /// Kilograms times reps, of loads with the lifter's own weight.
    pub bodyweight_tonnage: Tonnage,
    /// Sets of such loads that are not in it, for want of a bodyweight.
    pub without_bodyweight: u32,
    /// Seconds held, of both sides.
    pub seconds: u64,
    /// Distance covered, of both sides.
    pub metres: Distance,
    /// Sets of the settings' high reps or more.
    pub high_rep_sets: u32,
    /// What those sets add to `tonnage`.
    pub high_rep_tonnage: Tonnage,
    /// Sets with an effort.
    pub sets_with_effort: u32,
    /// The sum of their efforts, in quarter points.
    pub effort_quarters: u64,
    /// Sets with at most four reps in reserve.
    pub hard_sets: u32,
    /// Sets on a day from which the lift has an estimated maximum, each as a share of it.
    pub against_maximum: Vec<SetAt>,
}

impl Row {
    /// The mean effort of the sets that have one.
    pub fn average_effort(&self) -> Option<f64> {
        (self.sets_with_effort > 0).then(|| self.effort_quarters as f64 / 4.0 / f64::from(self.sets_with_effort))
    }

    /// The mean percentage of the day's estimated maximum, over all reps of sets on days that have one.
    pub fn average_relative_intensity(&self) -> Option<f64> {
        volume_measures::average_relative_intensity(&self.against_maximum)
    }

    /// Reps at so many percent of the day's estimated maximum or more; nothing where no day has one.
    pub fn lifts_at(&self, percent: f64) -> Option<u64> {
        let known = !self.against_maximum.is_empty();
        known.then(|| volume_measures::lifts_at_or_above(&self.against_maximum, percent))
    }

    fn add(&mut self, set: &Set<'_>, session: &Session, high_reps: u32, maximum: Option<f64>) {
        self.sets += 1;
        if let (Some(maximum), Some(reps)) = (maximum, set.amount.reps())
            && let Some(load) = set.group.load.kilograms(session.own_mass())
        {
            let total = reps.saturating_mul(set.sides());
            self.against_maximum.extend(SetAt::of(total, load.in_kilograms(), maximum));
        }
        if let Some(effort) = set.effort {
            self.sets_with_effort += 1;
            self.hard_sets += u32::from(volume_measures::is_hard(effort));
            self.effort_quarters += u64::from(effort.quarters());
        }
        match set.amount {
            Amount::Reps(reps) => {
                let total = reps * set.sides();
                self.reps += u64::from(total);
                self.high_rep_sets += u32::from(reps >= high_reps);
                let load = &set.group.load;
                match (load.added(), load.kilograms(session.own_mass())) {
                    (None, Some(mass)) => {
                        self.tonnage.add(mass, total);
                        self.tonnage_reps += u64::from(total);
                        if reps >= high_reps {
                            self.high_rep_tonnage.add(mass, total);
                        }
                    }
                    (Some(_), Some(mass)) => self.bodyweight_tonnage.add(mass, total),
                    (Some(_), None) => self.without_bodyweight += 1,
                    (None, None) => {}
                }
            }
            Amount::Seconds(seconds) => self.seconds += u64::from(seconds * set.sides()),
            Amount::Metres(distance) => self.metres = self.metres.plus(distance.times(set.sides())),
        }
    }
}

/// What tells rows apart.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Key {
    None,
    Week(BlockId, u32),
    Block(BlockId),
    Lift(LiftId),
    Family(Family),
    Day(String),
    Month(i32, u32),
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let log = history.log;
    let family_of = |lift| log.lift(lift).map(|lift| lift.family);
    let wanted = |done: &Done<'_>| {
        ask.lift.is_none_or(|lift| done.work.lift == lift)
            && ask.family.is_none_or(|family| family_of(done.work.lift) == Some(family))
            && ask.block.is_none_or(|block| done.session.block == Some(block))
            && ask.since.is_none_or(|since| done.session.date >= since)
            && ask.until.is_none_or(|until| done.session.date <= until)
    };
    let mut rows: Vec<Row> = Vec::new();
    let mut places: HashMap<Key, usize> = HashMap::new();
    let mut counted: HashSet<(usize, *const Session)> = HashSet::new();
    let mut ratings = Ratings::new(history, Equation::default());
    let mut evidence: HashMap<LiftId, Evidence<'_>> = HashMap::new();
    for done in history.works().filter(wanted).filter(|done| done.work.has_work()) {
        let key = key(ask.by, &done, family_of(done.work.lift));
        let at = match places.get(&key) {
            Some(at) => *at,
            None => {
                rows.push(named(history, &key, done.session));
                places.insert(key, rows.len() - 1);
                rows.len() - 1
            }
        };
        let Some(row) = rows.get_mut(at) else { continue };
        row.sessions += u32::from(counted.insert((at, done.session)));
        let of_lift = evidence.entry(done.work.lift).or_insert_with(|| ratings.evidence(done.work.lift));
        let maximum = of_lift.maximum_on(done.session.date);
        for set in done.work_sets() {
            row.add(&set, done.session, log.high_reps, maximum);
        }
    }
    Answer { by: ask.by, high_reps: log.high_reps, rows }
}

fn key(by: By, done: &Done<'_>, family: Option<Family>) -> Key {
    let session = done.session;
    match by {
        By::Week => match (session.block, session.week) {
            (Some(block), Some(week)) => Key::Week(block, week),
            _ => Key::None,
        },
        By::Block => session.block.map_or(Key::None, Key::Block),
        By::Lift => Key::Lift(done.work.lift),
        By::Family => family.map_or(Key::None, Key::Family),
        By::Day => session.day.as_deref().map_or(Key::None, |day| Key::Day(fold(day))),
        By::Month => Key::Month(session.date.year(), session.date.month()),
    }
}

/// An empty row with its names.
fn named(history: &History<'_>, key: &Key, session: &Session) -> Row {
    let block = |id: BlockId| history.log.block(id).map(|block| block.name.clone());
    let mut row = Row::default();
    match key {
        Key::None => {}
        Key::Week(id, week) => {
            row.block = block(*id);
            row.week = Some(*week);
        }
        Key::Block(id) => row.key = block(*id),
        Key::Lift(lift) => row.key = Some(history.log.lift_name(*lift).to_owned()),
        Key::Family(family) => row.key = Some(family.word().to_owned()),
        Key::Day(_) => row.key = session.day.as_deref().map(str::to_owned),
        Key::Month(year, month) => row.key = Some(format!("{year:04}-{month:02}")),
    }
    row
}
