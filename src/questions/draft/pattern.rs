//! How the block's own plans rise from week to week: their efforts, and their per cents of a maximum.

use super::outlook::rpe;
use super::shape::percent;
use super::weeks::training_of;
use crate::history::{History, WeekKey};
use crate::training::{Block, BlockId, Effort, EffortRange, PlannedGroup, Session, Work, fold};

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
    pub(super) fn of(history: &History<'_>, (id, block): (BlockId, &Block), session: &Session, work: &Work) -> Rise {
        let last = session.week.unwrap_or(0);
        let loading = (1..=last).filter(|week| !block.deload.contains(week) && !block.peak.contains(week));
        let plans: Vec<(usize, &[PlannedGroup])> = loading
            .enumerate()
            .filter_map(|(nth, week)| {
                let (_, alike) = twin(history, (id, block), week, session, work)?;
                Some((nth, &*alike.plan()?.groups))
            })
            .collect();
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

/// The same line in another week: of a day of that label, the lift's line with as many of the lift's before it.
pub(super) fn twin<'a>(
    history: &History<'a>,
    (id, block): (BlockId, &Block),
    week: u32,
    session: &Session,
    work: &Work,
) -> Option<(&'a Session, &'a Work)> {
    let before = session.works.iter().take_while(|line| line.line != work.line).filter(|line| line.lift == work.lift);
    let nth = before.count();
    training_of(history, WeekKey { block: id, week })
        .filter(|other| is_same_day(block, other, session))
        .find_map(|other| Some((other, other.works.iter().filter(|line| line.lift == work.lift).nth(nth)?)))
}

fn middle(range: EffortRange) -> i64 {
    i64::from(range.low.quarters() + range.high.quarters()) * 125
}

/// The same label; without one the same day of the block's week.
fn is_same_day(block: &Block, one: &Session, other: &Session) -> bool {
    let label = |session: &Session| session.day.as_deref().map(fold);
    let weekday = |session: &Session| (session.date - block.starts).num_days().rem_euclid(7);
    label(one) == label(other) && (label(one).is_some() || weekday(one) == weekday(other))
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
