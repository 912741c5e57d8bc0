//! Warnings that need the whole log. They change no figure; only `check` asks for them.

use super::page_log::{PageLift, Place};
use super::unit_jump;
use crate::problems::{Problem, ProblemKind as K, distance};
use crate::source::{PageId, Span};
use crate::training::{Amount, Block, LiftBook, LiftId, Load, Log, Mass, Session, Status, fold};
use chrono::NaiveDate;
use std::collections::{HashMap, HashSet};

/// Notes what deserves a second look.
pub(crate) fn warn(log: &Log, places: &[&[Place]], machine_date: NaiveDate, problems: &mut Vec<(PageId, Problem)>) {
    let places = Places(places);
    let jump = unit_jump::find(log);
    if let Some(jump) = &jump
        && let Some(place) = places.group(jump.page, jump.line, jump.nth)
    {
        problems.push((jump.page, Problem::new(jump.kind.clone(), place.load)));
    }
    let jumped = |from: NaiveDate, to: NaiveDate| {
        jump.as_ref().is_some_and(|jump| (from..=to).contains(&jump.date) && from < jump.date)
    };
    // Every set of the log passes here at each letter that is typed, so each lift has its place by its number.
    let mut lifts = vec![Lifted::default(); log.lifts.len()];
    let mut of_day: Vec<(LiftId, Mass)> = Vec::new();
    let mut day = None;
    for session in &log.sessions {
        if day != Some(session.date) {
            take_in(&mut lifts, &mut of_day, day);
            day = Some(session.date);
        }
        for work in &session.works {
            if session.date > machine_date
                && work.has_work()
                && let Some(place) = places.first(session.page, work.line, &work.groups)
            {
                let kind = K::DoneInFuture { date: session.date.to_string() };
                problems.push((session.page, Problem::new(kind, place.name)));
            }
            let Some(lifted) = lifts.get_mut(work.lift.0 as usize) else { continue };
            let one_side = work.status != Status::AsPlanned && log.lift(work.lift).is_some_and(|lift| lift.one_side);
            let (mut line, mut number) = (0, 0);
            for group in &work.groups {
                number = if group.line == line { number + 1 } else { 0 };
                line = group.line;
                let mass = match &group.load {
                    load @ Load::Plain { .. } => load.kilograms(None),
                    load @ Load::Other(..) => load.kilograms(session.own_mass()),
                    _ => None,
                };
                if let Some(mass) = mass.filter(|_| group.sets().any(|set| set.is_work())) {
                    if let Some((before, date)) = lifted.heaviest
                        && mass.is_leap_from(before)
                        // What another unit explains is no leap.
                        && !jumped(date, session.date)
                        && let Some(place) = places.group(session.page, line, number)
                    {
                        let load = group.load.text_with_unit().unwrap_or_default();
                        let kind = K::LoadLeap { load, heaviest: before.to_string(), date: date.to_string() };
                        problems.push((session.page, Problem::new(kind, place.load)));
                    }
                    match of_day.iter_mut().find(|(lift, _)| *lift == work.lift) {
                        Some((_, most)) => *most = mass.max(*most),
                        None => of_day.push((work.lift, mass.max(Mass::default()))),
                    }
                }
                if one_side
                    && !lifted.asked
                    && !group.per_side
                    && group.sets().any(|set| !matches!(set.amount, Amount::Metres(_)))
                    && let Some(place) = places.group(session.page, line, number)
                {
                    lifted.asked = true;
                    let kind = K::SideNotSaid { lift: log.lift_name(work.lift).to_owned() };
                    let after = Span { start: place.count.end, end: place.count.end };
                    let problem = Problem::new(kind, place.count);
                    let said = match place.side.text() {
                        Some(text) => problem.with_fix(after, text),
                        None => problem,
                    };
                    problems.push((session.page, said));
                }
            }
        }
    }
}

/// What was seen of a lift so far.
#[derive(Clone, Copy, Default)]
struct Lifted {
    /// The heaviest load up to the day before, with its date.
    heaviest: Option<(Mass, NaiveDate)>,
    /// Whether it was asked of which side its sets are.
    asked: bool,
}

