//! Strength on a day.

use super::miss::{Bounds, Series};
use super::observation::{Interval, REACH};
use super::track::{Seen, Track, Walk};
use super::{Endurance, ONE_DAY};
use crate::science::Equation;
use crate::science::statistics::normal;

/// A part of what is believed: one value of strength-endurance, its chance, and strength under it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Part {
    endurance: f64,
    chance: f64,
    /// Of the logarithm of the maximum.
    mean: f64,
    variance: f64,
}

/// Strength on a day, from every set up to it: what would be lifted on an ordinary day. How far a single day strays
/// from that ([`ONE_DAY`]) is left out, as is the luck of one set.
#[derive(Clone, Debug, PartialEq)]
pub struct Strength {
    equation: Equation,
    parts: Vec<Part>,
}

impl Strength {
    /// Strength on a day, from the days up to it; `None` without any set that the equation reaches. A miss before the
    /// first set says nothing.
    #[must_use]
    pub fn on(equation: Equation, endurance: &Endurance, days: Series<'_>, day: i64) -> Option<Self> {
        let seen = Seen::all(equation, days.sets.iter().filter(|set| set.day <= day));
        if seen.is_empty() {
            return None;
        }
        let missed = Bounds::all(days.misses.iter().filter(|miss| miss.day <= day));
        let tracks = Track::follow(endurance.chances.iter().map(|(value, _)| *value), &seen, &missed);
        Some(Strength::of(equation, endurance, tracks, day))
    }

    /// Strength on each of the days, from it and those before: the same as [`on`](Strength::on) says of each, in one
    /// pass. Days that say nothing are left out.
    #[must_use]
    pub fn day_by_day(equation: Equation, endurance: &Endurance, days: Series<'_>) -> Vec<(i64, Self)> {
        let (seen, missed) = (Seen::all(equation, days.sets), Bounds::all(days.misses));
        let endurances = endurance.chances.iter().map(|(value, _)| *value);
        let Some(mut walk) = Walk::begin(endurances, &seen, &missed) else { return Vec::new() };
        let mut course = vec![(walk.day, Strength::of(equation, endurance, walk.tracks(), walk.day))];
        while let Some(day) = walk.step() {
            course.push((day, Strength::of(equation, endurance, walk.tracks(), walk.day)));
        }
        course
    }

    fn of(equation: Equation, endurance: &Endurance, tracks: Vec<Track>, day: i64) -> Self {
        let part = |((value, chance), mut track): (&(f64, f64), Track)| {
            track.drift_to(day);
            Part { endurance: *value, chance: *chance, mean: track.mean, variance: track.variance * track.scatter() }
        };
        Strength { equation, parts: endurance.chances.iter().zip(tracks).map(part).collect() }
    }

    /// The estimated maximum with its 80 % interval.
    #[must_use]
    pub fn maximum(&self) -> Interval {
        self.interval(0.0)
    }

    /// The load for so many reps to failure, with its 80 % interval; `None` outside the equation's range.
    #[must_use]
    pub fn load_for(&self, reps_to_failure: f64) -> Option<Interval> {
        Some(self.interval(self.equation.multiple(reps_to_failure)?.ln()))
    }

    /// The reps to failure to be expected with a load; `None` where it is heavier than the maximum, or so light
    /// that the reps leave the equation's range.
    #[must_use]
    pub fn reps_at(&self, load: f64) -> Option<f64> {
        let endurance: f64 = self.parts.iter().map(|part| part.endurance * part.chance).sum();
        let multiple = ((self.maximum().middle / load).ln() / endurance).exp();
        self.equation.reps_at(multiple, 1.0)
    }

    /// The same as it will show in one attempt on a day: less sure by [`ONE_DAY`], by which a tested maximum varies on
    /// its own.
    #[must_use]
    pub fn in_one_attempt(&self) -> Self {
        let part = |part: &Part| Part { variance: part.variance + ONE_DAY * ONE_DAY, ..*part };
        Strength { equation: self.equation, parts: self.parts.iter().map(part).collect() }
    }

    /// The load that the maximum reaches with so much of a chance; `None` where that is not between 0 and 1.
    #[must_use]
    pub fn maximum_at(&self, chance: f64) -> Option<f64> {
        let (mean, spread) = self.logarithm(0.0);
        Some((mean - spread * normal::quantile(chance)?).exp())
    }

    /// The chance that the maximum is at least so much, which is 1 for nothing and less. It is the chance of
    /// strength, not of an attempt.
    #[must_use]
    pub fn chance_of(&self, maximum: f64) -> f64 {
        if maximum <= 0.0 {
            return 1.0;
        }
        let (mean, spread) = self.logarithm(0.0);
        normal::below((mean - maximum.ln()) / spread)
    }

    /// Mean and standard deviation of the logarithm of the load for reps whose multiple has this logarithm. The
    /// parts together are near enough to one normal distribution.
    fn logarithm(&self, multiple: f64) -> (f64, f64) {
        let centre = |part: &Part| part.mean - part.endurance * multiple;
        let mean: f64 = self.parts.iter().map(|part| part.chance * centre(part)).sum();
        let apart = |part: &Part| part.chance * (part.variance + (centre(part) - mean).powi(2));
        (mean, self.parts.iter().map(apart).sum::<f64>().sqrt())
    }

    fn interval(&self, multiple: f64) -> Interval {
        let (mean, spread) = self.logarithm(multiple);
        let (middle, factor) = (mean.exp(), (REACH * spread).exp());
        Interval { low: middle / factor, middle, high: middle * factor }
    }
}
