//! What is advised for a peak, and how the week lies to it.

use super::heavy::{Build, Heavy};
use super::measure::Row;
use crate::science::statistics;
use crate::science::taper::{self, Advice, Fit};
use crate::training::CompetitionLift;

/// What advice is about. Changes are those from the mean of the weeks before; of several lifts, their mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// The change of tonnage, in percent.
    Volume,
    /// The change of the top load of the competition lifts that stay in, in percent.
    Intensity,
    /// The change of effort of the competition lifts that stay in, in points of RPE.
    Effort,
    /// The change of sets a session of the competition lifts that stay in, in sets.
    Sets,
    /// The change of reps a set of the competition lifts that stay in, in reps.
    Reps,
    /// The change of deadlift sets, in percent, against that of the other competition lift that is cut most.
    DeadliftSets,
    /// The change of sets a session of the other lifts that stay in, in sets.
    AccessorySets,
    /// Days from the last session to the test.
    LastSession,
    /// Days from the last heavy set of a lift to the test.
    LastHeavy(String),
}

impl About {
    /// In how fine steps it is judged: whole percents and days; tenths of sets, reps and points.
    fn step(&self) -> f64 {
        match self {
            About::Effort | About::Sets | About::Reps | About::AccessorySets => 0.1,
            _ => 1.0,
        }
    }
}

/// How a week lies to advice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// As advised, more cut or nearer, less cut or farther.
    Known(Fit),
    /// What is still to come may change it.
    Open,
    /// There is nothing to tell it by.
    Unknown,
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What it is about.
    pub about: About,
    /// What was found.
    pub found: Option<f64>,
    /// What is advised.
    pub advice: Advice,
    /// How the week lies to it.
    pub verdict: Verdict,
}

impl Check {
    /// `open` says which verdicts may still change.
    fn new(about: About, found: Option<f64>, advice: Advice, open: impl Fn(Fit) -> bool) -> Check {
        // The figure is judged as it is shown, or a cut of 60.4 % would read "60 %, more than 60 %".
        let steps = |value: f64| (value / about.step()).round();
        let shown = Advice { low: steps(advice.low), high: steps(advice.high), ..advice };
        let verdict = match found.map(|found| shown.fit(steps(found))) {
            None => Verdict::Unknown,
            Some(fit) if open(fit) => Verdict::Open,
            Some(fit) => Verdict::Known(fit),
        };
        Check { about, found, advice, verdict }
    }
}

/// The rows that advice is about.
pub(super) struct Rows<'r> {
    pub(super) all: &'r Row,
    /// Competition lifts.
    pub(super) contested: Vec<(CompetitionLift, &'r Row)>,
    /// All other lifts.
    pub(super) others: Vec<&'r Row>,
}

/// The days that advice is about.
#[derive(Clone, Copy, Debug)]
pub(super) struct Days {
    /// Of the week that are to come, before the test.
    pub(super) to_come: u32,
    /// From today to the test.
    pub(super) to_test: Option<i64>,
    /// From the last session to the test.
    pub(super) rest: Option<i64>,
}

/// The mean over the rows of work that stays in.
fn mean<'r>(rows: impl Iterator<Item = &'r Row>, pick: impl Fn(&Row) -> Option<f64>) -> Option<f64> {
    let staying = rows.filter(|row| row.before.sets > 0.0 && row.now.sets > 0.0);
    statistics::mean(&staying.filter_map(pick).collect::<Vec<f64>>())
}

/// The change of sets a session, where there was one to take off.
fn sets_off(row: &Row) -> Option<f64> {
    row.change.sets_a_session.filter(|_| row.before.sets_a_session >= Some(taper::SETS_NEEDED))
}

/// The change of reps a set, where there were two to take off.
fn reps_off(row: &Row) -> Option<f64> {
    row.change.reps_a_set.filter(|_| row.before.reps_a_set >= Some(taper::REPS_NEEDED))
}

/// What is advised for a week that leads to a test.
pub(super) fn checks(rows: &Rows<'_>, build: Option<&Build>, heavy: &[Heavy], days: Days) -> Vec<Check> {
    // Work that comes on top can only add to the volume; anything else may go either way.
    let unfinished = |_| days.to_come > 0;
    let may_grow = |fit| days.to_come > 0 && fit != Fit::Above;
    let contested = || rows.contested.iter().map(|(_, row)| *row);
    let volume =
        build.map_or(taper::VOLUME, |build| taper::volume_for(build.bodyweight.in_kilograms(), build.times_bodyweight));
    let mut checks = vec![Check::new(About::Volume, rows.all.change.tonnage, volume, may_grow)];
    if !rows.contested.is_empty() {
        let load = mean(contested(), |row| row.change.top_load);
        let effort = mean(contested(), |row| row.change.effort);
        checks.push(Check::new(About::Intensity, load, taper::INTENSITY, unfinished));
        checks.push(Check::new(About::Effort, effort, taper::EFFORT, unfinished));
    }
    for (about, found, advice) in [
        (About::Sets, mean(contested(), sets_off), taper::SETS),
        (About::Reps, mean(contested(), reps_off), taper::REPS),
        (About::AccessorySets, mean(rows.others.iter().copied(), sets_off), taper::ACCESSORY_SETS),
    ] {
        if found.is_some() {
            checks.push(Check::new(about, found, advice, unfinished));
        }
    }
    let (deadlift, others): (Vec<_>, Vec<_>) =
        rows.contested.iter().partition(|(discipline, _)| *discipline == CompetitionLift::Deadlift);
    let sets = |(_, row): &(CompetitionLift, &Row)| row.change.sets;
    let most = others.iter().filter_map(sets).min_by(f64::total_cmp);
    if let (Some(deadlift), Some(most)) = (deadlift.first().and_then(sets), most) {
        checks.push(Check::new(About::DeadliftSets, Some(deadlift), taper::deadlift_sets(most), unfinished));
    }
    if let Some(rest) = days.rest {
        // Another session can only come nearer to the test.
        let open = |fit| days.to_come > 0 && fit != Fit::Below;
        checks.push(Check::new(About::LastSession, Some(rest as f64), taper::LAST_SESSION_DAYS, open));
    }
    for heavy in heavy {
        let advice = match heavy.discipline {
            CompetitionLift::BenchPress => taper::HEAVY_BENCH_PRESS_DAYS,
            CompetitionLift::Squat | CompetitionLift::Deadlift => taper::HEAVY_SQUAT_OR_DEADLIFT_DAYS,
        };
        // A set that is far back is no verdict as long as another one may come in time.
        let in_time = days.to_test.is_some_and(|days| days > 0 && days as f64 >= advice.low);
        if let Some(found) = heavy.days {
            let open = |fit| fit == Fit::Above && in_time;
            checks.push(Check::new(About::LastHeavy(heavy.lift.clone()), Some(found as f64), advice, open));
        }
    }
    checks
}
