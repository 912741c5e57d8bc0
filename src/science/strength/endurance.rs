//! Strength-endurance: how many reps a lifter has at a share of the maximum, against what an equation says.
//!
//! An equation gives the maximum as the load times `f(n)`, `n` being the reps to failure. A lifter's own curve is
//! `f(n)` to the power `e`: the strength-endurance. At `e` = 1 it is the published curve; below 1 the load falls off
//! more slowly with reps, so that the lifter has more of them at the same share of the maximum. A single stays a
//! single for every `e`. The form is this project's own: one number is as much as a lifter's sets can bear.

use super::Observation;
use super::track::{Seen, Track};
use crate::science::Equation;
use crate::science::reps_at_percent::{BENCH_PRESS_AT_80, SD_AT_80};

/// What is known of a lifter's strength-endurance: chances over a grid of values.
#[derive(Clone, Debug, PartialEq)]
pub struct Endurance {
    /// Values with their chances, which add up to 1.
    pub(super) chances: Vec<(f64, f64)>,
    mean: f64,
    spread: f64,
    sets: usize,
    learned: bool,
}

/// How many values are weighed up; with 81 the grid is finer than a tenth of the published spread.
const STEPS: u32 = 80;

/// How far the grid reaches on each side, in published standard deviations.
const REACH: f64 = 3.5;

/// No lifter's load falls off with reps ten times as slowly as published.
const LEAST: f64 = 0.1;

/// What a set counts for when the curve is learned. This project's own choice: one lifter's ratings err together more
/// than the model says, loads are chosen by feel, and the sizes of the errors are strangers'. At a half the spread
/// that is left holds in simulation; at 1 it is too narrow, and the curve itself is hardly better
/// (`docs/science.md`). Weighing a likelihood so: Grünwald and van Ommen 2017, Bayesian Anal 12(4):1069–1103 (from
/// memory, high confidence).
const SET_COUNTS: f64 = 0.5;

/// How much of the differences between a lifter's reps must be real, and not error of rating, before they teach.
/// This project's own choice: with less, what is learned foretells worse than the published curve.
const REAL: f64 = 2.0 / 3.0;

/// Own sets must have narrowed the published spread at least to this share before they count as learned. This
/// project's own choice.
const EARNED: f64 = 0.8;

/// Fewer days than this teach nothing, however they fall; common practice, no source.
const FEWEST_DAYS: usize = 6;

/// The standard deviation of strength-endurance between people, as a share of it, by Nuzzo et al. 2024 (Sports Med
/// 54(2):303–321).
///
/// At 80 % of the maximum people differ by a standard deviation of 2.51 reps round 8.8 (bench press). The equation
/// turns that into a share of the logarithm of its multiple at 8.8 reps. It is an upper bound, since it holds the
/// error of the tests too.
#[must_use]
pub fn published_spread(equation: Equation) -> f64 {
    let reps = BENCH_PRESS_AT_80.reps;
    match (equation.multiple(reps), equation.share_per_rep(reps)) {
        (Some(multiple), Some(share)) => SD_AT_80 * share / multiple.ln(),
        // Every equation holds at 8.8 reps. For one that did not, people differ by as much in reps.
        _ => SD_AT_80 / reps,
    }
}

/// The strength-endurance at which an equation gives the 8.8 reps at 80 % of Nuzzo et al. 2024 (bench press).
///
/// Below 1 for most equations: people had more reps there than the equations say. Kept for comparison; the
/// estimates start from 1, the equation as published.
#[must_use]
pub fn published_mean(equation: Equation) -> f64 {
    let at_80 = BENCH_PRESS_AT_80;
    equation.multiple(at_80.reps).map_or(1.0, |multiple| (100.0 / at_80.percent).ln() / multiple.ln())
}

impl Endurance {
    /// The published curve with the published spread between people.
    ///
    /// It is cut off at 3.5 spreads, or at 0.1 and 1.9, which narrows the widest, Brzycki's and Lander's, by up
    /// to a twentieth.
    #[must_use]
    pub fn published(equation: Equation) -> Self {
        let spread = published_spread(equation);
        let low = (1.0 - REACH * spread).max(LEAST);
        let high = 1.0 + (1.0 - low);
        let chances = (0..=STEPS).map(|step| {
            let value = low + (high - low) * f64::from(step) / f64::from(STEPS);
            (value, (-((value - 1.0) / spread).powi(2) / 2.0).exp())
        });
        Endurance::weighed(chances.collect(), 0, false)
    }

