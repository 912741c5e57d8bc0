//! The straight line of the median slope.

use super::normal;

/// A straight line by medians, with the interval of its slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MedianSlope {
    /// The median of the slopes between every two points: how much y rises for one of x.
    pub slope: f64,
    /// The 95 % interval of the slope, low to high; `None` where ties leave none.
    pub interval: Option<(f64, f64)>,
}

/// The line through points (x, y) whose slope is the median of the slopes between every two of them.
///
/// Theil 1950 (Proc K Ned Akad Wet 53:386–392, 521–525, 1397–1412); interval by the normal approximation of
/// equation 2.6 in Sen 1968 (J Am Stat Assoc 63(324):1379–1389), with his correction for ties, rounded as
/// `scipy.stats.theilslopes` rounds it (half to even). Up to 29 % of the points may be wild and the slope holds
/// (Rousseeuw and Leroy 1987, *Robust Regression and Outlier Detection*). With fewer than about six points the interval is simply the range of the slopes, and no 95 %.
///
/// `None` for fewer than two points and where every x is the same. Time and memory grow with the square of the
/// number of points.
#[must_use]
pub fn theil_sen(points: &[(f64, f64)]) -> Option<MedianSlope> {
    if !points.iter().all(|(x, y)| x.is_finite() && y.is_finite()) {
        return None;
    }
    let mut slopes = Vec::with_capacity(points.len() * points.len() / 2);
    for (at, (x, y)) in points.iter().enumerate() {
        let earlier = points.iter().take(at).filter(|(other, _)| other != x);
        slopes.extend(earlier.map(|(other_x, other_y)| (y - other_y) / (x - other_x)));
    }
    slopes.sort_by(f64::total_cmp);
    let xs = sorted(points.iter().map(|(x, _)| *x));
    let ys = sorted(points.iter().map(|(_, y)| *y));
    let slope = middle(&slopes)?;
    let interval = interval(&slopes, &xs, &ys);
    Some(MedianSlope { slope, interval })
}

/// The middle of sorted values, or the mean of the two in the middle.
fn middle(sorted: &[f64]) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    Some(f64::midpoint(*sorted.get(last / 2)?, *sorted.get(last.div_ceil(2))?))
}

/// The 95 % interval of the median of sorted slopes.
fn interval(slopes: &[f64], xs: &[f64], ys: &[f64]) -> Option<(f64, f64)> {
    let variance = (term(xs.len() as f64) - ties(xs) - ties(ys)) / 18.0;
    if variance < 0.0 {
        return None;
    }
    let reach = normal::quantile(0.975)? * variance.sqrt();
    let count = slopes.len() as f64;
    let high = ((count + reach) / 2.0).round_ties_even().min(count - 1.0);
    let low = (((count - reach) / 2.0).round_ties_even() - 1.0).max(0.0);
    Some((*slopes.get(low as usize)?, *slopes.get(high as usize)?))
}

/// Sen's term for `k` values, or for `k` equal ones.
fn term(k: f64) -> f64 {
    k * (k - 1.0) * (2.0 * k + 5.0)
}

/// The sum of the terms of equal values that stand together.
fn ties(sorted: &[f64]) -> f64 {
    sorted.chunk_by(|a, b| a == b).map(|equal| term(equal.len() as f64)).sum()
}

fn sorted(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values
}
