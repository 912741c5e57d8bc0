//! What the settings say of a peak or deload week: a lifter's own figures, in place of those the program has.

use super::Mass;

/// From so much to so much, in tenths, ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tenths {
    /// The low end.
    pub low: u32,
    /// The high end.
    pub high: u32,
}

/// The figures that are set. What is not set is as `science` has it; cuts are positive.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TaperBands {
    /// The cut in tonnage, in percent, of a lifter who is neither strong nor less strong.
    pub cut: Option<Tenths>,
    /// The cut of a strong lifter, in percent.
    pub strong_cut: Option<Tenths>,
    /// The cut of a small or less strong lifter, in percent.
    pub less_strong_cut: Option<Tenths>,
    /// From so many times bodyweight on, in tenths, a lifter is strong.
    pub strong_from: Option<u32>,
    /// Under so many times bodyweight, in tenths, a lifter is less strong.
    pub less_strong_under: Option<u32>,
    /// Under this bodyweight a lifter is small.
    pub small_under: Option<Mass>,
    /// A top load that changes by so many tenths of a percent, or less, is kept.
    pub load_within: Option<u32>,
    /// An effort that changes by so many tenths of a point, or less, is kept.
    pub effort_within: Option<u32>,
    /// Sets a session that come off the competition lifts.
    pub sets_off: Option<Tenths>,
    /// Reps a set that come off the competition lifts.
    pub reps_off: Option<Tenths>,
    /// Sets a session that come off the other lifts.
    pub other_sets_off: Option<Tenths>,
    /// The cut in tonnage of a deload, in percent.
    pub deload_cut: Option<Tenths>,
}

impl TaperBands {
    /// What is set here, else what is set there.
    #[must_use]
    pub fn or(self, other: TaperBands) -> TaperBands {
        TaperBands {
            cut: self.cut.or(other.cut),
            strong_cut: self.strong_cut.or(other.strong_cut),
            less_strong_cut: self.less_strong_cut.or(other.less_strong_cut),
            strong_from: self.strong_from.or(other.strong_from),
            less_strong_under: self.less_strong_under.or(other.less_strong_under),
            small_under: self.small_under.or(other.small_under),
            load_within: self.load_within.or(other.load_within),
            effort_within: self.effort_within.or(other.effort_within),
            sets_off: self.sets_off.or(other.sets_off),
            reps_off: self.reps_off.or(other.reps_off),
            other_sets_off: self.other_sets_off.or(other.other_sets_off),
            deload_cut: self.deload_cut.or(other.deload_cut),
        }
    }
}
