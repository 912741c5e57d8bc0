//! `adherence` as text: how much of the plan was done, the rows, then what to look at, each with its place.

use super::planned_lists;
use crate::present::doc::{Column, Table};
use crate::present::places::by_page;
use crate::present::{Doc, Role, wording};
use crate::questions::adherence::{Answer, By, EffortCounts, Line, LoadCounts, Row, Sums, Total};
use crate::source::Place;
use crate::training::Distance;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, &verdict(answer), 2);
    out.wrapped(Role::Plain, &about(answer), 2);
    if answer.lines.is_empty() && answer.to_come.lines == 0 {
        let words = "Under a work line, `  - plan: 3x8 @ 120 kg RPE 6-7` says what is to be done.";
        out.wrapped(Role::Plain, words, 0);
    }
    if let Some(words) = efforts(&answer.total.efforts) {
        out.wrapped(Role::Plain, &format!("effort against the plan: {words}"), 2);
    }
    if !answer.rows.is_empty() {
        out.gap();
        let table = table(answer);
        out.table(table);
        let words = "done: planned sets done with the planned reps or more, at the planned load or heavier where one is planned";
        out.wrapped(Role::Place, words, 2);
        let mut pages = Doc::new();
        by_page(answer.lines.iter().map(where_it_stands)).iter().for_each(|place| pages.wrapped(Role::Place, place, 2));
        out.if_hidden(WHERE, pages);
    }
    let unknown = answer.total.loads.unknown;
    if unknown > 0 {
        let verb = if unknown == 1 { "has a load" } else { "have loads" };
        let words = format!(
            "{} {verb} that cannot be held against the plan's, and so count as not done",
            wording::count(unknown, "set")
        );
        out.wrapped(Role::Caution, &words, 2);
    }
    out.append(planned_lists::lists(answer));
    out
}

/// `46 of 48 planned sets done, 96 %`
pub(in crate::present) fn verdict(answer: &Answer) -> String {
    let total = &answer.total;
    match total.percent() {
        Some(percent) => format!(
            "{} of {} planned {} done, {} %",
            total.sets_reached,
            total.sets_planned,
            if total.sets_planned == 1 { "set" } else { "sets" },
            percent
        ),
        None if answer.to_come.lines > 0 => "No planned set is due yet".into(),
        None => "No planned set in that range".into(),
    }
}

/// What the answer is about, and what stands outside its figures.
pub(in crate::present) fn about(answer: &Answer) -> String {
    let days = match (answer.since, answer.until) {
        (Some(since), Some(until)) => Some(format!("from {since} to {until}")),
        (Some(since), None) => Some(format!("since {since}")),
        (None, Some(until)) => Some(format!("until {until}")),
        (None, None) => None,
    };
    let block = match (&answer.block, answer.week) {
        (Some(block), Some(week)) => Some(format!("block {block} week {week}")),
        (Some(block), None) => Some(format!("block {block} so far")),
        (None, Some(week)) => Some(format!("week {week}")),
        (None, None) => None,
    };
    let mut words = vec![match (block, days) {
        (Some(block), Some(days)) => format!("{block}, {days}"),
        (one, other) => one.or(other).unwrap_or("all that is planned up to today".into()),
    }];
    if answer.total.sets_swapped > 0 {
        words.push(wording::count(answer.total.sets_swapped, "set") + " swapped");
    }
    if answer.to_come.lines > 0 {
        let (sets, lines) = (answer.to_come.sets, answer.to_come.lines);
        words.push(format!("{} on {} to come", wording::count(sets, "set"), wording::count(lines, "line")));
    }
    words.join("; ")
}

/// Where the pages and lines stand among the columns.
const WHERE: usize = 9;

fn table(answer: &Answer) -> Table {
    let mut table = Table::new(vec![
        Column::left("week"),
        Column::left("lift").wraps(1, 12),
        Column::right("%"),
        Column::right("done"),
        Column::right("sets").spare(3),
        Column::right("reps").spare(2),
        Column::right("s or m").spare(4),
        Column::left("load").wraps(1, 9).spare(1),
        Column::left("effort").wraps(2, 11),
        Column::left("where").spare(5),
    ])
    .with_head(4);
    for row in &answer.rows {
        table.row(cells(answer, row));
    }
    table
}

