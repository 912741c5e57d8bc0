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
    let least = scene.thresholds().overshoot;
    let over = |stands: AgainstPlan| match stands {
        AgainstPlan::Over(gap) if gap >= least => Some(gap),
        _ => None,
    };
    let found = by_lift(scene, over).into_iter().map(|of| {
        let found = Found::Overshoot { lift: of.lift, most: of.most, times: of.places.len() };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

pub(super) fn undershoots(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let least = scene.thresholds().gross_undershoot;
    let under = |stands: AgainstPlan| match stands {
        AgainstPlan::Under(gap) if gap >= least => Some(gap),
        _ => None,
    };
    let found = by_lift(scene, under).into_iter().map(|of| {
        let (lift, times) = (of.lift, of.places.len());
        let found = Found::GrossUndershoot { lift, most: of.most, times, all_done: of.all_done };
        Caution { date: of.date, found, places: of.places }
    });
    found.collect()
}

/// The lines with a gap, gathered by lift.
fn by_lift(scene: &Scene<'_, '_>, gap: impl Fn(AgainstPlan) -> Option<EffortGap>) -> Vec<OfLift> {
    let mut lifts: Vec<OfLift> = Vec::new();
    for line in PlannedLines::of(scene.history, None, scene.sessions()).lines {
        let Some(most) = line.efforts.iter().filter_map(|effort| gap(effort.stands())).max() else { continue };
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
