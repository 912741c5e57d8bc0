//! The sessions of a page in their blocks and weeks, percentages worked out.

use super::blocks::Blocks;
use super::page_log::{OnMaximum, PageSession, Percent};
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::source::{PageId, Span};
use crate::training::{Block, Group, Lift, LiftId, Load, Pain, Remark, Session, Substance, Work};

/// A page's sessions, and what was found wrong on the way.
pub(super) struct PlacedPage {
    pub(super) sessions: Vec<Session>,
    pub(super) problems: Vec<Problem>,
    /// Lines that an error costs.
    pub(super) lost: u32,
    /// Of the page's own problems those whose fix does not help, for want of a maximum.
    pub(super) without_fix: Vec<(Span, &'static str)>,
}

/// What the pages have in common.
pub(super) struct Around<'a> {
    pub(super) blocks: &'a Blocks,
    pub(super) lifts: &'a [Lift],
}

impl Around<'_> {
    /// Places the sessions of a page, whose lifts have these numbers in the log.
    pub(super) fn place(
        &self,
        page: PageId,
        own: Vec<PageSession>,
        map: &[LiftId],
        percents: &[Percent],
        on_maxima: &[OnMaximum],
    ) -> PlacedPage {
        let mut problems = Vec::new();
        let mut sessions: Vec<Session> = Vec::with_capacity(own.len());
        sessions.extend(own.into_iter().map(|session| placed(page, session, map, self.blocks, &mut problems)));
        let has_maximum = |fix: &&OnMaximum| {
            let block = sessions.get(fix.session).and_then(|session| session.block).and_then(|id| self.blocks.get(id));
            let maximum = block.zip(map.get(fix.lift as usize)).and_then(|(block, lift)| maximum_of(block, *lift));
            maximum.and_then(|load| load.kilograms(None)).is_some()
        };
        let without_fix = on_maxima.iter().filter(|fix| !has_maximum(fix)).map(|fix| fix.problem).collect();
        let mut lost = 0;
        for percent in percents {
            let Some(session) = sessions.get_mut(percent.session) else { continue };
            lost += u32::from(!work_out(percent, session, self.blocks, self.lifts, &mut problems));
        }
        PlacedPage { sessions, problems, lost, without_fix }
    }
}

/// A session with its block and week.
fn placed(
    page: PageId,
    session: PageSession,
    lifts: &[LiftId],
    blocks: &Blocks,
    problems: &mut Vec<Problem>,
) -> Session {
    let lift = |at: u32| lifts.get(at as usize).copied().unwrap_or(LiftId(0));
    let named = session.block.as_deref().map(|name| (name, blocks.named(name)));
    let block = match named {
        Some((_, Some(id))) => Some(id),
        Some((name, None)) => {
            let near = nearest(name, blocks.all.iter().map(|block| block.name.as_str()));
            let near = near.into_iter().map(str::to_owned).collect();
            problems.push(Problem::new(K::UnknownBlock { name: name.into(), near }, session.span));
            blocks.on(session.date)
        }
        None => blocks.on(session.date),
    };
    let week =
        block.and_then(|id| blocks.get(id)).map(|block| session.week.unwrap_or_else(|| block.week_of(session.date)));
    let works = session
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
    Session {
        date: session.date,
        minute: session.minute,
        day: session.day,
        block,
        week,
        deload: session.deload,
        peak: session.peak,
        test_day: session.test_day,
        meet: session.meet,
        gym: session.gym,
        bodyweight: None,
        sleep: session.sleep,
        duration: session.duration,
        rpe: session.rpe,
        page,
        line: session.line,
        works,
        notes: session.notes.into_iter().map(|note| Remark { page, ..note }).collect(),
        pains: session.pains.into_iter().map(|pain| Pain { page, ..pain }).collect(),
    }
}

/// Groups as a page writes them, with that page.
fn on_page(mut groups: Vec<Group>, page: PageId) -> Vec<Group> {
    groups.iter_mut().for_each(|group| group.page = page);
    groups
}

/// Puts the mass in the place of a percentage; whether its line counts.
fn work_out(
    percent: &Percent,
    session: &mut Session,
    blocks: &Blocks,
    lifts: &[Lift],
    problems: &mut Vec<Problem>,
) -> bool {
    let block = session.block.and_then(|id| blocks.get(id));
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
                problems.push(Problem::new(kind, percent.span));
            }
            false
        }
    }
}

/// What a block says of a lift's maximum; the last one written holds.
fn maximum_of(block: &Block, lift: LiftId) -> Option<&Load> {
    block.maxima.iter().rev().find(|(of, _)| *of == lift).map(|(_, load)| load)
}
