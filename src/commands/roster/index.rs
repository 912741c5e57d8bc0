//! The lines of a roster that were worked out before, and still hold: those of lifters of whom no page and no setting
//! changed, for the same day, asked the same way, by the same program.
//!
//! The pages stay the truth. A line is taken from here only where nothing speaks against it; in any doubt the lifter's pages
//! are read.

use super::kept_line::KeptLine;
use super::shelf::Shelf;
use crate::commands::desk::{Desk, today};
use crate::commands::options::Options;
use crate::journal::{Digest, Journal, Lifter, Stamp};
use crate::questions::roster::Line;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, HashSet};
use std::env;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, SystemTime};

/// The lines that are known, and those that were worked out now.
pub(super) struct Index<'d> {
    desk: &'d Desk,
    shelf: Shelf,
    /// What every line depends on: the program, the journal's place, the day, what is asked.
    asked: Digest,
    /// When it was opened, before anything was read.
    opened: SystemTime,
    known: BTreeMap<String, Row>,
    new: Mutex<BTreeMap<String, Row>>,
}

/// What is written: when, since 1970, and a line a lifter, by folder.
#[derive(Serialize, Deserialize)]
struct Written {
    at: Duration,
    rows: BTreeMap<String, Row>,
}

#[derive(Serialize, Deserialize)]
struct Row {
    /// What all of it depends on.
    key: [u64; 2],
    /// Whether it is of the block that was asked for.
    of_block: bool,
    line: KeptLine,
}

impl<'d> Index<'d> {
    /// The index of a journal; nothing where none is wanted, or not enough is known of the program or the journal to keep one.
    pub(super) fn open(options: &Options, desk: &'d Desk, block: Option<&str>) -> Option<Self> {
        let opened = SystemTime::now();
        let shelf = Shelf::outside(&desk.root)?;
        let mut asked = Digest::default();
        asked.add(&(env!("CARGO_PKG_VERSION"), Stamp::of(&env::current_exe().ok()?)?));
        asked.add(&(desk.root.canonicalize().ok()?, today(options), &options.gym, block));
        let written = shelf.read(asked.sum()).and_then(|text| serde_json::from_str::<Written>(&text).ok());
        let known = written.filter(|written| has_passed(written.at, opened)).map(|written| written.rows);
        Some(Index { desk, shelf, asked, opened, known: known.unwrap_or_default(), new: Mutex::default() })
    }

    /// The line of a lifter with such pages, and whether it is of the block that is asked for: as it is known, else anew.
    pub(super) fn line(&self, lifter: &Lifter, pages: &[String], anew: impl FnOnce() -> (bool, Line)) -> (bool, Line) {
        // The stamps are those of before the reading: what is saved meanwhile leaves another one.
        let Some(key) = self.key(lifter, pages) else { return anew() };
        let known = self.known.get(&lifter.folder).filter(|row| row.key == key);
        if let Some(known) = known.and_then(|row| Some((row.of_block, row.line.line()?))) {
            return known;
        }
        let (of_block, line) = anew();
        if !pages.iter().any(|page| self.desk.files.was_refused(page)) {
            let row = Row { key, of_block, line: KeptLine::from(&line) };
            self.new.lock().unwrap_or_else(PoisonError::into_inner).insert(lifter.folder.clone(), row);
        }
        (of_block, line)
    }

    /// What a lifter's line depends on; nothing where a page cannot be read, or was saved so lately that the next save may
    /// not show.
    fn key(&self, lifter: &Lifter, pages: &[String]) -> Option<[u64; 2]> {
        let mut key = self.asked.clone();
        key.add(&lifter.sums);
        for page in pages {
            let stamp = Stamp::of(&self.desk.files.place(page)).filter(|stamp| stamp.has_settled(self.opened))?;
            key.add(&(page, stamp));
        }
        Some(key.sum())
    }

    /// Writes what was worked out now beside what was known of other lifters who are still there.
    pub(super) fn keep(self, journal: &Journal) {
        let new = self.new.into_inner().unwrap_or_else(PoisonError::into_inner);
        let Ok(at) = self.opened.duration_since(SystemTime::UNIX_EPOCH) else { return };
        if new.is_empty() {
            return;
        }
        let there: HashSet<&str> = journal.lifters.iter().map(|lifter| lifter.folder.as_str()).collect();
        let mut rows = self.known;
        rows.retain(|folder, _| there.contains(folder.as_str()));
        rows.extend(new);
        if let Ok(text) = serde_json::to_string(&Written { at, rows }) {
            self.shelf.write(self.asked.sum(), &text);
        }
    }
}

/// Whether a moment lies behind us. Where it does not, the clock was set back, and stamps may come a second time.
fn has_passed(at: Duration, now: SystemTime) -> bool {
    now.duration_since(SystemTime::UNIX_EPOCH).is_ok_and(|now| at <= now)
}
