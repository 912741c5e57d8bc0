//! `recall` as JSON.

use crate::questions::recall::{Answer, Note};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Recall {
    lift: String,
    setup: Option<NoteJson>,
    cues: Vec<NoteJson>,
    reasons: Vec<NoteJson>,
    remarks: Vec<NoteJson>,
    faults: Vec<FaultJson>,
    replaced: Vec<ReplacedJson>,
}

#[derive(Clone, Debug, Serialize)]
struct NoteJson {
    date: String,
    text: String,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct FaultJson {
    fault: String,
    times: u32,
    last: String,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct ReplacedJson {
    date: String,
    by: String,
    page: String,
    line: u32,
}

fn note(note: &Note) -> NoteJson {
    NoteJson {
        date: note.date.to_string(),
        text: note.text.clone(),
        page: note.place.page.to_string(),
        line: note.place.line,
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Recall {
    Recall {
        lift: answer.lift.clone(),
        setup: answer.setup.as_ref().map(note),
        cues: answer.cues.iter().map(note).collect(),
        reasons: answer.reasons.iter().map(note).collect(),
        remarks: answer.remarks.iter().map(note).collect(),
        faults: answer
            .faults
            .iter()
            .map(|seen| FaultJson {
                fault: seen.fault.clone(),
                times: seen.times,
                last: seen.last.to_string(),
                page: seen.place.page.to_string(),
                line: seen.place.line,
            })
            .collect(),
        replaced: answer
            .replaced
            .iter()
            .map(|day| ReplacedJson {
                date: day.date.to_string(),
                by: day.by.clone(),
                page: day.place.page.to_string(),
                line: day.place.line,
            })
            .collect(),
    }
}
