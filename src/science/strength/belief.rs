//! Strength on a day.

use super::Endurance;
use super::observation::{Interval, Observation, REACH};
use crate::science::statistics::normal;
use crate::science::{Equation, Trust};

/// By what share a lifter's maximum varies from one test to the next with nothing changed: 2 %.
///
/// Grgic et al. 2020 (Sports Med Open 6:31) found coefficients of variation from 0.5 to 12.1 %, median 4.2 %, over all
/// sorts of people; 1 to 3 % for experienced lifters is from memory, medium confidence. It is the floor under every
/// change that is claimed.
pub const ONE_DAY: f64 = 0.02;

/// By what share strength may drift in a week, as a standard deviation that grows with the root of time: 1 %. This
/// project's own choice: about 2 % in a four-week block and 7 % in a year, either way.
pub const WEEKLY_DRIFT: f64 = 0.01;

/// Strength as a logarithm followed through a lift's days for one value of strength-endurance: a Kalman filter of
/// one number (Kalman 1960, J Basic Eng 82(1):35–45).
#[derive(Clone, Copy, Debug)]
pub(super) struct Track {
    day: i64,
    mean: f64,
    variance: f64,
    /// The logarithm of how well the reps to failure were foretold, but for a constant.
    pub(super) fit: f64,
    begun: bool,
}

/// A set as the filter sees it, the same for every value of strength-endurance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    day: i64,
    /// The logarithm of the load.
    load: f64,
    /// The logarithm of the equation's multiple.
    multiple: f64,
    /// By what share the multiple rises for one rep.
    share: f64,
    reps_variance: f64,
    /// Of the load and of the day, as shares.
    other_variance: f64,
}

impl Seen {
    /// The sets that an estimate may rest on, in the same order.
    pub(super) fn all(equation: Equation, days: &[Observation]) -> Vec<Seen> {
        let seen = days.iter().filter_map(|set| {
            Trust::of(set.reps_to_failure)?;
            let load = set.load.ln();
            load.is_finite().then_some(Seen {
                day: set.day,
                load,
                multiple: equation.multiple(set.reps_to_failure)?.ln(),
                share: equation.share_per_rep(set.reps_to_failure)?,
                reps_variance: set.reps_error * set.reps_error,
                other_variance: set.load_error * set.load_error + ONE_DAY * ONE_DAY,
            })
        });
        seen.collect()
    }
}

impl Track {
    /// Follows the days in order.
    pub(super) fn follow(endurance: f64, days: &[Seen]) -> Self {
        let mut track = Track { day: 0, mean: 0.0, variance: 0.0, fit: 0.0, begun: false };
        for set in days {
            track.see(endurance, set);
        }
        track
    }

    fn see(&mut self, endurance: f64, set: &Seen) {
        let seen = set.load + endurance * set.multiple;
        let slope = endurance * set.share;
        let noise = slope * slope * set.reps_variance + set.other_variance;
        if !self.begun {
            *self = Track { day: set.day, mean: seen, variance: noise, fit: 0.0, begun: true };
            return;
        }
        self.drift_to(set.day);
        let (surprise, expected) = (seen - self.mean, self.variance + noise);
        // The slope turns the surprise in strength into one in reps, which is what was rated.
        self.fit += slope.ln() - (expected.ln() + surprise * surprise / expected) / 2.0;
        let gain = self.variance / expected;
        self.mean += gain * surprise;
        self.variance *= 1.0 - gain;
    }

    fn drift_to(&mut self, day: i64) {
        let weeks = (day - self.day).max(0) as f64 / 7.0;
        self.variance += WEEKLY_DRIFT * WEEKLY_DRIFT * weeks;
        self.day = self.day.max(day);
    }
}

/// A part of what is believed: one value of strength-endurance, its chance, and strength under it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Part {
    endurance: f64,
    chance: f64,
    /// Of the logarithm of the maximum.
    mean: f64,
    variance: f64,
}

/// Strength on a day, from every set up to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Strength {
    equation: Equation,
    parts: Vec<Part>,
}

impl Strength {
    /// Strength on a day, from the days up to it in order, one set a day; `None` without any that the equation
    /// reaches.
    #[must_use]
    pub fn on(equation: Equation, endurance: &Endurance, days: &[Observation], day: i64) -> Option<Self> {
        let upto: Vec<Observation> = days.iter().filter(|set| set.day <= day).copied().collect();
        let seen = Seen::all(equation, &upto);
        if seen.is_empty() {
            return None;
        }
        let part = |(value, chance): &(f64, f64)| {
            let mut track = Track::follow(*value, &seen);
            track.drift_to(day);
            Part { endurance: *value, chance: *chance, mean: track.mean, variance: track.variance }
        };
        Some(Strength { equation, parts: endurance.chances.iter().map(part).collect() })
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

    /// The chance that the maximum is at least so much.
    #[must_use]
    pub fn chance_of(&self, maximum: f64) -> f64 {
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
