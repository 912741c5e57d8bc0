//! `room`: the weekly steps that still fit under an effort cap.

use crate::analysis::compare::pairing::Visit;
use crate::analysis::rack::Rack;
use crate::analysis::strength::caution::CAUTION;
use crate::analysis::strength::evidence::{Evidence, Rated, Ratings, own_weight};
pub use crate::analysis::strength::rpe_ahead::Rpe;
use crate::analysis::strength::time_away::TimeAway;
use crate::history::{Done, History, Mark, Marked, WeekKey};
use crate::science::statistics::theil_sen;
use crate::science::strength::Strength;
use crate::science::{Equation, effort_scale};
use crate::training::{Block, BlockId, Effort, Figure, Hundredths, LiftId, Load, Mass, Tolerance, Unit, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// A step is taken every third week at the least.
const MOST_WEEKS_A_STEP: u32 = 3;

/// The trend is that of so many weeks up to the set that is started from: about four blocks.
const TREND_WEEKS: i64 = 16;

/// Fewer days than this show no trend.
const FEWEST_DAYS: usize = 6;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// The day to start from, in place of the latest of the block.
    pub from: Option<NaiveDate>,
    /// The effort that the last week shall not go over.
    pub cap: Effort,
}

/// Where nobody says another one.
pub const CAP: Effort = Effort::NINE;

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// The block's name.
    pub block: Option<String>,
    /// The set that is started from.
    pub from: Option<Mark>,
    /// The effort that the last week shall not go over.
    pub cap: Effort,
    /// The unit that the lifter writes this lift's loads in.
    #[serde(skip)]
    pub unit: Unit,
    /// How many dumbbells or kettlebells a load is, where it is written as several.
    #[serde(skip)]
    pub pieces: Option<u32>,
    /// How long ago the lift was trained, where that is three weeks or more and no day is asked for.
    pub away: Option<TimeAway>,
    /// The loading weeks left, at the largest step, with strength unchanged.
    pub weeks: Vec<WeekAhead>,
    /// The largest step, in whole steps of the gym, that keeps the last week at or under the cap. Zero where
    /// not even the same load does; null where there is a reason why not.
    #[serde(rename = "largest_step_kg")]
    pub largest_step: Option<Mass>,
    /// Every so many weeks it is taken: 1, or where a whole step each week is too much 2 or 3.
    pub step_every_weeks: Option<u32>,
    /// The weekly step before it is rounded down; negative where the load would have to fall.
    #[serde(rename = "exact_step_kg")]
    pub exact_step: Option<Mass>,
    /// The same with the lifter's own trend, where the journal shows one.
    pub with_trend: Option<WithTrend>,
    /// What reaching the last block's weeks would take.
    pub targets: Vec<Target>,
    /// Weeks of the block that are left out: deload and peak weeks still to come.
    pub light_weeks: Vec<u32>,
    /// What there are no weeks for want of.
    #[serde(rename = "missing")]
    pub why_not: Option<WhyNot>,
    /// The caution.
    pub caution: &'static str,
}

/// A week to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WeekAhead {
    /// The week of the block.
    pub week: u32,
    /// The load.
    #[serde(rename = "kg")]
    pub load: Mass,
    /// How hard it will be.
    #[serde(flatten)]
    pub effort: EffortAhead,
}

/// An effort to be expected, with its 80 % interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct EffortAhead {
    /// One chance in ten for less.
    #[serde(rename = "rpe_low")]
    pub low: Rpe,
    /// The middle.
    #[serde(rename = "rpe_expected")]
    pub middle: Rpe,
    /// One chance in ten for more.
    #[serde(rename = "rpe_high")]
    pub high: Rpe,
    /// Whether the reps would not all be made.
    pub missed: bool,
}

