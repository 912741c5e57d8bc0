//! Marks: the qualifying sets of one written group that have the same reps, seconds, or metres.

use super::{Done, History};
use crate::source::Place;
use crate::training::{self, Amount, AmountFields, Effort, Group, Mass, Set, Weighed};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::HashSet;

/// A mark as an answer shows it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Mark {
    /// The session's date.
    pub date: NaiveDate,
    /// The block's name.
    pub block: Option<String>,
    /// The week of the block.
    pub week: Option<u32>,
    /// The day's label.
    pub day: Option<String>,
    /// How many sets.
    pub sets: u32,
    /// What each of them was.
    #[serde(flatten, serialize_with = "training::amount")]
    #[schemars(with = "AmountFields")]
    pub amount: Amount,
    /// Whether that is of each side.
    pub per_side: bool,
    /// The load.
    pub load: Weighed,
    /// The highest effort known among them.
    pub effort: Option<Effort>,
    /// The names of the faults on them.
    pub faults: Vec<String>,
    /// Where it stands.
    #[serde(flatten)]
    pub place: Place,
}

/// A mark still in the log: cheap to make, to compare and to drop.
#[derive(Clone, Copy, Debug)]
pub struct Marked<'a> {
    /// Where it was done.
    pub done: Done<'a>,
    /// The written group.
    pub group: &'a Group,
    /// What each set was.
    pub amount: Amount,
    /// How many sets.
    pub sets: u32,
    /// The highest effort known among them.
    pub effort: Option<Effort>,
}

impl<'a> Marked<'a> {
    /// The marks of a work line's qualifying sets, in the order written.
    pub fn of(done: Done<'a>, qualifies: impl Fn(&Set<'a>) -> bool) -> Vec<Marked<'a>> {
        let mut marks: Vec<Marked<'a>> = Vec::new();
        for group in &done.work.groups {
            let first = marks.len();
            for set in group.sets().filter(|set| qualifies(set)) {
                let known = marks.iter_mut().skip(first).find(|mark| mark.amount == set.amount);
                match known {
                    Some(mark) => {
                        mark.sets += 1;
                        mark.effort = mark.effort.max(set.effort);
                    }
                    None => marks.push(Marked { done, group, amount: set.amount, sets: 1, effort: set.effort }),
                }
            }
        }
        marks
    }

    /// The load as a mass, with the bodyweight in force.
    pub fn kilograms(&self) -> Option<Mass> {
        self.group.load.kilograms(self.done.session.own_mass())
    }

    /// The mark as an answer shows it. `qualifies` must be what it was made with.
    pub fn shown(&self, history: &History<'_>, qualifies: impl Fn(&Set<'a>) -> bool) -> Mark {
        let session = self.done.session;
        let sets = self.group.sets().filter(|set| set.amount == self.amount && qualifies(set));
        let mut known: HashSet<&str> = HashSet::new();
        let faults =
            sets.flat_map(|set| set.faults()).filter(|fault| known.insert(*fault)).map(str::to_owned).collect();
        Mark {
            date: session.date,
            block: history.log.block_name(session.block),
            week: session.week,
            day: session.day.as_deref().map(str::to_owned),
            sets: self.sets,
            amount: self.amount,
            per_side: self.group.per_side,
            load: Weighed { load: self.group.load.clone(), kilograms: self.kilograms() },
            effort: self.effort,
            faults,
            place: history.log.place(self.group.page, self.group.line),
        }
    }
}
