//! A lift's sets of known effort as evidence of strength: what each says by itself, one a day, and the curve of reps
//! against load that fits the lifter. And its missed attempts, one a day.

use crate::history::{Done, History, Mark, Marked};
use crate::science::strength::{Endurance, Interval, Miss, Observation, Series, Strength};
use crate::science::{Equation, effort_scale, rating_error};
use crate::training::{Effort, Family, LiftId, Load, Mass, Set, Unit};
use chrono::{Datelike, NaiveDate};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use std::collections::HashMap;

/// The standard error of a load that is written with `~`, as a share of it. This project's own choice.
const ABOUT: f64 = 0.02;

/// How far back sets teach strength-endurance: two years. A lifter changes; this project's own choice.
const LEARNED_OVER_DAYS: i64 = 2 * 52 * 7;

/// A mark of known effort.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rated<'a> {
    pub(crate) mark: Marked<'a>,
    /// The mark as evidence: everything lifted, in kilograms.
    pub(crate) set: Observation,
}

/// A missed attempt that says something of its day's maximum.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Missed<'a> {
    pub(crate) mark: Marked<'a>,
    /// The same as evidence: everything that was to be lifted, in kilograms.
    miss: Miss,
    /// The heaviest that was made that day.
    pub(crate) made: Option<Mass>,
}

/// What shaped the curve of reps against load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Curve {
    /// The published equation, with the published spread between people.
    Published,
    /// So many days of the lift itself.
    Lift(u32),
    /// So many days of all lifts of its family.
    Family(Family, u32),
}

/// An estimated maximum with its 80 % interval, as a load: without the lifter's own weight where the lift's loads
/// contain it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Estimate {
    /// The estimate.
    #[serde(rename = "est_max_kg")]
    pub maximum: Mass,
    /// One chance in ten lies below.
    #[serde(rename = "low_kg")]
    pub low: Mass,
    /// One chance in ten lies above.
    #[serde(rename = "high_kg")]
    pub high: Mass,
}

/// The fields of an estimate that may be unknown: all three, or none.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub(crate) struct EstimateFields {
    /// The estimate.
    est_max_kg: Option<Mass>,
    /// One chance in ten lies below.
    low_kg: Option<Mass>,
    /// One chance in ten lies above.
    high_kg: Option<Mass>,
}

impl Estimate {
    /// For `#[serde(flatten, serialize_with = "…")]`: every field is null where the estimate is unknown.
    ///
    /// # Errors
    /// The serializer's own.
    pub fn or_null<S: Serializer>(estimate: &Option<Estimate>, serializer: S) -> Result<S::Ok, S::Error> {
        let each = |pick: fn(&Estimate) -> Mass| estimate.as_ref().map(pick);
        let [est_max_kg, low_kg, high_kg] = [each(|one| one.maximum), each(|one| one.low), each(|one| one.high)];
        EstimateFields { est_max_kg, low_kg, high_kg }.serialize(serializer)
    }

    /// For `#[serde(serialize_with = "…")]` where only the estimate itself is shown.
    ///
    /// # Errors
    /// The serializer's own.
    pub fn middle<S: Serializer>(estimate: &Option<Estimate>, serializer: S) -> Result<S::Ok, S::Error> {
        estimate.map(|estimate| estimate.maximum).serialize(serializer)
    }

    /// From an interval of everything lifted, in kilograms.
    pub(crate) fn of(interval: Interval, own: Option<Mass>) -> Option<Estimate> {
        let load = |kilograms: f64| Some(Mass::from_kilograms(kilograms)? - own.unwrap_or(Mass::ZERO));
        Some(Estimate { low: load(interval.low)?, maximum: load(interval.middle)?, high: load(interval.high)? })
    }
}

/// What a lift's sets say of strength.
pub(crate) struct Evidence<'a> {
    pub(crate) equation: Equation,
    pub(crate) endurance: Endurance,
    pub(crate) curve: Curve,
    /// Of each date the set whose interval is narrowest, in order of time.
    pub(crate) days: Vec<Rated<'a>>,
    /// Since the first of those days, of each date the missed attempt that says most, in order of time.
    pub(crate) misses: Vec<Missed<'a>>,
}

/// A date as a number of days.
pub(crate) fn day_number(date: NaiveDate) -> i64 {
    i64::from(date.num_days_from_ce())
}

/// A mark as evidence; `None` where load or effort is not known, or below RPE 5.
///
/// A single at RPE 10 is the maximum itself and cannot be misjudged.
pub(crate) fn observed(mark: &Marked<'_>) -> Option<Observation> {
    let date = mark.done.session.date;
    observation(date, mark.amount.reps()?, mark.effort?, mark.kilograms()?, mark.group.load.is_approximate())
}

