//! The pages of a lifter, read on every core and joined.

use super::context::Context;
use super::found::{Found, Keep};
use super::join::{Mode, Reading, joined};
use super::page;
use super::page_log::{PageLog, own_lifts};
use crate::journal::{Files, Lifter};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{Page, Span};
use crate::training::on_every_core;
use chrono::NaiveDate;

/// Reads the pages of a lifter. With `check_on`, the machine's date, the warnings that need the whole log
/// are made too.
pub fn read(files: &dyn Files, lifter: &Lifter, paths: Vec<String>, check_on: Option<NaiveDate>) -> Reading {
    let context = Context { today: check_on, ..Context::of(lifter, check_on.is_some()) };
    let pages = pages(files, &context, &paths);
    joined(lifter, paths, pages, check_on, Mode::Once)
}

/// The same with every problem, however many a page has: for lines that are taken one by one.
pub fn read_telling_all(
    files: &dyn Files,
    lifter: &Lifter,
    paths: Vec<String>,
    check_on: Option<NaiveDate>,
) -> Reading {
    let context = Context { keep: Keep::All, today: check_on, ..Context::of(lifter, check_on.is_some()) };
    let pages = pages(files, &context, &paths);
    joined(lifter, paths, pages, check_on, Mode::Once)
}

/// The pages, each by itself.
pub(super) fn pages(files: &dyn Files, context: &Context<'_>, paths: &[String]) -> Vec<PageLog> {
    // A few pages are read before another core has begun.
    let all = |context: &Context<'_>, paths: &[String]| {
        if paths.len() <= 4 { in_turn(files, context, paths) } else { side_by_side(files, context, paths) }
    };
    let mut pages = all(context, paths);
    with_own_lifts(context, paths, &mut pages, all);
    pages
}

/// The same on the core that asks: where many lifters are read side by side, each core has a lifter of its own.
pub fn read_alone(files: &dyn Files, lifter: &Lifter, paths: Vec<String>) -> Reading {
    let context = Context::of(lifter, false);
    let mut pages = in_turn(files, &context, &paths);
    with_own_lifts(&context, &paths, &mut pages, |context, paths| in_turn(files, context, paths));
    joined(lifter, paths, pages, None, Mode::Once)
}

/// Loose lines name lifts that only the journal has: pages with such lines are read again once all names are known.
fn with_own_lifts(
    context: &Context<'_>,
    paths: &[String],
    pages: &mut [PageLog],
    read: impl Fn(&Context<'_>, &[String]) -> Vec<PageLog>,
) {
    let waiting: Vec<usize> = (0..pages.len()).filter(|at| pages.get(*at).is_some_and(|page| page.waits)).collect();
    if waiting.is_empty() {
        return;
    }
    let others = own_lifts(pages.iter());
    if others.is_empty() {
        return;
    }
    let context = Context { others: &others, ..*context };
    let of: Vec<String> = waiting.iter().filter_map(|at| paths.get(*at).cloned()).collect();
    for (at, page) in waiting.into_iter().zip(read(&context, &of)) {
        if let Some(place) = pages.get_mut(at) {
            *place = page;
        }
    }
}

/// Reads each page on whichever core is free, in the order of the paths in the end.
fn side_by_side(files: &dyn Files, context: &Context<'_>, paths: &[String]) -> Vec<PageLog> {
    let read = on_every_core(paths.len(), |at| paths.get(at).map(|path| one(files, context, path)));
    read.into_iter().flatten().collect()
}

fn in_turn(files: &dyn Files, context: &Context<'_>, paths: &[String]) -> Vec<PageLog> {
    paths.iter().map(|path| one(files, context, path)).collect()
}

/// Reads one page.
pub(super) fn one(files: &dyn Files, context: &Context<'_>, path: &str) -> PageLog {
    let refused = |why: String| {
        let mut problems = Found::new(context.keep);
        problems.push(Problem::new(K::UnreadablePage { why }, Span::default()));
        PageLog { problems, ..PageLog::default() }
    };
    match files.read(path) {
        Err(error) => refused(error.to_string()),
        Ok(bytes) => match Page::new(path, bytes) {
            Ok(page) => page::read(context, &page),
            Err(_) => refused("it is longer than 4 GiB".into()),
        },
    }
}
