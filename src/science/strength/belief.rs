//! Strength on a day.

use super::curve::Curve;
use super::day::{Day, End, Interval, REACH};
use super::filter::{Filter, ONE_DAY, WEEKLY_DRIFT, bias_shown, rating_error};
use super::state::{BIAS, STRENGTH, THEN};
use crate::science::Equation;
use crate::science::statistics::normal;
use std::collections::HashMap;
use std::sync::Arc;

/// A floor under the standard error of strength, as a share: what all of a lifter's ratings, lifts and days share that
/// no number of them shows. This project's own choice, by the simulated lifters of `docs/science.md`.
const FLOOR: f64 = 0.03;

/// The same for the difference between two weeks, which share most of it. By those lifters too.
const BETWEEN_WEEKS: f64 = 0.01;

/// A share of what is believed: one curve, its chance, and strength under it.
#[derive(Clone, Debug, PartialEq)]
struct Part {
    curve: Arc<Curve>,
    chance: f64,
    /// Of the logarithm of the maximum.
    mean: f64,
    variance: f64,
    /// The lifter's bias in rating.
    bias: f64,
}

/// Strength on a day, from every set up to it: what would be lifted on an ordinary, rested day. How far a single day
/// strays from that ([`ONE_DAY`]) is left out.
#[derive(Clone, Debug, PartialEq)]
pub struct Strength {
    parts: Vec<Part>,
    /// What was made that day: no estimate is less.
    made: f64,
}

/// What other lifts teach of a lifter's curve, and how many days it rests on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Taught {
    logarithms: Vec<f64>,
    /// Days with a rating.
    pub days: usize,
}

impl Taught {
    /// What is added to the logarithms of the curves' chances.
    pub(super) fn logarithms(&self) -> &[f64] {
        &self.logarithms
    }

    /// Both.
    #[must_use]
    pub fn and(mut self, other: &Taught) -> Self {
        self.days += other.days;
        self.logarithms.resize(other.logarithms.len().max(self.logarithms.len()), 0.0);
        for (one, other) in self.logarithms.iter_mut().zip(&other.logarithms) {
            *one += other;
        }
        self
    }

    /// What several lifts teach together, as another lift takes it: half of what each says, for lifts differ (this
    /// project's own choice).
    #[must_use]
    pub fn together(all: &[Taught]) -> Self {
        let mut sum = all.iter().fold(Taught::default(), Taught::and);
        sum.logarithms.iter_mut().for_each(|one| *one /= 2.0);
        sum
    }
}

/// A day of a course.
#[derive(Clone, Debug)]
pub struct Known {
    /// The day.
    pub day: i64,
    /// Strength on it, from the days before; nothing on the first.
    pub foretold: Option<Strength>,
    /// Strength on it, from it and those before.
    pub strength: Strength,
}

/// A lift's days gone through in order, strength on each of them kept.
#[derive(Clone, Debug)]
pub struct Course {
    /// Each day from the first set that was made.
    pub days: Vec<Known>,
    filter: Filter,
    /// The same before the last day; nothing on the first.
    before: Option<Filter>,
    rated: usize,
}

impl Course {
    /// Through the days; `None` without any set that was made.
    #[must_use]
    pub fn over(equation: Equation, taught: &Taught, days: &[Day]) -> Option<Self> {
        Course::told_from(i64::MIN, equation, taught, days)
    }

    /// The same with no days in it before one, all of which count.
    #[must_use]
    pub fn told_from(from: i64, equation: Equation, taught: &Taught, days: &[Day]) -> Option<Self> {
        let begin = |(at, first)| Some((at, first, Filter::begin(equation, first, &taught.logarithms)?));
        let (at, first, mut filter) = days.iter().enumerate().find_map(begin)?;
        let mut course = vec![Known { day: first.day, foretold: None, strength: Strength::of(&filter, Some(first)) }];
        let mut before = None;
        for (nth, day) in days.iter().enumerate().skip(at + 1) {
            if nth + 1 == days.len() {
                before = Some(filter.clone());
            }
            course.extend(told(&mut filter, day, from));
        }
        course.retain(|known| known.day >= from);
        Some(Course { days: course, filter, before, rated: rated(days) })
    }

