//! What a lift's days say of strength: every clean set and miss for the model, and of each day the rated set and the miss
//! that an answer shows.

pub use super::estimated::Estimate;
pub(crate) use super::estimated::EstimateFields;
use crate::history::{Done, History, Mark, Marked};
use crate::science::strength::{
    Course, Curves, Day, End, ExpectedCurve, Interval, Known, Maxima, Set as Made, Strength, Taught,
};
use crate::science::{Equation, effort_scale, rating_error};
use crate::training::{Effort, Family, LiftId, Load, Mass, Set, Unit, Work, shown_in, words};
use chrono::{Datelike, NaiveDate};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::HashMap;
use std::sync::Arc;

/// The standard error of a load that is written with `~`, as a share of it. This project's own choice.
const ABOUT: f64 = 0.02;

/// How far back sets are looked at for strength on a day: two years. A lifter changes; this project's own choice.
const LEARNED_OVER_DAYS: i64 = 2 * 52 * 7;

/// On fewer rated days than this a lift's own sets shape its curve no more than the family's; common practice, no source.
const FEWEST_DAYS: usize = 6;

/// A mark of known effort as evidence: everything lifted, in kilograms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rating {
    /// The day, as [`day_number`] counts.
    pub(crate) day: i64,
    pub(crate) load: f64,
    load_error: f64,
    /// Good reps; of a set in bouts those of the first.
    pub(crate) reps: u32,
    /// Those left in reserve.
    pub(crate) left: f64,
    reps_error: f64,
}

impl Rating {
    /// Good reps and those left.
    pub(crate) fn to_failure(self) -> f64 {
        f64::from(self.reps) + self.left
    }

    fn maximum(self, curves: &Curves) -> Option<Interval> {
        curves.maximum(self.load, self.load_error, self.to_failure(), self.reps_error)
    }
}

/// A mark of known effort.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rated<'a> {
    pub(crate) mark: Marked<'a>,
    pub(crate) set: Rating,
}

/// A missed attempt that says something of its day's maximum.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Missed<'a> {
    pub(crate) mark: Marked<'a>,
    /// The heaviest that was made that day.
    pub(crate) made: Option<Mass>,
}

words! {
    /// Whose curve of reps against load is used.
    pub enum CurveKind {
        /// The published equation, with the published spread between people.
        Published = "published",
        /// The lifter's own.
        Fitted = "fitted",
    }
}

/// What shaped the curve of reps against load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Curve {
    /// Whose it is.
    #[serde(rename = "curve")]
    pub kind: CurveKind,
    /// On how many rated days it rests; 0 for the published one.
    #[serde(rename = "curve_sets")]
    pub days: u32,
    /// The family, where it rests on all lifts of it.
    #[serde(rename = "curve_family")]
    pub family: Option<Family>,
}

impl Curve {
    /// The published one.
    pub const PUBLISHED: Curve = Curve { kind: CurveKind::Published, days: 0, family: None };

    fn fitted(taught: &Taught, family: Option<Family>) -> Curve {
        Curve { kind: CurveKind::Fitted, days: u32::try_from(taught.days).unwrap_or(u32::MAX), family }
    }
}

