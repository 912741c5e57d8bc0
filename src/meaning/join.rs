//! All pages of a lifter as one log: sessions in order of time, each in its block and week, percentages
//! worked out, bodyweights in force. A log that is kept is made anew only where a page that changed touches it.

use super::blocks::{Blocks, Placed};
use super::found::Found;
use super::lift_numbers::{FirstWork, Numbers, first_works};
use super::one_session::{Again, unite};
use super::page_log::{PageLog, PageSession, Tally};
use super::placing::Around;
use super::whole_log::{self, NearLifts};
use crate::journal::Lifter;
use crate::problems::{Count, Problem, ProblemKind as K};
use crate::source::{PageId, Span};
use crate::training::{Block, Bodyweight, Lift, LiftId, Log, Mass, Session};
use chrono::NaiveDate;
use std::collections::BTreeSet;
use std::sync::Arc;

/// A bodyweight older than this is no longer in force.
const BODYWEIGHT_DAYS: i64 = 60;

/// A lifter's log, and every problem of the pages.
#[derive(Clone, Debug, PartialEq)]
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

/// Pages joined.
#[derive(Debug)]
pub(super) struct Whole {
    pub(super) reading: Arc<Reading>,
    /// The machine's date, where the warnings that need the whole log are made.
    pub(super) check_on: Option<NaiveDate>,
    /// In order of their paths.
    pub(super) pages: Vec<Arc<PageLog>>,
    /// What joining made of each page.
    parts: Vec<Part>,
    /// In order.
    works: Vec<FirstWork>,
    numbers: Numbers,
    blocks: Blocks,
    /// In order.
    dated: Vec<Dated>,
    bodyweights: Vec<Bodyweight>,
    /// Sessions that were written twice, in order of date.
    again: Vec<(NaiveDate, Again)>,
    near: NearLifts,
    /// Problems that rest on other pages too: of blocks, and those that are found last.
    of_blocks: Vec<(PageId, Problem)>,
    late: Vec<(PageId, Problem)>,
    /// What was found on each page, where pages are joined to be mended.
    found: Vec<Found>,
    mode: Mode,
}

/// What pages are joined for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mode {
    /// One answer: the pages give what they hold.
    Once,
    /// Many answers: it is joined again when pages change.
    Kept,
    /// The same as once, with each session by itself, wherever else it is written.
    Apart,
    /// What is to be mended on each page.
    Mended,
}

/// What joining made of a page.
#[derive(Debug, Default)]
struct Part {
    problems: Vec<Problem>,
    lost: u32,
    /// Of the page's own problems those whose fix does not help.
    without_fix: Vec<(Span, &'static str)>,
    /// Sessions of words alone.
    empty: Vec<Problem>,
    /// Where its dated headings stand, where the warnings that need the whole log are made.
    headings: Vec<(NaiveDate, u32, Span)>,
}

/// A session's place in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Dated {
    date: NaiveDate,
    minute: Option<u16>,
    page: usize,
    line: u32,
    bodyweight: Option<Mass>,
}

/// Pages that change.
struct Changes {
    of: Vec<bool>,
    all: bool,
}

impl Changes {
    fn holds(&self, page: usize) -> bool {
        self.all || self.of.get(page).copied().unwrap_or(true)
    }
}

/// Pages read once, joined.
pub(super) fn joined(
    lifter: &Lifter,
    paths: Vec<String>,
    pages: Vec<PageLog>,
    check_on: Option<NaiveDate>,
    mode: Mode,
) -> Reading {
    let mut whole = Whole::new(lifter, paths, check_on, mode);
    whole.join(lifter, pages.into_iter().map(Arc::new).enumerate().collect());
    Arc::unwrap_or_clone(whole.reading)
}

