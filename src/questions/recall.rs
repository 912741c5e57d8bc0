//! `recall`: what was written about a lift last time: set-up, cues, reasons, remarks, faults.

use crate::history::{Done, History, Mark, Marked};
use crate::source::Place;
use crate::training::{LiftId, RemarkKind};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// The answer, the latest first in every list.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// What was done in the last sessions with it, a mark a line of sets.
    pub last_sets: Vec<Mark>,
    /// How the equipment stood last.
    pub setup: Option<Note>,
    /// What to think of.
    pub cues: Vec<Note>,
    /// Why the lift is here.
    pub reasons: Vec<Note>,
    /// Notes and remarks.
    pub remarks: Vec<Note>,
    /// Faults seen, with how often.
    pub faults: Vec<FaultSeen>,
    /// Days on which another lift stood in for it.
    pub replaced: Vec<Replaced>,
}

/// A text with where it stands.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Note {
    /// The session's date.
    pub date: NaiveDate,
    /// As written.
    pub text: String,
    /// Where it stands.
    #[serde(flatten)]
    pub place: Place,
}

/// A fault with how often it was seen.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FaultSeen {
    /// Its name.
    pub fault: String,
    /// In how many sets.
    pub times: u32,
    /// When last.
    pub last: NaiveDate,
    /// Where that stands.
    #[serde(flatten)]
    pub place: Place,
}

/// Another lift in its place.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Replaced {
    /// The session's date.
    pub date: NaiveDate,
    /// The lift done instead.
    pub by: String,
    /// Where it stands.
    #[serde(flatten)]
    pub place: Place,
}

/// How many of each are kept: what is older is found with `history`.
const MOST: usize = 5;

/// The sets of so many sessions are recalled.
const SESSIONS: usize = 2;

/// Answers.
pub fn answer(history: &History<'_>, lift: LiftId) -> Answer {
    let log = history.log;
    let mut answer = Answer {
        lift: log.lift_name(lift).to_owned(),
        last_sets: Vec::new(),
        setup: None,
        cues: Vec::new(),
        reasons: Vec::new(),
        remarks: Vec::new(),
        faults: Vec::new(),
        replaced: Vec::new(),
    };
    let works: Vec<Done<'_>> = history.works_of(lift).collect();
    for done in works.iter().rev().filter(|done| done.work.has_work()).take(SESSIONS) {
        let marks = Marked::of(*done, |set| set.is_work());
        answer.last_sets.extend(marks.iter().map(|mark| mark.shown(history, |set| set.is_work())));
    }
    for done in works.iter().rev() {
        let place = |page, line| log.place(page, line);
        let note =
            |text: &str, page, line| Note { date: done.session.date, text: text.to_owned(), place: place(page, line) };
        for remark in done.work.details.iter().flat_map(|details| details.remarks.iter().rev()) {
            let note = note(&remark.text, remark.page, remark.line);
            match remark.kind {
                RemarkKind::Setup => answer.setup = answer.setup.take().or(Some(note)),
                RemarkKind::Cue => keep(&mut answer.cues, note),
                RemarkKind::Why => keep(&mut answer.reasons, note),
                RemarkKind::Note => keep(&mut answer.remarks, note),
            }
        }
        for group in done.work.groups.iter().rev() {
            for remark in group.extra.iter().flat_map(|extra| extra.remarks.iter().rev()) {
                keep(&mut answer.remarks, note(remark, group.page, group.line));
            }
            for set in group.sets() {
                for fault in set.faults() {
                    match answer.faults.iter_mut().find(|seen| seen.fault == fault) {
                        Some(seen) => seen.times += 1,
                        None => answer.faults.push(FaultSeen {
                            fault: fault.to_owned(),
                            times: 1,
                            last: done.session.date,
                            place: place(group.page, group.line),
                        }),
                    }
                }
            }
        }
    }
    for done in history.stand_ins().rev() {
        let Some((other, line)) = done.work.details.as_ref().and_then(|details| details.instead_of) else { continue };
        if other == lift && answer.replaced.len() < MOST {
            let by = log.lift_name(done.work.lift).to_owned();
            answer.replaced.push(Replaced { date: done.session.date, by, place: log.place(done.work.page, line) });
        }
    }
    answer
}

/// What was written last of a kind.
pub(super) fn last_written(history: &History<'_>, lift: LiftId, kind: RemarkKind) -> Option<Note> {
    history.works_of(lift).rev().find_map(|done| {
        let mut remarks = done.work.details.iter().flat_map(|details| &details.remarks);
        let remark = remarks.rfind(|remark| remark.kind == kind)?;
        let place = history.log.place(remark.page, remark.line);
        Some(Note { date: done.session.date, text: remark.text.to_string(), place })
    })
}

/// Keeps a note unless the same words stand there already, or enough do.
fn keep(notes: &mut Vec<Note>, note: Note) {
    if notes.len() < MOST && !notes.iter().any(|known| known.text == note.text) {
        notes.push(note);
    }
}
