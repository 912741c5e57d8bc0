//! One page, by itself. Pages are read side by side; what needs the others is left open here.

use super::context::Context;
use super::drafts::push_lean;
use super::drafts::{BlockDraft, LiftDraft, OnMaximum, PageLog, Percent, Place, SessionDraft, WorkDraft};
use super::groups::{Carried, Line};
use super::loads::{as_load, load};
use super::planned::planned;
use super::plans::{Taken, attributed, taken_over};
use super::trials::{Around, Passage};
use crate::notation::Reader;
use crate::notation::nodes::{
    Attribute, BlockKey, Body, Detail, DetailKey, Fact, Group as WrittenGroup, Line as WrittenLine, LineKind,
    SessionHeading, Work as WrittenWork,
};
use crate::problems::{Cost, Problem, ProblemKind as K};
use crate::source::{Page, Span};
use crate::training::{Group, LiftId, Load, Mass, Pain, Plan, Remark, RemarkKind, Status, fold};
use std::collections::HashMap;

/// Reads one page.
pub(crate) fn read<'a>(context: &Context<'a>, page: &'a Page) -> PageLog {
    let mut reading = PageReading {
        context,
        page,
        log: PageLog::default(),
        lifts: HashMap::new(),
        line: 0,
        under: Under::Nothing,
        carried: Carried::Default,
        planned: None,
        around: Around::default(),
    };
    for line in Reader::new(page) {
        reading.line += 1;
        reading.take(line);
    }
    reading.end_work();
    reading.log
}

/// What the lines being read belong to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Under {
    Nothing,
    Block,
    Session,
    /// Below a heading that is no date.
    BadSession,
}

/// An `as planned` line that waits for its plan.
struct Planned<'a> {
    attributes: Vec<Attribute<'a>>,
    span: Span,
    plan: Option<Taken>,
    plan_text: String,
}

struct PageReading<'c, 'a> {
    context: &'c Context<'a>,
    page: &'a Page,
    log: PageLog,
    lifts: HashMap<&'a str, u32>,
    line: u32,
    under: Under,
    carried: Carried,
    planned: Option<Planned<'a>>,
    around: Around<'a>,
}

