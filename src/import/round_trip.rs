//! Whether a page says what the rows say: each session and each line of it, read again.

use super::entry::WrittenEffort;
use super::fault::Fault;
use super::sheet::{Session, Work};
use crate::notation;
use crate::source::PageId;
use crate::training::{self, Amount, Effort, LiftBook, Load, Log, Mass, fold};

/// Where the sessions of a page stand in it.
#[derive(Clone, Copy, Debug)]
pub struct Places<'a> {
    /// The lines of their headings, from 1.
    pub headings: &'a [u32],
    /// The lines of each one's work.
    pub works: &'a [Vec<u32>],
}

/// What is wrong on a page: the line, and why.
pub type Wrong = (u32, String);

/// The rows that a page does not say, or that have an error there.
pub fn unsaid(
    sessions: &[Session],
    places: Places<'_>,
    (log, page): (&Log, PageId),
    book: &LiftBook,
    errors: &[Wrong],
) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (session, (heading, works)) in sessions.iter().zip(places.headings.iter().zip(places.works)) {
        let found = log.sessions.iter().find(|known| known.page == page && known.line == *heading);
        let first = works.first().copied().unwrap_or(u32::MAX);
        let of_heading = errors.iter().find(|(line, _)| (*heading..first).contains(line));
        let Some(read) = found.filter(|read| of_heading.is_none() && same_heading(session, read)) else {
            let day = session.day.as_deref().unwrap_or("");
            let why = wanted(of_heading, "a day's label that the notation reads as one");
            for row in session.works.iter().flat_map(|work| &work.rows) {
                faults.push(Fault {
                    row: *row,
                    column: None,
                    read: format!("{} {day}", session.date),
                    wanted: why.clone(),
                });
            }
            continue;
        };
        let ends = works.iter().skip(1).copied().chain([u32::MAX]);
        for ((work, line), end) in session.works.iter().zip(works).zip(ends) {
            let done = read.works.iter().find(|known| known.line == *line);
            let next = places.headings.iter().find(|other| *other > line).copied().unwrap_or(u32::MAX);
            let of_line = errors.iter().find(|(at, _)| (*line..end.min(next)).contains(at));
            if of_line.is_none() && done.is_some_and(|done| same_work(work, done, log, book)) {
                continue;
            }
            let why = wanted(of_line, "a lift and sets that the notation reads as such");
            for row in &work.rows {
                faults.push(Fault { row: *row, column: None, read: work.lift.clone(), wanted: why.clone() });
            }
        }
    }
    faults
}

/// What is wanted where a line is wrong: the notation's own words where it has any.
fn wanted(error: Option<&Wrong>, otherwise: &str) -> String {
    error.map_or_else(|| otherwise.to_owned(), |(_, why)| format!("what the notation reads; {why}"))
}

fn same_heading(session: &Session, read: &training::Session) -> bool {
    let folded = |day: Option<&str>| day.map(fold);
    session.date == read.date
        && session.minute == read.minute
        && folded(session.day.as_deref()) == folded(read.day.as_deref())
}

/// The set that a line says: amount, of each side, effort, faults, misses.
type Said<'a> = (Amount, bool, Option<Effort>, Vec<&'a str>, u32);

fn same_work(work: &Work, read: &training::Work, log: &Log, book: &LiftBook) -> bool {
    let name = book.find(&work.lift).map_or(work.lift.as_str(), |entry| &entry.name);
    let mut wanted: Vec<Said<'_>> = Vec::new();
    for sets in &work.groups {
        for nth in 1..=sets.count {
            let missed = if nth == sets.count { sets.missed } else { 0 };
            let effort = sets.effort.map(effort).or(Some(Effort::MAXIMAL).filter(|_| missed > 0));
            let faults = sets.faults.iter().map(String::as_str).collect();
            wanted.push((sets.amount, sets.per_side, effort, faults, missed));
        }
    }
    let mut said: Vec<Said<'_>> = Vec::new();
    for group in &read.groups {
        for set in group.sets() {
            let is_last = set.at + 1 == group.count();
            let missed = group.extra.as_ref().filter(|_| is_last).map_or(0, |extra| extra.missed);
            let number = u32::try_from(set.at + 1).unwrap_or(u32::MAX);
            let faults = group.extra.iter().flat_map(|extra| &extra.faults);
            let faults = faults.filter(|fault| fault.sets.is_empty() || fault.sets.contains(&number));
            said.push((set.amount, group.per_side, set.effort, faults.map(|fault| &*fault.name).collect(), missed));
        }
    }
    let remarks = read.details.iter().flat_map(|details| &details.remarks);
    let notes: Vec<&str> = remarks.map(|remark| &*remark.text).collect();
    fold(name) == fold(log.lift_name(read.lift))
        && wanted == said
        && same_loads(work, read)
        && work.notes.iter().all(|note| notes.contains(&note.as_str()))
}

/// Whether each set has its load: no other mass, and none where none is written but the lift's usual one.
fn same_loads(work: &Work, read: &training::Work) -> bool {
    let wanted = work.groups.iter().flat_map(|sets| (0..sets.count).map(|_| sets.load.as_deref()));
    let said = read.groups.iter().flat_map(|group| group.sets().map(|_| &group.load));
    wanted.zip(said).all(|(wanted, said)| match wanted.map(notation::mass) {
        None => *said == Load::None || said.added() == Some(Mass::ZERO),
        Some(Some((thousandths, Some(unit)))) => said.kilograms(None) == Some(Mass::of(thousandths, unit)),
        // Sums, pins and the like were read by themselves before, and nothing of them stands alone.
        Some(_) => *said != Load::None,
    })
}

fn effort(effort: WrittenEffort) -> Effort {
    match effort.in_reserve {
        true => Effort::rir(effort.low, effort.high),
        false => Effort::rpe(effort.low, effort.high),
    }
}
