//! Every set by itself, with all that is known of it: for whoever lists sets rather than sums them up.

use crate::source::PageId;
use crate::training::{
    self, Amount, AmountFields, Details, Effort, Efforts, Group, LiftId, Load, Log, Mass, Pace, Session, Set, Weighed,
    Work,
};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::HashMap;

/// How an effort came to be known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// It is written as an RPE.
    Rpe,
    /// It is written as reps in reserve.
    Rir,
    /// The set was as many reps as possible.
    Amrap,
    /// A rep was missed.
    Miss,
}

/// One set.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    /// The session, with its date, label, page and heading's line.
    pub session: &'a Session,
    /// The work line it stands under, with its plan and remarks.
    pub work: &'a Work,
    /// The lift's name.
    pub lift: &'a str,
    /// Whether it counts in no volume and no record.
    pub warm_up: bool,
    /// Which set of the lift in its session, from 1; warm-ups have numbers of their own.
    pub number: u32,
    /// Amount, effort and faults.
    pub set: Set<'a>,
    /// Whether it is the last set of its written group, which misses and remarks are told of.
    pub last: bool,
}

/// What was done in a set, without the lift and the number.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SetDone {
    /// What it was.
    #[serde(flatten, serialize_with = "training::amount")]
    #[schemars(with = "AmountFields")]
    pub amount: Amount,
    /// Whether that is of each side.
    pub per_side: bool,
    /// The load.
    pub load: Weighed,
    /// How hard, where known.
    pub effort: Option<Effort>,
    /// The names of the faults on it.
    pub faults: Vec<String>,
    /// Reps tried and failed after the good ones.
    pub missed: u32,
    /// The rest, and the tempo.
    #[serde(flatten)]
    pub pace: Pace,
}

impl<'a> Row<'a> {
    /// What was done, for an answer to keep.
    pub fn done(&self) -> SetDone {
        SetDone {
            amount: self.amount(),
            per_side: self.set.group.per_side,
            load: Weighed { load: self.load().clone(), kilograms: self.kilograms() },
            effort: self.effort(),
            faults: self.faults().map(str::to_owned).collect(),
            missed: self.missed(),
            pace: self.pace().clone(),
        }
    }

    /// What was done, of one side.
    pub fn amount(&self) -> Amount {
        self.set.amount
    }

    /// What hung on the bar.
    pub fn load(&self) -> &'a Load {
        &self.set.group.load
    }

    /// The load as a mass, with the bodyweight in force.
    pub fn kilograms(&self) -> Option<Mass> {
        self.load().kilograms(self.session.own_mass())
    }

    /// How hard it was, where that is known.
    pub fn effort(&self) -> Option<Effort> {
        self.set.effort
    }

    /// How its effort came to be known, where it is.
    pub fn scale(&self) -> Option<Scale> {
        self.set.effort?;
        let Some(extra) = self.set.group.extra.as_deref() else { return Some(Scale::Rpe) };
        // A written list has an effort for each of two sets or more; an AMRAP or a miss gives the last set its own.
        let is_written = match &self.set.group.efforts {
            Efforts::Each(each) => each.len() > 1 && each.iter().all(Option::is_some),
            _ => true,
        };
        Some(match extra {
            _ if extra.in_reserve => Scale::Rir,
            _ if is_written => Scale::Rpe,
            _ if extra.amrap => Scale::Amrap,
            _ => Scale::Miss,
        })
    }

    /// Whether it was as many reps as possible.
    pub fn is_amrap(&self) -> bool {
        self.last && self.set.group.extra.as_ref().is_some_and(|extra| extra.amrap)
    }

    /// The names of the faults on it.
    pub fn faults(&self) -> impl Iterator<Item = &'a str> {
        let number = u32::try_from(self.set.at + 1).unwrap_or(u32::MAX);
        let faults = self.set.group.extra.iter().flat_map(|extra| &extra.faults);
        faults.filter(move |fault| fault.sets.is_empty() || fault.sets.contains(&number)).map(|fault| &*fault.name)
    }

    /// Reps tried and failed after the good ones.
    pub fn missed(&self) -> u32 {
        self.set.group.extra.as_ref().filter(|_| self.last).map_or(0, |extra| extra.missed)
    }

    /// The rest between the sets of its group, and how each is done.
    pub fn pace(&self) -> &'a Pace {
        static PLAIN: Pace = Pace::PLAIN;
        self.set.group.extra.as_ref().map_or(&PLAIN, |extra| &extra.pace)
    }

    /// Remarks in parentheses on its group, told of the last set.
    pub fn remarks(&self) -> impl Iterator<Item = &'a str> {
        let extra = self.set.group.extra.iter().filter(|_| self.last);
        extra.flat_map(|extra| &extra.remarks).map(|remark| &**remark)
    }

    /// The page it stands in.
    pub fn page(&self) -> PageId {
        self.set.group.page
    }

    /// Its line of that page, from 1.
    pub fn line(&self) -> u32 {
        self.set.group.line
    }
}

/// The sets of one session, in order of the page; after the sets of each work line its warm-ups.
pub fn of_session<'a>(log: &'a Log, session: &'a Session) -> Vec<Row<'a>> {
    let mut numbers: HashMap<(LiftId, bool), u32> = HashMap::new();
    let mut rows = Vec::new();
    for work in &session.works {
        let warm_ups = work.details.as_deref().map_or(&[][..], |details: &Details| &details.warm_ups);
        for (groups, warm_up) in [(work.groups.as_slice(), false), (warm_ups, true)] {
            let number = numbers.entry((work.lift, warm_up)).or_default();
            for (set, last) in groups.iter().flat_map(told_apart) {
                *number += 1;
                let lift = log.lift_name(work.lift);
                rows.push(Row { session, work, lift, warm_up, number: *number, set, last });
            }
        }
    }
    rows
}

/// The sets of a group, each with whether it is the last one.
fn told_apart(group: &Group) -> impl Iterator<Item = (Set<'_>, bool)> {
    group.sets().map(|set| (set, set.at + 1 == group.count()))
}
