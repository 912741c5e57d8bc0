//! The straight line with the least squared error.

use super::all_pairs_finite;

/// A straight line through points, and how well it fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// How much y rises for one of x.
    pub slope: f64,
    /// y where x is 0.
    pub intercept: f64,
    /// Pearson's correlation of x and y, −1 to 1; `None` where every y is the same.
    pub r: Option<f64>,
    /// The standard error of the slope; `None` for two points, which a line always meets.
    pub slope_error: Option<f64>,
}

/// The line through points (x, y) that has the least sum of squared errors in y.
///
/// Ordinary least squares (Legendre 1805, Gauss 1809); r after Pearson 1895 (Proc R Soc Lond 58:240–242); the
/// error of the slope has n − 2 degrees of freedom. One wild value can turn the line round: see
/// [`theil_sen`](super::theil_sen). `None` for fewer than two points and where every x is the same.
#[must_use]
pub fn least_squares(points: &[(f64, f64)]) -> Option<Line> {
    if points.len() < 2 || !all_pairs_finite(points) {
        return None;
    }
    let n = points.len() as f64;
    let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / n;
    let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / n;
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (x, y) in points {
        let (dx, dy) = (x - mean_x, y - mean_y);
        xx += dx * dx;
        xy += dx * dy;
        yy += dy * dy;
    }
    if xx == 0.0 {
        return None;
    }
    let slope = xy / xx;
    let intercept = mean_y - slope * mean_x;
    let residual: f64 = points.iter().map(|(x, y)| (y - mean_y - slope * (x - mean_x)).powi(2)).sum();
    Some(Line {
        slope,
        intercept,
        r: (yy > 0.0).then(|| (xy / (xx * yy).sqrt()).clamp(-1.0, 1.0)),
        slope_error: (points.len() > 2).then(|| (residual / (n - 2.0) / xx).sqrt()),
    })
}
