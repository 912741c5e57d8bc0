//! Pairing a lift's sessions of two weeks: by day label, then the rest in order.

use crate::history::{Done, History, Week, WeekKey};
use crate::training::{BlockId, LiftId, fold};

/// A lift's work in one session: its work lines, in the order written.
#[derive(Clone, Debug)]
pub(crate) struct Visit<'a> {
    pub(crate) lines: Vec<Done<'a>>,
}

impl<'a> Visit<'a> {
    /// The work lines of one lift, gathered by session.
    pub(crate) fn of(works: impl Iterator<Item = Done<'a>>) -> Vec<Visit<'a>> {
        let mut visits: Vec<Visit<'a>> = Vec::new();
        for done in works.filter(|done| done.work.has_work()) {
            match visits
                .last_mut()
                .filter(|visit| visit.lines.first().is_some_and(|first| std::ptr::eq(first.session, done.session)))
            {
                Some(visit) => visit.lines.push(done),
                None => visits.push(Visit { lines: vec![done] }),
            }
        }
        visits
    }

    /// The same of work lines of one lift in order of time, the last first, gathered only as far as they are looked at.
    pub(crate) fn back(works: impl DoubleEndedIterator<Item = Done<'a>>) -> impl Iterator<Item = Visit<'a>> {
        let mut works = works.rev().filter(|done| done.work.has_work()).peekable();
        std::iter::from_fn(move || {
            let last = works.next()?;
            let mut lines = vec![last];
            while let Some(done) = works.next_if(|done| std::ptr::eq(done.session, last.session)) {
                lines.push(done);
            }
            lines.reverse();
            Some(Visit { lines })
        })
    }

    /// The day's label, folded.
    pub(crate) fn label(&self) -> Option<String> {
        self.lines.first().and_then(|done| done.session.day.as_deref()).map(fold)
    }
}

/// The nearest block before one whose week of that number has work on a lift: that week, and the work.
pub(crate) fn nearest_before<'a>(
    history: &History<'a>,
    block: BlockId,
    week: u32,
    lift: LiftId,
) -> Option<(Week<'a>, Vec<Visit<'a>>)> {
    let week = history.week(history.last_done_before(WeekKey { block, week }, lift)?);
    let visits = Visit::of(week.works().filter(|done| done.work.lift == lift));
    Some((week, visits))
}

/// Pairs visits; what has no partner stands alone. Pairs and the lone ones of now come in the order of
/// now, then the lone ones of then.
pub(crate) fn pair<'a>(now: Vec<Visit<'a>>, then: Vec<Visit<'a>>) -> Vec<(Option<Visit<'a>>, Option<Visit<'a>>)> {
    let mut partners: Vec<Option<Visit<'a>>> = then.into_iter().map(Some).collect();
    let mut pairs: Vec<(Option<Visit<'a>>, Option<Visit<'a>>)> = Vec::new();
    for visit in now {
        let label = visit.label();
        let partner = partners
            .iter_mut()
            .find(|other| label.is_some() && other.as_ref().is_some_and(|other| other.label() == label));
        let partner = partner.and_then(Option::take);
        pairs.push((Some(visit), partner));
    }
    for (_, partner) in pairs.iter_mut().filter(|(_, partner)| partner.is_none()) {
        if let Some(other) = partners.iter_mut().find(|other| other.is_some()) {
            *partner = other.take();
        }
    }
    pairs.extend(partners.into_iter().flatten().map(|other| (None, Some(other))));
    pairs
}
