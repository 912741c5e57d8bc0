//! Sums of planned lines: sets, amounts, loads and efforts, planned and done.

use super::against_plan::{AgainstPlan, FarFromPlan, Held};
use crate::training::{Amount, Distance, EffortGap, PlannedGroup, Set};
use std::cmp::Ordering;

/// What planned lines come to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sums {
    /// Planned lines, skipped ones too, swapped ones not.
    pub lines: u32,
    /// Those of them that were skipped.
    pub skipped: u32,
    /// Planned sets: of a range, the fewest.
    pub sets_planned: u32,
    /// The most sets that the plans allow.
    pub sets_most: u32,
    /// Work sets on the lines.
    pub sets_done: u32,
    /// Planned sets that were reached: paired with a set of as much or more, at the planned load or a heavier one.
    pub sets_reached: u32,
    /// Planned sets of lines for which another lift was done. They are in none of the others.
    pub sets_swapped: u32,
    /// The least that was planned.
    pub planned: Amounts,
    /// The most; nothing can be said of reps where a plan leaves them open.
    pub most: Amounts,
    /// Whether a plan leaves the most reps open.
    pub reps_open: bool,
    /// What was done.
    pub done: Amounts,
    /// Loads against their plan.
    pub loads: LoadCounts,
    /// Efforts against their plan.
    pub efforts: EffortCounts,
}

/// Reps, seconds and metres, both sides counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Amounts {
    /// Good reps.
    pub reps: u64,
    /// Seconds held.
    pub seconds: u64,
    /// Distance covered.
    pub metres: Distance,
}

/// Sets that are paired with a planned one that has a load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LoadCounts {
    /// Lighter than planned.
    pub lighter: u32,
    /// The same load.
    pub same: u32,
    /// Heavier.
    pub heavier: u32,
    /// Loads that cannot be held against each other.
    pub unknown: u32,
}

/// Planned groups with an effort of which at least one set was done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct EffortCounts {
    /// More than half a point below the range.
    pub under: u32,
    /// In the range, or half a point below it.
    pub on: u32,
    /// Above the range.
    pub over: u32,
    /// With no effort written.
    pub unknown: u32,
    /// Those under that are gross undershoots.
    pub gross_undershoots: u32,
    /// Those over that are overshoots.
    pub overshoots: u32,
    /// The farthest below a range.
    pub farthest_under: Option<EffortGap>,
    /// The farthest above one.
    pub farthest_over: Option<EffortGap>,
}

impl Amounts {
    fn add(&mut self, amount: Amount, times: u32) {
        let more = |known: &mut u64, each: u32| *known = known.saturating_add(u64::from(each) * u64::from(times));
        match amount {
            Amount::Reps(reps) => more(&mut self.reps, reps),
            Amount::Seconds(seconds) => more(&mut self.seconds, seconds),
            Amount::Metres(distance) => self.metres = self.metres.plus(distance.times(times)),
        }
    }

    fn add_all(&mut self, other: &Amounts) {
        self.reps = self.reps.saturating_add(other.reps);
        self.seconds = self.seconds.saturating_add(other.seconds);
        self.metres = self.metres.plus(other.metres);
    }
}

impl Sums {
    /// A line that was done.
    pub(crate) fn of_done(planned: &[PlannedGroup], sets: &[Set<'_>], held: &[Held], far: &FarFromPlan) -> Self {
        let mut sums = Sums { sets_done: u32::try_from(sets.len()).unwrap_or(u32::MAX), ..Sums::of_missed(planned) };
        for set in sets {
            sums.done.add(set.amount, set.sides());
        }
        for held in held {
            sums.sets_reached += held.reached;
            held.loads.iter().for_each(|load| sums.loads.add(*load));
            if let Some(effort) = &held.effort {
                sums.efforts.add(effort.stands(), far);
            }
        }
        sums
    }

    /// A line of which nothing was done.
    pub(crate) fn of_missed(planned: &[PlannedGroup]) -> Self {
        let mut sums = Sums { lines: 1, ..Sums::default() };
        for group in planned {
            sums.sets_planned += group.fewest;
            sums.sets_most += group.most;
            sums.planned.add(group.amounts.least(), group.fewest * group.sides());
            match group.amounts.most() {
                Some(most) => sums.most.add(most, group.most * group.sides()),
                None => sums.reps_open = true,
            }
        }
        sums
    }

    /// A line for which another lift was done.
    pub(crate) fn of_swapped(planned: &[PlannedGroup]) -> Self {
        Sums { sets_swapped: planned.iter().map(|group| group.fewest).sum(), ..Sums::default() }
    }

    /// Adds the sums of other lines.
    pub(crate) fn add(&mut self, other: &Sums) {
        self.lines += other.lines;
        self.skipped += other.skipped;
        self.sets_planned += other.sets_planned;
        self.sets_most += other.sets_most;
        self.sets_done += other.sets_done;
        self.sets_reached += other.sets_reached;
        self.sets_swapped += other.sets_swapped;
        self.planned.add_all(&other.planned);
        self.most.add_all(&other.most);
        self.reps_open |= other.reps_open;
        self.done.add_all(&other.done);
        let (loads, more) = (&mut self.loads, &other.loads);
        loads.lighter += more.lighter;
        loads.same += more.same;
        loads.heavier += more.heavier;
        loads.unknown += more.unknown;
        let (efforts, more) = (&mut self.efforts, &other.efforts);
        efforts.under += more.under;
        efforts.on += more.on;
        efforts.over += more.over;
        efforts.unknown += more.unknown;
        efforts.gross_undershoots += more.gross_undershoots;
        efforts.overshoots += more.overshoots;
        efforts.farthest_under = efforts.farthest_under.max(more.farthest_under);
        efforts.farthest_over = efforts.farthest_over.max(more.farthest_over);
    }

    /// The share of planned sets that were reached, in percent; nothing where none is planned.
    pub fn adherence(&self) -> Option<f64> {
        (self.sets_planned > 0).then(|| f64::from(self.sets_reached) / f64::from(self.sets_planned) * 100.0)
    }

    /// Whether every planned set was reached.
    pub fn is_whole(&self) -> bool {
        self.sets_reached == self.sets_planned
    }
}

impl LoadCounts {
    fn add(&mut self, load: Option<Ordering>) {
        match load {
            Some(Ordering::Less) => self.lighter += 1,
            Some(Ordering::Equal) => self.same += 1,
            Some(Ordering::Greater) => self.heavier += 1,
            None => self.unknown += 1,
        }
    }
}

impl EffortCounts {
    /// All of them, known or not.
    pub fn all(&self) -> u32 {
        self.under + self.on + self.over + self.unknown
    }

    fn add(&mut self, effort: AgainstPlan, far: &FarFromPlan) {
        match effort {
            AgainstPlan::Unknown => self.unknown += 1,
            AgainstPlan::On => self.on += 1,
            AgainstPlan::Under(gap) => {
                self.under += 1;
                self.gross_undershoots += u32::from(gap >= far.gross_undershoot);
                self.farthest_under = self.farthest_under.max(Some(gap));
            }
            AgainstPlan::Over(gap) => {
                self.over += 1;
                self.overshoots += u32::from(gap >= far.overshoot);
                self.farthest_over = self.farthest_over.max(Some(gap));
            }
        }
    }
}