/// What a lift's sets say of strength.
pub(crate) struct Evidence<'a> {
    pub(crate) equation: Equation,
    curves: Curves,
    /// What the family teaches, where the lift's own days are few.
    taught: Taught,
    pub(crate) curve: Curve,
    /// Of each date the set that says most, in order of time.
    pub(crate) days: Arc<[Rated<'a>]>,
    /// Since the first of those days, of each date the missed attempt that says most, in order of time.
    pub(crate) misses: Arc<[Missed<'a>]>,
    /// Every date with a clean set of known load.
    record: Arc<[Day]>,
    /// Gone through those of the last two years.
    course: Option<Arc<Course>>,
    /// Of the days before those the first, the last and the last with a load that is one number, in order of time.
    older: Arc<[Rated<'a>]>,
}

impl Evidence<'_> {
    /// How this lifter's reps are to be expected to fall off with load.
    pub(crate) fn expected_curve(&self) -> ExpectedCurve {
        self.curves.expected()
    }
}

/// A date as a number of days.
pub(crate) fn day_number(date: NaiveDate) -> i64 {
    i64::from(date.num_days_from_ce())
}

/// A mark as evidence; `None` where load or effort is not known, or below RPE 5.
///
/// A single at RPE 10 is the maximum itself and cannot be misjudged.
pub(crate) fn observed(mark: &Marked<'_>) -> Option<Rating> {
    let set = mark.group.sets().find(|set| set.amount == mark.amount)?;
    let (date, load) = (mark.done.session.date, mark.kilograms()?);
    rating(date, first_bout(&set)?, mark.effort?, load, mark.group.load.is_approximate())
}

/// The reps of a set; of one in bouts those of the first, for the others were done after a rest.
fn first_bout(set: &Set<'_>) -> Option<u32> {
    let reps = set.amount.reps()?;
    Some(set.bouts().and_then(|bouts| bouts.0.first().copied()).unwrap_or(reps))
}

fn rating(date: NaiveDate, reps: u32, effort: Effort, load: Mass, approximate: bool) -> Option<Rating> {
    let left = effort_scale::reps_in_reserve(effort)?;
    let load = load.in_kilograms();
    (load > 0.0 && reps > 0).then_some(Rating {
        day: day_number(date),
        load,
        load_error: if approximate { ABOUT } else { 0.0 },
        reps,
        left,
        reps_error: if f64::from(reps) + left > 1.0 { rating_error::rating_sd(left) } else { 0.0 },
    })
}

/// A set as the model takes it; `None` where its load or reps are not known.
fn made(set: &Set<'_>, own: Option<Mass>) -> Option<Made> {
    let load = set.group.load.kilograms(own)?.in_kilograms();
    let last = set.group.sets().count() == set.at + 1;
    let failed = set.group.extra.as_ref().is_some_and(|extra| last && extra.missed > 0);
    let left = set.effort.and_then(effort_scale::reps_in_reserve);
    let reps = first_bout(set)?;
    Some(Made {
        load,
        load_error: if set.group.load.is_approximate() { ABOUT } else { 0.0 },
        reps,
        end: match left {
            _ if failed || reps == 0 => End::Missed,
            Some(left) => End::Left(left),
            None => End::Unrated,
        },
    })
}

/// The sets of a day as the model takes them. Where nothing was left after fewer reps than the plan has, or than a set before
/// had at the same load, the next rep was not to be had; who trains in bouts stops short of set purpose.
fn made_that_day(day: &[Done<'_>]) -> Vec<Made> {
    let mut most: HashMap<u64, u32> = HashMap::new();
    let mut sets = Vec::new();
    for done in day {
        let planned = fewest_planned(done.work).unwrap_or_default();
        let clean = done.work.groups.iter().flat_map(|group| group.sets());
        for set in clean.filter(|set| (set.is_clean_work()) || is_miss(set)) {
            let Some(mut one) = made(&set, done.session.own_mass()) else { continue };
            if set.bouts().is_none() {
                let before = most.entry(one.load.to_bits()).or_default();
                if set.effort == Some(Effort::MAXIMAL) && one.reps < planned.max(*before) {
                    one.end = End::Missed;
                }
                *before = one.reps.max(*before);
            }
            sets.push(one);
        }
    }
    sets
}

/// The fewest reps that the plan of a line has in a set.
fn fewest_planned(work: &Work) -> Option<u32> {
    work.plan()?.groups.iter().filter_map(|group| group.amounts.least().reps()).min()
}

/// How far a session is through its block, 0 to 1; 0 where that cannot be said, and in a week of rest.
fn through(history: &History<'_>, done: &Done<'_>) -> f64 {
    let block = done.session.block.and_then(|id| history.log.block(id));
    let share = block.zip(done.session.week).and_then(|(block, week)| {
        let weeks = block.week_of(block.ends?);
        let rests = done.session.deload || block.deload.contains(&week) || block.peak.contains(&week);
        (!rests && weeks > 1).then(|| f64::from(week - 1) / f64::from(weeks - 1))
    });
    share.unwrap_or_default().clamp(0.0, 1.0)
}

/// The lifter's own weight in a mark's load, where it is in it.
pub(crate) fn own_weight(mark: &Marked<'_>) -> Option<Mass> {
    mark.group.load.added().and(mark.done.session.own_mass())
}

/// Of clean marks the one that shows most, the lower end of whose interval is highest; of equals the first.
fn best_rated<'a>(works: impl Iterator<Item = Done<'a>>, maxima: &mut Maxima<'_>) -> Option<Rated<'a>> {
    let mut best: Option<(f64, Rated<'a>)> = None;
    for mark in works.flat_map(|done| Marked::of(done, |set| set.is_clean_work())) {
        let Some(set) = observed(&mark) else { continue };
        let known = maxima.of(set.load, set.load_error, set.to_failure(), set.reps_error);
        let Some(Interval { low, .. }) = known else { continue };
        if best.as_ref().is_none_or(|(most, _)| low > *most) {
            best = Some((low, Rated { mark, set }));
        }
    }
    best.map(|(_, rated)| rated)
}

/// Whether a set is an attempt that failed, with no fault told of it.
pub(crate) fn is_miss(set: &Set<'_>) -> bool {
    set.amount.reps() == Some(0) && set.is_clean()
}

/// Of a day's misses the lightest that is heavier than everything made that day; of equals the first.
///
/// One that is not was within strength. One at a heavier load says less, and what fails twice a day fails for one
/// reason.
fn lightest_miss<'a>(works: &[Done<'a>]) -> Option<Missed<'a>> {
    let marks = |qualifies: fn(&Set<'a>) -> bool| {
        let marks = works.iter().flat_map(move |done| Marked::of(*done, qualifies));
        marks.filter_map(|mark| Some((mark.kilograms()?, mark)))
    };
    let most = marks(|set| set.is_clean_work()).map(|(load, _)| load).max();
    let (load, mark) =
        marks(is_miss).filter(|(load, _)| *load > most.unwrap_or(Mass::ZERO)).min_by_key(|(load, _)| *load)?;
    (load > Mass::ZERO).then_some(Missed { mark, made: most })
}

