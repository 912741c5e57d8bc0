//! Lifts: those of the day's label in the last weeks, then the journal's, then the book's.

use super::spot::Spot;
use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::history::Marked;
use crate::present::wording;
use crate::training::{LiftId, fold};
use std::collections::{HashMap, HashSet};

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
        let same = || label.is_some() && session.day.as_deref().map(fold) == label;
        if recent && !is_here && same() {
            session.works.iter().for_each(|work| add(work.lift));
        }
    }
    (0..log.lifts.len() as u32).rev().map(LiftId).for_each(&mut add);
    let book = &scene.lifter.book;
    let mut found_by: HashMap<String, Vec<&str>> = HashMap::new();
    let mut mains: Vec<&str> = Vec::new();
    for (name, main) in book.names().filter_map(|name| Some((name, book.find(name)?.name.as_str()))) {
        found_by.entry(fold(main)).or_default().push(name);
        mains.push(main);
    }
    let found_by = |name: &str, folded: &str| {
        let others = found_by.get(folded).into_iter().flatten().copied();
        std::iter::once(name).chain(others).collect::<Vec<_>>().join(" ")
    };
    let mut known: HashSet<String> = HashSet::new();
    let mut offers = Vec::new();
    for lift in order {
        let name = log.lift_name(lift);
        let folded = fold(name);
        let last = history.works_of(lift).rfind(|done| done.work.has_work());
        let mark = last.and_then(|done| Marked::of(done, |set| set.is_work()).into_iter().next());
        let detail = mark.map(|mark| {
            let load = wording::work(mark.sets, mark.amount, mark.group.per_side, &mark.group.load, mark.effort);
            format!("{load}, {}", wording::date(mark.done.session.date))
        });
        offers.push(Offer { detail, found_by: Some(found_by(name, &folded)), ..offer(spot, name) });
        known.insert(folded);
    }
    for main in mains {
        let folded = fold(main);
        if !known.contains(&folded) {
            offers.push(Offer { found_by: Some(found_by(main, &folded)), ..offer(spot, main) });
            known.insert(folded);
        }
    }
    offers
}

fn offer(spot: &Spot<'_>, name: &str) -> Offer {
    let text = if spot.colon_follows { name.to_owned() } else { format!("{name}: ") };
    Offer { label: name.to_owned(), ..spot.named(&text, OfferKind::Lift) }
}