/// What is wrong with each of some pages read once, and how many lines count nowhere.
pub(super) fn found(lifter: &Lifter, paths: Vec<String>, pages: Vec<PageLog>) -> (Vec<Found>, u32) {
    let mut whole = Whole::new(lifter, paths, None, Mode::Mended);
    whole.join(lifter, pages.into_iter().map(Arc::new).enumerate().collect());
    (whole.found, whole.reading.log.left_out)
}

impl Whole {
    /// The log of pages of which none is read yet.
    pub(super) fn new(lifter: &Lifter, paths: Vec<String>, check_on: Option<NaiveDate>, mode: Mode) -> Whole {
        let pages = paths.len();
        let log = Log {
            lifter: lifter.name.clone(),
            lifts: Vec::new(),
            blocks: Vec::new(),
            sessions: Vec::new(),
            pages: paths.into_iter().map(Into::into).collect(),
            gear: lifter.gear.clone(),
            gyms: lifter.gyms.clone(),
            asked_gym: None,
            high_reps: lifter.high_reps,
            thresholds: lifter.thresholds.clone(),
            taper: lifter.taper,
            warm_up: lifter.warm_up.clone(),
            competitor: lifter.competitor.clone(),
            left_out: 0,
        };
        let counts = vec![Count::default(); pages];
        let (problems, days, tally) = (Vec::new(), Vec::new(), Tally::default());
        let reading = Reading { log, problems, counts, sessions: 0, days, tally };
        Whole {
            reading: Arc::new(reading),
            check_on,
            pages: std::iter::repeat_with(Arc::default).take(pages).collect(),
            parts: std::iter::repeat_with(Part::default).take(pages).collect(),
            works: Vec::new(),
            numbers: Numbers::default(),
            blocks: Blocks::default(),
            dated: Vec::new(),
            bodyweights: Vec::new(),
            again: Vec::new(),
            near: NearLifts::default(),
            of_blocks: Vec::new(),
            late: Vec::new(),
            found: Vec::new(),
            mode,
        }
    }

    /// Puts pages in the place of those that stood there.
    pub(super) fn join(&mut self, lifter: &Lifter, pages: Vec<(usize, Arc<PageLog>)>) {
        let mut changes = Changes { of: vec![false; self.pages.len()], all: pages.len() == self.pages.len() };
        for (at, page) in pages {
            if let Some((place, changed)) = self.pages.get_mut(at).zip(changes.of.get_mut(at)) {
                (*place, *changed) = (page, true);
            }
        }
        self.number(lifter, &mut changes);
        let (of_blocks, lost) = self.put_blocks(&mut changes);
        let dates = self.put_dates(&changes);
        self.put_sessions(&changes, &dates);
        self.weigh(&changes, &dates);
        let late = self.look_over(lifter);
        self.tell(&changes, of_blocks, late);
        let parts: u32 = self.parts.iter().map(|part| part.lost).sum();
        let twice: u32 = self.again.iter().map(|(_, again)| again.equal).sum();
        let own: u32 = self.pages.iter().map(|page| page.left_out).sum();
        let reading = Arc::make_mut(&mut self.reading);
        reading.log.left_out = own + lost + parts + twice;
        reading.sessions = self.pages.iter().map(|page| page.dated).sum();
        reading.tally = Tally::default();
        self.pages.iter().for_each(|page| reading.tally += page.tally);
    }

    /// The numbers of lifts; what stays of the log by them.
    fn number(&mut self, lifter: &Lifter, changes: &mut Changes) {
        self.works.retain(|work| !changes.holds(work.page));
        for (at, page) in self.pages.iter().enumerate().filter(|(at, _)| changes.holds(*at)) {
            self.works.extend(first_works(at, page));
        }
        self.works.sort_unstable();
        let numbers = Numbers::of(lifter, &self.pages, &self.works);
        if !changes.all {
            match numbers.moved(&self.numbers, |page| !changes.holds(page)) {
                None => changes.all = true,
                Some(moved) if moved.any => {
                    let sessions = Arc::make_mut(&mut self.reading).log.sessions.iter_mut();
                    let works = sessions.flat_map(|session| &mut session.works);
                    for work in works {
                        work.lift = moved.to(work.lift);
                        if let Some((other, _)) = work.details.as_mut().and_then(|all| all.instead_of.as_mut()) {
                            *other = moved.to(*other);
                        }
                    }
                }
                Some(_) => {}
            }
        }
        self.numbers = numbers;
    }

