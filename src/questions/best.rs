//! `best`: the best set, or sets, at a rep count; the whole rep-record table.

use crate::analysis::compare::ranking::{Rank, Scale};
use crate::analysis::strength::caution::CAUTION;
pub use crate::analysis::strength::evidence::Estimate;
use crate::analysis::strength::evidence::{EstimateFields, Evidence, Ratings};
use crate::history::{Done, History, Mark, Marked};
use crate::science::Equation;
use crate::training::{Amount, BlockId, Distance, LiftId, LoadClass, Mass, Set, Tolerance, is_within};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::cmp::Reverse;

/// Reps, seconds, or metres asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// At least so many reps.
    Reps(u32),
    /// At least so many seconds.
    Seconds(u32),
    /// At least such a distance.
    Metres(Distance),
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// At least so much a set; nothing for the whole table.
    pub bound: Option<Bound>,
    /// Exactly the bound, no more.
    pub exactly: bool,
    /// At least so many sets in one session.
    pub sets: u32,
    /// Sets with faults count too.
    pub with_faults: bool,
    /// Only from this day on.
    pub since: Option<NaiveDate>,
    /// Only up to this day.
    pub until: Option<NaiveDate>,
    /// Only in this block.
    pub block: Option<BlockId>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// How many sets in one session were asked for.
    #[serde(skip)]
    pub sets: u32,
    /// One mark, or the table.
    #[serde(flatten)]
    pub found: Found,
    /// The caution, where an estimated maximum is shown.
    pub caution: Option<&'static str>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum Found {
    /// The best at one bound.
    One {
        /// The bound.
        #[serde(skip)]
        bound: Bound,
        /// At least so many reps; null where seconds or metres were asked for.
        reps: Option<u32>,
        /// How many sets in one session were asked for, where it is more than one.
        sets: Option<u32>,
        /// The best; null where there is none.
        best: Option<Box<Best>>,
    },
    /// A row for each rep count.
    Table {
        /// The rows, fewest reps first.
        rows: Vec<Row>,
        /// How many holds or carries the table leaves out.
        #[serde(skip)]
        others: u32,
    },
}

/// A mark, and what it says of the maximum.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Best {
    /// The mark.
    #[serde(flatten)]
    pub mark: Mark,
    /// The estimated maximum of that set, where its effort is known.
    #[serde(flatten, serialize_with = "Estimate::or_null")]
    #[schemars(with = "EstimateFields")]
    pub estimate: Option<Estimate>,
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// At least so many reps.
    pub reps: u32,
    /// No row of more reps has the same or a heavier load.
    pub standing: bool,
    /// The best.
    pub best: Best,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    of_evidence(history, ask, &Ratings::of_the_curve(history, Equation::default()).evidence(ask.lift))
}

/// Answers with evidence that other questions ask for too.
pub(crate) fn of_evidence(history: &History<'_>, ask: &Ask, evidence: &Evidence<'_>) -> Answer {
    let lift = history.log.lift_name(ask.lift).to_owned();
    let in_time = |done: &Done<'_>| {
        is_within(done.session.date, ask.since, ask.until)
            && ask.block.is_none_or(|block| done.session.block == Some(block))
    };
    let works: Vec<Done<'_>> = history.works_of(ask.lift).filter(in_time).collect();
    let found = match ask.bound {
        Some(bound) => {
            let best = best(history, ask, &works, bound, ask.exactly).map(|best| best.mark);
            let reps = if let Bound::Reps(reps) = bound { Some(reps) } else { None };
            let with_estimate = |mark: Mark| Box::new(Best { estimate: evidence.estimate_of(&mark), mark });
            Found::One { bound, reps, sets: (ask.sets > 1).then_some(ask.sets), best: best.map(with_estimate) }
        }
        None => table(history, ask, &works, evidence),
    };
    let estimated = match &found {
        Found::One { best, .. } => best.as_ref().is_some_and(|best| best.estimate.is_some()),
        Found::Table { rows, .. } => rows.iter().any(|row| row.best.estimate.is_some()),
    };
    Answer { lift, sets: ask.sets, found, caution: estimated.then_some(CAUTION) }
}

