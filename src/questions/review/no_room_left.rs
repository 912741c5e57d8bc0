//! `no-room-left`: a first week so hard that the smallest equal steps take the last one over the cap.

use super::scene::{Scene, is_training};
use super::{Caution, Found};
use crate::analysis::strength::evidence::Ratings;
use crate::history::WeekKey;
use crate::questions::room::{self, Rpe};
use crate::questions::since;
use crate::training::LiftId;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    if scene.history.week(WeekKey { block: scene.id, week: 1 }).light {
        return Vec::new();
    }
    // The main lifts: a small lift has few steps, and no room for them in any week.
    let main = |lift: &LiftId| {
        let mut works = scene.works().filter(|done| done.work.lift == *lift);
        works.any(|done| done.work_sets().any(|set| since::is_main(scene.history, &done, &set)))
    };
    // The block is no older than what teaches the curve, so no earlier day is needed.
    let mut ratings = scene.ratings.borrow_mut();
    scene.lifts().into_iter().filter(main).filter_map(|lift| of_lift(scene, &mut ratings, lift)).collect()
}

fn of_lift(scene: &Scene<'_, '_>, ratings: &mut Ratings<'_, '_>, lift: LiftId) -> Option<Caution> {
    let cap = scene.thresholds().no_room_left;
    let evidence = ratings.evidence(lift);
    let first_week = evidence.days.iter().rev().find(|rated| {
        let session = rated.mark.done.session;
        session.block == Some(scene.id) && session.week == Some(1) && is_training(session)
    });
    let ahead = room::at_smallest_steps(scene.history, &evidence, *first_week?)?;
    let over = match ahead.effort {
        Rpe::Light => false,
        Rpe::Of(effort) => effort > cap,
        Rpe::Missed => true,
    };
    let session = ahead.from.mark.done.session;
    over.then(|| Caution {
        date: session.date,
        found: Found::NoRoomLeft {
            lift: scene.name(lift),
            week: ahead.week,
            load: ahead.load,
            effort: ahead.effort,
            unit: evidence.unit(),
        },
        places: vec![scene.place(session, ahead.from.mark.group.line)],
    })
}
