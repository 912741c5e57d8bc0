//! Measures of work against a maximum.
//!
//! Tonnage and the number of lifts need no maximum and are summed where the sets are. All of these need one, and
//! say nothing without the date of it: a maximum that has risen since makes old work look heavier than it was.

use super::effort_scale;
use crate::training::Effort;

/// A set as a share of a maximum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetAt {
    /// Good reps; failed ones are left out by common practice, no source.
    pub reps: u32,
    /// The load in percent of the maximum.
    pub percent: f64,
}

impl SetAt {
    /// A set of so many reps with a load, both masses in one unit. `None` unless both are positive numbers.
    #[must_use]
    pub fn of(reps: u32, load: f64, maximum: f64) -> Option<SetAt> {
        let known = load.is_finite() && load > 0.0 && maximum.is_finite() && maximum > 0.0;
        known.then(|| SetAt { reps, percent: 100.0 * load / maximum })
    }
}

/// The average relative intensity: the mean percentage of all reps, so that a set of eight counts eight times.
///
/// Tonnage over reps over maximum (Haff 2010, Strength Cond J; McBride et al. 2009, J Strength Cond Res 23:106–110
/// compare measures of work; from memory, high confidence). The mean over sets is another number: a heavy single
/// weighs as much there as a light set of eight. `None` without reps. Warm-ups lower it, so say whether they count.
#[must_use]
pub fn average_relative_intensity(sets: &[SetAt]) -> Option<f64> {
    let reps: f64 = sets.iter().map(|set| f64::from(set.reps)).sum();
    (reps > 0.0).then(|| relative_volume(sets) * 100.0 / reps)
}

/// The relative volume: reps times share of the maximum, summed. Ten reps at 80 % are 8.
///
/// The tonnage in maxima (Scott et al. 2016, Sports Med 46:687–698; from memory, high confidence).
#[must_use]
pub fn relative_volume(sets: &[SetAt]) -> f64 {
    sets.iter().map(|set| f64::from(set.reps) * set.percent / 100.0).sum()
}

/// The number of lifts at a percentage of the maximum or above it, the percentage itself included.
///
/// Counting heavy lifts is common practice, no source. A load that is short by rounding alone is counted.
#[must_use]
pub fn lifts_at_or_above(sets: &[SetAt], percent: f64) -> u64 {
    sets.iter().filter(|set| set.percent >= percent - 1e-9).map(|set| u64::from(set.reps)).sum()
}

/// The most repetitions in reserve of a set at RPE 6 or more.
///
/// There is no one published cut; 3 to 4 is common (sets to or near failure are counted by Baz-Valle et al. 2021, J
/// Strength Cond Res 35(3):870–878; from memory, medium confidence). Four, which is RPE 6, is this project's.
pub const MOST_LEFT: f64 = 4.0;

/// Whether a set of this effort is at RPE 6 or more: at most [`MOST_LEFT`] in reserve.
///
/// Efforts below RPE 5 name no reserve and never are. A set without an effort is not counted: nothing is made up.
#[must_use]
pub fn is_at_rpe_6(effort: Effort) -> bool {
    effort_scale::reps_in_reserve(effort).is_some_and(|left| left <= MOST_LEFT)
}
