//! A block whose heading stands, with nothing done in it yet.

use super::weeks::USUAL_WEEKS;
use super::{NewBlock, WeekKind, WhyNot, days_after, is_training};
use crate::history::History;
use crate::training::{Block, BlockId, Work, fold};
use chrono::NaiveDate;

/// The block that is to be filled.
#[derive(Clone, Copy, Debug)]
pub(super) struct Standing<'a> {
    pub(super) id: BlockId,
    pub(super) block: &'a Block,
}

/// What is said of the block that is to be drafted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Said<'s> {
    pub(super) name: Option<&'s str>,
    pub(super) starts: Option<NaiveDate>,
    pub(super) weeks: Option<u32>,
}

/// The block that is meant, where its heading stands: the one of the name or of the first day that is said, else the first
/// after a block.
pub(super) fn standing<'a>(
    history: &History<'a>,
    after: Option<BlockId>,
    Said { name, starts, weeks }: Said<'_>,
) -> Result<Option<Standing<'a>>, WhyNot> {
    let none = |id: BlockId, is: fn(&Work) -> bool| {
        let mut training = history.all_of_block(id).into_iter().filter(|session| is_training(session));
        !training.any(|session| session.works.iter().any(is))
    };
    let ids = (0..history.log.blocks.len()).filter_map(|at| u32::try_from(at).ok().map(BlockId));
    let untrained = ids.filter_map(|id| Some(Standing { id, block: history.log.block(id)? })).filter(|standing| {
        none(standing.id, Work::has_work)
            && standing.block.ends.is_none_or(|ends| ends >= history.today)
            && after.is_none_or(|after| standing.id > after)
    });
    let untrained: Vec<Standing<'_>> = untrained.collect();
    let find = |is: &dyn Fn(&Standing<'_>) -> bool| untrained.iter().find(|standing| is(standing)).copied();
    let found = match (name, starts) {
        (Some(name), _) => find(&|standing| fold(&standing.block.name) == fold(name)),
        (None, Some(starts)) => find(&|standing| standing.block.starts == starts),
        // One with nothing planned in it comes first.
        (None, None) => find(&|standing| none(standing.id, |_| true)).or_else(|| find(&|_| true)),
    };
    let Some(standing) = found else { return Ok(None) };
    if weeks.is_some() || starts.is_some_and(|starts| starts != standing.block.starts) {
        return Err(WhyNot::Stands { block: standing.block.name.clone() });
    }
    Ok(Some(standing))
}

impl Standing<'_> {
    /// What a draft of all its weeks goes by.
    pub(super) fn as_new(self) -> NewBlock {
        let Block { name, starts, deload, peak, .. } = self.block;
        let weeks = self.block.ends.map_or(USUAL_WEEKS, |ends| self.block.week_of(ends));
        let (deload, peak) = (deload.clone(), peak.clone());
        NewBlock { name: name.clone(), starts: *starts, weeks, deload, peak, maxima: Vec::new() }
    }

    /// The loading weeks that are not over, each with its first day.
    pub(super) fn weeks(&self, history: &History<'_>) -> Result<Vec<(u32, NaiveDate)>, WhyNot> {
        let now = if history.today > self.block.starts { self.block.week_of(history.today) } else { 1 };
        let last = self.block.ends.map_or(now + 1, |ends| self.block.week_of(ends));
        let loading = (now..=last).filter(|week| WeekKind::of(history, self.block, *week) == WeekKind::Loading);
        loading.map(|week| Ok((week, days_after(self.block.starts, u64::from(week - 1) * 7)?))).collect()
    }
}
