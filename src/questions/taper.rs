//! `taper`: what a peak or deload week cuts, against the weeks before it and against what is advised.
//!
//! - `gather.rs`: which sets of a week count, and which weeks it is held against
//! - `measure.rs`: what a week comes to, and the change
//! - `heavy.rs`: the competition lifts and their last heavy sets
//! - `checks.rs`: what is advised, and how the week lies to it

mod checks;
mod gather;
mod heavy;
mod measure;

pub use checks::{About, Check, Verdict};
pub use heavy::{Build, Heavy};
pub use measure::{Change, Measure, Row};

pub use crate::science::taper::{Advice, Basis};

use crate::history::{History, WeekKey};
use crate::science::{statistics, taper};
use crate::training::{Block, BlockId, Family, LiftId, Session, Status, words};
use checks::{Days, Rows};
use chrono::NaiveDate;
use gather::{End, Weeks, Worked, has_work};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// A test so many days after the week is still the one that it leads to.
const DAYS_TO_TEST: u64 = 14;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The block, in place of the one that holds the last work.
    pub block: Option<BlockId>,
    /// The week of it, in place of its last peak or deload week.
    pub week: Option<u32>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The block; nothing where there is none.
    pub block: Option<String>,
    /// The week; nothing where none is marked.
    pub week: Option<u32>,
    /// What kind of week it is.
    pub kind: Kind,
    /// Days of the week that are to come, without those from the test on.
    pub days_to_come: u32,
    /// Whether the week is held to its plans: what is planned and not done yet counts, and days to come with nothing
    /// planned count as rest.
    pub as_planned: bool,
    /// The test or meet that the week leads to; a deload leads to none.
    pub test: Option<Test>,
    /// The week against those before; nothing in it where something is missing.
    #[serde(flatten, serialize_with = "or_nothing")]
    #[schemars(with = "Comparison")]
    pub comparison: Result<Comparison, WhyNot>,
    /// What is missing to compare; null where nothing is.
    pub missing: Option<Missing>,
}

words! {
    /// What kind of week.
    pub enum Kind {
        /// A peak week.
        Peak = "peak",
        /// A deload week.
        Deload = "deload",
        /// Neither is said.
        Unmarked = "unmarked",
    }
}

/// A day to be at one's best.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Test {
    /// The day.
    pub date: NaiveDate,
    /// The meet's name; nothing for a test day.
    pub meet: Option<String>,
}

/// Why there is nothing to compare.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// No work inside a block.
    NoBlock,
    /// The block has no peak or deload week.
    NoWeek {
        /// The block's name.
        block: String,
        /// Block and week of the last one that has work, in any block.
        last: Option<(String, u32)>,
    },
    /// There is nothing to say of a week.
    Week {
        /// The block's name.
        block: String,
        /// Which week of it.
        week: u32,
        /// Why.
        why: NotThatWeek,
    },
}

/// Why there is nothing to say of a week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotThatWeek {
    /// No work in it.
    NoWork,
    /// No loading week with work before it in the block.
    NothingBefore,
}

words! {
    /// What is missing to compare.
    pub enum Missing {
        /// A block with work.
        Block = "block",
        /// A peak or deload week.
        Week = "week",
        /// Work in it.
        Work = "work",
        /// Loading weeks before it.
        WeeksBefore = "weeks before",
    }
}

impl WhyNot {
    fn missing(&self) -> Missing {
        match self {
            WhyNot::NoBlock => Missing::Block,
            WhyNot::NoWeek { .. } => Missing::Week,
            WhyNot::Week { why: NotThatWeek::NoWork, .. } => Missing::Work,
            WhyNot::Week { why: NotThatWeek::NothingBefore, .. } => Missing::WeeksBefore,
        }
    }
}

fn or_nothing<S: Serializer>(comparison: &Result<Comparison, WhyNot>, serializer: S) -> Result<S::Ok, S::Error> {
    match comparison {
        Ok(comparison) => comparison.serialize(serializer),
        Err(_) => Comparison::default().serialize(serializer),
    }
}

