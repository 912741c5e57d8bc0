//! `heaviest`: of each date the heaviest clean set of a lift, which is what a plot of its history shows.

pub use super::axis::{Lifted, LightKind, LightWeek, MeetDay, Span};
use super::axis::{meet_days, spans};
use crate::history::{Done, History, Marked};
use crate::training::{LiftId, Load, Mass, Unit, is_within, shown_in};
use chrono::NaiveDate;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// No date before this.
    pub since: Option<NaiveDate>,
    /// No date after this.
    pub until: Option<NaiveDate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// The unit that the lifter writes this lift's loads in.
    pub unit: Unit,
    /// Whether the loads are what is added to the lifter's own weight.
    pub added: bool,
    /// The dates that have such a set, in order of time.
    pub days: Vec<Day>,
    /// The blocks that reach into the dates, in order of time.
    pub blocks: Vec<Span>,
    /// The test days and meets between the first date and the last, in order of time.
    pub meets: Vec<MeetDay>,
}

/// The heaviest set of a date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Day {
    /// The date.
    pub date: NaiveDate,
    /// Its load; what is added, where the lift's loads contain the lifter's own weight.
    pub load: Mass,
    /// Its reps: of several sets of that load, the most.
    pub reps: u32,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let asked = |done: &Done<'_>| is_within(done.session.date, ask.since, ask.until);
    let works = history.works_of(ask.lift).filter(asked);
    let marks = works.flat_map(|done| Marked::of(done, |set| set.is_clean_work()));
    let marks: Vec<Marked<'_>> = marks.filter(|mark| mark.amount.reps().is_some()).collect();
    let loads = || marks.iter().rev().map(|mark| &mark.group.load);
    // Added loads and whole ones are not of one scale; the last that there is says which of them the lift is done with.
    let added =
        loads().find(|load| load.added().or(load.kilograms(None)).is_some()).is_some_and(|load| load.added().is_some());
    let unit = loads().find_map(|load| match load {
        Load::Plain { unit, .. } => Some(*unit),
        _ => None,
    });
    let mut days: Vec<Day> = Vec::new();
    for mark in &marks {
        let load = if added { mark.group.load.added() } else { mark.group.load.kilograms(None) };
        let (Some(load), Some(reps)) = (load, mark.amount.reps()) else { continue };
        let day = Day { date: mark.done.session.date, load, reps };
        match days.last_mut().filter(|last| last.date == day.date) {
            Some(last) if (day.load, day.reps) > (last.load, last.reps) => *last = day,
            Some(_) => {}
            None => days.push(day),
        }
    }
    let range = days.first().zip(days.last()).map(|(first, last)| (first.date, last.date));
    let own = loads().find_map(|load| load.added()).filter(|_| added);
    Answer {
        lift: history.log.lift_name(ask.lift).to_owned(),
        unit: unit.or(own.map(Mass::unit)).unwrap_or(shown_in()),
        added,
        days,
        blocks: range.map_or_else(Vec::new, |(first, last)| spans(history, first, last)),
        meets: range.map_or_else(Vec::new, |(first, last)| meet_days(history, ask.lift, first, last)),
    }
}
