//! `overshoot` and `gross-undershoot`: efforts over their plan, and far under it.
//!
//! Sets are held against planned ones in the order written, each group taking its own number and the last one the rest.

use super::scene::Scene;
use super::{Caution, Found, Place};
use crate::history::Done;
use crate::training::{Effort, EffortGap, LiftId, PlannedGroup, Set, Tolerance};
use chrono::NaiveDate;

/// What a lift's lines of the block come to.
struct OfLift {
    lift: LiftId,
    date: NaiveDate,
    most: EffortGap,
    all_done: bool,
    places: Vec<Place>,
}

pub(super) fn overshoots(scene: &Scene<'_>) -> Vec<Caution> {
    let least = scene.thresholds().overshoot;
    let over = |planned: &PlannedGroup, felt: Effort| felt.above(planned.effort?.high).filter(|gap| *gap >= least);
    let found = by_lift(scene, over).into_iter().map(|of| {
        let found = Found::Overshoot { lift: scene.name(of.lift), most: of.most, times: of.places.len() };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

pub(super) fn undershoots(scene: &Scene<'_>) -> Vec<Caution> {
    let least = scene.thresholds().gross_undershoot;
    let under = |planned: &PlannedGroup, felt: Effort| planned.effort?.low.above(felt).filter(|gap| *gap >= least);
    let found = by_lift(scene, under).into_iter().map(|of| {
        let (lift, times) = (scene.name(of.lift), of.places.len());
        let found = Found::GrossUndershoot { lift, most: of.most, times, all_done: of.all_done };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

/// The lines with a gap, gathered by lift.
fn by_lift(scene: &Scene<'_>, gap: impl Fn(&PlannedGroup, Effort) -> Option<EffortGap>) -> Vec<OfLift> {
    let mut lifts: Vec<OfLift> = Vec::new();
    for done in scene.works() {
        let Some(plan) = done.work.plan() else { continue };
        let sets: Vec<Set<'_>> = done.work_sets().collect();
        let held = hold(&plan.groups, &sets);
        let gaps = held.iter().filter_map(|(planned, sets)| {
            let felt = sets.iter().filter_map(|set| set.effort).max()?;
            Some((gap(planned, felt)?, sets.first()?.group.line))
        });
        let Some((most, line)) = gaps.max_by_key(|(most, line)| (*most, std::cmp::Reverse(*line))) else { continue };
        let all_done = held.iter().all(|(planned, sets)| is_done(scene, &done, planned, sets));
        let place = scene.place(done.session, line);
        match lifts.iter_mut().find(|known| known.lift == done.work.lift) {
            Some(known) => {
                known.date = done.session.date;
                known.most = known.most.max(most);
                known.all_done &= all_done;
                known.places.push(place);
            }
            None => {
                let (lift, date) = (done.work.lift, done.session.date);
                lifts.push(OfLift { lift, date, most, all_done, places: vec![place] });
            }
        }
    }
    lifts
}

/// Each planned group with its sets.
fn hold<'p, 's, 'a>(planned: &'p [PlannedGroup], sets: &'s [Set<'a>]) -> Vec<(&'p PlannedGroup, &'s [Set<'a>])> {
    let mut rest = sets;
    let last = planned.len().saturating_sub(1);
    let groups = planned.iter().enumerate().map(|(at, group)| {
        let count = if at == last { rest.len() } else { rest.len().min(group.most as usize) };
        let (own, others) = rest.split_at_checked(count).unwrap_or((rest, &[]));
        rest = others;
        (group, own)
    });
    groups.collect()
}

/// Whether as many sets as planned have as many reps as planned, at the planned load or a heavier one.
fn is_done(scene: &Scene<'_>, done: &Done<'_>, planned: &PlannedGroup, sets: &[Set<'_>]) -> bool {
    let own = done.session.own_mass();
    let tolerance = Tolerance::of(&scene.history.log.gear);
    let reached = sets.iter().filter(|set| {
        let heavy = match (planned.load.kilograms(own), set.group.load.kilograms(own)) {
            (Some(planned), Some(done)) => tolerance.compare(done, planned).is_ge(),
            // What is no known mass is taken as planned where it is written alike, or left open.
            _ => planned.load.text().is_none() || planned.load.text() == set.group.load.text(),
        };
        heavy && planned.amounts.is_reached_by(set.amount)
    });
    reached.count() >= planned.fewest as usize
}
