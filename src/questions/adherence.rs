//! `adherence`: what was planned against what was done, by week and lift.

pub use crate::analysis::plan::against_plan::{AgainstPlan, FarFromPlan, HeldEffort};
use crate::analysis::plan::planned_lines::PlannedLines;
pub use crate::analysis::plan::planned_lines::{Added, Fate, Line, Skipped, Swapped, ToCome, Where};
pub use crate::analysis::plan::planned_sums::{EffortCounts, LoadCounts, Sums, Total};
use crate::history::History;
use crate::training::{BlockId, EffortGap, LiftId, Session, is_within, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::cmp::Reverse;

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
    /// Whether the block's last day is past.
    #[serde(skip)]
    pub is_over: bool,
    /// The week of it that was asked for.
    pub week: Option<u32>,
    /// The first day that was asked for.
    pub since: Option<NaiveDate>,
    /// The last day that was asked for.
    pub until: Option<NaiveDate>,
    /// An effort this far above its plan, or farther, is over plan.
    pub over_plan: EffortGap,
    /// An effort this far below its plan, or farther, is far under plan.
    pub far_under_plan: EffortGap,
    /// Everything up to today.
    #[serde(flatten)]
    pub total: Sums,
    /// Why planned sets were not reached.
    pub missed: Missed,
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

/// Planned sets that were not reached, by what they lack; together with the sets reached they are all that were planned.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Missed {
    /// Done with a lighter load.
    pub lighter: Vec<OfLift>,
    /// Done with fewer reps, seconds or metres, or not done on a line that was.
    pub short: Vec<OfLift>,
    /// Of lines that were skipped.
    pub skipped: Vec<OfLift>,
    /// With loads that cannot be held against the planned ones.
    pub unknown: Vec<OfLift>,
}

/// Sets of a lift.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OfLift {
    /// The lift.
    pub lift: String,
    /// How many.
    pub sets: u32,
}

impl Missed {
    fn of(lines: &[Line]) -> Self {
        let mut missed = Missed::default();
        for line in lines {
            let sums = &line.sums;
            let not_reached = sums.sets_planned.saturating_sub(sums.sets_reached);
            if sums.skipped > 0 {
                count_of(&mut missed.skipped, &line.lift, not_reached);
                continue;
            }
            let lighter = sums.loads.lighter.min(not_reached);
            let unknown = sums.loads.unknown.min(not_reached - lighter);
            count_of(&mut missed.lighter, &line.lift, lighter);
            count_of(&mut missed.unknown, &line.lift, unknown);
            count_of(&mut missed.short, &line.lift, not_reached - lighter - unknown);
        }
        // The most first; lifts with as many stand as they were first done.
        for list in [&mut missed.lighter, &mut missed.short, &mut missed.skipped, &mut missed.unknown] {
            list.sort_by_key(|one| Reverse(one.sets));
        }
        missed
    }
}

fn count_of(list: &mut Vec<OfLift>, lift: &str, sets: u32) {
    match list.iter_mut().find(|known| known.lift == lift) {
        Some(known) => known.sets += sets,
        None if sets > 0 => list.push(OfLift { lift: lift.to_owned(), sets }),
        None => {}
    }
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
    let wanted = |session: &&Session| {
        block.is_none_or(|block| session.block == Some(block))
            && ask.week.is_none_or(|week| session.week == Some(week))
            && is_within(session.date, ask.since, ask.until)
    };
    let planned = PlannedLines::of(history, ask.lift, history.log.sessions.iter().filter(wanted));
    let mut answer = Answer {
        by: ask.by,
        block: history.log.block_name(block),
        is_over: block.and_then(|block| history.log.block(block)?.ends).is_some_and(|ends| ends < history.today),
        week: ask.week,
        since: ask.since,
        until: ask.until,
        over_plan: FarFromPlan::of(&history.log.thresholds).over_plan,
        far_under_plan: FarFromPlan::of(&history.log.thresholds).far_under_plan,
        total: Sums::default(),
        missed: Missed::of(&planned.lines),
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
