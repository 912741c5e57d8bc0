//! All pages of a lifter as one log: sessions in order of time, each in its block and week, percentages
//! worked out, bodyweights in force.

use super::blocks::{Blocks, Placed};
use super::drafts::{LiftDraft, PageLog, Percent, SessionDraft};
use super::found::FoundOn;
use crate::journal::Lifter;
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::source::PageId;
use crate::training::{
    Block, Bodyweight, Family, Group, Lift, LiftId, Load, Log, Pain, Remark, Session, Substance, Work, fold,
};
use chrono::NaiveDate;
use std::collections::HashMap;

/// A bodyweight older than this is no longer in force.
const BODYWEIGHT_DAYS: i64 = 60;

/// A log, and what was found wrong on the way.
pub(crate) struct Joined {
    pub(crate) log: Log,
    pub(crate) problems: FoundOn,
}

/// Joins the pages, which come in order of their paths.
pub(crate) fn join(lifter: &Lifter, paths: Vec<String>, mut pages: Vec<PageLog>) -> Joined {
    let mut names = Names { lifter, lifts: Vec::new(), first: Vec::new(), by_name: HashMap::new() };
    let mut problems = FoundOn(Vec::with_capacity(pages.len()));
    let mut left_out = 0;
    let maps = names.all(&pages);
    let lift_of = |page: usize, lift: u32| maps.get(page).and_then(|map| map.get(lift as usize)).copied();
    let mut drafts = Vec::new();
    for (at, page) in pages.iter_mut().enumerate() {
        left_out += page.left_out;
        let id = PageId(at as u32);
        let mut of_page = std::mem::take(&mut page.problems);
        of_page.settle();
        problems.0.push(of_page);
        for mut draft in std::mem::take(&mut page.blocks) {
            let maxima = std::mem::take(&mut draft.maxima);
            let maxima = maxima.into_iter().filter_map(|(lift, load)| Some((lift_of(at, lift)?, load))).collect();
            drafts.push(Placed { page: id, draft, maxima });
        }
    }
    let (blocks, lost) = Blocks::of(drafts, |id| paths.get(id.0 as usize).cloned().unwrap_or_default(), &mut problems);
    left_out += lost;
    let count = pages.iter().map(|page| page.sessions.len()).sum();
    let mut sessions: Vec<(Session, Option<crate::training::Mass>)> = Vec::with_capacity(count);
    for (at, page) in pages.into_iter().enumerate() {
        let id = PageId(at as u32);
        let map = maps.get(at).map_or(&[][..], Vec::as_slice);
        let first = sessions.len();
        for draft in page.sessions {
            sessions.push(placed(id, draft, map, &blocks, &mut problems));
        }
        for fix in page.on_maxima {
            let session = first.checked_add(fix.session).and_then(|at| sessions.get(at)).map(|(session, _)| session);
            let block = session.and_then(|session| session.block).and_then(|id| blocks.get(id));
            let maximum = block.zip(map.get(fix.lift as usize)).and_then(|(block, lift)| maximum_of(block, *lift));
            if maximum.and_then(|load| load.kilograms(None)).is_none()
                && let Some(problem) =
                    problems.0.get_mut(at).and_then(|of_page| of_page.at(fix.problem.0, fix.problem.1))
            {
                problem.fix = None;
            }
        }
        for percent in page.percents {
            let Some((session, _)) = first.checked_add(percent.session).and_then(|at| sessions.get_mut(at)) else {
                continue;
            };
            left_out += u32::from(!work_out(&percent, session, &blocks, &names.lifts, &mut problems));
        }
    }
    sessions.sort_by(|(one, _), (other, _)| {
        let key = |session: &Session| (session.date, session.minute, session.page, session.line);
        key(one).cmp(&key(other))
    });
    let sessions = weighed(sessions);
    let log = Log {
        lifter: lifter.name.clone(),
        lifts: names.lifts,
        blocks: blocks.all,
        sessions,
        pages: paths.into_iter().map(Into::into).collect(),
        gear: lifter.gear.clone(),
        gyms: lifter.gyms.clone(),
        asked_gym: None,
        high_reps: lifter.high_reps,
        thresholds: lifter.thresholds.clone(),
        taper: lifter.taper,
        warm_up: lifter.warm_up.clone(),
        competitor: lifter.competitor.clone(),
        left_out,
    };
    Joined { log, problems }
}

