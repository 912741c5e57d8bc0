//! `planned-and-skipped`: a lift that stands in the plan and is not done, week after week.

use super::caution::{Found, Rule, Tells, whole};
use super::scene::Scene;
use crate::analysis::plan::planned_lines::{is_open, stands_in};
use crate::history::{ByLift, Done, Week, WeekKey};
use crate::source::Place;
use crate::training::Threshold;
use crate::training::{LiftId, Session, Status, Work};
use chrono::NaiveDate;

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "planned-and-skipped", unit: "weeks", least: 2.0, most: 12.0, default: 3.0 },
    brief: |lift, found| format!("{lift} skipped {} running", whole(found, "week")),
    tells: Tells::Other,
    text: "
A lift that was planned and skipped three weeks running. Perhaps it does not fit the week, or something hurts: the
plan may have to change. A week in which another lift stood in for it does not count.

- raised: for each lift, where the weeks end in the block
- threshold: {threshold}, `cautions: { planned-and-skipped: 2 }` for two
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find,
};

fn find<'a>(scene: &Scene<'_, 'a>, threshold: f64) -> Vec<Found> {
    // Attempts of a meet are changed on the day.
    let training = |week: &Week<'a>| ByLift::of(week.works().filter(|done| done.session.meet.is_none()));
    let lifts = scene.lifts();
    // From the block's last week back to one after which no run goes on.
    let (mut weeks, mut running) = (Vec::new(), lifts.clone());
    for week in scene.history.weeks_up_to(scene.id).rev() {
        let training = training(&week);
        if week.key.block != scene.id {
            running.retain(|lift| skipped(scene, training.lines(*lift)).is_some());
        }
        weeks.push((week.key, training));
        if running.is_empty() {
            break;
        }
    }
    weeks.reverse();
    lifts.into_iter().filter_map(|lift| of_lift(scene, threshold, &weeks, lift)).collect()
}

/// The longest run that ends in the block; of equals the last.
fn of_lift(scene: &Scene<'_, '_>, threshold: f64, weeks: &[(WeekKey, ByLift<'_>)], lift: LiftId) -> Option<Found> {
    let mut longest: Option<(usize, NaiveDate, Vec<Place>)> = None;
    let (mut run, mut places): (usize, Vec<Place>) = (0, Vec::new());
    for (week, training) in weeks {
        let skipped = skipped(scene, training.lines(lift));
        let Some((date, lines)) = skipped else {
            (run, places) = (0, Vec::new());
            continue;
        };
        run += 1;
        places.extend(lines);
        let enough = run as f64 >= threshold && week.block == scene.id;
        // A lift may stand twice in a week, so that lines are no weeks.
        let longer = longest.as_ref().is_none_or(|(known, ..)| *known <= run);
        if enough && longer {
            longest = Some((run, date, places.clone()));
        }
    }
    let (weeks, date, places) = longest?;
    let lift = scene.name(lift);
    let message = format!("{lift}: planned and skipped {weeks} weeks running; perhaps the plan should change");
    Some(Found { date, about: Some(lift), figure: weeks as f64, message, places })
}

/// Of a lift's lines of a week the last planned day and the places, where it was planned and never done; `None` where it was
/// done, another stood in for it, it was not planned, or a line of it is still open.
fn skipped(scene: &Scene<'_, '_>, lines: &[Done<'_>]) -> Option<(NaiveDate, Vec<Place>)> {
    let planned = |work: &Work| work.status == Status::Skipped || work.plan().is_some();
    let last = lines.iter().rfind(|done| planned(done.work))?;
    let open = |session: &Session, work: &Work| work.status == Status::Nothing && session.date == scene.history.today;
    let replaced = |session: &Session, work: &Work| session.works.iter().any(|other| stands_in(other, work));
    let none_done =
        lines.iter().all(|Done { session, work }| is_open(work) && !open(session, work) && !replaced(session, work));
    let places = || lines.iter().map(|done| scene.place(done.work.page, done.work.line)).collect();
    none_done.then(|| (last.session.date, places()))
}