    /// The blocks of all pages, with what is wrong with them and the lines that this costs. Where they are others than
    /// before, so are all sessions.
    fn put_blocks(&mut self, changes: &mut Changes) -> (Vec<(PageId, Problem)>, u32) {
        let Whole { pages, numbers, .. } = self;
        let reading = Arc::make_mut(&mut self.reading);
        let mut placed = Vec::new();
        for ((page, map), id) in pages.iter().zip(&numbers.of_pages).zip(0..) {
            for block in &page.blocks {
                let of_log = |(lift, load): &(u32, _)| Some((*map.get(*lift as usize)?, Clone::clone(load)));
                let maxima = block.maxima.iter().filter_map(of_log).collect();
                placed.push(Placed { page: PageId(id), block: block.clone(), maxima });
            }
        }
        let mut problems = Vec::new();
        let path = |id: PageId| reading.log.page_path(id).to_owned();
        let (blocks, lost) = Blocks::of(placed, path, &mut problems);
        let name = |lifts: &[Lift], id: LiftId| lifts.get(id.0 as usize).map(|lift| lift.name.clone());
        let is_same = |(before, now): (&Block, &Block)| {
            let maxima = || before.maxima.iter().zip(&now.maxima);
            (&before.name, before.starts, before.ends, before.page, before.maxima.len())
                == (&now.name, now.starts, now.ends, now.page, now.maxima.len())
                && maxima().all(|((was, before), (is, now))| {
                    before == now && name(&reading.log.lifts, *was) == name(&numbers.lifts, *is)
                })
        };
        let before = &reading.log.blocks;
        changes.all |= before.len() != blocks.all.len() || !before.iter().zip(&blocks.all).all(is_same);
        reading.log.blocks.clone_from(&blocks.all);
        reading.log.lifts.clone_from(&numbers.lifts);
        self.blocks = blocks;
        (problems, lost)
    }

    /// The order of all sessions; the dates whose sessions are others than before.
    fn put_dates(&mut self, changes: &Changes) -> BTreeSet<NaiveDate> {
        let mut dates = BTreeSet::new();
        self.dated.retain(|session| {
            let stays = !changes.holds(session.page);
            if !stays {
                dates.insert(session.date);
            }
            stays
        });
        for (page, log) in self.pages.iter().enumerate().filter(|(at, _)| changes.holds(*at)) {
            self.dated.extend(log.sessions.iter().map(|session| {
                let PageSession { date, minute, line, bodyweight, .. } = *session;
                dates.insert(date);
                Dated { date, minute, page, line, bodyweight }
            }));
        }
        self.dated.sort_unstable();
        dates
    }