    /// What a lifter's sets teach, each series being the days of one lift in order, one set a day.
    ///
    /// Bayes over the published spread: for every value of the grid each series is followed with a strength that
    /// drifts ([`WEEKLY_DRIFT`](super::WEEKLY_DRIFT)) and varies by the day ([`ONE_DAY`](super::ONE_DAY)), and the
    /// value gains by how well it foretold the reps to failure that were rated, each set counting for half. The
    /// reps, not the loads, are what is foretold, because the rating is what errs; with the loads the fit would
    /// shrink towards no slope at all. Misses teach nothing here: with them lifters who try singles that they rarely make
    /// were given curves that are too low, and intervals that held too seldom (`docs/science.md`).
    ///
    /// The published curve is kept with fewer than six sets, where the reps of the sets differ by little more than
    /// ratings err, and where the sets narrow the published spread by less than a fifth. So what is learned is never
    /// less sure than what is published.
    #[must_use]
    pub fn learned(equation: Equation, series: &[&[Observation]]) -> Self {
        let published = Endurance::published(equation);
        let seen: Vec<Vec<Seen>> = series.iter().map(|of_lift| Seen::all(equation, *of_lift)).collect();
        let sets: usize = seen.iter().map(Vec::len).sum();
        if sets < FEWEST_DAYS || real_differences(&seen) < REAL {
            return published;
        }
        let mut logarithms: Vec<f64> = published.chances.iter().map(|(_, chance)| chance.ln()).collect();
        for days in &seen {
            let tracks = Track::follow(published.chances.iter().map(|(value, _)| *value), days, &[]);
            for (logarithm, track) in logarithms.iter_mut().zip(tracks) {
                *logarithm += SET_COUNTS * track.fit;
            }
        }
        let most = logarithms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = published.chances.iter().zip(&logarithms);
        let own =
            Endurance::weighed(weights.map(|((value, _), log)| (*value, (log - most).exp())).collect(), sets, true);
        if own.spread < EARNED * published.spread { own } else { published }
    }

    fn weighed(mut chances: Vec<(f64, f64)>, sets: usize, learned: bool) -> Self {
        let sum: f64 = chances.iter().map(|(_, chance)| chance).sum();
        for (_, chance) in &mut chances {
            *chance /= sum;
        }
        let mean = chances.iter().map(|(value, chance)| value * chance).sum::<f64>();
        let variance = chances.iter().map(|(value, chance)| (value - mean).powi(2) * chance).sum::<f64>();
        Endurance { chances, mean, spread: variance.sqrt(), sets, learned }
    }

    /// The value to be expected: 1 is the published curve, less means more reps at the same share of the maximum.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// The standard deviation of what is not known of it.
    #[must_use]
    pub fn spread(&self) -> f64 {
        self.spread
    }

    /// Whether the lifter's own sets shape it.
    #[must_use]
    pub fn is_learned(&self) -> bool {
        self.learned
    }

    /// On how many sets it was learned; 0 for the published curve.
    #[must_use]
    pub fn sets(&self) -> usize {
        self.sets
    }
}

/// How much of the differences between the reps of each lift's sets is real and not error of rating: the reliability
/// of what a line is fitted to (Fuller 1987, *Measurement Error Models*; from memory, high confidence). At most 1,
/// and below 0 where the sets differ by less than the ratings should.
fn real_differences(series: &[Vec<Seen>]) -> f64 {
    let (mut apart, mut rated, mut degrees) = (0.0, 0.0, 0.0);
    for days in series.iter().filter(|days| days.len() > 1) {
        let count = days.len() as f64;
        let mean = days.iter().map(|set| set.multiple).sum::<f64>() / count;
        apart += days.iter().map(|set| (set.multiple - mean).powi(2)).sum::<f64>();
        rated += days.iter().map(Seen::rated_variance).sum::<f64>() / count * (count - 1.0);
        degrees += count - 1.0;
    }
    if apart > 0.0 && degrees > 0.0 { 1.0 - rated / apart } else { 0.0 }
}
