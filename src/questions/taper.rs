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

pub use crate::science::taper::{Advice, Fit};

use crate::history::{History, WeekKey};
use crate::science::taper;
use crate::training::{Block, BlockId, Family, LiftId, Session};
use checks::{Days, Rows};
use chrono::NaiveDate;
use gather::{Weeks, Worked};

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
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The block; nothing where there is none.
    pub block: Option<String>,
    /// The week; nothing where none is marked.
    pub week: Option<u32>,
    /// What kind of week it is.
    pub kind: Kind,
    /// Days of the week that are to come, without those from the test on.
    pub days_to_come: u32,
    /// The test or meet that the week leads to; a deload leads to none.
    pub test: Option<Test>,
    /// The week against those before.
    pub comparison: Result<Comparison, WhyNot>,
}

/// What kind of week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A peak week.
    Peak,
    /// A deload week.
    Deload,
    /// Neither is said.
    Unmarked,
}

/// A day to be at one's best.
#[derive(Clone, Debug, PartialEq, Eq)]
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
        /// Block and week of the last one that has work, in any block.
        last: Option<(String, u32)>,
    },
    /// The block has only so many weeks.
    NoSuchWeek(u32),
    /// No work in that week.
    NoWork,
    /// No loading week with work before it in the block.
    NothingBefore,
}

/// A week against those before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The loading weeks it is held against.
    pub against: Vec<u32>,
    /// All lifts together.
    pub all: Row,
    /// By family, in the order of the lift book.
    pub families: Vec<Row>,
    /// By lift, in order of their first work.
    pub lifts: Vec<Row>,
    /// Lifts of at least half of the weeks before that are not in this one.
    pub taken_out: Vec<String>,
    /// How strong the lifter is for their weight; nothing where that is not known.
    pub build: Option<Build>,
    /// The last heavy set of each competition lift before the test; nothing for a deload.
    pub heavy: Vec<Heavy>,
    /// What is advised, and how the week lies to it; nothing for a deload.
    pub checks: Vec<Check>,
    /// What to think of the advice.
    pub caution: &'static str,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let without = |why| Answer {
        block: None,
        week: None,
        kind: Kind::Unmarked,
        days_to_come: 0,
        test: None,
        comparison: Err(why),
    };
    let last = history.sessions().iter().rev().find(|session| session.block.is_some() && has_work(session));
    let id = ask.block.or(last.and_then(|session| session.block));
    let Some((id, block)) = id.and_then(|id| Some((id, history.log.block(id)?))) else {
        return without(WhyNot::NoBlock);
    };
    let name = Some(block.name.clone());
    let Some(week) = ask.week.or_else(|| marked(history, id, block)) else {
        return Answer { block: name, ..without(WhyNot::NoWeek { last: last_marked(history) }) };
    };
    let key = WeekKey { block: id, week };
    let kind = kind(history, block, key);
    let test = if kind == Kind::Deload { None } else { test(history, block, week) };
    let days_to_come = days_to_come(history.today, block, week, test.as_ref());
    let weeks = Weeks::of(history, key);
    let comparison = compare(history, block, &weeks, week).map(|comparison| match kind {
        Kind::Deload => comparison,
        Kind::Peak | Kind::Unmarked => {
            let date = test.as_ref().map(|test| test.date);
            advised(comparison, history, &weeks, block.week_ends(week), date, days_to_come)
        }
    });
    Answer { block: name, week: Some(week), kind, days_to_come, test, comparison }
}

fn has_work(session: &Session) -> bool {
    session.works.iter().any(|work| work.has_work())
}

/// The last peak or deload week of a block that has training; where none has, the last there is.
fn marked(history: &History<'_>, id: BlockId, block: &Block) -> Option<u32> {
    let weeks = history.weeks();
    let by_sessions = weeks.iter().filter(|week| week.key.block == id && week.light).map(|week| week.key.week);
    let marked = block.peak.iter().chain(&block.deload).copied().chain(by_sessions);
    marked.max_by_key(|week| (!gather::week(history, WeekKey { block: id, week: *week }).is_empty(), *week))
}

/// The last peak or deload week of any block that has work.
fn last_marked(history: &History<'_>) -> Option<(String, u32)> {
    let weeks = history.weeks();
    let last = weeks.iter().rev().find(|week| week.light && !gather::week(history, week.key).is_empty())?;
    Some((history.log.block(last.key.block)?.name.clone(), last.key.week))
}

fn kind(history: &History<'_>, block: &Block, key: WeekKey) -> Kind {
    let week = history.week(key);
    let sessions: Vec<&&Session> = week.sessions.iter().filter(|session| has_work(session)).collect();
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
    let mut sessions = history.log.sessions.iter().filter(|session| (first..=last).contains(&session.date));
    let session = sessions.find(|session| !gather::is_training(session))?;
    Some(Test { date: session.date, meet: session.meet.as_deref().map(str::to_owned) })
}

fn days_to_come(today: NaiveDate, block: &Block, week: u32, test: Option<&Test>) -> u32 {
    let ends = block.week_ends(week);
    let last = test.and_then(|test| test.date.pred_opt()).map_or(ends, |eve| ends.min(eve));
    u32::try_from((last - today).num_days().clamp(0, 7)).unwrap_or(0)
}

/// The rows, with nothing held against them yet.
fn compare(history: &History<'_>, block: &Block, weeks: &Weeks<'_>, week: u32) -> Result<Comparison, WhyNot> {
    if weeks.now.is_empty() {
        let count = block.ends.map(|ends| block.week_of(ends)).filter(|count| *count < week);
        return Err(count.map_or(WhyNot::NoWork, WhyNot::NoSuchWeek));
    }
    if weeks.before.is_empty() {
        return Err(WhyNot::NothingBefore);
    }
    let family_of = |worked: &Worked<'_>| history.log.lift(worked.lift).map(|lift| lift.family);
    let families = Family::ALL.map(|family| Row::of(family.word(), weeks, |worked| family_of(worked) == Some(family)));
    let ids = weeks.lifts();
    Ok(Comparison {
        against: weeks.before.iter().map(|(week, _)| *week).collect(),
        all: Row::of("all", weeks, |_| true),
        families: families.into_iter().filter(|row| row.before.sets > 0.0 || row.now.sets > 0.0).collect(),
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
        caution: taper::DELOAD,
    })
}

/// The comparison with what is advised for a week that leads to a test.
fn advised(
    comparison: Comparison,
    history: &History<'_>,
    weeks: &Weeks<'_>,
    ends: NaiveDate,
    test: Option<NaiveDate>,
    to_come: u32,
) -> Comparison {
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
        to_come,
        to_test: test.map(|test| (test - history.today).num_days()),
        rest: test.and_then(|test| days_of_rest(history, test)),
    };
    let until = test.or(ends.succ_opt()).unwrap_or(ends);
    let last = weeks.now.last().map(|worked| worked.session);
    let build = last.and_then(|session| heavy::build(history, &contested, session));
    let heavy: Vec<Heavy> = contested.iter().map(|lift| lift.last_heavy(history, until, test)).collect();
    let checks = checks::checks(&rows, build.as_ref(), &heavy, days);
    Comparison { build, heavy, checks, caution: taper::CAUTION, ..comparison }
}

/// Days from the last training before a day to that day.
fn days_of_rest(history: &History<'_>, date: NaiveDate) -> Option<i64> {
    let before = history.sessions().iter().rev().filter(|session| session.date < date);
    let last = before.filter(|session| gather::is_training(session)).find(|session| has_work(session))?;
    Some((date - last.date).num_days())
}
