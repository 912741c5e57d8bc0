//! `report`: the answers that a report is made of, all as of one day.
//!
//! - `bands.rs`: work sets by how hard they were
//! - `records.rs`: the rep records of the main lifts, and which of them are new in the block
//! - `weeks.rs`: weekly sums by family over the block and the one before

mod bands;
mod records;
mod weeks;

pub use bands::{Bands, LABELS};
pub use records::{Record, Records};
pub use weeks::Week;

use super::adherence::{self, By};
use super::facts;
use super::r#match;
use super::review;
use super::roster::Next;
use super::session;
use super::since::{self, Of};
use super::taper;
use super::weeks_over;
use crate::analysis::strength::axis::{Span, spans};
pub use crate::analysis::strength::caution::CAUTION;
use crate::analysis::strength::course;
use crate::analysis::strength::evidence::Evidence;
use crate::history::History;
use crate::science::Equation;
use crate::source::Place;
use crate::training::{BlockId, CompetitionLift, LiftId, Unit, on_every_core};
use chrono::NaiveDate;

/// More main lifts than these make a page that nobody reads.
const MOST_LIFTS: usize = 6;

/// The course of a maximum is followed for half a year: longer, its last weeks would be a few dots.
const FOLLOWED: chrono::Days = chrono::Days::new(26 * 7);

/// Where no block has begun, the main lifts are those of so many days.
const LOOKED_BACK: chrono::Days = chrono::Days::new(8 * 7);

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The block, as it stood on its last day, in place of the current one as of today.
    pub block: Option<BlockId>,
}

/// The answer: those of other questions, side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lifter's name, where there is one.
    pub lifter: Option<String>,
    /// The day that everything is looked at from.
    pub on: NaiveDate,
    /// The block; nothing where none has begun.
    pub block: Option<Block>,
    /// This week against the last block's.
    pub matched: r#match::Answer,
    /// The weeks of the block over those of the block before.
    pub weeks_over: Vec<weeks_over::Row>,
    /// Blocks since the last high-rep one.
    pub since: since::Answer,
    /// The next session that is written, ready for the rack; nothing where none is.
    pub session: Option<session::Answer>,
    /// What sessions say of the lifter: bodyweight, sleep, duration, pain.
    pub facts: facts::Answer,
    /// The unit that the lifter writes.
    pub unit: Unit,
    /// The next meet or test day.
    pub next: Option<Next>,
    /// How the estimated maxima of the main lifts went over the last half year; those that have none are left out.
    pub courses: Vec<course::Answer>,
    /// The rep records of the main lifts.
    pub records: Vec<Records>,
    /// Weekly sums, of this block and the one before.
    pub weeks: Vec<Week>,
    /// Work sets of those blocks by how hard they were.
    pub bands: Vec<Bands>,
    /// The first and the last day of what is drawn over dates.
    pub axis: (NaiveDate, NaiveDate),
    /// The blocks on it.
    pub blocks: Vec<Span>,
    /// What was planned against what was done, in the block.
    pub adherence: adherence::Answer,
    /// What the block's peak or deload week cuts.
    pub taper: taper::Answer,
    /// Cautions.
    pub review: review::Answer,
    /// What stands wherever a load is proposed.
    pub caution: &'static str,
}

