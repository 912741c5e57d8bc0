//! Bare loads that jump by the factor of kilograms to pounds from a day on: the units of the settings hold for a whole
//! history, and who changes them reads all that went before in the other unit.

use crate::problems::ProblemKind as K;
use crate::source::PageId;
use crate::training::{Load, Log};
use chrono::NaiveDate;

/// A pound is 0.45 kg: so many times a load went up or down is taken for a change of unit, and not for training (the
/// factor: NIST SP 811; the room round it: common practice, no source).
const LEAST: f64 = 1.9;
const MOST: f64 = 2.6;
/// So many days of a lift on either side are held against each other.
const DAYS: usize = 3;
/// Two lifts in three that were trained on both sides, or more, and two at the least.
const SHARE: (u32, u32) = (2, 3);
const FEWEST: u32 = 2;

/// Where the loads jump.
pub(crate) struct Jump {
    /// From when on.
    pub(crate) date: NaiveDate,
    pub(crate) page: PageId,
    /// The line of the first set after it, and which group of that line it is.
    pub(crate) line: u32,
    pub(crate) nth: usize,
    pub(crate) kind: K,
}

/// The heaviest bare load of a day, in thousandths, with where it stands.
#[derive(Clone, Copy)]
struct Day {
    date: NaiveDate,
    load: i64,
    at: (PageId, u32, usize),
}

/// The first day from which on nearly all bare loads are in another unit, as it seems.
pub(crate) fn find(log: &Log) -> Option<Jump> {
    let lifts = bare_days(log);
    let mut dates: Vec<NaiveDate> = lifts.iter().flat_map(|days| days.windows(2).filter_map(leap)).collect();
    dates.sort_unstable();
    dates.dedup();
    dates.into_iter().find_map(|date| at(&lifts, date))
}

/// Of each lift, its days with loads that have no unit.
fn bare_days(log: &Log) -> Vec<Vec<Day>> {
    let mut lifts: Vec<Vec<Day>> = vec![Vec::new(); log.lifts.len()];
    for session in &log.sessions {
        for work in &session.works {
            let Some(days) = lifts.get_mut(work.lift.0 as usize) else { continue };
            let (mut line, mut nth) = (0, 0);
            for group in &work.groups {
                nth = if group.line == line { nth + 1 } else { 0 };
                line = group.line;
                let Load::Plain { thousandths: load, unit_written: false, .. } = group.load else { continue };
                let day = Day { date: session.date, load, at: (group.page, line, nth) };
                match days.last_mut().filter(|last| last.date == day.date) {
                    Some(last) => last.load = last.load.max(load),
                    None => days.push(day),
                }
            }
        }
    }
    lifts
}

/// The later day of two, where the load leaps between them.
fn leap(two: &[Day]) -> Option<NaiveDate> {
    match two {
        [one, other] => factor(one.load, other.load).map(|_| other.date),
        _ => None,
    }
}

/// How many times one load is the other, as a power of which the sign says which way; `None` where that is no unit's.
fn factor(before: i64, after: i64) -> Option<f64> {
    let times = after as f64 / before as f64;
    let size = if times < 1.0 { 1.0 / times } else { times };
    (LEAST..=MOST).contains(&size).then_some(times)
}

fn at(lifts: &[Vec<Day>], date: NaiveDate) -> Option<Jump> {
    let mut times = Vec::new();
    let mut of = 0;
    let mut first: Option<Day> = None;
    for days in lifts {
        let (before, after) = days.split_at(days.partition_point(|day| day.date < date));
        let near = before.get(before.len().saturating_sub(DAYS)..).unwrap_or_default();
        let Some((old, new)) = middle(near).zip(middle(after.get(..DAYS).unwrap_or(after))) else { continue };
        of += 1;
        times.extend(factor(old, new));
        first = first.into_iter().chain(after.first().copied()).min_by_key(|day| (day.date, day.at.1));
    }
    let (up, down): (Vec<f64>, Vec<f64>) = times.iter().partition(|times| **times > 1.0);
    let is_up = up.len() >= down.len();
    let jumped = if is_up { &up } else { &down };
    let lifts = u32::try_from(jumped.len()).unwrap_or(u32::MAX);
    if lifts < FEWEST || lifts * SHARE.1 < of * SHARE.0 {
        return None;
    }
    let mean = jumped.iter().map(|times| times.ln()).sum::<f64>() / f64::from(lifts);
    let by = format!("{:.1} times as {}", mean.abs().exp(), if is_up { "heavy" } else { "light" });
    let (page, line, nth) = first?.at;
    Some(Jump { date, page, line, nth, kind: K::UnitsJump { date: date.to_string(), by, lifts, of } })
}

/// The load in the middle of those of several days.
fn middle(days: &[Day]) -> Option<i64> {
    let mut loads: Vec<i64> = days.iter().map(|day| day.load).collect();
    loads.sort_unstable();
    loads.get(loads.len() / 2).copied()
}
