//! `draft`: the next week, or the first week of the next block, as plans to edit.
//!
//! - `week.rs`: the week after this one; `light.rs`: what a deload, peak or meet week takes off; `missed.rs`: weeks in
//!   which nothing was done
//! - `block.rs`: the first week of a block to come
//! - `standing.rs`: a block whose heading stands already; `gyms.rs`: where a session is to be
//! - `like.rs`: the same from another lifter's block
//! - `weeks.rs`: the weeks that both are made from
//! - `pain.rs`: lifts that are not planned again; `pattern.rs`: how the block's own plans rise
//! - `shape.rs`: a work line as a plan without a choice in it
//! - `fill.rs`: the loads of a week that is planned by its efforts
//! - `whole.rs`: the weeks of a block after the first one
//! - `outlook.rs`: how hard a load will be

pub mod block;
mod fill;
mod gyms;
mod light;
pub mod like;
mod missed;
mod outlook;
mod pain;
mod pattern;
mod shape;
mod standing;
pub mod week;
mod weeks;
mod whole;

pub(super) use pain::HURTS_FROM;

pub use crate::analysis::plan::week_kind::WeekKind;
use crate::analysis::strength::caution::CAUTION;
use crate::analysis::strength::time_away::TimeAway;
use crate::history::History;
use crate::source::Place;
use crate::training::{Effort, Load, Mass, PlannedGroup, Session, fold, words};
use chrono::{Datelike, Days, NaiveDate};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{HashMap, HashSet};

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Answer {
    /// What the draft is of.
    #[serde(flatten)]
    pub of: Of,
    /// The heading of a new block.
    #[serde(skip)]
    pub new: Option<NewBlock>,
    /// The day that it is drafted on.
    #[serde(skip)]
    pub on: NaiveDate,
    /// The sessions, in order of time.
    #[serde(skip)]
    pub sessions: Vec<Drafted>,
    /// What is in the week before and not in the draft, in order of time.
    #[serde(rename = "left_out_of_draft")]
    pub left_out: Vec<LeftOut>,
    /// Plans of the journal that get a load, where the week is planned already by its efforts.
    pub fills: Vec<Fill>,
    /// Sessions that the journal has already on the days of the draft.
    pub already: Vec<Already>,
    /// Meets to come.
    pub meets: Vec<Meet>,
    /// What is said of the whole draft.
    #[serde(skip)]
    pub notes: Vec<Note>,
    /// The caution.
    pub caution: &'static str,
}

impl Answer {
    /// Whether it is of more weeks of a new block than the first.
    pub fn is_whole(&self) -> bool {
        let ends = self.sessions.first().zip(self.sessions.last()).filter(|_| self.of.kind == Kind::Block);
        ends.is_some_and(|(first, last)| (last.date - first.date).num_days() >= 7)
    }
}

/// What a draft is of, and what it is made from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Of {
    /// What is drafted.
    pub kind: Kind,
    /// The block that the draft is of.
    pub block: String,
    /// The week of it, from 1.
    pub week: u32,
    /// The block that it is made from.
    pub from_block: String,
    /// The week of that.
    pub from_week: u32,
    /// What kind of week it is.
    pub week_kind: WeekKind,
}

words! {
    /// What is drafted.
    pub enum Kind {
        /// A week of a block that has begun.
        Week = "week",
        /// The first week of a new block.
        Block = "block",
    }
}

/// What a draft says beside its plans, in quoted lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    /// A lift is not planned again, for it was skipped for a pain.
    Skipped {
        /// The lift.
        lift: String,
        /// When.
        date: NaiveDate,
        /// Why, as written.
        reason: String,
        /// What was planned.
        was: Vec<PlannedGroup>,
    },
    /// A lift is not planned again, for what it loads hurts.
    Hurts {
        /// The lift.
        lift: String,
        /// Where, as written.
        site: String,
        /// How much out of ten, in tenths.
        tenths: u32,
        /// When.
        date: NaiveDate,
        /// What it was.
        was: Vec<PlannedGroup>,
    },
    /// Nothing was done in this week, so it is planned again.
    Again(u32),
    /// Nothing was done in a week that nobody planned, so the step is the one that it would have had.
    OneStep {
        /// The week with nothing.
        missed: u32,
        /// The one before it.
        from: u32,
    },
    /// Nothing was done in several weeks, so the loads are those of the last week done.
    SteppedBack {
        /// The weeks with nothing.
        missed: Vec<u32>,
        /// The last week done.
        to: u32,
    },
    /// Nothing was trained for weeks.
    Away(TimeAway),
    /// A meet stands in the week.
    MeetWeek(Meet),
    /// The maxima are those of a block.
    MaximaOf(String),
    /// A lift is planned in per cents, and no maximum is known.
    MaximumOf(String),
    /// A lift was planned in per cents, and the block that stands names no maximum of it.
    NoMaximumIn {
        /// The lift.
        lift: String,
        /// The block.
        block: String,
    },
    /// The draft is made from another lifter's block.
    Like {
        /// The other lifter.
        lifter: String,
        /// The block.
        block: String,
    },
}

