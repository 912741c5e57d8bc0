//! `draft block --whole`: the weeks after the first one. Efforts rise as they did in the block that it is made from, and
//! loads are left to what will have been done.

use super::gyms::UsualGyms;
use super::light::{self, Light};
use super::outlook::rpe;
use super::pain::Pains;
use super::pattern::LinesByPlace;
use super::shape::{MOST_SETS, is_main, only, percent};
use super::standing::Standing;
use super::week::{line, no_deadlift};
use super::weeks::{first_week_day, kind_of, placed, training_of};
use super::{Drafted, DraftedWork, LeftOut, NewBlock, WeekKind, WhyNot, WhyOut, days_after, lines};
use crate::analysis::rack::{HangsOn, Rack};
use crate::history::{History, WeekKey};
use crate::training::{
    Amount, Block, BlockId, CompetitionLift, EffortRange, Efforts, Load, PlannedGroup, Session, Work,
};
use std::collections::HashSet;

/// Efforts of the first loading week and of the last one, where no plan says: the middles of a range of a point. Common
/// practice, no source.
const LADDER: (i64, i64) = (6500, 8500);
/// Sets lighter than a line's heaviest are so much easier, where no plan says: this project's own choice.
const BACK_OFF: i64 = 1000;

/// What the weeks are made from.
pub(super) struct From<'h, 'a> {
    /// Whose block it is.
    pub(super) history: &'h History<'a>,
    /// The block.
    pub(super) id: BlockId,
    /// The same.
    pub(super) block: &'h Block,
    /// Its week that the first one is made from.
    pub(super) week: u32,
}

/// What the weeks are to be.
pub(super) struct Weeks<'h, 'a> {
    pub(super) from: From<'h, 'a>,
    /// Who will train.
    pub(super) own: &'h History<'a>,
    /// The block that is to begin.
    pub(super) new: &'h NewBlock,
    /// The week that is drafted already.
    pub(super) after: u32,
    /// The block where its heading stands.
    pub(super) standing: Option<Standing<'h>>,
    /// Reps a set of squats, hinges and presses, in place of those of the last block.
    pub(super) reps: Option<u32>,
    /// Whether weights of sizes of their own and shares of a maximum stay: they are this lifter's.
    pub(super) keeps: bool,
}

