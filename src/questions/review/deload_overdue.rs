//! `deload-overdue`: many weeks of training without a deload, a peak, or a week off.

use super::scene::{Scene, days, has_work, is_training};
use super::{Caution, Found};
use crate::history::WeekKey;
use crate::training::Session;
use std::collections::HashSet;

/// Who has not trained for more days than this has had a week off, which rests as a deload does.
const WEEK_OFF: i64 = 7;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    of_scene(scene).into_iter().collect()
}

fn of_scene(scene: &Scene<'_, '_>) -> Option<Caution> {
    let today = scene.history.today;
    let weeks = scene.history.weeks();
    let light: HashSet<WeekKey> = weeks.iter().filter(|week| week.light).map(|week| week.key).collect();
    let is_light = |session: &Session| match session.block.zip(session.week) {
        Some((block, week)) => light.contains(&WeekKey { block, week }),
        None => session.deload || session.peak,
    };
    let mut first: Option<&Session> = None;
    let mut last: Option<&Session> = None;
    for session in scene.history.sessions().iter().filter(|session| is_training(session) && has_work(session)) {
        let rested = last.is_some_and(|last| (session.date - last.date).num_days() > WEEK_OFF);
        if is_light(session) {
            first = None;
        } else if first.is_none() || rested {
            first = Some(session);
        }
        last = Some(session);
    }
    let (first, last) = (first?, last?);
    let week = WeekKey { block: scene.id, week: scene.block.week_of(today) };
    let resting = (today - last.date).num_days() > WEEK_OFF || scene.history.week(week).light;
    let gone = (today - first.date).num_days();
    (!resting && gone > days(scene.thresholds().deload_overdue)).then(|| Caution {
        date: today,
        found: Found::DeloadOverdue { weeks: gone / 7, since: first.date },
        places: vec![scene.place(first, first.line)],
    })
}
