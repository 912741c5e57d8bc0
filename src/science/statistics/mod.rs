//! General statistics, each with its published source. Every function gives `None` where its figure is not
//! defined: for too few values, for values that are not finite, for values that are all alike. Where each was
//! published is from memory, high confidence; the figures are held against scipy's by the tests.
//!
//! - `theil_sen.rs`: the straight line of the median slope, which a slip of the pen does not move
//! - `normal.rs`: the normal distribution

pub mod normal;
mod theil_sen;

pub use theil_sen::{MedianSlope, theil_sen};

/// The arithmetic mean; `None` without values.
#[must_use]
pub fn mean(values: &[f64]) -> Option<f64> {
    if values.is_empty() || !values.iter().all(|value| value.is_finite()) {
        return None;
    }
    Some(values.iter().sum::<f64>() / values.len() as f64)
}