/// A day is over: its heaviest loads are known from now on.
fn take_in(lifts: &mut [Lifted], of_day: &mut Vec<(LiftId, Mass)>, day: Option<NaiveDate>) {
    for ((lift, mass), date) in of_day.drain(..).zip(day.into_iter().cycle()) {
        let Some(lifted) = lifts.get_mut(lift.0 as usize) else { continue };
        if lifted.heaviest.is_none_or(|(known, _)| mass > known) {
            lifted.heaviest = Some((mass, date));
        }
    }
}

/// Sessions of a page that look as if they were of a block and lie outside its days: those below its heading, and those of
/// no block on its page.
pub(crate) fn outside_blocks<'s>(
    page: PageId,
    blocks: &[Block],
    sessions: impl Iterator<Item = (&'s Session, Span)>,
) -> Vec<Problem> {
    let mut blocks: Vec<&Block> = blocks.iter().filter(|block| block.page == page).collect();
    blocks.sort_by_key(|block| block.line);
    let mut problems = Vec::new();
    // A meet often comes after its block's last week.
    for (session, span) in sessions.filter(|(session, _)| session.meet.is_none()) {
        let above = blocks.partition_point(|block| block.line < session.line).checked_sub(1);
        let block = above.or((session.block.is_none()).then_some(0)).and_then(|at| blocks.get(at));
        let Some(block) = block.filter(|block| !block.holds(session.date)) else { continue };
        let kind = K::SessionOutsideBlock {
            name: block.name.clone(),
            starts: block.starts.to_string(),
            ends: block.ends.map(|ends| ends.to_string()),
        };
        problems.push(Problem::new(kind, span));
    }
    problems
}

/// Where the groups of every page stand: of each page in order of lines.
struct Places<'p>(&'p [&'p [Place]]);

impl Places<'_> {
    fn group(&self, page: PageId, line: u32, nth: usize) -> Option<Place> {
        let places = self.0.get(page.0 as usize)?;
        let first = places.partition_point(|place| place.line < line);
        places.get(first + nth).filter(|place| place.line == line).copied()
    }

    /// The place of a work line, or of the first set line under it.
    fn first(&self, page: PageId, line: u32, groups: &[crate::training::Group]) -> Option<Place> {
        let lines = std::iter::once(line).chain(groups.iter().map(|group| group.line));
        lines.into_iter().find_map(|line| self.group(page, line, 0))
    }
}

/// What is known of lifts that no book has: of each folded name the one of the book that is a slip away.
#[derive(Debug, Default)]
pub(crate) struct NearLifts(HashMap<String, Option<String>>);

impl NearLifts {
    /// A lift that no book has, one slip away from one that is known. Said once a spelling, where it stands first.
    pub(crate) fn tell<'p>(
        &mut self,
        book: &LiftBook,
        pages: impl Iterator<Item = &'p [PageLift]>,
        problems: &mut Vec<(PageId, Problem)>,
    ) {
        let mut seen: HashSet<&str> = HashSet::new();
        for (page, id) in pages.zip(0..) {
            for lift in page.iter().filter(|lift| !lift.in_book) {
                if !seen.insert(&lift.folded) {
                    continue;
                }
                if !self.0.contains_key(&lift.folded) {
                    self.0.insert(lift.folded.clone(), near(book, &lift.folded));
                }
                if let Some(Some(name)) = self.0.get(&lift.folded) {
                    let kind = K::NearLift { read: lift.name.clone(), known: name.clone() };
                    problems.push((PageId(id), Problem::new(kind, lift.span).with_fix(lift.span, name)));
                }
            }
        }
    }
}

/// The name of the book that is nearest to one that it does not have.
fn near(book: &LiftBook, lift: &str) -> Option<String> {
    let letters = lift.chars().count();
    let most = match letters {
        0..=4 => 0,
        5..=7 => 1,
        _ => 2,
    };
    let known = book.names().map(|name| (fold(name), name));
    let near = known.filter(|(folded, _)| folded.chars().count().abs_diff(letters) <= most);
    let near = near.map(|(folded, name)| (distance(&folded, lift), name));
    near.filter(|(apart, _)| *apart <= most).min().map(|(_, name)| name.to_owned())
}
