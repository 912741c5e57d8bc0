//! `same-fault`: one fault on a lift in most of its last sessions.

use super::caution::{Found, Rule, Tells};
use super::scene::Scene;
use crate::analysis::compare::pairing::Visit;
use crate::source::Place;
use crate::training::LiftId;
use crate::training::Threshold;
use chrono::NaiveDate;

/// So many sessions of the lift are looked at.
const LOOKED_AT: usize = 5;

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "same-fault", unit: "sessions", least: 2.0, most: 5.0, default: 3.0 },
    brief: |lift, _| format!("{lift} same fault again"),
    tells: Tells::Other,
    text: "
The same fault on a lift in three of its last five sessions. What comes back so often is a habit, and worth a cue or a
lighter load.

- raised: for each lift and fault, where the last time was in the block
- threshold: {threshold} of the last five, `cautions: { same-fault: 2 }` for two
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    scene.lifts().into_iter().flat_map(|lift| of_lift(scene, threshold, lift)).collect()
}

/// In which sessions a fault was seen.
struct Seen {
    fault: String,
    sessions: usize,
    date: NaiveDate,
    in_block: bool,
    places: Vec<Place>,
}

fn of_lift(scene: &Scene<'_, '_>, threshold: f64, lift: LiftId) -> Vec<Found> {
    let mut recent: Vec<Visit<'_>> = Visit::back(scene.history.works_of(lift)).take(LOOKED_AT).collect();
    recent.reverse();
    let mut seen: Vec<Seen> = Vec::new();
    for visit in &recent {
        let Some(session) = visit.lines.first().map(|done| done.session) else { continue };
        let mut here: Vec<&str> = Vec::new();
        let groups = visit.lines.iter().flat_map(|done| &done.work.groups);
        let faults = groups.flat_map(|group| {
            let faults = group.extra.iter().flat_map(|extra| &extra.faults);
            faults.map(move |fault| (&*fault.name, group))
        });
        for (fault, group) in faults {
            let at = seen.iter().position(|known| known.fault == fault).unwrap_or_else(|| {
                let fault = fault.to_owned();
                seen.push(Seen { fault, sessions: 0, date: session.date, in_block: false, places: Vec::new() });
                seen.len() - 1
            });
            let Some(known) = seen.get_mut(at) else { continue };
            known.sessions += usize::from(!here.contains(&fault));
            here.push(fault);
            known.date = session.date;
            known.in_block = session.block == Some(scene.id);
            known.places.push(scene.place(group.page, group.line));
            known.places.dedup();
        }
    }
    let often = |seen: &Seen| seen.sessions as f64 >= threshold && seen.in_block;
    let found = seen.into_iter().filter(often).map(|seen| {
        let (lift, of) = (scene.name(lift), recent.len());
        let message = format!("{lift}: !{} in {} of the last {of} sessions", seen.fault, seen.sessions);
        Found { date: seen.date, about: Some(lift), figure: seen.sessions as f64, message, places: seen.places }
    });
    found.collect()
}
