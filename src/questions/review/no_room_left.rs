//! `no-room-left`: a first week so hard that the smallest equal steps take the last one over the cap.

use super::caution::{Found, Rule, Tells};
use super::scene::{Scene, is_training};
use crate::analysis::strength::evidence::Ratings;
use crate::history::{ByLift, WeekKey};
use crate::questions::room::{self, Rpe};
use crate::questions::since;
use crate::training::{LiftId, POINTS, Threshold, words};

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "no-room-left", unit: POINTS, least: 6.0, most: 10.0, default: 9.5 },
    brief: |lift, _| format!("no room left on {lift}"),
    tells: Tells::Other,
    text: "
Week 1 was so hard that the gym's smallest step every third week, or once, takes the last loading week over RPE 9.5, as
`room` reckons with strength as it is. Starting light on purpose leaves room. Where that step is more than 2.5 % of the load
the plates are too big, and not the start too heavy. Looked at for squats, hinges and presses.

- raised: for each lift, from its last set of week 1 with an effort
- threshold: {threshold}, `cautions: { no-room-left: 9 }` for nine
- on sensible training: less than 0.01 times in two weeks of a strong lifter, 0 of a small one (simulated)
- source: common practice, no source
",
    find,
};

/// A step of more than this share of the load is the plates' fault; this project's own choice.
const PLATES_TOO_BIG: f64 = 0.025;

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    if scene.history.week(WeekKey { block: scene.id, week: 1 }).light {
        return Vec::new();
    }
    // The main lifts: a small lift has few steps, and no room for them in any week.
    let lines = ByLift::of(scene.works());
    let main = |lift: &&LiftId| {
        let mut works = lines.lines(**lift).iter();
        works.any(|done| done.work_sets().any(|set| since::is_main(scene.history, done, &set)))
    };
    // The block is no older than what teaches the curve, so no earlier day is needed.
    let mut ratings = scene.ratings.borrow_mut();
    lines.lifts().iter().filter(main).filter_map(|lift| of_lift(scene, threshold, &mut ratings, *lift)).collect()
}

fn of_lift(scene: &Scene<'_, '_>, threshold: f64, ratings: &mut Ratings<'_, '_>, lift: LiftId) -> Option<Found> {
    let evidence = ratings.evidence(lift);
    let first_week = evidence.days.iter().rev().find(|rated| {
        let session = rated.mark.done.session;
        session.block == Some(scene.id) && session.week == Some(1) && is_training(session)
    });
    let ahead = room::at_least_steps(scene.history, &evidence, *first_week?)?;
    let (figure, about) = match ahead.effort {
        Rpe::Light => return None,
        Rpe::Of(effort) => (effort.value(), format!("about {effort}")),
        Rpe::Missed => (10.0, ahead.effort.to_string()),
    };
    if scene.history.log.gear.step.in_kilograms() > PLATES_TOO_BIG * ahead.from.set.load {
        return None;
    }
    let session = ahead.from.mark.done.session;
    let lift = scene.name(lift);
    (figure > threshold || ahead.effort == Rpe::Missed).then(|| Found {
        date: session.date,
        figure,
        message: format!(
            "{lift}: week 1 leaves no room; the least steps take week {} to {} at {about}",
            ahead.week,
            words::mass(ahead.load, evidence.unit()),
        ),
        about: Some(lift),
        places: vec![scene.place(ahead.from.mark.group.page, ahead.from.mark.group.line)],
    })
}