/// A week against those before it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Comparison {
    /// The loading weeks it is held against.
    pub against: Vec<u32>,
    /// All lifts together.
    #[serde(serialize_with = "Row::or_null")]
    #[schemars(with = "Option<Row>")]
    pub all: Row,
    /// By family, in the order of the lift book.
    pub families: Vec<Row>,
    /// By lift, in order of their first work.
    pub lifts: Vec<Row>,
    /// Lifts of at least half of the weeks before that are not in this one.
    pub taken_out: Vec<String>,
    /// How strong the lifter is for their weight; nothing where that is not known.
    #[serde(rename = "strongest")]
    pub build: Option<Build>,
    /// The last heavy set of each competition lift before the test; nothing for a deload.
    pub heavy: Vec<Heavy>,
    /// What is advised, and how the week lies to it; for a deload the volume alone.
    pub checks: Vec<Check>,
    /// What to think of the advice.
    pub caution: Option<&'static str>,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let without = |why| Answer {
        block: None,
        week: None,
        kind: Kind::Unmarked,
        days_to_come: 0,
        as_planned: false,
        test: None,
        missing: Some(WhyNot::missing(&why)),
        comparison: Err(why),
    };
    let id = ask.block.or_else(|| history.block_of_last_work());
    let Some((id, block)) = id.and_then(|id| Some((id, history.log.block(id)?))) else {
        return without(WhyNot::NoBlock);
    };
    let name = block.name.clone();
    let Some(week) = ask.week.or_else(|| marked(history, id, block)) else {
        let why = WhyNot::NoWeek { block: name.clone(), last: last_marked(history) };
        return Answer { block: Some(name), ..without(why) };
    };
    let key = WeekKey { block: id, week };
    let kind = kind(history, block, key);
    let test = if kind == Kind::Deload { None } else { test(history, block, week) };
    let days_to_come = days_to_come(history.today, block, week, test.as_ref());
    let weeks = Weeks::of(history, key, End::Least);
    let as_planned =
        if days_to_come > 0 { is_held_to_plans(history, key, &weeks) } else { is_planned_ahead(history, key, 0) };
    let view = View {
        history,
        kind,
        ends: block.week_ends(week),
        test: test.as_ref().map(|test| test.date),
        to_come: if as_planned { 0 } else { days_to_come },
        as_planned,
    };
    let comparison = compare(history, &weeks).map(|least| {
        let least = view.advised(least, &weeks);
        if !least.all.is_planned() {
            return least;
        }
        let weeks = Weeks::of(history, key, End::Most);
        let Ok(most) = compare(history, &weeks) else { return least };
        let most = view.advised(most, &weeks).checks;
        Comparison { checks: least.checks.into_iter().map(|check| check.or_open(&most)).collect(), ..least }
    });
    let comparison = comparison.map_err(|why| WhyNot::Week { block: name.clone(), week, why });
    let missing = comparison.as_ref().err().map(WhyNot::missing);
    Answer { block: Some(name), week: Some(week), kind, days_to_come, as_planned, test, comparison, missing }
}

/// Whether something of a week is planned, and not done yet, for so many days from today or later.
fn is_planned_ahead(history: &History<'_>, key: WeekKey, days: i64) -> bool {
    let mut ahead = gather::sessions(history, key).filter(|one| (one.date - history.today).num_days() >= days);
    ahead.any(|session| gather::is_planned(history, session))
}

/// Whether a week with days to come is held to its plans: something is planned for a day to come, or all of its sessions
/// were planned, nothing of them was missed, and they are half as many as usual or more. A plan that is written from day
/// to day is none for the week, and what was missed may be made up for.
fn is_held_to_plans(history: &History<'_>, key: WeekKey, weeks: &Weeks<'_>) -> bool {
    if is_planned_ahead(history, key, 1) {
        return true;
    }
    let missed = |session: &Session| {
        let undone = session.works.iter().filter(|work| work.status == Status::Nothing && work.plan().is_some());
        session.date < history.today && undone.count() > 0
    };
    if gather::sessions(history, key).any(missed) {
        return false;
    }
    let sessions = sessions_of(history, key);
    let before = statistics::mean(&weeks.before.iter().map(|(_, work)| count(work)).collect::<Vec<f64>>());
    let is_planned = |session: &&Session| session.works.iter().any(|work| work.plan().is_some());
    sessions.iter().all(is_planned) && sessions.len() as f64 * 2.0 >= before.unwrap_or(0.0) && !sessions.is_empty()
}

