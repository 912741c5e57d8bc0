//! What a caution has found, as data.

use crate::questions::room::Rpe;
use crate::source::Place;
use crate::training::{EffortGap, Family, Load, Mass, Thresholds, Unit};
use chrono::NaiveDate;

/// A caution.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    /// The day that it is about: that of the last line that gave rise to it, or the day that is looked from.
    pub date: NaiveDate,
    /// What was found.
    pub found: Found,
    /// The lines that gave rise to it, in order of time.
    pub places: Vec<Place>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// No high-rep block for long.
    HighRepsMissing {
        /// Whole weeks since the last one ended, or since the first block started.
        weeks: i64,
        /// The last one; nothing where none ever was.
        last: Option<String>,
    },
    /// High-rep work close to a meet.
    HighRepsNearMeet {
        /// Days from its last session to the meet.
        days: i64,
        /// The meet.
        meet: String,
    },
    /// Efforts over their plan.
    Overshoot {
        /// The lift.
        lift: String,
        /// The largest gap.
        most: EffortGap,
        /// On how many lines.
        times: usize,
    },
    /// Efforts far under their plan.
    GrossUndershoot {
        /// The lift.
        lift: String,
        /// The largest gap.
        most: EffortGap,
        /// On how many lines.
        times: usize,
        /// Whether all planned sets and reps were done at the planned loads on every one of them.
        all_done: bool,
    },
    /// A first week so hard that equal steps do not fit.
    NoRoomLeft {
        /// The lift.
        lift: String,
        /// The last loading week.
        week: u32,
        /// Its load at the smallest equal steps.
        load: Mass,
        /// The effort to be expected there.
        effort: Rpe,
        /// The unit that the lifter writes this lift's loads in.
        unit: Unit,
    },
    /// A large step from week to week.
    LoadJump {
        /// The lift.
        lift: String,
        /// The week of the larger load.
        week: u32,
        /// The reps of both.
        reps: u32,
        /// The load the week before.
        from: Load,
        /// The load.
        to: Load,
        /// The step in percent.
        percent: f64,
    },
    /// Many more hard sets of a family.
    HardSetsRise {
        /// The family.
        family: Family,
        /// The week.
        week: u32,
        /// Its hard sets.
        sets: u32,
        /// The mean of the four loading weeks before.
        before: f64,
        /// How much more, in percent.
        percent: f64,
    },
    /// No deload for long.
    DeloadOverdue {
        /// Whole weeks of training without one.
        weeks: i64,
        /// The first day of them.
        since: NaiveDate,
    },
    /// A peak that drops intensity.
    PeakLighter {
        /// The week.
        week: u32,
        /// The change of the top load of the competition lifts, in percent.
        percent: f64,
        /// The low end of what is usual.
        usual: f64,
        /// Whether it rests on plans, and can still be changed.
        is_planned: bool,
    },
    /// A peak that cuts far less or more than is usual.
    PeakCut {
        /// The week.
        week: u32,
        /// The change of tonnage in percent.
        percent: f64,
        /// The low end of what is usual: the deepest cut.
        low: f64,
        /// The high end.
        high: f64,
        /// Whether it rests on plans, and can still be changed.
        is_planned: bool,
    },
    /// A heavy deadlift close to a meet.
    HeavyDeadliftNearMeet {
        /// The lift.
        lift: String,
        /// Percent of the maximum estimated for its day.
        percent: f64,
        /// Days to the meet.
        days: i64,
        /// The meet.
        meet: String,
    },
    /// A fault that comes back.
    SameFault {
        /// The lift.
        lift: String,
        /// The fault's name.
        fault: String,
        /// In how many sessions.
        sessions: usize,
        /// Of how many.
        of: usize,
    },
    /// Pain that comes back.
    PainAgain {
        /// Where, as last written.
        site: String,
        /// How often it was noted within the time that is looked at.
        times: usize,
        /// Days from the first to the last of them.
        days: i64,
    },
    /// A lift that is planned and not done.
    PlannedAndSkipped {
        /// The lift.
        lift: String,
        /// Weeks running.
        weeks: usize,
    },
    /// A block that is behind the last.
    BlockBehind {
        /// The week.
        week: u32,
        /// The other block.
        against: String,
        /// The lifts that are behind, one a session.
        behind: Vec<String>,
        /// Sessions of lifts that could be compared.
        compared: usize,
        /// The share that is behind, in percent.
        percent: f64,
        /// Whether the week has days to come.
        open: bool,
    },
}

/// The name of a caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Name {
    /// No high-rep block for long.
    HighRepsMissing,
    /// High-rep work close to a meet.
    HighRepsNearMeet,
    /// Efforts over their plan.
    Overshoot,
    /// Efforts far under their plan.
    GrossUndershoot,
    /// A first week so hard that equal steps do not fit.
    NoRoomLeft,
    /// A large step from week to week.
    LoadJump,
    /// Many more hard sets of a family.
    HardSetsRise,
    /// No deload for long.
    DeloadOverdue,
    /// A peak that is not as is usual.
    UnusualPeak,
    /// A heavy deadlift close to a meet.
    HeavyDeadliftNearMeet,
    /// A fault that comes back.
    SameFault,
    /// Pain that comes back.
    PainAgain,
    /// A lift that is planned and not done.
    PlannedAndSkipped,
    /// A block that is behind the last.
    BlockBehind,
}

