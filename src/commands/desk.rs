//! The journal, the lifter, and today, ready for a question.

mod cautions;

use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use super::watch::kept_desk::KeptDesk;
use crate::history::History;
use crate::journal::{Disk, Files, Journal, Lifter, NoRoot, STAGING, find_root, open, resume};
use crate::meaning::{self, Reading};
use crate::present::envelope::{self, json};
use crate::present::{Doc, sanitize, wording};
use crate::training::show_in;
pub use cautions::wrong_cautions;
use chrono::{Local, NaiveDate};
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A journal opened, nothing read yet.
pub(crate) struct Desk {
    pub(crate) files: Disk,
    pub(crate) journal: Arc<Journal>,
    pub(crate) root: PathBuf,
    /// What is kept from the answer before, where one follows the other.
    kept: Option<KeptDesk>,
    /// The folder that was named, or the current one.
    named: Option<PathBuf>,
}

/// A lifter's pages, read.
pub(crate) struct Book {
    pub(crate) reading: Arc<Reading>,
    pub(crate) lifter: Lifter,
    settings_problems: usize,
    /// What could not be read, of this lifter's or of the whole journal.
    unread: Vec<String>,
    goes_on: bool,
}

impl Drop for Book {
    fn drop(&mut self) {
        if let Some(reading) = Arc::get_mut(&mut self.reading) {
            put_away(std::mem::take(&mut reading.log.sessions), self.goes_on);
        }
    }
}

/// Freeing a lifetime of sets piece by piece takes long. Mostly the program ends with its answer, which frees all at
/// once; where it goes on, they are freed while the answer is on its way.
pub(crate) fn put_away<T: Send + 'static>(many: T, goes_on: bool) {
    if goes_on {
        std::thread::spawn(move || drop(many));
    } else {
        std::mem::forget(many);
    }
}

impl Desk {
    /// Opens the journal that is meant.
    pub(crate) fn open(options: &Options) -> Result<Desk, Failure> {
        let root = Desk::root(options)?;
        resumed(&root)?;
        let files = Disk::new(&root);
        let kept = options.kept.clone();
        let journal = kept.as_ref().map_or_else(|| Arc::new(opened(&files)), |kept| kept.open(&files));
        Ok(Desk { journal, files, root, kept, named: options.journal.clone() })
    }

    /// The folder of the journal that is meant.
    pub(crate) fn root(options: &Options) -> Result<PathBuf, Failure> {
        let named = options.journal.as_deref();
        let current = match (std::env::current_dir(), named) {
            // A journal that is named wholly is found from a folder that is there no more.
            (Err(_), Some(named)) if named.is_absolute() => PathBuf::new(),
            (current, _) => current.map_err(|error| Failure(format!("this folder cannot be read: {error}")))?,
        };
        match find_root(named, &current) {
            // A folder named by habit, from inside a lifter's: the journal above it is meant.
            Err(NoRoot::NoSettings(folder)) => {
                let whole = folder.canonicalize().unwrap_or_else(|_| folder.clone());
                Ok(find_root(None, &whole).map_err(|_| NoRoot::NoSettings(folder))?)
            }
            found => Ok(found?),
        }
    }

    /// The folder one stands in, below the root. Who names a journal from outside stands in the folder
    /// that was named.
    fn standing_in(&self) -> Option<String> {
        let root = self.root.canonicalize().ok()?;
        let inside = |folder: &Path| -> Option<String> {
            let folder = folder.canonicalize().ok()?;
            Some(folder.strip_prefix(&root).ok()?.to_string_lossy().replace('\\', "/"))
        };
        let current = std::env::current_dir().ok()?;
        inside(&current).or_else(|| inside(self.named.as_deref()?))
    }

    /// The lifter who is meant.
    pub(crate) fn lifter(&self, options: &Options) -> Result<&Lifter, Failure> {
        Ok(self.journal.lifter(options.one_lifter()?, self.standing_in().as_deref())?)
    }

    /// The lifters who are named, or all where nobody is, each with the pages.
    pub(crate) fn lifters(&self, options: &Options) -> Result<Vec<(&Lifter, Vec<String>)>, Failure> {
        let named = options.lifter.iter().map(|name| self.journal.lifter(Some(name), None));
        let named: Vec<&Lifter> = named.collect::<Result<_, _>>()?;
        let mut lifters = self.journal.by_lifter();
        if !named.is_empty() {
            lifters.retain(|(lifter, _)| named.iter().any(|named| named.folder == lifter.folder));
        }
        Ok(lifters)
    }

    /// What could not be read so far: all of it, or what is a lifter's or of the whole journal.
    pub(crate) fn unread(&self, of: Option<&Lifter>) -> Vec<String> {
        let mut unread = self.files.unread();
        // What `exclude:` names is no part of the journal.
        let told = |path: &str| self.journal.problems.iter().any(|(of, _)| of == path);
        let page = |path: &str| self.journal.pages.iter().any(|(of, _)| of == path);
        unread.retain(|path| told(path) || page(path));
        unread.retain(|path| of.is_none_or(|lifter| lifter.holds(path) || !path.contains('/')));
        unread
    }

    /// Reads the pages of the lifter who is meant.
    pub(crate) fn book(&self, options: &Options) -> Result<Book, Failure> {
        self.book_of(self.lifter(options)?, options)
    }

