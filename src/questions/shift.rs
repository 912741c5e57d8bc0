//! `shift`: which plans to come move to other days, and which blocks with them. What is done stays, and so do meets.

use crate::history::History;
use crate::training::{Block, BlockId, Session, Status, fold};
use chrono::{Datelike, NaiveDate, TimeDelta};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// What is moved.
    pub what: What,
    /// So many days later; below 0 earlier.
    pub days: i64,
}

/// What is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// All that is planned for a day or a later one.
    From(NaiveDate),
    /// A block and all of it.
    Block(BlockId),
}

/// The answer.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Answer {
    /// The sessions that move.
    pub sessions: Vec<Moved>,
    /// The blocks whose keys change.
    pub blocks: Vec<MovedBlock>,
    /// What stands on one of these days and stays, in order of time.
    pub stays: Vec<Stays>,
}

/// A session that moves: every heading of its date, time and label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moved {
    /// Its day.
    pub date: NaiveDate,
    /// Its time.
    pub minute: Option<u16>,
    /// Its label, folded.
    pub day: Option<String>,
    /// Its new day.
    pub to: NaiveDate,
    /// So many weeks are put to the week that its heading says.
    pub weeks: i64,
}

/// A block whose keys change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovedBlock {
    /// Its name, folded.
    pub name: String,
    /// Its new first day.
    pub starts: NaiveDate,
    /// How many weeks, where that is written.
    pub weeks: Option<u32>,
    /// From this week on deload and peak weeks move.
    pub from_week: u32,
    /// By so many weeks.
    pub by_weeks: i64,
}

/// What stays on its day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stays {
    /// The day.
    pub date: NaiveDate,
    /// A meet's name; nothing for a session of which something is written.
    pub meet: Option<String>,
}

/// Why nothing can be moved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// Nothing is planned for that day or later.
    Nothing {
        /// The day.
        from: NaiveDate,
    },
    /// The block is at that day already.
    SameDay,
    /// Something was done in the block.
    Begun {
        /// The block.
        block: String,
        /// The first day on which something was.
        first: NaiveDate,
    },
    /// Two blocks would share days.
    Overlap {
        /// The one.
        block: String,
        /// The other.
        other: String,
    },
    /// A block would be less than a week long, or a deload week lie before the first.
    TooEarly {
        /// The block.
        block: String,
    },
    /// A moved session would be one with another that stays.
    Taken {
        /// The day it would move to.
        date: NaiveDate,
    },
    /// The days lie past those that a page can name.
    NoSuchDay,
}

/// Answers.
///
/// # Errors
/// [`WhyNot`] says what stands in the way.
pub fn answer(history: &History<'_>, ask: Ask) -> Result<Answer, WhyNot> {
    if ask.days == 0 {
        return Err(WhyNot::SameDay);
    }
    let log = history.log;
    let mut answer = Answer::default();
    let (from, only) = match ask.what {
        What::From(from) => (from, None),
        What::Block(id) => (log.block(id).map_or(NaiveDate::MAX, |block| block.starts), Some(id)),
    };
    let wanted = |session: &&Session| session.date >= from && only.is_none_or(|id| session.block == Some(id));
    for session in log.sessions.iter().filter(wanted) {
        let meet = session.meet.as_deref().map(str::to_owned);
        if is_written(session)
            && meet.is_none()
            && let Some(id) = only
        {
            let block = log.block_name(id).unwrap_or_default();
            return Err(WhyNot::Begun { block, first: session.date });
        }
        if meet.is_some() || is_written(session) || was_done_later(history, session) {
            answer.stays.push(Stays { date: session.date, meet });
            continue;
        }
        let block = session.block.and_then(|id| log.block(id));
        // A block that moves as a whole takes its weeks with it.
        let stands = block.is_some_and(|block| block.starts < from);
        answer.sessions.push(Moved {
            date: session.date,
            minute: session.minute,
            day: session.day.as_deref().map(fold),
            to: later(session.date, ask.days)?,
            weeks: if stands { ask.days / 7 } else { 0 },
        });
    }
    for (at, block) in log.blocks.iter().enumerate() {
        let id = BlockId(u32::try_from(at).unwrap_or(u32::MAX));
        if only.is_none_or(|only| only == id) {
            answer.blocks.extend(moved(block, id, from, ask.days, &answer.sessions, log)?);
        }
    }
    if answer.sessions.is_empty() && answer.blocks.is_empty() {
        return Err(WhyNot::Nothing { from });
    }
    disjoint(log.blocks.iter(), &answer.blocks)?;
    free(log.sessions.iter(), &answer.sessions)?;
    Ok(answer)
}

fn later(date: NaiveDate, days: i64) -> Result<NaiveDate, WhyNot> {
    let later = TimeDelta::try_days(days).and_then(|days| date.checked_add_signed(days));
    later.filter(|day| (1..10_000).contains(&day.year())).ok_or(WhyNot::NoSuchDay)
}

