//! `since`: blocks since the last high-rep phase.

use crate::history::{Done, History, Mark, Marked};
use crate::training::{Amount, BlockId, Family, Figure, Hundredths, LiftId, Set, Threshold};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// Whose sets are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// The main lifts: squats, hinges and presses of known kilograms.
    Main,
    /// One lift.
    Lift(LiftId),
    /// One family.
    Family(Family),
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// Whose sets are counted.
    pub of: Of,
    /// A set of this many reps or more is a high-rep set; nothing for the settings' number.
    pub reps: Option<u32>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The bound that held.
    pub reps: u32,
    /// The lift asked about.
    pub lift: Option<String>,
    /// The family asked about.
    pub family: Option<Family>,
    /// The block that holds today.
    pub block: Option<String>,
    /// Blocks after the last high-rep one, up to and with the current one; nothing when none ever was.
    pub blocks_since: Option<u32>,
    /// The last high-rep block.
    pub last_high_rep_block: Option<String>,
    /// The last high-rep set.
    pub last_set: Option<Mark>,
    /// The lift of it.
    pub last_set_lift: Option<String>,
    /// Whole weeks from it to today.
    pub weeks_since_set: Option<i64>,
    /// Whole weeks since the last high-rep block ended, or where none ever was since the first block started.
    pub weeks_without: Option<i64>,
    /// More weeks than these are too many: by `high-reps-missing` in the settings, else eight. Common practice, no source.
    pub usual_weeks: Hundredths,
    /// Whether they are more.
    #[serde(skip)]
    pub too_long: bool,
    /// The last day with work of any lift.
    pub last_work: Option<NaiveDate>,
    /// Days from it to today, where they are a week and more.
    #[serde(skip)]
    pub days_idle: Option<i64>,
    /// Every block started by today.
    pub blocks: Vec<Row>,
    /// Work sets with reps that are not counted, where neither a lift nor a family is asked for.
    pub sets_left_out: u32,
}

/// One block.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// Weeks with counted sets, deload and peak weeks left out.
    pub weeks_with_work: u32,
    /// Those of them that are high-rep.
    pub high_rep_weeks: u32,
    /// Counted sets.
    pub sets: u32,
    /// Those of them that are high-rep.
    pub high_rep_sets: u32,
    /// Whether the block is high-rep.
    pub high_rep: bool,
}

/// So many weeks without a high-rep block, and more, are too many. Common practice, no source.
pub(super) const TOO_LONG: Threshold =
    Threshold { name: "high-reps-missing", unit: "weeks", least: 1.0, most: 104.0, default: 8.0 };

/// The families counted where nothing is asked for.
const MAIN: [Family; 4] = [Family::Squat, Family::Hinge, Family::HorizontalPress, Family::VerticalPress];

/// Whether a set is one of the main lifts' that are counted: reps of a squat, hinge or press, of known kilograms.
pub(super) fn is_main(history: &History<'_>, done: &Done<'_>, set: &Set<'_>) -> bool {
    let family = history.log.lift(done.work.lift).map(|lift| lift.family);
    family.is_some_and(|family| MAIN.contains(&family))
        && set.group.load.kilograms(done.session.own_mass()).is_some()
        && set.is_work()
        && matches!(set.amount, Amount::Reps(_))
}

/// Sets that are counted, and those of them that are high-rep.
pub(super) struct Counting<'h, 'a> {
    history: &'h History<'a>,
    of: Of,
    /// A set of this many reps or more is a high-rep set.
    bound: u32,
}

impl<'h, 'a> Counting<'h, 'a> {
    pub(super) fn of(history: &'h History<'a>, ask: &Ask) -> Self {
        Counting { history, of: ask.of, bound: ask.reps.unwrap_or(history.log.high_reps) }
    }

    fn counts(&self, done: &Done<'_>, set: &Set<'_>) -> bool {
        let family = || self.history.log.lift(done.work.lift).map(|lift| lift.family);
        let ours = match self.of {
            Of::Main => return is_main(self.history, done, set),
            Of::Lift(lift) => done.work.lift == lift,
            Of::Family(wanted) => family() == Some(wanted),
        };
        ours && set.is_work() && matches!(set.amount, Amount::Reps(_))
    }

    fn is_high(&self, set: &Set<'_>) -> bool {
        set.amount.reps().is_some_and(|reps| reps >= self.bound)
    }

    /// The numbers of the blocks started by today.
    fn started(&self) -> std::ops::Range<usize> {
        0..self.history.log.blocks.partition_point(|block| block.starts <= self.history.today)
    }