fn cells(answer: &Answer, row: &Row) -> Vec<(Role, String)> {
    let sums = &row.sums;
    let week = match (&row.block, row.week, answer.by) {
        (_, _, By::Lift) => String::new(),
        (Some(_), Some(week), _) if answer.block.is_some() => week.to_string(),
        (Some(block), Some(week), _) => format!("block {block} week {week}"),
        _ => "no block".into(),
    };
    let mut cells = vec![(Role::Place, week), (Role::Answer, row.lift.clone())];
    if sums.lines > 0 {
        let share = if sums.is_whole() { Role::Level } else { Role::Behind };
        let effort = if sums.efforts.overshoots > 0 { Role::Caution } else { Role::Plain };
        let words = match efforts(&sums.efforts) {
            Some(words) => words,
            None if sums.skipped == sums.lines => "skipped".into(),
            None => String::new(),
        };
        cells.extend([
            (share, sums.percent().map_or(String::new(), |percent| percent.to_string())),
            (Role::Plain, format!("{}/{}", sums.sets_reached, sums.sets_planned)),
            (Role::Plain, format!("{}/{}", sums.sets_done, wording::span(sums.sets_planned, Some(sums.sets_most)))),
            (Role::Plain, reps(sums)),
            (Role::Plain, [seconds(sums), metres(sums)].concat()),
            (Role::Plain, loads(&sums.loads)),
            (effort, words),
        ]);
    } else {
        cells.extend((0..6).map(|_| (Role::Plain, String::new())));
        cells.push((Role::Place, "swapped".into()));
    }
    let lines = row.lines.iter().filter_map(|at| answer.lines.get(*at));
    let places = by_page(lines.map(where_it_stands));
    cells.push((Role::Place, places.join("; ")));
    cells
}

/// `15/15`, `22/16-20`: done, and planned from so many to so many.
pub(in crate::present) fn reps(sums: &Sums) -> String {
    let Total { planned, most, done } = sums.reps;
    if planned == 0 && done == 0 { String::new() } else { format!("{done}/{}", wording::span(planned, most)) }
}

pub(in crate::present) fn seconds(sums: &Sums) -> String {
    let Total { planned, most, done } = sums.seconds;
    if planned == 0 && done == 0 { String::new() } else { format!("{done}/{}s", wording::span(planned, most)) }
}

pub(in crate::present) fn metres(sums: &Sums) -> String {
    let Total { planned, most, done } = sums.metres;
    if planned.is_zero() && done.is_zero() {
        return String::new();
    }
    let planned = wording::span(planned.rounded_metres(), most.map(Distance::rounded_metres));
    format!("{}/{planned}m", done.rounded_metres())
}

/// Sets whose loads are not the planned ones.
pub(in crate::present) fn loads(counts: &LoadCounts) -> String {
    let named = [(counts.lighter, "lighter"), (counts.heavier, "heavier"), (counts.unknown, "unknown")];
    let words = named.iter().filter(|(count, _)| *count > 0).map(|(count, word)| format!("{count} {word}"));
    words.collect::<Vec<_>>().join(", ")
}

/// `on`, `3 on, 1 over by 1.5`; nothing where no effort was planned.
pub(in crate::present) fn efforts(counts: &EffortCounts) -> Option<String> {
    let kinds = [
        (counts.on, "on", None),
        (counts.under, "under", counts.farthest_under),
        (counts.over, "over", counts.farthest_over),
        (counts.unknown, "unknown", None),
    ];
    let total = counts.all();
    let words = kinds.iter().filter(|(count, ..)| *count > 0).map(|(count, word, farthest)| {
        let word = if total > 1 { format!("{count} {word}") } else { (*word).to_owned() };
        let up_to = if *count > 1 { "up to " } else { "" };
        farthest.map_or(word.clone(), |gap| format!("{word} by {up_to}{}", gap.value()))
    });
    (total > 0).then(|| words.collect::<Vec<_>>().join(", "))
}

fn where_it_stands(line: &Line) -> &Place {
    &line.at.place
}
