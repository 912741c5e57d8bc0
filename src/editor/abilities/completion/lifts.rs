//! Lifts: those of the day's label in the last weeks, then the journal's, then the book's.

use super::spot::Spot;
use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::history::Marked;
use crate::present::wording;
use crate::training::{LiftId, fold};
use std::collections::HashSet;

/// So many weeks back the day's label counts.
const WEEKS: i64 = 8;

pub(super) fn lifts(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let (log, history) = (scene.log(), scene.history());
    let here = scene.session_at(spot.line);
    let label = here.and_then(|session| session.day.as_deref()).map(fold);
    let mut order: Vec<LiftId> = Vec::new();
    let mut add = |lift: LiftId| {
        if !order.contains(&lift) {
            order.push(lift);
        }
    };
    for session in history.sessions().iter().rev() {
        let recent = here.is_none_or(|here| (here.date - session.date).num_days().abs() <= WEEKS * 7);
        let is_here = here.is_some_and(|here| std::ptr::eq(here, session));
        let same = label.is_some() && session.day.as_deref().map(fold) == label;
        if recent && same && !is_here {
            session.works.iter().for_each(|work| add(work.lift));
        }
    }
    (0..log.lifts.len() as u32).rev().map(LiftId).for_each(&mut add);
    let others = names(scene);
    let mut known: HashSet<String> = HashSet::new();
    let mut offers = Vec::new();
    for lift in order {
        let name = log.lift_name(lift);
        known.insert(fold(name));
        let last = history.works_of(lift).rfind(|done| done.work.has_work());
        let mark = last.and_then(|done| Marked::of(done, |set| set.is_work()).into_iter().next());
        let detail = mark.map(|mark| {
            let load = wording::work(mark.sets, mark.amount, mark.group.per_side, &mark.group.load, mark.effort);
            format!("{load}, {}", wording::date(mark.done.session.date))
        });
        let found_by = others.iter().filter(|(_, main)| fold(main) == fold(name)).map(|(other, _)| other.as_str());
        let found_by: Vec<&str> = [name].into_iter().chain(found_by).collect();
        offers.push(Offer { detail, found_by: Some(found_by.join(" ")), ..offer(spot, name) });
    }
    for (_, main) in &others {
        if known.insert(fold(main)) {
            let found_by = others.iter().filter(|(_, other)| other == main).map(|(other, _)| other.as_str());
            let found_by: Vec<&str> = [main.as_str()].into_iter().chain(found_by).collect();
            offers.push(Offer { found_by: Some(found_by.join(" ")), ..offer(spot, main) });
        }
    }
    offers
}

fn offer(spot: &Spot<'_>, name: &str) -> Offer {
    let text = if spot.colon_follows { name.to_owned() } else { format!("{name}: ") };
    Offer { label: name.to_owned(), ..spot.named(&text, OfferKind::Lift) }
}

/// Every name of the book that what is typed could be, with the one it stands for.
fn names(scene: &Scene<'_>) -> Vec<(String, String)> {
    let book = &scene.lifter.book;
    let named = |name: &str| Some((name.to_owned(), book.find(name)?.name.clone()));
    book.names().filter_map(named).collect()
}
