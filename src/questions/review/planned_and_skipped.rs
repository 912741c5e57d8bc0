//! `planned-and-skipped`: a lift that stands in the plan and is not done, week after week.

use super::scene::Scene;
use super::{Caution, Found};
use crate::analysis::plan::planned_lines::{is_open, stands_in};
use crate::history::{Done, Week};
use crate::source::Place;
use crate::training::{LiftId, Session, Status, Work};
use chrono::NaiveDate;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let weeks = scene.history.weeks();
    scene.lifts().into_iter().filter_map(|lift| of_lift(scene, &weeks, lift)).collect()
}

/// The longest run that ends in the block; of equals the last.
fn of_lift(scene: &Scene<'_, '_>, weeks: &[Week<'_>], lift: LiftId) -> Option<Caution> {
    let mut longest: Option<(usize, Caution)> = None;
    let (mut run, mut places): (usize, Vec<Place>) = (0, Vec::new());
    for week in weeks {
        let skipped = skipped(scene, week, lift);
        let Some((date, lines)) = skipped else {
            (run, places) = (0, Vec::new());
            continue;
        };
        run += 1;
        places.extend(lines);
        let enough = run >= scene.thresholds().planned_and_skipped as usize && week.key.block == scene.id;
        // A lift may stand twice in a week, so that lines are no weeks.
        let longer = longest.as_ref().is_none_or(|(known, _)| *known <= run);
        if enough && longer {
            let found = Found::PlannedAndSkipped { lift: scene.name(lift), weeks: run };
            longest = Some((run, Caution { date, found, places: places.clone() }));
        }
    }
    longest.map(|(_, caution)| caution)
}

/// The last day and the lines of a week in which a lift was planned and never done; `None` where it was done, another
/// stood in for it, it was not planned, or a line of it is still open.
fn skipped(scene: &Scene<'_, '_>, week: &Week<'_>, lift: LiftId) -> Option<(NaiveDate, Vec<Place>)> {
    let works = || week.works().filter(|done| done.work.lift == lift);
    let planned = |work: &Work| work.status == Status::Skipped || work.plan().is_some();
    let last = works().filter(|done| planned(done.work)).last()?;
    let open = |session: &Session, work: &Work| work.status == Status::Nothing && session.date == scene.history.today;
    let replaced = |session: &Session, work: &Work| session.works.iter().any(|other| stands_in(other, work));
    let none_done =
        works().all(|Done { session, work }| is_open(work) && !open(session, work) && !replaced(session, work));
    let lines = || works().map(|done| scene.place(done.session, done.work.line)).collect();
    none_done.then(|| (last.session.date, lines()))
}