/// The best of so many sets of an amount in one session, clean and without an estimate.
pub fn standing(history: &History<'_>, lift: LiftId, bound: Bound, sets: u32) -> Option<Mark> {
    let (since, until, block) = (None, None, None);
    let ask = Ask { lift, bound: Some(bound), exactly: false, sets, with_faults: false, since, until, block };
    let works: Vec<Done<'_>> = history.works_of(lift).collect();
    best(history, &ask, &works, bound, false).map(|best| best.mark)
}

/// The rep-record table of a lift, without estimates.
pub(super) fn records(history: &History<'_>, lift: LiftId) -> Vec<Row> {
    let (bound, since, until, block) = (None, None, None, None);
    let ask = Ask { lift, bound, exactly: false, sets: 1, with_faults: false, since, until, block };
    let works: Vec<Done<'_>> = history.works_of(lift).collect();
    rows(history, &ask, &works, None)
}

fn table(history: &History<'_>, ask: &Ask, works: &[Done<'_>], evidence: &Evidence<'_>) -> Found {
    let others = counted(ask, works).filter(|set| set.amount.reps().is_none()).count();
    let others = u32::try_from(others).unwrap_or(u32::MAX);
    Found::Table { rows: rows(history, ask, works, Some(evidence)), others }
}

/// The sets that may be a record.
fn counted<'a>(ask: &Ask, works: &[Done<'a>]) -> impl Iterator<Item = Set<'a>> {
    let with_faults = ask.with_faults;
    works.iter().flat_map(|done| done.work_sets()).filter(move |set| with_faults || set.is_clean())
}

fn rows(history: &History<'_>, ask: &Ask, works: &[Done<'_>], evidence: Option<&Evidence<'_>>) -> Vec<Row> {
    let rows = best_from_each(history, ask, works);
    let tolerance = Tolerance::of(&history.log.gear);
    let mut table = Vec::with_capacity(rows.len());
    for (at, (reps, best)) in rows.iter().enumerate() {
        let later = rows.get(at + 1..).unwrap_or(&[]);
        let standing = !later.iter().any(|(_, other)| other.is_no_lighter(best, tolerance));
        let estimate = evidence.and_then(|evidence| evidence.estimate_of(&best.mark));
        table.push(Row { reps: *reps, standing, best: Best { mark: best.mark.clone(), estimate } });
    }
    table
}

