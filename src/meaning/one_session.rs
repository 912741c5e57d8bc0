//! One session, wherever it is written: on a coach's page and in the lifter's log, on a synced copy of a page, in two
//! places of one page.

use crate::source::PageId;
use crate::training::{Group, Session, Work, fold};
use chrono::NaiveDate;
use std::collections::HashMap;

/// A session that was written before, elsewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Again {
    /// The page it stands in.
    pub(crate) page: PageId,
    /// The line of its heading.
    pub(crate) line: u32,
    /// Where it was written first.
    pub(crate) first: (PageId, u32),
    /// Its work lines that stand there too, set for set; each counts once.
    pub(crate) equal: u32,
}

/// What a session of a date is known by: its time, its label, its meet.
type SameSession = (Option<u16>, Option<String>, Option<String>);

/// Joins the sessions of one date, label and time, and puts plans and the work on them together. Tells the sessions of
/// which work lines were written twice, with their dates. Sessions come in order of date.
pub(crate) fn unite(sessions: Vec<Session>) -> (Vec<Session>, Vec<(NaiveDate, Again)>) {
    let mut again = Vec::new();
    let mut united: Vec<Session> = Vec::with_capacity(sessions.len());
    let mut of_day: HashMap<SameSession, usize> = HashMap::new();
    for session in sessions {
        if united.last().is_none_or(|last| last.date != session.date) {
            of_day.clear();
        }
        // A meet is no training, and two meets of a day are two.
        let key = (session.minute, session.day.as_deref().map(fold), session.meet.as_deref().map(fold));
        match of_day.get(&key).and_then(|at| united.get_mut(*at)) {
            Some(first) => {
                let (date, page, line, place) = (session.date, session.page, session.line, (first.page, first.line));
                let equal = absorb(first, session);
                if equal > 0 {
                    again.push((date, Again { page, line, first: place, equal }));
                }
            }
            None => {
                of_day.insert(key, united.len());
                united.push(session);
            }
        }
    }
    united.iter_mut().for_each(Session::put_plans_to_work);
    (united, again)
}

/// Takes a second writing of a session into the first; how many of its work lines the first has already.
fn absorb(first: &mut Session, second: Session) -> u32 {
    let mut open: HashMap<Key, Vec<usize>> = HashMap::new();
    for (at, work) in first.works.iter().enumerate().rev() {
        open.entry(Key::of(work)).or_default().push(at);
    }
    let mut equal = 0;
    for work in second.works {
        let twin = open.get_mut(&Key::of(&work)).and_then(|places| {
            let at = places.iter().rposition(|at| first.works.get(*at).is_some_and(|twin| are_equal(twin, &work)))?;
            Some(places.remove(at))
        });
        match twin.and_then(|at| first.works.get_mut(at)) {
            Some(twin) => {
                equal += u32::from(work.has_work());
                twin.fill_in(work);
            }
            None => first.works.push(work),
        }
    }
    first.deload |= second.deload;
    first.peak |= second.peak;
    first.test_day |= second.test_day;
    first.meet = first.meet.take().or(second.meet);
    first.gym = first.gym.or(second.gym);
    for note in second.notes {
        if !first.notes.iter().any(|known| known.text == note.text) {
            first.notes.push(note);
        }
    }
    first.sleep = first.sleep.or(second.sleep);
    first.duration = first.duration.or(second.duration);
    first.rpe = first.rpe.or(second.rpe);
    for pain in second.pains {
        if !first.pains.iter().any(|known| (&known.site, known.tenths) == (&pain.site, pain.tenths)) {
            first.pains.push(pain);
        }
    }
    equal
}

/// What equal lines have in common, quickly looked up.
#[derive(PartialEq, Eq, Hash)]
struct Key(u32, usize);

impl Key {
    fn of(work: &Work) -> Self {
        Key(work.lift.0, work.groups.iter().map(Group::count).sum())
    }
}

/// Whether two work lines say the same: set for set, and of plans the same or only one of them.
fn are_equal(one: &Work, other: &Work) -> bool {
    let sets = |work: &Work| -> Vec<Group> {
        let bare = |group: &Group| Group { page: PageId::default(), line: 0, ..group.clone() };
        work.groups.iter().map(bare).collect()
    };
    let plans = |work: &'_ Work| work.details.as_ref().and_then(|details| details.plan.clone()).map(|plan| plan.groups);
    let plans_agree = match (plans(one), plans(other)) {
        (Some(one), Some(other)) => one == other,
        _ => one.has_work(),
    };
    one.status == other.status && plans_agree && sets(one) == sets(other)
}
