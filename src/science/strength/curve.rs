//! How a lifter's reps fall off with load.
//!
//! The logarithm of the maximum over the load for `n` reps to failure is the equation's, raised and bent:
//! `height × (ln f(n) / ln f(8.8))^bend`. At 8.8 reps it is the height; the bend moves the low end against the high one.
//! Both are drawn from published spreads; a lifter's sets say which of a grid of curves are likely.

use crate::science::Equation;
use crate::science::reps_at_percent::{BENCH_PRESS_AT_80, SD_AT_80};
use std::sync::{Arc, Mutex, PoisonError};

/// Steps of a rep in the table of a curve.
const STEPS: usize = 4;

/// The middle of what is published of reps at 80 % of the maximum: 8.8 on the bench press (Nuzzo et al. 2024, Sports
/// Med 54(2):303–321) and 8 in the load chart (NSCA).
const REPS_AT_80: f64 = 8.4;

/// The bend, and its spread between people. At three reps against eight the published equations and the load chart bend so
/// much against this equation on average, and differ by more; the spread is this project's own reading of that.
pub(super) const BEND: (f64, f64) = (0.95, 0.18);

/// The grid: so many heights and bends, out to so many standard deviations. This project's own choice.
const HEIGHTS: u32 = 7;
const BENDS: u32 = 3;
const REACH: f64 = 2.2;

/// One curve, from one rep to the end of the equation's range: a table, straight between its entries and beyond them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Curve {
    table: Vec<f64>,
}

impl Curve {
    /// How many are held possible.
    pub(super) const COUNT: usize = (HEIGHTS * BENDS) as usize;

    fn new(equation: Equation, height: f64, bend: f64) -> Self {
        let high = |reps: f64| height * (log(equation, reps) / log(equation, BENCH_PRESS_AT_80.reps)).powf(bend);
        let most = *equation.valid_reps().end() as usize;
        let at = |step: usize| {
            let reps = 1.0 + step as f64 / STEPS as f64;
            // Below two reps a straight line leads to a single, which is its own load.
            if reps < 2.0 { (reps - 1.0) * high(2.0) } else { high(reps) }
        };
        Curve { table: (0..=(most - 1) * STEPS).map(at).collect() }
    }

    /// Several with their chances, as one.
    pub(super) fn mean<'c>(curves: impl Iterator<Item = (&'c Curve, f64)>) -> Self {
        let mut table: Vec<f64> = Vec::new();
        for (curve, chance) in curves {
            table.resize(curve.table.len().max(table.len()), 0.0);
            table.iter_mut().zip(&curve.table).for_each(|(mean, entry)| *mean += chance * entry);
        }
        Curve { table }
    }

    /// All curves that are held possible, with their chances before anything is learned.
    ///
    /// People differ at 80 % of the maximum by a standard deviation of 2.51 reps round 8.8 (Nuzzo et al. 2024), which the
    /// equation turns into a share of the height. It holds the error of the tests too, so people differ by less.
    pub(super) fn all(equation: Equation) -> Vec<(Arc<Curve>, f64)> {
        type Known = Mutex<Vec<(Equation, Vec<(Arc<Curve>, f64)>)>>;
        static KNOWN: Known = Known::new(Vec::new());
        let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, curves)) = known.iter().find(|(of, _)| *of == equation) {
            return curves.clone();
        }
        let curves = Curve::made(equation);
        known.push((equation, curves.clone()));
        curves
    }

    fn made(equation: Equation) -> Vec<(Arc<Curve>, f64)> {
        let at_80 = log(equation, BENCH_PRESS_AT_80.reps);
        let height = (100.0 / BENCH_PRESS_AT_80.percent).ln() * at_80 / log(equation, REPS_AT_80);
        let spread = SD_AT_80 * equation.share_per_rep(BENCH_PRESS_AT_80.reps).unwrap_or(0.027) / at_80;
        let steps = |count: u32| (0..count).map(move |at| REACH * (f64::from(2 * at) / f64::from(count - 1) - 1.0));
        let curve = |raised: f64, bent: f64| {
            let curve = Curve::new(equation, height * (spread * raised).exp(), BEND.0 + BEND.1 * bent);
            (Arc::new(curve), (-(raised * raised + bent * bent) / 2.0).exp())
        };
        let mut curves: Vec<_> =
            steps(HEIGHTS).flat_map(|raised| steps(BENDS).map(move |bent| curve(raised, bent))).collect();
        let sum: f64 = curves.iter().map(|(_, chance)| chance).sum();
        curves.iter_mut().for_each(|(_, chance)| *chance /= sum);
        curves
    }

    /// The reps to failure where the equation's range ends.
    pub(super) fn most(&self) -> f64 {
        1.0 + self.last() as f64 / STEPS as f64
    }

    fn last(&self) -> usize {
        self.table.len().saturating_sub(1)
    }

    /// The piece that an entry begins: its reps, its value, and how much it rises for a rep.
    fn piece(&self, at: usize) -> (f64, f64, f64) {
        let at = at.min(self.last().saturating_sub(1));
        let entry = |at: usize| self.table.get(at).copied().unwrap_or_default();
        (1.0 + at as f64 / STEPS as f64, entry(at), (entry(at + 1) - entry(at)) * STEPS as f64)
    }

    fn piece_of(&self, reps: f64) -> (f64, f64, f64) {
        self.piece(((reps - 1.0) * STEPS as f64).max(0.0) as usize)
    }

    /// The logarithm of the maximum over the load.
    pub(super) fn log_multiple(&self, reps: f64) -> f64 {
        let (from, low, slope) = self.piece_of(reps);
        low + (reps - from) * slope
    }

    /// By how much that rises for a rep.
    pub(super) fn slope(&self, reps: f64) -> f64 {
        self.piece_of(reps).2
    }

    /// The reps to failure at a logarithm of the maximum over the load; below 1 the load is too heavy.
    pub(super) fn reps(&self, log_multiple: f64) -> f64 {
        let (from, low, slope) =
            self.piece(self.table.partition_point(|entry| *entry <= log_multiple).saturating_sub(1));
        from + (log_multiple - low) / slope
    }
}

fn log(equation: Equation, reps: f64) -> f64 {
    equation.multiple(reps).map_or(0.0, f64::ln)
}

#[cfg(test)]
mod tests {
    use super::{BEND, log};
    use crate::science::Equation;

    /// Triples against eights, in each published equation and in the load chart (93 and 80 %), against Wathan's.
    #[test]
    fn the_bend_is_that_of_the_published_equations() {
        let low_end = |equation| log(equation, 3.0) / log(equation, 8.0);
        let chart = 0.93_f64.ln() / 0.8_f64.ln();
        let all = Equation::ALL.map(low_end).into_iter().chain([chart]);
        let bends: Vec<f64> = all.map(|end| end.ln() / low_end(Equation::Wathan).ln()).collect();
        let mean = bends.iter().sum::<f64>() / bends.len() as f64;
        assert!((mean - BEND.0).abs() < 0.05, "{mean} of {bends:?}");
    }
}
