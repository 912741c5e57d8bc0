//! `load-jump`: a large step in load from one week to the next, at the same reps on the same day.

use super::caution::{Found, Rule, Tells, count};
use super::scene::{Scene, is_training};
use crate::history::{ByLift, Done, Marked, Week};
use crate::training::{LiftId, Mass, Threshold, fold, words};

/// Marks of a lift that may be compared.
type Like = (Option<String>, u32);

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "load-jump", unit: "percent", least: 1.0, most: 100.0, default: 10.0 },
    brief: |lift, found| format!("{lift} load +{found:.1} %"),
    tells: Tells::Other,
    text: "
More than a tenth more load than the week before, for the same reps on the same day of the week's plan. The range
given for a step is 2 to 10 %; the position stand that gave it was superseded in 2026. Below 25 kg a step of 2.5 kg is
always more, so the smallest step there is never counts: of a bar twice the smallest plate, of dumbbells (`2x16 kg`, or by
the lift's name) 2.5 kg or 5 lb each, of kettlebells 4 kg each. Other steps, and those of machines whose loads are
written in kilograms, are told under `gear: steps:` in the settings. Unknown ones are taken for a bar's.

- raised: for each lift and week inside the block, deload and peak weeks left out
- threshold: {threshold}, `cautions: { load-jump: 15 }` for fifteen
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: ACSM 2009, Med Sci Sports Exerc 41(3):687–708
",
    find,
};

fn find<'a>(scene: &Scene<'_, 'a>, threshold: f64) -> Vec<Found> {
    let training = |week: &Week<'a>| ByLift::of(week.works().filter(|done| is_training(done.session)));
    let weeks: Vec<_> = scene.weeks().into_iter().map(|week| (training(&week), week)).collect();
    let mut cautions = Vec::new();
    for lift in scene.lifts() {
        for pair in weeks.windows(2) {
            let [(lines_before, before), (lines_now, now)] = pair else { continue };
            if before.light || now.light || before.key.week.saturating_add(1) != now.key.week {
                continue;
            }
            cautions.extend(jump(scene, threshold, lift, lines_before.lines(lift), lines_now.lines(lift)));
        }
    }
    cautions
}

/// The largest jump of a lift in a week.
fn jump(scene: &Scene<'_, '_>, threshold: f64, lift: LiftId, before: &[Done<'_>], now: &[Done<'_>]) -> Option<Found> {
    let (then, now) = (heaviest(before), heaviest(now));
    let jumps = now.iter().filter_map(|(like, mark, load)| {
        let (_, from, less) = then.iter().find(|(other, _, _)| other == like)?;
        let (step, part) = (*load - *less, less.percent((threshold * 1000.0) as i64));
        // The smallest step there is, from the load before to the next one of its kind, cannot be made smaller.
        let gear = &scene.history.log.gear;
        let is_alike = from.group.load.pieces() == mark.group.load.pieces();
        let least = if is_alike { gear.step_of(&scene.name(lift), &from.group.load) } else { gear.step };
        (step > part && step > least && *less > Mass::ZERO)
            .then(|| (step.in_kilograms() / less.in_kilograms() * 100.0, from, mark))
    });
    let (percent, from, to) = jumps.max_by(|one, other| one.0.total_cmp(&other.0))?;
    let session = to.done.session;
    let lift = scene.name(lift);
    Some(Found {
        date: session.date,
        figure: percent,
        message: format!(
            "{lift}: {} to {} for {} in week {}, {percent:.1} % more than the week before",
            words::load(&from.group.load, None),
            words::load(&to.group.load, None),
            count(i64::from(to.amount.reps()?), "rep"),
            session.week?,
        ),
        about: Some(lift),
        places: vec![scene.place(from.group.page, from.group.line), scene.place(to.group.page, to.group.line)],
    })
}

/// Of each day label and rep count the heaviest mark of a lift's lines of a week.
fn heaviest<'a>(lines: &[Done<'a>]) -> Vec<(Like, Marked<'a>, Mass)> {
    let mut found: Vec<(Like, Marked<'a>, Mass)> = Vec::new();
    for mark in lines.iter().flat_map(|done| Marked::of(*done, |set| set.is_work())) {
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
