//! `flatten` as JSON.

use super::shared::{AmountJson, LoadJson, Number, effort};
use crate::present::rows::flat;
use crate::questions::flatten::{BlockKey, Line, What};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Flatten {
    lines: Vec<LineJson>,
}

#[derive(Clone, Debug, Serialize)]
struct LineJson {
    date: Option<String>,
    day: Option<String>,
    block: Option<String>,
    lift: Option<String>,
    kind: String,
    text: String,
    set: Option<SetJson>,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct SetJson {
    number: u32,
    reps: Option<u32>,
    seconds: Option<u32>,
    metres: Option<Number>,
    per_side: bool,
    load: Option<LoadJson>,
    effort: Option<Number>,
    faults: Vec<String>,
    missed: u32,
    rest: Option<u32>,
    tempo: Option<String>,
    remarks: Vec<String>,
}

/// The answer as JSON.
pub fn json(lines: &[Line<'_>]) -> Flatten {
    Flatten { lines: lines.iter().map(of).collect() }
}

fn of(line: &Line<'_>) -> LineJson {
    let (block, set) = match &line.what {
        What::Block(block) | What::BlockKey(block, _) => (Some(block.name.clone()), None),
        What::Set(row) => {
            let amount = AmountJson::of(Some(row.amount()));
            let set = SetJson {
                number: row.number,
                reps: amount.reps,
                seconds: amount.seconds,
                metres: amount.metres,
                per_side: row.set.group.per_side,
                load: LoadJson::of(row.load(), row.kilograms()),
                effort: effort(row.effort()),
                faults: row.faults().map(str::to_owned).collect(),
                missed: row.missed(),
                rest: row.rest(),
                tempo: row.tempo().map(str::to_owned),
                remarks: row.remarks().map(str::to_owned).collect(),
            };
            (None, Some(set))
        }
        _ => (None, None),
    };
    let text = match &line.what {
        What::BlockKey(_, BlockKey::Max(load)) => load.text().unwrap_or_default(),
        _ => flat::text(line),
    };
    let kind = match &line.what {
        What::Set(row) if !row.warm_up => "set".to_owned(),
        _ => flat::key(line),
    };
    LineJson {
        date: line.date.map(|date| date.to_string()),
        day: line.day.map(str::to_owned),
        block,
        lift: line.lift.map(str::to_owned),
        kind,
        text,
        set,
        page: line.place.page.to_string(),
        line: line.place.line,
    }
}
