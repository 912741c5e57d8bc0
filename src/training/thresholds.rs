//! From where on an answer cautions. A lifter may set each one.

use super::EffortGap;

/// The thresholds in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Thresholds {
    /// An effort this far above its plan, or farther, is an overshoot.
    pub overshoot: EffortGap,
    /// An effort this far below its plan, or farther, is a gross undershoot.
    pub gross_undershoot: EffortGap,
}

impl Default for Thresholds {
    /// One point over the plan and two under it: common practice, no source.
    fn default() -> Self {
        Thresholds { overshoot: EffortGap::halves(2), gross_undershoot: EffortGap::halves(4) }
    }
}
