//! `adherence` as JSON.

use super::shared::Number;
use crate::questions::adherence::{
    Added, AgainstPlan, Answer, By, Fate, HeldEffort, Line, Row, Skipped, Sums, Swapped, Where,
};
use crate::training::{Effort, EffortGap};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Adherence {
    by: &'static str,
    block: Option<String>,
    week: Option<u32>,
    since: Option<String>,
    until: Option<String>,
    overshoot: Number,
    gross_undershoot: Number,
    #[serde(flatten)]
    total: SumsJson,
    rows: Vec<RowJson>,
    lines: Vec<LineJson>,
    skipped: Vec<SkippedJson>,
    swapped: Vec<SwappedJson>,
    added: Vec<AddedJson>,
    to_come: ToComeJson,
}

#[derive(Clone, Debug, Serialize)]
struct SumsJson {
    adherence: Option<Number>,
    lines_planned: u32,
    lines_skipped: u32,
    sets_planned: u32,
    sets_most: u32,
    sets_done: u32,
    sets_reached: u32,
    sets_swapped: u32,
    reps: Option<TotalJson>,
    seconds: Option<TotalJson>,
    metres: Option<TotalJson>,
    loads: LoadsJson,
    efforts: EffortsJson,
}

#[derive(Clone, Debug, Serialize)]
struct TotalJson {
    planned: Number,
    most: Option<Number>,
    done: Number,
}

#[derive(Clone, Debug, Serialize)]
struct LoadsJson {
    lighter: u32,
    same: u32,
    heavier: u32,
    unknown: u32,
}