/// What was gathered of a lift's days.
#[derive(Clone)]
struct Gathered<'a> {
    days: Arc<[Rated<'a>]>,
    misses: Arc<[Missed<'a>]>,
    record: Arc<[Day]>,
    /// Gone through those of the last two years, by nothing but themselves.
    course: Option<Arc<Course>>,
    older: Arc<[Rated<'a>]>,
}

/// The evidence of many lifts, each lift's days gathered once.
pub(crate) struct Ratings<'h, 'a> {
    history: &'h History<'a>,
    equation: Equation,
    published: Curves,
    /// No earlier day is gathered.
    since: i64,
    /// But for those that say since when the lift is rated, and how it is loaded.
    with_older: bool,
    lifts: HashMap<LiftId, Gathered<'a>>,
    /// What the families teach that were asked about.
    families: HashMap<Family, Taught>,
}

impl<'h, 'a> Ratings<'h, 'a> {
    /// Nothing is gathered yet.
    pub(crate) fn new(history: &'h History<'a>, equation: Equation) -> Self {
        Ratings {
            history,
            equation,
            published: Curves::of(equation, &Taught::default()),
            since: i64::MIN,
            with_older: false,
            lifts: HashMap::new(),
            families: HashMap::new(),
        }
    }

    /// The same with no day but those that teach the curve: enough for what asks for strength of late.
    pub(crate) fn of_the_curve(history: &'h History<'a>, equation: Equation) -> Self {
        Ratings::since(history.today, history, equation)
    }

    /// The same, which tells strength, units and the lifter's own weight as all days would.
    pub(crate) fn of_late(history: &'h History<'a>, equation: Equation) -> Self {
        Ratings { with_older: true, ..Ratings::of_the_curve(history, equation) }
    }

    /// The same with the days from one on too.
    pub(crate) fn since(first: NaiveDate, history: &'h History<'a>, equation: Equation) -> Self {
        let learned = day_number(history.today) - LEARNED_OVER_DAYS;
        Ratings { since: learned.min(day_number(first)), ..Ratings::new(history, equation) }
    }

    /// A lift's evidence up to today. The curve is learned on the lift where it has days enough, else on the lift's family
    /// too, else it is the published one.
    pub(crate) fn evidence(&mut self, lift: LiftId) -> Evidence<'a> {
        let own = self.teaches(lift);
        let (curve, taught) = if own.days >= FEWEST_DAYS {
            (Curve::fitted(&own, None), Taught::default())
        } else {
            match self.of_family(lift) {
                Some((family, shared)) => (Curve::fitted(&shared, Some(family)), shared),
                None => (Curve::PUBLISHED, Taught::default()),
            }
        };
        let curves = Curves::of(self.equation, &own.and(&taught));
        let (equation, today) = (self.equation, day_number(self.history.today));
        let Gathered { days, misses, record, course, older } = self.gathered(lift).clone();
        let course = match curve.family {
            Some(_) => Course::lately(equation, &taught, recent(&record, today)),
            None => course,
        };
        Evidence { equation, curves, taught, curve, days, misses, record, course, older }
    }

    /// What a family's lifts teach together, where one of them has days enough.
    fn of_family(&mut self, lift: LiftId) -> Option<(Family, Taught)> {
        let log = self.history.log;
        let family = log.lift(lift)?.family;
        if family == Family::Other {
            return None;
        }
        if !self.families.contains_key(&family) {
            let of_family = (0u32..).zip(&log.lifts).filter(|(_, other)| other.family == family);
            let taught: Vec<Taught> = of_family.map(|(at, _)| self.teaches(LiftId(at))).collect();
            let enough: Vec<Taught> = taught.into_iter().filter(|taught| taught.days >= FEWEST_DAYS).collect();
            self.families.insert(family, Taught::together(&enough));
        }
        let shared = self.families.get(&family).filter(|shared| shared.days >= FEWEST_DAYS)?;
        Some((family, shared.clone()))
    }

    /// What a lift's days of the last two years teach of its curve.
    fn teaches(&mut self, lift: LiftId) -> Taught {
        self.gathered(lift).course.as_deref().map(Course::taught).unwrap_or_default()
    }

    /// Of each date up to today its clean sets, the one that says most, and its miss.
    fn gathered(&mut self, lift: LiftId) -> &Gathered<'a> {
        let Ratings { history, equation, published, since, with_older, lifts, .. } = self;
        lifts.entry(lift).or_insert_with(|| {
            let is_late = |done: &Done<'_>| day_number(done.session.date) >= *since;
            let mut works: Vec<Done<'a>> = history.works_of(lift).rev().take_while(is_late).collect();
            works.reverse();
            let (mut days, mut misses, mut record) = (Vec::new(), Vec::new(), Vec::new());
            let (mut any, mut maxima) = (false, published.maxima());
            for day in works.chunk_by(|one, other| one.session.date == other.session.date) {
                let sets = made_that_day(day);
                any |= sets.iter().any(|set| set.reps > 0);
                if let Some(first) = day.first().filter(|_| !sets.is_empty()) {
                    let (day, through) = (day_number(first.session.date), through(history, first));
                    record.push(Day { day, through, sets });
                }
                days.extend(best_rated(day.iter().copied(), &mut maxima));
                // Before anything was lifted a miss says nothing.
                misses.extend(lightest_miss(day).filter(|_| any));
            }
            let also = trained_otherwise(history, lift, &record);
            record.extend(also);
            record.sort_by_key(|day| day.day);
            let course = Course::lately(*equation, &Taught::default(), recent(&record, day_number(history.today)));
            let older = if *with_older { older(history, (lift, *since), &days, &mut maxima) } else { Vec::new() };
            Gathered { days: days.into(), misses: misses.into(), record: record.into(), course, older: older.into() }
        })
    }
}

