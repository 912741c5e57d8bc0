//! `heavy-deadlift-near-meet`: a heavy deadlift in the last days before a meet.

use super::caution::{Found, Rule, Tells, count};
use super::scene::Scene;
use crate::analysis::strength::evidence::Ratings;
use crate::history::Marked;
use crate::science::{Equation, taper};
use crate::training::{CompetitionLift, Threshold};

/// Fewer days before a meet than this, a heavy deadlift is near it.
pub(crate) const NEAR_MEET: Threshold =
    Threshold { name: "heavy-deadlift-near-meet", unit: "days", least: 1.0, most: 28.0, default: 7.0 };

pub(super) const RULE: Rule = Rule {
    threshold: NEAR_MEET,
    brief: |lift, _| format!("heavy {lift} close to a meet"),
    tells: Tells::Other,
    text: "
A deadlift of more than 85 % of the maximum estimated for its day, less than a week before a meet. Powerlifters report
their last heavy deadlift 7 to 10 days before. It is what they do, not proof that later is worse.

- raised: for each session with one
- threshold: {threshold}, `cautions: { heavy-deadlift-near-meet: 5 }` for five
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: Travis et al. 2021, J Strength Cond Res 35(12S):S26–S35, 364 powerlifters
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
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
            if days as f64 >= threshold {
                continue;
            }
            let evidence = evidence.get_or_insert_with(|| ratings.evidence(lift));
            let Some(strength) = evidence.strength_on(session.date) else { continue };
            let marks = Marked::of(done, |set| set.is_work());
            let loads = marks.into_iter().filter_map(|mark| Some((mark.amount.reps().and(mark.kilograms())?, mark)));
            let Some((load, mark)) = loads.max_by_key(|(load, _)| *load) else { continue };
            let percent = load.in_kilograms() / strength.maximum().middle * 100.0;
            if percent > taper::HEAVY_PERCENT {
                let (lift, meet) = (scene.name(lift), meet.meet.as_deref().unwrap_or_default());
                cautions.push(Found {
                    date: session.date,
                    figure: days as f64,
                    message: format!(
                        "{lift}: {percent:.0} % of its estimated maximum {} before {meet}; the last heavy one is usually 7 \
                         to 10 days before",
                        count(days, "day")
                    ),
                    about: Some(lift),
                    places: vec![scene.place(mark.group.page, mark.group.line)],
                });
            }
        }
    }
    cautions
}
