//! The pages of a lifter, read on every core and joined.

use super::context::Context;
use super::drafts::{PageLog, Place, Tally};
use super::found::{Found, FoundOn, Keep};
use super::join::{Joined, join};
use super::one_session;
use super::page;
use super::whole_log;
use crate::journal::{Files, Lifter};
use crate::problems::{Count, Problem, ProblemKind as K};
use crate::source::{Page, PageId, Span};
use crate::training::{Log, on_every_core};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

/// A lifter's log, and every problem of the pages.
#[derive(Debug)]
pub struct Reading {
    /// Everything the pages say.
    pub log: Log,
    /// What is wrong, by page, in order of page and place; of each page the first that are shown, where not all were asked for.
    pub problems: Vec<(PageId, Problem)>,
    /// How many problems each page has, in order of the pages.
    pub counts: Vec<Count>,
    /// How many sessions have a date.
    pub sessions: u32,
    /// Where each dated heading stands, also of what is one session with another page's; only where the warnings that need
    /// the whole log were asked for.
    pub days: Vec<(NaiveDate, PageId, u32)>,
    /// How many lines were read as what.
    pub tally: Tally,
}

impl Reading {
    /// How many problems the pages have.
    pub fn count(&self) -> Count {
        let mut all = Count::default();
        self.counts.iter().for_each(|of_page| all += *of_page);
        all
    }
}

/// Reads the pages of a lifter. With `check_on`, the machine's date, the warnings that need the whole log
/// are made too.
pub fn read(files: &dyn Files, lifter: &Lifter, paths: Vec<String>, check_on: Option<NaiveDate>) -> Reading {
    let context = Context::of(lifter, check_on.is_some());
    let pages = pages(files, &context, &paths);
    joined(lifter, paths, pages, check_on).into()
}

/// The same with every problem, however many a page has: for lines that are taken one by one.
pub fn read_telling_all(
    files: &dyn Files,
    lifter: &Lifter,
    paths: Vec<String>,
    check_on: Option<NaiveDate>,
) -> Reading {
    let context = Context { keep: Keep::All, ..Context::of(lifter, check_on.is_some()) };
    let pages = pages(files, &context, &paths);
    joined(lifter, paths, pages, check_on).into()
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
    joined(lifter, paths, pages, None).into()
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

/// The lifts that the journal has and no book, by their folded names.
pub(super) fn own_lifts<'p>(pages: impl Iterator<Item = &'p PageLog>) -> BTreeMap<String, String> {
    let lifts = pages.flat_map(|page| &page.lifts).filter(|lift| lift.worked && !lift.in_book);
    lifts.map(|lift| (lift.folded.clone(), lift.name.clone())).collect()
}

/// A lifter's log, and what was found on each page.
pub(super) struct Whole {
    pub(super) log: Log,
    pub(super) problems: FoundOn,
    sessions: u32,
    days: Vec<(NaiveDate, PageId, u32)>,
    tally: Tally,
}

impl From<Whole> for Reading {
    fn from(whole: Whole) -> Self {
        let Whole { log, problems, sessions, days, tally } = whole;
        let (mut all, mut counts) = (Vec::new(), Vec::with_capacity(problems.0.len()));
        for (page, found) in problems.0.into_iter().enumerate() {
            let (told, count) = found.told();
            all.extend(told.into_iter().map(|problem| (PageId(page as u32), problem)));
            counts.push(count);
        }
        Reading { log, problems: all, counts, sessions, days, tally }
    }
}

/// Pages that were read, joined.
pub(super) fn joined(
    lifter: &Lifter,
    paths: Vec<String>,
    mut pages: Vec<PageLog>,
    check_on: Option<NaiveDate>,
) -> Whole {
    let sessions = pages.iter().map(|page| page.dated).sum();
    let mut tally = Tally::default();
    pages.iter().for_each(|page| tally += page.tally);
    if let Some(machine_date) = check_on {
        for page in &mut pages {
            let empty = page
                .sessions
                .iter()
                .filter(|session| session.prose && session.works.is_empty() && session.date < machine_date);
            let empty = empty
                .map(|session| Problem::new(K::SessionWithoutWork { date: session.date.to_string() }, session.span));
            empty.for_each(|problem| page.problems.push(problem));
        }
    }
    let places: Vec<Vec<Place>> = pages.iter_mut().map(|page| std::mem::take(&mut page.places)).collect();
    let lifts: Vec<_> =
        if check_on.is_some() { pages.iter().map(|page| page.lifts.clone()).collect() } else { Vec::new() };
    let mut headings = HashMap::new();
    let mut days = Vec::new();
    if check_on.is_some() {
        for (page, at) in pages.iter().zip(0..).map(|(page, at)| (page, PageId(at))) {
            headings.extend(page.sessions.iter().map(|session| ((at, session.line), session.span)));
            days.extend(page.sessions.iter().map(|session| (session.date, at, session.line)));
        }
    }
    let Joined { mut log, mut problems } = join(lifter, paths, pages);
    if let Some(machine_date) = check_on {
        whole_log::outside_blocks(&log, &headings, &mut problems);
        whole_log::warn(&log, &lifter.book, &places, &lifts, machine_date, &mut problems);
    }
    for again in one_session::unite(&mut log) {
        log.left_out += again.equal;
        let (page, line) = again.first;
        let first = log.place(page, line).to_string();
        let span = headings.get(&(again.page, again.line)).copied().unwrap_or_default();
        problems.push((again.page, Problem::new(K::SessionTwice { first, lines: again.equal }, span)));
    }
    Whole { log, problems, sessions, days, tally }
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
