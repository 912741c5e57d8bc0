//! What was planned against what was done, efforts first.

use super::pieces::{below, cell, number, numbers, signed, table, words};
use super::places::Cited;
use super::plots::ranges::{Range, Stands, Words, ranges};
use crate::present::view::adherence::{about, efforts, loads, metres, reps, seconds, verdict as said};
use crate::present::view::planned_lists::titled;
use crate::present::wording;
use crate::questions::adherence::{AgainstPlan, Answer, HeldEffort, Line, Row};
use maud::{Markup, html};

/// More efforts of a lift than these would cover one another; the last ones are drawn.
const MOST_EFFORTS: usize = 24;

/// More lifts than these would fill pages with plots; the table has all.
const MOST_PLOTS: usize = 9;

/// How much was done, the efforts of each lift, the rows, and what to look at.
pub(super) fn section(answer: &Answer, cited: &Cited) -> Markup {
    html! {
        p.lead { (said(answer)) }
        p { (about(answer)) }
        @if let Some(words) = efforts(&answer.total.efforts) { p { "effort against the plan: " (words) } }
        @let plots = plots(answer);
        @if !plots.is_empty() {
            p.soft {
                "RPE planned and done, set group by set group. " span.key { span.swatch.planned {} "box" } ": planned. "
                "● done as planned, ▲ over, ▼ under; no sign: none written. Below them the week."
            }
            div.plots { @for plot in plots { (plot) } }
            (numbers("Efforts as a table", all_efforts(answer, cited)))
        }
        @if !answer.rows.is_empty() {
            @let columns =
                [words("lift"), number("%"), number("done"), number("sets"), number("reps"), words("load"), words("effort"), words("where")];
            @let rows: Vec<Vec<Markup>> = answer.rows.iter().map(|row| row_of(answer, row, cited)).collect();
            (numbers("Week by week as a table", table("Planned against done, by week and lift", &columns, &rows)))
            p.soft { "done: planned sets done with the planned reps or more, at the planned load or heavier where one is planned" }
        }
        @let unknown = answer.total.loads.unknown;
        @if unknown > 0 {
            p.warn { (wording::count(unknown, "load")) " cannot be held against the plan's, so the sets count as not done" }
        }
        @for (title, entries) in titled(answer) {
            h3.looked-at { (title) }
            ul.looked {
                @for (words, places) in entries {
                    li { (words) span.below { (cited.places(places)) } }
                }
            }
        }
    }
}

/// A lift's planned efforts, with the lines they stand on.
struct Efforts<'a> {
    lift: &'a str,
    held: Vec<(&'a Line, &'a HeldEffort)>,
}

fn plots(answer: &Answer) -> Vec<Markup> {
    let mut lifts: Vec<Efforts<'_>> = Vec::new();
    for line in &answer.lines {
        for held in &line.efforts {
            match lifts.iter_mut().find(|known| known.lift == line.lift) {
                Some(known) => known.held.push((line, held)),
                None => lifts.push(Efforts { lift: &line.lift, held: vec![(line, held)] }),
            }
        }
    }
    let values = lifts.iter().flat_map(|lift| lift.held.iter()).flat_map(|(_, held)| {
        [Some(held.planned.low.value()), Some(held.planned.high.value()), held.done.map(|done| done.value())]
    });
    let low = values.flatten().fold(f64::INFINITY, f64::min);
    // One scale for all, so that they can be held against each other.
    let bounds = ((low - 0.5).floor().clamp(0.0, 9.0), 10.0);
    lifts.sort_by_key(|lift| std::cmp::Reverse(lift.held.len()));
    lifts.truncate(MOST_PLOTS);
    lifts.iter().enumerate().map(|(nth, lift)| plot(nth, lift, bounds)).collect()
}

fn plot(nth: usize, lift: &Efforts<'_>, bounds: (f64, f64)) -> Markup {
    let range = |(line, held): &(&Line, &HeldEffort)| Range {
        group: line.at.week.map_or("–".into(), |week| week.to_string()),
        low: held.planned.low.value(),
        high: held.planned.high.value(),
        done: held.done.map(|done| (done.value(), stands(held))),
    };
    let last = lift.held.iter().skip(lift.held.len().saturating_sub(MOST_EFFORTS));
    let each: Vec<Range> = last.map(range).collect();
    let count =
        |wanted: Stands| each.iter().filter(|range| range.done.is_some_and(|(_, stands)| stands == wanted)).count();
    let description = format!(
        "Of {} {} as planned, {} over the plan, {} under it, {} not written.",
        wording::count(each.len() as u64, "planned effort"),
        count(Stands::On),
        count(Stands::Over),
        count(Stands::Under),
        each.iter().filter(|range| range.done.is_none()).count(),
    );
    let name = Words { id: format!("effort-{}", nth + 1), title: lift.lift.to_owned(), description };
    ranges(&name, &each, bounds)
}

/// Every planned effort, in order of time.
fn all_efforts(answer: &Answer, cited: &Cited) -> Markup {
    let columns = [words("lift"), words("date"), number("planned"), number("done"), words("verdict"), words("where")];
    let rows = answer.lines.iter().flat_map(|line| line.efforts.iter().map(|held| effort(line, held, cited)));
    table("Efforts planned and done", &columns, &rows.collect::<Vec<_>>())
}

fn stands(held: &HeldEffort) -> Stands {
    match held.verdict {
        AgainstPlan::Over => Stands::Over,
        AgainstPlan::Under => Stands::Under,
        AgainstPlan::On | AgainstPlan::Unknown => Stands::On,
    }
}

fn effort(line: &Line, held: &HeldEffort, cited: &Cited) -> Vec<Markup> {
    let planned = wording::span(held.planned.low.value(), Some(held.planned.high.value()));
    // The signs of the plots.
    let (sign, style, word) = match held.verdict {
        AgainstPlan::Over => ("▲", "behind", format!("over by {}", held.gap.value())),
        AgainstPlan::Under => ("▼", "warn", format!("under by {}", held.gap.value())),
        AgainstPlan::On => ("●", "level", "on".into()),
        AgainstPlan::Unknown => ("·", "soft", "unknown".into()),
    };
    vec![
        cell(&line.lift),
        cell(wording::date(line.at.date)),
        cell(planned),
        cell(held.done.map_or(String::new(), |done| done.value().to_string())),
        signed(sign, style, &word),
        cited.place(&line.at.place),
    ]
}

fn row_of(answer: &Answer, row: &Row, cited: &Cited) -> Vec<Markup> {
    let sums = &row.sums;
    let week = wording::block_week(row.block.as_deref(), row.week);
    let words = match efforts(&sums.efforts) {
        Some(words) => words,
        None if sums.lines == 0 => "swapped".into(),
        None if sums.skipped == sums.lines => "skipped".into(),
        None => String::new(),
    };
    let sets = format!("{}/{}", sums.sets_done, wording::span(sums.sets_planned, Some(sums.sets_most)));
    let amounts = [reps(sums), seconds(sums), metres(sums)].into_iter().filter(|amount| !amount.is_empty());
    let lines = row.lines.iter().filter_map(|at| answer.lines.get(*at));
    let places = lines.map(|line| &line.at.place);
    vec![
        below(&row.lift, if week.is_empty() { "no block" } else { &week }),
        cell(sums.percent().map_or(String::new(), |percent| percent.to_string())),
        cell(format!("{}/{}", sums.sets_reached, sums.sets_planned)),
        cell(sets),
        cell(amounts.collect::<Vec<_>>().join(", ")),
        cell(loads(&sums.loads)),
        cell(words),
        cited.places(places),
    ]
}