    /// Places the sessions of all dates that have others than before.
    fn put_sessions(&mut self, changes: &Changes, dates: &BTreeSet<NaiveDate>) {
        let on_a_date = self.dated.iter().filter(|session| changes.all || dates.contains(&session.date));
        let mut pages: BTreeSet<usize> = on_a_date.map(|session| session.page).collect();
        pages.extend((0..self.pages.len()).filter(|page| changes.holds(*page)));
        let mut sessions = Vec::new();
        for at in pages {
            let own = self.take(at, |page| &mut page.sessions, |page| &page.sessions);
            let Some(((page, part), map)) =
                self.pages.get(at).zip(self.parts.get_mut(at)).zip(self.numbers.of_pages.get(at))
            else {
                continue;
            };
            let changed = changes.holds(at);
            if changed {
                let headings = own.iter().map(|session| (session.date, session.line, session.span));
                part.headings = if self.check_on.is_some() { headings.collect() } else { Vec::new() };
                part.empty = self.check_on.map_or_else(Vec::new, |on| without_work(&own, on));
            }
            let id = PageId(at as u32);
            let around = Around { blocks: &self.blocks, lifts: &self.numbers.lifts };
            let mut placed = around.place(id, own, map, &page.percents, &page.on_maxima);
            if changed {
                if self.check_on.is_some() {
                    let spans = part.headings.iter().map(|(_, _, span)| *span);
                    let outside = whole_log::outside_blocks(id, &self.blocks.all, placed.sessions.iter().zip(spans));
                    placed.problems.extend(outside);
                }
                part.problems = placed.problems;
                (part.lost, part.without_fix) = (placed.lost, placed.without_fix);
            }
            let wanted = |session: &Session| changes.all || dates.contains(&session.date);
            sessions.extend(placed.sessions.into_iter().filter(wanted));
        }
        let key = |session: &Session| (session.date, session.minute, session.page, session.line);
        sessions.sort_by_key(key);
        let (mut sessions, again) = if self.mode == Mode::Apart { (sessions, Vec::new()) } else { unite(sessions) };
        let stays = |date: &NaiveDate| !changes.all && !dates.contains(date);
        self.again.retain(|(date, _)| stays(date));
        self.again.extend(again);
        self.again.sort_by_key(|(date, _)| *date);
        let all = &mut Arc::make_mut(&mut self.reading).log.sessions;
        if changes.all {
            *all = sessions;
        } else {
            all.retain(|session| stays(&session.date));
            all.append(&mut sessions);
            all.sort_by_key(key);
        }
    }

    /// Gives each session the latest bodyweight written on or before its date.
    fn weigh(&mut self, changes: &Changes, dates: &BTreeSet<NaiveDate>) {
        // The last one written on a date wins for the whole date, so dates are weighed before sessions.
        let mut by_date: Vec<Bodyweight> = Vec::new();
        for session in &self.dated {
            let Some(mass) = session.bodyweight else { continue };
            match by_date.last_mut() {
                Some(last) if last.date == session.date => last.mass = mass,
                _ => by_date.push(Bodyweight { mass, date: session.date }),
            }
        }
        let in_force = |date| {
            let at = by_date.partition_point(|own| own.date <= date);
            let own = at.checked_sub(1).and_then(|at| by_date.get(at)).copied();
            own.filter(|own: &Bodyweight| (date - own.date).num_days() <= BODYWEIGHT_DAYS)
        };
        let all = changes.all || by_date != self.bodyweights;
        for session in &mut Arc::make_mut(&mut self.reading).log.sessions {
            if all || dates.contains(&session.date) {
                session.bodyweight = in_force(session.date);
            }
        }
        self.bodyweights = by_date;
    }

    /// What is found once all is joined.
    fn look_over(&mut self, lifter: &Lifter) -> Vec<(PageId, Problem)> {
        let Whole { reading, pages, near, .. } = self;
        let mut late = Vec::new();
        if let Some(machine_date) = self.check_on {
            near.tell(&lifter.book, pages.iter().map(|page| page.lifts.as_slice()), &mut late);
            let places: Vec<_> = pages.iter().map(|page| page.places.as_slice()).collect();
            whole_log::warn(&reading.log, &places, machine_date, &mut late);
        }
        for (_, again) in &self.again {
            let (page, line) = again.first;
            let first = reading.log.place(page, line).to_string();
            let headings = self.parts.get(again.page.0 as usize).map_or(&[][..], |part| &part.headings);
            let span = headings.iter().find(|(_, line, _)| *line == again.line).map(|(_, _, span)| *span);
            let kind = K::SessionTwice { first, lines: again.equal };
            late.push((again.page, Problem::new(kind, span.unwrap_or_default())));
        }
        late
    }

