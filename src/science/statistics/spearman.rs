//! Spearman's rank correlation.

use super::{all_pairs_finite, least_squares};

/// Spearman's rho: Pearson's correlation of the ranks, −1 to 1.
///
/// Spearman 1904 (Am J Psychol 15(1):72–101). Equal values share the mean of their ranks. `None` for fewer than two
/// points and where every x, or every y, is the same.
#[must_use]
pub fn spearman(points: &[(f64, f64)]) -> Option<f64> {
    if !all_pairs_finite(points) {
        return None;
    }
    let xs = ranks(points.iter().map(|(x, _)| *x));
    let ys = ranks(points.iter().map(|(_, y)| *y));
    let ranked: Vec<(f64, f64)> = xs.into_iter().zip(ys).collect();
    least_squares(&ranked)?.r
}

/// The rank of each value, from 1; equal values share the mean of theirs.
fn ranks(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut by_value: Vec<(usize, f64)> = values.enumerate().collect();
    by_value.sort_by(|(_, a), (_, b)| a.total_cmp(b));
    let mut ranked = Vec::with_capacity(by_value.len());
    let mut before = 0;
    for equal in by_value.chunk_by(|(_, a), (_, b)| a == b) {
        let rank = before as f64 + (equal.len() as f64 + 1.0) / 2.0;
        ranked.extend(equal.iter().map(|(at, _)| (*at, rank)));
        before += equal.len();
    }
    ranked.sort_by_key(|(at, _)| *at);
    ranked.into_iter().map(|(_, rank)| rank).collect()
}
