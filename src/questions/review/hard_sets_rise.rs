//! `hard-sets-rise`: many more hard sets of a family in a week than in the weeks before.

use super::scene::Scene;
use super::{Caution, Found};
use crate::history::{Done, Week};
use crate::science::volume_measures;
use crate::training::{Family, Set};

/// A week is held against the mean of so many loading weeks before it, in this block or an earlier one.
const WEEKS_BEFORE: usize = 4;

/// Fewer sets more than this are no rise, whatever the percentage: one hard set to two is 100 %. Common practice, no
/// source.
const FEWEST_MORE: f64 = 3.0;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let weeks: Vec<Week<'_>> = scene.history.weeks().into_iter().filter(|week| !week.light).collect();
    let mut cautions = Vec::new();
    for family in Family::ALL {
        for group in weeks.windows(WEEKS_BEFORE + 1) {
            let Some((now, before)) = group.split_last() else { continue };
            if now.key.block == scene.id {
                cautions.extend(rise(scene, family, before, now));
            }
        }
    }
    cautions
}

fn rise(scene: &Scene<'_, '_>, family: Family, before: &[Week<'_>], now: &Week<'_>) -> Option<Caution> {
    let sets_before: usize = before.iter().map(|week| hard_sets(scene, week, family).len()).sum();
    let mean = sets_before as f64 / WEEKS_BEFORE as f64;
    let hard = hard_sets(scene, now, family);
    let more = hard.len() as f64 - mean;
    let share = f64::from(scene.thresholds().hard_sets_rise) / 100.0;
    if mean == 0.0 || more < FEWEST_MORE || more < mean * share {
        return None;
    }
    let mut places: Vec<_> = hard.iter().map(|(done, set)| scene.place(done.session, set.group.line)).collect();
    places.dedup();
    let sets = u32::try_from(hard.len()).ok()?;
    let (last, _) = hard.last()?;
    let found = Found::HardSetsRise { family, week: now.key.week, sets, before: mean, percent: more / mean * 100.0 };
    Some(Caution { date: last.session.date, found, places })
}

fn hard_sets<'a>(scene: &Scene<'_, '_>, week: &Week<'a>, family: Family) -> Vec<(Done<'a>, Set<'a>)> {
    let of_family = |done: &Done<'_>| scene.history.log.lift(done.work.lift).is_some_and(|lift| lift.family == family);
    let sets = week.works().filter(of_family).flat_map(|done| done.work_sets().map(move |set| (done, set)));
    sets.filter(|(_, set)| set.effort.is_some_and(volume_measures::is_hard)).collect()
}