    /// The same through days of which this one went through all, or all but its last: their number is `same`. Nothing
    /// where it went another way.
    pub(super) fn on_from(&self, same: usize, of: usize, days: &[Day]) -> Option<Self> {
        let rest = days.get(same..).filter(|rest| rest.len() <= 1)?;
        let mut course = self.clone();
        if same + 1 == of {
            course.days.pop();
            course.filter = course.before.take()?;
        } else if same != of {
            return None;
        }
        if let [day] = rest {
            course.before = Some(course.filter.clone());
            course.days.extend(told(&mut course.filter, day, i64::MIN));
        } else if same + 1 == of {
            // What stood before the day that is now the last is not known.
            return None;
        }
        course.rated = rated(days);
        Some(course)
    }

    /// Strength on a day after the last, or on it.
    #[must_use]
    pub fn on(&self, day: i64) -> Option<Strength> {
        let last = self.days.last()?;
        if day <= last.day {
            return (day == last.day).then(|| last.strength.clone());
        }
        let mut filter = self.filter.clone();
        filter.pass_to(day);
        Some(Strength::of(&filter, None))
    }

    /// What the days teach of the curve, and on how many with a rating that rests.
    #[must_use]
    pub fn taught(&self) -> Taught {
        Taught { logarithms: self.filter.taught(), days: self.rated }
    }
}

/// On to a day, which is told where it is no earlier than another one.
fn told(filter: &mut Filter, day: &Day, from: i64) -> Option<Known> {
    filter.pass_to(day.day);
    let is_told = day.day >= from;
    let foretold = is_told.then(|| Strength::of(filter, None));
    filter.see(day);
    is_told.then(|| Known { day: day.day, foretold, strength: Strength::of(filter, Some(day)) })
}

/// On how many days something was rated.
fn rated(days: &[Day]) -> usize {
    days.iter().filter(|day| day.sets.iter().any(|set| matches!(set.end, End::Left(_)))).count()
}

impl Strength {
    /// Strength on a day, from the days up to it; `None` without any set that was made.
    #[must_use]
    pub fn on(equation: Equation, taught: &Taught, days: &[Day], day: i64) -> Option<Self> {
        let known = days.partition_point(|known| known.day <= day);
        Course::over(equation, taught, days.get(..known)?)?.on(day)
    }

    /// The chance that strength was greater on one day than on an earlier one, both from all that is known on the later;
    /// `None` where nothing is known on the earlier. A floor keeps it from being too sure.
    #[must_use]
    pub fn chance_above(equation: Equation, taught: &Taught, days: &[Day], now: i64, then: i64) -> Option<f64> {
        let known = days.partition_point(|day| day.day <= then);
        let mut filter = Course::over(equation, taught, days.get(..known)?)?.filter;
        filter.pass_to(then);
        filter.remember();
        days.iter().filter(|day| then < day.day && day.day <= now).for_each(|day| filter.see(day));
        filter.pass_to(now);
        let (mut above, chances) = (0.0, filter.chances());
        for (part, chance) in filter.parts.iter().zip(chances) {
            let rise = part.state.number(STRENGTH) - part.state.number(THEN);
            let both = part.state.between(STRENGTH, STRENGTH) + part.state.between(THEN, THEN);
            let variance = both - 2.0 * part.state.between(STRENGTH, THEN);
            above += chance * normal::below(rise / (variance.max(0.0) + BETWEEN_WEEKS * BETWEEN_WEEKS).sqrt());
        }
        Some(above.clamp(0.0, 1.0))
    }

    fn of(filter: &Filter, today: Option<&Day>) -> Self {
        let parts = filter.parts.iter().zip(filter.chances()).map(|(part, chance)| Part {
            curve: part.curve.clone(),
            chance,
            mean: part.state.number(STRENGTH),
            variance: part.state.between(STRENGTH, STRENGTH) + FLOOR * FLOOR,
            bias: part.state.number(BIAS),
        });
        let made = today.into_iter().flat_map(|day| &day.sets).filter(|set| set.reps > 0).map(|set| set.load);
        Strength { parts: parts.collect(), made: made.fold(0.0, f64::max) }
    }