/// Whether anything is written of what became of it.
fn is_written(session: &Session) -> bool {
    session.works.iter().any(|work| work.status != Status::Nothing || !work.groups.is_empty())
}

/// Whether a plan of the past was done on another day: then it counts there, and moving it would part the two.
fn was_done_later(history: &History<'_>, session: &Session) -> bool {
    session.date < history.today && {
        let key = (session.block, session.week, session.day.as_deref().map(fold));
        let same = |other: &&Session| (other.block, other.week, other.day.as_deref().map(fold)) == key;
        let mut others = history.sessions().iter().filter(same).filter(|other| other.date >= session.date);
        session.day.is_some() && others.any(is_written)
    }
}

/// What becomes of a block's keys; nothing where they stay.
fn moved(
    block: &Block,
    id: BlockId,
    from: NaiveDate,
    days: i64,
    sessions: &[Moved],
    log: &crate::training::Log,
) -> Result<Option<MovedBlock>, WhyNot> {
    let name = fold(&block.name);
    let written = block.ends.map(|ends| block.week_of(ends));
    if block.starts >= from {
        let starts = later(block.starts, days)?;
        return Ok(Some(MovedBlock { name, starts, weeks: written, from_week: 0, by_weeks: 0 }));
    }
    if !block.holds(from) {
        return Ok(None);
    }
    // It has begun: it grows or shrinks by what moves in it.
    let too_early = || WhyNot::TooEarly { block: block.name.clone() };
    let weeks = match written {
        Some(weeks) if days % 7 == 0 => {
            let weeks = i64::from(weeks) + days / 7;
            Some(u32::try_from(weeks).ok().filter(|weeks| *weeks >= block.week_of(from)).ok_or_else(too_early)?)
        }
        // Of days that are no weeks it grows only where a session would lie behind its end.
        Some(weeks) => {
            let mine = log.sessions.iter().filter(|session| session.block == Some(id));
            let dates: Vec<NaiveDate> = mine.map(|session| session.date).collect();
            let last = sessions.iter().filter(|moved| dates.contains(&moved.date)).map(|moved| moved.to).max();
            let needed = last.map_or(0, |last| (last - block.starts).num_days() / 7 + 1);
            Some(weeks.max(u32::try_from(needed).unwrap_or(0)))
        }
        None => None,
    };
    let by_weeks = if days % 7 == 0 { days / 7 } else { 0 };
    let from_week = block.week_of(from);
    if block.deload.iter().chain(&block.peak).any(|week| *week >= from_week && i64::from(*week) + by_weeks < 1) {
        return Err(too_early());
    }
    let light = block.deload.iter().chain(&block.peak).any(|week| *week >= from_week) && by_weeks != 0;
    Ok((weeks != written || light).then_some(MovedBlock { name, starts: block.starts, weeks, from_week, by_weeks }))
}

/// No two blocks share days after the move that did not before.
fn disjoint<'b>(blocks: impl Iterator<Item = &'b Block>, moved: &[MovedBlock]) -> Result<(), WhyNot> {
    let mut after: Vec<(NaiveDate, Option<NaiveDate>, &Block)> = blocks
        .map(|block| {
            let to = moved.iter().find(|to| to.name == fold(&block.name));
            let starts = to.map_or(block.starts, |to| to.starts);
            let weeks = to.map_or(block.ends.map(|ends| block.week_of(ends)), |to| to.weeks);
            let ends = weeks.and_then(|weeks| later(starts, i64::from(weeks) * 7 - 1).ok());
            (starts, ends, block)
        })
        .collect();
    after.sort_by_key(|(starts, ..)| *starts);
    for (one, other) in after.iter().zip(after.iter().skip(1)) {
        let shared = one.1.is_some_and(|ends| ends >= other.0) || one.0 == other.0;
        let before = one.2.ends.is_some_and(|ends| ends >= other.2.starts && one.2.starts <= other.2.starts);
        if shared && !before {
            return Err(WhyNot::Overlap { block: one.2.name.clone(), other: other.2.name.clone() });
        }
    }
    Ok(())
}

/// No moved session falls on one that stays and could be taken for it.
fn free<'s>(sessions: impl Iterator<Item = &'s Session>, moved: &[Moved]) -> Result<(), WhyNot> {
    let key = |session: &Session| (session.date, session.minute, session.day.as_deref().map(fold));
    let is_moved = |session: &Session| {
        moved.iter().any(|one| (one.date, one.minute, one.day.clone()) == key(session) && session.meet.is_none())
    };
    let staying: Vec<_> = sessions.filter(|session| !is_moved(session) && session.meet.is_none()).map(key).collect();
    let taken = moved.iter().find(|one| staying.contains(&(one.to, one.minute, one.day.clone())));
    taken.map_or(Ok(()), |one| Err(WhyNot::Taken { date: one.to }))
}
