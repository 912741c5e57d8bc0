//! One journal: its settings, its page logs kept, the pages that are open.

use super::laid::Laid;
use super::scene::Scene;
use crate::journal::{Disk, Files, Journal, is_settings};
use crate::meaning::{Kept, Reading};
use crate::problems::Problem;
use crate::source::{Page, PageId};
use crate::training::show_in;
use chrono::NaiveDate;
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
    /// Nothing until somebody asks, and after its settings changed.
    journal: Option<Journal>,
    /// By lifter, in the journal's order.
    kept: Vec<KeptLifter>,
}

/// A lifter's pages.
#[derive(Default)]
struct KeptLifter {
    pages: Kept,
    /// All of them joined, as they stood on that day; nothing after one of them changed.
    joined: Option<(NaiveDate, Reading)>,
}

impl Held {
    /// A journal of which nothing is read yet.
    pub(crate) fn new(root: &Path, machine: Machine) -> Self {
        let disk = Disk::new(root);
        Held { root: root.into(), disk, open: BTreeMap::new(), machine, journal: None, kept: Vec::new() }
    }

    /// The files, open ones as they stand in the editor.
    pub(crate) fn files(&self) -> Laid<'_> {
        Laid { disk: &self.disk, open: &self.open }
    }

    /// A file as it stands in the editor from now on; where nothing is given, as it lies on disk.
    pub(crate) fn put(&mut self, path: &str, bytes: Option<Vec<u8>>) {
        let known = self.journal.as_ref().is_some_and(|journal| journal.pages.iter().any(|(page, _)| page == path));
        match bytes {
            Some(bytes) => drop(self.open.insert(path.to_owned(), bytes)),
            None => drop(self.open.remove(path)),
        }
        self.touched(path, known);
    }

    /// A file was saved, made or removed by somebody else.
    pub(crate) fn saved(&mut self, path: &str) {
        if !self.open.contains_key(path) {
            self.touched(path, false);
        }
    }

    /// What a file says is to be read anew; where it is no page that is known, the journal's list of pages too.
    fn touched(&mut self, path: &str, known: bool) {
        if is_settings(path) {
            return self.forget();
        }
        if !known {
            self.journal = None;
        }
        let owner = self.journal.as_ref().and_then(|journal| journal.pages.iter().find(|(page, _)| page == path));
        let owner = owner.and_then(|(_, lifter)| *lifter);
        for (at, kept) in self.kept.iter_mut().enumerate() {
            if owner.is_none_or(|owner| owner == at) {
                kept.pages.forget(path);
                kept.joined = None;
            }
        }
    }

    /// Reads everything anew when somebody asks.
    pub(crate) fn forget(&mut self) {
        self.journal = None;
        self.kept.clear();
    }

    fn opened(&mut self) -> &Journal {
        let Held { disk, open, machine, journal, kept, .. } = self;
        journal.get_or_insert_with(|| {
            let journal = (machine.opened)(&Laid { disk, open });
            // A lifter who came or went has a `lifter.yaml`, after which nothing is kept.
            if kept.len() != journal.lifters.len() {
                kept.clear();
                kept.resize_with(journal.lifters.len(), KeptLifter::default);
            }
            journal
        })
    }

    /// Reads all that a file rests on and that is not kept.
    pub(crate) fn read_for(&mut self, path: &str) {
        let owner = self.opened().pages.iter().find(|(page, _)| page == path).and_then(|(_, lifter)| *lifter);
        if let Some(at) = owner {
            let _ = self.read(at);
        }
    }

    /// What is wrong with a settings file, or with a page as a file. It must have been read for.
    pub(crate) fn of_file(&self, path: &str) -> impl Iterator<Item = &Problem> {
        let all = self.journal.iter().flat_map(|journal| &journal.problems);
        all.filter(move |(of, _)| of == path).map(|(_, problem)| problem)
    }

    /// A page with all that is known beside it; nothing where it is no lifter's. It must have been read for.
    pub(crate) fn scene(&self, path: &str) -> Option<Scene<'_>> {
        let journal = self.journal.as_ref()?;
        let at = journal.pages.iter().find(|(page, _)| page == path)?.1?;
        let (today, reading) = self.kept.get(at)?.joined.as_ref()?;
        let id = PageId(reading.log.pages.iter().position(|page| **page == *path)? as u32);
        let page = Page::new(path, self.files().read(path).ok()?).ok()?;
        Some(Scene { files: self.files(), journal, lifter: journal.lifters.get(at)?, reading, page, id, today: *today })
    }

    /// Each lifter with the first page of theirs, for what is asked of a whole journal.
    pub(crate) fn first_pages(&mut self) -> Vec<String> {
        let all = self.opened().by_lifter();
        all.into_iter().filter_map(|(_, pages)| pages.into_iter().next()).collect()
    }

    /// Reads what is not kept of a lifter's pages.
    fn read(&mut self, at: usize) -> Option<()> {
        let today = (self.machine.today)();
        let Held { disk, open, journal, kept, .. } = self;
        let journal = journal.as_ref()?;
        let lifter = journal.lifters.get(at)?;
        show_in(lifter.units);
        let KeptLifter { pages, joined } = kept.get_mut(at)?;
        if joined.as_ref().is_none_or(|(on, _)| *on != today) {
            let files = Laid { disk, open };
            *joined = Some((today, pages.read(&files, lifter, journal.pages_of(lifter), Some(today))));
        }
        Some(())
    }
}
