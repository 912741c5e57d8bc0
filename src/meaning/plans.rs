//! `as planned`: a plan that leaves no choice, taken over as what was done.

use super::groups::{Carried, Line, attribute_all, in_bouts, sets};
use super::loads::load;
use crate::notation::nodes::{Amount, Attribute, AttributeKind, Group as Written, Sets};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{PageId, Span};
use crate::training::{Efforts, Group};

/// What the first plan under a line comes to, taken over as done.
#[derive(Debug)]
pub(crate) enum Taken {
    /// These sets. Efforts are not taken over: an effort is only what was written as done.
    Groups(Vec<Group>),
    /// It leaves a choice.
    Open,
}

/// Whether a plan is single-valued in sets, reps and loads.
fn is_open(group: &Written<'_>) -> bool {
    let open = |amount: &Amount| match amount {
        Amount::Reps { low, high } | Amount::Seconds { low, high } => low != high,
        Amount::Distance { low, high, .. } => low != high,
        Amount::AtLeast(_) | Amount::AsManyAsPossible => true,
        Amount::Bouts(_) => false,
    };
    let count = match &group.count.sets {
        Sets::Times { low, high, each } => low != high || open(each),
        Sets::List(amounts) => amounts.iter().any(open),
    };
    count || group.attributes.iter().any(|attribute| attribute.kind == AttributeKind::Amrap)
}

/// The sets of a plan. Its loads have been read once already, so their problems are not noted again.
pub(crate) fn taken_over(line: &Line<'_>, written: &[Written<'_>]) -> Taken {
    if written.is_empty() || written.iter().any(is_open) {
        return Taken::Open;
    }
    let mut carried = Carried::Default;
    let mut groups = Vec::with_capacity(written.len());
    for group in written {
        let read = match (&group.load, &carried) {
            (Some(written), _) => match load(line.context, line.page, written, &mut Vec::new()) {
                Ok(load) => load,
                Err(_) => return Taken::Open,
            },
            (None, Carried::From(load)) => load.clone(),
            (None, _) => line.default_load(),
        };
        if group.load.is_some() {
            carried = Carried::From(read.clone());
        }
        let mut taken = Group {
            page: PageId::default(),
            line: line.line,
            sets: sets(&group.count.sets),
            per_side: group.count.per_side,
            load: read,
            efforts: Efforts::None,
            extra: None,
        };
        in_bouts(&mut taken, &group.count.sets);
        groups.push(taken);
    }
    Taken::Groups(groups)
}

/// Puts the attributes of an `as planned` line on the sets of its plan. They hold for every set: a list of
/// efforts is dealt out in order, and an AMRAP or a miss is the last set's.
pub(crate) fn attributed(
    line: &Line<'_>,
    groups: &mut [Group],
    attributes: Vec<Attribute<'_>>,
    problems: &mut Vec<Problem>,
) {
    let total: usize = groups.iter().map(Group::count).sum();
    let several = groups.len() > 1;
    let mut kept: Vec<Attribute<'_>> = Vec::new();
    for attribute in attributes {
        let span = Span::of(line.page.text(), attribute.text);
        let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        let problem = match &attribute.kind {
            AttributeKind::Efforts(_, values) if values.len() != total => {
                Some(K::EffortCount { efforts: count(values.len()), sets: count(total) })
            }
            AttributeKind::Fault(_, sets) => sets
                .iter()
                .find(|set| **set == 0 || **set as usize > total)
                .map(|set| K::FaultWithoutSet { set: *set, sets: count(total) }),
            _ => None,
        };
        match problem {
            Some(kind) => problems.push(Problem::new(kind, span)),
            None => kept.push(attribute),
        }
    }
    let mut first_set = 0;
    let last = groups.len().saturating_sub(1);
    for (at, group) in groups.iter_mut().enumerate() {
        let sets = group.count();
        if several {
            let share: Vec<Attribute<'_>> = kept.iter().filter_map(|a| share(a, first_set, sets, at == last)).collect();
            attribute_all(group, &share);
        } else {
            attribute_all(group, &kept);
        }
        first_set += sets;
    }
}

/// The part of an attribute that falls to the sets from `first` on.
fn share<'a>(attribute: &Attribute<'a>, first: usize, sets: usize, is_last: bool) -> Option<Attribute<'a>> {
    let kind = match &attribute.kind {
        AttributeKind::Efforts(scale, values) => {
            AttributeKind::Efforts(*scale, values.get(first..first + sets)?.to_vec())
        }
        kind @ (AttributeKind::Amrap | AttributeKind::Miss(_) | AttributeKind::Remark(_)) => {
            is_last.then(|| kind.clone())?
        }
        AttributeKind::Fault(name, on) if !on.is_empty() => {
            let here = on.iter().map(|set| *set as usize).filter(|set| (first + 1..=first + sets).contains(set));
            let here: Vec<u32> = here.filter_map(|set| u32::try_from(set - first).ok()).collect();
            if here.is_empty() {
                return None;
            }
            AttributeKind::Fault(name, here)
        }
        of_all => of_all.clone(),
    };
    Some(Attribute { text: attribute.text, kind })
}