/// Of rated days before others the first, and where the others do not have them the last, and the last with a load that is
/// one number.
fn older<'a>(
    history: &History<'a>,
    (lift, since): (LiftId, i64),
    later: &[Rated<'a>],
    maxima: &mut Maxima<'_>,
) -> Vec<Rated<'a>> {
    let is_plain = |rated: &Rated<'_>| matches!(rated.mark.group.load, Load::Plain { .. });
    let is_old = |done: &Done<'_>| day_number(done.session.date) < since;
    let has_plain = |day: &[Done<'_>]| {
        let groups = day.iter().flat_map(|done| &done.work.groups);
        groups.into_iter().any(|group| matches!(group.load, Load::Plain { .. }))
    };
    let mut days = by_day(history.works_of(lift).take_while(is_old));
    let Some(first) = days.find_map(|day| best_rated(day.into_iter(), maxima)) else { return Vec::new() };
    let begun = first.mark.done.session.date;
    let mut last = |wanted: &dyn Fn(&[Done<'a>]) -> bool, is: &dyn Fn(&Rated<'a>) -> bool| {
        let back = history.works_of(lift).rev().skip_while(|done| !is_old(done));
        let days = by_day(back.take_while(|done| done.session.date > begun)).map(|mut day| {
            day.reverse();
            day
        });
        days.filter(|day| wanted(day)).filter_map(|day| best_rated(day.into_iter(), maxima)).find(is)
    };
    let plain = if later.iter().any(is_plain) { None } else { last(&has_plain, &is_plain) };
    let end = if later.is_empty() { last(&|_| true, &|_| true) } else { None };
    [first].into_iter().chain(plain).chain(end).collect()
}

