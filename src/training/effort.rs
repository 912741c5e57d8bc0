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
}

impl fmt::Display for Effort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "RPE {}", self.value())
    }
}

#[cfg(test)]
mod tests {
    use super::Effort;

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
}
