//! `volume`: how much was done, by week, block, lift, family, day, or month.

use crate::analysis::strength::evidence::{Evidence, Ratings};
use crate::history::{Done, History};
use crate::science::Equation;
use crate::science::volume_measures::{SetAt, average_relative_intensity, is_at_rpe_6, lifts_at_or_above};
use crate::training::{
    Amount, BlockId, Distance, Family, Figure, Hundredths, LiftId, Session, Set, Tonnage, fold, is_within, words,
};
use chrono::{Datelike, NaiveDate};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{HashMap, HashSet};

words! {
    /// What the rows are.
    pub enum By {
        /// Weeks of blocks.
        Week = "week",
        /// Blocks.
        Block = "block",
        /// Lifts.
        Lift = "lift",
        /// Families.
        Family = "family",
        /// Day labels.
        Day = "day",
        /// Calendar months.
        Month = "month",
    }
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
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// What the rows are.
    pub by: By,
    /// From how many reps on a set is a high-rep set.
    #[serde(skip)]
    pub high_reps: u32,
    /// The rows.
    pub rows: Vec<Row>,
}

/// One row.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
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
    #[serde(rename = "tonnage_kg")]
    pub tonnage: Tonnage,
    /// The reps counted in it.
    #[serde(skip)]
    pub(super) tonnage_reps: u64,
    /// Kilograms times reps, of loads with the lifter's own weight; null where a bodyweight is lacking, for then it is
    /// not the sum.
    #[serde(rename = "bodyweight_tonnage_kg")]
    pub bodyweight_tonnage: Option<Tonnage>,
    /// Sets of such loads that lack it.
    #[serde(skip)]
    pub without_bodyweight: u32,
    /// Seconds held, of both sides.
    pub seconds: u64,
    /// Distance covered, of both sides.
    pub metres: Distance,
    /// Sets of the settings' high reps or more.
    pub high_rep_sets: u32,
    /// What those sets add to the tonnage.
    #[serde(skip)]
    pub high_rep_tonnage: Tonnage,
    /// The tonnage over the reps counted in it.
    #[serde(rename = "average_kg")]
    pub average_load: Option<Hundredths>,
    /// The mean effort of the sets that have one.
    pub average_effort: Option<Hundredths>,
    /// The sum of those efforts, in quarter points.
    #[serde(skip)]
    pub(super) effort_quarters: u64,
    /// Work sets without an effort.
    pub sets_without_effort: u32,
    /// Sets with at most four reps in reserve.
    pub sets_at_rpe_6: u32,
    /// The mean percentage of the day's estimated maximum, over all reps of sets on days that have one.
    pub average_relative_intensity: Option<Hundredths>,
    /// Reps at 80 percent of the day's estimated maximum or more; null where no day has one.
    pub lifts_at_80: Option<u64>,
    /// The same at 90 percent.
    pub lifts_at_90: Option<u64>,
    /// Sets on a day from which the lift has an estimated maximum.
    pub sets_with_estimate: usize,
    /// Each of them as a share of it.
    #[serde(skip)]
    pub(super) against_maximum: Vec<SetAt>,
}

impl Row {
    /// The share of its sets that are high-rep; nothing without sets.
    pub fn high_rep_percent(&self) -> Option<f64> {
        (self.sets > 0).then(|| f64::from(self.high_rep_sets) / f64::from(self.sets) * 100.0)
    }

    /// What can be told once every set is in.
    fn finish(&mut self) {
        let with_effort = self.sets - self.sets_without_effort;
        self.average_load = self.tonnage.per_rep(self.tonnage_reps).map(Figure);
        self.average_effort =
            (with_effort > 0).then(|| Figure(self.effort_quarters as f64 / 4.0 / f64::from(with_effort)));
        let against = std::mem::take(&mut self.against_maximum);
        let lifts_at = |percent| (!against.is_empty()).then(|| lifts_at_or_above(&against, percent));
        self.average_relative_intensity = average_relative_intensity(&against).map(Figure);
        (self.lifts_at_80, self.lifts_at_90) = (lifts_at(80.0), lifts_at(90.0));
        self.sets_with_estimate = against.len();
    }

    fn add(&mut self, set: &Set<'_>, session: &Session, high_reps: u32, maximum: Option<f64>) {
        self.sets += 1;
        if let (Some(maximum), Some(reps)) = (maximum, set.amount.reps())
            && let Some(load) = set.group.load.kilograms(session.own_mass())
        {
            let total = reps.saturating_mul(set.sides());
            self.against_maximum.extend(SetAt::of(total, load.in_kilograms(), maximum));
        }
        match set.effort {
            Some(effort) => {
                self.sets_at_rpe_6 += u32::from(is_at_rpe_6(effort));
                self.effort_quarters += u64::from(effort.quarters());
            }
            None => self.sets_without_effort += 1,
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
                    (Some(_), Some(mass)) => {
                        self.bodyweight_tonnage.as_mut().into_iter().for_each(|sum| sum.add(mass, total));
                    }
                    (Some(_), None) => {
                        self.without_bodyweight += 1;
                        self.bodyweight_tonnage = None;
                    }
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
    let first = ask.since.or_else(|| Some(history.log.block(ask.block?)?.starts)).unwrap_or(NaiveDate::MIN);
    answer_with(history, ask, &mut Ratings::since(first, history, Equation::default()))
}

/// Answers with curves that other questions ask for too.
pub(super) fn answer_with(history: &History<'_>, ask: &Ask, ratings: &mut Ratings<'_, '_>) -> Answer {
    let log = history.log;
    let family_of = |lift| log.lift(lift).map(|lift| lift.family);
    let wanted = |done: &Done<'_>| {
        ask.lift.is_none_or(|lift| done.work.lift == lift)
            && ask.family.is_none_or(|family| family_of(done.work.lift) == Some(family))
            && ask.block.is_none_or(|block| done.session.block == Some(block))
            && is_within(done.session.date, ask.since, ask.until)
    };
    let mut rows: Vec<Row> = Vec::new();
    let mut places: HashMap<Key, usize> = HashMap::new();
    let mut counted: HashSet<(usize, *const Session)> = HashSet::new();
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
    rows.iter_mut().for_each(Row::finish);
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
    let mut row = Row { bodyweight_tonnage: Some(Tonnage::default()), ..Row::default() };
    match key {
        Key::None => {}
        Key::Week(id, week) => {
            row.block = history.log.block_name(*id);
            row.week = Some(*week);
        }
        Key::Block(id) => row.key = history.log.block_name(*id),
        Key::Lift(lift) => row.key = Some(history.log.lift_name(*lift).to_owned()),
        Key::Family(family) => row.key = Some(family.word().to_owned()),
        Key::Day(_) => row.key = session.day.as_deref().map(str::to_owned),
        Key::Month(year, month) => row.key = Some(format!("{year:04}-{month:02}")),
    }
    row
}