impl Name {
    /// Every one, by the alphabet.
    pub const ALL: [Name; 14] = [
        Name::BlockBehind,
        Name::DeloadOverdue,
        Name::GrossUndershoot,
        Name::HardSetsRise,
        Name::HeavyDeadliftNearMeet,
        Name::HighRepsMissing,
        Name::HighRepsNearMeet,
        Name::LoadJump,
        Name::NoRoomLeft,
        Name::Overshoot,
        Name::PainAgain,
        Name::PlannedAndSkipped,
        Name::SameFault,
        Name::UnusualPeak,
    ];

    /// The name as it is shown and set.
    pub fn word(self) -> &'static str {
        match self {
            Name::HighRepsMissing => "high-reps-missing",
            Name::HighRepsNearMeet => "high-reps-near-meet",
            Name::Overshoot => "overshoot",
            Name::GrossUndershoot => "gross-undershoot",
            Name::NoRoomLeft => "no-room-left",
            Name::LoadJump => "load-jump",
            Name::HardSetsRise => "hard-sets-rise",
            Name::DeloadOverdue => "deload-overdue",
            Name::UnusualPeak => "unusual-peak",
            Name::HeavyDeadliftNearMeet => "heavy-deadlift-near-meet",
            Name::SameFault => "same-fault",
            Name::PainAgain => "pain-again",
            Name::PlannedAndSkipped => "planned-and-skipped",
            Name::BlockBehind => "block-behind",
        }
    }

    /// The threshold in force, in the caution's unit.
    pub fn threshold(self, of: &Thresholds) -> f64 {
        let whole = match self {
            Name::Overshoot => return of.overshoot.value(),
            Name::GrossUndershoot => return of.gross_undershoot.value(),
            Name::NoRoomLeft => return of.no_room_left.value(),
            Name::HighRepsMissing => of.high_reps_missing,
            Name::HighRepsNearMeet => of.high_reps_near_meet,
            Name::LoadJump => of.load_jump,
            Name::HardSetsRise => of.hard_sets_rise,
            Name::DeloadOverdue => of.deload_overdue,
            Name::UnusualPeak => of.unusual_peak,
            Name::HeavyDeadliftNearMeet => of.heavy_deadlift_near_meet,
            Name::SameFault => of.same_fault,
            Name::PainAgain => of.pain_again,
            Name::PlannedAndSkipped => of.planned_and_skipped,
            Name::BlockBehind => of.block_behind,
        };
        f64::from(whole)
    }

    /// What the threshold counts.
    pub fn unit(self) -> &'static str {
        match self {
            Name::Overshoot | Name::GrossUndershoot | Name::NoRoomLeft => "points of RPE",
            Name::HighRepsMissing | Name::HighRepsNearMeet | Name::DeloadOverdue | Name::PlannedAndSkipped => "weeks",
            Name::LoadJump | Name::HardSetsRise | Name::UnusualPeak | Name::BlockBehind => "percent",
            Name::HeavyDeadliftNearMeet | Name::PainAgain => "days",
            Name::SameFault => "sessions",
        }
    }

    /// The caution of that name; blanks may stand for hyphens.
    pub fn named(word: &str) -> Option<Name> {
        let hyphened = word.trim().to_lowercase().replace(' ', "-");
        Name::ALL.into_iter().find(|name| name.word() == hyphened)
    }
}

impl Found {
    /// The caution's name.
    pub fn name(&self) -> Name {
        match self {
            Found::HighRepsMissing { .. } => Name::HighRepsMissing,
            Found::HighRepsNearMeet { .. } => Name::HighRepsNearMeet,
            Found::Overshoot { .. } => Name::Overshoot,
            Found::GrossUndershoot { .. } => Name::GrossUndershoot,
            Found::NoRoomLeft { .. } => Name::NoRoomLeft,
            Found::LoadJump { .. } => Name::LoadJump,
            Found::HardSetsRise { .. } => Name::HardSetsRise,
            Found::DeloadOverdue { .. } => Name::DeloadOverdue,
            Found::PeakLighter { .. } | Found::PeakCut { .. } => Name::UnusualPeak,
            Found::HeavyDeadliftNearMeet { .. } => Name::HeavyDeadliftNearMeet,
            Found::SameFault { .. } => Name::SameFault,
            Found::PainAgain { .. } => Name::PainAgain,
            Found::PlannedAndSkipped { .. } => Name::PlannedAndSkipped,
            Found::BlockBehind { .. } => Name::BlockBehind,
        }
    }
}
