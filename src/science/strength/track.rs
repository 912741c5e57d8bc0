//! Strength as a number followed through a lift's days: the filter, for many values of strength-endurance at once.

use super::miss::{Bounds, Maximum};
use super::observation::Observation;
use crate::science::Equation;

/// By what share a lifter's maximum varies from one test to the next with nothing changed: 2 %.
///
/// Grgic et al. 2020 (Sports Med Open 6:31) found coefficients of variation from 0.5 to 12.1 %, median 4.2 %, over all
/// sorts of people; 1 to 3 % for experienced lifters is from memory, medium confidence. It is the floor under every
/// change that is claimed.
pub const ONE_DAY: f64 = 0.02;

/// By what share strength may drift in a week, as a standard deviation that grows with the root of time: 1 %. This
/// project's own choice: about 2 % in a four-week block and 7 % in a year, either way.
pub const WEEKLY_DRIFT: f64 = 0.01;

/// How many days that came as expected every lifter is granted before a scatter widens the interval; this project's own.
const AS_EXPECTED: f64 = 12.0;

/// Strength as a logarithm followed through a lift's days for one value of strength-endurance: a Kalman filter of
/// one number (Kalman 1960, J Basic Eng 82(1):35–45).
#[derive(Clone, Copy, Debug)]
pub(super) struct Track {
    day: i64,
    pub(super) mean: f64,
    pub(super) variance: f64,
    /// The logarithm of how well the reps to failure were foretold, but for a constant.
    pub(super) fit: f64,
    /// How many days came as a surprise, and the sum of their surprises squared, each over what was expected of it.
    surprises: (f64, f64),
}

/// A set as the filter sees it, the same for every value of strength-endurance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    day: i64,
    /// The logarithm of the load.
    load: f64,
    /// The logarithm of the equation's multiple.
    pub(super) multiple: f64,
    /// By what share the multiple rises for one rep.
    share: f64,
    reps_variance: f64,
    /// Of the load and of the day, as shares.
    other_variance: f64,
}

impl Seen {
    /// The sets that an estimate may rest on, in the same order.
    pub(super) fn all<'a>(equation: Equation, days: impl IntoIterator<Item = &'a Observation>) -> Vec<Seen> {
        let seen = days.into_iter().filter_map(|set| {
            let logged = set.logged(equation)?;
            Some(Seen {
                day: set.day,
                load: logged.load,
                multiple: logged.multiple,
                share: logged.share,
                reps_variance: logged.reps_error.powi(2),
                other_variance: logged.load_error.powi(2) + ONE_DAY.powi(2),
            })
        });
        seen.collect()
    }

    /// The variance that the rating alone gives the logarithm of the multiple.
    pub(super) fn rated_variance(&self) -> f64 {
        self.share * self.share * self.reps_variance
    }

    /// The variance of what the set says of strength.
    fn noise(&self, endurance: f64) -> f64 {
        let slope = endurance * self.share;
        slope * slope * self.reps_variance + self.other_variance
    }

    /// The same of the maximum of its day: without how far that day strays from strength.
    fn noise_of_the_day(&self, endurance: f64) -> f64 {
        (self.noise(endurance) - ONE_DAY * ONE_DAY).max(0.0)
    }

    /// The logarithm of the maximum that it speaks for.
    fn maximum(&self, endurance: f64) -> f64 {
        self.load + endurance * self.multiple
    }

    /// A single at RPE 10: strength itself, with no equation in it.
    fn is_maximum(&self) -> bool {
        self.multiple == 0.0
    }
}

/// Tracks for several values of strength-endurance, field by field: a day is the same sum for all of them, and the
/// machine does several at once.
struct Tracks {
    endurances: Vec<f64>,
    means: Vec<f64>,
    variances: Vec<f64>,
    /// The sums of the squared surprises.
    squares: Vec<f64>,
    /// What the logarithms of the likelihoods come to so far.
    fits: Vec<f64>,
    /// Likelihoods, squared, whose logarithm is still to be taken: one for dozens of factors is a good deal quicker.
    factors: Vec<f64>,
}

/// A factor lies between a millionth and a million: so many stay within what a number holds.
const FACTORS: usize = 40;

impl Tracks {
    fn begin(endurances: Vec<f64>, set: &Seen) -> Self {
        let noise = |endurance: &f64| set.noise(*endurance);
        let count = endurances.len();
        Tracks {
            means: endurances.iter().map(|endurance| set.maximum(*endurance)).collect(),
            variances: endurances.iter().map(noise).collect(),
            squares: vec![0.0; count],
            fits: vec![0.0; count],
            factors: vec![1.0; count],
            endurances,
        }
    }

