//! Plans as values: what a work line's first `plan:` asks for.

use super::{Amount, Bouts, Distance, Effort, Load};
use schemars::JsonSchema;
use serde::Serialize;

/// What a plan asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// As written.
    pub text: Box<str>,
    /// Where it stands, from 1.
    pub line: u32,
    /// The planned sets, in the order written; empty where an error costs the line.
    pub groups: Box<[PlannedGroup]>,
}

/// Planned sets of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedGroup {
    /// The fewest sets.
    pub fewest: u32,
    /// The most sets.
    pub most: u32,
    /// What each of them is.
    pub amounts: AmountRange,
    /// Their bouts, where they are planned in bouts: boxed, for few are.
    pub bouts: Option<Box<Bouts>>,
    /// Whether that is of each side.
    pub per_side: bool,
    /// The load; none where the plan leaves it open.
    pub load: Load,
    /// How hard, where the plan says so.
    pub effort: Option<EffortRange>,
}

/// What one planned set is: from so much to so much.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountRange {
    /// Good reps.
    Reps {
        /// The fewest.
        least: u32,
        /// The most; nothing for `5+` and AMRAP.
        most: Option<u32>,
    },
    /// Seconds held.
    Seconds {
        /// The fewest.
        least: u32,
        /// The most.
        most: u32,
    },
    /// A distance covered.
    Metres {
        /// The shortest.
        least: Distance,
        /// The longest.
        most: Distance,
    },
}

/// A planned effort: from so hard to so hard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct EffortRange {
    /// The easier end.
    pub low: Effort,
    /// The harder end.
    pub high: Effort,
}

impl Plan {
    /// Whether it could be read.
    pub fn is_read(&self) -> bool {
        !self.groups.is_empty()
    }
}

impl PlannedGroup {
    /// Whether the plan says a load.
    pub fn has_load(&self) -> bool {
        self.load != Load::None
    }

    /// How many sides the amounts are done on, for totals.
    pub fn sides(&self) -> u32 {
        if self.per_side { 2 } else { 1 }
    }
}

impl AmountRange {
    /// The least that does.
    pub fn least(self) -> Amount {
        match self {
            AmountRange::Reps { least, .. } => Amount::Reps(least),
            AmountRange::Seconds { least, .. } => Amount::Seconds(least),
            AmountRange::Metres { least, .. } => Amount::Metres(least),
        }
    }

    /// The most that is asked for; nothing where that is open.
    pub fn most(self) -> Option<Amount> {
        match self {
            AmountRange::Reps { most, .. } => most.map(Amount::Reps),
            AmountRange::Seconds { most, .. } => Some(Amount::Seconds(most)),
            AmountRange::Metres { most, .. } => Some(Amount::Metres(most)),
        }
    }

    /// Whether an amount is of the same kind, and no less than is asked for.
    pub fn is_reached_by(self, amount: Amount) -> bool {
        let least = self.least();
        std::mem::discriminant(&least) == std::mem::discriminant(&amount) && amount >= least
    }

    /// Whether an amount lies in the range.
    pub fn holds(self, amount: Amount) -> bool {
        self.is_reached_by(amount) && self.most().is_none_or(|most| amount <= most)
    }
}

#[cfg(test)]
mod tests {
    use super::{Amount, AmountRange, Distance};

    #[test]
    fn an_amount_is_reached_by_as_much_or_more_of_the_same_kind() {
        let eight_to_ten = AmountRange::Reps { least: 8, most: Some(10) };
        for (reps, reached, held) in [(7, false, false), (8, true, true), (10, true, true), (11, true, false)] {
            assert_eq!(eight_to_ten.is_reached_by(Amount::Reps(reps)), reached, "{reps}");
            assert_eq!(eight_to_ten.holds(Amount::Reps(reps)), held, "{reps}");
        }
        assert!(!eight_to_ten.is_reached_by(Amount::Seconds(30)));
        assert!(!eight_to_ten.is_reached_by(Amount::Metres(Distance::metres(40_000))));
    }

    #[test]
    fn an_open_end_holds_any_number() {
        assert!(AmountRange::Reps { least: 5, most: None }.holds(Amount::Reps(50)));
    }

    /// Plans are kept for nearly every line of a journal, so they are kept small: loads are most of them.
    #[test]
    fn a_planned_group_is_small() {
        assert!(size_of::<super::PlannedGroup>() <= 64, "{}", size_of::<super::PlannedGroup>());
    }
}
