//! One page, by itself. Pages are read side by side; what needs the others is left open here.

use super::back::Back;
use super::context::Context;
use super::found::Found;
use super::groups::{Carried, Line};
use super::gyms::{Elsewhere, unknown_gym};
use super::loose::{Decided, Looser, Verdict};
use super::page_log::{
    OnMaximum, PageBlock, PageLift, PageLog, PageSession, PageWork, Percent, Place, Side, own_lifts, push_lean,
};
use super::plans::Taken;
use super::trials::{Around, Passage};
use crate::notation::Reader;
use crate::notation::nodes::{
    Attribute, Body, Detail, DetailKey, Fact, Group as WrittenGroup, Line as WrittenLine, LineKind, SessionHeading,
    Work as WrittenWork, Written,
};
use crate::problems::{Cost, Problem, ProblemKind as K};
use crate::source::{Cut, Page, PageId, Span};
use crate::training::{Group, GymId, Load, Mass, Pain, Remark, RemarkKind, Status, Unit, fold};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

/// Kilograms: who weighs less, or more, has most likely written the other unit's number (common practice, no source).
const LIGHTEST: i64 = 30;
const HEAVIEST: i64 = 250;

/// Reads one page: as it stands, and where lines are typed loosely once more with those in the notation.
pub(crate) fn read(context: &Context<'_>, page: &Page) -> PageLog {
    let (mut log, Decided { mut edits, verdicts, problems }) = as_typed(context, page);
    edits.sort();
    let written = if edits.is_empty() { None } else { page.edited(&edits) };
    let Some(written) = written else {
        log.problems.append(problems);
        return log;
    };
    // Both would be long where the page is.
    drop(log);
    let back = Back::through(&edits);
    let elsewhere = Elsewhere::of(context, &written);
    let mut log = PageReading::of(context, &elsewhere, &written, Loosely::Decided(verdicts)).all();
    log.moved(&back);
    log.problems.append(problems);
    log
}

/// What a page says but for its loose lines, and what was decided about these.
fn as_typed(context: &Context<'_>, page: &Page) -> (PageLog, Decided) {
    let elsewhere = Elsewhere::of(context, page);
    let looser = Box::new(Looser::new(context, page));
    let mut reading = PageReading::of(context, &elsewhere, page, Loosely::Deciding(looser));
    let log = reading.all();
    match reading.loosely {
        Loosely::Deciding(looser) => (log, looser.all_decided()),
        Loosely::Decided(_) => (log, Decided::default()),
    }
}

/// A page with its loose lines in the notation, where it has any.
pub(crate) fn in_the_notation(context: &Context<'_>, page: &Page) -> Option<Page> {
    let (log, mut decided) = as_typed(context, page);
    // What is typed loosely may be of a lift that only this page has.
    let others = if log.waits { own_lifts(std::iter::once(&log)) } else { BTreeMap::new() };
    if !others.is_empty() {
        decided = as_typed(&Context { others: &others, ..*context }, page).1;
    }
    let Decided { edits, .. } = decided;
    if edits.is_empty() { None } else { page.edited(&edits) }
}

/// Loose lines are decided about, or were.
pub(super) enum Loosely<'c, 'a> {
    Deciding(Box<Looser<'c, 'a>>),
    Decided(HashMap<u32, Verdict>),
}

/// What the lines being read belong to.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Under {
    Nothing,
    Block,
    Session,
    /// Below a heading that is no date.
    BadSession,
}

/// An `as planned` line that waits for its plan.
pub(super) struct Planned<'a> {
    pub(super) attributes: Vec<Attribute<'a>>,
    pub(super) span: Span,
    pub(super) plan: Option<Taken>,
    pub(super) plan_text: String,
}

pub(super) struct PageReading<'c, 'a, 'b> {
    pub(super) context: &'c Context<'b>,
    /// What holds where no gym is named, and where one is.
    home: &'c Context<'b>,
    elsewhere: &'c Elsewhere<'b>,
    pub(super) page: &'a Page,
    pub(super) loosely: Loosely<'c, 'b>,
    pub(super) log: PageLog,
    pub(super) lifts: foldhash::HashMap<&'a str, u32>,
    folded: HashMap<String, u32>,
    pub(super) line: u32,
    pub(super) under: Under,
    pub(super) carried: Carried,
    pub(super) planned: Option<Planned<'a>>,
    pub(super) around: Around<'a>,
    /// Headings that are no date: the place of the problem, and the session before.
    pub(super) open_dates: Vec<(Span, Option<NaiveDate>)>,
}

