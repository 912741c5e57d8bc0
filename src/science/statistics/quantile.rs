//! Quantiles and the median.

use super::all_finite;

/// The value below which a share of the values lies: 0 the least, 0.5 the median, 1 the greatest.
///
/// Between two values the quantile is read off the straight line: type 7 of Hyndman and Fan 1996, Am Stat
/// 50(4):361–365, the usual one of statistics packages. `None` without values and for a share outside 0 to 1.
#[must_use]
pub fn quantile(values: &[f64], share: f64) -> Option<f64> {
    if !all_finite(values) || !(0.0..=1.0).contains(&share) {
        return None;
    }
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    of_sorted(&sorted, share)
}

/// The middle value, or the mean of the two in the middle; `None` without values.
#[must_use]
pub fn median(values: &[f64]) -> Option<f64> {
    quantile(values, 0.5)
}

/// The quantile of values already in order.
pub(super) fn of_sorted(sorted: &[f64], share: f64) -> Option<f64> {
    let place = sorted.len().checked_sub(1)? as f64 * share;
    let below = *sorted.get(place.floor() as usize)?;
    let above = *sorted.get(place.ceil() as usize)?;
    Some(below + (above - below) * place.fract())
}