/// The best at each rep count, fewest first: from many reps to few, each count has the marks before it and its own.
fn best_from_each(history: &History<'_>, ask: &Ask, works: &[Done<'_>]) -> Vec<(u32, Ranked)> {
    let qualifies = |set: &Set<'_>| set.amount.reps().is_some() && set.is_work() && (ask.with_faults || set.is_clean());
    let marks = works.iter().flat_map(|done| Marked::of(*done, qualifies));
    let mut marks: Vec<(u32, Marked<'_>)> = marks.filter_map(|mark| Some((mark.amount.reps()?, mark))).collect();
    // Of equals the one written first stays before the others.
    marks.sort_by_key(|(reps, _)| Reverse(*reps));
    let mut rows: Vec<(u32, Ranked)> = Vec::new();
    let (mut winner, mut scale, mut seen): (Option<usize>, Option<Scale>, usize) = (None, None, 0);
    for reps in (1..=marks.first().map_or(0, |(most, _)| *most)).rev() {
        let known = marks.get(..marks.partition_point(|(of, _)| *of >= reps)).unwrap_or(&[]);
        if known.len() > seen {
            let now = Scale::of(known.iter().map(|(_, mark)| &mark.group.load));
            // On another scale all are ranked anew.
            if scale != Some(now) {
                (winner, scale, seen) = (None, Some(now), 0);
            }
            let better = |one: &usize, other: &usize| {
                let of = |at: &usize| known.get(*at).map(|(_, mark)| order(mark, now));
                // Backwards, so that of marks equal in everything the one written first is the best.
                of(one).cmp(&of(other)).then(other.cmp(one))
            };
            winner = winner.into_iter().chain(seen..known.len()).max_by(better);
            seen = known.len();
        }
        let Some((mark, scale)) = winner.and_then(|at| known.get(at)).map(|(_, mark)| mark).zip(scale) else {
            continue;
        };
        rows.push((reps, Ranked::of(history, mark, scale, qualifies)));
    }
    rows.reverse();
    rows
}

/// What a mark is the best by: the class of its load first, of which the least is the best.
pub(super) fn order(mark: &Marked<'_>, scale: Scale) -> impl Ord + use<> {
    let session = mark.done.session;
    let (class, rank) = scale.rank(&mark.group.load, session.own_mass());
    let written = Reverse((session.date, session.minute, mark.group.page, mark.group.line));
    (Reverse(class), (rank, mark.amount, mark.sets, easier(mark), written))
}

/// The best, with what it was ranked by.
struct Ranked {
    class: LoadClass,
    rank: Rank,
    /// By what is added, where every load of the lift contains the lifter's own weight.
    added: Option<Mass>,
    mark: Mark,
}

impl Ranked {
    fn of<'a>(history: &History<'_>, mark: &Marked<'a>, scale: Scale, qualifies: impl Fn(&Set<'a>) -> bool) -> Ranked {
        let (class, rank) = scale.rank(&mark.group.load, mark.done.session.own_mass());
        Ranked { class, rank, added: mark.group.load.added(), mark: mark.shown(history, qualifies) }
    }

    /// Whether this is the same load as another row's, or a heavier one.
    fn is_no_lighter(&self, other: &Ranked, tolerance: Tolerance) -> bool {
        if self.class != other.class {
            return false;
        }
        if let (Some(own), Some(others)) = (self.added, other.added) {
            return tolerance.compare(own, others).is_ge();
        }
        match (self.mark.load.kilograms, other.mark.load.kilograms) {
            (Some(own), Some(others)) => tolerance.compare(own, others).is_ge(),
            _ if self.class == LoadClass::Quoted => self.mark.load == other.mark.load,
            _ => self.rank >= other.rank,
        }
    }
}

fn best(history: &History<'_>, ask: &Ask, works: &[Done<'_>], bound: Bound, exactly: bool) -> Option<Ranked> {
    let qualifies = |set: &Set<'_>| {
        let enough = match (bound, set.amount) {
            (Bound::Reps(least), Amount::Reps(done)) => {
                if exactly {
                    done == least
                } else {
                    done >= least
                }
            }
            (Bound::Seconds(least), Amount::Seconds(done)) => {
                if exactly {
                    done == least
                } else {
                    done >= least
                }
            }
            (Bound::Metres(least), Amount::Metres(done)) => {
                if exactly {
                    done == least
                } else {
                    done >= least
                }
            }
            _ => false,
        };
        enough && set.is_work() && (ask.with_faults || set.is_clean())
    };
    let marks: Vec<Marked<'_>> = works.iter().flat_map(|done| Marked::of(*done, qualifies)).collect();
    let scale = Scale::of(marks.iter().map(|mark| &mark.group.load));
    if ask.sets > 1 {
        return best_session(history, &marks, scale, ask.sets as usize, qualifies);
    }
    // Backwards, so that of marks equal in everything the one written first is the best.
    let winner = marks.iter().rev().max_by_key(|mark| order(mark, scale))?;
    Some(Ranked::of(history, winner, scale, qualifies))
}

/// Of two marks the one of lower effort is the better one, a known effort before none.
fn easier(mark: &Marked<'_>) -> (bool, Reverse<Option<crate::training::Effort>>) {
    (mark.effort.is_some(), Reverse(mark.effort))
}

