//! A draft written to a page of the lifter's: to a new one, or after what a page holds.

use crate::commands::desk::{Book, Desk};
use crate::commands::outcome::{self, Failure};
use crate::commands::target::Target;
use crate::journal::{Overlay, open, save_all};
use crate::meaning;
use crate::present::{Doc, Role, view};
use crate::questions::draft::Answer;
use std::path::{Path, PathBuf};

impl Target {
    /// The page with the draft at its end, in the page's own line ends, and the lines that are new.
    fn with(&self, draft: &str) -> (Vec<u8>, Vec<String>) {
        let mut page = self.read.clone().unwrap_or_default();
        let first_end = page.iter().position(|byte| *byte == b'\n');
        let is_crlf = first_end.and_then(|end| page.get(end.checked_sub(1)?)) == Some(&b'\r');
        let end = if is_crlf { "\r\n" } else { "\n" };
        if !page.is_empty() && !page.ends_with(b"\n") {
            page.extend(end.bytes());
        }
        let mut new: Vec<String> = draft.lines().map(str::to_owned).collect();
        let has_gap = page.is_empty() || page.ends_with(b"\n\n") || page.ends_with(b"\n\r\n");
        if !has_gap {
            new.insert(0, String::new());
        }
        for line in &new {
            page.extend(line.bytes().chain(end.bytes()));
        }
        (page, new)
    }
}

/// A page that may be written.
pub(super) struct Staged {
    /// Where it is.
    path: PathBuf,
    /// The path below the journal's root.
    pub(super) below: String,
    /// What it held; nothing where it is not there yet.
    before: Option<Vec<u8>>,
    after: Vec<u8>,
    /// What changes in it.
    shown: Doc,
}

/// Gets a draft ready to be written: not where the page is not the lifter's, where the draft would not be read there, or
/// where one of its days has a session already.
pub(super) fn stage(desk: &Desk, book: &Book, answer: &Answer, target: Target, draft: &str) -> Result<Staged, Failure> {
    let below = &target.below;
    if let Some(already) = answer.already.first() {
        let place = already.place.to_string();
        return Err(Failure(format!(
            "{} has a session already, {place}; nothing was written, for a draft takes the place of nothing",
            already.date
        )));
    }
    let (page, new) = target.with(draft);
    let mut after = Overlay::new(&desk.files);
    after.put(below, page.clone());
    let journal = open(&after);
    let lifter = journal.lifters.iter().position(|lifter| lifter.folder == book.lifter.folder);
    let is_hidden = below.split('/').any(|part| part.starts_with('.'));
    if is_hidden || !journal.pages.iter().any(|(path, owner)| path == below && owner.is_some() && *owner == lifter) {
        let whose = book.lifter.name.as_deref().map_or_else(|| "this journal".to_owned(), str::to_owned);
        return Err(Failure(format!("{below} isn't a page of {whose}, so the draft would not be read there")));
    }
    let reading = meaning::read(&after, &book.lifter, journal.pages_of(&book.lifter), None);
    let drafted = u32::try_from(answer.sessions.len()).unwrap_or(u32::MAX);
    if reading.sessions != book.reading.sessions.saturating_add(drafted)
        || reading.count().all() > book.reading.count().all()
    {
        return Err(Failure(format!(
            "at the end of {below} the draft would not be read as it should; mend the page first, `loadline check` shows where"
        )));
    }
    let mut shown = Doc::new();
    let what = if target.read.is_some() { "at the end of" } else { "new page" };
    shown.line(Role::Title, format!("{what} {below}"));
    new.iter().for_each(|line| shown.line(Role::Ahead, format!("+ {line}").trim_end()));
    Ok(Staged { path: target.path, below: target.below, before: target.read, after: page, shown })
}

/// The pages whose plans get loads: not where a page would then not be read as it is now, but for the loads.
pub(super) fn fill(desk: &Desk, book: &Book, answer: &Answer) -> Result<Vec<Staged>, Failure> {
    let loads = |page: &str, line: u32| {
        let fill = answer.fills.iter().find(|fill| *fill.place.page == *page && fill.place.line == line)?;
        Some(fill.loads.clone())
    };
    let paths = desk.journal.pages_of(&book.lifter);
    let revisions = meaning::hang(&desk.files, &paths, &loads);
    let mut after = Overlay::new(&desk.files);
    revisions.iter().for_each(|one| after.put(one.after.path(), one.after.bytes().to_vec()));
    let reading = meaning::read(&after, &book.lifter, paths, None);
    if reading.sessions != book.reading.sessions || reading.count().all() > book.reading.count().all() {
        return Err(Failure("with these loads the page would not be read as it should; nothing was written".into()));
    }
    Ok(revisions
        .into_iter()
        .map(|one| Staged {
            path: desk.files.place(one.before.path()),
            below: one.before.path().to_owned(),
            shown: view::tidy::difference(&one),
            before: Some(one.before.bytes().to_vec()),
            after: one.after.bytes().to_vec(),
        })
        .collect())
}

/// What would change, page by page.
pub(super) fn shown(all: &[Staged]) -> Doc {
    let mut out = Doc::new();
    all.iter().for_each(|one| out.append(one.shown.clone()));
    out
}

/// Writes pages, all or none, and shows what changes in them.
pub(super) fn write(root: &Path, all: &[Staged]) -> Result<Doc, Failure> {
    let pages: Vec<_> = all.iter().map(|one| (one.path.as_path(), one.before.as_deref(), &*one.after)).collect();
    save_all(root, &pages).map_err(|failed| {
        let below = all.iter().find(|one| one.path == failed.path).map_or("", |one| &one.below);
        let Failure(failure) = Failure::of_page(below, failed.why);
        Failure(format!("{failure}; {}", outcome::of_the_others(failed.some_were)))
    })?;
    Ok(shown(all))
}