/// Lifts of all pages by name.
struct Names<'a> {
    lifter: &'a Lifter,
    lifts: Vec<Lift>,
    /// Of each lift, the earliest session that any page has.
    first: Vec<Option<(NaiveDate, Option<u16>)>>,
    by_name: HashMap<String, LiftId>,
}

impl Names<'_> {
    /// Of each page, its lifts' numbers in the log. They are in order of a lift's first work in time, and so is every
    /// answer that follows them, however the pages are cut; last come those without work. A lift that no book has is
    /// spelled as in the earliest session of the journal, whatever page that stands in.
    fn all(&mut self, pages: &[PageLog]) -> Vec<Vec<LiftId>> {
        let mut firsts = Vec::new();
        for (at, page) in pages.iter().enumerate() {
            let mut of_page = vec![None; page.lifts.len()];
            for session in &page.sessions {
                for (nth, work) in session.works.iter().enumerate() {
                    let when = (session.date, session.minute, at, session.line, nth);
                    if let Some(first) = of_page.get_mut(work.lift as usize)
                        && first.is_none_or(|first| when < first)
                    {
                        *first = Some(when);
                    }
                }
            }
            firsts.extend(of_page.into_iter().enumerate().filter_map(|(lift, first)| Some((first?, lift))));
        }
        firsts.sort_unstable();
        let mut ids: Vec<Vec<Option<LiftId>>> = pages.iter().map(|page| vec![None; page.lifts.len()]).collect();
        for ((_, _, at, ..), lift) in firsts {
            let of_page = ids.get_mut(at).zip(pages.get(at));
            if let Some((id, draft)) = of_page.and_then(|(ids, page)| ids.get_mut(lift).zip(page.lifts.get(lift))) {
                *id = Some(self.number(draft));
            }
        }
        let all = |(page, ids): (&PageLog, Vec<Option<LiftId>>)| {
            page.lifts.iter().zip(ids).map(|(draft, id)| id.unwrap_or_else(|| self.number(draft))).collect()
        };
        pages.iter().zip(ids).map(all).collect()
    }

    fn number(&mut self, draft: &LiftDraft) -> LiftId {
        let (folded, name) = (draft.folded.as_str(), draft.name.as_str());
        if let Some(known) = self.by_name.get(folded) {
            let at = known.0 as usize;
            if let (Some(lift), Some(first)) = (self.lifts.get_mut(at), self.first.get_mut(at))
                && draft.first.is_some()
                && first.is_none_or(|first| draft.first < Some(first))
            {
                if !lift.known {
                    name.clone_into(&mut lift.name);
                }
                *first = draft.first;
            }
            return *known;
        }
        let entry = self.lifter.book.find_folded(folded);
        let shown = entry.map_or(name, |entry| &entry.name);
        // Two names of one lift of the book are one lift.
        let key = fold(shown);
        let id = match self.by_name.get(&key) {
            Some(known) => *known,
            None => {
                let id = LiftId(self.lifts.len() as u32);
                self.lifts.push(Lift {
                    name: shown.to_owned(),
                    family: entry.map_or(Family::Other, |entry| entry.family),
                    bodyweight: entry.is_some_and(|entry| entry.bodyweight),
                    one_side: entry.is_some_and(|entry| entry.one_side),
                    known: entry.is_some(),
                });
                self.first.push(draft.first);
                self.by_name.insert(key, id);
                id
            }
        };
        self.by_name.insert(folded.to_owned(), id);
        id
    }
}