/// The weeks ahead with strength moving as the lifter's estimates of the last weeks did.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WithTrend {
    /// Percent in a week.
    #[serde(rename = "percent_per_week")]
    pub percent: Hundredths,
    /// The lower end of its 95 % interval.
    pub low: Hundredths,
    /// The upper end.
    pub high: Hundredths,
    /// On how many days it rests.
    pub days: usize,
    /// The largest step, as without a trend.
    #[serde(rename = "largest_step_kg")]
    pub largest_step: Mass,
    /// Every so many weeks it is taken.
    pub step_every_weeks: u32,
    /// The weeks with that step.
    pub weeks: Vec<WeekAhead>,
}

/// What reaching a set of the last block would take.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Target {
    /// The set.
    pub mark: Mark,
    /// The week of this block in which it would be reached.
    pub week: u32,
    /// The weekly step from the set that is started from; nothing for this week's own.
    #[serde(rename = "step_kg")]
    pub step: Option<Mass>,
    /// How hard it would be.
    #[serde(flatten)]
    pub effort: EffortAhead,
}

words! {
    /// Why no weeks can be told.
    pub enum WhyNot {
        /// No work on the lift in the block that holds today, or none at all.
        NoMark = "mark",
        /// No clean set with load, reps and an effort of RPE 5 or more that the equation reaches.
        NoEffort = "effort",
        /// The set stands in no block.
        NoBlock = "block",
        /// The block has no end.
        NoEnd = "weeks of the block",
        /// No loading week is left.
        NoWeeksLeft = "weeks left",
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let mut answer = Answer {
        lift: history.log.lift_name(ask.lift).to_owned(),
        block: None,
        from: None,
        cap: ask.cap,
        unit: Unit::Kg,
        pieces: None,
        away: TimeAway::of(history, ask.lift).filter(|_| ask.from.is_none()),
        weeks: Vec::new(),
        largest_step: None,
        step_every_weeks: None,
        exact_step: None,
        with_trend: None,
        targets: Vec::new(),
        light_weeks: Vec::new(),
        why_not: None,
        caution: CAUTION,
    };
    answer.why_not = fill(history, ask, &mut answer).err();
    answer
}

/// Where the least steps lead, with strength as it is.
pub(super) struct Ahead<'a> {
    /// The set that is started from.
    pub(super) from: Rated<'a>,
    /// The last loading week of its block.
    pub(super) week: u32,
    /// The load of that week.
    pub(super) load: Mass,
    /// How hard it will be.
    pub(super) effort: Rpe,
}

/// Where the gym's smallest step every third week, or once, leads from a set; `None` without an effort, an end of its block, or a loading
/// week to come in it.
pub(super) fn at_least_steps<'a>(history: &History<'a>, evidence: &Evidence<'a>, from: Rated<'a>) -> Option<Ahead<'a>> {
    let session = from.mark.done.session;
    let (block, week) = (history.log.block(session.block?)?, session.week?);
    let strength = evidence.strength_on(session.date)?;
    let way = Way { strength, start: &from, reps: from.mark.amount.reps()?, week, step: history.log.gear.step };
    let loading: Vec<u32> = (week + 1..=block.week_of(block.ends?)).filter(|week| !is_light(block, *week)).collect();
    let last = loading.last().copied()?;
    let added = way.step.times((u32::try_from(loading.len()).ok()? / MOST_WEEKS_A_STEP).max(1));
    let effort = way.effort(from.set.load + added.in_kilograms(), last, way.reps, Trend::UNCHANGED)?.middle;
    let load = way.written(from.set.load)? + added;
    Some(Ahead { from, week: last, load, effort })
}

/// The load that one week of a block has room for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowed {
    /// The load, and how hard it will be.
    pub ahead: WeekAhead,
    /// For so many reps.
    pub reps: u32,
    /// The unit that the lifter writes this lift's loads in.
    pub unit: Unit,
}

