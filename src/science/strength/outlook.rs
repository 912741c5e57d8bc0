//! How hard a coming set will be, from one that was done.

use super::observation::{Logged, REACH};
use super::{Endurance, ONE_DAY, Observation, WEEKLY_DRIFT};
use crate::science::Equation;

/// How strength is taken to move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trend {
    /// By what share it rises in a week: 0.005 is half a percent.
    pub weekly: f64,
    /// The standard error of that.
    pub error: f64,
}

impl Trend {
    /// Strength stays as it is.
    pub const UNCHANGED: Trend = Trend { weekly: 0.0, error: 0.0 };
}

/// Reps to failure to be expected, with an 80 % interval. Below 1 the load is more than can be lifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// One chance in ten for fewer.
    pub low: f64,
    /// The middle.
    pub middle: f64,
    /// One chance in ten for more.
    pub high: f64,
}

/// What lies ahead of a set that was done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlook<'a> {
    equation: Equation,
    endurance: &'a Endurance,
    from: Logged,
}

impl<'a> Outlook<'a> {
    /// From a set; `None` where its reps lie outside the equation's range, or its load is no positive number.
    #[must_use]
    pub fn of(equation: Equation, endurance: &'a Endurance, from: Observation) -> Option<Self> {
        Some(Outlook { equation, endurance, from: from.logged(equation)? })
    }

    /// The reps to failure with a load so many weeks on.
    ///
    /// The lifter's curve carried from the set that was done: with a heavier load reps are lost, with more strength
    /// won. The interval holds the error of that set's rating and load, how much a lifter varies on both days, how far
    /// strength drifts unforeseen, the error of the trend, and what is not known of the curve; not the error of the
    /// rating that is still to come. `None` for a load that is no positive number, and where the load is so light
    /// that the reps leave the equation's range.
    #[must_use]
    pub fn reps_with(&self, load: f64, weeks: f64, trend: Trend) -> Option<Expected> {
        let endurance = self.endurance.mean();
        let rise = load.ln() - self.from.load - trend.weekly * weeks;
        if !(rise.is_finite() && trend.error.is_finite()) {
            return None;
        }
        let logarithm = self.from.multiple - rise / endurance;
        let middle = self.reps(logarithm)?;
        let spreads = [
            self.from.share * self.from.reps_error,
            self.from.load_error / endurance,
            std::f64::consts::SQRT_2 * ONE_DAY / endurance,
            WEEKLY_DRIFT * weeks.abs().sqrt() / endurance,
            trend.error * weeks / endurance,
            rise / endurance / endurance * self.endurance.spread(),
        ];
        let apart = REACH * spreads.iter().map(|spread| spread * spread).sum::<f64>().sqrt();
        // The curve bends, so its ends are carried over one by one.
        let low = self.reps(logarithm - apart)?;
        let high = self.reps(logarithm + apart).or_else(|| self.reps_beyond(logarithm + apart))?;
        Some(Expected { low, middle, high })
    }

    /// The load that leaves so many reps to failure so many weeks on: the inverse of the middle of
    /// [`reps_with`](Outlook::reps_with).
    #[must_use]
    pub fn load_for(&self, reps_to_failure: f64, weeks: f64, trend: Trend) -> Option<f64> {
        let logarithm = self.equation.multiple(reps_to_failure)?.ln();
        let fall = self.endurance.mean() * (self.from.multiple - logarithm);
        let load = (self.from.load + fall + trend.weekly * weeks).exp();
        load.is_finite().then_some(load)
    }

    /// Reps from the logarithm of a multiple. A load above the maximum gives less than one rep, along the line that
    /// the curve has at one.
    fn reps(&self, logarithm: f64) -> Option<f64> {
        if logarithm < 0.0 {
            return Some(1.0 + logarithm / self.equation.share_per_rep(1.0)?);
        }
        self.equation.reps_at(logarithm.exp(), 1.0)
    }

    /// Reps above the equation's range, along the line that the curve has at its end.
    fn reps_beyond(&self, logarithm: f64) -> Option<f64> {
        let most = *self.equation.valid_reps().end();
        let past = logarithm - self.equation.multiple(most)?.ln();
        Some(most + past / self.equation.share_per_rep(most)?)
    }
}