    /// The estimated maximum with its 80 % interval; on a day on which more was made, what was made.
    #[must_use]
    pub fn maximum(&self) -> Interval {
        let Interval { low, middle, high } = self.interval(|_| 0.0);
        Interval { low, middle: middle.max(self.made), high: high.max(self.made) }
    }

    /// The load for so many reps with so many left as this lifter rates, with its 80 % interval; `None` outside the
    /// equation's range.
    #[must_use]
    pub fn load_for(&self, reps: f64, left: f64) -> Option<Interval> {
        let to_failure = reps + left;
        let (first, most) = (1.0, self.parts.first()?.curve.most());
        let log = |part: &Part| part.curve.log_multiple(to_failure + bias_shown(left) * part.bias);
        (first..=most).contains(&to_failure).then(|| self.interval(log))
    }

    /// The reps to failure to be expected with a load, as this lifter will rate them with so many done; `None` where it
    /// is heavier than the maximum, or so light that the reps leave the equation's range.
    #[must_use]
    pub fn reps_at(&self, load: f64) -> Option<f64> {
        let (log, most) = (load.ln(), self.parts.first()?.curve.most());
        let reps: f64 = self.parts.iter().map(|part| part.chance * part.curve.reps(part.mean - log)).sum();
        (1.0..=most).contains(&reps).then_some(reps)
    }

    /// The reps that a lifter with this bias says to be left where so many are.
    #[must_use]
    pub fn said(&self, left: f64) -> f64 {
        if left > 0.0 { (left - bias_shown(left) * self.bias()).max(0.0) } else { left }
    }

    /// The reps that are left where a lifter with this bias says so many. How much of the bias shows goes by what was
    /// foretold, never by what was said.
    #[must_use]
    pub fn left(&self, said: f64, foretold: f64) -> f64 {
        said + bias_shown(foretold.max(0.0)) * self.bias()
    }

    fn bias(&self) -> f64 {
        self.parts.iter().map(|part| part.chance * part.bias).sum()
    }

    /// The reps to failure with a load, with an 80 % interval: with a load above the maximum less than one.
    #[must_use]
    pub fn reps_with(&self, load: f64) -> Option<Interval> {
        let log = load.ln();
        let reps = |part: &Part, strength: f64| part.curve.reps(strength - log);
        let mean: f64 = self.parts.iter().map(|part| part.chance * reps(part, part.mean)).sum();
        let most = self.parts.first()?.curve.most();
        if !log.is_finite() || mean > most {
            return None;
        }
        // Reps rise with strength under every curve, so an end of the reps is an end of the mixture.
        let find = |share: f64| {
            let below = |count: f64| {
                let of = |part: &Part| {
                    let apart = log + part.curve.log_multiple(count) - part.mean;
                    part.chance * normal::below(apart / part.variance.sqrt())
                };
                self.parts.iter().map(of).sum::<f64>()
            };
            bisect(mean - 30.0, mean + 60.0, |count| below(count) < share)
        };
        Some(Interval { low: find(0.1), middle: find(0.5), high: find(0.9) })
    }

    /// The same so many weeks on, strength rising by such a share a week, give or take an error, and drifting.
    #[must_use]
    pub fn ahead(&self, weeks: f64, trend: f64, error: f64) -> Self {
        let more = WEEKLY_DRIFT * WEEKLY_DRIFT * weeks.abs() + (error * weeks).powi(2);
        let part =
            |part: &Part| Part { mean: part.mean + trend * weeks, variance: part.variance + more, ..part.clone() };
        Strength { parts: self.parts.iter().map(part).collect(), made: 0.0 }
    }

    /// The same as it will show in one attempt on a day: less sure by [`ONE_DAY`], by which a tested maximum varies on
    /// its own.
    #[must_use]
    pub fn in_one_attempt(&self) -> Self {
        self.less_sure(|_| ONE_DAY)
    }

