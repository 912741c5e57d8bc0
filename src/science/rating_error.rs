//! How far people miss when they say how many repetitions they had left.

/// A published mean with its 95 % confidence interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bias {
    /// The mean.
    pub mean: f64,
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
}

/// How many repetitions fewer people predict than they then do.
///
/// Halperin et al. 2022, Sports Med 52(2):377–390, doi 10.1007/s40279-021-01559-x: a meta-analysis of 414 people;
/// the studies disagree widely (I² 97.9 %), and the more repetitions in the set, the larger it is. So an estimate
/// from a rating tends to be low. Nothing in this room corrects for it: with such disagreement the mean of
/// strangers is no correction for one lifter.
pub const UNDER_PREDICTION: Bias = Bias { mean: 0.95, low: 0.17, high: 1.73 };

/// The standard deviation over the mean absolute error of a normal error without bias: √(π/2).
const SD_PER_MEAN_ERROR: f64 = 1.253_314_137_315_500_3;

/// Repetitions in reserve with the standard deviation of their rating, as published.
const NONE_LEFT: (f64, f64) = (0.0, 0.5);
const FEW_LEFT: (f64, f64) = (2.0, 1.0);
const MANY_LEFT: (f64, f64) = (7.0, 2.0 * SD_PER_MEAN_ERROR);

/// The farthest from failure that was studied.
const FARTHEST: f64 = 10.0;

/// The standard deviation of a rating, in repetitions, with so many said to be in reserve.
///
/// It grows with the distance from failure along three published points:
/// - none left: 0.5. Fifteen powerlifters rated a true maximum RPE 9.6 ± 0.5 in the squat, 9.7 ± 0.4 in the bench
///   press, 9.6 ± 0.5 in the deadlift (Helms et al. 2017, J Strength Cond Res 31(2):292–297).
/// - two left: 1.00. The error of 24 trained people calling 1 and 3 in reserve on the bench press was −0.17 ± 1.00
///   (Refalo et al. 2023, J Strength Cond Res, doi 10.1519/jsc.0000000000004653); 2 is the middle of their calls.
/// - seven left: 2.51. The error of 81 adults was more than 2 repetitions at 7 to 10 from failure, about 1 at 0 to
///   5 (Hackett et al. 2017, J Strength Cond Res 31(8):2162–2168). That is a mean absolute error; for a normal
///   error it is √(2/π) of the standard deviation, and "more than 2" is taken as 2 at the near end, the least it
///   can mean.
///
/// This project's own are the straight lines between the points, going on past 7 at the same rise up to 10, and
/// the same value from there on. A number below 0, or none, is read as 0 or as 10.
#[must_use]
pub fn rating_sd(reps_in_reserve: f64) -> f64 {
    let left = if reps_in_reserve.is_nan() { FARTHEST } else { reps_in_reserve.clamp(0.0, FARTHEST) };
    let ((from, low), (to, high)) = if left < FEW_LEFT.0 { (NONE_LEFT, FEW_LEFT) } else { (FEW_LEFT, MANY_LEFT) };
    low + (high - low) * (left - from) / (to - from)
}
