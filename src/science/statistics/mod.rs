//! General statistics, each with its published source. Every function gives `None` where its figure is not
//! defined: for too few values, for values that are not finite, for values that are all alike. Where each was
//! published is from memory, high confidence; the figures are held against scipy's by the tests.
//!
//! - `spread.rs`: mean, standard deviation
//! - `quantile.rs`: quantiles, the median
//! - `least_squares.rs`: the straight line with the least squared error
//! - `theil_sen.rs`: the straight line of the median slope, which a slip of the pen does not move
//! - `kendall.rs`, `spearman.rs`: whether two things rise together
//! - `normal.rs`: the normal distribution

mod kendall;
mod least_squares;
pub mod normal;
mod quantile;
mod spearman;
mod spread;
mod theil_sen;

pub use kendall::kendall_tau_b;
pub use least_squares::{Line, least_squares};
pub use quantile::{median, quantile};
pub use spearman::spearman;
pub use spread::{mean, standard_deviation};
pub use theil_sen::{MedianSlope, theil_sen};

/// Whether every number is finite.
fn all_finite(values: &[f64]) -> bool {
    values.iter().all(|value| value.is_finite())
}

/// Whether every number of every pair is finite.
fn all_pairs_finite(points: &[(f64, f64)]) -> bool {
    points.iter().all(|(x, y)| x.is_finite() && y.is_finite())
}