fn observation(date: NaiveDate, reps: u32, effort: Effort, load: Mass, approximate: bool) -> Option<Observation> {
    let reserve = effort_scale::reps_in_reserve(effort)?;
    let reps_to_failure = effort_scale::reps_to_failure(reps, effort)?;
    let load = load.in_kilograms();
    (load > 0.0).then_some(Observation {
        day: day_number(date),
        load,
        reps_to_failure,
        reps_error: if reps_to_failure > 1.0 { rating_error::rating_sd(reserve) } else { 0.0 },
        load_error: if approximate { ABOUT } else { 0.0 },
    })
}

/// The lifter's own weight in a mark's load, where it is in it.
pub(crate) fn own_weight(mark: &Marked<'_>) -> Option<Mass> {
    mark.group.load.added().and(mark.done.session.own_mass())
}

/// Of clean marks the one whose interval is narrowest; of equals the first.
pub(crate) fn narrowest<'a>(
    works: impl Iterator<Item = Done<'a>>,
    equation: Equation,
    endurance: &Endurance,
) -> Option<Rated<'a>> {
    let mut best: Option<(f64, Rated<'a>)> = None;
    for mark in works.flat_map(|done| Marked::of(done, |set| set.is_work() && set.is_clean())) {
        let Some(set) = observed(&mark) else { continue };
        let Some(interval) = set.maximum(equation, endurance) else { continue };
        let width = interval.high / interval.low;
        if best.as_ref().is_none_or(|(least, _)| width < *least) {
            best = Some((width, Rated { mark, set }));
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
    let made = marks(|set| set.is_work() && set.is_clean()).max_by_key(|(load, _)| *load);
    let most = made.map(|(load, _)| load);
    let (load, mark) =
        marks(is_miss).filter(|(load, _)| *load > most.unwrap_or(Mass::ZERO)).min_by_key(|(load, _)| *load)?;
    let is_about = |mark: &Marked<'_>| mark.group.load.is_approximate();
    let miss = Miss {
        day: day_number(mark.done.session.date),
        load: load.in_kilograms(),
        made: most.map(Mass::in_kilograms),
        load_error: if is_about(&mark) || made.is_some_and(|(_, made)| is_about(&made)) { ABOUT } else { 0.0 },
    };
    Some(Missed { mark, miss, made: most })
}

/// What was gathered of a lift's days.
#[derive(Default)]
struct Gathered<'a> {
    days: Vec<Rated<'a>>,
    misses: Vec<Missed<'a>>,
}

/// The evidence of many lifts, each lift's days gathered once.
pub(crate) struct Ratings<'h, 'a> {
    history: &'h History<'a>,
    equation: Equation,
    published: Endurance,
    /// No earlier day is gathered.
    since: i64,
    lifts: HashMap<LiftId, Gathered<'a>>,
    /// What the families teach that were asked about.
    families: HashMap<Family, Endurance>,
}

impl<'h, 'a> Ratings<'h, 'a> {
    /// Nothing is gathered yet.
    pub(crate) fn new(history: &'h History<'a>, equation: Equation) -> Self {
        Ratings {
            history,
            equation,
            published: Endurance::published(equation),
            since: i64::MIN,
            lifts: HashMap::new(),
            families: HashMap::new(),
        }
    }

    /// The same with no day but those that teach the curve: enough for what asks for the curve alone.
    pub(crate) fn of_the_curve(history: &'h History<'a>, equation: Equation) -> Self {
        Ratings { since: first_that_teaches(history), ..Ratings::new(history, equation) }
    }

    /// A lift's evidence up to today. The curve is learned on the lift where its days teach enough, else on the
    /// lift's family, else it is the published one.
    pub(crate) fn evidence(&mut self, lift: LiftId) -> Evidence<'a> {
        let own = Endurance::learned(self.equation, &[&self.recent(lift)]);
        let gathered = self.gathered(lift);
        let (days, misses) = (gathered.days.clone(), gathered.misses.clone());
        let count = |endurance: &Endurance| u32::try_from(endurance.sets()).unwrap_or(u32::MAX);
        let (curve, endurance) = if own.is_learned() {
            (Curve::Lift(count(&own)), own)
        } else {
            match self.learned_on_family(lift) {
                Some((family, shared)) => (Curve::Family(family, count(&shared)), shared),
                None => (Curve::Published, self.published.clone()),
            }
        };
        Evidence { equation: self.equation, curve, endurance, days, misses }
    }

    fn learned_on_family(&mut self, lift: LiftId) -> Option<(Family, Endurance)> {
        let log = self.history.log;
        let family = log.lift(lift)?.family;
        if family == Family::Other {
            return None;
        }
        if !self.families.contains_key(&family) {
            let of_family = (0u32..).zip(&log.lifts).filter(|(_, other)| other.family == family);
            let series: Vec<Vec<Observation>> = of_family.map(|(at, _)| self.recent(LiftId(at))).collect();
            let series: Vec<&[Observation]> = series.iter().map(Vec::as_slice).collect();
            self.families.insert(family, Endurance::learned(self.equation, &series));
        }
        let shared = self.families.get(&family).filter(|shared| shared.is_learned())?;
        Some((family, shared.clone()))
    }

    /// The days that teach.
    fn recent(&mut self, lift: LiftId) -> Vec<Observation> {
        let first = first_that_teaches(self.history);
        self.gathered(lift).days.iter().map(|rated| rated.set).filter(|set| set.day >= first).collect()
    }

    /// Of each date up to today the set whose interval is narrowest, and its miss.
    fn gathered(&mut self, lift: LiftId) -> &Gathered<'a> {
        let Ratings { history, equation, published, since, lifts, .. } = self;
        lifts.entry(lift).or_insert_with(|| {
            let wanted = |done: &Done<'_>| day_number(done.session.date) >= *since;
            let works: Vec<Done<'a>> = history.works_of(lift).filter(wanted).collect();
            let mut gathered = Gathered::default();
            for day in works.chunk_by(|one, other| one.session.date == other.session.date) {
                gathered.days.extend(narrowest(day.iter().copied(), *equation, published));
                // Before anything is known of strength a miss says nothing.
                gathered.misses.extend(lightest_miss(day).filter(|_| !gathered.days.is_empty()));
            }
            gathered
        })
    }
}

