//! What a session says of a lift: its sets, its plan, whether it was skipped. Loads are held against each other by
//! what they come to, not by their spelling.

use crate::analysis::rows::SetDone;
use crate::training::{AmountRange, EffortRange, Load, Log, Mass, PlannedGroup, Session, Status, Substance, fold};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// One side of a change: what a session says of a lift.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "OfLift")]
pub struct Side {
    /// Its sets in order, those alike and next to each other together; warm-ups are left out.
    pub sets: Vec<Run>,
    /// Its plans, one a work line.
    pub plans: Vec<PlanTold>,
    /// Whether the session has a line on it at all.
    #[serde(skip)]
    pub is_there: bool,
    /// Whether a line of it is marked as skipped.
    pub skipped: bool,
    #[serde(skip)]
    planned: Vec<PlanKey>,
}

/// A plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PlanTold {
    /// As written.
    pub text: String,
    /// What its percentages come to, in order.
    #[serde(rename = "of_maximum_kg")]
    pub of_maximum: Vec<Mass>,
}

/// Sets that are alike.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Run {
    /// How many.
    pub sets: u32,
    /// What each of them was.
    #[serde(flatten)]
    pub each: SetDone,
}

/// A load without its spelling.
#[derive(Clone, Debug, PartialEq, Eq)]
enum LoadKey {
    None,
    Substance(Substance, bool),
    Words(String),
}

type PlanKey = (u32, u32, AmountRange, bool, LoadKey, Option<EffortRange>);

fn key(load: &Load) -> LoadKey {
    match load {
        Load::None => LoadKey::None,
        Load::Plain { thousandths, unit, approximate, .. } => {
            LoadKey::Substance(Substance::Mass(Mass::of(*thousandths, *unit)), *approximate)
        }
        Load::Other(other) if other.substance != Substance::Quoted => {
            LoadKey::Substance(other.substance.clone(), other.approximate)
        }
        Load::Other(_) | Load::Percent(_) => LoadKey::Words(load.text().unwrap_or_default()),
    }
}

fn plan_key(group: &PlannedGroup) -> PlanKey {
    (group.fewest, group.most, group.amounts, group.per_side, key(&group.load), group.effort)
}

/// Whether two sets, or two runs of equal length, were the same.
fn is_like(one: &SetDone, other: &SetDone) -> bool {
    let plain = |set: &SetDone| (set.amount, set.per_side, set.effort, set.missed);
    plain(one) == plain(other)
        && key(&one.load) == key(&other.load)
        && one.faults == other.faults
        && one.pace == other.pace
}

impl Side {
    /// Whether the sets are the same, and were skipped or not alike.
    pub fn same_sets(&self, other: &Side) -> bool {
        let alike = |(one, other): (&Run, &Run)| one.sets == other.sets && is_like(&one.each, &other.each);
        self.skipped == other.skipped
            && self.sets.len() == other.sets.len()
            && self.sets.iter().zip(&other.sets).all(alike)
    }

    /// Nothing where the session says nothing of the lift.
    pub(super) fn or_null<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Some(self).filter(|side| side.is_there).serialize(serializer)
    }

    /// Whether the plans ask for the same.
    pub fn same_plan(&self, other: &Side) -> bool {
        self.planned == other.planned
    }
}

/// Of each lift of a session, in the order written, what it says: the name folded, the name shown, the side.
pub(super) fn sides(log: &Log, session: &Session) -> Vec<(String, String, Side)> {
    let mut all: Vec<(String, String, Side)> = Vec::new();
    let at = |all: &mut Vec<(String, String, Side)>, name: &str| -> usize {
        let folded = fold(name);
        all.iter().position(|(known, ..)| *known == folded).unwrap_or_else(|| {
            all.push((folded, name.to_owned(), Side::default()));
            all.len() - 1
        })
    };
    for work in &session.works {
        let place = at(&mut all, log.lift_name(work.lift));
        let Some((_, _, side)) = all.get_mut(place) else { continue };
        side.is_there = true;
        side.skipped |= work.status == Status::Skipped;
        if let Some(plan) = work.plan() {
            let percentages =
                plan.groups.iter().filter(|group| group.load.text().is_some_and(|text| text.ends_with('%')));
            let of_maximum = percentages.filter_map(|group| group.load.kilograms(None)).collect();
            side.plans.push(PlanTold { text: plan.text.to_string(), of_maximum });
            side.planned.extend(plan.groups.iter().map(plan_key));
        }
    }
    for row in crate::analysis::rows::of_session(log, session).iter().filter(|row| !row.warm_up) {
        let place = at(&mut all, row.lift);
        let Some((_, _, side)) = all.get_mut(place) else { continue };
        let each = row.done();
        match side.sets.last_mut().filter(|last| is_like(&last.each, &each)) {
            Some(last) => last.sets += 1,
            None => side.sets.push(Run { sets: 1, each }),
        }
    }
    all
}
