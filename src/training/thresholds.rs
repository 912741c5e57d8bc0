//! From where on an answer cautions. A lifter may set each one.

use super::{Effort, EffortGap};

/// The thresholds in force. `docs/cautions.md` gives the reason and the source of each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Thresholds {
    /// An effort this far above its plan, or farther, is an overshoot.
    pub overshoot: EffortGap,
    /// An effort this far below its plan, or farther, is a gross undershoot.
    pub gross_undershoot: EffortGap,
    /// More weeks than this without a high-rep block are long.
    pub high_reps_missing: u32,
    /// Fewer weeks than this to a meet are late for high-rep work.
    pub high_reps_near_meet: u32,
    /// The effort that the last loading week should not go over at equal steps.
    pub no_room_left: Effort,
    /// A step of more percent than this from week to week is a jump.
    pub load_jump: u32,
    /// So many percent more hard sets than the mean of the weeks before, or more, are a rise.
    pub hard_sets_rise: u32,
    /// More weeks than this without a deload are long.
    pub deload_overdue: u32,
    /// A peak more points of percent than this outside of what is usual is unusual.
    pub unusual_peak: u32,
    /// A heavy deadlift fewer days than this before a meet is late.
    pub heavy_deadlift_near_meet: u32,
    /// A fault in so many of a lift's last five sessions, or more, comes back.
    pub same_fault: u32,
    /// Pain noted again within so many days on one site comes back.
    pub pain_again: u32,
    /// A lift skipped in so many weeks running, or more, is out of the plan in fact.
    pub planned_and_skipped: u32,
    /// A block of which so many percent of the sessions held against the last, or more, are behind, is behind.
    pub block_behind: u32,
}

impl Default for Thresholds {
    /// Common practice, no source, but for the load jump (ACSM 2009, Med Sci Sports Exerc 41(3):687–708: 2 to 10 %),
    /// the deload (Rogerson et al. 2024, Sports Med Open 10:26: every 5.6 ± 2.3 weeks, so that eight are one standard
    /// deviation over the mean) and the heavy deadlift (Travis et al. 2021, J Strength Cond Res 35(12S):S26–S35: the
    /// last one 7 to 10 days before).
    fn default() -> Self {
        Thresholds {
            overshoot: EffortGap::halves(2),
            gross_undershoot: EffortGap::halves(4),
            high_reps_missing: 8,
            high_reps_near_meet: 4,
            no_room_left: Effort::rpe(9_500, 9_500),
            load_jump: 10,
            hard_sets_rise: 50,
            deload_overdue: 8,
            unusual_peak: 10,
            heavy_deadlift_near_meet: 7,
            same_fault: 3,
            pain_again: 14,
            planned_and_skipped: 3,
            block_behind: 50,
        }
    }
}