/// How many sessions some work was, or is to be, done in.
fn count(work: &[Worked<'_>]) -> f64 {
    work.chunk_by(|one, other| std::ptr::eq(one.session, other.session)).count() as f64
}

/// The weeks of a block that are peak weeks, up to now or planned.
pub(crate) fn peak_weeks(history: &History<'_>, id: BlockId) -> Vec<u32> {
    let Some(block) = history.log.block(id) else { return Vec::new() };
    let weeks = gather::weeks(history, id).into_iter();
    weeks.filter(|key| kind(history, block, *key) == Kind::Peak).map(|key| key.week).collect()
}

/// The training sessions of a week that its sums come from: those with work up to today, or with something planned.
pub(crate) fn sessions_of<'a>(history: &History<'a>, key: WeekKey) -> Vec<&'a Session> {
    let counted = |session: &&Session| has_work(history, session) || gather::is_planned(history, session);
    gather::sessions(history, key).filter(counted).collect()
}

/// The first peak or deload week of a block that is not over and has training or a plan; else the last that has; where
/// none has, the last there is.
fn marked(history: &History<'_>, id: BlockId, block: &Block) -> Option<u32> {
    let by_sessions = gather::weeks(history, id).into_iter().filter(|key| gather::is_light(history, *key));
    let marked = block.peak.iter().chain(&block.deload).copied().chain(by_sessions.map(|key| key.week));
    let marked: std::collections::BTreeSet<u32> = marked.collect();
    let has_sets = |week: &u32| !gather::week(history, WeekKey { block: id, week: *week }, End::Least).is_empty();
    let filled = || marked.iter().copied().filter(has_sets);
    let next = filled().find(|week| block.week_ends(*week) >= history.today);
    next.or_else(|| filled().next_back()).or_else(|| marked.last().copied())
}

/// The last peak or deload week of any block that has work.
fn last_marked(history: &History<'_>) -> Option<(String, u32)> {
    let has_sets = |key: WeekKey| !gather::week(history, key, End::Least).is_empty();
    let last = history.weeks().rev().find(|week| week.light && has_sets(week.key))?;
    Some((history.log.block(last.key.block)?.name.clone(), last.key.week))
}

fn kind(history: &History<'_>, block: &Block, key: WeekKey) -> Kind {
    let week = history.week(key);
    let mut sessions: Vec<&Session> =
        week.sessions.iter().copied().filter(|session| has_work(history, session)).collect();
    if sessions.is_empty() {
        sessions = sessions_of(history, key);
    }
    let all = |is: fn(&Session) -> bool| !sessions.is_empty() && sessions.iter().all(|session| is(session));
    if block.peak.contains(&key.week) || (all(|session| session.peak) && !block.deload.contains(&key.week)) {
        Kind::Peak
    } else if block.deload.contains(&key.week) || all(|session| session.deload) {
        Kind::Deload
    } else {
        Kind::Unmarked
    }
}

/// The first meet or test day from the first day of the week on, up to two weeks after its last.
fn test(history: &History<'_>, block: &Block, week: u32) -> Option<Test> {
    let first = block.starts.checked_add_days(chrono::Days::new(u64::from(week.saturating_sub(1)) * 7))?;
    let last = first.checked_add_days(chrono::Days::new(6 + DAYS_TO_TEST))?;
    let session = history.tests().find(|session| (first..=last).contains(&session.date))?;
    Some(Test { date: session.date, meet: session.meet.as_deref().map(str::to_owned) })
}

fn days_to_come(today: NaiveDate, block: &Block, week: u32, test: Option<&Test>) -> u32 {
    let ends = block.week_ends(week);
    let last = test.and_then(|test| test.date.pred_opt()).map_or(ends, |eve| ends.min(eve));
    u32::try_from((last - today).num_days().clamp(0, 7)).unwrap_or(0)
}

