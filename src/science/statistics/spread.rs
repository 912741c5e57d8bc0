//! Mean and standard deviation.

use super::all_finite;

/// The arithmetic mean; `None` without values.
#[must_use]
pub fn mean(values: &[f64]) -> Option<f64> {
    if values.is_empty() || !all_finite(values) {
        return None;
    }
    Some(values.iter().sum::<f64>() / values.len() as f64)
}

/// The standard deviation of a sample: the squared distances from the mean are divided by n − 1 (Bessel's
/// correction), then rooted. `None` for fewer than two values.
///
/// The mean is taken off first, so that large values lose no digits (two-pass form; Chan, Golub and LeVeque 1983,
/// Am Stat 37(3):242–247).
#[must_use]
pub fn standard_deviation(values: &[f64]) -> Option<f64> {
    if values.len() < 2 {
        return None;
    }
    let mean = mean(values)?;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    Some((squares / (values.len() - 1) as f64).sqrt())
}
