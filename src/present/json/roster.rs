//! `roster` as JSON.

use crate::questions::roster::Line;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Roster {
    lifters: Vec<LineJson>,
}

#[derive(Clone, Debug, Serialize)]
struct LineJson {
    name: String,
    folder: String,
    block: Option<String>,
    week: Option<u32>,
    last: Option<String>,
    days_since: Option<i64>,
    sets_planned: u32,
    sets_reached: u32,
    ahead: u32,
    level: u32,
    behind: u32,
    overshoots: u32,
    cautions: Vec<&'static str>,
    next_meet: Option<Next>,
    left_out: u32,
}

#[derive(Clone, Debug, Serialize)]
struct Next {
    title: String,
    date: String,
    weeks: i64,
}

/// The answer as JSON.
pub fn json(lines: &[Line]) -> Roster {
    let lifters = lines.iter().map(|line| LineJson {
        name: line.name().to_owned(),
        folder: line.folder.clone(),
        block: line.block.clone(),
        week: line.week,
        last: line.last.map(|last| last.to_string()),
        days_since: line.days_since,
        sets_planned: line.planned,
        sets_reached: line.done,
        ahead: line.ahead,
        level: line.level,
        behind: line.behind,
        overshoots: line.over,
        cautions: line.cautions.clone(),
        next_meet: line.next.as_ref().map(|next| Next {
            title: next.title.clone(),
            date: next.date.to_string(),
            weeks: next.weeks,
        }),
        left_out: line.left_out,
    });
    Roster { lifters: lifters.collect() }
}
