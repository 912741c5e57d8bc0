//! Weeks in which nothing was done: one is planned again, after more than one the loads step back. Common practice, no
//! source.

use super::Note;
use super::weeks::training_of;
use super::{WeekKind, days_after};
use crate::history::{History, WeekKey};
use crate::training::{Block, BlockId};

/// What a week is made from.
pub(super) struct Base {
    /// The week.
    pub(super) week: u32,
    /// How the loads go from there.
    pub(super) then: Then,
    /// What is to be said of it.
    pub(super) note: Option<Note>,
}

/// How the loads go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Then {
    /// By the step that there is room for.
    Step,
    /// As they were planned.
    Again,
    /// As they were done.
    Back,
}

/// What a week is made from where the last one that was done is `done`.
pub(super) fn base(history: &History<'_>, (id, block): (BlockId, &Block), done: u32, week: u32) -> Base {
    let planned = |week| training_of(history, WeekKey { block: id, week });
    // The days of a week on which training stands, or would stand as in the week that was done.
    let is_over = |missed: u32| match planned(missed).map(|session| session.date).max() {
        Some(last) => last < history.today,
        None => planned(done).map(|session| session.date).max().is_some_and(|last| {
            days_after(last, u64::from(missed.saturating_sub(done)) * 7).is_ok_and(|last| last < history.today)
        }),
    };
    let missed: Vec<u32> = (done + 1..week)
        .filter(|week| WeekKind::of(history, block, *week) == WeekKind::Loading && is_over(*week))
        .collect();
    let (week, then, note) = match missed.as_slice() {
        [] => (done, Then::Step, None),
        _ if WeekKind::of(history, block, week) != WeekKind::Loading => (done, Then::Step, None),
        [one] if planned(*one).next().is_some() => (*one, Then::Again, Some(Note::Again(*one))),
        [one] => (done, Then::Step, Some(Note::OneStep { missed: *one, from: done })),
        _ => (done, Then::Back, Some(Note::SteppedBack { missed, to: done })),
    };
    Base { week, then, note }
}
