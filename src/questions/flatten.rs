//! `flatten`: all that pages say, one set a line.

use crate::analysis::rows::{Row, of_session};
use crate::source::Place;
use crate::training::{Aside, Block, LiftId, Load, Log, RemarkKind, Session, Status, Work};
use chrono::NaiveDate;
use std::collections::HashMap;

/// One line of flat text.
#[derive(Clone, Debug)]
pub struct Line<'a> {
    /// The session's date, or the first day of the block; nothing for what stands outside both.
    pub date: Option<NaiveDate>,
    /// The session's label, without the word "day".
    pub day: Option<&'a str>,
    /// The lift, where it is about one.
    pub lift: Option<&'a str>,
    /// What it says.
    pub what: What<'a>,
    /// Where it stands.
    pub place: Place,
}

/// What a line says.
#[derive(Clone, Debug)]
pub enum What<'a> {
    /// A block's heading.
    Block(&'a Block),
    /// One of a block's keys; a maximum's lift is the line's.
    BlockKey(&'a Block, BlockKey<'a>),
    /// A heading, a fact, a note, or a line that could not be read.
    Aside(&'a Aside),
    /// A set, or a warm-up.
    Set(Row<'a>),
    /// What was to be done, as written.
    Plan(&'a str),
    /// Left out on purpose, and why.
    Skipped(Option<&'a str>),
    /// A work line without sets and plan.
    Nothing,
    /// A set-up, cue, reason or note.
    Remark(RemarkKind, &'a str),
    /// The lift that this one stood in for.
    InsteadOf(&'a str),
}

/// A key of a block that it has a value for.
#[derive(Clone, Copy, Debug)]
pub enum BlockKey<'a> {
    /// What it is for, in words.
    Phase(&'a str),
    /// What it is to come to, in words.
    Goal(&'a str),
    /// Weeks of less work, from 1.
    Deload(&'a [u32]),
    /// Weeks before a test or meet, from 1.
    Peak(&'a [u32]),
    /// What percentages refer to.
    Max(&'a Load),
}

/// Answers: what cannot be dated first, then by date; of one date blocks before sessions, those by their time and place,
/// and in a session line by line.
pub fn answer<'a>(log: &'a Log, asides: &'a [Aside]) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    let undated = asides.iter().filter(|aside| aside.session.is_none());
    lines.extend(undated.map(|aside| Line {
        date: None,
        day: None,
        lift: None,
        what: What::Aside(aside),
        place: log.place(aside.page, aside.line),
    }));
    let mut under: HashMap<(u32, u32), Vec<&'a Aside>> = HashMap::new();
    for aside in asides {
        under.entry((aside.page.0, aside.session.unwrap_or(0))).or_default().push(aside);
    }
    let mut blocks = log.blocks.iter().peekable();
    for session in &log.sessions {
        while let Some(block) = blocks.next_if(|block| block.starts <= session.date) {
            lines.extend(of_block(log, block));
        }
        let own = under.get(&(session.page.0, session.line)).map_or(&[][..], Vec::as_slice);
        let mut inside: Vec<Line<'a>> =
            own.iter().map(|aside| of(log, session, aside.line, None, What::Aside(aside))).collect();
        inside.extend(
            of_session(log, session)
                .into_iter()
                .map(|row| of(log, session, row.line(), Some(row.work.lift), What::Set(row))),
        );
        inside.extend(session.works.iter().flat_map(|work| of_work(log, session, work)));
        inside.sort_by_key(|line| line.place.line);
        lines.extend(inside);
    }
    lines.extend(blocks.flat_map(|block| of_block(log, block)));
    lines
}

fn of<'a>(log: &'a Log, session: &'a Session, line: u32, lift: Option<LiftId>, what: What<'a>) -> Line<'a> {
    Line {
        date: Some(session.date),
        day: session.day.as_deref(),
        lift: lift.map(|lift| log.lift_name(lift)),
        what,
        place: log.place(session.page, line),
    }
}

/// What stands under a work line beside its sets.
fn of_work<'a>(log: &'a Log, session: &'a Session, work: &'a Work) -> Vec<Line<'a>> {
    let mut found: Vec<(u32, What<'a>)> = Vec::new();
    let details = work.details.as_deref();
    let remarks = details.map_or(&[][..], |details| details.remarks.as_slice());
    found.extend(remarks.iter().map(|remark| (remark.line, What::Remark(remark.kind, &remark.text))));
    let plan = details.and_then(|details| details.plan.as_ref());
    match work.status {
        Status::Skipped => {
            found.push((work.line, What::Skipped(details.and_then(|details| details.skipped_because.as_deref()))))
        }
        Status::Nothing if plan.is_none() => found.push((work.line, What::Nothing)),
        _ => {}
    }
    if let Some(plan) = plan.filter(|plan| plan.is_read()) {
        found.push((plan.line, What::Plan(&plan.text)));
    }
    if let Some((other, line)) = details.and_then(|details| details.instead_of) {
        found.push((line, What::InsteadOf(log.lift_name(other))));
    }
    found.into_iter().map(|(line, what)| of(log, session, line, Some(work.lift), what)).collect()
}

fn of_block<'a>(log: &'a Log, block: &'a Block) -> Vec<Line<'a>> {
    let keys = [
        block.phase.as_deref().map(BlockKey::Phase),
        Some(BlockKey::Deload(&block.deload)).filter(|_| !block.deload.is_empty()),
        Some(BlockKey::Peak(&block.peak)).filter(|_| !block.peak.is_empty()),
        block.goal.as_deref().map(BlockKey::Goal),
    ];
    let keys = keys.into_iter().flatten().map(|key| (None, key));
    let maxima = block.maxima.iter().map(|(lift, load)| (Some(log.lift_name(*lift)), BlockKey::Max(load)));
    let line =
        |lift, what| Line { date: Some(block.starts), day: None, lift, what, place: log.place(block.page, block.line) };
    let heading = std::iter::once(line(None, What::Block(block)));
    heading.chain(keys.chain(maxima).map(|(lift, key)| line(lift, What::BlockKey(block, key)))).collect()
}
