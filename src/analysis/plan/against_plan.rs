//! What was done on one work line, held against its plan set by set.

use crate::analysis::compare::ranking::{self, Scale};
use crate::training::{
    Effort, EffortGap, EffortRange, Figure, Hundredths, Mass, POINTS, PlannedGroup, Set, Threshold, Thresholds,
    Tolerance, words,
};
use schemars::JsonSchema;
use serde::Serialize;
use std::cmp::Ordering;
use std::collections::VecDeque;

/// A planned group, with the sets that are paired with its own.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Held {
    /// By how much the lightest of the paired sets that are too light is so; nothing where none is or it is not known.
    pub(crate) lighter_by: Option<Mass>,
    /// How many of its fewest sets were reached: as much or more, at the load or a heavier one.
    pub(crate) reached: u32,
    /// How the loads of the paired sets compare, where one is planned.
    pub(crate) loads: Vec<Option<Ordering>>,
    /// The effort, where one is planned and a set is paired.
    pub(crate) effort: Option<HeldEffort>,
}

/// A planned effort and the one that was felt.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct HeldEffort {
    /// From so hard to so hard.
    #[serde(flatten)]
    pub planned: EffortRange,
    /// The highest known effort of the paired sets.
    pub done: Option<Effort>,
    /// How it stands to its plan.
    pub verdict: AgainstPlan,
    /// Points over the range, below 0 under it; null where no effort is written.
    pub off: Option<Hundredths>,
    /// How far it is outside of the range, where it counts as over or under.
    #[serde(skip)]
    pub gap: EffortGap,
}

words! {
    /// How an effort stands to its plan.
    pub enum AgainstPlan {
        /// More than half a point below the easier end.
        Under = "under",
        /// In the range, or half a point below it.
        On = "on",
        /// Above the harder end.
        Over = "over",
        /// No effort is written.
        Unknown = "unknown",
    }
}

impl HeldEffort {
    fn new(planned: EffortRange, done: Option<Effort>) -> Self {
        let above = done.and_then(|done| done.above(planned.high));
        let below = done.and_then(|done| planned.low.above(done)).filter(|gap| *gap > EffortGap::HALF);
        let (verdict, gap, sign) = match (above, below) {
            (Some(gap), _) => (AgainstPlan::Over, gap, 1.0),
            (_, Some(gap)) => (AgainstPlan::Under, gap, -1.0),
            _ if done.is_some() => (AgainstPlan::On, EffortGap::NONE, 1.0),
            _ => (AgainstPlan::Unknown, EffortGap::NONE, 1.0),
        };
        HeldEffort { planned, done, verdict, off: done.map(|_| Figure(sign * gap.value())), gap }
    }
}

/// An effort so far above its plan, or farther, is told as over plan.
pub(crate) const OVER_PLAN: Threshold =
    Threshold { name: "over-plan", unit: POINTS, least: 0.5, most: 9.0, default: 1.0 };

/// An effort so far below its plan, or farther, is told as far under plan. Half a point under is nothing, so it cannot be
/// one.
pub(crate) const FAR_UNDER_PLAN: Threshold =
    Threshold { name: "far-under-plan", unit: POINTS, least: 1.0, most: 9.0, default: 2.0 };

/// From where on an effort is far from its plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FarFromPlan {
    /// So far above it, or farther.
    pub over_plan: EffortGap,
    /// So far below it, or farther.
    pub far_under_plan: EffortGap,
}

impl FarFromPlan {
    /// As the settings have it.
    pub(crate) fn of(said: &Thresholds) -> Self {
        // Whole halves up to nine, so the cast keeps them.
        let gap = |threshold: Threshold| EffortGap::halves((threshold.in_force(said) * 2.0) as u8);
        FarFromPlan { over_plan: gap(OVER_PLAN), far_under_plan: gap(FAR_UNDER_PLAN) }
    }
}

/// How a set stands to a planned one.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Fit {
    /// It is less, or it cannot be told.
    Short,
    /// As much or more.
    Reaches,
    /// Just as planned.
    Exact,
}

/// Pairs the sets of a line with its planned ones, at most one with each. Sets just as planned come first; then as many
/// more as can be are paired with one that they reach, the lightest that does; the rest is paired in the order written.
/// Of a range of sets those beyond its fewest come after all others.
pub(crate) fn hold(planned: &[PlannedGroup], done: &[Set<'_>], own: Option<Mass>, tolerance: Tolerance) -> Vec<Held> {
    let load = |group: &PlannedGroup, set: &Set<'_>| {
        let (planned, done) = (&group.load, &set.group.load);
        ranking::compare((done, done.kilograms(own)), (planned, planned.kilograms(own)), tolerance)
    };
    let fit = |group: &PlannedGroup, set: &Set<'_>| {
        let load = if group.has_load() { load(group, set) } else { Some(Ordering::Equal) };
        match load {
            Some(Ordering::Equal) if group.amounts.holds(set.amount) => Fit::Exact,
            Some(Ordering::Equal | Ordering::Greater) if group.amounts.is_reached_by(set.amount) => Fit::Reaches,
            _ => Fit::Short,
        }
    };
    let mut pairs = Pairs::new(planned, planned.iter().map(|group| done.iter().map(|set| fit(group, set)).collect()));
    let scale = Scale::of(done.iter().map(|set| &set.group.load));
    let mut lightest_first: Vec<usize> = (0..done.len()).collect();
    lightest_first.sort_by_key(|at| done.get(*at).map(|set| scale.rank(&set.group.load, own)));
    pairs.pair(&lightest_first);
    let held = planned.iter().enumerate().map(|(at, group)| {
        let sets: Vec<&Set<'_>> = pairs.sets_of(at).filter_map(|set| done.get(set)).collect();
        let effort = group.effort.filter(|_| !sets.is_empty());
        let lighter_by = |set: &&Set<'_>| {
            let (planned, done) = (group.load.kilograms(own)?, set.group.load.kilograms(own)?);
            (group.has_load() && load(group, set) == Some(Ordering::Less)).then(|| planned - done)
        };
        Held {
            lighter_by: sets.iter().filter_map(lighter_by).max(),
            reached: pairs.reached(at),
            loads: sets.iter().filter(|_| group.has_load()).map(|set| load(group, set)).collect(),
            effort: effort.map(|planned| HeldEffort::new(planned, sets.iter().filter_map(|set| set.effort).max())),
        }
    });
    held.collect()
}

