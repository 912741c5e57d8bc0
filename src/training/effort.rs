//! How hard a set was.

use std::fmt;

/// An effort on the RPE scale, in quarter points: halves are written, and a range counts as its middle.
///
/// Reps in reserve turn into RPE as 10 − RIR (Zourdos et al. 2016, J Strength Cond Res 30(1):267–275).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Effort(u8);

impl Effort {
    /// As hard as can be.
    pub const MAXIMAL: Effort = Effort(40);

    /// One rep is left.
    pub const NINE: Effort = Effort(36);

    /// The middle of an RPE range, whose ends are in thousandths.
    pub fn rpe(low: i64, high: i64) -> Self {
        let quarters = (low + high) / 500;
        Effort(u8::try_from(quarters.clamp(0, 40)).unwrap_or(0))
    }

    /// The middle of a range of reps in reserve, whose ends are in thousandths.
    pub fn rir(low: i64, high: i64) -> Self {
        Effort::rpe(10_000 - high, 10_000 - low)
    }

    /// The number on the RPE scale.
    pub fn value(self) -> f64 {
        f64::from(self.0) / 4.0
    }

    /// Quarter points, for sums.
    pub fn quarters(self) -> u32 {
        u32::from(self.0)
    }

    /// How far it is above another; nothing where it is not.
    pub fn above(self, other: Effort) -> Option<EffortGap> {
        self.0.checked_sub(other.0).filter(|gap| *gap > 0).map(EffortGap)
    }
}

/// How far two efforts are apart, in quarter points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EffortGap(u8);

impl EffortGap {
    /// None at all.
    pub const NONE: EffortGap = EffortGap(0);

    /// The step of the scale.
    pub const HALF: EffortGap = EffortGap(2);

    /// So many half points, up to the length of the scale.
    pub fn halves(halves: u8) -> Self {
        EffortGap(halves.min(20) * 2)
    }

    /// The number on the RPE scale.
    pub fn value(self) -> f64 {
        f64::from(self.0) / 4.0
    }
}

impl fmt::Display for Effort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "RPE {}", self.value())
    }
}

#[cfg(test)]
mod tests {
    use super::{Effort, EffortGap};

    #[test]
    fn a_range_counts_as_its_middle() {
        assert_eq!(Effort::rpe(5000, 6000).value(), 5.5);
        assert_eq!(Effort::rpe(6500, 7000).value(), 6.75);
    }

    /// Zourdos et al. 2016: RPE 10, 9, 8 and 7 are 0, 1, 2 and 3 reps in reserve.
    #[test]
    fn reps_in_reserve_turn_into_rpe() {
        for (rir, rpe) in [(0, 10.0), (1, 9.0), (2, 8.0), (3, 7.0)] {
            assert_eq!(Effort::rir(rir * 1000, rir * 1000).value(), rpe);
        }
        assert_eq!(Effort::rir(1000, 2000).value(), 8.5);
    }

    #[test]
    fn a_gap_is_how_far_one_effort_is_above_another() {
        let (seven, eight_half) = (Effort::rpe(7000, 7000), Effort::rpe(8500, 8500));
        assert_eq!(eight_half.above(seven), Some(EffortGap::halves(3)));
        assert_eq!((seven.above(eight_half), seven.above(seven)), (None, None));
        assert_eq!(EffortGap::HALF.value(), 0.5);
    }
}
