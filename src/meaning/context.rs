//! What the settings say, as reading a page needs it.

use super::found::Keep;
use crate::journal::Lifter;
use crate::notation::readings::{Habits, Named, Names, Takes};
use crate::problems::nearest;
use crate::training::{Gear, Gym, LiftBook, Unit};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What holds for every page of a lifter.
pub(crate) struct Context<'a> {
    /// Of loads written without a unit.
    pub(crate) units: Unit,
    /// Bars and plates.
    pub(crate) gear: &'a Gear,
    /// Gyms that a session may name.
    pub(crate) gyms: &'a [Gym],
    /// Lifts by name.
    pub(crate) book: &'a LiftBook,
    /// Whether fixes are tried out, and places kept for the warnings that `check` makes at the end.
    pub(crate) careful: bool,
    /// The machine's date, where it is asked: what was done was not done after it.
    pub(crate) today: Option<NaiveDate>,
    /// Which problems are kept.
    pub(crate) keep: Keep,
    /// What the lifter is known to mean by a loose line.
    pub(crate) habits: &'a Habits,
    /// Lifts that the journal has and no book, by their folded names.
    pub(crate) others: &'a BTreeMap<String, String>,
}

impl<'a> Context<'a> {
    /// What a lifter's settings say.
    pub(crate) fn of(lifter: &'a Lifter, careful: bool) -> Self {
        static NONE: BTreeMap<String, String> = BTreeMap::new();
        let Lifter { units, gear, gyms, book, habits, .. } = lifter;
        Context { units: *units, gear, gyms, book, careful, keep: Keep::First, habits, others: &NONE, today: None }
    }

    /// Whether it is kept where groups stand, for warnings that `tidy` has no need of.
    pub(crate) fn keeps_places(&self) -> bool {
        self.careful && self.keep != Keep::Mends
    }
}

impl Names for Context<'_> {
    fn lift(&self, folded: &str) -> Option<Named> {
        self.book.lift(folded).or_else(|| {
            let takes = Takes { anything: true, ..Takes::default() };
            self.others.get(folded).map(|name| Named { name: name.clone(), takes })
        })
    }

    fn near(&self, typed: &str) -> Vec<String> {
        // What is not shown need not be looked for.
        if !self.careful {
            return Vec::new();
        }
        let own = nearest(typed, self.others.values().map(String::as_str));
        own.into_iter().chain(self.book.near(typed)).take(3).map(str::to_owned).collect()
    }
}
