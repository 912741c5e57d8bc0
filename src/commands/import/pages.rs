//! Entries as pages of the journal: printed, tidied, and read again before any is shown or written.

use crate::commands::desk::{Book, Desk, machine_date};
use crate::commands::outcome::{Failure, Reply};
use crate::commands::target::Target;
use crate::import::{Entry, Fault, Places, Session, Wrong, gather, unsaid};
use crate::journal::{NotSaved, Overlay, create_all, finish, open};
use crate::meaning;
use crate::present::import::Page;
use crate::present::pages::imported::{Printed, page};
use crate::present::sanitize;
use crate::present::wording::all_of;
use crate::problems::Severity;
use crate::source::{Lines, PageId};
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// Where the sessions go.
pub(super) enum Plan {
    /// To standard output: one page, which is read as if it stood here.
    Printed(String),
    /// To one new page.
    OnePage(Target),
    /// To a new page a month in a folder.
    Months(PathBuf),
}

/// What is left when all that could not be said is taken out.
pub(super) struct Kept {
    pub(super) entries: Vec<Entry>,
    pub(super) pages: Vec<Page>,
    pub(super) faults: Vec<Fault>,
}

impl Plan {
    pub(super) fn of(desk: &Desk, book: &Book, write: Option<&Path>) -> Result<Plan, Failure> {
        let Some(path) = write else {
            let folder = &book.lifter.folder;
            let name = ".imported.md";
            return Ok(Plan::Printed(if folder.is_empty() { name.into() } else { format!("{folder}/{name}") }));
        };
        let is_page = path.extension().is_some_and(|end| end.eq_ignore_ascii_case("md"));
        Ok(if is_page { Plan::OnePage(Target::of(desk, path)?) } else { Plan::Months(path.to_owned()) })
    }

    /// The page of a session, by its path below the root.
    fn path(&self, desk: &Desk, session: &Session) -> Result<String, Failure> {
        match self {
            Plan::Printed(path) => Ok(path.clone()),
            Plan::OnePage(target) => Ok(target.below.clone()),
            Plan::Months(folder) => {
                let name = format!("{}.md", session.date.format("%Y-%m"));
                Ok(Target::of(desk, &folder.join(name))?.below)
            }
        }
    }

    /// Writes new pages; none where one of them is there already, or would not be read as the lifter's.
    pub(super) fn write(&self, desk: &Desk, book: &Book, pages: &[Page]) -> Result<(), Failure> {
        let mut after = Overlay::new(&desk.files);
        let placed: Vec<(&str, &Page)> = pages.iter().filter_map(|page| Some((page.path.as_deref()?, page))).collect();
        for (path, page) in &placed {
            if desk.files.place(path).symlink_metadata().is_ok() {
                return Err(Failure(format!("{path} is there already, and nothing was written; name another one")));
            }
            after.put(path, page.text.clone().into_bytes());
        }
        let journal = open(&after);
        let lifter = journal.lifters.iter().position(|lifter| lifter.folder == book.lifter.folder);
        for (path, _) in &placed {
            let is_hidden = path.split('/').any(|part| part.starts_with('.'));
            let is_theirs =
                journal.pages.iter().any(|(known, owner)| known == path && owner.is_some() && *owner == lifter);
            if is_hidden || !is_theirs {
                let whose = book.lifter.name.as_deref().unwrap_or("this journal");
                return Err(Failure(format!(
                    "{path} isn't a page of {whose}, so it would not be read; nothing was written"
                )));
            }
        }
        let Some(folder) = placed.first().and_then(|(path, _)| Some(desk.files.place(path).parent()?.to_owned()))
        else {
            return Ok(());
        };
        create_pages(&folder, pages)
    }
}

/// Writes new pages of one folder, or says which of them could not be. None was then.
pub(super) fn create_pages(folder: &Path, pages: &[Page]) -> Result<(), Failure> {
    let named = pages.iter().filter_map(|page| Some((Path::new(page.path.as_deref()?).file_name()?, page)));
    let all: Vec<(&OsStr, &[u8])> = named.map(|(name, page)| (name, page.text.as_bytes())).collect();
    debug_assert_eq!(all.len(), pages.len(), "each page that is written has a name");
    create_all(folder, &all).map_err(|(path, why)| {
        let why = match why {
            NotSaved::Changed => "it is there by now".to_owned(),
            NotSaved::ReadOnly => "it may not be written to".to_owned(),
            NotSaved::System(error) => error.to_string(),
        };
        Failure(format!("{} could not be written: {why}; nothing was written", path.display()))
    })
}