impl Note {
    /// Whether it keeps a lift out for a pain.
    pub fn is_of_pain(&self) -> bool {
        matches!(self, Note::Skipped { .. } | Note::Hurts { .. })
    }

    /// The same with what the lift was.
    fn of(mut self, groups: Vec<PlannedGroup>) -> Note {
        if let Note::Skipped { was, .. } | Note::Hurts { was, .. } = &mut self {
            *was = groups;
        }
        self
    }
}

/// A block that is to begin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewBlock {
    /// Its name.
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// How many weeks.
    pub weeks: u32,
    /// Deload weeks.
    pub deload: Vec<u32>,
    /// Peak weeks.
    pub peak: Vec<u32>,
    /// The maxima that it is begun with: lifts and loads.
    pub maxima: Vec<(String, Load)>,
}

/// A session that is drafted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drafted {
    /// The day.
    pub date: NaiveDate,
    /// Minutes after midnight, where another session of that day could be taken for this one.
    pub minute: Option<u16>,
    /// The day's label, without the word "day".
    pub day: Option<String>,
    /// The gym, where it is not the usual one.
    pub gym: Option<String>,
    /// Block and week, where the date alone would give others.
    pub placed: Option<(String, u32)>,
    /// The work, in the order of the session that it is made from.
    pub works: Vec<DraftedWork>,
    /// The lifts that are not planned again.
    pub notes: Vec<Note>,
}

/// A line of work that is drafted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DraftedWork {
    /// The lift.
    pub lift: String,
    /// The plan, nothing in it left open.
    pub groups: Vec<PlannedGroup>,
    /// What was done to the plan before, in the order in which it was done.
    pub changes: Vec<Change>,
}

/// What was done to a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// The load goes up by the step that there is room for.
    Up(Mass),
    /// The load comes down, for the same one would go over the cap.
    Down(Mass),
    /// The load comes down to the effort that the block's plans rise to.
    DownToPlan(Mass),
    /// So many thousandths of a percent of the maximum more, as the block's plans rise.
    PercentUp(i64),
    /// The load stays.
    Kept(Kept),
    /// So many sets come off.
    SetsOff(u32),
    /// So many reps come off each set.
    RepsOff(u32),
    /// The load comes down by so many percent or a little more.
    Lighter(u32),
    /// The load goes up to keep the effort with fewer reps.
    EffortKept(Mass),
    /// The load is the estimate's for these reps at this effort.
    Estimated(Effort),
    /// The load is that of the last block's first week.
    FirstWeek,
    /// No load is known for these reps.
    LoadUnknown,
    /// The plan stays without a load.
    StaysOpen(Open),
}

/// Why a plan stays without a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// The lift has not been done.
    NotDone,
    /// What was lifted last has no mass: a pin, a band, a share of a maximum that is not known, no load.
    NoMass,
    /// The lifter's own weight is not known.
    NoBodyweight,
    /// No clean set with reps, load and effort to reckon from.
    NoEffort,
    /// The planned effort is below the scale.
    UnderScale,
    /// So many reps are more than the equation reaches.
    ManyReps,
}

/// Why a load stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// A whole step more would go over the cap.
    NoRoom,
    /// No clean set with reps, load and effort to reckon from.
    NoEffort,
    /// It was not done that day.
    NotDone,
    /// The block has no end, so it is not known how many weeks the step must last for.
    NoEnd,
    /// A whole step more would be harder than the effort that the block's plans rise to.
    Pattern,
    /// The same share of the block's maximum.
    Percent,
    /// The week was missed, and is planned again.
    Again,
    /// Weeks were missed, and the loads are those of the last one done.
    SteppedBack,
    /// It does not hang on a bar: a dumbbell, a pin, a band, of whose sizes the gym's plates say nothing.
    Implement,
}