/// Work lines one after the other, each day's together, gathered only as far as they are looked at.
fn by_day<'a>(works: impl Iterator<Item = Done<'a>>) -> impl Iterator<Item = Vec<Done<'a>>> {
    let mut works = works.peekable();
    std::iter::from_fn(move || {
        let first = works.next()?;
        let mut day = vec![first];
        while let Some(done) = works.next_if(|done| done.session.date == first.session.date) {
            day.push(done);
        }
        Some(day)
    })
}

/// The days of the lift's family between days of the lift that are more than a week apart, and after the last: who leaves a
/// lift out for others of its kind has not stopped training.
fn trained_otherwise(history: &History<'_>, lift: LiftId, record: &[Day]) -> Vec<Day> {
    let family =
        |lift: LiftId| history.log.lift(lift).map(|lift| lift.family).filter(|family| *family != Family::Other);
    let Some(own) = family(lift) else { return Vec::new() };
    let today = day_number(history.today);
    let ends = record.iter().skip(1).map(|day| day.day).chain([today + 1]);
    let mut days: Vec<Day> = Vec::new();
    for (from, to) in record.iter().map(|day| day.day).zip(ends).filter(|(from, to)| to - from > 7) {
        let after = history.sessions().partition_point(|session| day_number(session.date) <= from);
        let between = history.sessions().iter().skip(after).take_while(|session| day_number(session.date) < to);
        for session in between {
            let day = day_number(session.date);
            let of_family = session.works.iter().any(|work| family(work.lift) == Some(own) && work.has_work());
            if of_family && days.last().is_none_or(|last| last.day < day) {
                days.push(Day { day, through: 0.0, sets: Vec::new() });
            }
        }
    }
    days
}

/// The days that strength on a day rests on.
fn recent(record: &[Day], day: i64) -> &[Day] {
    let first = record.partition_point(|known| known.day < day - LEARNED_OVER_DAYS);
    record.get(first..).unwrap_or(&[])
}

impl<'a> Evidence<'a> {
    /// A lift's evidence up to today.
    pub(crate) fn of(history: &History<'a>, lift: LiftId, equation: Equation) -> Self {
        Ratings::new(history, equation).evidence(lift)
    }