    /// Reads the pages of a lifter.
    pub(crate) fn book_of(&self, lifter: &Lifter, options: &Options) -> Result<Book, Failure> {
        let mut lifter = lifter.clone();
        show_in(lifter.units);
        let gym = options.gym.as_deref().map(|name| lifter.gym(name)).transpose()?;
        let mut reading = self.read(&lifter, None);
        let today = today(options);
        if let Some(gym) = gym {
            Arc::make_mut(&mut reading).log.be_at(gym, today);
        }
        lifter.gear = reading.log.gear_at(reading.log.gym_on(today)).clone();
        let unread = self.unread(Some(&lifter));
        let settings_problems = self.journal.problems.len();
        Ok(Book { reading, lifter, settings_problems, unread, goes_on: options.goes_on })
    }

    /// Whether what is read now is kept for the next answer.
    pub(crate) fn keeps(&self) -> bool {
        self.kept.as_ref().is_some_and(|kept| kept.keeps(&self.journal))
    }

    /// What the pages of a lifter say, read on every core: only those that changed since the answer before. With
    /// `check_on`, the machine's date, the warnings that need the whole log are made too.
    pub(crate) fn read(&self, lifter: &Lifter, check_on: Option<NaiveDate>) -> Arc<Reading> {
        let kept = self.kept.as_ref().and_then(|kept| kept.read(&self.files, lifter, check_on));
        kept.unwrap_or_else(|| Arc::new(meaning::read(&self.files, lifter, self.journal.pages_of(lifter), check_on)))
    }
}

impl Book {
    /// The history as of the day that is asked about.
    pub(crate) fn history(&self, options: &Options) -> History<'_> {
        History::new(&self.reading.log, &self.lifter.book, today(options))
    }

    /// The reply to a question: its answer as JSON, or what the view says of it.
    pub(crate) fn answer<T: Serialize>(&self, options: &Options, answer: &T, view: impl FnOnce() -> Doc) -> Reply {
        match options.format {
            Format::Json => Reply::answered(json(&self.around(options, answer)), String::new()),
            Format::Text => Reply::answered(options.shown(&view()), self.left_out()),
        }
    }

    /// An answer with what every answer carries.
    pub(crate) fn around<'a, T: Serialize>(&'a self, options: &Options, answer: T) -> envelope::Envelope<'a, T> {
        let log = &self.reading.log;
        envelope::Envelope {
            lifter: log.lifter.as_deref(),
            today: today(options),
            left_out: log.left_out,
            unread_pages: &self.unread,
            answer,
        }
    }

    /// Says once how much is missing from the answer.
    pub(crate) fn left_out(&self) -> String {
        left_out(self.reading.log.left_out, self.settings_problems, &self.unread)
    }
}

/// Where a run was killed while it wrote several pages, the rest of them get their places first, and that is said: what was
/// asked is asked of other pages then than it was meant for.
fn resumed(root: &Path) -> Result<(), Failure> {
    let resumed = resume(root).map_err(|error| {
        let log = root.join(STAGING);
        Failure(format!(
            "a run was interrupted while it wrote several pages, and the rest of them can't be written: {error}; \
             what they were to hold is in {}: mend that, or move it elsewhere to go on without",
            log.display()
        ))
    })?;
    let Some(resumed) = resumed else { return Ok(()) };
    let named = |pages: &[String]| match pages {
        [] => "none".into(),
        pages => wording::all_of(pages),
    };
    let left = match resumed.left.as_slice() {
        [] => String::new(),
        left => format!(", but not {}, changed by now and left as found", named(left)),
    };
    Err(Failure(format!(
        "a run was interrupted while it wrote several pages; in place now: {}{left}. Look at them, and ask again",
        named(&resumed.placed)
    )))
}

/// Says what is missing from an answer: pages that could not be read, lines with an error, settings.
pub(crate) fn left_out(lines: u32, settings_problems: usize, unread: &[String]) -> String {
    let mut said = Vec::new();
    if !unread.is_empty() {
        let pages = wording::count(unread.len() as u64, "page");
        let named: Vec<String> = unread.iter().take(NAMED).map(|path| sanitize(path).into_owned()).collect();
        let more = if unread.len() > NAMED { ", …" } else { "" };
        said.push(format!("{pages} could not be read ({}{more})", named.join(", ")));
    }
    if lines > 0 {
        let verb = if lines == 1 { "has an error and counts" } else { "have errors and count" };
        said.push(format!("{} {verb} nowhere", wording::count(lines, "line")));
    }
    if settings_problems > 0 {
        said.push("settings or files have errors".into());
    }
    if said.is_empty() { String::new() } else { format!("loadline: {}; see `loadline check`\n", said.join("; ")) }
}

/// Of many pages so many are named.
const NAMED: usize = 3;

/// A journal opened, with all that is wrong with its settings.
pub fn opened(files: &dyn Files) -> Journal {
    let mut journal = open(files);
    journal.problems.extend(wrong_cautions(files, &journal));
    journal
}

/// The day to answer for.
pub(crate) fn today(options: &Options) -> NaiveDate {
    options.on.unwrap_or_else(machine_date)
}

/// The machine's own date.
pub(crate) fn machine_date() -> NaiveDate {
    Local::now().date_naive()
}