/// What is not in the draft.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LeftOut {
    /// The day that it would stand on.
    pub date: NaiveDate,
    /// The lift; nothing for a whole session.
    pub lift: Option<String>,
    /// Why.
    pub why: WhyOut,
}

words! {
    /// Why something is not in the draft.
    pub enum WhyOut {
        /// Deadlifts come out first before a test.
        DeadliftFirst = "deadlift first",
        /// Neither a plan nor sets say what it was.
        NothingWritten = "nothing written",
        /// A meet or a test stands on that day.
        MeetThatDay = "meet that day",
        /// The day is over.
        Past = "past",
        /// It was skipped for a pain, or what it loads hurts.
        Pain = "pain",
        /// A meet stands on one of the days before.
        AfterMeet = "after the meet",
        /// A meet is too near for a heavy deadlift.
        MeetNear = "meet near",
    }
}

/// A plan of the journal that gets its loads.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Fill {
    /// Where the plan stands.
    #[serde(flatten)]
    pub place: Place,
    /// The load of each of its groups, as it is written.
    pub loads: Vec<String>,
}

/// A session that the journal has already.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Already {
    /// The day.
    pub date: NaiveDate,
    /// Where its heading stands.
    #[serde(flatten)]
    pub place: Place,
}

/// A meet to come.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "MeetToCome")]
pub struct Meet {
    /// The day.
    pub date: NaiveDate,
    /// Its name.
    pub name: String,
}

/// Why nothing can be drafted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// No work inside a block.
    NoBlock,
    /// All days of the week are past.
    WeekPast {
        /// The block.
        block: String,
        /// The week.
        week: u32,
    },
    /// No week of the block starts on that day.
    NoWeekStarts {
        /// The block.
        block: String,
        /// The day that was asked for.
        asked: NaiveDate,
        /// The week that holds it, and the day on which that one starts; nothing where none holds it.
        week: Option<(u32, NaiveDate)>,
    },
    /// The other lifter has no block with plans or work.
    NoBlockLike(String),
    /// The block's last week is done.
    BlockOver {
        /// The block.
        block: String,
        /// Its last week.
        week: u32,
        /// The first day that a new block can have.
        free: NaiveDate,
    },
    /// The block comes after the one that was worked in last, and nothing of it is done or planned.
    NotBegun {
        /// The block.
        block: String,
    },
    /// The first week of the new block would be past.
    Past(NaiveDate),
    /// The block has no training to go on from.
    NoTraining {
        /// The block.
        block: String,
    },
    /// The new block would begin before another one ends.
    Overlaps {
        /// The other block.
        block: String,
        /// The first day after it; nothing where it has no end.
        free: Option<NaiveDate>,
    },
    /// The new block would reach into a later one.
    ReachesInto {
        /// The later block.
        block: String,
        /// Its first day.
        starts: NaiveDate,
    },
    /// A meet or test stands on every day of it.
    OnlyMeets,
    /// A block of that name is there already.
    NameTaken(String),
    /// The heading of the block stands already, and says when it starts and how long it is.
    Stands {
        /// The block.
        block: String,
    },
    /// The days lie past the last one that a page can name.
    NoSuchDay,
}

/// The day so many days later: dates are written with four digits for the year.
fn days_after(date: NaiveDate, days: u64) -> Result<NaiveDate, WhyNot> {
    date.checked_add_days(Days::new(days)).filter(|day| day.year() < 10_000).ok_or(WhyNot::NoSuchDay)
}

/// Whether a session is training: meets and test days are not repeated.
fn is_training(session: &Session) -> bool {
    session.meet.is_none() && !session.test_day
}

/// A line as the notation can have it: groups without a load and groups with one stand on lines of their own, for on
/// one line a group without takes the load before it.
fn lines(work: DraftedWork) -> impl Iterator<Item = DraftedWork> {
    let DraftedWork { lift, groups, mut changes } = work;
    let has_load = |group: &PlannedGroup| group.load != Load::None;
    let is_loaded = groups.iter().any(has_load);
    let runs: Vec<Vec<PlannedGroup>> =
        groups.chunk_by(|one, other| has_load(one) == has_load(other)).map(<[PlannedGroup]>::to_vec).collect();
    runs.into_iter().map(move |groups| {
        // What was done to a load is said of the first line that has one.
        let is_changed = !is_loaded || groups.iter().any(has_load);
        let changes = if is_changed { std::mem::take(&mut changes) } else { Vec::new() };
        DraftedWork { lift: lift.clone(), groups, changes }
    })
}