impl<'a> PageReading<'_, 'a> {
    fn span(&self, piece: &str) -> Span {
        Span::of(self.page.text(), piece)
    }

    fn take(&mut self, line: WrittenLine<'a>) {
        let text = line.text;
        let mut problems = line.problems;
        let passage = Passage::of(text, &line.kind);
        match line.kind {
            LineKind::Prose if self.under == Under::Block => self.start_misspelled(&problems),
            LineKind::Prose | LineKind::Opaque | LineKind::MergeMarker => {}
            LineKind::Heading { ends } => {
                self.end_work();
                if ends {
                    self.under = Under::Nothing;
                }
            }
            LineKind::Block(heading) => {
                self.end_work();
                self.under = Under::Block;
                let span = self.span(text.trim());
                let draft = BlockDraft {
                    name: heading.name.into(),
                    span,
                    line: self.line,
                    has_keys: heading.has_keys,
                    ..BlockDraft::default()
                };
                self.log.blocks.push(draft);
            }
            LineKind::BlockKey(name, key) => self.block_key(name, key.map(|key| key.value), text, &mut problems),
            LineKind::Session(heading) => {
                self.end_work();
                self.under = Under::Session;
                self.session(heading, text);
            }
            LineKind::BadSession => {
                self.end_work();
                self.under = Under::BadSession;
            }
            LineKind::Fact(fact) => self.fact(fact.map(|fact| fact.value)),
            LineKind::SessionNote(note) => self.session_note(note),
            LineKind::Work(work) => self.work(work, &mut problems),
            LineKind::SetLine(groups) => self.set_line(&groups, &mut problems),
            LineKind::Detail(detail) => self.detail(detail, &mut problems),
        }
        if self.context.careful {
            for problem in self.around.keep_what_helps(self.context, self.page, text, &mut problems) {
                self.on_maximum(problem, passage, &mut problems);
            }
            self.around.pass(text, passage);
        }
        self.note(problems);
    }

    /// A fix that makes a percentage of a load: whether there is a maximum shows once all pages are read.
    fn on_maximum(&mut self, at: usize, passage: Passage, problems: &mut [Problem]) {
        let of_work = !matches!(passage, Passage::None) && self.under == Under::Session;
        let lift = self.current_work().filter(|_| of_work).map(|work| work.lift);
        match (lift, problems.get_mut(at)) {
            (Some(lift), _) => {
                let (problem, session) = (self.log.problems.len() + at, self.log.sessions.len().saturating_sub(1));
                self.log.on_maxima.push(OnMaximum { problem, session, lift });
            }
            (None, Some(problem)) => problem.fix = None,
            _ => {}
        }
    }

    /// A start that is there but for its key or bullet has had its problem: the block lacks none.
    fn start_misspelled(&mut self, problems: &[Problem]) {
        let page = self.page.text();
        let nearly = |problem: &Problem| match problem.kind {
            K::NearKey { known, .. } => known == "starts",
            K::LooksLikeBlock { .. } => problem.span.text(page).to_ascii_lowercase().starts_with("starts"),
            _ => false,
        };
        if let Some(block) = self.log.blocks.last_mut().filter(|_| problems.iter().any(nearly)) {
            block.start_written = true;
        }
    }

    /// Keeps the problems of a line, and counts the line where one of them costs it.
    fn note(&mut self, problems: Vec<Problem>) {
        if problems.iter().any(|problem| problem.kind.cost() == Cost::Line) {
            self.log.left_out += 1;
        }
        self.log.problems.extend(problems);
    }

    fn lift(&mut self, name: &'a str) -> u32 {
        if let Some(known) = self.lifts.get(name) {
            return *known;
        }
        let folded = fold(name);
        let number = match self.log.lifts.iter().position(|lift| lift.folded == folded) {
            Some(at) => at,
            None => {
                let bodyweight = self.context.book.find_folded(&folded).is_some_and(|entry| entry.bodyweight);
                let spelled = name.split_whitespace().collect::<Vec<_>>().join(" ");
                self.log.lifts.push(LiftDraft {
                    name: spelled,
                    folded,
                    bodyweight,
                    span: self.span(name),
                    first: None,
                });
                self.log.lifts.len() - 1
            }
        } as u32;
        self.lifts.insert(name, number);
        number
    }

    /// A lift that no book has is shown as its earliest session spells it.
    fn spelled(&mut self, lift: u32, name: &str) {
        let Some(when) = self.current().map(|session| (session.date, session.minute)) else { return };
        let Some(draft) = self.log.lifts.get_mut(lift as usize) else { return };
        if draft.first.is_none_or(|first| when < first) {
            if draft.first.is_some() || draft.name != name {
                draft.name = name.split_whitespace().collect::<Vec<_>>().join(" ");
            }
            draft.first = Some(when);
        }
    }

    fn block_key(
        &mut self,
        name: crate::notation::nodes::BlockKeyName,
        key: Option<BlockKey<'a>>,
        text: &'a str,
        problems: &mut Vec<Problem>,
    ) {
        use crate::notation::nodes::{BlockKeyName as Name, Written};
        let maximum = match key {
            Some(BlockKey::Max { lift, load: ref written }) => match load(self.context, self.page, written, problems) {
                Ok(Load::Percent(_)) => {
                    let wanted = "a lift and its load, such as Back squat 200 kg";
                    problems.push(Problem::new(K::UnreadBlockValue { key: "max", wanted }, self.span(written.text)));
                    None
                }
                Ok(load) => Some((self.lift(lift), load)),
                Err(problem) => {
                    problems.push(as_load(self.page, problem));
                    None
                }
            },
            _ => None,
        };
        let Some(block) = self.log.blocks.last_mut() else { return };
        let numbers = |weeks: &[Written<'_, u32>]| weeks.iter().map(|week| week.value).collect::<Vec<_>>();
        let twice = match (&key, name) {
            (None, Name::Starts) => {
                block.start_written = true;
                false
            }
            (Some(BlockKey::Starts(date)), _) => {
                block.start_written = true;
                put(&mut block.starts, *date)
            }
            (Some(BlockKey::Weeks(weeks)), _) => put(&mut block.weeks, *weeks),
            (Some(BlockKey::Phase(phase)), _) => put(&mut block.phase, (*phase).to_owned()),
            (Some(BlockKey::Goal(goal)), _) => put(&mut block.goal, (*goal).to_owned()),
            (Some(BlockKey::Deload(weeks)), _) => put(&mut block.deload, numbers(weeks)),
            (Some(BlockKey::Peak(weeks)), _) => put(&mut block.peak, numbers(weeks)),
            _ => false,
        };
        block.maxima.extend(maximum);
        if twice {
            let key = match name {
                Name::Starts => "starts",
                Name::Weeks => "weeks",
                Name::Phase => "phase",
                Name::Goal => "goal",
                Name::Deload => "deload",
                Name::Peak => "peak",
                Name::Max => "max",
            };
            problems.push(Problem::new(K::RepeatedBlockKey { key }, self.span(text.trim())));
        }
    }

    fn session(&mut self, heading: SessionHeading<'a>, text: &'a str) {
        self.log.dated += 1;
        let span = self.span(heading.block.unwrap_or_else(|| text.trim()));
        self.log.sessions.push(SessionDraft {
            date: heading.date.value,
            minute: heading.minute.map(|minute| minute.value),
            day: heading.day.map(Into::into),
            week: heading.week.map(|week| week.value),
            block: heading.block.map(Into::into),
            deload: heading.deload,
            peak: heading.peak,
            test_day: heading.test_day,
            meet: heading.meet.map(Into::into),
            line: self.line,
            span,
            bodyweight: None,
            works: Vec::new(),
            notes: Vec::new(),
            pains: Vec::new(),
        });
    }

    /// The session being read, where it counts.
    fn current(&mut self) -> Option<&mut SessionDraft> {
        if self.under == Under::Session { self.log.sessions.last_mut() } else { None }
    }

    fn fact(&mut self, fact: Option<Fact<'a>>) {
        self.end_work();
        let (units, line) = (self.context.units, self.line);
        let Some(session) = self.current() else { return };
        match fact {
            Some(Fact::Bodyweight(number, unit)) => {
                session.bodyweight = Some(Mass::of(number.thousandths, unit.unwrap_or(units)));
            }
            Some(Fact::Pain(site, number)) => {
                let tenths = u32::try_from(number.thousandths / 100).unwrap_or(0);
                push_lean(&mut session.pains, Pain { site: site.into(), tenths, line });
            }
            _ => {}
        }
    }

    fn session_note(&mut self, note: &'a str) {
        self.end_work();
        let line = self.line;
        if let Some(session) = self.current() {
            session.notes.push(Remark { kind: RemarkKind::Note, text: note.into(), line });
        }
    }

    fn work(&mut self, work: WrittenWork<'a>, problems: &mut Vec<Problem>) {
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
            Body::Groups(groups) => (Status::Done, self.groups(&groups, lift, name, problems)),
        };
        // A line that is lost but names its lift still takes set lines and details.
        let mut work = WorkDraft { lift, line: self.line, status, groups, details: None };
        if let Some(why) = skipped_because {
            let remark = Remark { kind: RemarkKind::Note, text: format!("skipped: {why}").into(), line: self.line };
            work.details.get_or_insert_with(Box::default).remarks.push(remark);
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
                self.log.left_out += u32::from(!counted);
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
        if self.context.careful && self.under == Under::Session {
            for group in written {
                let count = self.span(group.count.text);
                let load = group.load.as_ref().map_or(count, |load| self.span(load.text));
                // `3x5x60 kg`: the word must not run into the sign behind it.
                let glued = self
                    .page
                    .text()
                    .get(count.end as usize..)
                    .is_some_and(|rest| rest.starts_with(char::is_alphabetic));
                let side = if glued { "/side " } else { "/side" };
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
    fn keep_percents(&mut self) {
        let session = self.log.sessions.len().wrapping_sub(1);
        let work = self.log.sessions.last().map_or(0, |session| session.works.len().wrapping_sub(1));
        for percent in self.log.percents.iter_mut().rev().take_while(|percent| percent.session == usize::MAX) {
            percent.session = session;
            percent.work = work;
        }
    }

    /// The work line being read, where it counts.
    fn current_work(&mut self) -> Option<&mut WorkDraft> {
        self.current().and_then(|session| session.works.last_mut())
    }

    fn set_line(&mut self, written: &[WrittenGroup<'a>], problems: &mut Vec<Problem>) {
        if written.is_empty() {
            self.carried = Carried::Lost;
        }
        let Some((lift, status)) = self.current_work().map(|work| (work.lift, work.status)) else {
            // Below a heading that is no date the sets are read for their errors only.
            let line = Line { context: self.context, page: self.page, line: self.line, bodyweight: false };
            let _ = line.groups(written, &mut self.carried, problems);
            return;
        };
        let name = written.first().map_or(Span::default(), |group| self.span(group.text));
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

    fn detail(&mut self, detail: Detail<'a>, problems: &mut Vec<Problem>) {
        let line_number = self.line;
        let lift = self.current_work().map_or(0, |work| work.lift);
        let bodyweight = self.log.lifts.get(lift as usize).is_some_and(|lift| lift.bodyweight);
        let line = Line { context: self.context, page: self.page, line: line_number, bodyweight };
        let mut plan = None;
        let mut warm_ups = None;
        if matches!(detail.key, DetailKey::Plan | DetailKey::WarmUp) {
            if !detail.lost && detail.key == DetailKey::Plan {
                plan = planned(&line, &detail.groups, problems);
            } else if !detail.lost {
                warm_ups = line.groups(&detail.groups, &mut Carried::Default, problems);
            }
            if plan.is_none() && warm_ups.is_none() {
                if detail.key == DetailKey::Plan {
                    self.unread_plan(detail.text);
                }
                return;
            }
            let of_plan = plan.iter().flatten().map(|group| &group.load);
            let mut loads = of_plan.chain(warm_ups.iter().flatten().map(|group| &group.load));
            if loads.any(|load| matches!(load, Load::Percent(_))) && self.under == Under::Session {
                let written = detail.groups.iter().find_map(|group| group.load.as_ref());
                let span = written.map_or(Span::default(), |load| self.span(load.text));
                self.log.percents.push(Percent {
                    session: usize::MAX,
                    work: usize::MAX,
                    line: line_number,
                    span,
                    repeats: false,
                });
                self.keep_percents();
            }
        }
        if let (DetailKey::Plan, Some(planned)) = (detail.key, &mut self.planned)
            && planned.plan.is_none()
            && planned.plan_text.is_empty()
            && !detail.text.is_empty()
        {
            planned.plan = Some(taken_over(&line, &detail.groups));
            detail.text.clone_into(&mut planned.plan_text);
        }
        let other = match detail.key {
            DetailKey::InsteadOf if !detail.text.is_empty() => {
                let name = detail.text.trim_end_matches(['.', ',']);
                Some(self.lift(crate::notation::bare_name(name)))
            }
            _ => None,
        };
        if detail.text.is_empty() {
            return;
        }
        let Some(work) = self.current_work() else { return };
        let details = work.details.get_or_insert_with(Box::default);
        let kind = match detail.key {
            DetailKey::Plan => {
                let groups = plan.unwrap_or_default().into();
                details.plan.get_or_insert_with(|| Plan { text: detail.text.into(), line: line_number, groups });
                return;
            }
            DetailKey::WarmUp => return details.warm_ups.extend(warm_ups.unwrap_or_default()),
            DetailKey::InsteadOf => {
                details.instead_of = other.map(|lift| (LiftId(lift), line_number));
                return;
            }
            DetailKey::Setup => RemarkKind::Setup,
            DetailKey::Cue => RemarkKind::Cue,
            DetailKey::Why => RemarkKind::Why,
            DetailKey::Note => RemarkKind::Note,
        };
        push_lean(&mut details.remarks, Remark { kind, text: detail.text.into(), line: line_number });
    }

    /// A list of efforts written with blanks is offered without them where it has one for each set of the plan.
    fn list_fits(&mut self, planned: Span, sets: usize) {
        let on_line = self.log.problems.iter_mut().rev().take_while(|problem| problem.span >= planned);
        for problem in on_line.filter(|problem| problem.kind == K::EffortListSpaced) {
            problem.fix.take_if(|fix| fix.text.split(',').count() != sets);
        }
    }

    /// A plan that an error costs: it is the line's plan all the same, and no other that follows.
    fn unread_plan(&mut self, text: &str) {
        if let Some(planned) = self.planned.as_mut().filter(|planned| planned.plan_text.is_empty()) {
            text.clone_into(&mut planned.plan_text);
        }
        let line = self.line;
        if let Some(work) = self.current_work().filter(|_| !text.is_empty()) {
            let details = work.details.get_or_insert_with(Box::default);
            details.plan.get_or_insert_with(|| Plan { text: text.into(), line, groups: Box::default() });
        }
    }

    /// What stood open on a work line is settled once the next line that is not its own begins.
    fn end_work(&mut self) {
        let Some(planned) = self.planned.take() else { return };
        let (line, lift) = match self.current_work() {
            Some(work) => (work.line, work.lift),
            None => return,
        };
        let mut problems = Vec::new();
        let mut done = Vec::new();
        match planned.plan {
            Some(Taken::Groups(groups)) => {
                done = groups;
                let bodyweight = self.log.lifts.get(lift as usize).is_some_and(|lift| lift.bodyweight);
                let place = Line { context: self.context, page: self.page, line, bodyweight };
                self.list_fits(planned.span, done.iter().map(Group::count).sum());
                attributed(&place, &mut done, planned.attributes, &mut problems);
            }
            Some(Taken::Open) => problems.push(Problem::new(K::OpenPlan { plan: planned.plan_text }, planned.span)),
            // A plan that cannot be read has said so itself; the line that rests on it counts nowhere all the same.
            None if !planned.plan_text.is_empty() => self.log.left_out += 1,
            None => problems.push(Problem::new(K::NoPlan, planned.span)),
        }
        for group in &mut done {
            group.line = line;
            if self.context.careful {
                let span = planned.span;
                self.log.places.push(Place { line, name: span, count: span, load: span, side: "" });
            }
        }
        if done.iter().any(|group| matches!(group.load, Load::Percent(_))) {
            self.log.percents.push(Percent {
                session: usize::MAX,
                work: usize::MAX,
                line,
                span: planned.span,
                repeats: true,
            });
        }
        if let Some(work) = self.current_work() {
            let after = std::mem::take(&mut work.groups);
            work.groups = done;
            work.groups.extend(after);
        }
        self.keep_percents();
        self.note(problems);
    }
}

/// Sets a value that is not yet set; whether one was.
fn put<T>(place: &mut Option<T>, value: T) -> bool {
    let twice = place.is_some();
    if !twice {
        *place = Some(value);
    }
    twice
}
