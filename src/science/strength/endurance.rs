//! Strength-endurance: how many reps a lifter has at a share of the maximum, against what an equation says.
//!
//! An equation gives the maximum as the load times `f(n)`, `n` being the reps to failure. A lifter's own curve is
//! `f(n)` to the power `e`: the strength-endurance. At `e` = 1 it is the published curve; below 1 the reps fall off
//! more slowly with load. A single stays a single for every `e`. The form is this project's own: one number is as
//! much as a lifter's sets can bear.

use super::Observation;
use super::belief::{Seen, Track};
use crate::science::Equation;
use crate::science::reps_at_percent::{Tested, anchor, sd_between_people};

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

/// No lifter's reps fall off ten times as slowly as published.
const LEAST: f64 = 0.1;

/// The load, in percent of the maximum, at which the published reps and their spread are taken.
const ANCHORED_AT: f64 = 80.0;
/// The same figures once more, for the compiler only: the room that holds them gives them as options.
const REPS_AT_80: f64 = 8.8;
const SD_AT_80: f64 = 2.51;
const USUAL_SPREAD: f64 = 0.256;

/// Own sets must have narrowed the published spread at least to this share before they count as learned.
const EARNED: f64 = 0.8;

/// Fewer days than this teach nothing, however they fall; common practice, no source.
const FEWEST_DAYS: usize = 6;

/// The standard deviation of strength-endurance between people, by Nuzzo et al. 2024 (Sports Med 54(2):303–321).
///
/// At 80 % of the maximum people differ by a standard deviation of 2.51 reps round 8.8 (bench press). The equation
/// turns that into a share of the logarithm of its multiple at 8.8 reps. It is an upper bound, since it holds the
/// error of the tests too.
#[must_use]
pub fn published_spread(equation: Equation) -> f64 {
    let (reps, spread) = (bench_reps(), sd_between_people(ANCHORED_AT).unwrap_or(SD_AT_80));
    match (equation.multiple(reps), equation.share_per_rep(reps)) {
        (Some(multiple), Some(share)) => spread * share / multiple.ln(),
        // Every equation holds at 8.8 reps; this is what the default one gives there.
        _ => USUAL_SPREAD,
    }
}

/// The strength-endurance at which an equation gives the 8.8 reps at 80 % of Nuzzo et al. 2024 (bench press).
///
/// Below 1 for most equations: people had more reps there than the equations say. Kept for comparison; the
/// estimates start from 1, the equation as published.
#[must_use]
pub fn published_mean(equation: Equation) -> f64 {
    equation.multiple(bench_reps()).map_or(1.0, |multiple| (100.0 / ANCHORED_AT).ln() / multiple.ln())
}

/// The reps of the bench press at [`ANCHORED_AT`].
fn bench_reps() -> f64 {
    anchor(Tested::BenchPress, ANCHORED_AT).map_or(REPS_AT_80, |anchor| anchor.reps)
}

impl Endurance {
    /// The published curve with the published spread between people.
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
    /// value gains by how well it foretold the reps to failure that were rated. The reps, not the loads, are what is
    /// foretold, because the rating is what errs; with the loads the fit would shrink towards no slope at all.
    /// Where the sets narrow the published spread by less than a fifth the published curve is kept.
    #[must_use]
    pub fn learned(equation: Equation, series: &[&[Observation]]) -> Self {
        let published = Endurance::published(equation);
        let seen: Vec<Vec<Seen>> = series.iter().map(|of_lift| Seen::all(equation, of_lift)).collect();
        let sets: usize = seen.iter().map(Vec::len).sum();
        if sets < FEWEST_DAYS {
            return published;
        }
        let logarithms: Vec<f64> = published
            .chances
            .iter()
            .map(|(value, chance)| chance.ln() + seen.iter().map(|days| Track::follow(*value, days).fit).sum::<f64>())
            .collect();
        let most = logarithms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if !most.is_finite() {
            return published;
        }
        let chances =
            published.chances.iter().zip(&logarithms).map(|((value, _), log)| (*value, (log - most).exp())).collect();
        let own = Endurance::weighed(chances, sets, true);
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

    /// The most likely course of reps with load: 1 is the published curve.
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
