//! `no-word`: sessions were planned, their days have passed, and nothing is written of them.

use super::caution::{Found, Rule, Tells, whole};
use super::scene::{Scene, is_training};
use crate::analysis::plan::planned_lines::{has_plan, without_a_word};
use crate::training::{Session, Threshold, words};

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "no-word", unit: "sessions", least: 1.0, most: 14.0, default: 2.0 },
    brief: |_, found| format!("{} without a word", whole(found, "session")),
    tells: Tells::Other,
    text: "
Planned sessions have passed and nothing is written of them: not done, not skipped. Perhaps training stopped, perhaps
only the writing did: ask before anything is planned on top of it. Work on the same day, or under the same day label
later in the week, is a word; so is `skipped`.

- raised: where the latest planned sessions of the block before today, as many as the threshold or more, are like that
- threshold: {threshold}, `cautions: { no-word: 3 }` for three
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let sessions: Vec<&Session> = scene.sessions().filter(|session| is_training(session)).collect();
    let silent = without_a_word(scene.history, &sessions);
    let past = sessions.iter().filter(|session| session.date < scene.history.today);
    let is_silent = |session: &&&Session| silent.iter().any(|one| std::ptr::eq(*one, **session));
    // Work after them is a word too, planned or not.
    let last: Vec<&Session> =
        past.rev().filter(|session| has_plan(session) || session.has_work()).take_while(is_silent).copied().collect();
    let (Some(latest), Some(first)) = (last.first(), last.last()) else { return Vec::new() };
    if (last.len() as f64) < threshold {
        return Vec::new();
    }
    vec![Found {
        date: latest.date,
        about: None,
        figure: last.len() as f64,
        message: format!(
            "{} planned since {} have passed without a word",
            words::count(last.len() as u64, "session"),
            words::day(first.date)
        ),
        places: last.iter().rev().map(|session| scene.place(session.page, session.line)).collect(),
    }]
}