    /// The problems of each page that changed, or of which others say something else than before.
    fn tell(&mut self, changes: &Changes, mut of_blocks: Vec<(PageId, Problem)>, mut late: Vec<(PageId, Problem)>) {
        of_blocks.sort_by_key(|(page, _)| *page);
        late.sort_by_key(|(page, _)| *page);
        let mut before = std::mem::take(&mut Arc::make_mut(&mut self.reading).problems).into_iter().peekable();
        let mut problems = Vec::new();
        for at in 0..self.pages.len() {
            let id = PageId(at as u32);
            let stays = !changes.holds(at)
                && of_page(&of_blocks, id) == of_page(&self.of_blocks, id)
                && of_page(&late, id) == of_page(&self.late, id);
            while let Some(problem) = before.next_if(|(page, _)| *page <= id) {
                if stays {
                    problems.push(problem);
                }
            }
            if !stays {
                let found = self.found_on(at, of_page(&of_blocks, id), of_page(&late, id));
                if self.mode == Mode::Mended {
                    self.found.push(found);
                    continue;
                }
                let (told, count) = found.told();
                problems.extend(told.into_iter().map(|problem| (id, problem)));
                if let Some(of_page) = Arc::make_mut(&mut self.reading).counts.get_mut(at) {
                    *of_page = count;
                }
            }
        }
        (self.of_blocks, self.late) = (of_blocks, late);
        let headings = self
            .parts
            .iter()
            .zip(0..)
            .flat_map(|(part, id)| part.headings.iter().map(move |(date, line, _)| (*date, PageId(id), *line)));
        let reading = Arc::make_mut(&mut self.reading);
        (reading.problems, reading.days) = (problems, headings.collect());
    }

    /// What is wrong with a page, in itself and beside the others.
    fn found_on(&mut self, at: usize, of_blocks: &[(PageId, Problem)], late: &[(PageId, Problem)]) -> Found {
        let mut found = match self.pages.get_mut(at) {
            None => Found::default(),
            Some(page) => match Arc::get_mut(page).filter(|_| self.mode != Mode::Kept) {
                Some(page) => std::mem::take(&mut page.problems),
                None => page.problems.clone(),
            },
        };
        found.settle();
        let Some(part) = self.parts.get(at) else { return found };
        for (span, kind) in &part.without_fix {
            found.at(*span, kind).into_iter().for_each(|problem| problem.fix = None);
        }
        let other = |all: &[(PageId, Problem)]| all.iter().map(|(_, problem)| problem.clone()).collect::<Vec<_>>();
        let all =
            part.empty.iter().cloned().chain(other(of_blocks)).chain(part.problems.iter().cloned()).chain(other(late));
        all.for_each(|problem| found.push(problem));
        found.settle();
        found
    }

    /// What a page holds: a copy where the page is joined again later.
    fn take<T: Clone>(
        &mut self,
        at: usize,
        of: impl Fn(&mut PageLog) -> &mut Vec<T>,
        copied: impl Fn(&PageLog) -> &Vec<T>,
    ) -> Vec<T> {
        let Some(page) = self.pages.get_mut(at) else { return Vec::new() };
        match Arc::get_mut(page).filter(|_| self.mode != Mode::Kept) {
            Some(page) => std::mem::take(of(page)),
            None => copied(page).clone(),
        }
    }
}

/// The problems of a page, of some in order of pages.
fn of_page(all: &[(PageId, Problem)], page: PageId) -> &[(PageId, Problem)] {
    let first = all.partition_point(|(of, _)| *of < page);
    let rest = all.get(first..).unwrap_or_default();
    rest.get(..rest.partition_point(|(of, _)| *of == page)).unwrap_or_default()
}

/// The sessions of a page that are over and hold words and no work.
fn without_work(sessions: &[PageSession], machine_date: NaiveDate) -> Vec<Problem> {
    let empty =
        sessions.iter().filter(|session| session.prose && session.works.is_empty() && session.date < machine_date);
    empty.map(|session| Problem::new(K::SessionWithoutWork { date: session.date.to_string() }, session.span)).collect()
}
