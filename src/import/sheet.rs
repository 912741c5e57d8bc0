//! Entries gathered into sessions, lifts and groups of equal sets.

use super::entry::{Entry, Sets};
use super::fault::Fault;
use crate::training::fold;
use chrono::NaiveDate;

/// More equal sets than this are written as two groups: a longer count is taken for a slip.
const MOST_SETS: u32 = 10;

/// A lift's work line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// The lift, as written.
    pub lift: String,
    /// Its groups, in order.
    pub groups: Vec<Sets>,
    /// Its notes, each once.
    pub notes: Vec<String>,
    /// The rows it is made of.
    pub rows: Vec<u64>,
}

/// A session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Session {
    /// Its date.
    pub date: NaiveDate,
    /// When it began, in minutes after midnight.
    pub minute: Option<u16>,
    /// The day's label, without the word "day".
    pub day: Option<String>,
    /// The lifter's own weight, and the row that says it.
    pub bodyweight: Option<(String, u64)>,
    /// Its work, in the order of the rows.
    pub works: Vec<Work>,
}

impl Session {
    /// How many sets it has.
    pub fn sets(&self) -> u32 {
        self.works.iter().flat_map(|work| &work.groups).map(|group| group.count).sum()
    }
}

/// Gathers entries into sessions in order of time; those of one date, time and label are one. A second bodyweight in a
/// session is a fault of its row, whose sets are then left out.
pub fn gather(entries: &[Entry]) -> (Vec<Session>, Vec<Fault>) {
    let mut order: Vec<&Entry> = entries.iter().collect();
    order.sort_by_key(|entry| (entry.date, entry.minute));
    let mut sessions: Vec<Session> = Vec::new();
    let mut faults = Vec::new();
    for entry in order {
        let same_label = |day: &Option<String>| day.as_deref().map(fold) == entry.day.as_deref().map(fold);
        let same = |session: &Session| {
            session.date == entry.date && session.minute == entry.minute && same_label(&session.day)
        };
        let before = sessions.iter().rposition(|session| (session.date, session.minute) != (entry.date, entry.minute));
        let from = before.map_or(0, |at| at + 1);
        let at = match sessions.iter().skip(from).position(same) {
            Some(at) => from + at,
            None => {
                let (date, minute, day) = (entry.date, entry.minute, entry.day.clone());
                sessions.push(Session { date, minute, day, bodyweight: None, works: Vec::new() });
                sessions.len() - 1
            }
        };
        let Some(session) = sessions.get_mut(at) else { continue };
        match (&entry.bodyweight, &session.bodyweight) {
            (Some(own), Some((known, row))) if own != known => {
                let wanted = format!("one bodyweight a session; row {row} says {known}");
                faults.push(Fault { row: entry.row, column: None, read: own.clone(), wanted });
                continue;
            }
            (Some(own), None) => session.bodyweight = Some((own.clone(), entry.row)),
            _ => {}
        }
        add(session, entry);
    }
    sessions.retain(|session| !session.works.is_empty());
    (sessions, faults)
}

fn add(session: &mut Session, entry: &Entry) {
    // On one line, a group without a load takes the one before it, and a load may not come after sets with none.
    let goes_on = |work: &Work| {
        fold(&work.lift) == fold(&entry.lift)
            && work.groups.last().is_none_or(|last| last.load.is_some() == entry.sets.load.is_some())
    };
    if !session.works.last().is_some_and(goes_on) {
        let (lift, groups, notes, rows) = (entry.lift.clone(), Vec::new(), Vec::new(), Vec::new());
        session.works.push(Work { lift, groups, notes, rows });
    }
    let Some(work) = session.works.last_mut() else { return };
    work.rows.push(entry.row);
    if let Some(note) = &entry.note
        && !work.notes.contains(note)
    {
        work.notes.push(note.clone());
    }
    for nth in 1..=entry.sets.count {
        let missed = if nth == entry.sets.count { entry.sets.missed } else { 0 };
        let set = Sets { count: 1, missed, ..entry.sets.clone() };
        match work.groups.last_mut() {
            // A miss without an effort of its own makes that set the hardest there is, and no other.
            Some(last)
                if last.count < MOST_SETS && missed == 0 && *last == (Sets { count: last.count, ..set.clone() }) =>
            {
                last.count += 1;
            }
            _ => work.groups.push(set),
        }
    }
}
