//! A missed attempt as evidence of strength.
//!
//! A miss names no maximum, it names bounds: where strength was what failed, the maximum of that day lay below the load
//! that was missed, and it lay above what was made. What is known of the maximum is cut off there, and since not every
//! miss is of strength, above not quite. The pieces of a normal distribution that are left are put back into one of the
//! same mean and variance (assumed-density filtering: Minka 2001, "Expectation propagation for approximate Bayesian
//! inference", UAI 17; from memory, high confidence).

use super::Observation;
use crate::science::statistics::normal;

/// An attempt of one rep that was not made, with no fault told of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Miss {
    /// The day, counted as that of an [`Observation`].
    pub day: i64,
    /// Everything that was to be lifted, in the unit of the observations.
    pub load: f64,
    /// The heaviest that was made that day, at whatever effort; `None` where nothing was. A load as heavy as the one
    /// that was missed, or heavier, shows that it was within strength, and the miss says nothing.
    pub made: Option<f64>,
    /// The standard error of both loads, as a share of them; 0 for loads that were weighed.
    pub load_error: f64,
}

/// What is known of a lift's days, in order of time: at most one set and one miss a day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Series<'a> {
    /// The sets.
    pub sets: &'a [Observation],
    /// The misses.
    pub misses: &'a [Miss],
}

impl<'a> Series<'a> {
    /// Sets and misses.
    #[must_use]
    pub fn of(sets: &'a [Observation], misses: &'a [Miss]) -> Self {
        Series { sets, misses }
    }
}

/// How often an attempt within strength fails all the same, by command, depth, grip or balance: one time in ten.
///
/// Common practice, no source: no published share of misses that are not of strength was at hand. With it no miss is
/// believed outright, however low. An attempt above strength always fails.
pub const WITHIN_STRENGTH: f64 = 0.1;

/// No maximum is taken to be farther below what was made than so many standard deviations: beyond, the shares of a
/// normal distribution are less than a number holds.
const FARTHEST: f64 = 30.0;

/// A miss in logarithms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    pub(super) day: i64,
    /// What was made; minus infinity where nothing was.
    low: f64,
    /// What was missed.
    high: f64,
    variance: f64,
}

/// The maximum of one day as it is known before its miss: normal on the logarithm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Maximum {
    pub(super) mean: f64,
    pub(super) variance: f64,
    /// How much of its variance is strength and not the day: its covariance with strength.
    pub(super) shared: f64,
}

/// What a miss does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pull {
    /// By how much strength rises.
    pub(super) mean: f64,
    /// By how much its variance grows.
    pub(super) variance: f64,
}

impl Bounds {
    /// The misses that say something, in the same order.
    pub(super) fn all<'a>(misses: impl IntoIterator<Item = &'a Miss>) -> Vec<Bounds> {
        let bounds = |miss: &Miss| {
            let made = miss.made.unwrap_or(0.0);
            let (low, high, variance) = (made.ln(), miss.load.ln(), miss.load_error.powi(2));
            let is_known = high.is_finite() && variance.is_finite();
            (is_known && low < high).then_some(Bounds { day: miss.day, low, high, variance })
        };
        misses.into_iter().filter_map(bounds).collect()
    }

    /// What the miss does to strength.
    ///
    /// Let a and b be the distances of what was made and what was missed from the maximum that is expected, in its
    /// standard deviations s. Of the normal distribution the part below a is cut off, and the part above b kept with the
    /// weight q of [`WITHIN_STRENGTH`], which leaves the share Z = (Φ(b) − Φ(a)) + q (1 − Φ(b)). With
    /// k = ((1 − q) φ(b) − φ(a)) / Z the mean falls by k s, and the variance by the share
    /// k² + (b (1 − q) φ(b) − a φ(a)) / Z. For q = 0 these are the moments of the doubly truncated normal distribution
    /// (Johnson, Kotz and Balakrishnan 1994, *Continuous Univariate Distributions* 1, section 10.1; from memory, high
    /// confidence); for any q they are the derivatives of ln Z (Minka 2001). Strength follows by its regression on the
    /// day's maximum, which is exact: given that, the miss says no more of it.
    pub(super) fn pull(&self, maximum: Maximum) -> Pull {
        let spread = (maximum.variance + self.variance).sqrt();
        // A maximum that was lifted is known, and no miss tells more of it.
        if spread <= 0.0 {
            return Pull { mean: 0.0, variance: 0.0 };
        }
        let low = ((self.low - maximum.mean) / spread).min(FARTHEST);
        let high = ((self.high - maximum.mean) / spread).max(low);
        let of_strength = 1.0 - WITHIN_STRENGTH;
        // Both shares are counted from above, where small ones keep their digits.
        let share = normal::below(-low) - of_strength * normal::below(-high);
        let (at_low, at_high) = (normal::density(low) / share, of_strength * normal::density(high) / share);
        let fall = at_high - at_low;
        let low_part = if low.is_finite() { low * at_low } else { 0.0 };
        let slope = maximum.shared / spread;
        let narrowed = fall * fall + high * at_high - low_part;
        Pull { mean: -slope * fall, variance: -slope * slope * narrowed }
    }
}
