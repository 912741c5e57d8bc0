//! The rep records of the main lifts, and what is new in the block.

use super::pieces::{done, number, table, words};
use super::places::Cited;
use crate::history::Mark;
use crate::present::wording;
use crate::questions::best::Estimate;
use crate::questions::report::{Record, Records};
use crate::training::{Load, Unit};
use maud::{Markup, html};

/// A table a lift.
pub(super) fn section(lifts: &[Records], cited: &Cited) -> Markup {
    html! {
        @if lifts.is_empty() { p { "No clean set of a main lift with reps yet." } }
        @else {
            p.soft { "The heaviest clean set at each rep count, and what stood there when the block began." }
        }
        div.sheets { @for lift in lifts { div {
            h3 { (lift.lift) }
            @let columns = [number("reps"), words("load"), words("done"), words("new")];
            (table(&format!("{}: best at each rep count", lift.lift), &columns, &rows(lift, cited)))
        } } }
    }
}

fn rows(lift: &Records, cited: &Cited) -> Vec<Vec<Markup>> {
    lift.records.iter().map(|record| row(record, cited)).collect()
}

fn row(record: &Record, cited: &Cited) -> Vec<Markup> {
    let mark = &record.mark;
    let reps =
        if record.from == record.to { record.to.to_string() } else { format!("{}–{}", record.from, record.to) };
    let worth = record.estimate.as_ref().map(|estimate| format!("est. max {}", worth(&mark.load, estimate)));
    let block = wording::block_week(mark.block.as_deref(), mark.week);
    vec![
        html! { (reps) },
        html! {
            (wording::weighed(&mark.load))
            @if let Some(worth) = worth { span.below { (worth) } }
            @if !record.standing { span.below { "as much at more reps" } }
        },
        html! {
            (sets(mark))
            span.below { (wording::date(mark.date)) @if !block.is_empty() { ", " (block) } }
            span.below { (cited.place(&mark.place)) }
        },
        new(record),
    ]
}

/// `3x8 RPE 6`: the load stands beside it.
fn sets(mark: &Mark) -> String {
    let sets = wording::sets(mark.sets, mark.amount, mark.per_side);
    mark.effort.map_or(sets.clone(), |effort| format!("{sets} {effort}"))
}

/// What is new, against what stood there when the block began.
fn new(record: &Record) -> Markup {
    html! {
        @if record.new {
            span.verdict.ahead { span aria-hidden="true" { "▲" } " new" }
            @match &record.before {
                Some(before) => span.below { "was " (done(before)) },
                None => span.below { "the first" },
            }
        } @else {
            span.soft { "–" }
        }
    }
}

/// The estimated maximum, in the unit of the load.
fn worth(load: &Load, estimate: &Estimate) -> String {
    let unit = match load {
        Load::Plain { unit, .. } => *unit,
        _ => Unit::Kg,
    };
    wording::estimated(estimate.maximum, unit)
}