impl<'a> Weeks<'_, 'a> {
    /// The weeks after the first one, and what is not in them.
    pub(super) fn later(&self) -> Result<(Vec<Drafted>, Vec<LeftOut>), WhyNot> {
        let (mut sessions, mut left_out) = (Vec::new(), Vec::new());
        let pains = Pains::of(self.own);
        let gyms = UsualGyms::of(self.own);
        let lines_by_place = LinesByPlace::new(self.from.history, self.from.id, self.from.block);
        let loading = self.loading();
        for week in self.after + 1..=self.new.weeks {
            let (kind, meet) = self.kind(week);
            // A light week is made from the loading week before it.
            let nth = loading.iter().filter(|loading| **loading <= week).count().saturating_sub(1);
            for session in self.days() {
                let first = first_week_day(self.from.block, session.date, self.new.starts)?;
                let date = days_after(first, u64::from(week - 1) * 7)?;
                if kind == WeekKind::Meet && meet.as_ref().is_some_and(|meet| date > meet.date) {
                    left_out.push(LeftOut { date, lift: None, why: WhyOut::AfterMeet });
                    continue;
                }
                let mut works = Vec::new();
                let mut seen = HashSet::new();
                for work in &session.works {
                    let is_first = seen.insert(work.lift);
                    let lift = self.from.history.log.lift_name(work.lift).to_owned();
                    // Lifts of another lifter are other lifts.
                    if self.keeps && pains.keep_out(work.lift).is_some() {
                        continue;
                    }
                    let discipline = self.from.history.discipline(work.lift);
                    if discipline == Some(CompetitionLift::Deadlift)
                        && let Some(why) = no_deadlift(self.own, kind, date)
                    {
                        left_out.push(LeftOut { date, lift: Some(lift), why });
                        continue;
                    }
                    let mut groups = self.planned(&lines_by_place, session, work, nth, loading.len());
                    self.lighten(kind, (session, work), &mut groups, is_first, discipline.is_some());
                    let groups = joined(groups);
                    if !groups.is_empty() {
                        works.extend(lines(DraftedWork { lift, groups, changes: Vec::new() }));
                    }
                }
                if !works.is_empty() {
                    let day = session.day.as_deref().map(str::to_owned);
                    let gym = if self.keeps { gyms.of_session(session) } else { None };
                    sessions.push(Drafted {
                        date,
                        minute: session.minute,
                        day,
                        gym: gym.and_then(|gym| self.own.log.gym(gym)).map(|gym| gym.name.clone()),
                        placed: self
                            .standing
                            .and_then(|Standing { id, block }| placed(self.own, (id, block), week, date)),
                        works,
                        notes: Vec::new(),
                    });
                }
            }
        }
        sessions.sort_by_key(|drafted| (drafted.date, drafted.minute));
        Ok((sessions, left_out))
    }

    fn days(&self) -> impl Iterator<Item = &'a Session> {
        training_of(self.from.history, WeekKey { block: self.from.id, week: self.from.week })
    }

    fn kind(&self, week: u32) -> (WeekKind, Option<super::Meet>) {
        kind_of(self.own, self.new.starts, (&self.new.deload, &self.new.peak), week)
    }

    /// The loading weeks of the new block; the first week is one in any case.
    fn loading(&self) -> Vec<u32> {
        (1..=self.new.weeks).filter(|week| *week == 1 || self.kind(*week).0 == WeekKind::Loading).collect()
    }

    /// A line as it was planned in the loading weeks of the last block; nothing where fewer than two say.
    fn pattern(
        &self,
        lines_by_place: &LinesByPlace<'_, 'a>,
        session: &Session,
        work: &Work,
    ) -> Vec<(&'a Session, &'a Work)> {
        let From { history, id, block, week: first } = self.from;
        let last = match block.ends {
            Some(ends) => block.week_of(ends),
            None => history
                .log
                .sessions
                .iter()
                .filter(|session| session.block == Some(id))
                .filter_map(|s| s.week)
                .max()
                .unwrap_or(first),
        };
        let is_loading = |week: &u32| WeekKind::of(history, block, *week) == WeekKind::Loading;
        let alike = lines_by_place.of(session, work);
        let planned = |week| {
            let twin = alike(week)?;
            twin.1.plan().filter(|plan| plan.groups.iter().any(|group| group.effort.is_some())).map(|_| twin)
        };
        let known: Vec<_> = (first..=last).filter(is_loading).filter_map(planned).collect();
        if known.len() > 1 { known } else { Vec::new() }
    }

    /// A line in the `nth` of `count` loading weeks.
    fn planned(
        &self,
        lines_by_place: &LinesByPlace<'_, 'a>,
        session: &Session,
        work: &Work,
        nth: usize,
        count: usize,
    ) -> Vec<PlannedGroup> {
        let From { history, id, .. } = self.from;
        let pattern = self.pattern(lines_by_place, session, work);
        // In a longer or a shorter block the first and the last week are those of the last block.
        let steps = count.saturating_sub(1).max(1);
        let of_pattern = pattern.get((nth * pattern.len().saturating_sub(1) + steps / 2) / steps);
        let (then, planned) = of_pattern.copied().unwrap_or((session, work));
        let mut groups = line(history, id, then, planned);
        let rack = Rack::new(&self.own.log.gear);
        let lift = history.log.lift(work.lift);
        let hangs =
            |group: &PlannedGroup| !matches!(rack.hangs_on(&group.load, group.per_side, lift), HangsOn::Implement);
        let is_counted = groups.iter().any(|group| matches!(group.amounts.least(), Amount::Reps(_)));
        if let Some(reps) = self.reps.filter(|_| is_counted && is_main(lift))
            && groups.iter().any(|group| hangs(group) || percent(&group.load).is_some())
            && let Some(most) = groups.iter().rev().max_by_key(|group| group.fewest).cloned()
        {
            // A share of the maximum is of other reps.
            let load = if percent(&most.load).is_some() { Load::None } else { most.load.clone() };
            let effort = most.effort.or(Some(ladder(nth, count, 0)));
            groups = vec![PlannedGroup { amounts: only(Amount::Reps(reps)), bouts: None, load, effort, ..most }];
        }
        let own = session.own_mass();
        let top = groups.iter().filter_map(|group| group.load.kilograms(own)).max();
        let is_rated = work.groups.iter().any(|group| group.efforts != Efforts::None);
        for group in &mut groups {
            if self.keeps && group.load != Load::None && !hangs(group) {
                continue;
            }
            let easier = if group.load.kilograms(own) < top { BACK_OFF } else { 0 };
            let is_open = group.load != Load::None || group.effort.is_some() || is_rated || !self.keeps;
            // What one week alone says does not rise.
            group.effort = group.effort.filter(|_| of_pattern.is_some());
            if is_open && matches!(group.amounts.least(), Amount::Reps(_)) {
                group.effort = group.effort.or(Some(ladder(nth, count, easier)));
            }
            group.load = Load::None;
        }
        groups
    }

    /// Takes off what a deload, a peak or a meet week takes off.
    fn lighten(
        &self,
        kind: WeekKind,
        (session, work): (&Session, &Work),
        groups: &mut Vec<PlannedGroup>,
        takes_a_set: bool,
        is_contested: bool,
    ) {
        let mut rack = Rack::new(&self.own.log.gear);
        let line = Light {
            rack: &mut rack,
            lift: self.from.history.log.lift(work.lift),
            usual_top: None,
            is_rated: false,
            own: session.own_mass(),
            set: self.own.log.taper,
            day: None,
        };
        match kind {
            WeekKind::Loading => Vec::new(),
            WeekKind::Deload | WeekKind::Meet => light::deload(groups, line),
            WeekKind::Peak if is_contested => light::peak_contested(groups, takes_a_set, line),
            WeekKind::Peak => light::peak_other(groups, takes_a_set, line),
        };
    }
}

