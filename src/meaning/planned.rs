//! Plans as values: ranges kept, loads left open where the plan says none.

use super::groups::{Carried, Line, amount, bouts, effort};
use crate::notation::nodes::{
    Amount as WrittenAmount, Attribute, AttributeKind, Group as Written, Number, Scale, Sets as WrittenSets,
};
use crate::problems::Problem;
use crate::training::{Amount, AmountRange, Distance, Effort, EffortRange, Load, PlannedGroup};

/// The planned sets of a `plan:` line, or nothing where a load costs it. A lift's default load is no part of a plan
/// that says none.
pub(crate) fn planned(
    line: &Line<'_>,
    written: &[Written<'_>],
    problems: &mut Vec<Problem>,
) -> Option<Vec<PlannedGroup>> {
    let mut groups = Vec::with_capacity(written.len());
    let mut has_load = false;
    let whole = line.loads(written, &mut Carried::Default, problems, |group, load| {
        has_load |= group.load.is_some();
        split(group, if has_load { load } else { Load::None }, &mut groups);
    });
    whole.then_some(groups)
}

/// The sets of one written group, those next to each other that are alike together.
fn split(written: &Written<'_>, load: Load, groups: &mut Vec<PlannedGroup>) {
    let first = groups.len();
    let mut add = |fewest, most, each: &WrittenAmount, open, effort| {
        let (amounts, bouts) = (range(each, open), bouts(each).map(Box::new));
        // A group of sets one by one is as many kinds as it has neighbours that differ.
        match groups.get_mut(first..).and_then(<[PlannedGroup]>::last_mut) {
            Some(last) if (last.amounts, &last.bouts, last.effort) == (amounts, &bouts, effort) => {
                last.fewest += fewest;
                last.most += most;
            }
            _ => {
                let per_side = written.count.per_side;
                groups.push(PlannedGroup { fewest, most, amounts, bouts, per_side, load: load.clone(), effort });
            }
        }
    };
    let efforts = Efforts::of(&written.attributes);
    let amrap = written.attributes.iter().any(|attribute| attribute.kind == AttributeKind::Amrap);
    match &written.count.sets {
        WrittenSets::Times { low, high, each } if low != high || !amrap && !efforts.are_listed() => {
            add(*low, *high, each, false, efforts.of_all(each));
        }
        WrittenSets::Times { low, each, .. } => {
            for at in 0..*low {
                let is_last = amrap && at + 1 == *low;
                add(1, 1, each, is_last, efforts.of_set(at as usize, each, is_last));
            }
        }
        WrittenSets::List(amounts) => {
            for (at, each) in amounts.iter().enumerate() {
                let is_last = amrap && at + 1 == amounts.len();
                add(1, 1, each, is_last, efforts.of_set(at, each, is_last));
            }
        }
    }
}

/// From so much to so much. `open`: as much as possible from there on.
fn range(written: &WrittenAmount, open: bool) -> AmountRange {
    match written {
        WrittenAmount::Reps { low, high } => AmountRange::Reps { least: *low, most: (!open).then_some(*high) },
        WrittenAmount::AtLeast(least) => AmountRange::Reps { least: *least, most: None },
        WrittenAmount::AsManyAsPossible => AmountRange::Reps { least: 1, most: None },
        WrittenAmount::Seconds { low, high } => AmountRange::Seconds { least: *low, most: *high },
        WrittenAmount::Distance { high, unit, .. } => {
            let metres = |written: &WrittenAmount| match amount(written) {
                Amount::Metres(distance) => distance,
                _ => Distance::default(),
            };
            let longest = WrittenAmount::Distance { low: *high, high: *high, unit: *unit };
            AmountRange::Metres { least: metres(written), most: metres(&longest) }
        }
        WrittenAmount::Bouts(_) => {
            let reps = amount(written).reps().unwrap_or(0);
            AmountRange::Reps { least: reps, most: (!open).then_some(reps) }
        }
    }
}

/// The efforts that a group's attributes plan. Beside an RPE a RIR says nothing, as in work that is done.
struct Efforts<'w> {
    written: Option<&'w AttributeKind<'w>>,
}

impl<'w> Efforts<'w> {
    fn of(attributes: &'w [Attribute<'w>]) -> Self {
        let scale = |kind: &AttributeKind<'_>| match kind {
            AttributeKind::Effort(scale, ..) | AttributeKind::Efforts(scale, _) => Some(*scale),
            _ => None,
        };
        let kinds = || attributes.iter().map(|attribute| &attribute.kind);
        let of_scale = |wanted| kinds().rfind(|kind| scale(kind) == Some(wanted));
        Efforts { written: of_scale(Scale::Rpe).or(of_scale(Scale::Rir)) }
    }

    /// Whether there is one for each set.
    fn are_listed(&self) -> bool {
        matches!(self.written, Some(AttributeKind::Efforts(..)))
    }

    /// The effort of all sets; of a list, from its least to its greatest.
    fn of_all(&self, amount: &WrittenAmount) -> Option<EffortRange> {
        match self.written {
            Some(AttributeKind::Effort(scale, low, high)) => Some(ends(*scale, *low, *high)),
            Some(AttributeKind::Efforts(scale, values)) => {
                Some(ends(*scale, *values.iter().min()?, *values.iter().max()?))
            }
            _ => maximal(matches!(amount, WrittenAmount::AsManyAsPossible)),
        }
    }

    /// The effort of one set, from 0.
    fn of_set(&self, at: usize, amount: &WrittenAmount, is_last_amrap: bool) -> Option<EffortRange> {
        match self.written {
            Some(AttributeKind::Efforts(scale, values)) => {
                let value = values.get(at)?;
                Some(ends(*scale, *value, *value))
            }
            Some(_) => self.of_all(amount),
            None => maximal(is_last_amrap || matches!(amount, WrittenAmount::AsManyAsPossible)),
        }
    }
}

/// As many as possible is as hard as can be, unless an effort is written.
fn maximal(as_many_as_possible: bool) -> Option<EffortRange> {
    as_many_as_possible.then_some(EffortRange { low: Effort::MAXIMAL, high: Effort::MAXIMAL })
}

fn ends(scale: Scale, low: Number, high: Number) -> EffortRange {
    let (one, other) = (effort(scale, low, low), effort(scale, high, high));
    EffortRange { low: one.min(other), high: one.max(other) }
}
