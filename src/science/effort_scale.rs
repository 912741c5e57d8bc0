//! From an effort to the repetitions left in reserve, and back.

use crate::training::Effort;

/// The lowest effort for which the scale names repetitions in reserve.
pub const LOWEST_RATED: f64 = 5.0;

/// The repetitions that an effort left in reserve.
///
/// The scale of Zourdos et al. 2016 (J Strength Cond Res 30(1):267–275), as Helms et al. 2016 use it (Strength
/// Cond J 38(4):42–49): RPE 10 leaves none, 9 leaves one, 8.5 one to two, 8 two, 7.5 two to three, 7 three, 5 to 6
/// four to six. A range counts as its middle, so 8.5 is 1.5. All of this is 10 − RPE.
///
/// RPE 9.5 is worded otherwise: no further repetition, but a slightly heavier load was possible. It counts as 0.5
/// here, not 0. With 0 a set at 9.5 would be held as good as one at 10, against the scale's own words; half a
/// repetition is worth 1 to 3 % of the load in most equations, which is what those words mean; and `RIR 0-1`, which a
/// lifter may write, is 9.5 on this scale too. That reading is this project's choice.
///
/// `None` below RPE 5: there the scale speaks of light effort and names no repetitions, so nothing may be
/// estimated from it. Between 5 and 6 the number is coarse.
#[must_use]
pub fn reps_in_reserve(effort: Effort) -> Option<f64> {
    let rpe = effort.value();
    (rpe >= LOWEST_RATED).then_some(10.0 - rpe)
}

/// The repetitions that the set would have been worth to failure: those done and those left.
///
/// `None` without a good repetition, and where the effort names none in reserve (see [`reps_in_reserve`]).
#[must_use]
pub fn reps_to_failure(good_reps: u32, effort: Effort) -> Option<f64> {
    if good_reps == 0 {
        return None;
    }
    Some(f64::from(good_reps) + reps_in_reserve(effort)?)
}

/// How far an estimate from so many repetitions to failure can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trust {
    /// 11 to 15 repetitions: weak, to be shown as such.
    Weak,
    /// At most 10.
    Sound,
}

impl Trust {
    /// The most repetitions of a sound estimate.
    ///
    /// Reynolds et al. 2006 (J Strength Cond Res 20(3):584–592) advise no more than 10 after testing 70 adults:
    /// their R² for the chest press falls from 0.993 at 5 repetitions to 0.976 at 10 and 0.955 at 20.
    pub const SOUND: f64 = 10.0;

    /// The most repetitions of any estimate: 15, where the widest usual domains of the equations end; common
    /// practice, no source.
    pub const WEAK: f64 = 15.0;

    /// The trust that so many repetitions to failure deserve; `None` above 15 and below 1, where nothing is to be
    /// estimated.
    #[must_use]
    pub fn of(reps_to_failure: f64) -> Option<Trust> {
        if !(1.0..=Trust::WEAK).contains(&reps_to_failure) {
            return None;
        }
        Some(if reps_to_failure <= Trust::SOUND { Trust::Sound } else { Trust::Weak })
    }
}