    /// The set of a date.
    fn rated_on(&self, date: NaiveDate) -> Option<&Rated<'a>> {
        let day = day_number(date);
        let at = self.days.binary_search_by_key(&day, |rated| rated.set.day).ok()?;
        self.days.get(at)
    }

    /// What the clean sets of a date say show: the estimated maximum of everything lifted, by the one that shows most.
    pub(crate) fn maximum_on(&self, date: NaiveDate) -> Option<f64> {
        Some(self.rated_on(date)?.set.maximum(&self.curves)?.middle)
    }

    /// Of work lines the set that says most, by the lifter's own curve.
    pub(crate) fn best_of(&self, works: impl Iterator<Item = Done<'a>>) -> Option<Rated<'a>> {
        best_rated(works, &mut self.curves.maxima())
    }

    /// The greatest maximum that a clean set of at most so many reps says by itself, of works.
    pub(crate) fn shown_by(&self, reps: u32, works: impl Iterator<Item = Done<'a>>) -> Option<f64> {
        let marks = works.flat_map(|done| Marked::of(done, |set| set.is_clean_work()));
        let sets = marks.filter_map(|mark| observed(&mark)).filter(|set| set.reps <= reps);
        sets.filter_map(|set| Some(set.maximum(&self.curves)?.middle)).reduce(f64::max)
    }

    /// What a set says by itself, of everything lifted in kilograms.
    pub(crate) fn interval(&self, rated: &Rated<'_>) -> Option<Interval> {
        rated.set.maximum(&self.curves)
    }

    /// The same as a load.
    pub(crate) fn estimate(&self, rated: &Rated<'_>) -> Option<Estimate> {
        Estimate::of(self.interval(rated)?, own_weight(&rated.mark))
    }

    /// What a mark that is shown says by itself; `None` where it has a fault or bears no estimate.
    pub(crate) fn estimate_of(&self, mark: &Mark) -> Option<Estimate> {
        let load = mark.load.kilograms.filter(|_| mark.faults.is_empty())?;
        let set = rating(mark.date, mark.amount.reps()?, mark.effort?, load, mark.load.is_approximate())?;
        Estimate::of(set.maximum(&self.curves)?, mark.load.added().map(|added| load - added))
    }

    /// What each date with evidence is known by, in order of time: its set, where it has one, else its miss.
    pub(crate) fn dates(&self) -> Vec<&Marked<'a>> {
        let date = |mark: &Marked<'_>| mark.done.session.date;
        let rated = self.days.iter().map(|rated| &rated.mark);
        let mut marks: Vec<&Marked<'a>> = rated.chain(self.misses.iter().map(|missed| &missed.mark)).collect();
        // The sort keeps sets before misses, and a date is kept once.
        marks.sort_by_key(|mark| date(mark));
        marks.dedup_by_key(|mark| date(mark));
        marks
    }

    /// Strength on a date, from the days of two years up to it.
    pub(crate) fn strength_on(&self, date: NaiveDate) -> Option<Strength> {
        let day = day_number(date);
        self.older.iter().chain(self.days.iter()).next().filter(|first| first.set.day <= day)?;
        // After the last day, which is asked for most, the way there is known.
        let known = self.course.as_ref().and_then(|course| course.on(day));
        known.or_else(|| Strength::lately(self.equation, &self.taught, recent(&self.record, day), day))
    }

    /// The chance that strength was greater on one date than on an earlier one.
    pub(crate) fn chance_ahead(&self, now: NaiveDate, then: NaiveDate) -> Option<f64> {
        let (now, then) = (day_number(now), day_number(then));
        Strength::chance_lately(self.equation, &self.taught, recent(&self.record, then), now, then)
    }

    /// Strength on each of the dates of the last two years, from it and those before.
    pub(crate) fn day_by_day(&self) -> Vec<(&Marked<'a>, Strength)> {
        self.told(self.course.as_deref())
    }

    /// The same of every date, or of those from one on.
    pub(crate) fn every_day(&self, since: Option<NaiveDate>) -> Vec<(&Marked<'a>, Strength)> {
        let from = since.map_or(i64::MIN, day_number);
        self.told(Course::told_from(from, self.equation, &self.taught, &self.record).as_ref())
    }

    fn told(&self, course: Option<&Course>) -> Vec<(&Marked<'a>, Strength)> {
        // Both are in order of time, one a date; of dates that are only known by what was made nothing is shown.
        let mut dates = self.dates().into_iter().peekable();
        let of_day = |Known { day, strength, .. }: &Known| {
            let day = *day;
            while dates.next_if(|mark| day_number(mark.done.session.date) < day).is_some() {}
            Some((dates.next_if(|mark| day_number(mark.done.session.date) == day)?, strength.clone()))
        };
        course.into_iter().flat_map(|course| &course.days).filter_map(of_day).collect()
    }

    /// What had been said of a date's strength the day before, from the days of two years; `None` where that was nothing.
    pub(crate) fn foretold(&self, date: NaiveDate) -> Option<&Strength> {
        let days = &self.course.as_ref()?.days;
        let at = days.binary_search_by_key(&day_number(date), |known| known.day).ok()?;
        days.get(at)?.foretold.as_ref()
    }

    /// What a date's best set says by itself.
    pub(crate) fn estimate_on(&self, date: NaiveDate) -> Option<Estimate> {
        self.estimate(self.rated_on(date)?)
    }

    /// The unit of the last load that is one number; the one that masses are told in where none is.
    pub(crate) fn unit(&self) -> Unit {
        let plain = self.older.iter().chain(self.days.iter()).rev().find_map(|rated| match rated.mark.group.load {
            Load::Plain { unit, .. } => Some(unit),
            _ => None,
        });
        plain.unwrap_or(shown_in())
    }

    /// The lifter's own weight that stands in the loads of this lift, as of the last day that has it.
    pub(crate) fn own_weight(&self) -> Option<Mass> {
        self.days.last().or(self.older.last()).and_then(|rated| own_weight(&rated.mark))
    }
}
