//! A set as evidence of strength.

use super::{Endurance, ONE_DAY};
use crate::science::statistics::normal;
use crate::science::{Equation, Trust};

/// A set whose distance from failure is known, if only roughly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// The day it was done, counted from any day.
    pub day: i64,
    /// Everything that was lifted, in any unit of mass that stays the same.
    pub load: f64,
    /// Good reps and those in reserve.
    pub reps_to_failure: f64,
    /// The standard error of that number, in reps.
    pub reps_error: f64,
    /// The standard error of the load, as a share of it; 0 for a load that was weighed.
    pub load_error: f64,
}

/// An estimate and the 80 % interval round it, in the unit of what was observed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// One chance in ten lies below.
    pub low: f64,
    /// As likely too high as too low.
    pub middle: f64,
    /// One chance in ten lies above.
    pub high: f64,
}

/// How many standard deviations an 80 % interval reaches to each side: 0.9 of a normal distribution lie below.
pub(super) const REACH: f64 = 1.281_551_565_544_600_4;

impl Observation {
    /// The estimated maximum of this set alone, for a lifter of a given strength-endurance.
    ///
    /// The interval is wide by the error of rating reps in reserve, by what is not known of the lifter's
    /// strength-endurance, and by an approximate load; it does not hold how much a lifter varies from day to
    /// day, since it speaks of that day. A single at RPE 10 is the maximum, with no equation in it. `None` where
    /// the reps lie outside the equation's range.
    #[must_use]
    pub fn maximum(&self, equation: Equation, endurance: &Endurance) -> Option<Interval> {
        Trust::of(self.reps_to_failure)?;
        let logarithm = equation.multiple(self.reps_to_failure)?.ln();
        let middle = self.load * (endurance.mean() * logarithm).exp();
        let spread = self.own_spread(equation, endurance)?.hypot(logarithm * endurance.spread());
        let factor = (REACH * spread).exp();
        middle.is_finite().then_some(Interval { low: middle / factor, middle, high: middle * factor })
    }

    /// The relative standard error of this set's estimate that no other set shares: of the rating and the load.
    pub(super) fn own_spread(&self, equation: Equation, endurance: &Endurance) -> Option<f64> {
        let rating = endurance.mean() * equation.share_per_rep(self.reps_to_failure)? * self.reps_error;
        Some(rating.hypot(self.load_error))
    }

    /// The chance that strength was greater on this day than on another, by one set of each.
    ///
    /// Normal on the logarithm: the difference of the two estimates over its standard error. The errors of
    /// rating and load are of each set; what is not known of the lifter's strength-endurance moves both alike, so
    /// only the difference between their reps lets it in. Each day adds [`ONE_DAY`], by which a tested maximum
    /// varies on its own: nothing smaller may be called a change.
    #[must_use]
    pub fn chance_above(&self, other: &Observation, equation: Equation, endurance: &Endurance) -> Option<f64> {
        Trust::of(self.reps_to_failure)?;
        Trust::of(other.reps_to_failure)?;
        let (own, others) =
            (equation.multiple(self.reps_to_failure)?.ln(), equation.multiple(other.reps_to_failure)?.ln());
        let rise = (self.load / other.load).ln() + endurance.mean() * (own - others);
        let shared = (own - others) * endurance.spread();
        let spreads =
            [self.own_spread(equation, endurance)?, other.own_spread(equation, endurance)?, shared, ONE_DAY, ONE_DAY];
        let error = spreads.iter().map(|spread| spread * spread).sum::<f64>().sqrt();
        let chance = normal::below(rise / error);
        chance.is_finite().then_some(chance)
    }
}
