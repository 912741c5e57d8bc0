//! `deload-overdue`: many weeks of training without a deload, a peak, or a week off.

use super::caution::{Found, Rule, Tells, count, whole};
use super::scene::{Scene, days, is_training};
use crate::history::WeekKey;
use crate::training::{Session, Threshold, words};

/// Who has not trained for more days than this has had a week off, which rests as a deload does.
const WEEK_OFF: i64 = 7;

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "deload-overdue", unit: "weeks", least: 1.0, most: 104.0, default: 8.0 },
    brief: |_, found| format!("{} without a deload", whole(found, "week")),
    tells: Tells::Other,
    text: "
More than eight weeks of training without a deload week, a peak week, or a week off. Competitors who deload do so
every 5.6 ± 2.3 weeks; eight is about one standard deviation over that mean. It is what lifters do, not proof that a
deload is needed.

- raised: where more weeks have passed since the last such week, or since the first session
- threshold: {threshold}, `cautions: { deload-overdue: 10 }` for ten
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: Rogerson et al. 2024, Sports Med Open 10:26, doi 10.1186/s40798-024-00691-y, 246 competitors
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    of_scene(scene, threshold).into_iter().collect()
}

fn of_scene(scene: &Scene<'_, '_>, threshold: f64) -> Option<Found> {
    let today = scene.history.today;
    // Sessions of one week follow each other.
    let mut known: Option<(WeekKey, bool)> = None;
    let mut is_light = |session: &Session| match WeekKey::of(session) {
        Some(key) => match known.filter(|(week, _)| *week == key) {
            Some((_, light)) => light,
            None => known.insert((key, scene.history.week(key).light)).1,
        },
        None => session.deload || session.peak,
    };
    // From the last one back to a rest.
    let mut trained =
        scene.history.sessions().iter().rev().filter(|session| is_training(session) && session.has_work());
    let last = trained.next().filter(|last| !is_light(last))?;
    let mut first = last;
    for session in trained {
        if (first.date - session.date).num_days() > WEEK_OFF || is_light(session) {
            break;
        }
        first = session;
    }
    let week = WeekKey { block: scene.id, week: scene.block.week_of(today) };
    let resting = (today - last.date).num_days() > WEEK_OFF || scene.history.week(week).light;
    let gone = (today - first.date).num_days();
    (!resting && gone > days(threshold)).then(|| Found {
        date: today,
        about: None,
        figure: (gone / 7) as f64,
        message: format!(
            "{} of training without a deload, a peak or a week off, since {}",
            count(gone / 7, "week"),
            words::day(first.date)
        ),
        places: vec![scene.place(first.page, first.line)],
    })
}
