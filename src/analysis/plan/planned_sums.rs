//! Sums of planned lines: sets, amounts, loads and efforts, planned and done.

use super::against_plan::{AgainstPlan, FarFromPlan, Held, HeldEffort};
use crate::training::{Amount, AmountRange, Distance, EffortGap, Figure, Hundredths, PlannedGroup, Set};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use std::cmp::Ordering;

/// What planned lines come to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Sums {
    /// The share of planned sets that were reached, in percent; null where none is planned.
    pub adherence: Option<Hundredths>,
    /// Planned lines, skipped ones too, swapped ones not.
    #[serde(rename = "lines_planned")]
    pub lines: u32,
    /// Those of them that were skipped.
    #[serde(rename = "lines_skipped")]
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
    /// Good reps, of both sides; null where there are none.
    #[serde(serialize_with = "Total::or_null")]
    #[schemars(with = "Option<Total<u64>>")]
    pub reps: Total<u64>,
    /// Seconds held, of both sides; null where there are none.
    #[serde(serialize_with = "Total::or_null")]
    #[schemars(with = "Option<Total<u64>>")]
    pub seconds: Total<u64>,
    /// The way covered; null where there is none.
    #[serde(serialize_with = "Total::or_null")]
    #[schemars(with = "Option<Total<Distance>>")]
    pub metres: Total<Distance>,
    /// Loads against their plan.
    pub loads: LoadCounts,
    /// Efforts against their plan.
    pub efforts: EffortCounts,
}

/// So much planned, and so much done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Total<T> {
    /// The least that was planned.
    pub planned: T,
    /// The most; null where a plan leaves it open.
    pub most: Option<T>,
    /// What was done.
    pub done: T,
}

/// Sets that are paired with a planned one that has a load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
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
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct EffortCounts {
    /// More than half a point below the range.
    pub under: u32,
    /// In the range, or half a point below it.
    pub on: u32,
    /// Above the range.
    pub over: u32,
    /// With no effort written.
    pub unknown: u32,
    /// Those of under that are far under plan.
    pub far_under_plan: u32,
    /// Those of over that are over plan by the bound.
    pub over_plan: u32,
    /// The farthest below a range.
    pub farthest_under: Option<EffortGap>,
    /// The farthest above one.
    pub farthest_over: Option<EffortGap>,
}

impl<T: Default> Default for Total<T> {
    fn default() -> Self {
        Total { planned: T::default(), most: Some(T::default()), done: T::default() }
    }
}

impl<T: Copy + Default + PartialEq> Total<T> {
    /// Whether nothing of the kind was planned or done.
    pub fn is_none(&self) -> bool {
        *self == Total::default()
    }

    fn add(&mut self, other: &Total<T>, plus: impl Fn(T, T) -> T) {
        self.planned = plus(self.planned, other.planned);
        self.most = self.most.zip(other.most).map(|(most, more)| plus(most, more));
        self.done = plus(self.done, other.done);
    }
}

impl<T: Copy + Default + PartialEq + Serialize> Total<T> {
    fn or_null<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        (!self.is_none()).then_some(self).serialize(serializer)
    }
}

impl Sums {
    /// A line that was done.
    pub(crate) fn of_done(planned: &[PlannedGroup], sets: &[Set<'_>], held: &[Held], far: &FarFromPlan) -> Self {
        let mut sums = Sums { sets_done: u32::try_from(sets.len()).unwrap_or(u32::MAX), ..Sums::of_missed(planned) };
        for set in sets {
            let times = |each: u32| u64::from(each) * u64::from(set.sides());
            match set.amount {
                Amount::Reps(reps) => sums.reps.done = sums.reps.done.saturating_add(times(reps)),
                Amount::Seconds(seconds) => sums.seconds.done = sums.seconds.done.saturating_add(times(seconds)),
                Amount::Metres(distance) => sums.metres.done = sums.metres.done.plus(distance.times(set.sides())),
            }
        }
        for held in held {
            sums.sets_reached += held.reached;
            held.loads.iter().for_each(|load| sums.loads.add(*load));
            if let Some(effort) = &held.effort {
                sums.efforts.add(effort, far);
            }
        }
        sums.rated()
    }

    /// A line of which nothing was done.
    pub(crate) fn of_missed(planned: &[PlannedGroup]) -> Self {
        let mut sums = Sums { lines: 1, ..Sums::default() };
        for group in planned {
            sums.sets_planned += group.fewest;
            sums.sets_most += group.most;
            let (fewest, most_sets) = (group.fewest * group.sides(), group.most * group.sides());
            let counted = |least: u32, most: Option<u32>| Total {
                planned: u64::from(least) * u64::from(fewest),
                most: most.map(|most| u64::from(most) * u64::from(most_sets)),
                done: 0,
            };
            match group.amounts {
                AmountRange::Reps { least, most } => sums.reps.add(&counted(least, most), u64::saturating_add),
                AmountRange::Seconds { least, most } => {
                    sums.seconds.add(&counted(least, Some(most)), u64::saturating_add)
                }
                AmountRange::Metres { least, most } => {
                    let (planned, most) = (least.times(fewest), Some(most.times(most_sets)));
                    sums.metres.add(&Total { planned, most, done: Distance::default() }, Distance::plus)
                }
            }
        }
        sums.rated()
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
        self.reps.add(&other.reps, u64::saturating_add);
        self.seconds.add(&other.seconds, u64::saturating_add);
        self.metres.add(&other.metres, Distance::plus);
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
        efforts.far_under_plan += more.far_under_plan;
        efforts.over_plan += more.over_plan;
        efforts.farthest_under = efforts.farthest_under.max(more.farthest_under);
        efforts.farthest_over = efforts.farthest_over.max(more.farthest_over);
        self.adherence = self.share();
    }

    fn rated(self) -> Self {
        Sums { adherence: self.share(), ..self }
    }

    fn share(&self) -> Option<Hundredths> {
        (self.sets_planned > 0).then(|| Figure(f64::from(self.sets_reached) / f64::from(self.sets_planned) * 100.0))
    }

    /// The share of planned sets that were reached as a whole percentage: 0 and 100 only where it is just that.
    pub fn percent(&self) -> Option<u32> {
        Some(match self.adherence?.0.round() as u32 {
            100.. if !self.is_whole() => 99,
            0 if self.sets_reached > 0 => 1,
            whole => whole,
        })
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

    fn add(&mut self, effort: &HeldEffort, far: &FarFromPlan) {
        let gap = effort.gap;
        match effort.verdict {
            AgainstPlan::Unknown => self.unknown += 1,
            AgainstPlan::On => self.on += 1,
            AgainstPlan::Under => {
                self.under += 1;
                self.far_under_plan += u32::from(gap >= far.far_under_plan);
                self.farthest_under = self.farthest_under.max(Some(gap));
            }
            AgainstPlan::Over => {
                self.over += 1;
                self.over_plan += u32::from(gap >= far.over_plan);
                self.farthest_over = self.farthest_over.max(Some(gap));
            }
        }
    }
}
