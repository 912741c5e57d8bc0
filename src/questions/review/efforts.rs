//! `overshoot` and `gross-undershoot`: efforts over their plan, and far under it, as `adherence` pairs sets with plans.

use super::scene::Scene;
use super::{Caution, Found};
use crate::analysis::plan::against_plan::AgainstPlan;
use crate::analysis::plan::planned_lines::PlannedLines;
use crate::source::Place;
use crate::training::EffortGap;
use chrono::NaiveDate;

/// What a lift's lines of the block come to.
struct OfLift {
    lift: String,
    date: NaiveDate,
    most: EffortGap,
    all_done: bool,
    places: Vec<Place>,
}

pub(super) fn overshoots(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let found = by_lift(scene, AgainstPlan::Over, scene.thresholds().overshoot).into_iter().map(|of| {
        let found = Found::Overshoot { lift: of.lift, most: of.most, times: of.places.len() };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

pub(super) fn undershoots(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let found = by_lift(scene, AgainstPlan::Under, scene.thresholds().gross_undershoot).into_iter().map(|of| {
        let (lift, times) = (of.lift, of.places.len());
        let found = Found::GrossUndershoot { lift, most: of.most, times, all_done: of.all_done };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

/// The lines with such a gap or a wider one, gathered by lift.
fn by_lift(scene: &Scene<'_, '_>, verdict: AgainstPlan, least: EffortGap) -> Vec<OfLift> {
    let mut lifts: Vec<OfLift> = Vec::new();
    for line in PlannedLines::of(scene.history, None, scene.sessions()).lines {
        let such = line.efforts.iter().filter(|effort| effort.verdict == verdict && effort.gap >= least);
        let Some(most) = such.map(|effort| effort.gap).max() else { continue };
        let all_done = line.sums.sets_reached >= line.sums.sets_planned;
        let place = line.at.place;
        match lifts.iter_mut().find(|known| known.lift == line.lift) {
            Some(known) => {
                known.date = line.at.date;
                known.most = known.most.max(most);
                known.all_done &= all_done;
                known.places.push(place);
            }
            None => {
                let (lift, date) = (line.lift, line.at.date);
                lifts.push(OfLift { lift, date, most, all_done, places: vec![place] });
            }
        }
    }
    lifts
}
