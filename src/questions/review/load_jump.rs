//! `load-jump`: a large step in load from one week to the next, at the same reps on the same day.

use super::scene::{Scene, is_training};
use super::{Caution, Found};
use crate::history::{Marked, Week};
use crate::training::{LiftId, Mass, fold};

/// Marks of a lift that may be compared.
type Like = (Option<String>, u32);

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let weeks = scene.weeks();
    let mut cautions = Vec::new();
    for lift in scene.lifts() {
        for pair in weeks.windows(2) {
            let [before, now] = pair else { continue };
            if before.light || now.light || before.key.week.saturating_add(1) != now.key.week {
                continue;
            }
            cautions.extend(jump(scene, lift, before, now));
        }
    }
    cautions
}

/// The largest jump of a lift in a week.
fn jump(scene: &Scene<'_, '_>, lift: LiftId, before: &Week<'_>, now: &Week<'_>) -> Option<Caution> {
    let (then, now) = (heaviest(before, lift), heaviest(now, lift));
    let jumps = now.iter().filter_map(|(like, mark, load)| {
        let (_, from, less) = then.iter().find(|(other, _, _)| other == like)?;
        let (step, part) = (*load - *less, less.percent(i64::from(scene.thresholds().load_jump) * 1000));
        // The smallest step there is, from the load before to the next one of its kind, cannot be made smaller.
        let gear = &scene.history.log.gear;
        let is_alike = from.group.load.pieces() == mark.group.load.pieces();
        let least = if is_alike { gear.step_of(&scene.name(lift), &from.group.load) } else { gear.step };
        (step > part && step > least && *less > Mass::ZERO)
            .then(|| (step.in_kilograms() / less.in_kilograms() * 100.0, from, mark))
    });
    let (percent, from, to) = jumps.max_by(|one, other| one.0.total_cmp(&other.0))?;
    let session = to.done.session;
    Some(Caution {
        date: session.date,
        found: Found::LoadJump {
            lift: scene.name(lift),
            week: session.week?,
            reps: to.amount.reps()?,
            from: from.group.load.clone(),
            to: to.group.load.clone(),
            percent,
        },
        places: vec![scene.place(from.done.session, from.group.line), scene.place(session, to.group.line)],
    })
}

/// Of each day label and rep count the heaviest mark of a week.
fn heaviest<'a>(week: &Week<'a>, lift: LiftId) -> Vec<(Like, Marked<'a>, Mass)> {
    let mut found: Vec<(Like, Marked<'a>, Mass)> = Vec::new();
    let works = week.works().filter(|done| done.work.lift == lift && is_training(done.session));
    for mark in works.flat_map(|done| Marked::of(done, |set| set.is_work())) {
        let (Some(reps), Some(load)) = (mark.amount.reps(), mark.kilograms()) else { continue };
        let like = (mark.done.session.day.as_deref().map(fold), reps);
        match found.iter_mut().find(|(other, _, _)| *other == like) {
            Some(known) if load > known.2 => *known = (like, mark, load),
            Some(_) => {}
            None => found.push((like, mark, load)),
        }
    }
    found
}
