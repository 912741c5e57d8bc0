//! Groups of sets as they were done, and the sets in them.

use super::{Distance, Effort, Load};
use crate::source::PageId;
use schemars::JsonSchema;
use serde::Serialize;

/// What one set was: reps, seconds, or metres, of one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Amount {
    /// Good reps.
    Reps(u32),
    /// Seconds held.
    Seconds(u32),
    /// A distance covered.
    Metres(Distance),
}

impl Amount {
    /// Whether there was no good rep, second, or metre.
    pub fn is_nothing(self) -> bool {
        match self {
            Amount::Reps(n) | Amount::Seconds(n) => n == 0,
            Amount::Metres(distance) => distance.is_zero(),
        }
    }

    /// Two sets' together; the first where they count different things.
    #[must_use]
    pub fn plus(self, other: Amount) -> Amount {
        match (self, other) {
            (Amount::Reps(one), Amount::Reps(more)) => Amount::Reps(one.saturating_add(more)),
            (Amount::Seconds(one), Amount::Seconds(more)) => Amount::Seconds(one.saturating_add(more)),
            (Amount::Metres(one), Amount::Metres(more)) => Amount::Metres(one.plus(more)),
            _ => self,
        }
    }

    /// The reps, where it has reps.
    pub fn reps(self) -> Option<u32> {
        match self {
            Amount::Reps(reps) => Some(reps),
            _ => None,
        }
    }
}

/// How many sets of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sets {
    /// So many sets, all the same.
    Same(u32, Amount),
    /// One after the other.
    Each(Box<[Amount]>),
}

/// The efforts of a group's sets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Efforts {
    /// None is written.
    None,
    /// One for all.
    All(Effort),
    /// One for each set, where known.
    Each(Box<[Option<Effort>]>),
}

/// A fault seen on a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Its name, without the `!`.
    pub name: Box<str>,
    /// The sets it was seen on, from 1; empty for the whole group.
    pub sets: Box<[u32]>,
}

/// The bouts of one set, with short rests between: its reps are their sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bouts(pub Box<[u32]>);

impl Bouts {
    /// The same with fewer reps, which the first bout loses; a later one only where that has no more to lose than all
    /// but one. Nothing where a rep for each bout is not left.
    #[must_use]
    pub fn with_fewer(&self, fewer: u32) -> Option<Bouts> {
        let (mut left, mut bouts) = (fewer, self.0.clone());
        for bout in &mut bouts {
            let off = left.min(bout.saturating_sub(1));
            (*bout, left) = (*bout - off, left - off);
        }
        (left == 0).then_some(Bouts(bouts))
    }
}

/// What of a group is the same in each of its sets, and is shown behind its faults. What is new here is written by
/// [`super::spelling::Spelled::pace`], and stands in every answer that tells what was done.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Pace {
    /// Seconds of rest between sets.
    pub rest: Option<u32>,
    /// The tempo, as written.
    pub tempo: Option<Box<str>>,
}

impl Pace {
    /// Nothing is said of it.
    pub const PLAIN: Pace = Pace { rest: None, tempo: None };
}

/// What few groups have.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Extra {
    /// Faults seen.
    pub faults: Vec<Fault>,
    /// Remarks in parentheses.
    pub remarks: Vec<Box<str>>,
    /// Reps tried and failed after the good ones of the last set.
    pub missed: u32,
    /// Whether its last set was as many reps as possible.
    pub amrap: bool,
    /// Whether its efforts are written as reps in reserve.
    pub in_reserve: bool,
    /// The rest between its sets, and how each is done.
    pub pace: Pace,
    /// The bouts of the sets, one entry for each, or one for all alike; empty where no set is in bouts.
    pub bouts: Box<[Option<Bouts>]>,
}

/// Sets of one kind, as written in one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// The page it stands in.
    pub page: PageId,
    /// The line it stands in.
    pub line: u32,
    /// The sets.
    pub sets: Sets,
    /// Whether amounts are of each side.
    pub per_side: bool,
    /// The load.
    pub load: Load,
    /// How hard.
    pub efforts: Efforts,
    /// The rest, where there is any.
    pub extra: Option<Box<Extra>>,
}

/// One set of a group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Set<'a> {
    /// Its place in the group, from 0.
    pub at: usize,
    /// What it was.
    pub amount: Amount,
    /// How hard, where known.
    pub effort: Option<Effort>,
    /// The group it belongs to.
    pub group: &'a Group,
}

impl<'a> Set<'a> {
    /// The names of the faults on this set, in the order written.
    pub fn faults(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let number = u32::try_from(self.at + 1).unwrap_or(u32::MAX);
        let faults = self.group.extra.iter().flat_map(|extra| &extra.faults);
        faults.filter(move |fault| fault.sets.is_empty() || fault.sets.contains(&number)).map(|fault| &*fault.name)
    }

    /// Its bouts, where it was done in bouts.
    pub fn bouts(&self) -> Option<&Bouts> {
        let bouts = &self.group.extra.as_ref()?.bouts;
        let own = if matches!(self.group.sets, Sets::Same(..)) { bouts.first() } else { bouts.get(self.at) };
        own.and_then(Option::as_ref)
    }

    /// Whether it has no fault.
    pub fn is_clean(&self) -> bool {
        self.group.extra.is_none() || self.faults().next().is_none()
    }

    /// Whether it has at least one good rep, second, or metre.
    pub fn is_work(&self) -> bool {
        !self.amount.is_nothing()
    }

    /// Whether it is a good set without a fault.
    pub fn is_clean_work(&self) -> bool {
        self.is_work() && self.is_clean()
    }

    /// How many sides the amount was done on, for totals.
    pub fn sides(&self) -> u32 {
        if self.group.per_side { 2 } else { 1 }
    }
}

impl Group {
    /// How many sets.
    pub fn count(&self) -> usize {
        match &self.sets {
            Sets::Same(count, _) => *count as usize,
            Sets::Each(amounts) => amounts.len(),
        }
    }

    /// The sets, in order.
    pub fn sets(&self) -> impl Iterator<Item = Set<'_>> {
        (0..self.count()).map(move |at| Set {
            at,
            amount: match &self.sets {
                Sets::Same(_, amount) => *amount,
                Sets::Each(amounts) => amounts.get(at).copied().unwrap_or(Amount::Reps(0)),
            },
            effort: match &self.efforts {
                Efforts::None => None,
                Efforts::All(effort) => Some(*effort),
                Efforts::Each(efforts) => efforts.get(at).copied().flatten(),
            },
            group: self,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Bouts;

    #[test]
    fn the_first_bout_loses_the_reps() {
        let fewer = |bouts: &[u32], off| Bouts(bouts.into()).with_fewer(off).map(|bouts| bouts.0.to_vec());
        assert_eq!(fewer(&[12, 4, 4], 2), Some(vec![10, 4, 4]));
        assert_eq!(fewer(&[2, 4, 4], 2), Some(vec![1, 3, 4]));
        assert_eq!(fewer(&[1, 1, 1], 1), None);
    }
}