    /// A block, by its number.
    pub(super) fn row(&self, at: usize) -> Option<Row> {
        let block = self.history.log.blocks.get(at)?;
        let mut row = Row {
            name: block.name.clone(),
            starts: block.starts,
            weeks_with_work: 0,
            high_rep_weeks: 0,
            sets: 0,
            high_rep_sets: 0,
            high_rep: false,
        };
        for week in self.history.weeks_of(BlockId(u32::try_from(at).ok()?)).filter(|week| !week.light) {
            let (mut sets, mut high_sets) = (0, 0);
            for done in week.works() {
                for set in done.work_sets().filter(|set| self.counts(&done, set)) {
                    sets += 1;
                    high_sets += u32::from(self.is_high(&set));
                }
            }
            row.weeks_with_work += u32::from(sets > 0);
            row.high_rep_weeks += u32::from(sets > 0 && 2 * high_sets >= sets);
            row.sets += sets;
            row.high_rep_sets += high_sets;
        }
        row.high_rep = row.weeks_with_work > 0 && 2 * row.high_rep_weeks >= row.weeks_with_work;
        Some(row)
    }

    /// The number of the last high-rep block.
    pub(super) fn last_high(&self) -> Option<usize> {
        self.started().rev().find(|at| self.row(*at).is_some_and(|row| row.high_rep))
    }

    /// Days since the last high-rep block ended; where none ever was, since the day before the first block started.
    pub(super) fn days_without(&self, last_high: Option<usize>) -> Option<i64> {
        let blocks = &self.history.log.blocks;
        // A block without an end goes on to the next one.
        let ended = match last_high.and_then(|at| Some((at, blocks.get(at)?))) {
            Some((at, block)) => {
                let next = || blocks.get(at + 1).map(|next| next.starts).filter(|next| *next <= self.history.today);
                block.ends.or_else(next)?
            }
            None => blocks.first()?.starts.pred_opt()?,
        };
        Some((self.history.today - ended).num_days().max(0))
    }

    /// The last high-rep set, with its lift.
    pub(super) fn last_set(&self) -> Option<(LiftId, Mark)> {
        self.history.works().rev().find_map(|done| {
            let qualifies = |set: &Set<'_>| self.counts(&done, set) && self.is_high(set);
            let last = done.work_sets().filter(qualifies).last()?;
            let same = |mark: &Marked<'_>| std::ptr::eq(mark.group, last.group) && mark.amount == last.amount;
            let mark = Marked::of(done, qualifies).into_iter().find(same)?;
            Some((done.work.lift, mark.shown(self.history, qualifies)))
        })
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let log = history.log;
    let counting = Counting::of(history, ask);
    let blocks: Vec<Row> = counting.started().filter_map(|at| counting.row(at)).collect();
    let last_high = blocks.iter().rposition(|row| row.high_rep);
    let current = history.block_today();
    let last = match current {
        Some(BlockId(at)) => at as usize,
        None => blocks.len().saturating_sub(1),
    };
    let blocks_since = last_high.map(|at| u32::try_from(last.saturating_sub(at)).unwrap_or(0));
    let last_work = history.works().rev().find(|done| done.work.has_work()).map(|done| done.session.date);
    let (last_set_lift, last_set) = counting.last_set().unzip();
    let is_left_out = |done: &Done<'_>, set: &Set<'_>| set.amount.reps().is_some() && !counting.counts(done, set);
    let left_out = |done: Done<'_>| done.work_sets().filter(|set| is_left_out(&done, set)).count();
    let left_out: usize = if ask.of == Of::Main { history.works().map(left_out).sum() } else { 0 };
    let weeks_without = counting.days_without(last_high).map(|days| days / 7);
    let usual_weeks = TOO_LONG.in_force(&log.thresholds);
    Answer {
        reps: counting.bound,
        lift: match ask.of {
            Of::Lift(lift) => Some(log.lift_name(lift).to_owned()),
            _ => None,
        },
        family: match ask.of {
            Of::Family(family) => Some(family),
            _ => None,
        },
        block: log.block_name(current),
        blocks_since,
        last_high_rep_block: last_high.and_then(|at| blocks.get(at)).map(|row| row.name.clone()),
        weeks_since_set: last_set.as_ref().map(|mark| (history.today - mark.date).num_days().div_euclid(7)),
        weeks_without,
        usual_weeks: Figure(usual_weeks),
        too_long: weeks_without.is_some_and(|weeks| weeks as f64 > usual_weeks),
        last_set,
        last_set_lift: last_set_lift.map(|lift| log.lift_name(lift).to_owned()),
        last_work,
        days_idle: last_work.map(|date| (history.today - date).num_days()).filter(|days| *days >= 7),
        blocks,
        sets_left_out: u32::try_from(left_out).unwrap_or(u32::MAX),
    }
}
