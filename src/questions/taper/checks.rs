//! What is advised for a peak, and how the week lies to it.

use super::heavy::{Build, Heavy};
use super::measure::Row;
use crate::science::statistics;
use crate::science::taper::{self, Advice, Fit};
use crate::training::{CompetitionLift, Figure, Hundredths, TaperBands, words};
use schemars::JsonSchema;
use serde::Serialize;

words! {
/// What advice is about. Changes are those from the mean of the weeks before; of several lifts, their mean.
pub enum About {
    /// The change of tonnage, in percent.
    Volume = "volume",
    /// The change of the top load of the competition lifts that stay in, in percent.
    Intensity = "top load",
    /// The change of effort of the competition lifts that stay in, in points of RPE.
    Effort = "effort",
    /// The change of sets a session of the competition lifts that stay in, in sets.
    Sets = "sets",
    /// The change of reps a set of the competition lifts that stay in, in reps.
    Reps = "reps",
    /// The change of deadlift sets, in percent, against that of the other competition lift that is cut most.
    DeadliftSets = "deadlift sets",
    /// The change of sets a session of the other lifts that stay in, in sets.
    AccessorySets = "accessory sets",
    /// Days from the last session to the test.
    LastSession = "last session",
    /// Days from the last heavy set of a lift to the test.
    LastHeavy = "last heavy set",
}
}

impl About {
    /// In how fine steps it is judged: whole percents and days; tenths of sets, reps and points.
    fn step(self) -> f64 {
        match self {
            About::Effort | About::Sets | About::Reps | About::AccessorySets => 0.1,
            _ => 1.0,
        }
    }

    fn unit(self) -> &'static str {
        match self {
            About::Volume | About::Intensity | About::DeadliftSets => "percent",
            About::Effort => "points",
            About::Sets | About::AccessorySets => "sets",
            About::Reps => "reps",
            About::LastSession | About::LastHeavy => "days",
        }
    }
}

words! {
    /// How a week lies to advice.
    pub enum Verdict {
        /// More is cut, or the day is nearer.
        Below = "below",
        /// As advised.
        Within = "within",
        /// Less is cut, or the day is farther.
        Above = "above",
        /// What is still to come may change it.
        Open = "open",
        /// There is nothing to tell it by.
        Unknown = "unknown",
    }
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Check {
    /// What it is about.
    pub about: About,
    /// The lift, of a last heavy set.
    pub lift: Option<String>,
    /// What the figures are in: percent, points, sets, reps or days.
    pub unit: &'static str,
    /// What was found.
    pub found: Option<Hundredths>,
    /// What is advised.
    #[serde(flatten)]
    pub advice: Advice,
    /// How the week lies to it.
    pub verdict: Verdict,
    /// Whether what was found rests on a plan.
    #[serde(rename = "planned")]
    pub is_planned: bool,
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
            Some(Fit::Below) => Verdict::Below,
            Some(Fit::Within) => Verdict::Within,
            Some(Fit::Above) => Verdict::Above,
        };
        let (unit, found) = (about.unit(), found.map(Figure));
        Check { about, lift: None, unit, found, advice, verdict, is_planned: false }
    }

    fn planned(self, is_planned: bool) -> Check {
        Check { is_planned, ..self }
    }

    fn open_where(self, is_open: bool) -> Check {
        if is_open { Check { verdict: Verdict::Open, ..self } } else { self }
    }

    /// Open where the most that the plans allow would be judged otherwise.
    pub(super) fn or_open(self, most: &[Check]) -> Check {
        let same = most.iter().find(|other| (other.about, &other.lift) == (self.about, &self.lift));
        let agrees = same.is_none_or(|other| other.verdict == self.verdict);
        let is_open = !agrees && self.is_planned;
        self.open_where(is_open)
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
    /// Of the week that are to come, before the test; none where the week is held to its plans.
    pub(super) to_come: u32,
    /// Whether the week is held to its plans.
    pub(super) is_planned: bool,
    /// From today to the test.
    pub(super) to_test: Option<i64>,
    /// From the last session to the test, and whether that session is planned.
    pub(super) rest: Option<(i64, bool)>,
}

impl Days {
    /// Whether nothing that is not planned can come before the test.
    fn are_over(self) -> bool {
        self.to_come == 0
    }
}

/// The mean over the rows of work that stays in.
fn mean<'r>(rows: impl Iterator<Item = &'r Row>, pick: impl Fn(&Row) -> Option<Hundredths>) -> Option<f64> {
    let staying = rows.filter(|row| row.before.sets.0 > 0.0 && row.now.sets.0 > 0.0);
    statistics::mean(&staying.filter_map(|row| Some(pick(row)?.0)).collect::<Vec<f64>>())
}