    /// The load that will be done on a day for so many reps, with so many said to be left, with its 80 % interval: the day
    /// strays, and the rating errs. `None` outside the equation's range.
    #[must_use]
    pub fn load_that_day(&self, reps: f64, left: f64) -> Option<Interval> {
        let rated = |part: &Part| part.curve.slope(reps + left) * rating_error(left);
        self.in_one_attempt().less_sure(rated).load_for(reps, left)
    }

    /// With a standard error of its own added under each curve.
    fn less_sure(&self, error: impl Fn(&Part) -> f64) -> Self {
        let part = |part: &Part| Part { variance: part.variance + error(part).powi(2), ..part.clone() };
        Strength { parts: self.parts.iter().map(part).collect(), made: self.made }
    }

    /// The load that the maximum reaches with so much of a chance; `None` where that is not between 0 and 1.
    #[must_use]
    pub fn maximum_at(&self, chance: f64) -> Option<f64> {
        (chance > 0.0 && chance < 1.0).then(|| self.quantile(1.0 - chance, |_| 0.0))
    }

    /// The chance of one attempt at a load, were strength at the lower and at the upper end of the half that is most likely.
    #[must_use]
    pub fn chances_of(&self, load: f64) -> [f64; 2] {
        let quarter = |share: f64| self.quantile(share, |_| 0.0);
        [quarter(0.25), quarter(0.75)].map(|strength| normal::below((strength / load).ln() / ONE_DAY))
    }

    /// The chance that the maximum is at least so much, which is 1 for nothing and less. It is the chance of
    /// strength, not of an attempt.
    #[must_use]
    pub fn chance_of(&self, maximum: f64) -> f64 {
        if maximum <= 0.0 {
            return 1.0;
        }
        let log = maximum.ln();
        let of = |part: &Part| part.chance * normal::below((part.mean - log) / part.variance.sqrt());
        self.parts.iter().map(of).sum::<f64>().min(1.0)
    }

    /// The chance that the logarithm of a load is less; `log` is what each curve takes off the maximum.
    fn below(&self, load: f64, log: &impl Fn(&Part) -> f64) -> f64 {
        let of = |part: &Part| part.chance * normal::below((load + log(part) - part.mean) / part.variance.sqrt());
        self.parts.iter().map(of).sum()
    }

    fn quantile(&self, share: f64, log: impl Fn(&Part) -> f64) -> f64 {
        let centre = |part: &Part| part.mean - log(part);
        let mean: f64 = self.parts.iter().map(|part| part.chance * centre(part)).sum();
        bisect(mean - 1.5, mean + 1.5, |load| self.below(load, &log) < share).exp()
    }

    fn interval(&self, log: impl Fn(&Part) -> f64) -> Interval {
        let at = |share: f64| self.quantile(share, &log);
        Interval { low: at(0.1), middle: at(0.5), high: at(0.9) }
    }
}

/// Where something stops being so, to the last digits that matter.
fn bisect(mut low: f64, mut high: f64, is_below: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..44 {
        let middle = low.midpoint(high);
        if is_below(middle) { low = middle } else { high = middle }
    }
    low.midpoint(high)
}

/// One curve of reps against load, as far as it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct ExpectedCurve(Curve);

impl ExpectedCurve {
    /// The logarithm of the maximum over the load for so many reps to failure. Past the ends of the equation's range it
    /// goes on straight: less than one rep is a load above the maximum.
    #[must_use]
    pub fn log_multiple(&self, reps: f64) -> f64 {
        self.0.log_multiple(reps)
    }

    /// The reps to failure at a logarithm of the maximum over the load.
    #[must_use]
    pub fn reps(&self, log_multiple: f64) -> f64 {
        self.0.reps(log_multiple)
    }

    /// Whether so many reps to failure are within the equation's range.
    #[must_use]
    pub fn reaches(&self, reps: f64) -> bool {
        (1.0..=self.0.most()).contains(&reps)
    }
}

/// What is known of how a lifter's reps fall off with load, apart from how strong the lifter is.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves {
    equation: Equation,
    /// Each curve with its chance before anything was learned, and now.
    parts: Vec<(Arc<Curve>, [f64; 2])>,
}

