//! What is asked, and what is answered.

use super::foretelling::own_part;
use crate::analysis::plan::planned_lines::Where;
use crate::analysis::strength::rpe_ahead::Rpe;
use crate::history::Mark;
use crate::questions::plates::Hung;
use crate::questions::recall::Note;
use crate::source::Place;
use crate::training::{self, Amount, AmountFields, LiftId, Mass, Unit, Weighed, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The session of this date.
    pub date: Option<NaiveDate>,
    /// The next session of this day's label.
    pub day: Option<String>,
    /// Only this lift.
    pub lift: Option<LiftId>,
    /// Only the lift whose set is the next one.
    pub next: bool,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoSession {
    /// None is written on that date.
    OnDate {
        /// The date.
        date: NaiveDate,
        /// The lift that no session of the date has.
        lift: Option<String>,
        /// The meet of that day.
        meet: Option<String>,
        /// The nearest dates before and after.
        near: Vec<NaiveDate>,
    },
    /// No session has that label.
    NoDay {
        /// The label.
        day: String,
        /// Those there are, the latest first.
        near: Vec<String>,
    },
    /// None is written from today on.
    Ahead {
        /// Only with this label.
        day: Option<String>,
        /// Only with this lift.
        lift: Option<String>,
        /// The meet of today.
        meet: Option<String>,
        /// Where nothing was trained in a block: the day on which one could begin.
        begins: Option<NaiveDate>,
        /// What would be next.
        next: Option<Box<Rotation>>,
    },
}

/// The day that is next in the block's rotation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rotation {
    /// Its label.
    pub day: String,
    /// When it was done last.
    pub date: NaiveDate,
    /// What it held then.
    pub held: Vec<String>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The session.
    pub session: Where,
    /// How many weeks its block has.
    #[serde(skip)]
    pub weeks: Option<u32>,
    /// The next meet from the session on.
    pub meet: Option<MeetAhead>,
    /// The lifter's own weight that is in force.
    #[serde(rename = "bodyweight_kg")]
    pub bodyweight: Option<Mass>,
    /// Pain of the two weeks before for which the advice is to stop, and to see a physician before training again.
    pub stop: Vec<Watch>,
    /// What else hurt then, each site once.
    #[serde(skip)]
    pub pains: Vec<Hurt>,
    /// The lifts, in the order of the page.
    pub lifts: Vec<LiftAhead>,
    /// Where no lift is left: those that were skipped, or that another one stood in for.
    #[serde(skip)]
    pub left_out: Vec<Out>,
    /// The caution.
    pub caution: &'static str,
}

/// A meet to come.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MeetAhead {
    /// How it is called.
    pub name: String,
    /// Days from the session to it.
    pub days: i64,
}

/// What hurt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hurt {
    /// Where, as written.
    pub site: String,
    /// How much out of ten, in tenths.
    pub tenths: u32,
    /// Days before the session.
    pub days: i64,
}

/// A lift that is not done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Out {
    /// The lift.
    pub lift: String,
    /// What was done instead.
    pub instead: Option<String>,
    /// Why.
    pub because: Option<String>,
}

/// A line of the session.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LiftAhead {
    /// The lift.
    pub lift: String,
    /// Where its line stands.
    #[serde(flatten)]
    pub place: Place,
    /// The plan as written.
    pub plan: Option<String>,
    /// The same with the masses that named bars and plates come to.
    #[serde(skip)]
    pub plan_in_brief: Option<String>,
    /// How many sets are planned.
    #[serde(skip)]
    pub sets: u32,
    /// How many are done.
    #[serde(skip)]
    pub sets_done: u32,
    /// The sets of this line so far.
    pub done: Vec<Mark>,
    /// What the same week of the last block holds against it.
    pub to_beat: Option<ToBeat>,
    /// The last mark on this day's label; else the lift's last.
    pub last_time: Option<Mark>,
    /// The best there is at the planned reps and sets.
    pub best: Option<Mark>,
    /// The next set; null where all are done.
    pub next: Option<Next>,
    /// The way up to the first work set; empty where one is done.
    pub warm_up: Vec<WarmUpSet>,
    /// How the equipment stood last.
    pub setup: Option<Note>,
    /// What to think of.
    pub cue: Option<Note>,
    /// Why the lift is here.
    pub why: Option<Note>,
    /// What to watch.
    pub watch: Vec<Watch>,
    /// The unit that the lifter writes this lift's loads in.
    #[serde(skip)]
    pub unit: Unit,
    /// What is not known, and the lifter could change that.
    #[serde(skip)]
    pub hints: Vec<Hint>,
}

/// A mark that is to be beaten.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ToBeat {
    /// The mark.
    pub mark: Mark,
    /// Where the plan counts other reps: the load that would equal it in estimated maximum at those.
    #[serde(rename = "equal_kg")]
    pub equal: Option<Mass>,
}

impl ToBeat {
    /// The load to beat as everything lifted, in kilograms.
    pub(super) fn everything(&self, own: Option<Mass>) -> Option<f64> {
        let load = &self.mark.load.load;
        let equal = self.equal.map(|equal| equal + own_part(load, own));
        equal.or_else(|| load.kilograms(own)).map(Mass::in_kilograms)
    }
}

/// The next set.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "NextSet")]
pub struct Next {
    /// Which set of the line it is, from 1.
    pub set: u32,
    /// What it is to be.
    #[serde(flatten, serialize_with = "training::amount")]
    #[schemars(with = "AmountFields")]
    pub amount: Amount,
    /// Whether that is of each side.
    #[serde(skip)]
    pub per_side: bool,
    /// What to hang there; null where nothing says a load.
    pub load: Option<Weighed>,
    /// How hard it will be.
    pub effort: Option<Rpe>,
    /// One chance in ten for less.
    pub effort_low: Option<Rpe>,
    /// One chance in ten for more.
    pub effort_high: Option<Rpe>,
    /// By which of the four rules.
    pub rule: u8,
    /// Why this load.
    pub why: String,
    /// The plates; null for what hangs on no bar.
    pub plates: Option<Plates>,
}

/// A loaded bar.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "LoadedBar")]
pub struct Plates {
    /// The bar.
    pub bar: String,
    /// What hangs there.
    #[serde(flatten)]
    pub hung: Hung,
}

/// A set of the warm-up.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WarmUpSet {
    /// The load.
    pub load: Weighed,
    /// The reps; null where something else is counted.
    pub reps: Option<u32>,
    /// The plates; null for what hangs on no bar.
    pub plates: Option<Plates>,
}

words! {
    /// What kind of thing is to be watched.
    pub enum WatchKind {
        /// A fault of the last three sessions.
        Fault = "fault",
        /// Pain of the last 14 days at a site that the lift loads.
        Pain = "pain",
        /// A caution of `review`.
        Caution = "caution",
    }
}

/// Something to watch.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "ToWatch")]
pub struct Watch {
    /// What kind of thing.
    pub kind: WatchKind,
    /// In words.
    pub text: String,
    /// Where it is written.
    #[serde(flatten)]
    pub place: Place,
}

/// What the lifter could do for a better answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hint {
    /// No effort was written that an estimate could rest on.
    NoEffort,
    /// The settings have no bar, or no plates.
    NoPlates,
    /// Nothing near a maximum in four weeks, at the start of a block.
    NoSingle,
}
