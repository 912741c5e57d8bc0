//! `heavy-deadlift-near-meet`: a heavy deadlift in the last days before a meet.

use super::scene::Scene;
use super::{Caution, Found};
use crate::analysis::strength::evidence::Ratings;
use crate::history::Marked;
use crate::science::{Equation, taper};
use crate::training::CompetitionLift;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let near = i64::from(scene.thresholds().heavy_deadlift_near_meet);
    let mut ratings = Ratings::new(scene.history, Equation::default());
    let mut cautions = Vec::new();
    for lift in scene.history.trained_as(CompetitionLift::Deadlift) {
        let mut evidence = None;
        for done in scene.works().filter(|done| done.work.lift == lift) {
            let session = done.session;
            // The day of a meet is no training for it; what is lifted there is for the next one.
            let later = session.date.succ_opt().unwrap_or(session.date);
            let Some(meet) = scene.next_test(later, false).filter(|_| session.meet.is_none()) else { continue };
            let days = (meet.date - session.date).num_days();
            if days >= near {
                continue;
            }
            let evidence = evidence.get_or_insert_with(|| ratings.evidence(lift));
            let Some(strength) = evidence.strength_on(session.date) else { continue };
            let marks = Marked::of(done, |set| set.is_work());
            let loads = marks.into_iter().filter_map(|mark| Some((mark.amount.reps().and(mark.kilograms())?, mark)));
            let Some((load, mark)) = loads.max_by_key(|(load, _)| *load) else { continue };
            let percent = load.in_kilograms() / strength.maximum().middle * 100.0;
            if percent > taper::HEAVY_PERCENT {
                let (lift, meet) = (scene.name(lift), meet.meet.as_deref().unwrap_or_default().to_owned());
                let found = Found::HeavyDeadliftNearMeet { lift, percent, days, meet };
                cautions.push(Caution {
                    date: session.date,
                    found,
                    places: vec![scene.place(session, mark.group.line)],
                });
            }
        }
    }
    cautions
}