    /// One day more, after strength has drifted by so much.
    fn see(&mut self, set: &Seen, drift: f64) {
        let states = self.means.iter_mut().zip(&mut self.variances).zip(&mut self.squares).zip(&mut self.factors);
        // The slope turns the surprise in strength into one in reps, which is what was rated. A maximum is found by its
        // load and teaches nothing of reps, however often it is tested.
        let (fixed, rated) = if set.is_maximum() { (1.0, 0.0) } else { (0.0, set.share) };
        for (endurance, (((mean, variance), square), factor)) in self.endurances.iter().zip(states) {
            let before = *variance + drift;
            let surprise = set.maximum(*endurance) - *mean;
            let precision = 1.0 / (before + set.noise(*endurance));
            let slope = fixed + endurance * rated;
            *square += surprise * surprise * precision;
            *factor *= slope * slope * precision;
            let gain = before * precision;
            *mean += gain * surprise;
            *variance = before * (1.0 - gain);
        }
    }

    /// The maximum of the first day, by its set.
    fn first_maxima(&self, set: &Seen) -> Vec<Maximum> {
        let maximum = |endurance: &f64| {
            let variance = set.noise_of_the_day(*endurance);
            Maximum { mean: set.maximum(*endurance), variance, shared: variance }
        };
        self.endurances.iter().map(maximum).collect()
    }

    /// The maximum of a day, after strength has drifted by so much: by the days before and by its set, if it has one,
    /// which is not seen yet.
    fn maxima(&self, set: Option<&Seen>, drift: f64) -> Vec<Maximum> {
        let states = self.means.iter().zip(&self.variances).zip(&self.endurances);
        let maximum = |((mean, variance), endurance): ((&f64, &f64), &f64)| {
            let before = variance + drift;
            let of_the_day = before + ONE_DAY * ONE_DAY;
            let Some(set) = set else { return Maximum { mean: *mean, variance: of_the_day, shared: before } };
            let noise = set.noise_of_the_day(*endurance);
            // The same step as that of strength, for the sum of strength and form.
            let left = noise / (of_the_day + noise);
            let mean = mean + (1.0 - left) * (set.maximum(*endurance) - mean);
            Maximum { mean, variance: of_the_day * left, shared: before * left }
        };
        states.map(maximum).collect()
    }

    /// A day without a set: strength has drifted, and that is all.
    fn pass(&mut self, drift: f64) {
        for variance in &mut self.variances {
            *variance += drift;
        }
    }

    /// The day's miss, after its set.
    fn miss(&mut self, bounds: &Bounds, maxima: Vec<Maximum>) {
        for ((mean, variance), maximum) in self.means.iter_mut().zip(&mut self.variances).zip(maxima) {
            let pull = bounds.pull(maximum);
            *mean += pull.mean;
            *variance += pull.variance;
        }
    }

    /// Takes the logarithms that are due.
    fn settle(&mut self) {
        for (fit, factor) in self.fits.iter_mut().zip(&mut self.factors) {
            *fit += factor.ln() / 2.0;
            *factor = 1.0;
        }
    }

    /// Where each one stands on the day of the last set, so many sets after the first; settled.
    fn at(&self, day: i64, later: usize) -> Vec<Track> {
        let count = later as f64;
        let states = self.means.iter().zip(&self.variances).zip(&self.squares).zip(&self.fits);
        states
            .map(|(((mean, variance), squares), fit)| Track {
                day,
                mean: *mean,
                variance: *variance,
                fit: fit - squares / 2.0,
                surprises: (count, *squares),
            })
            .collect()
    }
}

/// The days of a lift, gone through in order.
pub(super) struct Walk<'s> {
    tracks: Tracks,
    /// The day that was reached.
    pub(super) day: i64,
    /// How many sets were seen after the first.
    later: usize,
    sets: &'s [Seen],
    misses: &'s [Bounds],
}

impl<'s> Walk<'s> {
    /// On the day of the first set, with its miss; nothing without a set. A miss before it has no maximum to cut off.
    pub(super) fn begin(endurances: impl Iterator<Item = f64>, sets: &'s [Seen], misses: &'s [Bounds]) -> Option<Self> {
        let (first, sets) = sets.split_first()?;
        let before = misses.partition_point(|miss| miss.day < first.day);
        let misses = misses.get(before..).unwrap_or(&[]);
        let tracks = Tracks::begin(endurances.collect(), first);
        let mut walk = Walk { tracks, day: first.day, later: 0, sets, misses };
        if let Some(miss) = walk.missed_on(first.day) {
            let maxima = walk.tracks.first_maxima(first);
            walk.tracks.miss(miss, maxima);
        }
        Some(walk)
    }

