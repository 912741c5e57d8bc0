//! A journal opened: its lifters, its pages, and what is wrong with its settings.

use super::files::is_page;
use super::lifters::{Owners, choose, folder_of};
use super::settings::{self, LIFTER_FILE, Said};
use super::{Files, Lifter, NoLifter, SETTINGS_FILE, Settings};
use crate::problems::{Problem, ProblemKind as K};
use crate::training::{LiftBook, fold};
use std::collections::HashMap;
use std::collections::HashSet;
use std::path::Path;
use std::sync::Arc;

/// A journal.
#[derive(Debug)]
pub struct Journal {
    /// Every lifter, in order of folders. A journal without a `lifter.yaml` has one, at its root.
    pub lifters: Vec<Lifter>,
    /// Pages below the root in order of their paths, with the lifter each belongs to.
    pub pages: Vec<(String, Option<usize>)>,
    /// What is wrong with settings and files, by path.
    pub problems: Vec<(String, Problem)>,
    /// What stands below `cautions:`, by path. Whether there are such cautions is not known here.
    pub cautions: Vec<(String, Said)>,
}

/// Lists a journal and reads its settings. Pages are not read yet.
pub fn open(files: &dyn Files) -> Journal {
    let listing = files.list();
    let mut problems: Vec<(String, Problem)> = Vec::new();
    let mut cautions: Vec<(String, Said)> = Vec::new();
    let mut read = |path: &str, of_lifter: bool| -> Settings {
        match files.read(path) {
            Ok(bytes) => {
                let (settings, wrong) = settings::read(&bytes, of_lifter);
                problems.extend(wrong.into_iter().map(|problem| (path.to_owned(), problem)));
                cautions.extend(settings.cautions.iter().map(|said| (path.to_owned(), said.clone())));
                settings
            }
            Err(error) => {
                problems.push((path.to_owned(), Problem::of_file(K::UnreadablePage { why: error.to_string() })));
                Settings::default()
            }
        }
    };
    let journal = read(SETTINGS_FILE, false);
    let wanted = |path: &str| !journal.excludes(path);
    let mut book = LiftBook::built_in();
    for lift in &journal.lifts {
        book.add(lift.clone());
    }
    let book = Arc::new(book);
    let mut lifters: Vec<Lifter> = Vec::new();
    for path in listing.files.iter().filter(|path| wanted(path)) {
        if let Some(folder) = folder_of(path) {
            let own = read(path, true);
            lifters.push(Lifter::new(folder, &journal, &own, &book));
        }
    }
    let by_folder = !lifters.is_empty();
    if !by_folder {
        let mut only = Lifter::new("", &journal, &Settings::default(), &book);
        only.name = None;
        lifters.push(only);
    }
    let mut names: HashMap<String, String> = HashMap::new();
    for lifter in &lifters {
        let name = lifter.name.clone().unwrap_or_default();
        if let Some(first) = names.insert(fold(&name), lifter.folder.clone()) {
            let path = if lifter.folder.is_empty() {
                LIFTER_FILE.to_owned()
            } else {
                format!("{}/{LIFTER_FILE}", lifter.folder)
            };
            let kind = K::LifterTwice { name, first };
            // A folder is a name as well, and stands in no file.
            let problem = match files.read(&path).ok().and_then(|bytes| settings::name_place(&bytes)) {
                Some(span) => Problem::new(kind, span),
                None => Problem::of_file(kind),
            };
            problems.push((path, problem));
        }
    }
    for (path, why) in listing.refused.into_iter().filter(|(path, _)| wanted(path)) {
        problems.push((path, Problem::of_file(K::UnreadablePage { why })));
    }
    // Notes that are named otherwise would be left out in silence.
    let mut others = listing.files.iter().filter(|path| is_other_note(path) && wanted(path));
    if let Some(first) = others.next() {
        let files = 1 + others.count();
        problems.push((first.clone(), Problem::of_file(K::NotAPage { files })));
    }
    let names: HashSet<&str> = listing.files.iter().map(String::as_str).filter(|path| is_page(path)).collect();
    for path in listing.files.iter().filter(|path| is_page(path) && wanted(path)) {
        if let Some(of) = original_of(path).filter(|of| names.contains(of.as_str())) {
            problems.push((path.clone(), Problem::of_file(K::CopiedPage { of })));
        }
    }
    let owners = Owners::new(&lifters);
    let mut pages = Vec::new();
    for path in listing.files.into_iter().filter(|path| is_page(path) && wanted(path)) {
        let lifter = owners.of(&path);
        if lifter.is_none() {
            problems.push((path.clone(), Problem::of_file(K::PageWithoutLifter)));
        }
        pages.push((path, lifter));
    }
    Journal { lifters, pages, problems, cautions }
}

