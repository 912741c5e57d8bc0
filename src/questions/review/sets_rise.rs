//! `sets-rise`: many more sets at RPE 6 and up of a family in a week than in the weeks before.

use super::caution::{Found, Rule, Tells, count};
use super::scene::Scene;
use crate::history::{Done, Week};
use crate::science::volume_measures;
use crate::training::{Family, Set, Threshold};

/// A week is held against the mean of so many loading weeks before it, in this block or an earlier one.
const WEEKS_BEFORE: usize = 4;

/// Fewer sets more than this are no rise, whatever the percentage: one set to two is 100 %. Common practice, no source.
const FEWEST_MORE: f64 = 3.0;

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "sets-rise", unit: "percent", least: 10.0, most: 500.0, default: 50.0 },
    brief: |family, found| format!("{family} sets +{found:.0} %"),
    tells: Tells::Other,
    text: "
Half as many sets at RPE 6 and up of a family again as in the mean of the four loading weeks before. Such a set leaves at
most four reps in reserve; sets without an effort are not counted, so efforts that are written more often look like a rise.
Such ratios of a week to the weeks before describe, they predict nothing: made-up denominators did about as well as
real ones in foretelling injury, and the authors advise dropping the ratio for that. Here the week is not part of the
mean it is held against, and nothing is said of injury.

- raised: at so many percent more, at least three sets more, and more sets than in any of those four weeks
- threshold: {threshold}, `cautions: { sets-rise: 75 }` for three quarters
- on sensible training: less than 0.01 times in two weeks of a strong lifter, 0.01 of a small one (simulated)
- source: the threshold is common practice, no source; the criticism is Impellizzeri et al. 2021, Sports Med, doi
  10.1007/s40279-020-01378-6, and Lolli et al. 2019, Br J Sports Med 53(15):921
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    // The block's loading weeks, and before them as many as one is held against.
    let (mut weeks, mut before) = (Vec::new(), 0);
    for week in scene.history.weeks_up_to(scene.id).rev().filter(|week| !week.light) {
        before += usize::from(week.key.block != scene.id);
        weeks.push(week);
        if before == WEEKS_BEFORE {
            break;
        }
    }
    weeks.reverse();
    let mut cautions = Vec::new();
    for family in Family::ALL {
        for group in weeks.windows(WEEKS_BEFORE + 1) {
            let Some((now, before)) = group.split_last() else { continue };
            if now.key.block == scene.id {
                cautions.extend(rise(scene, threshold, family, before, now));
            }
        }
    }
    cautions
}

fn rise(scene: &Scene<'_, '_>, threshold: f64, family: Family, before: &[Week<'_>], now: &Week<'_>) -> Option<Found> {
    let before: Vec<usize> = before.iter().map(|week| sets_at_rpe_6(scene, week, family).len()).collect();
    let mean = before.iter().sum::<usize>() as f64 / WEEKS_BEFORE as f64;
    let sets = sets_at_rpe_6(scene, now, family);
    let more = sets.len() as f64 - mean;
    let as_many_before = before.iter().any(|week| *week >= sets.len());
    if mean == 0.0 || more < FEWEST_MORE || more < mean * (threshold / 100.0) || as_many_before {
        return None;
    }
    let mut places: Vec<_> = sets.iter().map(|(_, set)| scene.place(set.group.page, set.group.line)).collect();
    places.dedup();
    let (last, _) = sets.last()?;
    let (percent, week) = (more / mean * 100.0, now.key.week);
    Some(Found {
        date: last.session.date,
        about: Some(family.word().to_owned()),
        figure: percent,
        message: format!(
            "{family}: {} at RPE 6+ in week {week}, {percent:.0} % more than the {mean:.1} of the four loading weeks before; this \
             describes, it predicts nothing",
            count(sets.len() as i64, "set")
        ),
        places,
    })
}

fn sets_at_rpe_6<'a>(scene: &Scene<'_, '_>, week: &Week<'a>, family: Family) -> Vec<(Done<'a>, Set<'a>)> {
    let of_family = |done: &Done<'_>| scene.history.log.lift(done.work.lift).is_some_and(|lift| lift.family == family);
    let sets = week.works().filter(of_family).flat_map(|done| done.work_sets().map(move |set| (done, set)));
    sets.filter(|(_, set)| set.effort.is_some_and(volume_measures::is_at_rpe_6)).collect()
}
