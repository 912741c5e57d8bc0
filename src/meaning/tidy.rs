//! The pages of a lifter in one spelling, and on demand with the fixes that `check` offers. Nothing is written here.

use super::context::Context;
use super::found::{Found, Keep};
use super::join;
use super::names::spelling;
use super::read::pages;
use crate::journal::{Files, Lifter, Overlay};
use crate::notation;
use crate::problems::ProblemKind as K;
use crate::source::{Edit, Lines, Page, Revision};
use crate::training::on_every_core;
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

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

/// Tidies those of a lifter's pages (`paths`) that are `wanted`. With `fix`, fixes come first: those for what does not
/// count so far. Where a warning asks about what does, only the lifter can tell.
/// With `today`, the machine's date, no fix puts work on a day to come.
pub fn tidy(
    files: &dyn Files,
    lifter: &Lifter,
    paths: &[String],
    wanted: &dyn Fn(&str) -> bool,
    fix: bool,
    today: Option<NaiveDate>,
) -> Tidying {
    // Read once, so that all that follows is about the same bytes.
    let mut overlay = Overlay::new(files);
    let mut changes: BTreeMap<&str, Change> = BTreeMap::new();
    let read_of = on_every_core(paths.len(), |at| paths.get(at).map(|path| (path, files.read(path))));
    for (path, bytes) in read_of.into_iter().flatten() {
        let Ok(bytes) = bytes else { continue };
        overlay.put(path, bytes.clone());
        if let Ok(page) = Page::new(path.as_str(), bytes)
            && wanted(path)
        {
            changes.insert(path, Change { before: page, after: None });
        }
    }
    let context = Context { keep: Keep::Mends, today, ..Context::of(lifter, fix) };
    // What the pages say is let go at once: of it only the problems are asked for.
    let find = |files: &dyn Files| -> (HashMap<&str, Found>, u32) {
        let (of_pages, left_out) = join::found(lifter, paths.to_vec(), pages(files, &context, paths));
        (paths.iter().map(String::as_str).zip(of_pages).collect(), left_out)
    };
    let (mut found, left_out) = find(&overlay);
    for _ in 0..MOST_ROUNDS {
        if !fix || !fixed(&found, &mut changes, &mut overlay) {
            break;
        }
        drop(found);
        found = find(&overlay).0;
    }
    // Lines typed loosely are written as they were read.
    if loose(&found, &mut changes, &mut overlay) {
        drop(found);
        found = find(&overlay).0;
    }
    drop(overlay);
    let changes: Vec<(&str, Change)> = changes.into_iter().collect();
    let tidied = on_every_core(changes.len(), |at| {
        let (path, change) = changes.get(at)?;
        let page = change.now();
        let faults = found.get(path).map_or(&[][..], Found::faults);
        let left_alone = found.get(path).map_or_else(Vec::new, Found::left_alone);
        let edits = notation::tidy(page, &left_alone, &|name| spelling(&lifter.book, name));
        let tidied = if edits.is_empty() { None } else { page.edited(&edits) };
        Some((lines_of(page, faults), tidied))
    });
    let faulty = tidied.iter().flatten().map(|(faulty, _)| faulty).sum();
    let pages = changes.iter().map(|(path, _)| (*path).to_owned()).collect();
    let tidied = tidied.into_iter().flatten().map(|(_, page)| page);
    let revisions = changes.into_iter().zip(tidied).filter_map(|((_, Change { before, after }), tidied)| {
        let after = tidied.or(after)?;
        (before.bytes() != after.bytes()).then_some(Revision { before, after })
    });
    let revisions = revisions.collect();
    Tidying { pages, revisions, faulty, left_out }
}

/// A page as it was, and as it is by now where that is another.
struct Change {
    before: Page,
    after: Option<Page>,
}

impl Change {
    fn now(&self) -> &Page {
        self.after.as_ref().unwrap_or(&self.before)
    }
}

/// Writes the lines that are typed loosely in the notation; whether there was any.
fn loose(found: &HashMap<&str, Found>, changes: &mut BTreeMap<&str, Change>, overlay: &mut Overlay<'_>) -> bool {
    let mut any = false;
    for (path, change) in changes {
        let loose = found
            .get(path)
            .into_iter()
            .flat_map(Found::iter)
            .filter(|problem| matches!(problem.kind, K::LooseSpelling { .. }));
        let edits: Vec<Edit> = loose.filter_map(|problem| problem.fix.clone()).collect();
        if let Some(written) = change.now().edited(&edits).filter(|_| !edits.is_empty()) {
            overlay.put(path, written.bytes().to_vec());
            change.after = Some(written);
            any = true;
        }
    }
    any
}

/// Applies to each line the first fix that there is for it; whether there was any.
fn fixed(found: &HashMap<&str, Found>, changes: &mut BTreeMap<&str, Change>, overlay: &mut Overlay<'_>) -> bool {
    let mut any = false;
    for (path, change) in changes {
        let page = change.now();
        let mut edits: Vec<Edit> = Vec::new();
        let mut fixed_up_to = 0;
        let mended = found.get(path).into_iter().flat_map(Found::iter);
        for problem in mended.filter(|problem| problem.kind.leaves_out()) {
            let Some(fix) = problem.fix.as_ref().filter(|fix| fix.span.start >= fixed_up_to) else { continue };
            let end = page.text().get(fix.span.end as usize..).and_then(|rest| rest.find('\n'));
            fixed_up_to = end.map_or(u32::MAX, |more| fix.span.end + more as u32 + 1);
            edits.push(fix.clone());
        }
        if let Some(fixed) = page.edited(&edits).filter(|fixed| fixed.bytes() != page.bytes()) {
            overlay.put(path, fixed.bytes().to_vec());
            change.after = Some(fixed);
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