/// Sessions with a time only where one of that day could be taken for another. What would be one session is one.
fn told_apart(sessions: Vec<Drafted>) -> Vec<Drafted> {
    let day = |drafted: &Drafted| (drafted.date, drafted.day.as_deref().map(fold));
    let mut apart: Vec<Drafted> = Vec::with_capacity(sessions.len());
    let mut known = HashMap::new();
    let mut of_day: HashMap<_, u32> = HashMap::new();
    for drafted in sessions {
        let at = *known.entry((day(&drafted), drafted.minute)).or_insert(apart.len());
        match apart.get_mut(at) {
            Some(other) => {
                other.works.extend(drafted.works);
                other.notes.extend(drafted.notes);
            }
            None => {
                *of_day.entry(day(&drafted)).or_default() += 1;
                apart.push(drafted);
            }
        }
    }
    for drafted in apart.iter_mut().filter(|drafted| of_day.get(&day(drafted)) == Some(&1)) {
        drafted.minute = None;
    }
    apart
}

/// The answer, with what the journal already holds for its days. A session on the day of a meet or test to come is
/// left out.
fn answered(
    history: &History<'_>,
    of: Of,
    new: Option<NewBlock>,
    (sessions, notes): (Vec<Drafted>, Vec<Note>),
    mut left_out: Vec<LeftOut>,
) -> Result<Answer, WhyNot> {
    let sessions = told_apart(sessions);
    let on_that_day = |date: NaiveDate| {
        let first = history.log.sessions.partition_point(|session| session.date < date);
        history.log.sessions.iter().skip(first).take_while(move |session| session.date == date)
    };
    let mut is_free: HashMap<NaiveDate, bool> = HashMap::new();
    let (sessions, taken): (Vec<Drafted>, Vec<Drafted>) = sessions.into_iter().partition(|drafted| {
        *is_free.entry(drafted.date).or_insert_with(|| on_that_day(drafted.date).all(is_training))
    });
    if sessions.is_empty() {
        return Err(WhyNot::OnlyMeets);
    }
    left_out.extend(taken.iter().map(|drafted| LeftOut { date: drafted.date, lift: None, why: WhyOut::MeetThatDay }));
    left_out.sort_by_key(|out| out.date);
    let already = already(history, &of.block, &sessions, &left_out);
    let to_come = history.log.sessions.iter().filter(|session| session.date > history.today);
    let meets =
        to_come.filter_map(|session| Some(Meet { date: session.date, name: session.meet.as_deref()?.to_owned() }));
    Ok(Answer {
        of,
        new,
        on: history.today,
        fills: Vec::new(),
        already,
        meets: meets.collect(),
        notes,
        sessions,
        left_out,
        caution: CAUTION,
    })
}

/// The sessions that the journal has on the days of the draft; and those of a drafted label that stand on another day of the
/// same week, on which nothing would be drafted: the lifter has moved them.
fn already(history: &History<'_>, block: &str, drafted: &[Drafted], left_out: &[LeftOut]) -> Vec<Already> {
    let whole = left_out.iter().filter(|out| out.lift.is_none());
    let days: HashSet<NaiveDate> =
        drafted.iter().map(|drafted| drafted.date).chain(whole.map(|out| out.date)).collect();
    let at = history.log.blocks.iter().position(|known| known.name == block);
    let label = |day: &Option<Box<str>>| day.as_deref().map(fold);
    let moved: HashSet<(Option<u32>, String)> = drafted
        .iter()
        .filter_map(|drafted| {
            let of_date = || Some(history.log.blocks.get(at?)?.week_of(drafted.date));
            let week = drafted.placed.as_ref().map(|(_, week)| *week).or_else(of_date);
            Some((week, fold(drafted.day.as_deref()?)))
        })
        .collect();
    let is_moved = |session: &Session| {
        let is_here = session.block.is_some_and(|id| usize::try_from(id.0).ok() == at) && !days.contains(&session.date);
        let key = label(&session.day).map(|label| (session.week, label));
        is_here && is_training(session) && key.is_some_and(|key| moved.contains(&key))
    };
    let there = |session: &&Session| drafted.iter().any(|one| one.date == session.date) || is_moved(session);
    let sessions = history.log.sessions.iter().filter(there);
    sessions.map(|one| Already { date: one.date, place: history.log.place(one.page, one.line) }).collect()
}