/// The same as [`answer`] has for a week, by what the lift's last two years say; nothing where it has none, and where the load
/// is more than a bar with plates.
pub fn allowed(history: &History<'_>, lift: LiftId, key: WeekKey) -> Option<Allowed> {
    let evidence = Ratings::of_late(history, Equation::default()).evidence(lift);
    let start = start(history, &Ask { lift, from: None, cap: CAP }, &evidence).ok()?;
    let Weeks { id, way, loading, .. } = weeks(history, None, &evidence, &start).ok()?;
    let is_plain = matches!(start.mark.group.load, Load::Plain { .. });
    let course = way.course(&loading, CAP, Trend::UNCHANGED).filter(|_| is_plain && id == key.block)?;
    let ahead = course.weeks.into_iter().find(|ahead| ahead.week == key.week)?;
    Some(Allowed { ahead, reps: way.reps, unit: evidence.unit() })
}

/// The way from a set through the weeks that are left of its block.
struct Weeks<'a> {
    id: BlockId,
    way: Way<'a>,
    loading: Vec<u32>,
    light: Vec<u32>,
}

fn weeks<'s>(
    history: &History<'_>,
    from: Option<NaiveDate>,
    evidence: &Evidence<'_>,
    start: &'s Rated<'_>,
) -> Result<Weeks<'s>, WhyNot> {
    let session = start.mark.done.session;
    let (id, week) = session.block.zip(session.week).ok_or(WhyNot::NoBlock)?;
    let block = history.log.block(id).ok_or(WhyNot::NoBlock)?;
    let lift = start.mark.done.work.lift;
    // After weeks without the lift it is strength as it is now that counts.
    let away = from.map_or_else(|| TimeAway::of(history, lift), |_| None);
    let strength = evidence.strength_on(away.map_or(session.date, |_| history.today)).ok_or(WhyNot::NoEffort)?;
    let reps = start.mark.amount.reps().ok_or(WhyNot::NoEffort)?;
    let rack = Rack::new(history.gear());
    let (group, lift) = (start.mark.group, history.log.lift(lift));
    let step = rack.step(rack.hangs_on(&group.load, group.per_side, lift), &group.load, lift);
    let way = Way { strength, start, reps, week, step };
    let ends = block.ends.ok_or(WhyNot::NoEnd)?;
    // From a day that is asked for all weeks after it are told, else those that are not over.
    let first = match from {
        None if history.today > ends => return Err(WhyNot::NoWeeksLeft),
        None => (week + 1).max(block.week_of(history.today)),
        Some(_) => week + 1,
    };
    let (loading, light) = (first..=block.week_of(ends)).partition(|week| !is_light(block, *week));
    Ok(Weeks { id, way, loading, light })
}

fn fill(history: &History<'_>, ask: &Ask, answer: &mut Answer) -> Result<(), WhyNot> {
    let evidence = Evidence::of(history, ask.lift, Equation::default());
    answer.unit = evidence.unit();
    let begun = |work: &Done<'_>| history.block_today().filter(|now| work.session.block.is_some_and(|id| id < *now));
    let latest = history.works_of(ask.lift).rfind(|done| done.work.has_work()).filter(|_| ask.from.is_none());
    if let Some(now) = latest.and_then(|work| begun(&work)) {
        answer.block = history.log.block_name(now);
        return Err(WhyNot::NoMark);
    }
    let start = start(history, ask, &evidence)?;
    answer.pieces = start.mark.group.load.pieces();
    let id = start.mark.done.session.block.ok_or(WhyNot::NoBlock)?;
    answer.block = Some(history.log.block(id).ok_or(WhyNot::NoBlock)?.name.clone());
    answer.from = Some(start.mark.shown(history, |set| set.is_clean_work()));
    let Weeks { way, loading, light, .. } = weeks(history, ask.from, &evidence, &start)?;
    answer.light_weeks = light;
    answer.targets = way.targets(history, &evidence, id, loading.last().copied());
    if loading.is_empty() {
        return Err(WhyNot::NoWeeksLeft);
    }
    let course = |trend| way.course(&loading, ask.cap, trend);
    answer.with_trend = own_trend(&evidence, start.set.day).and_then(|(trend, [percent, low, high], days)| {
        let Course { largest_step, step_every_weeks, weeks, .. } = course(trend)?;
        Some(WithTrend { percent, low, high, days, largest_step, step_every_weeks, weeks })
    });
    let course = course(Trend::UNCHANGED).ok_or(WhyNot::NoEffort)?;
    (answer.largest_step, answer.exact_step) = (Some(course.largest_step), Some(course.exact_step));
    (answer.step_every_weeks, answer.weeks) = (Some(course.step_every_weeks), course.weeks);
    Ok(())
}

