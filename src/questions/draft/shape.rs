//! A work line as a plan without a choice in it, so that it can be done as planned.

use crate::analysis::rack::HangsOn;
use crate::training::{Amount, AmountRange, Family, Group, Lift, Load, Mass, Plan, PlannedGroup, Set, Substance, Work};

/// No count without a load says more sets; the notation takes more for a load.
pub(super) const MOST_SETS: u32 = 10;

/// What a work line was to be: as its plan says, with the loads that were done, else as it was done. Of a line that
/// is still `to_come` only the plan counts. Empty where neither says anything.
pub(super) fn shape(work: &Work, lift: Option<&Lift>, own: Option<Mass>, to_come: bool) -> Vec<PlannedGroup> {
    let done = if to_come { Vec::new() } else { done(&work.groups) };
    let mut shape = match work.plan().and_then(|plan| closed(plan, &done)) {
        Some(mut planned) => {
            with_loads(&mut planned, &done, own);
            planned
        }
        None => done,
    };
    // The lifter's own weight goes without saying where it is the lift's default.
    if lift.is_some_and(|lift| lift.bodyweight) && shape.iter().all(|group| group.load.added() == Some(Mass::ZERO)) {
        shape.iter_mut().for_each(|group| group.load = Load::None);
    }
    portioned(shape)
}

/// The thousandths of a load in per cents of the block's maximum.
pub(super) fn percent(load: &Load) -> Option<i64> {
    let Load::Other(other) = load else { return None };
    let thousandths = other.text.strip_suffix('%')?.trim().parse::<f64>().ok()? * 1000.0;
    Some(thousandths.round() as i64).filter(|thousandths| *thousandths > 0)
}

/// So many thousandths of a percent of the maximum that a load is a share of.
pub(super) fn at_percent(load: &Load, thousandths: i64) -> Option<Load> {
    let maximum = load.kilograms(None)?.in_kilograms() / percent(load)? as f64;
    share(Mass::from_kilograms(maximum * thousandths as f64)?, thousandths, load.is_approximate())
}

/// A mass as a load of one number, to the gram.
pub(super) fn plain(mass: Mass) -> Load {
    let unit = mass.unit();
    Load::Plain { thousandths: mass.in_thousandths(unit), unit, unit_written: true, approximate: false }
}

/// So many thousandths of a percent of a maximum.
pub(super) fn share_of(maximum: Mass, thousandths: i64) -> Option<Load> {
    share(maximum.percent(thousandths), thousandths, false)
}

fn share(mass: Mass, thousandths: i64, approximate: bool) -> Option<Load> {
    let text = Load::Percent(thousandths).text()?;
    (thousandths > 0).then(|| Load::other(Substance::Mass(mass), text, approximate))
}

/// The work sets, those next to each other that are alike together.
fn done(groups: &[Group]) -> Vec<PlannedGroup> {
    let sets = groups.iter().flat_map(|group| group.sets()).filter(|set| set.is_work());
    let mut shape: Vec<PlannedGroup> = Vec::new();
    for set in sets {
        let one = exactly(set);
        let kind = |group: &PlannedGroup| (group.amounts, group.bouts.clone(), group.per_side, group.load.clone());
        match shape.last_mut() {
            Some(last) if kind(last) == kind(&one) => {
                (last.fewest, last.most) = (last.fewest + 1, last.most + 1);
            }
            _ => shape.push(one),
        }
    }
    shape
}

fn exactly(set: Set<'_>) -> PlannedGroup {
    PlannedGroup {
        fewest: 1,
        most: 1,
        amounts: only(set.amount),
        bouts: set.bouts().cloned().map(Box::new),
        per_side: set.group.per_side,
        load: set.group.load.clone(),
        effort: None,
    }
}

/// No more and no less than an amount.
pub(super) fn only(amount: Amount) -> AmountRange {
    match amount {
        Amount::Reps(reps) => AmountRange::Reps { least: reps, most: Some(reps) },
        Amount::Seconds(seconds) => AmountRange::Seconds { least: seconds, most: seconds },
        Amount::Metres(metres) => AmountRange::Metres { least: metres, most: metres },
    }
}

/// A plan with its choices made: of each range the low end, for where a load goes up, reps begin anew from there. A
/// plan that is open at the top says too little: what was done says more. `None` where nothing is left of it.
fn closed(plan: &Plan, done: &[PlannedGroup]) -> Option<Vec<PlannedGroup>> {
    let is_open = plan.groups.iter().any(|group| group.amounts.most().is_none());
    if is_open && !done.is_empty() {
        return None;
    }
    let sets: u32 = done.iter().map(|group| group.fewest).sum();
    let single = plan.groups.len() == 1 && sets > 0;
    let made = plan.groups.iter().filter(|group| group.fewest.max(group.most) > 0).map(|group| {
        let count = if single { sets.clamp(group.fewest, group.most.max(group.fewest)) } else { group.fewest }.max(1);
        PlannedGroup { fewest: count, most: count, amounts: only(group.amounts.least()), ..group.clone() }
    });
    let made: Vec<PlannedGroup> = made.filter(|group| !group.amounts.least().is_nothing()).collect();
    (!made.is_empty()).then_some(made)
}

/// Puts the loads that were done in the place of those that were planned: the nearest to the planned one; where none
/// was planned, the heaviest of a plan of one group, else each in its turn.
fn with_loads(planned: &mut [PlannedGroup], done: &[PlannedGroup], own: Option<Mass>) {
    let single = planned.len() == 1;
    let kilograms = |group: &PlannedGroup| group.load.kilograms(own);
    for (nth, group) in planned.iter_mut().enumerate() {
        let wanted = kilograms(group);
        let found = match wanted {
            Some(wanted) => done
                .iter()
                .filter(|one| kilograms(one).is_some())
                .min_by_key(|one| kilograms(one).map(|load| load.apart(wanted))),
            None if single => done.iter().rev().max_by_key(|one| kilograms(one)),
            None => done.get(nth).or(done.last()),
        };
        // A share of a maximum is what the plan says, whatever it was rounded to.
        if let Some(found) = found.filter(|found| found.load != Load::None && percent(&group.load).is_none()) {
            group.load = found.load.clone();
        }
    }
}

/// No count longer than the notation takes.
fn portioned(groups: Vec<PlannedGroup>) -> Vec<PlannedGroup> {
    let mut portions = Vec::with_capacity(groups.len());
    for group in groups {
        let mut left = group.fewest;
        while left > 0 {
            let count = left.min(MOST_SETS);
            portions.push(PlannedGroup { fewest: count, most: count, ..group.clone() });
            left -= count;
        }
    }
    portions
}

/// What a load says of what is hung: without the lifter's own weight.
pub(super) fn held(load: &Load, on: HangsOn<'_>) -> Option<Mass> {
    match on {
        HangsOn::Lifter => load.added(),
        _ => load.kilograms(None),
    }
}

/// Whether a lift is a squat, a hinge or a press.
pub(super) fn is_main(lift: Option<&Lift>) -> bool {
    use Family as F;
    lift.is_some_and(|lift| matches!(lift.family, F::Squat | F::Hinge | F::HorizontalPress | F::VerticalPress))
}
