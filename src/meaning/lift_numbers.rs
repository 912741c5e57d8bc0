//! Lifts of all pages by the numbers that the whole log gives them.

use super::page_log::{PageLift, PageLog};
use crate::journal::Lifter;
use crate::training::{Family, Lift, LiftId, fold};
use chrono::NaiveDate;
use std::collections::HashMap;
use std::sync::Arc;

/// Where a page first has work on one of its lifts.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct FirstWork {
    date: NaiveDate,
    minute: Option<u16>,
    pub(super) page: usize,
    line: u32,
    nth: usize,
    lift: usize,
}

/// Of a page, where it first has work on each of its lifts.
pub(super) fn first_works(at: usize, page: &PageLog) -> Vec<FirstWork> {
    let mut first: Vec<Option<FirstWork>> = vec![None; page.lifts.len()];
    for session in &page.sessions {
        for (nth, work) in session.works.iter().enumerate() {
            let (date, minute, line, lift) = (session.date, session.minute, session.line, work.lift as usize);
            if let Some(known) = first.get_mut(lift) {
                let work = FirstWork { date, minute, page: at, line, nth, lift };
                if known.as_ref().is_none_or(|known| work < *known) {
                    *known = Some(work);
                }
            }
        }
    }
    first.into_iter().flatten().collect()
}

/// The lifts of a log, and which of them each page means by its own numbers.
#[derive(Debug, Default)]
pub(super) struct Numbers {
    pub(super) lifts: Vec<Lift>,
    pub(super) of_pages: Vec<Vec<LiftId>>,
}

impl Numbers {
    /// They are in order of a lift's first work in time, and so is every answer that follows them, however the pages are
    /// cut; last come those without work. A lift that no book has is spelled as in the earliest session of the journal,
    /// whatever page that stands in. The first works come in their own order.
    pub(super) fn of(lifter: &Lifter, pages: &[Arc<PageLog>], works: &[FirstWork]) -> Numbers {
        let mut names = Names { lifter, lifts: Vec::new(), first: Vec::new(), by_name: HashMap::new() };
        let mut ids: Vec<Vec<Option<LiftId>>> = pages.iter().map(|page| vec![None; page.lifts.len()]).collect();
        for work in works {
            let lift = pages.get(work.page).and_then(|page| page.lifts.get(work.lift));
            let id = ids.get_mut(work.page).and_then(|ids| ids.get_mut(work.lift));
            if let Some((lift, id)) = lift.zip(id) {
                *id = Some(names.number(lift));
            }
        }
        let all = |(page, ids): (&Arc<PageLog>, Vec<Option<LiftId>>)| {
            page.lifts.iter().zip(ids).map(|(lift, id)| id.unwrap_or_else(|| names.number(lift))).collect()
        };
        let of_pages = pages.iter().zip(ids).map(all).collect();
        Numbers { lifts: names.lifts, of_pages }
    }

    /// By which numbers lifts that had others before are known now, where pages are still the same ones: nothing where
    /// one of them is spelled in another way.
    pub(super) fn moved(&self, before: &Numbers, is_same: impl Fn(usize) -> bool) -> Option<Moved> {
        let mut moved = Moved { to: vec![None; before.lifts.len()], any: false };
        let pages = before.of_pages.iter().zip(&self.of_pages).enumerate().filter(|(at, _)| is_same(*at));
        for (was, is) in pages.flat_map(|(_, (before, now))| before.iter().zip(now)) {
            if let Some(to @ None) = moved.to.get_mut(was.0 as usize) {
                *to = Some(*is);
                moved.any |= was != is;
                if before.lifts.get(was.0 as usize) != self.lifts.get(is.0 as usize) {
                    return None;
                }
            }
        }
        Some(moved)
    }
}

/// The numbers of lifts now, by those that they had.
pub(super) struct Moved {
    to: Vec<Option<LiftId>>,
    /// Whether any is another one.
    pub(super) any: bool,
}

impl Moved {
    /// The number now; of a lift that no page has any more the old one.
    pub(super) fn to(&self, was: LiftId) -> LiftId {
        self.to.get(was.0 as usize).copied().flatten().unwrap_or(was)
    }
}

/// Lifts of all pages by name.
struct Names<'a> {
    lifter: &'a Lifter,
    lifts: Vec<Lift>,
    /// Of each lift, the earliest session that any page has.
    first: Vec<Option<(NaiveDate, Option<u16>)>>,
    by_name: HashMap<String, LiftId>,
}

impl Names<'_> {
    fn number(&mut self, written: &PageLift) -> LiftId {
        let (folded, name) = (written.folded.as_str(), written.name.as_str());
        if let Some(known) = self.by_name.get(folded) {
            let at = known.0 as usize;
            if let (Some(lift), Some(first)) = (self.lifts.get_mut(at), self.first.get_mut(at))
                && written.first.is_some()
                && first.is_none_or(|first| written.first < Some(first))
            {
                if !lift.known {
                    name.clone_into(&mut lift.name);
                }
                *first = written.first;
            }
            return *known;
        }
        let entry = self.lifter.book.find_folded(folded);
        let shown = entry.map_or(name, |entry| &entry.name);
        // Two names of one lift of the book are one lift.
        let key = fold(shown);
        let id = match self.by_name.get(&key) {
            Some(known) => *known,
            None => {
                let id = LiftId(self.lifts.len() as u32);
                self.lifts.push(Lift {
                    name: shown.to_owned(),
                    family: entry.map_or(Family::Other, |entry| entry.family),
                    bodyweight: entry.is_some_and(|entry| entry.bodyweight),
                    one_side: entry.is_some_and(|entry| entry.one_side),
                    known: entry.is_some(),
                });
                self.first.push(written.first);
                self.by_name.insert(key, id);
                id
            }
        };
        self.by_name.insert(folded.to_owned(), id);
        id
    }
}