/// A session with its block and week.
fn placed(
    page: PageId,
    draft: SessionDraft,
    lifts: &[LiftId],
    blocks: &Blocks,
    problems: &mut FoundOn,
) -> (Session, Option<crate::training::Mass>) {
    let lift = |at: u32| lifts.get(at as usize).copied().unwrap_or(LiftId(0));
    let named = draft.block.as_deref().map(|name| (name, blocks.named(name)));
    let block = match named {
        Some((_, Some(id))) => Some(id),
        Some((name, None)) => {
            let near = nearest(name, blocks.all.iter().map(|block| block.name.as_str()));
            let near = near.into_iter().map(str::to_owned).collect();
            problems.push((page, Problem::new(K::UnknownBlock { name: name.into(), near }, draft.span)));
            blocks.on(draft.date)
        }
        None => blocks.on(draft.date),
    };
    let week = block.and_then(|id| blocks.get(id)).map(|block| draft.week.unwrap_or_else(|| block.week_of(draft.date)));
    let works = draft
        .works
        .into_iter()
        .map(|work| Work {
            lift: lift(work.lift),
            page,
            line: work.line,
            status: work.status,
            groups: on_page(work.groups, page),
            details: work.details.map(|mut details| {
                details.warm_ups = on_page(details.warm_ups, page);
                details.remarks.iter_mut().for_each(|remark| remark.page = page);
                details.instead_of = details.instead_of.map(|(other, line)| (lift(other.0), line));
                details
            }),
        })
        .collect();
    let session = Session {
        date: draft.date,
        minute: draft.minute,
        day: draft.day,
        block,
        week,
        deload: draft.deload,
        peak: draft.peak,
        test_day: draft.test_day,
        meet: draft.meet,
        gym: draft.gym,
        bodyweight: None,
        sleep: draft.sleep,
        duration: draft.duration,
        rpe: draft.rpe,
        page,
        line: draft.line,
        works,
        notes: draft.notes.into_iter().map(|note| Remark { page, ..note }).collect(),
        pains: draft.pains.into_iter().map(|pain| Pain { page, ..pain }).collect(),
    };
    (session, draft.bodyweight)
}

/// Groups as a page writes them, with that page.
fn on_page(mut groups: Vec<Group>, page: PageId) -> Vec<Group> {
    groups.iter_mut().for_each(|group| group.page = page);
    groups
}

/// Puts the mass in the place of a percentage; whether its line counts.
fn work_out(percent: &Percent, session: &mut Session, blocks: &Blocks, lifts: &[Lift], problems: &mut FoundOn) -> bool {
    let block = session.block.and_then(|id| blocks.get(id));
    let page = session.page;
    let Some(work) = session.works.get_mut(percent.work) else { return true };
    let lift = lifts.get(work.lift.0 as usize).map(|lift| lift.name.clone()).unwrap_or_default();
    let maximum = block.and_then(|block| maximum_of(block, work.lift));
    let mass = match maximum {
        None => Err(K::NoMaximum { lift, block: block.map(|block| block.name.clone()) }),
        Some(load) => match load.kilograms(None) {
            Some(mass) => Ok(mass),
            None => Err(K::MaximumNotAMass { lift, maximum: load.text().unwrap_or_default() }),
        },
    };
    let plan = work.details.as_mut().and_then(|details| details.plan.as_mut());
    let plan = plan.filter(|plan| plan.line == percent.line);
    match mass {
        Ok(mass) => {
            let done = work.groups.iter_mut().filter(|group| group.line == percent.line);
            let planned = plan.into_iter().flat_map(|plan| &mut plan.groups);
            for load in done.map(|group| &mut group.load).chain(planned.map(|group| &mut group.load)) {
                if let Load::Percent(thousandths) = *load {
                    let text = load.text().unwrap_or_default();
                    *load = Load::other(Substance::Mass(mass.percent(thousandths)), text, false);
                }
            }
            true
        }
        Err(kind) => {
            work.groups.retain(|group| group.line != percent.line);
            if let Some(plan) = plan {
                plan.groups = Box::default();
            }
            if !percent.repeats {
                problems.push((page, Problem::new(kind, percent.span)));
            }
            false
        }
    }
}

/// What a block says of a lift's maximum; the last one written holds.
fn maximum_of(block: &Block, lift: LiftId) -> Option<&Load> {
    block.maxima.iter().rev().find(|(of, _)| *of == lift).map(|(_, load)| load)
}

/// Gives each session the latest bodyweight written on or before its date.
fn weighed(sessions: Vec<(Session, Option<crate::training::Mass>)>) -> Vec<Session> {
    // The last one written on a date wins for the whole date, so dates are weighed before sessions.
    let mut by_date: Vec<Bodyweight> = Vec::new();
    for (session, mass) in &sessions {
        let Some(mass) = *mass else { continue };
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
    sessions
        .into_iter()
        .map(|(mut session, _)| {
            session.bodyweight = in_force(session.date);
            session
        })
        .collect()
}
