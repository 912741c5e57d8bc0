//! `adherence`: what was planned against what was done, by week and lift.

pub use crate::analysis::plan::against_plan::{AgainstPlan, FarFromPlan, HeldEffort};
use crate::analysis::plan::planned_lines::PlannedLines;
pub use crate::analysis::plan::planned_lines::{Added, Fate, Line, Skipped, Swapped, ToCome, Where};
pub use crate::analysis::plan::planned_sums::{EffortCounts, LoadCounts, Sums, Total};
use crate::history::History;
use crate::training::{BlockId, EffortGap, LiftId, Session, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

words! {
    /// What the rows are.
    pub enum By {
        /// Each lift of each week.
        Week = "week",
        /// Each lift.
        Lift = "lift",
    }
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// What the rows are.
    pub by: By,
    /// Only this block, in place of the current one.
    pub block: Option<BlockId>,
    /// Only this week of the block.
    pub week: Option<u32>,
    /// Only this lift.
    pub lift: Option<LiftId>,
    /// Only from this day on.
    pub since: Option<NaiveDate>,
    /// Only up to this day.
    pub until: Option<NaiveDate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// What the rows are.
    pub by: By,
    /// The block it is about; nothing where it is about all of them.
    pub block: Option<String>,
    /// The week of it that was asked for.
    pub week: Option<u32>,
    /// The first day that was asked for.
    pub since: Option<NaiveDate>,
    /// The last day that was asked for.
    pub until: Option<NaiveDate>,
    /// An effort this far above its plan, or farther, is an overshoot.
    pub overshoot: EffortGap,
    /// An effort this far below its plan, or farther, is a gross undershoot.
    pub gross_undershoot: EffortGap,
    /// Everything up to today.
    #[serde(flatten)]
    pub total: Sums,
    /// The rows: weeks in order of time, lifts in order of their first planned line.
    pub rows: Vec<Row>,
    /// Each planned line up to today, in order of time.
    pub lines: Vec<Line>,
    /// Lines skipped, planned or not.
    pub skipped: Vec<Skipped>,
    /// Lifts that others stood in for.
    pub swapped: Vec<Swapped>,
    /// Work without a plan where others are planned, in order of time.
    pub added: Vec<Added>,
    /// The same by lift, in order of the first.
    #[serde(skip)]
    pub added_lifts: Vec<AddedLift>,
    /// What is planned and still to come.
    pub to_come: ToCome,
}

/// A lift, in a week or in all of them.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// The block's name, by week.
    pub block: Option<String>,
    /// The week of it, by week.
    pub week: Option<u32>,
    /// The lift.
    pub lift: String,
    /// What its planned lines come to.
    #[serde(flatten)]
    pub sums: Sums,
    /// Those lines, by their places in the answer's.
    #[serde(skip)]
    pub lines: Vec<usize>,
}

/// What was added on one lift.
#[derive(Clone, Debug, PartialEq)]
pub struct AddedLift {
    /// The lift.
    pub lift: String,
    /// Work sets.
    pub sets: u32,
    /// Each time, by its place in the answer's list.
    pub added: Vec<usize>,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let everywhere = ask.week.is_none() && (ask.since.is_some() || ask.until.is_some());
    let block = ask.block.or_else(|| if everywhere { None } else { history.current_block() });
    let name = |block: BlockId| history.log.block(block).map(|block| block.name.clone());
    let wanted = |session: &&Session| {
        block.is_none_or(|block| session.block == Some(block))
            && ask.week.is_none_or(|week| session.week == Some(week))
            && ask.since.is_none_or(|since| session.date >= since)
            && ask.until.is_none_or(|until| session.date <= until)
    };
    let planned = PlannedLines::of(history, ask.lift, history.log.sessions.iter().filter(wanted));
    let mut answer = Answer {
        by: ask.by,
        block: block.and_then(name),
        week: ask.week,
        since: ask.since,
        until: ask.until,
        overshoot: FarFromPlan::of(&history.log.thresholds).overshoot,
        gross_undershoot: FarFromPlan::of(&history.log.thresholds).gross_undershoot,
        total: Sums::default(),
        rows: Vec::new(),
        lines: planned.lines,
        skipped: planned.skipped,
        swapped: planned.swapped,
        added_lifts: by_lift(&planned.added),
        added: planned.added,
        to_come: planned.to_come,
    };
    answer.rows = rows(ask.by, &answer.lines);
    answer.lines.iter().for_each(|line| answer.total.add(&line.sums));
    answer
}

/// The rows of a week of a block, or of no week.
struct Week<'l> {
    key: (Option<&'l str>, Option<u32>),
    rows: Vec<Row>,
}

/// The lines summed up by lift, and by week where that is asked.
fn rows(by: By, lines: &[Line]) -> Vec<Row> {
    // Weeks first, so that a session put in another week by hand stands with its like.
    let mut weeks: Vec<Week<'_>> = Vec::new();
    for (nth, line) in lines.iter().enumerate() {
        let key = match by {
            By::Week => (line.at.block.as_deref(), line.at.week),
            By::Lift => (None, None),
        };
        let at = weeks.iter().rposition(|week| week.key == key).unwrap_or_else(|| {
            weeks.push(Week { key, rows: Vec::new() });
            weeks.len() - 1
        });
        let Some(Week { rows, .. }) = weeks.get_mut(at) else { continue };
        match rows.iter_mut().find(|row| row.lift == line.lift) {
            Some(row) => {
                row.sums.add(&line.sums);
                row.lines.push(nth);
            }
            None => rows.push(Row {
                block: key.0.map(str::to_owned),
                week: key.1,
                lift: line.lift.clone(),
                sums: line.sums.clone(),
                lines: vec![nth],
            }),
        }
    }
    weeks.into_iter().flat_map(|week| week.rows).collect()
}

fn by_lift(added: &[Added]) -> Vec<AddedLift> {
    let mut lifts: Vec<AddedLift> = Vec::new();
    for (nth, one) in added.iter().enumerate() {
        match lifts.iter_mut().find(|known| known.lift == one.lift) {
            Some(known) => {
                known.sets += one.sets;
                known.added.push(nth);
            }
            None => lifts.push(AddedLift { lift: one.lift.clone(), sets: one.sets, added: vec![nth] }),
        }
    }
    lifts
}
