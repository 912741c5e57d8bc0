//! A set as evidence of strength.

use super::{Endurance, ONE_DAY};
use crate::science::Equation;
use crate::science::statistics::normal;

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

/// A set in the logarithms of an equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Logged {
    /// The logarithm of the load.
    pub(super) load: f64,
    /// The logarithm of what the equation multiplies the load by.
    pub(super) multiple: f64,
    /// By what share that multiple rises for one rep.
    pub(super) share: f64,
    /// The standard error of the reps to failure; none for a single at RPE 10.
    pub(super) reps_error: f64,
    /// The standard error of the load, as a share.
    pub(super) load_error: f64,
}

impl Logged {
    /// The relative standard error of this set's estimate that no other set shares: of the rating and the load.
    fn own_spread(&self, endurance: &Endurance) -> f64 {
        (endurance.mean() * self.share * self.reps_error).hypot(self.load_error)
    }
}

impl Observation {
    /// `None` where the reps lie outside the equation's range, where the load is no positive number, and where an
    /// error is no number.
    pub(super) fn logged(&self, equation: Equation) -> Option<Logged> {
        let (load, multiple) = (self.load.ln(), equation.multiple(self.reps_to_failure)?.ln());
        if ![load, self.reps_error, self.load_error].into_iter().all(f64::is_finite) {
            return None;
        }
        Some(Logged {
            load,
            multiple,
            share: equation.share_per_rep(self.reps_to_failure)?,
            // A single at RPE 10 is not rated but lifted: it is the maximum, with no equation in it.
            reps_error: if multiple > 0.0 { self.reps_error } else { 0.0 },
            load_error: self.load_error,
        })
    }

    /// The estimated maximum of this set alone, for a lifter of a given strength-endurance.
    ///
    /// The interval is wide by the error of rating reps in reserve, by what is not known of the lifter's
    /// strength-endurance, and by an approximate load; it does not hold how much a lifter varies from day to
    /// day, since it speaks of that day. A single at RPE 10 is the maximum, with no equation in it. `None` where
    /// the reps lie outside the equation's range, and for a load that is no positive number.
    #[must_use]
    pub fn maximum(&self, equation: Equation, endurance: &Endurance) -> Option<Interval> {
        let set = self.logged(equation)?;
        let middle = self.load * (endurance.mean() * set.multiple).exp();
        let spread = set.own_spread(endurance).hypot(set.multiple * endurance.spread());
        let factor = (REACH * spread).exp();
        let high = middle * factor;
        high.is_finite().then_some(Interval { low: middle / factor, middle, high })
    }

    /// The chance that strength was greater when this set was done than when another was, by these two sets alone.
    ///
    /// Normal on the logarithm: the difference of the two estimates over its standard error. The errors of
    /// rating and load are of each set; what is not known of the lifter's strength-endurance moves both alike, so
    /// only the difference between their reps lets it in. Each day adds [`ONE_DAY`], by which a tested maximum
    /// varies on its own: a good day is no greater strength. `None` as for [`maximum`](Observation::maximum).
    #[must_use]
    pub fn chance_above(&self, other: &Observation, equation: Equation, endurance: &Endurance) -> Option<f64> {
        let (own, others) = (self.logged(equation)?, other.logged(equation)?);
        let apart = own.multiple - others.multiple;
        let rise = own.load - others.load + endurance.mean() * apart;
        let spreads =
            [own.own_spread(endurance), others.own_spread(endurance), apart * endurance.spread(), ONE_DAY, ONE_DAY];
        let error = spreads.iter().map(|spread| spread * spread).sum::<f64>().sqrt();
        Some(normal::below(rise / error))
    }
}
