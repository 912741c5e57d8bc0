//! One journal: its settings, its page logs kept, the pages that are open.

use super::laid::Laid;
use super::scene::Scene;
use crate::history::Index;
use crate::journal::{Disk, Files, Journal};
use crate::meaning::{KeptJournal, Reading};
use crate::problems::Problem;
use crate::source::{Page, PageId};
use crate::training::show_in;
use chrono::NaiveDate;
use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What the server takes from the machine it runs on.
#[derive(Clone)]
pub struct Machine {
    /// How a journal is opened.
    pub opened: fn(&dyn Files) -> Journal,
    /// What day it is.
    pub today: Arc<dyn Fn() -> NaiveDate + Send + Sync>,
}

/// A journal whose pages are open in the editor.
pub(crate) struct Held {
    /// Its folder.
    pub(crate) root: PathBuf,
    disk: Disk,
    /// Open files, by their paths below the root.
    open: BTreeMap<String, Vec<u8>>,
    machine: Machine,
    journal: KeptJournal,
    /// By lifter, what was read, where nothing after it changed.
    read: BTreeMap<usize, Read>,
}

/// What was read of a lifter.
struct Read {
    /// The day.
    on: NaiveDate,
    reading: Arc<Reading>,
    /// Of that reading's log.
    index: Arc<Index>,
}

impl Held {
    /// A journal of which nothing is read yet.
    pub(crate) fn new(root: &Path, machine: Machine) -> Self {
        let (disk, journal) = (Disk::new(root), KeptJournal::new(machine.opened));
        Held { root: root.into(), disk, open: BTreeMap::new(), machine, journal, read: BTreeMap::new() }
    }

    /// The files, open ones as they stand in the editor.
    pub(crate) fn files(&self) -> Laid<'_> {
        Laid { disk: &self.disk, open: &self.open }
    }

    /// A file as it stands in the editor from now on; where nothing is given, as it lies on disk.
    pub(crate) fn put(&mut self, path: &str, bytes: Option<Vec<u8>>) {
        let is_there = bytes.is_some();
        match bytes {
            Some(bytes) => drop(self.open.insert(path.to_owned(), bytes)),
            None => drop(self.open.remove(path)),
        }
        self.touched(path, is_there);
    }

    /// A file was saved, made or removed by somebody else.
    pub(crate) fn saved(&mut self, path: &str) {
        if !self.open.contains_key(path) {
            self.touched(path, false);
        }
    }

    /// What a file says is to be read anew; where it may be gone, or is no page that is known, the journal's list of pages
    /// too.
    fn touched(&mut self, path: &str, is_there: bool) {
        match self.journal.touched(path, is_there) {
            Some(owner) => drop(self.read.remove(&owner)),
            None => self.read.clear(),
        }
    }

    /// Reads everything anew when somebody asks.
    pub(crate) fn forget(&mut self) {
        self.journal.forget();
        self.read.clear();
    }

    fn opened(&mut self) -> Arc<Journal> {
        self.journal.open(&Laid { disk: &self.disk, open: &self.open })
    }

    /// Reads all that a file rests on and that is not kept.
    pub(crate) fn read_for(&mut self, path: &str) {
        let journal = self.opened();
        let owner = journal.pages.iter().find(|(page, _)| page == path).and_then(|(_, lifter)| *lifter);
        let today = (self.machine.today)();
        // What is asked next is told in the units of this lifter.
        owner.and_then(|at| journal.lifters.get(at)).into_iter().for_each(|lifter| show_in(lifter.units));
        let Some(at) = owner.filter(|at| self.read.get(at).is_none_or(|read| read.on != today)) else { return };
        // What is held from before would have to be copied.
        self.read.remove(&at);
        let files = Laid { disk: &self.disk, open: &self.open };
        if let Some(reading) = self.journal.read(&files, at, Some(today)) {
            self.read.insert(at, Read { on: today, reading, index: Arc::default() });
        }
    }

    /// What is wrong with a settings file, or with a page as a file. It must have been read for.
    pub(crate) fn of_file(&self, path: &str) -> impl Iterator<Item = &Problem> {
        let all = self.journal.journal().into_iter().flat_map(|journal| &journal.problems);
        all.filter(move |(of, _)| of == path).map(|(_, problem)| problem)
    }

    /// A page with all that is known beside it; nothing where it is no lifter's. It must have been read for.
    pub(crate) fn scene(&self, path: &str) -> Option<Scene<'_>> {
        let journal = self.journal.journal()?;
        let at = journal.pages.iter().find(|(page, _)| page == path)?.1?;
        let Read { on, reading, index } = self.read.get(&at)?;
        let id = PageId(reading.log.pages.iter().position(|page| **page == *path)? as u32);
        let page = Page::new(path, self.files().read(path).ok()?).ok()?;
        let (files, lifter) = (self.files(), journal.lifters.get(at)?);
        Some(Scene { files, journal, lifter, reading, index, page, id, today: *on, of_page: OnceCell::new() })
    }

    /// Each lifter with the first page of theirs, for what is asked of a whole journal.
    pub(crate) fn first_pages(&mut self) -> Vec<String> {
        let journal = self.opened();
        journal.by_lifter().into_iter().filter_map(|(_, pages)| pages.into_iter().next()).collect()
    }
}
