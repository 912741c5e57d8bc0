//! Kendall's rank correlation.

use super::all_pairs_finite;
use std::cmp::Ordering;

/// Kendall's tau-b: how much oftener two points agree in which is the greater than they disagree, −1 to 1.
///
/// Kendall 1938 (Biometrika 30:81–93), corrected for ties as in Kendall 1945 (Biometrika 33(3):239–251). `None`
/// for fewer than two points and where every x, or every y, is the same. Time grows with the square of the
/// number of points.
#[must_use]
pub fn kendall_tau_b(points: &[(f64, f64)]) -> Option<f64> {
    if !all_pairs_finite(points) {
        return None;
    }
    let (mut agree, mut disagree, mut apart_x, mut apart_y) = (0_u64, 0_u64, 0_u64, 0_u64);
    for (at, (x, y)) in points.iter().enumerate() {
        for (other_x, other_y) in points.iter().take(at) {
            let by_x = x.partial_cmp(other_x)?;
            let by_y = y.partial_cmp(other_y)?;
            apart_x += u64::from(by_x != Ordering::Equal);
            apart_y += u64::from(by_y != Ordering::Equal);
            if by_x != Ordering::Equal && by_y != Ordering::Equal {
                if by_x == by_y { agree += 1 } else { disagree += 1 }
            }
        }
    }
    if apart_x == 0 || apart_y == 0 {
        return None;
    }
    Some((agree as f64 - disagree as f64) / (apart_x as f64).sqrt() / (apart_y as f64).sqrt())
}
