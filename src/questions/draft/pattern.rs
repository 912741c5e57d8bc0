//! How the block's own plans rise from week to week: their efforts, and their per cents of a maximum.

use super::outlook::rpe;
use super::shape::percent;
use super::weeks::training_of;
use crate::history::{History, WeekKey};
use crate::training::{Block, BlockId, Effort, EffortRange, LiftId, PlannedGroup, Session, Work, fold};
use std::cell::RefCell;
use std::collections::HashMap;

/// By how much a line's plans rise in a loading week; nothing where fewer than two weeks say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Rise {
    /// Thousandths of a point of RPE, in whole halves.
    pub(super) effort: Option<i64>,
    /// Thousandths of a percent, in whole halves.
    pub(super) percent: Option<i64>,
}

impl Rise {
    /// Of a line, as it was planned in the loading weeks of its block up to the one that it is drafted from.
    pub(super) fn of(lines_by_place: &LinesByPlace<'_, '_>, session: &Session, work: &Work) -> Rise {
        let (block, last) = (lines_by_place.block, session.week.unwrap_or(0));
        let loading = (1..=last).filter(|week| !block.deload.contains(week) && !block.peak.contains(week));
        let alike = lines_by_place.of(session, work);
        let plans: Vec<(usize, &[PlannedGroup])> =
            loading.enumerate().filter_map(|(nth, week)| Some((nth, &*alike(week)?.1.plan()?.groups))).collect();
        let rise = |figure: fn(&PlannedGroup) -> Option<i64>| {
            let figures =
                plans.iter().filter_map(|(nth, groups)| Some((*nth, groups.iter().filter_map(figure).max()?)));
            per_week(&figures.collect::<Vec<_>>())
        };
        Rise { effort: rise(|group| group.effort.map(middle)), percent: rise(|group| percent(&group.load)) }
    }

    /// An effort a week later, no harder than a cap.
    pub(super) fn effort_after(self, planned: EffortRange, cap: Effort) -> Option<EffortRange> {
        let by = self.effort?;
        let later = |effort: Effort| rpe(i64::from(effort.quarters()) * 250 + by).min(cap);
        Some(EffortRange { low: later(planned.low), high: later(planned.high) })
    }
}

/// A day's label; without one its place in the block's week.
type Day = (Option<String>, Option<i64>);

/// A lift's line of a day, with as many of the lift's before it.
type Place = (Day, LiftId, usize);

/// The first line of a week at each place.
type OfWeek<'a> = HashMap<Place, (&'a Session, &'a Work)>;

/// The lines of a block's weeks by their places, those of a week gathered when one is asked about.
pub(super) struct LinesByPlace<'h, 'a> {
    history: &'h History<'a>,
    id: BlockId,
    block: &'h Block,
    weeks: RefCell<HashMap<u32, OfWeek<'a>>>,
}

impl<'h, 'a> LinesByPlace<'h, 'a> {
    /// Nothing is gathered yet.
    pub(super) fn new(history: &'h History<'a>, id: BlockId, block: &'h Block) -> Self {
        LinesByPlace { history, id, block, weeks: RefCell::default() }
    }

    /// The same line in other weeks: of a day of that label, the lift's line with as many of the lift's before it.
    pub(super) fn of(&self, session: &Session, work: &Work) -> impl Fn(u32) -> Option<(&'a Session, &'a Work)> {
        let before = session.works.iter().take_while(|line| line.line != work.line);
        let nth = before.filter(|line| line.lift == work.lift).count();
        let place = (day(self.block, session), work.lift, nth);
        move |week| {
            let mut weeks = self.weeks.borrow_mut();
            weeks.entry(week).or_insert_with(|| self.gathered(week)).get(&place).copied()
        }
    }

    fn gathered(&self, week: u32) -> OfWeek<'a> {
        let mut lines = HashMap::new();
        for session in training_of(self.history, WeekKey { block: self.id, week }) {
            let day = day(self.block, session);
            let mut before: HashMap<LiftId, usize> = HashMap::new();
            for work in &session.works {
                let nth = before.entry(work.lift).or_default();
                lines.entry((day.clone(), work.lift, *nth)).or_insert((session, work));
                *nth += 1;
            }
        }
        lines
    }
}

fn middle(range: EffortRange) -> i64 {
    i64::from(range.low.quarters() + range.high.quarters()) * 125
}

fn day(block: &Block, session: &Session) -> Day {
    let label = session.day.as_deref().map(fold);
    let weekday = label.is_none().then(|| (session.date - block.starts).num_days().rem_euclid(7));
    (label, weekday)
}

/// The usual rise, in whole halves, and never down: the median from each week to the next that is planned.
fn per_week(figures: &[(usize, i64)]) -> Option<i64> {
    let pairs = figures.iter().zip(figures.iter().skip(1));
    let mut rises: Vec<i64> =
        pairs.map(|((from, low), (to, high))| (high - low) / ((to - from).max(1) as i64)).collect();
    rises.sort_unstable();
    let (upper, lower) = (rises.get(rises.len() / 2)?, rises.get(rises.len().checked_sub(1)? / 2)?);
    Some(((upper + lower) / 2).max(0) / 500 * 500)
}

#[cfg(test)]
mod tests {
    use super::per_week;

    #[test]
    fn the_usual_rise_is_the_median_in_whole_halves() {
        assert_eq!(per_week(&[(0, 6000), (1, 7000), (2, 8000)]), Some(1000));
        assert_eq!(per_week(&[(0, 6000), (1, 6500), (2, 7500)]), Some(500));
        assert_eq!(per_week(&[(0, 6000), (2, 7000)]), Some(500), "the week between had no plan");
        assert_eq!(per_week(&[(0, 8000), (1, 7000)]), Some(0));
        assert_eq!(per_week(&[(0, 8000)]), None);
    }
}