/// The first day that teaches strength-endurance.
fn first_that_teaches(history: &History<'_>) -> i64 {
    day_number(history.today) - LEARNED_OVER_DAYS
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

    /// What the clean sets of a date say together: the estimated maximum of everything lifted, by the narrowest.
    pub(crate) fn maximum_on(&self, date: NaiveDate) -> Option<f64> {
        Some(self.rated_on(date)?.set.maximum(self.equation, &self.endurance)?.middle)
    }

    /// What a set says by itself.
    pub(crate) fn estimate(&self, rated: &Rated<'_>) -> Option<Estimate> {
        Estimate::of(rated.set.maximum(self.equation, &self.endurance)?, own_weight(&rated.mark))
    }

    /// What a mark that is shown says by itself; `None` where it has a fault or bears no estimate.
    pub(crate) fn estimate_of(&self, mark: &Mark) -> Option<Estimate> {
        let load = mark.load.kilograms.filter(|_| mark.faults.is_empty())?;
        let set = observation(mark.date, mark.amount.reps()?, mark.effort?, load, mark.load.is_approximate())?;
        Estimate::of(set.maximum(self.equation, &self.endurance)?, mark.load.added().map(|added| load - added))
    }

    /// The days as observations, in order.
    pub(crate) fn observations(&self) -> Vec<Observation> {
        self.days.iter().map(|rated| rated.set).collect()
    }

    /// The misses, in order.
    fn missed(&self) -> Vec<Miss> {
        self.misses.iter().map(|missed| missed.miss).collect()
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

    /// Strength on a date, from every day up to it.
    pub(crate) fn strength_on(&self, date: NaiveDate) -> Option<Strength> {
        let (sets, misses) = (self.observations(), self.missed());
        Strength::on(self.equation, &self.endurance, Series::of(&sets, &misses), day_number(date))
    }

    /// Strength on each of the dates, from it and those before, by the curve of today: the filter runs once.
    pub(crate) fn day_by_day(&self) -> Vec<(&Marked<'a>, Strength)> {
        let (sets, misses) = (self.observations(), self.missed());
        let strengths = Strength::day_by_day(self.equation, &self.endurance, Series::of(&sets, &misses));
        // Both are in order of time, one a date.
        let mut dates = self.dates().into_iter();
        let of_day = |(day, strength)| Some((dates.find(|mark| day_number(mark.done.session.date) == day)?, strength));
        strengths.into_iter().filter_map(of_day).collect()
    }

    /// What a date's surest set says by itself.
    pub(crate) fn estimate_on(&self, date: NaiveDate) -> Option<Estimate> {
        self.estimate(self.rated_on(date)?)
    }

    /// The unit of the last load that is one number; kilograms where none is.
    pub(crate) fn unit(&self) -> Unit {
        let plain = self.days.iter().rev().find_map(|rated| match rated.mark.group.load {
            Load::Plain { unit, .. } => Some(unit),
            _ => None,
        });
        plain.unwrap_or(Unit::Kg)
    }

    /// The lifter's own weight that stands in the loads of this lift, as of the last day that has it.
    pub(crate) fn own_weight(&self) -> Option<Mass> {
        self.days.last().and_then(|rated| own_weight(&rated.mark))
    }
}
