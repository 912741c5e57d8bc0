//! What a deload or peak week takes off: how much is common practice, as `science` says.

use super::outlook::{Day, around, rpe};
use super::shape::{at_percent, only, percent};
use super::{Change, Kept};
use crate::analysis::rack::{HangsOn, Rack};
use crate::science::taper;
use crate::training::{Amount, Effort, EffortRange, Lift, Load, Mass, PlannedGroup, TaperBands};
use std::rc::Rc;

/// A lift's line in a light week.
pub(super) struct Light<'r, 'g> {
    pub(super) rack: &'r mut Rack<'g>,
    pub(super) lift: Option<&'g Lift>,
    /// The mean of the heaviest loads of the last loading weeks, everything lifted, in kilograms.
    pub(super) usual_top: Option<f64>,
    /// Whether an effort was written.
    pub(super) is_rated: bool,
    /// The lifter's own weight then.
    pub(super) own: Option<Mass>,
    /// What the settings say a peak week takes off.
    pub(super) set: TaperBands,
    /// The lift's surest set on the day that the line is made from.
    pub(super) day: Option<Rc<Day<'g>>>,
}

/// The usual deload: half the sets, fewer reps a set, less load.
pub(super) fn deload(groups: &mut Vec<PlannedGroup>, line: Light<'_, '_>) -> Vec<Change> {
    let mut changes = Vec::new();
    let sets = total(groups);
    let off = sets - taper::deload_sets(sets);
    for _ in 0..off {
        take_a_set(groups);
    }
    if off > 0 {
        changes.push(Change::SetsOff(off));
    }
    if take_reps(groups, taper::DELOAD_REPS_OFF, taper::DELOAD_REPS_NEEDED) {
        changes.push(Change::RepsOff(taper::DELOAD_REPS_OFF));
    }
    let kept = i64::from(100 - taper::DELOAD_PERCENT_OFF) * 1000;
    let mut is_lighter = false;
    for group in groups.iter_mut() {
        let on = line.rack.hangs_on(&group.load, group.per_side, line.lift);
        let share = percent(&group.load).map(|share| share * kept / 100_000 / 500 * 500);
        if let Some(load) = share.and_then(|share| at_percent(&group.load, share)) {
            (group.load, is_lighter) = (load, true);
        }
        if let Some(load) = line.rack.in_deload(on, &group.load) {
            is_lighter |= load != group.load;
            group.load = load;
        }
        if group.effort.is_some() || line.is_rated {
            let (low, high) = taper::DELOAD_RPE;
            group.effort = Some(EffortRange { low: rpe(low * 1000), high: rpe(high * 1000) });
        }
    }
    changes.push(if is_lighter { Change::Lighter(taper::DELOAD_PERCENT_OFF) } else { Change::Kept(Kept::Implement) });
    changes
}