/// The change of sets a session, where there was one to take off.
fn sets_off(row: &Row) -> Option<Hundredths> {
    row.change.sets_a_session.filter(|_| row.before.sets_a_session >= Some(Figure(taper::SETS_NEEDED)))
}

/// The change of reps a set, where there were two to take off.
fn reps_off(row: &Row) -> Option<Hundredths> {
    row.change.reps_a_set.filter(|_| row.before.reps_a_set >= Some(Figure(taper::REPS_NEEDED)))
}

/// What is advised for a week that leads to a test.
pub(super) fn checks(
    rows: &Rows<'_>,
    set: &TaperBands,
    build: Option<&Build>,
    heavy: &[Heavy],
    days: Days,
) -> Vec<Check> {
    let unfinished = |_| !days.are_over();
    let contested = || rows.contested.iter().map(|(_, row)| *row);
    let on_contested = contested().any(Row::is_planned);
    let mut checks = vec![volume(
        rows,
        build.map_or(taper::volume(set), |build| taper::volume_for(set, build.bodyweight, build.times_bodyweight.0)),
        days,
    )];
    if !rows.contested.is_empty() {
        let load = mean(contested(), |row| row.change.top_load);
        let effort = mean(contested(), |row| row.change.effort);
        let check = Check::new(About::Intensity, load, taper::intensity(set), unfinished).planned(on_contested);
        checks.push(check.open_where(contested().any(Row::is_load_open)));
        checks.push(Check::new(About::Effort, effort, taper::effort(set), unfinished).planned(on_contested));
    }
    let on_others = rows.others.iter().any(|row| row.is_planned());
    for (about, found, advice, is_planned) in [
        (About::Sets, mean(contested(), sets_off), taper::sets(set), on_contested),
        (About::Reps, mean(contested(), reps_off), taper::reps(set), on_contested),
        (About::AccessorySets, mean(rows.others.iter().copied(), sets_off), taper::accessory_sets(set), on_others),
    ] {
        if found.is_some() {
            checks.push(Check::new(about, found, advice, unfinished).planned(is_planned));
        }
    }
    let (deadlift, others): (Vec<_>, Vec<_>) =
        rows.contested.iter().partition(|(discipline, _)| *discipline == CompetitionLift::Deadlift);
    let sets = |(_, row): &(CompetitionLift, &Row)| Some(row.change.sets?.0);
    let most = others.iter().filter_map(sets).min_by(f64::total_cmp);
    if let (Some(deadlift), Some(most)) = (deadlift.first().and_then(sets), most) {
        let check = Check::new(About::DeadliftSets, Some(deadlift), taper::deadlift_sets(most), unfinished);
        checks.push(check.planned(on_contested));
    }
    if let Some((rest, is_planned)) = days.rest {
        // Another session can only come nearer to the test.
        let open = |fit| !days.are_over() && fit != Fit::Below;
        let check = Check::new(About::LastSession, Some(rest as f64), taper::LAST_SESSION_DAYS, open);
        checks.push(check.planned(is_planned));
    }
    for heavy in heavy {
        let advice = match heavy.discipline {
            CompetitionLift::BenchPress => taper::HEAVY_BENCH_PRESS_DAYS,
            CompetitionLift::Squat | CompetitionLift::Deadlift => taper::HEAVY_SQUAT_OR_DEADLIFT_DAYS,
        };
        // A set that is far back is no verdict as long as another one may come in time.
        let in_time = days.to_test.is_some_and(|days| days > 0 && days as f64 >= advice.low);
        if let Some(found) = heavy.days {
            let open = |fit| fit == Fit::Above && in_time && !days.is_planned;
            let check = Check::new(About::LastHeavy, Some(found as f64), advice, open).planned(heavy.is_planned);
            checks.push(Check { lift: Some(heavy.lift.clone()), ..check });
        }
    }
    checks
}

/// The change of tonnage against a band. Work that comes on top can only add to it.
fn volume(rows: &Rows<'_>, band: Advice, days: Days) -> Check {
    let open = |fit| !days.are_over() && fit != Fit::Above;
    let check = Check::new(About::Volume, rows.all.change.tonnage.map(|change| change.0), band, open);
    check.planned(rows.all.is_planned()).open_where(rows.all.is_load_open())
}

/// What a deload is held against: a band for the volume, and nothing else.
pub(super) fn deload(rows: &Rows<'_>, set: &TaperBands, days: Days) -> Vec<Check> {
    vec![volume(rows, taper::deload_volume(set), days)]
}
