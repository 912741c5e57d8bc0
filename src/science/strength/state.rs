//! What is believed of a lifter under one curve: a normal distribution over a few numbers, and what evidence does to it
//! (Kalman 1960, J Basic Eng 82(1):35–45; for bounds the moments of a truncated normal, Minka 2001, UAI 17; both from
//! memory, high confidence).

#![allow(clippy::indexing_slicing, reason = "every index is one of the constants below N, or runs up to it")]

use crate::science::statistics::normal;

/// The logarithm of the maximum on an ordinary, rested day.
pub(super) const STRENGTH: usize = 0;
/// By how much that rises in a week.
pub(super) const TREND: usize = 1;
/// Reps that are left beyond those that are said to be, where many are.
pub(super) const BIAS: usize = 2;
/// Reps lost from set to set.
pub(super) const LOSS: usize = 3;
/// How much of strength is missing at the end of a block.
pub(super) const TIRED: usize = 4;
/// How far the day strays.
pub(super) const FORM: usize = 5;
/// By how many standard deviations the day's ratings err together.
pub(super) const RATING: usize = 6;
/// Strength as it was on an earlier day, kept to be compared.
pub(super) const THEN: usize = 7;
const N: usize = 8;

/// One value for each of the numbers.
pub(super) type Row = [f64; N];

/// A normal distribution over the numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct State {
    pub(super) mean: Row,
    pub(super) cov: [Row; N],
}

/// A weighted sum of the numbers with noise: what evidence speaks of.
pub(super) struct Sum {
    pub(super) variance: f64,
    with: Row,
}

impl State {
    /// Numbers that have nothing to do with one another, each with its mean and standard deviation; the others are 0.
    pub(super) fn of(numbers: [(usize, (f64, f64)); 5]) -> Self {
        let mut state = State { mean: [0.0; N], cov: [[0.0; N]; N] };
        for (at, (mean, spread)) in numbers {
            state.mean[at] = mean;
            state.cov[at][at] = spread * spread;
        }
        state
    }

    pub(super) fn sum(&self, of: &Row, noise: f64) -> Sum {
        let [a, b, c, d, e, f, g, h] = &self.cov;
        let with = [dot(a, of), dot(b, of), dot(c, of), dot(d, of), dot(e, of), dot(f, of), dot(g, of), dot(h, of)];
        Sum { variance: dot(&with, of) + noise, with }
    }

    /// The sum turned out so much higher than was expected.
    pub(super) fn observe(&mut self, sum: &Sum, off: f64) {
        self.follow(sum, off, 1.0);
    }

    /// The sum lies above a bound that is so much below what is expected of it; the logarithm of the chance of that, and
    /// by how many standard deviations it was on the wrong side.
    ///
    /// Of an outcome that is not believed outright a share is kept on the other side; with `share` 1 none is.
    pub(super) fn bound(&mut self, sum: &Sum, above: f64, share: f64) -> (f64, f64) {
        let spread = sum.variance.sqrt();
        let at = (above / spread).max(-FARTHEST);
        if at > FAR {
            return (0.0, 0.0);
        }
        let chance = normal::below(at) + (1.0 - share) * normal::below(-at);
        let pull = share * normal::density(at) / chance;
        self.follow(sum, pull * spread, pull * (pull + at));
        (chance.ln(), -at)
    }

    fn follow(&mut self, sum: &Sum, moved: f64, narrowed: f64) {
        let (by, less) = (moved / sum.variance, narrowed / sum.variance);
        take(&mut self.mean, -by, &sum.with);
        let mut at = 0;
        while at < N {
            take(&mut self.cov[at], sum.with[at] * less, &sum.with);
            at += 1;
        }
    }

    /// A number begins anew, apart from the others.
    pub(super) fn renew(&mut self, at: usize, variance: f64) {
        self.revert(at, 0.0, (0.0, variance.sqrt()));
    }

    /// A number goes back towards where it began, and gains what keeps it from being known better and better.
    pub(super) fn revert(&mut self, at: usize, share: f64, (mean, spread): (f64, f64)) {
        self.mean[at] = mean + share * (self.mean[at] - mean);
        for other in 0..N {
            self.cov[other][at] *= share;
            self.cov[at][other] *= share;
        }
        self.cov[at][at] += (1.0 - share * share) * spread * spread;
    }

    /// One number rises by so much of another.
    pub(super) fn add(&mut self, to: usize, of: usize, times: f64) {
        self.mean[to] += times * self.mean[of];
        for other in 0..N {
            self.cov[to][other] += times * self.cov[of][other];
        }
        for other in 0..N {
            self.cov[other][to] += times * self.cov[other][of];
        }
    }

    /// Several, each with its weight, as one of the same mean and covariance.
    pub(super) fn merged(parts: &[(f64, State)]) -> State {
        let sum: f64 = parts.iter().map(|(weight, _)| weight).sum();
        let mut merged = State { mean: [0.0; N], cov: [[0.0; N]; N] };
        for (weight, part) in parts {
            for at in 0..N {
                merged.mean[at] += weight / sum * part.mean[at];
            }
        }
        for (weight, part) in parts {
            for one in 0..N {
                let off = part.mean[one] - merged.mean[one];
                for other in 0..N {
                    let apart = off * (part.mean[other] - merged.mean[other]);
                    merged.cov[one][other] += weight / sum * (part.cov[one][other] + apart);
                }
            }
        }
        merged
    }
}

// These two are most of what an estimate costs: written out they are quick without an optimiser too.

fn dot(one: &Row, other: &Row) -> f64 {
    let [a, b, c, d, e, f, g, h] = one;
    let [i, j, k, l, m, n, o, p] = other;
    a * i + b * j + c * k + d * l + e * m + f * n + g * o + h * p
}

fn take(from: &mut Row, times: f64, other: &Row) {
    let [a, b, c, d, e, f, g, h] = other;
    from[0] -= times * a;
    from[1] -= times * b;
    from[2] -= times * c;
    from[3] -= times * d;
    from[4] -= times * e;
    from[5] -= times * f;
    from[6] -= times * g;
    from[7] -= times * h;
}

/// Beyond so many standard deviations on its right side a bound says nothing.
const FAR: f64 = 3.0;
/// And so far on the wrong side at most it is taken to be.
const FARTHEST: f64 = 12.0;