/// A planned set.
struct Slot {
    /// Which group it is of.
    group: usize,
    /// Whether it is one of the group's fewest.
    asked: bool,
    /// The set that is paired with it.
    set: Option<usize>,
}

struct Pairs {
    slots: Vec<Slot>,
    /// How each set stands to each group's own.
    fits: Vec<Vec<Fit>>,
    /// Of each set, the slot that has it.
    slot_of: Vec<Option<usize>>,
}

impl Pairs {
    fn new(planned: &[PlannedGroup], fits: impl Iterator<Item = Vec<Fit>>) -> Self {
        let fits: Vec<Vec<Fit>> = fits.collect();
        let sets = fits.first().map_or(0, Vec::len);
        let asked = |(group, of): (usize, &PlannedGroup)| (0..of.fewest).map(move |_| (group, true));
        // More slots than sets would stay empty.
        let beyond = |(group, of): (usize, &PlannedGroup)| {
            (of.fewest..of.most).take(sets).map(move |_| (group, false)).collect::<Vec<_>>()
        };
        let all = planned.iter().enumerate().flat_map(asked).chain(planned.iter().enumerate().flat_map(beyond));
        let slots = all.map(|(group, asked)| Slot { group, asked, set: None }).collect();
        Pairs { slots, fits, slot_of: vec![None; sets] }
    }

    fn fit(&self, slot: usize, set: usize) -> Fit {
        let group = self.slots.get(slot).map_or(usize::MAX, |slot| slot.group);
        self.fits.get(group).and_then(|fits| fits.get(set)).copied().unwrap_or(Fit::Short)
    }

    fn put(&mut self, slot: usize, set: usize) {
        if let (Some(slot_of), Some(taken)) = (self.slot_of.get_mut(set), self.slots.get_mut(slot)) {
            *slot_of = Some(slot);
            taken.set = Some(set);
        }
    }

    fn empty(&self, asked: bool) -> Vec<usize> {
        let slots = self.slots.iter().enumerate();
        slots.filter(|(_, slot)| slot.asked == asked && slot.set.is_none()).map(|(at, _)| at).collect()
    }

    fn free(&self, set: usize) -> bool {
        self.slot_of.get(set).is_some_and(Option::is_none)
    }

    fn pair(&mut self, lightest_first: &[usize]) {
        for asked in [true, false] {
            for slot in self.empty(asked) {
                let mut sets = 0..self.slot_of.len();
                if let Some(set) = sets.find(|set| self.free(*set) && self.fit(slot, *set) == Fit::Exact) {
                    self.put(slot, set);
                }
            }
            for slot in self.empty(asked) {
                self.make_room(slot, lightest_first);
            }
        }
        let sets: Vec<usize> = (0..self.slot_of.len()).filter(|set| self.free(*set)).collect();
        let slots = [self.empty(true), self.empty(false)].concat();
        for (slot, set) in slots.into_iter().zip(sets) {
            self.put(slot, set);
        }
    }

    /// Fills a slot with a set that reaches it, where need be by giving other slots other sets: an augmenting path, the
    /// shortest there is. What is filled stays filled, so that in the end as many are as can be (Berge 1957, Proc Natl
    /// Acad Sci 43(9):842–844; from memory, high confidence).
    fn make_room(&mut self, slot: usize, lightest_first: &[usize]) {
        let mut reached_from: Vec<Option<usize>> = vec![None; self.slot_of.len()];
        let mut open = VecDeque::from([slot]);
        while let Some(from) = open.pop_front() {
            for set in lightest_first {
                let seen = reached_from.get(*set).is_none_or(Option::is_some);
                if seen || self.fit(from, *set) == Fit::Short {
                    continue;
                }
                if let Some(place) = reached_from.get_mut(*set) {
                    *place = Some(from);
                }
                match self.slot_of.get(*set).copied().flatten() {
                    Some(taken_by) => open.push_back(taken_by),
                    None => return self.shift(slot, *set, &reached_from),
                }
            }
        }
    }

    /// Goes back along the path: each slot takes the set it was seen to reach, and gives up its own.
    fn shift(&mut self, start: usize, free: usize, reached_from: &[Option<usize>]) {
        let mut set = free;
        while let Some(slot) = reached_from.get(set).copied().flatten() {
            let given_up = self.slots.get(slot).and_then(|slot| slot.set);
            self.put(slot, set);
            match given_up {
                Some(next) if slot != start => set = next,
                _ => return,
            }
        }
    }

    /// The sets paired with a group's own, in no order.
    fn sets_of(&self, group: usize) -> impl Iterator<Item = usize> {
        self.slots.iter().filter(move |slot| slot.group == group).filter_map(|slot| slot.set)
    }

    /// How many of a group's fewest sets were reached.
    fn reached(&self, group: usize) -> u32 {
        let slots = self.slots.iter().enumerate().filter(|(_, slot)| slot.group == group && slot.asked);
        let reached = slots.filter(|(at, slot)| slot.set.is_some_and(|set| self.fit(*at, set) != Fit::Short));
        u32::try_from(reached.count()).unwrap_or(u32::MAX)
    }
}