/// The rows, with nothing held against them yet.
fn compare(history: &History<'_>, weeks: &Weeks<'_>) -> Result<Comparison, NotThatWeek> {
    if weeks.now.is_empty() {
        return Err(NotThatWeek::NoWork);
    }
    if weeks.before.is_empty() {
        return Err(NotThatWeek::NothingBefore);
    }
    let family_of = |worked: &Worked<'_>| history.log.lift(worked.lift).map(|lift| lift.family);
    let families = Family::ALL.map(|family| Row::of(family.word(), weeks, |worked| family_of(worked) == Some(family)));
    let ids = weeks.lifts();
    Ok(Comparison {
        against: weeks.before.iter().map(|(week, _)| *week).collect(),
        all: Row::of("all", weeks, |_| true),
        families: families.into_iter().filter(|row| row.before.sets.0 > 0.0 || row.now.sets.0 > 0.0).collect(),
        lifts: ids
            .iter()
            .map(|lift| Row::of(history.log.lift_name(*lift), weeks, |worked| worked.lift == *lift))
            .collect(),
        taken_out: ids
            .iter()
            .filter(|lift| weeks.is_taken_out(**lift))
            .map(|lift| history.log.lift_name(*lift).to_owned())
            .collect(),
        build: None,
        heavy: Vec::new(),
        checks: Vec::new(),
        caution: Some(taper::DELOAD),
    })
}

/// What a comparison is looked at with.
struct View<'v, 'a> {
    history: &'v History<'a>,
    kind: Kind,
    /// The last day of the week.
    ends: NaiveDate,
    test: Option<NaiveDate>,
    /// Days that may still change what is found.
    to_come: u32,
    as_planned: bool,
}

impl View<'_, '_> {
    /// The comparison with what is advised: for a deload a band for the volume, for any other week what is advised
    /// before a test.
    fn advised(&self, comparison: Comparison, weeks: &Weeks<'_>) -> Comparison {
        let (history, test) = (self.history, self.test);
        let contested = heavy::contested(history, weeks);
        let discipline = |row: &Row| {
            let named = |lift: LiftId| history.log.lift_name(lift) == row.name;
            contested.iter().find(|contested| named(contested.lift)).map(|contested| contested.discipline)
        };
        let rows = Rows {
            all: &comparison.all,
            contested: comparison.lifts.iter().filter_map(|row| Some((discipline(row)?, row))).collect(),
            others: comparison.lifts.iter().filter(|row| discipline(row).is_none()).collect(),
        };
        let days = Days {
            to_come: self.to_come,
            is_planned: self.as_planned,
            to_test: test.map(|test| (test - history.today).num_days()),
            rest: test.and_then(|test| days_of_rest(history, test)),
        };
        let set = &history.log.taper;
        if self.kind == Kind::Deload {
            let checks = checks::deload(&rows, set, days);
            return Comparison { checks, ..comparison };
        }
        let until = test.or(self.ends.succ_opt()).unwrap_or(self.ends);
        let last = weeks.now.last().map(|worked| worked.session);
        let build = last.and_then(|session| heavy::build(history, &contested, session));
        let heavy: Vec<Heavy> = contested.iter().map(|lift| lift.last_heavy(history, until, test)).collect();
        let checks = checks::checks(&rows, set, build.as_ref(), &heavy, days);
        Comparison { build, heavy, checks, caution: Some(taper::CAUTION), ..comparison }
    }
}

/// Days from the last training before a day to that day, and whether that training is planned and not done yet.
fn days_of_rest(history: &History<'_>, date: NaiveDate) -> Option<(i64, bool)> {
    let before = history.log.sessions.iter().rev().filter(|session| session.date < date);
    let mut training = before.filter(|session| gather::is_training(session));
    let last = training.find(|session| has_work(history, session) || gather::is_planned(history, session))?;
    Some(((date - last.date).num_days(), !has_work(history, last)))
}