/// The session whose lightest of the `wanted` heaviest sets is the heaviest.
fn best_session<'a>(
    history: &History<'_>,
    marks: &[Marked<'a>],
    scale: Scale,
    wanted: usize,
    qualifies: impl Fn(&Set<'a>) -> bool + Copy,
) -> Option<Ranked> {
    let rank = |mark: &Marked<'_>| scale.rank(&mark.group.load, mark.done.session.own_mass());
    let mut candidates: Vec<(LoadClass, Rank, Mark, Marked<'a>)> = Vec::new();
    for session in marks.chunk_by(|one, other| std::ptr::eq(one.done.session, other.done.session)) {
        let mut classes: Vec<LoadClass> = session.iter().map(|mark| rank(mark).0).collect();
        classes.sort_unstable();
        classes.dedup();
        for class in classes {
            let mut of_class: Vec<&Marked<'a>> = session.iter().filter(|mark| rank(mark).0 == class).collect();
            // Heaviest first; at one load those of more reps first; then as written.
            of_class.sort_by_key(|mark| (Reverse((rank(mark).1, mark.amount)), mark.group.page, mark.group.line));
            if let Some(candidate) = session_mark(history, &of_class, scale, wanted, qualifies) {
                candidates.push((class, rank(&candidate.1).1, candidate.0, candidate.1));
            }
        }
    }
    let class = candidates.iter().map(|candidate| candidate.0).min()?;
    let winner = candidates.into_iter().rev().filter(|candidate| candidate.0 == class).max_by_key(
        |(_, rank, mark, marked)| {
            let effort = (mark.effort.is_some(), Reverse(mark.effort));
            let session = marked.done.session;
            (
                *rank,
                mark.amount,
                mark.sets,
                effort,
                Reverse((mark.date, session.minute, marked.group.page, mark.place.line)),
            )
        },
    )?;
    Some(Ranked { class, rank: winner.1, added: winner.3.group.load.added(), mark: winner.2 })
}

/// One session's sets as a mark: as heavy as the lightest of the `wanted` heaviest.
fn session_mark<'a>(
    history: &History<'_>,
    sorted: &[&Marked<'a>],
    scale: Scale,
    wanted: usize,
    qualifies: impl Fn(&Set<'a>) -> bool + Copy,
) -> Option<(Mark, Marked<'a>)> {
    let mut left = wanted as u32;
    let mut used: Vec<&Marked<'a>> = Vec::new();
    for mark in sorted {
        used.push(mark);
        left = left.saturating_sub(mark.sets);
        if left == 0 {
            break;
        }
    }
    if left > 0 {
        return None;
    }
    let lightest = used.last()?;
    let own = lightest.done.session.own_mass();
    let floor = scale.rank(&lightest.group.load, own).1;
    let at_least = sorted.iter().filter(|mark| scale.rank(&mark.group.load, own).1 >= floor);
    let mut mark = lightest.shown(history, qualifies);
    mark.sets = at_least.map(|mark| mark.sets).sum();
    mark.amount = used.iter().map(|mark| mark.amount).min()?;
    mark.effort = efforts_of(&used, wanted, qualifies);
    mark.faults = Vec::new();
    for used in &used {
        for fault in used.shown(history, qualifies).faults {
            if !mark.faults.contains(&fault) {
                mark.faults.push(fault);
            }
        }
    }
    Some((mark, **lightest))
}

/// The highest effort known among the first `wanted` sets.
fn efforts_of<'a>(
    used: &[&Marked<'a>],
    wanted: usize,
    qualifies: impl Fn(&Set<'a>) -> bool,
) -> Option<crate::training::Effort> {
    let sets = used.iter().flat_map(|mark| mark.group.sets().filter(|set| set.amount == mark.amount && qualifies(set)));
    sets.take(wanted).filter_map(|set| set.effort).max()
}