/// How hard the `nth` of `count` loading weeks is where no plan says, in whole halves.
fn ladder(nth: usize, count: usize, easier: i64) -> EffortRange {
    let steps = count.saturating_sub(1).max(1) as i64;
    let rise = (LADDER.1 - LADDER.0) * nth as i64 / steps;
    let middle = (LADDER.0 + rise - easier + 250) / 500 * 500;
    EffortRange { low: rpe(middle - 500), high: rpe(middle + 500) }
}

/// Groups that differed in their loads alone, together.
fn joined(groups: Vec<PlannedGroup>) -> Vec<PlannedGroup> {
    let mut joined: Vec<PlannedGroup> = Vec::new();
    for group in groups {
        match joined.last_mut() {
            Some(last)
                if PlannedGroup { fewest: group.fewest, most: group.most, ..last.clone() } == group
                    && last.fewest + group.fewest <= MOST_SETS =>
            {
                last.fewest += group.fewest;
                last.most = last.fewest;
            }
            _ => joined.push(group),
        }
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::{EffortRange, ladder, rpe};

    #[test]
    fn efforts_rise_in_halves_from_six_and_a_half_to_eight_and_a_half() {
        let of = |count: usize| (0..count).map(|nth| ladder(nth, count, 0)).collect::<Vec<_>>();
        let range = |middle: i64| EffortRange { low: rpe(middle - 500), high: rpe(middle + 500) };
        assert_eq!(of(4), [6500, 7000, 8000, 8500].map(range));
        assert_eq!(of(3), [6500, 7500, 8500].map(range));
        assert_eq!(of(1), [6500].map(range));
    }
}
