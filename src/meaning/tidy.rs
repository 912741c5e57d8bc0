//! The pages of a lifter in one spelling, and on demand with the fixes that `check` offers. Nothing is written here.

use super::join::Reading;
use super::names::spelling;
use super::read::read;
use crate::journal::{Files, Lifter, Overlay};
use crate::notation;
use crate::problems::{Problem, ProblemKind as K, Severity};
use crate::source::{Edit, Lines, Page, PageId, Revision};
use crate::training::on_every_core;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// A fix may bring to light what stood behind it, and of a line one is applied at a time. No line has more faults.
const MOST_ROUNDS: usize = 64;

/// What tidying comes to.
#[derive(Debug)]
pub struct Tidying {
    /// The pages that were looked at, in order of their paths.
    pub pages: Vec<String>,
    /// Those that would change, in the same order.
    pub revisions: Vec<Revision>,
    /// Lines of these pages that keep their spelling because they have an error.
    pub faulty: u32,
    /// How many of the lifter's lines count nowhere, as every answer says; before any fix.
    pub left_out: u32,
}

/// Tidies those of a lifter's pages (`paths`) that are `wanted`. With `fix_on`, the machine's date, fixes come first:
/// those for what does not count so far. Where a warning asks about what does, only the lifter can tell.
pub fn tidy(
    files: &dyn Files,
    lifter: &Lifter,
    paths: &[String],
    wanted: &dyn Fn(&str) -> bool,
    fix_on: Option<NaiveDate>,
) -> Tidying {
    // Read once, so that all that follows is about the same bytes.
    let mut overlay = Overlay::new(files);
    let mut before: BTreeMap<&str, Page> = BTreeMap::new();
    let read_of = on_every_core(paths.len(), |at| paths.get(at).map(|path| (path, files.read(path))));
    for (path, bytes) in read_of.into_iter().flatten() {
        let Ok(bytes) = bytes else { continue };
        overlay.put(path, bytes.clone());
        if let Ok(page) = Page::new(path.as_str(), bytes)
            && wanted(path)
        {
            before.insert(path, page);
        }
    }
    let mut after = before.clone();
    let mut reading = read(&overlay, lifter, paths.to_vec(), fix_on);
    let left_out = reading.log.left_out;
    for _ in 0..MOST_ROUNDS {
        if fix_on.is_none() || !fix(&reading, &mut after, &mut overlay) {
            break;
        }
        reading = read(&overlay, lifter, paths.to_vec(), fix_on);
    }
    // Lines typed loosely are written as they were read.
    if loose(&reading, &mut after, &mut overlay) {
        reading = read(&overlay, lifter, paths.to_vec(), fix_on);
    }
    let after: Vec<(&str, Page)> = after.into_iter().collect();
    let tidied = on_every_core(after.len(), |at| {
        let (path, page) = after.get(at)?;
        let mut faults: Vec<u32> = of_page(&reading, path)
            .filter(|problem| problem.kind.severity() == Severity::Error)
            .map(|problem| problem.span.start)
            .collect();
        faults.sort_unstable();
        let edits = notation::tidy(page, &faults, &|name| spelling(&lifter.book, name));
        let tidied = if edits.is_empty() { None } else { page.edited(&edits) };
        Some((lines_of(page, &faults), tidied))
    });
    let faulty = tidied.iter().flatten().map(|(faulty, _)| faulty).sum();
    let pages = before.keys().map(|path| (*path).to_owned()).collect();
    let tidied = tidied.into_iter().flatten().map(|(_, page)| page);
    let after = after.into_iter().zip(tidied).map(|((_, page), tidied)| tidied.unwrap_or(page));
    let revisions = before.into_values().zip(after).map(|(before, after)| Revision { before, after });
    let revisions = revisions.filter(|revision| revision.before.bytes() != revision.after.bytes()).collect();
    Tidying { pages, revisions, faulty, left_out }
}

/// The problems of a page.
fn of_page<'r>(reading: &'r Reading, path: &str) -> impl Iterator<Item = &'r Problem> {
    let id = reading.log.pages.iter().position(|known| **known == *path).map(|at| PageId(at as u32));
    // They are in order of their pages.
    let first = reading.problems.partition_point(|(page, _)| Some(*page) < id);
    reading.problems.iter().skip(first).take_while(move |(page, _)| Some(*page) == id).map(|(_, problem)| problem)
}

/// Writes the lines that are typed loosely in the notation; whether there was any.
fn loose(reading: &Reading, pages: &mut BTreeMap<&str, Page>, overlay: &mut Overlay<'_>) -> bool {
    let mut any = false;
    for (path, page) in pages {
        let loose = of_page(reading, path).filter(|problem| matches!(problem.kind, K::LooseSpelling { .. }));
        let edits: Vec<Edit> = loose.filter_map(|problem| problem.fix.clone()).collect();
        if let Some(written) = page.edited(&edits).filter(|_| !edits.is_empty()) {
            overlay.put(path, written.bytes().to_vec());
            *page = written;
            any = true;
        }
    }
    any
}

/// Applies to each line the first fix that there is for it; whether there was any.
fn fix(reading: &Reading, pages: &mut BTreeMap<&str, Page>, overlay: &mut Overlay<'_>) -> bool {
    let mut any = false;
    for (path, page) in pages {
        let mut edits: Vec<Edit> = Vec::new();
        let mut fixed_up_to = 0;
        for problem in of_page(reading, path).filter(|problem| problem.kind.leaves_out()) {
            let Some(fix) = problem.fix.as_ref().filter(|fix| fix.span.start >= fixed_up_to) else { continue };
            let end = page.text().get(fix.span.end as usize..).and_then(|rest| rest.find('\n'));
            fixed_up_to = end.map_or(u32::MAX, |more| fix.span.end + more as u32 + 1);
            edits.push(fix.clone());
        }
        if let Some(fixed) = page.edited(&edits).filter(|fixed| fixed.bytes() != page.bytes()) {
            overlay.put(path, fixed.bytes().to_vec());
            *page = fixed;
            any = true;
        }
    }
    any
}

/// In how many lines places stand, which come in order.
fn lines_of(page: &Page, places: &[u32]) -> u32 {
    if places.is_empty() {
        return 0;
    }
    let lines = Lines::of(page.text());
    let mut of_places: Vec<u32> = places.iter().map(|place| lines.position(*place).line).collect();
    of_places.dedup();
    of_places.len() as u32
}
