//! Sessions and the work in them.

use super::{BlockId, Group, GymId, LiftId, Mass, Plan};
use crate::source::PageId;
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// What became of a work line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Sets are written.
    Done,
    /// Done exactly as planned.
    AsPlanned,
    /// Left out on purpose.
    Skipped,
    /// Nothing is written: planned where the date is still to come, else skipped.
    Nothing,
}

/// What kind of remark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RemarkKind {
    /// How the equipment stood.
    Setup,
    /// What to think of.
    Cue,
    /// Why the lift is here.
    Why,
    /// Anything.
    Note,
}

/// A line of text about a lift.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// Its key.
    pub kind: RemarkKind,
    /// As written.
    pub text: Box<str>,
    /// The page it stands in.
    pub page: PageId,
    /// Where it stands, from 1.
    pub line: u32,
}

/// What stands under a work line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Details {
    /// The first plan; those after it say nothing.
    pub plan: Option<Plan>,
    /// Sets that count in no volume and no record.
    pub warm_ups: Vec<Group>,
    /// Set-ups, cues, reasons and notes.
    pub remarks: Vec<Remark>,
    /// Why it was skipped, where that is written.
    pub skipped_because: Option<Box<str>>,
    /// The lift that this one replaced.
    pub instead_of: Option<(LiftId, u32)>,
}

/// Work on one lift.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// The lift.
    pub lift: LiftId,
    /// The page it stands in: where a session is written in two places, not always the session's.
    pub page: PageId,
    /// Where it stands, from 1.
    pub line: u32,
    /// What became of it.
    pub status: Status,
    /// The sets done.
    pub groups: Vec<Group>,
    /// What stands under the line.
    pub details: Option<Box<Details>>,
}

impl Work {
    /// The first plan, where it could be read.
    pub fn plan(&self) -> Option<&Plan> {
        self.details.as_ref().and_then(|details| details.plan.as_ref()).filter(|plan| plan.is_read())
    }

    /// Whether it has at least one work set.
    pub fn has_work(&self) -> bool {
        self.groups.iter().any(|group| group.sets().any(|set| set.is_work()))
    }
}

/// The bodyweight in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Bodyweight {
    /// The mass.
    #[serde(rename = "kg")]
    pub mass: Mass,
    /// When it was written.
    pub date: NaiveDate,
}

/// A pain that was noted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pain {
    /// Where, as written.
    pub site: Box<str>,
    /// How much out of ten, in tenths.
    pub tenths: u32,
    /// The page it stands in.
    pub page: PageId,
    /// Where it stands, from 1.
    pub line: u32,
}

/// One session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Session {
    /// The day.
    pub date: NaiveDate,
    /// Minutes after midnight, where a time is written.
    pub minute: Option<u16>,
    /// The day's label, without the word "day".
    pub day: Option<Box<str>>,
    /// The block it belongs to.
    pub block: Option<BlockId>,
    /// The week of that block, from 1.
    pub week: Option<u32>,
    /// Its heading marks it as part of a deload; whether its block does, the week knows.
    pub deload: bool,
    /// Its heading marks it as part of a peak.
    pub peak: bool,
    /// Maximum or rep-maximum attempts.
    pub test_day: bool,
    /// A competition, by name.
    pub meet: Option<Box<str>>,
    /// The gym that it names, where that is not the usual one.
    pub gym: Option<GymId>,
    /// The bodyweight in force, where one is known.
    pub bodyweight: Option<Bodyweight>,
    /// How long the night before was, in minutes.
    pub sleep: Option<u16>,
    /// How long it took, in minutes.
    pub duration: Option<u16>,
    /// How hard it was as a whole, in thousandths of RPE.
    pub rpe: Option<u32>,
    /// The page it stands in.
    pub page: PageId,
    /// The heading's line, from 1.
    pub line: u32,
    /// The work, in the order written.
    pub works: Vec<Work>,
    /// Notes on the session.
    pub notes: Vec<Remark>,
    /// What hurt.
    pub pains: Vec<Pain>,
}

impl Session {
    /// The mass of the bodyweight in force.
    pub fn own_mass(&self) -> Option<Mass> {
        self.bodyweight.map(|own| own.mass)
    }

    /// Whether any of its lines has work.
    pub fn has_work(&self) -> bool {
        self.works.iter().any(Work::has_work)
    }
}