/// The block that a report is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Its name.
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day; nothing where it has no end.
    pub ends: Option<NaiveDate>,
    /// For people.
    pub phase: Option<String>,
    /// For people.
    pub goal: Option<String>,
    /// Where its heading stands.
    pub place: Place,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let log = history.log;
    let asked = ask.block.and_then(|id| log.block(id));
    let on = asked.and_then(|block| block.ends).map_or(history.today, |ends| ends.min(history.today));
    let then = history.as_of(on);
    let id = ask.block.or_else(|| then.current_block());
    let block = id.and_then(|id| log.block(id)).map(|block| Block {
        name: block.name.clone(),
        starts: block.starts,
        ends: block.ends,
        phase: block.phase.clone(),
        goal: block.goal.clone(),
        place: log.place(block.page, block.line),
    });
    let days = block.as_ref().map(|block| (block.starts, block.ends));
    let lifts = main_lifts(&then, id);
    let of_lifts = on_every_core(lifts.len(), |at| lifts.get(at).map(|lift| of_lift(&then, *lift, days)));
    let (courses, records): (Vec<_>, Vec<_>) = of_lifts.into_iter().flatten().unzip();
    let courses: Vec<course::Answer> =
        courses.into_iter().filter(|course: &course::Answer| !course.points.is_empty()).collect();
    let planned = adherence::Ask { by: By::Week, block: ask.block, week: None, lift: None, since: None, until: None };
    let facts = facts::Ask { since: then.today.checked_sub_days(FOLLOWED), ..facts::Ask::default() };
    let facts = facts::answer(&then, &facts);
    let first = courses.iter().filter_map(|course| course.points.first()).map(|point| point.date);
    let first = first.chain(facts.sessions.first().map(|session| session.date)).min().unwrap_or(on);
    let before = |id: BlockId| id.before();
    let bands = id.into_iter().flat_map(|id| before(id).into_iter().chain([id]));
    let bands = bands.filter_map(|id| Bands::of(&then, id)).collect();
    let over = weeks_over::answer(&then, &r#match::Ask { block: ask.block, ..r#match::Ask::default() }, true);
    Answer {
        lifter: log.lifter.clone(),
        on,
        matched: over.week,
        weeks_over: over.weeks_over.unwrap_or_default(),
        since: since::answer(&then, &since::Ask { of: Of::Main, reps: None }),
        next: Next::of(&then),
        session: session::answer(&then, &session::Ask::default()).ok().filter(|_| ask.block.is_none()),
        facts,
        bands,
        axis: (first, on),
        blocks: spans(&then, first, on),
        unit: courses.first().map_or(Unit::Kg, |course| course.unit),
        courses,
        records: records.into_iter().flatten().collect(),
        weeks: weeks::weeks(&then, id),
        adherence: adherence::answer(&then, &planned),
        taper: taper::answer(&then, &taper::Ask { block: ask.block, week: None }),
        review: review::answer(&then, &review::Ask { block: ask.block }),
        caution: CAUTION,
        block,
    }
}

/// How a lift's maximum went, and its records.
fn of_lift(
    history: &History<'_>,
    lift: LiftId,
    days: Option<(NaiveDate, Option<NaiveDate>)>,
) -> (course::Answer, Option<Records>) {
    let (since, equation) = (history.today.checked_sub_days(FOLLOWED), Equation::default());
    let evidence = Evidence::of(history, lift, equation);
    let course = course::of_evidence(history, &course::Ask { lift, equation, since, until: None }, &evidence);
    (course, Records::of(history, lift, &evidence, days))
}

/// The main lifts: squats, hinges and presses of known kilograms that this block or the one before has sets of. Those of
/// the meet come first, in the order of the day, then those with the most sets.
fn main_lifts(history: &History<'_>, block: Option<BlockId>) -> Vec<LiftId> {
    let recent = history.today.checked_sub_days(LOOKED_BACK).unwrap_or(history.today);
    let is_near = |own: Option<BlockId>, date: NaiveDate| match (block, own) {
        (Some(block), Some(own)) => own == block || own.0 + 1 == block.0,
        (Some(_), None) => false,
        (None, _) => date > recent,
    };
    let mut lifts: Vec<(LiftId, usize)> = Vec::new();
    for done in history.works().filter(|done| is_near(done.session.block, done.session.date)) {
        let sets = done.work_sets().filter(|set| since::is_main(history, &done, set)).count();
        match lifts.iter_mut().find(|(lift, _)| *lift == done.work.lift) {
            Some((_, known)) => *known += sets,
            None if sets > 0 => lifts.push((done.work.lift, sets)),
            None => {}
        }
    }
    let contested: Vec<LiftId> = CompetitionLift::ALL.into_iter().flat_map(|lift| history.trained_as(lift)).collect();
    let rank = |lift: LiftId| contested.iter().position(|known| *known == lift).unwrap_or(contested.len());
    lifts.sort_by_key(|(lift, sets)| (rank(*lift), std::cmp::Reverse(*sets)));
    lifts.truncate(MOST_LIFTS);
    lifts.into_iter().map(|(lift, _)| lift).collect()
}
