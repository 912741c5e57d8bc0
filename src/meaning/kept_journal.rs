//! A journal of which all is kept that nobody changed, for whoever answers again after each change.

use super::join::Reading;
use super::kept::Kept;
use crate::journal::{Files, Journal, is_settings};
use crate::training::show_in;
use chrono::NaiveDate;
use std::sync::Arc;

/// A journal with the pages of its lifters, read when somebody asks.
#[derive(Debug)]
pub struct KeptJournal {
    opened: fn(&dyn Files) -> Journal,
    journal: Option<Arc<Journal>>,
    /// By lifter, in the journal's order.
    pages: Vec<Kept>,
}

impl KeptJournal {
    /// A journal of which nothing is read yet, and how it is opened.
    pub fn new(opened: fn(&dyn Files) -> Journal) -> Self {
        KeptJournal { opened, journal: None, pages: Vec::new() }
    }

    /// Its settings and the list of its pages.
    pub fn open(&mut self, files: &dyn Files) -> Arc<Journal> {
        let journal = self.journal.get_or_insert_with(|| Arc::new((self.opened)(files)));
        // A lifter who came or went has a `lifter.yaml`, after which nothing is kept.
        if self.pages.len() != journal.lifters.len() {
            self.pages.clear();
            self.pages.resize_with(journal.lifters.len(), Kept::default);
        }
        Arc::clone(journal)
    }

    /// The same, where nothing touched it since it was opened.
    pub fn journal(&self) -> Option<&Arc<Journal>> {
        self.journal.as_ref()
    }

    /// What the pages of a lifter say, by the lifter's place in the journal that was opened; nothing where nobody stands
    /// there.
    pub fn read(&mut self, files: &dyn Files, at: usize, check_on: Option<NaiveDate>) -> Option<Arc<Reading>> {
        let journal = self.journal.as_ref()?;
        let lifter = journal.lifters.get(at)?;
        show_in(lifter.units);
        Some(self.pages.get_mut(at)?.read(files, lifter, journal.pages_of(lifter), check_on))
    }

    /// A file is another one now. Where it is no page that is known, or is gone, so is the list of pages. Gives the
    /// lifter whose page it is; nothing where that is anybody.
    pub fn touched(&mut self, path: &str, is_there: bool) -> Option<usize> {
        if is_settings(path) {
            self.forget();
            return None;
        }
        let pages = self.journal.as_ref().map(|journal| journal.pages.as_slice()).unwrap_or_default();
        let known = pages.binary_search_by(|(page, _)| page.as_str().cmp(path)).ok().and_then(|at| pages.get(at));
        let owner = known.and_then(|(_, owner)| *owner);
        if known.is_none() || !is_there {
            self.journal = None;
        }
        for (_, pages) in self.pages.iter_mut().enumerate().filter(|(at, _)| owner.is_none_or(|owner| owner == *at)) {
            pages.forget(path);
        }
        owner
    }

    /// Reads everything anew when somebody asks.
    pub fn forget(&mut self) {
        self.journal = None;
        self.pages.clear();
    }
}