#[derive(Clone, Debug, Serialize)]
struct EffortsJson {
    under: u32,
    on: u32,
    over: u32,
    unknown: u32,
    gross_undershoots: u32,
    overshoots: u32,
    farthest_under: Option<Number>,
    farthest_over: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct RowJson {
    block: Option<String>,
    week: Option<u32>,
    lift: String,
    #[serde(flatten)]
    sums: SumsJson,
}

#[derive(Clone, Debug, Serialize)]
struct PlaceJson {
    date: String,
    block: Option<String>,
    week: Option<u32>,
    day: Option<String>,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct LineJson {
    lift: String,
    fate: &'static str,
    plan: String,
    #[serde(flatten)]
    place: PlaceJson,
    #[serde(flatten)]
    sums: SumsJson,
    planned_efforts: Vec<EffortJson>,
}

#[derive(Clone, Debug, Serialize)]
struct EffortJson {
    low: Number,
    high: Number,
    done: Option<Number>,
    verdict: &'static str,
    off: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct SkippedJson {
    lift: String,
    plan: Option<String>,
    reason: Option<String>,
    #[serde(flatten)]
    place: PlaceJson,
}

#[derive(Clone, Debug, Serialize)]
struct SwappedJson {
    lift: String,
    by: String,
    plan: Option<String>,
    #[serde(flatten)]
    place: PlaceJson,
}

#[derive(Clone, Debug, Serialize)]
struct AddedJson {
    lift: String,
    sets: u32,
    #[serde(flatten)]
    place: PlaceJson,
}

#[derive(Clone, Copy, Debug, Serialize)]
struct ToComeJson {
    lines: u32,
    sets: u32,
}

fn gap(gap: EffortGap) -> Number {
    Number(gap.value())
}

fn sums(sums: &Sums) -> SumsJson {
    let total = |planned: f64, most: f64, done: f64, open: bool| {
        let any = open || planned > 0.0 || most > 0.0 || done > 0.0;
        let most = (!open).then_some(Number(most));
        any.then_some(TotalJson { planned: Number(planned), most, done: Number(done) })
    };
    let (planned, most, done) = (&sums.planned, &sums.most, &sums.done);
    SumsJson {
        adherence: sums.adherence().map(|percent| Number((percent * 100.0).round() / 100.0)),
        lines_planned: sums.lines,
        lines_skipped: sums.skipped,
        sets_planned: sums.sets_planned,
        sets_most: sums.sets_most,
        sets_done: sums.sets_done,
        sets_reached: sums.sets_reached,
        sets_swapped: sums.sets_swapped,
        reps: total(planned.reps as f64, most.reps as f64, done.reps as f64, sums.reps_open),
        seconds: total(planned.seconds as f64, most.seconds as f64, done.seconds as f64, false),
        metres: total(
            planned.metres.rounded_metres(),
            most.metres.rounded_metres(),
            done.metres.rounded_metres(),
            false,
        ),
        loads: LoadsJson {
            lighter: sums.loads.lighter,
            same: sums.loads.same,
            heavier: sums.loads.heavier,
            unknown: sums.loads.unknown,
        },
        efforts: EffortsJson {
            under: sums.efforts.under,
            on: sums.efforts.on,
            over: sums.efforts.over,
            unknown: sums.efforts.unknown,
            gross_undershoots: sums.efforts.gross_undershoots,
            overshoots: sums.efforts.overshoots,
            farthest_under: sums.efforts.farthest_under.map(gap),
            farthest_over: sums.efforts.farthest_over.map(gap),
        },
    }
}

fn place(place: &Where) -> PlaceJson {
    PlaceJson {
        date: place.date.to_string(),
        block: place.block.clone(),
        week: place.week,
        day: place.day.clone(),
        page: place.place.page.to_string(),
        line: place.place.line,
    }
}

fn row(row: &Row) -> RowJson {
    RowJson { block: row.block.clone(), week: row.week, lift: row.lift.clone(), sums: sums(&row.sums) }
}

fn line(line: &Line) -> LineJson {
    LineJson {
        lift: line.lift.clone(),
        fate: match line.fate {
            Fate::Done => "done",
            Fate::AsPlanned => "as planned",
            Fate::Skipped => "skipped",
            Fate::Swapped => "swapped",
        },
        plan: line.plan.clone(),
        place: place(&line.at),
        sums: sums(&line.sums),
        planned_efforts: line.efforts.iter().map(effort).collect(),
    }
}

fn effort(effort: &HeldEffort) -> EffortJson {
    let number = |effort: Effort| Number(effort.value());
    let (verdict, off) = match effort.stands() {
        AgainstPlan::Unknown => ("unknown", None),
        AgainstPlan::Under(gap) => ("under", Some(-gap.value())),
        AgainstPlan::On => ("on", Some(0.0)),
        AgainstPlan::Over(gap) => ("over", Some(gap.value())),
    };
    EffortJson {
        low: number(effort.planned.low),
        high: number(effort.planned.high),
        done: effort.done.map(number),
        verdict,
        off: off.map(Number),
    }
}

fn skipped(one: &Skipped) -> SkippedJson {
    SkippedJson { lift: one.lift.clone(), plan: one.plan.clone(), reason: one.reason.clone(), place: place(&one.at) }
}

fn swapped(one: &Swapped) -> SwappedJson {
    SwappedJson { lift: one.lift.clone(), by: one.by.clone(), plan: one.plan.clone(), place: place(&one.at) }
}

fn added(one: &Added) -> AddedJson {
    AddedJson { lift: one.lift.clone(), sets: one.sets, place: place(&one.at) }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Adherence {
    Adherence {
        by: match answer.by {
            By::Week => "week",
            By::Lift => "lift",
        },
        block: answer.block.clone(),
        week: answer.week,
        since: answer.since.map(|date| date.to_string()),
        until: answer.until.map(|date| date.to_string()),
        overshoot: gap(answer.thresholds.overshoot),
        gross_undershoot: gap(answer.thresholds.gross_undershoot),
        total: sums(&answer.total),
        rows: answer.rows.iter().map(row).collect(),
        lines: answer.lines.iter().map(line).collect(),
        skipped: answer.skipped.iter().map(skipped).collect(),
        swapped: answer.swapped.iter().map(swapped).collect(),
        added: answer.added.iter().map(added).collect(),
        to_come: ToComeJson { lines: answer.to_come.lines, sets: answer.to_come.sets },
    }
}