    /// The miss of a day, which is then behind.
    fn missed_on(&mut self, day: i64) -> Option<&'s Bounds> {
        let (miss, others) = self.misses.split_first().filter(|(miss, _)| miss.day == day)?;
        self.misses = others;
        Some(miss)
    }

    /// On to the next day that has a set or a miss, which is told; nothing after the last.
    pub(super) fn step(&mut self) -> Option<i64> {
        let set = self.sets.first();
        let miss = self.misses.first().filter(|miss| set.is_none_or(|set| miss.day < set.day));
        let day = miss.map(|miss| miss.day).or(set.map(|set| set.day))?;
        let drift = drift(day - self.day);
        let set = set.filter(|_| miss.is_none());
        let missed = self.missed_on(day).map(|miss| (miss, self.tracks.maxima(set, drift)));
        match set {
            Some(set) => {
                self.tracks.see(set, drift);
                self.sets = self.sets.get(1..).unwrap_or(&[]);
                self.later += 1;
                if self.later.is_multiple_of(FACTORS) {
                    self.tracks.settle();
                }
            }
            None => self.tracks.pass(drift),
        }
        if let Some((miss, maxima)) = missed {
            self.tracks.miss(miss, maxima);
        }
        self.day = self.day.max(day);
        Some(day)
    }

    /// Where each one stands on the day that was reached.
    pub(super) fn tracks(&mut self) -> Vec<Track> {
        self.tracks.settle();
        self.tracks.at(self.day, self.later)
    }
}

impl Track {
    /// Follows the days in order for each value of strength-endurance; nothing without a set.
    pub(super) fn follow(endurances: impl Iterator<Item = f64>, sets: &[Seen], misses: &[Bounds]) -> Vec<Self> {
        let Some(mut walk) = Walk::begin(endurances, sets, misses) else { return Vec::new() };
        while walk.step().is_some() {}
        walk.tracks()
    }

    /// By how much the days scatter more than the errors that are reckoned with: 1 where they do not. A few days prove
    /// nothing, so as many again as [`AS_EXPECTED`] are taken to have come as expected.
    pub(super) fn scatter(&self) -> f64 {
        let (days, squares) = self.surprises;
        ((AS_EXPECTED + squares) / (AS_EXPECTED + days)).max(1.0)
    }

    pub(super) fn drift_to(&mut self, day: i64) {
        self.variance += drift(day - self.day);
        self.day = self.day.max(day);
    }
}

/// The variance that strength gains in so many days.
fn drift(days: i64) -> f64 {
    WEEKLY_DRIFT * WEEKLY_DRIFT * days.max(0) as f64 / 7.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(actual: f64, expected: f64) {
        assert!((actual - expected).abs() < 1e-6, "{actual} is not {expected}");
    }

    /// Epley and strength-endurance 1: a set of five reps to failure with 150 kg, give or take a half, and two weeks
    /// later one of nine with 140 kg, give or take one.
    #[test]
    fn a_step_with_ratings_by_hand() {
        let set = |day, load, reps_to_failure, reps_error| Observation {
            day,
            load,
            reps_to_failure,
            reps_error,
            load_error: 0.0,
        };
        let sets = [set(0, 150.0, 5.0, 0.5), set(14, 140.0, 9.0, 1.0)];
        let seen = Seen::all(Equation::Epley, &sets);
        // 150 × (1 + 5/30) = 175. Its variance: (0.5/35)² = 0.00020408 of the rating and 0.02² of the day.
        let first = Track::follow([1.0].into_iter(), &seen[..1], &[])[0];
        near(first.mean.exp(), 175.0);
        near(first.variance, 0.000_604_08);
        near(first.fit, 0.0);
        // Two weeks of drift add 0.0002: 0.00080408. The second set says 140 × 1.3 = 182, variance (1/39)² = 0.00065746
        // and 0.0004: 0.00105746. Expected is a surprise of 0.00186154; the gain is 0.00080408 / 0.00186154 = 0.431943.
        // The surprise: ln (182/175) = 0.03922071. 175 × e^(0.431943 × 0.03922071) = 177.989953.
        // What is left: 0.568057 × 0.00080408 = 0.00045676.
        let both = Track::follow([1.0].into_iter(), &seen, &[])[0];
        near(both.mean.exp(), 177.989_953);
        near(both.variance, 0.000_456_76);
        // ln (1/39) − (ln 0.00186154 + 0.03922071² / 0.00186154) / 2 = −3.663562 − (−6.286339 + 0.826336) / 2.
        near(both.fit, -0.933_556);
    }
}
