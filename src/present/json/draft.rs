//! `draft` as JSON.

use crate::present::pages;
use crate::present::view::draft::changes;
use crate::questions::draft::{Answer, Kind, WeekKind, WhyOut};
use crate::training::Unit;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct DraftJson {
    kind: &'static str,
    block: String,
    week: u32,
    from_block: String,
    from_week: u32,
    week_kind: &'static str,
    page: String,
    sessions: Vec<Session>,
    left_out_of_draft: Vec<LeftOut>,
    already: Vec<Already>,
    meets: Vec<Meet>,
    written: Option<String>,
    caution: &'static str,
}

#[derive(Clone, Debug, Serialize)]
struct Session {
    date: String,
    day: Option<String>,
    works: Vec<Work>,
}

#[derive(Clone, Debug, Serialize)]
struct Work {
    lift: String,
    plan: String,
    changes: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct LeftOut {
    date: String,
    lift: Option<String>,
    why: &'static str,
}

#[derive(Clone, Debug, Serialize)]
struct Already {
    date: String,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct Meet {
    date: String,
    name: String,
}

/// The answer as JSON; `written` is the page that it was written to.
pub fn json(answer: &Answer, unit: Unit, written: Option<String>) -> DraftJson {
    let (kind, block, week, from_block, from_week, week_kind) = match &answer.kind {
        Kind::Week { block, week, like, load } => {
            let load = match load {
                WeekKind::Loading => "loading",
                WeekKind::Deload => "deload",
                WeekKind::Peak => "peak",
            };
            ("week", block.clone(), *week, block.clone(), *like, load)
        }
        Kind::Block { new, like, from_week } => ("block", new.name.clone(), 1, like.clone(), *from_week, "loading"),
    };
    let sessions = answer.sessions.iter().map(|session| Session {
        date: session.date.to_string(),
        day: session.day.clone(),
        works: session
            .works
            .iter()
            .map(|work| Work {
                lift: work.lift.clone(),
                plan: pages::plan(&work.groups),
                changes: (!work.changes.is_empty()).then(|| changes(&work.changes, unit)),
            })
            .collect(),
    });
    DraftJson {
        kind,
        block,
        week,
        from_block,
        from_week,
        week_kind,
        page: pages::draft::page(answer),
        sessions: sessions.collect(),
        left_out_of_draft: answer
            .left_out
            .iter()
            .map(|out| LeftOut {
                date: out.date.to_string(),
                lift: out.lift.clone(),
                why: match out.why {
                    WhyOut::DeadliftFirst => "deadlift first",
                    WhyOut::NothingWritten => "nothing written",
                    WhyOut::MeetThatDay => "meet that day",
                },
            })
            .collect(),
        already: answer
            .already
            .iter()
            .map(|already| Already {
                date: already.date.to_string(),
                page: already.place.page.to_string(),
                line: already.place.line,
            })
            .collect(),
        meets: answer.meets.iter().map(|meet| Meet { date: meet.date.to_string(), name: meet.name.clone() }).collect(),
        written,
        caution: answer.caution,
    }
}
