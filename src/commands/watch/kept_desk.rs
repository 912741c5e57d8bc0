//! What `--watch` keeps from one answer to the next: a journal of which only what was saved is read anew.

use crate::journal::{Disk, Files, Journal, LIFTER_FILE, Lifter, SETTINGS_FILE};
use crate::meaning::{KeptJournal, Reading};
use chrono::NaiveDate;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

/// Of more lifters than this nothing is kept: a team's readings would fill the memory.
const MOST_LIFTERS: usize = 8;

/// A journal that is kept while a program watches it. Its clones are one.
#[derive(Clone, Debug)]
pub(crate) struct KeptDesk(Arc<Mutex<Inside>>);

#[derive(Debug)]
struct Inside {
    journal: KeptJournal,
    /// How long each file was and when it was written, before it was read: a link may lead to one that is not watched.
    stamps: HashMap<String, (u64, SystemTime)>,
    /// Whether something could not be read, which is to be said with each answer.
    has_unread: bool,
}

impl KeptDesk {
    /// Nothing is kept yet.
    pub(crate) fn new(opened: fn(&dyn Files) -> Journal) -> KeptDesk {
        let journal = KeptJournal::new(opened);
        KeptDesk(Arc::new(Mutex::new(Inside { journal, stamps: HashMap::new(), has_unread: false })))
    }

    fn inside(&self) -> MutexGuard<'_, Inside> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A file below the root was saved, made or removed; nothing where it may have been any.
    pub(crate) fn touched(&self, path: Option<&str>) {
        let journal = &mut self.inside().journal;
        match path.filter(|path| path.rsplit('/').next().is_some_and(|name| name.contains('.'))) {
            // Whether it is there is seen when all are looked at.
            Some(path) => drop(journal.touched(path, true)),
            // A folder that came may hold pages of any name.
            None => journal.forget(),
        }
    }

    /// The journal's settings and the list of its pages.
    pub(crate) fn open(&self, files: &Disk) -> Arc<Journal> {
        let Inside { journal, stamps, has_unread } = &mut *self.inside();
        if std::mem::take(has_unread) {
            journal.forget();
        }
        let opened = journal.open(files);
        let settings = opened.lifters.iter().map(|lifter| match lifter.folder.as_str() {
            "" => LIFTER_FILE.to_owned(),
            folder => format!("{folder}/{LIFTER_FILE}"),
        });
        let settings = settings.chain([SETTINGS_FILE.to_owned()]);
        for path in settings.chain(opened.pages.iter().map(|(path, _)| path.clone())) {
            let found = std::fs::metadata(files.place(&path)).ok();
            let now = found.and_then(|found| Some((found.len(), found.modified().ok()?)));
            let before = match now {
                Some(now) => stamps.insert(path.clone(), now),
                None => stamps.remove(&path),
            };
            if before != now {
                journal.touched(&path, now.is_some());
            }
        }
        let opened = journal.open(files);
        *has_unread |= !files.unread().is_empty();
        opened
    }

    /// Whether what the lifters' pages say is kept.
    pub(crate) fn keeps(&self, journal: &Journal) -> bool {
        journal.lifters.len() <= MOST_LIFTERS
    }

    /// What the pages of a lifter say; nothing where that is not kept.
    pub(crate) fn read(&self, files: &Disk, lifter: &Lifter, check_on: Option<NaiveDate>) -> Option<Arc<Reading>> {
        let Inside { journal, has_unread, .. } = &mut *self.inside();
        let opened = journal.journal().filter(|journal| self.keeps(journal))?;
        let at = opened.lifters.iter().position(|other| other.folder == lifter.folder)?;
        let reading = journal.read(files, at, check_on);
        *has_unread |= !files.unread().is_empty();
        reading
    }
}