impl<'c, 'a: 'c, 'b> PageReading<'c, 'a, 'b> {
    fn of(context: &'c Context<'b>, elsewhere: &'c Elsewhere<'b>, page: &'a Page, loosely: Loosely<'c, 'b>) -> Self {
        PageReading {
            context,
            home: context,
            elsewhere,
            page,
            loosely,
            log: PageLog { problems: Found::new(context.keep), ..PageLog::default() },
            lifts: foldhash::HashMap::default(),
            folded: HashMap::new(),
            line: 0,
            under: Under::Nothing,
            carried: Carried::Default,
            planned: None,
            around: Around::new(read),
            open_dates: Vec::new(),
        }
    }

    /// Reads all lines.
    fn all(&mut self) -> PageLog {
        for line in Reader::new(self.page) {
            self.line += 1;
            self.take(line);
        }
        self.end_work();
        self.dates_between(None);
        std::mem::take(&mut self.log)
    }

    pub(super) fn span(&self, piece: &str) -> Span {
        Span::of(self.page.text(), piece)
    }

    fn take(&mut self, mut line: WrittenLine<'a>) {
        let text = line.text;
        let verdict = match &mut self.loosely {
            Loosely::Deciding(looser) => looser.see(&line, self.line),
            Loosely::Decided(verdicts) => verdicts.remove(&self.line),
        };
        if let Some(verdict) = verdict
            && !self.goes_on(verdict, &mut line)
        {
            return;
        }
        self.count(&line);
        let mut problems = line.problems;
        // What is not shown need not be tried.
        let passage = if self.context.careful { Passage::of(text, &line.kind) } else { Passage::None };
        match line.kind {
            LineKind::Prose if self.under == Under::Block => self.start_misspelled(&problems),
            LineKind::Prose | LineKind::Opaque | LineKind::MergeMarker => {}
            LineKind::Heading { ends } => {
                self.end_work();
                if ends {
                    self.context = self.home;
                    self.under = Under::Nothing;
                }
            }
            LineKind::Block(heading) => {
                self.end_work();
                self.context = self.home;
                self.under = Under::Block;
                let span = self.span(text.trim());
                let block = PageBlock {
                    name: heading.name.into(),
                    span,
                    line: self.line,
                    has_keys: heading.has_keys,
                    ..PageBlock::default()
                };
                self.log.blocks.push(block);
            }
            LineKind::BlockKey(name, key) => self.block_key(name, key.map(|key| key.value), text, &mut problems),
            LineKind::Session(heading) => {
                self.end_work();
                self.context = self.elsewhere.at(self.line).unwrap_or(self.home);
                self.under = Under::Session;
                self.dates_between(Some(heading.date.value));
                self.session(*heading, text);
            }
            LineKind::BadSession => {
                self.end_work();
                self.context = self.home;
                self.under = Under::BadSession;
                let open = |problem: &Problem| matches!(problem.kind, K::NotADate { .. }) && problem.fix.is_none();
                if let Some(open) = problems.iter().find(|problem| open(problem)) {
                    self.open_dates.push((open.span, self.log.sessions.last().map(|last| last.date)));
                }
            }
            LineKind::Fact(fact) => self.fact(fact, &mut problems),
            LineKind::SessionNote(note) => self.session_note(note),
            LineKind::Work(work) => self.work(work, &mut problems, true),
            LineKind::SetLine(groups) => self.set_line(&groups, &mut problems),
            LineKind::Detail(detail) => self.detail(detail, &mut problems),
        }
        if self.context.careful {
            if !self.log.problems.is_full(self.span(text.head(0))) {
                for problem in self.around.keep_what_helps(self.context, self.page, text, &mut problems) {
                    self.on_maximum(problem, passage, &mut problems);
                }
            }
            self.around.pass(text, passage);
        }
        self.note(problems);
    }

    /// Whether a line that was decided about is taken all the same, and as what.
    fn goes_on(&mut self, verdict: Verdict, line: &mut WrittenLine<'a>) -> bool {
        match verdict {
            // What is written anew is taken when the page is read with it.
            Verdict::Loose if matches!(self.loosely, Loosely::Deciding(_)) => {
                self.end_work();
                return false;
            }
            Verdict::Loose => return true,
            Verdict::Refused { waits } => {
                self.log.left_out += 1;
                self.log.waits |= waits && self.context.others.is_empty();
                self.refused(std::mem::replace(&mut line.kind, LineKind::Prose));
                return false;
            }
            Verdict::Said => self.log.left_out += 1,
            Verdict::Prose => line.kind = LineKind::Prose,
        }
        line.problems.clear();
        true
    }

    /// What `check` says at its end: how many lines were read as what.
    fn count(&mut self, line: &WrittenLine<'a>) {
        let tally = &mut self.log.tally;
        match &line.kind {
            LineKind::Work(work) if !work.lost && self.under == Under::Session => {
                tally.work += u32::from(matches!(work.body, Body::Groups(_) | Body::AsPlanned(..)));
            }
            LineKind::SetLine(groups) if self.under == Under::Session => tally.work += u32::from(!groups.is_empty()),
            LineKind::Detail(Detail { key: DetailKey::Plan, lost: false, .. }) => tally.planned += 1,
            LineKind::Prose if line.typed && !line.blank => {
                tally.prose += 1;
                if let Some(session) = self.current() {
                    session.prose = true;
                }
            }
            _ => {}
        }
    }

    /// A line that counts nowhere: sets further down are still those of its lift, where it has one.
    fn refused(&mut self, kind: LineKind<'a>) {
        match kind {
            LineKind::Work(mut work) => {
                work.lost = true;
                self.work(work, &mut Vec::new(), false);
            }
            LineKind::SetLine(_) => self.carried = Carried::Lost,
            LineKind::Detail(detail) if detail.lost => self.detail(detail, &mut Vec::new()),
            _ => {}
        }
    }

    /// A fix that makes a percentage of a load: whether there is a maximum shows once all pages are read.
    fn on_maximum(&mut self, at: usize, passage: Passage, problems: &mut [Problem]) {
        let of_work = !matches!(passage, Passage::None) && self.under == Under::Session;
        let lift = self.current_work().filter(|_| of_work).map(|work| work.lift);
        match (lift, problems.get_mut(at)) {
            (Some(lift), Some(problem)) => {
                let session = self.log.sessions.len().saturating_sub(1);
                self.log.on_maxima.push(OnMaximum { problem: (problem.span, problem.kind.name()), session, lift });
            }
            (None, Some(problem)) => problem.fix = None,
            _ => {}
        }
    }

    /// Keeps the problems of a line, and counts the line where one of them costs it.
    #[inline]
    pub(super) fn note(&mut self, problems: Vec<Problem>) {
        if problems.iter().any(|problem| problem.kind.cost() == Cost::Line) {
            self.log.left_out += 1;
        }
        problems.into_iter().for_each(|problem| self.log.problems.push(problem));
    }

    pub(super) fn lift(&mut self, name: &'a str) -> u32 {
        if let Some(known) = self.lifts.get(name) {
            return *known;
        }
        let folded = fold(name);
        let next = self.log.lifts.len() as u32;
        let number = *self.folded.entry(folded.clone()).or_insert(next);
        if number == next {
            let entry = self.context.book.find_folded(&folded);
            let (in_book, bodyweight) = (entry.is_some(), entry.is_some_and(|entry| entry.bodyweight));
            let spelled = name.split_whitespace().collect::<Vec<_>>().join(" ");
            self.log.lifts.push(PageLift {
                name: spelled,
                folded,
                bodyweight,
                in_book,
                worked: false,
                span: self.span(name),
                first: None,
            });
        }
        self.lifts.insert(name, number);
        number
    }

    /// A lift that no book has is shown as its earliest session spells it.
    fn spelled(&mut self, lift: u32, name: &str) {
        let Some(when) = self.current().map(|session| (session.date, session.minute)) else { return };
        let Some(known) = self.log.lifts.get_mut(lift as usize) else { return };
        if known.first.is_none_or(|first| when < first) {
            if known.first.is_some() || known.name != name {
                known.name = name.split_whitespace().collect::<Vec<_>>().join(" ");
            }
            known.first = Some(when);
        }
    }

    fn session(&mut self, heading: SessionHeading<'a>, text: &'a str) {
        self.log.dated += 1;
        let span = self.span(heading.block.unwrap_or_else(|| text.trim()));
        self.log.sessions.push(PageSession {
            date: heading.date.value,
            minute: heading.minute.map(|minute| minute.value),
            day: heading.day.map(Into::into),
            week: heading.week.map(|week| week.value),
            block: heading.block.map(Into::into),
            deload: heading.deload,
            peak: heading.peak,
            test_day: heading.test_day,
            meet: heading.meet.map(Into::into),
            gym: None,
            line: self.line,
            span,
            bodyweight: None,
            sleep: None,
            duration: None,
            rpe: None,
            prose: false,
            works: Vec::new(),
            notes: Vec::new(),
            pains: Vec::new(),
        });
    }

    /// The session being read, where it counts.
    pub(super) fn current(&mut self) -> Option<&mut PageSession> {
        if self.under == Under::Session { self.log.sessions.last_mut() } else { None }
    }

    fn fact(&mut self, fact: Option<Written<'a, Fact<'a>>>, problems: &mut Vec<Problem>) {
        self.end_work();
        let (units, gyms, line) = (self.context.units, self.context.gyms, self.line);
        let Some(Written { text, value }) = fact else { return };
        let span = self.span(text);
        let Some(session) = self.current() else { return };
        match value {
            Fact::Bodyweight(number, unit) => {
                let read = Mass::of(number.thousandths, unit.unwrap_or(units));
                session.bodyweight = Some(read);
                if !(Mass::kg(LIGHTEST)..=Mass::kg(HEAVIEST)).contains(&read) {
                    let unit = unit.unwrap_or(units);
                    let other = if unit == Unit::Kg { Unit::Lb } else { Unit::Kg };
                    let words = |unit| crate::training::words::mass(Mass::of(number.thousandths, unit), unit);
                    let kind = K::UnlikelyBodyweight { read: words(unit), other: words(other) };
                    problems.push(Problem::new(kind, span));
                }
            }
            Fact::Sleep(minutes) => session.sleep = u16::try_from(minutes).ok(),
            Fact::Duration(minutes) => session.duration = u16::try_from(minutes).ok(),
            Fact::SessionRpe(number) => session.rpe = u32::try_from(number.thousandths).ok(),
            Fact::Pain(site, number) => {
                let tenths = u32::try_from(number.thousandths / 100).unwrap_or(0);
                push_lean(&mut session.pains, Pain { site: site.into(), tenths, page: PageId::default(), line });
            }
            Fact::Gym(name) => match GymId::named(gyms, name) {
                Some(gym) => session.gym = Some(gym),
                None => problems.push(unknown_gym(gyms, name, span)),
            },
        }
    }

    fn session_note(&mut self, note: &'a str) {
        self.end_work();
        let line = self.line;
        if let Some(session) = self.current() {
            session.notes.push(Remark { kind: RemarkKind::Note, text: note.into(), page: PageId::default(), line });
        }
    }

    fn work(&mut self, work: WrittenWork<'a>, problems: &mut Vec<Problem>, count_lost: bool) {
        self.end_work();
        self.carried = Carried::Default;
        let lift = self.lift(work.name);
        let name = self.span(work.name);
        self.spelled(lift, work.name);
        let mut skipped_because = None;
        let (status, groups) = match work.body {
            _ if work.lost => {
                self.carried = Carried::Lost;
                (Status::Done, Vec::new())
            }
            Body::Nothing => (Status::Nothing, Vec::new()),
            Body::Skipped(why) => {
                skipped_because = why;
                (Status::Skipped, Vec::new())
            }
            Body::AsPlanned(attributes, words) => {
                let span = self.span(words.trim_end());
                self.planned = Some(Planned { attributes, span, plan: None, plan_text: String::new() });
                (Status::AsPlanned, Vec::new())
            }
            Body::Groups(groups) => {
                if let Some(known) = self.log.lifts.get_mut(lift as usize) {
                    known.worked = true;
                }
                (Status::Done, self.groups(&groups, lift, name, problems))
            }
        };
        // A line that is lost but names its lift still takes set lines and details.
        let mut work = PageWork { lift, line: self.line, status, groups, details: None };
        if let Some(why) = skipped_because {
            work.details.get_or_insert_with(Box::default).skipped_because = Some(why.into());
        }
        match self.under {
            Under::Session => {
                if let Some(session) = self.log.sessions.last_mut() {
                    session.works.push(work);
                }
            }
            _ => {
                // Below a heading that is no date the line counts nowhere, and is said to.
                let counted = problems.iter().any(|problem| problem.kind.cost() == Cost::Line);
                self.log.left_out += u32::from(!counted && count_lost);
            }
        }
        self.keep_percents();
    }

    /// The groups of a line, with the places of those that wait for a maximum.
    fn groups(
        &mut self,
        written: &[WrittenGroup<'a>],
        lift: u32,
        name: Span,
        problems: &mut Vec<Problem>,
    ) -> Vec<Group> {
        let bodyweight = self.log.lifts.get(lift as usize).is_some_and(|lift| lift.bodyweight);
        let line = Line { context: self.context, page: self.page, line: self.line, bodyweight };
        let Some(read) = line.groups(written, &mut self.carried, problems) else { return Vec::new() };
        if self.context.keeps_places() && self.under == Under::Session {
            for group in written {
                let count = self.span(group.count.text);
                let load = group.load.as_ref().map_or(count, |load| self.span(load.text));
                // `3x5x60 kg`: the word must not run into the sign behind it.
                let glued = self
                    .page
                    .text()
                    .get(count.end as usize..)
                    .is_some_and(|rest| rest.starts_with(char::is_alphabetic));
                let side = if glued { Side::Parted } else { Side::Behind };
                self.log.places.push(Place { line: self.line, name, count, load, side });
            }
        }
        if read.iter().any(|group| matches!(group.load, Load::Percent(_))) && self.under == Under::Session {
            let written = written.iter().find_map(|group| group.load.as_ref());
            let span = written.map_or(name, |load| self.span(load.text));
            self.log.percents.push(Percent {
                session: usize::MAX,
                work: usize::MAX,
                line: self.line,
                span,
                repeats: false,
            });
        }
        read
    }

    /// Ties the percentages just read to the work they stand in.
    pub(super) fn keep_percents(&mut self) {
        let session = self.log.sessions.len().wrapping_sub(1);
        let work = self.log.sessions.last().map_or(0, |session| session.works.len().wrapping_sub(1));
        for percent in self.log.percents.iter_mut().rev().take_while(|percent| percent.session == usize::MAX) {
            percent.session = session;
            percent.work = work;
        }
    }

    /// The work line being read, where it counts.
    pub(super) fn current_work(&mut self) -> Option<&mut PageWork> {
        self.current().and_then(|session| session.works.last_mut())
    }

    fn set_line(&mut self, written: &[WrittenGroup<'a>], problems: &mut Vec<Problem>) {
        let Some(first) = written.first() else {
            // Sets that were lost were done all the same.
            self.carried = Carried::Lost;
            if let Some(work) = self.current_work().filter(|work| work.status == Status::Nothing) {
                work.status = Status::Done;
            }
            return;
        };
        let Some((lift, status)) = self.current_work().map(|work| (work.lift, work.status)) else {
            // Below a heading that is no date the sets are read for their errors only.
            let line = Line { context: self.context, page: self.page, line: self.line, bodyweight: false };
            let _ = line.groups(written, &mut self.carried, problems);
            return;
        };
        let name = self.span(first.text);
        let read = self.groups(written, lift, name, problems);
        let skipped = status == Status::Skipped && !read.is_empty();
        if let Some(work) = self.current_work() {
            if skipped || work.status == Status::Nothing {
                work.status = Status::Done;
            }
            if work.groups.is_empty() {
                work.groups = read;
            } else {
                work.groups.extend(read);
            }
        }
        if skipped {
            problems.push(Problem::new(K::SkippedButDone, name));
        }
        self.keep_percents();
    }
}
