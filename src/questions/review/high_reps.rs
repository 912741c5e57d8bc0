//! `high-reps-missing` and `high-reps-near-meet`: high-rep work for long not done, and still done close to a meet.

use super::scene::{Scene, days, is_training};
use super::{Caution, Found};
use crate::history::Done;
use crate::questions::since::{self, Ask, Of};

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    missing(scene).into_iter().chain(near_meet(scene)).collect()
}

/// No high-rep block, as `since` counts them, for more than so many weeks; not where a meet or test is near.
fn missing(scene: &Scene<'_, '_>) -> Option<Caution> {
    let (history, thresholds) = (scene.history, scene.thresholds());
    let answer = since::answer(history, &Ask { of: Of::Main, reps: None });
    let row = |at: usize| answer.blocks.get(at);
    let here = row(scene.id.0 as usize)?;
    let last = answer.blocks.iter().rposition(|row| row.high_rep);
    let last_block = last.and_then(|at| history.log.blocks.get(at));
    // A block without an end goes on to the next one.
    let ended = match (last, last_block) {
        (Some(at), Some(block)) => block.ends.or_else(|| row(at + 1).map(|next| next.starts))?,
        _ => history.log.blocks.first()?.starts.pred_opt()?,
    };
    let gone = (history.today - ended).num_days();
    let soon = scene
        .next_test(history.today, true)
        .is_some_and(|test| (test.date - history.today).num_days() <= days(thresholds.high_reps_near_meet));
    if gone <= days(thresholds.high_reps_missing) || here.sets == 0 || soon {
        return None;
    }
    let places = match &answer.last_set {
        Some(mark) => vec![mark.place.clone()],
        None => vec![history.log.place(scene.block.page, scene.block.line)],
    };
    let last = last_block.map(|block| block.name.clone());
    Some(Caution { date: history.today, found: Found::HighRepsMissing { weeks: gone / 7, last }, places })
}

/// Weeks of which at least half of the main lifts' sets close to a meet are high-rep.
fn near_meet(scene: &Scene<'_, '_>) -> Option<Caution> {
    let log = scene.history.log;
    let near = days(scene.thresholds().high_reps_near_meet);
    let mut last = None;
    let mut places = Vec::new();
    for week in scene.weeks() {
        let (mut sets, mut high_sets) = (0, 0);
        let (mut lines, mut latest) = (Vec::new(), None);
        for session in week.sessions.iter().filter(|session| is_training(session)) {
            let Some(meet) = scene.next_test(session.date, false) else { continue };
            let to_meet = (meet.date - session.date).num_days();
            if to_meet >= near {
                continue;
            }
            for work in &session.works {
                let done = Done { session, work };
                for set in done.work_sets().filter(|set| since::is_main(scene.history, &done, set)) {
                    sets += 1;
                    if set.amount.reps().is_some_and(|reps| reps >= log.high_reps) {
                        high_sets += 1;
                        lines.push(scene.place(session, set.group.line));
                        latest = Some((session.date, to_meet, meet));
                    }
                }
            }
        }
        if high_sets > 0 && 2 * high_sets >= sets {
            lines.dedup();
            places.append(&mut lines);
            last = latest.or(last);
        }
    }
    let (date, days, meet) = last?;
    let meet = meet.meet.as_deref().unwrap_or_default().to_owned();
    Some(Caution { date, found: Found::HighRepsNearMeet { days, meet }, places })
}