/// An import into this folder that was killed between two pages is brought to its end, and said.
pub(super) fn goes_on(folder: Option<&Path>) -> Result<Option<Reply>, Failure> {
    let Some(folder) = folder else { return Ok(None) };
    let shown = folder.display();
    let placed = finish(folder).map_err(|error| {
        Failure(format!(
            "an import into {shown} was interrupted, and its pages in {shown}/.loadline/ready could not be brought to \
             their places: {error}"
        ))
    })?;
    if placed.is_empty() {
        return Ok(None);
    }
    let names: Vec<String> =
        placed.iter().map(|page| page.file_name().unwrap_or_default().to_string_lossy().into_owned()).collect();
    let said = format!(
        "an import into {shown} had been interrupted; its last pages are in their places now: {}. Nothing else was done",
        all_of(&names)
    );
    Ok(Some(Reply::answered(format!("{}\n", sanitize(&said)), String::new())))
}

/// Prints the entries, tidies the pages and reads them again; takes out what is not said there as it was meant, until all
/// that is left is.
pub(super) fn checked(
    desk: &Desk,
    book: &Book,
    plan: &Plan,
    mut entries: Vec<Entry>,
    mut faults: Vec<Fault>,
) -> Result<Kept, Failure> {
    loop {
        let (sessions, mut new) = gather(&entries);
        let mut by_page: BTreeMap<String, Vec<Session>> = BTreeMap::new();
        for session in sessions {
            by_page.entry(plan.path(desk, &session)?).or_default().push(session);
        }
        let (pages, unread) = read_again(desk, book, &by_page);
        new.extend(unread);
        let bad: BTreeSet<u64> = new.iter().map(|fault| fault.row).collect();
        faults.extend(new);
        if bad.is_empty() {
            return Ok(Kept { entries, pages, faults });
        }
        entries.retain(|entry| !bad.contains(&entry.row));
    }
}

fn read_again(desk: &Desk, book: &Book, by_page: &BTreeMap<String, Vec<Session>>) -> (Vec<Page>, Vec<Fault>) {
    let printed: BTreeMap<&String, Printed> = by_page.iter().map(|(path, sessions)| (path, page(sessions))).collect();
    let mut texts: BTreeMap<&String, String> = BTreeMap::new();
    let mut overlay = Overlay::new(&desk.files);
    for (path, page) in &printed {
        overlay.put(path, page.text.clone().into_bytes());
        texts.insert(path, page.text.clone());
    }
    let paths: Vec<String> = by_page.keys().cloned().collect();
    for revision in meaning::tidy(&overlay, &book.lifter, &paths, &|_| true, false, None).revisions {
        if let Some(text) = texts.get_mut(&revision.after.path().to_owned()) {
            *text = revision.after.text().to_owned();
        }
    }
    let mut overlay = Overlay::new(&desk.files);
    for (path, text) in &texts {
        overlay.put(path, text.clone().into_bytes());
    }
    let mut all: BTreeSet<String> = desk.journal.pages_of(&book.lifter).into_iter().collect();
    all.extend(paths);
    let reading = meaning::read_telling_all(&overlay, &book.lifter, all.into_iter().collect(), Some(machine_date()));
    let mut pages = Vec::new();
    let mut faults = Vec::new();
    for (path, sessions) in by_page {
        let (Some(text), Some(places)) = (texts.remove(path), printed.get(path)) else { continue };
        let Some(id) = reading.log.pages.iter().position(|known| **known == **path) else { continue };
        let id = PageId(u32::try_from(id).unwrap_or(u32::MAX));
        let lines = Lines::of(&text);
        let of_page =
            reading.problems.iter().filter(|(page, problem)| *page == id && problem.kind.severity() == Severity::Error);
        let errors: Vec<Wrong> =
            of_page.map(|(_, problem)| (lines.position(problem.span.start).line, problem.kind.message())).collect();
        let at = Places { headings: &places.headings, works: &places.works };
        faults.extend(unsaid(sessions, at, (&reading.log, id), &book.lifter.book, &errors));
        let sets = sessions.iter().map(Session::sets).sum();
        pages.push(Page { path: Some(path.clone()), text, sessions: sessions.len(), sets });
    }
    (pages, faults)
}