/// The day's best evidence that is started from.
fn start<'a>(history: &History<'a>, ask: &Ask, evidence: &Evidence<'a>) -> Result<Rated<'a>, WhyNot> {
    let wanted = |date: NaiveDate| ask.from.is_none_or(|from| from == date);
    let has_work = |done: &Done<'_>| done.work.has_work() && wanted(done.session.date);
    let latest = history.works_of(ask.lift).rfind(has_work).ok_or(WhyNot::NoMark)?;
    let block = latest.session.block.ok_or(WhyNot::NoBlock)?;
    let here =
        |rated: &&Rated<'_>| rated.mark.done.session.block == Some(block) && wanted(rated.mark.done.session.date);
    evidence.days.iter().rev().find(here).copied().ok_or(WhyNot::NoEffort)
}

fn is_light(block: &Block, week: u32) -> bool {
    block.deload.contains(&week) || block.peak.contains(&week)
}

/// How estimates moved up to a day: also in percent a week with its 95 % interval, and on how many days it rests.
fn own_trend(evidence: &Evidence<'_>, day: i64) -> Option<(Trend, [Hundredths; 3], usize)> {
    let recent = evidence.days.iter().filter(|rated| (0..TREND_WEEKS * 7).contains(&(day - rated.set.day)));
    let points: Vec<(f64, f64)> = recent
        .filter_map(|rated| {
            let estimate = evidence.interval(rated)?;
            Some(((rated.set.day - day) as f64 / 7.0, estimate.middle.ln()))
        })
        .collect();
    let line = theil_sen(&points).filter(|_| points.len() >= FEWEST_DAYS)?;
    let (low, high) = line.interval?;
    // A 95 % interval is 1.96 standard errors to each side.
    let trend = Trend { weekly: line.slope, error: (high - low) / 2.0 / 1.96 };
    Some((trend, [line.slope, low, high].map(|share| Figure(share * 100.0)), points.len()))
}

/// Equal steps through the weeks that are left.
struct Course {
    largest_step: Mass,
    step_every_weeks: u32,
    exact_step: Mass,
    weeks: Vec<WeekAhead>,
}

/// How strength is taken to move: by what share it rises in a week, give or take an error.
#[derive(Clone, Copy)]
struct Trend {
    weekly: f64,
    error: f64,
}

impl Trend {
    const UNCHANGED: Trend = Trend { weekly: 0.0, error: 0.0 };
}

/// The way from a set through the weeks that follow.
struct Way<'a> {
    /// Of the day of that set, from every day up to it.
    strength: Strength,
    start: &'a Rated<'a>,
    reps: u32,
    week: u32,
    step: Mass,
}