/// The page of which another is a copy, by the names that copies are commonly given: `w1 (2).md`, `w1 copy.md`,
/// `w1 - Copy.md`, `w1 (conflicted copy 2026-03-05).md`, `w1.conflict-20260305.md`.
fn original_of(path: &str) -> Option<String> {
    let (stem, ending) = path.rsplit_once('.')?;
    let lower = stem.to_ascii_lowercase();
    let cut = |mark: &str| lower.find(mark);
    let in_brackets = || {
        let inside = lower.strip_suffix(')')?.rsplit_once(" (")?;
        let copy = inside.1.parse::<u32>().is_ok() || inside.1.contains("conflict") || inside.1.contains("copy");
        copy.then_some(inside.0.len())
    };
    let at_end = || [" - copy", " copy", "-copy"].iter().find_map(|end| Some(lower.strip_suffix(end)?.len()));
    let by_mark = || [".conflict", ".sync-conflict", "-conflict", "_conflict"].iter().find_map(|mark| cut(mark));
    let end = in_brackets().or_else(at_end).or_else(by_mark)?;
    Some(format!("{}.{ending}", stem.get(..end)?))
}

/// Whether a path below the root could be that of something that is read: a page, settings, or a folder of pages.
pub fn is_read(path: &Path) -> bool {
    let hidden = |name: &str| name.starts_with('.');
    let Some(path) = path.to_str().filter(|path| !path.split(['/', '\\']).any(hidden)) else { return true };
    let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
    is_page(name) || name == SETTINGS_FILE || name == LIFTER_FILE || !name.contains('.')
}

/// Whether a path is that of notes that are no page.
fn is_other_note(path: &str) -> bool {
    let end = path.rsplit('/').next().and_then(|name| name.rsplit_once('.')).map_or("", |(_, end)| end);
    ["txt", "markdown", "org"].iter().any(|other| end.eq_ignore_ascii_case(other))
}

impl Journal {
    /// The lifter who is meant: by name, by the folder one stands in (below the root), or the only one.
    ///
    /// # Errors
    /// [`NoLifter`] where that is nobody, or could be several.
    pub fn lifter(&self, named: Option<&str>, standing_in: Option<&str>) -> Result<&Lifter, NoLifter> {
        choose(&self.lifters, named, standing_in)
    }

    /// Every lifter with the paths of their pages, in order.
    pub fn by_lifter(&self) -> Vec<(&Lifter, Vec<String>)> {
        let mut all: Vec<(&Lifter, Vec<String>)> = self.lifters.iter().map(|lifter| (lifter, Vec::new())).collect();
        for (path, owner) in &self.pages {
            if let Some((_, pages)) = owner.and_then(|at| all.get_mut(at)) {
                pages.push(path.clone());
            }
        }
        all
    }

    /// The paths of a lifter's pages, in order.
    pub fn pages_of(&self, lifter: &Lifter) -> Vec<String> {
        let at = self.lifters.iter().position(|other| other.folder == lifter.folder);
        self.pages.iter().filter(|(_, owner)| *owner == at).map(|(path, _)| path.clone()).collect()
    }
}