impl Curves {
    /// After all that was taught, by other lifts and the lift's own days.
    #[must_use]
    pub fn of(equation: Equation, taught: &Taught) -> Self {
        let curves = Curve::all(equation).into_iter().enumerate();
        let weight = |(at, (curve, chance)): (usize, (Arc<Curve>, f64))| {
            let learned = taught.logarithms.get(at).copied().unwrap_or_default();
            (curve, [chance, chance.ln() + learned])
        };
        let mut parts: Vec<_> = curves.map(weight).collect();
        let most = parts.iter().map(|(_, [_, log])| *log).fold(f64::NEG_INFINITY, f64::max);
        let sum: f64 = parts.iter().map(|(_, [_, log])| (log - most).exp()).sum();
        parts.iter_mut().for_each(|(_, [_, log])| *log = (*log - most).exp() / sum);
        Curves { equation, parts }
    }

    /// The curve that is to be expected: the mean of those that are held possible now.
    #[must_use]
    pub fn expected(&self) -> ExpectedCurve {
        ExpectedCurve(Curve::mean(self.parts.iter().map(|(curve, [_, chance])| (&**curve, *chance))))
    }

    /// What a set says by itself, of that day: its load times what the equation makes of its reps to failure, raised or
    /// lowered as far as the lifter's own curve was learned to differ from what was held likely before; give or take the
    /// error of the rating, of the load and of the curves. `None` outside the equation's range.
    #[must_use]
    pub fn maximum(&self, load: f64, load_error: f64, to_failure: f64, reps_error: f64) -> Option<Interval> {
        self.over_load(load_error, to_failure, reps_error)?.of(load)
    }

    /// The same over the load.
    fn over_load(&self, load_error: f64, to_failure: f64, reps_error: f64) -> Option<OverLoad> {
        let printed = self.equation.multiple(to_failure)?.ln();
        if !load_error.is_finite() {
            return None;
        }
        let before = self.parts.iter().map(|(curve, [chance, _])| chance * curve.log_multiple(to_failure)).sum::<f64>();
        let now = |what: &dyn Fn(&Curve) -> f64| -> f64 {
            self.parts.iter().map(|(curve, [_, chance])| chance * what(curve)).sum()
        };
        let mean = now(&|curve| curve.log_multiple(to_failure));
        let apart = now(&|curve| (curve.log_multiple(to_failure) - mean).powi(2));
        let slope = now(&|curve| curve.slope(to_failure));
        let own = if before > 0.0 { mean / before } else { 1.0 };
        let spread = (apart + (slope * reps_error).powi(2) + load_error * load_error).sqrt();
        Some(OverLoad { middle: (printed * own).exp(), factor: (REACH * spread).exp() })
    }

    /// To ask for many sets.
    #[must_use]
    pub fn maxima(&self) -> Maxima<'_> {
        Maxima { curves: self, known: HashMap::new() }
    }
}

/// A maximum over its load, and what its ends differ from it by.
#[derive(Clone, Copy, Debug)]
struct OverLoad {
    middle: f64,
    factor: f64,
}

impl OverLoad {
    fn of(self, load: f64) -> Option<Interval> {
        let middle = load * self.middle;
        let high = middle * self.factor;
        let is_one = load > 0.0 && load.is_finite() && high.is_finite();
        is_one.then_some(Interval { low: middle / self.factor, middle, high })
    }
}

/// What sets say by themselves: a lifetime of them has few reps and efforts, and each of these is worked out once.
pub struct Maxima<'c> {
    curves: &'c Curves,
    /// By the bits of the load's error, the reps to failure and their error.
    known: HashMap<[u64; 3], Option<OverLoad>>,
}

impl Maxima<'_> {
    /// As [`Curves::maximum`].
    pub fn of(&mut self, load: f64, load_error: f64, to_failure: f64, reps_error: f64) -> Option<Interval> {
        let key = [load_error, to_failure, reps_error].map(f64::to_bits);
        let known = self.known.entry(key);
        (*known.or_insert_with(|| self.curves.over_load(load_error, to_failure, reps_error)))?.of(load)
    }
}