/// The usual peak week of a competition lift: a set and two reps come off, or what the settings say; the effort stays.
pub(super) fn peak_contested(groups: &mut Vec<PlannedGroup>, takes_a_set: bool, line: Light<'_, '_>) -> Vec<Change> {
    let mut changes = sets_off(groups, takes_a_set, taper::drafted_off(&taper::sets(&line.set)));
    let reps_off = taper::drafted_off(&taper::reps(&line.set));
    let reps_needed = (taper::REPS_NEEDED as u32).max(reps_off + 1);
    let fewer = reps_off > 0 && take_reps(groups, reps_off, reps_needed);
    if fewer {
        changes.push(Change::RepsOff(reps_off));
    }
    // Fewer reps at the same effort are a heavier load; no heavier one than a peak week usually has is asked for.
    let rise = line.day.as_ref().and_then(|day| day.rise_with_fewer(reps_off)).filter(|_| fewer);
    let share = rise.map_or(1.0, |rise| 1.0 + rise.max(0.0));
    let usual_most = line.usual_top.map(|top| top * (1.0 + taper::intensity(&line.set).high / 100.0));
    let top = groups.iter().filter_map(|group| group.load.kilograms(line.own)).max();
    let mut raised = Mass::ZERO;
    for group in groups.iter_mut() {
        let Some(everything) = group.load.kilograms(line.own) else { continue };
        let is_top = Some(everything) == top;
        let on = line.rack.hangs_on(&group.load, group.per_side, line.lift);
        let added = |everything: Mass| {
            if let HangsOn::Lifter = on { everything - line.own.unwrap_or_default() } else { everything }
        };
        let risen = everything.in_kilograms() * share;
        let risen = usual_most.map_or(risen, |most| risen.min(most)).max(everything.in_kilograms());
        let Some(wanted) = Mass::from_kilograms(risen).map(added) else { continue };
        let wanted = match (on, group.load.added()) {
            (HangsOn::Lifter, Some(known)) => line.rack.moved(on, known, wanted - known),
            _ => wanted,
        };
        let Some(load) = line.rack.at_most(on, wanted) else { continue };
        let now = load.kilograms(line.own).unwrap_or(everything);
        if is_top {
            raised = now - everything;
            if let (Some(day), Amount::Reps(reps)) = (&line.day, group.amounts.least()) {
                let expected = day.effort(now.in_kilograms(), reps);
                group.effort = expected.and_then(|rpe| around(rpe, Effort::MAXIMAL)).or(group.effort);
            }
        }
        group.load = load;
    }
    if raised > Mass::ZERO {
        changes.push(Change::EffortKept(raised));
    } else if line.day.is_none() {
        changes.push(Change::Kept(Kept::NoEffort));
    }
    changes
}

/// The usual peak week of another lift: a set comes off, or as many as the settings say.
pub(super) fn peak_other(groups: &mut Vec<PlannedGroup>, takes_a_set: bool, line: Light<'_, '_>) -> Vec<Change> {
    for group in groups.iter_mut() {
        let on = line.rack.hangs_on(&group.load, group.per_side, line.lift);
        if let (HangsOn::Bar { .. }, Some(mass)) = (on, group.load.kilograms(None))
            && let Some(load) = line.rack.at_most(on, mass)
        {
            group.load = load;
        }
    }
    sets_off(groups, takes_a_set, taper::drafted_off(&taper::accessory_sets(&line.set)))
}

/// Takes so many sets off, but never the last one.
fn sets_off(groups: &mut Vec<PlannedGroup>, takes_a_set: bool, off: u32) -> Vec<Change> {
    let off = off.min(total(groups).saturating_sub(1));
    if !takes_a_set || off == 0 || f64::from(total(groups)) < taper::SETS_NEEDED {
        return Vec::new();
    }
    for _ in 0..off {
        take_a_set(groups);
    }
    vec![Change::SetsOff(off)]
}

fn total(groups: &[PlannedGroup]) -> u32 {
    groups.iter().map(|group| group.fewest).sum()
}

/// Takes a set off the group with the most; of equals the last.
fn take_a_set(groups: &mut Vec<PlannedGroup>) {
    if let Some(most) = groups.iter_mut().max_by_key(|group| group.fewest) {
        most.fewest -= 1;
        most.most = most.fewest;
    }
    groups.retain(|group| group.fewest > 0);
}

/// Takes reps off each set that has enough of them; whether any had.
fn take_reps(groups: &mut [PlannedGroup], off: u32, needed: u32) -> bool {
    let mut any = false;
    for group in groups {
        if let Amount::Reps(reps) = group.amounts.least()
            && reps >= needed
        {
            group.amounts = only(Amount::Reps(reps - off));
            group.bouts = group.bouts.take().and_then(|bouts| bouts.with_fewer(off)).map(Box::new);
            any = true;
        }
    }
    any
}

/// Whether a line has a load at all.
pub(super) fn is_loaded(groups: &[PlannedGroup]) -> bool {
    groups.iter().any(|group| group.load != Load::None)
}
