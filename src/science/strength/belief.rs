//! Strength on a day.

use super::Endurance;
use super::observation::{Interval, Observation, REACH};
use crate::science::Equation;
use crate::science::statistics::normal;

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
    mean: f64,
    variance: f64,
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
            means: endurances.iter().map(|endurance| set.load + endurance * set.multiple).collect(),
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
            let surprise = set.load + endurance * set.multiple - *mean;
            let precision = 1.0 / (before + set.noise(*endurance));
            let slope = fixed + endurance * rated;
            *square += surprise * surprise * precision;
            *factor *= slope * slope * precision;
            let gain = before * precision;
            *mean += gain * surprise;
            *variance = before * (1.0 - gain);
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

impl Track {
    /// Follows the days in order for each value of strength-endurance; nothing without a day.
    pub(super) fn follow(endurances: impl Iterator<Item = f64>, days: &[Seen]) -> Vec<Self> {
        let Some((first, later)) = days.split_first() else { return Vec::new() };
        let mut tracks = Tracks::begin(endurances.collect(), first);
        let mut day = first.day;
        for sets in later.chunks(FACTORS) {
            for set in sets {
                tracks.see(set, drift(set.day - day));
                day = day.max(set.day);
            }
            tracks.settle();
        }
        tracks.at(day, later.len())
    }

    /// By how much the days scatter more than the errors that are reckoned with: 1 where they do not. A few days prove
    /// nothing, so as many again as [`AS_EXPECTED`] are taken to have come as expected.
    fn scatter(&self) -> f64 {
        let (days, squares) = self.surprises;
        ((AS_EXPECTED + squares) / (AS_EXPECTED + days)).max(1.0)
    }

    fn drift_to(&mut self, day: i64) {
        self.variance += drift(day - self.day);
        self.day = self.day.max(day);
    }
}

/// The variance that strength gains in so many days.
fn drift(days: i64) -> f64 {
    WEEKLY_DRIFT * WEEKLY_DRIFT * days.max(0) as f64 / 7.0
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

/// Strength on a day, from every set up to it: what would be lifted on an ordinary day. How far a single day strays
/// from that ([`ONE_DAY`]) is left out, as is the luck of one set.
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
        let seen = Seen::all(equation, days.iter().filter(|set| set.day <= day));
        if seen.is_empty() {
            return None;
        }
        let tracks = Track::follow(endurance.chances.iter().map(|(value, _)| *value), &seen);
        Some(Strength::of(equation, endurance, tracks, day))
    }

    /// Strength on each of the days, from it and those before: the same as [`on`](Strength::on) says of each, in one
    /// pass. The days are in order, one set a day; those that the equation does not reach are left out.
    #[must_use]
    pub fn day_by_day(equation: Equation, endurance: &Endurance, days: &[Observation]) -> Vec<(i64, Self)> {
        let seen = Seen::all(equation, days);
        let Some((first, later)) = seen.split_first() else { return Vec::new() };
        let mut tracks = Tracks::begin(endurance.chances.iter().map(|(value, _)| *value).collect(), first);
        let mut day = first.day;
        let mut course = vec![(day, Strength::of(equation, endurance, tracks.at(day, 0), day))];
        for (at, set) in (1..).zip(later) {
            tracks.see(set, drift(set.day - day));
            day = day.max(set.day);
            tracks.settle();
            course.push((set.day, Strength::of(equation, endurance, tracks.at(day, at), day)));
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
        let first = Track::follow([1.0].into_iter(), &seen[..1])[0];
        near(first.mean.exp(), 175.0);
        near(first.variance, 0.000_604_08);
        near(first.fit, 0.0);
        // Two weeks of drift add 0.0002: 0.00080408. The second set says 140 × 1.3 = 182, variance (1/39)² = 0.00065746
        // and 0.0004: 0.00105746. Expected is a surprise of 0.00186154; the gain is 0.00080408 / 0.00186154 = 0.431943.
        // The surprise: ln (182/175) = 0.03922071. 175 × e^(0.431943 × 0.03922071) = 177.989953.
        // What is left: 0.568057 × 0.00080408 = 0.00045676.
        let both = Track::follow([1.0].into_iter(), &seen)[0];
        near(both.mean.exp(), 177.989_953);
        near(both.variance, 0.000_456_76);
        // ln (1/39) − (ln 0.00186154 + 0.03922071² / 0.00186154) / 2 = −3.663562 − (−6.286339 + 0.826336) / 2.
        near(both.fit, -0.933_556);
    }
}