impl Way<'_> {
    fn course(&self, loading: &[u32], cap: Effort, trend: Trend) -> Option<Course> {
        let last = *loading.last()?;
        let reserve = effort_scale::reps_in_reserve(cap)?;
        let weeks = f64::from(last - self.week);
        let most = self.ahead(weeks, trend).load_for(f64::from(self.reps), reserve)?.middle;
        let rises = u32::try_from(loading.len()).ok()?;
        let room = Mass::from_kilograms(most - self.start.set.load)?;
        let exact = Mass::from_kilograms((most - self.start.set.load) / f64::from(rises))?;
        // Where a whole step each week is too much, one every second or third week may not be.
        let fits = |every: &u32| rises >= *every && self.step.times(rises / every) <= room;
        let uneven = (2..=MOST_WEEKS_A_STEP).find(fits).filter(|_| exact < self.step);
        let (largest, every) = uneven.map_or((exact.down_to(self.step), 1), |every| (self.step, every));
        let ahead = (1u32..).zip(loading).filter_map(|(nth, week)| {
            let added = largest.times(nth / every);
            Some(WeekAhead {
                week: *week,
                load: self.written(self.start.set.load)? + added,
                effort: self.effort(self.start.set.load + added.in_kilograms(), *week, self.reps, trend)?,
            })
        });
        Some(Course { largest_step: largest, step_every_weeks: every, exact_step: exact, weeks: ahead.collect() })
    }

    fn ahead(&self, weeks: f64, trend: Trend) -> Strength {
        self.strength.ahead(weeks, trend.weekly, trend.error)
    }

    /// Everything lifted as the load that is written, without the lifter's own weight.
    fn written(&self, everything: f64) -> Option<Mass> {
        Some(Mass::from_kilograms(everything)? - own_weight(&self.start.mark).unwrap_or(Mass::ZERO))
    }

    fn effort(&self, load: f64, week: u32, reps: u32, trend: Trend) -> Option<EffortAhead> {
        let weeks = f64::from(week.saturating_sub(self.week));
        let [low, middle, high] = Rpe::ahead(&self.ahead(weeks, trend), load, reps)?;
        Some(EffortAhead { low, middle, high, missed: middle == Rpe::Missed })
    }

    /// The last block's same week and last loading week.
    fn targets(
        &self,
        history: &History<'_>,
        evidence: &Evidence<'_>,
        block: BlockId,
        last: Option<u32>,
    ) -> Vec<Target> {
        let Some(before) = block.before() else { return Vec::new() };
        let lift = self.start.mark.done.work.lift;
        let mut targets = Vec::new();
        if let Some(mark) = self.heaviest(history, lift, WeekKey { block: before, week: self.week }) {
            targets.extend(self.target(history, &mark, self.week, None));
        }
        let loading_weeks = evidence.days.iter().rev().filter_map(|rated| {
            let session = rated.mark.done.session;
            let week = session.week.filter(|_| session.block == Some(before))?;
            let key = WeekKey { block: before, week };
            (!history.week(key).light).then_some(key)
        });
        let last_then = loading_weeks.max_by_key(|key| key.week).filter(|key| key.week != self.week);
        if let (Some(key), Some(last)) = (last_then, last)
            && let Some(mark) = self.heaviest(history, lift, key)
        {
            targets.extend(self.target(history, &mark, last, Some(last - self.week)));
        }
        targets
    }

    fn target(&self, history: &History<'_>, mark: &Marked<'_>, week: u32, weeks: Option<u32>) -> Option<Target> {
        let load = mark.kilograms()?.in_kilograms();
        let apart = Mass::from_kilograms(load - self.start.set.load)?;
        let same = Tolerance::of(&history.log.gear).compare(apart, Mass::ZERO).is_eq();
        let step = weeks.and_then(|weeks| match same {
            true => Some(Mass::ZERO),
            false => Mass::from_kilograms(apart.in_kilograms() / f64::from(weeks)),
        });
        Some(Target {
            mark: mark.shown(history, |set| set.is_clean_work()),
            week,
            step,
            effort: self.effort(load, week, mark.amount.reps()?, Trend::UNCHANGED)?,
        })
    }

    /// The heaviest clean mark of a week, on the same day label where the week has one.
    fn heaviest<'h>(&self, history: &History<'h>, lift: LiftId, key: WeekKey) -> Option<Marked<'h>> {
        let label = self.start.mark.done.session.day.as_deref().map(crate::training::fold);
        let week = history.week(key);
        let visits = Visit::of(week.works().filter(|done| done.work.lift == lift));
        let same_day = |visit: &&Visit<'_>| {
            let day = visit.lines.first().and_then(|done| done.session.day.as_deref()).map(crate::training::fold);
            label.is_some() && day == label
        };
        let visit = visits.iter().find(same_day).or(visits.first())?;
        let marks = visit.lines.iter().flat_map(|done| Marked::of(*done, |set| set.is_clean_work()));
        marks
            .filter(|mark| mark.amount.reps().is_some() && mark.kilograms().is_some())
            .max_by_key(|mark| (mark.kilograms(), mark.amount))
    }
}
