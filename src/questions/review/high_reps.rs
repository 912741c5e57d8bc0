//! `high-reps-missing` and `high-reps-near-meet`: high-rep work for long not done, and still done close to a meet.

use super::caution::{Found, Rule, Tells, count, whole};
use super::scene::{Scene, days, is_training};
use crate::history::Done;
use crate::questions::since::{self, Ask, Counting, Of};
use crate::training::Threshold;

pub(super) const MISSING: Rule = Rule {
    threshold: since::TOO_LONG,
    brief: |_, found| format!("{} without high reps", whole(found, "week")),
    tells: Tells::Other,
    text: "
No high-rep block, as `since` counts them, for more than two blocks of four weeks. Phases of higher reps are kept in
for size and work capacity. Not raised within four weeks before a meet or test (the threshold of
`high-reps-near-meet`), where they do not belong.

- raised: where more weeks have passed since the last one ended; where none ever was, since the first block started
- threshold: {threshold}, `cautions: { high-reps-missing: 12 }` for twelve
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find: |scene, threshold| missing(scene, threshold).into_iter().collect(),
};

pub(super) const NEAR_MEET: Rule = Rule {
    threshold: Threshold { name: "high-reps-near-meet", unit: "weeks", least: 1.0, most: 26.0, default: 4.0 },
    brief: |_, _| "high reps close to a meet".to_owned(),
    tells: Tells::Other,
    text: "
High-rep work still in, closer than four weeks to a meet: those weeks belong to heavy loads and few reps. Only weeks
of which at least half of the sets of squats, hinges and presses are high-rep count, so that a set of eight behind the
heavy work does not.

- raised: once for the block
- threshold: {threshold}, `cautions: { high-reps-near-meet: 3 }` for three
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find: |scene, threshold| near_meet(scene, threshold).into_iter().collect(),
};

/// No high-rep block, as `since` counts them, for more than so many weeks; not where a meet or test is near.
fn missing(scene: &Scene<'_, '_>, threshold: f64) -> Option<Found> {
    let history = scene.history;
    let near_meet = NEAR_MEET.threshold.in_force(&history.log.thresholds);
    let counting = Counting::of(history, &Ask { of: Of::Main, reps: None });
    let last = counting.last_high();
    let last_block = last.and_then(|at| history.log.blocks.get(at));
    let gone = counting.days_without(last)?;
    let soon = scene
        .next_test(history.today, true)
        .is_some_and(|test| (test.date - history.today).num_days() <= days(near_meet));
    if gone <= days(threshold) || soon || counting.row(scene.id.0 as usize)?.sets == 0 {
        return None;
    }
    let places = match counting.last_set() {
        Some((_, mark)) => vec![mark.place],
        None => vec![history.log.place(scene.block.page, scene.block.line)],
    };
    let weeks = count(gone / 7, "week");
    let message = match last_block {
        Some(block) => format!("no high-rep block for {weeks}; the last was block {}", block.name),
        None => format!("no high-rep block yet in {weeks} of blocks"),
    };
    Some(Found { date: history.today, about: None, figure: (gone / 7) as f64, message, places })
}

/// Weeks of which at least half of the main lifts' sets close to a meet are high-rep.
fn near_meet(scene: &Scene<'_, '_>, threshold: f64) -> Option<Found> {
    let log = scene.history.log;
    let near = days(threshold);
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
                        lines.push(scene.place(set.group.page, set.group.line));
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
    let meet = meet.meet.as_deref().unwrap_or_default();
    let message =
        format!("at least half of the main lifts' sets are still high-rep {} before {meet}", count(days, "day"));
    Some(Found { date, about: None, figure: days as f64 / 7.0, message, places })
}
